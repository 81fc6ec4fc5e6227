"""What skid and packing add to a coil, beside the most that a package may weigh at the site."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.answers.coils import CoilsKey
from coilwright.plan.coils.checks import coils_named
from coilwright.plan.haul.came import came_at
from coilwright.plan.order_limits import (
    SKID_AND_PACKING,
    SLACK,
    TightPackage,
    heaviest_coil,
    heaviest_package,
    tight_package,
)
from coilwright.plan.view import View, care
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.keys import Key, lift_key, row_key
from coilwright.words.counting import capitalized


def check_packing(view: View) -> Iterator[Finding]:
    """Coils so near what the site lifts that skid and packing bring them over it."""
    lift = heaviest_package(view)
    if lift is None or not view.coils:
        return
    weights = {one.number: max(came_at(view.job, one), heaviest_coil(view, one).as_read(
        view.job.units)) for one in view.coils}
    most, packing = max(weights.values()), SKID_AND_PACKING[view.job.units]
    near = [one for one in view.coils if lift - weights[one.number] < packing - SLACK]
    if not near:
        return
    there = [one for one in near if came_at(view.job, one) == most]
    least = max(view.figures[row_key("coil", one.number, "shortest")].value for one in near)
    light = least * view.figures[Key.STRIP_MASS_PER_LENGTH].value
    never = "" if there or light + packing <= lift else (
        f" Even at min length the metal weighs {view.say(light, Kind.MASS)}.")
    near, came = (there, "came") if there else (near, "may come")
    tight = tight_package(view)
    gross = tight is not None and tight.gross
    # Beside what the supplier's tolerance alone lets come, which is told of the same coils.
    of = " of metal" if not gross else "" if there else " by the order"
    yield care(
        "coils.packing",
        f"{capitalized(coils_named(near))} {came} at {'up to ' if len(near) > 1 else ''}"
        f"{view.say(most, Kind.MASS)}{of}, and the site's "
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
