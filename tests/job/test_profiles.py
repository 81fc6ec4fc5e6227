"""A profile of the machine taken as seam, leg and take-up: as sure as the machine's own values."""

from __future__ import annotations

from coilwright.job import edit, from_shop
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.panel import PanelKey
from coilwright.job.job import Job
from coilwright.job.machine import Machine, Profile
from coilwright.job.panel import Seam
from coilwright.job.profiles import confirm_profile, profile_guesses, take_profile, taken_profile
from coilwright.values.standing import Standing

HIGH = Profile(seam=Seam.DOUBLE_LOCK, leg=2, narrowest=12, widest=20, take_up=5, lowest_pitch=1)
LOW = Profile(seam=Seam.DOUBLE_LOCK, leg=1.5, take_up=4.25)
OURS = Machine(name="Ours", profiles=(HIGH, LOW))
FILLED = (PanelKey.SEAM, PanelKey.LEG, PanelKey.TAKE_UP)


def _standings(job: Job) -> set[Standing]:
    return {ANSWERS[key].standing(job) for key in FILLED}


def test_a_profile_is_a_guess_until_it_is_held_to_the_sheet_then_so_are_only_the_others() -> None:
    job = take_profile(from_shop.take_machine(Job(), OURS), HIGH)
    assert (job.panel.seam, job.panel.leg, job.panel.take_up) == (Seam.DOUBLE_LOCK, 2, 5)
    assert taken_profile(job) is HIGH
    assert _standings(job) == {Standing.GUESS}
    held = confirm_profile(job)
    assert _standings(held) == {Standing.SURE}
    assert not profile_guesses(held)
    other = take_profile(held, LOW)
    assert (other.panel.leg, other.panel.take_up) == (1.5, 4.25)
    # What is not new, the seam, stays as sure as it was.
    assert [ANSWERS[key].standing(other) for key in FILLED] == [
        Standing.SURE, Standing.GUESS, Standing.GUESS]
    back = take_profile(other, HIGH)
    assert _standings(back) == {Standing.SURE}


def test_a_machine_typed_and_sure_gives_what_is_sure_and_leaves_it_to_be_changed() -> None:
    job = take_profile(Job(machine=OURS), HIGH)
    assert _standings(job) == {Standing.SURE}
    changed = edit.give(job, PanelKey.TAKE_UP, 4.9)
    assert taken_profile(changed) is HIGH
    assert changed.machine == OURS


def test_confirming_a_profile_leaves_a_take_up_that_is_not_its_own() -> None:
    job = take_profile(from_shop.take_machine(Job(), OURS), HIGH)
    job = confirm_profile(edit.give(job, PanelKey.TAKE_UP, 5.5, Standing.GUESS))
    assert ANSWERS[PanelKey.TAKE_UP].standing(job) is Standing.GUESS
    assert ANSWERS[PanelKey.SEAM].standing(job) is Standing.SURE


def test_the_one_seam_a_machine_forms_is_what_do_not_know_gives() -> None:
    assert edit.machine_value(Job(machine=OURS), PanelKey.SEAM) is Seam.DOUBLE_LOCK
    both = Machine(profiles=(HIGH, Profile(seam=Seam.SNAP_LOCK, leg=1.75)))
    assert edit.machine_value(Job(machine=both), PanelKey.SEAM) is None
