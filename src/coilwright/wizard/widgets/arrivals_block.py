"""Coils of the order as they arrived: how many, each verdict, and a way to all of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import BarButton as Act
from coilwright.wizard.widgets.blocks import Block, Passage
from coilwright.wizard.widgets.blocks import ButtonBar as Bar

if TYPE_CHECKING:
    from coilwright.plan import Plan

_SHOWN = 6


class ArrivalsBlock(Block):
    """What came, in a line each; nothing is worked out while nothing has come."""

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[Plan | None, int] = (None, 0)

    def compose(self) -> ComposeResult:
        """Heading, button, lines."""
        yield Static(Content.styled(" Coils as they arrive", "bold"), classes="heading")
        yield Bar(Act("Off the truck: measure, accept or hold", id="open-arrivals",
                      action="screen.arrivals"))
        yield Passage("", classes="lines", markup=False)

    def show(self, session: Session) -> None:
        """Each coil that came, with its verdict."""
        plan = session.plan
        width = max(40, (self.size.width or self.screen.size.width) - 3)
        if (plan, width) == self._shown:
            return
        self._shown = (plan, width)
        lines = self.query_one(".lines", Passage)
        lines.display = bool(plan.job.arrived)
        if not plan.job.arrived:
            return
        from coilwright.plan.receiving.receive import receive
        from coilwright.wizard.arrival_lines import awaited_line, row_text

        found = [row_text(report, width) for report in receive(plan)]
        more = len(found) - _SHOWN
        shown = [*found[:_SHOWN], *([f"   and {more} more"] if more > 0 else [])]
        if waits := awaited_line(plan):
            shown.append(f"   {waits}")
        lines.update(Content("\n".join(shown)))
