"""Checks of hauling: what is over its plate, what is not known, how the trailer hangs."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import haul as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.machine import MachineKey
from coilwright.plan.haul.hitch_share import check_hitch_share
from coilwright.plan.haul.loads import came_at, each_came_at, weights_there
from coilwright.plan.haul.tie_downs import check_tie_downs
from coilwright.plan.result import LoadLine
from coilwright.plan.view import View, care, note, stop
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.rounding import step_near
from coilwright.values.source import PLATE
from coilwright.words.counting import counted


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
_HEAVIER = 0.01
"""Share by which weighed coils may be above the heaviest they may come (common practice, no
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
    yield from _rack(view)
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


def _rack(view: View) -> Iterator[Finding]:
    coils, arbors = view.value(HaulKey.RACK_COILS), view.job.machine.arbors
    if coils is not None and arbors is not None and coils > arbors:
        yield stop(
            "haul.rack_arbors",
            f"{_coils(coils)} on the rack; the machine has {counted(round(arbors), 'arbor')}.",
            "A coil that is on no arbor is held by nothing.",
            "Put no more coils on the rack than it has arbors; haul the others as cargo.",
            PLATE, HaulKey.RACK_COILS, MachineKey.ARBORS,
        )
    yield from _rack_over(view)
    yield from _rack_outdated(view, int(coils or 0))
    cargo, there = view.value(HaulKey.CARGO_COILS) or 0, view.value(Key.HAUL_COILS) or 0
    if there and (coils or 0) + cargo > there:
        yield care(
            "haul.more_coils",
            f"{_coils(coils or 0)} on the rack and {_coils(cargo).lower()} as cargo are more "
            f"than the {_coils(there).lower()} of this job.",
            "One coil is in two places, or coils of other jobs ride along whose weight is not "
            "known here.",
            "Count them again; give the weight of the coils on the rack if others are among "
            "them.",
            calc.RATED, HaulKey.RACK_COILS, HaulKey.CARGO_COILS, HaulKey.RACK_MASS,
        )


def _rack_over(view: View) -> Iterator[Finding]:
    """What rides on the rack against arbors and rack: as weighed, else as ordered and on hand."""
    for weight, limit, what, words, rating in _rack_loads(view):
        if weight > limit * (1 + _SLACK):
            yield stop(
                "haul.rack_over", f"{what} {view.say(weight, Kind.MASS)}; {words}.",
                "A rack over its load comes down, with people beside it or on the road.",
                "Take a coil off before it is moved; the rating plate decides.",
                rating.source, HaulKey.RACK_MASS, HaulKey.RACK_COILS, MachineKey.RACK_LOAD,
                MachineKey.ARBOR_LOAD,
            )
            return


def _rack_outdated(view: View, coils: int) -> Iterator[Finding]:
    """A weight on the rack that this many coils of the job cannot have, as after a change."""
    said = view.value(HaulKey.RACK_MASS)
    masses = sorted(
        (*(one for c in view.coils for one in weights_there(view.figures, view.job, c)),
         *(c.heaviest.value for c in view.from_stock)), reverse=True,
    )
    if said is None or not coils or coils > len(masses):
        return
    most = sum(masses[:coils])
    if said > most * (1 + _HEAVIER):
        yield care(
            "haul.rack_outdated",
            f"The coils on the rack are said to weigh {view.text(HaulKey.RACK_MASS)}; "
            f"{_coils(coils).lower()} of this order {'comes' if coils == 1 else 'come'} to "
            f"{view.say(most, Kind.MASS)} at most.",
            "The order may have changed since, or coils of another job ride along.",
            "Take the weight out, so that the order's coils count, or weigh again.",
            calc.RATED, HaulKey.RACK_MASS, HaulKey.RACK_COILS,
        )


def _rack_loads(view: View) -> Iterator[tuple[float, float, str, str, Figure]]:
    """Weight, limit, both in words, and the rating: of one arbor, of those used, of the rack."""
    coils, arbors = view.value(HaulKey.RACK_COILS), view.value(MachineKey.ARBORS)
    each, rack = (view.figures.get(f"machine.{name}") for name in ("arbor_load", "rack_load"))
    weighed = view.value(HaulKey.RACK_MASS)
    # Coils that are cut from on the rack are held to it as ordered, where they are ordered.
    on = view.job.coils.coil_on
    floor = on is not None and not on.is_rack
    masses = sorted(
        (*(one for c in view.coils for one in (
            weights_there(view.figures, view.job, c)
            if floor or each_came_at(view.job, c) else
            (max(c.mass.value, came_at(view.job, c)),))),
         *(c.heaviest.value for c in view.from_stock)), reverse=True,
    )[: int(coils or 0)]
    used = coils or arbors
    if weighed is not None:
        what, weight = "The coils on the rack weigh", weighed
        if each is not None and used:
            says = each.text(view.job.units)
            words = f"one arbor carries {says}" if used == 1 else (
                f"each of {counted(round(used), 'arbor')} carries {says}")
            yield weight, each.value * used, what, words, each
    else:
        what, weight = "The coils on the rack come to", sum(masses)
        if each is not None and masses and floor:
            words = f"one arbor carries {each.text(view.job.units)}"
            yield masses[0], each.value, "The heaviest coil on the rack comes to", words, each
    if rack is not None and arbors != 1:
        yield weight, rack.value, what, f"the rack carries {rack.text(view.job.units)}", rack


def _coils(number: float) -> str:
    return "No coil" if number == 0 else counted(round(number), "coil")


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
