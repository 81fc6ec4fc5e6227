"""Coverage widths compared: metal, panels, seams, drop, cost, and what argues against each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from coilwright.job import edit
from coilwright.units import Kind, show
from coilwright.wizard.literal import cells, plain
from coilwright.wizard.screens.over import Over
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.rows import KeyedRows
from coilwright.wizard.width_table import (
    Column,
    about_row,
    columns_for,
    head_spans,
    ordered,
    row_line,
)

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan.compare import WidthRow


class Heads(Static):
    """The heads of the columns; a click sorts by one."""

    class Pressed(Message):
        """A head was clicked."""

        def __init__(self, column: Column | None) -> None:
            super().__init__()
            self.column = column

    spans: tuple[tuple[str, Column | None], ...] = ()

    def show_spans(self, spans: list[tuple[str, Column | None]]) -> None:
        """Show the heads."""
        self.spans = tuple(spans)
        self.update(Content.styled("".join(text for text, _ in spans), "bold underline"))

    def on_click(self, event: events.Click) -> None:
        """Sort by what was hit."""
        at = 0
        for text, column in self.spans:
            at += cells(text)
            if event.x < at:
                self.post_message(self.Pressed(column))
                return


class WidthsScreen(Over[bool]):
    """The table; Enter takes the marked width. Returns whether one was taken."""

    CSS_PATH = ["over.tcss", "widths.tcss"]  # type: ignore[assignment]  # Textual takes a list
    BINDINGS = [
        Binding("s,right", "sort(1)", "Sort", tooltip="Sort by the next column",
                id="widths.sort"),
        Binding("left", "sort(-1)", "Sort back", show=False, id="widths.sort-back"),
        Binding("r", "turn", "Turn round", tooltip="The greatest first, or the least",
                id="widths.turn"),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.found: tuple[WidthRow, ...] = ()
        self.rows: tuple[WidthRow, ...] = ()
        self.columns: tuple[Column, ...] = ()
        self.by: Column | None = None
        self.down = False

    def compose(self) -> ComposeResult:
        """Heads, rows, what is said about the marked one."""
        with Vertical(classes="box"):
            yield Static("Coverage widths compared, everything else as it is",
                         classes="over-title")
            yield Static("", id="widths-state", markup=False)
            yield Heads("", id="widths-heads", markup=False)
            yield KeyedRows(id="widths-rows", compact=True)
            with VerticalScroll(can_focus=False, id="widths-scroll"):
                yield Static("", id="widths-about", markup=False)
            yield Static("Enter takes the width (Ctrl+Z brings yours back); s sorts, r turns; "
                         "Escape", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """Begin to work them out."""
        self._say("Working the widths out …")
        self._compare(self.session.job)

    def _say(self, words: str) -> None:
        state = self.query_one("#widths-state", Static)
        state.display = bool(words)
        state.update(plain(words))

    @work(thread=True, exclusive=True, group="widths", name="widths", exit_on_error=False)
    def _compare(self, job: Job) -> None:
        from coilwright.plan.compare import compared

        worker = get_current_worker()

        def progress(done: int, of: int) -> None:
            if not worker.is_cancelled:
                self.app.call_from_thread(
                    self._say, f"{done} of {of} widths worked out; Escape gives up")

        rows = tuple(compared(job, lambda: worker.is_cancelled, progress))
        if not worker.is_cancelled:
            self.app.call_from_thread(self._compared, rows)

    def _compared(self, rows: tuple[WidthRow, ...]) -> None:
        self.found = rows
        self._say("" if rows else "There is no width to compare.")
        self._fill(next((row.coverage for row in rows if row.chosen), None))
        self.query_one(KeyedRows).focus()

    # -- showing ---------------------------------------------------------------------------

    def _fill(self, coverage: float | None) -> None:
        """Show the rows as they are sorted, a width marked."""
        system = self.session.job.units
        width = max(40, min(self.app.size.width, 112) - 5)
        self.columns = columns_for(self.found, system, width)
        if self.by not in self.columns:
            self.by = None
        self.rows = ordered(self.found, self.by, self.down)
        self.query_one(Heads).show_spans(
            head_spans(self.columns, self.found, system, self.by, self.down))
        rows = self.query_one(KeyedRows)
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(
                Option(Content(row_line(row, self.columns, self.found, system)))
                for row in self.rows
            )
            at = next((i for i, r in enumerate(self.rows) if r.coverage == coverage), 0)
            rows.highlighted = at if self.rows else None
        self._about()

    def on_resize(self, _event: events.Resize) -> None:
        """Have the columns fit the new width."""
        if self.found:
            row = self.marked()
            self._fill(row.coverage if row else None)

    def marked(self) -> WidthRow | None:
        """The marked width."""
        at = self.query_one(KeyedRows).highlighted
        return self.rows[at] if at is not None and at < len(self.rows) else None

    def _about(self) -> None:
        row = self.marked()
        if row is not None:
            lines = about_row(row, self.session.job.units)
            self.query_one("#widths-about", Static).update(plain("\n".join(lines)))

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._about()

    # -- sorting and taking ----------------------------------------------------------------

    def action_sort(self, by: int) -> None:
        """Sort by the next column, or the one before."""
        every: list[Column | None] = [None, *self.columns]
        self._sort(every[(every.index(self.by) + by) % len(every)])

    @on(Heads.Pressed)
    def _head(self, event: Heads.Pressed) -> None:
        event.stop()
        if event.column is self.by:
            self.action_turn()
        else:
            self._sort(event.column)

    def _sort(self, column: Column | None) -> None:
        row = self.marked()
        self.by, self.down = column, False
        self._fill(row.coverage if row else None)

    def action_turn(self) -> None:
        """The other way round."""
        row = self.marked()
        self.down = not self.down
        self._fill(row.coverage if row else None)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        row = self.marked()
        if row is None or self.query_one(KeyedRows).only_marked:
            return
        job = edit.give(self.session.job, "panel.coverage", row.coverage)
        words = show(row.coverage, Kind.WIDTH, self.session.job.units)
        self.session.seal()
        taken = self.session.change(job, f"Coverage width {words}, compared")
        self.notify(f"Coverage width {words} is taken; Ctrl+Z brings the one before back."
                    if taken else f"Coverage width {words} is the job's already.", markup=False)
        self.dismiss(taken)

    def action_close(self) -> None:
        """Close; a comparison that runs is given up."""
        self.workers.cancel_group(self, "widths")
        self.dismiss(False)
