"""The Coils step: how many coils, how long, how heavy."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.job.answers.coils import CoilsKey
from coilwright.units import Kind, System, show
from coilwright.values.keys import Key
from coilwright.wizard.lists.coil_blocks import ArrivalsBlock, StockBlock, StockHint
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.steps.coils.search import SearchBlock
from coilwright.wizard.steps.coils.slitting import SlitBlock
from coilwright.wizard.widgets.blocks import TextBlock
from coilwright.wizard.widgets.columns import Column, cells, fit, hang, left, set_row
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.plan import CoilPlan, Plan
    from coilwright.plan.result import Cut

_LIMIT = (Column(24, cut=True), Column(14, right=True))
_COIL = (Column(5), Column(14, right=True), Column(12, right=True), Column(12, right=True))
"""Number, length, weight, diameter; the cuts stand behind them."""

_SHOWN, _SHOWN_CUTS = 20, 30
"""Coils, and cuts of one coil, that a screen is worth; whoever runs them has the run sheet."""


class CoilsBlock(TextBlock):
    """What limits a coil, with the limit that governs named, then the coils to order."""

    def __init__(self) -> None:
        super().__init__("Coils", coils_lines)


class AccountBlock(TextBlock):
    """Where the metal goes, as bars and by length, weight and cost."""

    def __init__(self) -> None:
        super().__init__("Where the metal goes", _account_lines)


def coils_lines(session: Session, width: int) -> list[str]:
    """A line a limit, a line a coil, a line a batch of cuts; none is cut.

    session: the job. width: of the lines [cells].
    """
    plan, system = session.plan, session.job.units
    made = []
    for limit in plan.limits:
        governs = " ◂ governs" if limit == plan.governing else ""
        made.append(fit(set_row((limit.name, limit.length.text(system)), _LIMIT) + governs, width))
    if made:
        made.insert(0, "longest coil to order, held as shipped, by")
    for strip in plan.from_stock:
        made.append("")
        made += hang(((
            f"on hand {strip.name}: {strip.length.text(system)} at least, "
            f"{strip.left.text(system)} left past spare and ends"
            f"{', too short to keep' if strip.too_short else ''}", ""),), width, 3,
        ).plain.split("\n")
        made.extend(_cuts(strip.cuts, system, width))
    if plan.coils:
        made.append("")
        made.append(set_row(("coil", "length", "weight", "OD"), _COIL, gap="") + "   cuts")
    for coil in plan.coils[:_SHOWN]:
        made.extend(_coil(coil, system, width))
    if (more := len(plan.coils) - _SHOWN) > 0:
        made.append(fit(f"and {counted(more, 'coil')} more: the run sheet has each, with its cuts",
                        width))
    return made


def _coil(coil: CoilPlan, system: System, width: int) -> list[str]:
    mark = "~" if coil.length.mark else " "
    head = set_row(
        (f"{left(str(coil.number), 4)}{mark}", coil.length.text(system), coil.mass.text(system),
         coil.outside_diameter.text(system)), _COIL, gap="") + "   "
    wide = width - len(head)
    rows = _cut_texts(coil.cuts, system) or [""]
    if max(map(cells, rows)) > wide:
        return [head.rstrip(), *_cuts(coil.cuts, system, width)]
    return [head + rows[0], *(" " * len(head) + row for row in rows[1:])]


def _cuts(cuts: tuple[Cut, ...], system: System, width: int) -> list[str]:
    return [fit(f"      {text}", width) for text in _cut_texts(cuts, system)]


def _cut_texts(cuts: tuple[Cut, ...], system: System) -> list[str]:
    made = [f"{cut.count} × {show(cut.length, Kind.LENGTH, system)} {cut.name}"
            for cut in cuts[:_SHOWN_CUTS]]
    if (more := len(cuts) - _SHOWN_CUTS) > 0:
        made.append(f"and {counted(more, 'cut')} more: run sheet")
    return made


def _account_lines(session: Session, width: int) -> list[str]:
    """The bars, then the same parts in columns."""
    from coilwright.drawing.bars import account_columns, account_lines

    bars = account_lines(session.plan, width) if session.plan.account else []
    return [*bars, "", *account_columns(session.plan, width)] if bars else []


def _drawing(plan: Plan, width: int, height: int, _plane: int, work: LineWork) -> list[str]:
    from coilwright.drawing.coil import coil_lines

    if not plan.coils or width < 20 or height < 8:
        return []
    return list(map(work.plain, coil_lines(plan, width, height)))


VIEW = StepView(
    "coils",
    groups=(
        Group("", (
            CoilsKey.COIL_ON, CoilsKey.INSIDE_DIAMETER, CoilsKey.SPARE, CoilsKey.TOLERANCE,
            CoilsKey.TOLERANCE_OVER, CoilsKey.WRAP_ALLOWANCE, CoilsKey.SUPPLIER_HEAVIEST,
            CoilsKey.SITE_LIFT, CoilsKey.MINIMUM_ORDER, CoilsKey.EYE, CoilsKey.SKID,
        )),
        Group("Slitting", (
            CoilsKey.MASTER, CoilsKey.MASTER_2, CoilsKey.MASTER_3, CoilsKey.MASTER_4,
            CoilsKey.SLITTING, CoilsKey.EDGE_TRIM, CoilsKey.MASTER_HEAVIEST,
            CoilsKey.WIDTH_TOLERANCE, CoilsKey.CAMBER, CoilsKey.CAMBER_OVER,
        )),
        Group("Dates and storage", (
            CoilsKey.LEAD_TIME, CoilsKey.ORDER_DATE, CoilsKey.STORAGE,
        )),
    ),
    headlines=(
        Headline(Key.COIL_COUNT, "Coils to order"),
        Headline(Key.COIL_LENGTH_ORDERED, "Order length"),
        Headline(Key.COIL_MASS_ORDERED, "Order weight"),
        Headline(Key.COIL_HEAVIEST, "Heaviest by tolerance",
                 instead=(Key.COIL_CAME, "Heaviest that came")),
        Headline(Key.COIL_LONGEST, "Longest that fits"),
        Headline(Key.COIL_USABLE, "Usable per coil"),
    ),
    drawing=_drawing,
    above=(StockHint,),
    below=(StockBlock, SearchBlock, CoilsBlock, SlitBlock, AccountBlock, ArrivalsBlock),
)
