"""EN 10346: coatings AZ100 to AZ185 and Z100 to Z275, by grams on a square meter of both sides.

Flag: from memory; so is EN 508-1 for bare roofs. The densities are those of the ASTM coatings.
"""

from __future__ import annotations

import dataclasses

import pytest

from coilwright.calc.coating import COATINGS, EN_NAMES, US_NAMES, CoatingKind, is_same, twin
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.edit import do_not_know, give, give_text
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, Finish
from coilwright.plan import plan
from coilwright.plan.coils.stock import fitting
from coilwright.sheets.designations import designation
from coilwright.units import System
from coilwright.values.source import Grade
from tests.cases import set_answers, small_gable
from tests.plan.coils.stock import coil
from tests.printed import printed
from tests.published.test_galvinfo_coatings import grams_per_square_meter


@pytest.mark.parametrize("name", EN_NAMES)
def test_the_name_is_the_weight_in_grams(name: CoatingName) -> None:
    record = COATINGS[name]
    kind = CoatingKind.ALUMINUM_ZINC if name.startswith("A") else CoatingKind.ZINC
    assert record.kind is kind
    assert grams_per_square_meter(record.mass) == pytest.approx(float(name.strip("AZ")), rel=1e-9)
    assert (record.standard, record.standard_source.grade) == ("EN 10346", Grade.MEMORY)


@pytest.mark.parametrize(("name", "microns_a_side"), [
    ("AZ100", "13.3"), ("AZ150", "20.0"), ("AZ185", "24.7"), ("Z200", "14.0"), ("Z275", "19.3")])
def test_thickness(name: str, microns_a_side: str) -> None:
    # computed: g/m² ÷ 2 ÷ 3.75 or 7.14 g/cm³
    assert COATINGS[CoatingName(name)].thickness / 2 * 25_400 == printed(microns_a_side)


def test_what_has_a_name_by_ounces_too() -> None:
    assert {us: twin(us, EN_NAMES) for us in US_NAMES} == {
        "AZ50": "AZ150", "AZ55": None, "AZ60": None, "G60": None, "G90": "Z275", "none": None}
    assert not is_same(CoatingName.AZ60, CoatingName.AZ185)
    assert fitting(set_answers(small_gable(), {"metal.coating": CoatingName.AZ150}),
                   coil("A-1", 100)) == ()


def test_a_metric_job_is_offered_them_and_a_us_one_is_not() -> None:
    answer = ANSWERS[MetalKey.COATING]
    us, metric = Job(), give(Job(), JobKey.UNITS, System.METRIC)
    assert answer.picks(us) == US_NAMES
    assert answer.picks(metric) == (*EN_NAMES, *US_NAMES)
    # Where a European standard is named, none of ASTM's is offered; what is chosen stays.
    for job in (us, metric):
        named = give(job, MetalKey.STANDARD, "DIN EN 10346")
        assert answer.picks(named) == (*EN_NAMES, CoatingName.NONE)
        chosen = give(named, MetalKey.COATING, CoatingName.AZ50)
        assert answer.picks(chosen) == (*EN_NAMES, CoatingName.NONE, CoatingName.AZ50)
    # What a job has stays among its picks, and a text of either system is read in both.
    us, error = give_text(us, MetalKey.COATING, "az185")
    assert (error, answer.picks(us)[-1]) == ("", CoatingName.AZ185)
    # What is usual is one coating by two names, and so a guess goes along with the units.
    guessed = give(do_not_know(Job(), MetalKey.COATING), JobKey.UNITS, System.METRIC)
    assert guessed.metal.coating is CoatingName.AZ150


@pytest.mark.parametrize(("coating", "standard", "said"), [
    ("AZ185", None, "EN 10346, coating AZ185; prepainted to EN 10169 over it; grade 50"),
    ("AZ185", "EN 10346", "EN 10346, coating AZ185, 50"),
    ("Z275", "EN 10346", "EN 10346, coating Z275, 50"),
    ("G90", "EN 10346", "EN 10346, coating Z275 (G90), 50"),
    ("AZ60", "EN 10346", "EN 10346, coating AZ60 by ASTM A792, 50"),
    ("AZ185", "ASTM A792M", "ASTM A792M, coating AZ185 by EN 10346, 50"),
])
def test_how_papers_name_them(coating: str, standard: str | None, said: str) -> None:
    metal = dataclasses.replace(
        small_gable().metal, coating=CoatingName(coating), standard=standard, grade="50")
    assert designation(metal) == said


@pytest.mark.parametrize(("coating", "finish", "key"), [
    ("AZ100", Finish.PVDF, "metal.thin_coating"), ("Z225", Finish.PVDF, "metal.thin_coating"),
    ("AZ150", Finish.PVDF, ""), ("AZ150", Finish.BARE, "metal.bare_az50"),
    ("AZ185", Finish.BARE, ""), ("Z275", Finish.PVDF, ""),
])
def test_too_little_is_told_by_names_of_the_same_standard(
    coating: str, finish: Finish, key: str
) -> None:
    job = set_answers(small_gable(), {
        "metal.coating": CoatingName(coating), "metal.finish": finish})
    found = [f for f in plan(job).findings if f.key in ("metal.thin_coating", "metal.bare_az50")]
    assert [f.key for f in found] == [key][: bool(key)]
    assert all("AZ185" in f.do and "AZ55" not in f.do for f in found)
