"""What the coils step does with coils on hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.store import StoreError
from coilwright.wizard.literal import tame
from coilwright.wizard.screens.job_screen import JobScreen

if TYPE_CHECKING:
    from coilwright.wizard.lists.coil_blocks import StockRows


class CoilActions(JobScreen):
    """Coils on hand: the list of all of them, and those this job uses."""

    def action_stock(self) -> None:
        """All coils on hand: add, change, and use those that fit."""
        from coilwright.wizard.lists.screen import StockScreen
        from coilwright.wizard.lists.stock_book import book_of

        def closed(_changed: bool | None) -> None:
            self.changed()

        self.session.seal()
        try:
            book = book_of(self.session.store)
        except StoreError as error:
            self.notify(str(error), severity="error", timeout=15, markup=False)
            return
        self.app.push_screen(StockScreen(book, self.session), closed)

    def action_arrivals(self) -> None:
        """Coils as they arrive: what was measured, and whether each is accepted or held."""
        from coilwright.wizard.screens.receiving import ReceivingScreen

        def closed(_nothing: object) -> None:
            self.changed()

        self.session.seal()
        self.app.push_screen(ReceivingScreen(self.session, self.changed), closed)

    def on_stock_rows_removed(self, event: StockRows.Removed) -> None:
        """Take a coil off this job; the list of all coils keeps it."""
        from coilwright.wizard.coils_on_hand import without_coil

        event.stop()
        row = event.row
        self.session.seal()
        self.session.change(without_coil(self.session.job, row.index), f"Coil {row.tag} not used")
        self.changed()
        self.notify(f"{tame(row.tag)} is off this job; Ctrl+Z brings it back.", markup=False)
