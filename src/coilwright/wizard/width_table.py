"""The comparison of widths as a table: its columns, and how it is sorted. No screens here."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.wizard.literal import cells

if TYPE_CHECKING:
    from coilwright.plan.panel.compare import WidthRow


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its head, and the figure in it. rank: the higher, the sooner it gives way."""

    head: str
    figure: Callable[[WidthRow], Figure | None]
    rank: int


COLUMNS = (
    Column("panels", lambda r: r.panels, 2),
    Column("ordered", lambda r: r.length, 0),
    Column("weight", lambda r: r.mass, 0),
    Column("cost", lambda r: r.cost, 0),
    Column("seams", lambda r: r.seams, 1),
    Column("slit drop", lambda r: r.slit_drop, 3),
    Column("trim", lambda r: r.trim, 4),
    Column("strip", lambda r: r.strip, 5),
)
_WIDTH = "width"


def columns_for(rows: Sequence[WidthRow], system: System, width: int) -> tuple[Column, ...]:
    """The columns with anything in them that fit side by side."""
    kept = [c for c in COLUMNS if any(c.figure(row) is not None for row in rows)]
    while len(kept) > 1 and _needs(kept, rows, system) > width:
        kept.remove(max(kept, key=lambda c: c.rank))
    return tuple(kept)


def _room(column: Column, rows: Sequence[WidthRow], system: System) -> int:
    return max([cells(column.head) + 1, *(cells(_text(column, row, system)) for row in rows)])


def _first(rows: Sequence[WidthRow], system: System) -> int:
    return max([len(_WIDTH) + 1, *(len(show(r.coverage, Kind.WIDTH, system)) for r in rows)])


def _needs(columns: Sequence[Column], rows: Sequence[WidthRow], system: System) -> int:
    return (3 + _first(rows, system) + sum(2 + _room(c, rows, system) for c in columns)
            + len("  against"))


def _text(column: Column, row: WidthRow, system: System) -> str:
    figure = column.figure(row)
    return "–" if figure is None else f"{figure.mark}{figure.text(system)}"


def ordered(
    rows: Sequence[WidthRow], column: Column | None, down: bool
) -> tuple[WidthRow, ...]:
    """The rows by a column, or by width; what is not known comes last."""
    if column is None:
        return tuple(sorted(rows, key=lambda r: r.coverage, reverse=down))
    known = [(f.value, row) for row in rows if (f := column.figure(row)) is not None]
    known.sort(key=lambda pair: pair[0], reverse=down)
    return (*(row for _, row in known), *(r for r in rows if column.figure(r) is None))


def head_spans(
    columns: Sequence[Column], rows: Sequence[WidthRow], system: System,
    by: Column | None, down: bool,
) -> list[tuple[str, Column | None]]:
    """The heads in order, each in the room of its column, the sorted one with a sign."""
    sign = "▾" if down else "▴"
    first = _first(rows, system)
    head = f"{_WIDTH}{sign if by is None else ' '}"
    made: list[tuple[str, Column | None]] = [(f"   {head:>{first}}", None)]
    for column in columns:
        head = f"{column.head}{sign if column is by else ' '}"
        made.append((f"  {head:>{_room(column, rows, system)}}", column))
    return made


def row_line(
    row: WidthRow, columns: Sequence[Column], rows: Sequence[WidthRow], system: System
) -> str:
    """One width on a line; ✓ is the job's own, the last column how much argues against it."""
    first = _first(rows, system)
    line = f" {'✓' if row.chosen else ' '} {show(row.coverage, Kind.WIDTH, system):>{first}}"
    for column in columns:
        line += f"  {_text(column, row, system):>{_room(column, rows, system)}}"
    return line + (f"  {len(row.against)} against" if row.against else "")


def about_row(row: WidthRow, system: System) -> list[str]:
    """All about one width: what no column had room for, and what argues against it."""
    facts = [
        f"{column.head} {_text(column, row, system)}" for column in COLUMNS
        if column.figure(row) is not None
    ]
    lines = [f"{show(row.coverage, Kind.WIDTH, system)}: {', '.join(facts)}"]
    lines += [f"· {words}" for words in row.against]
    return lines if row.against else [*lines, "Nothing argues against it here."]
