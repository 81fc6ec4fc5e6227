"""What stands beside a list of rows: words to press, a search; and what is wanted of it."""

from __future__ import annotations

from textual import events
from textual.binding import Binding
from textual.message import Message
from textual.widgets import Input

from coilwright.wizard.widgets.text import KeyWords

_DOUBLE = 2
"""The click of a chain that makes it a double one; the ones after it are meant."""


class Wanted(Message):
    """An action of the list is wanted, by a key or by a word that was pressed.

    beside: by what stands beside the list, so that the mark may not be seen. second: by the second
    click of a double click.
    """

    def __init__(self, name: str, *, beside: bool = False, second: bool = False) -> None:
        super().__init__()
        self.name = name
        self.beside = beside
        self.second = second


class RowWord(KeyWords):
    """Words that do with the mouse what a key does in the rows."""

    def __init__(self, text: str, name: str) -> None:
        super().__init__(text)
        self.action = name

    def on_click(self, event: events.Click) -> None:
        """Say what is wanted; a double click undoes one step, as it deletes one row."""
        if self.action != "undo" or event.chain != _DOUBLE:
            self.post_message(Wanted(self.action, beside=True, second=event.chain == _DOUBLE))


class FindBox(Input):
    """Where a search is typed; down goes to what was found, Escape shows all again."""

    BINDINGS = [
        Binding("down", "do('found')", "To what was found", show=False, id="find.down"),
        Binding("escape", "do('all')", "Show all", show=False, id="find.all"),
    ]

    def __init__(self, placeholder: str) -> None:
        super().__init__(placeholder=placeholder, compact=True, max_length=200,
                         classes="find-row")

    def action_do(self, name: str) -> None:
        """Say what is wanted."""
        self.post_message(Wanted(name))
