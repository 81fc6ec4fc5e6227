"""Every variant of every shipped practice job over two hundred seeds: `python -m tests.variants`.

Its key must be ready and without a fault, and an attempt that says what the key says must be
right. It takes some minutes; the tests try a few variants of each.
"""

from __future__ import annotations

import sys

from coilwright.plan.practice.propose import faults
from coilwright.plan.practice.review import review
from coilwright.plan.practice.solve import solve
from coilwright.store.practice import shipped_practices
from tests.attempts import right_attempt

SEEDS = 200


def main() -> int:
    """Print what is wrong, and how many variants were tried; 1 where anything is."""
    wrong = 0
    for name, practice in shipped_practices().items():
        for seed in range(SEEDS):
            told = list(faults(practice, seed))
            if not told:
                solved = solve(practice, seed)
                told = [m.text for m in review(solved, right_attempt(solved)).mistakes]
            for text in told:
                wrong += 1
                print(f"{name}, seed {seed}: {text}")
        print(f"{name}: {SEEDS} variants tried")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
