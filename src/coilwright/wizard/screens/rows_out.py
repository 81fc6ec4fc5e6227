"""All planes written as a table into a file."""

from __future__ import annotations

from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Button, Input, Static

from coilwright.job.job import Job
from coilwright.store import slug
from coilwright.store.plane_rows import RowsError, write_rows_file
from coilwright.wizard.literal import escape_controls as tame
from coilwright.wizard.screens.base import FullScreenModal as Whole


class RowsOut(Whole[None]):
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
                yield Button("Save", id="rows-save", variant="primary", compact=True)
                yield Button("Close", id="rows-close", compact=True)
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
            if path.is_file() and self._warned != name:
                self._warned = name
                self._say(f"{path.name} is there already; Enter once more replaces it.")
                return
            if path == self.usual:
                path.parent.mkdir(parents=True, exist_ok=True)
            write_rows_file(path, self.job)
        except (RowsError, OSError, RuntimeError) as error:
            self._say(f"× {error}")
            return
        self.app.notify(f"{path}", title="Planes saved", markup=False)
        self.dismiss(None)

    def _say(self, text: str) -> None:
        self.query_one("#rows-out-said", Static).update(Content(tame(text)))
