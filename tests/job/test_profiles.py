"""A profile of the machine taken as seam, leg and take-up: as sure as the machine's own values."""

from __future__ import annotations

from coilwright.job import edit, from_shop
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.edit import clear, give, give_text
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


def test_a_take_up_that_nobody_gave_is_the_profiles_until_somebody_gives_it() -> None:
    """Seam and leg typed by hand, key by key: 1 in is no profile, 1.5 in and 2 in are."""
    job = give(Job(machine=OURS), PanelKey.SEAM, Seam.DOUBLE_LOCK)
    seen = []
    for typed in ("1", "1.5", "2", "2.5", ""):
        job, _ = give_text(job, PanelKey.LEG, typed)
        seen.append((job.panel.take_up, ANSWERS[PanelKey.TAKE_UP].standing(job)))
    assert seen == [(None, Standing.ASK), (4.25, Standing.GUESS), (5, Standing.GUESS),
                    (None, Standing.ASK), (None, Standing.ASK)]
    high, _ = give_text(job, PanelKey.LEG, "2")
    assert PanelKey.TAKE_UP in profile_guesses(high), "confirmed with its profile"
    assert ANSWERS[PanelKey.TAKE_UP].standing(confirm_profile(high)) is Standing.SURE
    other = give(high, MachineKey.PROFILE_TAKE_UP, 5.5)
    assert (other.panel.take_up, clear(other, MachineKey.PROFILE_TAKE_UP).panel.take_up) == (
        5.5, None)
    own = give(high, PanelKey.TAKE_UP, 4.875)
    for key, value in ((PanelKey.LEG, 1.5), (MachineKey.PROFILE_TAKE_UP, 5.5)):
        after = give(own, key, value)
        assert after.panel.take_up == 4.875, "what somebody gave stays"
    unread, _ = give_text(high, PanelKey.TAKE_UP, "five or so")
    assert give(unread, PanelKey.LEG, 1.5).typed[PanelKey.TAKE_UP] == "five or so"
