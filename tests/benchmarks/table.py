"""Measuring two things turn about, and the table of what came out."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """Ours against a yardstick, both in seconds; `claim` is the most the ratio may be."""

    what: str
    ours: float
    yardstick: str
    theirs: float
    claim: float | None
    runs: int

    @property
    def ratio(self) -> float:
        """Ours over the yardstick."""
        return self.ours / self.theirs

    @property
    def holds(self) -> bool:
        """Whether the claim holds, where there is one."""
        return self.claim is None or self.ratio <= self.claim


def turn_about(things: Sequence[Callable[[], None]], runs: int) -> list[float]:
    """Median seconds of each, run in turn so that a slow spell strikes all alike."""
    times: list[list[float]] = [[] for _ in things]
    for thing in things:
        thing()
    for _ in range(runs):
        for kept, thing in zip(times, things, strict=True):
            began = time.perf_counter()
            thing()
            kept.append(time.perf_counter() - began)
    return [statistics.median(kept) for kept in times]


def printed_table(rows: Sequence[Row]) -> str:
    """The rows as lines of text."""
    head = ("what", "ours", "yardstick", "takes", "ratio", "claim", "")
    body = [
        (row.what, _time(row.ours), row.yardstick, _time(row.theirs), f"{row.ratio:.2f}",
         f"≤ {row.claim:g}" if row.claim else "none",
         ("holds" if row.holds else "DOES NOT HOLD") if row.claim else "")
        for row in rows
    ]  # fmt: skip
    widths = [max(len(line[i]) for line in (head, *body)) for i in range(len(head))]
    lines = [
        "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip()
        for line in (head, *body)
    ]
    lines.insert(1, "  ".join("─" * width for width in widths))
    return "\n".join([*lines, "", "Medians of interleaved runs; ratio is ours ÷ the yardstick."])


def _time(seconds: float) -> str:
    return f"{seconds * 1000:.2f} ms" if seconds < 1 else f"{seconds:.2f} s"
