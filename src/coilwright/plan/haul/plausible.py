"""Ratings and weights that no plate of their kind says: a digit too few or too many."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.job import Job
from coilwright.plan.view import View, care
from coilwright.units import Kind, show
from coilwright.values.finding import Finding
from coilwright.values.keys import LIFT_PLACES, lift_key
from coilwright.values.source import PRACTICE

_TRAILER, _VEHICLE, _TIES = (1_000.0, 60_000.0), (2_500.0, 80_000.0), (100.0, 20_000.0)
_USUAL: dict[str, tuple[float, float]] = {
    HaulKey.TRAILER_GVWR: _TRAILER,
    HaulKey.AXLE_RATING: (500.0, 25_000.0),
    HaulKey.HITCH_RATING: _TRAILER,
    HaulKey.TONGUE_WEIGHT_RATING: (100.0, 15_000.0),
    HaulKey.TOW_WEIGHT: _VEHICLE,
    HaulKey.TOW_GVWR: _VEHICLE,
    HaulKey.TOW_PULL: _TRAILER,
    HaulKey.GCWR: (4_000.0, 100_000.0),
    HaulKey.TIE_OVER_LIMIT: _TIES,
    HaulKey.TIE_DIRECT_LIMIT: _TIES,
}
for _place in LIFT_PLACES:
    _USUAL[lift_key(_place, "fork_capacity")] = (1_000.0, 60_000.0)
    _USUAL[lift_key(_place, "operating_capacity")] = (300.0, 12_000.0)
    _USUAL[lift_key(_place, "tipping_load")] = (500.0, 24_000.0)
"""Between what such plates lie [lb]: wide enough for a garden trailer and a heavy truck. From
memory; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Implausible:
    """An answer outside what plates of its kind say. what: in a sentence, in the job's units."""

    key: str
    what: str


LOOK_AGAIN = "Look at the plate again: a digit or a unit is soon mistyped."
"""What there is to do about it."""


def implausible(job: Job) -> Iterator[Implausible]:
    """Ratings and weights that are asked and hardly can be."""
    for key, (low, high) in _USUAL.items():
        answer = ANSWERS[key]
        value = answer.value(job)
        if answer.asked(job) and isinstance(value, int | float) and not low <= value <= high:
            least, most = (show(each, Kind.MASS, job.units) for each in (low, high))
            yield Implausible(key, f"{answer.label} is {answer.said(job)}; such plates say "
                                   f"{least} to {most}.")


def check_plausible(view: View) -> Iterator[Finding]:
    """One finding for all of them: one number too high clears what it should not."""
    found = tuple(implausible(view.job))
    if not found:
        return
    yield care(
        "haul.implausible", " ".join(one.what for one in found),
        "A rating that is too high clears a load that nothing carries; one that is too low holds "
        "what could go.",
        LOOK_AGAIN, PRACTICE, *(one.key for one in found), step="haul",
    )
