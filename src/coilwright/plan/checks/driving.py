"""Questions for the driver: weights from which a licence or the commercial rules may ask more."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import haul as calc
from coilwright.plan.checks.view import View, note
from coilwright.units import Kind
from coilwright.values.finding import Finding


def check_driving(view: View) -> Iterator[Finding]:
    """What to ask about licence and rules; the program rules on neither."""
    both = _greater(view, "haul.ratings_together", "haul.combination_load")
    trailer = _greater(view, "haul.trailer_rating", "haul.gross")
    alone = _greater(view, "haul.tow_rating", "haul.tow_loaded")
    with_trailer = both >= calc.LICENCE_TOGETHER and trailer > calc.LICENCE_TRAILER
    if with_trailer or alone >= calc.LICENCE_TOGETHER:
        said = (
            f"vehicle and trailer come to {view.say(both, Kind.MASS)} together and the trailer "
            f"to {view.say(trailer, Kind.MASS)}" if with_trailer
            else f"the towing vehicle alone comes to {view.say(alone, Kind.MASS)}"
        )
        yield note(
            "haul.licence",
            f"Ask whether the driver's licence covers this: by rating or weight, {said}.",
            f"From {view.say(calc.LICENCE_TOGETHER, Kind.MASS)}, with a trailer above "
            f"{view.say(calc.LICENCE_TRAILER, Kind.MASS)} or with the vehicle alone, a commercial "
            "driver's licence may be asked for.",
            "Ask the driver and the state's licence office. This program does not rule on it.",
            calc.LICENCE, "haul.tow_rating", "haul.trailer_rating", "haul.tow_weight",
        )
    most = max(both, trailer, alone)
    if most >= calc.COMMERCIAL_FROM:
        yield note(
            "haul.commercial",
            "Ask whether the rules for commercial vehicles apply: by rating or weight, it comes "
            f"to {view.say(most, Kind.MASS)}.",
            f"From {view.say(calc.COMMERCIAL_FROM, Kind.MASS)}, used in business across a state "
            "line, rules on cargo, inspection, marking and hours can apply. States have their "
            "own.",
            "Ask the state's motor carrier office. This program does not rule on it.",
            calc.COMMERCIAL, "haul.tow_rating", "haul.trailer_rating", "haul.tow_weight",
        )


def _greater(view: View, *keys: str) -> float:
    """The greater of those figures that are known; 0 while none is."""
    return max((v for key in keys if (v := view.value(key)) is not None), default=0.0)
