"""Undo and redo on the screens of questions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from coilwright.wizard.undoing import QUESTION, Stepped, go_into, step_again, step_back

if TYPE_CHECKING:
    from coilwright.wizard.screens.base import Modal
    from coilwright.wizard.session import Session


class Undoes:
    """A screen over the wizard on which changes of the job are taken back."""

    session: Session
    if TYPE_CHECKING:

        def stepped(self) -> None:
            """Show the job as it is after undo or redo."""

    def on_screen_resume(self) -> None:
        """What is changed from here on is changed here."""
        go_into(self.session, QUESTION)

    def action_undo(self) -> None:
        """Take the last change back."""
        self._say(step_back(self.session))

    def action_redo(self) -> None:
        """Make the undone change again."""
        self._say(step_again(self.session))

    def _say(self, stepped: Stepped) -> None:
        cast("Modal[Any]", self).say(stepped.said)
        if stepped.done:
            self.stepped()
