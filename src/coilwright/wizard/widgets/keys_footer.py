"""The keys at the bottom, made anew only where they are others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from textual.app import ComposeResult
from textual.screen import Screen
from textual.widgets import Footer

from coilwright.wizard.widgets.columns import cells

__all__ = ["KeysFooter"]

_GO_FIRST = (
    ("command_palette",), ("app.command_palette",),
    ("machines",), ("shop",), ("coils_on_hand",), ("practice",), ("bin",), ("versions",),
    ("make_practice",), ("back", "next"), ("working",), ("summary",), ("go_to",), ("undelete",),
    ("like",),
)
"""What stands in the list or on the line of steps too, or in the help, in the order in which it
goes; what goes together, as one without the other would look like all there is."""


class KeysFooter(Footer):
    """The keys that work here, as far as there is room for them.

    The screen library makes the footer anew, with a layout of the whole screen, whenever the focus
    moves. From one field to the next the keys are mostly the same, and so is the footer.
    """

    _shown: tuple[object, ...] | None = None

    def compose(self) -> ComposeResult:
        """The keys; a narrow terminal hides those that it has no room for."""
        keys = list(super().compose())
        self._show_fitting(keys)
        yield from keys

    def on_resize(self) -> None:
        """Another width may have room for more, or for less."""
        self._show_fitting(self.children)

    def _show_fitting(self, keys: Sequence[Any]) -> None:
        """Show the keys that there is room for. keys: as the screen library makes them."""
        room = self.app.size.width - sum(
            cells(f" {key.key_display} {key.description}") for key in keys)
        hidden: set[str] = set()
        for together in _GO_FIRST:
            going = [key for key in keys if key.action in together] if room < 0 else []
            hidden.update(key.action for key in going)
            room += sum(cells(f" {key.key_display} {key.description}") for key in going)
        for key in keys:
            key.display = key.action not in hidden

    def bindings_changed(self, screen: Screen[object]) -> None:
        """Called when the keys that work may be others."""
        if not (screen.app.app_focus and self.is_attached and screen is self.screen):
            super().bindings_changed(screen)
            return
        shown = tuple(
            (active.binding, active.enabled, active.tooltip)
            for active in screen.active_bindings.values()
            if active.binding.show
        )
        if shown != self._shown:
            self._shown = shown
            super().bindings_changed(screen)
