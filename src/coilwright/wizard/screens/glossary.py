"""The words of the trade: all of them with a search, those of one text, and one by itself."""

from __future__ import annotations

from typing import Any

from textual import on
from textual.app import App, ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.units import System
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.widgets.columns import fit, pad
from coilwright.wizard.widgets.rows import PagedList
from coilwright.wizard.widgets.search import SearchBox
from coilwright.wizard.widgets.text import KeysLine
from coilwright.words.glossary import Term, glossary, term, terms_in
from coilwright.words.in_units import source_in, with_units

_NAME = 22


def system_below(app: App[Any]) -> System:
    """The units of the job that is open below; the US ones where none is."""
    sessions = (getattr(screen, "session", None) for screen in reversed(app.screen_stack))
    return next((one.job.units for one in sessions if one is not None), System.US)


def term_options(terms: tuple[Term, ...], width: int, system: System) -> list[Option]:
    """A row for each term: its name, and the start of what it means."""
    return [
        Option(Content.assemble(
            (f"{pad(one.name, _NAME)} ", "bold"),
            (fit(with_units(one.says, system), max(10, width - _NAME - 1)), ""),
        ), id=one.name)
        for one in terms
    ]


class TermScreen(Modal[None]):
    """One term; the terms in its meaning open in turn, and Backspace goes back."""

    BINDINGS = [
        Binding("backspace,left", "back", "Back", tooltip="To the word before", id="term.back"),
        Binding("right", "open", "Open", show=False, id="term.open"),
        Binding("f1", "close", "Close", show=False, id="term.close"),
    ]

    def __init__(self, name: str) -> None:
        super().__init__()
        self.path = [term(name)]

    def compose(self) -> ComposeResult:
        """Name, meaning, terms in it, hint."""
        with Vertical(classes="box narrow-box"):
            yield Static("", id="term-name", classes="over-title", markup=False)
            yield Static("", id="term-says", classes="part", markup=False)
            yield PagedList(id="term-list", compact=True)
            yield KeysLine("", id="term-hint", markup=False)

    def on_mount(self) -> None:
        """Show the term."""
        self._show()

    def _show(self, mark: str = "") -> None:
        one, system = self.path[-1], system_below(self.app)
        self.query_one("#term-name", Static).update(plain(one.name))
        said = with_units(one.says, system)
        said += f"\nSource: {source_in(one.source, system)}" if one.source else ""
        also = f"\nAlso: {', '.join(one.also)}" if one.also else ""
        self.query_one("#term-says", Static).update(plain(said + also))
        inside = tuple(t for t in terms_in(one.says) if t.name != one.name)
        rows = self.query_one(OptionList)
        rows.set_options(term_options(inside, 54, system))
        rows.display = bool(inside)
        if inside:
            names = [t.name for t in inside]
            rows.highlighted = names.index(mark) if mark in names else 0
            rows.focus()
        else:
            self.set_focus(None)
        hints = ["Enter opens a word"] if inside else []
        if len(self.path) > 1:
            hints.append("Backspace goes back")
        self.query_one("#term-hint", KeysLine).update(", ".join([*hints, "Escape closes"]))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.path.append(term(event.option_id or ""))
        self._show()

    def action_open(self) -> None:
        """Open the marked term."""
        rows = self.query_one(OptionList)
        if rows.display:
            rows.action_select()

    def action_back(self) -> None:
        """To the term before; from the first, close."""
        if len(self.path) == 1:
            self.dismiss(None)
        else:
            self._show(self.path.pop().name)


class TermsScreen(Modal[None]):
    """The terms found in a text; without any it says so."""

    BINDINGS = [Binding("f1", "close", "Close", show=False, id="terms.close")]

    def __init__(self, title: str, text: str) -> None:
        super().__init__()
        self._title = title
        self.terms = terms_in(text)

    def compose(self) -> ComposeResult:
        """Title, terms, hint."""
        with Vertical(classes="box"):
            yield Static(plain(self._title), classes="over-title")
            if self.terms:
                yield PagedList(*term_options(self.terms, self.room - 2, system_below(self.app)),
                                 compact=True)
            else:
                yield Static("There is no word of the trade in it.", classes="part")
            yield Static("Enter opens a word, Escape closes", classes="over-hint")

    def on_mount(self) -> None:
        """Mark the first."""
        for rows in self.query(OptionList).results(OptionList):
            rows.highlighted = 0
            rows.focus()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.app.push_screen(TermScreen(event.option_id or ""))


class GlossaryScreen(Modal[None]):
    """Every term; what is typed finds it by name, and then by what it means."""

    BINDINGS = [
        Binding("f7", "close", "Close", show=False, id="glossary.close"),
    ]

    def compose(self) -> ComposeResult:
        """Search, list, meaning of the marked one."""
        with Vertical(classes="box"):
            yield Static("The words of the trade", classes="over-title")
            rows = PagedList(compact=True, id="glossary-list")
            yield SearchBox("part of a word", rows, self._show, box_id="glossary-search")
            yield rows
            with VerticalScroll(can_focus=False, id="glossary-about"):
                yield Static("", id="glossary-says", markup=False)
            yield Static("Enter opens it, Escape closes", classes="over-hint")

    def on_mount(self) -> None:
        """Show all of them."""
        self._show("")
        self.query_one(Input).focus()

    def _found(self, text: str) -> tuple[Term, ...]:
        """Names that begin so, then names and spellings with it, then meanings with it."""
        wanted = " ".join(text.casefold().split())

        def place(one: Term) -> int:
            name = one.name.casefold()
            if name.startswith(wanted):
                return 0
            if any(wanted in form.casefold() for form in (name, *one.also)):
                return 1
            return 2 if wanted in one.says.casefold() else 3

        everything = sorted(glossary().terms.values(), key=lambda t: t.name.casefold())
        return tuple(t for t in sorted(everything, key=place) if place(t) < 3)

    def _show(self, text: str) -> None:
        found = self._found(text)
        rows = self.query_one(OptionList)
        rows.set_options(term_options(found, self.room - 2, system_below(self.app)))
        if found:
            rows.highlighted = 0
        else:
            self.query_one("#glossary-says", Static).update(
                plain(f"No word like “{text}” is explained here.")
            )

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        one = term(event.option_id or "")
        also = f"  (also: {', '.join(one.also)})" if one.also else ""
        self.query_one("#glossary-says", Static).update(
            Content.assemble((one.name, "bold"), also, "\n",
                             escape_controls(with_units(one.says, system_below(self.app))))
        )

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.app.push_screen(TermScreen(event.option_id or ""))
