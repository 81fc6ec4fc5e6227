"""Unit prices by hand and by pint, and where two bases come to the same."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coilwright.calc.quotes import (
    Shipped,
    line_amount,
    per_unit,
    stepped_up,
    to_cents,
    units_shipped,
)
from coilwright.units import registry
from coilwright.units.bases import BASES, Per
from tests.rules import for_each

COIL = Shipped(mass=Fraction(2250), length=Fraction(1335 * 12), area=Fraction(1335 * 12 * 21),
               roof=Fraction(1512 * 144), coils=2, distance=60)
"""2,250 lb, 1,335 ft of 21 in, 15.12 squares of roof."""


@for_each([
    ("lb", "1.78", "4005.00"),  # 2250 × 1.78
    ("cwt", "178", "4005.00"),  # 22.5 × 178
    ("short ton", "3560", "4005.00"),  # 1.125 × 3560
    ("kg", "3.92", "4000.68"),  # 2250 × 0.45359237 = 1020.5828325 × 3.92
    ("tonne", "3920", "4000.68"),
    ("ft", "2.90", "3871.50"),  # 1335 × 2.90
    ("m", "9.50", "3865.63"),  # 1335 × 0.3048 = 406.908 × 9.50 = 3865.626
    ("sq ft", "1.65", "3854.81"),  # 1335 × 1.75 = 2336.25 × 1.65 = 3854.8125
    ("m²", "17.80", "3863.40"),  # 2336.25 × 0.09290304 = 217.0447272 × 17.80 = 3863.39614…
    ("square", "165", "3854.81"),  # 23.3625 × 165 = 3854.8125
    ("roof square", "255", "3855.60"),  # 15.12 × 255
    ("coil", "1900", "3800.00"), ("lump", "3900", "3900.00"),
    ("mile", "4.10", "246.00"),
])
def test_by_hand(basis: str, rate: str, amount: str) -> None:
    units = units_shipped(BASES[basis], COIL)
    assert units is not None
    assert line_amount(Decimal(rate), units) == Decimal(amount)


@for_each([name for name, basis in BASES.items() if basis.per in (Per.WEIGHT, Per.LENGTH, Per.AREA)
           and name != "square"])
def test_by_pint(name: str) -> None:
    """A dollar for a unit, times what ships, in dollars: pint does the units."""
    of = {Per.WEIGHT: (COIL.mass, "pound"), Per.LENGTH: (COIL.length, "inch"),
          Per.AREA: (COIL.area, "inch ** 2")}[BASES[name].per]
    unit = {"cwt": "short_hundredweight", "tonne": "metric_ton", "sq ft": "foot ** 2",
            "m²": "meter ** 2", "short ton": "short_ton"}.get(name, name)
    ureg = registry()
    money = (ureg.Quantity(1.0, "USD") / ureg.Quantity(1.0, unit)
             * ureg.Quantity(float(of[0]), of[1])).to("USD").magnitude
    units = units_shipped(BASES[name], COIL)
    assert units is not None
    assert float(units) == pytest.approx(money, rel=1e-9)


@given(st.fractions(0, 10**6))
def test_cents_are_rounded_half_up(amount: Fraction) -> None:
    plain = (Decimal(amount.numerator) / Decimal(amount.denominator)).quantize(
        Decimal("0.01"), ROUND_HALF_UP)
    # Decimal's own division is rounded to 28 digits; a tie it makes is no tie here.
    assume(abs(amount * 200 - round(amount * 200)) > Fraction(1, 10**12)
           or amount.denominator in (1, 2, 4, 5, 8, 10, 20, 40, 50, 100, 200))
    assert to_cents(amount) == plain


@given(st.fractions(0, 10**5), st.fractions("0.01", 10**4))
def test_steps_are_never_less_and_never_a_whole_step_more(value: Fraction, step: Fraction) -> None:
    up = stepped_up(value, step)
    assert value <= up < value + step
    assert (up / step).denominator == 1


def test_per_unit() -> None:
    assert per_unit(Decimal("4505.54"), Fraction("15.12")) == Decimal("297.99")
    assert per_unit(Decimal("1"), Fraction(0)) is None
