"""Step 6: the trim, its blanks nested across the metal it is cut from."""

from __future__ import annotations

from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.widgets.trim_block import TrimBlock

VIEW = StepView(
    "trim",
    groups=(
        Group("", ("trim.lap", "trim.blank", "trim.sheet_width", "trim.sheet_length")),
        Group("Beside the coil (optional)", (
            "trim.clip_allowance", "trim.clip_fasteners", "trim.fastener_allowance",
            "trim.underlayment_allowance", "trim.closure_allowance", "trim.sealant_beads",
            "trim.sealant_allowance",
        )),
    ),
    headlines=(
        Headline("edges.eave", "Eave"),
        Headline("edges.rake", "Rake"),
        Headline("edges.ridge", "Ridge"),
        Headline("edges.hip", "Hip"),
        Headline("edges.valley", "Valley"),
        Headline("edges.wall", "Wall"),
    ),
    below=(TrimBlock,),
)
