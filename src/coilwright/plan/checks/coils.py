"""Checks of the coils: weight in the air and on the rack, the long end, minimums."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.plan.checks.view import View, care, note
from coilwright.plan.lifting import gear_limit
from coilwright.units import Kind
from coilwright.values.finding import Finding


def check_coils(view: View) -> Iterator[Finding]:
    """All checks of the coils to order."""
    if not view.coils:
        return
    heaviest = max(view.coils, key=lambda c: c.mass.value)
    yield care(
        "coils.lifting",
        f"The heaviest coil is ordered at {heaviest.mass.text(view.job.units)}, and may come at "
        f"{view.text(f'coil.{heaviest.number}.heaviest')}. Nobody under it, ever.",
        "A coil that slips kills. Gear must be rated for the coil and its attachment together.",
        "Read the rating plates of forklift, slings, arbors and rack; they decide, not this "
        "program.",
        sources.SLINGS, "coils.site_lift",
    )
    yield from _long_end(view)
    yield from _minimum(view)
    if view.governing is not None:
        yield note(
            "coils.governs",
            f"What governs the longest coil, {view.text('coil.longest')}, is "
            f"{view.governing.words}.",
            "Which limit comes first depends on metal, width and inside diameter.",
            "Tell the supplier this limit with the order.",
            view.governing.length.source, "coils.inside_diameter",
        )
    if view.job.coils.site_lift is None:
        yield care(
            "coils.site_lift_unknown", "What can be lifted at the site is not known.",
            "A coil that cannot be unloaded goes back on the truck at your cost.",
            "Find out what forklift or crane will be there and what its plate says at the reach "
            "needed.",
            sources.TRADE, "coils.site_lift",
        )


def _long_end(view: View) -> Iterator[Finding]:
    """Ordered inside the limits, but over them if the supplier ships the long end."""
    on = view.job.coils.coil_on
    rack = on is None or on.is_rack
    loads = ("machine.arbor_load", "limit.rack.mass") if rack else ("machine.decoiler_load",)
    place = "machine.rack_diameter" if rack else "machine.decoiler_diameter"
    for key, part, kind, limits, verb, holder in (
        ("heaviest", "heaviest", Kind.MASS, loads, "weigh", "the machine takes"),
        ("largest", "largest", Kind.WIDTH, (place,), "measure", "the machine takes"),
        ("site", "heaviest", Kind.MASS, ("coils.site_lift",), "weigh", "the site's gear lifts"),
    ):
        most = min((v for k in limits if (v := view.value(k)) is not None), default=None)
        if most is None or (key == "site" and _from_the_gear(view, most)):
            continue
        over = [
            (coil.number, value)
            for coil in view.coils
            if (value := view.value(f"coil.{coil.number}.{part}")) is not None
            and value > most * (1 + 1e-9)
        ]
        if over:
            number, value = max(over, key=lambda pair: pair[1])
            yield care(
                f"coils.long_end_{key}",
                f"At the long end of the supplier's tolerance coil {number} would {verb} "
                f"{view.say(value, kind)}; {holder} {view.say(most, kind)}.",
                "A coil inside the limit when ordered can arrive over it.",
                "Write on the order that no coil may be over the limit; more, smaller coils are "
                "always allowed.",
                sources.SHARE, "coils.tolerance",
            )


def _from_the_gear(view: View, most: float) -> bool:
    """Whether the site's weight is the gear's limit, which allows for the long end."""
    limit = gear_limit(view.figures)
    return limit is not None and limit[0] == most


def _minimum(view: View) -> Iterator[Finding]:
    least, ordered = view.job.coils.minimum_order, view.value("coil.mass_ordered")
    if least is not None and ordered is not None and ordered < least - 1e-9:
        yield care(
            "coils.minimum",
            f"The order is {view.text('coil.mass_ordered')}; the supplier's minimum is "
            f"{view.say(least, Kind.MASS)}.",
            "Below the minimum suppliers refuse, or charge for the whole of it.",
            "Ask what they charge, compare another supplier, or take trim metal with it.",
            sources.TRADE, "coils.minimum_order",
        )
