"""Coils in the sizes that a supplier sells, with what its least order and its steps add to them.

What a quote would ship and what is advised of an order that stands are worked out by the same: of
the ways to cut the panels the one whose coils, so made up, are the least metal.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, TypeVar

from coilwright.calc.quotes import exact, stepped_up
from coilwright.job.quotes import Quote
from coilwright.plan.coils.sold import up_to_sizes

_LOOSE = Fraction(1, 10**6)
"""Slack of a length that is held to a size offered [in]."""
_MOST_COILS = 1000
_Way = TypeVar("_Way")


class CannotShip(Exception):
    """Nothing this supplier offers makes the order; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class Tried(Generic[_Way]):
    """A way to cut the panels. wanted: how long its coils are to be at least [in]; heavy: what is
    paid for of each length [lb/in]."""

    way: _Way
    wanted: Sequence[Fraction]
    heavy: Fraction


def least_in_sizes(
    quote: Quote, tries: Iterable[Tried[_Way]], sizes: Sequence[Fraction], most: Fraction
) -> tuple[_Way, list[Fraction]] | None:
    """The way that takes the least length of coils in the sizes sold, then the fewest of them, and
    the coils; None where none can be had so. most: the longest coil that may come [in].

    Raises CannotShip where only its least order is in the way.
    """
    best: tuple[tuple[Fraction, int], _Way, list[Fraction]] | None = None
    refused: CannotShip | None = None
    for tried in tries:
        found = up_to_sizes(tried.wanted, sizes)
        fit = [size for size in found if size is not None]
        if not fit or len(fit) < len(found):
            continue
        try:
            coils = made_up(quote, fit, tried.heavy, most, sizes)
        except CannotShip as error:
            refused = error
            continue
        rank = sum(coils, Fraction(0)), len(coils)
        if best is None or _is_less(rank, best[0]):
            best = rank, tried.way, coils
    if best is None and refused is not None:
        raise refused
    return None if best is None else (best[1], best[2])


def _is_less(rank: tuple[Fraction, int], than: tuple[Fraction, int]) -> bool:
    """Whether coils are less metal, or as much in fewer of them. Three of 400 kg are as much as two
    of 600 kg, though in pounds they come out a hair lighter."""
    return (rank[1] < than[1] if abs(rank[0] - than[0]) <= _LOOSE
            else rank[0] < than[0])


def made_up(
    quote: Quote, lengths: list[Fraction], heavy: Fraction, most: Fraction,
    sizes: Sequence[Fraction],
) -> list[Fraction]:
    """The coils with what the least order and its steps of weight add to them. Raises CannotShip.
    """
    mass = sum(lengths, Fraction(0)) * heavy
    step = exact(quote.increment or 0.0)
    wanted = stepped_up(max(mass, exact(quote.minimum or 0.0)), step)
    more = (wanted - mass) / heavy
    if more <= 0:
        return lengths
    if more > most * _MOST_COILS:
        raise CannotShip("Its least order would take a thousand coils; it has slipped by a point.")
    taken = [size for size in sizes if size <= most + _LOOSE]
    return [*_in_whole_coils(lengths, more, taken)] if taken else [*_longer(lengths, more, most)]


def _longer(lengths: Sequence[Fraction], more: Fraction, most: Fraction) -> Iterator[Fraction]:
    """Coils made longer, the last first, up to the longest; then more of them."""
    made = list(lengths)
    for at in reversed(range(len(made))):
        add = min(more, max(Fraction(0), most - made[at]))
        made[at], more = made[at] + add, more - add
    yield from made
    while more > _LOOSE:
        yield min(more, most)
        more -= min(more, most)


def _in_whole_coils(
    lengths: Sequence[Fraction], more: Fraction, sizes: Sequence[Fraction]
) -> Iterator[Fraction]:
    """The coils, and whole ones of the sizes offered until as much is there."""
    yield from lengths
    while more > _LOOSE:
        size = next((size for size in sizes if size >= more - _LOOSE), sizes[-1])
        yield size
        more -= size
