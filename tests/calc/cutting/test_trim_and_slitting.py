"""Trim pieces and flat_widths, and slitting, held to published and hand-worked values."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc import slitting, trim


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
    assert slitting.drop_width.written(3) == "M − (w1 + w2)"
    assert slitting.strand_length.written(4) == "(L1 + L2)·(1 + s) / (1 − d)"


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
    assert slitting.drop_width(48, 21, 21, 4) == 2
    assert slitting.master_length(100, 2) == 50
    assert slitting.drop_mass(0.01, 6, 100) == pytest.approx(6)
    assert slitting.master_mass(0.01, 48, 100) == pytest.approx(48)
    assert slitting.mean_drop(6, 0.01, 100) == pytest.approx(6)
    assert slitting.drop_share(6, 48) == pytest.approx(1 / 8)
    # 90 in, 3 % spare, 10 % short
    assert slitting.strand_length(0.03, 0.1, 50, 40) == pytest.approx(103)
    # two strands of 45 in and a blank of 15 more each
    assert slitting.shared_strand_length(0.0, 0.0, 2, 15, 50, 40) == pytest.approx(60)
    assert slitting.longest_strand(1100, 0.1) == pytest.approx(1000)
    assert slitting.pass_length(90, 100, 80) == 100
    assert slitting.as_long_as_pass(100) == 100
    assert slitting.least_master(100, 2) == 50
    assert slitting.longer_than_wanted(400, 390) == 10
