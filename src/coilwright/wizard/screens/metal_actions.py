"""The least metal: coils on hand, a longer search, widths compared, leftovers back to stock."""

from __future__ import annotations

import time
from dataclasses import dataclass
from threading import Event
from typing import TYPE_CHECKING, cast

from textual import on, work
from textual.message import Message
from textual.timer import Timer
from textual.worker import get_current_worker

from coilwright.store import StoreError
from coilwright.wizard.screens.job_screen import JobScreen
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan import Plan
    from coilwright.wizard.stock_book import StockBook
    from coilwright.wizard.widgets.search_block import SearchBlock

SEARCH_LONGER = 60.0
"""Seconds a search is allowed that was asked for."""
_QUIET = 0.4
"""Seconds without a key after which a search starts by itself."""
_TELL_EVERY = 0.1
"""Seconds between two words on how far it is."""
_WORK, _BREATH = 0.02, 0.001
"""Seconds of work after which the search leaves the keys some."""


class MetalActions(JobScreen):
    """Actions that the coils, panel and summary steps and the palette share."""

    @dataclass
    class Searching(Message):
        """How far the search is: metal of the best cuts so far and the bound [in]."""

        job: Job
        metal: float
        bound: float

    @dataclass
    class Searched(Message):
        """A search is over. asked: somebody asked for it; stopped: and stopped it."""

        before: Plan
        found: Plan
        asked: bool
        stopped: bool

    _search_timer: Timer | None = None
    _searching: Job | None = None
    _searched: Job | None = None
    """The job a search goes on for, and the one that the last search ended with."""
    _stop = Event()
    _words = ""

    # -- coils on hand ---------------------------------------------------------------------

    def _book(self) -> StockBook | None:
        from coilwright.wizard.stock_book import book_of

        try:
            return book_of(self.session.store)
        except StoreError as error:
            self.notify(str(error), title="Coils on hand", severity="error", timeout=12,
                        markup=False)
            return None

    def action_use_fitting(self) -> None:
        """Use all coils on hand that fit this job."""
        from coilwright.plan.coils.run import with_fitting

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
        from coilwright.wizard.screens.run_done import RunDoneScreen

        plan = self.session.plan
        if not plan.coils and not plan.from_stock:
            self.notify("There is nothing to run yet: the plan has no coils.", markup=False)
        elif (book := self._book()) is not None:
            self.app.push_screen(RunDoneScreen(book, plan))

    # -- widths ----------------------------------------------------------------------------

    def action_widths(self) -> None:
        """Compare the coverage widths the machine can be set to."""
        from coilwright.plan.panel.compare import widths
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

    def search_soon(self) -> None:
        """Search for less metal beside the keys once they are quiet, where there is a gap left.

        Once for each job as it stands: what a search could not settle is left to be asked for.
        """
        from coilwright.sheets.proof_words import is_proven

        if self._search_timer is not None:
            self._search_timer.stop()
            self._search_timer = None
        plan = self.session.plan
        if plan.job is self._searching:
            self._show_search()
            return
        if (
            not self.session.search_seconds or plan.proof is None or is_proven(plan)
            or plan.job is self._searched
        ):
            return
        self._search_timer = self.set_timer(_QUIET, self._search_now)

    def _search_now(self) -> None:
        self._search_timer = None
        if self.session.planned:
            self._begin_search(self.session.plan, self.session.search_seconds, asked=False)

    def action_search_metal(self) -> None:
        """Search longer for less metal; the same again stops the search."""
        from coilwright.sheets.proof_words import is_proven, proof_line

        plan = self.session.plan
        if self._searching is plan.job:
            self._stop.set()
        elif plan.proof is None:
            self.notify("There is no cut plan yet to better.", markup=False)
        elif is_proven(plan):
            self.notify(proof_line(plan), markup=False)
        else:
            self._begin_search(plan, SEARCH_LONGER, asked=True)

    def _begin_search(self, plan: Plan, seconds: float, *, asked: bool) -> None:
        self._searching = plan.job
        self._stop = Event()
        self._words = "Searching for less metal …"
        self._show_search()
        self._search(plan, seconds, self._stop, asked)

    @work(thread=True, exclusive=True, group="least-metal", name="least-metal",
          exit_on_error=False)
    def _search(self, plan: Plan, seconds: float, stop: Event, asked: bool) -> None:
        """In a thread. It tells of itself by messages, which never wait for the screen."""
        from coilwright.plan import replan

        worker = get_current_worker()
        job = plan.job
        told = worked = time.monotonic()

        def cancelled() -> bool:
            nonlocal worked
            if time.monotonic() - worked > _WORK:
                time.sleep(_BREATH)
                worked = time.monotonic()
            return worker.is_cancelled or stop.is_set() or self.session.job is not job

        def progress(metal: float, bound: float) -> None:
            nonlocal told
            if time.monotonic() - told > _TELL_EVERY and not cancelled():
                told = time.monotonic()
                self.post_message(self.Searching(job, metal, bound))

        found = replan(job, seconds, time.monotonic, progress, cancelled)
        # A screen that was left has cancelled its workers: nobody is there to be told.
        if not worker.is_cancelled:
            self.post_message(self.Searched(plan, found, asked, stop.is_set()))

    @on(Searching)
    def _search_is_at(self, event: Searching) -> None:
        from coilwright.sheets.proof_words import searching_line

        if event.job is self._searching:
            self._words = searching_line(event.metal, event.bound, event.job.units)
            self._show_search()

    @on(Searched)
    def _search_ended(self, event: Searched) -> None:
        """Take what was found, also by a search that was stopped, where the job is the same."""
        from coilwright.sheets.proof_words import found_line

        if event.before.job is self._searching:
            self._searching = None
        before = self.session.job
        if before is not event.before.job or not self.session.take_plan(event.found):
            return
        self._searched = self.session.job
        if self.session.job is not before:
            self.changed()
        else:
            self.refresh_all(self.focused_field())
        words = found_line(event.before, self.session.plan)
        if event.asked or words.startswith("Better"):
            self.notify(f"Stopped. {words}" if event.stopped else words, title="Least metal",
                        timeout=8, markup=False)

    def _show_search(self) -> None:
        if (block := self._search_block()) is not None:
            block.searching(self._words)

    def _search_block(self) -> SearchBlock | None:
        return cast("SearchBlock | None", next(self.query("SearchBlock").results(), None))
