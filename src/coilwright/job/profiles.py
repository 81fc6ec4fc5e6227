"""A profile of the machine taken as the job's seam, leg and take-up, and held to its sheet."""

from __future__ import annotations

import dataclasses

from coilwright.job import edit
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.job import Job
from coilwright.job.machine import Profile
from coilwright.values.standing import Standing

_SAID = (
    MachineKey.PROFILE_NARROWEST, MachineKey.PROFILE_WIDEST, MachineKey.PROFILE_TAKE_UP,
    MachineKey.PROFILE_LOWEST_PITCH,
)


def taken_profile(job: Job) -> Profile | None:
    """The profile of the machine that has the job's seam and leg; None while there is none."""
    return job.machine.profile(job.panel.seam, job.panel.leg)


def take_profile(job: Job, profile: Profile) -> Job:
    """The job with seam, leg and take-up of one of its machine's profiles.

    They are sure where all that the machine says of this profile is, else guesses. What the job
    says already is left as sure as it is.
    """
    panel = dataclasses.replace(job.panel, seam=profile.seam, leg=profile.leg)
    there = dataclasses.replace(job, panel=panel)
    held = all(ANSWERS[key].marked(there) is Standing.SURE for key in _SAID)
    said = job
    for key, value in (
        (PanelKey.SEAM, profile.seam), (PanelKey.LEG, profile.leg),
        (PanelKey.TAKE_UP, profile.take_up),
    ):
        if value is not None and value != ANSWERS[key].value(said):
            job = edit.give(job, key, value, Standing.SURE if held else Standing.GUESS)
    return job


def profile_guesses(job: Job) -> tuple[str, ...]:
    """What is a guess of the profile that is taken: what the machine says of it, and the job."""
    profile = taken_profile(job)
    if profile is None:
        return ()
    same = {PanelKey.SEAM, PanelKey.LEG}
    if profile.take_up is not None and profile.take_up == job.panel.take_up:
        same.add(PanelKey.TAKE_UP)
    return tuple(key for key in ANSWERS if (key in same or key in _SAID)
                 and ANSWERS[key].standing(job) is Standing.GUESS)


def confirm_profile(job: Job) -> Job:
    """The job with all of its profile held against the machine's sheet."""
    for key in profile_guesses(job):
        job = edit.confirm(job, key)
    return job
