"""The openings of a plane: rows that are typed on one line of the plane's form. No screens here."""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.job.answers import UnreadableAnswer
from coilwright.job.roof import Opening
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


class OpeningsAnswer(RowsAnswer):
    """A plane's openings on one line: left, up, width, height; and so on."""

    rows = OPENINGS
