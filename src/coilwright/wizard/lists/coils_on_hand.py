"""Coils on hand in lines of text: in the list, and held to a job. No screens here."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from coilwright.job.stock import CoilOnHand, Stock
from coilwright.units import Kind, System, show
from coilwright.wizard.literal import cells, fit, pad, tame

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan import Plan


_COLOUR = 10
"""A colour is not begun in less room than this; it stands below the list too."""


class Use(Enum):
    """What a coil is to a job."""

    USED = "used"
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
    """A coil in the list. taken: as the job took it. reasons: why it does not fit."""

    coil: CoilOnHand
    use: Use
    taken: CoilOnHand | None = None
    reasons: tuple[str, ...] = ()


def stock_rows(stock: Stock, job: Job | None) -> tuple[StockRow, ...]:
    """All coils; for a job those it takes first, then those that fit."""
    if job is None:
        return tuple(StockRow(coil, Use.NONE) for coil in stock.coils)
    from coilwright.plan import fitting

    taken = Stock(coils=job.on_hand)
    made = []
    for coil in stock.coils:
        own, reasons = taken.find(coil.tag), fitting(job, coil)
        use = Use.UNFIT if reasons else Use.FITS
        if own is not None:
            use = Use.USED if own == coil else Use.CHANGED
        made.append(StockRow(coil, use, own, reasons))
    made += [StockRow(coil, Use.GONE, coil, fitting(job, coil)) for coil in job.on_hand
             if stock.find(coil.tag) is None]
    order = [Use.USED, Use.CHANGED, Use.GONE, Use.FITS, Use.UNFIT]
    return tuple(sorted(made, key=lambda row: order.index(row.use)))


def toggled(job: Job, row: StockRow) -> Job:
    """The job with a coil taken, renewed where the list has it otherwise, or put back."""
    if row.use in (Use.FITS, Use.UNFIT):
        coils = (*job.on_hand, row.coil)
    elif row.use is Use.CHANGED:
        coils = tuple(row.coil if coil == row.taken else coil for coil in job.on_hand)
    else:
        coils = tuple(coil for coil in job.on_hand if coil != row.taken)
    return job.model_copy(update={"on_hand": coils})


def length_text(coil: CoilOnHand, system: System) -> str:
    """Its length, or from the least to the greatest by its diameters."""
    from coilwright.plan import coil_lengths

    least, most = coil_lengths(coil)
    if coil.length is not None:
        return least.text(system)
    low = show(max(0.0, least.value), Kind.LENGTH, system)
    return f"{low} to {most.text(system)}"


def row_text(row: StockRow, system: System, width: int) -> str:
    """One coil on a line."""
    coil = row.coil
    metal = f"{coil.metal.value} {show(coil.thickness, Kind.THICKNESS, system)}"
    use = f"{pad(row.use.value, 8)}" if row.use is not Use.NONE else ""
    line = (
        f" {use}{pad(tame(coil.tag), 11)} {pad(metal, 17)} "
        f"{pad(show(coil.width, Kind.WIDTH, system), 9)} {pad(length_text(coil, system), 27)} "
    )
    if width - cells(line) < _COLOUR:
        return fit(line.rstrip(), width)
    return fit(f"{line}{tame(coil.colour) or 'bare'}", width)


def about_lines(row: StockRow, plan: Plan | None, system: System) -> list[str]:
    """All there is to say about a coil: its papers, its length, and what the job makes of it."""
    coil = row.coil
    facts = [coil.coating.value if coil.coating else "", tame(coil.colour) or "bare metal",
             f"lot {tame(coil.lot)}" if coil.lot else "",
             f"stands at {tame(coil.where)}" if coil.where else ""]
    lines = [", ".join(fact for fact in facts if fact)]
    if coil.length is None and coil.outside is not None and coil.inside is not None:
        across = " and ".join(
            show(size, Kind.WIDTH, system) for size in (coil.outside, coil.inside))
        lines.append(f"{across} across: {length_text(coil, system)}; the least is counted on.")
    if row.use is Use.CHANGED:
        lines.append("This job took it as it was before; Space takes it as it is now.")
    if row.use is Use.GONE:
        lines.append("This job takes it, but the list has it no longer; Space leaves it out.")
    if row.reasons:
        lines.append(f"Does not fit this job: {' '.join(row.reasons)}")
    elif row.use is Use.FITS:
        lines.append("It fits this job; Space uses it.")
    if plan is not None and row.taken is not None:
        lines.extend(_in_plan(plan, row.taken, system))
    return lines


def _in_plan(plan: Plan, coil: CoilOnHand, system: System) -> list[str]:
    """What the plan cuts from it."""
    lines = []
    for used in plan.from_stock:
        if plan.job.on_hand[used.index] == coil:
            cuts = ", ".join(
                f"{cut.count} × {show(cut.length, Kind.LENGTH, system)} {tame(cut.name)}"
                for cut in used.cuts)
            stub = ", too short to keep" if used.stub else ""
            lines.append(f"{tame(used.name)}: {cuts}; {used.left.text(system)} left{stub}.")
    return lines


def saved_line(plan: Plan) -> str:
    """What the coils on hand save of the order; empty where they save nothing to speak of."""
    figures, system = plan.figures, plan.job.units
    parts = [figures[key].text(system) for key in ("save.length", "save.mass", "save.money")
             if key in figures]
    if not parts:
        return ""
    order = figures.get("coil.length_ordered")
    still = f"; still to order {order.text(system)}" if order is not None else ""
    price = "" if "save.money" in figures else " (no price is known)"
    return f"Coils on hand save {', '.join(parts)}{price}{still}."
