"""A roof plane in characters, to scale: seams as lines and panels numbered, or edges numbered."""

from __future__ import annotations

from coilwright.calc.roof.edges import Edge, EdgeKind
from coilwright.drawing.cells import Canvas, Scale, draw_outline, fitted, mark_openings, mid
from coilwright.drawing.line_work import LineWork
from coilwright.drawing.plane_facts import (
    Bounds,
    Seam,
    bounds_of,
    edge_words,
    grouped,
    panel_words,
    seams_of,
)
from coilwright.plan.result import PlanePlan
from coilwright.units import System

_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000)
_LEAST_SEAM_GAP = 2
"""Seams closer than this many cells are not all drawn."""
_AT_TOP = (EdgeKind.RIDGE, EdgeKind.WALL, EdgeKind.BREAK)
"""What a level edge at the top of a plane is: that of a porch meets a wall."""
_PLAIN_ENOUGH = 5
"""Rows and columns under which a drawing goes without labels."""


def plane_lines(
    plane: PlanePlan, width: int, height: int, system: System = System.US,
    work: LineWork = LineWork.BLOCKS, *, zero: bool = False,
) -> list[str]:
    """The plane as at most `height` lines of at most `width` characters.

    The aspect is true for cells twice as tall as wide. Edges are named with their lengths and
    panels numbered where that fits; how many panels there are is written below. zero: marks where
    lengths along the eave begin.
    """
    if width <= 0 or height <= 0:
        return []
    if width < _PLAIN_ENOUGH or height < 3:
        return [panel_words(plane, alike=False)[:width]]
    captions = height > _PLAIN_ENOUGH
    room = height - (2 if captions else 0)
    labels = captions and room > _PLAIN_ENOUGH
    above = below = 1 if labels else 0
    scale, side = _scale(plane, width, room - above - below, system if labels else None)
    canvas = Canvas(width, scale.rows + 1)
    shown = _draw(canvas, scale, plane, work)
    left_out = list(plane.edges)
    tops: list[str] = []
    foot: list[str] = []
    if labels:
        tops, left_out = _row_of(_AT_TOP, scale, left_out, width, system)
        foot, left_out = _row_of((EdgeKind.EAVE,), scale, left_out, width, system)
        if zero:
            foot = [_with_zero("".join(foot), scale, width, work)]
        if side is not None:
            left_out = _write_side(canvas, scale, side, left_out, system)
    lines = [*tops, *map(work.plain, canvas.lines()), *foot]
    if captions:
        lines += _captions(plane, shown, left_out, width, height - len(lines), system)
    return lines


def _scale(
    plane: PlanePlan, width: int, height: int, system: System | None
) -> tuple[Scale, Edge | None]:
    """The largest scale that fits, and the side edge there is room to name beside it."""
    box = bounds_of(plane.outline)
    strip = max((p.x1 - p.x0 for p in plane.panels), default=0.0)
    plain = fitted(box, width, height, strip)
    side = None if system is None else _side_edge(plane, box)
    if system is None or side is None:
        return plain, None
    long = max(len(part) for part in edge_words(side, system))
    reach = (_reach(plane, mid(side)[1], 2 * box.height / plain.rows) - box.left) / box.width
    narrower = min(width, int((width - long - 3) / reach) + 1)
    if narrower <= 1:
        return plain, None
    scale = fitted(box, narrower, height, strip)
    # Naming one edge is not worth a drawing much smaller.
    return (scale, side) if scale.columns >= 0.6 * plain.columns else (plain, None)


def _side_edge(plane: PlanePlan, box: Bounds) -> Edge | None:
    """The longest edge on the right that is neither eave nor ridge."""
    sides = [
        edge
        for edge in plane.edges
        if edge.kind not in (EdgeKind.EAVE, EdgeKind.RIDGE)
        and mid(edge)[0] > box.left + box.width / 2
    ]
    return max(sides, key=lambda edge: edge.length, default=None)


def _reach(plane: PlanePlan, y: float, about: float) -> float:
    """How far right the outline comes at heights within `about` of y [in]."""
    xs = [mid(edge)[0] for edge in plane.edges if abs(mid(edge)[1] - y) <= about]
    for edge in plane.edges:
        (x0, y0), (x1, y1) = edge.start, edge.end
        for level in (y - about, y, y + about):
            if min(y0, y1) <= level <= max(y0, y1) and y0 != y1:
                xs.append(x0 + (x1 - x0) * (level - y0) / (y1 - y0))
    return max(xs)


def _draw(canvas: Canvas, scale: Scale, plane: PlanePlan, work: LineWork) -> int:
    """Draw outline, openings, seams and numbers; return how many seams go to one drawn."""
    draw_outline(canvas, scale, plane, work)
    seams = seams_of(plane)
    places = sorted({seam.x for seam in seams})
    every = _every(scale, places)
    drawn = set(places[every - 1 :: every])
    for seam in seams:
        if seam.x in drawn:
            _seam(canvas, scale, seam)
    mark_openings(canvas, scale, plane)
    if every == 1:
        _number(canvas, scale, plane)
    else:
        _number_some(canvas, scale, plane, drawn)
    return every


def _seam(canvas: Canvas, scale: Scale, seam: Seam) -> None:
    """Draw a seam; where it ends at a leaning edge, stop short of the edge's sign."""
    column = round(scale.column(seam.x))
    top, bottom = round(scale.row(seam.high)), round(scale.row(seam.low))
    for row in range(top - 1, top + 3):
        if canvas.leaning(column, row):
            top = row + 1
    for row in range(bottom + 1, bottom - 3, -1):
        if canvas.leaning(column, row):
            bottom = row - 1
    if top <= bottom:
        canvas.line_down(column, top, bottom)


def _every(scale: Scale, places: list[float]) -> int:
    """Draw each seam, or every so-manieth where they would run together."""
    if len(places) < 2:
        return 1
    gap = (scale.column(places[-1]) - scale.column(places[0])) / (len(places) - 1)
    return next((step for step in _STEPS if gap * step >= _LEAST_SEAM_GAP), _STEPS[-1])


def _number(canvas: Canvas, scale: Scale, plane: PlanePlan) -> None:
    """Number the panels, left to right and up, each as low as there is room.

    In a strip too narrow for its number the digits stand on one another.
    """
    for number, panel in enumerate(plane.panels, 1):
        text = str(number)
        first = round(scale.column(panel.x0)) + 1
        last = round(scale.column(panel.x1)) - 1
        top, bottom = round(scale.row(panel.y1)), round(scale.row(panel.y0))
        rows = range(bottom - 1, top, -1)
        if last - first + 1 < len(text):
            _number_down(canvas, rows, first, last, text)
            continue
        for row in rows:
            at = _blank(canvas, row, first, last, len(text))
            if at is not None:
                canvas.write(at, row, text)
                break


def _number_some(canvas: Canvas, scale: Scale, plane: PlanePlan, drawn: set[float]) -> None:
    """Number the panels whose right-hand seam is drawn, each just left of that seam."""
    seams = sorted(round(scale.column(x)) for x in drawn)
    for number, panel in enumerate(plane.panels, 1):
        if panel.x1 not in drawn:
            continue
        text = str(number)
        last = round(scale.column(panel.x1)) - 1
        before = [column for column in seams if column <= last]
        first = max(before[-1] if before else 0, last - len(text)) + 1
        at = last - len(text) + 1
        top, bottom = round(scale.row(panel.y1)), round(scale.row(panel.y0))
        if at < first:
            continue
        for row in range(bottom - 1, top, -1):
            if canvas.free(at, row, len(text)):
                canvas.write(at, row, text)
                break


def _number_down(canvas: Canvas, rows: range, first: int, last: int, text: str) -> None:
    for foot in rows[: len(rows) - len(text) + 1]:
        for column in range(first, last + 1):
            places = range(foot - len(text) + 1, foot + 1)
            if all(canvas.free(column, row, 1) for row in places):
                for row, digit in zip(places, text, strict=True):
                    canvas.put(column, row, digit)
                return


def _blank(canvas: Canvas, row: int, first: int, last: int, length: int) -> int | None:
    """Where in a row `length` blank cells lie nearest the middle of first..last."""
    places = [c for c in range(first, last - length + 2) if canvas.free(c, row, length)]
    middle = (first + last - length + 1) / 2
    return min(places, key=lambda c: abs(c - middle), default=None)


def _row_of(
    kinds: tuple[EdgeKind, ...], scale: Scale, edges: list[Edge], width: int, system: System
) -> tuple[list[str], list[Edge]]:
    """One line naming the outermost level edges of these kinds, and the edges not named."""
    line = Canvas(width, 1)
    left = []
    edge_row = 0 if kinds is _AT_TOP else scale.rows
    for edge in edges:
        text = " ".join(edge_words(edge, system))
        level = scale.cell(edge.start)[1] == scale.cell(edge.end)[1] == edge_row
        outermost = edge.kind in kinds and level
        at = min(max(0, round(scale.column(mid(edge)[0]) - len(text) / 2)), width - len(text))
        # A blank on each side, so that two names do not run together.
        before, after = max(at - 1, 0), min(at + len(text) + 1, width)
        if outermost and at >= 0 and line.free(before, 0, after - before):
            line.write(at, 0, text)
        else:
            left.append(edge)
    lines = line.lines()
    return (lines if lines[0] else []), left


def _with_zero(foot: str, scale: Scale, width: int, work: LineWork) -> str:
    """The line under the eave with a 0 where lengths along it begin, as far as there is room."""
    at = round(scale.column(0.0))
    for text in ("0 → from left", "0 →", "0"):
        end = at + len(text)
        if at >= 0 and end <= width and not foot[at : end + 1].strip():
            return work.plain(f"{foot[:at].ljust(at)}{text}{foot[end:]}")
    return foot


def _write_side(
    canvas: Canvas, scale: Scale, side: Edge, edges: list[Edge], system: System
) -> list[Edge]:
    """Name the side edge to its right, in two lines; return the edges not named yet.

    An equal edge opposite goes without saying.
    """
    kind, length = edge_words(side, system)
    _, row = scale.cell(mid(side))
    top = min(max(row - 1, 0), canvas.height - 2)
    ends = [len(canvas.lines()[r]) for r in (top, top + 1)]
    at = max(ends) + 1
    if at + max(len(kind), len(length)) > canvas.width:
        return edges
    canvas.write(at, top, kind)
    canvas.write(at, top + 1, length)
    return [edge for edge in edges if edge_words(edge, system) != (kind, length)]


def _captions(
    plane: PlanePlan, every: int, edges: list[Edge], width: int, room: int, system: System
) -> list[str]:
    """The lines under the drawing: panels, seams left out, edges not named in it."""
    words, count = panel_words(plane), panel_words(plane, alike=False)
    drawn = {1: "", 2: ", every other seam drawn"}.get(every, f", every {every}th seam drawn")
    lines = [_longest_that_fits(width, f"{words}{drawn}", f"{count}{drawn}", words, count)]
    named = ""
    for text in grouped(edges, system):
        longer = f"{named} · {text}" if named else text
        if len(longer) > width:
            break
        named = longer
    if named:
        lines.append(named)
    return lines[: max(room, 0)]


def _longest_that_fits(width: int, *words: str) -> str:
    return next((text for text in words if len(text) <= width), words[-1][:width])


def edges_lines(
    plane: PlanePlan, width: int, height: int, work: LineWork = LineWork.BLOCKS
) -> list[str]:
    """The plane's outline and openings, each edge marked e1, e2, … at its middle."""
    if width < 6 or height < 3:
        return []
    scale = fitted(bounds_of(plane.outline), width, height, 0.0)
    canvas = Canvas(width, scale.rows + 1)
    draw_outline(canvas, scale, plane, work)
    for edge in plane.edges:
        text = f"e{edge.number}"
        column, row = scale.cell(mid(edge))
        at = min(max(0, column - len(text) // 2), scale.columns + 1 - len(text))
        canvas.write(max(0, at), row, text)
    return list(map(work.plain, canvas.lines()))
