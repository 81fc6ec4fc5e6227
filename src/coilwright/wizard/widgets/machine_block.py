"""Which machine it is: pick an example, or confirm all values against the plate."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from coilwright.wizard.literal import plain
from coilwright.wizard.machines import is_picked, to_confirm
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.act import Act, Bar


class MachineBlock(Block):
    """Two buttons, and a word on what is still to be held against the plate."""

    def compose(self) -> ComposeResult:
        """Buttons, note."""
        yield Bar(
            Act("Pick an example machine", id="pick-machine", action="screen.pick_machine"),
            Act("Confirm all from plate", id="confirm-machine",
                action="screen.confirm_machine"),
        )
        yield Static("", classes="machine-note", markup=False)

    def show(self, session: Session) -> None:
        """Offer to confirm where there is something; say whether the machine is an example."""
        job = session.job
        left = len(to_confirm(job)) if is_picked(job) else 0
        self.query_one("#confirm-machine", Act).display = left > 0
        note = self.query_one(".machine-note", Static)
        machine = job.machine
        note.display = machine.invented or left > 0
        name = machine.name or "This machine"
        if machine.invented and left:
            guesses = "one guess" if left == 1 else f"{left} guesses"
            words = f"{name} is an invented example: hold its {guesses} against your plate."
        elif machine.invented:
            words = f"{name} began as an invented example; every value is confirmed."
        else:
            words = f"{left} values are guesses: hold them against the plate."
        note.update(plain(words))

    def begins(self, session: Session) -> bool:
        """A machine nobody has said anything about begins with picking one."""
        return not is_picked(session.job)

    def take_focus(self) -> bool:
        """Focus the first button."""
        self.query_one("#pick-machine", Act).focus()
        return True
