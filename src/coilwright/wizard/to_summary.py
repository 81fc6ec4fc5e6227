"""Back to where one was: from the summary, and on a step that is shown again. That is an answer, a
row of a list, a button.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.widget import Widget

from coilwright.job.steps import STEPS
from coilwright.wizard.context import Say

SUMMARY = "summary"


class ToSummary:
    """A screen of steps that remembers where each was left, and whence its summary was opened."""

    _left: dict[str, tuple[str | None, Widget | None]] | None = None
    """The answer that had the focus when a step was left, or what else on it had it."""
    _opened_from: tuple[str, str | None, Widget | None] = SUMMARY, None, None
    """The step, the answer that had the focus, or what else had it."""
    if TYPE_CHECKING:
        step: str

        async def go(self, step: str, key: str | None = None) -> None:
            """Show a step, and the field of an answer on it."""

        @property
        def say(self) -> Say:
            """Shows a notice."""

        def focused_place(self) -> tuple[str | None, Widget | None]:
            """The answer that has the focus; without one, what else does."""

    def leave_step(self, for_step: str) -> None:
        """Remember where the step that is shown is left."""
        if for_step == self.step:
            return
        key, widget = self.focused_place()
        on_it = widget is not None and any(around.has_class("step") for around in widget.ancestors)
        if key or on_it:
            self._left = {**(self._left or {}), self.step: (key, widget)}

    async def go_again(self, step: str) -> None:
        """Show a step where it was left; one that was not seen yet, where it begins."""
        await self._go_to(step, *(self._left or {}).get(step, (None, None)))

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
        await self._go_to(*self._opened_from)
        title = next(step.title for step in STEPS if step.key == self.step)
        self.say(f"F9 left the Summary: you are back on {title}. F9 opens it again.")

    async def _go_to(self, step: str, key: str | None, widget: Widget | None) -> None:
        await self.go(step, key)
        if widget is not None and widget.is_attached and widget.focusable:
            widget.focus()
