"""How good the cut plan is, and the longer search for less metal, in a thread."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.widgets import Static
from textual.worker import Worker, get_current_worker

from coilwright.sheets.proof_words import found_line, is_proven, proof_line, searching_line
from coilwright.wizard.context import Context
from coilwright.wizard.literal import plain
from coilwright.wizard.session import Session
from coilwright.wizard.stock_rows import saved_line
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan import Plan

SEARCH_FOR = 20.0
"""Seconds a longer search is allowed."""
_TELL_EVERY = 0.1
"""Seconds between two words on how far it is."""
_WORK, _BREATH = 0.02, 0.001
"""Seconds of work after which the search leaves the keys some."""


class SearchBlock(Block):
    """What is proven, what coils on hand save, and a button to search longer."""

    DEFAULT_CSS = """
    SearchBlock { margin-top: 1; }
    SearchBlock > Static { height: auto; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._search = BarButton("Search longer for less metal", id="search-metal",
                                 action="screen.search_metal")
        self._proof = Static("", markup=False)
        self._saved = Static("", markup=False)

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
        self._saved.update(plain(f" {saved}"))

    def searching(self, words: str) -> None:
        """Show how far a search is; the button now stops it."""
        self._search.display = True
        self._search.say("Stop the search")
        self.say(words)

    def say(self, words: str) -> None:
        """Say something about the cut plan."""
        self._proof.display = bool(words)
        self._proof.update(plain(f" {words}"))


class SearchController:
    """Runs the longer search, tells the block how far it is, and takes what was found.

    block: the block that shows it, where the coils step was visited.
    """

    def __init__(self, context: Context, block: Callable[[], SearchBlock | None]) -> None:
        self._context = context
        self._block = block
        self._worker: Worker[None] | None = None

    @property
    def searching(self) -> bool:
        """Whether what a search finds is still waited for."""
        return self._worker is not None

    def start_or_stop(self) -> None:
        """Search longer for less metal; the same again stops the search."""
        if self._worker is not None and self._worker.is_running:
            self._worker.cancel()
            return
        context = self._context
        plan = context.session.plan
        if plan.proof is None:
            context.say("There is no cut plan yet to better.")
        elif is_proven(plan):
            context.say(proof_line(plan))
        else:
            job = context.session.job
            self._tell("Searching …")
            self._worker = context.in_thread(lambda: self._search(job, plan), "least-metal")

    def _search(self, job: Job, plan: Plan) -> None:
        from coilwright.plan import replan

        context = self._context
        worker = get_current_worker()
        told = worked = time.monotonic()

        def cancelled() -> bool:
            nonlocal worked
            if time.monotonic() - worked > _WORK:
                time.sleep(_BREATH)
                worked = time.monotonic()
            return worker.is_cancelled or context.session.job is not job

        def progress(metal: float, bound: float) -> None:
            nonlocal told
            if time.monotonic() - told > _TELL_EVERY and not cancelled():
                told = time.monotonic()
                context.from_thread(self._tell, searching_line(metal, bound, job.units))

        found = replan(job, SEARCH_FOR, time.monotonic, progress, cancelled)
        context.from_thread(self._take, plan, found, worker.is_cancelled)

    def _tell(self, words: str) -> None:
        if (block := self._block()) is not None:
            block.searching(words)

    def _take(self, before: Plan, found: Plan, stopped: bool) -> None:
        """Take what was found, also by a search that was stopped, where the job is the same."""
        self._worker = None
        session = self._context.session
        if not session.take_plan(found):
            if (block := self._block()) is not None:
                block.show(session)
            return
        self._context.changed()
        words = found_line(before, session.plan)
        self._context.say(f"Stopped. {words}" if stopped else words, title="Least metal",
                          timeout=8)
