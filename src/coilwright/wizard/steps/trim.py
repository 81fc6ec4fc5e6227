"""The Trim step: the trim, its blanks nested across the metal it is cut from."""

from __future__ import annotations

from functools import partial

from coilwright.job.answers.trim import TrimKey
from coilwright.values.keys import Key
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.trim import TRIM
from coilwright.wizard.step_view import Group, Headline, StepView

VIEW = StepView(
    "trim",
    groups=(
        Group("", (TrimKey.LAP, TrimKey.BLANK, TrimKey.SHEET_WIDTH, TrimKey.SHEET_LENGTH)),
    ),
    headlines=(
        Headline(Key.EDGES_EAVE, "Eave"),
        Headline(Key.EDGES_RAKE, "Rake"),
        Headline(Key.EDGES_RIDGE, "Ridge"),
        Headline(Key.EDGES_HIP, "Hip"),
        Headline(Key.EDGES_VALLEY, "Valley"),
        Headline(Key.EDGES_WALL, "Wall"),
    ),
    below=(partial(RowsBlock, TRIM),),
)
