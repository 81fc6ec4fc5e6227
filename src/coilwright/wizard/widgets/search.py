"""The box of a list with a search: it keeps the focus while its keys move in the list."""

from __future__ import annotations

from collections.abc import Callable

from textual import on
from textual.binding import Binding
from textual.widgets import Input

from coilwright.wizard.widgets.rows import PagedList


class SearchBox(Input):
    """Type part of a name; up, down and the page keys move in the list, Enter selects its row.

    found: the list that shows what is found. show: shows what a text finds. box_id: the id of the
    box.
    """

    BINDINGS = [
        Binding("down", "cursor(1)", "Down", show=False, id="search.down"),
        Binding("up", "cursor(-1)", "Up", show=False, id="search.up"),
        Binding("pagedown", "page(1)", "Page down", show=False, id="search.page-down"),
        Binding("pageup", "page(-1)", "Page up", show=False, id="search.page-up"),
    ]

    def __init__(
        self, placeholder: str, found: PagedList, show: Callable[[str], None], *, box_id: str
    ) -> None:
        super().__init__(placeholder=placeholder, compact=True, id=box_id)
        self._found, self._show = found, show

    def action_cursor(self, by: int) -> None:
        """The row below or above."""
        if by > 0:
            self._found.action_cursor_down()
        else:
            self._found.action_cursor_up()

    def action_page(self, by: int) -> None:
        """A page of the list on or back."""
        if by > 0:
            self._found.action_page_down()
        else:
            self._found.action_page_up()

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        self._show(event.value)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self._found.action_select()
