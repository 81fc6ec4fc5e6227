"""The plan: all that follows from a job. What the layers above take from it most often."""

from __future__ import annotations

from coilwright.plan.coils.stock import coil_lengths, fitting
from coilwright.plan.ledger import Lack
from coilwright.plan.plan import plan, replan
from coilwright.plan.result import (
    CoilPlan,
    Fit,
    LoadLine,
    Plan,
    PlanePlan,
    Proof,
    SlitPass,
    SlitPlan,
    TrimNest,
)

__all__ = [
    "CoilPlan",
    "Fit",
    "Lack",
    "LoadLine",
    "Plan",
    "PlanePlan",
    "Proof",
    "SlitPass",
    "SlitPlan",
    "TrimNest",
    "coil_lengths",
    "fitting",
    "plan",
    "replan",
]
