"""Text for files and edit boxes: readable, and exact."""

from __future__ import annotations

import math
from itertools import product

import pytest

from coilwright.units import Kind, System, read, store
from tests.rules import for_each

# typed, as stored, as offered for editing in the metric system
STORED = [
    (Kind.LENGTH, "42' 6\"", "42 ft 6 in", "12.954 m"),
    (Kind.LENGTH, "510 in", "42 ft 6 in", "12.954 m"),
    (Kind.LENGTH, "42 ft", "42 ft", "12.8016 m"),
    (Kind.LENGTH, "6 1/2 in", "6 1/2 in", "0.1651 m"),
    (Kind.LENGTH, "1/64 in", "1/64 in", "0.396875 mm"),
    (Kind.LENGTH, "0", "0 in", "0 m"),
    (Kind.LENGTH, "12.95 m", "12.95 m", "12.95 m"),
    (Kind.LENGTH, "1295 cm", "12.95 m", "12.95 m"),
    (Kind.LENGTH, "20.313 in", "20.313 in", "0.5159502 m"),
    (Kind.WIDTH, "20 5/16 in", "20 5/16 in", "515.9375 mm"),
    (Kind.WIDTH, "21", "21 in", "533.4 mm"),
    (Kind.WIDTH, "533 mm", "533 mm", "533 mm"),
    (Kind.THICKNESS, "0.0236", "0.0236 in", "0.59944 mm"),
    (Kind.THICKNESS, "24 mil", "0.024 in", "0.6096 mm"),
    (Kind.THICKNESS, "0.6 mm", "0.6 mm", "0.6 mm"),
    (Kind.AREA, "1512 sq ft", "1512 sq ft", "140.46939648 m²"),
    (Kind.AREA, "140.5 m2", "140.5 m²", "140.5 m²"),
    (Kind.SQUARES, "15.12", "15.12 squares", "140.46939648 m²"),
    (Kind.MASS, "2250", "2250 lb", "1020.5828325 kg"),
    (Kind.MASS, "1020 kg", "1020 kg", "1020 kg"),
    (Kind.MASS_PER_AREA, "0.9 oz/ft2", "0.9 oz/sq ft", "0.9 oz/sq ft"),
    (Kind.MASS_PER_AREA, "275 g/m2", "0.275 kg/m²", "0.275 kg/m²"),
    (Kind.DENSITY, "0.2833", "0.2833 lb/in³", "0.2833 lb/in³"),
    (Kind.DENSITY, "490 lb/ft3", "490 lb/cu ft", "490 lb/cu ft"),
    (Kind.PITCH, "6/12", "6:12", "6:12"),
    (Kind.PITCH, "26.6°", "26.6°", "26.6°"),
    (Kind.PITCH, "1/4:12", "0.25:12", "0.25:12"),
    (Kind.PERCENT, "3", "3 %", "3 %"),
    (Kind.PERCENT, "0.5 %", "0.5 %", "0.5 %"),
    (Kind.RATIO, "1.118", "1.118", "1.118"),
    (Kind.ANGLE, "60", "60°", "60°"),
    (Kind.ANGLE, "59 1/2 deg", "59.5°", "59.5°"),
    (Kind.COUNT, "12", "12", "12"),
    (Kind.TEMPERATURE, "-20", "-20 °F", None),
    (Kind.TEMPERATURE, "49 C", "49 °C", "49 °C"),
    (Kind.TEMPERATURE, "32 F", "32 °F", "0 °C"),
    (Kind.EXPANSION, "6.7e-6", "6.7e-6 per °F", "12.06e-6 per °C"),
    (Kind.SPEED, "75 fpm", "75 ft/min", "22.86 m/min"),
    (Kind.MONEY, "1200.5", "$1200.50", "$1200.50"),
    (Kind.MONEY, "12", "$12", "$12"),
    (Kind.MONEY, "1.085", "$1.085", "$1.085"),
    (Kind.MONEY_PER_MASS, "$1.20/lb", "1.2 USD/lb", None),
    (Kind.MONEY_PER_MASS, "2.65 USD/kg", "2.65 USD/kg", "2.65 USD/kg"),
    (Kind.DURATION, "1.5 h", "90 min", None),
    (Kind.VOLUME, "120", "120 cu in", None),
]


@for_each(STORED)
def test_stored(kind: Kind, typed: str, stored: str, metric: str | None) -> None:
    value = read(typed, kind)
    assert store(value, kind) == stored
    assert read(stored, kind) == value
    offered = store(value, kind, System.METRIC)
    assert read(offered, kind) == value
    if metric is not None:
        assert offered == metric


def test_below_zero() -> None:
    assert store(-510.5, Kind.LENGTH) == "-42 ft 6 1/2 in"
    assert store(-6.5, Kind.WIDTH) == "-6 1/2 in"
    assert store(-12.5, Kind.MONEY) == "-$12.50"
    assert store(-0.0, Kind.LENGTH) == "0 in"
    for value, kind in [(-510.5, Kind.LENGTH), (-6.5, Kind.WIDTH), (-12.5, Kind.MONEY)]:
        assert read(store(value, kind), kind, negative=True) == value


@for_each(product(Kind, (math.inf, -math.inf, math.nan, 1e300)))
def test_what_could_not_be_read_back_is_not_stored(kind: Kind, value: float) -> None:
    with pytest.raises(ValueError, match="cannot be stored"):
        store(value, kind)


def test_a_count_is_whole() -> None:
    with pytest.raises(ValueError, match="not whole"):
        store(2.5, Kind.COUNT)
