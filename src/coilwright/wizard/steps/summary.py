"""The last step: ready or not, and why; what to ask first; what to send."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.wizard.step_view import Headline, StepView
from coilwright.wizard.widgets.metal_bars import RunDoneBar
from coilwright.wizard.widgets.summary_block import SheetsBlock, SummaryBlock

if TYPE_CHECKING:
    from coilwright.plan import Plan


def _account(plan: Plan, width: int, height: int, _plane: int) -> list[str]:
    from coilwright.drawing.bars import account_lines

    if not plan.account or width < 24 or height < 3:
        return []
    return ["Where the metal goes", *account_lines(plan, width)]


VIEW = StepView(
    "summary",
    headlines=(
        Headline("coil.count", "Coils"),
        Headline("coil.length_ordered", "Order"),
        Headline("coil.mass_ordered", "Weight"),
        Headline("strip.width", "Strip width"),
        Headline("panels.count", "Panels"),
        Headline("roof.area", "Roof"),
        Headline("panels.longest", "Longest panel"),
        Headline("coil.1.outside_diameter", "Coil 1 across"),
        Headline("panel.movement", "Movement"),
    ),
    drawing=_account,
    above=(SummaryBlock, SheetsBlock, RunDoneBar),
)
