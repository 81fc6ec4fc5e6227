"""Opening the lines of the summary, and having a job's sheets saved. No screens here."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from coilwright.store import StoreError
from coilwright.values.finding import Finding
from coilwright.wizard.answering import AnswerController
from coilwright.wizard.context import Context


class SummaryController:
    """Does what the lines of the summary say, and saves the sheets.

    ask: opens the questions, at one of them or without; order_head: the head of the order. A line
    is of a kind and has a key: that of an answer, figure or question, or a finding's place in the
    plan.
    """

    def __init__(
        self, context: Context, answers: AnswerController, ask: Callable[[str], None],
        order_head: Callable[[], None],
    ) -> None:
        self._context = context
        self._answers = answers
        self._ask = ask
        self._order_head = order_head

    def help(self, row: str) -> bool:
        """Show the finding of a marked line whole. False where it is no finding."""
        kind, _, key = row.partition(":")
        if kind not in ("finding", "stop") or (finding := self._finding(key)) is None:
            return False
        self._answers.open_finding(finding)
        return True

    def _finding(self, key: str) -> Finding | None:
        """The finding of a line; None where it went since the line was painted."""
        findings = self._context.session.plan.findings
        return findings[int(key)] if int(key) < len(findings) else None

    def working(self, row: str) -> bool:
        """Show the working of a marked line's figure. False where it is none."""
        kind, _, key = row.partition("#")[0].partition(":")
        figure = self._context.session.plan.figures.get(key) if kind == "figure" else None
        if figure is None:
            return False
        self._answers.open_figure(figure)
        return True

    async def open(self, kind: str, key: str) -> None:
        """Open a line; one whose figure or finding went since it was painted opens nothing."""
        if kind in ("question", "questions"):
            self._ask(key)
        elif kind == "head":
            self._order_head()
        elif kind == "figures":
            self._answers.figures()
        elif kind == "figure":
            if (figure := self._context.session.plan.figures.get(key)) is not None:
                self._answers.open_figure(figure)
        elif kind in ("finding", "stop"):
            # A stop too: that is where it is taken on, and Enter once more goes to its answer.
            if (finding := self._finding(key)) is not None:
                self._answers.open_finding(finding)
        else:
            self._choose_plane(key)
            await self._context.go(key)

    def _choose_plane(self, key: str) -> None:
        """Have the plane a reason is about marked in the list of planes."""
        from coilwright.wizard.lists.planes import rows

        session = self._context.session
        for row in rows(session.job, session.plan):
            if key == f"roof.planes.{row.index}":
                session.chosen_plane = row.number

    def save_sheets(self, folder: Path) -> None:
        """Save all sheets into a folder."""
        from coilwright.sheets.saving import save_sheets, saved_words

        try:
            plan = self._context.session.plan
            saved = save_sheets(plan, folder)
        except StoreError as error:
            self._context.say(str(error), title="Not saved", severity="error", timeout=15)
            return
        self._context.say(saved_words(saved, folder, plan.job), title="Sheets saved", timeout=10)
