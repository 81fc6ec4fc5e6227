"""What drawings for paper are made of: their size, their style, polygons, words."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from math import atan2, degrees

from coilwright.calc.roof.shapes import Point
from coilwright.drawing.safe_text import escape_controls, one_line

ACROSS = 640.0
"""Width of a drawing in its own units."""
TALLEST = 480.0
MARGIN = 46.0
TEXT = 13.0
LETTER = 0.6
"""A letter is about this much as wide as it is high."""


def number_at(x: float, y: float, text: str, size: float, turned: bool) -> str:
    """A number with its middle at a point, level or turned to be read from the right."""
    if not turned:
        return words_at(x, y + size * 0.35, text, size, "number")
    inner = words_at(0, size * 0.35, text, size, "number")
    return f'<g transform="translate({num(x)} {num(y)}) rotate(-90)">{inner}</g>'


def along(middle: Point, start: Point, end: Point, text: str, name: str) -> str:
    """Text turned along a line, with its middle at a point."""
    x, y = middle
    turn = _degrees(end[0] - start[0], end[1] - start[1])
    inner = words_at(0, TEXT * 0.35, text, TEXT, name)
    return f'<g transform="translate({num(x)} {num(y)}) rotate({num(turn)})">{inner}</g>'


def _degrees(across: float, down: float) -> float:
    """The turn that lays text along a line, read from the left or from below."""
    turn = degrees(atan2(down, across))
    return turn - 180 if turn > 90 else turn + 180 if turn <= -90 else turn


_STYLE = "".join(
    f"svg.drawing {rule}"
    for rule in (
        ".face{fill:#fff;stroke:none}",
        ".line,svg.drawing .valley{stroke:#000;stroke-width:2;fill:none;stroke-linecap:round}",
        ".valley{stroke-dasharray:9 5}",
        ".faint{stroke:#888;stroke-width:.5;fill:none}",
        ".halo{paint-order:stroke;stroke:#fff;stroke-width:7px;stroke-linejoin:round}",
        ".outline{fill:#fff;stroke:#000;stroke-width:2}",
        ".seam{stroke:#000;stroke-width:.6;fill:none}",
        ".opening{fill:#fff;stroke:#000;stroke-width:1.4}",
        ".room{fill:none;stroke:#000;stroke-width:1.2;stroke-dasharray:5 4}",
        ".coil{fill:#bbb;stroke:#000;stroke-width:1.5}",
        ".hole{fill:#fff;stroke:#000;stroke-width:1.5}",
        ".part{stroke:#000;stroke-width:.5}",
        ".metal{fill:#444}",
        ".trim{fill:#666}",
        ".work{fill:#888}",
        ".surcharge{fill:#bbb}",
        ".freight{fill:#fff}",
        ".bar{fill:#555;stroke:#000;stroke-width:.5}",
        "text{font-family:sans-serif;fill:#000}",
        ".edge,svg.drawing .number{text-anchor:middle}",
    )
)
"""Drawings carry their style: each rule names its drawing, for a page may hold other things."""


def page(width: float, height: float, title: str, parts: Iterable[str]) -> str:
    """A whole drawing of its parts, with its title for who cannot see it."""
    body = "".join(parts)
    title = one_line(title)
    return (
        f'<svg class="drawing" xmlns="http://www.w3.org/2000/svg" '
        f'viewBox="0 0 {num(width)} {num(height)}" '
        f'role="img" aria-label="{escape(title)}"><title>{escape(title)}</title>'
        f"<style>{_STYLE}</style>{body}</svg>"
    )


def polygon(points: Iterable[Point], name: str) -> str:
    """A closed outline."""
    listed = " ".join(f"{num(x)},{num(y)}" for x, y in points)
    return f'<polygon class="{name}" points="{listed}"/>'


def cross(corners: list[Point]) -> str:
    """A cross through an opening, as drafters mark a hole."""
    half = len(corners) // 2
    lines = "".join(
        f"M{num(a[0])} {num(a[1])}L{num(b[0])} {num(b[1])}"
        for a, b in zip(corners[:half], corners[half:], strict=False)
    )
    return f'<path class="seam" d="{lines}"/>'


def words_at(x: float, y: float, text: str, size: float, name: str) -> str:
    """Text at a point, whatever it says as it is."""
    return (
        f'<text class="{name}" x="{num(x)}" y="{num(y)}" font-size="{num(size)}">'
        f"{escape(escape_controls(text))}</text>"
    )


def num(value: float) -> str:
    """A coordinate, short."""
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"
