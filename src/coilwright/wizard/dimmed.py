"""What is dim, as faint as stays readable: the screen library's own is not, on a marked row."""

from __future__ import annotations

from functools import lru_cache

from rich.color import Color as Painted
from rich.color_triplet import ColorTriplet
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import NO_DIM, LineFilter, dim_color

_SHARES = (0.66, 0.74, 0.82, 0.9)
"""How much of its color a dim text keeps: the first that is readable; else all of it."""
_LEAST = 4.5
"""The contrast that a text needs (WCAG 2.2, success criterion 1.4.3)."""


class Dimmed(LineFilter):
    """Mixes dim text with what is behind it, where both have a color that can be mixed."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:  # noqa: ARG002
        """The segments with dim ones in a color of their own."""
        return [
            Segment(one.text, _mixed(one.style), one.control)
            if one.style is not None and one.style.dim else one for one in segments
        ]


@lru_cache(1024)
def _mixed(style: Style) -> Style:
    """A dim style in a color of its own; as it is where a color is the terminal's."""
    front, behind = style.color, style.bgcolor
    if front is None or behind is None or front.triplet is None or behind.triplet is None:
        return style
    mixed = (dim_color(behind, front, share) for share in _SHARES)
    color = next((one for one in mixed if _contrast(one, behind) >= _LEAST), front)
    return style + Style.from_color(color, None) + NO_DIM


def _contrast(one: Painted, other: Painted) -> float:
    """The contrast ratio of two colors, as WCAG 2.2 defines it."""
    assert one.triplet is not None
    assert other.triplet is not None
    dark, light = sorted((_luminance(one.triplet), _luminance(other.triplet)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(color: ColorTriplet) -> float:
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in color.normalized)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
