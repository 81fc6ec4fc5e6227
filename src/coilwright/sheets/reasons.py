"""Why an order is not ready yet, reason by reason."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.plan.result import Plan
from coilwright.sheets.names import asked_of, label, value_text, who


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
        lack = plan.lacks.get("coil.mass_ordered")
        because = lack.because if lack is not None and lack.because else ""
        words = f"There is nothing to order yet: {because}." if because else (
            "There is nothing to order yet: no plane has a panel on it."
        )
        reasons.append(Reason("missing", "coil.mass_ordered", words, "Look at the roof's planes."))
    return tuple(reasons)
