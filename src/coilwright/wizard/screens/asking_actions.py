"""Finding out: what to ask first, the questions, the words of the trade, every figure."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, cast

from textual import work
from textual.timer import Timer
from textual.worker import get_current_worker

from coilwright.wizard.screens.job_screen import JobScreen
from coilwright.wizard.widgets.ask_first import AskFirst, AskLine
from coilwright.wizard.widgets.rows import Rows

if TYPE_CHECKING:
    from coilwright.ask_first import Effect
    from coilwright.job.job import Job
    from coilwright.plan import Plan
    from coilwright.wizard.widgets.summary_block import SummaryBlock

_QUIET = 0.4
"""Seconds without a change after which the list is ranked beside the form."""
_BREATH = 0.002
"""Seconds [s] the ranking leaves to the keys between two answers."""


class AskingActions(JobScreen):
    """What is worth asking, ranked beside the form and on the summary; and what to look up."""

    _effects: tuple[Effect, ...] = ()
    _effects_of: Plan | None = None
    _rank_timer: Timer | None = None

    # -- what to ask first -----------------------------------------------------------------

    def rank_soon(self) -> None:
        """Show what to ask first; have it ranked once the keys are quiet, in a thread.

        Until then the list before stands, without what is settled since.
        """
        if self._rank_timer is not None:
            self._rank_timer.stop()
            self._rank_timer = None
        plan = self.session.plan
        if plan is not self._effects_of and not plan.to_ask:
            self._effects, self._effects_of = (), plan
        self._show_ranking()
        if plan is self._effects_of:
            return
        if self.step == "summary":
            self._rank_now()
        else:
            self._rank_timer = self.set_timer(_QUIET, self._rank_now)

    def _rank_now(self) -> None:
        self._rank_timer = None
        if self.session.planned and self.session.plan is not self._effects_of:
            self._rank(self.session.job, self.session.plan)

    @work(thread=True, exclusive=True, group="ask-first", name="ask-first", exit_on_error=False)
    def _rank(self, job: Job, plan: Plan) -> None:
        import time

        from coilwright.ask_first import ask_first

        worker = get_current_worker()

        def cancelled() -> bool:
            time.sleep(_BREATH)
            return worker.is_cancelled

        effects = ask_first(job, plan, cancelled)
        if not worker.is_cancelled:
            self.app.call_from_thread(self._ranked, plan, effects)

    def _ranked(self, plan: Plan, effects: tuple[Effect, ...]) -> None:
        """Take a ranking in, if it is of the job as it is now."""
        if self.session.planned and plan is self.session.plan:
            self._effects, self._effects_of = effects, plan
            self._show_ranking()

    def _show_ranking(self) -> None:
        plan = self.session.plan
        fresh = plan is self._effects_of
        for pane in self.query(AskFirst).results(AskFirst):
            pane.show(plan, self._effects, fresh, self.wide)
        block = next(self.query("SummaryBlock").results(), None)
        if block is not None:
            cast("SummaryBlock", block).ranked(self.session, self._effects, fresh)

    async def on_ask_line_opened(self, event: AskLine.Opened) -> None:
        """Go to the answer that is worth asking for."""
        event.stop()
        await self.go_to_key(event.key)

    # -- the lines of the summary ----------------------------------------------------------

    def _on_summary(self) -> tuple[str, str]:
        """What kind of line of the summary is marked, and its key; empty elsewhere."""
        rows = self.focused
        option = rows.highlighted_option if isinstance(rows, Rows) else None
        if self.step != "summary" or option is None:
            return "", ""
        kind, _, key = (option.id or "").partition(":")
        return kind, key

    def action_words(self) -> None:
        """All there is to say about what is focused; on the summary, the finding whole."""
        kind, key = self._on_summary()
        if kind in ("finding", "stop"):
            self.open_finding(self.session.plan.findings[int(key)])
        else:
            super().action_words()  # type: ignore[misc]

    def action_working(self) -> None:
        """How the figure in question was worked out; on the summary, the marked one."""
        kind, key = self._on_summary()
        figure = self.session.plan.figures.get(key) if kind == "figure" else None
        if figure is not None:
            self.open_figure(figure)
        else:
            super().action_working()  # type: ignore[misc]

    async def on_summary_block_open(self, event: SummaryBlock.Open) -> None:
        """Open a line of the summary."""
        event.stop()
        plan = self.session.plan
        if event.what in ("question", "questions"):
            self.action_questions(event.key)
        elif event.what == "figures":
            self.action_figures()
        elif event.what == "figure":
            self.open_figure(plan.figures[event.key])
        elif event.what == "finding":
            self.open_finding(plan.findings[int(event.key)])
        elif event.what == "stop":
            finding = plan.findings[int(event.key)]
            await self.go_to_key(finding.answers[0] if finding.answers else finding.step)
        else:
            self._choose_plane(event.key)
            await self.go_to_key(event.key)

    def _choose_plane(self, key: str) -> None:
        """Have the plane a reason is about marked in the list of planes."""
        from coilwright.wizard.lists.planes import rows

        for row in rows(self.session.job, self.session.plan):
            if key == f"roof.planes.{row.index}":
                self.session.chosen_plane = row.number

    # -- questions, words, figures ---------------------------------------------------------

    def action_questions(self, open_at: str = "") -> None:
        """All questions by whom to ask; one of them open."""
        from coilwright.wizard.screens.questions import QuestionsScreen

        self.session.seal()
        screen = QuestionsScreen(
            self.session, self.sheets_folder(), self._effects, self.changed, open_at
        )
        self.app.push_screen(screen, self._looked_up)

    def action_glossary(self) -> None:
        """The words of the trade."""
        from coilwright.wizard.screens.glossary import GlossaryScreen

        self.app.push_screen(GlossaryScreen())

    def action_figures(self) -> None:
        """Every figure, to be found by name."""
        from coilwright.wizard.screens.figures import FiguresScreen

        self.app.push_screen(FiguresScreen(self.session.plan), self._looked_up)

    async def _looked_up(self, key: str | None) -> None:
        self.refresh_all()
        if key:
            await self.go_to_key(key)

    def sheets_folder(self) -> Path:
        """Where sheets are saved: the folder named on the summary, or the usual one."""
        from textual.widgets import Input

        boxes = self.query("#sheets-folder").results(Input)
        named = next((box.value.strip() for box in boxes), "")
        return Path(named).expanduser() if named else self.session.store.sheets_folder
