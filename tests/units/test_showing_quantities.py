"""What screens and sheets print."""

from __future__ import annotations

import math
from itertools import product

import pytest

from coilwright.units import Kind, System, show, show_number
from tests.rules import for_each

US, METRIC = System.US, System.METRIC

SHOWN = [
    # length
    (Kind.LENGTH, 510.5, "42 ft 6 1/2 in", "12.967 m"),
    (Kind.LENGTH, 510, "42 ft 6 in", "12.954 m"),
    (Kind.LENGTH, 504, "42 ft", "12.802 m"),
    (Kind.LENGTH, 6.5, "6 1/2 in", "0.165 m"),
    (Kind.LENGTH, 0, "0 in", "0 m"),
    (Kind.LENGTH, 0.03, "0 in", "1 mm"),
    (Kind.LENGTH, 0.03125, "1/16 in", "1 mm"),
    (Kind.LENGTH, 0.62, "5/8 in", "16 mm"),
    (Kind.LENGTH, 3.9, "3 7/8 in", "99 mm"),
    (Kind.LENGTH, 4, "4 in", "0.102 m"),
    (Kind.LENGTH, 11.99999, "1 ft", "0.305 m"),
    (Kind.LENGTH, 23.97, "2 ft", "0.609 m"),
    (Kind.LENGTH, 1199.9, "99 ft 11 7/8 in", "30.477 m"),
    (Kind.LENGTH, 1199.99, "100 ft", "30.480 m"),
    (Kind.LENGTH, 16027.4, "1,335 ft 7 in", "407.10 m"),
    (Kind.LENGTH, 20766, "1,730 ft 6 in", "527.46 m"),
    (Kind.LENGTH, -6.5, "-6 1/2 in", "-0.165 m"),
    (Kind.LENGTH, -510.5, "-42 ft 6 1/2 in", "-12.967 m"),
    (Kind.LENGTH, -0.001, "0 in", "0 mm"),
    (Kind.LENGTH, -0.0, "0 in", "0 m"),
    # width
    (Kind.WIDTH, 21, "21 in", "533.4 mm"),
    (Kind.WIDTH, 5.25, "5 1/4 in", "133.4 mm"),
    (Kind.WIDTH, 20.3125, "20 5/16 in", "515.9 mm"),
    (Kind.WIDTH, 20.313, "20.313 in", "516 mm"),
    (Kind.WIDTH, 20.3125004, "20 5/16 in", "515.9 mm"),
    (Kind.WIDTH, 0.482, "0.482 in", "12.2 mm"),
    (Kind.WIDTH, 0.75, "3/4 in", "19.1 mm"),
    (Kind.WIDTH, -0.0004, "0 in", "0 mm"),
    # thickness
    (Kind.THICKNESS, 0.0236, "0.0236 in", "0.599 mm"),
    (Kind.THICKNESS, 0.024, "0.0240 in", "0.610 mm"),
    (Kind.THICKNESS, 0.0008, "0.00080 in", "0.020 mm"),
    # area
    (Kind.AREA, 1512 * 144, "1,512 sq ft", "140.5 m²"),
    (Kind.AREA, 12.34 * 144, "12.3 sq ft", "1.15 m²"),
    # 202 m² are 313,100.6262 sq in; as many decimals as the 191.9 m² that it was before.
    (Kind.AREA, 313_100.6262, "2,174 sq ft", "202.0 m²"),
    (Kind.SQUARES, 1512 * 144, "15.12 squares", "140.5 m²"),
    (Kind.SQUARES, 100 * 144, "1 square", "9.29 m²"),
    # mass
    (Kind.MASS, 2250.3, "2,250 lb", "1021 kg"),
    (Kind.MASS, 2250.5, "2,251 lb", "1021 kg"),
    (Kind.MASS, 99.96, "100 lb", "45.3 kg"),
    (Kind.MASS, 16.84, "16.8 lb", "7.6 kg"),
    (Kind.MASS, 0, "0 lb", "0 kg"),
    (Kind.MASS_PER_LENGTH, 1.685 / 12, "1.685 lb/ft", "2.508 kg/m"),
    (Kind.MASS_PER_AREA, 0.963 / 144, "0.963 lb/sq ft", "4.7 kg/m²"),
    (Kind.MASS_PER_AREA, 0.9 / 16 / 144, "0.9 oz/sq ft", "275 g/m²"),
    (Kind.MASS_PER_AREA, 0, "0 lb/sq ft", "0 kg/m²"),
    (Kind.DENSITY, 0.2833, "0.2833 lb/in³", "7842 kg/m³"),
    # pure numbers
    (Kind.PERCENT, 0.03, "3 %", "3 %"),
    (Kind.PERCENT, 0.005, "0.5 %", "0.5 %"),
    (Kind.PERCENT, 1 / 3, "33.3 %", "33.3 %"),
    (Kind.RATIO, 1.118034, "1.118", "1.118"),
    (Kind.ANGLE, 60, "60°", "60°"),
    (Kind.ANGLE, 48.590378, "48.6°", "48.6°"),
    (Kind.RATIO, 1.41667, "1.4167", "1.4167"),
    (Kind.COUNT, 1234, "1,234", "1234"),
    (Kind.COUNT, 12345, "12,345", "12\u202f345"),
    (Kind.MASS, 1e5, "100,000 lb", "45\u202f359 kg"),
    (Kind.MONEY, 1234567.5, "$1,234,567.50", "$1\u202f234\u202f567.50"),
    # temperature
    (Kind.TEMPERATURE, 120, "120 °F", "48.9 °C"),
    (Kind.TEMPERATURE, -20, "-20 °F", "-28.9 °C"),
    (Kind.TEMPERATURE, 32, "32 °F", "0 °C"),
    (Kind.TEMPERATURE, 31.99, "32 °F", "0 °C"),
    (Kind.TEMPERATURE_DIFFERENCE, 9, "9 °F", "5 °C"),
    (Kind.EXPANSION, 6.7e-6, "6.7e-6 per °F", "12.06e-6 per °C"),
    (Kind.SPEED, 900, "75 ft/min", "22.86 m/min"),
    (Kind.MONEY, 1200.5, "$1,200.50", "$1200.50"),
    (Kind.MONEY, 12, "$12.00", "$12.00"),
    (Kind.MONEY, 1.085, "$1.085", "$1.085"),
    (Kind.MONEY, -12.5, "-$12.50", "-$12.50"),
    (Kind.MONEY, -0.00001, "$0.00", "$0.00"),
    (Kind.MONEY, 2.675, "$2.675", "$2.675"),
    (Kind.MONEY, 1000.005, "$1,000.01", "$1000.01"),
    (Kind.MONEY_PER_MASS, 1.2, "$1.20/lb", "$2.6455/kg"),
    (Kind.DURATION, 19.3, "19 min", "19 min"),
    (Kind.DURATION, 3.62, "3.6 min", "3.6 min"),
    (Kind.VOLUME, 120, "120 cu in", "1966 cm³"),
]


@for_each(SHOWN)
def test_shown(kind: Kind, value: float, us: str, metric: str) -> None:
    assert show(value, kind) == us
    assert show(value, kind, METRIC) == metric


@for_each(product(Kind, System, (math.inf, -math.inf, math.nan)))
def test_what_is_not_finite_is_never_shown(kind: Kind, system: System, value: float) -> None:
    with pytest.raises(ValueError, match="not a finite number"):
        show(value, kind, system)


def test_number_and_unit_apart() -> None:
    assert show_number(2250.3, Kind.MASS, US) == ("2,250", "lb")
    assert show_number(510.5, Kind.LENGTH, US) == ("42 ft 6 1/2 in", "")
    assert show_number(510.5, Kind.LENGTH, METRIC) == ("12.967", "m")
    assert show_number(5.25, Kind.WIDTH, US) == ("5 1/4", "in")
    assert show_number(6, Kind.PITCH, US) == ("6:12", "")
    assert show_number(6, Kind.PITCH, METRIC) == ("26.6", "°")
    assert show_number(12, Kind.MONEY, US) == ("$12.00", "")
    assert show_number(12, Kind.COUNT, US) == ("12", "")


def test_the_unit_of_each_kind() -> None:
    assert {kind.name: kind.unit for kind in Kind} == {
        "LENGTH": "in", "WIDTH": "in", "THICKNESS": "in", "AREA": "in²", "SQUARES": "in²",
        "MASS": "lb", "MASS_PER_LENGTH": "lb/in", "MASS_PER_AREA": "lb/in²",
        "DENSITY": "lb/in³", "PITCH": "1", "PERCENT": "1", "RATIO": "1", "COUNT": "1", "ANGLE": "°",
        "TEMPERATURE": "°F", "TEMPERATURE_DIFFERENCE": "Δ°F", "EXPANSION": "1/Δ°F",
        "SPEED": "in/min", "MONEY": "USD", "MONEY_PER_MASS": "USD/lb",
        "DURATION": "min", "VOLUME": "in³",
    }  # fmt: skip
