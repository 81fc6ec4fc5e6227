"""A class for a spreadsheet: a row a person, and what each answered beside each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import assert_never

from coilwright.job.practice import Damage
from coilwright.plan.practice.class_cost import NUMBERED, cost_of
from coilwright.plan.practice.class_table import handed_in_again, latest, person
from coilwright.plan.practice.losses import in_whole, most
from coilwright.plan.practice.review import Mark, Review, doubts, read_number
from coilwright.plan.practice.solve import listed
from coilwright.sheets.blocks import Rows
from coilwright.units import Kind, System
from coilwright.units.kinds import UNITS, printed
from coilwright.units.worked import WorkedUnit, worked_unit
from coilwright.values.figure import Figure

Cell = str | int | float
_APART = " | "
"""Between options in a cell: their own words have commas and semicolons."""
_EACH = ("name", "practice job", "variant", "right", "out of", "false alarms", "hints",
         "minutes", "attempts", "handed in", "warning")


def class_rows(reviews: Sequence[Review]) -> Rows:
    """One row for each person and practice job: the attempt that is counted, and of how many.

    Each question has the same columns, numbered as on the handout; what has one variant only has no
    number of one. A number that was typed stands beside the key's in one unit, that of the column
    after them; what could not be read stays as it was typed. A column of numbers holds numbers
    alone, and nothing where there is none; metal is in the unit that its name says, and money in
    the currency, where all jobs are in one. Both have the digits of the class's table.
    """
    systems = {one.solved.key.job.units for one in reviews}
    system = systems.pop() if len(systems) == 1 else System.US
    counted = latest(reviews)
    attempts = Counter(person(number, one) for number, one in enumerate(reviews))
    of_each = {id(one): attempts[person(number, one)] for number, one in enumerate(reviews)}
    most = max((len(one.marks) for one in counted), default=0)
    currencies = {one.solved.key.job.currency for one in reviews}
    money = currencies.pop() if len(currencies) == 1 else ""
    header = tuple(f"{name} {number}" for number in range(1, most + 1)
                   for name in _of_question(system, money))
    again = handed_in_again(reviews)
    repeats = {person(number, one) for number, one in enumerate(reviews) if id(one) in again}
    repeating = {id(one) for number, one in enumerate(reviews) if person(number, one) in repeats}
    return Rows((*_EACH, *_cost_names(system, money), *header), tuple(
        _row(one, of_each[id(one)], id(one) in repeating, len(header), system) for one in counted))


def _of_question(system: System, money: str) -> tuple[str, ...]:
    """The names of a question's columns, before its number."""
    return ("question", "answer", "key", "unit", "result", "hints", *_cost_names(system, money),
            "reason")


def _cost_names(system: System, money: str) -> tuple[str, ...]:
    """The names of the columns of what mistakes would have cost: of a question, or in all.

    money: the currency; empty where the jobs are in several.
    """
    units = {damage: money if damage is Damage.MONEY else
             worked_unit(_counted_in(damage), system).name for damage in NUMBERED}
    costs = (f"{damage} ({unit})" if unit else str(damage) for damage, unit in units.items())
    return (*costs, str(Damage.DANGER))


def _counted_in(damage: Damage) -> Kind:
    match damage:
        case Damage.METAL:
            return Kind.MASS
        case Damage.MONEY:
            return Kind.MONEY
        case Damage.DAYS | Damage.DANGER:
            return Kind.COUNT
        case _:
            assert_never(damage)


def _row(
    review: Review, attempts: int, again: bool, width: int, system: System
) -> tuple[Cell, ...]:
    """again: the same person handed in this variant once more, which is not counted."""
    warnings = (doubts(review.attempt),
                "handed in again after its review: the first is counted" if again else "",
                "key opened, or another's review, before it was handed in"
                if review.attempt.key_opened else "",
                "" if review.attempt.timed else "typed in from paper")
    attempt, when = review.attempt, review.attempt.handed_in
    questions = [cell for mark in review.marks for cell in _question(mark, review, system)]
    return (
        attempt.name, review.solved.practice.title,
        review.solved.seed if review.solved.practice.varies else "", review.score,
        review.to_find, review.false_alarms,
        *((attempt.hints, attempt.minutes) if attempt.timed else ("", "")), attempts,
        f"{when:%Y-%m-%d %H:%M}" if when is not None else "", "; ".join(filter(None, warnings)),
        *_in_all(review, system), *questions, *("" for _ in range(width - len(questions))),
    )


def _in_all(review: Review, system: System) -> tuple[Cell, ...]:
    """What the mistakes of one person would have cost: the most of one, for one order is lost
    once."""
    cost = cost_of(review)
    return (*(_number(cost.figures.get(damage), review, system) for damage in NUMBERED),
            "yes" if cost.hurts else "")


def _question(mark: Mark, review: Review, system: System) -> tuple[Cell, ...]:
    result = _APART.join(mistake.text for mistake in mark.mistakes) or "right"
    hurts = any(loss.damage is Damage.DANGER for loss in mark.losses)
    return (mark.decision.ask, *_answer_and_key(mark, review), result, mark.hints,
            *(_number(most(mark.losses, damage), review, system) for damage in NUMBERED),
            "yes" if hurts else "", mark.reason)


def _answer_and_key(mark: Mark, review: Review) -> tuple[Cell, Cell, str]:
    """What was answered, what the key says and their unit: numbers to be compared, or words."""
    decision, solution = mark.decision, mark.solution
    response, units = review.attempt.response(decision.key), solution.units
    if (figure := solution.figure) is None:
        picks = (one for one in response.picks if decision.option(one))
        return (listed(decision, picks, _APART) or mark.yours,
                listed(decision, solution.right, _APART) or solution.text, "")
    unit = _unit(figure.kind, units)
    money = review.solved.key.job.currency
    key = _compared(unit.number(figure.as_read(units)), figure.kind)
    try:
        answer = _compared(unit.number(read_number(response.text, figure, units)), figure.kind)
    except ValueError:
        answer = mark.yours
    return answer, key, money if figure.kind is Kind.MONEY else unit.name


def _compared(number: float, kind: Kind) -> Cell:
    """A number to three decimals, as all of a sheet; a thickness to four, for it has them."""
    return f"{number:.4f}" if kind is Kind.THICKNESS else round(number, 3)


def _unit(kind: Kind, system: System) -> WorkedUnit:
    """The unit of an answer and its key, one that such things are read in: no meters of width and
    no square inches of roof."""
    if system is System.US and kind is Kind.AREA:
        return WorkedUnit(printed("ft2"), float(UNITS["ft2"].size))
    return worked_unit(kind, system, millimeters=True)


def _number(figure: Figure | None, review: Review, system: System) -> Cell:
    """A cost in the unit of its column, as it is read in the class's table: rounded once, by the
    job's own units."""
    if figure is None:
        return ""
    if figure.kind is Kind.MONEY:
        return in_whole(figure).value
    read = figure.as_read(review.solved.key.job.units)
    return round(worked_unit(figure.kind, system).number(read), 2)
