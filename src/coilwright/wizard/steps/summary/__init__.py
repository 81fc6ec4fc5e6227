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

from coilwright.drawing.bars import account_lines, range_bar
from coilwright.job.answers import ANSWERS
from coilwright.plan.ask_first import Effect
from coilwright.plan.ready import ReasonKind, open_words
from coilwright.sheets.names import label, standing, who
from coilwright.units import Kind, show
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Headline, StepView
from coilwright.wizard.steps.summary.buying import roof_words, to_buy
from coilwright.wizard.steps.summary.papers import PapersBar
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar
from coilwright.wizard.widgets.columns import left, pad, right
from coilwright.wizard.widgets.rows import Rows
from coilwright.words import cautions
from coilwright.words.counting import counted

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


_TO_SETTLE = ("stop:", "go:", "head:", "question:")
"""What the ids of lines begin with at which there is something to settle."""


class SummaryBlock(Block):
    """One list: every line can be opened."""

    @dataclass
    class Open(Message):
        """Open a line: what it is (go, stop, head, finding, figure, figures, question, questions),
        and its key.

        The key is that of an answer, figure or question, or a finding's place in the plan.
        """

        what: str
        key: str

    def __init__(self) -> None:
        super().__init__()
        self._effects: tuple[Effect, ...] = ()
        self._fresh = False

    def compose(self) -> ComposeResult:
        """The list."""
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
        rows = self.query_one(Rows)
        at = rows.highlighted
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(self._options(session))
            if at is not None and rows.option_count:
                rows.highlighted = min(at, rows.option_count - 1)
            else:
                rows.action_first()
                # Where there is something to settle, Enter goes there.
                rows.highlighted = next(
                    (i for i, option in enumerate(rows.options)
                     if (option.id or "").startswith(_TO_SETTLE)), rows.highlighted)

    def _options(self, session: Session) -> list[Option]:
        plan = session.plan
        made: list[Option] = []

        def head(text: str) -> None:
            made.append(Option(Content.styled(text, "bold underline"), disabled=True))

        def line(kind: str, key: str, *parts: str | tuple[str, str]) -> None:
            # The space is for the sign of the marked row.
            made.append(Option(Content.assemble(" ", *parts), id=f"{kind}:{key}"))

        places = {id(f): str(i) for i, f in enumerate(plan.findings)}
        for name, key, words in to_buy(plan):
            line("figure", key, (left(name, _NAME), "dim"), (words, "bold"))
        if roof := roof_words(plan):
            line("figure", f"{Key.ROOF_AREA}#roof", (left("Roof", _NAME), "dim"), roof)
        line("held", "", (left("Held by" if not plan.ready else "State", _NAME), "dim"),
             _state_words(plan))
        if plan.stops:
            head("Stops (Enter says why, and takes on what may be taken on)")
            for finding in plan.stops:
                line("stop", places[id(finding)], ("STOP  ", "bold"), escape_controls(finding.what),
                     (f" {escape_controls(finding.do)}", "dim"))
        for reason in plan.reasons:
            if reason.kind is ReasonKind.MISSING:
                line("go", "roof.planes", ("OPEN  ", "bold"), escape_controls(reason.text))
            elif reason.kind is ReasonKind.HEAD:
                line("head", reason.key, ("OPEN  ", "bold"), escape_controls(reason.text))
        if plan.open_answers or plan.guesses:
            chart = Chart(plan, self._effects, self.query_one(Rows).size.width)
            head(chart.heading if self._fresh else "Settle first (ranking them …)")
            for number, (key, parts) in enumerate(self._asks(session, chart), 1):
                line("go", key, f"{right(str(number), 2)} ", *parts)
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
            head("Warnings and notes")
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
        width = max(_NARROWEST, self.query_one(Rows).size.width - 2)
        if account := account_lines(plan, min(width, _WIDEST)):
            head("Where the metal goes")
            for text in account:
                line("figure", f"{Key.COIL_MASS_ORDERED}#account{len(made)}", text)
        for caution in cautions("summary"):
            head(f"▲ {caution}")
        return made

    def _questions(
        self, session: Session, head: Callable[[str], None], line: Callable[..., None]
    ) -> None:
        """The questions that hold the order, but those that are asked above already."""
        asked = session.plan.questions
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

    def _asks(
        self, session: Session, chart: Chart
    ) -> list[tuple[str, list[str | tuple[str, str]]]]:
        plan = session.plan
        made: list[tuple[str, list[str | tuple[str, str]]]] = []
        seen: set[str] = set()
        still = dict.fromkeys((*plan.open_answers, *plan.guesses))
        for effect in self._effects:
            if effect.key not in still:
                continue
            seen.add(effect.key)
            made.append((effect.key, chart.row(effect)))
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


_NAME = 9
"""Cells of what stands before a line on top."""


class Chart:
    """What to settle first as rows of a chart: how far each answer moves the ordered weight.

    width: of the rows [cells].
    """

    def __init__(self, plan: Plan, effects: tuple[Effect, ...], width: int) -> None:
        self._plan = plan
        ends = [e.ends for e in effects if e.ends and e.ends[1] > e.ends[0]]
        self._scale = (min(e[0] for e in ends), max(e[1] for e in ends)) if ends else None
        self._width = width
        self._bar = max(_LEAST_BAR, width - _ROW)

    @property
    def heading(self) -> str:
        """The title of the chart, with both ends of its scale and the order as it is now."""
        title = left("Settle first", _LABEL + 5) + left("now", _VALUE + 1)
        if self._scale is None:
            return title.rstrip()
        least, most = (show(end, Kind.MASS, self._plan.job.units) for end in self._scale)
        return f"{title}{least}{right(most, self._bar - len(least))}  ask"

    def row(self, effect: Effect) -> list[str | tuple[str, str]]:
        """One answer: its name, how it stands, its range as a bar, who knows; and what it stops."""
        guess = "~ " if effect.standing is Standing.GUESS else ""
        parts: list[str | tuple[str, str]] = [
            (pad(effect.label, _LABEL), "bold"),
            f" {pad(escape_controls(guess + effect.now) or '?', _VALUE)} ",
        ]
        if self._scale is not None and effect.ends and effect.ends[1] > effect.ends[0]:
            ordered = self._plan.figures.get(Key.COIL_MASS_ORDERED)
            now = None if ordered is None else ordered.value
            parts.append((range_bar(effect.ends, now, self._scale, self._bar), "$primary"))
        else:
            said = "nothing can be ordered without it" if effect.blocks else (
                "does not move the amount")
            parts.append((pad(said, self._bar), "dim"))
        parts.append(f"  {'you' if effect.who == 'you' else effect.who}")
        if effect.stop:
            parts.append((f"\n    {escape_controls(effect.stop)}", "$error"))
        return parts


_LABEL, _VALUE, _WHO = 22, 13, 14
_ROW = _LABEL + _VALUE + _WHO + 9
"""Cells of a row of the chart beside its bar."""
_LEAST_BAR = 8
_NARROWEST, _WIDEST = 24, 76
"""Least and most cells of the account of the metal."""


def _ask_words(who: str) -> str:
    return "you can settle it" if who == "you" else f"ask the {who}"


def _state_words(plan: Plan) -> str:
    if plan.ready:
        if plan.readiness.nothing_to_buy:
            return "NOTHING TO BUY: nothing stops the job"
        return "READY: nothing is open, nothing is guessed, nothing stops the order"
    if plan.concealed:
        return "PRACTICE: what there is to find shows once it is handed in (Ctrl+R: the brief)"
    reasons = []
    if plan.stops:
        reasons.append(counted(len(plan.stops), "stop"))
    if plan.open_answers:
        reasons.append(counted(len(plan.open_answers), "open answer"))
    if plan.guesses:
        reasons.append(counted(len(plan.guesses), "guess"))
    if held := open_words(plan.readiness):
        reasons.append(held)
    if plan.readiness.count(ReasonKind.HEAD):
        reasons.append("the order head is not filled in")
    if not plan.coils and not plan.from_stock:
        reasons.append("no coils can be worked out yet")
    return " · ".join(reasons)


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
        Headline("coil.1.outside_diameter", "Coil 1 OD"),
        Headline(Key.PANEL_MOVEMENT, "Movement"),
    ),
    above=(SummaryBlock, PapersBar, SheetsBlock, RunDoneBar),
)
