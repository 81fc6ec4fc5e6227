"""A building from above in characters, to scale: eaves, ridges, hips, valleys, openings.

The chosen plane has its seams in it and its number in brackets, so that it stands out without any
color. Valleys are broken lines.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.outline import area
from coilwright.calc.roof.shapes import Point
from coilwright.drawing.cells import TALL, Canvas
from coilwright.drawing.line_work import DOTS_ACROSS, DOTS_DOWN, Dots, LineWork
from coilwright.drawing.plane_facts import Bounds, bounds_of, seams_of, spans_at
from coilwright.plan.roof.above import Above, Face

_LEAST_WIDTH, _LEAST_HEIGHT = 8, 3
"""Cells under which a building is not drawn."""
_SEAM_GAP = 3
"""Seams are drawn where they are this many dots apart or more, else every second, fourth, … ."""


@dataclass(frozen=True, slots=True)
class _Room:
    """From inches to cells: places between 0 and `columns`, and 0 and `rows` from the top."""

    box: Bounds
    per_inch: float
    columns: int
    rows: int

    def point(self, column: int, row: int) -> Point:
        """What lies in the middle of a cell [in]."""
        return (self.box.left + (column + 0.5) / self.per_inch,
                self.box.high - (row + 0.5) * TALL / self.per_inch)

    def cell(self, point: Point) -> tuple[float, float]:
        """The place of a point, in cells."""
        return ((point[0] - self.box.left) * self.per_inch,
                (self.box.high - point[1]) * self.per_inch / TALL)

    def dot(self, point: Point) -> tuple[float, float]:
        """The place of a point, in dots."""
        column, row = self.cell(point)
        return column * DOTS_ACROSS, row * DOTS_DOWN


def above_lines(
    above: Above, width: int, height: int, chosen: int = 0, work: LineWork = LineWork.BLOCKS,
) -> list[str]:
    """The building as at most `height` lines of at most `width` characters; none where too small.

    chosen: the number of the plane that is marked; 0 marks none and writes no numbers.
    """
    room = _room(above, width, height, work)
    if room is None:
        return []
    if work.fine:
        return _fine(above, room, chosen, work)
    return [work.plain(line) for line in _coarse(above, room, chosen)]


def face_at(
    above: Above, width: int, height: int, column: int, row: int,
    work: LineWork = LineWork.BLOCKS,
) -> int | None:
    """The number of the face that `above_lines` draws in a cell; None beside the building.

    Where one face lies over another, as a main roof does over a porch, it is the upper one.
    """
    room = _room(above, width, height, work)
    if room is None:
        return None
    x, y = room.point(column, row)
    over = (face for face in reversed(above.faces)
            if any(low <= y <= high for low, high in spans_at(face.outline, x)))
    found = next(over, None)
    return None if found is None else found.plane.number


def _room(above: Above, width: int, height: int, work: LineWork) -> _Room | None:
    """How the building fits into lines; None where they are too few or too short."""
    if width < _LEAST_WIDTH or height < _LEAST_HEIGHT:
        return None
    left, low, right, high = above.bounds
    box = Bounds(left, low, right, high)
    step = 1 / DOTS_ACROSS if work.fine else 1.0
    tall = 1 / DOTS_DOWN if work.fine else 1.0
    per_inch = min((width - step) / box.width, TALL * (height - tall) / box.height)
    columns = min(width, int(box.width * per_inch + step + 0.999))
    rows = min(height, int(box.height * per_inch / TALL + tall + 0.999))
    return _Room(box, per_inch, columns, rows)


# -- with dots -----------------------------------------------------------------------------


def _fine(above: Above, room: _Room, chosen: int, work: LineWork) -> list[str]:
    canvas = Dots(room.columns, room.rows)
    for face in above.faces:
        if face.plane.number == chosen:
            for start, end in seams_shown(face, room.per_inch * DOTS_ACROSS):
                canvas.line(room.dot(start), room.dot(end), 1, 2)
    for face in above.faces:
        for edge in face.edges:
            if not edge.hidden:
                on, off = (3, 1) if edge.kind is EdgeKind.VALLEY else (1, 0)
                canvas.line(room.dot(edge.start), room.dot(edge.end), on, off)
        for hole in face.openings:
            _hole(canvas, [room.dot(point) for point in hole])
    for face in above.faces:
        _number(canvas, room, face, chosen)
    return canvas.lines(work)


def _hole(canvas: Dots, corners: Sequence[Point]) -> None:
    """An opening filled; one smaller than a dot has the dot it lies in."""
    xs, ys = [round(x) for x, _ in corners], [round(y) for _, y in corners]
    for x in range(min(xs), max(xs) + 1):
        canvas.line((x, min(ys)), (x, max(ys)))


def seams_shown(face: Face, per_inch: float) -> list[tuple[Point, Point]]:
    """The seams to draw: all, or every second, fourth, … where they would run together.

    per_inch: dots to an inch across.
    """
    seams = seams_of(face.plane)
    places = sorted({seam.x for seam in seams})
    widest = max((panel.x1 - panel.x0 for panel in face.plane.panels), default=0.0)
    every = 1
    while widest and widest * per_inch * every < _SEAM_GAP:
        every *= 2
    drawn = set(places[every - 1::every])
    return [(face.seen((seam.x, seam.low)), face.seen((seam.x, seam.high)))
            for seam in seams if seam.x in drawn]


def _label(face: Face, chosen: int) -> str:
    return f"[{face.plane.number}]" if face.plane.number == chosen else f"{face.plane.number}"


_ASIDE = ((0, 0), (0, -1), (0, 1), (-5, 0), (5, 0), (0, -2), (0, 2), (-9, 0), (9, 0), (0, -3),
          (0, 3))
"""Where a number may stand, in cells from the middle of its face: beside openings."""


def _label_at(face: Face, room: _Room, chosen: int) -> tuple[int, int] | None:
    """The cell where a face's number begins; None where the face is too small for it.

    The chosen one always has a place.
    """
    wide = len(_label(face, chosen))
    column, row = room.cell(middle_of(face.outline))
    first = round(column - wide / 2), int(row)
    fits = [(first[0] + dx, first[1] + dy) for dx, dy in _ASIDE
            if _holds(face, room, first[0] + dx, first[1] + dy, wide)]
    clear = (place for place in fits if not any(
        _covers(hole, room, place, wide) for hole in face.openings))
    return next(clear, fits[0] if fits else first if face.plane.number == chosen else None)


def _covers(hole: Sequence[Point], room: _Room, place: tuple[int, int], wide: int) -> bool:
    """Whether an opening lies under some of a row of cells."""
    box = bounds_of([room.cell(point) for point in hole])
    column, row = place
    return (box.left < column + wide and box.right > column
            and box.low < row + 1 and box.high > row)


def _number(canvas: Dots, room: _Room, face: Face, chosen: int) -> None:
    """Write a face's number; one too small for it goes without."""
    at = _label_at(face, room, chosen) if chosen else None
    if at is not None:
        canvas.write(*at, _label(face, chosen))


def _holds(face: Face, room: _Room, column: int, row: int, length: int) -> bool:
    """Whether a face is wide and deep enough where its number stands."""
    scaled = [room.cell(point) for point in face.outline]
    spans = spans_at([(y, x) for x, y in scaled], row + 0.5)
    return any(first + 0.5 <= column and column + length <= last for first, last in spans)


def middle_of(outline: Sequence[Point]) -> Point:
    """A point well inside a face: its center of area, or the middle of its widest place."""
    doubled = x = y = 0.0
    for (x0, y0), (x1, y1) in zip(outline, [*outline[1:], outline[0]], strict=True):
        cross = x0 * y1 - x1 * y0
        doubled += cross
        x += (x0 + x1) * cross
        y += (y0 + y1) * cross
    if not area(outline):
        return outline[0]
    x, y = x / (3 * doubled), y / (3 * doubled)
    spans = spans_at(outline, x)
    if any(low <= y <= high for low, high in spans):
        return x, y
    low, high = max(spans, key=lambda span: span[1] - span[0])
    return x, (low + high) / 2


# -- with lines of the box -----------------------------------------------------------------


def _coarse(above: Above, room: _Room, chosen: int) -> list[str]:
    canvas = Canvas(room.columns, room.rows)

    def cell(point: Point) -> tuple[int, int]:
        column, row = room.cell(point)
        return min(room.columns - 1, round(column)), min(room.rows - 1, round(row))

    edges = [edge for face in above.faces for edge in face.edges if not edge.hidden]
    for edge in edges:
        canvas.line_leaning(cell(edge.start), cell(edge.end))
    for edge in edges:
        canvas.line_straight(cell(edge.start), cell(edge.end))
    for face in above.faces:
        for hole in face.openings:
            canvas.put(*cell(middle_of(hole)), "░")
    for face in above.faces:
        at = _label_at(face, room, chosen) if chosen else None
        if at is None:
            continue
        for step, sign in enumerate(_label(face, chosen)):
            if sign != " " or canvas.free(at[0] + step, at[1], 1):
                canvas.put(at[0] + step, at[1], sign)
    return canvas.lines()
