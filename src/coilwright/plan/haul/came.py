"""What coils of the order weigh that came, and what a count of coils on the road is of."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TypeVar

from coilwright.job.answers.haul import HaulKey
from coilwright.job.confirmations import AS_ORDERED, arrived_as, is_of_what_arrived
from coilwright.job.job import Job
from coilwright.job.receiving import Arrival, came_for
from coilwright.plan.result import CoilPlan
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.keys import hauled_key, part_of, row_key
from coilwright.values.source import ANSWER
from coilwright.values.standing import Standing

T = TypeVar("T")


def came_at(job: Job, coil: CoilPlan) -> float:
    """What a coil of the order weighs by its tag or a scale, the greater of the two [lb]; 0 while
    it has not come. One over the order, that somebody took knowingly, is lifted and hauled all the
    same. Where it came as several, the heaviest; one of which nobody said what it is, is the first.
    """
    return max((_weight(one) for one in job.arrived if not one.is_gone
                and coil.number == (1 if one.coil is None else one.coil)), default=0.0)


def each_came_at(job: Job, coil: CoilPlan) -> tuple[tuple[int, float], ...]:
    """What each weighs that a coil of the order came as, where it came as several [lb], with its
    number in the list, from 1; empty where one of them has no weight yet, and nothing is lighter
    for it."""
    came = tuple((number, _weight(job.arrived[number - 1]))
                 for number in came_for(job.arrived).get(coil.number, ()))
    return came if len(came) > 1 and all(weight for _, weight in came) else ()


def several_came_at(job: Job, coil: CoilPlan) -> tuple[float, ...]:
    """What each weighs that a coil of the order came as, where it came as several [lb]; 0 of one
    that has no weight yet."""
    came = came_for(job.arrived).get(coil.number, ())
    return tuple(_weight(job.arrived[number - 1]) for number in came) if len(came) > 1 else ()


def known_of_several(job: Job, coil: CoilPlan) -> float:
    """What those weigh together [lb] that a coil of the order came as and whose weight is known,
    where it came as several and one has none: no load of it is less."""
    return 0.0 if each_came_at(job, coil) else sum(several_came_at(job, coil))


def _weight(one: Arrival) -> float:
    """What it weighs by its tag or a scale, the greater of the two [lb]; 0 where neither is known.
    """
    return max(one.mass or 0.0, one.weighed or 0.0)


def weights_there(figures: Mapping[str, Figure], job: Job, coil: CoilPlan) -> tuple[float, ...]:
    """The most that a coil of the order can weigh, or each that it came as [lb]."""
    return tuple(weight for _, weight in each_came_at(job, coil)) or (
        max(weighs_at_most(figures, job, coil).value, known_of_several(job, coil)),)


def weighs_at_most(figures: Mapping[str, Figure], job: Job, coil: CoilPlan) -> Figure:
    """The most a new coil can weigh, as lifts and loads count it, whether that is entered or not:
    as `loads.heaviest_new_coil`."""
    key = row_key("coil", coil.number)
    most = figures.get(hauled_key(key)) or figures[part_of(key, "heaviest")]
    came = came_at(job, coil)
    if came <= most.value and not each_came_at(job, coil):
        return most
    return Figure(hauled_key(key), f"Coil {coil.number}: weight as it came", came, Kind.MASS,
                  ANSWER, Standing.SURE)


def counts_as_ordered(job: Job, ordered: int) -> bool:
    """Whether the counts of coils on the road were given before one of the order came as several,
    and not again since: they are of coils as ordered, and all that came for one rides with it, so
    that no load is lighter than it may be.

    ordered: how many coils the job has as ordered, and on hand. More than those are no such count.
    """
    haul = job.haul
    counts = {HaulKey.RACK_COILS: haul.rack_coils or 0, HaulKey.CARGO_COILS: haul.cargo_coils or 0}
    return 0 < sum(counts.values()) <= ordered and arrived_as(job) != AS_ORDERED and any(
        count and not is_of_what_arrived(job, key) for key, count in counts.items())


def counted_as(
    job: Job, ordered: Iterable[tuple[T, ...]], weight: Callable[[T], float]
) -> tuple[tuple[T, ...], ...]:
    """What each coil is that is counted on the road, heaviest first: one that is there, or all that
    one of the order came as.

    ordered: what each coil of the job, as ordered or on hand, is there as.
    """
    whole = tuple(ordered)
    if not counts_as_ordered(job, len(whole)):
        whole = tuple((one,) for coils in whole for one in coils)
    return tuple(sorted(whole, key=lambda coils: -sum(map(weight, coils))))
