"""Coils in stock that a job does not use yet: which would save new metal, and how much.

The store reads the stock; here it is only reckoned with. Worked out when asked for, as it takes a
plan of its own.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass

from coilwright.calc import on_hand as calc
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.plan.coils.stock import fitting
from coilwright.plan.plan import plan
from coilwright.plan.result import Plan
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import Key, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing

_LEAST_SAVED = 0.5
"""Less new metal than this [in] is no saving (no source)."""


@dataclass(frozen=True, slots=True)
class StockOffer:
    """Coils in stock that a job would be cut from. length, mass: the new metal that saves."""

    coils: tuple[CoilOnHand, ...]
    length: Figure
    mass: Figure


def fitting_leftovers(job: Job, stock: Stock) -> tuple[CoilOnHand, ...]:
    """The coils in stock that fit a job and are not in it; none once its order was sent."""
    if job.life.state not in (OrderState.DRAFT, OrderState.OUT):
        return ()
    known = Stock(coils=job.on_hand)
    return tuple(coil for coil in stock.coils
                 if known.find(coil.tag) is None and not fitting(job, coil))


def with_fitting(job: Job, stock: Stock) -> Job:
    """The job with a snapshot of all coils in stock that fit it, and no others."""
    return dataclasses.replace(
        job, on_hand=tuple(coil for coil in stock.coils if not fitting(job, coil))
    )


def with_coils(job: Job, coils: Iterable[CoilOnHand]) -> Job:
    """The job with these coils beside those it has; what does not fit, or is there, stays out."""
    wanted = fitting_leftovers(job, Stock(coils=tuple(coils)))
    return dataclasses.replace(job, on_hand=(*job.on_hand, *wanted))


def offer_leftovers(now: Plan, stock: Stock) -> StockOffer | None:
    """What of the stock would save new metal; None where nothing fits or nothing is saved.

    Coils that fit and are not needed are left out of it.
    """
    fit = fitting_leftovers(now.job, stock)
    ordered = now.figures.get(Key.COIL_LENGTH_ORDERED)
    each = now.figures.get(Key.STRIP_MASS_PER_LENGTH)
    if not fit or ordered is None or each is None:
        return None
    made = plan(with_coils(now.job, fit))
    used = {one.index for one in made.from_stock}
    coils = tuple(coil for at, coil in enumerate(fit, len(now.job.on_hand)) if at in used)
    still = made.figures.get(Key.COIL_LENGTH_ORDERED)
    if still is None:
        if made.coils or not coils:
            return None
        still = Figure(Key.COIL_LENGTH_ORDERED, "Nothing to order", 0.0, Kind.LENGTH, LAYOUT,
                       Standing.SURE)
    saved = compute("offer.length", "Coils in stock would save, length", calc.ordered_above,
                    ordered, still, rounding=Rounding.REST)
    if not coils or saved.value < _LEAST_SAVED:
        return None
    label = "Coils in stock would save, weight"
    heavy, rest = (one.figures.get(Key.COIL_MASS_ORDERED) for one in (now, made))
    if heavy is None or rest is None or now.job.coils.in_passes:
        return StockOffer(coils, saved,
                          compute("offer.mass", label, calc.length_mass, saved, each))
    return StockOffer(coils, saved, compute(
        "offer.mass", label, calc.mass_above, heavy, rest, rounding=Rounding.REST))


def why_unused(plan: Plan, index: int) -> str:
    """Why nothing is cut from a coil on hand that a job takes, by its place; empty where something
    is, or where nothing is shared out yet."""
    if plan.concealed or any(one.index == index for one in plan.from_stock):
        return ""
    key, tag = row_key("on_hand", index + 1), plan.job.on_hand[index].tag
    for finding in plan.findings:
        if finding.key in (f"{key}.unfit", f"{key}.unused"):
            return finding.why
        if finding.key.endswith(".planes") and f"“{tag}”" in finding.what:
            return f"{finding.what} {finding.why}"
    return "Not needed." if plan.coils or plan.from_stock else ""
