"""Loads on the road and in the air, each against the rating that carries it."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.drawing.safe_text import one_line
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.plan.haul.loads import LOADS_KEPT_BACK, on_hand_to_haul
from coilwright.plan.result import NOT_KNOWN
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.keys import LIFT_PLACES, lift_key
from coilwright.wizard.context import Context
from coilwright.wizard.literal import plain
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import AnswerWanted, BarButton, Block, WorkingWanted
from coilwright.wizard.widgets.columns import Column, fit, pad, set_row
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.row_words import RowKeys, Word
from coilwright.wizard.widgets.rows import KeyedRows
from coilwright.wizard.widgets.text import Hanging, Text

if TYPE_CHECKING:
    from coilwright.plan import LoadLine, Plan

_NONE = "—"
_WORDS = ("OVER", "TOO FEW", "not known", "inside as entered")
"""What is counted, the worst first."""
_ONE_ROW = 70
"""Cells from which a load stands on one line."""


class LoadRows(KeyedRows):
    """The loads; Enter opens how one was made."""

    help_line = "Enter its working · l lighter coils · g its answer"
    BINDINGS = [
        Binding("l", "screen.lighter_coils", "Lighter coils", id="loads.lighter", show=False,
                tooltip="Order no coil heavier than what lifts it takes; Ctrl+Z takes it back"),
        Binding("g", "go", "Go to its answer", id="loads.go", show=False,
                tooltip="To the answer this load waits for, or that would change it"),
    ]

    class GoToAnswer(Message):
        """To the answer of the marked load."""

    def action_go(self) -> None:
        """To the answer of the marked load."""
        self.post_message(self.GoToAnswer())


class LoadsCount(Block):
    """Above the form: how many loads are over, not known, inside; Enter goes to them."""

    DEFAULT_CSS = """
    LoadsCount > BarButton { width: 1fr; text-align: left; content-align: left middle; }
    """

    def compose(self) -> ComposeResult:
        """One line that takes the focus."""
        yield BarButton("", id="loads-count", action="screen.loads")

    def show(self, session: Session) -> None:
        """Count them."""
        self.query_one(BarButton).say(count_line(session.plan))


class LoadsBlock(Block):
    """One row a load: name, load, rating, margin, and whether it is inside, over or not known."""

    DEFAULT_CSS = """
    LoadsBlock { margin-top: 1; }
    LoadRows { height: auto; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.session: Session | None = None
        self.loads: tuple[LoadLine, ...] = ()
        self._shown: tuple[object, int] = (None, 0)

    def compose(self) -> ComposeResult:
        """Heading with words to press, columns, rows."""
        with Bar():
            yield Static(Content.styled(" Loads ", "bold"), classes="heading")
            yield Word("l lighter coils", "#load-rows", "screen.lighter_coils")
            yield Word("g its answer", "#load-rows", "go", on_row=True)
        yield Text("", id="load-heading", markup=False)
        yield LoadRows(id="load-rows", compact=True)
        yield RowKeys("", classes="none-yet", markup=False)
        yield Hanging("", id="loads-on-hand", markup=False)

    @property
    def list(self) -> LoadRows:
        """The rows."""
        return self.query_one(LoadRows)

    def show(self, session: Session) -> None:
        """Show the loads of the plan."""
        self.session = session
        plan, system = session.plan, session.job.units
        width = max(40, (self.size.width or self.screen.size.width) - 2)
        if (plan, width) == self._shown:
            return
        self._shown = (plan, width)
        self.loads = plan.loads
        rows = self.list
        rows.display = bool(self.loads)
        heading = self.query_one("#load-heading", Static)
        heading.update(plain(load_heading(width)))
        heading.display = bool(self.loads) and bool(load_heading(width))
        self.query_one(".none-yet", Static).update(
            "   Enter shows how a load was made" if self.loads else f"   {count_line(plan)}")
        on_hand = self.query_one("#loads-on-hand", Hanging)
        found = on_hand_to_haul(plan)
        on_hand.display = found is not None
        if found is not None:
            on_hand.say((("   ", ""), (found.text(system), "")), width=width)
        marked = rows.highlighted or 0
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(
                Option(Content.styled(load_text(line, system, width), "bold" if line.over else ""))
                for line in self.loads
            )
            if self.loads:
                rows.highlighted = min(marked, len(self.loads) - 1)

    def on_resize(self) -> None:
        """Have the rows fit the new width."""
        if self.session is not None:
            self.show(self.session)

    def take_focus(self) -> bool:
        """Focus the rows, where there are any."""
        if not self.loads:
            return False
        self.list.focus()
        return True

    def _marked(self) -> LoadLine | None:
        at = self.list.highlighted
        return self.loads[at] if at is not None and at < len(self.loads) else None

    @on(LoadRows.GoToAnswer)
    def _go(self, event: LoadRows.GoToAnswer) -> None:
        """To the answer the marked load waits for, or that would change it."""
        event.stop()
        self._go_to_answer_for(self._marked())

    def _go_to_answer_for(self, line: LoadLine | None) -> None:
        if line is not None and (key := leads_to(line)):
            self.post_message(AnswerWanted(key))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        """Show how the load was made; one that is not known leads to what it waits for."""
        event.stop()
        line = self._marked()
        if line is None or self.list.only_marked:
            return
        if line.load is not None:
            self.post_message(WorkingWanted(line.load))
        else:
            self._go_to_answer_for(line)


# -- in lines ---------------------------------------------------------------------------


def count_line(plan: Plan) -> str:
    """All loads in a few words: how many are over, not known, inside; or what is missing."""
    loads = plan.loads
    if plan.concealed:
        return LOADS_KEPT_BACK
    if not loads:
        return "No loads yet: they need coils, a trailer or a lift"
    words = Counter(
        line.word if line.over else "inside as entered" if line.known else "not known"
        for line in loads
    )
    said = ", ".join(f"{words[word]} {word}" for word in _WORDS if words[word])
    many = "1 load" if len(loads) == 1 else f"{len(loads)} loads"
    return f"{many}: {said}"


_COLUMNS = (Column(26, cut=True), *(Column(11, right=True),) * 3)
"""Name, load, rating, margin; a word stands behind them."""


def load_text(line: LoadLine, system: System, width: int) -> str:
    """One load: name, load, rating, margin, and a word; on two lines where there is less room.

    A blank stands first for the sign of the marked row. A load or rating that is not known
    leaves no margin, and says so.
    """
    load, rating, margin = (_text(f, system) for f in (line.load, line.rating, line.margin))
    if line.weight is not None:
        least = "" if line.place in LIFT_PLACES else "≥ "
        load = f"{least}{line.weight.text(system)}"
    name, word = one_line(line.name), line.word
    if width >= _ONE_ROW:
        if line.rating is None:
            return _row((name, load), word, width)
        if line.load is None:
            return _row((name, load, rating), _word_or_need(line), width)
        return _row((name, load, rating, margin), word, width)
    if line.rating is None:
        return f"{fit(f' {name}', width)}\n{fit(f'   {load} · {word}', width)}"
    if line.load is None:
        have = "" if line.weight is None else f"{load}; "
        second = f"   {have}{_word_or_need(line)}; rating {rating}"
        return f"{fit(f' {name}', width)}\n{fit(second, width)}"
    second = f"   {load} of {rating}, margin {margin}"
    if line.load.kind is Kind.COUNT:
        second = f"   {load} needed, {rating} there"
    return f"{pad(f' {name}', width - 9)} {word}\n{fit(second, width)}"


def load_heading(width: int) -> str:
    """The names of the columns, where a load stands on one line."""
    if width < _ONE_ROW:
        return ""
    return fit(f" {set_row(('', 'load', 'rating', 'margin'), _COLUMNS)}", width)


def _row(texts: tuple[str, ...], word: str, width: int) -> str:
    return fit(f" {set_row(texts, _COLUMNS[: len(texts)])}  {word}", width)


def leads_to(line: LoadLine) -> str:
    """The answer to look at for a load: what it waits for, else what would change it."""
    return next((key for key in (*line.needs, *line.answers) if key in ANSWERS), "")


def lighter_words(before: Plan, after: Plan) -> str:
    """What the lift's limit changed of the order."""
    system = after.job.units
    said = f"No coil heavier than {_figure(after, CoilsKey.SITE_LIFT, system)} as ordered."
    if after.coils:
        said += f" Before: {_coils(before)}; now: {_coils(after)}."
    still = [line.name for line in after.loads if line.place in LIFT_PLACES and line.over]
    if still:
        said += f" Still over: {', '.join(still)}."
    return f"{said} Ctrl+Z takes it back."


def no_lighter_words(plan: Plan) -> str:
    """Why there is no limit to hand to the coils, and what lighter coils would be wanted for."""
    road = [line.name for line in plan.loads if line.over and line.place not in LIFT_PLACES]
    said = _no_limit_words(plan)
    if road:
        said += f" The lift alone decides here; over on the road: {', '.join(road)}."
    return said


def _no_limit_words(plan: Plan) -> str:
    lifts = [line for line in plan.loads if line.place in LIFT_PLACES]
    if not lifts:
        return "First say what lifts the coils at the site or in the shop."
    limits = [lift_key(place, "coil_limit") for place in LIFT_PLACES
              if any(line.place == place for line in lifts)]
    if any(key in plan.figures for key in limits):
        return ("Nothing changed: the order is held to what the lifting gear takes, or it takes "
                "no coil.")
    because = next((lack.because for key in limits if (lack := plan.lacks.get(key)) and
                    lack.because), "")
    return f"No coil will do: {because}." if because else f"What the lift takes is {NOT_KNOWN}."


def _coils(plan: Plan) -> str:
    """How many coils, and the heaviest."""
    heaviest = max((coil.mass for coil in plan.coils), key=lambda mass: mass.value, default=None)
    if heaviest is None:
        return "no coils"
    many = "one coil of" if len(plan.coils) == 1 else f"{len(plan.coils)} coils, the heaviest"
    return f"{many} {heaviest.text(plan.job.units)}"


def _figure(plan: Plan, key: str, system: System) -> str:
    figure = plan.figures.get(key)
    return _NONE if figure is None else figure.text(system)


def _word_or_need(line: LoadLine) -> str:
    """The word; for a load that is not known, what it waits for."""
    if line.load is not None or line.rating is None:
        return line.word
    needs = [ANSWERS[key].label for key in line.needs if key in ANSWERS]
    lifts = "to lift; " if line.weight is not None and line.place in LIFT_PLACES else ""
    return f"{lifts}needs {needs[0]}" if needs else line.word


def _text(figure: Figure | None, system: System) -> str:
    return _NONE if figure is None else f"{figure.mark} {figure.text(system)}".strip()


# -- lighter coils -----------------------------------------------------------------------

_LIMIT = CoilsKey.SITE_LIFT


async def lighter_coils(context: Context) -> None:
    """Hold the order to what the gear lifts, go to the limit, and say what changed."""
    from coilwright.plan.haul import lighter_coils as edit_lift

    session = context.session
    before = session.plan
    job = edit_lift.lighter_coils(session.job, before)
    session.seal()
    if job is None or not session.change(job, "Lighter coils for the lift"):
        context.say(no_lighter_words(before), title="Lighter coils", timeout=8)
        return
    session.seal()
    context.changed()
    await context.go(_LIMIT)
    context.say(lighter_words(before, session.plan), title="Lighter coils", timeout=10)
