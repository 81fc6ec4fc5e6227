"""Checks of lifting: gear over its rating, legs too flat, plates nobody has read, people clear."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import assert_never

from coilwright.calc import lifting as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.haul import HaulKey
from coilwright.job.haul import LiftBy, LiftGear
from coilwright.plan.result import NOT_KNOWN, LoadLine
from coilwright.plan.view import View, care, stop
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.keys import row_key
from coilwright.values.source import PRACTICE, Grade, Source

_WHERE = {"site": "At the site", "shop": "In the shop"}
_PLATES = Source("the plates and tags of the gear", Grade.PLATE)
_SLACK = 1e-9
_LIGHTER = (
    "Order lighter coils: one key on this step takes the limit to the Coils step. Or bring gear "
    "whose plates cover the load."
)
_ON_HAND = (
    "This coil is on hand: wind some off, or leave it out of this job. Or bring gear whose plates "
    "cover the load."
)


def check_lifting(view: View) -> Iterator[Finding]:
    """All checks of lifting, place by place; nothing is said of gear that nobody has named."""
    for place, where in _WHERE.items():
        gear: LiftGear = getattr(view.job.haul, place)
        key = f"haul.{place}_"
        line = next((one for one in view.loads if one.place == place), None)
        match gear.by:
            case None:
                continue
            case LiftBy.OTHER:
                yield _others(view, key, where)
            case LiftBy.FORKLIFT:
                yield from _own_gear(_fork, view, key, where, line)
            case LiftBy.SLINGS:
                yield from _own_gear(_slings, view, key, where, line)
            case _:
                assert_never(gear.by)
        yield _people(key, where)


def _own_gear(
    judge: Callable[[View, str, str, LoadLine], Iterator[Finding]],
    view: View, key: str, where: str, line: LoadLine | None,
) -> Iterator[Finding]:
    if line is None:
        return
    yield from judge(view, key, where, line)
    yield from _missing(view, key, where, line)
    yield from _limit(view, key, where)


def _fork(view: View, key: str, where: str, line: LoadLine) -> Iterator[Finding]:
    system = view.job.units
    if line.over and line.load is not None and line.rating is not None:
        yield stop(
            f"{key}fork",
            f"{where} the forklift would lift {line.load.text(system)}; with the coil's middle "
            f"{_middle(view, key)} from the fork face it carries {line.rating.text(system)}.",
            "A forklift over its rating tips forward, and the coil rolls off over whoever is in "
            "front.",
            _lighter(line), calc.WITHIN, *line.answers,
        )
    if line.rating is None:
        return
    plate = view.figures[f"{key}fork_capacity"]
    derated = line.rating.value < plate.value * (1 - _SLACK)
    yield care(
        f"{key}fork_plate",
        f"{where} only the plate of this forklift with this attachment decides, not the "
        f"{line.rating.text(system)} worked out here.",
        (f"The plate's {plate.text(system)} is for a load whose middle lies nearer; farther out "
         "it falls. " if derated else "")
        + "A boom, ram or hook lowers what the truck may lift, and mast height and ground do too. "
        "The two together need a marked rating of their own.",
        "Read both plates with the attachment on. Where there is none for the two together, do "
        "not lift.",
        calc.ATTACHED, f"{key}fork_capacity", f"{key}attachment", f"{key}coil_center",
    )


def _lighter(line: LoadLine) -> str:
    """What makes the load lighter: only coils that are yet to be ordered can come lighter."""
    figure = line.load
    while figure is not None and figure.terms and figure.key.startswith(f"haul.{line.place}_"):
        figure = figure.terms[0]
    return _LIGHTER if figure is None or figure.key.startswith("coil.") else _ON_HAND


def _middle(view: View, key: str) -> str:
    own = f"{key}coil_center"
    return view.text(own if own in view.figures else f"{key}middle")


def _slings(view: View, key: str, where: str, line: LoadLine) -> Iterator[Finding]:
    system = view.job.units
    if line.over and line.load is not None and line.rating is not None:
        yield stop(
            f"{key}slings",
            f"{where} one sling leg would be pulled with {line.load.text(system)}; it is rated "
            f"for {line.rating.text(system)}.",
            "Legs that lean pull harder than the weight they share. A leg that parts drops the "
            "coil at once.",
            f"{_lighter(line)} Longer slings stand steeper and pull less.",
            calc.TENSION, *line.answers,
        )
    yield from _angle(view, key, where)
    two = view.figures.get(f"{key}tension_two")
    legs = getattr(view.job.haul, key[5:9]).legs
    if legs is not None and legs > 2:
        said = f", which would be pulled with {two.text(system)} each" if two is not None else ""
        if two is not None and line.rating is not None and (
            two.value > line.rating.value * (1 + _SLACK)
        ):
            said += f": over the {line.rating.text(system)} one is rated for"
        yield care(
            f"{key}sling_legs",
            f"{where} count on two of the {legs} legs for a stiff load such as a coil{said}.",
            "A stiff load hangs on the shortest legs. The others can be slack.",
            "Put in two legs, unless a rigger says that more of them carry.",
            PRACTICE, f"{key}legs",
        )


def _angle(view: View, key: str, where: str) -> Iterator[Finding]:
    given, found = view.value(f"{key}angle"), view.value(f"{key}leg_angle")
    length, height = view.value(f"{key}sling_length"), view.value(f"{key}sling_height")
    sizes = (f"{key}sling_length", f"{key}sling_height")
    if length is not None and height is not None and height >= length:
        yield stop(
            f"{key}sling_lengths",
            f"{where} the hook is {view.text(sizes[1])} above the lift points, and the sling is "
            f"{view.text(sizes[0])} long.",
            "A leg that leans is longer than the height it spans, so one of the two is wrong.",
            "Measure again: the leg from hook to lift point, the height straight up. For one leg "
            "that hangs straight give 90° and no lengths.",
            calc.TENSION, *sizes,
        )
        return
    angles = [angle for angle in (given, found) if angle is not None]
    if not angles:
        return
    flattest = min(angles)
    said = view.say(flattest, Kind.ANGLE)
    if flattest < calc.FLATTEST * (1 - _SLACK):
        yield stop(
            f"{key}sling_flat",
            f"{where} the sling legs stand {said} from level. Under "
            f"{view.say(calc.FLATTEST, Kind.ANGLE)} nothing is worked out: no rating makes it "
            "right.",
            "Flat legs pull many times harder, bend what they hold and slip; a small change of "
            "angle then changes the pull much.",
            "Use longer slings or a spreader beam, so that the legs stand steeper.",
            calc.LEAST_ANGLE, f"{key}angle", *sizes,
        )
    elif flattest < calc.ADVISED * (1 - _SLACK):
        yield care(
            f"{key}sling_low",
            f"{where} the sling legs stand {said} from level; steeper than "
            f"{view.say(calc.ADVISED, Kind.ANGLE)} is better.",
            "The flatter the legs, the more each little change of angle adds to their pull.",
            "Use longer slings where the hook height allows.",
            calc.BETTER_ANGLE, f"{key}angle", *sizes,
        )
    if given is not None and found is not None and abs(given - found) > calc.DIFFER:
        yield care(
            f"{key}sling_differ",
            f"{where} the legs' angle is given as {view.say(given, Kind.ANGLE)}, and their "
            f"lengths make it {view.say(found, Kind.ANGLE)}. The flatter counts here.",
            "Only one of the two can be right, and the pull in the legs rests on it.",
            "Measure again, and take one of them out.",
            PRACTICE, f"{key}angle", *sizes,
        )


def _missing(view: View, key: str, where: str, line: LoadLine) -> Iterator[Finding]:
    """What nobody has read off the gear yet; what is there but refused has its own stop."""
    needs = [n for n in line.needs if n.startswith(key) and ANSWERS[n].value(view.job) is None]
    if not needs:
        return
    named = [ANSWERS[need].label.partition(": ")[2] for need in needs]
    yield care(
        f"{key}ratings_missing",
        f"{where}, {', '.join(named)}: {NOT_KNOWN}.",
        "While a rating is not known nothing is cleared to be lifted, however light it looks.",
        "Read the plate or tag of every part, attachment too. Gear without one lifts nothing.",
        _PLATES, *needs,
    )


def _limit(view: View, key: str, where: str) -> Iterator[Finding]:
    limit, told = view.figures.get(f"{key}coil_limit"), view.value(CoilsKey.SITE_LIFT)
    if limit is None or told is None or told <= limit.value * (1 + _SLACK):
        return
    yield care(
        f"{key}limit_lower",
        f"{where} the gear takes a coil ordered at {limit.text(view.job.units)}; the Coils step "
        f"says {view.text('coils.site_lift')} can be lifted.",
        "The order is cut to the weight on the Coils step, which is more than this gear takes.",
        "Take the limit over to the Coils step, or correct what is said of the gear.",
        limit.source, CoilsKey.SITE_LIFT, f"{key}by", step="haul",
    )


def _others(view: View, key: str, where: str) -> Finding:
    weights = [view.figures[row_key("coil", c.number, "heaviest")] for c in view.coils]
    # A coil on hand is lifted whole, before it is slit to the strip.
    weights += [view.figures.get(f"haul.on_hand_{c.index + 1}", c.heaviest)
                for c in view.from_stock]
    heaviest = max(weights, key=lambda figure: figure.value, default=None)
    about = f", {heaviest.text(view.job.units)} for this order," if heaviest is not None else ""
    return care(
        f"{key}other",
        f"{where} somebody else's gear lifts. They must be told the heaviest weight{about} the "
        "coil's diameter and width, and which way its eye points.",
        "Nothing is worked out for gear whose plates are theirs to read; their plate decides.",
        "Tell them in writing before the day, and ask them to say that their gear covers it.",
        _PLATES, f"{key}by", HaulKey.EYE,
    )


def _people(key: str, where: str) -> Finding:
    return care(
        f"{key}people",
        f"{where}: nobody under a lifted coil, beside it or between it and truck or wall. Hold "
        "it with tag lines.",
        "A coil swings, turns and slips without warning, and nobody holds one by hand.",
        "Mark who gives signals and where everyone else stands. Inspect slings and hooks before "
        "each shift, pad the coil's edges, and keep hands from between sling and coil.",
        calc.KEEP_CLEAR, f"{key}by",
    )
