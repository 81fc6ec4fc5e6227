"""What is bought, as JSON: the metal line by line, and what is counted beside it."""

from __future__ import annotations

from coilwright.plan.accessories import Accessory
from coilwright.plan.coils.stock import job_metal
from coilwright.plan.ledger import known, missing
from coilwright.plan.purchases import BuyLine
from coilwright.plan.result import Plan
from coilwright.sheets.buy import OWN_LOT, lots_bought
from coilwright.sheets.data.quantities import Json, figure_data, or_null
from coilwright.units import System


def buying(plan: Plan, beside: tuple[Accessory, ...]) -> Json:
    """The lines of `buy` and `accessories`."""
    return {
        "buy": [_bought(plan, line) for line in plan.buy],
        "accessories": [_accessory(one, plan.job.units) for one in beside],
    }


def _bought(plan: Plan, line: BuyLine) -> Json:
    system, metal, is_now = plan.job.units, plan.job.metal, job_metal(plan.job)
    return {
        "key": line.key,
        "what": line.what.value,
        "count": figure_data(line.count, system),
        "metal": None if metal.metal is None else metal.metal.value,
        "coating": is_now["coating"].value if "coating" in is_now else None,
        "width": figure_data(line.width, system),
        "thickness": figure_data(line.thickness, system),
        "length": figure_data(line.length, system),
        "mass_each": figure_data(line.each, system),
        "mass": figure_data(line.mass, system),
        "finish": None if metal.finish is None else metal.finish.value,
        "color": is_now.get("color"),
        "lot": lots_bought(plan) if line.same_lot else OWN_LOT,
        "trim": line.trim,
    }


def _accessory(one: Accessory, system: System) -> Json:
    return {
        "key": one.key, "name": one.name,
        "amount": or_null(known(one.amount), system), "net": or_null(known(one.net), system),
        "allowance": figure_data(one.allowance, system), "basis": one.basis,
        "needs": [key for lack in missing((one.amount,)) for key in lack.needs],
    }
