"""Which steps of an order are next, in words, the likeliest first. No screens here."""

from __future__ import annotations

from coilwright.job.confirming import is_unconfirmed, may_be_confirmed
from coilwright.job.life import OrderState
from coilwright.job.sending import next_revision, next_states
from coilwright.plan.result import Plan
from coilwright.sheets.state import all_came
from coilwright.sheets.told import tells_otherwise

CONFIRMED = "confirmed by the supplier, in writing"
"""What recording it is called among what is next."""
RUN_AT_ONCE = "run, and so delivered: all its coils came"
"""What a run is called before anybody said that the order is delivered."""


def next_steps(plan: Plan) -> dict[str, OrderState | None]:
    """What is next, by its words; None stands for what the supplier writes back."""
    job = plan.job
    found: list[tuple[str, OrderState | None]] = [
        (step_words(plan, state), state)
        for state in next_states(job, from_stock=plan.readiness.nothing_to_buy,
                                 otherwise=tells_otherwise(plan))]
    if all_came(plan):
        at = next((n for n, (_, state) in enumerate(found) if state is OrderState.DELIVERED), 0)
        found.insert(at + 1, (RUN_AT_ONCE, OrderState.RUN))
    elif may_be_confirmed(job):
        # What was sent is confirmed before it comes; what is to be sent again comes first.
        awaited = is_unconfirmed(job) and not tells_otherwise(plan)
        found.insert(0 if awaited else 1, (CONFIRMED, None))
    return dict(found)


def step_words(plan: Plan, state: OrderState) -> str:
    """What a step is called among what is next."""
    job = plan.job
    if state is OrderState.ORDERED:
        last = job.life.latest
        same = "" if last is None or tells_otherwise(plan) else (
            f", which changes nothing of {last.revision}")
        return f"ordered: revision {next_revision(job)} is sent{same}"
    return state.value
