"""Every variant of every shipped practice job over two hundred seeds: `python -m tests.variants`.

And mistakes put into the demo jobs, in both systems of units, thirty mixes each.

Its key must be ready and without a fault, and come out the same when it is worked out again; an
attempt that says what the key says must be right, and each mistake that can be planted in it must
be found, and nothing else. It takes some minutes; the tests try a few variants of each.
"""

from __future__ import annotations

import dataclasses
import sys
from collections.abc import Iterator

from coilwright.job.anonymous import without_names
from coilwright.job.practice import Practice
from coilwright.plan import plan
from coilwright.plan.practice.propose import faults
from coilwright.plan.practice.review import review
from coilwright.plan.practice.solve import solve
from coilwright.store.practice import shipped_practices
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from tests.attempts import mistakes, right_attempt
from tests.planted import planted_faults

SEEDS, MIXES = 200, 30


def told(practice: Practice, seed: int) -> Iterator[str]:
    """What is wrong with a variant, in a sentence each."""
    if found := faults(practice, seed):
        yield from found
        return
    solved = solve(practice, seed)
    if [one.text for one in solve(practice, seed).solutions] != [
        one.text for one in solved.solutions
    ]:
        yield "its key comes out otherwise when it is worked out again"
    right = right_attempt(solved)
    yield from (f"the key is not right: {one.text}" for one in review(solved, right).mistakes)
    for solution in solved.solutions:
        key = solution.decision.key
        for mistake, response in mistakes(solution):
            made = review(solved, right.respond(key, response)).mistakes
            if made != (mistake,):
                yield f"{key}: {mistake.text} was planted, {[one.text for one in made]} found"


def main() -> int:
    """Print what is wrong, and how many variants were tried; 1 where anything is."""
    wrong = 0
    for name, practice in shipped_practices().items():
        for seed in range(SEEDS):
            for text in told(practice, seed):
                wrong += 1
                print(f"{name}, seed {seed}: {text}")
        print(f"{name}: {SEEDS} variants tried")
    for name, job in demo_jobs().items():
        for units in System:
            base = plan(without_names(dataclasses.replace(job, units=units), "Found"))
            for mix in range(MIXES):
                for text in planted_faults(base, f"{name}/{mix}"):
                    wrong += 1
                    print(f"{name}, {units.value}, mix {mix}: {text}")
            print(f"{name}, {units.value}: {MIXES} mixes of mistakes tried")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
