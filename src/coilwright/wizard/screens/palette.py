"""The command palette, as keys typed ahead need it."""

from __future__ import annotations

from textual.command import CommandList, CommandPalette, SearchIcon

from coilwright.wizard.screens.base import ClosedOnce
from coilwright.wizard.widgets.rows import shows_rows


class Palette(ClosedOnce, CommandPalette):
    """Every command, step and answer."""

    def on_mount(self) -> None:
        """No picture before the search: not every font has one, nor the width it says."""
        for icon in self.query(SearchIcon):
            icon.icon = "/"

    def _action_command_list(self, action: str) -> None:
        """Pass a key on to the list, where that shows any row."""
        if shows_rows(self.query_one(CommandList)):
            super()._action_command_list(action)

    def _watch__list_visible(self) -> None:
        """Show or hide the list, unless it went while commands were still being gathered."""
        if self.query(CommandList):
            super()._watch__list_visible()
