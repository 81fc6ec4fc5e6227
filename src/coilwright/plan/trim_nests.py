"""Blanks of trim nested on the metal they are cut from: rows across it, and flat sheets."""

from __future__ import annotations

from functools import lru_cache

from coilwright.calc import trim as calc
from coilwright.calc.cutting.nesting import Nesting, nest
from coilwright.calc.cutting.rows import Blank, Rows, pack_rows
from coilwright.calc.roof import panels as panel_calc
from coilwright.calc.roof import shapes
from coilwright.job.answers.trim import TrimKey
from coilwright.job.trim import TrimFrom
from coilwright.plan.ledger import Ledger, known
from coilwright.plan.result import TrimNest, TrimPattern, TrimRow
from coilwright.units import Kind
from coilwright.values.figure import Figure, worst
from coilwright.values.keys import part_of
from coilwright.values.standing import Standing

_QUICK = 0.01
"""Allowance of work for one nesting, as seconds of a plain machine."""
_LOOSE = 1e-6


def metal_of(ledger: Ledger, row: TrimRow) -> tuple[TrimFrom, float, float, float | None]:
    """What must be alike for pieces to be nested together; the panels' thickness is none."""
    thickness = row.piece.thickness
    if row.piece.made_from is TrimFrom.PANEL_COIL or thickness == ledger.job.metal.thickness:
        thickness = None
    return row.piece.made_from, row.width.value, row.blank.value, thickness


@lru_cache(maxsize=64)
def _packed(blanks: tuple[Blank, ...], width: float) -> Rows:
    return pack_rows(blanks, width, _QUICK)


@lru_cache(maxsize=64)
def _on_sheets(rows: tuple[tuple[float, int], ...], length: float) -> Nesting:
    return nest(rows, length, seconds=_QUICK, clock=None)


def nest_rows(ledger: Ledger, key: str, rows: list[TrimRow]) -> TrimNest:
    """Enter how the blanks of rows on one metal are nested; `key` begins its figures' keys."""
    first = rows[0]
    made_from, width, blank = first.piece.made_from, first.width, first.blank
    blanks = [(row, Blank(row.flat_width.value, length, count))
              for row in rows for length, count in row.sizes]
    found = _packed(tuple(one for _, one in blanks), width.value)
    name = f"{made_from} {width.text(ledger.job.units)} wide"
    standing = worst((width, *(r.flat_width for r in rows), *(r.count for r in rows),
                      *(r.cut for r in rows)))
    across = ledger.drawn(
        part_of(key, "rows"), f"{name}: rows of blanks", float(found.count), Kind.COUNT, standing,
        "flat widths nested across the width; fewer rows cannot do" if found.proven
        else f"flat widths nested across the width; {found.fewest} rows at least",
    )
    by_length: dict[float, int] = {}
    for row in found.rows:
        by_length[row.length] = by_length.get(row.length, 0) + row.times
    length = _rows_length(ledger, key, name, blank, standing, by_length)
    drop = ledger.put(part_of(key, "drop"), f"{name}: drop", calc.nest_drop, length, width,
                      *(r.area for r in rows))
    sheets = None
    if made_from is TrimFrom.FLAT_SHEET:
        sheets = _sheets(ledger, key, name, blank, across, by_length)
    patterns = tuple(
        TrimPattern(p.times, p.drop, p.length, _by_length(blanks, p.cuts))
        for p in found.rows
    )
    return TrimNest(key=key, made_from=made_from, width=width, blank=blank, rows=across,
                    length=length, drop=drop, sheets=sheets, patterns=patterns,
                    bound=found.fewest, proven=found.proven,
                    thickness=metal_of(ledger, first)[3])


def _by_length(
    blanks: list[tuple[TrimRow, Blank]], cuts: tuple[tuple[int, int], ...]
) -> tuple[tuple[int, float, int], ...]:
    """How many blanks of each piece and length lie side by side, the longest first."""
    many: dict[tuple[int, float], int] = {}
    for index, count in cuts:
        row, blank = blanks[index]
        many[row.number, blank.length] = many.get((row.number, blank.length), 0) + count
    return tuple((number, length, count) for (number, length), count in sorted(
        many.items(), key=lambda one: (-one[0][1], one[0][0])))


def _rows_length(
    ledger: Ledger, key: str, name: str, blank: Figure, standing: Standing,
    by_length: dict[float, int],
) -> Figure:
    """Enter the length of all rows, end to end."""
    parts = []
    for place, (each, times) in enumerate(sorted(by_length.items(), reverse=True), 1):
        at = f"{key}.row{place}"
        one = blank if abs(each - blank.value) <= _LOOSE else ledger.drawn(
            part_of(at, "length"), f"{name}: rows cut shorter", each, Kind.LENGTH, standing,
            "as long as the longest blank in them")
        many = ledger.drawn(part_of(at, "count"), f"{name}: rows so long", float(times), Kind.COUNT,
                            standing, "flat widths nested across the width")
        parts.append(
            ledger.put(at, f"{name}: length of rows alike", panel_calc.batch_length, one, many)
        )
    return ledger.put(
        part_of(key, "length"), f"{name}: length for trim", shapes.summed_length, *parts
    )


def _sheets(
    ledger: Ledger,
    key: str,
    name: str,
    blank: Figure,
    across: Figure,
    by_length: dict[float, int],
) -> Figure | None:
    """Enter how many flat sheets the rows take, end to end along each."""
    sheet = ledger.answer(TrimKey.SHEET_LENGTH)
    along = ledger.put(part_of(key, "along"), f"{name}: blanks end to end", calc.blanks_along,
                       sheet, blank)
    size = known(sheet)
    if size is None or (len(by_length) == 1 and blank.value in by_length):
        return known(ledger.put(part_of(key, "sheets"), f"{name}: sheets", calc.sheets, across,
                                along))
    found = _on_sheets(tuple(by_length.items()), size.value)
    return ledger.drawn(
        part_of(key, "sheets"), f"{name}: sheets", float(found.sheets), Kind.COUNT,
        worst((across, size)), "rows end to end along the sheets, short ones where they fit"
        + ("; fewer sheets cannot hold these rows" if found.proven else ""),
    )
