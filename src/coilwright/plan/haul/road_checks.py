"""Checks of hauling: what is over its plate, what is not known, how the trailer hangs."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import haul as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.machine import MachineKey
from coilwright.plan.haul.hitch_share import check_hitch_share
from coilwright.plan.haul.rack_checks import check_rack
from coilwright.plan.haul.tie_downs import check_tie_downs
from coilwright.plan.result import LoadLine
from coilwright.plan.view import View, care, note, stop
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.rounding import step_near


def check_driving(view: View) -> Iterator[Finding]:
    """What to ask about license and rules; the program rules on neither."""
    both = _greater(view, Key.HAUL_RATINGS_TOGETHER, Key.HAUL_COMBINATION_LOAD)
    trailer = _greater(view, HaulKey.TRAILER_GVWR, Key.HAUL_GROSS)
    alone = _greater(view, HaulKey.TOW_GVWR, Key.HAUL_TOW_LOADED)
    if view.job.units is System.METRIC:
        yield from _driving_abroad(view, both, trailer, alone)
        return
    with_trailer = both >= calc.LICENSE_TOGETHER and trailer > calc.LICENSE_TRAILER
    if with_trailer or alone >= calc.LICENSE_TOGETHER:
        said = (
            f"vehicle and trailer come to {view.say(both, Kind.MASS)} together and the trailer "
            f"to {view.say(trailer, Kind.MASS)}" if with_trailer
            else f"the tow vehicle alone comes to {view.say(alone, Kind.MASS)}"
        )
        yield note(
            "haul.license",
            f"Ask whether the driver's license covers this: by rating or weight, {said}.",
            f"From {view.say(calc.LICENSE_TOGETHER, Kind.MASS)}, with a trailer above "
            f"{view.say(calc.LICENSE_TRAILER, Kind.MASS)} or with the vehicle alone, a commercial "
            "driver's license may be asked for.",
            "Ask the driver and the state's license office. This program does not rule on it.",
            calc.LICENSE, HaulKey.TOW_GVWR, HaulKey.TRAILER_GVWR, HaulKey.TOW_WEIGHT,
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
            calc.COMMERCIAL, HaulKey.TOW_GVWR, HaulKey.TRAILER_GVWR, HaulKey.TOW_WEIGHT,
        )


def _driving_abroad(
    view: View, both: float, trailer: float, alone: float
) -> Iterator[Finding]:
    """The same question, whatever it weighs: this program knows no limit but those of the US."""
    if not max(both, trailer, alone):
        return
    parts = [f"{what} {view.say(mass, Kind.MASS)}" for what, mass in (
        ("the trailer", trailer), ("the tow vehicle", alone), ("together", both)) if mass]
    yield note(
        "haul.license",
        "Ask whether the driver's license covers this, and which rules for commercial vehicles "
        f"apply: by rating or weight, {', '.join(parts)}.",
        "Each country has its own limits. As an example, US rules ask for a commercial license "
        f"from {view.say(calc.LICENSE_TOGETHER, Kind.MASS)} together with a trailer above "
        f"{view.say(calc.LICENSE_TRAILER, Kind.MASS)}, and look at commercial vehicles from "
        f"{view.say(calc.COMMERCIAL_FROM, Kind.MASS)}.",
        "Ask the driver and the license office of the place. This program does not rule on it.",
        calc.LICENSE, HaulKey.TOW_GVWR, HaulKey.TRAILER_GVWR, HaulKey.TOW_WEIGHT,
    )


def _greater(view: View, *keys: str) -> float:
    """The greater of those figures that are known; 0 while none is."""
    return max((v for key in keys if (v := view.value(key)) is not None), default=0.0)


_WHAT = {
    "haul.trailer": "The loaded trailer, {load}, is over its rating of {rating} by {over}.",
    HaulKey.AXLES: "The load on the axles, {load}, is over their rating of {rating} by {over}.",
    HaulKey.HITCH: "The loaded trailer, {load}, is over what the hitch may pull, {rating}, by "
    "{over}.",
    HaulKey.TONGUE_WEIGHT: "The {name}, {load}, is over what the hitch may carry, "
    "{rating}, by {over}.",
    "haul.tow": "The loaded trailer, {load}, is over what the tow vehicle may tow, {rating}, "
    "by {over}.",
    "haul.tow_vehicle": "The tow vehicle with the tongue or pin weight, {load}, is over its "
    "rating of {rating} by {over}.",
    "haul.combination": "Tow vehicle and loaded trailer, {load}, are over their rating "
    "together, {rating}, by {over}.",
}
_WHY = {
    "haul.trailer": "Frame, tires and brakes are made for the rating; over it they fail, or stop "
    "the trailer too late.",
    HaulKey.AXLES: "An axle, bearing or tire over its rating fails on the road.",
    HaulKey.HITCH: "A hitch over its rating can let the trailer go.",
    HaulKey.TONGUE_WEIGHT: "Too much on the hitch breaks it, and takes weight off the wheels that "
    "steer.",
    "haul.tow": "A trailer too heavy for the vehicle pushes it, and it cannot stop in time.",
    "haul.tow_vehicle": "Tires, springs and brakes of the vehicle are made for its rating.",
    "haul.combination": "Engine, gearbox and brakes are rated for both together.",
}
_LIGHTER = (
    "Do not move it so. Haul fewer or lighter coils (Coils step), or carry them on another "
    "vehicle. The plates decide, not this program."
)
_RATINGS = (
    HaulKey.TRAILER_GVWR, HaulKey.AXLES, HaulKey.AXLE_RATING, HaulKey.HITCH, HaulKey.HITCH_RATING,
    HaulKey.TONGUE_WEIGHT_RATING, HaulKey.TOW_GVWR, HaulKey.TOW_PULL, HaulKey.GCWR,
    HaulKey.TIE_OVER_LIMIT, HaulKey.TIE_DIRECT_LIMIT,
)
_CALLED: dict[str, str] = {
    HaulKey.HITCH: "what hitch and tow vehicle are rated for",
    HaulKey.TIES_OVER: "tie-downs",
    HaulKey.TIE_OVER_LIMIT: "working load limit of tie-downs side to side",
    HaulKey.TIE_DIRECT_LIMIT: "working load limit of tie-downs to the coil",
}
"""Names for those answers whose labels say too little in a sentence."""
_DIFFER = 0.10
"""Share by which tongue or pin weight, weighed and worked out, may differ (common practice, no
source)."""
_SLACK = 1e-9
_IN_WHOLE = {System.US: 100.0, System.METRIC: 100 / 0.45359237}
"""From where weights read in whole pounds or kilograms [lb]."""


def check_hauling(view: View) -> Iterator[Finding]:
    """All checks of hauling."""
    lines = [line for line in view.loads if line.place not in ("site", "shop")]
    if not lines:
        return
    for line in lines:
        if line.over and line.key in _WHAT:
            yield _over(view, line)
    yield from check_rack(view)
    yield from _hitch(view, lines)
    yield from check_tie_downs(view)
    yield from _missing(view, lines)
    yield from check_driving(view)


def _over(view: View, line: LoadLine) -> Finding:
    assert line.load is not None
    assert line.rating is not None
    system = view.job.units
    what = _WHAT[line.key].format(
        load=line.load.text(system), rating=line.rating.text(system), name=_hitch_name(view),
        over=view.say(_over_by(line.load, line.rating, system), line.load.kind),
    )
    do = _LIGHTER
    if line.needs:
        what = f"{what[:-1]}, and that is without what is not known yet."
    elif line.key == HaulKey.AXLES and line.load.note:
        do = f"Weigh the tongue or pin weight, which the axles need not carry. {do}"
    source = line.rating.source if line.rating.mark else calc.RATED
    return stop(line.key, what, _WHY[line.key], do, source, *line.answers, step="haul")


def _over_by(load: Figure, rating: Figure, system: System) -> float:
    """How much a load is over its rating [lb], as the two read: whoever takes one from the other
    finds that. Where they read the same, what is between them all the same."""
    exact = load.value - rating.value
    if rating.value < _IN_WHOLE[system]:
        return exact
    over = (step_near(load.as_read(system), load.kind, system)
            - step_near(rating.as_read(system), rating.kind, system))
    return over if over > 0 else exact


def _hitch_name(view: View) -> str:
    kind = view.job.haul.hitch
    return "tongue or pin weight" if kind is None else kind.load_name


def _hitch(view: View, lines: list[LoadLine]) -> Iterator[Finding]:
    load = next(line.load for line in lines if line.key == HaulKey.TONGUE_WEIGHT)
    if load is None:
        return
    least = view.figures.get(Key.HAUL_HITCH_LEAST, load)
    where = (HaulKey.TONGUE_WEIGHT, HaulKey.RACK_AT, HaulKey.GEAR_AT, HaulKey.CARGO_AT,
             HaulKey.EMPTY_TONGUE_WEIGHT, HaulKey.HITCH_TO_AXLES)
    gross = view.value(Key.HAUL_GROSS)
    if least.value <= 0:
        yield stop(
            "haul.tail_heavy",
            f"The trailer is heavy at its tail: {least.text(view.job.units)} on the hitch.",
            "It lifts the hitch and the rear of the vehicle, and sways until nobody can hold it.",
            "Do not move it so. Bring coils and gear forward, then weigh the tongue or pin weight.",
            least.source, *where,
        )
    elif gross is not None and load.value >= gross:
        yield stop(
            "haul.hitch_impossible",
            f"The tongue or pin weight, {load.text(view.job.units)}, is as much as the whole "
            f"loaded trailer, {view.text(Key.HAUL_GROSS)}.",
            "Then nothing would rest on the axles; one of the weights is wrong.",
            "Weigh the loaded trailer and the tongue or pin weight again.",
            load.source, *where, MachineKey.WEIGHT,
        )
    else:
        yield from check_hitch_share(view, where)
    yield from _disagree(view, where)


def _disagree(view: View, where: tuple[str, ...]) -> Iterator[Finding]:
    weighed, moments = view.value(HaulKey.TONGUE_WEIGHT), view.value(Key.HAUL_HITCH_MOMENTS)
    if weighed is None or moments is None:
        return
    if abs(weighed - moments) <= _DIFFER * max(abs(weighed), abs(moments)) * (1 + _SLACK):
        return
    yield care(
        "haul.hitch_disagree",
        f"The {_hitch_name(view)} was weighed at {view.text(HaulKey.TONGUE_WEIGHT)}; from where "
        f"things sit it comes to {view.text(Key.HAUL_HITCH_MOMENTS)}. The worse is held to "
        "the ratings.",
        "They should nearly agree. One of them is not what will be on the road.",
        "Weigh again with this load, and measure again where things sit; take out what was "
        "weighed with another load.",
        calc.BALANCE, *where,
    )


def _missing(view: View, lines: list[LoadLine]) -> Iterator[Finding]:
    unrated = dict.fromkeys(
        key for line in lines if line.rating is None for key in line.needs if key in _RATINGS
    )
    if unrated:
        yield care(
            "haul.ratings_missing",
            f"Not known: {_names(unrated)}. Read it off the plate.{_come_to(view, lines)}",
            "What is not known clears nothing: the load may be over it.",
            "Look for the plates of trailer, axles, hitch and vehicle, and the tags of "
            "tie-downs; ask their makers where one is missing.",
            calc.RATED, *unrated,
        )
    unweighed = dict.fromkeys(
        key for line in lines if line.rating is not None and line.load is None
        for key in line.needs if key not in unrated and key in ANSWERS
    )
    unweighed |= dict.fromkeys(k for line in lines for k in line.needs if k == HaulKey.TIES_OVER)
    if unweighed:
        yield care(
            "haul.loads_missing",
            f"Not held to its rating until this is known: {_names(unweighed)}.",
            "A rating without its load clears nothing.",
            "Give what is missing; a scale is better than a guess.",
            calc.RATED, *unweighed,
        )


def _come_to(view: View, lines: list[LoadLine]) -> str:
    """What the trailer weighs, or what is known of it, where it is held to no rating."""
    line = next(line for line in lines if line.key == "haul.trailer")
    load = line.load or line.weight
    if load is None or line.known:
        return ""
    words = "is" if line.load is not None else "is at least"
    return f" The loaded trailer {words} {load.text(view.job.units)}."


def _names(keys: dict[str, None]) -> str:
    """The answers by their labels; those of other steps are all about the coils."""
    names = [
        _CALLED.get(key) or _small(ANSWERS[key].label)
        for key in keys if key.startswith(("haul.", MachineKey.WEIGHT))
    ]
    if len(names) < len(keys):
        names.append("the coils of the order")
    return "; ".join(names)


def _small(label: str) -> str:
    return label[:1].lower() + label[1:]
