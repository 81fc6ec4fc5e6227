"""What is still to ask, grouped by whom to ask."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.figures import Standing
from coilwright.guidance import WHO
from coilwright.plan.result import Plan
from coilwright.sheets.names import label, question, standing, value_text, who


@dataclass(frozen=True, slots=True)
class Question:
    """One question: to whom, in which words, about which answer, and what stands in for now."""

    who: str
    ask: str
    key: str
    label: str
    standing: Standing
    value: str


def questions(plan: Plan) -> tuple[Question, ...]:
    """One question for each open or guessed answer the order waits for, person by person."""
    job = plan.job
    found = [
        Question(who(key), question(job, key), key, label(job, key), standing(job, key),
                 value_text(job, key))
        for key in dict.fromkeys((*plan.open_answers, *plan.guesses))
    ]
    return tuple(sorted(found, key=lambda q: WHO.index(q.who)))


def by_person(plan: Plan) -> dict[str, list[Question]]:
    """The questions of each person who has any."""
    grouped: dict[str, list[Question]] = {}
    for one in questions(plan):
        grouped.setdefault(one.who, []).append(one)
    return grouped
