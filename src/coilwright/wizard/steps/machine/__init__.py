"""The Machine step: what the roll former can form, hold and carry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.widgets import Static

from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.units import System
from coilwright.values.keys import Key
from coilwright.wizard.literal import plain
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.steps.machine.machines import is_picked, to_confirm
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar, TextBlock
from coilwright.wizard.widgets.columns import Column, set_row
from coilwright.wizard.widgets.text import Text

if TYPE_CHECKING:
    from coilwright.plan import Fit

_NAME, _VALUE, _LIMITS = Column(22, cut=True), Column(13, cut=True), Column(22, cut=True)
_WORD = Column(0)


class MachineBlock(Block):
    """Two buttons, and a word on what is still to be held against the plate."""

    def compose(self) -> ComposeResult:
        """Buttons, note."""
        yield ButtonBar(
            BarButton("Pick a machine", id="pick-machine", action="screen.pick_machine"),
            BarButton("Confirm all", id="confirm-machine",
                action="screen.confirm_machine"),
            BarButton("Keep in shop", id="save-machine", action="screen.keep_machine"),
        )
        yield Text("", classes="machine-note", markup=False)

    def show(self, session: Session) -> None:
        """Offer to confirm where there is something; say whether the machine is an example."""
        job = session.job
        guesses = to_confirm(job) if is_picked(job) else ()
        left = len(guesses)
        self.query_one("#confirm-machine", BarButton).display = left > 0
        self.query_one("#save-machine", BarButton).display = is_picked(job)
        note = self.query_one(".machine-note", Static)
        machine = job.machine
        note.display = machine.invented or left > 0
        name = machine.name or "This machine"
        if machine.invented and left:
            said = "one guess" if left == 1 else f"{left} guesses"
            held = sum(1 for key in guesses if key in session.plan.guesses)
            waits = "" if held in (0, left) else f" The order waits for {held} of them."
            words = f"{name} is an invented example: hold its {said} against your plate.{waits}"
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
        self.query_one("#pick-machine", BarButton).focus()
        return True


class FitsBlock(TextBlock):
    """Every size of the job held to the machine: what, how much, the limits, fits or not."""

    def __init__(self) -> None:
        super().__init__("Does it fit the machine?", _lines)


def _lines(session: Session, width: int) -> list[str]:
    """A line a limit where there is room, else two."""
    system = session.job.units
    return [line for fit in session.plan.fits for line in fit_lines(fit, system, width)]


def fit_lines(fit: Fit, system: System, width: int) -> list[str]:
    """One limit in words."""
    if fit.too_little:
        word = "TOO LITTLE"
    elif fit.too_much:
        word = "TOO MUCH"
    elif not fit.known:
        word = "limit not known"
    else:
        word = "fits"
    least = fit.least.text(system) if fit.least else ""
    most = fit.most.text(system) if fit.most else ""
    if least and most:
        limits = f"{least} to {most}"
    elif most:
        limits = f"at most {most}"
    elif least:
        limits = f"at least {least}"
    else:
        limits = "—"
    value = f"{fit.value.mark or ' '} {fit.value.text(system)}"
    if width < 70:
        below = [f"  {limits}"] if least or most else []
        return [set_row((fit.name, value, word), (_NAME, _VALUE, _WORD)), *below]
    return [set_row((fit.name, value, limits, word), (_NAME, _VALUE, _LIMITS, _WORD))]


VIEW = StepView(
    "machine",
    groups=(
        Group("", (
            MachineKey.NAME, MachineKey.THINNEST, MachineKey.THICKEST, MachineKey.NARROWEST_STRIP,
            MachineKey.WIDEST_STRIP,
        )),
        Group("Where the coil sits", (
            MachineKey.ARBORS, MachineKey.ARBOR_LOAD, MachineKey.RACK_LOAD,
            MachineKey.RACK_DIAMETER, MachineKey.SMALLEST_COIL_ID, MachineKey.LARGEST_COIL_ID,
            MachineKey.DECOILER_LOAD, MachineKey.DECOILER_DIAMETER,
            MachineKey.DECOILER_SMALLEST_COIL_ID, MachineKey.DECOILER_LARGEST_COIL_ID,
        )),
        Group("Running", (
            # The machine says it, so it is asked where that is known.
            MetalKey.PAINTED_SIDE, MachineKey.THREAD_UP, MachineKey.TAIL,
            MachineKey.SHORTEST_PANEL, MachineKey.SPEED, MachineKey.WEIGHT,
        )),
    ),
    headlines=(
        Headline(Key.STRIP_WIDTH, "Strip width"),
        Headline("coil.1.mass", "Coil 1 weight"),
        Headline("coil.1.outside_diameter", "Coil 1 diameter"),
        Headline(Key.COIL_LONGEST, "Longest that fits"),
        Headline(Key.COIL_HEAVIEST, "Heaviest by tolerance",
                 instead=(Key.COIL_CAME, "Heaviest that came")),
        Headline(Key.COIL_COUNT, "Coils to order"),
    ),
    above=(MachineBlock,),
    below=(FitsBlock,),
)
