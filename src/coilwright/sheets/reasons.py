"""Why an order is not ready yet, reason by reason, and who must be asked what."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.plan.result import Plan
from coilwright.sheets.names import asked_of, label, question, standing, value_text, who
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.words import WHO


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason: what kind (stop, ask, guess, missing), which answer or finding, words."""

    kind: str
    key: str
    words: str
    do: str

    @property
    def text(self) -> str:
        """The reason in one line."""
        return f"{self.words} {self.do}"


def _named(job: Job, key: str) -> str:
    """What an answer is called, in quotes: some are called as a sentence begins."""
    name = label(job, key)
    return f"“{name}”" if key in ANSWERS else name


def why_not(plan: Plan) -> tuple[Reason, ...]:
    """All that stands between the plan and an order; empty when it is ready."""
    job = plan.job
    reasons = [Reason("stop", f.key, f"STOP: {f.what}", f.do) for f in plan.stops]
    for key in plan.open_answers:
        person = asked_of(who(key))
        if key in job.typed:
            reasons.append(Reason(
                "ask", key, f"{_named(job, key)}: “{job.typed[key]}” cannot be read.",
                "Type it again." if who(key) == "you" else f"Type it again, or ask {person}.",
            ))
            continue
        do = "Find it out." if who(key) == "you" else f"Ask {person}."
        reasons.append(Reason("ask", key, f"{_named(job, key)} is not known.", do))
    for key in plan.guesses:
        value = value_text(job, key)
        said = f"{_named(job, key)} is a guess" + (f": {value}." if value else ".")
        do = "Check it." if who(key) == "you" else f"Confirm it with {asked_of(who(key))}."
        reasons.append(Reason("guess", key, said, do))
    if not plan.coils and not reasons:
        lack = plan.lacks.get(Key.COIL_MASS_ORDERED)
        because = lack.because if lack is not None and lack.because else ""
        words = (
            f"There is nothing to order yet: {because}."
            if because
            else ("There is nothing to order yet: no plane has a panel on it.")
        )
        reasons.append(
            Reason("missing", Key.COIL_MASS_ORDERED, words, "Look at the roof's planes.")
        )
    return tuple(reasons)


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
