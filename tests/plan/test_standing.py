"""A figure is marked exactly when an answer it rests on is not sure.

Held from two sides. What moves when an answer is changed rests on it, so it must be marked while
that answer is a guess. And what is marked must have a guess among its terms, or among the answers
that decide how it is made (written down here, apart from the program).
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers import ANSWERS, Form, Value
from coilwright.job.coils import CoilOn
from coilwright.job.job import Job
from coilwright.job.metal import ThicknessBasis
from coilwright.job.roof import Building, Opening, Openings, Plane
from coilwright.plan import Plan, plan
from coilwright.sheets.state import state_of
from coilwright.store.reader import from_data, to_data
from coilwright.values.figure import Figure
from coilwright.values.standing import Standing
from tests.cases import building, guess, set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import whole_jobs
from tests.rules import for_each


@cache
def jobs() -> dict[str, Job]:
    """Whole jobs that between them use every answer that moves a figure."""
    window = Opening(left=40, up=30, width=60, height=40)
    house = building(Building.HIP, length=480, width=300, pitch=8)
    decoiler = {
        "coils.coil_on": CoilOn.DECOILER, "machine.decoiler_load": 3000.0,
        "machine.decoiler_diameter": 40.0, "machine.decoiler_smallest_coil_id": 16.0,
        "machine.decoiler_largest_coil_id": 24.0,
    }  # fmt: skip
    many = with_planes(small_gable(), Plane(eave=2000, slope_length=300, pitch=6))
    extra = {"coils.supplier_heaviest": 2950.0, "coils.site_lift": 2900.0}
    return {
        "gable of planes": small_gable(),
        "window": with_planes(
            small_gable(), Plane(eave=400, slope_length=200, pitch=6, openings=(window,))
        ),
        "window, deducted": set_answers(
            with_planes(
                small_gable(), Plane(eave=400, slope_length=200, pitch=6, openings=(window,))
            ),
            {"roof.openings": Openings.DEDUCT},
        ),
        "hip, least metal": set_answers(house, {"panel.start": PanelStart.LEAST_METAL}),
        "hip, turned": building(Building.HIP, length=300, width=480),
        "gable": building(Building.GABLE),
        "cross gable": set_answers(
            building(Building.CROSS),
            {"roof.wing_projection": 100.0, "roof.wing_width": 200.0, "roof.wing_left": 90.0},
        ),
        "gambrel, typed offset": set_answers(
            building(Building.GAMBREL),
            {"roof.lower_run": 60.0, "roof.lower_pitch": 20.0,
             "panel.start": PanelStart.OFFSET, "panel.offset": 5.0},
        ),
        "shed and a porch": with_planes(
            building(Building.SHED), Plane(eave=100, slope_length=80, pitch=3)
        ),
        "several coils": set_answers(many, extra),
        "several coils, decoiler": set_answers(many, decoiler),
        "bare steel": set_answers(
            small_gable(), {"metal.thickness_basis": ThicknessBasis.BARE}
        ),
        "one arbor": set_answers(small_gable(), {"machine.arbors": 1}),
    }


def other_values(job: Job, key: str) -> Iterator[Value]:
    """Other values the answer might have had."""
    answer = ANSWERS[key]
    own = answer.value(job)
    assert own is not None
    if answer.form is Form.CHOICE:
        yield from (choice for choice in answer.choices if choice != own)
    elif answer.form is Form.COUNT:
        assert isinstance(own, int)
        yield from (n for n in (1, 2, 3) if n != own)
    elif isinstance(own, float):
        yield from (own * 0.5, own * 0.97, own * 1.03, own * 1.5, own * 2 + 0.001)


def moved(before: Plan, after: Plan) -> set[str]:
    """Figures both plans have, and that differ."""
    return {
        key
        for key, figure in before.figures.items()
        if key in after.figures
        and not math.isclose(figure.value, after.figures[key].value, rel_tol=1e-9, abs_tol=1e-12)
    }


def answered(job: Job) -> list[str]:
    return [
        key
        for key, answer in ANSWERS.items()
        if key != "job.units"
        and answer.form in (Form.CHOICE, Form.COUNT, Form.QUANTITY)
        and answer.value(job) is not None
    ]


@cache
def planned(name: str) -> Plan:
    """The plan of one of the jobs, all of it sure."""
    return plan(jobs()[name])


@pytest.mark.slow
@pytest.mark.parametrize("name", jobs())
def test_what_moves_with_a_guess_is_marked(name: str) -> None:
    job = jobs()[name]
    sure, faults = planned(name), []
    values = {k: f.value for k, f in sure.figures.items()}
    for key in answered(job):
        unsure = plan(guess(job, key))
        if {k: f.value for k, f in unsure.figures.items()} != values:
            faults.append(f"a guess of {key} moves figures")
        marked = {k for k, f in unsure.figures.items() if f.mark}
        for value in other_values(job, key):
            unmarked = moved(sure, plan(set_answers(job, {key: value}))) - marked
            if key == "roof.building" and job.roof.planes:
                # another shape makes more planes: those measured one by one change their numbers
                unmarked = {k for k in unmarked if not k.startswith("plane.")}
            if unmarked:
                faults.append(f"{key} = {value} moves {sorted(unmarked)}")
    assert faults == []


@for_each(jobs())
def test_nothing_is_marked_while_all_is_sure(name: str) -> None:
    assert [k for k, f in plan(jobs()[name]).figures.items() if f.mark] == []


def rests_on(figure: Figure, job: Job, shaped: int) -> bool:
    """Whether a guess is among its terms, or decides how it is made."""
    if any(term.standing is not Standing.SURE for term in figure.terms):
        return True
    marks = job.standing
    keys = deciding(figure, job, shaped)
    return any(marks.get(key, Standing.SURE) is not Standing.SURE for key in keys)


def deciding(figure: Figure, job: Job, count: int) -> set[str]:
    """The answers that are no terms and yet decide a figure's value.

    count: how many numbers the building's planes take; those measured one by one come after.
    """
    key = figure.key
    if key in ANSWERS:
        return {key}
    building_answers = {
        k for k in job.standing if k.startswith("roof.") and k in ANSWERS
    } - {"roof.openings"}  # fmt: skip
    keys: set[str] = set()
    if key.startswith("plane."):
        number = int(key.split(".")[1])
        shaped = number <= count
        keys |= building_answers if shaped else {f"roof.planes.{number - count - 1}"}
        part = key.split(".", 2)[2]
        if part in ("panels", "extent", "laid", "tallest") or part.startswith("batch"):
            keys |= {"panel.coverage", "panel.start"}
            if job.panel.start is PanelStart.LEAST_METAL:
                keys.add("panel.end_allowance")
            if job.panel.start is PanelStart.OFFSET:
                keys.add("panel.offset")
            if not shaped and job.roof.planes[number - count - 1].openings:
                keys.add("roof.openings")
        if part.startswith("batch"):
            keys |= {"panel.end_allowance", "panel.rounding"}
    elif key.startswith(("roof.", "building.")):
        keys |= building_answers
    elif key.startswith(("edges.", "around.")):
        # which edges two planes share rests on all planes together
        keys |= {k for k in job.standing if k.startswith("roof.")}
    if key in ("roof.area", "building.area", "panels.count", "panels.extent", "panels.laid",
               "panels.length", "panels.longest"):  # fmt: skip
        keys.add("roof.building")
    if key in ("metal.density", "metal.expansion", "metal.coating_mass",
               "metal.coating_thickness", "coil.wrap", "metal.sheet_mass"):  # fmt: skip
        keys |= {"metal.metal", "metal.thickness_basis", "metal.coating"}
    if key in ("limit.diameter", "coil.longest"):
        keys |= {"coils.coil_on", "machine.arbors"}
    shared_out = key.startswith("coil.") and (".batch" in key or key.endswith(".panels"))
    shared_out |= key.startswith("buy.coil.") and key.endswith(".count")
    if shared_out or key in ("coil.count", "coil.least_metal", "coil.gap"):
        keys |= _all_of(job)
    return keys


def _all_of(job: Job) -> set[str]:
    """What decides how panels are shared out to coils: all that the longest coil and the
    panels rest on."""
    return {
        key
        for key in job.standing
        if key.split(".")[0] in ("roof", "panel", "metal", "coils", "machine")
    }


@given(whole_jobs(), st.data())
@settings(max_examples=draws(80))
def test_what_is_marked_rests_on_a_guess(job: Job, data: st.DataObject) -> None:
    if data.draw(st.booleans()) and job.standing:
        one = data.draw(st.sampled_from(sorted(job.standing)))
        job = dataclasses.replace(job, standing={one: Standing.GUESS})
    done = plan(job)
    shaped = next(
        (p.number - p.index - 1 for p in done.planes if p.index is not None), len(done.planes)
    )
    for figure in done.figures.values():
        if any(term.standing is not Standing.SURE for term in figure.terms):
            assert figure.mark, f"{figure.key} has a guess among its terms"
        if figure.mark:
            assert rests_on(figure, job, shaped), figure.key
        if figure.key in ANSWERS:
            assert figure.standing is job.standing.get(figure.key, Standing.SURE)


@for_each([
    ("panel.take_up", ["panels.count", "panels.length", "roof.area", "metal.sheet_mass"]),
    ("panel.coverage", ["roof.area", "metal.sheet_mass", "coil.wrap"]),
    ("metal.thickness", ["panels.count", "strip.width", "roof.area"]),
    ("coils.inside_diameter", ["panels.length", "strip.mass_per_length", "limit.arbor"]),
    ("roof.openings", ["panels.count", "coil.mass_ordered"]),  # it has no openings
    ("machine.rack_load", ["limit.arbor", "panels.count"]),
    ("job.hottest", ["coil.mass_ordered"]),
    ("metal.coating", ["coil.mass_ordered"]),  # thickness stated over the coating
])
def test_what_does_not_rest_on_a_guess_is_not_marked(key: str, unmarked: list[str]) -> None:
    done = plan(guess(small_gable(), key))
    assert [k for k in unmarked if done.figures[k].mark] == []


def test_a_guessed_plane_marks_its_own_figures_only() -> None:
    job = with_planes(
        small_gable(),
        Plane(eave=300, slope_length=200, pitch=6),
        Plane(eave=200, slope_length=100, pitch=6),
    )
    done = plan(guess(job, "roof.planes.1"))
    assert done.figures["plane.1.panels"].mark == ""
    assert done.figures["plane.2.panels"].mark == "~"
    assert done.figures["panels.count"].mark == "~"
    assert "roof.planes.1" in done.guesses


@given(whole_jobs())
@settings(max_examples=draws(40))
def test_the_same_job_gives_the_same_plan(job: Job) -> None:
    one, other = plan(job), plan(from_data(to_data(job), Job))
    for name in (f.name for f in dataclasses.fields(Plan)):
        if name not in ("figures", "lacks"):
            continue
        assert list(getattr(one, name)) == list(getattr(other, name))
    assert {k: (f.value, f.standing, f.equation) for k, f in one.figures.items()} == {
        k: (f.value, f.standing, f.equation) for k, f in other.figures.items()
    }
    assert one.findings == other.findings
    assert state_of(one) == state_of(other)
    assert [c.cuts for c in one.coils] == [c.cuts for c in other.coils]
    assert [p.panels for p in one.planes] == [p.panels for p in other.planes]
