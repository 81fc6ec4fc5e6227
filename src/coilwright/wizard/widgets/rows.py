"""A list of rows that lets the focus go on at its ends."""

from __future__ import annotations

from textual.widgets import OptionList


class Rows(OptionList):
    """An option list among fields: up at the first row and down at the last go on."""

    def _at_end(self, down: bool) -> bool:
        enabled = [i for i, o in enumerate(self.options) if not o.disabled]
        if not enabled or self.highlighted is None:
            return True
        return self.highlighted == (enabled[-1] if down else enabled[0])

    def action_cursor_up(self) -> None:
        """Up, or to the field above."""
        if self._at_end(down=False):
            self.screen.focus_previous()
        else:
            super().action_cursor_up()

    def action_cursor_down(self) -> None:
        """Down, or to the field below."""
        if self._at_end(down=True):
            self.screen.focus_next()
        else:
            super().action_cursor_down()
