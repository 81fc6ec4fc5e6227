"""The example machines: what each holds and forms."""

from __future__ import annotations

from collections.abc import Iterable

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.machine import Machine, plate_system
from coilwright.sheets.machine import about_machine
from coilwright.units import System
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.base import WIDE, Modal
from coilwright.wizard.screens.pick import TypedWord, first_named
from coilwright.wizard.widgets.columns import hang
from coilwright.wizard.widgets.rows import KeyedRows
from coilwright.wizard.widgets.text import Hanging

MINE = "mine:"
"""What the key of a machine of the shop begins with."""

_NARROW_LIST, _WIDE_LIST = 29, 44
"""Cells of the list of names, where there is little room and where there is more."""


def shipped_machines() -> dict[str, Machine]:
    """The machines that come with the program. Raises StoreError."""
    from coilwright.store.shipped import machines

    return machines()


class _Names(KeyedRows):
    """Letters typed one after the other mark the machine whose name begins so, or has a word that
    does; those of none are kept, as in any list, and Enter takes none after them."""

    def __init__(self, options: Iterable[Option]) -> None:
        super().__init__(*options, compact=True, id="machine-list")
        self._typed = TypedWord()

    def on_key(self, event: events.Key) -> None:
        """Mark the one that is meant."""
        if not self._typed.take(event.character or ""):
            return
        names = ["" if one.disabled else " ".join(str(one.prompt).split())
                 for one in self.options]
        found = first_named(self._typed.text, names)
        if found is not None:
            event.prevent_default()
            self.highlighted, self.only_marked, self._stray = found, False, ""


class MachinesScreen(Modal[str]):
    """Look at machines; with `pick`, Enter or a second click takes one.

    taken: the machine the job has, which is marked first.
    """

    BINDINGS = [
        Binding("right", "scroll(5)", "Read on", show=False, id="machines.on"),
        Binding("left", "scroll(-5)", "Read back", show=False, id="machines.back"),
    ]

    def __init__(
        self, machines: dict[str, Machine], system: System, *, pick: bool,
        taken: Machine | None = None,
    ) -> None:
        super().__init__()
        self.machines = dict(sorted(
            machines.items(), key=lambda item: self._rank(item[0], item[1], system)))
        self.system = system
        self.pick = pick
        same = (key for key, one in machines.items() if one == taken)
        alike = (key for key, one in machines.items() if taken and one.name == taken.name)
        self.first = next(same, None) or next(alike, None) or next(iter(self.machines), "")

    @staticmethod
    def _rank(key: str, machine: Machine, system: System) -> int:
        """The shop's first, then the examples whose plate is in the reader's units."""
        return 0 if key.startswith(MINE) else 1 if plate_system(machine) is system else 2

    def compose(self) -> ComposeResult:
        """List at the left, the marked one at the right."""
        with Vertical(classes="box"):
            yield Static(self._title(), classes="over-title")
            with Horizontal():
                yield _Names(self._options())
                with VerticalScroll(can_focus=False):
                    yield Hanging("", id="machine-about")
            hint = (
                "Enter or a second click takes it, an example as guesses; letters jump; "
                "← → read on; Esc closes" if self.pick
                else "Letters jump; ← → read on; Escape closes"
            )
            yield Static(hint, classes="over-hint")

    def _title(self) -> str:
        mine = any(key.startswith(MINE) for key in self.machines)
        return "My machines, and invented examples" if mine else "Example machines, all invented"

    def _options(self) -> list[Option]:
        """The shop's first, under a heading where there are any; examples of other units last."""
        mine = [key for key in self.machines if key.startswith(MINE)]
        others = "metric" if self.system is System.US else "by the inch"
        headings = {0: "My machines", 1: "Examples, invented" if mine else "",
                    2: f"Examples, {others}"}
        options, before = [], None
        for key, machine in self.machines.items():
            rank = self._rank(key, machine, self.system)
            if rank != before and headings[rank]:
                options.append(Option(Content.styled(headings[rank], "bold"), disabled=True))
            before = rank
            name = key.removeprefix(MINE) if key in mine else machine.name or key
            named = hang(((" ", ""), (escape_controls(name), "")), self._list_width, 3)
            options.append(Option(named, id=key))
        return options

    @property
    def _list_width(self) -> int:
        return _WIDE_LIST if self.app.size.width >= WIDE else _NARROW_LIST

    def on_mount(self) -> None:
        """Mark the one that is taken, or the first."""
        rows = self.query_one(OptionList)
        if self.first:
            rows.highlighted = rows.get_option_index(self.first)
            self._say(self.first)
        rows.focus()

    def on_resize(self, _event: events.Resize) -> None:
        """Have the names fit the new width."""
        rows = self.query_one("#machine-list", KeyedRows)
        if rows.styles.width is not None and rows.styles.width.value == self._list_width:
            return
        rows.styles.width = self._list_width
        for option in self._options():
            if option.id is not None:
                rows.replace_option_prompt(option.id, option.prompt)

    def _say(self, key: str) -> None:
        """What is known of a machine, a point a line."""
        lines = about_machine(self.machines[key], self.system) if key in self.machines else []
        self.query_one("#machine-about", Hanging).say(
            *((("· ", ""), (escape_controls(line), "")) for line in lines))

    def action_scroll(self, lines: int) -> None:
        """Scroll what is said about the machine."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._say(event.option_id or "")

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.pick and not self.query_one(KeyedRows).only_marked:
            self.dismiss(event.option_id)
