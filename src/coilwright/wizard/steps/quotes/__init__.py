"""The Suppliers step: suppliers and what they quote, on one footing."""

from __future__ import annotations

from textual.app import ComposeResult

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.quotes import QuotesKey
from coilwright.values.figure import Figure
from coilwright.values.keys import Key
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.form import Screens
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.quotes import QUOTES, QUOTES_READ
from coilwright.wizard.lists.screen import list_screen
from coilwright.wizard.screens.figures import WorkingScreen
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar


def _working(rows: JobRows, figure: Figure) -> WorkingScreen:
    return WorkingScreen(figure, rows.session.job.units)


SCREENS: Screens = {
    "quotes": lambda rows, _subject: list_screen(
        JobRows(QUOTES_READ, rows.session, {"working": _working})),
    "working": _working,
}
"""What the list of quotes opens: the same list, with all that is said of one; a working."""


class QuotesBlock(RowsBlock):
    """The quotes, with which the step begins: how they are compared stands below them."""

    def __init__(self) -> None:
        super().__init__(QUOTES, SCREENS)

    def begins(self, session: Session) -> bool:
        """Always."""
        del session
        return True


class RequestsBar(Block):
    """Who was asked for a quote; the head of the order they lead to."""

    def compose(self) -> ComposeResult:
        """The buttons."""
        yield ButtonBar(
            BarButton("Requests for a quote", id="quotes-requests", action="screen.requests"),
            BarButton("Head of the order", id="quotes-order-head", action="screen.order_head"),
            BarButton("Life of the order", id="quotes-order-life", action="screen.order_life"),
        )


VIEW = StepView(
    "quotes",
    groups=(Group("How they are compared", (
        QuotesKey.SORT_BY, QuotesKey.CURRENCY, QuotesKey.TRIM_METAL)),),
    headlines=(
        Headline(Key.COIL_COUNT, "Coils"),
        Headline(Key.STRIP_WIDTH, "Strip"),
        Headline(Key.COIL_LENGTH_ORDERED, "To order"),
        Headline(Key.COIL_MASS_ORDERED, "Weight"),
        Headline(CoilsKey.LEAD_TIME, "Lead time"),
        Headline(Key.COILS_DAYS_SPARE, "Days to spare"),
    ),
    above=(QuotesBlock, RequestsBar),
)
