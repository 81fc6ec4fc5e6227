"""Step 9: suppliers and what they quote, on one footing."""

from __future__ import annotations

from functools import partial

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.quotes import QuotesKey
from coilwright.values.keys import Key
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.form import Screens
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.quotes import QUOTES, QUOTES_READ
from coilwright.wizard.lists.screen import list_screen
from coilwright.wizard.step_view import Group, Headline, StepView

SCREENS: Screens = {
    "quotes": lambda rows, _subject: list_screen(JobRows(QUOTES_READ, rows.session)),
}
"""The screen that the list of quotes opens: the same list, with all that is said of one."""

VIEW = StepView(
    "quotes",
    groups=(Group("", (QuotesKey.SORT_BY, QuotesKey.CURRENCY)),),
    headlines=(
        Headline(Key.COIL_COUNT, "Coils"),
        Headline(Key.STRIP_WIDTH, "Strip"),
        Headline(Key.COIL_LENGTH_ORDERED, "To order"),
        Headline(Key.COIL_MASS_ORDERED, "Weight"),
        Headline(CoilsKey.LEAD_TIME, "Lead time"),
        Headline(Key.COILS_DAYS_SPARE, "Days to spare"),
    ),
    below=(partial(RowsBlock, QUOTES, SCREENS),),
)
