"""Coils that arrived, held to the plan they were ordered by. Worked out when somebody looks."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

from coilwright.job.answers.metal import MetalKey
from coilwright.job.arrival_words import receiving_words
from coilwright.job.camber import camber_over
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import MetalSection
from coilwright.job.plain_name import plain_name
from coilwright.job.receiving import LOT, READINGS, TYPED, Arrival, coil_name, stand_in_tag
from coilwright.plan.coils.as_several import as_several
from coilwright.plan.coils.by_lot import coils_by_lot
from coilwright.plan.coils.stock import known_colors, plain_color
from coilwright.plan.ledger import Ledger
from coilwright.plan.questions import lots_taken_on
from coilwright.plan.receiving.inspection import Inspection
from coilwright.plan.receiving.length import (
    find_apart,
    find_length,
    measured_lengths,
    needed_lengths,
)
from coilwright.plan.receiving.report import ArrivalReport, Verdict
from coilwright.plan.receiving.sizes import compare_sizes
from coilwright.plan.receiving.worse import worse_since
from coilwright.plan.result import CoilPlan, Plan
from coilwright.values.finding import Level, worst_first
from coilwright.values.source import ANSWER, PRACTICE, SHARED_OUT


def receive(plan: Plan) -> tuple[ArrivalReport, ...]:
    """A report on every coil that arrived, in the order of the list.

    It is no part of `plan()`, for nothing that is ordered depends on it. Never raises for a job
    that could be built: what cannot be right becomes a finding. Where lots differ, or one came as
    several, each is held to the list that it is run by then.
    """
    reports = [_report(plan, n, arrival) for n, arrival in enumerate(plan.job.arrived, 1)]
    each = as_several(plan, reports)
    lists = {coil.number: coil for coil in coils_by_lot(each.plan, each.came).coils}
    parts = {one.number: lists[number] for number, one in each.parts.items()}

    def listed(one: ArrivalReport, coil: CoilPlan) -> CoilPlan:
        part = parts.get(one.number)
        # Of what came as several each has its own list, and is not what was ordered all the same.
        return lists[coil.number] if part is None else dataclasses.replace(
            coil, cuts=part.cuts, panels_length=part.panels_length)

    return tuple(
        one if one.coil is None or one.arrival.is_gone
        or (own := listed(one, one.coil)) is one.coil
        else _report(plan, one.number, one.arrival, own) for one in reports)


def receive_one(plan: Plan, number: int) -> ArrivalReport:
    """The report on one coil, by its number in the list, from 1. Raises IndexError."""
    if not 1 <= number <= len(plan.job.arrived):
        raise IndexError(number)
    there = [coil_number(plan, one) for one in plan.job.arrived if not one.is_gone]
    if len(set(there)) < len(there) or (
            len({plain_name(one.lot) for one in plan.job.arrived if one.lot.strip()}) > 1):
        return receive(plan)[number - 1]
    return _report(plan, number, plan.job.arrived[number - 1])


def expect(plan: Plan, coil: CoilPlan) -> ArrivalReport:
    """What an ordered coil is held to when it comes: a report on one of which nothing is known."""
    blank = Arrival(tag=stand_in_tag(coil.number), coil=coil.number,
                    camber_over=camber_over(plan.job))
    return _report(plan, 0, blank)


def awaited(plan: Plan) -> tuple[CoilPlan, ...]:
    """The ordered coils that nothing in the list is meant to be; what was refused is none."""
    there = {coil_number(plan, arrival) for arrival in plan.job.arrived if not arrival.is_gone}
    return tuple(coil for coil in plan.coils if coil.number not in there)


def arrival_of(plan: Plan, coil: CoilPlan) -> tuple[int, ...]:
    """The numbers in the list of what is meant to be an ordered coil, from 1; none refused."""
    return tuple(n for n, arrival in enumerate(plan.job.arrived, 1)
                 if not arrival.is_gone and coil_number(plan, arrival) == coil.number)


def coil_number(plan: Plan, arrival: Arrival) -> int | None:
    """Which ordered coil it is meant to be: the only one there is, or the one that was said."""
    if arrival.coil is None and len(plan.coils) == 1:
        return 1
    return arrival.coil


def _report(
    plan: Plan, number: int, arrival: Arrival, listed: CoilPlan | None = None
) -> ArrivalReport:
    """The report on one coil. listed: the coil with the list that it is run by, where that is not
    the one it was ordered for."""
    wanted = coil_number(plan, arrival)
    coil = listed or next((c for c in plan.coils if c.number == wanted), None)
    case = Inspection(plan, number, arrival, coil, Ledger(plan.job))
    sizes = compare_sizes(case)
    need, panels = needed_lengths(case)
    ways = measured_lengths(case, need, panels)
    find_length(case, ways, need, panels)
    apart = find_apart(case, ways)
    _which(case, wanted)
    _color(case)
    lots = () if arrival.is_gone else _lot(case)
    if not plan.ready:
        case.find(Level.NOTE, "draft", "The order it is held to is a draft.",
                  "Some of its answers are guesses or still open; the comparison is no better.",
                  "Settle the order first, or read what was ordered from the paper.", ANSWER)
    if plan.concealed:
        return _concealed(case)
    findings = tuple(worst_first(case.findings))
    return ArrivalReport(
        number=number, arrival=arrival, coil=coil, missing=tuple(_missing(case, wanted)),
        findings=findings, sizes=sizes, ways=ways, apart=apart, need=need, need_panels=panels,
        figures=case.ledger.figures, lots=lots,
        worse=worse_since(case, sizes, ways, wanted),
    )


def _concealed(case: Inspection) -> ArrivalReport:
    """The report while somebody practices: what was entered, and nothing of what it shows."""
    return ArrivalReport(
        number=case.number, arrival=case.arrival, coil=case.coil,
        missing=("the practice: what speaks against it shows once it is handed in",),
        findings=(), sizes=(), ways=(), apart=(), need=None, need_panels=None, figures={},
    )


def _missing(case: Inspection, wanted: int | None) -> Iterator[str]:
    """What is still to be measured or read, in words."""
    plan, arrival = case.plan, case.arrival
    if arrival.decision is not None:
        for said, words in ((arrival.decided_by, "who decided it"), (arrival.reason, "why")):
            if not said:
                yield f"{words} ({arrival.decision})"
    if arrival.is_gone:
        return
    begins = f"{TYPED}{case.number - 1}."
    unread = {key.removeprefix(begins): text for key, text in plan.job.typed.items()
              if key.startswith(begins)}
    for name, text in unread.items():
        measure = receiving_words().measures.get(name)
        label = name.replace("_", " ") if measure is None else measure.label.replace("…", "Camber")
        yield f"{label}: “{text}” cannot be read"
    if not plan.coils:
        yield "the order: no new coil is worked out yet"
    elif wanted is None:
        yield "which coil of the order it is"
    got = len(arrival.thickness)
    painted = plan.job.metal.may_be_painted
    for name, there, words in (
        ("color", bool(arrival.color.strip()) or not painted, "its color, from the tag"),
        ("lot", bool(arrival.lot.strip()), "its production lot, from the tag"),
        ("mass", arrival.mass is not None or arrival.weighed is not None,
         "its weight, from the tag or a scale"),
        ("thickness", got >= READINGS,
         f"thickness at {READINGS} places" + (f" ({got} so far)" if got else "")),
        ("width", arrival.width is not None, "its width"),
        ("outside", arrival.outside is not None, "its outside diameter"),
        ("inside", arrival.inside is not None, "its inside diameter"),
        ("camber", arrival.camber is not None, "its camber"),
        ("camber_over", arrival.camber_over is not None,
         "over what length the camber was measured"),
        ("looked", arrival.looked is YesNo.YES, "looking it over for damage"),
    ):
        if not there and name not in unread:
            yield words


def _which(case: Inspection, wanted: int | None) -> None:
    plan = case.plan
    if plan.coils and wanted is not None and case.coil is None:
        count = len(plan.coils)
        case.find(
            Level.STOP, "coil", f"It is put down as coil {wanted}; "
            f"{f'{count} are' if count > 1 else 'one is'} ordered.",
            "A coil nobody ordered may be somebody else's.",
            "Read its tag again, and say which coil of the order it is.", SHARED_OUT)
    twins = [_tag_words(a) for n, a in enumerate(plan.job.arrived, 1)
             if n != case.number and case.coil is not None and not a.is_gone
             and coil_number(plan, a) == wanted]
    if twins and not case.arrival.is_gone:
        case.find(
            Level.CARE, "twin", f"{twins[0]} is put down as coil {wanted} of the order too.",
            "Where one coil came as two and neither holds its cuts alone, they are shared out to "
            "both: each loses a thread-up and a tail.",
            "Say which coil each of them is; if one came as two, cut by no earlier list.",
            SHARED_OUT)


def _tag_words(arrival: Arrival) -> str:
    return f"Tag {arrival.tag}" if arrival.is_tagged else "Another without a tag"


def _color(case: Inspection) -> None:
    metal, own = case.plan.job.metal, " ".join(case.arrival.color.split())
    if not own:
        return
    ordered = known_colors(metal)
    if not metal.may_be_painted:
        case.find(Level.STOP, "color", f"Its tag names a color, {own}; bare metal was ordered.",
                  "A painted coil in place of a bare one is another product.",
                  "Read the tag again; if it stays so, give it back.", ANSWER, MetalKey.FINISH)
    elif not ordered or plain_color(own) in ordered:
        return
    elif any(_contains(plain_color(own), text) or _contains(text, plain_color(own))
             for text in ordered):
        case.find(Level.CARE, "color", f"Its tag says {own}; {_named(metal)} was ordered.",
                  "One may be the other written shorter, or another shade of the same name.",
                  "Look at it beside the sample the client confirmed before anything is formed.",
                  ANSWER, MetalKey.COLOR)
    else:
        case.find(Level.STOP, "color", f"Its tag says {own}; {_named(metal)} was ordered.",
                  "A coil of the wrong color is found out on the roof, when it is cut.",
                  "Hold it to the sample the client confirmed before anything is formed.", ANSWER,
                  MetalKey.COLOR)


def _named(metal: MetalSection) -> str:
    """The color as it was ordered, with its code where there is one."""
    return ", ".join(text for text in (metal.color, metal.color_code) if text)


def _contains(text: str, part: str) -> bool:
    """Whether the whole words of a part stand together in a text."""
    return bool(part) and f" {part} " in f" {text} "


def _lot(case: Inspection) -> tuple[str, ...]:
    """Hold its lot to those of the others; those that nobody else decided on."""
    own = " ".join(case.arrival.lot.split())
    if not own:
        return ()
    job = case.plan.job
    others = [one for n, one in enumerate(job.arrived, 1)
              if n != case.number and not one.is_gone and one.lot.strip()
              and plain_name(one.lot) != plain_name(own)]
    # What is open comes first, and of that what lay there not yet when this one was taken.
    others.sort(key=lambda one: (_lots_decided(case, one) is not None,
                                 case.arrival.was_taken_among(own, one.lot)))
    if others:
        name = coil_name(coil_number(case.plan, others[0]), dataclasses.replace(others[0], lot=""))
        by = _lots_decided(case, others[0])
        # Said of another coil it is not to be read as the reason of this one.
        whose = "" if by is None or by == case.arrival else (
            f" of {coil_name(coil_number(case.plan, by), dataclasses.replace(by, lot=''))}")
        taken = _lots_waived(job) if by is None else (
            f" The two lots were taken knowingly by {by.decided_by}, who wrote{whose}: "
            f"{by.reason.rstrip('.')}.")
        case.find(
            Level.STOP if by is None else Level.CARE, LOT,
            f"Its production lot is {own}; that of {name}: {others[0].lot.strip()}.{taken}",
            "Two production lots of one color can differ in shade, and the roof shows it.",
            "Ask the supplier for one production lot. If both are used, keep each to whole "
            "planes that are not seen together, and have the client agree first."
            + (" One coil taken knowingly, for all coils of the lots, then decides it."
               if by is None else ""), PRACTICE)
        return tuple(one.lot for one in others if _lots_decided(case, one) is None)
    used = {coil.index for coil in case.plan.from_stock}
    stock = next((c for i, c in enumerate(job.on_hand) if i in used and c.lot.strip()
                  and plain_name(c.lot) != plain_name(own)), None)
    if stock is not None:
        case.find(
            Level.CARE, LOT, f"It is of production lot {own}, coil “{stock.tag}” on hand of lot "
            f"{stock.lot}.", "Two production lots of one color can differ in shade.",
            "Lay a piece of each side by side in daylight before panels of both go on one plane.",
            PRACTICE)
    return ()


def _lots_waived(job: Job) -> str:
    """That more lots than one were taken on before the order; empty where they were not. Which
    coil then goes on which plane is decided now: nobody knew it of lots that had not come."""
    reason = lots_taken_on(job)
    return (f" More lots than one were taken on before the order ({reason.rstrip('.')}); now it is "
            "to be decided of these.") if reason else ""


def _held_for_more(plan: Plan, arrival: Arrival) -> bool:
    """Whether a coil is held for something else than its lot."""
    number = plan.job.arrived.index(arrival) + 1
    return _report(plan, number, dataclasses.replace(arrival, lot="")).advice is Verdict.HOLD


def _lots_decided(case: Inspection, other: Arrival) -> Arrival | None:
    """The coil whose taking decided that its lot and another's come together; None where nobody
    has. The one that decides keeps what was decided on.

    One that was taken for the lots, or for nothing but its lot, does for all coils of the two; not
    for a lot that came after that. Of one taken before that was kept, what else holds it now says
    what it was taken for.
    """
    lots = (case.arrival.lot, other.lot)
    if case.arrival.decides_on_lots(*lots):
        return None
    if other.decides_on_lots(*lots) or (
            other.is_taken and other.stood is None and other.lots is None
            and not _held_for_more(case.plan, other)):
        return other
    of_two = {plain_name(lot) for lot in lots}
    return next((one for one in case.plan.job.arrived
                 if one.decides_on_lots(*lots)
                 and plain_name(one.lot) in of_two), None)
