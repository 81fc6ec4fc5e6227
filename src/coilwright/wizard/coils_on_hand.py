"""The coils on hand a job may use, and what its plan does with each. No screens here."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coilwright.job.job import Job
from coilwright.job.stock import CoilOnHand
from coilwright.units import Kind, System, show
from coilwright.values.keys import row_key

if TYPE_CHECKING:
    from coilwright.plan import Plan


@dataclass(frozen=True, slots=True)
class CoilRow:
    """One coil of a job: its place in the job, its tag and size, and what becomes of it."""

    index: int
    tag: str
    about: str
    use: str
    used: bool


def coil_rows(job: Job, plan: Plan) -> tuple[CoilRow, ...]:
    """All coils on hand of a job and what the plan does with each."""
    rows = []
    for index, coil in enumerate(job.on_hand):
        used = [strip for strip in plan.from_stock if strip.index == index]
        if used:
            use = f"used; left: {', '.join(strip.left.text(job.units) for strip in used)}"
        else:
            key = row_key("on_hand", index + 1, "unfit")
            why = next((f.why for f in plan.findings if f.key == key), "")
            use = f"not used: {why}" if why else _not_used(plan)
        rows.append(CoilRow(index, coil.tag, size_of(coil, job.units), use, bool(used)))
    return tuple(rows)


def _not_used(plan: Plan) -> str:
    return "not needed" if plan.coils or plan.from_stock else "waits for other answers"


def without_coil(job: Job, index: int) -> Job:
    """The job without one of its coils on hand."""
    coils = tuple(coil for at, coil in enumerate(job.on_hand) if at != index)
    return dataclasses.replace(job, on_hand=coils)


def size_of(coil: CoilOnHand, system: System) -> str:
    """Metal, thickness, width, and length or diameters, in one line."""
    parts = [coil.metal.value, show(coil.thickness, Kind.THICKNESS, system),
             f"{show(coil.width, Kind.WIDTH, system)} wide"]
    if coil.length is not None:
        parts.append(show(coil.length, Kind.LENGTH, system))
    elif coil.outside is not None and coil.inside is not None:
        parts.append(f"{show(coil.outside, Kind.WIDTH, system)} on "
                     f"{show(coil.inside, Kind.WIDTH, system)}")
    return ", ".join(parts)
