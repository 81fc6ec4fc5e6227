"""The keys at the bottom, made anew only where they are others."""

from __future__ import annotations

from textual.screen import Screen
from textual.widgets import Footer

__all__ = ["KeysFooter"]


class KeysFooter(Footer):
    """The keys that work here.

    The screen library makes the footer anew, with a layout of the whole screen, whenever the focus
    moves. From one field to the next the keys are mostly the same, and so is the footer.
    """

    _shown: tuple[object, ...] | None = None

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
