"""What skid and packing add to a coil, beside the most that a package may weigh at the site."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.calc import sources
from coilwright.job.answers.coils import CoilsKey
from coilwright.plan.coils.checks import coils_named
from coilwright.plan.haul.came import came_at
from coilwright.plan.order_limits import heaviest_coil, heaviest_package
from coilwright.plan.result import Plan
from coilwright.plan.view import View, care
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key, lift_key, row_key
from coilwright.values.rounding import step_down
from coilwright.words.counting import capitalized

_SKID_AND_PACKING = {System.US: 100.0, System.METRIC: 45 / 0.45359237}
"""What skid and packing of one coil may weigh [lb], a round figure in either units: common
practice, no source."""
_SLACK = 1e-6


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
    if most - heaviest.as_read(system) >= _SKID_AND_PACKING[system] - _SLACK:
        return None
    least = step_down(most, Kind.MASS, system) - _SLACK
    gross = least <= heaviest.as_read(system) <= most + _SLACK
    return TightPackage(most, heaviest, gross)


def check_packing(view: View) -> Iterator[Finding]:
    """Coils so near what the site lifts that skid and packing bring them over it."""
    lift = heaviest_package(view)
    if lift is None or not view.coils:
        return
    weights = {one.number: max(came_at(view.job, one), heaviest_coil(view, one).as_read(
        view.job.units)) for one in view.coils}
    most, packing = max(weights.values()), _SKID_AND_PACKING[view.job.units]
    near = [one for one in view.coils if lift - weights[one.number] < packing - _SLACK]
    if not near:
        return
    there = [one for one in near if came_at(view.job, one) == most]
    least = max(view.figures[row_key("coil", one.number, "shortest")].value for one in near)
    light = least * view.figures[Key.STRIP_MASS_PER_LENGTH].value
    never = "" if there or light + packing <= lift else (
        f" Even at min length the metal weighs {view.say(light, Kind.MASS)}.")
    near, came = (there, "came") if there else (near, "may come")
    tight = tight_package(view)
    metal = "" if tight is not None and tight.gross else " of metal"
    yield care(
        "coils.packing",
        f"{capitalized(coils_named(near))} {came} at {'up to ' if len(near) > 1 else ''}"
        f"{view.say(most, Kind.MASS)}{metal}, and the site's "
        f"gear lifts {view.say(lift, Kind.MASS)}: {view.say(max(0.0, lift - most), Kind.MASS)} are "
        f"left for skid and packing.{never}",
        "Skid, bands and wrapping of a coil weigh up to about "
        f"{view.say(packing, Kind.MASS)} (common practice, no source). Gear lifts them "
        "with the coil.",
        f"{_on_the_order(view, tight)}Ask the supplier what they weigh; for coils that leave room "
        "for them, give the rating less that as “Site can lift”.",
        sources.TRADE, CoilsKey.SITE_LIFT, lift_key("site", "by"),
    )


def _on_the_order(view: View, tight: TightPackage | None) -> str:
    """What the order says for it, in a sentence before what to do."""
    if tight is None:
        return ""
    if tight.gross:
        return (f"The order says that max weight {tight.heaviest.text(view.job.units)} is gross, "
                "skid and packing included. ")
    return ("The order says that a coil comes lighter where it would be over that with skid and "
            "packing. ")
