"""Cut plan and nesting against CP-SAT, on the same instances in the same run.

CP-SAT is asked for the same objectives level by level, once with one worker and once with its
default number, each level for at most `SECONDS`. The claim: an objective no worse, in no more
than a twentieth of its time. For nesting CP-SAT is also given its strongest model, every
maximal pattern listed beforehand; those rows are shown for honesty and carry no claim.

The worst case is measured against the time allowed: questions made hard on purpose, every panel
of another length and the coils on hand all but used up, must be answered, with a bound, within it.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from coilwright.calc.cutting.cutplan import cut_plan
from coilwright.calc.cutting.nesting import nest
from tests.benchmarks.table import Row, printed_table
from tests.calc.cutting import instances, references

SECONDS = 4.0
CLAIM = 1 / 20
ALLOWED = 1.0
"""Seconds allowed to each question of the worst case."""
_SIXTEENTHS = 16
_RUNS = 9

Result = TypeVar("Result")


@dataclass(frozen=True, slots=True)
class SolvedRow(Row):
    """A row whose claim is also that our objective is no worse."""

    no_worse: bool = False

    @property
    def holds(self) -> bool:
        """Whether ours is as good or better, and fast enough where that is claimed."""
        return self.no_worse and (self.claim is None or self.ratio <= self.claim)


def _row(
    what: str, ours: float, yardstick: str, theirs: float, claim: float | None,
    our_objective: tuple[float, ...], their_objective: tuple[float, ...] | None,
    we_prove: bool, they_prove: bool,
) -> SolvedRow:
    if their_objective is None:
        verdict = "found none"
    elif their_objective == our_objective:
        verdict = "the same"
    else:
        verdict = "worse" if our_objective < their_objective else "BETTER"
    return SolvedRow(
        f"{what} ({'proven' if we_prove else 'not proven'})", ours,
        f"{yardstick}: {verdict} ({'proven' if they_prove else 'not proven'})", theirs, claim,
        _RUNS, their_objective is None or our_objective <= their_objective,
    )


def rows() -> list[SolvedRow]:
    """The worst case, then all comparisons; only the former where CP-SAT is not installed."""
    found = worst_rows()
    if not references.HAS_CP_SAT:
        return found
    for workers, label in ((1, "CP-SAT, 1 worker"), (0, "CP-SAT, default")):
        for share in (0.8, 1.02, 1.3):
            order = instances.residential(1, share)
            found.append(_plan_row(f"residential {share:.0%}", order, workers, label))
        for share in (0.8, 1.02, 1.3):
            order = instances.large(1, share)
            found.append(_plan_row(f"large {share:.0%}", order, workers, label))
        for seed in (1, 2, 3):
            found.extend(_trim_rows(f"trim {seed}", instances.trim(seed), workers, label))
    return found


def worst_rows() -> list[SolvedRow]:
    """The slowest of several hard questions against the time allowed to each."""
    slowest, bounded, settled = 0.0, True, 0
    hard = [instances.order(seed, 400, 400, 14, share)
            for seed in (5, 6, 7) for share in (0.8, 1.0, 1.02)]
    for order in hard:
        start = time.perf_counter()
        plan = cut_plan(order.demands, order.on_hand, order.longest, loss_per_new=order.loss,
                        keep=order.keep, seconds=ALLOWED, clock=time.monotonic)
        slowest = max(slowest, time.perf_counter() - start)
        bounded &= 0 <= plan.new_metal_bound <= plan.new_metal
        settled += plan.proven.metal
    rows = [SolvedRow(
        f"cut plan, slowest of {len(hard)} hard ones (400 lengths, 14 on hand; {settled} proven)",
        slowest, "the time allowed to each", ALLOWED, 1.0, 1, bounded,
    )]
    slowest, bounded, settled = 0.0, True, 0
    many = [instances.trim(seed, flat_widths) for seed in (1, 2, 3) for flat_widths in (40, 80)]
    for pieces in many:
        start = time.perf_counter()
        nesting = nest(pieces, 48.0, seconds=ALLOWED, clock=time.monotonic)
        slowest = max(slowest, time.perf_counter() - start)
        bounded &= 0 < nesting.bound <= nesting.sheets
        settled += nesting.proven
    rows.append(SolvedRow(
        f"nesting, slowest of {len(many)} hard ones (40 and 80 flat widths; {settled} proven)",
        slowest, "the time allowed to each", ALLOWED, 1.0, 1, bounded,
    ))
    return rows


def _timed(run: Callable[[], Result]) -> tuple[Result, float]:
    spent = []
    for _ in range(_RUNS):
        start = time.perf_counter()
        result = run()
        spent.append(time.perf_counter() - start)
    return result, statistics.median(spent)


def _plan_row(name: str, order: instances.Order, workers: int, label: str) -> SolvedRow:
    plan, ours = _timed(
        lambda: cut_plan(order.demands, order.on_hand, order.longest, loss_per_new=order.loss,
                         keep=order.keep, seconds=2.0, clock=time.monotonic)
    )
    most_new = int(order.whole // order.longest) + 2
    start = time.perf_counter()
    theirs, proven = references.cut_plan_cp_sat(
        [round(d.length * _SIXTEENTHS) for d in order.demands],
        [d.count for d in order.demands],
        [round(room * _SIXTEENTHS) for room in order.on_hand],
        round(order.longest * _SIXTEENTHS), round(order.loss * _SIXTEENTHS),
        round(order.keep * _SIXTEENTHS), most_new, SECONDS, workers,
    )
    spent = time.perf_counter() - start
    objective = (plan.new_metal, plan.new_coils, plan.stubs, round(plan.stub_length, 6))
    reference = None
    if theirs is not None:
        reference = (theirs[0] / _SIXTEENTHS, theirs[1], theirs[2], theirs[3] / _SIXTEENTHS)
    proof = plan.proven
    return _row(f"cut plan, {name}", ours, label, spent, CLAIM, objective, reference,
                proof.metal and proof.coils and proof.stubs, proven)


def _trim_rows(
    name: str, pieces: list[tuple[float, int]], workers: int, label: str
) -> list[SolvedRow]:
    nesting, ours = _timed(lambda: nest(pieces, 48.0, seconds=2.0, clock=time.monotonic))
    widths = [round(width * 8) for width, _ in pieces]
    counts = [count for _, count in pieces]

    def by_sheet() -> tuple[int | None, bool]:
        return references.sheets_cp_sat(
            widths, counts, 48 * 8, nesting.sheets + 2, SECONDS, workers
        )

    def by_pattern() -> tuple[int | None, bool]:
        patterns = references.all_patterns(widths, counts, 48 * 8)
        return references.sheets_by_pattern_cp_sat(patterns, counts, SECONDS, workers)

    found = []
    for ask, how, claim in ((by_sheet, "", CLAIM), (by_pattern, ", given patterns", None)):
        start = time.perf_counter()
        theirs, proven = ask()
        spent = time.perf_counter() - start
        reference = None if theirs is None else (theirs,)
        found.append(_row(f"nesting, {name}", ours, label + how, spent, claim,
                          (nesting.sheets,), reference, nesting.proven, proven))
    return found


if __name__ == "__main__":
    print(printed_table(rows()))
