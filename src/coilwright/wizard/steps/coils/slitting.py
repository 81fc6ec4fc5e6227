"""Slitting: the masters side by side, and the passes of the order."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coilwright.job.answers.coils import MASTERS
from coilwright.units import System
from coilwright.values.keys import Key
from coilwright.wizard.progress import lack_sentence
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import TextBlock
from coilwright.wizard.widgets.columns import (
    cells,
    fit,
    natural_columns,
    right,
    set_row,
    table_width,
)

if TYPE_CHECKING:
    from coilwright.plan import Plan, SlitPass, SlitPlan
    from coilwright.plan.result import SlitStrand
    from coilwright.values.figure import Figure


class SlitBlock(TextBlock):
    """The masters by the metal they take, and the passes ordered; none while none is given."""

    def __init__(self) -> None:
        super().__init__("Slitting, the least metal first", _lines)


def _lines(session: Session, width: int) -> list[str]:
    return slit_lines(session.plan, width)


@dataclass(frozen=True, slots=True)
class _Column:
    """rank: the higher, the sooner it gives way where it is narrow."""

    head: str
    figure: Callable[[SlitPlan], Figure | None]
    rank: int


_COLUMNS = (
    _Column("across", lambda s: s.strips, 4),
    _Column("length", lambda s: s.length, 3),
    _Column("drop width", lambda s: s.width, 5),
    _Column("drop %", lambda s: s.share, 2),
    _Column("drop weight", lambda s: s.drop_mass, 0),
    _Column("drop cost", lambda s: s.money, 1),
)


def slit_lines(plan: Plan, width: int) -> list[str]:
    """The masters, the least metal first, then the passes where the order says them.

    What they wait for while something is lacking; empty where no master is given.
    """
    if not plan.slits:
        if not any(key in plan.figures for key in MASTERS):
            return []
        if Key.SLIT_DROP_MASS in plan.lacks:
            return [fit(lack_sentence(plan, Key.SLIT_DROP_MASS, "Slitting"), width)]
        return [fit("no master is wide enough for the strip", width)]
    system = plan.job.units
    lines = _table(plan.slits, system, width)
    best = plan.ordered_slit
    lines.append("")
    if best is None:
        return [*lines, fit("slit to width: the drop is the supplier's", width)]
    lines.append(fit(f"{best.master.text(system)}: {best.length.mark}{best.mass.text(system)} "
                     f"of master, {_proof(plan)}", width))
    wide = max(cells(_text(one.length, system)) for one in best.passes)
    for one, many in best.alike():
        lines.extend(_pass(one, many, system, wide, width))
    for name in best.left_out:
        lines.append(fit(f"not slit from it: {name}", width))
    return lines


def _proof(plan: Plan) -> str:
    proof = plan.proof
    if proof is None or proof.proven:
        return "proven the least"
    return f"within {proof.gap_mass.text(plan.job.units)} of the least"


def _text(figure: Figure | None, system: System) -> str:
    return "–" if figure is None else f"{figure.mark}{figure.text(system)}"


def _table(slits: Sequence[SlitPlan], system: System, width: int) -> list[str]:
    heads = ["master"]
    rows = [[s.master.text(system)] for s in slits]
    # Where the supplier slits, a length of master is no length of the order.
    in_passes = any(s.passes for s in slits)
    kept = [c for c in _COLUMNS if any(c.figure(s) is not None for s in slits)
            and (in_passes or c.head != "length")]
    while True:
        made = [[*heads, *(c.head for c in kept)]] + [
            [*row, *(_text(c.figure(s), system) for c in kept)]
            for row, s in zip(rows, slits, strict=True)
        ]
        columns = natural_columns(made, right_from=len(heads))
        if table_width(columns) <= width or len(kept) <= 1:
            break
        kept.remove(max(kept, key=lambda c: c.rank))
    return [fit(set_row(row, columns, gap="  ").rstrip(), width) for row in made]


def _pass(one: SlitPass, many: int, system: System, wide: int, width: int) -> list[str]:
    """Passes alike: how many, their length, strands and drop; further strands on further lines."""
    head = f"{many} × {right(_text(one.length, system), wide)}  "
    counts: dict[tuple[str, float], list[SlitStrand]] = {}
    for strand in one.strands:
        counts.setdefault((strand.name, strand.width.value), []).append(strand)
    parts = [f"{len(same)} × {_text(same[0].width, system)} {same[0].name},"
             for same in counts.values()]
    parts.append(f"{_text(one.drop, system)} drop")
    lines = [head + parts[0]]
    for part in parts[1:]:
        if cells(f"{lines[-1]} {part}") > width:
            lines.append(" " * len(head) + part)
        else:
            lines[-1] += f" {part}"
    return [fit(line, width) for line in lines]
