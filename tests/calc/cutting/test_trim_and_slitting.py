"""Trim pieces and flat widths, and slitting, held to published and hand-worked values."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from coilwright.calc import slitting, trim
from tests.calc.cutting.references import all_patterns


def test_flat_width_of_the_channel() -> None:
    # FAA-H-8083-31 (AMT handbook, airframe, vol. 1, ch. 4), read in copies: U-channel, legs 1.00,
    # base 2.00 to the mold lines, T .040, R .16, bends of 90°: setback 0.20, flats .80, 1.60,
    # .80. The empirical allowance is from memory: 0.279 each, total 3.758 (printed about 3.76).
    setback = trim.setback(trim.setback_factor(90), 0.16, 0.040)
    assert setback == pytest.approx(0.20, abs=0.005)
    leg, base = trim.flat(1.0, setback), trim.flat(2.0, setback, setback)
    assert leg == pytest.approx(0.80, abs=0.005)
    assert base == pytest.approx(1.60, abs=0.005)
    bend = trim.bend_allowance(0.16, 0.040, 90)
    assert bend == pytest.approx(0.279, abs=0.0005)
    assert trim.developed_width(leg, bend, base, bend, leg) == pytest.approx(3.758, abs=0.0005)


def test_bend_allowance_is_near_the_arc_of_the_neutral_line() -> None:
    # Geometry: (π/180)·(R + T/2)·A; the empirical formula puts the neutral line at 0.445·T.
    for radius, thickness in ((0.16, 0.04), (0.03, 0.024), (0.5, 0.064)):
        arc = math.radians(90) * (radius + thickness / 2)
        assert trim.bend_allowance(radius, thickness, 90) == pytest.approx(arc, rel=0.06)


@pytest.mark.parametrize(
    ("length", "lap", "piece", "expected"),
    [
        (120, 4, 120, 1),
        (121, 4, 120, 2),
        (236, 4, 120, 2),   # 120 + 116
        (237, 4, 120, 3),
        (504, 4, 120, 5),   # 120 + 4 × 116 = 584 covers, 120 + 3 × 116 = 468 does not
        (2, 4, 120, 1),     # an edge shorter than a lap still takes a piece
        (240, 0, 120, 2),
    ],
)
def test_pieces_in_a_row(length: float, lap: float, piece: float, expected: int) -> None:
    # Hand-worked: n pieces cover n·p − (n − 1)·l.
    assert trim.pieces(length, lap, piece) == expected


@given(st.floats(1, 5000), st.floats(0, 12), st.floats(24, 144))
def test_pieces_cover_and_one_less_would_not(length: float, lap: float, piece: float) -> None:
    count = trim.pieces(length, lap, piece)
    assert count * piece - (count - 1) * lap >= length * (1 - 1e-6)
    if count > 1:
        assert (count - 1) * piece - (count - 2) * lap < length * (1 + 1e-6)


def test_trim_equations_as_printed() -> None:
    assert trim.pieces.written(3) == "max(⌈(L − l) / (p − l)⌉, 1)"
    assert trim.bend_allowance.written(3) == "(0.01743·R + 0.0078·T)·A"
    assert trim.setback.written(3) == "K·(R + T)"
    assert trim.flat.written(3) == "F − (s1 + s2)"
    assert trim.flat_width.written(3) == "w1 + w2 + w3"
    assert slitting.strips_across.written(3) == "⌊(M − e) / s⌋"
    assert slitting.width_left.written(3) == "M − (w1 + w2)"
    assert slitting.strand_length.written(4) == "(L1 + L2)·(1 + s) / (1 − d)"
    assert slitting.strip_less_trim.written(4) == "L − T1·(1 + s) / (1 − d)"


def test_hems_and_brake_work() -> None:
    # A drip edge, hand-worked: 4 in flange, 2 in face, half-inch hem folded once.
    assert trim.flat_width(4.0, 2.0, 0.5) == 6.5
    # Two runs of 2 blanks on 216 in, lapped 4 in: 120 and 100 in each, 440 in to cut.
    assert trim.last_blank(216, 2, 4, 120) == 100
    assert trim.cut_length(216, 2, 4, 2) == 440
    assert trim.blanks_area(440, 6.5) == 2860


def test_a_piece_no_longer_than_its_lap_is_refused() -> None:
    trim.check_piece(120, 4)
    with pytest.raises(ValueError, match="A piece 4 in long cannot lap 4 in"):
        trim.check_piece(4, 4)


def test_strips_across_a_master() -> None:
    # Hand-worked: 48 − 0.5 leaves room for two strips of 21 (42) and not for three (63).
    assert slitting.strips_across(48, 0.5, 21) == 2
    assert slitting.strips_across(42.5, 0.5, 21) == 2
    assert slitting.strips_across(42.4, 0.5, 21) == 1
    assert slitting.slit_drop(48, 2, 21) == 6
    assert slitting.strands_width(2, 21) == 42
    assert slitting.width_left(48, 42, 4) == 2
    # 100 in of it: 4,800 in², of which two strands of 21 × 100 and one of 4 × 100 are needed.
    assert slitting.strand_area(48, 100) == 4800
    assert slitting.drop_area(4800, 4200, 400) == 200
    assert slitting.mean_drop(200, 100) == 2
    assert slitting.drop_share(200, 4800) == pytest.approx(1 / 24)
    assert slitting.drop_mass(0.01, 100) == 1
    # 90 in for pieces, 3 % spare, 10 % short: 103 in; a strip of 1,000 in is as much shorter.
    assert slitting.strand_length(0.03, 0.1, 50, 40) == pytest.approx(103)
    assert slitting.strip_less_trim(1000, 0.03, 0.1, 90) == pytest.approx(897)


def test_the_master_that_two_strips_nearly_fill_is_best() -> None:
    slit = {m: slitting.slit(m, 0.5, [(21.0, 16_000.0)]) for m in (36.0, 43.0, 48.0, 60.0)}
    found = {master: one for master, one in slit.items() if one is not None}
    assert sorted(found, key=lambda m: found[m].drop) == [43, 48, 60, 36]
    assert found[43.0].ordered == pytest.approx(43 * 8000)
    assert found[43.0].drop == pytest.approx(8000)
    assert found[43.0].proven


def test_flat_widths_ride_beside_the_strip() -> None:
    alone = slitting.slit(48.0, 0.0, [(21.0, 12_000.0)])
    beside = slitting.slit(48.0, 0.0, [(21.0, 12_000.0), (6.0, 6_000.0)])
    assert alone is not None
    assert beside is not None
    # 21 + 21 + 6 fills 48: the flat width costs no metal.
    assert beside.ordered == pytest.approx(alone.ordered)
    assert beside.drop == pytest.approx(0)
    assert [strand.across for strand in beside.strands] == [((0, 2), (1, 1))]
    assert beside.strands[0].drop == 0


def test_a_master_too_narrow_is_no_choice() -> None:
    assert slitting.slit(20.0, 0.0, [(21.0, 100.0)]) is None
    assert slitting.slit(24.0, 0.0, [(21.0, 100.0)]) is not None
    with pytest.raises(ValueError, match="Width 1 must be above 0"):
        slitting.slit(48.0, 0.0, [(0.0, 100.0)])
    with pytest.raises(ValueError, match="Length 1 must be 0 or more"):
        slitting.slit(48.0, 0.0, [(5.0, -1.0)])


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.integers(8, 46), st.floats(10, 20_000)), min_size=1, max_size=4),
    st.sampled_from([96, 120, 144]),
)
def test_slitting_is_the_least_a_linear_program_finds(
    halves: list[tuple[int, float]], master: int
) -> None:
    # Widths in halves of an inch; HiGHS is given every pattern of strands.
    widths = [(w / 2, length) for w, length in halves]
    found = slitting.slit(master / 2, 0.0, widths)
    assert found is not None
    patterns = all_patterns([w for w, _ in halves], [master] * len(halves), master)
    table = np.array(patterns, dtype=float).T
    least = linprog(np.ones(len(patterns)), A_ub=-table, b_ub=[-n for _, n in halves])
    assert found.ordered == pytest.approx(least.fun * master / 2, rel=1e-6)
    assert found.proven
    for number, (_, length) in enumerate(widths):
        got = sum(strand.length * dict(strand.across).get(number, 0) for strand in found.strands)
        assert got >= length * (1 - 1e-9)
