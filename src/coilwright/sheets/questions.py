"""The question sheet: person by person what to ask, why, and room for what they say."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.choices import YesNo
from coilwright.plan.ask_first import Effect, ask_first
from coilwright.plan.questions import Question, Status, by_person
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    TICKED,
    Banner,
    Block,
    Inline,
    Quote,
    Run,
    Sheet,
    Style,
    Text,
    Tick,
    Ticks,
    bullets,
    emphasis,
    heading,
    joined,
    line,
    marked,
    numbered,
    paragraph,
    room,
    stacked,
    strong,
    table,
    ticks,
)
from coilwright.sheets.names import (
    TO_ASK,
    answer_text,
    asked_of,
    figure_text,
    label,
    value_text,
)
from coilwright.sheets.parts import caution_line
from coilwright.sheets.reasons import still_open
from coilwright.values.keys import Key
from coilwright.words.in_units import with_units

_URGENT = strong("BEFORE ORDERING")
_FIRST = 3
"""How many of the unknowns that move the order most stand at the top."""
_FACTS: dict[str, tuple[str, ...]] = {
    "client": (MetalKey.METAL, MetalKey.FINISH, MetalKey.COLOR, JobKey.NEEDED_BY, PanelKey.SEAM,
               PanelKey.COVERAGE),
    "designer": (JobKey.SITE, JobKey.BUILDING_USE, RoofKey.PITCH, MetalKey.METAL,
                 MetalKey.THICKNESS, PanelKey.SEAM, PanelKey.LEG, PanelKey.COVERAGE),
    "building department": (JobKey.SITE, JobKey.BUILDING_USE, RoofKey.PITCH, MetalKey.METAL,
                            JobKey.DESIGNER),
    "machine maker": (MachineKey.NAME, MetalKey.METAL, MetalKey.THICKNESS, PanelKey.SEAM,
                      PanelKey.LEG, PanelKey.COVERAGE),
    "supplier": (MetalKey.METAL, MetalKey.COATING, MetalKey.THICKNESS, MetalKey.FINISH,
                 MetalKey.COLOR, JobKey.SITE, JobKey.NEEDED_BY),
}  # fmt: skip
"""Answers to have at hand when talking to each person."""
_FIGURES: dict[str, tuple[str, ...]] = {
    "client": (Key.ROOF_AREA,),
    "designer": (Key.ROOF_AREA, Key.PANELS_LONGEST),
    "building department": (Key.ROOF_AREA,),
    "machine maker": (Key.STRIP_WIDTH,),
    "supplier": (Key.STRIP_WIDTH, Key.COIL_COUNT, Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED),
}


def question_sheet(plan: Plan) -> Sheet:
    """The question sheet: for each person the open questions first."""
    asked = plan.questions
    return Sheet(f"Questions: {plan.job.title}", stacked(
        _count(asked, plan.readiness.holding),
        _first(ask_first(plan.job, plan)[:_FIRST], asked),
        *(_person(plan, person, mine) for person, mine in by_person(asked).items()),
        _yourself(plan),
    ))


def _count(asked: tuple[Question, ...], holding: frozenset[str]) -> tuple[Block, ...]:
    left = [q for q in asked if not q.status.is_done]
    urgent = sum(q.urgent for q in left)
    guessed = sum(q.status is Status.GUESS for q in left)
    if not left:
        settled = paragraph(strong(f"All {len(asked)} questions are settled."))
        return (Banner((settled,), draft=False),)
    return (
        Banner((paragraph(
            strong(f"{len(left)} of {len(asked)} questions are not settled yet"),
            f", {guessed or 'none'} of them guessed.", before_ordering(
                urgent, sum(q.key in holding for q in left)),
        ),), draft=urgent > 0),
        paragraph(
            "Read the questions out as they stand, and write the answers in, with name and date. ",
            Run("~", Style.CODE), " marks a value that is a guess.",
        ),
    )


def before_ordering(urgent: int, holding: int) -> Text:
    """How many questions should be settled before the order goes out; empty for none.

    holding: how many of them hold it by themselves, as the summary counts them.
    """
    if not urgent:
        return ()
    are, they = ("is", "it comes") if urgent == 1 else ("are", "they come")
    counted_here = "" if holding == urgent else (
        f" {holding or 'None'} of these {'holds' if holding == 1 else 'hold'} the order by "
        f"{'itself' if holding == 1 else 'themselves'}; the others ask for its open answers and "
        "guesses.")
    return line(f" The order should not go out before {urgent} of them {are}: {they} first, "
                "marked ", _URGENT, f".{counted_here}")


def _first(effects: tuple[Effect, ...], asked: tuple[Question, ...]) -> tuple[Block, ...]:
    """The unknowns that move the order most, each with the person its question is put to."""
    if not effects:
        return ()
    persons = {q.words.answer: q.who for q in asked}
    return (
        heading(2, "Ask these first"),
        paragraph("Of all that is not known, these move the order most."),
        numbered(
            line(strong(e.label), f", {e.tried}" if e.tried else "",
                 f": {e.words.rstrip('.')}. ",
                 emphasis(f"Ask {asked_of(persons.get(e.key, e.who))}."))
            for e in effects
        ),
    )


def _person(plan: Plan, person: str, asked: tuple[Question, ...]) -> tuple[Block, ...]:
    left = [q for q in asked if not q.status.is_done]
    settled = [q for q in asked if q.status.is_done]
    cards = [_card(plan, number, question) for number, question in enumerate(left, 1)]
    # Those that hold the order come first, as `by_person` sorts them.
    first = sum(question.urgent for question in left)
    return stacked(
        heading(2, f"For {asked_of(person)}"),
        _at_hand(plan, person) if left else (),
        *cards[:first],
        heading(3, "When there is time") if 0 < first < len(left) else (),
        *cards[first:],
        (heading(3, "Settled"),
         table(("", "question", "answer"), [_settled(plan, q) for q in settled]))
        if settled else (),
    )


def _yourself(plan: Plan) -> tuple[Block, ...]:
    """What you have to measure, read off or decide yourself."""
    mine = [q for q in still_open(plan) if q.who == "you"]
    if not mine:
        return ()
    return (heading(2, "For you to find out"), ticks(
        line(strong(q.label), line(" (", marked("~", q.value), ")") if q.value else "",
             f": {q.ask}")
        for q in mine
    ))


def _at_hand(plan: Plan, person: str) -> tuple[Block, ...]:
    """What is known already and will be asked back."""
    facts = [
        line(f"{label(plan.job, key).lower()}: ", text)
        for key in _FACTS[person]
        # What was answered before the metal was another, as a coating, is no fact of this one.
        if ANSWERS[key].asked(plan.job) and (text := answer_text(plan.job, key)) != TO_ASK
    ]
    for key in _FIGURES[person]:
        if (figure := plan.figures.get(key)) is not None:
            facts.append(line(f"{figure.label.lower()}: ", figure_text(figure, plan.job.units)))
    return (paragraph("Have at hand: ", joined(facts, "; "), "."),) if facts else ()


def _card(plan: Plan, number: int, question: Question) -> Block:
    asked = line(strong(f"{number}. {_words(question.words.ask, plan)}"),
                 *((" ", _URGENT) if question.urgent else ()))
    return Quote((
        Ticks((Tick(asked),), in_line=True),
        bullets(_said(plan, question)),
        paragraph("Answer: ", _so_far(plan, question), room(56)),
    ))


def _said(plan: Plan, question: Question) -> Iterator[Inline]:
    words = question.words
    yield f"Why: {_words(words.why, plan)}"
    yield line("A good answer: ", emphasis(_words(words.good, plan)))
    yield f"Otherwise: {_words(words.otherwise, plan)}"
    if words.caution:
        yield caution_line(_words(words.caution, plan))


def _words(text: str, plan: Plan) -> str:
    """The trainers' words, their sizes in the job's units."""
    return with_units(text, plan.job.units)


def _so_far(plan: Plan, question: Question) -> Text:
    """What stands in for an answer, before the room to write."""
    said = _reply(plan, question)
    if not said:
        return ()
    if question.status is Status.GUESS:
        return line(marked("~", said), " ")
    if question.status is Status.AGAINST:
        return line(f"so far {said.rstrip('.')}; but {question.words.order_says}. Settle one of "
                    "the two: ")
    return line(f"so far {said} ")


def _reply(plan: Plan, question: Question) -> str:
    """What was said, an answer in the job's units."""
    key = question.words.answer
    if not key or key in plan.job.typed:
        return question.said
    return ", ".join(filter(None, (value_text(plan.job, key), question.note)))


def _settled(plan: Plan, question: Question) -> tuple[str, str, str]:
    said = _reply(plan, question)
    if said.partition(",")[0] in tuple(YesNo) and question.words.answer:
        # A bare yes is no answer to "how far" or "this or that": say what it is a yes to.
        said = f"{label(plan.job, question.words.answer)}: {said}"
    if question.status is Status.WAIVED:
        said = f"waived: {question.waived}"
    return TICKED, _words(question.words.ask, plan), said
