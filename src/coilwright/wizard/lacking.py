"""What a figure that is not there yet waits for, in words. No screens here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.job.answers import ANSWERS

if TYPE_CHECKING:
    from coilwright.plan import Plan

_NAMED = 5
"""How many answers a sentence names."""


def lacking(plan: Plan, key: str) -> tuple[tuple[str, ...], str]:
    """The names of the answers a figure waits for, or else the reason it is not there.

    A figure of one coil waits for what the whole order waits for. Where the plan gives no
    reason, the answers that are still open are named.
    """
    lack = plan.lacks.get(key)
    if lack is None and key.startswith(("coil.", "on_hand.")):
        lack = plan.lacks.get("coil.length_ordered")
    if lack is not None and lack.needs:
        return _names(lack.needs), lack.because
    if lack is not None and lack.because:
        return (), lack.because
    step = key.partition(".")[0]
    if step == "haul":
        # Nothing about hauling is asked before an order, so no open answer is what it waits for.
        return (), "nothing to haul yet" if not plan.loads else ""
    near = tuple(k for k in plan.open_answers if k.partition(".")[0] == step)
    return _names(near or plan.open_answers), ""


def waits_for(plan: Plan, key: str) -> str:
    """The same in a few words: `needs Take-up`."""
    names, because = lacking(plan, key)
    if names:
        return f"needs {names[0]}"
    return because or "not for this job"


def sentence(plan: Plan, key: str, label: str) -> str:
    """The same in one sentence, with all the answers named that fit."""
    names, because = lacking(plan, key)
    if names:
        more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
        also = f" ({because})" if because else ""
        return f"{label} still needs: {', '.join(names[:_NAMED])}{more}.{also}"
    if because:
        return f"{label} cannot be worked out: {because}."
    return f"{label}: this job has none."


def _names(keys: tuple[str, ...]) -> tuple[str, ...]:
    """Answers by their labels, planes as planes, each once."""
    return tuple(dict.fromkeys(
        ANSWERS[key].label if key in ANSWERS else "the planes' measures" for key in keys
    ))
