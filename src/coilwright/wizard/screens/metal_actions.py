"""The least metal: coils on hand, a longer search, widths compared, leftovers back to stock."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, cast

from textual import work
from textual.worker import Worker, get_current_worker

from coilwright.store import StoreError
from coilwright.wizard.screens.job_screen import JobScreen
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan import Plan
    from coilwright.wizard.lists.stock_book import StockBook
    from coilwright.wizard.widgets.search_block import SearchBlock

SEARCH_FOR = 20.0
"""Seconds a longer search is allowed."""
_TELL_EVERY = 0.1
"""Seconds between two words on how far it is."""
_WORK, _BREATH = 0.02, 0.001
"""Seconds of work after which the search leaves the keys some."""


class MetalActions(JobScreen):
    """Actions that the coils, panel and summary steps and the palette share."""

    _searcher: Worker[None] | None = None

    # -- coils on hand ---------------------------------------------------------------------

    def _book(self) -> StockBook | None:
        from coilwright.wizard.lists.stock_book import book_of

        try:
            return book_of(self.session.store)
        except StoreError as error:
            self.notify(str(error), title="Coils on hand", severity="error", timeout=12,
                        markup=False)
            return None

    def action_use_fitting(self) -> None:
        """Use all coils on hand that fit this job."""
        from coilwright.plan.run import with_fitting

        if (book := self._book()) is None:
            return
        job = with_fitting(self.session.job, book.stock)
        self.session.seal()
        if self.session.change(job, f"All {len(job.on_hand)} coils that fit taken"):
            self.changed()
            used = counted(len(job.on_hand), "coil")
            verb = "is" if len(job.on_hand) == 1 else "are"
            self.notify(f"{used} on hand {verb} used where metal is saved.", markup=False)
        else:
            self.notify("Nothing changed; the list of coils on hand says why.", markup=False)

    def action_run_done(self) -> None:
        """What is left of the coils goes back to stock."""
        from coilwright.wizard.lists.entry import entry_screen
        from coilwright.wizard.lists.run_done import RunDone

        plan = self.session.plan
        if not plan.coils and not plan.from_stock:
            self.notify("There is nothing to run yet: the plan has no coils.", markup=False)
        elif (book := self._book()) is not None:
            self.app.push_screen(entry_screen(RunDone(book, plan)))

    # -- widths ----------------------------------------------------------------------------

    def action_widths(self) -> None:
        """Compare the coverage widths the machine can be set to."""
        from coilwright.plan.compare import widths
        from coilwright.wizard.screens.widths import WidthsScreen

        def closed(taken: object) -> None:
            if taken:
                self.changed()

        if not widths(self.session.job):
            self.notify(
                "To compare widths, the machine needs the narrowest and widest coverage its "
                "tooling for this seam and leg takes.", title="No widths yet", timeout=6,
                markup=False)
            return
        self.app.push_screen(WidthsScreen(self.session), closed)

    # -- the longer search -----------------------------------------------------------------

    def action_search_metal(self) -> None:
        """Search longer for less metal; the same again stops the search."""
        from coilwright.sheets.proof_words import is_proven, proof_line

        if self._searcher is not None and self._searcher.is_running:
            self._searcher.cancel()
            return
        plan = self.session.plan
        if plan.proof is None:
            self.notify("There is no cut plan yet to better.", markup=False)
        elif is_proven(plan):
            self.notify(proof_line(plan), markup=False)
        else:
            if (block := self._search_block()) is not None:
                block.searching("Searching …")
            self._searcher = self._search(self.session.job, plan)

    @work(thread=True, exclusive=True, group="least-metal", name="least-metal",
          exit_on_error=False)
    def _search(self, job: Job, plan: Plan) -> None:
        from coilwright.plan import replan
        from coilwright.sheets.proof_words import searching_line

        worker = get_current_worker()
        told = worked = time.monotonic()

        def cancelled() -> bool:
            nonlocal worked
            if time.monotonic() - worked > _WORK:
                time.sleep(_BREATH)
                worked = time.monotonic()
            return worker.is_cancelled or self.session.job is not job

        def progress(metal: float, bound: float) -> None:
            nonlocal told
            if time.monotonic() - told > _TELL_EVERY and not cancelled():
                told = time.monotonic()
                self.app.call_from_thread(self._search_is_at,
                                          searching_line(metal, bound, job.units))

        found = replan(job, SEARCH_FOR, time.monotonic, progress, cancelled)
        self.app.call_from_thread(self._searched, plan, found, worker.is_cancelled)

    def _search_is_at(self, words: str) -> None:
        if (block := self._search_block()) is not None:
            block.searching(words)

    def _searched(self, before: Plan, found: Plan, stopped: bool) -> None:
        """Take what was found, also by a search that was stopped, where the job is the same."""
        from coilwright.sheets.proof_words import found_line

        self._searcher = None
        if not self.session.take_plan(found):
            if (block := self._search_block()) is not None:
                block.show(self.session)
            return
        self.changed()
        words = found_line(before, self.session.plan)
        self.notify(f"Stopped. {words}" if stopped else words, title="Least metal", timeout=8,
                    markup=False)

    def _search_block(self) -> SearchBlock | None:
        return cast("SearchBlock | None", next(self.query("SearchBlock").results(), None))
