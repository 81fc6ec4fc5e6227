"""What limits a coil, the coils to order, and where the metal goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.units import Kind, System, show
from coilwright.wizard.literal import fit, pad
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.text_block import TextBlock

if TYPE_CHECKING:
    from coilwright.plan import CoilPlan
    from coilwright.plan.result import Cut


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
        for strip in plan.from_stock:
            made.append("")
            made.append(fit(
                f"on hand {strip.name}: {strip.length.text(system)} at least, "
                f"{strip.left.text(system)} left{', a stub' if strip.stub else ''}", width))
            made.extend(_cuts(strip.cuts, system, width))
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
    wide = width - len(head)
    if wide < 24:
        return [head.rstrip(), *_cuts(coil.cuts, system, width)]
    rows = [fit(_cut(cut, system), wide) for cut in coil.cuts] or [""]
    return [head + rows[0], *(" " * len(head) + row for row in rows[1:])]


def _cuts(cuts: tuple[Cut, ...], system: System, width: int) -> list[str]:
    return [fit(f"      {_cut(cut, system)}", width) for cut in cuts]


def _cut(cut: Cut, system: System) -> str:
    return f"{cut.count} × {show(cut.length, Kind.LENGTH, system)} {cut.name}"


class AccountBlock(TextBlock):
    """Where the metal goes, as bars and by length, weight and cost."""

    title = "Where the metal goes"

    def lines(self, session: Session, width: int) -> list[str]:
        """The bars, then the same parts in columns."""
        from coilwright.drawing.bars import account_columns, account_lines

        bars = account_lines(session.plan, width) if session.plan.account else []
        return [*bars, "", *account_columns(session.plan, width)] if bars else []
