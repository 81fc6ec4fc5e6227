"""How far each step is: a sign and a word, never colour alone."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coilwright.plan import Plan


class Mark(Enum):
    """The state of a step: sign and word."""

    STOP = ("!", "stop")
    ASK = ("?", "ask")
    GUESS = ("~", "guess")
    DONE = ("✓", "done")
    NONE = ("-", "none")

    @property
    def sign(self) -> str:
        """One character."""
        return self.value[0]

    @property
    def word(self) -> str:
        """One word."""
        return self.value[1]


def step_mark(plan: Plan, step: str) -> Mark:
    """The mark of one step: the worst of what it still holds."""
    everything = step == "summary"

    def here(key: str) -> bool:
        return everything or key.split(".", 1)[0] == step

    if any(everything or f.step == step for f in plan.stops):
        return Mark.STOP
    if any(here(key) for key in plan.open_answers):
        return Mark.ASK
    if step == "haul" and not plan.loads:
        # No load is worked out: that is not done, though the order does not wait for it.
        return Mark.NONE
    if step == "haul" and _not_known(plan):
        return Mark.ASK
    if step == "roof" and "roof.area" not in plan.figures:
        return Mark.ASK
    if any(here(key) for key in plan.guesses):
        return Mark.GUESS
    if everything and not plan.ready:
        return Mark.ASK
    return Mark.DONE


def left_on(plan: Plan, step: str) -> int:
    """How much of what the step's mark says: stops, answers to ask, or guesses."""
    everything = step == "summary"

    def of(keys: tuple[str, ...]) -> int:
        return sum(1 for key in keys if everything or key.split(".", 1)[0] == step)

    mark = step_mark(plan, step)
    if mark is Mark.STOP:
        return sum(1 for f in plan.stops if everything or f.step == step)
    if mark is Mark.ASK:
        return of(plan.open_answers) + (_not_known(plan) if step == "haul" else 0)
    return of(plan.guesses) if mark is Mark.GUESS else 0


def _not_known(plan: Plan) -> int:
    """How many loads or their ratings are not known."""
    return sum(1 for line in plan.loads if not line.known)
