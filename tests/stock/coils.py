"""Coils on hand for the small gable, and its job with some of them."""

from __future__ import annotations

from typing import Any

from coilwright.choices import CoatingName, MetalName, ThicknessBasis
from coilwright.job import Job
from coilwright.stock import CoilOnHand


def coil(tag: str, feet: float | None = None, **other: Any) -> CoilOnHand:
    """A coil that fits the hand-worked gable, `feet` long unless other measures are given."""
    given: dict[str, Any] = {
        "tag": tag, "metal": MetalName.STEEL, "coating": CoatingName.AZ50, "thickness": 0.0236,
        "thickness_basis": ThicknessBasis.OVER_COATING, "width": 21.0, "colour": "Slate",
        "length": None if feet is None else feet * 12,
    }  # fmt: skip
    return CoilOnHand(**{**given, **other})


def with_coils(job: Job, *coils: CoilOnHand) -> Job:
    """The job with these coils on hand."""
    return job.model_copy(update={"on_hand": coils})
