"""Drawings as SVG for the sheets: self-contained, black on white, all text escaped."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal
from html import escape
from math import atan2, degrees

from coilwright.calc.roof.edges import Edge, EdgeKind
from coilwright.calc.roof.layout import Panel
from coilwright.calc.roof.shapes import Point
from coilwright.drawing.bars import account_rows
from coilwright.drawing.coil import coil_sizes, coil_words
from coilwright.drawing.cost import landed_words, shortened
from coilwright.drawing.plane_facts import bounds_of, edge_words, middle, panel_words, seams_of
from coilwright.drawing.safe_text import escape_controls, one_line
from coilwright.plan.quotes.report import Comparison, Part
from coilwright.plan.result import Plan, PlanePlan
from coilwright.units import System
from coilwright.values.keys import Key

_ACROSS = 640.0
"""Width of a drawing in its own units."""
_TALLEST = 480.0
_MARGIN = 46.0
_TEXT = 13.0
_READABLE, _SMALLEST_INSIDE, _SMALLEST = 9.0, 6.5, 4.0
"""Sizes of a panel's number: as small as reads well on paper, inside a panel, at all."""
_LETTER = 0.6
"""A letter is about this much as wide as it is high."""


def plane_svg(plane: PlanePlan, system: System = System.US) -> str:
    """The plane to scale: outline, seams, openings, edges named, panels numbered where they fit."""
    box = bounds_of(plane.outline)
    scale = min((_ACROSS - 2 * _MARGIN) / box.width, _TALLEST / box.height)
    high = box.height * scale + 2 * _MARGIN
    left = (_ACROSS - box.width * scale) / 2

    def at(point: Point) -> Point:
        return left + (point[0] - box.left) * scale, _MARGIN + (box.high - point[1]) * scale

    parts = [_polygon(map(at, plane.outline), "outline")]
    for seam in seams_of(plane):
        (x, y0), (_, y1) = at((seam.x, seam.low)), at((seam.x, seam.high))
        parts.append(f'<path class="seam" d="M{_n(x)} {_n(y0)}V{_n(y1)}"/>')
    for hole in plane.openings:
        parts.append(_polygon(map(at, hole), "opening"))
        parts.append(_cross([at(point) for point in hole]))
    for number, panel in enumerate(plane.panels, 1):
        parts.append(_panel_number(plane, number, panel, scale, at))
    for edge in plane.edges:
        parts.append(_edge_name(edge, at(edge.start), at(edge.end), system))
    named = "; ".join(" ".join(edge_words(edge, system)) for edge in plane.edges)
    title = f"{plane.name}: {panel_words(plane)}; {named}"
    return _svg(_ACROSS, high, title, parts)


def _panel_number(
    plane: PlanePlan, number: int, panel: Panel, scale: float, at: Callable[[Point], Point]
) -> str:
    """A panel's number, so large that it can be read on paper: level, or turned up the panel.

    One that does not fit stands below the panel, where the panel ends on the eave.
    """
    letters = len(str(number)) * _LETTER
    wide, high = (panel.x1 - panel.x0) * scale, (panel.y1 - panel.y0) * scale
    level = min(_TEXT, wide / letters * 0.85, high / 1.5)
    turned = min(_TEXT, wide * 0.85, high / letters * 0.85)
    size = level if level >= _READABLE else max(level, turned)
    if size >= _SMALLEST_INSIDE:
        x, y = at(_clear_of_openings(plane, middle(panel), size / scale))
        return _number(x, y, str(number), size, turned=size > level)
    if panel.y0 > bounds_of(plane.outline).low + 1e-6:
        if size < _SMALLEST:
            return ""
        return _number(*at(middle(panel)), str(number), size, turned=size > level)
    x, y = at((middle(panel)[0], panel.y0))
    return _number(x, y + _READABLE * letters * 0.5 + 3, str(number), _READABLE, turned=True)


def _number(x: float, y: float, text: str, size: float, turned: bool) -> str:
    if not turned:
        return _text(x, y + size * 0.35, text, size, "number")
    inner = _text(0, size * 0.35, text, size, "number")
    return f'<g transform="translate({_n(x)} {_n(y)}) rotate(-90)">{inner}</g>'


def _clear_of_openings(plane: PlanePlan, point: Point, size: float) -> Point:
    """The point, or one below the opening it would fall on."""
    x, y = point
    for hole in plane.openings:
        box = bounds_of(hole)
        wide = box.left - size < x < box.right + size
        if wide and box.low - size / 2 < y < box.high + size / 2:
            return x, box.low - size
    return point


def _edge_name(edge: Edge, start: Point, end: Point, system: System) -> str:
    """An edge's name outside the plane; up along edges that stand, level along those that lie."""
    text = " ".join(edge_words(edge, system))
    (x0, y0), (x1, y1) = start, end
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    if long == 0 or len(text) * _TEXT * _LETTER > long:
        return ""
    # Corners run counter-clockwise as people see the plane: outside is to the right of the way.
    out = ((y0 - y1) / long, (x1 - x0) / long)
    x, y = (x0 + x1) / 2 + out[0] * _TEXT * 1.1, (y0 + y1) / 2 + out[1] * _TEXT * 1.1
    if edge.kind in (EdgeKind.EAVE, EdgeKind.RIDGE):
        return _text(x, y + _TEXT * 0.35, text, _TEXT, "edge")
    turn = _degrees(x1 - x0, y1 - y0)
    inner = _text(0, _TEXT * 0.35, text, _TEXT, "edge")
    return f'<g transform="translate({_n(x)} {_n(y)}) rotate({_n(turn)})">{inner}</g>'


def _degrees(across: float, down: float) -> float:
    """The turn that lays text along a line, read from the left or from below."""
    turn = degrees(atan2(down, across))
    return turn - 180 if turn > 90 else turn + 180 if turn <= -90 else turn


def coil_svg(plan: Plan) -> str:
    """The largest coil end-on, in the largest circle the rack or decoiler takes, with sizes."""
    sizes = coil_sizes(plan)
    if sizes.widest <= 0:
        return ""
    radius, middle_x, middle_y = 150.0, 170.0, 170.0
    scale = radius / sizes.widest

    def circle(diameter: float, name: str) -> str:
        size = diameter * scale
        return (
            f'<circle class="{name}" cx="{_n(middle_x)}" cy="{_n(middle_y)}" r="{_n(size)}"/>'
        )

    parts = []
    if sizes.room is not None:
        parts.append(circle(sizes.room.value, "room"))
    if sizes.outside is not None:
        parts.append(circle(sizes.outside.value, "coil"))
    if sizes.inside is not None:
        parts.append(circle(sizes.inside.value, "hole"))
    words = coil_words(plan, sizes, 60)
    for number, line in enumerate(words):
        y = middle_y + (number - (len(words) - 1) / 2) * _TEXT * 1.6
        parts.append(_text(2 * middle_x + 10, y, " ".join(line.split()), _TEXT, "size"))
    return _svg(_ACROSS, 2 * middle_y, "; ".join(" ".join(w.split()) for w in words), parts)


def account_svg(plan: Plan) -> str:
    """Where the metal goes: a bar for each part of the ordered weight. Empty without an order."""
    rows = account_rows(plan)
    if not rows:
        return ""
    system = plan.job.units
    step, name_room, number_room = 22.0, 130.0, 150.0
    longest = _ACROSS - name_room - number_room
    most = max(row.share.value for row in rows)
    parts = []
    for number, row in enumerate(rows):
        y = number * step + 6
        bar = max(0.0, row.share.value) / most * longest
        parts.append(_text(0, y + 12, row.name, _TEXT, "name"))
        parts.append(
            f'<rect class="bar" x="{_n(name_room)}" y="{_n(y)}" width="{_n(bar)}" height="14"/>'
        )
        value = f"{row.mass.mark} {row.mass.text(system)}, {row.share.text(system)}".strip()
        parts.append(_text(name_room + bar + 6, y + 12, value, _TEXT, "name"))
    ordered = plan.figures[Key.COIL_MASS_ORDERED]
    y = len(rows) * step + 20
    total = f"ordered {ordered.mark} {ordered.text(system)}"
    parts.append(_text(name_room, y, total, _TEXT, "name"))
    return _svg(_ACROSS, y + 10, f"Where the metal goes; {total}", parts)


def cost_svg(comparison: Comparison) -> str:
    """What each quote lands at, its parts end to end, to one scale. Empty without a cost."""
    rows = [row for row in comparison.sorted() if row.cost is not None]
    most = max((row.cost.landed for row in rows if row.cost is not None), default=Decimal(0))
    if most <= 0:
        return ""
    step, name_room, number_room = 22.0, 150.0, 150.0
    longest = _ACROSS - name_room - number_room
    drawn = []
    for number, row in enumerate(rows):
        assert row.cost is not None
        x, y = name_room, number * step + 6
        drawn.append(_text(0, y + 12, shortened(row.supplier, 20), _TEXT, "name"))
        for part in Part:
            wide = float(row.cost.part(part) / most) * longest
            if wide > 0:
                drawn.append(f'<rect class="part {part.name.lower()}" x="{_n(x)}" y="{_n(y)}" '
                             f'width="{_n(wide)}" height="14"/>')
                x += wide
        drawn.append(_text(x + 6, y + 12, landed_words(row), _TEXT, "name"))
    x, y = 0.0, len(rows) * step + 14
    for part in Part:
        drawn.append(f'<rect class="part {part.name.lower()}" x="{_n(x)}" y="{_n(y)}" width="14" '
                     'height="14"/>')
        drawn.append(_text(x + 20, y + 12, part.value, _TEXT, "name"))
        x += 20 + len(part.value) * _TEXT * _LETTER + 22
    title = "; ".join(f"{one_line(row.supplier)} {landed_words(row)}" for row in rows)
    return _svg(_ACROSS, y + 24, f"What each quote lands at: {title}", drawn)


_STYLE = "".join(
    f"svg.drawing {rule}"
    for rule in (
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


def _svg(width: float, height: float, title: str, parts: Iterable[str]) -> str:
    body = "".join(parts)
    title = one_line(title)
    return (
        f'<svg class="drawing" xmlns="http://www.w3.org/2000/svg" '
        f'viewBox="0 0 {_n(width)} {_n(height)}" '
        f'role="img" aria-label="{escape(title)}"><title>{escape(title)}</title>'
        f"<style>{_STYLE}</style>{body}</svg>"
    )


def _polygon(points: Iterable[Point], name: str) -> str:
    listed = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
    return f'<polygon class="{name}" points="{listed}"/>'


def _cross(corners: list[Point]) -> str:
    """A cross through an opening, as drafters mark a hole."""
    half = len(corners) // 2
    lines = "".join(
        f"M{_n(a[0])} {_n(a[1])}L{_n(b[0])} {_n(b[1])}"
        for a, b in zip(corners[:half], corners[half:], strict=False)
    )
    return f'<path class="seam" d="{lines}"/>'


def _text(x: float, y: float, text: str, size: float, name: str) -> str:
    return (
        f'<text class="{name}" x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}">'
        f"{escape(escape_controls(text))}</text>"
    )


def _n(value: float) -> str:
    """A coordinate, short."""
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"
