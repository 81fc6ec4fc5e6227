"""Opening the lines of the summary, and having a job's sheets saved. No screens here."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import assert_never

from coilwright.job.answers import ANSWERS, step_of
from coilwright.job.names import label, standing
from coilwright.job.steps import step_number
from coilwright.plan.confirmed import why_lapsed
from coilwright.plan.questions import Status
from coilwright.plan.ready import ReasonKind
from coilwright.plan.result import Plan
from coilwright.store import StoreError
from coilwright.values.finding import Finding
from coilwright.values.standing import Standing
from coilwright.wizard import asking
from coilwright.wizard.answering import AnswerController
from coilwright.wizard.context import Context

BY_CLICK = " or a click on the guess"
"""How a guess is made sure by mouse; where there is no room it is not said."""


def row_parts(row: str) -> tuple[str, str]:
    """The kind and the key of a line by its id, such as `go:panel.deck`."""
    kind, _, key = row.partition("#")[0].partition(":")
    return kind, key


def row_keys(plan: Plan, row: str) -> str:
    """What the keys do on a line, in words; empty for a line on which they do nothing."""
    kind, key = row_parts(row)
    match kind:
        case "go":
            step = step_number(step_of(key))
            if key not in ANSWERS or standing(plan.job, key) is not Standing.GUESS:
                return f"Enter: to {label(plan.job, key)}, step {step}"
            if why := why_lapsed(plan.job, key):
                return f"Enter: to step {step} · F4: it is sure · a guess again: {why}"
            return f"Enter: to {label(plan.job, key)}, step {step} · F4{BY_CLICK}: it is sure"
        case "stop":
            finding = plan.findings[int(key)] if int(key) < len(plan.findings) else None
            takes = ", and a takes it on" if finding is not None and finding.accept else ""
            return f"Enter: read it{takes}; Enter once more: to its answer"
        case "finding":
            return "Enter: read it; Enter once more: to its answer"
        case "question":
            asked = asking.find(plan, key)
            if asked is not None and asked.status is Status.AGAINST:
                waives = "" if asked.stands else " · w: waive it, as replied"
                return f"Enter: it is confirmed as ordered{waives}"
            settles = " · F4: settled, as replied" if asked is not None and asked.reply else ""
            return f"Enter: write down the reply{settles} · w: waive it"
        case "questions":
            return "Enter: all questions, by whom to ask"
        case "head":
            return "Enter: fill in the head of the order"
        case "held" if plan.reasons and not plan.concealed:
            return "Enter: to the first of them"
        case "brief" | "held" if plan.concealed:
            return "Enter: the brief of the practice, and its questions"
        case "figures":
            return "Enter: every figure"
        case "figure":
            return "Enter: how it was worked out"
        case "take":
            return "Enter: into this job; Ctrl+Z takes that back"
        case _:
            return ""


class SummaryController:
    """Does what the lines of the summary say, and saves the sheets.

    ask: opens the questions; order_head: the head of the order, at the line of a key;
    take_leftovers: takes coils that are offered from stock; brief: opens that of practice. A line
    is of a kind and has a key: that of an answer, figure or question, or a finding's place in the
    plan.
    """

    def __init__(
        self, context: Context, answers: AnswerController, ask: Callable[[], None],
        order_head: Callable[[str], None], take_leftovers: Callable[[], None],
        brief: Callable[[], None],
    ) -> None:
        self._context = context
        self._answers = answers
        self._ask = ask
        self._order_head = order_head
        self._take_leftovers = take_leftovers
        self._brief = brief

    def help(self, row: str) -> bool:
        """Show the finding of a marked line whole, or all there is to say about its answer.

        False where it is neither.
        """
        kind, key = row_parts(row)
        if kind == "go" and key in ANSWERS:
            self._answers.help_on(ANSWERS[key])
            return True
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
        kind, key = row_parts(row)
        figure = self._context.session.plan.figures.get(key) if kind == "figure" else None
        if figure is None:
            return False
        self._answers.open_figure(figure)
        return True

    async def open(self, kind: str, key: str) -> None:
        """Open a line; one whose figure or finding went since it was painted opens nothing."""
        if kind == "question":
            self._answers.question(key)
        elif kind == "held":
            await self._open_reason()
        elif kind == "questions":
            self._ask()
        elif kind == "head":
            self._order_head(key)
        elif kind == "brief":
            self._brief()
        elif kind == "take":
            self._take_leftovers()
        elif kind == "figures":
            self._answers.figures()
        elif kind == "figure":
            if (figure := self._context.session.plan.figures.get(key)) is not None:
                self._answers.open_figure(figure)
        elif kind in ("finding", "stop"):
            # A stop too: that is where it is taken on, and Enter once more goes to its answer.
            if (finding := self._finding(key)) is not None:
                self._answers.open_finding(finding)
        elif key:
            self._choose_plane(key)
            await self._context.go(key)

    async def _open_reason(self) -> None:
        """Open the first thing that holds the order: a stop, a question, the head, an answer."""
        plan = self._context.session.plan
        if plan.concealed:
            self._brief()
        elif plan.stops:
            self._answers.open_finding(plan.stops[0])
        elif plan.reasons:
            first = plan.reasons[0]
            match first.kind:
                case ReasonKind.QUESTION:
                    self._answers.question(first.key)
                case ReasonKind.HEAD:
                    self._order_head(first.key)
                case ReasonKind.MISSING:
                    await self._context.go("roof.planes")
                case (ReasonKind.ASK | ReasonKind.GUESS | ReasonKind.STOP | ReasonKind.ACCEPT):
                    self._choose_plane(first.key)
                    await self._context.go(first.key)
                case _:
                    assert_never(first.kind)

    def confirm(self, row: str) -> bool:
        """Make the guess of a marked line sure, or settle its question; else say what works.

        Whether it did.
        """
        kind, key = row_parts(row)
        if kind == "go":
            return self._answers.confirm_by_key(key)
        if kind == "question":
            done = asking.mark(self._context.session, self._context.say, key, True)
            if done:
                self._context.changed()
            return done
        self._context.say("F4 makes one marked guess sure, or settles a question by its reply."
                          if row else "No line is marked: ↓ marks the next one.")
        return False

    def waive(self, row: str) -> None:
        """Say why the order may go out without an answer to the marked question."""
        kind, key = row_parts(row)
        session, say = self._context.session, self._context.say
        if kind == "question" and asking.find(session.plan, key) is not None:
            if (asked := asking.waiver(session, say, key, self._context.changed)) is not None:
                self._context.open(*asked)
        elif kind == "stop":
            say("A stop is taken on where Enter opens it: a, a name and a reason.")
        else:
            say("w waives a question that holds the order; this is none.")

    def _choose_plane(self, key: str) -> None:
        """Have the plane a reason is about marked in the list of planes."""
        from coilwright.wizard.lists.planes import rows

        session = self._context.session
        for row in rows(session.job, session.plan):
            if key == f"roof.planes.{row.index}":
                session.chosen_plane = row.number

    def save_sheets(self, folder: Path) -> None:
        """Save all sheets into a folder."""
        from coilwright.sheets.saving import remove_unsent, save_sheets, saved_words

        try:
            plan = self._context.session.plan
            saved = save_sheets(plan, folder)
            gone = remove_unsent(plan, folder)
        except StoreError as error:
            self._context.say(str(error), title="Not saved", severity="error", timeout=15)
            return
        self._context.say(saved_words(saved, folder, plan, gone), timeout=10)
