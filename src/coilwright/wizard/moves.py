"""The keys that move the focus on a step: a row, a page, to either end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from textual.screen import Screen

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
