"""What the projector shows, one thing at a time: a practice job, or any job. No screens here.

The trainer's notes are on the key sheet alone; nothing here takes them along.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from coilwright.plan.practice.solve import Solution, Solved
from coilwright.plan.result import Plan
from coilwright.plan.working import lines
from coilwright.sheets.practice import bare_lines, drawn_once
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.finding import Level
from coilwright.values.keys import Key

_HIGH = 22
"""Lines a drawing may take."""
_FIGURES = (
    Key.ROOF_AREA, Key.PANELS_COUNT, Key.STRIP_WIDTH, Key.COIL_LONGEST, Key.COIL_COUNT,
    Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED,
)
_LEVELS = {Level.STOP: "Stop", Level.CARE: "Take care", Level.NOTE: "Worth knowing"}


@dataclass(frozen=True, slots=True)
class Slide:
    """One thing. shown: at once; revealed: with the reveal key; working: lines of how it was
    worked out, with its own key, once it is revealed. ticked: what stands instead of what is shown
    once it is revealed, where that differs. drawing: lines that are never broken."""

    title: str
    shown: tuple[str, ...]
    revealed: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    ticked: tuple[str, ...] = ()
    drawing: tuple[str, ...] = ()


def practice_slides(solved: Solved, width: int = 70) -> tuple[Slide, ...]:
    """A practice job: story, roof, paper by paper, decision by decision, and what it teaches."""
    practice, count = solved.practice, len(solved.solutions)
    drawn = drawn_once(solved.key.planes) if practice.drawing else ()
    return (
        Slide(practice.title, (practice.story,)),
        *(Slide(f"The roof: {words}", (),
                drawing=tuple(bare_lines(plane, width, _HIGH, practice.key.units)))
          for words, plane in drawn),
        *(Slide(paper.title, (*(f"{label}:  {text}" for label, text in paper.lines),
                              *((paper.text,) if paper.text else ())))
          for paper in practice.papers),
        *(_decision(f"Question {number} of {count}", one, width)
          for number, one in enumerate(solved.solutions, 1)),
        Slide("To end with", (practice.lesson, practice.teaches)),
    )


def _decision(title: str, solution: Solution, width: int) -> Slide:
    decision = solution.decision
    found = [f"{finding.what}" for key, finding in solution.because.items()
             if decision.option(key)]
    boxes = [("☑" if one.key in solution.right else "☐",
              f"{decision.letter(one.key)}. {one.words}") for one in decision.options]
    answer = () if any(box == "☑" for box, _ in boxes) else (solution.text,)
    return Slide(
        title, (decision.ask, *(f"☐ {words}" for _, words in boxes)),
        (*answer, *found, *solution.notes, decision.why),
        tuple(_workings(solution.working, solution.units, width)),
        (decision.ask, *(f"{box} {words}" for box, words in boxes)) if boxes else (),
    )


def job_slides(plan: Plan, width: int = 70) -> tuple[Slide, ...]:
    """Any job: its main figures and its findings, one by one."""
    figures = [plan.figures[key] for key in _FIGURES if key in plan.figures]
    return (
        Slide(plan.job.title, (plan.job.about or plan.state,), (plan.state,)),
        *(Slide(figure.label, ("What is it?",),
                (f"{figure.mark} {figure.text(plan.job.units)}".strip(),),
                tuple(_workings((figure,), plan.job.units, width))) for figure in figures),
        *(Slide(_LEVELS[finding.level], (finding.what,), (finding.why, finding.do))
          for finding in plan.findings),
    )


def _workings(figures: Iterable[Figure], system: System, width: int) -> Iterator[str]:
    for figure in figures:
        yield from lines(figure, system, width)
        yield ""
