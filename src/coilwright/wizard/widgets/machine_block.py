"""Which machine it is: pick an example, or confirm all values against the plate."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.widgets import Button, Static

from coilwright.wizard.literal import plain
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block


class MachineBlock(Block):
    """Two buttons, and a word where the machine is an invented example."""

    def compose(self) -> ComposeResult:
        """Buttons, note."""
        with Horizontal(classes="bar"):
            yield Button("Pick an example machine", id="pick-machine", compact=True,
                         action="screen.pick_machine")
            yield Button("Confirm all from the plate", id="confirm-machine", compact=True,
                         action="screen.confirm_machine")
        yield Static("", classes="machine-note", markup=False)

    def show(self, session: Session) -> None:
        """Say whether the machine is an example."""
        note = self.query_one(".machine-note", Static)
        machine = session.job.machine
        note.display = machine.invented
        note.update(plain(
            f" {machine.name or 'This machine'} is an invented example: hold every value "
            "against your plate."
        ))

    def take_focus(self) -> bool:
        """Focus the first button."""
        self.query_one("#pick-machine", Button).focus()
        return True
