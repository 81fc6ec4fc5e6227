"""After the run: what is left of each coil, and the stock it goes back to."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping, Sequence

from coilwright.calc.receiving.measures import READ_TO
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.metal import MetalSection
from coilwright.job.receiving import Arrival
from coilwright.job.stock import CoilOnHand, LengthBy, Stock
from coilwright.plan.coils.run import RunCoil, left_of, run_of
from coilwright.plan.coils.stock import coil_lengths, job_metal, known_colors, plain_color
from coilwright.plan.receiving.receive import arrival_of
from coilwright.plan.receiving.report import ArrivalReport, Verdict
from coilwright.plan.result import Plan, StockCoil
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, row_key

LEAST_DROP = 1.0
"""A narrower drop from slitting is scrap, not stock [in] (common practice, no source)."""
_TAG = 40
"""Letters of an old tag that a new one keeps, so that there is room behind it."""
_LOOSE = 1e-6
_NEAR = 0.02
"""Share of a coil's length by which what is left of it may be measured too long (common practice,
no source)."""


def after_run(
    plan: Plan, stock: Stock, measured: Mapping[str, float] | None = None,
    came: Mapping[int, Arrival] | None = None, put: Mapping[str, str] | None = None,
) -> Stock:
    """The stock once a plan's coils have been run: what is left of each put back.

    Coils on hand are counted at the least that can be left of them, all spare used; one that is
    used up goes. One that was slit goes back as its strips, and its drop where that is an inch
    or wider. measured: lengths left [in] by coil key (`on_hand.1`, `coil.1`) as somebody measured
    them, which count instead; a new coil goes to stock only so. came: the coil that was run, by the
    number of the ordered one, where several came for it; without it their lot is not known. A coil
    the stock does not know stays out of it. put: the tags under which leftovers went to stock
    before, by coil key (`Job.put_in_stock`): a new coil's takes the place of its own.
    """
    return run_through(plan, stock, measured, came, put)[0]


def is_too_much(
    plan: Plan, coil: RunCoil, came: ArrivalReport | None, left: float
) -> bool:
    """Whether so much [in] is more than can be left of a coil whose panels were all cut.

    By its length as it came, else by the longest it may come. A coil on hand whose length was not
    measured is planned at the least it can be, and may be as much longer as that is off. Of one
    that came as several, by no list, nothing is known on paper, and nothing is too much.
    """
    if coil.is_part and not coil.batches:
        return False
    own = coil.on_hand
    most = coil.left.value
    if came is not None and came.counted is not None and (paper := left_of(coil, came)) is not None:
        most = paper.value + came.counted.most.value - came.counted.best.value
    elif own is None:
        longest, ordered = (plan.figures.get(row_key("coil", coil.order_number or 0, name))
                            for name in ("longest", "length"))
        if longest is None or ordered is None:
            return False
        most += longest.value - ordered.value
    else:
        shortest, at_most = coil_lengths(own, plan.job.units, coil.key)
        most += at_most.value - shortest.value
    return left > most + _NEAR * coil.length.value


def exceeded_length(
    plan: Plan, coil: RunCoil, came: ArrivalReport | None, left: float
) -> float | None:
    """The most that a coil can have been long [in], where more is said to be left; else None."""
    if came is not None and came.counted is not None:
        most = came.counted.most.value
    elif coil.on_hand is not None:
        most = coil_lengths(coil.on_hand, plan.job.units, coil.key)[1].value
    else:
        most = plan.figures[row_key("coil", coil.order_number or 0, "longest")].value
    return most if left > most * (1 + _NEAR) else None


def run_through(
    plan: Plan, stock: Stock, measured: Mapping[str, float] | None = None,
    came: Mapping[int, Arrival] | None = None, put: Mapping[str, str] | None = None,
) -> tuple[Stock, dict[str, str]]:
    """The stock after the run (`after_run`), and which tags new coils' leftovers have in it:
    an empty one where nothing is left."""
    told = dict(measured or {})
    for index in dict.fromkeys(c.index for c in plan.from_stock):
        coil = plan.job.on_hand[index]
        if stock.find(coil.tag) is not None:
            used = [c for c in plan.from_stock if c.index == index]
            stock = _after_one(plan, stock, coil, used, told)
    places = tuple(_places(plan))
    new = {key for key, _number, _part in places}
    tags = {key: tag for key, tag in (put or {}).items()
            if key in new and (not tag or stock.find(tag) is not None)}
    for key, number, part in places:
        if (left := told.get(key)) is None:
            continue
        before = stock.find(tags.pop(key, ""))
        others = stock if before is None else stock.take(before.tag)
        if left <= _LOOSE:
            stock, tags[key] = others, ""
            continue
        arrival = _run_as(plan, number, part, came)
        tags[key] = others.free_tag(leftover_tag(plan, number, arrival))
        coil = _new_leftover(plan, arrival, tags[key], left)
        # Where it stands, and what is to be known of it, somebody may have written down since.
        stock = stock.put(coil) if before is None else stock.swap(
            before.tag, dataclasses.replace(coil, where=before.where, remark=before.remark))
    return stock, tags


def put_back(
    plan: Plan, stock: Stock, measured: Mapping[str, float],
    came: Mapping[int, Arrival] | None = None, put: Mapping[str, str] | None = None,
) -> tuple[Stock, tuple[str, ...], dict[str, str]]:
    """The stock after the run, the tags of coils that stay as they are, and by coil key those that
    were put back: of new coils' leftovers, and of coils on hand.

    put: those that were put back before. measured: lengths left [in] by coil key. A coil that is
    not in stock as this job took it was put back before, or used by another job: without a measured
    length it stays as it is.
    """
    after, tags = run_through(plan, stock, measured, came, put)
    stays = []
    back = {used.key for used in plan.from_stock}.intersection(put or {})
    for used in plan.from_stock:
        taken = plan.job.on_hand[used.index]
        there = stock.find(taken.tag)
        if there is None:
            continue
        if there == taken or used.key in measured:
            back.add(used.key)
            continue
        if after.find(taken.tag) != there:
            after = after.put(there)
        stays.append(taken.tag)
    tags |= {used.key: plan.job.on_hand[used.index].tag for used in plan.from_stock
             if used.key in back}
    return after, tuple(dict.fromkeys(stays)), tags


def too_short_to_keep(before: Stock, after: Stock, keep: Figure) -> tuple[CoilOnHand, ...]:
    """What of a run goes to stock though it is shorter than a leftover worth keeping (`keep`)."""
    return tuple(coil for coil in after.coils if coil != before.find(coil.tag)
                 and coil.length is not None and coil.length < keep.value - _LOOSE)


def tags_of_new(
    plan: Plan, came: Mapping[int, Arrival] | None = None
) -> Iterator[tuple[str, str]]:
    """By the key of each new coil that may be run, the tag that its leftover would have."""
    for key, number, part in _places(plan):
        yield key, leftover_tag(plan, number, _run_as(plan, number, part, came))


def _run_as(
    plan: Plan, number: int, part: Arrival | None, came: Mapping[int, Arrival] | None
) -> Arrival | None:
    """What came and was run for a new coil, as far as that is known."""
    return part or (came or {}).get(number) or single_arrival(arrivals_of(plan, number))


def _places(plan: Plan) -> Iterator[tuple[str, int, Arrival | None]]:
    """The keys of all new coils that may be run, with the number of the ordered one: that itself,
    and each that came for it, which it is run as where it came as several."""
    for coil in plan.coils:
        yield row_key("coil", coil.number), coil.number, None
        for number in arrival_of(plan, coil):
            yield row_key("arrived", number), coil.number, plan.job.arrived[number - 1]


def lists_cut(plan: Plan) -> Plan:
    """The plan whose lists are cut, where this one is of an order as it was sent.

    Of today's answers, as on the run sheet; the order's own where today's has other coils.
    """
    now = plan.current
    if now is None:
        return plan
    coils = [([(used.key, made.job.on_hand[used.index]) for used in made.from_stock],
              [coil.number for coil in made.coils if coil.cuts]) for made in (plan, now)]
    return now if coils[0] == coils[1] else plan


def arrivals_of(plan: Plan, number: int) -> tuple[Arrival, ...]:
    """What arrived as an ordered coil, by its number; what was refused is none of it."""
    return tuple(plan.job.arrived[n - 1] for coil in plan.coils if coil.number == number
                 for n in arrival_of(plan, coil))


def single_arrival(arrivals: tuple[Arrival, ...]) -> Arrival | None:
    """The arrival where there is exactly one; else None."""
    return arrivals[0] if len(arrivals) == 1 else None


def is_on_its_way(job: Job) -> bool:
    """Whether the order is sent, and nobody said that anything of it came."""
    return job.life.state is OrderState.ORDERED and not job.arrived


def may_be_run(
    coil: RunCoil, arrived: Sequence[ArrivalReport], *, on_its_way: bool = False
) -> RunCoil | None:
    """A coil of the run with those alone that may be run of what came for it; None where none may.

    What is on hold is not run, nor what is on its way. arrived: all that came of the order, what
    was refused too: while that is nothing, or of one of them nobody said which it is, the coil is
    taken as it is.
    """
    if coil.on_hand is not None:
        return coil
    if not arrived:
        return None if on_its_way else coil
    if coil.came:
        free = tuple(one for one in coil.came if one.verdict is not Verdict.HOLD)
        return dataclasses.replace(coil, came=free) if free else None
    return coil if any(one.coil is None and not one.arrival.is_gone for one in arrived) else None


def coils_to_measure(
    plan: Plan, came: Sequence[ArrivalReport], sent: Plan
) -> Iterator[RunCoil]:
    """The coils of the run (`run_of`); each that came for one whose list could not be shared out to
    them: the crew cut from all, by no list, and something may be left of each."""
    run = run_of(plan, came, sent)
    unshared = {one.number for one in run.unshared}
    for coil in run.coils:
        if coil.order_number in unshared:
            yield from (dataclasses.replace(
                coil, key=row_key("arrived", one.number), came=(one,), counted=one.counted,
                batches=()) for one in coil.came)
        else:
            yield coil


def leftovers(plan: Plan, stock: Stock) -> tuple[CoilOnHand, ...]:
    """What of a plan's coils is in stock, by their tags."""
    tags = [plan.job.on_hand[used.index].tag for used in plan.from_stock]
    for coil in plan.coils:
        tags += [leftover_tag(plan, coil.number, one)
                 for one in (*arrivals_of(plan, coil.number), None)]
    tags += plan.job.put_in_stock.values()
    there = (stock.find(tag) for tag in dict.fromkeys(tags))
    return tuple(coil for coil in there if coil is not None)


def leftover_tag(plan: Plan, number: int, arrival: Arrival | None = None) -> str:
    """The tag of what is left of a new coil: its own, where one was read."""
    if arrival is not None and arrival.is_tagged:
        return arrival.tag
    return f"{plan.job.title[:_TAG].strip()} {number}"


def _after_one(
    plan: Plan, stock: Stock, coil: CoilOnHand, used: list[StockCoil], told: dict[str, float]
) -> Stock:
    units = plan.job.units  # what is worked out goes in as it is read on all papers
    drop = plan.figures.get(row_key("on_hand", used[0].index + 1, "drop"))
    if drop is None:
        left = told.get(used[0].key, used[0].left.as_read(units))
        coil = _known_by(coil, used[0].key in told)
        return stock.put(_cut_to(coil, left)) if left > _LOOSE else stock.take(coil.tag)
    strip, least = plan.figures[Key.STRIP_WIDTH].value, used[0].length.value
    stock = stock.take(coil.tag)
    by_strip = {c.strip: c for c in used}
    for number in range(1, used[0].strips + 1):
        one = by_strip.get(number)
        left = least if one is None else told.get(one.key, one.left.as_read(units))
        if left > _LOOSE:
            tag = stock.free_tag(f"{coil.tag[:_TAG]} strip {number}")
            measured = one is not None and one.key in told
            stock = stock.put(_cut_to(_known_by(coil, measured), left, tag, strip))
    if drop.value >= LEAST_DROP:
        tag = stock.free_tag(f"{coil.tag[:_TAG]} drop")
        stock = stock.put(_cut_to(coil, least, tag, drop.value))
    return stock


def _known_by(coil: CoilOnHand, measured: bool) -> CoilOnHand:
    """The coil with how its leftover is known: somebody measured it, or it is worked out."""
    by = LengthBy.MEASURED if measured else LengthBy.SAID
    return dataclasses.replace(coil, length_by=by) if coil.length is not None else (
        dataclasses.replace(coil, length=1.0, length_by=by, outside=None, inside=None))


def _cut_to(
    coil: CoilOnHand, length: float, tag: str | None = None, width: float | None = None
) -> CoilOnHand:
    return dataclasses.replace(
        coil,
        length=length,
        outside=None,
        inside=None,
        tag=tag or coil.tag,
        width=width or coil.width,
    )


def _width(plan: Plan, came: Arrival | None) -> float:
    """The strip's width, or the one that was measured where it is less past a tape's reading."""
    strip = plan.figures[Key.STRIP_WIDTH].value
    measured = None if came is None else came.width
    least = strip - READ_TO.size(plan.job.units) - _LOOSE
    return strip if measured is None or measured >= least else measured


def _new_leftover(plan: Plan, came: Arrival | None, tag: str, left: float) -> CoilOnHand:
    """What is left of a new coil: as ordered, of the lot that came, from whom it came.

    Where what came was not as ordered, its own width and color: a later job is cut from what it is.
    """
    metal = plan.job.metal
    assert metal.metal is not None
    assert metal.thickness is not None
    ordered = job_metal(plan.job)
    color, code = _color(metal, "" if came is None else came.color.strip())
    return CoilOnHand(
        tag=tag, metal=metal.metal, coating=ordered.get("coating"), thickness=metal.thickness,
        thickness_basis=ordered.get("thickness_basis"), width=_width(plan, came),
        color=color, color_code=code,
        length=left, length_by=LengthBy.MEASURED,
        lot="" if came is None else came.lot,
        supplier=plan.job.order.supplier, remark=_remark(came),
    )


def _color(metal: MetalSection, said: str) -> tuple[str, str]:
    """The color and the code of a coil whose tag says a color, or none. One that says the ordered
    color, by its name, its code or both, bears both; bare metal bears neither, whatever was
    answered before it was bare."""
    painted = metal.may_be_painted
    if said and not (painted and plain_color(said) in known_colors(metal)):
        return said, ""
    return (metal.color or "", metal.color_code or "") if painted else ("", "")


def _remark(came: Arrival | None) -> str:
    """What it came with, in a line: a later job has no other paper of it."""
    if came is None:
        return ""
    seen = f"came {', '.join(came.faults)}" if came.faults else ""
    return "; ".join(filter(None, (seen, " ".join(came.remark.split()))))
