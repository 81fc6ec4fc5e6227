"""A declared list over the wizard: words to press, the rows, and what is said about the marked."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.widgets import OptionList, Static

from coilwright.wizard.lists.about_line import AboutLine
from coilwright.wizard.lists.beside import RowWord, Wanted
from coilwright.wizard.lists.carry_out import carry_out
from coilwright.wizard.lists.form import Line, ListView, Opened, Outcome
from coilwright.wizard.lists.row_list import RowList, with_keys
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import MODAL_CSS, Modal
from coilwright.wizard.undoing import go_into
from coilwright.wizard.widgets.flow import Bar

_NAMING_UNDO = ("delete", "undo", "redo")
"""Actions of which is said which key takes them back."""


class ListScreen(Modal[bool]):
    """The list. Its keys are the screen's: they work as well while what is said is read.

    changed: called after every change, so that it is written while the list is open.
    """

    CSS_PATH = [MODAL_CSS, "lists.tcss"]  # type: ignore[assignment]  # a list will do

    def __init__(self, rows: Opened, changed: Callable[[], None] | None = None) -> None:
        super().__init__(classes=f"-{rows.form.key}")
        self.rows = rows
        self.form = rows.form
        self.shown: Sequence[Line] = ()
        self._changed = changed
        self._names_undo = False
        """Whether what was said last names a key of this list that is another's below it."""

    @property
    def view(self) -> ListView:
        """What stands around the rows."""
        assert self.form.view is not None
        return self.form.view

    @property
    def list(self) -> RowList:
        """The rows."""
        return self.query_one(RowList)

    def compose(self) -> ComposeResult:
        """Title, trouble, words to press, rows, what is said."""
        with Vertical(classes="box"):
            yield Static(plain(self.view.title(self.rows)), classes="over-title")
            yield Static("", id="list-trouble", markup=False)
            with Bar():
                for action in self.form.actions:
                    if action.word and not (action.job_only and self.rows.session is None):
                        yield RowWord(action.word, action.name)
            rows = RowList(id="list-rows", compact=True)
            rows.marks_always = True  # what is read below is of that row, and keys are still its
            yield rows
            about = Static("", id="list-about", markup=False)
            yield AboutLine(about, id="list-room") if self.view.scrolls else about
            if self.view.foot is not None:
                yield Static("", id="list-foot", markup=False)
            yield Static("", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """Fill the list."""
        self.fill()
        self.list.focus()

    def on_screen_resume(self) -> None:
        """What is changed from here on is changed here."""
        go_into(self.rows.session, self.form.key)

    def on_resize(self, _event: events.Resize) -> None:
        """Have the rows fit the new width."""
        self.fill()

    @property
    def _width(self) -> int:
        return max(40, self.room - 1)

    def fill(self, mark: Hashable = None) -> None:
        """Show the list, the line of a key marked."""
        listed, rows = self.list, self.rows
        at = listed.highlighted or 0
        self.shown = rows.lines()
        listed.fill(self.form, rows, self.shown, self._width, self.form.instead(rows))
        named = next((i for i, line in enumerate(self.shown) if line.key == mark), None)
        with self.prevent(OptionList.OptionHighlighted):
            listed.highlighted = named if named is not None else min(
                at, max(0, len(self.shown) - 1))
        trouble = self.query_one("#list-trouble", Static)
        trouble.update(plain(self.view.trouble(rows)))
        trouble.display = bool(self.view.trouble(rows))
        self.query_one(".over-hint", Static).update(plain(self.view.hint(rows)))
        if self.view.foot is not None:
            self.query_one("#list-foot", Static).update(plain(self.view.foot(rows)))
        self._about()

    def _about(self) -> None:
        lines = self.view.about(self.rows, self.marked(), self._width)
        self.query_one("#list-about", Static).update(plain("\n".join(lines)))
        if self.view.scrolls:
            self.query_one("#list-room", VerticalScroll).scroll_home(animate=False)

    def marked(self) -> Line | None:
        """The marked line."""
        at = self.list.highlighted
        return self.shown[at] if at is not None and at < len(self.shown) else None

    # -- what is done ----------------------------------------------------------------------

    def action_do(self, name: str) -> None:
        """Do an action with the marked line; one that has just come is shown first, whether a key
        that is held or a click would delete it too."""
        deletes, action = name == "delete", self.form.action(name)
        if self.shown and action is not None and action.needs_mark and (
                said := self.list.just_came(deletes=deletes)):
            self.say(said)
            return
        outcome = self.rows.do(name, self.marked())
        self._names_undo = name in _NAMING_UNDO
        if deletes and outcome.changed:
            self.list.row_deleted(outcome.say)
        self._carry_out(outcome)

    def _carry_out(self, outcome: Outcome) -> None:
        carry_out(self, self.rows, outcome, lambda: self._show_changed(outcome), self._changed,
                  then=self._carry_out)

    def _show_changed(self, outcome: Outcome) -> None:
        if self._changed is not None:
            self._changed()
        self.fill(outcome.mark)

    @on(Wanted)
    def _wanted(self, event: Wanted) -> None:
        event.stop()
        self.action_do(event.name)

    def action_close(self) -> None:
        """Close; all is kept."""
        self.rows.close()
        if self._names_undo:
            self.moved_on()
        self.dismiss(True)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._about()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if not (self.list.only_marked and self.shown):
            self.action_do("open")


def list_screen(rows: Opened, changed: Callable[[], None] | None = None) -> ListScreen:
    """An open list over the wizard, with the keys that its declaration gives it."""
    return with_keys(ListScreen, rows.form.key, rows.form.actions)(rows, changed)
