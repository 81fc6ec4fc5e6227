"""One record per metal: whole, with sources; weights of sheet and movement as laws.

Densities, expansion, gauges and coatings are held to their sources in `tests/published`.
"""

from __future__ import annotations

from dataclasses import MISSING, fields
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.coating import (
    COATINGS,
    OUNCE_PER_SQUARE_FOOT,
    US_NAMES,
    Coating,
    CoatingKind,
)
from coilwright.calc.gauges import COPPER_OUNCES, GAUGES, GaugeScale, gauge_meanings
from coilwright.calc.metal import (
    METALS,
    Contact,
    Metal,
    coated_sheet_mass,
    is_coated,
    movement,
    sheet_mass,
)
from coilwright.calc.strip import mass_per_length, strip_width
from coilwright.job.metal import CoatingName, MetalName
from coilwright.values.source import Grade
from coilwright.words import words

THICKNESSES = st.floats(0.01, 0.1)


def test_every_choice_has_its_row() -> None:
    assert set(METALS) == {m.value for m in MetalName}
    assert set(COATINGS) == {c.value for c in CoatingName}


@pytest.mark.parametrize("name", METALS)
def test_every_value_says_where_it_is_from(name: MetalName) -> None:
    record = METALS[name]
    assert record.name is name
    assert record.word == name.value
    found = [getattr(record, f.name) for f in fields(record) if f.name.endswith("_source")]
    assert len(found) == 8
    for source in (record.density_source, record.expansion_source, record.gauge_source,
                   record.code_source, record.salt_source, record.grades_source):
        assert source.text
        assert source.grade in (Grade.PUBLISHED, Grade.COPY, Grade.MEMORY)
    touching = record.contact
    for material in fields(touching):
        unlike = getattr(touching, material.name)
        assert unlike is None or (unlike.because and unlike.source.text)


@pytest.mark.parametrize("kind", [Metal, Contact, Coating])
def test_a_record_has_no_defaults(kind: type) -> None:
    """A fact that is left out is an error, never somebody else's value."""
    for field in fields(kind):
        assert field.default is MISSING, field.name
        assert field.default_factory is MISSING, field.name


@pytest.mark.parametrize("name", MetalName)
def test_a_metal_is_ordered_by_a_standard_or_by_its_coatings(name: MetalName) -> None:
    record = METALS[name]
    assert (record.standard is None) == bool(record.coatings)
    assert is_coated(name) == bool(record.coatings)
    assert not is_coated(None)


def test_standards_of_the_metals() -> None:
    """IBC Table 1507.4.3(1): B209, B370 (published); A240, B69 and EN 988 from memory."""
    said = {n: r.standard and (r.standard.name, r.standard.source.grade) for n, r in METALS.items()}
    assert said.items() >= {
        MetalName.STEEL: None,
        MetalName.ALUMINUM: ("ASTM B209", Grade.PUBLISHED),
        MetalName.COPPER: ("ASTM B370", Grade.PUBLISHED),
        MetalName.STAINLESS: ("ASTM A240", Grade.MEMORY),
        MetalName.ZINC: ("ASTM B69 (Europe: EN 988)", Grade.MEMORY),
    }.items()


def test_a_coatings_metric_number_is_its_weight_in_grams() -> None:
    """G numbers: ASTM A653 (copy); AZ numbers: A792, from memory. Mass 305.15 g/m² an ounce."""
    for name in US_NAMES:
        record = COATINGS[name]
        if record.kind is CoatingKind.NONE:
            assert (record.mass, record.thickness, record.standard, record.metric) == (0, 0, "", "")
            continue
        grams = record.mass / OUNCE_PER_SQUARE_FOOT * 305.15
        metric = float(record.metric.split(":")[1].strip(" AZM"))
        assert metric == pytest.approx(grams, rel=0.02), name
        hundredths = float(name.value.strip("AZG"))
        assert record.mass / OUNCE_PER_SQUARE_FOOT * 100 == pytest.approx(hundredths)
        assert record.standard == ("ASTM A653" if name.value.startswith("G") else "ASTM A792")


def test_the_code_lists_az50_and_g90() -> None:
    """IBC Table 1507.4.3(1): AZ50 read, G90 from memory; UFGS 07412: bare roofs take AZ55."""
    assert {n.value for n, r in COATINGS.items() if r.on_code_list} == {
        "AZ50", "AZ55", "AZ60", "G90", "AZ150", "AZ185", "Z275"}
    assert [n.value for n, r in COATINGS.items() if r.usually_painted] == ["AZ50", "AZ150"]


def test_each_metal_reads_a_gauge_in_its_own_table() -> None:
    """24 on each scale: SMACNA and MSG, 15 U.S.C. 206, AWG; copper's 16 oz by ASTM B370.

    The zinc gauge ends before: 14 on it is 0.036 in, from memory.
    """
    at_24 = {n.value: [m.thickness for m in gauge_meanings(24, r.gauge)]
             for n, r in METALS.items()}
    known = {"steel": [0.0236, 0.0239, 0.0276], "stainless steel": [0.0250],
             "aluminum": [0.0201], "zinc": [], "copper": [0.0323]}
    for name, thicknesses in known.items():
        assert at_24[name] == thicknesses
    assert gauge_meanings(14, METALS[MetalName.ZINC].gauge)[0].thickness == 0.036
    assert gauge_meanings(16, GaugeScale.COPPER_OUNCES)[0].thickness == 0.0216
    for number in range(1, 100):
        assert gauge_meanings(number, GaugeScale.NONE) == ()
    assert not METALS[MetalName.ALUMINUM].ordered_by_gauge
    assert METALS[MetalName.COPPER].ordered_by_gauge


@pytest.mark.parametrize("name", MetalName)
def test_usual_sheets_grow_thicker(name: MetalName) -> None:
    sheets = METALS[name].usual
    assert all(s.thinnest <= s.thickest for s in sheets)
    for thinner, thicker in pairwise(sheets):
        assert thinner.thinnest < thicker.thinnest
        assert thinner.thickest < thicker.thickest
    assert METALS[name].usual_thinnest < METALS[name].usual_thickest


def test_usual_sheets_are_what_their_names_say() -> None:
    """Portable machines: steel 28 to 22 ga, aluminum 0.027 to 0.040 in, copper 16 to 20 oz.

    Common practice, no source; zinc and stainless steel from memory.
    """
    for sheet in METALS[MetalName.STEEL].usual:
        row = GAUGES[int(sheet.said.removesuffix(" ga"))]
        nominal = (row.manufacturers, row.galvanized_least)
        assert min(nominal) == sheet.thinnest
        assert row.galvanized == sheet.thickest
    for sheet in METALS[MetalName.STAINLESS].usual:
        row = GAUGES[int(sheet.said.removesuffix(" ga"))]
        assert row.us_standard == pytest.approx(sheet.thickest, abs=6e-5)
    for sheet in METALS[MetalName.ALUMINUM].usual:
        assert float(sheet.said.removesuffix(" in")) == sheet.thinnest == sheet.thickest
    for sheet in METALS[MetalName.COPPER].usual:
        assert COPPER_OUNCES[int(sheet.said.removesuffix(" oz"))] == sheet.thinnest
    for sheet in METALS[MetalName.ZINC].usual:
        inches = float(sheet.said.removesuffix(" mm")) / 25.4
        assert sheet.thinnest - 6e-4 <= inches <= sheet.thickest


def test_grades_and_tempers() -> None:
    """Alloys, types and tempers usual for roofs; from memory, and the record says so."""
    assert METALS[MetalName.STEEL].grades == ("33", "40", "50")
    assert METALS[MetalName.ALUMINUM].grades == ("3003", "3004", "3105")
    assert METALS[MetalName.ALUMINUM].tempers == ("H14", "H24")
    assert METALS[MetalName.COPPER].tempers == ("060", "H00", "H01", "H02", "H03", "H04")
    assert METALS[MetalName.STAINLESS].grades == ("304", "316")
    for name in (MetalName.STEEL, MetalName.ALUMINUM, MetalName.COPPER, MetalName.STAINLESS):
        assert METALS[name].grades_source.grade is Grade.MEMORY


def test_the_metal_is_asked_for_by_every_metals_word() -> None:
    ask = words("metal.metal").ask
    for record in METALS.values():
        assert record.word in ask, record.word


@given(st.sampled_from(list(METALS)), THICKNESSES, st.floats(1, 60), st.floats(1, 1e5))
def test_weight_is_density_times_volume(
    name: str, thickness: float, width: float, length: float
) -> None:
    density = METALS[name].density
    strip = mass_per_length(sheet_mass(density, thickness), width)
    assert strip * length == pytest.approx(density * thickness * width * length, rel=1e-12)


@pytest.mark.parametrize("coating", ["AZ50", "AZ55", "AZ60", "G60", "G90"])
@pytest.mark.parametrize("stated", [0.0142, 0.0157, 0.0187, 0.0236, 0.0296])
def test_counting_the_coating_as_metal_errs_to_the_heavy_side(
    coating: str, stated: float
) -> None:
    """By as much as the sheet's note says: up to 8 % on thin steel, 4 % at 0.0236 in, AZ50."""
    steel, skin = METALS["steel"].density, COATINGS[coating]
    exact = coated_sheet_mass(steel, stated - skin.thickness, skin.mass)
    heavy = sheet_mass(steel, stated) / exact - 1
    assert 0 < heavy < 0.08
    if (coating, stated) == ("AZ50", 0.0236):
        assert round(heavy * 100) == 4
    if (coating, stated) == ("AZ60", 0.0142):
        assert round(heavy * 100) == 8


@given(st.floats(1e-6, 2e-5), st.floats(1, 5000), st.floats(-60, 60), st.floats(60, 200))
def test_movement_adds_up(alpha: float, length: float, cold: float, hot: float) -> None:
    middle = (cold + hot) / 2
    whole = movement(alpha, length, hot, cold)
    parts = movement(alpha, length, hot, middle) + movement(alpha, length, middle, cold)
    assert whole == pytest.approx(parts, rel=1e-9)
    assert movement(alpha, 2 * length, hot, cold) == pytest.approx(2 * whole)
    assert movement(alpha, length, cold, hot) == -whole


def test_strip() -> None:
    assert strip_width(16, 5) == 21
