"""What quotes land at, as bars in characters: metal, work, surcharges and freight end to end."""

from __future__ import annotations

from decimal import Decimal

from coilwright.drawing.safe_text import one_line
from coilwright.plan.quotes.report import Comparison, Part, QuoteReport

_CELLS = {Part.METAL: "█", Part.TRIM: "▆", Part.WORK: "▓", Part.SURCHARGE: "▒", Part.FREIGHT: "░"}
_LEAST_BAR = 8
"""Cells under which a bar in parts says nothing."""
_MOST_NAME = 20


def shortened(text: str, most: int) -> str:
    """A name on one line, cut where it is longer."""
    plain = one_line(text)
    return plain if len(plain) <= most else f"{plain[: most - 1]}…"


def landed_words(row: QuoteReport) -> str:
    """What a quote lands at: `$4,412.00`, `at least ~ $3,870.00`; – for nothing added up."""
    if row.landed is None:
        return "–"
    least = "at least " if row.at_least else ""
    mark = f"{row.mark} " if row.mark else ""
    return f"{least}{mark}{row.money(row.landed)}"


def cost_lines(comparison: Comparison, width: int) -> list[str]:
    """A line a quote, all to one scale, and what the cells mean. Empty without a cost or room.

    No line is longer than `width`.
    """
    rows = [row for row in comparison.sorted() if row.cost is not None]
    most = max((row.landed for row in rows if row.landed is not None), default=Decimal(0))
    names = [shortened(row.supplier, _MOST_NAME) for row in rows]
    words = [landed_words(row) for row in rows]
    wide = max(map(len, names), default=0)
    room = width - wide - max(map(len, words), default=0) - 2
    if most <= 0 or room < _LEAST_BAR:
        return []
    lines = [
        f"{name:<{wide}} {_bar(row, most, room):<{room}} {said}"
        for row, name, said in zip(rows, names, words, strict=True)
    ]
    shown = [p for p in Part if any(row.cost is not None and row.cost.part(p) for row in rows)]
    legend = "   ".join(f"{_CELLS[part]} {part.value}" for part in shown)
    return [*lines, *([legend] if len(legend) <= width else [])]


def _bar(row: QuoteReport, most: Decimal, room: int) -> str:
    """The parts of one quote; each that is anything has one cell at least."""
    assert row.cost is not None
    bar, so_far, cells = "", Decimal(0), 0
    for part in Part:
        amount = row.cost.part(part)
        if not amount:
            continue
        so_far += amount
        end = max(cells + 1, round(float(so_far / most) * room))
        bar += _CELLS[part] * (end - cells)
        cells = end
    return bar[:room]
