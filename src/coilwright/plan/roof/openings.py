"""Openings as they are drawn, and their area; what one that is not wholly measured still needs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from coilwright.calc.roof import shapes, slope
from coilwright.calc.roof.outline import OutlineError, check_openings, clean, overlap
from coilwright.calc.roof.shapes import Point
from coilwright.job.roof import Opening, OpeningMeasured
from coilwright.plan.ledger import Ledger
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Part, part_of
from coilwright.values.source import ANSWER, LAYOUT
from coilwright.values.standing import Standing

_CORNERS = tuple(f"the {corner} corner" for corner in (
    "lower left", "lower right", "upper right", "upper left"))
"""The corners of a box, in the order of `_corners`."""
MOST_HOLES = 100
"""Openings of one plane, each of a row counted, beyond which it is not drawn."""


def any_in_plan(openings: Sequence[Opening]) -> bool:
    """Whether a length of one of them was measured in plan, so that the pitch stretches it."""
    return any(one.measured is not OpeningMeasured.SLOPE for one in openings)


def drawn_openings(
    outline: tuple[Point, ...], openings: Sequence[Opening], factor: float
) -> tuple[tuple[Point, ...], ...]:
    """The corners of each opening, true on the slope, those alike one by one.

    factor: what stretches lengths up the slope. One that lacks a size is left out. Raises
    OutlineError for one that reaches outside its plane, or into another: its area would be taken
    off twice.
    """
    each = [one for opening in openings for one in opening.each()]
    if len(each) > MOST_HOLES:
        raise OutlineError(f"{len(each)} openings in one plane; no more than {MOST_HOLES} are "
                           "drawn.")
    holes = check_openings(outline, [_corners(one, factor) for one in each],
                           [() if one.corners else _CORNERS for one in each])
    for i, one in enumerate(holes, 1):
        for j, other in enumerate(holes[i:], i + 1):
            if overlap(one, other):
                raise OutlineError(
                    f"openings {i} and {j} overlap; measure them as openings that do not."
                )
    return holes


def _corners(one: Opening, factor: float) -> tuple[Point, ...]:
    if one.corners:
        return tuple((x, y * factor) for x, y in one.corners)
    left, up, width, height = one.left or 0.0, one.up or 0.0, one.width or 0.0, one.height or 0.0
    low, high = up * factor, (up + height) * factor
    return ((left, low), (left + width, low), (left + width, high), (left, high))


def unfinished(openings: Sequence[Opening], name: str, where: str) -> Iterator[Finding]:
    """A stop for each opening that lacks a size. where: what the keys of the openings begin with.

    name: of the plane they lie on.
    """
    for place, opening in enumerate(openings):
        if opening.missing:
            yield stop_opening(
                f"{where}.{place}", f"Opening {place + 1} on {opening.on or name} still needs: "
                f"{', '.join(opening.missing)}.",
                "Measure it, or take the opening out of the list.")


def stop_opening(where: str, what: str, do: str) -> Finding:
    """A stop for an opening that is not drawn."""
    return Finding(
        Level.STOP, f"{where}.opening", what,
        "An opening that is not drawn is not taken out of the roof's area, and no panel stops "
        "at it.",
        do, LAYOUT, "roof", (where,),
    )


def enter_openings(
    ledger: Ledger,
    prefix: str,
    name: str,
    openings: Sequence[Opening],
    stretch: Figure | None,
    stands: Callable[[int], Standing],
    *,
    every: bool,
) -> Figure:
    """Enter `….openings`, the area of all openings together.

    stretch: what stretches lengths in plan; every: those of all openings are in plan. stands: how
    far the measures of an opening can be trusted, by its place in the list.
    """
    each = [(one, stands(place)) for place, opening in enumerate(openings)
            for one in opening.each()]
    holes = [
        _one(ledger, prefix, name, number, one,
             stretch if every or any_in_plan([one]) else None, standing)
        for number, (one, standing) in enumerate(each, 1)
    ]
    return ledger.put(f"{prefix}.openings", f"{name}: openings", shapes.summed_area, *holes)


def _one(
    ledger: Ledger,
    prefix: str,
    name: str,
    number: int,
    opening: Opening,
    stretch: Figure | None,
    standing: Standing,
) -> Figure:
    key, label = f"{prefix}.opening{number}", f"{name}: opening {number}"
    if opening.corners:
        return ledger.put(key, label, shapes.corners_area,
                          *_corners_of(ledger, key, label, opening, stretch, standing))

    def given(part: Part, size: float | None) -> Figure:
        return ledger.add(Figure(part_of(key, part), f"{label}, {part}", size or 0.0, Kind.LENGTH,
                                 ANSWER, standing))

    width, height = given("width", opening.width), given("height", opening.height)
    if stretch is not None:
        height = ledger.put(part_of(key, "true_height"), f"{label}, true height",
                            slope.up_the_slope, height, stretch)
    return ledger.put(key, label, shapes.rectangle_area, width, height)


def _corners_of(
    ledger: Ledger, key: str, label: str, opening: Opening, stretch: Figure | None,
    standing: Standing,
) -> list[Figure]:
    """x1, y1, x2, y2, … of an opening, those up the slope brought to their true length."""
    figures: list[Figure] = []
    for number, (x, y) in enumerate(clean(opening.corners), 1):
        along = Figure(f"{key}.x{number}", f"{label}, x{number}", x, Kind.LENGTH, ANSWER, standing)
        level = Figure(f"{key}.{'y' if stretch is None else 'plan_y'}{number}",
                       f"{label}, y{number}", y, Kind.LENGTH, ANSWER, standing)
        figures += [along, level if stretch is None else ledger.put(
            f"{key}.y{number}", f"{label}, true y{number}", slope.up_the_slope, level, stretch)]
    return figures
