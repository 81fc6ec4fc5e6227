"""Coverage widths compared: metal, panels, seams, drop, cost, and what argues against each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
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
from coilwright.job.answers.panel import PanelKey
from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.values.keys import Key
from coilwright.wizard.context import Context
from coilwright.wizard.literal import plain
from coilwright.wizard.progress import lack_sentence
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.columns import Column, cells, right, set_row
from coilwright.wizard.widgets.rows import KeyedRows

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan.panel.compare import WidthRow


@dataclass(frozen=True, slots=True)
class WidthColumn:
    """One column: its head, and the figure in it. rank: the higher, the sooner it gives way."""

    head: str
    figure: Callable[[WidthRow], Figure | None]
    rank: int


COLUMNS = (
    WidthColumn("panels", lambda r: r.panels, 2),
    WidthColumn("ordered", lambda r: r.length, 0),
    WidthColumn("weight", lambda r: r.mass, 0),
    WidthColumn("takes", lambda r: r.takes, 0),
    WidthColumn("cost", lambda r: r.cost, 0),
    WidthColumn("seams", lambda r: r.seams, 1),
    WidthColumn("slit drop", lambda r: r.slit_drop, 3),
    WidthColumn("trim", lambda r: r.trim, 4),
    WidthColumn("strip", lambda r: r.strip, 5),
)
_WIDTH = "width"


def columns_for(rows: Sequence[WidthRow], system: System, width: int) -> tuple[WidthColumn, ...]:
    """The columns with anything in them that fit side by side."""
    kept = [c for c in COLUMNS if any(c.figure(row) is not None for row in rows)]
    while len(kept) > 1 and _needs(kept, rows, system) > width:
        kept.remove(max(kept, key=lambda c: c.rank))
    return tuple(kept)


def _room(column: WidthColumn, rows: Sequence[WidthRow], system: System) -> int:
    return max([cells(column.head) + 1, *(cells(_text(column, row, system)) for row in rows)])


def _first(rows: Sequence[WidthRow], system: System) -> int:
    return max([len(_WIDTH) + 1, *(len(show(r.coverage, Kind.WIDTH, system)) for r in rows)])


def _needs(columns: Sequence[WidthColumn], rows: Sequence[WidthRow], system: System) -> int:
    return (3 + _first(rows, system) + sum(2 + _room(c, rows, system) for c in columns)
            + len("  10 against"))


def _text(column: WidthColumn, row: WidthRow, system: System) -> str:
    figure = column.figure(row)
    return "–" if figure is None else f"{figure.mark}{figure.text(system)}"


def ordered(
    rows: Sequence[WidthRow], column: WidthColumn | None, down: bool
) -> tuple[WidthRow, ...]:
    """The rows by a column, or by width; what is not known comes last."""
    if column is None:
        return tuple(sorted(rows, key=lambda r: r.coverage, reverse=down))
    known = [(f.value, row) for row in rows if (f := column.figure(row)) is not None]
    known.sort(key=lambda pair: pair[0], reverse=down)
    return (*(row for _, row in known), *(r for r in rows if column.figure(r) is None))


def head_spans(
    columns: Sequence[WidthColumn], rows: Sequence[WidthRow], system: System,
    by: WidthColumn | None, down: bool,
) -> list[tuple[str, WidthColumn | None]]:
    """The heads in order, each in the room of its column, the sorted one with a sign."""
    sign = "▾" if down else "▴"
    first = _first(rows, system)
    head = f"{_WIDTH}{sign if by is None else ' '}"
    made: list[tuple[str, WidthColumn | None]] = [(f"   {right(head, first)}", None)]
    for column in columns:
        head = f"{column.head}{sign if column is by else ' '}"
        made.append((f"  {right(head, _room(column, rows, system))}", column))
    return made


def row_line(
    row: WidthRow, columns: Sequence[WidthColumn], rows: Sequence[WidthRow], system: System
) -> str:
    """One width on a line; ✓ is the job's own, the last column how much argues against it."""
    first = _first(rows, system)
    line = set_row(
        (f" {'✓' if row.chosen else ' '} {right(show(row.coverage, Kind.WIDTH, system), first)}",
         *(_text(column, row, system) for column in columns)),
        (Column(0), *(Column(_room(column, rows, system), right=True) for column in columns)),
        gap="  ",
    )
    return line + (f"  {len(row.against)} against" if row.against else "")


def about_row(
    row: WidthRow, system: System, waits: str = "", *, kept_back: bool = False
) -> list[str]:
    """All about one width: what no column had room for, and what argues against it.

    waits: what the weight to order waits for, where nothing can be ordered yet. kept_back: whether
    it is practice, which says of no width what argues against it.
    """
    facts = [
        f"{column.head} {_text(column, row, system)}" for column in COLUMNS
        if column.figure(row) is not None
    ]
    width = show(row.coverage, Kind.WIDTH, system)
    lines = [f"{width}: {', '.join(facts)}"] if facts else []
    if row.takes is not None and row.mass is not None:
        lines.append("Ordered are the sizes its supplier sells; “takes” is what this width needs "
                     "of them.")
    if waits and row.mass is None:
        lines.append(waits)
    if kept_back:
        return [*lines, "What argues against a width is kept back until it is handed in."]
    if not row.against:
        return [*lines, "Nothing argues against it here." if row.mass is not None else
                "As far as it is known nothing argues against it."]
    # Under a head: beside its figures nobody knew that this is what the list counts.
    return [*lines, f"{len(row.against)} against {width}:", *(f"· {one}" for one in row.against)]


class Heads(Static):
    """The heads of the columns; a click sorts by one."""

    class Pressed(Message):
        """A head was clicked."""

        def __init__(self, column: WidthColumn | None) -> None:
            super().__init__()
            self.column = column

    spans: tuple[tuple[str, WidthColumn | None], ...] = ()

    def show_spans(self, spans: list[tuple[str, WidthColumn | None]]) -> None:
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


class WidthsScreen(Modal[bool]):
    """The table; Enter takes the marked width. Returns whether one was taken."""

    CSS = """
    WidthsScreen .over-title { margin-bottom: 0; }
    #widths-state { color: $secondary; height: 1; }
    #widths-heads { height: 1; }
    #widths-rows { height: auto; max-height: 60%; }
    #widths-scroll { height: 1fr; margin: 1 0; }
    #widths-about { height: auto; }
    """
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
        self.columns: tuple[WidthColumn, ...] = ()
        self.by: WidthColumn | None = None
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
            yield Static("Enter takes the width; s sorts, r turns; Esc closes",
                         classes="over-hint", markup=False)

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
        from coilwright.plan.panel.compare import compared

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
        width = max(40, self.room - 1)
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

    def about(self, row: WidthRow) -> list[str]:
        """All about one width, and what a weight waits for that is not there."""
        plan = self.session.plan
        waits = ("" if Key.COIL_MASS_ORDERED in plan.figures
                 else lack_sentence(plan, Key.COIL_MASS_ORDERED, "Weight to order"))
        return about_row(row, plan.job.units, waits, kept_back=plan.concealed)

    def _about(self) -> None:
        row = self.marked()
        if row is not None:
            self.query_one("#widths-about", Static).update(plain("\n".join(self.about(row))))

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._about()

    # -- sorting and taking ----------------------------------------------------------------

    def action_sort(self, by: int) -> None:
        """Sort by the next column, or the one before."""
        every: list[WidthColumn | None] = [None, *self.columns]
        self._sort(every[(every.index(self.by) + by) % len(every)])

    @on(Heads.Pressed)
    def _head(self, event: Heads.Pressed) -> None:
        event.stop()
        if event.column is self.by:
            self.action_turn()
        else:
            self._sort(event.column)

    def _sort(self, column: WidthColumn | None) -> None:
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
        job = edit.give(self.session.job, PanelKey.COVERAGE, row.coverage)
        words = show(row.coverage, Kind.WIDTH, self.session.job.units)
        self.session.seal()
        taken = self.session.change(job, f"Coverage width {words}, compared")
        self.say(f"Coverage width {words} is taken; Ctrl+Z brings the one before back."
                 if taken else f"Coverage width {words} is the job's already.")
        self.dismiss(taken)

    def action_close(self) -> None:
        """Close; a comparison that runs is given up."""
        self.workers.cancel_group(self, "widths")
        self.dismiss(False)


def compare_widths(context: Context) -> None:
    """Open the comparison; where the machine's tooling is not known it says what is missing."""
    from coilwright.plan.panel.compare import widths

    def closed(taken: bool | None) -> None:
        if taken:
            context.changed()

    if not widths(context.session.job):
        context.say(
            "To compare widths, the machine needs the narrowest and widest coverage its "
            "tooling for this seam and leg takes.", title="No widths yet", timeout=6)
        return
    context.open(WidthsScreen(context.session), closed)
