"""Loads made up for tests of what shows them."""

from __future__ import annotations

from coilwright.plan.result import LoadLine
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.source import Grade, Source
from coilwright.values.standing import Standing

_SOURCE = Source("made up for a test", Grade.PRACTICE)


def mass(key: str, value: float, *, guess: bool = False) -> Figure:
    """A weight [lb] by itself."""
    standing = Standing.GUESS if guess else Standing.SURE
    return Figure(key, key, value, Kind.MASS, _SOURCE, standing)


def load(
    name: str, weight: float | None, rating: float | None, *, place: str = "trailer",
    guess: bool = False, needs: tuple[str, ...] = (),
) -> LoadLine:
    """A load of a weight held to a rating [lb]; None for not known."""
    key = f"haul.{name.lower().replace(' ', '_')}"
    made = None if weight is None else mass(key, weight, guess=guess)
    rated = None if rating is None else mass(f"{key}.rating", rating)
    margin = None
    if weight is not None and rating is not None:
        margin = mass(f"{key}.margin", rating - weight, guess=guess)
    return LoadLine(key, name, place, made, rated, margin, needs, needs)


INSIDE = load("Trailer loaded", 9_000, 10_000)
OVER = load("Tongue or pin weight", 1_600, 1_500, place="hitch", guess=True)
NOT_READ = load("Axles", 8_000, None, needs=("haul.axle_rating", "haul.axles"))
NOT_WEIGHED = load("Vehicle loaded", None, 9_000, place="tow", needs=("haul.tow_weight",))
ALL = (INSIDE, OVER, NOT_READ, NOT_WEIGHED)


def ties(needed: int, there: int | None) -> LoadLine:
    """Tie-downs needed, and how many there are."""
    def count(key: str, value: int) -> Figure:
        return Figure(key, key, float(value), Kind.COUNT, _SOURCE, Standing.SURE)

    return LoadLine(
        "haul.tie_count", "Tie-downs", "cargo", count("haul.ties_needed", needed),
        None if there is None else count("haul.ties_there", there),
        None if there is None else count("haul.tie_count.margin", there - needed),
        () if there is not None else ("haul.ties_over",), (),
    )
