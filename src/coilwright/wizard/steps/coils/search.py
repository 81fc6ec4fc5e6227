"""How good the cut plan is, and the longer search for less metal beside the keys."""

from __future__ import annotations

import time
from collections.abc import Callable
from threading import Event
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.timer import Timer
from textual.worker import get_current_worker

from coilwright.sheets.proof_words import found_line, is_proven, proof_line, searching_line
from coilwright.wizard.context import Context
from coilwright.wizard.lists.stock_text import saved_line
from coilwright.wizard.literal import plain
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar
from coilwright.wizard.widgets.text import Text

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan import Plan

SEARCH_LONGER = 60.0
"""Seconds a search is allowed that was asked for."""
_QUIET = 0.4
"""Seconds without a key after which a search starts by itself."""
_TELL_EVERY = 0.1
"""Seconds between two words on how far it is."""
_WORK, _BREATH = 0.02, 0.001
"""Seconds of work after which the search leaves the keys some."""


class SearchBlock(Block):
    """What is proven, what coils on hand save, and a button to search longer or to stop it."""

    DEFAULT_CSS = """
    SearchBlock { margin-top: 1; }
    SearchBlock > Static { height: auto; padding: 0 1; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._search = BarButton("Search longer for less metal", id="search-metal",
                                 action="screen.search_metal")
        self._proof = Text("", markup=False)
        self._saved = Text("", markup=False)

    def compose(self) -> ComposeResult:
        """Button, what is proven, what is saved."""
        yield ButtonBar(self._search)
        yield self._proof
        yield self._saved

    def show(self, session: Session) -> None:
        """Show what is proven of the plan."""
        plan = session.plan
        self._search.display = plan.proof is not None and not is_proven(plan)
        self._search.say("Search longer for less metal")
        self.say(proof_line(plan))
        saved = saved_line(plan)
        self._saved.display = bool(saved)
        self._saved.update(plain(saved))

    def searching(self, words: str) -> None:
        """Show how far a search is; the button now stops it."""
        self._search.display = True
        self._search.say("Stop the search")
        self.say(words)

    def say(self, words: str) -> None:
        """Say something about the cut plan."""
        self._proof.display = bool(words)
        self._proof.update(plain(words))


class SearchController:
    """Runs the longer search, tells the block how far it is, and takes what was found.

    It starts by itself once the keys are quiet where the quick search left a gap, once for each
    job as it stands; what it could not settle is left to be asked for. block: the block that shows
    it, where the coils step was visited.
    """

    def __init__(self, context: Context, block: Callable[[], SearchBlock | None]) -> None:
        self._context = context
        self._block = block
        self._timer: Timer | None = None
        self._job: Job | None = None
        self._ended: Job | None = None
        self._stop = Event()
        self._words = ""

    @property
    def searching(self) -> bool:
        """Whether what a search finds is still waited for."""
        return self._job is not None

    @property
    def waits(self) -> bool:
        """Whether a search starts once the keys are quiet."""
        return self._timer is not None

    def soon(self) -> None:
        """Search beside the keys once they are quiet, where there is a gap left."""
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        session = self._context.session
        plan = session.plan
        if plan.job is self._job:
            self._show()
        elif (
            session.search_seconds and plan.proof is not None and not is_proven(plan)
            and plan.job is not self._ended
        ):
            self._timer = self._context.later(_QUIET, self._now)

    def _now(self) -> None:
        self._timer = None
        session = self._context.session
        if session.planned:
            self._begin(session.plan, session.search_seconds, asked=False)

    def start_or_stop(self) -> None:
        """Search longer for less metal; the same again stops the search."""
        context = self._context
        plan = context.session.plan
        if self._job is plan.job:
            self._stop.set()
        elif plan.proof is None:
            context.say("There is no cut plan yet to better.")
        elif is_proven(plan):
            context.say(proof_line(plan))
        else:
            self._begin(plan, SEARCH_LONGER, asked=True)

    def _begin(self, plan: Plan, seconds: float, *, asked: bool) -> None:
        self._job, self._stop = plan.job, Event()
        self._words = "Searching for less metal …"
        self._show()
        stop = self._stop
        self._context.in_thread(lambda: self._search(plan, seconds, stop, asked), "least-metal")

    def _search(self, plan: Plan, seconds: float, stop: Event, asked: bool) -> None:
        """In a thread; it never waits for the screen, which may be left meanwhile."""
        from coilwright.plan import replan

        context = self._context
        worker = get_current_worker()
        job = plan.job
        told = worked = time.monotonic()

        def canceled() -> bool:
            nonlocal worked
            if time.monotonic() - worked > _WORK:
                time.sleep(_BREATH)
                worked = time.monotonic()
            return worker.is_cancelled or stop.is_set() or context.session.job is not job

        def progress(metal: float, bound: float) -> None:
            nonlocal told
            if time.monotonic() - told > _TELL_EVERY and not canceled():
                told = time.monotonic()
                context.soon(self._tell, job, searching_line(metal, bound, job.units))

        found = replan(job, seconds, time.monotonic, progress, canceled)
        # A screen that was left has canceled its workers: nobody is there to be told.
        if not worker.is_cancelled:
            context.soon(self._take, plan, found, asked, stop.is_set())

    def _tell(self, job: Job, words: str) -> None:
        if job is self._job:
            self._words = words
            self._show()

    def _show(self) -> None:
        if (block := self._block()) is not None:
            block.searching(self._words)

    def _take(self, before: Plan, found: Plan, asked: bool, stopped: bool) -> None:
        """Take what was found, also by a search that was stopped, where the job is the same."""
        context = self._context
        session = context.session
        if before.job is self._job:
            self._job = None
        job = session.job
        if job is not before.job or not session.take_plan(found):
            return
        self._ended = session.job
        if session.job is not job:
            context.changed()
        else:
            context.show_again()
        words = found_line(before, session.plan)
        if words.startswith("Better") and (saved := saved_line(session.plan)):
            words = f"{words} {saved}"
        if asked or words.startswith("Better"):
            context.say(f"Stopped. {words}" if stopped else words, title="Least metal", timeout=8)
