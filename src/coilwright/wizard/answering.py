"""What the keys do with answers and figures: help, working, don't know, confirm, undo, look up.

No screens here but those that are asked for; see `context`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.job import edit
from coilwright.job.answers import ANSWERS, Answer
from coilwright.job.job import Job
from coilwright.job.machine import asked_of_example
from coilwright.job.names import label, standing
from coilwright.job.steps import STEPS, step_number
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.progress import lack_sentence
from coilwright.wizard.undoing import Stepped, step_again, step_back
from coilwright.words import words
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.plan.ask_first import Effect
    from coilwright.wizard.step_view import Headline


@dataclass(frozen=True, slots=True)
class Focus:
    """Where somebody is: the step, its headline figures, and what has the focus.

    answer: the key of the focused answer, empty elsewhere. figure: that of the focused figure.
    row: the id of the marked row, where a list has the focus. take_key: does what a key of the
    screen does to that row; whether it does anything.
    """

    step: str
    headlines: tuple[Headline, ...]
    answer: str = ""
    figure: str = ""
    row: str = ""
    take_key: Callable[[str], bool] | None = None


def answer_to_change(job: Job, finding: Finding) -> str:
    """The answer of a finding that is asked and most likely to clear it: open, else guessed.

    Where all are sure it is the first; empty where it names none that is asked.
    """
    asked = [key for key in finding.answers if key in ANSWERS and ANSWERS[key].asked(job)]
    by_standing = {ANSWERS[key].standing(job): key for key in reversed(asked)}
    return by_standing.get(Standing.ASK) or by_standing.get(Standing.GUESS) or next(iter(asked), "")


class AnswerController:
    """Actions on the focused answer and on the job as a whole."""

    def __init__(self, context: Context, focus: Callable[[], Focus]) -> None:
        self._context = context
        self._focus = focus
        self._asked_of: Job | None = None

    def say_guessed_anew(self, before: Job) -> None:
        """Say which guesses are other sizes since the job's units were turned."""
        job = self._context.session.job
        if job.units is not before.units and (anew := edit.guessed_anew(before, job)):
            self._context.say(f"Still guesses, and usual in these units now: {', '.join(anew)}. "
                              "What you gave stays as it was.")

    def _focused_answer(self) -> Answer | None:
        """The answer the focus is in, if it is asked; without one that is said."""
        focus = self._focus()
        answer = ANSWERS.get(focus.answer)
        if answer is None:
            self._context.say(
                "A figure is as sure as its answers: Enter shows them." if focus.figure else
                "This row is no answer, so it is no guess: Enter opens it." if focus.take_key else
                "Move to an answer first.")
        elif not answer.asked(self._context.session.job):
            self._context.say("This is not asked now, so nothing is taken.", title=answer.label)
            return None
        return answer

    # -- help ------------------------------------------------------------------------------

    def help(self) -> None:
        """All there is to say about the focused answer, or about the step."""
        answer = ANSWERS.get(self._focus().answer)
        if answer is None:
            self.step_help()
        else:
            self.help_on(answer)

    def help_on(self, answer: Answer) -> None:
        """All there is to say about an answer."""
        from coilwright.wizard.screens.help import AnswerHelpScreen

        self._context.open(AnswerHelpScreen(answer, self._context.session.job))

    def step_help(self) -> None:
        """What the step settles, all its cautions, and the keys."""
        from coilwright.wizard.screens.help import StepHelpScreen

        self._context.open(StepHelpScreen(self._focus().step,
                                         self._context.session.job.units))

    def say_news(self) -> None:
        """Say how the job began, once."""
        if news := self._context.session.news:
            self._context.session.news = ""
            self._context.say(escape_controls(news))

    # -- standing --------------------------------------------------------------------------

    def do_not_know(self) -> None:
        """Let the usual value stand in; what is sure is a guess, and the same key takes it back."""
        context = self._context
        if (answer := self._focused_answer()) is None:
            return
        stood, before = answer.standing(context.session.job), context.session.job
        if context.session.do_not_know(answer.key):
            context.changed()
            self._say_standing(answer, stood)
            self._say_other_usual(answer, before)
            return
        if answer.standing(context.session.job) is Standing.GUESS:
            context.say("It is a guess already; F4 confirms it once somebody knows.",
                        title=answer.label)
            return
        guidance = words(answer.key)
        if answer.key in context.session.job.typed:
            context.say("What is typed there cannot be read yet. Empty the box, and F3 lets the "
                        "usual value stand in.", title=answer.label, timeout=6)
            return
        ask = f" Ask the {guidance.who}: {guidance.ask}" if guidance.ask else ""
        context.show_again()
        context.say(f"Nothing is usual for this one.{ask}", title=answer.label, timeout=6)

    def confirm(self) -> None:
        """Turn the focused answer from a guess to sure, or from sure to a guess.

        What was typed just now is sure: whoever presses the key then means to settle it.
        """
        context = self._context
        if (answer := self._focused_answer()) is None:
            return
        stood = answer.standing(context.session.job)
        if stood is Standing.SURE and context.session.open_group == f"typing {answer.key}":
            context.session.seal()
            context.say(f"{escape_controls(answer.said(context.session.job))} is sure as it was "
                        "given; F4 once more makes it a guess.", title=answer.label)
            return
        change = context.session.doubt if stood is Standing.SURE else context.session.confirm
        if change(answer.key):
            context.changed()
            self._say_standing(answer, stood)
        elif answer.value(context.session.job) is None:
            context.say("There is nothing to confirm yet.", title=answer.label)

    def confirm_step(self) -> None:
        """Make all that is a guess on the step sure, in one change."""
        context, step = self._context, self._focus().step
        session, title = context.session, STEPS[step_number(step) - 1].title
        found = edit.step_guesses(session.job, step)
        if not found:
            context.say("Nothing that is shown on this step is a guess.", title=title)
            return
        of_machine = [key for key in found if key.startswith("machine.")]
        ask = asked_of_example(session.job.machine, len(of_machine))
        if ask and self._asked_of is not session.job:
            self._asked_of = session.job
            context.say(ask, title=title, severity="warning")
            return
        names = "; ".join(label(session.job, key) for key in found)
        session.seal()
        session.change(edit.confirm_step(session.job, step), f"{title}: all confirmed")
        session.seal()
        context.changed()
        context.say(f"{counted(len(found), 'guess')} made sure, Ctrl+Z takes that back: "
                    f"{escape_controls(names)}.", title=title)

    def _say_standing(self, answer: Answer, stood: Standing) -> None:
        """Say that a key turned what somebody gave, or turned it back. stood: how it did before."""
        job = self._context.session.job
        shown = escape_controls(answer.said(job))
        turned = stood, answer.standing(job)
        if turned == (Standing.SURE, Standing.GUESS):
            self._context.say(f"{shown} is only a guess now; F3 or F4 makes it sure again.",
                              title=answer.label)
        elif turned == (Standing.GUESS, Standing.SURE):
            self._context.say(f"{shown} is sure now; F4 or a click on that word makes it a guess.",
                              title=answer.label)
        # What was empty shows its guess, and so it says.

    def _say_other_usual(self, answer: Answer, before: Job) -> None:
        """Say that what is usual as the job is now took the place of a guess. before: the job."""
        job = self._context.session.job
        was, now = (escape_controls(answer.said(one)) for one in (before, job))
        if answer.standing(before) is Standing.GUESS and was and was != now:
            self._context.say(f"As the job is now the guess is {now} in place of {was}; Ctrl+Z "
                              "takes that back.", title=answer.label)

    def confirm_by_key(self, key: str) -> bool:
        """Make a guess sure, from a list it stands in; otherwise say what works instead.

        Whether it did.
        """
        session, name = self._context.session, label(self._context.session.job, key)
        if key in ANSWERS and session.confirm(key):
            self._context.changed()
            self._context.say("It is sure now; Ctrl+Z takes that back.", title=name)
            return True
        if standing(session.job, key) is Standing.ASK:
            self._context.say("There is nothing to confirm yet; Enter goes there.", title=name)
        else:
            self._context.say("Enter goes to its row; it is confirmed there.", title=name)
        return False

    def turn_standing(self, key: str) -> None:
        """Turn a standing that was clicked: ask becomes a guess, a guess sure, sure a guess."""
        session = self._context.session
        answer = ANSWERS[key]
        stands = answer.standing(session.job)
        change = {Standing.SURE: session.doubt, Standing.GUESS: session.confirm}.get(
            stands, session.do_not_know)
        if change(key):
            self._context.changed()
            self._say_standing(answer, stands)
        elif stands not in (Standing.SURE, Standing.GUESS):
            self._context.show_again()
            self._context.say("Nothing is usual for this one; F1 says whom to ask.",
                              title=answer.label)

    def put_back(self) -> None:
        """Put back what stood in the focused box before text that cannot be read was typed.

        Where there is none it says how a job is left: Escape itself never does that.
        """
        context, key = self._context, self._focus().answer
        before = context.session.put_back(key) if key else None
        if before is None:
            context.say("F10 leaves the job; all is saved.")
            return
        context.changed()
        text = f"“{escape_controls(before)}” stands there again" if before \
            else "The box is empty again"
        context.say(f"{text}.")

    # -- undo ------------------------------------------------------------------------------

    def undo(self) -> None:
        """Take the last change back and say which."""
        self._stepped(step_back(self._context.session))

    def redo(self) -> None:
        """Make the undone change again and say which."""
        self._stepped(step_again(self._context.session))

    def _stepped(self, stepped: Stepped) -> None:
        self._context.say(stepped.said)
        if stepped.done:
            self._context.changed()

    # -- figures and findings ---------------------------------------------------------------

    def working(self) -> None:
        """Show how the figure in question was worked out, or what it waits for."""
        self.open_figure_by_key(*self._figure_in_question())

    def _figure_in_question(self) -> tuple[str, str]:
        """The key of the focused figure, or of the step's first that rests on the answer here.

        Where none rests on it yet: the first that waits for it; else the answer's own figure;
        else the step's first that is there, or the first.
        """
        focus, plan = self._focus(), self._context.session.plan
        if focus.figure:
            return focus.figure, self._label(focus.figure, focus.figure)
        there = [h for h in focus.headlines if h.key in plan.figures]
        if focus.answer:
            for head in there:
                if any(part.key == focus.answer for part in plan.figures[head.key].below()):
                    return head.key, head.label
            for head in focus.headlines:
                lack = plan.lacks.get(head.key)
                if lack is not None and focus.answer in lack.needs:
                    return head.key, head.label
            if focus.answer in plan.figures:
                return focus.answer, ANSWERS[focus.answer].label
        first = next(iter((*there, *focus.headlines)), None)
        return (Key.COIL_MASS_ORDERED, "The order") if first is None else (first.key, first.label)

    def _label(self, key: str, otherwise: str) -> str:
        """What the step calls one of its headline figures."""
        return next((h.label for h in self._focus().headlines if h.key == key), otherwise)

    def open_figure_by_key(self, key: str, label: str = "") -> None:
        """Show how a figure was made; of one that is not there yet, what it waits for."""
        plan = self._context.session.plan
        figure = plan.figures.get(key)
        if figure is not None:
            self.open_figure(figure)
        else:
            label = label or self._label(key, "This")
            self._context.say(lack_sentence(plan, key, label), title="No working yet", timeout=6)

    def open_figure(self, figure: Figure) -> None:
        """Show how a figure was made."""
        from coilwright.wizard.screens.figures import WorkingScreen

        screen = WorkingScreen(figure, self._context.session.job.units)
        self._context.open(screen, self._context.go_if)

    def open_finding(self, finding: Finding) -> None:
        """Show a finding whole."""
        from coilwright.wizard.screens.help import FindingScreen

        def settle(by: str, reason: str) -> None:
            session = self._context.session
            session.seal()
            job, what = (
                (edit.accept(session.job, finding.key, finding.accept, by, reason, finding.what),
                 "accepted")
                if by else (edit.withdraw(session.job, finding.key), "no longer accepted")
            )
            if session.change(job, f"{finding.what[:40]}: {what}"):
                self._context.changed()

        go = answer_to_change(self._context.session.job, finding)
        self._context.open(FindingScreen(
            finding, self._context.session.job.units, settle, go), self._context.go_if)

    # -- looking up ------------------------------------------------------------------------

    def questions(self, folder: Path, effects: tuple[Effect, ...]) -> None:
        """All questions by whom to ask. folder: where their sheet is saved."""
        from coilwright.wizard.screens.questions import QuestionsScreen

        context = self._context
        context.session.seal()
        screen = QuestionsScreen(context.session, folder, effects, context.changed)
        context.open(screen, self._show_and_go)

    def question(self, key: str, order: tuple[str, ...] = ()) -> None:
        """One question that holds the order, and from it on to the others that do.

        order: those that did when the first was opened.
        """
        from coilwright.wizard.screens.question import QuestionScreen

        context = self._context
        context.session.seal()
        plan = context.session.plan
        asked = {q.key for q in plan.questions}
        if key not in asked:
            return
        order = order or tuple(q.key for q in plan.questions if q.key in plan.readiness.holding)
        those = " that hold the order" if key in order else ""

        def closed(go_on: str | None) -> None:
            context.show_again()
            still = {q.key for q in context.session.plan.questions}
            after = order[order.index(go_on):] if go_on in order else ()
            # A reply can make the question after it pointless.
            if (key := next((one for one in after if one in still), "")):
                self.question(key, order)

        context.open(QuestionScreen(context.session, key, order, context.changed, those), closed)

    def figures(self) -> None:
        """Every figure, to be found by name."""
        from coilwright.wizard.screens.figures import FiguresScreen

        self._context.open(FiguresScreen(self._context.session.plan), self._show_and_go)

    def glossary(self) -> None:
        """The words of the trade."""
        from coilwright.wizard.screens.glossary import GlossaryScreen

        self._context.open(GlossaryScreen())

    async def _show_and_go(self, key: str | None) -> None:
        self._context.show_again()
        await self._context.go_if(key)
