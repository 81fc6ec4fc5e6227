"""Answers and figures as a sheet writes them; what they are called is in `job.names`."""

from __future__ import annotations

from coilwright.drawing.safe_text import one_line
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.metal import MetalKey
from coilwright.job.job import Job
from coilwright.job.names import asked_of, label, question, standing, who
from coilwright.job.names import value_text as value_in_full
from coilwright.sheets.blocks import Run, Style, Text, line, marked, paragraph, strong
from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.values.standing import Standing

__all__ = [
    "LEGEND", "TO_ASK", "answer_text", "asked_of", "by_standard", "figure_text", "label",
    "question", "standing", "value_text", "who",
]

TO_ASK = line(strong("to ask"))
"""What stands for an answer that nobody has given."""
LEGEND = paragraph(Run("~", Style.CODE), " marks a number that rests on a guess.")


def value_text(job: Job, key: str) -> str:
    """An answer's value as paper has it; empty while there is none.

    In metric units a size is as fine as such a thing is measured: 1/16 in is 1.6 mm, 0.0025 in of
    thickness 0.064 mm.
    """
    answer = ANSWERS.get(key)
    value = None if answer is None else answer.value(job)
    if answer is None or job.units is System.US or not isinstance(value, int | float):
        return value_in_full(job, key)
    if answer.kind is Kind.THICKNESS:
        return f"{value * _MM_PER_IN:.3f} mm"
    return show(value, Kind.WIDTH, job.units) if answer.kind is Kind.WIDTH else (
        value_in_full(job, key))


_MM_PER_IN = 25.4


def answer_text(job: Job, key: str) -> Text:
    """An answer for a sheet: its value, marked while a guess, or that it is to ask."""
    value = value_text(job, key)
    if not value:
        typed = job.typed.get(key)
        said = f" (typed “{one_line(typed)}”, which cannot be read)" if typed else ""
        return line(*TO_ASK, said)
    return marked("" if standing(job, key) is Standing.SURE else "~", value)


def figure_text(figure: Figure | None, system: System) -> Text:
    """A figure with its unit, marked where it rests on a guess; empty for none."""
    return () if figure is None else marked(figure.mark, figure.text(system))


def by_standard(job: Job) -> str:
    """The standard that a thickness tolerance is of, behind it; empty where none is given."""
    standard = value_text(job, MetalKey.THICKNESS_STANDARD)
    return f" by {standard}" if standard else ""
