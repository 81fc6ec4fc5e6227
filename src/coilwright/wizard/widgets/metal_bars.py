"""Rows of buttons that open what saves metal, on the steps where it matters."""

from __future__ import annotations

from textual.app import ComposeResult

from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.act import Act, Bar


class WidthsBar(Block):
    """On the panel step: compare the coverage widths."""

    def compose(self) -> ComposeResult:
        """The button."""
        yield Bar(Act("Compare widths (F8)", id="compare-widths", action="screen.widths"))

    def show(self, session: Session) -> None:
        """It is always there; where no width is known yet it says what is missing."""


class RunDoneBar(Block):
    """On the summary: what is left of the run back to stock."""

    def compose(self) -> ComposeResult:
        """The button."""
        yield Bar(Act("After the run: leftovers back to stock", id="run-done",
                      action="screen.run_done"))

    def show(self, session: Session) -> None:
        """There once there is something to run."""
        self.display = bool(session.plan.coils or session.plan.from_stock)
