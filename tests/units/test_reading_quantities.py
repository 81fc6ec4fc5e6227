"""Texts that people write, and the numbers they mean. Expected numbers are worked out by hand."""

from __future__ import annotations

import pytest

from coilwright.units import Kind, System, UnreadableQuantity, bare_unit, read
from tests.rules import for_each

MM = 1 / 25.4

LENGTHS = [
    ("42' 6 1/2\"", 510.5),
    ("42'-6 1/2\"", 510.5),
    ("42' - 6 1/2\"", 510.5),
    ("42'6-1/2\"", 510.5),
    ("42′ 6½″", 510.5),
    ("42′-6 ½″", 510.5),
    ("42’ 6”", 510.0),
    ("42‘ 6“", 510.0),
    ("42' 6''", 510.0),
    ("42 ft 6.5 in", 510.5),
    ("42 FT 6.5 IN", 510.5),
    ("42ft6.5in", 510.5),
    ("42 feet 6 inches", 510.0),
    ("42 foot 6 inch", 510.0),
    ("42 ft. 6 in.", 510.0),
    ("42 ft, 6 in", 510.0),
    ("42 ft and 6 in", 510.0),
    ("42ft6", 510.0),
    ("42'6", 510.0),
    ("42' 6 1/2", 510.5),
    ("42-6", 510.0),
    ("42 - 6 1/2", 510.5),
    ("42-6-1/2", 510.5),
    ("42-6.5", 510.5),
    ("42-ft", 504.0),
    ("42-foot", 504.0),
    ("42 ft", 504.0),
    ("42", 504.0),
    ("42.5", 510.0),
    ("42 1/2 ft", 510.0),
    ("42-1/2 ft", 510.0),
    ("  42   ft  ", 504.0),
    ("42\u00a0ft\u20096\u202fin", 510.0),
    ("４２ ft ６ in", 510.0),
    ("510 in", 510.0),
    ('510"', 510.0),
    ('13"', 13.0),
    ("0' 6\"", 6.0),
    ("12' 0\"", 144.0),
    ("12' 11 15/16\"", 155.9375),
    ('6-1/2"', 6.5),
    ("¾ in", 0.75),
    ('5⅞"', 5.875),
    (".5 ft", 6.0),
    ("5. ft", 60.0),
    ("+5 ft", 60.0),
    ("0", 0.0),
    ("1e2 in", 100.0),
    ("14 yd", 504.0),
    ("14 yd 1 ft 2 in", 518.0),
    ("12.954 m", 510.0),
    ("1295.4 cm", 510.0),
    ("12954 mm", 510.0),
    ("12.954 meters", 510.0),
    ("12.95 m", 12950 * MM),
]


@for_each(LENGTHS)
def test_lengths(text: str, inches: float) -> None:
    assert read(text, Kind.LENGTH) == pytest.approx(inches, rel=1e-15)


THICKNESSES = [
    ("0.0236", 0.0236),
    ("0.0236 in", 0.0236),
    ('.0236"', 0.0236),
    ("24 mil", 0.024),
    ("24 mils", 0.024),
    ("23.6 thou", 0.0236),
    ("0.6 mm", 0.6 * MM),
    ("600 µm", 0.6 * MM),
    ("600 μm", 0.6 * MM),
    ("20 microns", 0.02 * MM),
    ("1/64 in", 0.015625),
]


@for_each(THICKNESSES)
def test_thicknesses(text: str, inches: float) -> None:
    assert read(text, Kind.THICKNESS) == pytest.approx(inches, rel=1e-15)


OTHERS = [
    (Kind.WIDTH, "20 5/16", 20.3125),
    (Kind.WIDTH, "1' 8 5/16\"", 20.3125),
    (Kind.WIDTH, "508 mm", 20.0),
    (Kind.AREA, "1512 sq ft", 1512 * 144),
    (Kind.AREA, "1512 square feet", 1512 * 144),
    (Kind.AREA, "1512 sqft", 1512 * 144),
    (Kind.AREA, "1512 ft2", 1512 * 144),
    (Kind.AREA, "1512 ft²", 1512 * 144),
    (Kind.AREA, "1512 ft^2", 1512 * 144),
    (Kind.AREA, "1512", 1512 * 144),
    (Kind.AREA, "15.12 squares", 1512 * 144),
    (Kind.AREA, "9.290304 m²", 100 * 144),
    (Kind.SQUARES, "15.12", 1512 * 144),
    (Kind.SQUARES, "15 sq", 1500 * 144),
    (Kind.MASS, "2250", 2250),
    (Kind.MASS, "2250 lbs", 2250),
    (Kind.MASS, "2250#", 2250),
    (Kind.MASS, "5 lb 6 oz", 5.375),
    (Kind.MASS, "5 pounds and 6 ounces", 5.375),
    (Kind.MASS, "8 oz", 0.5),
    (Kind.MASS, "2 short tons", 4000),
    (Kind.MASS, "0.45359237 kg", 1),
    (Kind.MASS, "453.59237 g", 1),
    (Kind.MASS, "0.45359237 t", 1000),
    (Kind.MASS, "0.45359237 metric tons", 1000),
    (Kind.MASS_PER_LENGTH, "1.2 lb/ft", 0.1),
    (Kind.MASS_PER_LENGTH, "1.2 lb per foot", 0.1),
    (Kind.MASS_PER_AREA, "1.44 lb/sq ft", 0.01),
    (Kind.MASS_PER_AREA, "1.44 pounds per square foot", 0.01),
    (Kind.MASS_PER_AREA, "0.9 oz/ft2", 0.9 / 16 / 144),
    (Kind.MASS_PER_AREA, "0.9 oz / sq ft", 0.9 / 16 / 144),
    (Kind.MASS_PER_AREA, "0.9 oz/sq. ft.", 0.9 / 16 / 144),
    (Kind.DENSITY, "0.2833", 0.2833),
    (Kind.DENSITY, "0.2833 lb/in³", 0.2833),
    (Kind.DENSITY, "0.2833 lb/cu in", 0.2833),
    (Kind.DENSITY, "489.5424 lb per cubic foot", 0.2833),
    (Kind.PERCENT, "3%", 0.03),
    (Kind.PERCENT, "3", 0.03),
    (Kind.PERCENT, "0.5 %", 0.005),
    (Kind.PERCENT, "2½ percent", 0.025),
    (Kind.RATIO, "1.118", 1.118),
    (Kind.ANGLE, "60°", 60),
    (Kind.ANGLE, "60", 60),
    (Kind.ANGLE, "60 deg", 60),
    (Kind.ANGLE, "60 degs.", 60),
    (Kind.ANGLE, "60 degrees", 60),
    (Kind.ANGLE, "60 º", 60),
    (Kind.ANGLE, "59½°", 59.5),
    (Kind.ANGLE, "90", 90),
    (Kind.ANGLE, "0", 0),
    (Kind.COUNT, "12", 12),
    (Kind.COUNT, "12.0", 12),
    (Kind.TEMPERATURE, "120", 120),
    (Kind.TEMPERATURE, "120 F", 120),
    (Kind.TEMPERATURE, "120°F", 120),
    (Kind.TEMPERATURE, "120 ℉", 120),
    (Kind.TEMPERATURE, "120°", 120),
    (Kind.TEMPERATURE, "120 deg F", 120),
    (Kind.TEMPERATURE, "120 degrees Fahrenheit", 120),
    (Kind.TEMPERATURE, "49 C", 120.2),
    (Kind.TEMPERATURE, "0 °C", 32),
    (Kind.TEMPERATURE, "-40 C", -40),
    (Kind.TEMPERATURE, "-20", -20),
    (Kind.TEMPERATURE, "−20 °F", -20),
    (Kind.TEMPERATURE, "- 20", -20),
    (Kind.TEMPERATURE_DIFFERENCE, "5 C", 9),
    (Kind.TEMPERATURE_DIFFERENCE, "100 Δ°F", 100),
    (Kind.EXPANSION, "6.7e-6", 6.7e-6),
    (Kind.EXPANSION, "6.7e-6 per °F", 6.7e-6),
    (Kind.EXPANSION, "6.7 × 10^-6 /°F", 6.7e-6),
    (Kind.EXPANSION, "6.7 ppm/F", 6.7e-6),
    (Kind.EXPANSION, "6.7e-6 in/in/°F", 6.7e-6),
    (Kind.EXPANSION, "18e-6 per °C", 10e-6),
    (Kind.EXPANSION, "18e-6 1/K", 10e-6),
    (Kind.SPEED, "75 ft/min", 900),
    (Kind.SPEED, "75 fpm", 900),
    (Kind.SPEED, "75-fpm", 900),
    (Kind.SPEED, "75 feet per minute", 900),
    (Kind.SPEED, "22.86 m/min", 900),
    (Kind.MONEY, "$1200.50", 1200.5),
    (Kind.MONEY, "1200.5 USD", 1200.5),
    (Kind.MONEY, "1200.5 dollars", 1200.5),
    (Kind.MONEY, "US$ 12", 12),
    (Kind.MONEY, "12 $", 12),
    (Kind.MONEY, "85¢", 0.85),
    (Kind.MONEY_PER_MASS, "$1.20/lb", 1.2),
    (Kind.MONEY_PER_MASS, "$1.20 per pound", 1.2),
    (Kind.MONEY_PER_MASS, "$1.20", 1.2),
    (Kind.MONEY_PER_MASS, "85¢/lb", 0.85),
    (Kind.MONEY_PER_MASS, "1 USD/kg", 0.45359237),
    (Kind.DURATION, "45", 45),
    (Kind.DURATION, "1.5 hours", 90),
    (Kind.VOLUME, "1 cu ft", 1728),
    (Kind.VOLUME, "120", 120),
]


@for_each(OTHERS)
def test_other_kinds(kind: Kind, text: str, value: float) -> None:
    assert read(text, kind) == pytest.approx(value, rel=1e-14)


@for_each([
    (Kind.LENGTH, 12 * 12, 12000 * MM),
    (Kind.WIDTH, 12, 12 * MM),
    (Kind.AREA, 12 * 144, 12e6 * MM**2),
    (Kind.SQUARES, 1200 * 144, 12e6 * MM**2),
    (Kind.MASS, 12, 12 / 0.45359237),
    (Kind.TEMPERATURE, 12, 53.6),
    (Kind.TEMPERATURE_DIFFERENCE, 12, 21.6),
    (Kind.SPEED, 144, 12000 * MM),
    (Kind.PERCENT, 0.12, 0.12),
    (Kind.COUNT, 12, 12),
    (Kind.MONEY, 12, 12),
    (Kind.PITCH, 12, 2.550678),
])
def test_a_bare_number_means_the_usual_unit_of_the_system(
    kind: Kind, us: float, metric: float
) -> None:
    assert read("12", kind) == pytest.approx(us, rel=1e-12)
    assert read("12", kind, system=System.METRIC) == pytest.approx(metric, rel=1e-6)


def test_a_field_says_what_a_bare_number_means() -> None:
    assert read("16", Kind.LENGTH, bare="in") == 16
    assert read("16", Kind.LENGTH, bare="mm", system=System.US) == pytest.approx(16 * MM)
    assert read("0.9", Kind.MASS_PER_AREA, bare="oz/sq ft") == pytest.approx(0.9 / 16 / 144)
    assert read("30", Kind.PITCH, bare="°") == pytest.approx(12 / 3**0.5, rel=1e-12)
    assert read("50", Kind.PITCH, bare="%") == 6
    assert read("16 ft", Kind.LENGTH, bare="in") == 192
    assert bare_unit(Kind.LENGTH) == "ft"
    assert bare_unit(Kind.LENGTH, System.METRIC) == "m"


def test_a_bare_unit_of_another_kind_is_a_mistake_in_the_program() -> None:
    with pytest.raises(ValueError, match="bare number cannot mean 'lb'") as caught:
        read("16", Kind.LENGTH, bare="lb")
    assert not isinstance(caught.value, UnreadableQuantity)


def test_below_zero_is_read_where_it_is_allowed() -> None:
    assert read("-6 1/2 in", Kind.LENGTH, negative=True) == -6.5
    assert read("-42' 6\"", Kind.LENGTH, negative=True) == -510
    assert read("−$5", Kind.MONEY, negative=True) == -5
    assert read("$-5", Kind.MONEY, negative=True) == -5
    assert read("-3 %", Kind.PERCENT, negative=True) == -0.03
    assert str(read("-0", Kind.LENGTH)) == "0.0"


def test_every_kind_reads_its_own_example() -> None:
    from coilwright.units.rules import RULES

    for kind, rule in RULES.items():
        for example in rule.example:
            assert read(example, kind) > 0


@for_each([
    ("12\u202f954 mm", Kind.WIDTH, System.METRIC, 510.0),
    ("$6,112.00/lb", Kind.MONEY_PER_MASS, System.US, 6112.0),
    ("$1,200.50", Kind.MONEY, System.US, 1200.5),
    ("1,335 ft 7 in", Kind.LENGTH, System.US, 16027.0),
    ("1，500", Kind.LENGTH, System.US, 18000.0),
    ("2,451 lb", Kind.MASS, System.US, 2451.0),
    *((f"1{space}020{space}kg", Kind.MASS, System.METRIC, 1020 / 0.45359237)
      for space in " \u00a0\u202f\u2009"),
    ("1\u202f020 kg", Kind.MASS, System.US, 1020 / 0.45359237),
    ("$12 345.60", Kind.MONEY, System.METRIC, 12_345.6),
    ("5 000 lb", Kind.MASS, System.US, 5000.0), (" 1 335 ft 7 in", Kind.LENGTH, System.US, 16027.0),
    ("1 200", Kind.COUNT, System.US, 1200.0), ("8 3/4", Kind.WIDTH, System.US, 8.75),
    ("1 234 567 mm", Kind.LENGTH, System.METRIC, 1_234_567 / 25.4),
    ("12 954,5 mm", Kind.WIDTH, System.METRIC, 510.0 + 0.5 / 25.4),
    ("1,234,567 mm", Kind.LENGTH, System.METRIC, 1_234_567 / 25.4),
    ("1,200", Kind.COUNT, System.METRIC, 1200.0),
    ("1,234.50 m", Kind.LENGTH, System.METRIC, 1234.5 / 0.0254),
    ("22.86 m/min", Kind.SPEED, System.METRIC, 900.0),
    ("12,8", Kind.LENGTH, System.METRIC, 12.8 / 0.0254),
    ("0,6 mm", Kind.THICKNESS, System.METRIC, 0.6 / 25.4),
    ("0,635 mm", Kind.THICKNESS, System.METRIC, 0.025),
    ("1200,50", Kind.MONEY, System.METRIC, 1200.5),
    ("3,5 cm", Kind.WIDTH, System.METRIC, 3.5 / 2.54),
    ("12,5 %", Kind.PERCENT, System.METRIC, 0.125),
])
def test_what_stands_between_thousands_is_read_as_it_is_printed(
    text: str, kind: Kind, system: System, value: float
) -> None:
    assert read(text, kind, system=system) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "system", "words"),
    [
        ("12,8", System.US, "comma where no thousands end: write 12.8, or 128 without it"),
        ("1,234", System.METRIC, "thousands or decimals: write 1234 or 1.234"),
        ("12,954 mm", System.METRIC, "thousands or decimals: write 12954 or 12.954"),
        ("1 335 3", System.US, "a number without a unit"),
        ("1 33 ft", System.US, "a number without a unit"),
        ("12 95 mm", System.METRIC, "."),
        ("12, 8", System.METRIC, "comma where no thousands end"),
        ("12,8,5", System.METRIC, "comma where none belongs"),
        ("1.234,5", System.METRIC, "comma where none belongs"),
        (",8", System.METRIC, "comma where none belongs"),
    ],
)
def test_a_comma_that_is_not_clear_is_refused(text: str, system: System, words: str) -> None:
    with pytest.raises(UnreadableQuantity, match=words):
        read(text, Kind.LENGTH, system=system)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("2.5 dm", Kind.WIDTH, 250 / 25.4),  # SI
        ("14 yd", Kind.LENGTH, 504.0),
        ("3 miles", Kind.LENGTH, 3 * 63_360.0),  # NIST Handbook 44, Appendix C
        ("2 stone", Kind.MASS, 28.0),  # 14 lb avoirdupois
        ("2 cwt", Kind.MASS, 200.0),  # NIST Handbook 44: the short hundredweight is 100 lb
        ("36 km/h", Kind.SPEED, 36e6 / 25.4 / 60),
        ("2 weeks", Kind.DURATION, 20_160.0),
    ],
)
def test_a_unit_seldom_used_is_looked_up_by_its_name(
    text: str, kind: Kind, value: float
) -> None:
    assert read(text, kind) == pytest.approx(value, rel=1e-11)


@pytest.mark.parametrize("text", ["42 i", "42 inc", "42 fe", "2 po", "3 kilog", "3 me"])
def test_a_unit_still_being_typed_is_looked_up_nowhere(
    text: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("coilwright.units.reading.size_by_name", None)
    with pytest.raises(UnreadableQuantity, match="not known here"):
        read(text, Kind.LENGTH if text[0] == "4" else Kind.MASS)
