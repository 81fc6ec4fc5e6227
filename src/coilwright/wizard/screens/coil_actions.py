"""What the coils step does with coils on hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.store import StoreError
from coilwright.wizard.literal import tame
from coilwright.wizard.screens.job_screen import JobScreen

if TYPE_CHECKING:
    from coilwright.wizard.lists.coil_blocks import JobCoils


class CoilActions(JobScreen):
    """Coils on hand: the list of all of them, and those this job uses."""

    def action_stock(self) -> None:
        """All coils on hand: add, change, and use those that fit."""
        from coilwright.wizard.lists.coils_on_hand import StockRows
        from coilwright.wizard.lists.screen import list_screen
        from coilwright.wizard.lists.stock_book import book_of

        def closed(_changed: bool | None) -> None:
            self.changed()

        self.session.seal()
        try:
            book = book_of(self.session.store)
        except StoreError as error:
            self.notify(str(error), severity="error", timeout=15, markup=False)
            return
        self.app.push_screen(list_screen(StockRows(book, self.session)), closed)

    def action_arrivals(self) -> None:
        """Coils as they arrive: what was measured, and whether each is accepted or held."""
        from coilwright.wizard.lists.arrivals import ARRIVALS
        from coilwright.wizard.lists.job_rows import JobRows
        from coilwright.wizard.lists.screen import list_screen
        from coilwright.wizard.screens.figures import FiguresScreen

        def closed(_nothing: object) -> None:
            self.changed()

        self.session.seal()
        rows = JobRows(ARRIVALS, self.session,
                       {"working": lambda _rows, plan: FiguresScreen(plan)})
        self.app.push_screen(list_screen(rows, self.changed), closed)

    def on_job_coils_removed(self, event: JobCoils.Removed) -> None:
        """Take a coil off this job; the list of all coils keeps it."""
        from coilwright.wizard.lists.coil_blocks import without_coil

        event.stop()
        row = event.row
        self.session.seal()
        self.session.change(without_coil(self.session.job, row.index), f"Coil {row.tag} not used")
        self.changed()
        self.notify(f"{tame(row.tag)} is off this job; Ctrl+Z brings it back.", markup=False)
