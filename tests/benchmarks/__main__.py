"""`python -m tests.benchmarks`: run all of it and print one table (about a minute).

`python -m tests.benchmarks plan` or `start` runs one half.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from tests.benchmarks import planning, start_up
from tests.benchmarks.table import Row, printed_table


def rows(which: str) -> Iterator[Row]:
    """The rows of the table, each measured as it is asked for."""
    if which in ("all", "plan"):
        yield from planning.rows()
    if which in ("all", "start"):
        yield from start_up.rows()


def main() -> int:
    """Print the table; 1 where a claim does not hold."""
    which = sys.argv[1] if len(sys.argv) > 1 else "all"
    if which not in ("all", "plan", "start"):
        print("Choose plan, start, or nothing for both.", file=sys.stderr)
        return 2
    found = list(rows(which))
    print(printed_table(found))
    return 0 if all(row.holds for row in found) else 1


if __name__ == "__main__":
    raise SystemExit(main())
