"""`python -m tests.benchmarks`: run all of it and print one table (some minutes).

`python -m tests.benchmarks plan`, `start`, `roof`, `cutting`, `asking` or `typing` runs one part.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from tests.benchmarks import asking, cutting, planning, roof, start_up, typed
from tests.benchmarks.table import Row, printed_table

PARTS = {
    "start": start_up.rows,
    "plan": planning.rows,
    "roof": roof.rows,
    "cutting": cutting.rows,
    "asking": asking.rows,
    "typing": typed.rows,
}


def rows(which: str) -> Iterator[Row]:
    """The rows of the table, each measured as it is asked for."""
    for name, part in PARTS.items():
        if which in ("all", name):
            yield from part()


def main() -> int:
    """Print the table; 1 where a claim does not hold."""
    wanted = sys.argv[1:] or ["all"]
    if not set(wanted) <= {"all", *PARTS}:
        print(f"Choose {', '.join(PARTS)}, or nothing for all of them.", file=sys.stderr)
        return 2
    found = [row for which in wanted for row in rows(which)]
    print(printed_table(found))
    return 0 if all(row.holds for row in found) else 1


if __name__ == "__main__":
    raise SystemExit(main())
