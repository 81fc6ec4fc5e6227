"""The keys that move the focus on a step: a row, a page, to either end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from textual import events
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Input

from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.moving import focus_end, move_focus, scroll_with_focus

if TYPE_CHECKING:
    from coilwright.wizard.controllers import Controllers
    from coilwright.wizard.widgets.form import StepForm


class Moves:
    """A screen with the form of a step on which these keys move."""

    if TYPE_CHECKING:
        step: str
        controllers: Controllers

        @property
        def form(self) -> StepForm:
            """The form of the step that is shown."""

    _told_on: Widget | None = None
    """The row on which it was told that it takes no text, while that has the focus."""

    def on_descendant_focus(self, _event: events.DescendantFocus) -> None:
        """Nothing was typed on this row yet."""
        self._told_on = None

    def on_key(self, event: events.Key) -> None:
        """What is typed on a row that takes no text is told, once: most likely it is for a box."""
        screen, typed = cast("Screen[Any]", self), event.character or ""
        here = screen.focused
        if (not typed.strip() or not typed.isprintable() or here is None or here is self._told_on
                or isinstance(here, Input) or event.key in screen.active_bindings):
            return
        self._told_on = here
        screen.notify(f"“{escape_controls(typed)}” changes nothing: this row takes no text. "
                      "↑ ↓ go to the boxes.", markup=False)

    def action_move(self, by: int) -> None:
        """To the row above or below; a row of buttons is passed as one."""
        move_focus(cast("Screen[Any]", self), by)

    def action_page(self, by: int) -> None:
        """Scroll the form a page."""
        scroll_with_focus(self.form, by)

    def action_page_end(self, by: int) -> None:
        """To the first row of the form, or to the last; the summary has its own."""
        if self.step == "summary":
            self.controllers.to_page_end(by)
        else:
            focus_end(self.form, by)
