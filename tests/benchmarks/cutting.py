"""Cut plan and nesting against CP-SAT, on the same instances in the same run.

CP-SAT is asked for the same objectives level by level, once with one worker and once with its
default number, each level for at most `SECONDS`. The claim: an objective no worse, in no more
than a twentieth of its time. For nesting CP-SAT is also given its strongest model, every
maximal pattern listed beforehand; those rows are shown for honesty and carry no claim.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

from coilwright.calc.cutting.cutplan import CutPlan, cut_plan
from coilwright.calc.cutting.nesting import Nesting, nest
from tests.cutting import instances, references

SECONDS = 4.0
CLAIM = 1 / 20
_SIXTEENTHS = 16


@dataclass(frozen=True, slots=True)
class Row:
    """One comparison. Times in seconds; `ratio` is ours over theirs."""

    name: str
    ours: float
    theirs: float
    reference: str
    our_objective: tuple[float, ...]
    their_objective: tuple[float, ...] | None
    we_prove: bool
    they_prove: bool
    claimed: bool = True

    @property
    def ratio(self) -> float:
        return self.ours / self.theirs

    @property
    def no_worse(self) -> bool:
        return self.their_objective is None or self.our_objective <= self.their_objective

    @property
    def holds(self) -> bool:
        """The claim holds on this row."""
        return self.no_worse and self.ratio <= CLAIM

    def __str__(self) -> str:
        proof = {True: "proven", False: "not proven"}
        return (
            f"{self.name:<18} ours {self.ours * 1000:8.1f} ms {self.our_objective} "
            f"{proof[self.we_prove]}; {self.reference} {self.theirs * 1000:8.1f} ms "
            f"{self.their_objective} {proof[self.they_prove]}; "
            f"1/{1 / self.ratio:.0f} of its time; {self._verdict()}"
        )

    def _verdict(self) -> str:
        if not self.claimed:
            return "no claim"
        return "claim holds" if self.holds else "claim FAILS"


def rows() -> list[Row]:
    """All comparisons; none where CP-SAT is not installed."""
    if not references.HAS_CP_SAT:
        return []
    found = []
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


def _timed(run: Callable[[], CutPlan | Nesting], times: int = 3) -> tuple[object, float]:
    results, spent = [], []
    for _ in range(times):
        start = time.perf_counter()
        results.append(run())
        spent.append(time.perf_counter() - start)
    return results[0], statistics.median(spent)


def _plan_row(name: str, order: instances.Order, workers: int, label: str) -> Row:
    plan, ours = _timed(
        lambda: cut_plan(order.demands, order.on_hand, order.longest, loss_per_new=order.loss,
                         keep=order.keep, seconds=2.0)
    )
    assert isinstance(plan, CutPlan)
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
    return Row(name, ours, spent, label, objective, reference,
               proof.metal and proof.coils and proof.stubs, proven)


def _trim_rows(
    name: str, pieces: list[tuple[float, int]], workers: int, label: str
) -> list[Row]:
    nesting, ours = _timed(lambda: nest(pieces, 48.0, seconds=2.0))
    assert isinstance(nesting, Nesting)
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
    for ask, how, claimed in ((by_sheet, "", True), (by_pattern, ", given patterns", False)):
        start = time.perf_counter()
        theirs, proven = ask()
        spent = time.perf_counter() - start
        reference = None if theirs is None else (theirs,)
        found.append(Row(name, ours, spent, label + how, (nesting.sheets,), reference,
                         nesting.proven, proven, claimed))
    return found


if __name__ == "__main__":
    for row in rows():
        print(row)
