"""What the wizard's actions may count on: a job, a step, a form."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.wizard.screens.small import SizedScreen
from coilwright.wizard.session import Session

if TYPE_CHECKING:
    from coilwright.wizard.widgets.field import Field
    from coilwright.wizard.widgets.form import StepForm


class JobScreen(SizedScreen):
    """A screen on one job. The wizard fills these in; its actions live in files of their own."""

    session: Session
    step: str

    @property
    def form(self) -> StepForm:
        """The form of the step that is shown."""
        raise NotImplementedError

    def focused_field(self) -> Field | None:
        """The field the focus is in."""
        raise NotImplementedError

    def changed(self, typing: Field | None = None) -> None:
        """The job changed: show it and have it written soon."""
        raise NotImplementedError

    def open_figure(self, figure: Figure) -> None:
        """Show how a figure was made."""
        raise NotImplementedError

    def open_finding(self, finding: Finding) -> None:
        """Show a finding whole."""
        raise NotImplementedError

    def sheets_folder(self) -> Path:
        """Where sheets are saved."""
        raise NotImplementedError

    def refresh_all(self, typing: Field | None = None) -> None:
        """Show the job as it is now."""
        raise NotImplementedError

    async def go(self, step: str, key: str | None = None) -> None:
        """Show a step, and the field of an answer on it."""
        raise NotImplementedError

    async def go_to_key(self, key: str) -> None:
        """Show the step that asks an answer, with the focus on it."""
        raise NotImplementedError
