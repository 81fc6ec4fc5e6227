"""Rows of blanks as long as their longest: against every way to lay them, and the bound."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.cutting.nesting import PieceTooWide
from coilwright.calc.cutting.rows import Blank, Rows, pack_rows
from tests.draws import draws

ONE = tuple[int, float]
"""Flat width and length of one blank."""


def ways(blanks: Sequence[ONE], width: float) -> Iterator[list[list[ONE]]]:
    """Every way to lay the blanks in rows."""
    if not blanks:
        yield []
        return
    first, *rest = blanks
    for way in ways(rest, width):
        yield [[first], *way]
        for i, row in enumerate(way):
            if sum(flat_width for flat_width, _ in row) + first[0] <= width:
                yield [*way[:i], [first, *row], *way[i + 1:]]


def least(blanks: Sequence[ONE], width: float) -> float:
    return min(sum(max(length for _, length in row) for row in way)
               for way in ways(blanks, width))


def hold(found: Rows, blanks: Sequence[Blank], width: float) -> None:
    """Every blank once, no row too wide, each as long as its longest."""
    cut = [0] * len(blanks)
    for row in found.rows:
        wide = math.fsum(blanks[i].flat_width * n for i, n in row.cuts)
        assert wide <= width + 1e-6
        assert row.drop == pytest.approx(width - wide, abs=1e-6)
        assert row.length == max(blanks[i].length for i, _ in row.cuts)
        for i, n in row.cuts:
            assert n > 0
            cut[i] += n * row.times
    assert cut == [b.many for b in blanks]
    assert found.length >= found.least - 1e-6
    assert found.count >= found.fewest


def test_short_blanks_beside_whole_ones_cost_nothing() -> None:
    """Three 6 in of 120 in leave 3 in of 21; two leave 9, room for the short one."""
    found = pack_rows([Blank(6, 120, 5), Blank(6, 28, 1)], 21, 0.01)
    assert (found.length, found.count, found.proven) == (240, 2, True)


def test_short_blanks_alone_take_a_short_row() -> None:
    found = pack_rows([Blank(12, 120, 3), Blank(12, 28, 1)], 21, 0.01)
    assert (found.length, found.count, found.proven) == (388, 4, True)


def test_a_flat_width_wider_than_the_metal_is_refused() -> None:
    with pytest.raises(PieceTooWide):
        pack_rows([Blank(22, 120, 1)], 21, 0.01)


SMALL = st.lists(st.tuples(st.integers(2, 20), st.sampled_from([120.0, 100.0, 45.0, 28.0])),
                 min_size=1, max_size=7)


@given(SMALL)
@settings(max_examples=draws(150), deadline=None)
def test_against_every_way_there_is(one_by_one: list[ONE]) -> None:
    sizes = sorted(set(one_by_one))
    blanks = [Blank(g, length, one_by_one.count((g, length))) for g, length in sizes]
    found = pack_rows(blanks, 21, 0.01)
    hold(found, blanks, 21)
    best = least(one_by_one, 21)
    assert found.least <= best + 1e-6
    assert found.length >= best - 1e-6
    if found.proven:
        assert found.length == pytest.approx(best)


@given(st.lists(st.tuples(st.floats(2, 21), st.floats(5, 120), st.integers(1, 400)), min_size=1,
                max_size=14))
@settings(max_examples=draws(40), deadline=None)
def test_any_blanks(sizes: list[tuple[float, float, int]]) -> None:
    blanks = [Blank(*size) for size in sizes]
    hold(pack_rows(blanks, 21, 0.01), blanks, 21)
