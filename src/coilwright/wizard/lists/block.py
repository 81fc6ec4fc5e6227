"""A declared list on a step: words to press, a search, the rows, and what follows from them."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import Any

from textual import events, on
from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static

from coilwright.wizard.lists.beside import FindBox, RowWord, Wanted
from coilwright.wizard.lists.form import Line, Outcome, RowForm, Screens
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.row_list import RowList, with_keys
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import Block, Passage
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.rows import SHOWN_FIRST
from coilwright.wizard.widgets.text import Text


class RowsBlock(Block):
    """Rows to add, open, change and find. What its actions come to is reported to the screen."""

    class Reported(Message):
        """An action was done; the screen carries out what came of it."""

        def __init__(self, block: RowsBlock, rows: JobRows, outcome: Outcome) -> None:
            super().__init__()
            self.block = block
            self.rows = rows
            self.outcome = outcome

    def __init__(self, form: RowForm[Any], screens: Screens | None = None) -> None:
        super().__init__(id=f"{form.key}-block", classes="rows-block")
        self.form = form
        self._screens = screens
        self.rows: JobRows | None = None
        self.shown: tuple[Line, ...] = ()
        """The lines the search finds; all of them where nothing is searched."""
        self._all = 0
        self._mark: Hashable = None
        self._filled: object = None
        self._only_shown = False
        """Whether what was wanted last beside the rows only showed which row is meant."""
        self._came = 0
        """The number of the plane that was drawn when the focus came to the rows."""

    def compose(self) -> ComposeResult:
        """Heading with words, the search, the rows, what follows from them.

        Beside the figures of a wide terminal the form is narrower, and the words of one row stand
        in two.
        """
        form = self.form
        words = {action.name: action.word for action in form.actions}
        for row in form.bars:
            with Bar(classes="bars"):
                for at, half in enumerate(row):
                    with Bar():
                        if row is form.bars[0] and at == 0:
                            yield Text("", classes="heading row-count", markup=False)
                        for name in half:
                            yield RowWord(words[name], name)
        if form.find is not None:
            yield FindBox(form.find_hint)
        if form.columns is not None:
            yield Text("", classes="columns", markup=False)
        listed = with_keys(RowList, form.key, form.actions)(id=f"{form.key}-rows", compact=True)
        yield listed
        if form.below is not None:
            yield Static(Content.styled(f" {form.below_title}", "bold"),
                         classes="heading below-title")
            yield Passage("", classes="lines below-rows", markup=False)

    def on_mount(self) -> None:
        """The search comes when it is asked for."""
        self._show_find(False)

    @property
    def list(self) -> RowList:
        """The rows."""
        return self.query_one(RowList)

    @property
    def find_box(self) -> FindBox | None:
        """Where a search is typed, if the list can be searched."""
        return next(iter(self.query(FindBox)), None)

    # -- showing ---------------------------------------------------------------------------

    def show(self, session: Session) -> None:
        """Show the rows, the marked one marked."""
        if self.rows is None or self.rows.session is not session:
            self.rows = self.open(session)
        form, searched = self.form, self._searched_text()
        marked = self.marked()
        every = tuple(self.rows.lines())
        self.shown = every if form.find is None else tuple(form.find(every, searched))
        self._all = len(every)
        self.query_one(".row-count", Static).update(
            Content.styled(form.heading(len(self.shown), self._all), "bold"))
        width = max(40, (self.size.width or self.screen.size.width) - 3)
        state = (session.plan, width, searched)
        if state != self._filled:
            self._filled = state
            self._fill(width, None if marked is None else marked.key)
        self._mark_line(session)

    def open(self, session: Session) -> JobRows:
        """The rows of a job, opened."""
        return JobRows(self.form, session, self._screens)

    def _fill(self, width: int, marked: Hashable) -> None:
        """Fill in the rows; marked: the key of the line that was, which the mark follows."""
        assert self.rows is not None
        form, listed = self.form, self.list
        at = next((i for i, line in enumerate(self.shown) if line.key == marked),
                  listed.highlighted or 0)
        lost = bool(self._searched_text()) and not self.shown
        listed.fill(form, self.rows, self.shown, width,
                    form.nothing_found if lost else form.instead(self.rows))
        with self.prevent(OptionList.OptionHighlighted):
            listed.highlighted = min(at, max(0, len(self.shown) - 1))
        listed.take_height(form.tallest)
        if form.columns is not None:
            heads = self.query_one(".columns", Text)
            heads.display = bool(self.shown)
            heads.update(Content.styled(f" {form.columns(width)}", "dim"))
        if form.find is not None and self._has_focus_here:
            # What stands below may be higher or lower now.
            self.call_after_refresh(self.scroll_visible, animate=False)
        if form.below is not None:
            lines = form.below(self.rows.session, width)
            self.query_one(".below-title").display = bool(lines)
            below = self.query_one(".below-rows", Passage)
            below.display = bool(lines)
            below.update(Content("\n".join(f" {line}" for line in lines)))

    def _mark_line(self, session: Session) -> None:
        """Mark the line that is meant; where a line is drawn, the one that is."""
        draws = self.form.draws
        at = None
        if self._mark is not None:
            at = next((i for i, line in enumerate(self.shown) if line.key == self._mark), None)
            self._mark = None
            if at is not None and draws is not None:
                session.chosen_plane = draws(self.shown[at])
        elif draws is not None:
            at = next((i for i, line in enumerate(self.shown)
                       if draws(line) == session.chosen_plane), None)
        if at is not None:
            if at != self.list.highlighted:
                with self.prevent(OptionList.OptionHighlighted):
                    self.list.highlighted = at
        elif draws is not None and (line := self.marked()) is not None:
            session.chosen_plane = draws(line)

    def on_resize(self) -> None:
        """Have the rows fit the new width."""
        if self.rows is not None:
            self.show(self.rows.session)

    def take_focus(self) -> bool:
        """Focus the rows."""
        self.list.focus()
        return True

    def focus_row(self, key: str) -> bool:
        """Focus the rows, on the one that is meant."""
        assert self.form.place is not None
        number = key.removeprefix(self.form.place.key)
        if number.isdecimal() and self.rows is not None:
            self._mark = int(number)
            self.show(self.rows.session)
        return self.take_focus()

    def marked(self) -> Line | None:
        """The marked line."""
        at = self.list.highlighted
        return self.shown[at] if at is not None and at < len(self.shown) else None

    # -- finding ---------------------------------------------------------------------------

    def _searched_text(self) -> str:
        box = self.find_box
        return "" if box is None else box.value.strip()

    def _show_find(self, shown: bool) -> None:
        self.list.asleep = frozenset() if shown else frozenset({"all"})
        if (box := self.find_box) is not None:
            box.display = shown

    def _find(self) -> None:
        if (box := self.find_box) is not None:
            self._show_find(True)
            box.focus()
            self.call_after_refresh(self.scroll_visible, animate=False)

    def _show_all(self) -> None:
        """End the search; the marked line stays marked."""
        if (box := self.find_box) is not None:
            box.value = ""
            self._show_find(False)
        self.list.focus()

    @on(Input.Changed)
    def _searched(self, event: Input.Changed) -> None:
        event.stop()
        if self.rows is not None:
            self.show(self.rows.session)
            if self.marked() is not None:
                self._draw_marked()

    @on(Input.Submitted)
    def _search_done(self, event: Input.Submitted) -> None:
        event.stop()
        if self.shown:
            self.list.focus()

    # -- what is done ----------------------------------------------------------------------

    @on(Wanted)
    def _wanted(self, event: Wanted) -> None:
        event.stop()
        # A key that is held, or struck twice, deletes one row, as two clicks do.
        if event.second and self._only_shown:
            return  # a double click is as one: that one showed which row is meant
        if event.beside or event.name == "delete":
            self._do_beside(event.name)
        else:
            self.do(event.name)

    def take_key(self, key: str) -> bool:
        """Do what a key does in the rows; whether it does anything."""
        name = next((one.name for one in self.form.actions if key in one.keys.split(",")), None)
        if name is not None:
            self._do_beside(name)
        return name is not None

    def _do_beside(self, name: str) -> None:
        """Do what was wanted beside the list; what is done to a row, only if its mark is seen."""
        action, listed = self.form.action(name), self.list
        said = ""
        if action is not None and action.needs_mark and self.shown:
            said = listed.just_came(deletes=name == "delete") or (
                "" if listed.has_focus else SHOWN_FIRST)
        self._only_shown = bool(said)
        if said:
            listed.focus()
            # What is said goes as the focus does: that comes first.
            self.call_after_refresh(self.report, Outcome(say=said))
        else:
            self.do(name)

    def do(self, name: str) -> None:
        """Do an action with the marked line, and report what came of it."""
        if name == "find":
            self._find()
        elif name == "all":
            self._show_all()
        elif name == "found":
            self.list.focus()
        elif self.rows is not None:
            outcome = self.rows.do(name, self.marked())
            if name == "delete" and outcome.changed:
                self.list.row_deleted(outcome.say)
            self.report(outcome)

    def report(self, outcome: Outcome) -> None:
        """Have the screen carry out what came of an action, or of a screen that closed."""
        assert self.rows is not None
        if outcome.mark is not None:
            self._mark = outcome.mark
        if outcome.begun and (box := self.find_box) is not None:
            box.value = ""
        self.post_message(self.Reported(self, self.rows, outcome))

    def _draw_marked(self) -> None:
        line, draws = self.marked(), self.form.draws
        if line is not None and draws is not None and self.rows is not None:
            self.rows.session.chosen_plane = draws(line)
            self.report(Outcome(redraw=True))

    def on_descendant_focus(self) -> None:
        """What is drawn changes with the mark from here on."""
        if self.rows is not None:
            self._came = self.rows.session.chosen_plane

    def on_key(self, event: events.Key) -> None:
        """A key that is none of the list's leads elsewhere: what was asked is not asked any more.
        """
        if self.rows is not None and not any(
                event.key in one.keys.split(",") for one in self.form.actions):
            self.rows.asked_about = None

    def on_descendant_blur(self) -> None:
        """A plane whose row was marked is meant, but where the arrows only passed its row. What
        was asked before somebody went elsewhere is not asked any more."""
        if self.rows is not None:
            self.rows.asked_about = None
        if self.rows is not None and self.form.draws is not None and not self.list.passed \
                and self._came != (number := self.rows.session.chosen_plane):
            self.rows.session.choose_plane(number)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._draw_marked()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        line = self.marked()
        if line is None and not self._all:
            self.do("open")
        elif line is not None and not self.list.only_marked:
            self.do("open" if line.index is not None or not self.form.enter else self.form.enter)

    def holds(self, key: str) -> bool:
        """Whether a key is that of a row here, or of one of its measures."""
        return self.form.place is not None and f"{key}.".startswith(self.form.place.key)

    @property
    def _has_focus_here(self) -> bool:
        """Whether the focus is in the rows or in the search."""
        return any(widget.has_focus for widget in self._places())

    def _places(self) -> Sequence[Widget]:
        return [self.list, *self.query(FindBox)]
