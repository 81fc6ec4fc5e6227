"""What the coils step does with coils on hand, coils that arrive, and leftovers of the run."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from coilwright.store import StoreError
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.wizard.lists.coil_blocks import CoilRow
    from coilwright.wizard.lists.stock_book import StockBook


class StockController:
    """Coils on hand: the list of all of them, and those this job uses.

    look_again: called when the list may have changed.
    """

    def __init__(self, context: Context, look_again: Callable[[], None]) -> None:
        self._context = context
        self._look_again = look_again

    def _book(self, title: str, timeout: float) -> StockBook | None:
        """The list of all coils; where it cannot be read that is said."""
        from coilwright.wizard.lists.stock_book import book_of

        try:
            return book_of(self._context.session.store)
        except StoreError as error:
            self._context.say(str(error), title=title, severity="error", timeout=timeout)
            return None

    def _closed(self, _returned: object) -> None:
        self._look_again()
        self._context.changed()

    def stock(self) -> None:
        """All coils on hand: add, change, and use those that fit."""
        from coilwright.wizard.lists.coil_planes import PLANES
        from coilwright.wizard.lists.coils_on_hand import StockRows
        from coilwright.wizard.lists.screen import list_screen
        from coilwright.wizard.screens.pick import PickScreen

        self._context.session.seal()
        if (book := self._book("", 15)) is not None:
            rows = StockRows(book, self._context.session, {
                PLANES: lambda _opened, names: PickScreen("Kept to a plane, or trim", names, ""),
            })
            self._context.open(list_screen(rows), self._closed)

    def arrivals(self) -> None:
        """Coils as they arrive: what was measured, and whether each is accepted or held."""
        from coilwright.wizard.lists.arrivals import ARRIVALS
        from coilwright.wizard.lists.job_rows import JobRows
        from coilwright.wizard.lists.screen import list_screen
        from coilwright.wizard.screens.figures import FiguresScreen

        context = self._context
        context.session.seal()
        rows = JobRows(ARRIVALS, context.session,
                       {"working": lambda _rows, plan: FiguresScreen(plan)})
        context.open(list_screen(rows, context.changed), self._closed)

    def remove(self, row: CoilRow) -> None:
        """Take a coil off this job; the list of all coils keeps it."""
        from coilwright.wizard.lists.coil_blocks import without_coil

        context = self._context
        context.session.seal()
        context.session.change(without_coil(context.session.job, row.index),
                               f"Coil {row.tag} not used")
        context.changed()
        context.say(f"{escape_controls(row.tag)} is off this job; Ctrl+Z brings it back.")

    def use_fitting(self) -> None:
        """Use all coils on hand that fit this job."""
        from coilwright.plan.coils.leftovers import with_fitting

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

    def in_stock(self) -> str:
        """What of this job's coils is in stock after the run, in words for the user."""
        from coilwright.plan.coils.after_run import leftovers
        from coilwright.sheets.baseline import baseline
        from coilwright.wizard.lists.coil_draft import length_text

        session = self._context.session
        if (book := self._book("Coils on hand", 12)) is None:
            return ""
        there = [f"{coil.tag}, {length_text(coil, session.job.units)}"
                 for coil in leftovers(baseline(session.plan), book.stock)]
        return (f"In stock, and it stays there: {'; '.join(there)}. Marked run again, it is "
                "measured again and not put in once more. ") if there else ""

    def run_marked(self) -> None:
        """What is left goes back to stock, where it is not there already: then that is said."""
        self.run_done(once=True)

    def run_done(self, *, once: bool = False) -> None:
        """What is left of the coils goes back to stock.

        once: do not ask again for what was put back.
        """
        from coilwright.sheets.baseline import baseline, baseline_words
        from coilwright.wizard.lists.entry import entry_screen
        from coilwright.wizard.lists.run_done import RunDone
        from coilwright.wizard.lists.run_words import out_lines

        now = self._context.session.plan
        plan = baseline(now)
        if not plan.coils and not plan.from_stock:
            self._context.say("There is nothing to run yet: the plan has no coils.")
        elif (book := self._book("Coils on hand", 12)) is not None:
            run = RunDone(book, plan, baseline_words(now), self._keep_put,
                          self._context.session)
            if not run.coils:
                self._context.say(f"Nothing to put back. {' '.join(out_lines(run.out, plan.job))}",
                                  timeout=10)
                return
            if once and run.is_all_back:
                day = self._context.session.job.put_back_on
                on = f", on {plan.job.day(day)}" if day is not None else ""
                self._context.say(f"All is put back already{on}: {'; '.join(run.back_words())}. "
                                  "After the run on the Summary changes that.", timeout=10)
                return
            self._context.open(entry_screen(run), self._closed)

    def _keep_put(self, tags: dict[str, str]) -> None:
        """Keep with the job what of it went to stock: put back again, it is not one more."""
        self._context.session.keep_put(tags)
        self._look_again()
        self._context.changed()
