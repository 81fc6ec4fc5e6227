"""The coils on hand that the job may use."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.wizard.coils_on_hand import CoilRow, coil_rows
from coilwright.wizard.literal import pad, tame
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.act import Act, Bar
from coilwright.wizard.widgets.rows import Rows


class StockRows(Rows):
    """The rows; Enter opens the list of all coils, d takes one off the job."""

    BINDINGS = [
        Binding("a,insert", "screen.stock", "Coils on hand", show=False, id="coil.stock",
                tooltip="All coils on hand: add, change, use"),
        Binding("d,delete", "remove", "Not in this job", show=False, id="coil.remove",
                tooltip="Take the marked coil off this job; Ctrl+Z brings it back"),
    ]

    class Removed(Message):
        """A coil is to be taken off the job."""

        def __init__(self, row: CoilRow) -> None:
            super().__init__()
            self.row = row

    def __init__(self) -> None:
        super().__init__(compact=True)
        self.coils: tuple[CoilRow, ...] = ()

    def action_remove(self) -> None:
        """Take the marked coil off the job."""
        if self.highlighted is not None and self.highlighted < len(self.coils):
            self.post_message(self.Removed(self.coils[self.highlighted]))

    async def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Open the list of all coils."""
        event.stop()
        await self.screen.run_action("stock")


class StockBlock(Block):
    """Coils on hand: those of this job, and a way to all of them."""

    def compose(self) -> ComposeResult:
        """Heading, button, rows, a word."""
        yield Static(Content.styled(" Coils on hand", "bold"), classes="heading")
        yield Bar(Act("All coils on hand: add, change, use", id="open-stock",
                      action="screen.stock"))
        yield StockRows()
        yield Static("", classes="none-yet", markup=False)

    def show(self, session: Session) -> None:
        """Show the coils and what the plan does with each."""
        rows = self.query_one(StockRows)
        found = coil_rows(session.job, session.plan)
        self.query_one(".none-yet", Static).update(
            "   d takes the marked coil off this job" if found else
            "   none in this job: all metal is ordered new"
        )
        rows.display = bool(found)
        if found == rows.coils:
            return
        rows.coils = found
        marked = rows.highlighted
        rows.set_options(
            Option(Content.assemble(
                f" {pad(tame(row.tag), 12)} ", (tame(row.about), "dim"), "\n   ",
                (tame(row.use), "bold" if row.used else ""),
            ))
            for row in found
        )
        if found:
            rows.highlighted = min(marked or 0, len(found) - 1)
