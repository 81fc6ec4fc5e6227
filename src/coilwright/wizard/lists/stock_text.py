"""Coils on hand in words: what each is to a job, as a line, and all there is to say about it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType
from typing import TYPE_CHECKING

from coilwright.job.job import Job
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.plan import fitting
from coilwright.plan.coils.leftovers import why_unused
from coilwright.units import Kind, System, show
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.wizard.lists.coil_draft import length_text
from coilwright.wizard.lists.coil_planes import plane_words
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, fit, fit_end, left, pad

if TYPE_CHECKING:
    from coilwright.plan import Plan

_COLOR = 10
"""A color is not begun in less room than this; it stands below the list too."""


NOBODY: Mapping[str, str] = MappingProxyType({})
"""No job counts on any coil."""


class Use(Enum):
    """What a coil is to a job."""

    USED = "used"
    IDLE = "unused"
    """The job takes it, and nothing is cut from it."""
    FITS = "fits"
    UNFIT = "no fit"
    GONE = "gone"
    """The job takes it; the list has it no longer."""
    CHANGED = "changed"
    """The job takes it as it was; the list has it otherwise."""
    NONE = ""
    """There is no job."""


@dataclass(frozen=True, slots=True)
class StockRow:
    """A coil in the list. taken: as the job took it. reasons: why it does not fit. claimed: which
    other jobs count on it."""

    coil: CoilOnHand
    use: Use
    taken: CoilOnHand | None = None
    reasons: tuple[str, ...] = ()
    claimed: str = ""


def stock_rows(
    stock: Stock, job: Job | None, plan: Plan | None = None, claimed: Mapping[str, str] = NOBODY,
) -> tuple[StockRow, ...]:
    """All coils; for a job those it takes first, then those that fit. plan: of that job. claimed:
    by tag, which other jobs count on a coil."""
    if job is None:
        return tuple(StockRow(coil, Use.NONE, claimed=claimed.get(coil.tag, ""))
                     for coil in stock.coils)
    taken = Stock(coils=job.on_hand)
    made = []
    for coil in stock.coils:
        own, reasons = taken.find(coil.tag), fitting(job, coil)
        use = Use.UNFIT if reasons else Use.FITS
        if own is not None:
            idle = plan is not None and why_unused(plan, job.on_hand.index(own))
            use = Use.CHANGED if own != coil else Use.IDLE if idle else Use.USED
        made.append(StockRow(coil, use, own, reasons, claimed.get(coil.tag, "")))
    made += [StockRow(coil, Use.GONE, coil, fitting(job, coil)) for coil in job.on_hand
             if stock.find(coil.tag) is None]
    order = [Use.USED, Use.IDLE, Use.CHANGED, Use.GONE, Use.FITS, Use.UNFIT]
    return tuple(sorted(made, key=lambda row: order.index(row.use)))


def toggled(job: Job, row: StockRow) -> Job:
    """The job with a coil taken, renewed where the list has it otherwise, or put back."""
    if row.use in (Use.FITS, Use.UNFIT):
        coils = (*job.on_hand, row.coil)
    elif row.use is Use.CHANGED:
        coils = tuple(row.coil if coil == row.taken else coil for coil in job.on_hand)
    else:
        coils = tuple(coil for coil in job.on_hand if coil != row.taken)
    return dataclasses.replace(job, on_hand=coils)


_METAL = 17
"""Cells of metal and thickness where a list has no room for all of them."""


@dataclass(frozen=True, slots=True)
class StockColumns:
    """Cells of the columns of a list of coils: of tags, of metal and thickness, of lengths."""

    tag: int = 11
    metal: int = _METAL
    length: int = 27


def columns_of(rows: Sequence[StockRow], system: System, width: int) -> StockColumns:
    """As wide as what stands in them; the metal is cut only where that has no room.

    Tags take up to a third of the line.
    """
    tag = min(max([11, *(cells(row.coil.tag) for row in rows)]), max(11, width // 3))
    length = max([1, *(cells(length_text(row.coil, system)) for row in rows)])
    metal = max([1, *(cells(_metal_text(row.coil, system)) for row in rows)])
    use = _USE if any(row.use is not Use.NONE for row in rows) else 0
    room = width - use - tag - length - _WIDTH - 4
    return StockColumns(tag, metal if metal <= room else max(min(metal, _METAL), room), length)


_USE, _WIDTH = 8, 9
"""Cells of the columns of uses and of widths."""


def _metal_text(coil: CoilOnHand, system: System) -> str:
    return f"{coil.metal.value} {show(coil.thickness, Kind.THICKNESS, system)}"


_USUAL = StockColumns()


def row_text(
    row: StockRow, system: System, width: int, columns: StockColumns = _USUAL
) -> str:
    """One coil on a line."""
    coil, tag = row.coil, columns.tag
    use = f"{pad(row.use.value, _USE)}" if row.use is not Use.NONE else ""
    line = (
        f" {use}{left(fit_end(escape_controls(coil.tag), tag), tag)} "
        f"{pad(_metal_text(coil, system), columns.metal)} "
        f"{pad(show(coil.width, Kind.WIDTH, system), _WIDTH)} "
        f"{pad(length_text(coil, system), columns.length)} "
    )
    if width - cells(line) < _COLOR:
        return fit(line.rstrip(), width)
    claimed = ", claimed" if row.claimed else ""
    return fit(f"{line}{escape_controls(coil.color_words) or 'bare'}{claimed}", width)


def about_lines(row: StockRow, plan: Plan | None, system: System) -> list[str]:
    """All there is to say about a coil: its papers, its length, and what the job makes of it."""
    coil = row.coil
    facts = [coil.coating.value if coil.coating else "",
             escape_controls(coil.color_words) or "bare metal",
             f"lot {escape_controls(coil.lot)}" if coil.lot else "",
             f"from {escape_controls(coil.supplier)}" if coil.supplier else "",
             f"stands at {escape_controls(coil.where)}" if coil.where else ""]
    lines = [", ".join(fact for fact in facts if fact)]
    if coil.remark:
        lines.append(f"Remark: {escape_controls(coil.remark)}")
    if coil.length is None and coil.outside is not None and coil.inside is not None:
        across = " and ".join(
            show(size, Kind.WIDTH, system) for size in (coil.outside, coil.inside))
        lines.append(f"Diameters {across}: {length_text(coil, system)}; the least is counted on.")
    if row.claimed:
        cut = "CARE claimed" if row.taken is not None else "Claimed"
        lines.append(f"{cut} by {escape_controls(row.claimed)}; it can be cut once.")
    if row.use is Use.CHANGED:
        lines.append("This job took it as it was before; Space takes it as it is now.")
    if row.use is Use.GONE:
        lines.append("This job takes it, but the list has it no longer; Space leaves it out.")
    if row.reasons:
        lines.append(f"Does not fit this job: {' '.join(row.reasons)}")
    elif row.use is Use.FITS:
        lines.append("It fits this job; Space uses it.")
    if plan is not None and row.taken is not None:
        why = why_unused(plan, plan.job.on_hand.index(row.taken))
        if why:
            lines.append(f"Nothing is cut from it. {escape_controls(why)}")
        elif plan.job.on_hand_planes.get(coil.tag):
            lines.append(f"{plane_words(plan.job, coil.tag)} Nothing else is cut from it.")
        elif any(f.key == "coils.lots" and f.level is not Level.NOTE for f in plan.findings):
            lines.append("Panels of two lots meet on a plane: p keeps a coil to planes of its own, "
                         "or to trim.")
        lines.extend(_in_plan(plan, row.taken, system))
    return lines


def _in_plan(plan: Plan, coil: CoilOnHand, system: System) -> list[str]:
    """What the plan cuts from it."""
    lines = []
    for used in plan.from_stock:
        if plan.job.on_hand[used.index] == coil:
            cuts = ", ".join(
                f"{cut.count} × {show(cut.length, Kind.LENGTH, system)} {escape_controls(cut.name)}"
                for cut in used.cuts)
            short = ", too short to keep" if used.too_short else ""
            name, left = escape_controls(used.name), used.left.text(system)
            lines.append(f"{name}: {cuts}; {left} left over past spare, thread-up and tail{short}.")
    return lines


def saved_line(plan: Plan) -> str:
    """What the coils on hand save of the order; empty where they save nothing to speak of."""
    figures, system = plan.figures, plan.job.units
    parts = [figures[key].text(system) for key in ("save.length", "save.mass", Key.SAVE_MONEY)
             if key in figures]
    if not parts:
        return ""
    order = figures.get(Key.COIL_LENGTH_ORDERED)
    # A search beside the keys may still find another plan, whose lengths then stand on the step.
    so_far = ", as found so far" if plan.proof is not None and not plan.proof.proven else ""
    still = f"; still to order {order.text(system)}{so_far}" if order is not None else ""
    price = "" if Key.SAVE_MONEY in figures else " (no price is known)"
    return (f"Coils on hand save {', '.join(parts)}{price}, with the spare, tolerance and "
            f"coil ends that would be ordered with it{still}.")
