"""What the coils step does with coils on hand, coils that arrive, and leftovers of the run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.store import StoreError
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.wizard.coils_on_hand import CoilRow
    from coilwright.wizard.stock_book import StockBook


class StockController:
    """Coils on hand: the list of all of them, and those this job uses."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def _book(self, title: str, timeout: float) -> StockBook | None:
        """The list of all coils; where it cannot be read that is said."""
        from coilwright.wizard.stock_book import book_of

        try:
            return book_of(self._context.session.store)
        except StoreError as error:
            self._context.say(str(error), title=title, severity="error", timeout=timeout)
            return None

    def _closed(self, _returned: object) -> None:
        self._context.changed()

    def stock(self) -> None:
        """All coils on hand: add, change, and use those that fit."""
        from coilwright.wizard.screens.stock import StockScreen

        self._context.session.seal()
        if (book := self._book("", 15)) is not None:
            self._context.open(StockScreen(book, self._context.session), self._closed)

    def arrivals(self) -> None:
        """Coils as they arrive: what was measured, and whether each is accepted or held."""
        from coilwright.wizard.screens.receiving import ReceivingScreen

        context = self._context
        context.session.seal()
        context.open(ReceivingScreen(context.session, context.changed), self._closed)

    def remove(self, row: CoilRow) -> None:
        """Take a coil off this job; the list of all coils keeps it."""
        from coilwright.wizard.coils_on_hand import without_coil

        context = self._context
        context.session.seal()
        context.session.change(without_coil(context.session.job, row.index),
                               f"Coil {row.tag} not used")
        context.changed()
        context.say(f"{escape_controls(row.tag)} is off this job; Ctrl+Z brings it back.")

    def use_fitting(self) -> None:
        """Use all coils on hand that fit this job."""
        from coilwright.plan.coils.run import with_fitting

        if (book := self._book("Coils on hand", 12)) is None:
            return
        context = self._context
        job = with_fitting(context.session.job, book.stock)
        context.session.seal()
        if context.session.change(job, f"All {len(job.on_hand)} coils that fit taken"):
            context.changed()
            used = counted(len(job.on_hand), "coil")
            verb = "is" if len(job.on_hand) == 1 else "are"
            context.say(f"{used} on hand {verb} used where metal is saved.")
        else:
            context.say("Nothing changed; the list of coils on hand says why.")

    def run_done(self) -> None:
        """What is left of the coils goes back to stock."""
        from coilwright.wizard.screens.run_done import RunDoneScreen

        plan = self._context.session.plan
        if not plan.coils and not plan.from_stock:
            self._context.say("There is nothing to run yet: the plan has no coils.")
        elif (book := self._book("Coils on hand", 12)) is not None:
            self._context.open(RunDoneScreen(book, plan))
