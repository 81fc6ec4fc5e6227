"""What the run sheet says beside panels that are too short for the machine."""

from __future__ import annotations

from coilwright.plan.coils.run import RunRow
from coilwright.plan.panel.shortest import is_too_short
from coilwright.plan.result import Plan


def by_hand(plan: Plan, row: RunRow, length: float) -> str:
    """That panels are too short to form, or may be; blanks for trim are not formed."""
    if not row.pieces or not is_too_short(plan.job, length):
        return ""
    return ("; too short to form: cut by hand from a longer panel"
            if plan.job.machine.shortest_panel is not None
            else "; may be too short to form: ask, else cut by hand from a longer panel")
