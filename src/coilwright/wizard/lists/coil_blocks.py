"""On the Coils step: coils on hand that the job may use, and coils of the order as they arrive."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from textwrap import wrap
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.job import Job
from coilwright.job.stock import CoilOnHand
from coilwright.plan.coils.leftovers import why_unused
from coilwright.units import Kind, System, show
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar, Passage
from coilwright.wizard.widgets.columns import cells, hang, pad
from coilwright.wizard.widgets.row_words import RowKeys
from coilwright.wizard.widgets.rows import Rows
from coilwright.wizard.widgets.text import Hanging
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.plan import Plan
    from coilwright.plan.coils.leftovers import StockOffer

_TALLEST = 8
_SHOWN = 6
_AROUND = 6
"""Cells around the words of two buttons that stand side by side."""


@dataclass(frozen=True, slots=True)
class CoilRow:
    """One coil of a job: its place in the job, its tag and size, and what becomes of it."""

    index: int
    tag: str
    about: str
    use: str
    used: bool


def coil_rows(job: Job, plan: Plan) -> tuple[CoilRow, ...]:
    """All coils on hand of a job and what the plan does with each."""
    rows = []
    for index, coil in enumerate(job.on_hand):
        used = [strip for strip in plan.from_stock if strip.index == index]
        if used:
            left = ", ".join(strip.left.text(job.units) for strip in used)
            use = f"used; left past spare, thread-up and tail: {left}"
        else:
            why = why_unused(plan, index)
            use = f"not used: {why}" if why else "waits for other answers"
        rows.append(CoilRow(index, coil.tag, size_of(coil, job.units), use, bool(used)))
    return tuple(rows)


def without_coil(job: Job, index: int) -> Job:
    """The job without one of its coils on hand."""
    coils = tuple(coil for at, coil in enumerate(job.on_hand) if at != index)
    return dataclasses.replace(job, on_hand=coils)


def size_of(coil: CoilOnHand, system: System) -> str:
    """Metal, thickness, width, and length or diameters, in one line."""
    parts = [coil.metal.value, show(coil.thickness, Kind.THICKNESS, system),
             f"{show(coil.width, Kind.WIDTH, system)} wide"]
    if coil.length is not None:
        parts.append(show(coil.length, Kind.LENGTH, system))
    elif coil.outside is not None and coil.inside is not None:
        parts.append(f"{show(coil.outside, Kind.WIDTH, system)} on "
                     f"{show(coil.inside, Kind.WIDTH, system)}")
    return ", ".join(parts)


def offer_tags(offer: StockOffer) -> str:
    """The tags of the coils that are offered."""
    return ", ".join(escape_controls(coil.tag) for coil in offer.coils)


def offer_line(offer: StockOffer, system: System) -> str:
    """Which coils in stock fit, what new metal they would save, and what panels of theirs bring."""
    said = ("in stock fits this job and is not in it: it" if len(offer.coils) == 1 else
            "in stock fit this job and are not in it: they")
    saves = (f"would save {offer.length.text(system)}, {offer.mass.text(system)} of new metal"
             f"{', for trim alone' if offer.trim_only else ''}.")
    if not offer.mixes:
        return f"{offer_tags(offer)} {said} {saves}"
    them = "it" if len(offer.coils) == 1 else "them"
    whose = f"Panels of {them} too" if offer.trim_only else f"Taking {them}"
    stops = f"{whose} would stop the order"
    mixes = escape_controls(offer.mixes)
    return f"{offer_tags(offer)} {said} {saves} {stops}: {mixes[:1].lower()}{mixes[1:]}"


def take_words(offer: StockOffer, system: System, room: int) -> str:
    """What the key beside the form says that takes an offer: what it saves, and before that where
    it would stop the order; as much of it as so many cells hold."""
    which, many = offer_tags(offer), f"Take {len(offer.coils)}"
    saves = f"saves {offer.mass.text(system)}{' for trim' if offer.trim_only else ''}"
    said: tuple[str, ...]
    if stops_order(offer):
        said = (f"Take {which}: STOP, lots would meet; {saves}",
                f"{many}: STOP, lots would meet; {saves}", f"{many}: STOP; {saves}",
                f"{many}: STOP, lots meet", f"{many}: STOP")
    else:
        said = (f"Take {which} from stock: {saves}", f"Take {which}: {saves}", f"{many}: {saves}",
                f"Take {which} from stock", f"Take {which}", many)
    return next((words for words in said if cells(words) <= room), said[-1])


def stops_order(offer: StockOffer) -> bool:
    """Whether an order that takes it stops, as panels of two lots would meet on a plane."""
    return bool(offer.mixes) and not offer.trim_only


class JobCoils(Rows):
    """The rows; Enter opens the list of all coils, d takes one off the job."""

    BINDINGS = [
        Binding("a,insert", "screen.stock", "Coils on hand", show=False, id="coil.stock",
                tooltip="All coils on hand: add, change, use"),
        Binding("d,delete", "remove", "Not in this job", show=False, id="coil.remove",
                tooltip="Take the marked coil off this job; Ctrl+Z brings it back"),
    ]

    class Removed(Message):
        """A coil is to be taken off the job."""

        def __init__(self, row: CoilRow) -> None:
            super().__init__()
            self.row = row

    def __init__(self) -> None:
        super().__init__(compact=True)
        self.coils: tuple[CoilRow, ...] = ()

    def action_remove(self) -> None:
        """Take the marked coil off the job."""
        if self.highlighted is not None and self.highlighted < len(self.coils):
            self.post_message(self.Removed(self.coils[self.highlighted]))

    async def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Open the list of all coils."""
        event.stop()
        await self.screen.run_action("stock")


class StockHint(Block):
    """Above the form: where coils that one has already are given; Enter goes there."""

    DEFAULT_CSS = """
    StockHint BarButton { text-align: left; content-align: left middle; }
    """

    def compose(self) -> ComposeResult:
        """One row: a button that opens the list, one that takes what is offered."""
        yield ButtonBar(
            BarButton("", id="stock-hint", action="screen.stock"),
            BarButton("", id="take-hint", action="screen.take_leftovers"))

    _session: Session | None = None

    def on_resize(self) -> None:
        """Say as much as the new width has room for."""
        if self._session is not None:
            self.show(self._session)

    def on_descendant_focus(self) -> None:
        """Say what Enter does here."""
        self.on_resize()

    def on_descendant_blur(self) -> None:
        """Say how one gets here."""
        self.on_resize()

    def show(self, session: Session) -> None:
        """Say whether this job uses any, and beside it what the stock has for it."""
        self._session = session
        used, offer = len(session.job.on_hand), session.offer
        said = f"{counted(used, 'coil')} in this job" if used else "none in this job"
        hint = self.query_one("#stock-hint", BarButton)
        take = self.query_one("#take-hint", BarButton)
        take.display = offer is not None
        if offer is None:
            # The cursor begins at the first answer, below it: Enter there adds nothing.
            adds = "Enter adds" if hint.has_focus else "↑, Enter adds"
            hint.say(f"Coils you have: {said}; {adds}")
            return
        # All on one row, so that the form below stays where it is.
        hint.say(f"Coils you have: {said}")
        take.say(take_words(offer, session.job.units,
                            self.size.width - cells(hint.words) - _AROUND))


class StockBlock(Block):
    """Coils on hand: those of this job, and a way to all of them."""

    _width = 0
    _session: Session | None = None

    def compose(self) -> ComposeResult:
        """Heading, button, rows, a word."""
        yield Static(Content.styled(" Coils on hand", "bold"), classes="heading")
        yield ButtonBar(BarButton("All coils on hand: add, change, use", id="open-stock",
                      action="screen.stock"),
                        BarButton("Take what fits and saves metal", id="take-leftovers",
                                  action="screen.take_leftovers"))
        yield JobCoils()
        yield RowKeys("", classes="none-yet", markup=False)
        yield Hanging("", id="offered", markup=False)

    def show(self, session: Session) -> None:
        """Show the coils and what the plan does with each."""
        self._session = session
        rows = self.query_one(JobCoils)
        found = coil_rows(session.job, session.plan)
        said = ("   d takes the marked coil off this job" if found else
                "   none in this job: all metal is ordered new")
        if found and (claimed := session.claimed_too):
            said += f"\n   CARE {escape_controls(claimed)}; it can be cut once."
        self.query_one(".none-yet", Static).update(said)
        offer, offered = session.offer, self.query_one("#offered", Hanging)
        offered.display = self.query_one("#take-leftovers").display = offer is not None
        if offer is not None:
            offered.say((("   ", ""), (offer_line(offer, session.job.units), "")))
        rows.display = bool(found)
        width = max(40, (rows.size.width or self.size.width or self.screen.size.width) - 2)
        if (found, width) == (rows.coils, self._width):
            return
        rows.coils, self._width = found, width
        marked = rows.highlighted
        rows.set_options(
            Option(Content.assemble(
                f" {pad(escape_controls(row.tag), 12)} ", (escape_controls(row.about), "dim"),
                "\n", hang((("   ", ""), (escape_controls(row.use), "bold" if row.used else "")),
                           width, 3),
            ))
            for row in found
        )
        rows.take_height(_TALLEST)
        if found:
            rows.highlighted = min(marked or 0, len(found) - 1)

    def on_resize(self) -> None:
        """Have the texts fit the new width."""
        if self._session is not None:
            self.show(self._session)


class ArrivalsBlock(Block):
    """What came, in a line each; nothing is worked out while nothing has come."""

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[Plan | None, int] = (None, 0)

    def compose(self) -> ComposeResult:
        """Heading, button, lines."""
        yield Static(Content.styled(" Coils as they arrive", "bold"), classes="heading")
        yield ButtonBar(BarButton("As delivered: measure, accept or hold", id="open-arrivals",
                      action="screen.arrivals"))
        yield Passage("", classes="lines", markup=False)

    def show(self, session: Session) -> None:
        """Each coil that came, with its verdict."""
        plan = session.plan
        width = max(40, (self.size.width or self.screen.size.width) - 3)
        if (plan, width) == self._shown:
            return
        self._shown = (plan, width)
        lines = self.query_one(".lines", Passage)
        lines.display = bool(plan.job.arrived)
        if not plan.job.arrived:
            return
        # Imported here: nothing of it is needed, and no words are read, while nothing has come.
        from coilwright.plan.receiving.receive import receive
        from coilwright.sheets.baseline import baseline, baseline_words
        from coilwright.wizard.lists.arrival_lines import awaited_line, row_lines

        ordered = baseline(plan)
        reports = receive(ordered)
        found = [line for report in reports[:_SHOWN] for line in row_lines(report, width)]
        more = len(reports) - _SHOWN
        shown = [*found, *([f"   and {more} more"] if more > 0 else [])]
        if waits := awaited_line(ordered):
            shown.append(f"   {waits}")
        if said := baseline_words(plan):
            shown += wrap(said, width, initial_indent="   ", subsequent_indent="   ")
        lines.update(Content("\n".join(shown)))
