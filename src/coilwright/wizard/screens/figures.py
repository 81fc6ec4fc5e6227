"""Every figure of the plan, to be found by name, and how one was worked out.

A working is the equation, the numbers put in, and the figures it rests on, which open in turn.
"""

from __future__ import annotations

from typing import Any

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.answers import ANSWERS
from coilwright.plan.result import Plan
from coilwright.plan.working import as_put_in, as_worked, plain_words, put_in, rests_on
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.source import Grade
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.widgets.columns import cells, fit, hang, left, pad
from coilwright.wizard.widgets.rows import PagedList
from coilwright.wizard.widgets.search import SearchBox
from coilwright.words.in_units import source_in

_MOST_TERMS = 200
_WIDEST_VALUE = 30
"""Cells for the values, that the names beside them stand in one column."""


class FiguresScreen(Modal[str]):
    """Type part of a name; Enter shows how the figure was made. It may return an answer."""

    BINDINGS = [
        Binding("f2", "open", "Working", show=False, id="figures.open"),
        Binding("f6", "close", "Close", show=False, id="figures.close"),
    ]

    def __init__(self, plan: Plan) -> None:
        super().__init__()
        self.plan = plan

    def compose(self) -> ComposeResult:
        """Search, list."""
        with Vertical(classes="box"):
            yield Static("Every figure, and how it was made", classes="over-title")
            rows = PagedList(compact=True, id="figures-list")
            yield SearchBox("part of its name", rows, self._show, box_id="figures-search")
            yield rows
            yield Static("Enter shows the working; ~ rests on a guess; Escape closes",
                         classes="over-hint")

    def on_mount(self) -> None:
        """Show all of them."""
        self._show("")
        self.query_one(Input).focus()

    def found(self, text: str) -> list[tuple[str, Figure]]:
        """The figures whose name, key or value holds every word typed."""
        wanted = text.casefold().split()
        return [
            (key, figure) for key, figure in self.plan.figures.items()
            if all(w in f"{figure.label} {key} {figure.text(self.plan.job.units)}".casefold()
                   for w in wanted)
        ]

    def _show(self, text: str) -> None:
        system = self.plan.job.units
        name = max(24, self.room - 32)
        rows = self.query_one(OptionList)
        rows.set_options(
            Option(Content.assemble(
                f"{pad(escape_controls(figure.label), name)} {figure.mark or ' '} ",
                (fit(figure.text(system), 26), "bold"),
            ), id=key)
            for key, figure in self.found(text)
        )
        if rows.option_count:
            rows.highlighted = 0
        else:
            nothing = (
                f"No figure is called “{escape_controls(text)}”." if self.plan.figures
                else "There is no figure yet; more answers are needed."
            )
            rows.add_option(Option(Content(nothing), disabled=True))

    def action_open(self) -> None:
        """Show the working of the marked figure."""
        self.query_one(OptionList).action_select()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        figure = self.plan.figures.get(event.option_id or "")
        if figure is not None:
            self.app.push_screen(WorkingScreen(figure, self.plan.job.units), self._go_if)

    def _go_if(self, key: str | None) -> None:
        if key:
            self.dismiss(key)


class WorkingScreen(Modal[str]):
    """A figure's working. Enter opens a term, Backspace goes back; it may return an answer."""

    BINDINGS = [
        Binding("backspace,left", "back", "Back", tooltip="To the figure before",
                id="working.back", key_display="⌫"),
        Binding("right", "forth", "Open", tooltip="Open the marked term", id="working.forth"),
        Binding("f2", "close", "Close", show=False, id="working.close"),
        Binding("g", "go", "Go to the answer", tooltip="Leave, and change this answer",
                id="working.go"),
    ]

    def __init__(self, figure: Figure, system: System) -> None:
        super().__init__()
        self.system = system
        self.path = [figure]
        self._shown_for = 0
        self._marks: list[int] = []
        """Which term was opened at each figure but the last, so that going back marks it."""

    @property
    def figure(self) -> Figure:
        """The figure that is open."""
        return self.path[-1]

    def compose(self) -> ComposeResult:
        """Head, terms, foot."""
        with Vertical(classes="box"):
            yield Static("", id="working-head", markup=False)
            yield PagedList(id="working-terms", compact=True)
            yield Static("", id="working-foot", markup=False)
            yield Static("", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """Show the figure."""
        self._show()
        self.query_one(OptionList).focus()

    def on_resize(self) -> None:
        """Have the rows fit the new width."""
        rows = self.query_one(OptionList)
        if rows.option_count and self._shown_for != self.app.size.width:
            self._show(rows.highlighted or 0)

    def _show(self, marked: int = 0) -> None:
        figure, self._shown_for = self.figure, self.app.size.width
        trail = " ‹ ".join(escape_controls(f.label) for f in reversed(self.path))
        mark = "  ~ rests on a guess" if figure.mark else ""
        name = trail if len(self.path) > 1 else escape_controls(figure.label)
        head: list[Any] = [(name, "bold"), "\n", (figure.text(self.system), "bold"), mark]
        if figure.equation:
            if (said := plain_words(figure)) and said != figure.label:
                head += [f"\n{said}"]
            head += [f"\n\n  = {figure.equation}"]
            if numbers := put_in(figure, self.system):
                head += [f"\n  = {numbers}"]
            head += [f"\n  = {as_worked(figure, self.system)}"]
        self.query_one("#working-head", Static).update(Content.assemble(*head))
        rows = self.query_one(OptionList)
        terms = figure.terms
        values = [as_put_in(term, self.system, figure) for term in terms[:_MOST_TERMS]]
        wide = min(max(map(len, values), default=0), _WIDEST_VALUE)
        rows.set_options(self._option(i, symbol, term, left(value, wide)) for i, (
            symbol, term, value) in enumerate(zip(figure.symbols, terms, values, strict=False)))
        if len(terms) > _MOST_TERMS:
            rows.add_option(Option(Content(f"and {len(terms) - _MOST_TERMS} more like these"),
                                   disabled=True))
        rows.display = bool(terms)
        rows.styles.max_height = sum(str(o.prompt).count("\n") + 1 for o in rows.options)
        if terms:
            rows.highlighted = marked
        foot = f"source  {source_in(figure.source, self.system)}"
        if figure.note:
            foot += f"\nnote    {figure.note}"
        if figure.formula is not None and (guesses := rests_on(figure)):
            foot += f"\nguesses {', '.join(guesses)}"
        self.query_one("#working-foot", Static).update(plain(foot))
        hints = ["Enter or → opens a term"] if terms else []
        if figure.key in ANSWERS:
            hints.append("g goes to this answer")
        if len(self.path) > 1:
            hints.append("← goes back")
        self.query_one(".over-hint", Static).update(", ".join([*hints, "Escape closes"]))

    def _option(self, index: int, symbol: str, term: Figure, value: str) -> Option:
        opens = "▸" if term.terms or term.key in ANSWERS else " "
        if term.mark:
            stands = "a guess" if not term.terms else "on a guess"
        else:
            stands = "answer, sure" if term.source.grade is Grade.ANSWER else ""
        said = ((f"{opens} {left(symbol, 4)}", "bold"), (f" {term.mark or ' '} {value}  ", ""),
                (escape_controls(term.label), ""), (f"  {stands}" if stands else "", "dim"))
        # Inside the box and its edges, and beside the bar of a long list.
        room = self.room - 3
        return Option(hang(said, room, 11 + cells(value)), id=str(index))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        at = int(event.option_id or 0)
        if at >= len(self.figure.terms):
            return  # pressed twice at once: the figure it stood under is left already
        self.path.append(self.figure.terms[at])
        self._marks.append(at)
        self._show()
        if not self.figure.terms:
            self.set_focus(None)

    def action_back(self) -> None:
        """To the figure before; from the first, close."""
        if len(self.path) == 1:
            self.dismiss(None)
            return
        self.path.pop()
        self._show(self._marks.pop())
        self.query_one(OptionList).focus()

    def action_forth(self) -> None:
        """Open the marked term."""
        if self.figure.terms:
            self.query_one(OptionList).action_select()

    def action_go(self) -> None:
        """Leave for the answer that is open or marked."""
        key = self.figure.key
        if key not in ANSWERS:
            at = self.query_one(OptionList).highlighted
            terms = self.figure.terms
            key = terms[at].key if at is not None and at < len(terms) else ""
        if key in ANSWERS:
            self.dismiss(key)
        else:
            self.say("This is not an answer; open it to see what it rests on.")
