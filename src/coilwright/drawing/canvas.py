"""A sheet of character cells to draw on: box lines that join, leaning lines, and text."""

from __future__ import annotations

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
