"""Step 7: the supplier's master widths, and what slitting takes off their edges."""

from __future__ import annotations

from coilwright.answers.spec import Answer, Form
from coilwright.job import Job
from coilwright.units import Kind

MASTERS = ("coils.master", "coils.master_2", "coils.master_3", "coils.master_4")
"""The master widths a supplier offers, in the order they are asked for."""
_INCHES = ("in", "mm")


def _given(job: Job, key: str) -> bool:
    """Whether there is such an answer, or text that waits to be read as one."""
    return key in job.typed or getattr(job.coils, key.split(".")[1]) is not None


def _further(number: int) -> Answer:
    """A further master width, asked for once the one before is there."""
    before, key = MASTERS[number - 2 : number]
    return Answer(
        key, f"Master width {number}", Form.QUANTITY, Kind.WIDTH, _INCHES, needed=False,
        moves=False, low=6, high=100, asked=lambda job: _given(job, key) or _given(job, before),
    )


SLITTING: tuple[Answer, ...] = (
    Answer("coils.master", "Supplier's master width", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, low=6, high=100),
    *(_further(number) for number in range(2, len(MASTERS) + 1)),
    Answer("coils.edge_trim", "Edge trim, both edges", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, zero=True, high=12),
)
