"""To the summary, and back to where one was: an answer, a row of a list, a button."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.widget import Widget

SUMMARY = "summary"


class ToSummary:
    """A screen of steps that remembers from where its summary was opened."""

    _opened_from: tuple[str, str | None, Widget | None] = SUMMARY, None, None
    """The step, the answer that had the focus, or what else had it."""
    if TYPE_CHECKING:
        step: str

        async def go(self, step: str, key: str | None = None) -> None:
            """Show a step, and the field of an answer on it."""

        def focused_place(self) -> tuple[str | None, Widget | None]:
            """The answer that has the focus; without one, what else does."""

    @property
    def leads_back(self) -> bool:
        """Whether the summary was opened from another step."""
        return self._opened_from[0] != SUMMARY

    async def action_summary(self) -> None:
        """To the summary."""
        self._opened_from = self.step, *self.focused_place()
        await self.go(SUMMARY)

    async def action_where_i_was(self) -> None:
        """From the summary back to where it was opened; a list kept its marked row."""
        step, key, widget = self._opened_from
        await self.go(step, key)
        if widget is not None and widget.is_attached and widget.focusable:
            widget.focus()
