"""Answers and figures as a sheet writes them; what they are called is in `job.names`."""

from __future__ import annotations

from coilwright.drawing.safe_text import one_line
from coilwright.job.job import Job
from coilwright.job.names import asked_of, label, question, standing, value_text, who
from coilwright.sheets.blocks import Run, Style, Text, line, marked, paragraph, strong
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.standing import Standing

__all__ = [
    "LEGEND", "TO_ASK", "answer_text", "asked_of", "figure_text", "label", "question", "standing",
    "value_text", "who",
]

TO_ASK = line(strong("to ask"))
"""What stands for an answer that nobody has given."""
LEGEND = paragraph(Run("~", Style.CODE), " marks a number that rests on a guess.")


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
