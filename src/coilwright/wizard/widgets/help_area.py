"""Two lines below the form: help on the focused field, or what is wrong with it."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.wizard.literal import tame
from coilwright.wizard.widgets.field import Field
from coilwright.words import words
from coilwright.words.in_units import said_in

_LINES_FOR_BOTH = 3


class HelpArea(Static):
    """Always two lines high, so that nothing jumps when an error comes or goes."""

    def show(self, job: Job, field: Field | None, errors: list[tuple[Field, str]],
             keys: str = "") -> None:
        """Show the help on the focused field; errors, its own or another's, come first.

        keys: what the keys do where no field has the focus.
        """
        own = next((e for f, e in errors if f is field), "")
        other = next(((f, e) for f, e in errors if f is not field), None)
        self.set_class(bool(errors), "-error")
        if own:
            self.update(Content.assemble((" × ", "bold"), tame(own)))
            return
        said = keys if field is None else tame(said_in(field.help_line, job.units))
        first = Content(f"   {said}")
        if other is None:
            self.update(Content.assemble(first, "\n", f"   {usual_line(job, field)}"))
            return
        name = other[0].answer.label
        error = Content.assemble(
            (f" × {name}: ", "bold"), tame(other[1].removeprefix(f"{name}: "))
        )
        # An error is never cut: where it takes both lines, the help waits behind F1.
        if error.cell_length > self.size.width and self.size.height < _LINES_FOR_BOTH:
            self.update(error)
        else:
            self.update(Content.assemble(first, "\n", error))


def usual_line(job: Job, field: Field | None) -> str:
    """What is usual and who knows, in one line."""
    if field is None or field.key not in ANSWERS:
        return ""
    said, answer = words(field.key), field.answer
    parts = []
    if said.usual is not None:
        parts.append(f"usual {answer.shown(answer.read(said.usual), job.units)}")
    if said.low is not None and said.high is not None:
        low, high = (answer.shown(answer.read(t), job.units) for t in (said.low, said.high))
        parts.append(f"{low} to {high}" if parts else f"usual {low} to {high}")
    if said.who != "you":
        parts.append(f"who knows: {said.who}")
    parts.append("F1 says why")
    return " · ".join(parts)
