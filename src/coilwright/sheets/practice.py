"""Papers for a class: the handout, the key for the trainer, a review, a glossary, the class."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Iterator, Sequence

from coilwright.drawing.plane import plane_lines
from coilwright.drawing.svg import plane_svg
from coilwright.job.practice import Decision
from coilwright.plan.practice.review import (
    Loss,
    Mark,
    Review,
    common_mistakes,
    doubts,
    latest,
)
from coilwright.plan.practice.solve import Solution, Solved
from coilwright.plan.result import PlanePlan
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Drawing,
    Inline,
    Kept,
    Rows,
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
    table,
    ticks,
)
from coilwright.sheets.parts import workings
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.words.counting import counted
from coilwright.words.glossary import glossary

_WIDE, _HIGH = 66, 16
_WRITE, _LINE = 24, 60
_LEVELS = {1: "easy", 2: "middling", 3: "hard"}
TERMS = (
    "coil", "strip", "master coil", "coverage", "take-up", "leg", "seam", "pan", "gauge",
    "decimal thickness", "metallic coating", "tolerance", "production lot", "camber",
    "inside diameter", "outside diameter", "wrap allowance", "arbor", "overhead rack", "thread-up",
    "tail", "slope factor", "pitch", "eave", "ridge", "valley", "hip", "square", "tested assembly",
    "oil canning", "tongue weight", "working load limit", "rating plate", "lead time",
)
"""What a newcomer meets first; one page holds no more."""


_NO_PROOF = ("A checksum tells a slip or a plain edit; it proves nothing, for whoever runs this "
             "program can make another.")


def level_word(level: int) -> str:
    """How hard a practice job is, in a word."""
    return _LEVELS[level]


def variant_words(solved: Solved) -> str:
    """Which variant it is, or that there is only one."""
    return f"Variant {solved.seed}" if solved.practice.varies else "It has one variant only"


# -- what is handed out --------------------------------------------------------------------


def handout(solved: Solved) -> Sheet:
    """The brief to write on: story, drawing, papers and decisions, and nothing that answers them.
    """
    practice = solved.practice
    return Sheet(f"Practice: {practice.title}", stacked(
        facts("handout", (
            ("Name", line(room(_WRITE))), ("Date", line(room(_WRITE))),
            *((("Variant", str(solved.seed)),) if practice.varies else ()),
            ("Level", level_word(practice.level)),
        )),
        paragraph(practice.story),
        *brief_papers(solved),
        heading(2, "Decide"),
        *(_to_decide(number, one) for number, one in enumerate(practice.decisions, 1)),
        paragraph(emphasis("Invented for practice: no machine, supplier or report is real.")),
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
        ticks(option.words for option in decision.options) if decision.options
        else paragraph(line("Answer: ", room(_WRITE))),
        paragraph(line("Why: ", room(_LINE))) if decision.reason else (),
    ))


# -- for the trainer -----------------------------------------------------------------------


def key_sheet(solved: Solved) -> Sheet:
    """The key: what is right and why, hints, what each mistake costs, notes, and all workings."""
    practice = solved.practice
    figures: list[Figure] = []
    for one in solved.solutions:
        figures += one.working
    return Sheet(f"Key: {practice.title}", stacked(
        Banner((paragraph(strong("For the trainer. "), f"{variant_words(solved)}. ",
                          f"It teaches: {practice.teaches}"),), draft=False),
        *(_solution(number, one) for number, one in enumerate(solved.solutions, 1)),
        heading(2, "To end with"), paragraph(practice.lesson),
        heading(2, "Notes") if practice.notes else (), paragraph(practice.notes),
        *workings(figures, practice.key.units, ("panels.", "plane.")),
    ))


def _solution(number: int, solution: Solution) -> Block:
    decision = solution.decision
    return Kept(stacked(
        heading(2, f"{number}. {decision.ask}"),
        paragraph(strong(f"Key: {solution.text}"), _allowed(solution)),
        paragraph(decision.why),
        bullets(_option_lines(solution)),
        bullets(solution.notes),
        paragraph("Too small: ", decision.less.why) if decision.less else (),
        paragraph("Too large: ", decision.more.why) if decision.more else (),
        numbered(f"Hint: {hint}" for hint in decision.hints),
    ))


def _allowed(solution: Solution) -> str:
    within = f", within {solution.decision.tolerance}" if solution.decision.tolerance else ""
    return f"{within}." if solution.figure is not None else "."


def _option_lines(solution: Solution) -> Iterator[Text]:
    for option in solution.decision.options:
        right = option.key in solution.right
        word = "right" if right else "taken either way" if option.accepted else "not so"
        finding = solution.because.get(option.key)
        yield line(strong(f"{option.words}: {word}. "), finding.what if finding else "", " ",
                   option.if_wrong.why)


# -- a class's papers in one ----------------------------------------------------------------


def combined_sheet(
    variants: Sequence[Solved], make: Callable[[Solved], Sheet] = handout
) -> Sheet:
    """The papers of several variants in one sheet, each on a page of its own."""
    title = make(variants[0]).title
    if len(variants) > 1:
        title += f", variants {variants[0].seed} to {variants[-1].seed}"
    return _in_one(title, (make(one) for one in variants))


def reviews_sheet(reviews: Iterable[Review]) -> Sheet:
    """Everyone's own review in one sheet, each on a page of its own."""
    return _in_one("Everyone's own", map(review_sheet, reviews))


def _in_one(title: str, sheets: Iterable[Sheet]) -> Sheet:
    return Sheet(title, tuple(
        Kept((heading(2, sheet.title), *sheet.blocks), page=True) for sheet in sheets))


# -- one person ----------------------------------------------------------------------------


def review_sheet(review: Review) -> Sheet:
    """One attempt, decision by decision: yours, the key's, found, missed, false alarm, and cost."""
    practice, attempt = review.solved.practice, review.attempt
    figures = [loss.figure for mark in review.marks for loss in mark.losses if loss.figure]
    figures += [one for mark in review.marks if not mark.right for one in mark.solution.working]
    return Sheet(f"Review: {practice.title}", stacked(
        facts("review", (
            ("Name", attempt.name or line(room(_WRITE))),
            ("Variant", str(review.solved.seed)),
            ("Right", f"{review.right} of {len(review.marks)}"),
            ("Hints taken", str(attempt.hints)),
            ("Time", counted(attempt.minutes, "minute")),
        )),
        paragraph(strong(f"This file was {words}. "), _NO_PROOF) if (words := doubts(attempt))
        else (),
        *(_mark(number, mark) for number, mark in enumerate(review.marks, 1)),
        heading(2, "To end with"), paragraph(practice.lesson),
        *workings(figures, practice.key.units, ("panels.", "plane.")),
    ))


def _mark(number: int, mark: Mark) -> Block:
    return Kept(stacked(
        heading(2, f"{number}. {mark.decision.ask}"),
        table(("yours", "the key's", "so"), [(
            mark.yours or "nothing", mark.solution.text, "right" if mark.right else "not right",
        )]),
        bullets(mistake_lines(mark)),
        bullets(mark.solution.notes),
        paragraph(mark.decision.why),
        paragraph("Your reason: ", emphasis(mark.reason)) if mark.reason else (),
    ))


def mistake_lines(mark: Mark) -> Iterator[Text]:
    """What was found, missed and a false alarm, and what it would have cost."""
    if mark.found and mark.solution.figure is None:
        yield line(strong("Found: "), "; ".join(mark.found))
    for mistake in mark.mistakes:
        yield line(strong(f"{mistake.text[:1].upper()}{mistake.text[1:]}"))
    by_why: dict[str, list[str]] = {}
    for loss in mark.losses:
        by_why.setdefault(loss.why, []).append(loss_text(loss))
    for why, costs in by_why.items():
        yield line("It costs ", strong(", ".join(dict.fromkeys(costs))), f". {why}")


def loss_text(loss: Loss) -> str:
    """What a mistake costs, in words: `metal (428 lb)`."""
    if loss.figure is None:
        return str(loss.damage)
    shown = loss.figure.text()
    return f"{loss.damage} ({shown})"


# -- the class -----------------------------------------------------------------------------


def class_sheet(reviews: Sequence[Review]) -> Sheet:
    """All attempts: people by decision, and the commonest mistakes first."""
    return Sheet("The class", stacked(*(
        _one_practice(name, own) for name, own in by_practice(reviews)
    )))


def by_practice(reviews: Iterable[Review]) -> list[tuple[str, list[Review]]]:
    """The reviews by practice job, those and their people in the order they come."""
    found: dict[str, list[Review]] = {}
    for review in reviews:
        found.setdefault(review.solved.practice.name, []).append(review)
    return list(found.items())


def _one_practice(name: str, reviews: list[Review]) -> Block:
    practice = reviews[0].solved.practice
    keys = [decision.key for decision in practice.decisions]
    counting = {id(one) for one in latest(reviews)}
    rows: list[list[Inline]] = [
        [f"{review.attempt.name or 'no name'}{' *' if doubts(review.attempt) else ''}"
         f"{'' if id(review) in counting else ' (earlier)'}",
         str(review.solved.seed),
         *("right" if mark.right else strong(_short(mark)) for mark in review.marks),
         f"{review.right} of {len(review.marks)}", str(review.attempt.hints),
         str(review.attempt.minutes)]
        for review in reviews
    ]
    count = len(counting)
    common = common_mistakes(reviews)
    return Kept(stacked(
        heading(2, f"{practice.title} ({name})"),
        table(("name", "variant", *keys, "right", "hints", "minutes"), rows),
        paragraph("* ", "; ".join(
            f"{one.attempt.name or 'no name'}: {doubts(one.attempt)}" for one in reviews
            if doubts(one.attempt)), ". ", _NO_PROOF) if any(
                doubts(one.attempt) for one in reviews) else (),
        heading(3, "Commonest mistakes"),
        paragraph("Of each person the attempt handed in last is counted; the others are marked "
                  "(earlier) above.") if count < len(reviews) else (),
        table(("decision", "mistake", "people", "who"), [
            (one.decision.key, one.mistake.text, f"{len(one.names)} of {count}",
             ", ".join(one.names)) for one in common
        ], right=(2,)) if common else paragraph("None: everybody is right in everything."),
    ))


def _short(mark: Mark) -> str:
    """What is wrong with a decision, in the words of a cell."""
    return "; ".join(mistake.text for mistake in mark.mistakes)


def class_rows(reviews: Sequence[Review]) -> Rows:
    """One row for each attempt and decision, for a spreadsheet."""
    counting = {id(one) for one in latest(reviews)}
    return Rows(
        ("name", "practice", "variant", "decision", "yours", "key", "right", "mistakes", "cost",
         "hints", "minutes", "reason", "file", "handed in", "counted"),
        tuple(
            (review.attempt.name, review.solved.practice.name, review.solved.seed,
             mark.decision.key, mark.yours, mark.solution.text, "yes" if mark.right else "no",
             _short(mark), "; ".join(loss_text(loss) for loss in mark.losses), mark.hints,
             review.attempt.minutes, mark.reason, doubts(review.attempt),
             review.attempt.handed_in.isoformat(" ") if review.attempt.handed_in else "",
             "yes" if id(review) in counting else "no, there is a later one")
            for review in reviews for mark in review.marks
        ),
    )


def glossary_sheet() -> Sheet:
    """The words a newcomer meets first, on one page."""
    terms = glossary().terms
    return Sheet("Words of the trade", (
        facts("words", ((name, terms[name].says) for name in TERMS)),
    ), compact=True)
