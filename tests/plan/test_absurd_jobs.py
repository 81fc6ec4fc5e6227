"""Jobs nothing real has: findings in plain words, never an exception, never a long wait."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers import ANSWERS, Form, Value
from coilwright.job.job import Job
from coilwright.job.roof import Building, Measured, Opening, Openings, Plane, Shape
from coilwright.plan import plan
from coilwright.plan.coils.order import MOST_COILS
from coilwright.sheets import render
from coilwright.sheets.summary import alike_coils
from coilwright.values.finding import Level
from tests.benchmarks.cold import cool_down
from tests.cases import building, set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import whole_jobs
from tests.rules import for_each
from tests.work import within

MOST_CALLS = 10_000_000
"""Three times what the longest of these takes; most take a thousandth of it."""


def gable(**measures: float) -> Job:
    return building(Building.GABLE, **measures)


def plane(**measures: object) -> Job:
    return with_planes(small_gable(), Plane(**measures))


# name: (the job, the stop that must be among its findings)
STOPPED: dict[str, tuple[Job, str]] = {
    "a roof ten thousand feet long": (gable(length=120_000, width=12_000), "coil.too_many"),
    "a thousand large planes": (
        plane(eave=2000, slope_length=900, pitch=6, alike=999), "coil.too_many",
    ),
    "a hip so long that a small rack takes one panel a coil": (
        set_answers(building(Building.HIP, length=12_000, width=720),
                    {"machine.rack_diameter": 21.0}), "coil.too_many",
    ),
    "more coils than any order has": (
        plane(shape=Shape.TRIANGLE, eave=20_000, slope_length=9000, pitch=6, alike=3),
        "coil.too_many",
    ),
    "a million strips": (plane(eave=16e6, slope_length=90), "panels.too_many"),
    "a panel longer than any coil": (plane(eave=90, slope_length=20_000), "coil.panel_too_long"),
    "a plane narrower than any panel": (plane(eave=0.05, slope_length=200), "panels.none"),
    "an opening as large as its plane": (
        set_answers(
            plane(eave=96, slope_length=96,
                  openings=(Opening(left=0, up=0, width=96, height=96),)),
            {"roof.openings": Openings.DEDUCT},
        ),
        "panels.none",
    ),
    "an opening outside its plane": (
        plane(eave=96, slope_length=96,
              openings=(Opening(left=90, up=0, width=30, height=30),)),
        "plane.1.outline",
    ),
    "a triangle of no height": (
        plane(shape=Shape.CORNERS, corners=((0, 0), (90, 0), (180, 0))), "plane.1.outline",
    ),
    "corners that cross": (
        plane(shape=Shape.CORNERS, corners=((0, 0), (100, 100), (100, 0), (0, 100))),
        "plane.1.outline",
    ),
    "a flat roof": (gable(pitch=0), "roof.too_flat"),
    "coverage of a hundredth of an inch": (
        set_answers(small_gable(), {"panel.coverage": 0.01}), "panel.coverage.unreal",
    ),
    "coverage of nothing": (
        set_answers(small_gable(), {"panel.coverage": 0.0}), "panel.coverage.unreal",
    ),
    "coverage of nothing and a first seam beyond it": (
        set_answers(small_gable(), {
            "panel.start": PanelStart.OFFSET, "panel.offset": 8.0, "panel.coverage": 0.0,
        }),
        "panel.coverage.unreal",
    ),
    "metal of no thickness": (
        set_answers(small_gable(), {"metal.thickness": 0.0}), "metal.thickness.unreal",
    ),
    "rounding to nothing": (
        set_answers(small_gable(), {"panel.rounding": 0.0}), "panel.rounding.unreal",
    ),
    "a negative allowance": (
        set_answers(small_gable(), {"panel.end_allowance": -1.0}), "panel.end_allowance.unreal",
    ),
    "an arbor that carries nothing": (
        set_answers(small_gable(), {"machine.arbor_load": 0.0}), "machine.arbor_load.unreal",
    ),
    "all of it lost to the tolerance": (
        set_answers(small_gable(), {"coils.tolerance": 1.0}), "coils.tolerance.unreal",
    ),
    "a building of no size": (
        building(Building.HIP, length=0, width=0, eave_overhang=0), "roof.length.unreal",
    ),
    "more lost to thread-up than a coil holds": (
        set_answers(small_gable(), {"machine.rack_diameter": 20.5, "machine.thread_up": 1200.0}),
        "coil.panel_too_long",
    ),
    "an inside diameter larger than the rack takes": (
        set_answers(small_gable(), {"coils.inside_diameter": 40.0}), "machine.inside",
    ),
    "no arbors at all": (set_answers(small_gable(), {"machine.arbors": 0}), "machine.no_rack"),
}  # fmt: skip

FINE: dict[str, Job] = {
    "no overhang": building(Building.HIP, eave_overhang=0, rake_overhang=0),
    "almost upright": gable(pitch=239),
    "half of it lost to the tolerance": set_answers(small_gable(), {"coils.tolerance": 0.5}),
    "nothing lost": set_answers(
        small_gable(), {"machine.thread_up": 0.0, "machine.tail": 0.0, "coils.spare": 0.0,
                        "coils.tolerance": 0.0, "panel.end_allowance": 0.0},
    ),
    "many coils of few long panels": plane(
        shape=Shape.TRIANGLE, eave=20_000, slope_length=9000, pitch=6
    ),
    "a sheet twenty thousand panels wide": set_answers(
        plane(eave=80_000, slope_length=100, pitch=6), {"panel.coverage": 4.0}
    ),
}  # fmt: skip


@for_each(STOPPED)
def test_is_stopped_in_words(name: str) -> None:
    job, key = STOPPED[name]
    cool_down()
    done = within(MOST_CALLS, lambda: plan(job))
    (finding,) = [f for f in done.findings if f.key == key]
    assert finding.level is Level.STOP
    assert finding.what.endswith(".")
    assert finding.do.endswith(".")
    assert not done.ready


@pytest.mark.parametrize("name", FINE)
def test_is_odd_and_yet_can_be_ordered(name: str) -> None:
    cool_down()
    done = within(MOST_CALLS, lambda: plan(FINE[name]))
    assert done.coils
    assert done.figures["account.total"].value == pytest.approx(
        done.figures["coil.mass_ordered"].value
    )


def test_hundreds_of_coils_are_soon_planned_and_alike_ones_told_once() -> None:
    job = set_answers(building(Building.HIP, length=12_000, width=720),
                      {"machine.rack_diameter": 22.0})
    cool_down()
    done = within(1_000_000, lambda: plan(job))
    assert 250 < len(done.coils) <= MOST_COILS
    groups = alike_coils(done)
    assert len(groups) < 0.6 * len(done.coils)
    assert sorted(coil.number for same in groups for coil in same) == [
        coil.number for coil in done.coils]
    text = render("summary", done, "md")
    most = max(groups, key=len)
    assert f": {len(most)} alike, each" in text
    assert text.count("### Coil") == len(groups)


NUMBERS = [k for k, a in ANSWERS.items() if a.form in (Form.QUANTITY, Form.COUNT)]


@pytest.mark.slow
@pytest.mark.parametrize("value", [0.0, -1.0, 1e-9, 1e9])
def test_any_number_in_any_answer(value: float) -> None:
    faults = []
    for key in NUMBERS:
        put: Value = int(value) if ANSWERS[key].form is Form.COUNT else value
        for job in (small_gable(), building(Building.HIP), building(Building.GABLE)):
            try:
                done = plan(set_answers(job, {key: put}))
            except Exception as error:
                faults.append(f"{key}: {error!r}")
                continue
            faults += [f"{key}: {name} is {figure.value}" for name, figure in done.figures.items()
                       if not math.isfinite(figure.value)]
    assert faults == []


@given(
    whole_jobs(),
    st.lists(
        st.tuples(
            st.sampled_from(NUMBERS),
            st.one_of(
                st.floats(-1e6, 1e7), st.sampled_from([0.0, 1e-12, 1e-3, 1.0, 1e3, 1e12])
            ),
        ),
        max_size=4,
    ),
)
@settings(max_examples=draws(100))
def test_nothing_makes_it_fall_over(job: Job, odd: list[tuple[str, float]]) -> None:
    for key, value in odd:
        put: Value = int(value) if ANSWERS[key].form is Form.COUNT else value
        job = set_answers(job, {key: put})
    done = plan(job)
    if done.account:
        assert done.figures["account.total"].value == pytest.approx(
            done.figures["coil.mass_ordered"].value, rel=1e-9
        )


@given(
    shape=st.sampled_from(Shape),
    numbers=st.lists(
        st.one_of(st.none(), st.floats(-1e5, 1e5), st.sampled_from([0.0, 1e-9, 1.0, 1e7])),
        min_size=5, max_size=5,
    ),
    corners=st.lists(st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4)), max_size=6),
    measured=st.sampled_from(Measured),
)  # fmt: skip
@settings(max_examples=draws(150))
def test_no_plane_makes_it_fall_over(
    shape: Shape,
    numbers: list[float | None],
    corners: list[tuple[float, float]],
    measured: Measured,
) -> None:
    eave, top, up, offset, pitch = numbers
    odd = Plane(
        shape=shape, eave=eave, top=top, slope_length=up, offset=offset, pitch=pitch,
        corners=tuple(corners), measured=measured,
    )  # fmt: skip
    done = plan(with_planes(small_gable(), odd))
    assert "roof.area" in done.figures or "roof.area" in done.lacks
    area = done.figures.get("roof.area")
    assert area is None or area.value > 0


def test_a_number_nobody_could_read_is_told_by_its_digits() -> None:
    for absurd, said in ((1e308, "a number of 309 digits is too much to be real"),
                         (-1e20, "a number of 21 digits is less than nothing")):
        job = set_answers(small_gable(), {"haul.gear": absurd, "machine.weight": 7400.0})
        (finding,) = plan(job).stops
        assert said in finding.what
        assert len(finding.what) < 100
