"""Rows of blanks by lot, held to all ways there are to put each row into a coil."""

from __future__ import annotations

import itertools

from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.cutting.trim_by_lot import (
    BlankRows,
    Shares,
    TrimCoil,
    rows_moved,
    rows_of_coils,
)
from tests.draws import draws

_rows = st.lists(
    st.tuples(st.integers(2, 4), st.integers(1, 2),
              st.frozensets(st.integers(1, 3), min_size=1, max_size=2)),
    min_size=1, max_size=4)
_WEIGHTS = {1: 100.0, 2: 1.0, 3: 1.0}


def weight(rows: list[BlankRows], coils: list[TrimCoil], shares: Shares) -> float:
    """Of the pieces whose rows are of two lots, found anew."""
    return sum(_WEIGHTS[piece] for piece in _WEIGHTS if len({
        coil.lot for coil, share in zip(coils, shares, strict=True)
        for row, many in zip(rows, share, strict=True) if many and piece in row.pieces}) > 1)


def all_ways(rows: list[BlankRows], coils: int) -> list[Shares]:
    """Every way to put each row into one of so many coils."""
    single = [at for at, row in enumerate(rows) for _ in range(row.times)]
    return [tuple(tuple(sum(1 for at, to in zip(single, way, strict=True)
                            if (at, to) == (row, coil)) for row in range(len(rows)))
                  for coil in range(coils))
            for way in itertools.product(range(coils), repeat=len(single))]


def by_length(rows: list[BlankRows], share: tuple[int, ...]) -> dict[float, int]:
    found: dict[float, int] = {}
    for row, many in zip(rows, share, strict=True):
        found[row.length] = found.get(row.length, 0) + many
    return {length: many for length, many in found.items() if many}


@settings(max_examples=draws(150), deadline=None)
@given(_rows, st.lists(st.integers(0, 2), min_size=8, max_size=8), st.integers(0, 4))
def test_no_way_has_less_of_two_lots(
    drawn: list[tuple[int, int, frozenset[int]]], owners: list[int], more: int
) -> None:
    """Three coils of two lots: as many rows of each length as some way gives them, and then with
    room for a little more."""
    rows = [BlankRows(float(length), times, pieces) for length, times, pieces in drawn]
    single = [at for at, row in enumerate(rows) for _ in range(row.times)]
    now: list[dict[float, int]] = [{} for _ in range(3)]
    for at, owner in zip(single, itertools.cycle(owners), strict=False):
        now[owner][rows[at].length] = now[owner].get(rows[at].length, 0) + 1
    coils = [TrimCoil(lot, sum(length * many for length, many in own.items()) + more, own)
             for lot, own in zip((0, 0, 1), now, strict=True)]
    ways = all_ways(rows, 3)
    same = [way for way in ways if [by_length(rows, one) for one in way] == now]
    found = rows_of_coils(rows, coils, _WEIGHTS)
    assert found is not None
    assert [by_length(rows, one) for one in found] == now
    least = min(weight(rows, coils, way) for way in same)
    assert weight(rows, coils, found) == least
    fits = [way for way in ways if all(
        sum(row.length * many for row, many in zip(rows, one, strict=True)) <= coil.room
        for coil, one in zip(coils, way, strict=True))]
    moved = rows_moved(rows, coils, _WEIGHTS, {})
    best = min(weight(rows, coils, way) for way in fits)
    assert (moved is None) == (best == least)
    if moved is not None:
        assert moved in fits
        assert weight(rows, coils, moved) == best


def test_a_lot_makes_no_more_than_it_may() -> None:
    """New coils that would have to be longer for it make no more trim: 40 + 40 in of one lot is
    more than the 40 in that they make."""
    rows = [BlankRows(40.0, 2, frozenset({1}))]
    coils = [TrimCoil(0, 40.0, {40.0: 1}), TrimCoil(1, 500.0, {40.0: 1})]
    assert rows_moved(rows, coils, _WEIGHTS, {1: 40.0}) is None
    assert rows_moved(rows, coils, _WEIGHTS, {}) == ((0,), (2,))


def test_lists_of_other_rows_are_left_alone() -> None:
    rows = [BlankRows(40.0, 2, frozenset({1}))]
    assert rows_of_coils(rows, [TrimCoil(0, 40.0, {40.0: 1})], _WEIGHTS) is None


def test_of_very_many_pieces_each_row_is_made_once() -> None:
    """They are dealt out by length alone, without a look at lots."""
    rows = [BlankRows(40.0, 1, frozenset({number})) for number in range(2000)]
    coils = [TrimCoil(0, 40.0 * 999, {40.0: 999}), TrimCoil(1, 40.0 * 1001, {40.0: 1001})]
    found = rows_of_coils(rows, coils, dict.fromkeys(range(2000), 1.0))
    assert found is not None
    assert [sum(one) for one in found] == [999, 1001]
    assert [sum(many) for many in zip(*found, strict=True)] == [1] * 2000
