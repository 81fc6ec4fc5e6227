"""What every coil of the order is held to as shipped, and how thick metal can meet all of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from coilwright.calc import coil as calc
from coilwright.calc.roof.shapes import summed_length
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.job import Job
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, Plan
from coilwright.plan.view import View
from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import Key, LiftPart, lift_key, row_key
from coilwright.values.rounding import Rounding, show_rounded, step_down


def in_sizes_sold(job: Job) -> bool:
    """Whether the supplier's heaviest is the size taken of those that the awarded quote sells: a
    coil is ordered at it, and comes over it by the tolerance as it does under."""
    quote = job.quotes.as_awarded
    return quote is not None and bool(quote.coil_masses or quote.coil_lengths) and (
        CoilsKey.SUPPLIER_HEAVIEST in job.by_quote)


def heaviest_allowed(plan: Plan | View | Ledger) -> Figure | None:
    """The least of what arbor or decoiler, the rack shared, and the site's gear can carry, and of
    the heaviest coil that the supplier ships [lb].

    None while what the arbor or decoiler carries is not known.
    """
    on = plan.job.coils.coil_on
    rack = on is None or on.is_rack
    needed = MachineKey.ARBOR_LOAD if rack else MachineKey.DECOILER_LOAD
    if needed not in plan.figures:
        return None
    keys = (needed, *((Key.LIMIT_RACK_MASS,) if rack else ()), CoilsKey.SITE_LIFT,
            *(() if in_sizes_sold(plan.job) else (CoilsKey.SUPPLIER_HEAVIEST,)))
    known = [plan.figures[key] for key in keys if key in plan.figures]
    return min(known, key=lambda figure: figure.value)


def heaviest_package(plan: Plan | View) -> float | None:
    """The most a package may weigh that is lifted off at the site [lb]; None while not known.

    What was said that can be lifted there, or what the gear's plate leaves beside the weight of
    its attachment, whichever is less: a limit on paper may not be more than either.
    """
    figures = plan.figures
    most = [told.value] if (told := figures.get(CoilsKey.SITE_LIFT)) is not None else []
    attachment = figures.get(lift_key("site", "attachment"))
    parts: tuple[LiftPart, ...] = ("fork_carries", "slings_carry")
    for part in parts:
        if (carries := figures.get(lift_key("site", part))) is not None:
            most.append(carries.value - (0.0 if attachment is None else attachment.value))
    return max(0.0, min(most)) if most else None


def largest_allowed(plan: Plan | View | Ledger) -> Figure | None:
    """The largest outside diameter the rack or the decoiler takes [in]; None while not known.

    What the order says is `largest_coil`: no more than this, to a step that a mill reads.
    """
    on = plan.job.coils.coil_on
    rack = on is None or on.is_rack
    return plan.figures.get(MachineKey.RACK_DIAMETER if rack else MachineKey.DECOILER_DIAMETER)


def heaviest_coil(plan: Plan | View, coil: CoilPlan) -> Figure:
    """Max weight of a coil on the order: its over side, or what holds it (`heaviest_allowed`) if
    that is less.

    Read as the order says it, on every screen and paper: a coil is held to what its supplier read.
    So it is what is read that is held to the limit: no rounding brings it over.
    """
    over_side, limit = (
        plan.figures[row_key("coil", coil.number, "heaviest")],
        heaviest_allowed(plan),
    )
    if limit is None or over_side.as_read(plan.job.units) <= limit.value * (1 + _SAME):
        return over_side
    return _as_ordered(limit)


def largest_coil(plan: Plan | View, coil: CoilPlan) -> Figure:
    """Max OD of a coil on the order: what takes it, else its over side. Read as max weight is."""
    return largest_of_all(plan) or plan.figures[row_key("coil", coil.number, "largest")]


def largest_of_all(plan: Plan | View) -> Figure | None:
    """Max OD of all coils on the order; None where each has its own, by its over side."""
    limit = largest_allowed(plan)
    return None if limit is None else _as_ordered(limit)


def rounded_within(figure: Figure, limit: Figure | None, system: System) -> Figure:
    """A figure read to the nearest step, or to the last one where the nearest is over what it is
    held to: a coil is never ordered at more than it may come at."""
    if limit is not None and figure.as_read(system) > limit.value * (1 + _SAME):
        return replace(figure, rounding=Rounding.DOWN)
    return figure


def _as_ordered(limit: Figure) -> Figure:
    """A plate's limit as the order sets it: no more than it is, to a step that a mill reads."""
    return replace(limit, rounding=Rounding.DOWN)


def coils_together(plan: Plan) -> tuple[Figure, Figure]:
    """Length and weight of all coils ordered, of passes without the drop. There must be coils."""
    length = compute("coils.length", "Length of these coils", summed_length,
                     *(coil.length for coil in plan.coils), rounding=Rounding.SUM)
    mass = compute("coils.mass", "Weight of these coils", calc.summed_mass,
                   *(coil.mass for coil in plan.coils), rounding=Rounding.SUM)
    return length, mass


def capped_coils(plan: Plan | View) -> tuple[CoilPlan, ...]:
    """The coils that a limit holds to less than their tolerance lets them come at."""
    return tuple(coil for coil in plan.coils
                 if heaviest_coil(plan, coil).key != row_key("coil", coil.number, "heaviest"))


SKID_AND_PACKING = {System.US: 100.0, System.METRIC: 45 / 0.45359237}
"""What skid and packing of one coil may weigh [lb], a round figure in either units: common
practice, no source."""
SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class TightPackage:
    """What the order must say where skid and packing can bring a coil over what the site lifts.

    most: what a package may weigh there [lb]. heaviest: the greatest max weight on the order.
    gross: that is all a package may weigh, so that it is of the package and not of the metal; not
    where it is more, as no order can go out then.
    """

    most: float
    heaviest: Figure
    gross: bool


def tight_package(plan: Plan | View) -> TightPackage | None:
    """The limit of a package that the order's max weight leaves too little room in; None where it
    leaves enough, or nothing is known of what lifts at the site."""
    most, system = heaviest_package(plan), plan.job.units
    if most is None or not plan.coils:
        return None
    heaviest = max((heaviest_coil(plan, coil) for coil in plan.coils),
                   key=lambda one: one.as_read(system))
    if most - heaviest.as_read(system) >= SKID_AND_PACKING[system] - SLACK:
        return None
    least = step_down(most, Kind.MASS, system) - SLACK
    gross = least <= heaviest.as_read(system) <= most + SLACK
    return TightPackage(most, heaviest, gross)


@dataclass(frozen=True, slots=True)
class Thickest:
    """The thickest metal in which a coil can meet all it is held to [in], and what it meets then.

    limit: what it meets, as the order calls it. ordered: the thickness as ordered [in]. packing:
    what of the limit is left for skid and packing [lb]; 0 where it is of the metal alone.
    """

    thickness: float
    limit: str
    ordered: float
    packing: float = 0.0

    def text(self, system: System) -> str:
        """The thickness to 0.0001 in or 0.001 mm, no more than it is."""
        if system is System.US:
            return f"{math.floor(self.thickness * 1e4 + SLACK) / 1e4:.4f} in"
        return f"{math.floor(self.thickness * _MM_PER_IN * 1e3 + SLACK) / 1e3:.3f} mm"

    @property
    def is_as_ordered(self) -> bool:
        """Whether no metal need come thicker than ordered: skid and packing bring that over it."""
        return self.thickness < self.ordered - _SAME

    def over(self, system: System) -> str:
        """Metal of what thickness meets it."""
        return "metal as ordered" if self.is_as_ordered else f"metal over {self.text(system)}"

    def counting(self, system: System) -> str:
        """What is counted in beside the metal, to be said after what it meets; empty for nothing.
        """
        return (f", counting about {show(self.packing, Kind.MASS, system)} of skid and packing"
                if self.packing else "")


_MM_PER_IN = 25.4
_SAME = 1e-9


def too_thick_from(plan: Plan | View) -> Thickest | None:
    """The thickest metal in which every coil can be long enough and not too heavy or too large.

    None without coils, and where the order lets no thicker metal come.
    """
    tight = tight_package(plan)
    found = [one for coil in plan.coils for one in _thickest(plan, coil, tight)]
    fits, allowed = min(found, key=lambda one: one.thickness, default=None), thickest_allowed(plan)
    if fits is not None and allowed is not None and allowed <= fits.thickness + _SAME:
        return None
    return fits


def _thickest(
    plan: Plan | View, coil: CoilPlan, tight: TightPackage | None
) -> Iterator[Thickest]:
    """By the limits as the supplier reads them, who winds and weighs to no others."""
    figures, system = plan.figures, plan.job.units
    thickness, shortest = figures[MetalKey.THICKNESS].value, figures[
        row_key("coil", coil.number, "shortest")].as_read(system)
    light = calc.coil_mass(figures[Key.STRIP_MASS_PER_LENGTH].value, shortest)
    most = heaviest_coil(plan, coil).as_read(system)
    yield _thickest_by_weight(most, thickness, light, tight, system)
    wound = calc.wound_length(largest_coil(plan, coil).as_read(system),
                              figures[CoilsKey.INSIDE_DIAMETER].value, figures[Key.COIL_WRAP].value)
    yield Thickest(calc.thickest_by_diameter(thickness, wound, shortest), "max OD", thickness)


def _thickest_by_weight(
    most: float, thickness: float, light: float, tight: TightPackage | None, system: System
) -> Thickest:
    """By a coil's max weight, or by what a package may weigh, skid and packing counted in, where
    that is less.

    light: what it weighs at min length [lb].
    """
    packing = SKID_AND_PACKING[system]
    if tight is None or tight.most - packing >= most - SLACK:
        return Thickest(calc.thickest_by_mass(thickness, most, light), "max weight", thickness)
    limit = "max weight" if tight.gross else (
        f"{show_rounded(step_down(tight.most, Kind.MASS, system), Kind.MASS, system)} gross")
    left = max(0.0, tight.most - packing)
    return Thickest(calc.thickest_by_mass(thickness, left, light), limit, thickness, packing)


def thickest_allowed(plan: Plan | View) -> float | None:
    """The thickest the order lets the metal come [in]; None while its tolerance is not said."""
    metal = plan.job.metal
    if metal.thickness is None or metal.thickness_tolerance is None or metal.thickness_is is None:
        return None
    return metal.thickness + metal.thickness_tolerance
