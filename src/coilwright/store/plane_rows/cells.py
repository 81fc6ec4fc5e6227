"""The columns of a table of planes: what they are called, and in which order they stand."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import chain
from typing import Any

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.roof import Measured, Opening, OpeningMeasured, OpeningWhat, Plane, Shape
from coilwright.plan.roof.planes import openings_on_slope
from coilwright.units import Kind, System, UnreadableQuantity, as_read, read, store
from coilwright.units.numbers import split_list

_CORNERS_FROM = 6
"""So many sizes and more of an opening are its corners, x and y in turn; four are left, up, width
and height."""
_NEXT = r"[;\n|]"
"""What stands between two openings, or two corners, in one cell."""
_OR_CORNERS = ", or three corners or more, x and y in turn"


class Column(StrEnum):
    """A column, by the heading it is written under."""

    NAME = "name"
    SHAPE = "shape"
    EAVE = "eave"
    TOP = "top"
    SLOPE_LENGTH = "slope length"
    OFFSET = "offset"
    PITCH = "pitch"
    PITCH_RISE = "pitch rise"
    PITCH_RUN = "pitch run"
    PITCH_SLOPE = "pitch slope"
    MEASURED = "measured"
    ALIKE = "alike"
    CORNERS = "corners"
    OPENINGS = "openings"
    EDGES = "edges"

    @property
    def field(self) -> str:
        """The field of `Plane` it fills."""
        return self.value.replace(" ", "_")


LENGTHS = (Column.EAVE, Column.TOP, Column.SLOPE_LENGTH, Column.OFFSET, Column.PITCH_RISE,
           Column.PITCH_RUN, Column.PITCH_SLOPE)
"""Columns that hold one length."""
SHORT_ORDER = (Column.NAME, Column.EAVE, Column.SLOPE_LENGTH, Column.PITCH, Column.ALIKE)
"""The order of a table without headings whose second column is a size."""
LONG_ORDER = tuple(Column)
"""The order of a table without headings whose second column is a shape."""
_OTHER_WORDS = {
    "plane": Column.NAME, "roof plane": Column.NAME, "where": Column.NAME, "label": Column.NAME,
    "eave length": Column.EAVE, "length along eave": Column.EAVE, "along eave": Column.EAVE,
    "along the eave": Column.EAVE, "bottom": Column.EAVE, "base": Column.EAVE,
    "ridge": Column.TOP, "top length": Column.TOP, "ridge length": Column.TOP,
    "slope": Column.SLOPE_LENGTH, "up": Column.SLOPE_LENGTH, "up slope": Column.SLOPE_LENGTH,
    "up the slope": Column.SLOPE_LENGTH, "rafter": Column.SLOPE_LENGTH,
    "rafter length": Column.SLOPE_LENGTH, "eave to ridge": Column.SLOPE_LENGTH,
    "top offset": Column.OFFSET, "top shifted by": Column.OFFSET, "shift": Column.OFFSET,
    "slope pitch": Column.PITCH, "roof pitch": Column.PITCH,
    "rise": Column.PITCH_RISE, "run": Column.PITCH_RUN,
    "measured how": Column.MEASURED, "how measured": Column.MEASURED,
    "count": Column.ALIKE, "how many": Column.ALIKE, "how many alike": Column.ALIKE,
    "quantity": Column.ALIKE, "number": Column.ALIKE, "qty": Column.ALIKE,
    "corner": Column.CORNERS, "points": Column.CORNERS, "outline": Column.CORNERS,
    "opening": Column.OPENINGS, "holes": Column.OPENINGS,
    "edge": Column.EDGES, "edge kinds": Column.EDGES,
}
_WORDS = {**{column.value: column for column in Column}, **_OTHER_WORDS}


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading as it was written: its column, and the unit of bare numbers under it."""

    text: str
    column: Column | None
    unit: str | None


def heading(text: str, system: System) -> Heading:
    """What a heading says. `Eave (ft)` and `eave, m` name the unit of bare numbers under it."""
    words = " ".join(text.replace("_", " ").split())
    match = re.fullmatch(r"(.*?)\s*(?:\(([^()]*)\)|\[([^\[\]]*)\]|,\s*([^,]*))\s*", words)
    unit = None
    if match:
        unit = _length_unit(next(g for g in match.groups()[1:] if g is not None), system)
    plain = match[1] if match and unit is not None else words
    plain = re.sub(r"[^\w\s]", " ", plain).casefold()
    return Heading(text.strip(), _WORDS.get(" ".join(plain.split())), unit)


def _length_unit(text: str, system: System) -> str | None:
    """The unit of length a word names, as `read` takes it for bare numbers; None if it is none."""
    for word in (text, text.rstrip(".s")):
        try:
            read("1", Kind.LENGTH, system=system, bare=word)
        except (UnreadableQuantity, ValueError):
            continue
        return word
    return None


_FORMULA = re.compile(
    "'*[\\s\x00-\x1f\x7f-\xa0\u200b-\u200f\u2060\ufeff]*[=+\\-@＝＋－＠﹦﹢﹣﹫]|'*[\t\r]"
)
"""How a name begins that a spreadsheet would run as a formula, or that was kept from it.

Some run one after blanks, signs without width or controls too, and in wide and small forms.
"""
_LONGEST_NAME = 200
_MOST_ALIKE = 999
_MEASURED = {"slope": Measured.SLOPE, "on slope": Measured.SLOPE, "true": Measured.SLOPE,
             "plan": Measured.PLAN, "level": Measured.PLAN, "flat": Measured.PLAN}


class UnreadableCell(ValueError):
    """A cell that cannot be taken; the message is a sentence."""


@dataclass(frozen=True, slots=True)
class _Cell:
    text: str
    unit: str | None
    system: System

    def length(self, text: str, *, negative: bool) -> float:
        return read(text, Kind.LENGTH, system=self.system, bare=self.unit, negative=negative)

    def groups(
        self, size: int, what: str, like: str, *, corners: bool = False
    ) -> list[list[str]]:
        """`a, b; c, d` as lists of `size` texts. corners: or as many as three corners have, or
        more, x and y in turn."""
        found = []
        for number, group in enumerate(re.split(_NEXT, self.text), 1):
            parts = split_list(group, "\t")
            if not group.strip():
                continue
            by_corners = corners and len(parts) >= _CORNERS_FROM and len(parts) % 2 == 0
            if not (len(parts) == size or by_corners) or not all(parts):
                raise UnreadableCell(
                    f"{what} {number}, “{group.strip()[:40]}”, should be {size} sizes with "
                    f"commas between, such as {like}{_OR_CORNERS if corners else ''}."
                )
            found.append(parts)
        return found


def read_cell(column: Column, text: str, unit: str | None, system: System) -> Any:
    """The value of a cell that is not empty. Raises UnreadableCell with one sentence.

    unit: what bare lengths are in; None for the usual unit of the system.
    """
    cell = _Cell(" ".join(text.split(" ")).strip(), unit, system)
    try:
        return _READ[column](cell)
    except UnreadableQuantity as error:
        raise UnreadableCell(str(error)) from None


def _name(cell: _Cell) -> str:
    text = cell.text
    if text.startswith("'") and _FORMULA.match(text):
        text = text[1:]
    name = " ".join(text.split())
    if len(name) > _LONGEST_NAME:
        raise UnreadableCell(f"{len(name)} characters are too many for a name; "
                             f"{_LONGEST_NAME} fit.")
    return name


def _picked(cell: _Cell, choices: Mapping[str, Any], what: str) -> Any:
    wanted = " ".join(cell.text.casefold().split())
    if wanted in choices:
        return choices[wanted]
    close = {choices[name] for name in choices if name.startswith(wanted)}
    if len(close) == 1:
        return close.pop()
    raise UnreadableCell(f"“{cell.text[:40]}” is not {what}: {', '.join(choices)}.")


def _shape(cell: _Cell) -> Shape:
    return _picked(cell, {s.value: s for s in Shape}, "a shape")  # type: ignore[no-any-return]


def _measured(cell: _Cell) -> Measured:
    choices = {**{m.value: m for m in Measured}, **_MEASURED}
    return _picked(cell, choices, "a way to measure")  # type: ignore[no-any-return]


def _pitch(cell: _Cell) -> float:
    return read(cell.text, Kind.PITCH, system=cell.system)


def _alike(cell: _Cell) -> int:
    count = round(read(cell.text, Kind.COUNT, system=cell.system))
    if not 1 <= count <= _MOST_ALIKE:
        raise UnreadableCell(f"{count} planes alike cannot be; 1 to {_MOST_ALIKE} can.")
    return count


def _corners(cell: _Cell) -> tuple[tuple[float, float], ...]:
    return tuple(
        (cell.length(x, negative=True), cell.length(y, negative=True))
        for x, y in cell.groups(2, "Corner", "40 ft, 0 in")
    )


def _openings(cell: _Cell) -> tuple[Opening, ...]:
    found = []
    said = [_what(group) for group in re.split(_NEXT, cell.text) if group.strip()]
    bare = dataclasses.replace(cell, text=";".join(sizes for _, sizes in said))
    groups = bare.groups(4, "Opening", "10 ft, 4 ft, 2 ft, 3 ft", corners=True)
    for (what, _), group in zip(said, groups, strict=True):
        if len(group) >= _CORNERS_FROM and len(group) % 2 == 0:
            sizes = [cell.length(one, negative=True) for one in group]
            found.append(Opening(what=what,
                                 corners=tuple(zip(sizes[::2], sizes[1::2], strict=True))))
            continue
        left, up, width, height = group
        found.append(
            Opening(
                what=what,
                left=cell.length(left, negative=True), up=cell.length(up, negative=True),
                width=cell.length(width, negative=False),
                height=cell.length(height, negative=False),
            )
        )
    return tuple(found)


def _what(group: str) -> tuple[OpeningWhat, str]:
    """What an opening is for, where a word before its sizes says it, and its sizes."""
    match = re.fullmatch(r"\s*([a-z]+)\b[\s:,]*(\S.*)", group, re.IGNORECASE | re.DOTALL)
    if match is not None:
        for what in OpeningWhat:
            if match[1].casefold() in (what.value, what.noun):
                return what, match[2]
    return OpeningWhat.OTHER, group


def _edges(cell: _Cell) -> dict[int, EdgeKind]:
    found: dict[int, EdgeKind] = {}
    kinds = {k.value: k for k in EdgeKind}
    for group in filter(str.strip, re.split(r"[;\n|,]", cell.text)):
        match = re.fullmatch(r"\s*(\d{1,4})\s*:?\s*(\D+)", group)
        if match is None:
            raise UnreadableCell(
                f"“{group.strip()[:40]}” should be an edge's number and its kind, such as 3 wall."
            )
        found[int(match[1])] = _picked(_Cell(match[2].strip(), None, cell.system), kinds,
                                       "a kind of edge")
    return dict(sorted(found.items()))


def _size(cell: _Cell) -> float:
    return cell.length(cell.text, negative=False)


def _signed(cell: _Cell) -> float:
    return cell.length(cell.text, negative=True)


_READ: dict[Column, Callable[[_Cell], Any]] = {
    **dict.fromkeys(LENGTHS, _size),
    Column.OFFSET: _signed,
    Column.NAME: _name,
    Column.SHAPE: _shape,
    Column.PITCH: _pitch,
    Column.MEASURED: _measured,
    Column.ALIKE: _alike,
    Column.CORNERS: _corners,
    Column.OPENINGS: _openings,
    Column.EDGES: _edges,
}


def cell_text(column: Column, plane: Plane, system: System) -> str:
    """A plane's value in a column, as text that reads back to exactly the same value."""
    value = getattr(plane, column.field)
    if value is None:
        return ""
    if column is Column.NAME:
        # A spreadsheet runs what begins like a formula; an apostrophe in front keeps it text.
        return f"'{value}" if _FORMULA.match(value) else str(value)
    if column is Column.PITCH:
        # A spreadsheet takes 6:12 for the time of day.
        return re.sub(r":12$", " in 12", store(value, Kind.PITCH, system))
    if column in LENGTHS:
        return store(value, Kind.LENGTH, system)
    if column is Column.CORNERS:
        return "; ".join(_lengths(corner, system) for corner in value)
    if column is Column.OPENINGS:
        # Four sizes say neither a middle, a row nor a height in plan: each goes out as it lies.
        level = plane.measured is Measured.PLAN
        lying = value if level else openings_on_slope(plane)
        return "; ".join(
            ("" if one.what is OpeningWhat.OTHER else f"{one.what} ") + _opening(
                each, system, turned=not level and one.measured is not OpeningMeasured.SLOPE)
            for one, on_slope in zip(value, lying, strict=True) for each in on_slope.each())
    if column is Column.EDGES:
        return "; ".join(f"{number} {kind}" for number, kind in value.items())
    return str(value)


def _lengths(values: tuple[float, ...], system: System) -> str:
    return ", ".join(_exact(value, system) for value in values)


def _opening(opening: Opening, system: System, *, turned: bool) -> str:
    """An opening as it lies: its corners, or four sizes. turned: the pitch made some of them of
    what was measured level."""
    if opening.corners:
        return _lengths(tuple(chain.from_iterable(opening.corners)), system)
    said = _worked_out if turned else _exact
    return ", ".join(said(size or 0.0, system) for size in (
        opening.left, opening.up, opening.width, opening.height))


def _exact(value: float, system: System) -> str:
    return store(value, Kind.LENGTH, system)


def _worked_out(value: float, system: System) -> str:
    return _exact(as_read(value, Kind.LENGTH, system), system)
