"""How far a job is, in the few words that every screen, sheet and command has of it."""

from __future__ import annotations

import math

from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.receiving import Decision
from coilwright.plan import plan as make_plan
from coilwright.plan.life import state_words
from coilwright.plan.receiving.receive import awaited, receive
from coilwright.plan.receiving.report import (
    ArrivalReport,
    Verdict,
    is_over_a_plate,
    last_part,
    reasons,
)
from coilwright.plan.result import Plan
from coilwright.sheets.baseline import baseline
from coilwright.sheets.told import awaits_revision, tells_otherwise
from coilwright.values.finding import Finding, Level
from coilwright.words.counting import counted, in_series

_WITH_SUPPLIER = (OrderState.ORDERED, OrderState.DELIVERED)
"""While coils may still come of it."""
_MOST_NAMED = 3
"""Fewer coils than these are named where they are awaited."""


def state_of(plan: Plan) -> str:
    """The state in a few words, as the title line and the list of jobs show it."""
    return state_at(plan, None)


def state_at(plan: Plan, here: int | None) -> str:
    """The state as a step says it that has so much to settle: that, and not the sum."""
    job = plan.job
    return state_words(
        job, plan.readiness, here, on_hold=len(coils_on_hold(plan)),
        otherwise=job.life.state in (*_WITH_SUPPLIER, OrderState.RUN) and tells_otherwise(plan),
        came=_came(plan))


def state_of_job(job: Job) -> str:
    """The state of a job that is not planned yet."""
    return state_of(make_plan(job))


def coils_awaited(plan: Plan) -> tuple[int, ...] | None:
    """The numbers of the ordered coils that have not come or went back; None while none came to be
    listed, where that is no matter any more, and in practice."""
    job = plan.job
    if not job.arrived or job.practicing or job.life.state not in _WITH_SUPPLIER:
        return None
    return tuple(coil.number for coil in awaited(baseline(plan)))


def all_came(plan: Plan) -> bool:
    """Whether all coils of an order came, none of them is on hold, and nobody has marked it
    delivered."""
    return (plan.job.life.state is OrderState.ORDERED and coils_awaited(plan) == ()
            and not coils_on_hold(plan))


def coils_missing(plan: Plan) -> tuple[int, ...]:
    """The numbers of the coils that are awaited though their order is marked delivered."""
    delivered = plan.job.life.state is OrderState.DELIVERED
    return (coils_awaited(plan) or ()) if delivered else ()


def is_sound(plan: Plan) -> bool:
    """Whether a check of the job finds nothing to do: the order is ready, tells its supplier what
    was sent, no coil that came is on hold, and none is awaited of one that is marked delivered."""
    return (plan.ready and not awaits_revision(plan) and not coils_on_hold(plan)
            and not coils_missing(plan))


def _came(plan: Plan) -> str:
    """How many of the coils ordered came and stay and which do not, in words; once all are there,
    what is next. Empty while none came to be listed, and in practice."""
    waits = coils_awaited(plan)
    if waits is None:
        return ""
    ordered, gone = len(baseline(plan).coils), _gone(plan)
    if waits:
        which = f"coil{'s' if len(waits) > 1 else ''} {in_series([*map(str, waits)])}"
        named = f", {which} awaited" if ordered > 1 and len(waits) < _MOST_NAMED else ""
        there = f"{ordered - len(waits)} of {counted(ordered, 'coil')}"
        return f"{gone}, {there} stay{named}" if gone else f"{there} came{named}"
    to_write = f"{gone}, " if gone and unwritten_words(plan) else ""
    if gone and coils_on_hold(plan):
        return gone
    if not all_came(plan):
        return to_write.removesuffix(", ")
    came = "the coil" if ordered == 1 else f"all {ordered} coils"
    return f"{gone}, {came} ordered came, next delivered" if gone else (
        f"{came} came, next delivered")


def _gone(plan: Plan) -> str:
    """How many coils came and were refused or sent back, and whether who and why are still to be
    written, in a few words; empty for none."""
    said = [f"{counted(many, 'coil')} {decision}"
            for decision in Decision
            if (many := sum(one.is_gone and one.decision is decision
                            for one in plan.job.arrived))]
    if said and unwritten_words(plan):
        said.append("who and why to write")
    return ", ".join(said)


def unwritten_words(plan: Plan) -> str:
    """Which coils came and were refused or sent back with nobody's name or no reason, in a
    sentence; empty where there is none."""
    if plan.job.practicing or not any(one.is_gone for one in plan.job.arrived):
        return ""
    lacking = [f"{one.name}: {', '.join(one.missing)}" for one in receive(baseline(plan))
               if one.arrival.is_gone and one.missing]
    if not lacking:
        return ""
    return f"To be written in Receiving, for the bill and the supplier: {'; '.join(lacking)}."


def coils_on_hold(plan: Plan) -> tuple[str, ...]:
    """The names of the coils that came and that nobody has decided on; none while practicing."""
    return tuple(report.name for report in _on_hold(plan))


def _on_hold(plan: Plan) -> tuple[ArrivalReport, ...]:
    if not plan.job.arrived or plan.job.practicing:
        return ()
    held = [one for one in receive(baseline(plan)) if one.verdict is Verdict.HOLD]
    # As the coils of the order are numbered, whichever came first; last what nobody said it is.
    return tuple(sorted(held, key=lambda one: one.arrival.coil or math.inf))


def _since(report: ArrivalReport, found: Finding) -> str:
    """Before the first thing against a coil: that it got worse, or was found, since it was taken;
    empty where nobody had taken it."""
    if not report.later:
        return ""
    part = last_part(found.key)
    if is_over_a_plate(part):
        return "no decision settles that: "
    return f"{report.worse.get(part, 'found since it was taken')}: "


def hold_words(plan: Plan) -> str:
    """Which coils are on hold, why, and what to do, in a sentence; empty where none is."""
    held = [report.name + "".join(
        f" ({_since(report, one)}{one.what.rstrip('.')})"
        for one in reasons(report)[:1]) for report in _on_hold(plan)]
    if not held:
        return ""
    over = any(found.level is Level.STOP and is_over_a_plate(last_part(found.key))
               for report in _on_hold(plan) for found in reasons(report))
    plates = "; none over a rating plate can be taken" if over else ""
    return (f"On HOLD in Receiving: {'; '.join(held)}. Say there whether each is refused, sent "
            f"back or taken knowingly{plates}.")
