"""Nesting held against HiGHS given every pattern, classic kinds of instance, and its promises."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.cutting.nesting import PieceTooWide, nest
from tests.calc.cutting import instances, references
from tests.calc.cutting.checking import hold_to_the_sheets
from tests.draws import draws


@pytest.mark.parametrize("seed", range(25))
def test_fewest_sheets_as_an_integer_program_finds(seed: int) -> None:
    chance = Random(seed)
    stock = chance.choice([20, 48, 100])
    widths = chance.sample(range(max(2, stock // 8), stock * 3 // 4), chance.randint(2, 6))
    counts = [chance.randint(1, 30) for _ in widths]
    pieces = [(float(w), n) for w, n in zip(widths, counts, strict=True)]
    nesting = nest(pieces, float(stock), seconds=2.0)
    hold_to_the_sheets(nesting, pieces, stock)
    assert nesting.sheets == references.sheets_milp(widths, counts, stock)
    assert nesting.proven


@pytest.mark.parametrize("seed", range(6))
def test_trim_of_twelve_flat_widths_is_proven(seed: int) -> None:
    pieces = instances.trim(seed)
    nesting = nest(pieces, 48.0)
    hold_to_the_sheets(nesting, pieces, 48.0)
    assert nesting.proven


@pytest.mark.parametrize("seed", range(3))
def test_uniform_sets_are_proven(seed: int) -> None:
    pieces, stock = instances.uniform(seed, 120)
    nesting = nest(pieces, stock, seconds=4.0)
    hold_to_the_sheets(nesting, pieces, stock)
    assert nesting.proven


@pytest.mark.parametrize(("seed", "number"), [(0, 20), (1, 20), (2, 20), (0, 40), (1, 40)])
def test_triplets_are_packed_without_waste(seed: int, number: int) -> None:
    pieces, stock = instances.triplets(seed, number)
    nesting = nest(pieces, stock, seconds=4.0)
    hold_to_the_sheets(nesting, pieces, stock)
    assert nesting.sheets == number
    assert nesting.drop == 0


@pytest.mark.parametrize("seed", range(4))
def test_widths_repeated_hundreds_of_times_are_proven(seed: int) -> None:
    pieces, stock = instances.repeated(seed)
    nesting = nest(pieces, stock)
    hold_to_the_sheets(nesting, pieces, stock)
    assert nesting.proven


@settings(max_examples=draws(60), deadline=None)
@given(
    st.lists(st.tuples(st.floats(1, 48), st.integers(0, 20)), max_size=7),
    st.sampled_from([0.0, 0.0625, 0.1]),
)
def test_any_widths_are_nested_with_a_true_bound(
    pieces: list[tuple[float, int]], kerf: float
) -> None:
    nesting = nest(pieces, 48.0, kerf, seconds=0.05)
    hold_to_the_sheets(nesting, pieces, 48.0, kerf)
    assert nesting.bound >= sum(w * n for w, n in pieces) / 48.0 - 1e-6


def test_a_cut_between_pieces_costs_width_but_not_at_the_edge() -> None:
    assert nest([(12.0, 4)], 48.0).sheets == 1
    assert nest([(12.0, 4)], 48.0, 0.125).sheets == 2
    assert nest([(11.9, 4)], 48.0, 0.125).sheets == 1
    assert nest([(48.0, 2)], 48.0, 0.125).sheets == 2


def test_equal_widths_asked_for_twice_are_both_served() -> None:
    pieces = [(10.0, 3), (14.0, 2), (10.0, 5)]
    nesting = nest(pieces, 48.0)
    hold_to_the_sheets(nesting, pieces, 48.0)
    assert nesting.sheets == 3


def test_a_piece_wider_than_the_sheet_is_refused() -> None:
    with pytest.raises(PieceTooWide, match="Piece 2 is 50 in wide, and the sheet is only 48 in"):
        nest([(10.0, 1), (50.0, 1)], 48.0)


@pytest.mark.parametrize(
    ("pieces", "stock", "kerf", "words"),
    [
        ([(0.0, 1)], 48.0, 0.0, "Piece 1: the width must be above 0"),
        ([(5.0, -2)], 48.0, 0.0, "Piece 1: the count cannot be -2"),
        ([(5.0, 2)], 0.0, 0.0, "The sheet's width must be above 0"),
        ([(5.0, 2)], 48.0, -0.1, "The cut's width: -0.1 makes no sense"),
    ],
)
def test_senseless_sizes_are_refused_in_a_sentence(
    pieces: list[tuple[float, int]], stock: float, kerf: float, words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        nest(pieces, stock, kerf)


@pytest.mark.parametrize("looks", [0, 20])
def test_the_clock_ends_the_search(looks: int) -> None:
    chance = Random(5)
    pieces = [(chance.randint(200, 900) / 10, 1) for _ in range(300)]
    asked = 0

    def clock() -> float:
        nonlocal asked
        asked += 1
        return 3600.0 * max(0, asked - looks - 1)

    nesting = nest(pieces, 100.0, seconds=60.0, clock=clock)
    assert nesting.cut_short
    assert asked <= looks + 4
    hold_to_the_sheets(nesting, pieces, 100.0)
    assert nesting.bound > 0


def test_a_caller_can_stop_the_search() -> None:
    pieces, stock = instances.triplets(0, 83)
    nesting = nest(pieces, stock, seconds=60.0, canceled=lambda: True)
    hold_to_the_sheets(nesting, pieces, stock)
    assert nesting.cut_short


def test_progress_is_told_and_the_answer_repeats() -> None:
    pieces, stock = instances.uniform(0, 120)
    heard: list[tuple[int, int]] = []
    first = nest(pieces, stock, seconds=20.0, progress=lambda *now: heard.append(now))
    assert heard[-1][0] >= first.sheets >= heard[-1][1]
    assert nest(pieces, stock, seconds=20.0) == first
