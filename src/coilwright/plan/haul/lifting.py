"""Loads in the air: the heaviest coil on forklift or slings, at the site and in the shop."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, assert_never, overload

from coilwright.calc import lifting as calc
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.choices import YesNo
from coilwright.job.haul import LiftBy, LiftGear, SlingHitch
from coilwright.plan.haul.loads import at_densest, densest, heaviest_new_coil, load_line
from coilwright.plan.ledger import Lack, Lacking, Ledger, Term, known, missing, require
from coilwright.plan.result import CoilPlan, LoadLine, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import Figure, worst
from coilwright.values.formula import Formula
from coilwright.values.keys import (
    LIFT_PLACES,
    FigureKey,
    Key,
    LiftPart,
    LiftPlace,
    lift_key,
    row_key,
    unslit_key,
)
from coilwright.values.rounding import Rounding
from coilwright.values.source import ANSWER, Grade, Source
from coilwright.values.standing import Standing

_MET = Source("where the forklift's rating meets a coil of that diameter", Grade.GEOMETRY)


def enter_lifting(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...] = ()
) -> tuple[LoadLine, ...]:
    """Enter every load in the air and what its gear is rated for.

    The load is the heaviest coil, a new one at the heaviest it may come, with what holds it.
    """
    lines = []
    for place in LIFT_PLACES:
        gear: LiftGear = getattr(ledger.job.haul, place)
        match gear.by:
            case None:
                pass
            case LiftBy.FORKLIFT | LiftBy.SKID_STEER:
                lines.append(_fork(_Place(ledger, place, gear), coils, from_stock))
            case LiftBy.SLINGS:
                lines.append(_slings(_Place(ledger, place, gear), coils, from_stock))
            case LiftBy.OTHER:  # No line, yet those who lift are told what each coil weighs whole.
                _heaviest(ledger, coils, from_stock)
            case _:
                assert_never(gear.by)
    return tuple(lines)


def gear_limit(figures: Mapping[str, Figure]) -> tuple[float, Standing] | None:
    """Heaviest coil to order [lb], in whole pounds, that the gear of both places takes.

    With how sure it is; None where no gear's limit is known.
    """
    limits = [figures[key] for place in LIFT_PLACES
              if (key := lift_key(place, "coil_limit")) in figures]
    if not limits:
        return None
    return float(math.floor(min(f.value for f in limits))), worst(tuple(limits))


class _Place:
    """One place's gear, and where its figures go in the ledger."""

    def __init__(self, ledger: Ledger, place: LiftPlace, gear: LiftGear) -> None:
        self.ledger, self.place, self.gear = ledger, place, gear
        self.by = lift_key(place, "by")

    def key(self, name: LiftPart) -> FigureKey:
        return lift_key(self.place, name)

    def keys(self, *names: LiftPart) -> tuple[FigureKey, ...]:
        return tuple(map(self.key, names))

    def label(self, text: str) -> str:
        return f"{self.place.capitalize()}: {text}"

    def answer(self, name: LiftPart) -> Term:
        return self.ledger.answer(self.key(name))

    @overload
    def put(self, name: LiftPart, text: str, formula: Formula[Any], *terms: Figure,
            note: str = "", picks: tuple[str, ...] = ()) -> Figure: ...

    @overload
    def put(self, name: LiftPart, text: str, formula: Formula[Any], *terms: Term,
            note: str = "", picks: tuple[str, ...] = ()) -> Term: ...

    def put(self, name: LiftPart, text: str, formula: Formula[Any], *terms: Term,
            note: str = "", picks: tuple[str, ...] = ()) -> Term:
        return self.ledger.put(self.key(name), self.label(text), formula, *terms, note=note,
                               picks=(self.by, *picks),
                               rounding=Rounding.SUM if formula is calc.lifted else None)

    def limit(self, carries: Term, attachment: Term) -> None:
        """Enter the heaviest coil to order that is carried."""
        text = "heaviest coil to order"
        most, least = known(carries), known(attachment)
        if most is not None and least is not None and most.value <= least.value:
            self.no_limit("the attachment alone is all the gear carries")
            return
        note, over = "as ordered: carried however heavy it may come", self.ledger.over_side()
        both = densest(self.ledger)
        if both is None:
            self.put("coil_limit", text, calc.heaviest_as_ordered, carries, attachment,
                     over, note=note)
            return
        dense = self.put("coil_limit_dense", f"{text}, of the heaviest copper",
                         calc.heaviest_as_ordered, carries, attachment,
                         over)
        self.put("coil_limit", text, calc.from_densest, dense, *both, note=note)

    def no_limit(self, because: str) -> None:
        """Enter why no coil can be ordered for this gear."""
        self.ledger.lack(self.key("coil_limit"), self.label("heaviest coil to order"), (), because)


def _heaviest(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> tuple[Term, CoilPlan | StockCoil | None]:
    """The heaviest coil's weight at most, and the coil."""
    weights: list[tuple[Figure, CoilPlan | StockCoil]] = [
        (heaviest_new_coil(ledger, coil), coil) for coil in coils
    ]
    weights += [(_before_slitting(ledger, coil), coil) for coil in from_stock]
    if weights:
        return max(weights, key=lambda pair: pair[0].value)
    waits = ledger.lacks.get(Key.COIL_MASS_ORDERED)
    return waits or Lack(Key.COIL_MASS_ORDERED, "Weight to order", (), "there is no coil"), None


def _before_slitting(ledger: Ledger, coil: StockCoil) -> Figure:
    """What a coil on hand weighs at most, whole: it may be lifted before it is slit."""
    strip, width = ledger.figures[Key.STRIP_WIDTH], ledger.job.on_hand[coil.index].width
    mass = at_densest(ledger, coil.key, coil.name, coil.heaviest)
    if width <= strip.value:
        return mass
    number, tag = coil.index + 1, f"{coil.tag}: "
    wide = ledger.drawn(unslit_key(number, width=True), f"{tag}width before it is slit", width,
                        Kind.WIDTH, Standing.SURE, source=ANSWER)
    return ledger.put(unslit_key(number), f"{tag}weight at most, before it is slit",
                      calc.before_slitting, mass, wide, strip)


def _fork(
    at: _Place, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> LoadLine:
    """A forklift or skid steer; how far out the coil lies is measured, or not known.

    A coil cannot lie nearer than with its rim at the fork face. Where nobody says how far out it
    lies, what is carried there is the most there can be: a load over that is over for certain.
    """
    weight, heaviest = _heaviest(at.ledger, coils, from_stock)
    attachment = at.answer("attachment")
    load = at.put("load", "coil and attachment", calc.lifted, weight, attachment)
    skid_steer = at.gear.by is LiftBy.SKID_STEER
    plate: LiftPart = "operating_capacity" if skid_steer else "fork_capacity"
    rated = at.answer(plate), at.answer("fork_center")
    who = "skid steer" if skid_steer else "forklift"
    at_most = None
    own = at.answer("coil_center")
    if known(own) is not None:
        carries = _fork_carries(at, "fork_carries", f"{who}'s rating at the coil's middle", rated,
                                own)
        at.limit(carries, attachment)
    elif at.gear.at_face is YesNo.YES:
        middle = _half(at, heaviest)
        carries = _fork_carries(at, "fork_carries", f"{who}'s rating at the coil's middle", rated,
                                middle)
        _limit_by_size(at, rated, attachment, who)
    else:
        at_most = known(_fork_carries(at, "fork_at_most", f"{who}'s rating at the very most", rated,
                                      _half(at, heaviest)))
        carries = at.ledger.lack(at.key("fork_carries"),
                                 at.label(f"{who}'s rating at the coil's middle"),
                                 (*Lacking(missing(rated)).needs, at.key("coil_center")))
        at.ledger.lack(at.key("coil_limit"), at.label("heaviest coil to order"), carries.needs)
    if skid_steer:
        _tipping(at, rated[1], own if known(own) is not None else _half(at, heaviest))
    names = at.keys(plate, "fork_center", "coil_center", "at_face", "face_to_axle", "attachment",
                    "by")
    return load_line(at.ledger, at.key("fork"), at.label(who), at.place, load, carries,
                     *names, CoilsKey.SITE_LIFT, at_least=known(weight), at_most=at_most)


def _fork_carries(
    at: _Place, name: LiftPart, text: str, rated: tuple[Term, Term], middle: Term
) -> Term:
    """What is carried at a middle; the least wherever the axle is, while that is not known."""
    picks = (at.key("at_face"),) if at.gear.coil_center is None else ()
    if at.gear.face_to_axle is not None:
        return at.put(name, text, calc.fork_carries, *rated, middle, at.answer("face_to_axle"),
                      picks=picks)
    return at.put(name, text, calc.fork_carries_least, *rated, middle, picks=picks,
                  note="the least, wherever its front axle is; measured, it falls off less")


def _tipping(at: _Place, rated_at: Term, middle: Term) -> None:
    """Enter the load at which a skid steer tips, so far out as the coil lies."""
    if at.gear.tipping_load is not None:
        _fork_carries(at, "tips_at", "tipping load at the coil's middle",
                      (at.answer("tipping_load"), rated_at), middle)


def _half(at: _Place, heaviest: CoilPlan | StockCoil | None) -> Term:
    """From the fork face to the middle of a coil that touches it, the nearest it can lie."""
    diameter: Term
    if isinstance(heaviest, CoilPlan):
        diameter = at.ledger.figures[row_key("coil", heaviest.number, "largest")]
    elif isinstance(heaviest, StockCoil):
        outside = at.ledger.job.on_hand[heaviest.index].outside
        if outside is None:
            diameter = at.ledger.answer(at.key("coil_center"))
        else:
            diameter = at.ledger.drawn(
                at.key("stock_diameter"), at.label(f"{heaviest.name}, outside diameter"), outside,
                Kind.WIDTH, Standing.SURE, source=ANSWER,
            )
    else:
        diameter = at.ledger.lacks.get(Key.COIL_MASS_ORDERED) or Lack(
            "coil.largest", "Diameter", (), "there is no coil")
    end = "" if at.gear.at_face is YesNo.YES else ", at the least"
    return at.put("middle", f"fork face to coil's middle{end}", calc.half_diameter, diameter,
                  note="the coil against the fork face; on a hook, boom or wide skid it is more")


def _limit_by_size(at: _Place, rated: tuple[Term, Term], attachment: Term, who: str) -> None:
    """The limit where the coil's own size sets how far out its middle is."""
    ledger = at.ledger
    terms = [*rated, attachment, ledger.answer(CoilsKey.INSIDE_DIAMETER),
             ledger.got(Key.COIL_WRAP), ledger.got(Key.STRIP_MASS_PER_LENGTH)]
    if at.gear.face_to_axle is not None:
        terms.append(at.answer("face_to_axle"))
    try:
        figures = require(*terms)
    except Lacking as lacking:
        ledger.lack(at.key("coil_limit"), at.label("heaviest coil to order"), lacking.needs)
        return
    capacity, rated_at, holds, inside, wrap, mass, *axle = (figure.value for figure in figures)
    both = densest(ledger)
    denser = 1.0 if both is None else both[0].value / both[1].value
    found = calc.middle_at_limit(capacity, rated_at, axle[0] if axle else 0.0, holds, inside, wrap,
                                 mass * denser)
    if found is None:
        at.no_limit(f"the {who} carries no coil with this attachment")
        return
    guessed = ledger.guessed(at.by, at.key("at_face"))
    standing = Standing.GUESS if guessed else worst(figures)
    middle = ledger.drawn(at.key("limit_middle"), at.label("middle of the heaviest coil"), found,
                          Kind.WIDTH, standing, "half its diameter, against the fork face", _MET)
    at.limit(
        _fork_carries(at, "limit_carries", f"{who}'s rating with the heaviest coil", rated, middle),
        attachment,
    )


def _slings(
    at: _Place, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> LoadLine:
    weight, _ = _heaviest(at.ledger, coils, from_stock)
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


def _leg_rating(at: _Place) -> Term:
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


def _choke_factor(at: _Place) -> Term:
    angle = at.gear.choke_angle
    if angle is None:
        return Lack(at.key("choke_factor"), at.label("factor for its angle of choke"),
                    (at.key("choke_angle"),))
    return at.ledger.table(at.key("choke_factor"), at.label(f"factor, choked at {angle}"),
                           calc.CHOKE[angle.least], Kind.RATIO, calc.CHOKED)


def _legs(at: _Place) -> Term:
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


def _leg_angle(at: _Place) -> tuple[Term, tuple[Figure, ...]]:
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
