"""Cells of the screen to draw on: box lines that join, text, and a plane's outline to scale."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.calc.roof.edges import Edge
from coilwright.calc.roof.shapes import Point
from coilwright.drawing.line_work import DOTS_ACROSS, DOTS_DOWN, Dots, LineWork
from coilwright.drawing.plane_facts import Bounds, bounds_of, spans_at
from coilwright.plan.result import PlanePlan

UP, RIGHT, DOWN, LEFT = 1, 2, 4, 8

_BOX = {
    UP: "│", DOWN: "│", UP | DOWN: "│",
    LEFT: "─", RIGHT: "─", LEFT | RIGHT: "─",
    DOWN | RIGHT: "┌", DOWN | LEFT: "┐", UP | RIGHT: "└", UP | LEFT: "┘",
    UP | DOWN | RIGHT: "├", UP | DOWN | LEFT: "┤",
    DOWN | LEFT | RIGHT: "┬", UP | LEFT | RIGHT: "┴",
    UP | DOWN | LEFT | RIGHT: "┼",
}  # fmt: skip

_OPEN = (" ", "░")
"""What a line may be drawn over."""


class Canvas:
    """`width` by `height` cells, row 0 at the top. What falls outside is not drawn."""

    def __init__(self, width: int, height: int) -> None:
        self.width = width
        self.height = height
        self._cells = [[" "] * width for _ in range(height)]
        self._joins = [[0] * width for _ in range(height)]

    def inside(self, column: int, row: int) -> bool:
        """Whether there is such a cell."""
        return 0 <= column < self.width and 0 <= row < self.height

    def at(self, column: int, row: int) -> str:
        """What stands in a cell."""
        return self._cells[row][column]

    def put(self, column: int, row: int, sign: str) -> None:
        """Put one character; lines that meet the cell later do not change it."""
        if self.inside(column, row):
            self._cells[row][column] = sign
            self._joins[row][column] = 0

    def line_down(self, column: int, top: int, bottom: int) -> None:
        """An upright line from row `top` to row `bottom`, joined to lines it meets."""
        if top == bottom:
            self._join(column, top, UP | DOWN)
            return
        for row in range(top, bottom + 1):
            ways = (UP if row > top else 0) | (DOWN if row < bottom else 0)
            self._join(column, row, ways)

    def line_across(self, row: int, left: int, right: int) -> None:
        """A level line from column `left` to column `right`, joined to lines it meets."""
        if left == right:
            self._join(left, row, LEFT | RIGHT)
            return
        for column in range(left, right + 1):
            ways = (LEFT if column > left else 0) | (RIGHT if column < right else 0)
            self._join(column, row, ways)

    def line_straight(self, start: tuple[int, int], end: tuple[int, int]) -> None:
        """A level or upright line; any other is not drawn."""
        (c0, r0), (c1, r1) = sorted((start, end))
        if r0 == r1:
            self.line_across(r0, c0, c1)
        elif c0 == c1:
            self.line_down(c0, r0, r1)

    def line_leaning(self, start: tuple[int, int], end: tuple[int, int]) -> None:
        """A line that is neither level nor upright, joined to nothing; any other is not drawn."""
        (c0, r0), (c1, r1) = sorted((start, end))
        if c0 == c1 or r0 == r1:
            return
        sign = "╱" if r1 < r0 else "╲"
        across, down = c1 - c0, r1 - r0
        if across >= abs(down):
            for column in range(c0, c1 + 1):
                exact = r0 + down * (column - c0) / across
                row = round(exact)
                self.put(column, row, _gentle(exact - row, abs(down) / across, sign))
            return
        last = c0
        for step in [*range(0, down, 1 if down > 0 else -1), down]:
            column = round(c0 + across * step / down)
            upright = column == last and step not in (0, down)
            self.put(column, r0 + step, "│" if upright else sign)
            last = column

    def write(self, column: int, row: int, text: str) -> None:
        """Write text from a cell on to the right."""
        for step, sign in enumerate(text):
            self.put(column + step, row, sign)

    def leaning(self, column: int, row: int) -> bool:
        """Whether a sign stands in the cell that lines do not join."""
        return (
            self.inside(column, row)
            and not self._joins[row][column]
            and self._cells[row][column] not in _OPEN
        )

    def free(self, column: int, row: int, length: int) -> bool:
        """Whether `length` cells from here on are there and blank."""
        return (
            0 <= row < self.height
            and column >= 0
            and column + length <= self.width
            and all(sign == " " for sign in self._cells[row][column : column + length])
        )

    def lines(self) -> list[str]:
        """The rows, without blanks at their ends."""
        return ["".join(row).rstrip() for row in self._cells]

    def _join(self, column: int, row: int, ways: int) -> None:
        if not self.inside(column, row):
            return
        have = self._joins[row][column]
        if have or self._cells[row][column] in _OPEN:
            self._joins[row][column] = have | ways
            self._cells[row][column] = _BOX[have | ways]


TALL = 2.0
"""A terminal cell is about twice as tall as it is wide."""
_SHADE, _SEAM = "░", "│"
_EVEN_ENOUGH = 0.65
"""How much of the scale is given up to draw all strips equally wide."""


@dataclass(frozen=True, slots=True)
class Scale:
    """From inches on the plane to cells: the plane's box is `columns` + 1 by `rows` + 1."""

    box: Bounds
    columns: int
    rows: int
    per_inch: float

    def column(self, x: float) -> float:
        """The column of a place along the eave."""
        return min((x - self.box.left) * self.per_inch, float(self.columns))

    def row(self, y: float) -> float:
        """The row of a height up the slope."""
        return (self.box.high - y) / self.box.height * self.rows

    def cell(self, point: Point) -> tuple[int, int]:
        """The cell of a point."""
        return round(self.column(point[0])), round(self.row(point[1]))


def fitted(box: Bounds, width: int, height: int, strip: float) -> Scale:
    """The scale that fills the room; a little less, where that makes all strips as wide."""
    per_inch = min((width - 1) / box.width, TALL * (height - 1) / box.height)
    cells = int(strip * per_inch + 1e-9)
    if cells >= 1 and cells >= _EVEN_ENOUGH * strip * per_inch:
        per_inch = cells / strip
    columns = min(width - 1, max(1, round(box.width * per_inch)))
    rows = min(height - 1, max(1, round(box.height * per_inch / TALL)))
    return Scale(box, columns, rows, per_inch if columns > 1 else columns / box.width)


def mid(edge: Edge) -> Point:
    """The middle of an edge."""
    return ((edge.start[0] + edge.end[0]) / 2, (edge.start[1] + edge.end[1]) / 2)


def draw_outline(
    canvas: Canvas, scale: Scale, plane: PlanePlan, work: LineWork = LineWork.BLOCKS
) -> None:
    """Draw a plane's openings and its edges; leaning ones with dots, where the work has them."""
    for hole in plane.openings:
        for cell in _cells(canvas, scale, hole):
            canvas.put(*cell, _SHADE)
    if work.fine:
        dots = Dots(canvas.width, canvas.height)
        for edge in plane.edges:
            (c0, r0), (c1, r1) = scale.cell(edge.start), scale.cell(edge.end)
            if c0 != c1 and r0 != r1:
                dots.line(_center(c0, r0), _center(c1, r1))
        for column, row, sign in dots.signs(work):
            canvas.put(column, row, sign)
    else:
        for edge in plane.edges:
            canvas.line_leaning(scale.cell(edge.start), scale.cell(edge.end))
    for edge in plane.edges:
        canvas.line_straight(scale.cell(edge.start), scale.cell(edge.end))


def _center(column: int, row: int) -> Point:
    """The middle of a cell, in dots."""
    return (column * DOTS_ACROSS + (DOTS_ACROSS - 1) / 2,
            row * DOTS_DOWN + (DOTS_DOWN - 1) / 2)


def _cells(canvas: Canvas, scale: Scale, hole: tuple[Point, ...]) -> list[tuple[int, int]]:
    """The cells of an opening; one smaller than a cell still has the cell it lies in, first."""
    box = bounds_of(hole)
    found = [scale.cell(((box.left + box.right) / 2, (box.low + box.high) / 2))]
    for column in range(canvas.width):
        x = scale.box.left + column / scale.per_inch
        for low, high in spans_at(hole, x):
            for row in range(round(scale.row(high)), round(scale.row(low)) + 1):
                found.append((column, row))
    return found


def mark_openings(canvas: Canvas, scale: Scale, plane: PlanePlan) -> None:
    """Shade again what lines have covered of an opening at its two sides, which then seemed to
    begin or end at a seam that it reaches past; and a cell of one that is covered whole."""
    for hole in plane.openings:
        cells = _cells(canvas, scale, hole)
        for row in {row for _, row in cells[1:]}:
            across = [column for column, at in cells[1:] if at == row]
            for column in (min(across), max(across)):
                if canvas.inside(column, row) and canvas.at(column, row) == _SEAM and (
                        0 < column < scale.columns):
                    canvas.put(column, row, _SHADE)
        if not any(canvas.inside(*cell) and canvas.at(*cell) == _SHADE for cell in cells):
            canvas.put(*cells[0], _SHADE)


def _gentle(off: float, slope: float, sign: str) -> str:
    """The sign for a gently leaning edge: low, middle or high in its cell."""
    if slope > 0.7:
        return sign
    return "▁" if off > 0.17 else "▔" if off < -0.17 else "─"
