"""Wound strip: length, diameter and weight from one another.

Sources of the formula: Drexel Math Forum, Dr Math 67031 (2003), and University of Regina, Math
Central (read): N = (Do − Di)/(2t), L = N·π·(Do + Di)/2 = π·(Do² − Di²)/(4t). The values are
computed from it for a solid wind (no wrap allowance).
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.coil import coil_mass, length_of_mass, outside_diameter, wound_length
from coilwright.calc.metal import METALS, sheet_mass
from coilwright.calc.strip import mass_per_length
from tests.printed import printed

THICKNESS, WIDTH, INSIDE, OUTSIDE = 0.0236, 20.0, 20.0, 48.0
STEEL = 0.2836
"""7850 kg/m³ in lb/in³."""


def strip(density: float, width: float = WIDTH) -> float:
    """Weight by length [lb/in] of 0.0236 in strip."""
    return mass_per_length(sheet_mass(density, THICKNESS), width)


def test_length_both_ways() -> None:
    length = wound_length(OUTSIDE, INSIDE, THICKNESS)
    assert length / 12 == printed("5280.36")
    assert outside_diameter(INSIDE, length, THICKNESS) == pytest.approx(OUTSIDE, rel=1e-12)
    assert outside_diameter(INSIDE, 5280.36 * 12, THICKNESS) == printed("48.000")


def test_turns() -> None:
    length = wound_length(OUTSIDE, INSIDE, THICKNESS)
    assert printed("593.22") == (OUTSIDE - INSIDE) / (2 * THICKNESS)
    assert length / (math.pi * (OUTSIDE + INSIDE) / 2) == printed("593.22")


@pytest.mark.parametrize(
    ("density", "pounds"),
    [(STEEL, "8481.90"), (0.2833, "8472.93"), (490 / 1728, "8480.85")],
)
def test_weight_both_ways(density: float, pounds: str) -> None:
    length = wound_length(OUTSIDE, INSIDE, THICKNESS)
    assert coil_mass(strip(density), length) == printed(pounds)
    assert length_of_mass(float(pounds), strip(density)) == pytest.approx(length, rel=1e-6)


def test_pounds_per_inch_of_width() -> None:
    length = wound_length(OUTSIDE, INSIDE, THICKNESS)
    assert coil_mass(strip(STEEL), length) / WIDTH == printed("424.09")


@pytest.mark.parametrize(
    ("mass", "width", "outside"),
    [(5000, 20, "39.018"), (2000, 20, "29.137"), (10_000, 41.5625, "38.473")],
)
def test_diameter_of_a_weight(mass: float, width: float, outside: str) -> None:
    length = length_of_mass(mass, strip(STEEL, width))
    diameter = outside_diameter(20, length, THICKNESS)
    assert diameter == printed(outside)
    back = coil_mass(strip(STEEL, width), wound_length(diameter, 20, THICKNESS))
    assert back == pytest.approx(mass, rel=1e-12)


def test_weight_by_length() -> None:
    assert strip(STEEL) * 12 == printed("1.60631")
    assert length_of_mass(1, strip(STEEL)) / 12 == printed(".62254")


@pytest.mark.parametrize(
    ("density", "k"),
    [(STEEL, ".22274"), (0.2833, ".22250"), (METALS["aluminum"].density, ".07697"),
     (0.3220, ".25290"), (METALS["steel"].density, ".22250")],
)  # fmt: skip
def test_weight_by_k(density: float, k: str) -> None:
    # W = k·w·(Do² − Di²), whatever the thickness; copper's k goes with 0.322 lb/in³ (C11000)
    for thickness in (0.0157, 0.0236, 0.032):
        per_length = mass_per_length(sheet_mass(density, thickness), 24)
        mass = coil_mass(per_length, wound_length(32, 20, thickness))
        assert mass / (24 * (32**2 - 20**2)) == printed(k)


def test_a_true_spiral_is_as_long() -> None:
    """An Archimedean spiral of the same wind differs by 2.6e-8 of its length (computed)."""
    pitch = THICKNESS / (2 * math.pi)

    def arc(radius: float) -> float:
        a = radius / pitch
        return pitch / 2 * (a * math.sqrt(1 + a * a) + math.asinh(a))

    spiral = arc(OUTSIDE / 2) - arc(INSIDE / 2)
    length = wound_length(OUTSIDE, INSIDE, THICKNESS)
    assert spiral / length - 1 == printed("2.6e-8")


@given(
    inside=st.floats(8, 30),
    wall=st.floats(0.5, 30),
    thickness=st.floats(0.01, 0.08),
)
def test_there_and_back(inside: float, wall: float, thickness: float) -> None:
    outside = inside + 2 * wall
    length = wound_length(outside, inside, thickness)
    assert outside_diameter(inside, length, thickness) == pytest.approx(outside, rel=1e-12)
    # the same by adding up every turn's mean circumference
    turns = (outside - inside) / (2 * thickness)
    assert length == pytest.approx(turns * math.pi * (outside + inside) / 2, rel=1e-12)
    # thinner strip is longer, in proportion
    assert wound_length(outside, inside, thickness / 2) == pytest.approx(2 * length, rel=1e-12)
