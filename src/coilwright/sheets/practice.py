"""Papers for a class: the handout, the key for the trainer, a page of words."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import assert_never

from coilwright.drawing.plane import plane_lines
from coilwright.drawing.svg import plane_svg
from coilwright.job.practice import Decision, Judged, Practice
from coilwright.plan.practice.solve import Solution, Solved, option_words
from coilwright.plan.result import PlanePlan
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Drawing,
    Kept,
    Sheet,
    Text,
    bullets,
    emphasis,
    facts,
    heading,
    line,
    numbered,
    paragraph,
    room,
    stacked,
    strong,
    ticks,
)
from coilwright.sheets.practice_workings import workings_in_words
from coilwright.store.practice import shipped_practices
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.words.counting import counted
from coilwright.words.glossary import glossary

_WIDE, _HIGH = 66, 16
_WRITE, _DATE, _LINE = 24, 12, 60
_NOT_REAL = "Invented for practice: no machine, supplier or report is real."
_CHANGED = ("Changed for practice: made of a job whose names are left out; numbers may be wrong on "
            "purpose. Order, load and lift nothing by it.")
_LEVELS = {1: "easy", 2: "medium", 3: "hard"}
TERMS = (
    "coil", "strip", "master coil", "coverage", "take-up", "leg", "seam", "pan", "gauge",
    "decimal thickness", "metallic coating", "tolerance", "production lot", "camber",
    "inside diameter", "outside diameter", "wrap allowance", "arbor", "overhead rack", "thread-up",
    "tail", "slope factor", "pitch", "eave", "ridge", "valley", "hip", "square", "tested assembly",
    "oil canning", "tongue weight", "working load limit", "rating plate", "lead time",
)
"""What a newcomer meets first; one page holds no more."""


def level_word(level: int) -> str:
    """How hard a practice job is, in a word."""
    return _LEVELS[level]


def task_words(practice: Practice) -> str:
    """What is to be done in it, in a few words that give nothing away: the lesson does."""
    found: dict[str, int] = {}
    for decision in practice.decisions:
        word = _task_word(decision.judged)
        found[word] = found.get(word, 0) + 1
    return ", ".join(counted(count, word) if word == _NUMBER else word
                     for word, count in found.items())


_NUMBER = "number"


def _task_word(judged: Judged) -> str:
    match judged:
        case Judged.FIGURE:
            return _NUMBER
        case Judged.ANSWER:
            return "what to order"
        case Judged.LIMIT:
            return "what limits a coil"
        case Judged.MISTAKES | Judged.STOPS:
            return "what is wrong in a job"
        case Judged.ASK_FIRST:
            return "what to ask first"
        case Judged.LOADS:
            return "what is too heavy"
        case Judged.ARRIVED:
            return "what is wrong with a coil that came"
        case Judged.QUOTE:
            return "which quote"
        case _:
            assert_never(judged)


def variant_words(solved: Solved) -> str:
    """Which variant it is, or that there is only one."""
    return f"Variant {solved.seed}" if solved.practice.varies else "It has one variant only"


# -- what is handed out --------------------------------------------------------------------


def handout(solved: Solved) -> Sheet:
    """The brief to write on: story, drawing, papers and decisions, and nothing that answers them.
    """
    practice = solved.practice
    return Sheet(f"Practice: {practice.title}", stacked(
        paragraph(line(
            "Name ", room(_WRITE), "  Date ", room(_DATE),
            f"  Variant {solved.seed}" if practice.varies else "",
            f"  ({level_word(practice.level)})")),
        paragraph(practice.story),
        *brief_papers(solved),
        heading(2, "Decide"),
        *(_to_decide(number, one) for number, one in enumerate(practice.decisions, 1)),
        paragraph(emphasis(_NOT_REAL if practice.name in shipped_practices() else _CHANGED)),
    ))


def brief_papers(solved: Solved) -> tuple[Block, ...]:
    """What lies on the table: the roof drawn, without its panels, and the papers."""
    practice = solved.practice
    drawn = solved.key.planes if practice.drawing else ()
    return stacked(
        heading(2, "The roof") if drawn else (),
        *(_drawing(words, plane, practice.key.units) for words, plane in drawn_once(drawn)),
        heading(2, "The papers") if practice.papers else (),
        *(Kept(stacked(
            facts(paper.title, paper.lines) if paper.lines else heading(3, paper.title),
            paragraph(paper.text),
        )) for paper in practice.papers),
    )


def drawn_once(planes: Iterable[PlanePlan]) -> Iterator[tuple[str, PlanePlan]]:
    """The planes, of those that look alike the first, without panels; what each stands for."""
    alike: dict[object, list[PlanePlan]] = {}
    for plane in planes:
        alike.setdefault((plane.outline, plane.openings, plane.pitch), []).append(plane)
    for same in alike.values():
        count = sum(plane.alike for plane in same)
        names = ", ".join(dict.fromkeys(plane.name for plane in same))
        yield (f"{names}: {count} alike" if count > 1 else names), dataclasses.replace(
            same[0], panels=(), groups=(), start=None, end_widths=None)


def bare_lines(plane: PlanePlan, width: int, height: int, system: System) -> list[str]:
    """A plane drawn without its panels, and without a word on them."""
    lines = (text.replace("no panels yet; ", "")
             for text in plane_lines(plane, width, height, system))
    return [text for text in lines if text.strip() != "no panels yet"]


def _drawing(words: str, plane: PlanePlan, system: System) -> Block:
    return Kept((
        paragraph(strong(f"{words}.")),
        Drawing(plane.key, _WIDE, lambda wide: bare_lines(plane, wide, _HIGH, system),
                lambda: plane_svg(plane, system)),
    ))


def _to_decide(number: int, decision: Decision) -> Block:
    return Kept(stacked(
        heading(3, f"{number}. {decision.ask}"),
        ticks(f"{decision.letter(option.key)}. {option.words}"
              for option in decision.options) if decision.options
        else paragraph(line("Answer: ", room(_WRITE))),
        paragraph(line("Why: ", room(_LINE))) if decision.reason else (),
    ))


# -- for the trainer -----------------------------------------------------------------------


def key_sheet(solved: Solved, details: bool = True) -> Sheet:
    """The key: what is right, a line each.

    details: with why, hints, what each mistake costs, notes, and all workings.
    """
    practice = solved.practice
    figures: list[Figure] = []
    for one in solved.solutions:
        figures += one.working
    return Sheet(f"Key: {practice.title}", stacked(
        Banner((paragraph(strong("For the trainer. "), f"{variant_words(solved)}. ",
                          f"It teaches: {practice.teaches}"),), draft=False),
        *(_right(number, one) for number, one in enumerate(solved.solutions, 1)),
        *(_details(solved, figures) if details else ()),
    ))


def _right(number: int, solution: Solution) -> Block:
    """What is right, to be read at a glance."""
    ask = f"{number}. {solution.decision.ask}"
    if solution.figure is not None or len(solution.right) < 2:
        said = _lettered(solution.decision, solution.right[0]) if solution.right else solution.text
        return paragraph(ask, " ", strong(said.rstrip(".")), _allowed(solution))
    return Kept(stacked(
        paragraph(ask),
        bullets(strong(_lettered(solution.decision, key)) for key in _as_lettered(solution))))


def _as_lettered(solution: Solution) -> list[str]:
    """What is right in the order of the handout, to be ticked down."""
    places = {option.key: at for at, option in enumerate(solution.decision.options)}
    return sorted(solution.right, key=lambda key: places.get(key, len(places)))


def _lettered(decision: Decision, key: str) -> str:
    """An option as it stands on the handout."""
    words = option_words(decision, key)
    return f"{decision.letter(key)}. {words}" if decision.option(key) else words


def _details(solved: Solved, figures: Sequence[Figure]) -> Iterator[Block]:
    practice = solved.practice
    yield from stacked(
        *(_solution(number, one) for number, one in enumerate(solved.solutions, 1)),
        heading(2, "To end with"), paragraph(practice.lesson),
        heading(2, "Notes") if practice.notes else (), paragraph(practice.notes),
        *workings_in_words(figures, practice.key.units),
    )


def _solution(number: int, solution: Solution) -> Block:
    decision = solution.decision
    return Kept(stacked(
        heading(2, f"{number}. {decision.ask}"),
        paragraph(decision.why),
        bullets(_option_lines(solution)),
        bullets(solution.notes),
        paragraph("Too small: ", decision.less.why) if decision.less else (),
        paragraph("Too large: ", decision.more.why) if decision.more else (),
        paragraph("Hints, one after the other:") if decision.hints else (),
        numbered(decision.hints),
    ))


def _allowed(solution: Solution) -> str:
    within = f", within {solution.decision.tolerance}" if solution.decision.tolerance else ""
    return f"{within}." if solution.figure is not None else "."


def _option_lines(solution: Solution) -> Iterator[Text]:
    for option in solution.decision.options:
        right = option.key in solution.right
        word = "right" if right else "taken either way" if option.accepted else "not so"
        finding = solution.because.get(option.key)
        told = f"{finding.what} " if finding and finding.what != option.words else ""
        said = _lettered(solution.decision, option.key).rstrip(".")
        ranked = f"{of} " if (of := solution.ranked.get(option.key)) else ""
        yield line(strong(f"{said}: {word}. "), ranked, told, option.if_wrong.why)
        if option.hints:
            yield line("Hints: ", " ".join(option.hints))


# -- a class's papers in one ----------------------------------------------------------------


def combined_sheet(
    variants: Sequence[Solved], make: Callable[[Solved], Sheet] = handout
) -> Sheet:
    """The papers of several variants in one sheet, each on a page of its own."""
    return in_one(_title(make(variants[0]).title, variants), (make(one) for one in variants))


def keys_sheet(variants: Sequence[Solved], details: bool = True) -> Sheet:
    """The keys of several variants, short, one below the other.

    details: and after them the first one whole, for what is to be said of all.
    """
    short = [key_sheet(one, details=False) for one in variants]
    blocks = [Kept((heading(2, variant_words(solved)), *sheet.blocks))
              for solved, sheet in zip(variants, short, strict=True)]
    whole = in_one("", (key_sheet(variants[0]),)).blocks if details else ()
    return Sheet(_title(short[0].title, variants), (*blocks, *whole))


def _title(title: str, variants: Sequence[Solved]) -> str:
    if len(variants) == 1:
        return title
    return f"{title}, variants {variants[0].seed} to {variants[-1].seed}"


def in_one(title: str, sheets: Iterable[Sheet]) -> Sheet:
    """Several sheets as one, each on a page of its own."""
    return Sheet(title, tuple(
        Kept((heading(2, sheet.title), *sheet.blocks), page=True) for sheet in sheets))


def glossary_sheet() -> Sheet:
    """The words a newcomer meets first, on one page."""
    terms = glossary().terms
    return Sheet("Words of the trade", (
        facts("words", ((name, terms[name].says) for name in TERMS)),
    ), compact=True)
