"""A coil end-on in characters, inside the largest circle the rack or decoiler takes; its sizes."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.plan.result import Plan
from coilwright.values.figure import Figure
from coilwright.values.keys import row_key

_LEAST_CIRCLE = 8
"""Cells across under which a circle is no circle."""
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


@dataclass(frozen=True, slots=True)
class CoilSizes:
    """Diameters as figures; None where one is not known yet."""

    name: str
    inside: Figure | None
    outside: Figure | None
    largest: Figure | None
    """The largest outside diameter the coil may come at, by the supplier's tolerance."""
    room: Figure | None
    """The largest coil the rack or the decoiler takes."""
    place: str

    @property
    def widest(self) -> float:
        """The largest of the diameters to draw [in]; 0 while none is known."""
        return max((f.value for f in (self.inside, self.outside, self.room) if f), default=0.0)


def coil_sizes(plan: Plan) -> CoilSizes:
    """The sizes of the order's largest coil."""
    coil = max(plan.coils, key=lambda c: c.outside_diameter.value, default=None)
    on = plan.job.coils.coil_on
    rack = on is None or on.is_rack
    figures = plan.figures
    return CoilSizes(
        name="" if coil is None else f"Coil {coil.number}" if len(plan.coils) > 1 else "Coil",
        inside=figures.get(CoilsKey.INSIDE_DIAMETER),
        outside=None if coil is None else coil.outside_diameter,
        largest=None if coil is None else figures.get(row_key("coil", coil.number, "largest")),
        room=figures.get(MachineKey.RACK_DIAMETER if rack else MachineKey.DECOILER_DIAMETER),
        place="Rack" if rack else "Decoiler",
    )


def coil_words(plan: Plan, sizes: CoilSizes, width: int) -> list[str]:
    """The sizes in words, one to a line of at most `width` characters.

    Names are shortened where it is narrow; a number that does not fit whole is left out. What was
    given is said as it was given: rounded, a limit could be larger than it is.
    """
    system = plan.job.units
    rows = [
        (long, short, f"{figure.mark:1} {figure.text(system)}")
        for long, short, figure in (
            (f"{sizes.place} takes", sizes.place.lower(), sizes.room),
            (f"{sizes.name} OD", "OD", sizes.outside),
            ("largest it may come", "OD max", sizes.largest),
            ("inside", "ID", sizes.inside),
        )
        if figure is not None
    ]
    for names in ([row[0] for row in rows], [row[1] for row in rows]):
        wide = max(map(len, names), default=0)
        lines = [f"{name:<{wide}}  {row[2]}" for name, row in zip(names, rows, strict=True)]
        if all(len(line) <= width for line in lines):
            return lines
    return [line for line in lines if len(line) <= width]


def coil_lines(plan: Plan, width: int, height: int) -> list[str]:
    """The order's largest coil as at most `height` lines of at most `width` characters.

    Full: the coil, hollow at the inside diameter. Shaded: room left up to the largest circle
    that fits. Sizes are written beside it, or below where it is narrow.
    """
    if width <= 0 or height <= 0:
        return []
    sizes = coil_sizes(plan)
    if sizes.widest <= 0:
        return ["No coil to draw yet."[:width]]
    words = coil_words(plan, sizes, width)
    wide = max(map(len, words), default=0)
    beside = min(width - wide - 2, height * 2) // 2 * 2
    below = min(width, (height - len(words)) * 2) // 2 * 2
    if beside >= max(_LEAST_CIRCLE, below) and len(words) <= height:
        return _beside(_ring(sizes, beside), beside, words)
    if below >= _LEAST_CIRCLE:
        return [*_ring(sizes, below), *words]
    return words[:height]


def _beside(picture: list[str], across: int, words: list[str]) -> list[str]:
    """The picture with the words at its right, half way down."""
    rows = max(len(picture), len(words))
    above = (rows - len(words)) // 2
    texts = [*[""] * above, *words, *[""] * (rows - above - len(words))]
    picture = [*picture, *[""] * (rows - len(picture))]
    return [f"{p:<{across}}  {t}".rstrip() for p, t in zip(picture, texts, strict=True)]


def _ring(sizes: CoilSizes, across: int) -> list[str]:
    """The circles in `across` columns and half as many rows, two square dots to a cell."""
    per_dot = sizes.widest / across
    inside, outside, room = (
        figure.value if figure else 0.0 for figure in (sizes.inside, sizes.outside, sizes.room)
    )

    def distance(column: int, dot: int) -> float:
        x, y = (column + 0.5 - across / 2) * per_dot, (dot + 0.5 - across / 2) * per_dot
        return 2 * float((x * x + y * y) ** 0.5)

    lines = []
    for row in range(across // 2):
        line = ""
        for column in range(across):
            upper, lower = distance(column, 2 * row), distance(column, 2 * row + 1)
            middle = (upper + lower) / 2
            if inside < min(upper, lower) and outside < min(upper, lower) and middle <= room:
                line += "░"
            else:
                line += _HALVES[inside < upper <= outside, inside < lower <= outside]
        lines.append(line.rstrip())
    return lines
