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
from coilwright.plan.coils.cut_lists import TRIM
from coilwright.plan.coils.stock import NOT_USED, fitting
from coilwright.plan.plan import plan
from coilwright.plan.result import Plan
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute
from coilwright.values.finding import Level
from coilwright.values.keys import Key, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing
from coilwright.words.counting import capitalized

_LEAST_SAVED = 0.5
"""Less new metal than this [in] is no saving (no source)."""


@dataclass(frozen=True, slots=True)
class StockOffer:
    """Coils in stock that a job would be cut from. length, mass: the new metal that saves.

    trim_only: nothing but blanks for trim is cut from them, as panels of theirs and of new coils
    would meet on a plane. mixes: what is said of those panels; empty where none would meet.
    """

    coils: tuple[CoilOnHand, ...]
    length: Figure
    mass: Figure
    trim_only: bool = False
    mixes: str = ""


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


def taken(job: Job, offer: StockOffer) -> Job:
    """The job with what is offered, kept to trim where it is offered for that alone."""
    return _for_trim(with_coils(job, offer.coils), offer.coils) if offer.trim_only else (
        with_coils(job, offer.coils))


def _for_trim(job: Job, coils: Iterable[CoilOnHand]) -> Job:
    return dataclasses.replace(job, on_hand_planes={
        **job.on_hand_planes, **{coil.tag: (TRIM,) for coil in coils}})


def offer_leftovers(now: Plan, stock: Stock) -> StockOffer | None:
    """What of the stock would save new metal; None where nothing fits or nothing is saved.

    Coils that fit and are not needed are left out of it. Where panels of theirs would meet others
    on a plane, and the order stop, they are offered for trim alone if that saves metal.
    """
    offer = _offer(now, stock, trim_only=False)
    if offer is None or not offer.mixes or Key.TRIM_FROM_COIL not in now.figures:
        return offer
    trim = _offer(now, stock, trim_only=True)
    return offer if trim is None or trim.mixes else dataclasses.replace(trim, mixes=offer.mixes)


def _offer(now: Plan, stock: Stock, *, trim_only: bool) -> StockOffer | None:
    fit = fitting_leftovers(now.job, stock)
    ordered = now.figures.get(Key.COIL_LENGTH_ORDERED)
    each = now.figures.get(Key.STRIP_MASS_PER_LENGTH)
    if not fit or ordered is None or each is None:
        return None
    given = with_coils(now.job, fit)
    made = plan(_for_trim(given, fit) if trim_only else given)
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
        mass = compute("offer.mass", label, calc.length_mass, saved, each)
    else:
        mass = compute("offer.mass", label, calc.mass_above, heavy, rest, rounding=Rounding.REST)
    mixes = "" if _lots_stop(now) else _lots_stop(made)
    return StockOffer(coils, saved, mass, trim_only=trim_only, mixes=mixes)


def _lots_stop(made: Plan) -> str:
    """What is said of panels of two lots on one plane, where that stops the order."""
    return next((one.what for one in made.findings
                 if one.key == "coils.lots" and one.level is Level.STOP), "")


def why_unused(plan: Plan, index: int) -> str:
    """Why nothing is cut from a coil on hand that a job takes, by its place; empty where something
    is, or where nothing is shared out yet."""
    if plan.concealed or any(one.index == index for one in plan.from_stock):
        return ""
    key, tag = row_key("on_hand", index + 1), plan.job.on_hand[index].tag
    for finding in plan.findings:
        if finding.key == f"{key}.unfit":
            return capitalized(finding.what.partition(NOT_USED)[2])
        if finding.key == f"{key}.unused":
            return finding.why
        if finding.key.endswith(".planes") and f"“{tag}”" in finding.what:
            return f"{finding.what} {finding.why}"
    return "Not needed." if plan.coils or plan.from_stock else ""
