"""Forklift and skid steer: what the forks carry so far out as the coil lies."""

from __future__ import annotations

from coilwright.calc import lifting as calc
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.choices import YesNo
from coilwright.job.haul import LiftBy
from coilwright.plan.haul.lift_place import Place, heaviest_lifted
from coilwright.plan.haul.loads import densest, load_line
from coilwright.plan.ledger import Lack, Lacking, Term, known, missing, require
from coilwright.plan.result import CoilPlan, LoadLine, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import worst
from coilwright.values.keys import (
    Key,
    LiftPart,
    row_key,
)
from coilwright.values.source import ANSWER, Grade, Source
from coilwright.values.standing import Standing

_MET = Source("where the forklift's rating meets a coil of that diameter", Grade.GEOMETRY)


def fork_line(
    at: Place, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> LoadLine:
    """A forklift or skid steer; how far out the coil lies is measured, or not known.

    A coil cannot lie nearer than with its rim at the fork face. Where nobody says how far out it
    lies, what is carried there is the most there can be: a load over that is over for certain.
    """
    weight, heaviest = heaviest_lifted(at.ledger, coils, from_stock)
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
    at: Place, name: LiftPart, text: str, rated: tuple[Term, Term], middle: Term
) -> Term:
    """What is carried at a middle; the least wherever the axle is, while that is not known."""
    picks = (at.key("at_face"),) if at.gear.coil_center is None else ()
    if at.gear.face_to_axle is not None:
        return at.put(name, text, calc.fork_carries, *rated, middle, at.answer("face_to_axle"),
                      picks=picks)
    return at.put(name, text, calc.fork_carries_least, *rated, middle, picks=picks,
                  note="the least, wherever its front axle is; measured, it falls off less")


def _tipping(at: Place, rated_at: Term, middle: Term) -> None:
    """Enter the load at which a skid steer tips, so far out as the coil lies."""
    if at.gear.tipping_load is not None:
        _fork_carries(at, "tips_at", "tipping load at the coil's middle",
                      (at.answer("tipping_load"), rated_at), middle)


def _half(at: Place, heaviest: CoilPlan | StockCoil | None) -> Term:
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


def _limit_by_size(at: Place, rated: tuple[Term, Term], attachment: Term, who: str) -> None:
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
