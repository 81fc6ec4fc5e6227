"""Drills of a minute: read a tag, a data plate, a tape, a quote. Invented, by number."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from coilwright.units import Kind, show
from coilwright.values.digest import digest

Item = TypeVar("Item")

_SIXTEENTHS = 16
_CELLS = 2
"""Characters of a sixteenth of an inch on the drawn tape."""


@dataclass(frozen=True, slots=True)
class Drill:
    """One thing to read: what is shown, what is asked, and the right answer.

    kind: what the answer is; value: in its canonical unit. slack: how far off it may be. says: how
    it is read, once it is answered.
    """

    title: str
    shown: tuple[str, ...]
    ask: str
    kind: Kind
    value: float
    slack: float
    says: str

    @property
    def answer(self) -> str:
        """The right answer, as the trade writes it."""
        return show(self.value, self.kind)

    def is_right(self, value: float) -> bool:
        """Whether a number [canonical unit of `kind`] is close enough."""
        return abs(value - self.value) <= self.slack + 1e-9


class _Draw:
    """Picks that follow from a number: the same number, the same picks."""

    def __init__(self, seed: int) -> None:
        self._seed = seed
        self._count = 0

    def number(self, below: int) -> int:
        """A whole number from 0, below a limit."""
        self._count += 1
        return int(digest(f"{self._seed}/{self._count}")[:16], 16) % below

    def one(self, items: Sequence[Item]) -> Item:
        """One of the items."""
        return items[self.number(len(items))]


def read_tag(seed: int) -> Drill:
    """A coil's tag: one of its numbers."""
    draw = _Draw(seed)
    width, thick = draw.one((19.0, 20.625, 21.0, 23.0)), draw.one((0.0179, 0.0236, 0.0296, 0.032))
    gross = 1_000 + 10 * draw.number(200)
    skid = 40 + 10 * draw.number(6)
    lot = 100 + draw.number(900)
    shown = (
        f"COIL  T-{draw.number(900) + 100}      LOT  {lot} (invented)",
        f"WIDTH  {show(width, Kind.WIDTH)}    THICKNESS  {show(thick, Kind.THICKNESS)} MIN",
        f"GROSS  {show(gross, Kind.MASS)}    TARE  {show(skid, Kind.MASS)}",
        "COLOR  slate gray (invented sample 3)",
    )
    ask, kind, value, says = draw.one((
        ("How wide is the strip?", Kind.WIDTH, width, "The width is the strip's, not what shows."),
        ("How thick is it, at least?", Kind.THICKNESS, thick, "MIN: no thinner than that."),
        ("What does the metal weigh?", Kind.MASS, float(gross - skid),
         "Gross less tare: the skid and the packing are not metal."),
    ))
    return Drill("A tag", shown, ask, kind, value, 1e-4 if kind is Kind.THICKNESS else 0.01, says)


def read_plate(seed: int) -> Drill:
    """A data plate: the rating that is asked for, among others that look like it."""
    draw = _Draw(seed)
    arbor = 1_500 + 100 * draw.number(20)
    rack = arbor * 2 - 100 * draw.number(8)
    largest, inside = 26 + draw.number(12), draw.one((16, 20))
    gvwr, axle = 9_000 + 500 * draw.number(8), 5_000 + 200 * draw.number(6)
    shown = (
        "PANEL MACHINE (invented)        GVWR  " + show(gvwr, Kind.MASS),
        f"GAWR EACH AXLE  {show(axle, Kind.MASS)}",
        f"MAX LOAD PER ARBOR  {show(arbor, Kind.MASS)}",
        f"MAX LOAD RACK, BOTH ARBORS  {show(rack, Kind.MASS)}",
        f"MAX COIL OD  {largest} in    COIL ID  {inside} in",
    )
    ask, kind, value, says = draw.one((
        ("What may one coil weigh, with both arbors loaded alike?", Kind.MASS,
         float(min(arbor, rack / 2)), "The smaller of one arbor's load and half of the rack's."),
        ("Which outside diameter may a coil have at most?", Kind.WIDTH, float(largest),
         "OD is the outside diameter."),
        ("What may the loaded trailer weigh?", Kind.MASS, float(gvwr),
         "GVWR: trailer, machine, coils and tools together."),
        ("What may rest on one axle?", Kind.MASS, float(axle), "GAWR is of one axle."),
    ))
    return Drill("A data plate", shown, ask, kind, value, 0.51, says)


def read_tape(seed: int) -> Drill:
    """A tape, drawn: where the arrow points, to a sixteenth."""
    draw = _Draw(seed)
    whole, parts = 12 + draw.number(12), 1 + draw.number(_SIXTEENTHS - 1)
    value = Fraction(whole) + Fraction(parts, _SIXTEENTHS)
    marks = "".join(
        ("┃" if n % 16 == 0 else "│" if n % 8 == 0 else "╵" if n % 4 == 0 else "'" if n % 2 == 0
         else ".").ljust(_CELLS) for n in range(_SIXTEENTHS + 1)
    )
    ends = f"{whole:<{_SIXTEENTHS * _CELLS}}{whole + 1}"
    arrow = " " * (parts * _CELLS) + "▲"
    return Drill("A tape", (ends, marks, arrow), "Where does the arrow point?", Kind.WIDTH,
                 float(value), 0.001,
                 "Half, quarters, eighths, sixteenths: each line shorter than the one before.")


def read_quote(seed: int) -> Drill:
    """A quote: what a pound lands at, with its freight."""
    draw = _Draw(seed)
    pounds, cents = 1_000 + 100 * draw.number(30), 110 + draw.number(80)
    freight = 100 + 20 * draw.number(15)
    per_pound = cents / 100 + freight / pounds
    shown = (
        f"QUOTE (invented)   {pounds:,} lb coil, slit",
        f"PRICE  ${cents / 100:.2f}/lb",
        f"FREIGHT  ${freight}    LEAD TIME  {2 + draw.number(4)} weeks",
    )
    return Drill("A quote", shown, "What does a pound land at, freight in it?",
                 Kind.MONEY_PER_MASS, per_pound, 0.006,
                 "Price and freight by the pounds; to the cent is close enough.")


DRILLS: dict[str, Callable[[int], Drill]] = {
    "tag": read_tag, "plate": read_plate, "tape": read_tape, "quote": read_quote,
}
"""The drills by key."""
