"""The columns of a table of planes: what they are called, and in which order they stand."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from coilwright.units import Kind, System, UnreadableQuantity, read


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
