"""The pitch of a building shape, given or from two lengths."""

from __future__ import annotations

from coilwright.calc.roof import slope
from coilwright.job.answers.roof import STEEPEST, RoofKey
from coilwright.job.job import Job
from coilwright.plan.ledger import Ledger, Term
from coilwright.units import Kind, show

_KEY, _LABEL = RoofKey.PITCH, "Pitch"
_RUN = RoofKey.PITCH_RUN


def too_steep(rise: float) -> bool:
    """Whether no roof is so steep [rise per 12]: a length in a wrong unit makes one."""
    return rise > STEEPEST * (1 + 1e-9)


def pitch_answers(job: Job) -> tuple[str, ...]:
    """The answers the building's pitch is from: itself, or a rise or a slope length and its run."""
    roof = job.roof
    if roof.pitch is None and roof.pitch_run is not None:
        if roof.pitch_rise is not None:
            return RoofKey.PITCH_RISE, _RUN
        if roof.pitch_slope is not None:
            return RoofKey.PITCH_SLOPE, _RUN
    return (_KEY,)


def building_pitch(ledger: Ledger) -> Term:
    """Enter the building's pitch [rise per 12]; what it lacks where lengths give none."""
    first, *rest = pitch_answers(ledger.job)
    if not rest:
        return ledger.answer(_KEY)
    length, run = ledger.answer(first), ledger.answer(_RUN)
    fault = pitch_fault(ledger)
    if fault:
        return ledger.lack(_KEY, _LABEL, (first, _RUN), fault)
    formula = slope.pitch_from_rise if first == RoofKey.PITCH_RISE else slope.pitch_from_slope
    return ledger.put(_KEY, _LABEL, formula, length, run)


def pitch_fault(ledger: Ledger) -> str:
    """Why the two lengths measured for the pitch give none; empty where they do or lack."""
    first, *rest = pitch_answers(ledger.job)
    if not rest:
        return ""
    length, run = ledger.given(first), ledger.given(_RUN)
    if length is None or run is None:
        return ""
    if first == RoofKey.PITCH_SLOPE:
        if length.value < run.value:
            return (
                f"The length up the slope is {length.text(ledger.job.units)}, less than its level "
                f"run of {run.text(ledger.job.units)}; no slope is shorter than its run."
            )
        rise = slope.pitch_from_slope(length.value, run.value)
    else:
        rise = slope.pitch_from_rise(length.value, run.value)
    if too_steep(rise):
        steepest = show(STEEPEST, Kind.PITCH, ledger.job.units)
        return (
            f"The lengths measured for the pitch give more than {steepest}; no roof is so steep."
        )
    return ""
