"""Bars in characters: where the metal goes, and loads against their ratings."""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.drawing.safe_text import one_line
from coilwright.plan.result import AccountLine, LoadLine, Plan
from coilwright.values.figure import Figure
from coilwright.values.keys import Key

_EIGHTHS = ("", "▏", "▎", "▍", "▌", "▋", "▊", "▉")
_LEAST_BAR = 4
"""Cells under which a bar says nothing."""
_LEAST_NAME = 12
"""Cells under which the name of a part says nothing."""
_RATING_AT = 0.8
"""Where on a bar the rating stands, so that a load over it is seen to pass it."""
_LEAST_LINE = 30
"""Cells under which name and bar say nothing."""
_MOST_NAMES = 0.75
"""Most of a line that names may take."""


def range_bar(
    ends: tuple[float, float], now: float | None, scale: tuple[float, float], width: int
) -> str:
    """A bar from one end to the other of a range, on a scale that is `width` cells long.

    A line stands in it where things stand now. Every range that is on the scale takes a cell.
    Raises ValueError for a scale without length.

    >>> range_bar((2, 4), 3, (0, 8), 16)
    '    ██┃██       '
    """
    least, most = scale
    if most <= least:
        raise ValueError("a scale needs two ends")

    def place(value: float) -> int:
        return min(width - 1, max(0, int((value - least) / (most - least) * width)))

    first, last = place(ends[0]), max(place(ends[0]), place(ends[1]))
    drawn = ["█" if first <= cell <= last else " " for cell in range(width)]
    if now is not None:
        drawn[place(now)] = "┃"
    return "".join(drawn)


def account_rows(plan: Plan) -> list[AccountLine]:
    """The parts of the order that weigh anything, heaviest first; what is taken off it last."""
    return sorted(
        (line for line in plan.account if abs(line.mass.value) > 1e-6),
        key=lambda line: line.mass.value,
        reverse=True,
    )


def account_parts(plan: Plan) -> list[tuple[str, tuple[Figure, ...]]]:
    """Each part of the order, and the order itself last: its length of strip, weight and cost.

    The cost is there once a price is known. Empty while there is no order.
    """
    figures = plan.figures
    ordered = (figures.get(Key.COIL_LENGTH_ORDERED), figures.get(Key.COIL_MASS_ORDERED),
               figures.get(Key.COIL_COST))
    rows = [(row.name, (row.length, row.mass, row.money)) for row in account_rows(plan)]
    if not rows or ordered[1] is None:
        return []
    return [(name, tuple(figure for figure in row if figure is not None))
            for name, row in (*rows, ("ordered", ordered))]


def account_columns(plan: Plan, width: int) -> list[str]:
    """The parts of the order in columns: strip, weight and, where a price is known, cost.

    Columns that do not fit are left out, the last first; names are cut before numbers are.
    """
    parts = account_parts(plan)
    if not parts:
        return []
    columns = [
        _right([head, *(f"{figure.mark:1} {figure.text(plan.job.units)}" for figure in column)])
        for head, column in zip(("as strip", "weight", "cost"),
                                zip(*(row for _, row in parts), strict=True), strict=False)
    ]
    while len(columns) > 1 and sum(len(c[0]) + 1 for c in columns) + _LEAST_NAME > width:
        columns.pop()
    wide = max(0, min(max(len(name) for name, _ in parts),
                      width - sum(len(c[0]) + 1 for c in columns)))
    names = [" " * wide, *(f"{name[:wide]:<{wide}}" for name, _ in parts)]
    return [line[:width].rstrip() for line in map(" ".join, zip(names, *columns, strict=True))]


def account_lines(plan: Plan, width: int) -> list[str]:
    """One bar for each part of the ordered weight, in eighths of a cell, then the total.

    Empty while there is no order, or no room for a number. No line is longer than `width`;
    where it is narrow the bars go first, then the shares, then the ends of the names.
    """
    ordered = plan.figures.get(Key.COIL_MASS_ORDERED)
    rows = account_rows(plan)
    if ordered is None or not rows or width <= 0:
        return []
    system = plan.job.units
    masses = _right([row.mass.text(system) for row in rows] + [ordered.text(system)])
    marks = [row.mass.mark for row in rows] + [ordered.mark]
    masses = [f"{mark:1} {mass}" for mark, mass in zip(marks, masses, strict=True)]
    shares = _right([row.share.text(system) for row in rows])
    total = masses.pop()
    names = [row.name for row in rows]
    wide, number = max(map(len, names)), len(total)
    room = width - wide - number - len(shares[0]) - 4
    if number > width:
        return []
    if room < _LEAST_BAR:
        wide = max(0, min(wide, width - number - 1))
        lines = [f"{n[:wide]:<{wide}} {m}".strip() for n, m in zip(names, masses, strict=True)]
        if wide + number + len(shares[0]) + 3 <= width:
            lines = [f"{line}  {share}" for line, share in zip(lines, shares, strict=True)]
        end = wide + 1 + number
    else:
        bars = account_bars(rows, room)
        lines = [
            f"{name:<{wide}} {bar:<{room}} {mass}  {share}"
            for name, bar, mass, share in zip(names, bars, masses, shares, strict=True)
        ]
        end = wide + room + 2 + number
    last = f"ordered {total}"
    return [*lines, f"{last:>{end}}" if len(last) <= end else f"{total:>{min(end, width)}}"]


def account_bars(rows: Sequence[AccountLine], room: int) -> list[str]:
    """Bars to one scale, the longest `room` cells; every part shows an eighth of one at least.

    What is taken off has none.
    """
    most = max(row.share.value for row in rows)
    bars = []
    for row in rows:
        if row.share.value < 0:
            bars.append("")
            continue
        eighths = max(1, round(row.share.value / most * room * 8))
        bars.append("█" * (eighths // 8) + _EIGHTHS[eighths % 8])
    return bars


def _right(texts: list[str]) -> list[str]:
    wide = max(map(len, texts))
    return [text.rjust(wide) for text in texts]


_NOT_KNOWN = "not known"


def load_bars(loads: Sequence[LoadLine], width: int) -> list[str]:
    """A line a load: ! where it is over, ? where it is not known, its name, a bar; │ is the rating.

    Each bar is to its own scale, the rating at the same place on all. Where load or rating is
    not known there is no bar, for an empty one would look like room. Empty for no loads or no
    room. No line is longer than `width`.
    """
    if width < _LEAST_LINE or not loads:
        return []
    names = [one_line(line.name) for line in loads]
    wide = min(max(map(len, names)), int(width * _MOST_NAMES), width - 3 - len(_NOT_KNOWN))
    room = width - wide - 3
    return [
        f"{_state(line)} {_shortened(name, wide):<{wide}} {_bar(line, room)}"
        for line, name in zip(loads, names, strict=True)
    ]


def _shortened(name: str, wide: int) -> str:
    return name if len(name) <= wide else f"{name[: wide - 1]}…"


def _state(line: LoadLine) -> str:
    return "!" if line.over else " " if line.known else "?"


def _bar(line: LoadLine, width: int) -> str:
    if line.load is None or line.rating is None:
        return _NOT_KNOWN
    mark = int(width * _RATING_AT)
    if line.rating.value <= 0:
        return f"{'·' * mark}│{'█' * line.over}"
    # Rounded down, so that what is just inside is not drawn at its rating; over is drawn over.
    cells = int(max(0.0, line.load.value / line.rating.value) * mark + 1e-9)
    beyond = min(max(1, cells - mark), width - mark - 1) if line.over else 0
    return f"{'█' * min(cells, mark):·<{mark}}│{'█' * beyond}"
