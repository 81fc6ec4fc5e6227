"""A table as plain text: columns side by side, and below their row those that find no room there.

A length that is broken over two lines is read wrong beside a roll former: a column is first as wide
as the widest value in it, and only what is left over is shared.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coilwright.sheets.render.wrapped import cell_width, widest_word, wrapped

_GAP = 2
_MOST_INDENT = 4
_WORTH = 0.8
"""Of its lines a table has with fewer columns, where those are worth taking away."""
_WRITTEN = "_" * 8
"""Room to write by hand, where it stands below its row."""

_Cells = Sequence[str]


@dataclass(frozen=True, slots=True)
class _Layout:
    """How wide each column is; None for one whose cells stand below their row."""

    wide: tuple[int | None, ...]

    @property
    def beside(self) -> list[tuple[int, int]]:
        """The columns side by side, each with its width."""
        return [(at, room) for at, room in enumerate(self.wide) if room is not None]


def table_lines(
    header: _Cells, rows: Sequence[_Cells], width: int, right: frozenset[int] = frozenset(),
    write: frozenset[int] = frozenset(), *, below: bool = True,
) -> list[str]:
    """The lines of a table, none wider than `width`.

    right: numbers of the columns set at the right. write: of those filled in by hand. below:
    whether cells may stand below their row.
    """
    best: list[str] = []
    for layout in _layouts(header, rows, width, right, write, below=below):
        made = _lines(header, rows, layout, width, right, write)
        # Columns are read faster than what stands below: that must save more than a line or two.
        if not best or len(made) <= _WORTH * len(best):
            best = made
    return best


def _layouts(
    header: _Cells, rows: Sequence[_Cells], width: int, right: frozenset[int],
    write: frozenset[int], *, below: bool,
) -> Iterator[_Layout]:
    """The ways to set it, from all columns side by side on; at least one."""
    columns = list(zip(header, *rows, strict=True))
    full = [max(1, *map(cell_width, column)) for column in columns]
    least = [max(widest_word(cell, width) for cell in column) for column in columns]
    kept, leaving = [*range(len(full))], _leaving(full, right, write) if below else []
    while True:
        room = width - _GAP * (len(kept) - 1)
        fits = sum(least[at] for at in kept) <= room
        if fits or not leaving:
            shared = _shared([full[at] for at in kept], [least[at] for at in kept], room)
            by_place = dict(zip(kept, shared, strict=True))
            yield _Layout(tuple(by_place.get(at) for at in range(len(full))))
        if not leaving or sum(full[at] for at in kept) <= room:
            return
        gone = leaving.pop(0)
        kept = [at for at in kept if at not in gone]


def _leaving(full: Sequence[int], right: frozenset[int], write: frozenset[int]) -> list[set[int]]:
    """The columns in the order they go below their row: those to write in, which need no column;
    then texts, the longest first; then numbers from the last on. The first column stays."""
    rest = [at for at in range(1, len(full)) if at not in write]
    texts = sorted((at for at in rest if at not in right), key=lambda at: -full[at])
    by_hand = {at for at in write if at > 0}
    return [*([by_hand] if by_hand else []), *({at} for at in texts),
            *({at} for at in reversed(rest) if at in right)]


def _shared(full: Sequence[int], least: Sequence[int], room: int) -> list[int]:
    """A width for each column: all it wants, or the same for all that want more than there is."""
    def at_most(most: int) -> list[int]:
        return [min(wants, max(needs, most)) for wants, needs in zip(full, least, strict=True)]

    most = next((most for most in range(room, 0, -1) if sum(at_most(most)) <= room), 0)
    wide = at_most(most)
    while sum(wide) > room and max(wide) > 1:
        wide[wide.index(max(wide))] -= 1
    for at, wants in enumerate(full):
        wide[at] += max(0, min(wants - wide[at], room - sum(wide)))
    return wide


def _lines(
    header: _Cells, rows: Sequence[_Cells], layout: _Layout, width: int, right: frozenset[int],
    write: frozenset[int],
) -> list[str]:
    lines = _row(header, layout, right)
    lines.append((" " * _GAP).join("-" * room for _, room in layout.beside))
    for row in rows:
        lines += _row(row, layout, right)
        lines += _below(header, row, layout, width, write)
    return lines


def _row(cells: _Cells, layout: _Layout, right: frozenset[int]) -> list[str]:
    broken = [(wrapped(cells[at], room) or [""], room, at in right) for at, room in layout.beside]
    return [
        (" " * _GAP).join(_padded(rows[at] if at < len(rows) else "", room, to_right)
                          for rows, room, to_right in broken).rstrip()
        for at in range(max(len(rows) for rows, _, _ in broken))
    ]


def _below(header: _Cells, row: _Cells, layout: _Layout, width: int, write: frozenset[int]
           ) -> list[str]:
    """The cells that stand below their row, each behind its column's name and none parted where a
    line has room for it."""
    said = [_named(header[at], row[at]) for at, room in enumerate(layout.wide)
            if room is None and (row[at] or at in write)]
    first = layout.wide[0] or 0
    indent = " " * (first + _GAP if first + _GAP <= _MOST_INDENT else _MOST_INDENT)
    room = width - len(indent)
    lines: list[str] = []
    for place, text in enumerate(said, 1):
        text += ";" if place < len(said) else ""
        if lines and cell_width(f"{lines[-1]} {text}") <= room:
            lines[-1] += f" {text}"
        else:
            lines += wrapped(text, room)
    return [f"{indent}{text}" for text in lines]


def _named(name: str, text: str) -> str:
    """A cell behind its column's name; room to write where it is empty."""
    if not text.strip("_ "):
        return f"{name} {text or _WRITTEN}"
    return f"{name}: {text}" if name else text


def _padded(text: str, width: int, right: bool) -> str:
    blank = " " * max(0, width - cell_width(text))
    return blank + text if right else text + blank
