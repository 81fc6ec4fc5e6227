"""What the keys do with answers: help, working, don't know, confirm, undo, go to."""

from __future__ import annotations

from textual import on

from coilwright.job.answers import ANSWERS
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.standing import Standing
from coilwright.wizard.lacking import sentence
from coilwright.wizard.screens.job_screen import JobScreen
from coilwright.wizard.undoing import say_redone, say_undone
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.results import FigureLine, FindingLine
from coilwright.words import words


class AnswerActions(JobScreen):
    """Actions on the focused answer and on the job as a whole."""

    def action_words(self) -> None:
        """All there is to say about the focused answer, or about the step."""
        from coilwright.wizard.screens.words import StepWords, WordsScreen

        field = self.focused_field()
        if field is not None and field.key in ANSWERS:
            self.app.push_screen(WordsScreen(field.answer, self.session.job))
        else:
            self.app.push_screen(StepWords(self.step))

    def action_step_words(self) -> None:
        """What the step settles, all its cautions, and the keys."""
        from coilwright.wizard.screens.words import StepWords

        self.app.push_screen(StepWords(self.step))

    def action_do_not_know(self) -> None:
        """Let the usual value stand in."""
        field = self.focused_field()
        if field is None:
            self.notify("Move to an answer first.", markup=False)
            return
        if self.session.do_not_know(field.key):
            self.changed()
            return
        if field.answer.standing(self.session.job) is Standing.GUESS:
            self.notify("It is a guess already; F4 confirms it once somebody knows.",
                        title=field.answer.label, markup=False)
            return
        said = words(field.key)
        ask = f" Ask the {said.who}: {said.ask}" if said.ask else ""
        self.notify(f"Nothing is usual for this one.{ask}", title=field.answer.label,
                    markup=False, timeout=6)

    def action_confirm(self) -> None:
        """Make the focused answer sure."""
        field = self.focused_field()
        if field is None:
            self.notify("Move to an answer first.", markup=False)
        elif self.session.confirm(field.key):
            self.changed()
        elif field.answer.value(self.session.job) is None:
            self.notify("There is nothing to confirm yet.", title=field.answer.label,
                        markup=False)

    @on(Field.Toggled)
    def _toggled(self, event: Field.Toggled) -> None:
        """A click on the standing: ask becomes a guess, a guess sure, sure a guess."""
        event.stop()
        field = event.field
        field.focus()
        if field.answer.standing(self.session.job) is Standing.SURE:
            if self.session.doubt(field.key):
                self.changed()
        elif field.answer.standing(self.session.job) is Standing.GUESS:
            self.action_confirm_key(field)
        elif self.session.do_not_know(field.key):
            self.changed()
        else:
            self.notify("Nothing is usual for this one; F1 says whom to ask.",
                        title=field.answer.label, markup=False)

    def action_confirm_key(self, field: Field) -> None:
        """Make one answer sure."""
        if self.session.confirm(field.key):
            self.changed()

    # -- undo ------------------------------------------------------------------------------

    def action_undo(self) -> None:
        """Take the last change back and say which."""
        if say_undone(self, self.session.undo()):
            self.changed()

    def action_redo(self) -> None:
        """Make the undone change again and say which."""
        if say_redone(self, self.session.redo()):
            self.changed()

    # -- figures and findings ---------------------------------------------------------------

    def action_working(self) -> None:
        """Show how the figure in question was worked out, or what it waits for."""
        key, label = self._in_question()
        figure = self.session.plan.figures.get(key)
        if figure is not None:
            self.open_figure(figure)
        else:
            self.notify(sentence(self.session.plan, key, label), title="No working yet",
                        timeout=6, markup=False)

    def _in_question(self) -> tuple[str, str]:
        """The key of the focused figure, or of the step's first that rests on the answer here.

        Where none rests on it yet: the first that waits for it; else the answer's own figure;
        else the step's first that is there, or the first.
        """
        plan, heads = self.session.plan, self.form.view.headlines
        if isinstance(self.focused, FigureLine):
            key = self.focused.key
            return key, next((h.label for h in heads if h.key == key), key)
        there = [h for h in heads if h.key in plan.figures]
        field = self.focused_field()
        if field is not None:
            for head in there:
                if any(part.key == field.key for part in plan.figures[head.key].below()):
                    return head.key, head.label
            for head in heads:
                lack = plan.lacks.get(head.key)
                if lack is not None and field.key in lack.needs:
                    return head.key, head.label
            if field.key in plan.figures:
                return field.key, field.answer.label
        if there or heads:
            return (there or list(heads))[0].key, (there or list(heads))[0].label
        return "coil.mass_ordered", "The order"

    def open_figure(self, figure: Figure) -> None:
        """Show how a figure was made."""
        from coilwright.wizard.screens.working import WorkingScreen

        self.app.push_screen(WorkingScreen(figure, self.session.job.units), self._go_if)

    def open_finding(self, finding: Finding) -> None:
        """Show a finding whole."""
        from coilwright.wizard.screens.finding import FindingScreen

        self.app.push_screen(FindingScreen(finding), self._go_if)

    async def _go_if(self, key: str | None) -> None:
        if key:
            await self.go_to_key(key)

    @on(FigureLine.Opened)
    def _figure_opened(self, event: FigureLine.Opened) -> None:
        event.stop()
        figure = self.session.plan.figures.get(event.key)
        if figure is not None:
            self.open_figure(figure)
            return
        label = next((h.label for h in self.form.view.headlines if h.key == event.key), "This")
        self.notify(sentence(self.session.plan, event.key, label), title="No working yet",
                    timeout=6, markup=False)

    @on(FindingLine.Opened)
    def _finding_opened(self, event: FindingLine.Opened) -> None:
        event.stop()
        self.open_finding(event.finding)

    def action_go_to(self) -> None:
        """Go to an answer by its name."""
        from coilwright.wizard.screens.go_to import GoToScreen

        self.app.push_screen(GoToScreen(self.session.job), self._go_if)
