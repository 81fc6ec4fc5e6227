"""How openings are typed: all of a plane on one line, or the sizes of one. No screens here."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Sequence
from typing import Any

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.roof import Opening
from coilwright.units import Kind, System
from coilwright.units.numbers import split_list
from coilwright.wizard.lists.typed import LineForm, RowsAnswer, signed_length


def _opening(sizes: Sequence[float]) -> Opening:
    left, up, width, height = sizes
    if width <= 0 or height <= 0:
        raise UnreadableAnswer(
            "An opening needs a width and a height above 0. What stands left of or below "
            "the plane's origin has a minus in front, such as -2 ft."
        )
    return Opening(left=left, up=up, width=width, height=height)


OPENINGS: LineForm[Opening] = LineForm(
    what="Opening",
    like="10 ft, 4 ft, 2 ft, 3 ft",
    measures=(
        signed_length("left", "Left"), signed_length("up", "Up"),
        signed_length("width", "Width"), signed_length("height", "Height"),
    ),
    make=_opening,
    measured=lambda opening: (opening.left, opening.up, opening.width, opening.height),
)


_CORNER = Answer("", "Corner of an opening", Form.QUANTITY, Kind.LENGTH, ("ft", "m"), zero=True,
                 negative=True)
_CORNERS_FROM = 6
"""So many sizes and more are the corners of an outline, x and y in turn."""


class OpeningsAnswer(RowsAnswer):
    """A plane's openings on one line: left, up, width, height; and so on. One of any outline has
    its corners instead, x and y in turn."""

    rows = OPENINGS

    def other_row(self, parts: list[str], system: System) -> Opening | None:
        """An opening by its corners. Raises UnreadableAnswer with a sentence for the user."""
        if len(parts) < _CORNERS_FROM or len(parts) % 2 or not all(parts):
            return None
        sizes: list[Any] = [_CORNER.read(part, system) for part in parts]
        return Opening(corners=tuple(zip(sizes[::2], sizes[1::2], strict=True)))

    def other_text(self, row: Opening, system: System) -> str:
        """The corners, x and y in turn."""
        return ", ".join(_CORNER.text(size, system) for corner in row.corners for size in corner)


def as_before(
    before: Sequence[Opening], typed: Sequence[Opening], system: System
) -> tuple[Opening, ...]:
    """The openings that were typed, with what the line says nothing of as it was before: what each
    is for, how it was measured, how many alike. One that is typed as it stood is that one; while
    there are as many as before, so is one in its place whose sizes are others."""
    answer = OpeningsAnswer("", "Openings", Form.TEXT)
    texts = [answer.text((one,), system) for one in before]
    there = dict(enumerate(before))
    found: list[Opening | None] = []
    for one in typed:
        text = answer.text((one,), system)
        same = next((at for at in there if texts[at] == text), None)
        found.append(None if same is None else there.pop(same))
    many_alike = len(typed) == len(before)
    return tuple(
        kept if kept is not None else one if not many_alike or at not in there
        else _sized(there[at], one)
        for at, (kept, one) in enumerate(zip(found, typed, strict=True)))


def _sized(before: Opening, typed: Opening) -> Opening:
    """An opening with other sizes, or the corners that it has now."""
    return dataclasses.replace(
        before, corners=typed.corners, left=typed.left, up=typed.up, width=typed.width,
        height=typed.height)


# -- several sizes in one box ---------------------------------------------------------------

_SIZE = r"(?:[^x×*;,]|,(?=\d))*\d(?:[^x×*;,]|,(?=\d))*"
_BY = re.compile(rf"(?P<first>{_SIZE}?)\s*(?:[x×*]|by)\s*(?P<second>{_SIZE})", re.IGNORECASE)
_UNIT = re.compile(r"[a-z\"'′″]+\.?\s*$", re.IGNORECASE)
_PLACED = ("left", "up", "width", "height")


def split_sizes(name: str, text: str) -> dict[str, str]:
    """The boxes that a text for one of them fills, where it holds the sizes of several.

    `2 x 3 ft` is width and height; four sizes with commas between are all of them.

    >>> split_sizes("width", "2 x 3 ft")
    {'width': '2 ft', 'height': '3 ft'}
    >>> split_sizes("width", "2 ft")
    {}
    """
    parts = split_list(text, ";\t")
    if name == "left" and len(parts) == len(_PLACED) and all(parts):
        return dict(zip(_PLACED, parts, strict=True))
    sizes = _BY.fullmatch(text.strip())
    if name not in ("width", "height") or sizes is None:
        return {}
    first, second = sizes["first"].strip(), sizes["second"].strip()
    unit = _UNIT.search(second)
    if unit is not None and _UNIT.search(first) is None:
        first = f"{first} {unit.group().strip()}"
    return {"width": first, "height": second}
