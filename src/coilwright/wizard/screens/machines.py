"""The example machines: what each holds and forms."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.machine import Machine
from coilwright.units import System
from coilwright.wizard.literal import plain, tame
from coilwright.wizard.machines import about_machine
from coilwright.wizard.screens.over import Over


def shipped_machines() -> dict[str, Machine]:
    """The machines that come with the program. Raises StoreError."""
    from coilwright.shipped import machines

    return machines()


class MachinesScreen(Over[str]):
    """Look at machines; with `pick`, Enter takes one."""

    def __init__(self, machines: dict[str, Machine], system: System, *, pick: bool) -> None:
        super().__init__()
        self.machines = machines
        self.system = system
        self.pick = pick

    def compose(self) -> ComposeResult:
        """List at the left, the marked one at the right."""
        with Vertical(classes="box"):
            yield Static("Example machines, all invented", classes="over-title")
            with Horizontal():
                yield OptionList(
                    *(Option(Content(tame(m.name or key)), id=key)
                      for key, m in self.machines.items()),
                    compact=True, id="machine-list",
                )
                with VerticalScroll(can_focus=False):
                    yield Static("", id="machine-about", markup=False)
            hint = "Enter takes it, every value a guess; Escape closes" if self.pick else \
                "Escape closes"
            yield Static(hint, classes="over-hint")

    def on_mount(self) -> None:
        """Mark the first."""
        rows = self.query_one(OptionList)
        rows.highlighted = 0 if self.machines else None
        rows.focus()

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        machine = self.machines[event.option_id or ""]
        lines = "\n".join(f"· {line}" for line in about_machine(machine, self.system))
        self.query_one("#machine-about", Static).update(plain(lines))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.pick:
            self.dismiss(event.option_id)
