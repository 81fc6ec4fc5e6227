"""A coil end-on in characters, inside the largest circle the rack or the decoiler takes."""

from __future__ import annotations

from coilwright.drawing.coil_parts import CoilSizes, coil_sizes, coil_words
from coilwright.plan.result import Plan

_LEAST = 8
"""Cells across under which a circle is no circle."""
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


def coil_lines(plan: Plan, width: int, height: int) -> list[str]:
    """The order's largest coil as at most `height` lines of at most `width` characters.

    Full: the coil, hollow at the inside diameter. Shaded: room left up to the largest circle
    that fits. Sizes are written beside it, or below where it is narrow.
    """
    if width <= 0 or height <= 0:
        return []
    sizes = coil_sizes(plan)
    if sizes.widest <= 0:
        return ["No coil to draw yet."[:width]]
    words = coil_words(plan, sizes, width)
    wide = max(map(len, words), default=0)
    beside = min(width - wide - 2, height * 2) // 2 * 2
    below = min(width, (height - len(words)) * 2) // 2 * 2
    if beside >= max(_LEAST, below) and len(words) <= height:
        return _beside(_ring(sizes, beside), beside, words)
    if below >= _LEAST:
        return [*_ring(sizes, below), *words]
    return words[:height]


def _beside(picture: list[str], across: int, words: list[str]) -> list[str]:
    """The picture with the words at its right, half way down."""
    rows = max(len(picture), len(words))
    above = (rows - len(words)) // 2
    texts = [*[""] * above, *words, *[""] * (rows - above - len(words))]
    picture = [*picture, *[""] * (rows - len(picture))]
    return [f"{p:<{across}}  {t}".rstrip() for p, t in zip(picture, texts, strict=True)]


def _ring(sizes: CoilSizes, across: int) -> list[str]:
    """The circles in `across` columns and half as many rows, two square dots to a cell."""
    per_dot = sizes.widest / across
    inside, outside, room = (
        figure.value if figure else 0.0 for figure in (sizes.inside, sizes.outside, sizes.room)
    )

    def distance(column: int, dot: int) -> float:
        x, y = (column + 0.5 - across / 2) * per_dot, (dot + 0.5 - across / 2) * per_dot
        return 2 * float((x * x + y * y) ** 0.5)

    lines = []
    for row in range(across // 2):
        line = ""
        for column in range(across):
            upper, lower = distance(column, 2 * row), distance(column, 2 * row + 1)
            middle = (upper + lower) / 2
            if inside < min(upper, lower) and outside < min(upper, lower) and middle <= room:
                line += "░"
            else:
                line += _HALVES[inside < upper <= outside, inside < lower <= outside]
        lines.append(line.rstrip())
    return lines
