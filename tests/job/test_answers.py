"""Answers: what is typed, what it becomes, and how sure it is."""

from __future__ import annotations

import dataclasses
import datetime
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS, Form, UnreadableAnswer
from coilwright.job.copies import copied
from coilwright.job.edit import (
    clear,
    confirm,
    do_not_know,
    give,
    give_text,
    guessed_anew,
    machine_value,
    new_job,
)
from coilwright.job.job import Job
from coilwright.job.machine import Profile
from coilwright.job.metal import Shade, ThicknessIs
from coilwright.job.names import kept_unread
from coilwright.job.panel import Seam
from coilwright.job.steps import STEPS
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.values.standing import Standing
from coilwright.words import words
from tests.cases import small_gable
from tests.draws import draws
from tests.rules import for_each


def test_every_answer_belongs_to_a_step() -> None:
    assert {a.step for a in ANSWERS.values()} <= {s.key for s in STEPS}


@pytest.mark.parametrize("key", sorted(demo_jobs()))
@pytest.mark.parametrize("system", list(System))
def test_the_text_in_a_box_reads_back_as_the_answer(key: str, system: System) -> None:
    job = demo_jobs()[key]
    for answer in ANSWERS.values():
        value = answer.value(job)
        if value is None or answer.key == "job.units":
            continue
        again = answer.read(answer.text(value, system), system)
        if isinstance(value, float):
            assert again == pytest.approx(value, rel=2e-6), answer.key
        else:
            assert again == value, answer.key


@for_each([
    ("roof.length", "42", 504.0),
    ("roof.length", "42' 6\"", 510.0),
    ("roof.eave_overhang", "18", 18.0),
    ("roof.pitch", "6/12", 6.0),
    ("panel.coverage", "16", 16.0),
    ("panel.seam", "Double", "double-lock"),
    ("machine.arbors", "2", 2),
    ("machine.arbor_load", "3000", 3000.0),
    ("coils.spare", "4", 0.04),
    ("coils.spare", "0", 0.0),
    ("job.coldest", "-20", -20.0),
    ("metal.thickness", ".0236", 0.0236),
    ("metal.gauge", "24 ga", 24),
    ("metal.gauge", "24 gauge", 24),
    ("metal.gauge", "24ga.", 24),
    ("metal.gauge", "16 oz", 16),
    ("coils.lead_time", "5 weeks", 35),
    ("job.needed_by", "1/2/2027", datetime.date(2027, 1, 2)),
    ("job.needed_by", "Jan 2 2027", datetime.date(2027, 1, 2)),
])
def test_what_is_typed_is_taken(key: str, typed: str, value: object) -> None:
    job, error = give_text(_ready_to_take(), key, typed)
    assert error == ""
    taken = ANSWERS[key].value(job)
    assert taken == pytest.approx(value) if isinstance(value, float) else taken == value
    assert ANSWERS[key].standing(job) is Standing.SURE


def _ready_to_take() -> Job:
    return new_job("Test")


@for_each([
    ("panel.coverage", "wide", "wide"),
    ("panel.coverage", "0", "cannot be nothing"),
    ("panel.coverage", "3 in", "too little"),
    ("panel.coverage", "90 in", "too much"),
    ("panel.coverage", "16 lb", "lb"),
    ("panel.seam", "glued", "is not one of"),
    ("panel.seam", "lock", "is not one of"),
    ("machine.arbors", "1.5", "whole"),
    ("job.needed_by", "next week", "is not a date"),
    ("job.needed_by", "2026-02-30", "no calendar has"),
    ("metal.gauge", "24 in", "a whole number is wanted"),
    ("coils.spare", "-3", "-3"),
    ("job.name", "x" * 201, "too many"),
])
def test_what_cannot_be_taken_is_said_and_kept(key: str, typed: str, words: str) -> None:
    before, _ = give_text(new_job("Test"), "panel.coverage", "16")
    job, error = give_text(before, key, typed)
    assert words in error
    assert job.typed == {key: typed}
    assert ANSWERS[key].value(job) is None, "an old value must not stand in"


def test_the_same_value_again_changes_nothing() -> None:
    job = new_job("Test")
    assert give_text(job, "coils.spare", "3 %") == (job, "")


def test_a_good_answer_drops_the_bad_text() -> None:
    job, _ = give_text(new_job("Test"), "panel.coverage", "wide")
    job, error = give_text(job, "panel.coverage", "16")
    assert (error, job.typed) == ("", {})


_NOT_ANSWERS = {
    "roof.planes", "roof.building_openings", "trim.pieces",  # lists of rows
    "machine.format", "machine.version", "machine.about", "machine.invented",  # of its file
    "machine.forms", "machine.profiles", "haul.site", "haul.shop",  # answers lie inside
}


@pytest.mark.parametrize(("key", "typed", "box"), [
    ("machine.arbor_load", "3000 lb", "1361 kg"), ("machine.weight", "7400 lb", "3357 kg"),
    ("panel.take_up", "4 5/8 in", "117.5 mm"), ("metal.thickness", "0.0236 in", "0.599 mm"),
    ("roof.length", "38 ft", "11.582 m"), ("job.hottest", "150 °F", "65.6 °C"),
    ("roof.pitch", "6:12", "26.6°"),
    # What a metric user gave stands as it was given.
    ("panel.take_up", "117.25", "117.25 mm"), ("machine.arbor_load", "1360.5", "1360.5 kg"),
    ("roof.pitch", "27.55°", "27.55°"),
])
def test_a_metric_box_shows_what_people_read_and_untouched_changes_nothing(
    key: str, typed: str, box: str
) -> None:
    job = give(new_job(), "job.units", System.METRIC)
    job, error = give_text(job, key, typed)
    assert not error
    answer = ANSWERS[key]
    assert answer.shown(answer.value(job), job.units) == box
    assert give_text(job, key, box) == (job, "")


def test_a_gauge_is_asked_where_metal_goes_by_one_and_in_metric_only_if_it_is_there() -> None:
    gauge, us = ANSWERS["metal.gauge"], new_job()
    metric = give(us, "job.units", System.METRIC)
    asked = [gauge.asked(job) for job in (us, metric, give(metric, "metal.gauge", 24))]
    assert asked == [True, False, True]


def test_every_field_of_a_section_is_an_answer() -> None:
    """A field that nobody is asked for would lie in the files and do nothing."""
    fields = {f"{step.key}.{one.name}" for step in STEPS
              if dataclasses.is_dataclass(section := getattr(Job(), step.key, None))
              for one in dataclasses.fields(section)}
    assert len(fields) > 100
    assert {key for key in fields if not key.startswith("quotes.")} - set(ANSWERS) == _NOT_ANSWERS


def test_a_label_does_not_touch_its_box() -> None:
    # a sign before it, a space after it, of 27 cells
    assert not [answer.label for answer in ANSWERS.values() if len(answer.label) > 25]


def test_nothing_typed_takes_the_answer_away() -> None:
    job, _ = give_text(new_job("Test"), "coils.spare", "4 %")
    job, error = give_text(job, "coils.spare", "  ")
    assert error == ""
    assert ANSWERS["coils.spare"].standing(job) is Standing.ASK


def test_do_not_know_fills_the_usual_value_as_a_guess() -> None:
    job = do_not_know(Job(), "panel.take_up")
    assert ANSWERS["panel.take_up"].value(job) == 5.0
    assert ANSWERS["panel.take_up"].standing(job) is Standing.GUESS
    job = confirm(job, "panel.take_up")
    assert ANSWERS["panel.take_up"].standing(job) is Standing.SURE


@pytest.mark.parametrize(("typed", "is_a"), [
    ("0.0236 min", "minimum"), ("min. 0.0236 in", "minimum"), (".0236in NOMINAL", "nominal"),
    ("0.0236nom.", "nominal"), ("0.0236", None),
])
def test_a_thickness_as_suppliers_write_it(typed: str, is_a: str | None) -> None:
    job, error = give_text(Job(), "metal.thickness", typed)
    assert (error, job.metal.thickness, job.metal.thickness_is) == ("", 0.0236, is_a)
    job, error = give_text(job, "metal.thickness", "min 24 ga")
    assert error.startswith("Write a thickness such as 0.0250 in: “24 ga” is a gauge")
    assert job.metal.thickness_is == is_a


@pytest.mark.parametrize(("typed", "standard"), [
    ("0.003 in", None), ("± 0.003", None), ("+/- .003 in either way", None),
    ("0.003 in by ASTM A924", "ASTM A924"), ("±0.003 in, each way, per ASTM A924", "ASTM A924"),
    ("0.003 EN 10143:2006", "EN 10143:2006"), ("0.003 in to the mill's list", "the mill's list"),
    ("mill standard, 0.003 in", "mill standard"), ("by EN 10143:2006; ±0.003", "EN 10143:2006"),
])
def test_a_thickness_tolerance_as_suppliers_say_it(typed: str, standard: str | None) -> None:
    job, error = give_text(Job(), "metal.thickness_tolerance", typed)
    assert (error, job.metal.thickness_tolerance) == ("", 0.003)
    assert job.metal.thickness_standard == standard
    again, error = give_text(job, "metal.thickness_tolerance", "by ASTM A924")
    assert error == (
        "Thickness tolerance: “ASTM A924” says no size. How far it may differ is wanted, such as "
        "0.003 in, with the standard behind it or in a box of its own.")
    _, error = give_text(job, "metal.thickness_tolerance", "mill standard, about 0.003 in")
    assert error == (
        "Thickness tolerance: “mill standard, about 0.003 in” begins with words. The size comes "
        "first, and words behind it: 0.003 in, mill standard.")
    said, error = give_text(job, "metal.thickness_tolerance", error.split(": ")[-1].rstrip("."))
    assert (error, said.metal.thickness_standard) == ("", "mill standard")
    assert again.typed["metal.thickness_tolerance"] == "by ASTM A924"
    tolerance = (ANSWERS["metal.thickness_tolerance"],)
    assert not kept_unread(job, tolerance)
    assert kept_unread(again, tolerance) == (
        "Thickness tolerance: “by ASTM A924” was not understood; it stands there as you typed it.")


@pytest.mark.parametrize(("key", "text", "under", "over"), [
    ("coils.tolerance", "−0/+10 %", 0.0, 0.1), ("coils.tolerance_over", "+10 %/-0", 0.0, 0.1),
    ("coils.tolerance", "+10 -5", 0.05, 0.1), ("coils.tolerance_over", "0/+10 %", 0.0, 0.1),
    ("coils.tolerance", "plus 10 minus 0", 0.0, 0.1), ("coils.tolerance", "± 5 %", 0.05, 0.05),
    ("coils.tolerance_over", "+/- 5", 0.05, 0.05), ("coils.tolerance", "+7.5/−2.5 %", 0.025, 0.075),
])
def test_both_sides_of_a_tolerance_typed_in_one_box_fill_both(
    key: str, text: str, under: float, over: float
) -> None:
    job, error = give_text(small_gable(), key, text)
    assert error == ""
    assert (job.coils.tolerance, job.coils.tolerance_over) == pytest.approx((under, over))
    assert ANSWERS["coils.tolerance_over"].standing(job) is Standing.SURE


def test_a_side_that_nobody_reads_fills_neither_box() -> None:
    before = small_gable()
    job, error = give_text(before, "coils.tolerance", "-0/+10 in")
    assert "a percentage is wanted" in error
    assert job.coils.tolerance is None
    assert job.coils.tolerance_over == before.coils.tolerance_over
    # One side alone is that side, and says nothing of the other.
    job, error = give_text(before, "coils.tolerance", "8 %")
    assert (error, job.coils.tolerance_over) == ("", before.coils.tolerance_over)


@pytest.mark.parametrize(("key", "text", "value"), [
    ("coils.width_tolerance", "± 1/16 in", 0.0625),
    ("coils.width_tolerance", "+1/16 -1/16", 0.0625),
    ("metal.thickness_tolerance", "+0.003/-0.003 in by ASTM A924", 0.003),
    ("metal.thickness_tolerance", "+0.006/−0 in", 0.006),
])
def test_sides_that_an_order_says_as_one_size(key: str, text: str, value: float) -> None:
    job, error = give_text(small_gable(), key, text)
    assert error == ""
    assert ANSWERS[key].value(job) == pytest.approx(value)


def test_a_tolerance_that_lets_nothing_thinner_come_is_of_a_minimum() -> None:
    job, error = give_text(small_gable(), "metal.thickness_tolerance", "+0.006/−0 in by ASTM A924")
    assert error == ""
    assert job.metal.thickness_is is ThicknessIs.MINIMUM
    assert (job.metal.thickness_tolerance, job.metal.thickness_standard) == (0.006, "ASTM A924")
    job, _ = give_text(small_gable(), "metal.thickness_tolerance", "± 0.003 in")
    assert job.metal.thickness_is is small_gable().metal.thickness_is


@pytest.mark.parametrize(("key", "text", "do"), [
    ("metal.thickness_tolerance", "+0.004/-0.002 in",
     "Order the least that may come as a minimum, and put 0.0060 in here."),
    ("coils.width_tolerance", "+1/8 −1/16 in", "Put 1/16 in here, which is inside both."),
    ("coils.width_tolerance", "+1/16/-0", "Agree on one, such as 1/16 in."),
])
def test_sides_that_differ_are_refused_with_what_to_type(key: str, text: str, do: str) -> None:
    job, error = give_text(small_gable(), key, text)
    assert error.endswith(do)
    assert job.typed[key] == text


def test_what_the_head_of_the_order_says_of_the_gear_stands_in_as_a_guess() -> None:
    for unloading, lifts in (("forklift 8000 lb", 8000.0), ("fork, 2,500 kg", 5511.56),
                             ("forklift 8000 lb, crane 3000 lb", None), ("a crane", None)):
        job = dataclasses.replace(
            Job(), order=dataclasses.replace(Job().order, unloading=unloading))
        job = do_not_know(job, "coils.site_lift")
        assert job.coils.site_lift == (None if lifts is None else pytest.approx(lifts))
        assert ANSWERS["coils.site_lift"].standing(job) is (
            Standing.ASK if lifts is None else Standing.GUESS)


@pytest.mark.parametrize(("key", "value"), [
    ("metal.color_code", "S-03"), ("metal.shade", Shade.DARK)])
def test_a_color_code_and_a_shade_are_of_a_color(key: str, value: Any) -> None:
    job = give(give(Job(), key, value), "metal.color", "slate")
    assert ANSWERS[key].standing(job) is Standing.SURE, "the color that came first is its own"
    job = give(job, "metal.color", "barn red")
    assert ANSWERS[key].standing(job) is Standing.GUESS


def test_a_copy_guesses_at_client_and_site() -> None:
    job = copied(give(give(Job(), "job.client", "A. Demo"), "job.site", "Heron Lane"))
    for key in ("job.client", "job.site"):
        assert ANSWERS[key].value(job)
        assert ANSWERS[key].standing(job) is Standing.GUESS
def test_do_not_know_takes_leg_and_take_up_from_the_machine() -> None:
    """Rolls decide both; a usual value that the machine has no rolls for would stop the order."""
    made = Profile(seam=Seam.SNAP_LOCK, leg=1.75, take_up=4.625)
    job = new_job()
    job = dataclasses.replace(
        job, machine=dataclasses.replace(job.machine, profiles=(made,)),
        panel=dataclasses.replace(job.panel, seam=Seam.SNAP_LOCK))
    assert do_not_know(job, "panel.take_up").panel.take_up == 5.0  # the leg is not known
    job = do_not_know(do_not_know(job, "panel.leg"), "panel.take_up")
    assert (job.panel.leg, job.panel.take_up) == (1.75, 4.625)
    assert job.standing["panel.take_up"] is Standing.GUESS
    two = dataclasses.replace(job.machine, profiles=(
        made, dataclasses.replace(made, leg=1.5)))
    assert machine_value(dataclasses.replace(job, machine=two), "panel.leg") is None


def test_do_not_know_without_a_usual_value_marks_what_is_there() -> None:
    assert words("roof.length").usual is None
    assert do_not_know(Job(), "roof.length") == Job()
    job = do_not_know(give(Job(), "roof.length", 500.0), "roof.length")
    assert ANSWERS["roof.length"].standing(job) is Standing.GUESS


def test_confirm_and_clear() -> None:
    assert confirm(Job(), "panel.take_up") == Job()
    job = clear(do_not_know(Job(), "panel.take_up"), "panel.take_up")
    assert job == Job()


def test_a_new_job_starts_from_guesses_only() -> None:
    job = new_job("Barn")
    for answer in ANSWERS.values():
        if answer.value(job) is not None and answer.key not in ("job.name", "job.units"):
            assert answer.standing(job) is Standing.GUESS, answer.key


@given(st.sampled_from(sorted(ANSWERS)), st.text(max_size=60))
@settings(max_examples=draws(300), deadline=None)
def test_nothing_typed_breaks_or_is_lost(key: str, typed: str) -> None:
    job, error = give_text(new_job("Test"), key, typed)
    if error:
        assert job.typed[key] == typed
        assert "\n" not in error
    elif typed.strip():
        assert ANSWERS[key].value(job) is not None or key.startswith("machine.")


def test_reading_nothing_is_refused() -> None:
    with pytest.raises(UnreadableAnswer, match="nothing was typed"):
        ANSWERS["panel.coverage"].read("  ")


def test_in_metric_what_is_usual_is_a_round_number() -> None:
    """6 ft of thread-up is 2 m there, and turns back into 6 ft; a size that was given stays."""
    job = give(new_job(), "machine.arbor_load", 3000.0)
    metric = give(job, "job.units", System.METRIC)
    thread = ANSWERS["machine.thread_up"]
    assert thread.text(thread.value(job)) == "6 ft"
    assert thread.text(thread.value(metric), System.METRIC) == "2.000 m"
    assert thread.standing(metric) is Standing.GUESS
    assert ANSWERS["machine.arbor_load"].value(metric) == 3000.0
    assert give(metric, "job.units", System.US) == job
    rack = ANSWERS["machine.rack_load"]
    assert rack.text(rack.value(do_not_know(metric, rack.key)), System.METRIC) == "2700 kg"


@pytest.mark.parametrize("system", list(System))
def test_what_is_given_as_an_example_is_read_by_its_own_box(system: System) -> None:
    """A thickness of 0.6 mm is none of a tolerance, and 1020 kg is nothing one person carries."""
    for answer in ANSWERS.values():
        if answer.kind is not None and answer.form is Form.QUANTITY:
            example = answer.example(system)
            assert answer.read(example, system) is not None, answer.key
            with pytest.raises(UnreadableAnswer) as error:
                answer.read("about so", system)
            if answer.examples:
                assert example in str(error.value), answer.key


def test_a_guess_typed_over_itself_is_sure_however_long_it_is() -> None:
    guessed, answer = do_not_know(Job(), "coils.spare"), ANSWERS["coils.spare"]
    there = answer.said(guessed)
    shown, _ = give_text(guessed, answer.key, there)
    assert answer.standing(shown) is Standing.GUESS, "what is shown in a box is not given by that"
    bare, _ = give_text(guessed, answer.key, there.split()[0].rstrip("%"))
    again, _ = give_text(guessed, answer.key, there, again=True)
    for job in (again, bare) if there != there.split()[0].rstrip("%") else (again,):
        assert answer.standing(job) is Standing.SURE
        assert answer.value(job) == answer.value(guessed)


def test_guesses_that_are_other_sizes_in_metric_are_named() -> None:
    new = do_not_know(do_not_know(Job(), "machine.thread_up"), "coils.spare")
    assert not guessed_anew(new, give(new, "job.units", System.METRIC)), "nobody has seen them"
    before = give(new, "machine.name", "Trailer")
    now = give(before, "job.units", System.METRIC)
    assert guessed_anew(before, now) == ["Thread-up loss 2 m"], "a share is in no units"
