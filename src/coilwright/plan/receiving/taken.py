"""What stands against a coil when somebody takes it: kept with the decision, which is on that."""

from __future__ import annotations

import dataclasses

from coilwright.job.receiving import LOT, Arrival
from coilwright.plan.receiving.receive import coil_number, receive_one
from coilwright.plan.receiving.report import last_part, reasons
from coilwright.plan.receiving.worse import reading_of, said_of
from coilwright.plan.result import Plan
from coilwright.values.finding import Level


def with_what_stands(plan: Plan, number: int, arrival: Arrival) -> Arrival:
    """A coil as it is decided on now, with what stands against it where it is taken knowingly.

    plan: as it is before that. number: the coil's place in the list, from 1. While somebody
    practices nothing is kept, for nothing shows. Of one that was taken before, a new reason is on
    all that stands and is measured now; a word on the lots is on them alone, and a name put right
    on nothing new.
    """
    if not arrival.is_taken or plan.concealed:
        return dataclasses.replace(arrival, stood=None, stood_lots=(), stood_at=(),
                                   stood_said=())
    report = receive_one(plan, number)
    held = [last_part(one.key) for one in reasons(report) if one.level is Level.STOP]
    measured = tuple((part, value) for part in held if (
        value := reading_of(arrival, report.ways, part)) is not None)
    lots = {lot: None for one in plan.job.arrived
            if not one.is_gone and (lot := one.lot.strip())}
    said = said_of(arrival, coil_number(plan, arrival))
    before = plan.job.arrived[number - 1]
    if before.is_taken and before.stood is not None and before.reason == arrival.reason:
        if before.lots == arrival.lots:
            return dataclasses.replace(
                arrival, stood=before.stood, stood_lots=before.stood_lots,
                stood_at=before.stood_at, stood_said=before.stood_said)
        held = [part for part in held if part == LOT or part in before.stood]
        measured, said = before.stood_at, before.stood_said
    return dataclasses.replace(arrival, stood=tuple(held), stood_lots=tuple(lots),
                               stood_at=measured, stood_said=said)
