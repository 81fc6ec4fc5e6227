"""What to ask first: ranked in a thread once the keys are quiet, shown wherever it stands."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Protocol

from coilwright.wizard.context import Context

if TYPE_CHECKING:
    from textual.timer import Timer

    from coilwright.job.job import Job
    from coilwright.plan import Plan
    from coilwright.plan.ask_first import Effect

_QUIET = 0.4
"""Seconds without a change after which the list is ranked beside the form."""
_BREATH = 0.002
"""Seconds [s] the ranking leaves to the keys between two answers."""


class ShowRanking(Protocol):
    """Shows a ranking; fresh: it is that of the job as it is now."""

    def __call__(self, plan: Plan, effects: tuple[Effect, ...], fresh: bool) -> None:
        """Show it."""


class RankingController:
    """The unknowns that move the order most, the greatest first."""

    def __init__(self, context: Context, show: ShowRanking) -> None:
        self._context = context
        self._show = show
        self.effects: tuple[Effect, ...] = ()
        self._ranked_plan: Plan | None = None
        """The plan that `effects` are of."""
        self._timer: Timer | None = None

    def rank_soon(self, at_once: bool) -> None:
        """Show what to ask first; have it ranked once the keys are quiet, or at once.

        Until then the list before stands, without what is settled since.
        """
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        plan = self._context.session.plan
        if plan is not self._ranked_plan and not (plan.open_answers or plan.guesses):
            self.effects, self._ranked_plan = (), plan
        self._show_now()
        if plan is self._ranked_plan:
            return
        if at_once:
            self._rank()
        else:
            self._timer = self._context.later(_QUIET, self._rank)

    def _rank(self) -> None:
        self._timer = None
        session = self._context.session
        if session.planned and session.plan is not self._ranked_plan:
            job, plan = session.job, session.plan
            self._context.in_thread(lambda: self._rank_in_thread(job, plan), "ask-first")

    def _rank_in_thread(self, job: Job, plan: Plan) -> None:
        from textual.worker import get_current_worker

        from coilwright.plan.ask_first import ask_first

        worker = get_current_worker()

        def canceled() -> bool:
            time.sleep(_BREATH)
            return worker.is_cancelled

        effects = ask_first(job, plan, canceled)
        if not worker.is_cancelled:
            self._context.from_thread(self.take, plan, effects)

    def take(self, plan: Plan, effects: tuple[Effect, ...]) -> None:
        """Take a ranking in, if it is of the job as it is now."""
        session = self._context.session
        if session.planned and plan is session.plan:
            self.effects, self._ranked_plan = effects, plan
            self._show_now()

    def _show_now(self) -> None:
        plan = self._context.session.plan
        self._show(plan, self.effects, plan is self._ranked_plan)
