"""What limits a coil, the coils to order, and where the metal goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.units import Kind, System, show
from coilwright.wizard.literal import fit, pad
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.text_block import TextBlock

if TYPE_CHECKING:
    from coilwright.plan import CoilPlan


class CoilsBlock(TextBlock):
    """Limits with the governing one named, then the coils."""

    title = "Coils"

    def lines(self, session: Session, width: int) -> list[str]:
        """A line a limit, a line a coil, a line a batch of cuts."""
        plan, system = session.plan, session.job.units
        made = []
        for limit in plan.limits:
            governs = " ◂ governs" if limit == plan.governing else ""
            made.append(
                fit(f"{pad(limit.name, 24)} {limit.length.text(system):>14}{governs}", width)
            )
        if made:
            made.insert(0, "longest coil by")
        if plan.coils:
            made.append("")
            made.append(f"{'coil':<5}{'length':>14}{'weight':>12}{'across':>12}   cuts")
        for coil in plan.coils:
            made.extend(_coil(coil, system, width))
        return made


def _coil(coil: CoilPlan, system: System, width: int) -> list[str]:
    mark = "~" if coil.length.mark else " "
    head = (
        f"{coil.number:<4}{mark}{coil.length.text(system):>14}{coil.mass.text(system):>12}"
        f"{coil.outside_diameter.text(system):>12}   "
    )
    cuts = [
        f"{c.count} × {show(c.length, Kind.LENGTH, system)} {c.name}" for c in coil.cuts
    ]
    wide = width - len(head)
    if wide < 24:
        return [head.rstrip(), *(fit(f"      {cut}", width) for cut in cuts)]
    rows = [fit(cut, wide) for cut in cuts] or [""]
    return [head + rows[0], *(" " * len(head) + row for row in rows[1:])]


class AccountBlock(TextBlock):
    """Where the metal goes, as bars."""

    title = "Where the metal goes"

    def lines(self, session: Session, width: int) -> list[str]:
        """The bars."""
        from coilwright.drawing.text import account_lines

        return account_lines(session.plan, width) if session.plan.account else []
