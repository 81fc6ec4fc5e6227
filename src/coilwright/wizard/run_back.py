"""What is left of a run put back to stock, and what that changes, line by line. No screens."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from coilwright.job.stock import Stock
from coilwright.units import System
from coilwright.wizard.lists.coils_on_hand import length_text
from coilwright.wizard.literal import tame

if TYPE_CHECKING:
    from coilwright.plan import Plan


def put_back(
    plan: Plan, stock: Stock, measured: Mapping[str, float]
) -> tuple[Stock, tuple[str, ...]]:
    """The stock after the run, and the tags of coils that stay as they are.

    measured: lengths left [in] by coil key. A coil that is not in stock as this job took it was
    put back before, or used by another job: without a measured length it stays as it is.
    """
    from coilwright.plan.run import after_run

    after = after_run(plan, stock, measured)
    stays = []
    for used in plan.from_stock:
        taken = plan.job.on_hand[used.index]
        there = stock.find(taken.tag)
        if there is None or there == taken or used.key in measured:
            continue
        if after.find(taken.tag) != there:
            after = after.put(there)
        stays.append(taken.tag)
    return after, tuple(dict.fromkeys(stays))


def twice_lines(plan: Plan, stock: Stock, measured: Mapping[str, float]) -> list[str]:
    """A word on new coils whose leftover seems to be in stock already."""
    from coilwright.plan.run import tag_of_new

    tags = [tag_of_new(plan, coil.number) for coil in plan.coils
            if measured.get(f"coil.{coil.number}", 0.0)]
    there = [tame(tag) for tag in tags if stock.find(tag) is not None]
    return [f"In stock already, this would be one more: {', '.join(there)}"] if there else []


def change_lines(before: Stock, after: Stock, system: System) -> list[str]:
    """What differs, a line a coil."""
    lines = []
    for coil in before.coils:
        now = after.find(coil.tag)
        if now is None:
            lines.append(f"{tame(coil.tag)}: used up, it goes")
        elif now != coil:
            lines.append(f"{tame(coil.tag)}: {length_text(coil, system)}, then "
                         f"{length_text(now, system)}")
    lines += [f"{tame(coil.tag)}: new, {length_text(coil, system)}" for coil in after.coils
              if before.find(coil.tag) is None]
    return lines
