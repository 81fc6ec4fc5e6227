"""A building from above as SVG for the sheets, black on white: edges named, faces numbered."""

from __future__ import annotations

from math import hypot

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.shapes import Point
from coilwright.drawing.above import middle_of, seams_shown
from coilwright.drawing.plane_facts import Bounds, edge_words
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
from coilwright.plan.roof.above import Above, Face
from coilwright.units import System


def above_svg(above: Above, system: System = System.US, across: float = ACROSS) -> str:
    """The building to scale: faces with number and name, seams, openings, edges by kind and length.

    Lengths are true, along the edge; valleys are broken lines. across: how wide the drawing is, of
    ACROSS for the whole page.
    """
    left, low, right, high = above.bounds
    box = Bounds(left, low, right, high)
    scale = min((across - 2 * MARGIN) / box.width, TALLEST / box.height)
    start = (across - box.width * scale) / 2

    def at(point: Point) -> Point:
        return start + (point[0] - left) * scale, MARGIN + (high - point[1]) * scale

    parts = [polygon(map(at, face.outline), "face") for face in above.faces]
    for face in above.faces:
        parts += [_line(at(a), at(b), "faint") for a, b in seams_shown(face, scale)]
        for hole in face.openings:
            parts += [polygon(map(at, hole), "opening"), cross([at(point) for point in hole])]
    seen: set[tuple[int, int]] = set()
    names = []
    for face in above.faces:
        for seam, edge in zip(face.plane.edges, face.edges, strict=True):
            if edge.hidden:
                continue
            a, b = at(edge.start), at(edge.end)
            parts.append(_line(a, b, "valley" if edge.kind is EdgeKind.VALLEY else "line"))
            middle = (round((a[0] + b[0]) / 2), round((a[1] + b[1]) / 2))
            if middle not in seen:  # the other half of the same edge has its name
                seen.add(middle)
                names.append(_named(a, b, edge.kind, " ".join(edge_words(seam, system))))
    parts += names  # over all lines
    parts += [part for face in above.faces for part in _numbered(face, at(middle_of(face.outline)),
                                                                 scale)]
    told = "; ".join(f"{face.plane.number} {face.plane.name}" for face in above.faces)
    return page(across, box.height * scale + 2 * MARGIN, f"From above: {told}", parts)


def _line(start: Point, end: Point, name: str) -> str:
    return (f'<path class="{name}" d="M{num(start[0])} {num(start[1])}'
            f'L{num(end[0])} {num(end[1])}"/>')


def _named(start: Point, end: Point, kind: EdgeKind, words: str) -> str:
    """An edge's name along it: outside eaves and rakes, on the others; none where too long."""
    long = hypot(end[0] - start[0], end[1] - start[1])
    if len(words) * TEXT * LETTER > long:
        words = kind.value
    if len(words) * TEXT * LETTER > long:
        return ""
    away = 0.0 if kind.is_shared else TEXT * 1.1
    # Corners run counter-clockwise: outside is to the right of the way, and y runs down here.
    out = ((start[1] - end[1]) / long * away, (end[0] - start[0]) / long * away)
    middle = ((start[0] + end[0]) / 2 + out[0], (start[1] + end[1]) / 2 + out[1])
    return along(middle, start, end, words, "edge halo" if kind.is_shared else "edge")


def _numbered(face: Face, middle: Point, scale: float) -> list[str]:
    """A face's number, and its name where it is wide enough."""
    plane = face.plane
    xs, ys = [x for x, _ in face.outline], [y for _, y in face.outline]
    wide = (max(xs) - min(xs)) * scale * 0.7
    deep = (max(ys) - min(ys)) * scale
    x, y = middle
    found = [number_at(x, y, str(plane.number), TEXT * 1.4, turned=False)]
    if len(plane.name) * TEXT * LETTER <= wide and deep > 4 * TEXT:
        found.append(words_at(x, y + TEXT * 1.6, plane.name, TEXT, "number halo"))
    return found
