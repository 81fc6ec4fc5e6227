"""Every conversion factor, against pint and against published constants."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest

from coilwright.units import Kind, read, registry
from coilwright.units.kinds import FREEZING, INCH_IN_METERS, POUND_IN_KILOGRAMS, UNITS
from tests.rules import for_each

# our name: (pint's expression for the unit, pint's expression for our canonical unit)
PINT = {
    "in": ("inch", "inch"), "ft": ("foot", "inch"), "yd": ("yard", "inch"),
    "thou": ("thou", "inch"), "m": ("m", "inch"), "cm": ("cm", "inch"), "mm": ("mm", "inch"),
    "µm": ("um", "inch"),
    "in2": ("inch**2", "inch**2"), "ft2": ("foot**2", "inch**2"), "yd2": ("yard**2", "inch**2"),
    "square": ("square", "inch**2"), "m2": ("m**2", "inch**2"), "cm2": ("cm**2", "inch**2"),
    "mm2": ("mm**2", "inch**2"),
    "in3": ("inch**3", "inch**3"), "ft3": ("foot**3", "inch**3"), "yd3": ("yard**3", "inch**3"),
    "m3": ("m**3", "inch**3"), "cm3": ("cm**3", "inch**3"), "mm3": ("mm**3", "inch**3"),
    "lb": ("pound", "pound"), "oz": ("ounce", "pound"), "short ton": ("short_ton", "pound"),
    "kg": ("kg", "pound"), "g": ("gram", "pound"), "t": ("metric_ton", "pound"),
    "lb/in": ("pound/inch", "pound/inch"), "lb/ft": ("pound/foot", "pound/inch"),
    "oz/ft": ("ounce/foot", "pound/inch"), "kg/m": ("kg/m", "pound/inch"),
    "g/m": ("gram/m", "pound/inch"),
    "lb/in2": ("pound/inch**2", "pound/inch**2"), "lb/ft2": ("pound/foot**2", "pound/inch**2"),
    "oz/ft2": ("ounce/foot**2", "pound/inch**2"), "kg/m2": ("kg/m**2", "pound/inch**2"),
    "g/m2": ("gram/m**2", "pound/inch**2"),
    "lb/in3": ("pound/inch**3", "pound/inch**3"), "lb/ft3": ("pound/foot**3", "pound/inch**3"),
    "kg/m3": ("kg/m**3", "pound/inch**3"), "g/cm3": ("gram/cm**3", "pound/inch**3"),
    "in/min": ("inch/minute", "inch/minute"), "ft/min": ("foot/minute", "inch/minute"),
    "ft/s": ("foot/second", "inch/minute"), "m/min": ("m/minute", "inch/minute"),
    "m/s": ("m/second", "inch/minute"), "mm/s": ("mm/second", "inch/minute"),
    "°F": ("delta_degF", "delta_degF"), "°C": ("delta_degC", "delta_degF"),
    "per °F": ("1/delta_degF", "1/delta_degF"), "per °C": ("1/delta_degC", "1/delta_degF"),
    "ppm/°F": ("ppm/delta_degF", "1/delta_degF"), "ppm/°C": ("ppm/delta_degC", "1/delta_degF"),
    "": ("dimensionless", "dimensionless"), "%": ("percent", "dimensionless"),
    "USD": ("USD", "USD"), "USD/lb": ("USD/pound", "USD/pound"),
    "USD/kg": ("USD/kg", "USD/pound"), "min": ("minute", "minute"), "h": ("hour", "minute"),
}  # fmt: skip
NOT_IN_PINT = {"°", "in 12", "¢", "¢/lb"}


def test_the_table_here_covers_every_unit() -> None:
    assert set(PINT) | NOT_IN_PINT == set(UNITS)


@for_each(list(PINT))
def test_factor_agrees_with_pint(name: str) -> None:
    unit, canonical = PINT[name]
    ours = float(UNITS[name].size)
    theirs = registry().Quantity(1.0, unit).to(canonical).magnitude
    assert ours == pytest.approx(theirs, rel=1e-13)


def test_temperatures_agree_with_pint() -> None:
    for celsius in (-40, -17.5, 0, 49, 100):
        theirs = registry().Quantity(celsius, "degC").to("degF").magnitude
        assert read(f"{celsius} C", Kind.TEMPERATURE) == pytest.approx(theirs, abs=1e-9)
    assert FREEZING == 32


def test_foot_is_03048_m_exactly() -> None:
    # Federal Register 85:62698 (5 October 2020), NIST and NOAA; NIST Handbook 44 appendix C
    assert Fraction("0.3048") == INCH_IN_METERS * 12
    assert read("0.3048 m", Kind.LENGTH) == 12


def test_pound_is_045359237_kg_exactly() -> None:
    # as in pint 0.25.3, scipy 1.17.1 and GNU units; ounce 1/16 lb
    assert Fraction("0.45359237") == POUND_IN_KILOGRAMS
    assert UNITS["oz"].size == Fraction(1, 16)
    assert UNITS["oz"].size * POUND_IN_KILOGRAMS == Fraction("0.028349523125")


def test_constants_of_scipy() -> None:
    from scipy import constants

    assert float(INCH_IN_METERS) == pytest.approx(constants.inch, rel=1e-15)
    assert float(POUND_IN_KILOGRAMS) == pytest.approx(constants.lb, rel=1e-15)
    # scipy's mil is the thousandth of an inch
    assert read("1 mil", Kind.THICKNESS) == pytest.approx(constants.mil / constants.inch)


def test_published_derived_constants() -> None:
    # GNU units: 1 lb/in³ = 27679.9047102 kg/m³; 490 lb/ft³ = 7849.04705 kg/m³
    assert float(1 / UNITS["kg/m3"].size) == pytest.approx(27679.9047102, abs=5e-8)
    assert read("490 lb/ft3", Kind.DENSITY) == pytest.approx(
        read("7849.04705 kg/m3", Kind.DENSITY), rel=1e-9
    )
    # one square: 100 sq ft = 9.290304 m², exact with the foot above
    assert UNITS["square"].size == Fraction("9.290304") * UNITS["m2"].size
    # 1 oz/sq ft = 305.151727 g/m² from the same exact inputs; 305.15 as printed in
    # GalvInfoNote 1.1 (rev. 2.2)
    ounce = UNITS["oz/ft2"].size / UNITS["g/m2"].size
    assert float(ounce) == pytest.approx(305.151727, abs=5e-7)
    # short ton 907.18474 kg (pint)
    assert UNITS["short ton"].size * POUND_IN_KILOGRAMS == Fraction("907.18474")


def test_one_registry() -> None:
    assert registry() is registry()
    assert isinstance(registry(), pint.UnitRegistry)
    assert (registry()("1 foot") + registry()("1 inch")).to("inch").magnitude == pytest.approx(13)


def test_the_registry_knows_the_trade() -> None:
    square = registry().Quantity(1, "square").to("foot**2").magnitude
    assert square == pytest.approx(100)
    assert registry().Quantity(1, "square foot").to("inch**2").magnitude == pytest.approx(144)
    assert registry().Quantity(2, "USD/lb").check("[currency]/[mass]")


def test_every_canonical_unit_is_known_to_the_registry() -> None:
    for kind in Kind:
        registry().parse_units("dimensionless" if kind.unit == "1" else kind.unit)


def test_pints_mil_is_an_angle_so_it_is_not_ours() -> None:
    assert registry().Quantity(1, "mil").dimensionless
    assert registry().Quantity(1, "thou").to("inch").magnitude == pytest.approx(0.001)
