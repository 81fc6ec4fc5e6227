"""Ready or not and why, what to ask first, findings, figures; and sheets to save."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widgets import Button, Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.answers import ANSWERS
from coilwright.ask_first import Effect
from coilwright.figures import Level
from coilwright.guidance import words
from coilwright.wizard.literal import plain, tame
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.rows import Rows

if TYPE_CHECKING:
    from coilwright.plan import Plan

FIGURES = (
    "roof.area", "panels.count", "panels.longest", "strip.width", "strip.mass_per_length",
    "coil.count", "coil.length_ordered", "coil.mass_ordered", "coil.longest", "panel.movement",
)


class SummaryBlock(Block):
    """One list: every line can be opened."""

    @dataclass
    class Go(Message):
        """Go to an answer or a step."""

        key: str

    @dataclass
    class Open(Message):
        """Open the line of a finding (its place in the plan) or of a figure (its key)."""

        what: str
        key: str

    def __init__(self) -> None:
        super().__init__()
        self._effects: tuple[Effect, ...] | None = None
        self._for: Plan | None = None

    def compose(self) -> ComposeResult:
        """State, list."""
        yield Static("", id="state", markup=False)
        yield Rows(id="summary-rows")

    def show(self, session: Session) -> None:
        """Show the plan; what to ask first is ranked apart, see `ranked`."""
        if session.plan is not self._for:
            self._for = session.plan
            self._effects = None
        self._draw(session)

    @property
    def waits(self) -> bool:
        """Whether the ranking is still to be worked out for the plan that is shown."""
        return self._effects is None and self._for is not None and self._for.to_ask > 0

    def ranked(self, session: Session, plan: Plan, effects: tuple[Effect, ...]) -> None:
        """Show the ranking, if it is for the plan that is shown."""
        if plan is self._for:
            self._effects = effects
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
            made.append(Option(Content.assemble(*parts), id=f"{kind}:{key}"))

        places = {id(f): str(i) for i, f in enumerate(plan.findings)}
        if plan.stops:
            head("Settle before ordering")
            for finding in plan.stops:
                line("finding", places[id(finding)], ("STOP  ", "bold"), tame(finding.what))
        if plan.to_ask:
            head("Ask first" if self._effects is not None else "Ask first (ranking them …)")
            for number, (key, parts) in enumerate(self._asks(session), 1):
                line("go", key, f"{number:>2}  ", *parts)
        others = [f for f in plan.findings if f.level is not Level.STOP]
        if others:
            head("Mind")
            for finding in others:
                line("finding", places[id(finding)],
                     (f"{finding.level.value.upper():<5} ", "bold"), tame(finding.what))
        head("Figures")
        for key in FIGURES:
            figure = plan.figures.get(key)
            if figure is not None:
                line("figure", key, f"{figure.label:<32} {figure.mark or ' '} ",
                     (figure.text(plan.job.units), "bold"))
            elif (lack := plan.lacks.get(key)) is not None:
                needs = ", ".join(ANSWERS[k].label for k in lack.needs[:3] if k in ANSWERS)
                go = next((k for k in lack.needs if k in ANSWERS), "")
                line("go", f"{go or key}#{key}", f"{lack.label:<32}   ",
                     (f"needs {needs}" if needs else tame(lack.because), "dim"))
        return made

    def _asks(self, session: Session) -> list[tuple[str, list[str | tuple[str, str]]]]:
        plan = session.plan
        made: list[tuple[str, list[str | tuple[str, str]]]] = []
        seen = set()
        for effect in self._effects or ():
            seen.add(effect.key)
            said = effect.standing.value
            tried = tame(effect.tried).removeprefix(f"{said} ")
            made.append((effect.key, [
                (effect.label, "bold"), f"  {said}{' ' if tried else ''}{tried}  ",
                (tame(effect.words), "dim"), f"  · {_who(effect.who)}",
            ]))
        for key in (*plan.open_answers, *plan.guesses):
            if key in seen:
                continue
            if key in ANSWERS:
                standing = ANSWERS[key].standing(session.job).value
                made.append((key, [(ANSWERS[key].label, "bold"), f"  {standing}",
                                   f"  · {_who(words(key).who)}"]))
            else:
                made.append((key, [("A plane's measures", "bold"), "  guess  · you"]))
        return made

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        kind, _, key = (event.option_id or "").partition(":")
        if kind == "go":
            self.post_message(self.Go(key.partition("#")[0]))
        elif kind:
            self.post_message(self.Open(kind, key))

    def take_focus(self) -> bool:
        """Focus the list."""
        self.query_one(Rows).focus()
        return True


def _who(who: str) -> str:
    return "you can settle it" if who == "you" else f"ask the {who}"


def _state_words(plan: Plan) -> str:
    if plan.ready:
        return "READY: nothing is open, nothing is guessed, nothing stops the order."
    reasons = []
    if plan.stops:
        reasons.append(f"{len(plan.stops)} to stop for")
    if plan.open_answers:
        reasons.append(f"{len(plan.open_answers)} to ask")
    if plan.guesses:
        reasons.append(f"{len(plan.guesses)} guessed")
    if not plan.coils:
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
