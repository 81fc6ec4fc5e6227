"""Coils on hand for the small gable, and its job with some of them."""

from __future__ import annotations

import dataclasses
from typing import Any

from hypothesis import strategies as st

from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, MetalName, ThicknessBasis
from coilwright.job.stock import CoilOnHand, LengthBy
from tests.generated import sizes, whole_jobs


def coil(tag: str, feet: float | None = None, **other: Any) -> CoilOnHand:
    """A coil that fits the hand-worked gable, `feet` long unless other measures are given."""
    given: dict[str, Any] = {
        "tag": tag, "metal": MetalName.STEEL, "coating": CoatingName.AZ50, "thickness": 0.0236,
        "thickness_basis": ThicknessBasis.OVER_COATING, "width": 21.0, "color": "Slate",
        "length": None if feet is None else feet * 12,
        "length_by": None if feet is None else LengthBy.MEASURED,
    }  # fmt: skip
    return CoilOnHand(**{**given, **other})


def with_coils(job: Job, *coils: CoilOnHand) -> Job:
    """The job with these coils on hand."""
    return dataclasses.replace(job, on_hand=coils)


@st.composite
def jobs_with_coils(draw: st.DrawFn) -> Job:
    """A whole job with a few coils on hand that fit it, some of them wide or only measured."""
    job = draw(whole_jobs())
    metal, panel = job.metal, job.panel
    assert panel.coverage is not None
    assert panel.take_up is not None
    strip = panel.coverage + panel.take_up
    coils = []
    for number in range(draw(st.integers(1, 4))):
        given: dict[str, Any] = {
            "tag": f"T-{number}", "metal": metal.metal, "coating": metal.coating,
            "thickness": metal.thickness, "thickness_basis": metal.thickness_basis,
            "width": draw(st.sampled_from([strip, strip, strip + 2.0, 2.5 * strip])),
            "color": metal.color or "", "lot": draw(st.sampled_from("ab")),
        }  # fmt: skip
        if draw(st.booleans()):
            given |= {"inside": 20.0, "outside": draw(sizes(20.5, 34))}
        else:
            given["length"] = draw(sizes(6, 9000))
            given["length_by"] = draw(st.sampled_from([None, *LengthBy]))
        coils.append(CoilOnHand(**given))
    return with_coils(job, *coils)
