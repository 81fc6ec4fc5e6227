"""What a person's mistakes would have cost in all, and those of a class: one order is lost once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from coilwright.job.practice import Damage
from coilwright.plan.practice.losses import in_whole, most
from coilwright.plan.practice.review import Review
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.source import ARITHMETIC
from coilwright.values.standing import Standing

NUMBERED = tuple(damage for damage in Damage if damage is not Damage.DANGER)
"""What a mistake costs that is a number."""
SUMMED = (Damage.METAL, Damage.MONEY)
"""What adds up from person to person: each would have ordered. Days pass for all at once."""


@dataclass(frozen=True, slots=True)
class Cost:
    """What the mistakes of an attempt would have cost. figures: of each kind the most that one of
    them does, for all are of one order; of: how many cost a number; hurts: whether somebody can be
    hurt."""

    figures: Mapping[Damage, Figure]
    of: int
    hurts: bool

    @property
    def is_any(self) -> bool:
        """Whether there is anything to tell."""
        return self.hurts or bool(self.figures)


def cost_of(review: Review) -> Cost:
    """What the mistakes of one attempt would have cost in all."""
    losses = [loss for mark in review.marks for loss in mark.losses]
    found = {damage: most(losses, damage) for damage in NUMBERED}
    numbered = sum(any(loss.figure is not None for loss in costs)
                   for mark in review.marks for costs in mark.costs)
    return Cost({damage: figure for damage, figure in found.items() if figure is not None},
                numbered, any(loss.damage is Damage.DANGER for loss in losses))


def class_sum(costs: Iterable[Cost], system: System) -> dict[Damage, Figure]:
    """The metal and the money of a class, each person's once, as they are read in its table; and
    the most days, as those of all pass at once."""
    made: dict[Damage, Figure] = {}
    costs = tuple(costs)
    for damage in NUMBERED:
        figures = [in_whole(one.figures[damage]) if damage is Damage.MONEY
                   else one.figures[damage] for one in costs if damage in one.figures]
        values = [one.as_read(system) for one in figures]
        if figures:
            made[damage] = Figure(
                f"practice.class.{damage}", "The class",
                sum(values) if damage in SUMMED else max(values),
                figures[0].kind, ARITHMETIC, Standing.SURE, currency=figures[0].currency)
    return made
