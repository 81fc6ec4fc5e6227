"""What the projector shows, one thing at a time: a practice job, or any job. No screens here.

The trainer's notes are on the key sheet alone; nothing here takes them along.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from coilwright.drawing.safe_text import escape_controls
from coilwright.plan.practice.solve import Solution, Solved, option_words
from coilwright.plan.result import Plan
from coilwright.plan.working import lines
from coilwright.sheets.practice import bare_lines, drawn_once
from coilwright.sheets.practice_workings import opened
from coilwright.sheets.state import state_of
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.values.source import ANSWER

_HIGH = 22
"""Lines a drawing takes at most."""
_WITH_BOX = 5
"""Cells of an option's box and letter."""
_ON_PAPERS = "the papers"
"""Where an answer of the key comes from, before a class: nobody there gave it."""
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


@dataclass(frozen=True, slots=True)
class Part:
    """Lines that stand together on a page; bold: they answer what was asked."""

    lines: tuple[str, ...]
    bold: bool = False


def pages(
    slide: Slide, width: int, height: int, *, revealed: bool = False, worked: bool = False
) -> tuple[tuple[Part, ...], ...]:
    """A slide as it is shown now, on as many pages as it takes: a class reads what it sees at
    once, and nobody scrolls while it reads. One page at least; each of lines so wide, so many.
    """
    shown = slide.ticked if revealed and slide.ticked else slide.shown
    parts = [([list(slide.drawing)] if slide.drawing else
              [_set(text, width) for text in shown], False)]
    if revealed and slide.revealed:
        parts.append(([_set(text, width) for text in slide.revealed], True))
    if revealed and worked:
        parts.append((_parted(slide.working, width), False))
    made = _paged(parts, height)
    if len(made) > 1 and len(parts) == 1 and not slide.drawing:
        # As much on each: a page with one line left over is hardly one.
        evenly = (_paged(parts, high) for high in range(max(1, height // 2), height))
        return next((one for one in evenly if len(one) == len(made)), made)
    return made


def _paged(
    parts: Iterable[tuple[list[list[str]], bool]], height: int
) -> tuple[tuple[Part, ...], ...]:
    """Parts on as many pages of so many lines as they take."""
    made: list[list[Part]] = [[]]
    used = 0
    for items, bold in parts:
        high = sum(map(len, items))
        if used and used + 1 + high > height:
            made.append([])  # the answer, or the working, begins a page rather than be torn
            used = 0
        begun = False
        for item in items:
            for piece in _in_pieces(item, height):
                apart = bool(used) and not begun
                begun = True
                if used and used + apart + len(piece) > height:
                    made.append([])
                    used, apart = 0, False
                if made[-1] and not apart:
                    made[-1][-1] = Part((*made[-1][-1].lines, *piece), bold)
                else:
                    made[-1].append(Part(tuple(piece), bold))
                used += apart + len(piece)
    return tuple(tuple(page) for page in made)


def _set(text: str, width: int) -> list[str]:
    """A text set for a width; what an option goes on with stands below its words."""
    return textwrap.wrap(escape_controls(text), width, subsequent_indent=(
        " " * _WITH_BOX if text[:1] in "☐☑" and width > _WITH_BOX else "")) or [""]


def _parted(working: Iterable[str], width: int) -> list[list[str]]:
    """Workings, each with the empty line after it; they are set for the width but for names."""
    made: list[list[str]] = [[]]
    for text in working:
        made[-1] += _set(text, width) if len(text) > width else [text]
        if not text:
            made.append([])
    while made and not any(made[-1]):
        made.pop()
    return made


def _in_pieces(item: list[str], height: int) -> Iterator[list[str]]:
    """An item, in pieces where it is higher than a page."""
    if len(item) <= height:
        yield item
        return
    for at in range(0, len(item), height):
        yield item[at:at + height]


def practice_slides(solved: Solved, width: int = 70, height: int = _HIGH) -> tuple[Slide, ...]:
    """A practice job: story, roof, paper by paper, decision by decision, and what it teaches."""
    practice, count = solved.practice, len(solved.solutions)
    drawn = drawn_once(solved.key.planes) if practice.drawing else ()
    return (
        Slide(practice.title, (practice.story,)),
        *(Slide(f"The roof: {words}", (),
                drawing=tuple(bare_lines(plane, width, min(_HIGH, height), practice.key.units)))
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
        tuple(_ranking(solution)) or tuple(
            text.replace(str(ANSWER), _ON_PAPERS)
            for text in _workings(_steps(solution), solution.units, width)),
        (decision.ask, *(f"{box} {words}" for box, words in boxes)) if boxes else (),
    )


def _steps(solution: Solution) -> Iterable[Figure]:
    """What a class follows: of a number all that it is made of, not the last sum alone."""
    if solution.figure is None:
        return solution.working
    return [one for one in opened(solution.working, solution.units) if one.formula is not None]


def _ranking(solution: Solution) -> Iterator[str]:
    """What to ask first, by how much each moves the order."""
    for key, words in solution.ranked.items():
        yield f"{option_words(solution.decision, key)}. {words}"
        yield ""


def job_slides(plan: Plan, width: int = 70, _height: int = _HIGH) -> tuple[Slide, ...]:
    """Any job: its main figures and its findings, one by one."""
    figures = [plan.figures[key] for key in _FIGURES if key in plan.figures]
    return (
        Slide(plan.job.title, (plan.job.about or state_of(plan),), (state_of(plan),)),
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
