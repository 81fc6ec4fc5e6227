"""One answer on one row: label, box, unit, and its standing as a word."""

from __future__ import annotations

from dataclasses import dataclass

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from coilwright.answers import Answer, Form
from coilwright.figures import Standing
from coilwright.job import Job
from coilwright.units import Kind, bare_unit
from coilwright.wizard.literal import pad
from coilwright.wizard.widgets.choice import ChoiceBox

LABEL_WIDTH = 26
_UNIT_WIDTH = 7


class Label(Static):
    """A field's label; a mark shows which field has the focus."""

    def __init__(self, text: str) -> None:
        super().__init__(Content(f" {text}"), classes="label")
        self._text = text

    def mark(self, focused: bool) -> None:
        """Show or hide the mark."""
        self.update(Content(f"{'▸' if focused else ' '}{self._text}"))

    def on_click(self) -> None:
        """A click on the label is a click on the field."""
        if isinstance(self.parent, Field):
            self.parent.focus()


class Tail(Static):
    """The unit a bare number means, and the standing, which a click changes."""

    def on_click(self, event: events.Click) -> None:
        """Ask, guess, sure: a click goes on to the next."""
        event.stop()
        if isinstance(self.parent, Field):
            self.parent.post_message(Field.Toggled(self.parent))


class Field(Horizontal):
    """One answer. It shows what a job says and reports what is typed; it knows no rules."""

    @dataclass
    class Typed(Message):
        """Something was typed or picked."""

        field: Field
        text: str

        @property
        def control(self) -> Field:
            """The field it comes from."""
            return self.field

    @dataclass
    class Toggled(Message):
        """The standing was clicked."""

        field: Field

    @dataclass
    class Done(Message):
        """Enter was pressed in the box."""

        field: Field

    def __init__(self, answer: Answer, help_line: str = "", *, standing: bool = True) -> None:
        super().__init__(id="field-" + answer.key.replace(".", "-"))
        self.answer = answer
        self.help_line = help_line
        self.with_standing = standing
        self.box: Input | ChoiceBox
        if answer.form is Form.CHOICE:
            self.box = ChoiceBox(tuple(c.value for c in answer.choices), answer.label)
        else:
            self.box = Input(compact=True, max_length=1000)
        self._label = Label(answer.label)
        self._tail = Tail(classes="tail")
        self.complains = False
        """Whether text that cannot be read was left, so that the error is shown."""

    @property
    def key(self) -> str:
        """The answer's key."""
        return self.answer.key

    def compose(self) -> ComposeResult:
        """Label, box, tail."""
        yield self._label
        yield self.box
        yield self._tail

    def focus(self, scroll_visible: bool = True) -> Field:
        """Put the focus into the box."""
        self.box.focus(scroll_visible)
        return self

    def on_descendant_focus(self) -> None:
        """Mark the row."""
        self._label.mark(True)

    def on_descendant_blur(self) -> None:
        """Take the mark away."""
        self._label.mark(False)

    def show(self, job: Job, *, typing: bool = False) -> None:
        """Show what the job says. While it is typed in, the box is left alone."""
        typed = job.typed.get(self.key)
        if not typing:
            text = typed
            if text is None:
                text = self.answer.text(self.answer.value(job), job.units)
            if self.box.value != text:
                with self.prevent(Input.Changed, ChoiceBox.Changed):
                    self.box.value = text
        if typed is None:
            self.complains = False
        self.set_class(typed is not None and self.complains, "-unclear")
        word = self.standing_word(job) if self.with_standing else ""
        for standing in ("sure", "guess", "ask", "optional", "unclear"):
            self.set_class(word == standing, f"-{standing}-word")
        unit = pad(self._unit(job), _UNIT_WIDTH)
        self._tail.update(Content.assemble((unit, "dim"), " ", (word, "bold" if word in
                          ("ask", "guess", "unclear") else "")))
        if isinstance(self.box, Input) and not self.box.value:
            self.box.placeholder = _example(self.answer)

    def standing_word(self, job: Job) -> str:
        """The standing as the row says it."""
        if self.key in job.typed:
            return "unclear"
        standing = self.answer.standing(job)
        if standing is Standing.ASK and not self.answer.needed:
            return "optional"
        return standing.value

    def _unit(self, job: Job) -> str:
        answer = self.answer
        if answer.kind is None or answer.form is Form.COUNT:
            return ""
        if answer.kind is Kind.PITCH:
            return "in 12" if bare_unit(answer.kind, job.units) != "°" else "°"
        return answer.bare_unit(job.units) or bare_unit(answer.kind, job.units)

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self.post_message(self.Typed(self, event.value))

    @on(ChoiceBox.Changed)
    def _picked(self, event: ChoiceBox.Changed) -> None:
        event.stop()
        self.post_message(self.Typed(self, event.value))

    @on(Input.Submitted)
    @on(ChoiceBox.Done)
    def _done(self, event: Input.Submitted | ChoiceBox.Done) -> None:
        event.stop()
        self.post_message(self.Done(self))


def _example(answer: Answer) -> str:
    return "year-month-day" if answer.form is Form.DATE else ""
