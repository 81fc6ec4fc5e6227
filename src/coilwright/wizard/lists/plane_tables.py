"""Planes from a table that is pasted or in a file: looked at first, taken when confirmed."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Input, Static, TextArea

from coilwright.job.roof import Plane
from coilwright.store.plane_rows import Rows, RowsError, read_rows, read_rows_file
from coilwright.units import System
from coilwright.wizard.literal import tame
from coilwright.wizard.rows_words import rest_of, said_of_rows
from coilwright.wizard.screens.whole import Whole
from coilwright.wizard.widgets.rows_text import RowsText

_HINT = (
    "Paste rows: name, eave, slope length, pitch, how many alike; or any columns under their "
    "headings."
)


@dataclass(frozen=True, slots=True)
class Taken:
    """What was confirmed, and the text that is still to be put right."""

    planes: tuple[Plane, ...]
    left: str


class RowsIn(Whole[Taken]):
    """A text and what it holds: good rows as planes, every bad row by number and reason."""

    BINDINGS = [
        Binding("ctrl+s", "take", "Add the planes", id="rows.take", priority=True),
        Binding("pagedown", "scroll(8)", "Page down", show=False, id="rows.down"),
        Binding("pageup", "scroll(-8)", "Page up", show=False, id="rows.up"),
    ]

    def __init__(self, system: System, text: str = "") -> None:
        super().__init__()
        self.system = system
        # What is pasted next begins on a line of its own.
        self.start = f"{text.rstrip()}\n" if text.strip() else ""
        self.rows = Rows()
        self.from_file = False
        """Whether the rows come from a file instead of the text."""

    def compose(self) -> ComposeResult:
        """Text, file, what they hold, buttons."""
        with Vertical(classes="box whole-box"):
            yield Static("Planes from rows", classes="over-title")
            yield RowsText(self.start, compact=True, classes="rows-text", id="rows-text",
                           tab_behavior="focus", soft_wrap=False)
            yield Input(placeholder="or the path of a CSV file; Enter reads it", compact=True,
                        id="rows-file", max_length=1000)
            with VerticalScroll(can_focus=False, classes="rows-found"):
                yield Static("", classes="rows-said", markup=False)
            with Horizontal(classes="buttons"):
                yield Button("Add", id="rows-take", variant="primary", compact=True)
                yield Button("Close", id="rows-close", compact=True)
            yield Static("Ctrl+S adds the good rows; Escape closes and keeps the text",
                         classes="over-hint")

    def on_mount(self) -> None:
        """Look at what was kept from before."""
        text = self.query_one(TextArea)
        text.focus()
        text.move_cursor(text.document.end)
        self._read()

    @property
    def text(self) -> str:
        """The text as it stands."""
        return self.query_one(TextArea).text

    def _read(self) -> None:
        self.rows = read_rows(self.text, self.system)
        self.from_file = False
        self._say("" if self.text.strip() else _HINT)

    def _say(self, first: str = "") -> None:
        lines = [*([first] if first else []), *said_of_rows(self.rows, self.system)]
        self.query_one(".rows-said", Static).update(Content(tame("\n".join(lines))))
        count = len(self.rows.good)
        button = self.query_one("#rows-take", Button)
        button.label = Content(f"Add {count} plane{'' if count == 1 else 's'}")
        button.disabled = not count

    @on(TextArea.Changed)
    def _typed(self, event: TextArea.Changed) -> None:
        event.stop()
        self._read()

    @on(Input.Submitted, "#rows-file")
    def _file(self, event: Input.Submitted) -> None:
        event.stop()
        name = event.value.strip()
        if not name:
            return
        try:
            path = Path(name).expanduser()
            self.rows = read_rows_file(path, self.system)
        except (RowsError, RuntimeError) as error:
            self.rows = Rows()
            self._say(f"× {error}")
            return
        self.from_file = True
        self._say(f"In {path.name}:")
        self.query_one("#rows-take", Button).focus()

    def action_take(self) -> None:
        """Take the good rows; the bad ones stay in the text for the next time."""
        if not self.rows.good:
            self.notify("There is no good row yet.", markup=False)
            return
        left = self.text if self.from_file else rest_of(self.text, self.rows)
        self.dismiss(Taken(self.rows.good, left))

    def action_scroll(self, lines: int) -> None:
        """Scroll what the rows hold."""
        self.query_one(".rows-found").scroll_relative(y=lines, animate=False)

    def action_close(self) -> None:
        """Close without taking anything; the text is kept."""
        self.dismiss(Taken((), self.text))

    @on(Button.Pressed, "#rows-take")
    def _pressed_take(self, event: Button.Pressed) -> None:
        event.stop()
        self.action_take()

    @on(Button.Pressed, "#rows-close")
    def _pressed_close(self, event: Button.Pressed) -> None:
        event.stop()
        self.action_close()
