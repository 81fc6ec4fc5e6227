"""Drawings as SVG for the sheets: self-contained, black on white, all text escaped."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from coilwright.calc.roof.edges import Edge, EdgeKind
from coilwright.calc.roof.layout import Panel
from coilwright.calc.roof.shapes import Point
from coilwright.drawing.bars import account_rows
from coilwright.drawing.coil import coil_sizes, coil_words
from coilwright.drawing.cost import landed_words, shortened
from coilwright.drawing.plane_facts import (
    Span,
    bounds_of,
    edge_words,
    middle,
    panel_words,
    seams_of,
    spans_at,
)
from coilwright.drawing.safe_text import one_line
from coilwright.drawing.svg_parts import (
    ACROSS,
    LETTER,
    MARGIN,
    TALLEST,
    TEXT,
    along,
    cross,
    num,
    number_at,
    page,
    polygon,
    words_at,
)
from coilwright.plan.quotes.report import Comparison, Part
from coilwright.plan.result import Plan, PlanePlan
from coilwright.units import System
from coilwright.values.keys import Key

_READABLE, _SMALLEST_INSIDE, _SMALLEST = 9.0, 7.3, 4.0
"""Sizes of a panel's number: as small as reads well on paper, inside a panel (6 pt on a whole
page's width), at all."""
_ABOVE = 31.0
"""Room above and below a plane, for the names of its edges and what stands below the eave."""
_A_PANEL, _NARROWEST = 9.5, 260.0
"""What a panel needs across for its number to be read; no drawing is narrower."""


def width_to_read(plane: PlanePlan) -> float:
    """How wide a plane is drawn for its panels' numbers to be read, at most the page."""
    across = max((panel.x1 - panel.x0 for panel in plane.panels), default=0.0)
    strips = bounds_of(plane.outline).width / across if across > 0 else 1.0
    return min(ACROSS, max(_NARROWEST, 2 * MARGIN + strips * _A_PANEL))


def plane_svg(plane: PlanePlan, system: System = System.US, across: float = ACROSS) -> str:
    """The plane to scale: outline, seams, openings, edges named, panels numbered where they fit.

    across: how wide the drawing is, of ACROSS for the whole page.
    """
    box = bounds_of(plane.outline)
    scale = min((across - 2 * MARGIN) / box.width, TALLEST / box.height)
    high = box.height * scale + 2 * _ABOVE
    left = (across - box.width * scale) / 2

    def at(point: Point) -> Point:
        return left + (point[0] - box.left) * scale, _ABOVE + (box.high - point[1]) * scale

    parts = [polygon(map(at, plane.outline), "outline")]
    for seam in seams_of(plane):
        (x, y0), (_, y1) = at((seam.x, seam.low)), at((seam.x, seam.high))
        parts.append(f'<path class="seam" d="M{num(x)} {num(y0)}V{num(y1)}"/>')
    for hole in plane.openings:
        parts.append(polygon(map(at, hole), "opening"))
        parts.append(cross([at(point) for point in hole]))
    widest = max((panel.x1 - panel.x0 for panel in plane.panels), default=0.0) * scale
    letters = len(str(len(plane.panels))) * LETTER
    level = min(TEXT, widest / letters * 0.85) if letters else TEXT
    size, turned = (level, False) if level >= _READABLE else (min(TEXT, widest * 0.85), True)
    for number, panel in enumerate(plane.panels, 1):
        parts.append(_panel_number(plane, number, panel, scale, at, size, turned))
    for edge in plane.edges:
        parts.append(_edge_name(edge, at(edge.start), at(edge.end), system))
    named = "; ".join(" ".join(edge_words(edge, system)) for edge in plane.edges)
    title = f"{plane.name}: {panel_words(plane)}; {named}"
    return page(across, high, title, parts)


def _panel_number(
    plane: PlanePlan, number: int, panel: Panel, scale: float, at: Callable[[Point], Point],
    size: float, turned: bool,
) -> str:
    """A panel's number, of one size all over the plane where it fits, so that a row reads as one.

    One that does not fit stands below the panel, where the panel ends on the eave; elsewhere it is
    as large as the panel lets it be.
    """
    letters = len(str(number)) * LETTER
    wide, (low, high) = (panel.x1 - panel.x0) * scale, _clear_span(plane, panel)
    across, up = (size, size * letters) if turned else (size * letters, size)
    if size >= _SMALLEST_INSIDE and across <= wide * 0.95 and up * 1.15 <= (high - low) * scale:
        place = _clear_of_openings(plane, (middle(panel)[0], (low + high) / 2), size / scale)
        return number_at(*at(place), str(number), size, turned=turned)
    if panel.y0 > bounds_of(plane.outline).low + 1e-6:
        return _smaller_number(number, panel, scale, at)
    x, y = at((middle(panel)[0], panel.y0))
    return number_at(x, y + _READABLE * letters * 0.5 + 3, str(number), _READABLE, turned=True)


def _clear_span(plane: PlanePlan, panel: Panel) -> Span:
    """From where to where a panel is as wide as its strip, whatever its ends are [in]."""
    inset = (panel.x1 - panel.x0) * 0.05
    low, high = panel.y0, panel.y1
    for x in (panel.x0 + inset, panel.x1 - inset):
        inside = [(max(panel.y0, y0), min(panel.y1, y1)) for y0, y1 in spans_at(plane.outline, x)]
        y0, y1 = max(inside, key=lambda span: span[1] - span[0], default=(panel.y0, panel.y0))
        low, high = max(low, y0), min(high, y1)
    return low, max(low, high)


def _smaller_number(
    number: int, panel: Panel, scale: float, at: Callable[[Point], Point]
) -> str:
    letters = len(str(number)) * LETTER
    wide, high = (panel.x1 - panel.x0) * scale, (panel.y1 - panel.y0) * scale
    level = min(TEXT, wide / letters * 0.85, high / 1.5)
    turned = min(TEXT, wide * 0.85, high / letters * 0.85)
    size = max(level, turned)
    if size < _SMALLEST:
        return ""
    return number_at(*at(middle(panel)), str(number), size, turned=turned > level)


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
    if long == 0 or len(text) * TEXT * LETTER > long:
        return ""
    # Corners run counter-clockwise as people see the plane: outside is to the right of the way.
    out = ((y0 - y1) / long, (x1 - x0) / long)
    x, y = (x0 + x1) / 2 + out[0] * TEXT * 1.1, (y0 + y1) / 2 + out[1] * TEXT * 1.1
    if edge.kind in (EdgeKind.EAVE, EdgeKind.RIDGE):
        return words_at(x, y + TEXT * 0.35, text, TEXT, "edge")
    return along((x, y), start, end, text, "edge")


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
            f'<circle class="{name}" cx="{num(middle_x)}" cy="{num(middle_y)}" r="{num(size)}"/>'
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
        y = middle_y + (number - (len(words) - 1) / 2) * TEXT * 1.6
        parts.append(words_at(2 * middle_x + 10, y, " ".join(line.split()), TEXT, "size"))
    return page(ACROSS, 2 * middle_y, "; ".join(" ".join(w.split()) for w in words), parts)


def account_svg(plan: Plan) -> str:
    """Where the metal goes: a bar for each part of the ordered weight. Empty without an order."""
    rows = account_rows(plan)
    if not rows:
        return ""
    system = plan.job.units
    step, name_room, number_room = 22.0, 130.0, 150.0
    longest = ACROSS - name_room - number_room
    most = max(row.share.value for row in rows)
    parts = []
    for number, row in enumerate(rows):
        y = number * step + 6
        bar = max(0.0, row.share.value) / most * longest
        parts.append(words_at(0, y + 12, row.name, TEXT, "name"))
        parts.append(
            f'<rect class="bar" x="{num(name_room)}" y="{num(y)}" width="{num(bar)}" height="14"/>'
        )
        value = f"{row.mass.mark} {row.mass.text(system)}, {row.share.text(system)}".strip()
        parts.append(words_at(name_room + bar + 6, y + 12, value, TEXT, "name"))
    ordered = plan.figures[Key.COIL_MASS_ORDERED]
    y = len(rows) * step + 20
    total = f"ordered {ordered.mark} {ordered.text(system)}"
    parts.append(words_at(name_room, y, total, TEXT, "name"))
    return page(ACROSS, y + 10, f"Where the metal goes; {total}", parts)


def cost_svg(comparison: Comparison) -> str:
    """What each quote lands at, its parts end to end, to one scale. Empty without a cost."""
    rows = [row for row in comparison.sorted() if row.cost is not None]
    most = max((row.cost.landed for row in rows if row.cost is not None), default=Decimal(0))
    if most <= 0:
        return ""
    step, name_room, number_room = 22.0, 150.0, 150.0
    longest = ACROSS - name_room - number_room
    drawn = []
    for number, row in enumerate(rows):
        assert row.cost is not None
        x, y = name_room, number * step + 6
        drawn.append(words_at(0, y + 12, shortened(row.supplier, 20), TEXT, "name"))
        for part in Part:
            wide = float(row.cost.part(part) / most) * longest
            if wide > 0:
                drawn.append(f'<rect class="part {part.name.lower()}" x="{num(x)}" y="{num(y)}" '
                             f'width="{num(wide)}" height="14"/>')
                x += wide
        drawn.append(words_at(x + 6, y + 12, landed_words(row), TEXT, "name"))
    x, y = 0.0, len(rows) * step + 14
    for part in Part:
        drawn.append(f'<rect class="part {part.name.lower()}" x="{num(x)}" y="{num(y)}" width="14" '
                     'height="14"/>')
        drawn.append(words_at(x + 20, y + 12, part.value, TEXT, "name"))
        x += 20 + len(part.value) * TEXT * LETTER + 22
    title = "; ".join(f"{one_line(row.supplier)} {landed_words(row)}" for row in rows)
    return page(ACROSS, y + 24, f"What each quote lands at: {title}", drawn)
