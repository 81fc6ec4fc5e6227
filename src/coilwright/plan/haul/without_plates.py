"""Lifts where no plate of the gear is entered: what is known of them by what was answered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.job.answers.coils import CoilsKey
from coilwright.plan.haul.came import came_at, weighs_at_most
from coilwright.plan.order_limits import SKID_AND_PACKING, SLACK, tight_package
from coilwright.plan.result import Plan
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.keys import LIFT_PLACES, LiftPlace, lift_key


@dataclass(frozen=True, slots=True)
class LiftWithoutPlate:
    """What is to be lifted at a place where no plate of the gear is entered.

    heaviest: the coil of the job, whatever comes first on the hook. told: what the gear lifts, by
    what was answered; None where nobody said. held: the order holds it to that with skid and
    packing, as it has not come yet.
    """

    place: LiftPlace
    heaviest: Figure
    told: Figure | None
    held: bool

    def is_over(self, system: System) -> bool:
        """Whether the coil alone, without its skid, is more than was answered."""
        return self.told is not None and self.heaviest.as_read(system) > self.told.value + SLACK

    def is_tight(self, system: System) -> bool:
        """Whether skid and packing bring it over what was answered."""
        return self.told is not None and (
            self.heaviest.as_read(system) + SKID_AND_PACKING[system] > self.told.value + SLACK)


def lifts_without_plates(plan: Plan) -> Iterator[LiftWithoutPlate]:
    """The lifts of a job's coils that no load line holds to a rating; none while that is kept back.
    """
    if plan.concealed:
        return
    places, tight = {load.place for load in plan.loads}, tight_package(plan) is not None
    weights = [(weighs_at_most(plan.figures, plan.job, coil),
                tight and not came_at(plan.job, coil)) for coil in plan.coils]
    weights += [(coil.heaviest, False) for coil in plan.from_stock]
    if not weights:
        return
    system = plan.job.units
    for place in LIFT_PLACES:
        if place not in places:
            told = plan.figures.get(CoilsKey.SITE_LIFT) if place == "site" else None
            lifts = [LiftWithoutPlate(place, heaviest, told, held and told is not None)
                     for heaviest, held in weights]
            # One that no order holds is worse than a heavier one that the order does.
            yield max(lifts, key=lambda lift: (
                lift.is_over(system), lift.is_tight(system) and not lift.held,
                lift.heaviest.value))


def unnamed_lifts(plan: Plan) -> Iterator[str]:
    """The answers that would say by what coils are lifted, where nobody did and no weight is told
    that can be lifted there."""
    for lift in lifts_without_plates(plan):
        if lift.told is None and getattr(plan.job.haul, lift.place).by is None:
            yield lift_key(lift.place, "by")
