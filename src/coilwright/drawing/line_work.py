"""What lines are made of on the screen: fine dots where the font has them, else blocks or ASCII.

A cell of the terminal is about twice as tall as it is wide, so eight dots in it, two across and
four down, are square. Braille signs (Unicode 1.1) show them as points, octants (Unicode 16) as
solid eighths of the cell.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import assert_never

DOTS_ACROSS, DOTS_DOWN = 2, 4
"""Dots of a cell."""

_BRAILLE = 0x2800
_BRAILLE_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The bit of each dot, by row and column: the order of the block Braille Patterns."""

_OCTANTS = 0x1CD00
_NOT_OCTANTS = {
    0x00: " ", 0x01: "\U0001cea8", 0x02: "\U0001ceab", 0x03: "\U0001fb82", 0x05: "▘", 0x0A: "▝",
    0x0F: "▀", 0x14: "\U0001fbe6", 0x28: "\U0001fbe7", 0x3F: "\U0001fb85", 0x40: "\U0001cea3",
    0x50: "▖", 0x55: "▌", 0x5A: "▞", 0x5F: "▛", 0x80: "\U0001cea0", 0xA0: "▗", 0xA5: "▚",
    0xAA: "▐", 0xAF: "▜", 0xC0: "▂", 0xF0: "▄", 0xF5: "▙", 0xFA: "▟", 0xFC: "▆", 0xFF: "█",
}  # fmt: skip
"""Patterns that stand elsewhere in Unicode; the others follow one another from U+1CD00 on."""

_ASCII = str.maketrans({
    **dict.fromkeys("│┃▏▎▍▐▌", "|"), **dict.fromkeys("─━╌", "-"), **dict.fromkeys("┌┐└┘├┤┬┴┼", "+"),
    "╱": "/", "╲": "\\", "▁": "_", "▔": "'", "░": ":", "▒": "%", "█": "#", "·": ".", "▸": ">",
    "×": "x", "–": "-", "…": "~", "→": ">", "▉": "#", "▊": "#", "▋": "#",
})


class LineWork(StrEnum):
    """What lines are drawn with; the value is what the user picks."""

    BRAILLE = "braille dots"
    OCTANTS = "octants"
    BLOCKS = "lines and blocks"
    ASCII = "plain ASCII"

    @property
    def fine(self) -> bool:
        """Whether a cell holds eight dots."""
        match self:
            case LineWork.BRAILLE | LineWork.OCTANTS:
                return True
            case LineWork.BLOCKS | LineWork.ASCII:
                return False
            case _:
                assert_never(self)

    def plain(self, text: str) -> str:
        """A line of a drawing made of box lines and blocks, in what this work may use."""
        return text.translate(_ASCII) if self is LineWork.ASCII else text


def _octants() -> tuple[str, ...]:
    signs, at = [], _OCTANTS
    for pattern in range(256):
        if pattern in _NOT_OCTANTS:
            signs.append(_NOT_OCTANTS[pattern])
        else:
            signs.append(chr(at))
            at += 1
    return tuple(signs)


class Dots:
    """`width` by `height` cells of eight dots, 0, 0 at the top left. Outside nothing is drawn."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self._bits = [[0] * width for _ in range(height)]
        self._texts: list[list[str]] = [[""] * width for _ in range(height)]

    def dot(self, x: int, y: int) -> None:
        """Set a dot."""
        if 0 <= x < self.width * DOTS_ACROSS and 0 <= y < self.height * DOTS_DOWN:
            bit = y % DOTS_DOWN * DOTS_ACROSS + x % DOTS_ACROSS
            self._bits[y // DOTS_DOWN][x // DOTS_ACROSS] |= 1 << bit

    def line(self, start: tuple[float, float], end: tuple[float, float], on: int = 1,
             off: int = 0) -> None:
        """A straight line of dots: `on` of them, then `off` left out, and so on."""
        (x0, y0), (x1, y1) = start, end
        steps = max(abs(round(x1) - round(x0)), abs(round(y1) - round(y0)))
        for step in range(steps + 1):
            if step % (on + off) < on:
                share = step / steps if steps else 0.0
                self.dot(round(x0 + (x1 - x0) * share), round(y0 + (y1 - y0) * share))

    def write(self, column: int, row: int, text: str) -> None:
        """Write over the dots."""
        for at, sign in enumerate(text, column):
            if 0 <= row < self.height and 0 <= at < self.width:
                self._texts[row][at] = sign

    def signs(self, work: LineWork) -> list[tuple[int, int, str]]:
        """The cells with dots in them: column, row, sign."""
        sign = _sign(work)
        return [(column, row, sign(bits)) for row, cells in enumerate(self._bits)
                for column, bits in enumerate(cells) if bits]

    def lines(self, work: LineWork) -> list[str]:
        """The rows, without blanks at their ends."""
        sign = _sign(work)
        return [
            "".join(text or sign(bits) for text, bits in zip(texts, row, strict=True)).rstrip()
            for texts, row in zip(self._texts, self._bits, strict=True)
        ]


_OCTANT_SIGNS = _octants()


def _sign(work: LineWork) -> Callable[[int], str]:
    return _braille if work is LineWork.BRAILLE else _OCTANT_SIGNS.__getitem__


def _braille(pattern: int) -> str:
    if not pattern:
        return " "
    bits = (bit for row in _BRAILLE_BITS for bit in row)  # in the order of the pattern's own bits
    return chr(_BRAILLE + sum(bit for at, bit in enumerate(bits) if pattern >> at & 1))
