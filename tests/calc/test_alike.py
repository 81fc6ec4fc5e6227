"""Coils of nearly one length made alike: held to what it may take, coil by coil."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.alike import alike

LENGTHS = st.lists(
    st.one_of(st.integers(900, 1_000), st.integers(100, 20_000)).map(Fraction), max_size=8)


@given(LENGTHS)
def test_none_is_shorter_and_all_of_it_is_next_to_nothing(lengths: list[Fraction]) -> None:
    places = alike(lengths)
    made = [lengths[place] for place in places]
    more = [new - old for new, old in zip(made, lengths, strict=True)]
    assert all(0 <= one <= old / 49 for one, old in zip(more, made, strict=True))
    assert all(one * 50 <= new for one, new in zip(more, made, strict=True))
    assert sum(more) * 200 <= sum(lengths)
    assert all(places[place] == place for place in places), "a coil that others are as long as"
    assert max(made, default=0) == max(lengths, default=0), "what carries the longest carries all"


@given(LENGTHS)
def test_sizes_that_stay_apart_are_too_far_apart_or_take_too_much(lengths: list[Fraction]) -> None:
    made = [lengths[place] for place in alike(lengths)]
    left = sum(lengths) / 200 - sum(made) + sum(lengths)
    sizes = sorted(set(made))
    for short, long in pairwise(sizes):
        assert (long - short) * 50 > long or long - short > left


@given(st.integers(500, 30_000), st.integers(500, 30_000))
def test_two_coils_by_hand(one: int, other: int) -> None:
    """Two are alike where what the shorter wants less is at most 0.5 % of both: some 1 % of it."""
    long, short = max(one, other), min(one, other)
    is_near = (long - short) * 50 <= long and (long - short) * 200 <= long + short
    made = alike([Fraction(one), Fraction(other)])
    assert (made[0] == made[1]) is is_near


def test_three_coils_by_hand() -> None:
    """944 ft twice and 931 ft: 13 ft are 1.4 % of one coil and 0.46 % of all three. Of two such
    coils they are 0.69 %, and each is ordered as it is wanted."""
    long, short = Fraction(944), Fraction(931)
    assert alike([long, short, long]) == [0, 0, 0]
    assert alike([long, short]) == [0, 1]
