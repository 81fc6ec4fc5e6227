"""Loads in the air: the heaviest coil on forklift or slings, at the site and in the shop."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, assert_never, overload

from coilwright.calc import lifting as calc
from coilwright.job.haul import LiftBy, LiftGear
from coilwright.plan.haul.loads import load_line
from coilwright.plan.ledger import Lack, Lacking, Ledger, Term, known, missing, require
from coilwright.plan.result import CoilPlan, LoadLine, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import Figure, worst
from coilwright.values.formula import Formula
from coilwright.values.source import ANSWER, PRACTICE, Grade, Source
from coilwright.values.standing import Standing

PLACES = ("site", "shop")
_MET = Source("where the forklift's rating meets a coil of that diameter", Grade.GEOMETRY)
_SAFE_SIDE = Source("not known, so taken as nothing: the safe side", Grade.GEOMETRY)


def enter_lifting(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...] = ()
) -> tuple[LoadLine, ...]:
    """Enter every load in the air and what its gear is rated for.

    The load is the heaviest coil, a new one at the supplier's long end, with what holds it.
    """
    lines = []
    for place in PLACES:
        gear: LiftGear = getattr(ledger.job.haul, place)
        match gear.by:
            case None:
                pass
            case LiftBy.FORKLIFT:
                lines.append(_fork(_Place(ledger, place, gear), coils, from_stock))
            case LiftBy.SLINGS:
                lines.append(_slings(_Place(ledger, place, gear), coils, from_stock))
            case LiftBy.OTHER:
                # No line, yet those who lift must be told what a coil on hand weighs whole.
                for coil in from_stock:
                    _before_slitting(ledger, coil)
            case _:
                assert_never(gear.by)
    return tuple(lines)


def gear_limit(figures: Mapping[str, Figure]) -> tuple[float, Standing] | None:
    """Heaviest coil to order [lb], in whole pounds, that the gear of both places takes.

    With how sure it is; None where no gear's limit is known.
    """
    limits = [figures[key] for place in PLACES if (key := f"haul.{place}_coil_limit") in figures]
    if not limits:
        return None
    return float(math.floor(min(f.value for f in limits))), worst(tuple(limits))


class _Place:
    """One place's gear, and where its figures go in the ledger."""

    def __init__(self, ledger: Ledger, place: str, gear: LiftGear) -> None:
        self.ledger, self.place, self.gear = ledger, place, gear
        self.by = f"haul.{place}_by"

    def key(self, name: str) -> str:
        return f"haul.{self.place}_{name}"

    def label(self, text: str) -> str:
        return f"{self.place.capitalize()}: {text}"

    def answer(self, name: str) -> Term:
        return self.ledger.answer(self.key(name))

    @overload
    def put(self, name: str, text: str, formula: Formula[Any], *terms: Figure,
            note: str = "", picks: tuple[str, ...] = ()) -> Figure: ...

    @overload
    def put(self, name: str, text: str, formula: Formula[Any], *terms: Term,
            note: str = "", picks: tuple[str, ...] = ()) -> Term: ...

    def put(self, name: str, text: str, formula: Formula[Any], *terms: Term,
            note: str = "", picks: tuple[str, ...] = ()) -> Term:
        return self.ledger.put(self.key(name), self.label(text), formula, *terms, note=note,
                               picks=(self.by, *picks))

    def limit(self, carries: Term, attachment: Term) -> None:
        """Enter the heaviest coil to order that is carried."""
        text = "heaviest coil to order"
        most, least = known(carries), known(attachment)
        if most is not None and least is not None and most.value <= least.value:
            self.no_limit("the attachment alone is all the gear carries")
            return
        self.put("coil_limit", text, calc.heaviest_as_ordered, carries, attachment,
                 self.ledger.over_side(),
                 note="as ordered: its long end is still carried")

    def no_limit(self, because: str) -> None:
        """Enter why no coil can be ordered for this gear."""
        self.ledger.lack(self.key("coil_limit"), self.label("heaviest coil to order"), (), because)


def _heaviest(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> tuple[Term, CoilPlan | StockCoil | None]:
    """The heaviest coil's weight at most, and the coil."""
    weights: list[tuple[Figure, CoilPlan | StockCoil]] = [
        (ledger.figures[f"coil.{coil.number}.heaviest"], coil) for coil in coils
    ]
    weights += [(_before_slitting(ledger, coil), coil) for coil in from_stock]
    if weights:
        return max(weights, key=lambda pair: pair[0].value)
    waits = ledger.lacks.get("coil.mass_ordered")
    return waits or Lack("coil.mass_ordered", "Weight to order", (), "there is no coil"), None


def _before_slitting(ledger: Ledger, coil: StockCoil) -> Figure:
    """What a coil on hand weighs at most, whole: it may be lifted before it is slit."""
    strip, width = ledger.figures["strip.width"], ledger.job.on_hand[coil.index].width
    if width <= strip.value:
        return coil.heaviest
    key, tag = f"haul.on_hand_{coil.index + 1}", f"{coil.tag}: "
    wide = ledger.drawn(f"{key}_width", f"{tag}width before it is slit", width, Kind.WIDTH,
                        Standing.SURE, source=ANSWER)
    return ledger.put(key, f"{tag}weight at most, before it is slit", calc.before_slitting,
                      coil.heaviest, wide, strip)


def _fork(
    at: _Place, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> LoadLine:
    weight, heaviest = _heaviest(at.ledger, coils, from_stock)
    attachment = at.answer("attachment")
    load = at.put("load", "coil and attachment", calc.lifted, weight, attachment)
    rated = at.answer("fork_capacity"), at.answer("fork_centre")
    to_axle = _to_axle(at)
    own = at.answer("coil_centre") if at.gear.coil_centre is not None else None
    middle = own or _half(at, heaviest)
    carries = at.put("fork_carries", "forklift's rating at the coil's middle", calc.fork_carries,
                     *rated, middle, to_axle)
    if own is not None:
        at.limit(carries, attachment)
    else:
        _limit_by_size(at, rated, to_axle, attachment)
    names = ("fork_capacity", "fork_centre", "coil_centre", "face_to_axle", "attachment", "by")
    return load_line(at.ledger, at.key("fork"), at.label("forklift"), at.place, load, carries,
                     *map(at.key, names), "coils.site_lift", at_least=known(weight))


def _to_axle(at: _Place) -> Term:
    if at.gear.face_to_axle is not None:
        return at.answer("face_to_axle")
    # Not under the answer's key: that stays unanswered.
    return at.ledger.drawn(
        at.key("no_axle"), at.label("front axle to fork face"), 0.0, Kind.WIDTH, Standing.SURE,
        "with the true distance the rating falls off less", _SAFE_SIDE,
    )


def _half(at: _Place, heaviest: CoilPlan | StockCoil | None) -> Term:
    """From the fork face to the coil's middle where nobody has measured it."""
    diameter: Term
    if isinstance(heaviest, CoilPlan):
        diameter = at.ledger.figures[f"coil.{heaviest.number}.largest"]
    elif isinstance(heaviest, StockCoil):
        outside = at.ledger.job.on_hand[heaviest.index].outside
        if outside is None:
            diameter = at.ledger.answer(at.key("coil_centre"))
        else:
            diameter = at.ledger.drawn(
                at.key("stock_diameter"), at.label(f"{heaviest.name}, outside diameter"), outside,
                Kind.WIDTH, Standing.SURE, source=ANSWER,
            )
    else:
        diameter = at.ledger.lacks.get("coil.mass_ordered") or Lack(
            "coil.largest", "Diameter", (), "there is no coil")
    return at.put("middle", "fork face to coil's middle, taken", calc.half_diameter, diameter,
                  note="the coil against the fork face; on a hook, boom or wide skid it is more")


def _limit_by_size(
    at: _Place, rated: tuple[Term, Term], to_axle: Term,
    attachment: Term,
) -> None:
    """The limit where the coil's own size sets how far out its middle is."""
    ledger = at.ledger
    terms = (*rated, to_axle, attachment, ledger.answer("coils.inside_diameter"),
             ledger.got("coil.wrap"), ledger.got("strip.mass_per_length"))
    try:
        figures = require(*terms)
    except Lacking as lacking:
        ledger.lack(at.key("coil_limit"), at.label("heaviest coil to order"), lacking.needs)
        return
    found = calc.middle_at_limit(*(figure.value for figure in figures))
    if found is None:
        at.no_limit("the forklift carries no coil with this attachment")
        return
    standing = Standing.GUESS if ledger.guessed(at.by) else worst(figures)
    middle = ledger.drawn(at.key("limit_middle"), at.label("middle of the heaviest coil"), found,
                          Kind.WIDTH, standing, "half its diameter, against the fork face", _MET)
    at.limit(
        at.put("limit_carries", "forklift's rating with the heaviest coil", calc.fork_carries,
               *rated, middle, to_axle), attachment,
    )


def _slings(
    at: _Place, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> LoadLine:
    weight, _ = _heaviest(at.ledger, coils, from_stock)
    attachment, legs, rating = (at.answer(n) for n in ("attachment", "legs", "leg_rating"))
    load = at.put("load", "coil and attachment", calc.lifted, weight, attachment)
    angle, lengths = _leg_angle(at)
    picks = tuple(map(at.key, ("angle", "sling_length", "sling_height")))

    def tension(name: str, text: str, on: Term, n: Term) -> Term:
        formula = calc.leg_tension_by_lengths if lengths else calc.leg_tension
        return at.put(name, text, formula, on, n, *(lengths or (angle,)), picks=picks)

    stands = known(angle)
    if stands is not None and stands.value < calc.FLATTEST * (1 - 1e-9):
        because = "the legs are flatter than 30° from level"
        from_lengths = ("sling_length", "sling_height")
        needs = tuple(map(at.key, from_lengths if lengths else ("angle",)))
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
    if at.gear.legs is not None and at.gear.legs > 2:
        two = at.ledger.drawn(at.key("two"), at.label("legs that carry a stiff load"), 2.0,
                              Kind.COUNT, Standing.SURE, source=PRACTICE)
        tension("tension_two", "pull in one leg if two carry", load, two)
    alone = None
    if known(load) is None and known(weight) is not None:
        alone = known(tension("tension_coil", "pull in one leg, coil alone", weight, legs))
    names = ("leg_rating", "angle", "legs", "sling_length", "sling_height", "attachment", "by")
    return load_line(at.ledger, at.key("slings"), at.label("one sling leg"), at.place, pull,
                     rating, *map(at.key, names), "coils.site_lift",
                     at_least=alone)


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
    if at.gear.angle is None and at.gear.legs == 1:
        return at.ledger.drawn(
            at.key("straight"), at.label("one leg's angle"), calc.UPRIGHT, Kind.ANGLE,
            Standing.SURE, "one leg hangs straight", calc.TENSION,
        ), ()
    if length is not None or height is not None:
        return Lack(at.key("angle"), "", Lacking(missing(sizes)).needs), ()
    return given, ()
