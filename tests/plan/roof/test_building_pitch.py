"""The pitch of a building shape from two measured lengths, instead of a pitch that was read."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.plan import plan
from coilwright.store.reader import from_data, to_data
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.standing import Standing
from tests.cases import building, set_answers
from tests.draws import draws
from tests.values.written import check

SHAPES = [shape for shape in Building if shape is not Building.PLANES]
MORE = {"wing_projection": 120.0, "wing_width": 160.0, "wing_left": 100.0, "porch_depth": 96.0,
        "porch_pitch": 3.0, "lower_run": 60.0, "lower_pitch": 20.0}  # fmt: skip


def measured(shape: Building = Building.GABLE, **lengths: float | None) -> Job:
    """A building without a pitch, and with these lengths measured for it."""
    job = set_answers(building(shape, **MORE), {"roof.pitch": None})
    return set_answers(job, {f"roof.pitch_{name}": value for name, value in lengths.items()})


def stops(job: Job) -> list[Finding]:
    return [f for f in plan(job).stops if f.key == "roof.no_pitch"]


def test_from_a_rise() -> None:
    """A right triangle: 4 ft up in 8 ft is 6 in 12."""
    done = plan(measured(rise=48.0, run=96.0))
    pitch = done.figures["roof.pitch"]
    assert pitch.value == 6
    assert pitch.equation == "12·h / R"
    assert [t.key for t in pitch.terms] == ["roof.pitch_rise", "roof.pitch_run"]
    assert {p.pitch for p in done.planes} == {6}


def test_from_a_length_up_the_slope() -> None:
    """3-4-5: 20 ft up the slope over 16 ft is 9 in 12."""
    pitch = plan(measured(slope=240.0, run=192.0)).figures["roof.pitch"]
    assert pitch.value == pytest.approx(9)
    assert pitch.equation == "12·√((S / R)² − 1)"


@pytest.mark.parametrize("shape", SHAPES)
def test_the_same_roof_as_from_the_pitch_itself(shape: Building) -> None:
    by_pitch = plan(building(shape, **MORE, pitch=9.0))
    for lengths in ({"rise": 144.0, "run": 192.0}, {"slope": 240.0, "run": 192.0}):
        done = plan(measured(shape, **lengths))
        assert [p.groups for p in done.planes] == [p.groups for p in by_pitch.planes]
        for key in ("roof.area", "coil.mass_ordered"):
            assert done.figures[key].value == pytest.approx(by_pitch.figures[key].value)
        assert done.ready == by_pitch.ready
        assert done.open_answers == by_pitch.open_answers
        for figure in done.figures.values():
            if figure.key.startswith(("roof.", "plane.")) and figure.formula is not None:
                check(figure)


@given(st.sampled_from(SHAPES), st.floats(0, 24), st.floats(24, 300))
@settings(max_examples=draws(40), deadline=None)
def test_any_pitch_comes_back_from_its_lengths(
    shape: Building, pitch: float, run: float
) -> None:
    by_rise = plan(measured(shape, rise=pitch / 12 * run, run=run)).figures["roof.pitch"]
    assert by_rise.value == pytest.approx(pitch)
    up = run * math.sqrt(1 + (pitch / 12) ** 2)
    by_slope = plan(measured(shape, slope=max(up, run), run=run)).figures["roof.pitch"]
    # a flat roof's slope is as long as its run: the last digits of a float are lost
    assert by_slope.value == pytest.approx(pitch, rel=1e-6, abs=1e-5)


def test_a_rise_stands_before_a_slope_and_a_pitch_before_both() -> None:
    both = measured(rise=48.0, slope=240.0, run=96.0)
    assert plan(both).figures["roof.pitch"].value == 6
    assert plan(set_answers(both, {"roof.pitch": 4.0})).figures["roof.pitch"].value == 4


def asked(job: Job) -> set[str]:
    return {name for name in ("pitch", "pitch_rise", "pitch_run", "pitch_slope")
            if ANSWERS[f"roof.{name}"].asked(job)}  # fmt: skip


def test_what_is_asked() -> None:
    assert asked(building(Building.GABLE)) == {"pitch"}
    assert asked(measured()) == {"pitch", "pitch_rise", "pitch_run", "pitch_slope"}
    assert asked(measured(rise=48.0)) == {"pitch", "pitch_rise", "pitch_run"}
    assert asked(building(Building.PLANES)) == set()
    without = set_answers(building(Building.PLANES), {"roof.pitch": None})
    assert asked(without) == set()


@pytest.mark.parametrize("lengths", [{}, {"rise": 48.0}, {"slope": 96.0}, {"run": 96.0}])
def test_half_a_pitch_is_no_pitch(lengths: dict[str, float]) -> None:
    done = plan(measured(**lengths))
    assert "roof.pitch" in done.open_answers
    assert "roof.area" in done.lacks
    assert not done.planes


def test_two_lengths_are_a_pitch_that_nobody_need_ask_for() -> None:
    assert "roof.pitch" not in plan(measured(rise=48.0, run=96.0)).open_answers


def test_a_pitch_typed_and_not_read_is_still_open() -> None:
    job = measured(rise=48.0, run=96.0)
    job = dataclasses.replace(job, typed={"roof.pitch": "steep"})
    assert "roof.pitch" in plan(job).open_answers


@pytest.mark.parametrize(
    ("lengths", "words"),
    [
        ({"slope": 95.0, "run": 96.0}, "no slope is shorter than its run"),
        ({"rise": 12_000.0, "run": 12.0}, "no roof is so steep"),
        ({"slope": 120_000.0, "run": 12.0}, "no roof is so steep"),
    ],
)
def test_lengths_that_give_no_pitch_are_a_stop(lengths: dict[str, float], words: str) -> None:
    (told,) = stops(measured(**lengths))
    assert words in told.what
    assert "roof.pitch_run" in told.answers
    done = plan(measured(**lengths))
    assert not done.planes
    assert "roof.pitch" not in done.figures
    assert stops(measured(rise=48.0, run=96.0)) == []
    assert stops(measured(slope=96.0, run=96.0)) == []


@pytest.mark.parametrize(
    "lengths",
    [{"rise": 48.0, "run": 0.0}, {"rise": -5.0, "run": 96.0}, {"slope": 5.0, "run": -1.0}],
)
def test_lengths_nothing_real_has_break_nothing(lengths: dict[str, float]) -> None:
    done = plan(measured(**lengths))
    assert "roof.pitch" not in done.figures
    assert any(f.key.endswith(".unreal") for f in done.stops)


@pytest.mark.parametrize("key", ["roof.pitch_rise", "roof.pitch_run"])
def test_a_guessed_length_makes_the_pitch_and_the_order_guesses(key: str) -> None:
    job = dataclasses.replace(measured(rise=48.0, run=96.0), standing={key: Standing.GUESS})
    done = plan(job)
    assert done.figures["roof.pitch"].standing is Standing.GUESS
    assert done.figures["coil.mass_ordered"].standing is Standing.GUESS
    assert key in done.guesses


def test_a_gambrel_the_wrong_way_round_is_seen_also_by_its_lengths() -> None:
    job = set_answers(measured(Building.GAMBREL, rise=200.0, run=96.0), {"roof.lower_pitch": 8.0})
    (told,) = [f for f in plan(job).findings if f.key == "roof.gambrel_flat"]
    assert told.answers == ("roof.lower_pitch", "roof.pitch_rise", "roof.pitch_run")


def test_a_flat_roof_points_at_the_length_to_measure_again() -> None:
    (told,) = [f for f in plan(measured(rise=1.0, run=96.0)).stops if f.key == "roof.too_flat"]
    assert told.answers == ("roof.pitch_rise",)


@pytest.mark.parametrize(("porch", "name", "answer"), [
    # Of two that are as flat the side is named first, and its pitch is the building's.
    (0.2, "Side 1", "roof.pitch"), (0.1, "Porch", "roof.porch_pitch"),
])
def test_a_flat_roof_points_at_the_pitch_of_the_plane_it_names(
    porch: float, name: str, answer: str
) -> None:
    job = building(Building.PORCH, porch_depth=96.0, pitch=0.2, porch_pitch=porch)
    (told,) = [f for f in plan(job).stops if f.key == "roof.too_flat"]
    assert (told.what.partition(" is ")[0], told.answers) == (name, (answer,))


def test_the_file_keeps_the_lengths() -> None:
    job = measured(rise=48.0, run=96.0)
    assert from_data(to_data(job), Job) == job
    assert isinstance(plan(job).figures["roof.pitch"], Figure)
