"""Which steps of an order are next, in words, the likeliest first. No screens here."""

from __future__ import annotations

from enum import Enum

from coilwright.job.canceling import canceled_step, may_be_canceled
from coilwright.job.confirming import is_unconfirmed, may_be_confirmed
from coilwright.job.life import OrderState
from coilwright.job.sending import next_revision, next_states, stands_elsewhere
from coilwright.plan.result import Plan
from coilwright.sheets.state import all_came
from coilwright.sheets.told import tells_otherwise


class Wrote(Enum):
    """What a supplier wrote back on what was sent, to be recorded; no state of the order."""

    CONFIRMED = "confirmed"
    CANCELED = "canceled"


CONFIRMED = "confirmed by the supplier, in writing"
"""What recording it is called among what is next."""
RUN_AT_ONCE = "run, and so delivered: all its coils came"
"""What a run is called before anybody said that the order is delivered."""


Step = OrderState | Wrote


def next_steps(plan: Plan) -> dict[str, Step]:
    """What is next, by its words. What stands with another supplier than the order goes to is
    canceled there before it is sent again."""
    job = plan.job
    found: list[tuple[str, Step]] = [
        (step_words(plan, state), state)
        for state in next_states(job, from_stock=plan.readiness.nothing_to_buy,
                                 otherwise=tells_otherwise(plan))]
    if all_came(plan):
        at = next((n for n, (_, state) in enumerate(found) if state is OrderState.DELIVERED), 0)
        found.insert(at + 1, (RUN_AT_ONCE, OrderState.RUN))
        if is_unconfirmed(job):  # what was written back late is on record all the same
            found.insert(at + 2, (CONFIRMED, Wrote.CONFIRMED))
    elif may_be_confirmed(job):
        # What was sent is confirmed before it comes; what is to be sent again comes first.
        awaited = is_unconfirmed(job) and not tells_otherwise(plan)
        found.insert(0 if awaited else 1, (CONFIRMED, Wrote.CONFIRMED))
    if (one := may_be_canceled(job)) is not None:
        stands = stands_elsewhere(job) is not None
        if stands:
            found = [each for each in found if each[1] is not OrderState.ORDERED]
        found.insert(0 if stands else 1, (canceled_step(one), Wrote.CANCELED))
    return dict(found)


def press_words(plan: Plan) -> str:
    """What the word to press for what is next says: the likeliest step; empty where none is.

    An order is sent by it, and so it says; where one was, other words stand beside it and it is
    short: whoever sent one knows it.
    """
    steps, revision = [*next_steps(plan).values()], next_revision(plan.job)
    said = [step.value for step in steps[:1] if step is not OrderState.ORDERED]
    if plan.job.life.sent:
        return next(iter(said), f"send {revision}" if steps else "")
    if OrderState.ORDERED in steps:
        said.append(f"send revision {revision} (ordered)")
    return " or ".join(said)


def step_words(plan: Plan, state: OrderState) -> str:
    """What a step is called among what is next."""
    job = plan.job
    if state is OrderState.ORDERED:
        last = job.life.latest
        same = "" if last is None or tells_otherwise(plan) else (
            f", which changes nothing of {last.revision}")
        return f"ordered: revision {next_revision(job)} is sent{same}"
    return state.value
