"""Checks of lifting: gear over its rating, legs too flat, plates nobody has read, people clear."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import assert_never

from coilwright.calc import lifting as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.haul import HaulKey
from coilwright.job.haul import CoilEye, LiftBy, LiftGear, SlingHitch, TurnedBy
from coilwright.plan.haul.came import weighs_at_most
from coilwright.plan.held import NOT_KNOWN, ON_NO_PLATE, LoadLine
from coilwright.plan.view import View, care, stop
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.keys import LiftPlace, hauled_key, lift_key, unslit_key
from coilwright.values.source import PRACTICE, Grade, Source

_WHERE: dict[LiftPlace, str] = {"site": "At the site", "shop": "In the shop"}
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
        line = next((one for one in view.loads if one.place == place), None)
        match gear.by:
            case None:
                continue
            case LiftBy.OTHER:
                yield _others(view, place, where)
            case LiftBy.FORKLIFT | LiftBy.SKID_STEER:
                yield from _own_gear(_fork, view, place, where, line)
            case LiftBy.SLINGS:
                yield from _own_gear(_slings, view, place, where, line)
            case _:
                assert_never(gear.by)
        yield _people(place, where)
    yield from _turning(view)


def _own_gear(
    judge: Callable[[View, LiftPlace, str, LoadLine], Iterator[Finding]],
    view: View, place: LiftPlace, where: str, line: LoadLine | None,
) -> Iterator[Finding]:
    if line is None:
        return
    yield from judge(view, place, where, line)
    yield from _missing(view, place, where, line)
    yield from _limit(view, place, where)


def _fork(view: View, place: LiftPlace, where: str, line: LoadLine) -> Iterator[Finding]:
    system = view.job.units
    gear: LiftGear = getattr(view.job.haul, place)
    skid_steer = gear.by is LiftBy.SKID_STEER
    if line.over and line.load is not None and line.rating is not None:
        at_most = "at most " if line.rating.key == lift_key(place, "fork_at_most") else ""
        yield stop(
            lift_key(place, "fork"),
            f"{where} the {gear.by} would lift {line.load.text(system)}; with the coil's middle "
            f"{_middle(view, place)} from the fork face it carries {at_most}"
            f"{line.rating.text(system)}.",
            f"A {gear.by} over its rating tips forward, and the coil rolls off over whoever is in "
            "front.",
            _lighter(line), calc.TIPPING if skid_steer else calc.WITHIN, *line.answers,
        )
    if skid_steer:
        yield from _tips(view, place, where, line)
    if line.rating is None:
        return
    plate = view.figures[lift_key(place, "operating_capacity" if skid_steer else "fork_capacity")]
    derated = line.rating.value < plate.value * (1 - _SLACK)
    yield care(
        f"haul.{place}_fork_plate",
        f"{where} only the plate of this {gear.by} with this attachment decides, not the "
        f"{line.rating.text(system)} worked out here.",
        (f"The plate's {plate.text(system)} is for a load whose middle lies nearer; farther out "
         "it falls. " if derated else "")
        + "A boom, ram or hook lowers what it may lift, and how high, how level and on what "
        "ground do too. The two together need a marked rating of their own.",
        "Read both plates with the attachment on. Where there is none for the two together, do "
        "not lift.",
        calc.TIPPING if skid_steer else calc.ATTACHED, plate.key, lift_key(place, "attachment"),
        lift_key(place, "coil_center"),
    )


def _tips(view: View, place: LiftPlace, where: str, line: LoadLine) -> Iterator[Finding]:
    """A skid steer's tipping load: never a rating, yet over it the machine tips for certain."""
    tips, load = view.figures.get(lift_key(place, "tips_at")), line.load or line.weight
    system = view.job.units
    if tips is None or load is None:
        return
    if load.value > tips.value * (1 + _SLACK) and not line.over:
        yield stop(
            f"haul.{place}_tips",
            f"{where} the skid steer tips at {tips.text(system)} with the coil so far out; it "
            f"would lift {load.text(system)}.",
            "At its tipping load the rear wheels leave the ground. It may lift far less.",
            _lighter(line), calc.TIPPING, lift_key(place, "tipping_load"),
            lift_key(place, "operating_capacity"), lift_key(place, "coil_center"),
            lift_key(place, "by"),
        )
    elif line.rating is None and lift_key(place, "operating_capacity") in line.needs:
        yield care(
            lift_key(place, "tipping_load"),
            f"{where} the tipping load of the skid steer is no rating: it tips there. Its rated "
            f"operating capacity: {NOT_KNOWN}.",
            "What it may lift is a share of the tipping load that its maker sets.",
            "Read the rated operating capacity, with forks, off its plate.",
            calc.TIPPING, lift_key(place, "operating_capacity"),
        )


def _lighter(line: LoadLine) -> str:
    """What makes the load lighter: only coils that are yet to be ordered can come lighter."""
    figure = line.load
    while figure is not None and figure.terms and figure.key.startswith(f"haul.{line.place}_"):
        figure = figure.terms[0]
    return _LIGHTER if figure is None or figure.key.startswith("coil.") else _ON_HAND


def _middle(view: View, place: LiftPlace) -> str:
    own = lift_key(place, "coil_center")
    return view.text(own if own in view.figures else lift_key(place, "middle"))


def _slings(view: View, place: LiftPlace, where: str, line: LoadLine) -> Iterator[Finding]:
    system = view.job.units
    if line.over and line.load is not None and line.rating is not None:
        yield stop(
            lift_key(place, "slings"),
            f"{where} one sling leg would be pulled with {line.load.text(system)}; it is rated "
            f"for {line.rating.text(system)}.",
            "Legs that lean pull harder than the weight they share. A leg that parts drops the "
            "coil at once.",
            f"{_lighter(line)} Longer slings stand steeper and pull less.",
            calc.TENSION, *line.answers,
        )
    yield from _angle(view, place, where)
    gear: LiftGear = getattr(view.job.haul, place)
    if gear.legs is not None and gear.legs > calc.STIFF:
        counts = min(gear.legs, gear.legs_sharing or calc.STIFF)
        pulled = "" if line.load is None else f", each pulled with {line.load.text(system)}"
        yield care(
            f"haul.{place}_sling_legs",
            f"{where} {counts} of the {gear.legs} legs are counted{pulled}.",
            "A coil is stiff and hangs on the shortest legs; the others can be slack.",
            "Count on no more than two, unless a rigger knows that more of them share the load.",
            calc.SHARING, lift_key(place, "legs"), lift_key(place, "legs_sharing"),
        )
    if gear.sling_hitch in (SlingHitch.BASKET, SlingHitch.CHOKER):
        yield from _held_otherwise(view, place, where, gear)


def _held_otherwise(view: View, place: LiftPlace, where: str, gear: LiftGear) -> Iterator[Finding]:
    """A basket or choker whose rating is worked out, for want of one on the tag."""
    held = view.figures.get(lift_key(place, "held_rating"))
    if held is None or gear.hitch_limit is not None:
        return
    source = calc.BASKET if gear.sling_hitch is SlingHitch.BASKET else calc.CHOKED
    yield care(
        f"haul.{place}_sling_factors",
        f"{where} a leg of the {gear.sling_hitch} is counted at {held.text(view.job.units)}, "
        "worked out from the vertical rating by usual factors.",
        "The tag's own rating for the hitch decides. Sling makers' factors differ, and edges and "
        "small bends take off more.",
        f"Read the {gear.sling_hitch} rating off the tag and give it. Where the tag has none, ask "
        "the sling's maker.",
        source, lift_key(place, "hitch_limit"), lift_key(place, "by_factors"),
    )


def _angle(view: View, place: LiftPlace, where: str) -> Iterator[Finding]:
    given, found = view.value(lift_key(place, "angle")), view.value(lift_key(place, "leg_angle"))
    sizes = lift_key(place, "sling_length"), lift_key(place, "sling_height")
    length, height = map(view.value, sizes)
    if length is not None and height is not None and height >= length:
        yield stop(
            f"haul.{place}_sling_lengths",
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
            f"haul.{place}_sling_flat",
            f"{where} the sling legs stand {said} from level. Under "
            f"{view.say(calc.FLATTEST, Kind.ANGLE)} nothing is worked out: no rating makes it "
            "right.",
            "Flat legs pull many times harder, bend what they hold and slip; a small change of "
            "angle then changes the pull much.",
            "Use longer slings or a spreader beam, so that the legs stand steeper.",
            calc.LEAST_ANGLE, lift_key(place, "angle"), *sizes,
        )
    elif flattest < calc.ADVISED * (1 - _SLACK):
        yield care(
            f"haul.{place}_sling_low",
            f"{where} the sling legs stand {said} from level; steeper than "
            f"{view.say(calc.ADVISED, Kind.ANGLE)} is better.",
            "The flatter the legs, the more each little change of angle adds to their pull.",
            "Use longer slings where the hook height allows.",
            calc.BETTER_ANGLE, lift_key(place, "angle"), *sizes,
        )
    if given is not None and found is not None and abs(given - found) > calc.DIFFER:
        yield care(
            f"haul.{place}_sling_differ",
            f"{where} the legs' angle is given as {view.say(given, Kind.ANGLE)}, and their "
            f"lengths make it {view.say(found, Kind.ANGLE)}. The flatter counts here.",
            "Only one of the two can be right, and the pull in the legs rests on it.",
            "Measure again, and take one of them out.",
            PRACTICE, lift_key(place, "angle"), *sizes,
        )


def _missing(view: View, place: LiftPlace, where: str, line: LoadLine) -> Iterator[Finding]:
    """What nobody has read off the gear yet; what is there but refused has its own stop."""
    needs = [n for n in line.needs
             if n.startswith(f"haul.{place}_") and ANSWERS[n].value(view.job) is None]
    if not needs:
        return
    out = lift_key(place, "coil_center")
    here = {lift_key(place, part) for part in ON_NO_PLATE}
    on_plates, on_none = ([ANSWERS[need].label.partition(": ")[2] for need in needs
                           if (need in here) is measured] for measured in (False, True))
    said = [f"{', '.join(on_plates)}: {NOT_KNOWN}"] if on_plates else []
    do = ["Read the plate or tag of every part, attachment too. Gear without one lifts nothing."] \
        if on_plates else []
    if on_none:
        said.append(f"{', '.join(on_none)}: not known, and on no plate")
        do.append(f"Fill {'that row' if len(on_none) == 1 else 'those rows'} by what is there"
                  + (", measured with the attachment on; or say yes at “coil at fork face” where "
                     "the coil touches it." if out in needs else "."))
    yield care(
        f"haul.{place}_ratings_missing",
        f"{where}{_weighs(view, place, line)}, {'; '.join(said)}.",
        "While a rating is not known nothing is cleared to be lifted, however light it looks.",
        " ".join(do), _PLATES, *needs, *((lift_key(place, "at_face"),) if out in needs else ()),
    )


def _weighs(view: View, place: LiftPlace, line: LoadLine) -> str:
    """What is known to hang on gear whose rating or pull is not known."""
    whole_key = lift_key(place, "load")
    load = line.weight or view.figures.get(whole_key)
    if load is None:
        return ""
    whole = load.key == whole_key
    return f", with {'' if whole else 'at least '}{load.text(view.job.units)} to lift"


def _turning(view: View) -> Iterator[Finding]:
    """A coil that comes eye up has to be turned on to its side before most machines run it."""
    haul = view.job.haul
    if haul.eye is not CoilEye.UP or not ANSWERS[HaulKey.TURNED_BY].asked(view.job):
        return
    who = haul.turned_by
    how = ("It is turned only by gear made for it: a coil turner, or slings and two hooks by a "
           "rigger's plan; never by prying or with one fork.")
    heaviest = max((figure.value for key, figure in view.figures.items()
                    if key.startswith(("coil.", "haul.coil.")) and key.endswith(".heaviest")),
                   default=None)
    weight = "" if heaviest is None else f", up to {view.say(heaviest, Kind.MASS)}"
    match who:
        case None:
            what = f"The coils come eye up{weight}. Who turns them on to their side is not known."
            do = "Ask for coils with the eye to the side, or name who turns them. "
        case TurnedBy.NOBODY:
            what = f"The coils come eye up{weight}, and are run so: nobody turns them."
            do = "Ask the machine's maker whether it runs a coil eye up. "
        case TurnedBy.SUPPLIER:
            what = f"The coils come eye up{weight}; the supplier is to turn them before they ship."
            do = "Write it on the order, and say here which way they then come. "
        case TurnedBy.TURNER | TurnedBy.RIGGER:
            what = f"The coils come eye up{weight}, and are turned by {who}."
            do = "Have the plates of that gear cover the heaviest coil, and keep everyone clear. "
        case _:
            assert_never(who)
    yield care(
        "haul.turning", what,
        "A coil being turned falls the last part of the way by itself.",
        f"{do}{how}", calc.TURNED, HaulKey.TURNED_BY, HaulKey.EYE,
    )


def _limit(view: View, place: LiftPlace, where: str) -> Iterator[Finding]:
    limit, told = view.figures.get(lift_key(place, "coil_limit")), view.value(CoilsKey.SITE_LIFT)
    if limit is None or told is None or told <= limit.value * (1 + _SLACK):
        return
    yield care(
        f"haul.{place}_limit_lower",
        f"{where} the gear takes a coil ordered at {limit.text(view.job.units)}; the Coils step "
        f"says {view.text(CoilsKey.SITE_LIFT)} can be lifted.",
        "The order is cut to the weight on the Coils step, which is more than this gear takes.",
        "Take the limit over to the Coils step, or correct what is said of the gear.",
        limit.source, CoilsKey.SITE_LIFT, lift_key(place, "by"), step="haul",
    )


def _others(view: View, place: LiftPlace, where: str) -> Finding:
    weights = [weighs_at_most(view.figures, view.job, c) for c in view.coils]
    # A coil on hand is lifted whole, before it is slit to the strip.
    weights += [view.figures.get(unslit_key(c.index + 1),
                                 view.figures.get(hauled_key(c.key), c.heaviest))
                for c in view.from_stock]
    heaviest = max(weights, key=lambda figure: figure.value, default=None)
    about = f", {heaviest.text(view.job.units)} for this order," if heaviest is not None else ""
    return care(
        f"haul.{place}_other",
        f"{where} somebody else's gear lifts. They must be told the heaviest weight{about} the "
        "coil's diameter and width, and which way its eye points.",
        "Nothing is worked out for gear whose plates are theirs to read; their plate decides.",
        "Tell them in writing before the day, and ask them to say that their gear covers it.",
        _PLATES, lift_key(place, "by"), HaulKey.EYE,
    )


def _people(place: LiftPlace, where: str) -> Finding:
    return care(
        f"haul.{place}_people",
        f"{where}: nobody under a lifted coil, beside it or between it and vehicle or wall. Hold "
        "it with tag lines.",
        "A coil swings, turns and slips without warning, and no hand can hold one.",
        "Mark who gives signals and where everyone else stands. Inspect slings and hooks before "
        "each shift, pad the coil's edges, and keep hands from between sling and coil.",
        calc.KEEP_CLEAR, lift_key(place, "by"),
    )
