"""Planes as a table: pasted or read from a file, looked at first and taken; or written to one."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Generic

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Input, Static, TextArea
from textual.widgets.text_area import Selection

from coilwright.job.job import Job
from coilwright.job.roof import Plane, Shape
from coilwright.store import StoreError, slug
from coilwright.store.outgoing import check_outgoing
from coilwright.store.plane_rows import Rows, RowsError, read_rows, read_rows_file, write_rows_file
from coilwright.units import Kind, System, show
from coilwright.wizard.lists.planes import TakenRows
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.base import MODAL_CSS, Modal, Result
from coilwright.wizard.widgets.blocks import DialogButton

_HINT = (
    "Paste rows: name, eave, slope length, pitch, how many alike; or any columns under their "
    "headings."
)


class FullScreenModal(Modal[Result], Generic[Result]):
    """A screen on planes; it takes the whole terminal."""

    CSS_PATH = [MODAL_CSS, "lists.tcss"]  # type: ignore[assignment]  # a list will do


def row_notes(rows: Rows, system: System) -> list[str]:
    """Bad rows by number and reason, then the planes, then columns that were passed over."""
    made = [f"× row {bad.number}: {bad.reason}   ({bad.text[:60]})" for bad in rows.bad]
    made += [f"✓ {number} {_plane(plane, system)}" for number, plane in enumerate(rows.good, 1)]
    if rows.ignored:
        made.append(f"Columns passed over: {', '.join(rows.ignored)}.")
    return made


def _plane(plane: Plane, system: System) -> str:
    def said(size: float | None) -> str:
        return "" if size is None else show(size, Kind.LENGTH, system)

    if plane.shape is Shape.CORNERS:
        facts = [f"{len(plane.corners)} corners"]
    else:
        facts = [f"{said(plane.eave)} × {said(plane.slope_length)}"]
    if plane.top is not None:
        facts.append(f"top {said(plane.top)}")
    if plane.pitch is not None:
        facts.append(f"pitch {show(plane.pitch, Kind.PITCH, system)}")
    if plane.alike > 1:
        facts.append(f"{plane.alike} alike")
    if plane.openings:
        facts.append(f"openings {len(plane.openings)}")
    return f"{plane.name or 'no name'}: {plane.shape.value} {', '.join(facts)}, {plane.measured}"


def rest_of(text: str, rows: Rows) -> str:
    """The text without the rows that were taken: headings and bad rows, or nothing.

    A text with quoted cells may have rows of several lines, so it is left whole while a row of
    it is bad.
    """
    if not rows.bad:
        return ""
    if '"' in text:
        return text
    lines = text.splitlines()
    first = next((n for n, line in enumerate(lines, 1) if line.strip()), 1)
    filled = sum(1 for line in lines if line.strip(" \t,;"))
    kept = {bad.number for bad in rows.bad}
    if filled > len(rows.good) + len(rows.bad):
        kept.add(first)  # the headings
    return "\n".join(line for number, line in enumerate(lines, 1) if number in kept)


class RowsText(TextArea):
    """A text of many rows, all of which can be undone and redone at once.

    Textual shows the text before it moves the cursor to where it stood then; a cursor on a row that
    is gone by now ends the program. At the beginning there is always a place for it.
    """

    def undo(self) -> None:
        """Take back what was typed or pasted last."""
        self._from_the_beginning(super().undo)

    def redo(self) -> None:
        """Bring it again."""
        self._from_the_beginning(super().redo)

    def _from_the_beginning(self, step: Callable[[], None]) -> None:
        stood, text = self.selection, self.text
        self.selection = Selection()
        step()
        if self.text == text:
            self.selection = stood


class RowsIn(FullScreenModal[TakenRows]):
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
                yield DialogButton("Add", id="rows-take", variant="primary", compact=True)
                yield DialogButton("Close", id="rows-close", compact=True)
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
        lines = [*([first] if first else []), *row_notes(self.rows, self.system)]
        self.query_one(".rows-said", Static).update(Content(escape_controls("\n".join(lines))))
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
        self.dismiss(TakenRows(self.rows.good, left))

    def action_scroll(self, lines: int) -> None:
        """Scroll what the rows hold."""
        self.query_one(".rows-found").scroll_relative(y=lines, animate=False)

    def action_close(self) -> None:
        """Close without taking anything; the text is kept."""
        self.dismiss(TakenRows((), self.text))

    @on(Button.Pressed, "#rows-take")
    def _pressed_take(self, event: Button.Pressed) -> None:
        event.stop()
        self.action_take()

    @on(Button.Pressed, "#rows-close")
    def _pressed_close(self, event: Button.Pressed) -> None:
        event.stop()
        self.action_close()


class RowsOut(FullScreenModal[None]):
    """Asks where; a file that is there already is replaced only when it is said again."""

    def __init__(self, job: Job, folder: Path) -> None:
        super().__init__()
        self.job = job
        self.usual = folder / f"{slug(job.title)}-planes.csv"
        self._warned = ""

    def compose(self) -> ComposeResult:
        """Path, Save."""
        with Vertical(classes="box narrow-box"):
            yield Static("Planes as rows, for a spreadsheet or another job",
                         classes="over-title")
            yield Input(str(self.usual), compact=True, id="rows-path", max_length=1000)
            yield Static("Commas between the cells; tabs where the name ends in .tsv.",
                         classes="rows-said", id="rows-out-said", markup=False)
            with Horizontal(classes="buttons"):
                yield DialogButton("Save", id="rows-save", variant="primary", compact=True)
                yield DialogButton("Close", id="rows-close", compact=True)
            yield Static("Enter saves, Escape closes", classes="over-hint")

    def on_mount(self) -> None:
        """The path first."""
        self.query_one(Input).focus()

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self._save()

    @on(Button.Pressed, "#rows-save")
    def _pressed_save(self, event: Button.Pressed) -> None:
        event.stop()
        self._save()

    @on(Button.Pressed, "#rows-close")
    def _pressed_close(self, event: Button.Pressed) -> None:
        event.stop()
        self.dismiss(None)

    def _save(self) -> None:
        name = self.query_one(Input).value.strip() or str(self.usual)
        try:
            path = Path(name).expanduser()
            check_outgoing(path)
            if path.is_file() and self._warned != name:
                self._warned = name
                self._say(f"{path.name} is there already; Enter once more replaces it.")
                return
            if path == self.usual:
                path.parent.mkdir(parents=True, exist_ok=True)
            write_rows_file(path, self.job)
        except (RowsError, StoreError, OSError, RuntimeError) as error:
            self._say(f"× {error}")
            return
        self.app.notify(f"{path}", title="Planes saved", markup=False)
        self.dismiss(None)

    def _say(self, text: str) -> None:
        self.query_one("#rows-out-said", Static).update(Content(escape_controls(text)))
