"""What is refused, and that each refusal is one clear sentence that names the fault."""

from __future__ import annotations

import pytest

from coilwright.units import Kind, System, UnreadableQuantity, read
from tests.rules import for_each
from tests.work import within

REFUSED = [
    (Kind.LENGTH, "", "Nothing is written: a length is wanted, such as 42 ft 6 in."),
    (Kind.LENGTH, " \t ", "Nothing is written"),
    (Kind.LENGTH, "forty two", "“forty two” has no number in it: a length is wanted"),
    (Kind.LENGTH, "ft", "has no number"),
    (Kind.LENGTH, "'", "has no number"),
    (Kind.LENGTH, "nan", "has no number"),
    (Kind.LENGTH, "inf", "has no number"),
    (Kind.LENGTH, "∞", "has no number"),
    (Kind.LENGTH, "٤٢", "has no number"),
    (Kind.LENGTH, "-5", "below zero: a length of zero or more is wanted"),
    (Kind.LENGTH, "-1/2 in", "below zero"),
    (Kind.LENGTH, "--5", "two signs"),
    (Kind.LENGTH, "+-5", "two signs"),
    (Kind.LENGTH, "- −5", "two signs"),
    (Kind.LENGTH, "42 6", "number without a unit"),
    (Kind.LENGTH, "42-13", "12 inches or more after feet"),
    (Kind.WIDTH, "42-6", "number without a unit"),
    (Kind.LENGTH, "42 6 in", "number without a unit"),
    (Kind.LENGTH, "1 1/2 1/2", "number without a unit"),
    (Kind.LENGTH, "½½", "number without a unit"),
    (Kind.LENGTH, '6" 1/2', "number without a unit"),
    (Kind.LENGTH, "12'13\"", "12 inches or more after feet"),
    (Kind.LENGTH, "12' 12\"", "12 inches or more after feet"),
    (Kind.LENGTH, "12' 13", "12 inches or more after feet"),
    (Kind.LENGTH, "1 yd 3 ft", "3 feet or more after yards"),
    (Kind.LENGTH, '6 3/2"', "fraction of 1 or more after a whole number: write 7 1/2."),
    (Kind.LENGTH, '6 2/2"', "write 7."),
    (Kind.LENGTH, '61/2"', "has a fraction of 1 or more: write the whole number apart"),
    (Kind.LENGTH, "6 1/212", "finer than 1/64"),
    (Kind.PERCENT, "3-", "is not known here"),
    (Kind.PERCENT, "3--%", "is not known here"),
    (Kind.PITCH, "12/10", "can mean 12/10 in 12 or 12 in 10"),
    (Kind.LENGTH, "1/0 in", "fraction over zero"),
    (Kind.LENGTH, "6 1/0 in", "fraction over zero"),
    (Kind.LENGTH, "1/2/3 in", "is not known here"),
    (Kind.LENGTH, "1.5/2 in", "is not known here"),
    (Kind.LENGTH, "1/2 m", "write it as a decimal, such as 0.5 m."),
    (Kind.LENGTH, "1 1/4 mm", "such as 1.25 mm."),
    (Kind.LENGTH, "3,5 m", "write 3.5, or 35 without it."),
    (Kind.LENGTH, "1, 500 ft", "write 1500 or 1.5."),
    (Kind.LENGTH, "1.234,5", "where none belongs"),
    (Kind.LENGTH, ",5 ft", "where none belongs"),
    (Kind.LENGTH, "5,", "where none belongs"),
    (Kind.MASS, "1,20,000 lb", "where none belongs"),
    (Kind.MASS, "0,600 lb", "thousands or decimals: write 0600 or 0.6"),
    (Kind.MASS, "1.2 kN", "measures something else"),
    (Kind.WIDTH, "3 blahs", "not known here"),
    (Kind.LENGTH, "1.2.3", "decimal point too many"),
    (Kind.LENGTH, "1..2", "decimal point too many"),
    (Kind.LENGTH, "5 lb", "“5 lb” is a weight: a length is wanted, such as 42 ft 6 in."),
    (Kind.LENGTH, "5 sq ft", "is an area: a length is wanted"),
    (Kind.LENGTH, "5 ft²", "is an area: a length is wanted"),
    (Kind.LENGTH, "50 %", "is a percentage: a length is wanted"),
    (Kind.LENGTH, "26°", "is an angle: a length is wanted"),
    (Kind.LENGTH, "$5", "does not start with a number"),
    (Kind.LENGTH, "5 ft wide", "is not known here"),
    (Kind.LENGTH, "5 mil", "is in a unit not used for"),
    (Kind.LENGTH, "42 ft 6 x", "is not known here"),
    (Kind.LENGTH, "x 42 ft", "does not start with a number"),
    (Kind.LENGTH, "42'-", "ends too early"),
    (Kind.LENGTH, "42 ft,", "ends too early"),
    (Kind.LENGTH, "42--6", "cannot be read"),
    (Kind.LENGTH, "5 ft 6 m", "mixes feet and m"),
    (Kind.LENGTH, "5 m 20 cm", "mixes m and cm"),
    (Kind.LENGTH, "5 in 6 in", "has inches twice"),
    (Kind.LENGTH, "5 in 6 ft", "feet after inches: write feet first"),
    (Kind.LENGTH, "42.5 ft 6 in", "parts of feet before inches"),
    (Kind.LENGTH, "42 1/2 ft 6 in", "parts of feet before inches"),
    (Kind.LENGTH, "1e308", "more than 100 miles"),
    (Kind.LENGTH, "1e308 m", "more than 100 miles"),
    (Kind.LENGTH, "1e999999999", "power of ten too large"),
    (Kind.LENGTH, "1e-999999999", "power of ten too large"),
    (Kind.LENGTH, "101 miles", "is more than 100 miles"),
    (Kind.LENGTH, "600000 ft", "more than 100 miles"),
    (Kind.LENGTH, "9" * 60, "more than 100 miles"),
    (Kind.LENGTH, "9" * 10_000, "too long to be a length"),
    (Kind.LENGTH, "2**100", "is not known here"),
    (Kind.LENGTH, "1_000", "cannot be read from"),
    (Kind.LENGTH, "0x10", "is not known here"),
    (Kind.WIDTH, "5 lb", "a width is wanted, such as 20 1/4 in."),
    (Kind.WIDTH, "6001 in", "more than 500 ft"),
    (Kind.THICKNESS, "24 ga", "is a gauge, and that is another thickness in another metal"),
    (Kind.THICKNESS, "24 gauge", "is a gauge"),
    (Kind.THICKNESS, "24", "more than half an inch"),
    (Kind.THICKNESS, "2 ft", "not used for a thickness"),
    (Kind.MASS, "2 ton", "which ton: write short ton (2000 lb) or tonne (1000 kg)."),
    (Kind.MASS, "2 tons", "which ton"),
    (Kind.MASS, "5 lb 16 oz", "16 ounces or more after pounds"),
    (Kind.MASS, "5 lb 6", "number without a unit"),
    (Kind.MASS, "42 ft", "is a length: a weight is wanted, such as 2250 lb."),
    (Kind.PITCH, "1/4", "can mean 1/4 in 12 or 1 in 4: write 1/4:12 or 1:4."),
    (Kind.PITCH, "½", "can mean 1/2 in 12 or 1 in 2"),
    (Kind.PITCH, "30", "can mean that much in 12 or degrees"),
    (Kind.PITCH, "90°", "write an angle below 90°"),
    (Kind.PITCH, "120 deg", "write an angle below 90°"),
    (Kind.PITCH, "89.99°", "more than 1200 in 12"),
    (Kind.PITCH, "6:0", "has no run"),
    (Kind.PITCH, "6:12:3", "is not a pitch"),
    (Kind.PITCH, "steep", "has no number"),
    (Kind.PITCH, "9 12", "is not a pitch"),
    (Kind.PITCH, "6 ft", "is not a pitch"),
    (Kind.PITCH, "-6:12", "below zero"),
    (Kind.PITCH, "6:-12", "is not a pitch"),
    (Kind.PITCH, "26,6°", "write 26.6, or 266 without it."),
    (Kind.PERCENT, "3 lb", "is a weight: a percentage is wanted, such as 3 %."),
    (Kind.PERCENT, "3 4", "more than one number"),
    (Kind.PERCENT, "1001 %", "more than 1000 %"),
    (Kind.RATIO, "5 ft", "is a length: a plain number is wanted"),
    (Kind.COUNT, "12.5", "is not whole: a whole number is wanted"),
    (Kind.COUNT, "12 ft", "is a length: a whole number is wanted"),
    (Kind.ANGLE, "90.1", "more than 90°, straight up, which cannot be right for an angle"),
    (Kind.ANGLE, "120 deg", "more than 90°, straight up"),
    (Kind.ANGLE, "-5°", "below zero: an angle of zero or more is wanted, such as 60°."),
    (Kind.ANGLE, "1.05 rad", "an angle in another measure: write degrees, such as 60°."),
    (Kind.ANGLE, "60 radians", "an angle in another measure"),
    (Kind.ANGLE, "60 gon", "an angle in another measure"),
    (Kind.ANGLE, "59° 30'", "is not known here: an angle is wanted, such as 60°."),
    (Kind.ANGLE, "6:12", "more than one number"),
    (Kind.ANGLE, "60 %", "is a percentage: an angle is wanted"),
    (Kind.ANGLE, "60 ft", "is a length: an angle is wanted"),
    (Kind.ANGLE, "60 °F", "is a temperature: an angle is wanted"),
    (Kind.ANGLE, "60,5", "write 60.5, or 605 without it."),
    (Kind.TEMPERATURE, "-500", "below absolute zero"),
    (Kind.TEMPERATURE, "-274 C", "below absolute zero"),
    (Kind.TEMPERATURE, "300 K", "is not known here"),
    (Kind.TEMPERATURE, "120 ft", "is a length: a temperature is wanted"),
    (Kind.TEMPERATURE_DIFFERENCE, "-20", "below zero"),
    (Kind.EXPANSION, "6.7", "more than 0.001 per °F"),
    (Kind.MASS_PER_AREA, "oz/sq ft", "has no number"),
    (Kind.MASS_PER_AREA, "5 lb", "is a weight: a weight per area is wanted"),
    (Kind.MONEY_PER_MASS, "$1.20/ft", "is not known here: a price by weight is wanted"),
    (Kind.MONEY, "-$5", "below zero"),
    (Kind.MONEY, "$", "has no number"),
    (Kind.MONEY, "$$5", "does not start with a number"),
    (Kind.MONEY, "5 lb", "is a weight: an amount of money is wanted"),
]


@for_each(REFUSED)
def test_refused_with_a_sentence(kind: Kind, text: str, said: str) -> None:
    with pytest.raises(UnreadableQuantity) as caught:
        read(text, kind)
    sentence = str(caught.value)
    assert said in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert len(sentence) < 200
    if text.strip() and "unit" not in sentence:
        assert "“" in sentence


def test_examples_follow_the_unit_system() -> None:
    with pytest.raises(UnreadableQuantity, match=r"such as 12\.95 m\."):
        read("long", Kind.LENGTH, system=System.METRIC)
    with pytest.raises(UnreadableQuantity, match="more than 160 km"):
        read("900000 m", Kind.LENGTH, system=System.METRIC)


def test_what_was_typed_is_quoted_short_and_safe() -> None:
    with pytest.raises(UnreadableQuantity) as caught:
        read("bad\x1b[31m\nname " + "z" * 50, Kind.LENGTH)
    assert str(caught.value).startswith("“bad [31m name zzz")
    assert "…”" in str(caught.value)
    assert str(caught.value).isprintable()


@for_each([
    "9" * 10**6,
    "1/" * 40,
    "1 " * 40,
    "a " * 40,
    "6 in " * 16,
    "(" * 80,
    "1e" + "9" * 78,
    "." * 80,
    "- " * 40,
    "1-" * 40,
])
def test_hostile_text_is_refused_at_once(text: str) -> None:
    def refused() -> None:
        # Matching that runs away would not come back for hours, which nobody overlooks.
        for kind in Kind:
            with pytest.raises(UnreadableQuantity):
                read(text, kind)

    within(50_000, refused)


@pytest.mark.parametrize("typed", ["5 5/16", "1/2", "5½"])
def test_a_lone_fraction_in_a_box_for_feet_is_asked_about(typed: str) -> None:
    """It is nearly always inches, and would be read as twelve times as much."""
    with pytest.raises(UnreadableQuantity, match="could be feet or inches"):
        read(typed, Kind.LENGTH)
    assert read(typed, Kind.LENGTH, bare="in") == read(f"{typed} in", Kind.LENGTH)
