"""Sharing panels out to coils."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.split import Batch, PanelTooLong, split
from tests.calc.coils_checked import assert_shared_out
from tests.draws import draws
from tests.work import within

BATCHES = st.lists(
    st.builds(
        Batch, plane=st.integers(0, 3),
        length=st.one_of(st.integers(4, 400).map(lambda n: n / 4), st.floats(1, 100)),
        count=st.integers(1, 30),
    ),
    min_size=1, max_size=8,
)  # fmt: skip


@given(BATCHES, st.floats(100, 1000))
@settings(max_examples=draws(150))
def test_every_panel_in_one_coil_and_none_over(batches: list[Batch], usable: float) -> None:
    result = split(tuple(batches), usable)
    assert_shared_out(tuple(batches), usable, result)
    # no worse than first fit, longest first, is known to be (Dósa: 11/9 of the optimum and 6/9)
    shortest = math.fsum(b.length * b.count for b in batches) / usable
    assert len(result.coils) <= 2 * math.ceil(shortest) + 1


def best_by_trying(pieces: tuple[int, ...], room: int) -> int:
    """The fewest coils, by trying every way: only for a few pieces."""
    pieces = tuple(sorted(pieces, reverse=True))
    best = len(pieces)

    def place(i: int, coils: list[int]) -> None:
        nonlocal best
        if len(coils) >= best:
            return
        if i == len(pieces):
            best = len(coils)
            return
        tried = set()
        for c, filled in enumerate(coils):
            if filled + pieces[i] <= room and filled not in tried:
                tried.add(filled)
                coils[c] += pieces[i]
                place(i + 1, coils)
                coils[c] -= pieces[i]
        coils.append(pieces[i])
        place(i + 1, coils)
        coils.pop()

    place(0, [])
    return best


@given(st.lists(st.integers(10, 100), min_size=1, max_size=9))
@settings(max_examples=draws(100))
def test_against_every_way_of_sharing_out(pieces: list[int]) -> None:
    batches = tuple(Batch(0, float(p), 1) for p in pieces)
    result = split(batches, 100.0)
    best = best_by_trying(tuple(pieces), 100)
    assert result.fewest <= best <= len(result.coils)
    # quick and seldom off: at most one coil over the best for so few pieces
    assert len(result.coils) <= best + 1


@pytest.mark.parametrize("panels", [1, 7, 64, 333])
def test_equal_panels_are_shared_evenly(panels: int) -> None:
    result = split((Batch(0, 217.0, panels),), 18_029.0)
    counts = [sum(b.count for b in coil) for coil in result.coils]
    assert sum(counts) == panels
    assert max(counts) - min(counts) <= 1
    assert len(counts) == math.ceil(panels / (18_029 // 217))


def test_planes_stay_together() -> None:
    batches = (Batch(0, 100.0, 5), Batch(1, 100.0, 5))
    result = split(batches, 500.0)
    assert [{b.plane for b in coil} for coil in result.coils] == [{0}, {1}]


def test_nothing_to_share_out() -> None:
    assert split((), 100.0).coils == ()
    assert split((), 100.0).fewest == 0


def test_one_panel_too_long() -> None:
    with pytest.raises(PanelTooLong):
        split((Batch(0, 100.1, 1),), 100.0)
    # the last digits of a float do not count
    assert len(split((Batch(0, 100.00000001, 1),), 100.0).coils) == 1


@pytest.mark.slow
def test_it_stays_quick_far_from_the_bound() -> None:
    """Panels just over half a coil: the bound is half of what is needed."""
    batches = (Batch(0, 51.0, 1500), Batch(1, 52.0, 400))
    result = within(5_000_000, lambda: split(batches, 100.0))
    assert len(result.coils) == 1900
    assert result.fewest == 973
