"""Loads against their ratings, as bars in characters."""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.drawing.one_line import one_line
from coilwright.plan.result import NOT_KNOWN, LoadLine

_FULL = 0.8
"""Where on a bar the rating stands, so that a load over it is seen to pass it."""
_LEAST = 20
"""Cells under which a bar says nothing."""


def load_bars(loads: Sequence[LoadLine], width: int) -> list[str]:
    """Two lines a load: its name and whether it is over, and a bar; │ is the rating.

    Each bar is to its own scale, the rating at the same place on all. Where load or rating is
    not known there is no bar, for an empty one would look like room. Empty for no loads or no
    room. No line is longer than `width`.
    """
    if width < _LEAST:
        return []
    lines = []
    for line in loads:
        word = line.word.partition(":")[0]
        wide = width - len(word)
        lines += [f"{one_line(line.name)[:wide - 1]:<{wide}}{word}", _bar(line, width)]
    return lines


def _bar(line: LoadLine, width: int) -> str:
    if line.rating is None:
        return f"  no bar: {'count them' if line.word != NOT_KNOWN else 'read the plate'}"[:width]
    if line.load is None:
        return "  no bar: weigh it"[:width]
    mark = int(width * _FULL)
    if line.rating.value <= 0:
        return f"{'·' * mark}│{'█' if line.over else ''}"
    cells = round(max(0.0, line.load.value / line.rating.value) * mark)
    # However little it is over, it is drawn over.
    beyond = min(max(1, cells - mark), width - mark - 1) if line.over else 0
    return f"{'█' * min(cells, mark):·<{mark}}│{'█' * beyond}"
