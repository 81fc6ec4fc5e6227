"""The last step: ready or not, and why; what to ask first; what to send."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widgets import Button, Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.answers import ANSWERS
from coilwright.plan.ask_first import Effect
from coilwright.plan.questions import questions
from coilwright.plan.ready import ReasonKind, open_words
from coilwright.sheets.names import label, standing, who
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Headline, StepView
from coilwright.wizard.steps.summary.papers import PapersBar
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar
from coilwright.wizard.widgets.columns import left, right
from coilwright.wizard.widgets.rows import Rows

if TYPE_CHECKING:
    from coilwright.plan import Plan

FIGURES = (
    Key.ROOF_AREA,
    Key.PANELS_COUNT,
    Key.PANELS_LONGEST,
    Key.STRIP_WIDTH,
    Key.STRIP_MASS_PER_LENGTH,
    Key.COIL_COUNT,
    Key.COIL_LENGTH_ORDERED,
    Key.COIL_MASS_ORDERED,
    Key.COIL_LONGEST,
    Key.PANEL_MOVEMENT,
)


class SummaryBlock(Block):
    """One list: every line can be opened."""

    @dataclass
    class Open(Message):
        """Open a line: what it is (go, stop, finding, figure, figures, question, questions), key.

        The key is that of an answer, figure or question, or a finding's place in the plan.
        """

        what: str
        key: str

    def __init__(self) -> None:
        super().__init__()
        self._effects: tuple[Effect, ...] = ()
        self._fresh = False

    def compose(self) -> ComposeResult:
        """State, list."""
        yield Static("", id="state", markup=False)
        yield Rows(id="summary-rows")

    def show(self, session: Session) -> None:
        """Show the plan; what to ask first is ranked apart, see `ranked`."""
        self._fresh = False
        self._draw(session)

    def ranked(self, session: Session, effects: tuple[Effect, ...], fresh: bool) -> None:
        """Show the ranking; fresh: it is that of the job as it is now."""
        self._effects, self._fresh = effects, fresh
        self._draw(session)

    def _draw(self, session: Session) -> None:
        plan = session.plan
        state = self.query_one("#state", Static)
        state.update(plain(f" {_state_words(plan)}"))
        state.set_class(plan.ready, "-ready")
        rows = self.query_one(Rows)
        at = rows.highlighted
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(self._options(session))
            if at is not None and rows.option_count:
                rows.highlighted = min(at, rows.option_count - 1)
            else:
                rows.action_first()

    def _options(self, session: Session) -> list[Option]:
        plan = session.plan
        made: list[Option] = []

        def head(text: str) -> None:
            made.append(Option(Content.styled(text, "bold underline"), disabled=True))

        def line(kind: str, key: str, *parts: str | tuple[str, str]) -> None:
            # The space is for the sign of the marked row.
            made.append(Option(Content.assemble(" ", *parts), id=f"{kind}:{key}"))

        places = {id(f): str(i) for i, f in enumerate(plan.findings)}
        if plan.stops:
            head("Settle before ordering (F1 says why, and takes on what may be taken on)")
            for finding in plan.stops:
                line("stop", places[id(finding)], ("STOP  ", "bold"), escape_controls(finding.what),
                     (f" {escape_controls(finding.do)}", "dim"))
        for reason in plan.reasons:
            if reason.kind is ReasonKind.MISSING:
                line("go", "roof.planes", ("OPEN  ", "bold"), escape_controls(reason.text))
        if plan.open_answers or plan.guesses:
            head("Ask first" if self._fresh else "Ask first (ranking them …)")
            for number, (key, parts) in enumerate(self._asks(session), 1):
                line("go", key, f"{right(str(number), 2)}  ", *parts)
        self._questions(session, head, line)
        if settled := plan.readiness.settled:
            head("Taken on knowingly")
            keys = {f.key: places[id(f)] for f in plan.findings}
            for one in settled:
                kind, key = ("finding", keys[one.key]) if one.key in keys else ("question", one.key)
                line(kind, key, escape_controls(one.text))
        accepted = {s.key for s in plan.readiness.settled}
        others = [f for f in plan.findings
                  if f.level is not Level.STOP and f.key not in accepted]
        if others:
            head("Mind")
            for finding in others:
                line("finding", places[id(finding)],
                     (f"{left(finding.level.value.upper(), 5)} ", "bold"),
                     escape_controls(finding.what))
        head("Figures")
        for key in FIGURES:
            figure = plan.figures.get(key)
            if figure is not None:
                line("figure", key, f"{left(figure.label, 32)} {figure.mark or ' '} ",
                     (figure.text(plan.job.units), "bold"))
            elif (lack := plan.lacks.get(key)) is not None:
                needs = ", ".join(ANSWERS[k].label for k in lack.needs[:3] if k in ANSWERS)
                go = next((k for k in lack.needs if k in ANSWERS), "")
                line("go", f"{go or key}#{key}", f"{left(lack.label, 32)}   ",
                     (f"needs {needs}" if needs else escape_controls(lack.because), "dim"))
        line("figures", "", f"Every figure, to be found by name ({len(plan.figures)})  F6")
        return made

    def _questions(
        self, session: Session, head: Callable[[str], None], line: Callable[..., None]
    ) -> None:
        """The questions that hold the order, but those that are asked above already."""
        asked = questions(session.job, session.plan)
        left = [q for q in asked if not q.status.is_done]
        head("Questions")
        if held := open_words(session.plan.readiness):
            line("questions", "", ("HOLD  ", "bold"), f"{held}: answer them, or waive them with a "
                 "reason")
        holding = {r.key for r in session.plan.reasons if r.kind is ReasonKind.QUESTION}
        for question in left:
            if question.key in holding:
                line("question", question.key, f"{question.words.ask}",
                     (f"  · {_ask_words(question.who)}", "dim"))
        line("questions", "#all", f"All {len(asked)} questions, {len(left)} not settled yet; "
             "the question sheet is saved from there  F5")

    def _asks(self, session: Session) -> list[tuple[str, list[str | tuple[str, str]]]]:
        plan = session.plan
        made: list[tuple[str, list[str | tuple[str, str]]]] = []
        seen: set[str] = set()
        still = dict.fromkeys((*plan.open_answers, *plan.guesses))
        for effect in self._effects:
            if effect.key not in still:
                continue
            seen.add(effect.key)
            tried = f", {escape_controls(effect.tried)}" if effect.tried else ""
            said = "guess" if tried.startswith(", guess") else effect.standing.value
            made.append((effect.key, [
                (effect.label, "bold"), f"  {said}{tried.removeprefix(', guess')}  ",
                (escape_controls(effect.words), "dim"), f"  · {_ask_words(effect.who)}",
            ]))
        for key in still:
            if key in seen:
                continue
            made.append((key, [
                (escape_controls(label(session.job, key)), "bold"),
                f"  {standing(session.job, key).value}", f"  · {_ask_words(who(key))}",
            ]))
        return made

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        kind, _, key = (event.option_id or "").partition(":")
        if kind:
            self.post_message(self.Open(kind, key.partition("#")[0]))

    def take_focus(self) -> bool:
        """Focus the list."""
        self.query_one(Rows).focus()
        return True


def _ask_words(who: str) -> str:
    return "you can settle it" if who == "you" else f"ask the {who}"


def _state_words(plan: Plan) -> str:
    if plan.ready:
        if plan.readiness.nothing_to_buy:
            return "NOTHING TO BUY: all the metal is on hand, and nothing stops the job."
        return "READY: nothing is open, nothing is guessed, nothing stops the order."
    reasons = []
    if plan.stops:
        reasons.append(f"{len(plan.stops)} to stop for")
    if plan.open_answers:
        reasons.append(f"{len(plan.open_answers)} to ask")
    if plan.guesses:
        reasons.append(f"{len(plan.guesses)} guessed")
    if held := open_words(plan.readiness):
        reasons.append(held)
    if not plan.coils and not plan.from_stock:
        reasons.append("no coils can be worked out yet")
    return f"DRAFT, not an order: {', '.join(reasons)}. Enter on a line goes to it."


class SheetsBlock(Block):
    """Where sheets are saved, and the button that saves them."""

    def compose(self) -> ComposeResult:
        """Folder, button."""
        with Horizontal(classes="bar"):
            yield Static(Content(" Save sheets in "), classes="heading")
            yield Input(id="sheets-folder", compact=True)
            yield Button("Save sheets", id="save-sheets", compact=True,
                         action="screen.save_sheets")

    def show(self, session: Session) -> None:
        """Fill in the usual folder once."""
        box = self.query_one(Input)
        if not box.value:
            with self.prevent(Input.Changed):
                box.value = str(session.store.sheets_folder)


class RunDoneBar(Block):
    """What is left of the run back to stock, once there is something to run."""

    def compose(self) -> ComposeResult:
        """The button."""
        yield ButtonBar(BarButton("After the run: leftovers back to stock", id="run-done",
                                  action="screen.run_done"))

    def show(self, session: Session) -> None:
        """There once there is something to run."""
        self.display = bool(session.plan.coils or session.plan.from_stock)


def _account(plan: Plan, width: int, height: int, _plane: int) -> list[str]:
    from coilwright.drawing.bars import account_lines

    if not plan.account or width < 24 or height < 3:
        return []
    return ["Where the metal goes", *account_lines(plan, width)]


VIEW = StepView(
    "summary",
    headlines=(
        Headline(Key.COIL_COUNT, "Coils"),
        Headline(Key.COIL_LENGTH_ORDERED, "Order"),
        Headline(Key.COIL_MASS_ORDERED, "Weight"),
        Headline(Key.STRIP_WIDTH, "Strip width"),
        Headline(Key.PANELS_COUNT, "Panels"),
        Headline(Key.ROOF_AREA, "Roof"),
        Headline(Key.PANELS_LONGEST, "Longest panel"),
        Headline("coil.1.outside_diameter", "Coil 1 across"),
        Headline(Key.PANEL_MOVEMENT, "Movement"),
    ),
    drawing=_account,
    above=(SummaryBlock, PapersBar, SheetsBlock, RunDoneBar),
)
