"""What every coil of the order is held to as shipped."""

from __future__ import annotations

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.plan.result import CoilPlan, Plan
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, row_key


def heaviest_allowed(plan: Plan) -> Figure | None:
    """The least of what arbor or decoiler, the rack shared, and the site's gear can carry [lb].

    None while what the arbor or decoiler carries is not known.
    """
    on = plan.job.coils.coil_on
    rack = on is None or on.is_rack
    needed = MachineKey.ARBOR_LOAD if rack else MachineKey.DECOILER_LOAD
    if needed not in plan.figures:
        return None
    keys = (needed, *((Key.LIMIT_RACK_MASS,) if rack else ()), CoilsKey.SITE_LIFT)
    known = [plan.figures[key] for key in keys if key in plan.figures]
    return min(known, key=lambda figure: figure.value)


def largest_allowed(plan: Plan) -> Figure | None:
    """The largest outside diameter the rack or the decoiler takes [in]; None while not known."""
    on = plan.job.coils.coil_on
    rack = on is None or on.is_rack
    return plan.figures.get(MachineKey.RACK_DIAMETER if rack else MachineKey.DECOILER_DIAMETER)


def heaviest_coil(plan: Plan, coil: CoilPlan) -> Figure:
    """What a coil of the order may weigh at most: its over side, or what carries it if less."""
    over_side, limit = (
        plan.figures[row_key("coil", coil.number, "heaviest")],
        heaviest_allowed(plan),
    )
    if limit is None or over_side.value <= limit.value:
        return over_side
    return limit


def largest_coil(plan: Plan, coil: CoilPlan) -> Figure:
    """What a coil of the order may measure outside at most: what takes it, or its over side."""
    return largest_allowed(plan) or plan.figures[row_key("coil", coil.number, "largest")]
