"""A box at the foot of the screen, while what lies below is read above it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol, runtime_checkable

from textual.binding import Binding
from textual.screen import Screen

READ_BELOW = (
    Binding("pageup", "read_below(-6)", "Read back", show=False, id="beside.back"),
    Binding("pagedown", "read_below(6)", "Read on", show=False, id="beside.on"),
)
READS = "PgUp PgDn read above"

if TYPE_CHECKING:
    _AnyScreen = Screen[Any]
else:
    _AnyScreen = object


@runtime_checkable
class Read(Protocol):
    """A screen with something to read that scrolls."""

    def action_scroll(self, lines: int) -> None:
        """Scroll it."""


class ReadsBelow(_AnyScreen):
    """For dialogs that open beside what is read: with the class -beside it is not dimmed."""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing is read below a box that opens over all."""
        if action == "read_below":
            return self.has_class("-beside")
        return super().check_action(action, parameters)

    def action_read_below(self, lines: int) -> None:
        """Scroll what is read on the screen below; without any, nothing."""
        if self.has_class("-beside") and isinstance(below := self.app.screen_stack[-2], Read):
            below.action_scroll(lines)
