"""How a figure was worked out: equation, numbers put in, and the figures it rests on."""

from __future__ import annotations

from typing import Any

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.answers import ANSWERS
from coilwright.plan.working import plain_words, rests_on
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.formula import number_text
from coilwright.values.source import Grade
from coilwright.wizard.literal import plain, tame
from coilwright.wizard.screens.over import Over

_MOST_TERMS = 200


def put_in(figure: Figure) -> str:
    """The equation with the numbers put in; empty where nothing is put in."""
    terms = figure.terms
    if figure.formula is None or not terms:
        return ""
    return figure.formula.written_with([term.value for term in terms])


def canonical(figure: Figure) -> str:
    """The value in its canonical unit."""
    number = number_text(figure.value)
    return number if figure.unit in ("", "1") else f"{number} {figure.unit}"


class WorkingScreen(Over[str]):
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
            yield OptionList(id="working-terms", compact=True)
            yield Static("", id="working-foot", markup=False)
            yield Static("", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """Show the figure."""
        self._show()
        self.query_one(OptionList).focus()

    def _show(self, marked: int = 0) -> None:
        figure = self.figure
        trail = " ‹ ".join(tame(f.label) for f in reversed(self.path))
        mark = "  ~ rests on a guess" if figure.mark else ""
        head: list[Any] = [(trail if len(self.path) > 1 else tame(figure.label), "bold"), "\n",
                           (figure.text(self.system), "bold"), mark]
        if figure.equation:
            if (said := plain_words(figure)) and said != figure.label:
                head += [f"\n{said}"]
            head += [f"\n\n  = {figure.equation}"]
            if numbers := put_in(figure):
                head += [f"\n  = {numbers}"]
            head += [f"\n  = {canonical(figure)}"]
        self.query_one("#working-head", Static).update(Content.assemble(*head))
        rows = self.query_one(OptionList)
        terms = figure.terms
        rows.set_options(self._option(i, symbol, term) for i, (symbol, term) in enumerate(
            zip(figure.symbols, terms[:_MOST_TERMS], strict=False)))
        if len(terms) > _MOST_TERMS:
            rows.add_option(Option(Content(f"and {len(terms) - _MOST_TERMS} more like these"),
                                   disabled=True))
        rows.display = bool(terms)
        if terms:
            rows.highlighted = marked
        foot = f"source  {figure.source}"
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

    def _option(self, index: int, symbol: str, term: Figure) -> Option:
        opens = "▸" if term.terms or term.key in ANSWERS else " "
        if term.mark:
            stands = "a guess" if not term.terms else "on a guess"
        else:
            stands = "answer, sure" if term.source.grade is Grade.ANSWER else ""
        return Option(Content.assemble(
            (f"{opens} {symbol:<4}", "bold"), f"{term.mark or ' '} {term.text(self.system):<16} ",
            tame(term.label), (f"  {stands}" if stands else "", "dim"),
        ), id=str(index))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        at = int(event.option_id or 0)
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
            self.notify("This is not an answer; open it to see what it rests on.", markup=False)
