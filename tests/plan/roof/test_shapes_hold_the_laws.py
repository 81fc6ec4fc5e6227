"""Every building shape keeps the laws of the plan: equations, standings, what is missing."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.plan import Plan, plan
from coilwright.plan.plane_changes import to_planes
from coilwright.store import read_model, to_text
from coilwright.values.figure import Figure
from coilwright.values.standing import Standing
from tests.cases import building, guess, set_answers
from tests.draws import draws
from tests.plan.test_standing import moved, other_values
from tests.rules import for_each
from tests.values.written import check

_WING = {"length": 700.0, "width": 300.0, "wing_projection": 150.0, "wing_width": 228.0}
_SMALL = {"eave_overhang": 14.0, "rake_overhang": 9.0, "pitch": 7.0}
JOBS = {
    "porch": building(Building.PORCH, porch_depth=96.0, porch_pitch=3.0, **_SMALL),
    "L": building(Building.ELL, **_WING, **_SMALL),
    "L, equal widths": building(Building.ELL, **{**_WING, "wing_width": 300.0}, **_SMALL),
    "L, gabled": building(Building.GABLED_ELL, **_WING, **_SMALL),
    "L, gabled, equal widths": building(
        Building.GABLED_ELL, **{**_WING, "wing_width": 300.0}, **_SMALL
    ),
    "cross": building(Building.CROSS, wing_left=130.0, **_WING, **_SMALL),
    "cross, equal widths": building(
        Building.CROSS, wing_left=130.0, **{**_WING, "wing_width": 300.0}, **_SMALL
    ),
    "gambrel": building(Building.GAMBREL, lower_run=60.0, lower_pitch=20.0, **_SMALL),
    "gable, typed offset": set_answers(
        building(Building.GABLE), {"panel.start": PanelStart.OFFSET, "panel.offset": 6.5}
    ),
    "L, least metal": set_answers(
        building(Building.ELL, **_WING, **_SMALL), {"panel.start": PanelStart.LEAST_METAL}
    ),
}  # fmt: skip
ROOF = ("length", "width", "eave_overhang", "rake_overhang", "pitch", "porch_depth",
        "porch_pitch", "wing_projection", "wing_width", "wing_left", "lower_run",
        "lower_pitch")  # fmt: skip
CASES = [
    (name, key)
    for name, job in JOBS.items()
    for key in (*(f"roof.{m}" for m in ROOF), "panel.offset", "panel.start", "roof.building")
    if ANSWERS[key].value(job) is not None and ANSWERS[key].asked(job)
]


def below(figure: Figure, seen: set[int]) -> list[Figure]:
    """The figure and all it rests on, each once."""
    if id(figure) in seen:
        return []
    seen.add(id(figure))
    return [figure, *(f for term in figure.terms for f in below(term, seen))]


@for_each(JOBS)
def test_every_equation_gives_its_figure_with_its_unit(name: str) -> None:
    seen: set[int] = set()
    count = 0
    for figure in plan(JOBS[name]).figures.values():
        for one in below(figure, seen):
            if one.formula is not None:
                check(one)
                count += 1
    assert count > 60


@cache
def planned(name: str) -> Plan:
    """The plan of one of the jobs, all of it sure."""
    return plan(JOBS[name])


@pytest.mark.slow
@for_each(CASES)
def test_what_moves_with_a_guess_is_marked(name: str, key: str) -> None:
    job = JOBS[name]
    sure, unsure = planned(name), plan(guess(job, key))
    marked = {k for k, f in unsure.figures.items() if f.mark}
    for value in other_values(job, key):
        unmarked = moved(sure, plan(set_answers(job, {key: value}))) - marked
        assert not unmarked, f"{key} = {value} moves them"


@for_each(JOBS)
def test_nothing_is_marked_while_all_is_sure(name: str) -> None:
    done = plan(JOBS[name])
    assert [k for k, f in done.figures.items() if f.standing is not Standing.SURE] == []
    assert done.ready or not done.coils


@for_each([c for c in CASES if c[1] != "panel.start"])
def test_what_is_missing_is_named_and_giving_it_brings_it_back(name: str, key: str) -> None:
    job = JOBS[name]
    lacking = plan(set_answers(job, {key: None}))
    assert "panels.count" not in lacking.figures
    assert key in lacking.lacks["panels.count"].needs
    assert key in lacking.open_answers
    assert planned(name).figures["panels.count"].value > 0


@for_each(JOBS)
def test_the_job_file_keeps_it_all(name: str) -> None:
    assert read_model(to_text(JOBS[name]), Job, "test") == JOBS[name]


def test_shapes_ask_only_what_they_need() -> None:
    extra = {
        Building.SHED: set(), Building.GABLE: set(), Building.HIP: set(),
        Building.PORCH: {"porch_depth", "porch_pitch"},
        Building.ELL: {"wing_projection", "wing_width"},
        Building.GABLED_ELL: {"wing_projection", "wing_width"},
        Building.CROSS: {"wing_projection", "wing_width", "wing_left"},
        Building.GAMBREL: {"lower_run", "lower_pitch"},
    }  # fmt: skip
    for shape, wanted in extra.items():
        job = building(shape)
        asked = {m for m in ROOF if ANSWERS[f"roof.{m}"].asked(job)}
        rakes = set() if shape is Building.HIP else {"rake_overhang"}
        assert asked == {"length", "width", "eave_overhang", "pitch"} | rakes | wanted


@given(
    st.sampled_from([b for b in Building if b is not Building.PLANES]),
    st.fixed_dictionaries({}, optional={
        m: st.one_of(
            st.floats(-1e3, 1e5), st.sampled_from([0.0, 1e-9, 1.0, 12.0, 299.99999, 300.0, 1e7]),
        )
        for m in ROOF
    }),
)  # fmt: skip
@settings(max_examples=draws(200))
def test_no_measures_make_it_fall_over(shape: Building, odd: dict[str, float]) -> None:
    start: dict[str, float] = {**_WING, **_SMALL, "wing_left": 100.0, "porch_depth": 96.0,
                               "porch_pitch": 3.0, "lower_run": 60.0, "lower_pitch": 20.0}
    done = plan(building(shape, **{**start, **odd}))
    area = done.figures.get("roof.area")
    assert area is None or area.value > 0
    assert area is not None or done.lacks["roof.area"]
    again = plan(to_planes(done.job))
    assert area is None or again.figures["roof.area"].value == pytest.approx(area.value)
