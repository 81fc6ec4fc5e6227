"""The example machines: what each holds and forms."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.machine import Machine
from coilwright.units import System
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.steps.machine.machines import about_machine
from coilwright.wizard.widgets.rows import MarkedList


def shipped_machines() -> dict[str, Machine]:
    """The machines that come with the program. Raises StoreError."""
    from coilwright.store.shipped import machines

    return machines()


class MachinesScreen(Modal[str]):
    """Look at machines; with `pick`, Enter takes one."""

    BINDINGS = [
        Binding("right", "scroll(5)", "Read on", show=False, id="machines.on"),
        Binding("left", "scroll(-5)", "Read back", show=False, id="machines.back"),
    ]

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
                yield MarkedList(
                    *(Option(Content(f" {escape_controls(m.name or key)}"), id=key)
                      for key, m in self.machines.items()),
                    compact=True, id="machine-list",
                )
                with VerticalScroll(can_focus=False):
                    yield Static(self._about(next(iter(self.machines), "")), id="machine-about")
            hint = (
                "Enter takes it, every value a guess; ← → read on; Escape closes" if self.pick
                else "← → read on; Escape closes"
            )
            yield Static(hint, classes="over-hint")

    def on_mount(self) -> None:
        """Mark the first."""
        self.query_one(OptionList).focus()

    def _about(self, key: str) -> Content:
        if key not in self.machines:
            return Content("")
        lines = about_machine(self.machines[key], self.system)
        return plain("\n".join(f"· {line}" for line in lines))

    def action_scroll(self, lines: int) -> None:
        """Scroll what is said about the machine."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self.query_one("#machine-about", Static).update(self._about(event.option_id or ""))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.pick:
            self.dismiss(event.option_id)
