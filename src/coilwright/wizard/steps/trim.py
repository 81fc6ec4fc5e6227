"""Step 6: the trim, its blanks nested across the metal it is cut from."""

from __future__ import annotations

from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.widgets.trim_block import TrimBlock

VIEW = StepView(
    "trim",
    groups=(
        Group("", ("trim.lap", "trim.blank", "trim.sheet_width", "trim.sheet_length")),
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
