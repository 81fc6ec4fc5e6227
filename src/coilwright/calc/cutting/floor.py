"""What no cut plan can go below: metal newly ordered, new coils, stubs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.bounds import pairing_bound
from coilwright.calc.cutting.problem import Problem


@dataclass(frozen=True, slots=True)
class Floor:
    """Bounds: metal newly ordered [steps], new coils, most cut from coils on hand [steps]."""

    metal: float
    coils: int
    from_hand: int


def most_from_hand(bits: int, rooms: Sequence[int]) -> int:
    """Most that can be cut from the coils together: the less of

    each coil filled as full as the panels can fill it alone, and all coils as if they were
    one. bits: reachable sums of the panels there are.
    """
    apart = sum(sums.top(bits, room) for room in rooms)
    return min(apart, sums.top(bits, sum(rooms)))


def coils_for(problem: Problem, rest: int) -> int:
    """New coils that `rest` steps of panels need at least."""
    if rest <= 0:
        return 0
    return max(1, -(-rest // problem.longest)) if problem.longest else 1


def floor_of(problem: Problem) -> Floor:
    """Bounds that hold for every answer to the problem."""
    whole = problem.whole
    limit = min(whole, sum(problem.rooms))
    bits = sums.layers(problem.lengths, problem.counts, limit)[0]
    from_hand = most_from_hand(bits, problem.rooms)
    coils = coils_for(problem, whole - from_hand)
    roomiest = max(problem.rooms, default=0)
    new_only = tuple(
        n if w > roomiest else 0 for w, n in zip(problem.lengths, problem.counts, strict=True)
    )
    if any(new_only) and problem.longest >= problem.lengths[0]:
        forced = sums.whole_length(problem.lengths, new_only)
        bits = sums.layers(problem.lengths, sums.minus(problem.counts, new_only), limit)[0]
        from_hand = min(from_hand, most_from_hand(bits, problem.rooms), whole - forced)
        coils = max(coils, coils_for(problem, whole - from_hand),
                    pairing_bound(problem.lengths, new_only, problem.longest))
    widest = max(roomiest, problem.longest)
    in_all = pairing_bound(problem.lengths, problem.counts, widest) - len(problem.rooms)
    coils = max(coils, in_all)
    return Floor(problem.metal(whole - from_hand, coils), coils, from_hand)


def fewest_stubs(
    problem: Problem, coils: Sequence[int], bits: int, cut: int
) -> tuple[int, float]:
    """Fewest stubs and least stub length when exactly `cut` steps come from these coils.

    A coil fills at best to the largest reachable sum (`bits`), so at least d is left on it.
    What is left over beyond Σd may spare a coil with d > 0 from being a stub: by leaving
    enough to keep, or by leaving the coil alone.
    """
    if not cut:
        return 0, 0.0
    left = sum(problem.exact_rooms[c] for c in coils) - cut
    least = [problem.leftover(c, sums.top(bits, problem.rooms[c])) for c in coils]
    beyond = left - sum(least) + 1e-6
    forced = sorted(
        (min(max(problem.keep, d), problem.exact_rooms[c]) - d, d)
        for c, d in zip(coils, least, strict=True)
        if 0 < d < problem.keep
    )
    spared = 0
    for more, _ in forced:
        if more > beyond:
            break
        beyond -= more
        spared += 1
    count = len(forced) - spared
    shortest = math.fsum(sorted(d for _, d in forced)[:count])
    smallest = min((problem.exact_rooms[c] for c in coils), default=0.0)
    if 1e-6 < left < min(problem.keep, smallest) - 1e-6:
        # Too little is left to keep or to leave a coil alone: all of it is in stubs.
        return max(1, count), round(left, 9)
    return count, round(shortest, 9)
