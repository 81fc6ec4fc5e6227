"""What a text for one answer says of another: a thickness that is a minimum, the other side."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.job.answers.coils import COILS, CoilsKey
from coilwright.job.answers.metal import (
    MetalKey,
    nothing_thinner,
    thickness_is_typed,
    tolerance_typed,
)
from coilwright.job.answers.sides import other_side, side_of
from coilwright.job.answers.spec import Value
from coilwright.job.metal import ThicknessIs
from coilwright.units import System, sides

_SIDES = {answer.key: answer for answer in COILS
          if answer.key in (CoilsKey.TOLERANCE, CoilsKey.TOLERANCE_OVER)}


def said_with(
    key: str, text: str, system: System = System.US
) -> Iterator[tuple[str, Value]]:
    """The other answers that a text for this one gives as well, with their values.

    The text must be one that its own answer reads.
    """
    if key == MetalKey.THICKNESS and (is_a := thickness_is_typed(text)[1]) is not None:
        yield MetalKey.THICKNESS_IS, is_a
    elif key == MetalKey.THICKNESS_TOLERANCE:
        if standard := tolerance_typed(text)[1]:
            yield MetalKey.THICKNESS_STANDARD, standard
        if nothing_thinner(text):
            yield MetalKey.THICKNESS_IS, ThicknessIs.MINIMUM
    elif key in _SIDES and (both := sides(text)) is not None:
        other = other_side(key)
        yield other, _SIDES[other].read(side_of(other, both), system)
