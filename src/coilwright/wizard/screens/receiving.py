"""Coils as they arrive: the list, and what is said about the marked one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.arrival_words import receiving_words
from coilwright.job.rows import arrivals as edit_arrivals
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import ArrivalReport
from coilwright.wizard.arrival_lines import awaited_line, report_lines, row_text
from coilwright.wizard.literal import escape_controls as tame
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal as Over
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.keyed_rows import KeyedRows, Word


class ArrivalRows(KeyedRows):
    """The coils that arrived; the screen's keys change the list."""


class ReceivingScreen(Over[None]):
    """Each coil with its verdict; below, why, what to do, and its length three ways.

    changed: called after every change, so that the job is written while the list is open.
    """

    CSS_PATH = ["over.tcss", "receiving.tcss"]  # type: ignore[assignment]  # Textual takes a list
    # The screen's, so that they work as well while the focus is in what is said below.
    BINDINGS = [
        Binding("a,insert", "add", "Add", tooltip="One more coil came", id="arrival.add",
                show=False),
        Binding("d,delete", "remove", "Delete", id="arrival.delete", show=False,
                tooltip="Take the coil out of the list; u brings it back"),
        Binding("u,ctrl+z", "undo", "Undo", tooltip="Take the last change back",
                id="arrival.back", show=False),
        Binding("w,f2", "working", "Working", id="arrival.working", show=False,
                tooltip="Its figures: limits, and its length three ways"),
    ]

    def __init__(self, session: Session, changed: Callable[[], None]) -> None:
        super().__init__()
        self.session = session
        self.changed = changed
        self.reports: tuple[ArrivalReport, ...] = ()

    def compose(self) -> ComposeResult:
        """Title, words to press, rows, what is said."""
        with Vertical(classes="box"):
            yield Static(plain(f"Coils as they arrived, {self.session.job.title}"),
                         classes="over-title")
            with Horizontal(classes="bar"):
                for text, action in (
                    ("a add", "screen.add"), ("Enter measure", "select"),
                    ("d delete", "screen.remove"), ("u undo", "screen.undo"),
                    ("w working", "screen.working"),
                ):
                    yield Word(text, "#arrival-rows", action)
            yield ArrivalRows(id="arrival-rows", compact=True)
            with VerticalScroll(id="arrival-room"):
                yield Static("", id="arrival-about", markup=False)
            yield Static("", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """Fill the list."""
        self.fill()
        self.query_one(ArrivalRows).focus()

    def on_resize(self, _event: events.Resize) -> None:
        """Have the rows fit the new width."""
        self.fill()

    @property
    def _width(self) -> int:
        return max(40, min(self.app.size.width, 112) - 6)

    def fill(self, at: int | None = None) -> None:
        """Show the list, the coil at a place marked."""
        rows = self.query_one(ArrivalRows)
        marked = at if at is not None else rows.highlighted or 0
        self.reports = receive(self.session.plan)
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(
                [Option(Content(row_text(r, self._width))) for r in self.reports]
                or [Option(Content("   none yet: a adds the first coil off the truck"))]
            )
            rows.highlighted = min(marked, max(0, len(self.reports) - 1))
        waits = awaited_line(self.session.plan)
        self.query_one(".over-hint", Static).update(plain(
            f"{waits} Tab reads on; Escape closes".strip()))
        self._about()

    def _about(self) -> None:
        report = self.marked()
        about = self.query_one("#arrival-about", Static)
        if report is None:
            words = receiving_words().lists
            lines = ["Before anything is unloaded", *(f"– {w}" for w in words["before_unloading"]),
                     "", "Caution", *(f"– {w}" for w in words["cautions"]), "",
                     "Before you sign", *(f"– {w}" for w in words["before_signing"])]
        else:
            lines = list(report_lines(report, self.session.job.units, self._width))
        about.update(plain("\n".join(lines)))
        self.query_one("#arrival-room", VerticalScroll).scroll_home(animate=False)

    def marked(self) -> ArrivalReport | None:
        """The marked coil."""
        at = self.query_one(ArrivalRows).highlighted
        return self.reports[at] if at is not None and at < len(self.reports) else None

    # -- changing --------------------------------------------------------------------------

    def action_add(self) -> None:
        """One more coil, and its form."""
        arrival = edit_arrivals.new_arrival(self.session.job)
        index = len(self.session.job.arrived)
        self.session.seal()
        self.session.change(edit_arrivals.add(self.session.job, arrival), f"{arrival.tag} arrived")
        self.session.seal()
        self.changed()
        self.fill(index)
        self._open(index, begun=True)

    def _open(self, index: int, *, begun: bool = False) -> None:
        from coilwright.wizard.screens.arrival import ArrivalScreen

        def closed(_nothing: object) -> None:
            self.fill()

        self.app.push_screen(ArrivalScreen(self.session, index, self.changed, begun=begun), closed)

    def action_remove(self) -> None:
        """Take the marked coil out of the list."""
        report = self.marked()
        if report is None:
            self.notify("There is no coil yet; a adds one.", markup=False)
            return
        self.session.seal()
        self.session.change(edit_arrivals.delete(self.session.job, report.number - 1),
                            f"{report.arrival.tag} deleted")
        self.session.seal()
        self.changed()
        self.fill()
        self.notify(f"{tame(report.arrival.tag)} is out of the list; u brings it back",
                    markup=False)

    def action_undo(self) -> None:
        """Take the last change back."""
        label = self.session.undo()
        self.changed()
        self.notify("Nothing to undo." if label is None else f"Undid: {tame(label)}",
                    markup=False)
        self.fill()

    def action_working(self) -> None:
        """Every figure of the marked coil, and how it was made."""
        from coilwright.wizard.screens.figures import FiguresScreen

        report = self.marked()
        if report is None:
            self.notify("There is no coil yet; a adds one.", markup=False)
            return
        self.app.push_screen(FiguresScreen(replace(self.session.plan, figures=report.figures)))

    def action_close(self) -> None:
        """Close; all is kept."""
        self.session.seal()
        self.dismiss(None)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._about()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.query_one(ArrivalRows).only_marked and self.reports:
            return
        report = self.marked()
        if report is None:
            self.action_add()
        else:
            self._open(report.number - 1)
