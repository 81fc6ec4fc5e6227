"""Loads against their ratings, as bars in characters."""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.drawing.one_line import one_line
from coilwright.plan.result import LoadLine

_FULL = 0.8
"""Where on a bar the rating stands, so that a load over it is seen to pass it."""
_LEAST = 30
"""Cells under which name and bar say nothing."""
_NAMES = 0.7
"""Most of a line that names may take."""


def load_bars(loads: Sequence[LoadLine], width: int) -> list[str]:
    """A line a load: ! where it is over, ? where it is not known, its name, a bar; │ is the rating.

    Each bar is to its own scale, the rating at the same place on all. Where load or rating is
    not known there is no bar, for an empty one would look like room. Empty for no loads or no
    room. No line is longer than `width`.
    """
    if width < _LEAST or not loads:
        return []
    names = [one_line(line.name) for line in loads]
    wide = min(max(map(len, names)), int(width * _NAMES))
    room = width - wide - 3
    return [
        f"{_sign(line)} {_cut(name, wide):<{wide}} {_bar(line, room)}"
        for line, name in zip(loads, names, strict=True)
    ]


def _cut(name: str, wide: int) -> str:
    return name if len(name) <= wide else f"{name[: wide - 1]}…"


def _sign(line: LoadLine) -> str:
    return "!" if line.over else " " if line.known else "?"


def _bar(line: LoadLine, width: int) -> str:
    if line.load is None or line.rating is None:
        return "not known"
    mark = int(width * _FULL)
    if line.rating.value <= 0:
        return f"{'·' * mark}│{'█' * line.over}"
    # Rounded down, so that what is just inside is not drawn at its rating; over is drawn over.
    cells = int(max(0.0, line.load.value / line.rating.value) * mark + 1e-9)
    beyond = min(max(1, cells - mark), width - mark - 1) if line.over else 0
    return f"{'█' * min(cells, mark):·<{mark}}│{'█' * beyond}"
