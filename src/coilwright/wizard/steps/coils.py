"""Step 7: how many coils, how long, how heavy."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.wizard.lists.coil_blocks import ArrivalsBlock, StockBlock
from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.widgets.coils_block import AccountBlock, CoilsBlock
from coilwright.wizard.widgets.search_block import SearchBlock
from coilwright.wizard.widgets.slit_block import SlitBlock

if TYPE_CHECKING:
    from coilwright.plan import Plan


def _coil(plan: Plan, width: int, height: int, _plane: int) -> list[str]:
    from coilwright.drawing.text import coil_lines

    if not plan.coils or width < 20 or height < 8:
        return []
    return coil_lines(plan, width, height)


VIEW = StepView(
    "coils",
    groups=(
        Group("", (
            "coils.coil_on", "coils.inside_diameter", "coils.spare", "coils.tolerance",
            "coils.wrap_allowance", "coils.supplier_heaviest", "coils.site_lift",
            "coils.minimum_order",
        )),
        Group("Slitting", (
            "coils.master", "coils.master_2", "coils.master_3", "coils.master_4",
            "coils.edge_trim",
        )),
        Group("When, and where they stand", (
            "coils.lead_time", "coils.order_date", "coils.storage",
        )),
    ),
    headlines=(
        Headline("coil.count", "Coils to order"),
        Headline("coil.length_ordered", "Order length"),
        Headline("coil.mass_ordered", "Order weight"),
        Headline("coil.heaviest", "Heaviest coil"),
        Headline("coil.longest", "Longest coil"),
        Headline("coil.usable", "Panels from one coil"),
    ),
    drawing=_coil,
    below=(StockBlock, SearchBlock, CoilsBlock, SlitBlock, AccountBlock, ArrivalsBlock),
)
