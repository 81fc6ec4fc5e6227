"""Slings: how many legs pull, at which angle, and what one carries as it is held."""

from __future__ import annotations

from typing import assert_never

from coilwright.calc import lifting as calc
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.choices import YesNo
from coilwright.job.haul import SlingHitch
from coilwright.plan.haul.lift_place import Place, heaviest_lifted
from coilwright.plan.haul.loads import load_line
from coilwright.plan.ledger import Lack, Lacking, Term, known, missing
from coilwright.plan.result import CoilPlan, LoadLine, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.keys import (
    LiftPart,
)
from coilwright.values.standing import Standing


def slings_line(
    at: Place, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> LoadLine:
    """Slings: the pull in one leg, held to what that leg carries as it is held."""
    weight, _ = heaviest_lifted(at.ledger, coils, from_stock)
    attachment, rating = at.answer("attachment"), _leg_rating(at)
    legs = _legs(at)
    load = at.put("load", "coil and attachment", calc.lifted, weight, attachment)
    angle, lengths = _leg_angle(at)
    picks = at.keys("angle", "sling_length", "sling_height")

    def tension(name: LiftPart, text: str, on: Term, n: Term) -> Term:
        formula = calc.leg_tension_by_lengths if lengths else calc.leg_tension
        return at.put(name, text, formula, on, n, *(lengths or (angle,)), picks=picks)

    stands = known(angle)
    if stands is not None and stands.value < calc.FLATTEST * (1 - 1e-9):
        because = "the legs are flatter than 30° from level"
        needs = at.keys("sling_length", "sling_height") if lengths else at.keys("angle")
        angle, lengths = Lack(at.key("angle"), at.label("legs' angle"), needs, because), ()
        at.no_limit(because)
    else:
        formula, out = (
            (calc.slings_carry_by_lengths, lengths[::-1]) if lengths
            else (calc.slings_carry, (angle,))
        )
        carries = at.put("slings_carry", "what the slings carry together", formula, legs, rating,
                         *out, picks=picks)
        at.limit(carries, attachment)
    pull = tension("tension", "pull in one leg", load, legs)
    alone = None
    if known(load) is None and known(weight) is not None:
        alone = known(tension("tension_coil", "pull in one leg, coil alone", weight, legs))
    names = at.keys("sling_hitch", "leg_rating", "hitch_limit", "choke_angle", "angle", "legs",
                    "legs_sharing", "sling_length", "sling_height", "attachment", "by")
    return load_line(at.ledger, at.key("slings"), at.label("one sling leg"), at.place, pull,
                     rating, *names, CoilsKey.SITE_LIFT,
                     at_least=alone, weight=known(load) or known(weight))


def _leg_rating(at: Place) -> Term:
    """What one leg carries, held as it is: by the tag for that hitch, else as the user lets it."""
    hitch, key, text = at.gear.sling_hitch, at.key("sling_hitch"), "rating of one leg, so held"
    match hitch:
        case None:
            rated = Lacking(missing((at.answer("leg_rating"),))).needs
            return at.ledger.lack(at.key("held_rating"), at.label(text), (key, *rated))
        case SlingHitch.VERTICAL:
            return at.answer("leg_rating")
        case SlingHitch.BASKET:
            if at.gear.hitch_limit is not None:
                return at.put("held_rating", f"{text}: a side of the basket", calc.basket_side,
                              at.answer("hitch_limit"), picks=(key,))
            if at.gear.by_factors is YesNo.YES:
                return at.put("held_rating", f"{text}: each side a vertical leg",
                              calc.basket_from_vertical, at.answer("leg_rating"),
                              picks=(key, at.key("by_factors")))
        case SlingHitch.CHOKER:
            factor = _choke_factor(at)
            if at.gear.hitch_limit is not None:
                return at.put("held_rating", text, calc.choker_carries, at.answer("hitch_limit"),
                              factor, picks=(key, at.key("choke_angle")))
            if at.gear.by_factors is YesNo.YES:
                share = at.ledger.table(at.key("choker_share"), at.label("choker, of vertical"),
                                        calc.CHOKER_SHARE, Kind.RATIO, calc.CHOKER)
                return at.put("held_rating", text, calc.choker_from_vertical,
                              at.answer("leg_rating"), share, factor,
                              picks=(key, at.key("by_factors"), at.key("choke_angle")))
        case _:
            assert_never(hitch)
    return at.ledger.lack(at.key("held_rating"), at.label(text), (at.key("hitch_limit"),))


def _choke_factor(at: Place) -> Term:
    angle = at.gear.choke_angle
    if angle is None:
        return Lack(at.key("choke_factor"), at.label("factor for its angle of choke"),
                    (at.key("choke_angle"),))
    return at.ledger.table(at.key("choke_factor"), at.label(f"factor, choked at {angle}"),
                           calc.CHOKE[angle.least], Kind.RATIO, calc.CHOKED)


def _legs(at: Place) -> Term:
    """Legs that pull: of more than two slings those that are known to share, else two."""
    legs = at.answer("legs")
    count, shared = known(legs), at.gear.legs_sharing
    if count is not None and count.value > calc.STIFF:
        sharing = at.ledger.given(at.key("legs_sharing")) if shared is not None else None
        if sharing is None:
            legs = at.ledger.drawn(at.key("two"), at.label("slings counted of a stiff load"),
                                   float(calc.STIFF), Kind.COUNT, count.standing,
                                   "as many more as are known to share the load", calc.SHARING)
        else:
            legs = at.put("sharing", "slings counted, known to share", calc.sharing, count,
                          sharing)
    hitch = at.gear.sling_hitch
    if hitch is None or hitch.sides == 1:
        return legs
    sides = at.ledger.drawn(at.key("sides"), at.label(f"sides of one {hitch}"),
                            float(hitch.sides), Kind.COUNT, Standing.SURE, source=calc.BASKET)
    return at.put("sides_carry", "sides that carry", calc.sides_that_carry, legs, sides,
                  picks=(at.key("sling_hitch"),))


def _leg_angle(at: Place) -> tuple[Term, tuple[Figure, ...]]:
    """The legs' angle from level; and length and height, where it is worked out from them.

    Of an angle and lengths that are both given the flatter counts: it pulls harder.
    """
    given = at.answer("angle")
    sizes = at.answer("sling_length"), at.answer("sling_height")
    angle, length, height = known(given), *map(known, sizes)
    if length is not None and height is not None:
        if height.value >= length.value:
            because = "the hook is no lower above the lift points than the sling is long"
            at.ledger.lack(at.key("leg_angle"), at.label("legs' angle, by their lengths"),
                           (at.key("sling_length"), at.key("sling_height")), because)
            return Lack(at.key("leg_angle"), "", (at.key("sling_length"), at.key("sling_height")),
                        because), ()
        found = at.put("leg_angle", "legs' angle, by their lengths", calc.leg_angle, height,
                       length)
        if angle is None or found.value < angle.value:
            return found, (length, height)
        return angle, ()
    if angle is not None:
        return angle, ()
    if (at.gear.angle is None and at.gear.legs == 1
            and at.gear.sling_hitch is not SlingHitch.BASKET):
        return at.ledger.drawn(
            at.key("straight"), at.label("one leg's angle"), calc.UPRIGHT, Kind.ANGLE,
            Standing.SURE, "one leg hangs straight", calc.TENSION,
        ), ()
    if length is not None or height is not None:
        return Lack(at.key("angle"), "", Lacking(missing(sizes)).needs), ()
    return given, ()
