"""Words in colors that stay readable, dim ones and those on a marked row too: the screen library's
own dim text is not, and a mark's color that is, beside the row, may not be on it."""

from __future__ import annotations

import re
from functools import lru_cache

from rich.color import Color as Painted
from rich.color_triplet import ColorTriplet
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import NO_DIM, LineFilter, dim_color

_SHARES = (0.66, 0.74, 0.82, 0.9)
"""How much of its color a dim text keeps: the first that is readable; else all of it."""
_LIFTED = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1)
"""How much of its color a word keeps that could not be read in it."""
_LEAST = 4.5
"""The contrast that a text needs (WCAG 2.2, success criterion 1.4.3)."""


_WORDS = re.compile(r"[^\W_]|[✓~?×…≠☐☑!]")
"""What is read: not the lines of boxes, bars and drawings."""


class Dimmed(LineFilter):
    """Mixes dim text with what is behind it, and has all words stand out from it, where both have a
    color that can be mixed."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:  # noqa: ARG002
        """The segments with dim ones in a color of their own."""
        return [
            one if one.style is None else
            Segment(one.text, _mixed(one.style), one.control) if one.style.dim else _lifted(one)
            for one in segments
        ]


def _lifted(one: Segment) -> Segment:
    """Words in a color that can be read on what is behind them; as they are where it can."""
    style = one.style
    if style is None or style.color is None or style.bgcolor is None:
        return one
    color = _readable(style.color, style.bgcolor)
    if color == style.color or not _WORDS.search(one.text):
        return one
    return Segment(one.text, style + Style.from_color(color, None), one.control)


@lru_cache(1024)
def _readable(front: Painted, behind: Painted) -> Painted:
    """A color that words can be read in: of its own hue, as much nearer to black or white as it
    takes; as it is where that is enough, or where a color is the terminal's."""
    if front.triplet is None or behind.triplet is None or _contrast(front, behind) >= _LEAST:
        return front
    ends = (Painted.from_rgb(0, 0, 0), Painted.from_rgb(255, 255, 255))
    end = max(ends, key=lambda one: _contrast(one, behind))
    mixed = (dim_color(end, front, share) for share in _LIFTED)
    return next((one for one in mixed if _contrast(one, behind) >= _LEAST), end)


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
