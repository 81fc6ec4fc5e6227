"""Planes, or trim, that a coil on hand is kept to: what is picked from, and the job with it."""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.plan import Plan
from coilwright.plan.coils.cut_lists import TRIM
from coilwright.values.keys import Key
from coilwright.wizard.literal import escape_controls
from coilwright.words.counting import in_series

PLANES = "planes"
NO_PLANES = "no planes of its own"
"""What is picked to keep a coil to no plane."""
_KEPT = "  (kept to it)"


def plane_choices(plan: Plan, tag: str) -> tuple[str, ...]:
    """What to pick from: the planes by name and trim cut from the panels' coil, those that the
    coil is kept to marked, and none."""
    own = plan.job.on_hand_planes.get(tag, ())
    trim = [TRIM] if Key.TRIM_FROM_COIL in plan.figures else []
    names = dict.fromkeys((*(plane.name for plane in plan.planes), *trim, *own))
    return (NO_PLANES, *(f"{name}{_KEPT}" if name in own else name for name in names))


def toggle_plane(job: Job, tag: str, picked: str) -> Job:
    """The job with a coil kept to the plane that was picked, too; to it no longer; or to none."""
    own, name = job.on_hand_planes.get(tag, ()), picked.removesuffix(_KEPT)
    names = () if picked == NO_PLANES else (
        tuple(one for one in own if one != name) if name in own else (*own, name))
    others = {k: v for k, v in job.on_hand_planes.items() if k != tag}
    return dataclasses.replace(job, on_hand_planes={**others, **({tag: names} if names else {})})


def plane_words(job: Job, tag: str) -> str:
    """What a coil is kept to, in a sentence."""
    names = job.on_hand_planes.get(tag, ())
    kept = f"is kept to {in_series(names)}" if names else "has no planes of its own"
    return escape_controls(f"{tag} {kept}.")
