"""Coils of nearly one length made alike, where that takes next to no metal.

Two sizes a hand apart are one size to whoever slits, marks and loads them.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from coilwright.units import Kind
from coilwright.values.formula import formula, greatest
from coilwright.values.source import Grade, Source

ALIKE = Source("coils at most 2 % apart are ordered alike, for at most 0.5 % more in all",
               Grade.PRACTICE)
NEAR = Fraction(1, 50)
"""Share of its length by which a coil may be shorter than one it is ordered alike with, as near as
a split is called even (common practice, no source)."""
MOST_MORE = Fraction(1, 200)
"""Share of all of it that ordering alike may take at most (common practice, no source)."""


def alike(lengths: Sequence[Fraction]) -> list[int]:
    """For each coil the place of the one it is ordered as long as, often itself.

    From the longest down each joins the longest before it while that is at most `NEAR` away and
    all together take no more than `MOST_MORE`. None is longer than the longest was, so what
    carries that one carries all.

    >>> alike([Fraction(11_009), Fraction(11_029), Fraction(8_000)])
    [1, 1, 2]
    """
    left = MOST_MORE * sum(lengths, Fraction(0))
    places, longest = list(range(len(lengths))), -1
    for at in sorted(range(len(lengths)), key=lambda at: -lengths[at]):
        most = lengths[longest] if longest >= 0 else Fraction(-1)
        more = most - lengths[at]
        if 0 <= more <= min(left, NEAR * most):
            places[at], left = longest, left - more
        else:
            longest = at
    return places


@formula(Kind.LENGTH, ALIKE, "L n")
def as_long_as(length: float, near: float) -> float:
    """A coil as long as one that is near it: max(L, n) [in].

    length: that is wanted; near: that is wanted of the other.

    Terms: length [in], near [in].

    >>> as_long_as(length=11009, near=11029)
    11029
    """
    return greatest(length, near)
