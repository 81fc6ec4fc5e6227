"""Who must be asked what, answer by answer."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.plan.result import Plan
from coilwright.sheets.names import label, question, standing, value_text, who
from coilwright.values.standing import Standing
from coilwright.words import WHO


@dataclass(frozen=True, slots=True)
class StillOpen:
    """One answer the order waits for: whom to ask, in which words, and what stands in for now."""

    who: str
    ask: str
    key: str
    label: str
    standing: Standing
    value: str


def still_open(plan: Plan) -> tuple[StillOpen, ...]:
    """One question for each open or guessed answer the order waits for, person by person."""
    job = plan.job
    found = [
        StillOpen(who(key), question(job, key), key, label(job, key), standing(job, key),
                  value_text(job, key))
        for key in dict.fromkeys((*plan.open_answers, *plan.guesses))
    ]
    return tuple(sorted(found, key=lambda q: WHO.index(q.who)))


def by_person(plan: Plan) -> dict[str, list[StillOpen]]:
    """What each person has to settle; nobody with nothing is named."""
    grouped: dict[str, list[StillOpen]] = {}
    for one in still_open(plan):
        grouped.setdefault(one.who, []).append(one)
    return grouped
