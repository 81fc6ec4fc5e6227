"""Checks of the coils: weights, the heaviest they may come, minimums, and how they are stored."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import assert_never

from coilwright.calc import sources
from coilwright.calc.alike import ALIKE, as_long_as
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.choices import YesNo
from coilwright.job.coils import Storage
from coilwright.job.edit import head_value
from coilwright.job.plain_name import plain_name
from coilwright.plan.coils.limits import SIZE_TAKEN
from coilwright.plan.coils.lots_of_new import all_told, lots_that_came
from coilwright.plan.haul.came import came_at
from coilwright.plan.haul.lifting import gear_limit
from coilwright.plan.order_limits import (
    heaviest_coil,
    largest_coil,
    thickest_allowed,
    too_thick_from,
)
from coilwright.plan.result import CoilPlan, Limit
from coilwright.plan.view import View, acceptable, care, in_pounds, note
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.keys import Key, lift_key, part_of, row_key
from coilwright.words.counting import capitalized, counted, in_series, listed, noun


def check_coils(view: View) -> Iterator[Finding]:
    """All checks of the coils to order."""
    if not view.coils:
        return
    yield care(
        "coils.lifting", f"{_heaviest_words(view)} Nobody under it, ever.",
        "A coil that slips kills. Gear must be rated for the coil and its attachment together.",
        "Read the rating plates of forklift, slings, arbors and rack; they decide, not this "
        "program.",
        sources.SLINGS, CoilsKey.SITE_LIFT,
    )
    yield from _alike(view)
    yield from _at_most(view)
    yield from _thick_metal(view)
    yield from _minimum(view)
    if view.governing is not None:
        yield note(
            "coils.governs",
            f"{capitalized(view.governing.words)} limits a coil to {view.text(Key.COIL_LONGEST)}"
            f"{_smaller(view, view.governing)}.",
            *_governs(view.governing),
            view.governing.length.source, CoilsKey.INSIDE_DIAMETER,
        )
    if view.job.coils.site_lift is None and "haul.site_coil_limit" not in view.figures:
        most = max(view.figures[row_key("coil", c.number, "heaviest")].value for c in view.coils)
        yield acceptable(
            "coils.site_lift_unknown", in_pounds(most),
            "What can be lifted at the site is not known.",
            "A coil that cannot be unloaded goes back on the delivery truck at your cost.",
            f"{_head_says(view)}{_find_out(view)}",
            sources.TRADE, CoilsKey.SITE_LIFT, lift_key("site", "by"),
        )


def _heaviest_words(view: View) -> str:
    """The heaviest coil as ordered and as it may come; once one came over that, what it weighs."""
    came = Key.COIL_CAME in view.figures
    coil = max(view.coils, key=lambda c: came_at(view.job, c) if came else c.mass.value)
    ordered = coil.mass.text(view.job.units)
    most = f"{view.text(f'coil.{coil.number}.heaviest')}{_held(view, coil)}"
    if came:
        return (f"Coil {coil.number} came at {view.text(Key.COIL_CAME)}: ordered at {ordered}, the "
                f"heaviest it might come was {most}.")
    return f"The heaviest coil is ordered at {ordered}; the heaviest it may come is {most}."


def _alike(view: View) -> Iterator[Finding]:
    """Coils of nearly one length that are ordered alike, and what that takes."""
    same = [coil for coil in view.coils if coil.length.formula is as_long_as]
    if not same:
        return
    sizes = Counter(coil.length.text(view.job.units) for coil in view.coils)
    listed, others = (", ".join(f"{count} × {size}" for size, count in sizes.items()
                                if (count > 1) is alike) for alike in (True, False))
    if others:
        listed += f"; not {others}, for which it would take more metal than it is worth"
    weight = f"{view.text(Key.COIL_LONGER)}, {view.text(Key.ACCOUNT_LONGER)}"
    money = view.figures.get(part_of(Key.ACCOUNT_LONGER, "money"))
    price = f", {money.text(view.job.units)}" if money is not None else ""
    yield note(
        "coils.alike", f"Coils of nearly one length are ordered alike: {listed}.",
        f"It takes {weight}{price} more than is wanted, which is spare metal on them. Sizes that "
        "differ by a hand are mixed up when they are slit, tagged and loaded.",
        "There is nothing to do: the run sheet says what is cut from each.", ALIKE, CoilsKey.SPARE,
    )


def _find_out(view: View) -> str:
    """How it is found out; where Haul names the gear there, what it lacks is put in there."""
    by = view.job.haul.site.by
    if by is not None and by.has_plates:
        return (f"Haul has the {by} there, but not yet all that its plate says and how far out the "
                "coil sits: put that in on Haul, or what it lifts in “Site can lift”.")
    return ("Find out what forklift or crane will be there and what its plate says at the reach "
            "needed, and put it in “Site can lift”; or say on Haul by what coils are lifted there, "
            "and its ratings.")


def _smaller(view: View, limit: Limit) -> str:
    """That no coil is ordered in the size taken, as the panels have come to fit a smaller one."""
    longest = max((coil.length for coil in view.coils), key=lambda one: one.value)
    if limit.words != SIZE_TAKEN or longest.value > limit.length.value * (1 - _SAME_SIZE):
        return ""
    return (f", and a smaller one of them holds the panels: no coil is ordered longer than "
            f"{longest.text(view.job.units)}")


def _governs(limit: Limit) -> tuple[str, str]:
    """Why a limit is one, and what to do: to a supplier its own limits are no news."""
    if limit.key != "supplier":
        return ("Which limit comes first depends on metal, width and inside diameter.",
                "Tell the supplier this limit with the order: a coil ordered this long may not "
                "come over it, and max weight and max OD on the order hold as shipped.")
    if limit.words == SIZE_TAKEN:
        return ("Of the sizes that machine and site take, it made the roof with the least metal "
                "when the quote was awarded.",
                "There is nothing to do: each coil is of the size that the order names, and max "
                "weight and max OD hold as shipped.")
    return ("The supplier ships no heavier coil; machine and site would take one.",
            "There is nothing to do: it is the supplier's own limit, and max weight and max OD on "
            "the order hold as shipped.")


def _held(view: View, coil: CoilPlan) -> str:
    """That the order holds a coil to less than its tolerance would let it come at."""
    most = heaviest_coil(view, coil)
    if most.key == row_key("coil", coil.number, "heaviest"):
        return ""
    return f" by the tolerance, and max weight on the order {most.text(view.job.units)}"


def _head_says(view: View) -> str:
    """What the head of the order says of the gear, as a weight to be checked; empty for none."""
    said = head_value(view.job, CoilsKey.SITE_LIFT)
    if said is None or not isinstance(said, float):
        return ""
    return (f"The head of the order says {view.say(said, Kind.MASS)}: F3 in “Site can lift” takes "
            "that as a guess. ")


def _at_most(view: View) -> Iterator[Finding]:
    """Ordered inside the limits, but over them at the heaviest a coil may come."""
    on = view.job.coils.coil_on
    rack = on is None or on.is_rack
    loads = (MachineKey.ARBOR_LOAD, Key.LIMIT_RACK_MASS) if rack else (MachineKey.DECOILER_LOAD,)
    place = MachineKey.RACK_DIAMETER if rack else MachineKey.DECOILER_DIAMETER
    for key, part, kind, limits, holder in (
        ("heaviest", "heaviest", Kind.MASS, loads, "the machine takes"),
        ("largest", "largest", Kind.WIDTH, (place,), "the machine takes"),
        ("site", "heaviest", Kind.MASS, (CoilsKey.SITE_LIFT,), "the site's gear lifts"),
    ):
        most = min((v for k in limits if (v := view.value(k)) is not None), default=None)
        if most is None or (key == "site" and _from_the_gear(view, most)):
            continue
        over = [
            (coil, figure)
            for coil in view.coils
            if (figure := view.figures.get(f"coil.{coil.number}.{part}")) is not None
            # As the order says it (`heaviest_coil`): no coil is held to a hair of a pound.
            and figure.as_read(view.job.units) > most * (1 + 1e-9)
        ]
        if over:
            coil, figure = max(over, key=lambda pair: pair[1].value)
            yield care(
                f"coils.at_most_{key}",
                f"By the supplier's tolerance {coils_named([one for one, _ in over])} may come at "
                f"{'up to ' if len(over) > 1 else ''}{figure.text(view.job.units)}; "
                f"{holder} {view.say(most, kind)}"
                f"{_on_the_order(view, coil, kind, most)}.",
                "A coil inside the limit when ordered can arrive over it.",
                "The order says that max weight and max OD hold as shipped, and asks for a call "
                "where thick metal would reach them before the least length.",
                sources.SHARE,
                CoilsKey.TOLERANCE if view.job.coils.tolerance_over is None
                else CoilsKey.TOLERANCE_OVER,
            )


def coils_named(coils: Sequence[CoilPlan]) -> str:
    """Coils of the order by their numbers: `coil 2`, `coils 1, 2, 3`."""
    return f"{noun(len(coils), 'coil')} {listed([str(one.number) for one in coils], 6)}"


def _on_the_order(view: View, coil: CoilPlan, kind: Kind, most: float) -> str:
    """What the order calls a limit that a coil is held to as shipped, where it is that one; and
    what it says, where it must say less."""
    held = (heaviest_coil if kind is Kind.MASS else largest_coil)(view, coil)
    if held.value != most:
        return ""
    name, said = f"max {'weight' if kind is Kind.MASS else 'OD'}", held.text(view.job.units)
    return f", which is {name} on the order" if said == view.say(most, kind) else (
        f"; the order says {name} {said}")


def _from_the_gear(view: View, most: float) -> bool:
    """Whether the site's weight is the gear's limit, which allows for the heaviest it may come."""
    limit = gear_limit(view.figures)
    return limit is not None and limit[0] == most


def _thick_metal(view: View) -> Iterator[Finding]:
    """Metal that the order lets come so thick that a coil of it cannot meet the order's limits."""
    fits, allowed = too_thick_from(view), thickest_allowed(view)
    if fits is None or allowed is None:
        return
    yield care(
        "coils.thick_metal",
        f"The order lets the metal come at {view.say(allowed, Kind.THICKNESS)}; "
        f"{fits.over(view.job.units)} reaches {fits.limit} before min "
        f"length{fits.counting(view.job.units)}.",
        "A supplier whose metal is that thick has to call before slitting, as the order says, or "
        "ships short.",
        "Agree on a smaller tolerance of thickness, allow more over the ordered weight where what "
        "carries the coil allows it, or plan smaller coils.",
        sources.SHARE, MetalKey.THICKNESS_TOLERANCE,
    )


def _minimum(view: View) -> Iterator[Finding]:
    least, ordered = view.job.coils.minimum_order, view.value(Key.COIL_MASS_ORDERED)
    if least is not None and ordered is not None and ordered < least - 1e-9:
        yield acceptable(
            "coils.minimum", in_pounds(ordered, least),
            f"The order is {view.text(Key.COIL_MASS_ORDERED)}; the supplier's minimum is "
            f"{view.say(least, Kind.MASS)}.",
            "Below the minimum suppliers refuse, or charge for the whole of it.",
            "Ask what they charge, compare another supplier, or take trim metal with it.",
            sources.TRADE, CoilsKey.MINIMUM_ORDER,
        )


_SAME_SIZE = 1e-3
"""As a share: sizes this near are one, for an order is rounded to be read. Common practice, no
source."""
_NEW = "new coils"
TRIM_OF_ONE_LOT = "Cut all pieces of one chimney, or of one edge, from one lot."
"""What is to be done where blanks for trim are cut from coils of several lots."""


def check_keeping(view: View) -> Iterator[Finding]:
    """Coils that get wet, film in the sun, and panels from more than one lot."""
    yield from _wet(view)
    yield from _film(view)
    yield from _lots(view)


def _wet(view: View) -> Iterator[Finding]:
    storage = view.job.coils.storage
    match storage:
        case None | Storage.ROOF:
            return
        case Storage.COVERED:
            open_air = False
        case Storage.OPEN:
            open_air = True
        case _:
            assert_never(storage)
    level = care if open_air else note
    yield level(
        "coils.wet_storage", f"Coils are stored {storage}.",
        "Water creeps between the wraps and cannot dry. It stains the metal and lifts paint, and "
        "no warranty covers it." + ("" if open_air else " Under a tight cover it condenses."),
        "Stand them dry under a roof. Where that cannot be, off the ground, tilted to drain and "
        "covered so that air passes; open and look at a wet coil at once. Chock every coil.",
        sources.TRADE, CoilsKey.STORAGE,
    )


def _film(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    painted = metal.finish is not None and metal.finish.is_paint
    if painted and metal.film is YesNo.YES and view.job.coils.storage is Storage.OPEN:
        yield care(
            "metal.film_sun", "The coils have film on them and stand in the open.",
            "Film left in the sun bakes onto the paint and will not peel.",
            "Keep them out of the sun, ask the supplier how many days the film stands, and peel it "
            "before or as panels go on: on the roof it is slippery underfoot.",
            sources.TRADE, MetalKey.FILM, CoilsKey.STORAGE,
        )


def _lots(view: View) -> Iterator[Finding]:
    """Panels from coils on hand and new ones, or from coils on hand of different lots.

    No answer changes it: the list of coils on hand does, on its step.
    """
    on_hand = view.job.on_hand
    of_plane: defaultdict[str, set[str]] = defaultdict(set)  # trim meets on no plane
    all_lots: dict[str, str] = {}
    trim_lots: dict[str, str] = {}  # of what nothing but blanks is cut from
    of_trim: dict[str, str] = {}
    for used in view.from_stock:
        own = on_hand[used.index]
        lot = own.lot.strip()
        # A coil whose lot nobody knows may be of any: it counts as one of its own.
        mark = plain_name(lot) or f"\n{used.index}"
        name = f"lot {lot}" if lot else f"coil {own.tag} (lot not known)"
        (all_lots if any(cut.plane for cut in used.cuts) else trim_lots)[mark] = name
        for cut in used.cuts:
            of_plane[cut.name] |= {mark} if cut.plane else set()
            of_trim |= {} if cut.plane else {mark: name}
    if not all_lots and not trim_lots:
        return
    for coil in view.coils:
        if any(cut.plane for cut in coil.cuts):
            all_lots["\n"] = _NEW
        for cut in coil.cuts:
            of_plane[cut.name] |= {"\n"} if cut.plane else set()
            of_trim |= {} if cut.plane else {"\n": _NEW}
    # The tags of new coils tell of how many lots those are; until they come they are of one.
    came, taken_on = lots_that_came(view), "; ".join(sorted(all_lots.values()))
    if came:
        new = f"{_NEW} of {_lots_named(came)}"
        all_lots, of_trim = ({mark: new if mark == "\n" else name for mark, name in lots.items()}
                             for lots in (all_lots, of_trim))
    apart = {mark: name for mark, name in trim_lots.items() if mark not in all_lots}
    why = "Two production lots differ in shade or sheen, and it shows where they meet."
    trim = f" {TRIM_OF_ONE_LOT}" if len(of_trim) > 1 else ""
    if apart and len(all_lots) == 1:
        yield note(
            "coils.lots", f"Trim comes from {in_series(list(of_trim.values()))}, the panels from "
            f"{listed(list(all_lots.values()))}.", why,
            f"Lay trim and panel side by side in daylight before you cut.{trim}", sources.TRADE,
            step="coils")
    if len(all_lots) < 2:
        return
    mixed = [name for name, marks in of_plane.items() if len(marks) > 1]
    came = came if "\n" in all_lots and all_told(view) else {}
    lots = {mark for mark in all_lots if mark != "\n" or not came} | came.keys()
    if len(lots) < 2:
        return  # the new coils came of the lot that is on hand
    said = f"The panels come from {counted(len(lots), 'lot')}: {listed(list(all_lots.values()))}"
    do = ("Lay samples side by side in daylight first. Keep a coil on hand to planes of its own, "
          f"or to trim, in the list of coils on hand, or take all of it new from one lot.{trim}")
    if mixed and view.job.metal.may_be_painted:
        yield acceptable(
            "coils.lots", f"{taken_on}: {', '.join(mixed)}",
            f"{said}; they meet on {listed(mixed)}.", why, do, sources.TRADE, step="coils")
    elif mixed:
        yield care("coils.lots", f"{said}; they meet on {listed(mixed)}.", why, do, sources.TRADE,
                   step="coils")
    else:
        each = "new coils or from one lot on hand" if len(came) > 1 else "one of them"
        yield note("coils.lots", f"{said}, each plane from {each}.", why, do, sources.TRADE,
                   step="coils")


def _lots_named(came: Mapping[str, str]) -> str:
    return f"{noun(len(came), 'lot')} {in_series([*came.values()])}"
