"""A figure's working as lines of text: equation, numbers put in, source, what it rests on."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator

from coilwright.plan.result import Plan
from coilwright.units import Kind, System
from coilwright.units.currency import in_currency
from coilwright.units.worked import in_millimeters, worked_unit
from coilwright.values.figure import Figure
from coilwright.values.formula import number_text
from coilwright.values.source import LAYOUT, STAND_IN
from coilwright.words.in_units import source_in

WIDTH = 78
DRAWN = "how the panels lie and are shared out to coils"
_SUMS_SHOWN = 6
"""Terms listed for a long sum; of more, their number is given."""
_INDENT = 2


def lines(figure: Figure, system: System = System.US, width: int = WIDTH) -> list[str]:
    """The working of one figure, broken at `width`.

    Its name and value; in plain words what it is; the equation, the same with the numbers put
    in, and the result, in inches and pounds or in meters and kilograms; the source; each term with
    its value as the trade reads it, its standing and where it comes from; and the guesses it rests
    on.
    """
    found = [_headed(figure.label, f"{figure.mark} {figure.text(system)}".strip(), width)]
    for said in (plain_words(figure), figure.note):
        if said == figure.label:
            continue
        found += _wrapped(said, _INDENT, width)
    if figure.formula is not None:
        terms = figure.terms
        found += _wrapped(f"= {figure.equation}", _INDENT, width)
        if numbers := put_in(figure, system):
            found += _wrapped(f"= {numbers}", _INDENT, width)
        found += _wrapped(f"= {as_worked(figure, system)}", _INDENT, width)
        found += _terms(figure, terms, system, width)
    if figure.rounding is not None:
        found += _wrapped(f"read {figure.rounding.words(figure.kind, system)}, on all papers alike",
                          _INDENT, width)
    found += _wrapped(f"source: {source_in(figure.source, system)}", _INDENT, width)
    if figure.formula is None:
        if figure.mark and figure.source is not STAND_IN:
            found += _wrapped("a guess: it follows from an answer that is one", _INDENT, width)
    elif guesses := rests_on(figure):
        found += _wrapped(f"rests on guesses: {', '.join(guesses)}", _INDENT, width)
    return found


def all_lines(plan: Plan, width: int = WIDTH) -> list[str]:
    """The working of every figure of a plan, in the plan's order, an empty line between.

    Squares are a US measure: a metric job has none.
    """
    found: list[str] = []
    for figure in plan.figures.values():
        if figure.kind is Kind.SQUARES and plan.job.units is System.METRIC:
            continue
        if found:
            found.append("")
        found += lines(figure, plan.job.units, width)
    return found


def plain_words(figure: Figure) -> str:
    """What the equation gives, in words; empty for a figure that is put in, not computed."""
    if figure.formula is None:
        return ""
    said = (figure.formula.__doc__ or "").strip().split("\n")[0]
    said = re.sub(r"\s*\[[^\]]*\]", "", said.split(":")[0]).replace("`", "")
    return said.strip().rstrip(".")


def rests_on(figure: Figure) -> tuple[str, ...]:
    """The guesses at the bottom of a marked figure, by name; empty for one that is sure.

    Answers by their labels. Where a guess decides how a figure is made rather than being put
    in, that figure is named; all that is measured or counted on the drawing goes by one name.
    """
    found: dict[str, None] = {}
    drawn = False
    for one in _below(figure):
        if not one.mark or any(term.mark for term in one.terms):
            continue
        if one.source is LAYOUT:
            drawn = True
        else:
            found[one.label] = None
    return (*found, *((DRAWN,) if drawn else ()))


def put_in(figure: Figure, system: System = System.US) -> str:
    """The equation with the numbers put in, in the units it is worked in (`units/worked.py`).

    Empty where nothing is put in.
    """
    terms = figure.terms
    if figure.formula is None or not terms:
        return ""
    small = _in_millimeters(figure)
    return figure.formula.written_with(
        [worked_unit(t.kind, system, millimeters=small).number(t.value) for t in terms])


def as_put_in(term: Figure, system: System, put_into: Figure | None = None) -> str:
    """A value as the trade reads it and as it stands in the equation: "67 ft 0 in = 804 in".

    put_into: the figure whose equation that is; it decides between meters and millimeters.
    """
    shown, exact = term.text(system), _exact(term, system, put_into or term)
    return shown if exact == shown else f"{shown} = {exact}"


def as_worked(figure: Figure, system: System) -> str:
    """A result as the equation gives it and as the trade reads it: "804 in = 67 ft 0 in"."""
    shown, exact = figure.text(system), _exact(figure, system, figure)
    return shown if exact == shown else f"{exact} = {shown}"


def _exact(one: Figure, system: System, put_into: Figure) -> str:
    """The value as it stands in an equation, with its unit; a pure number stands alone."""
    unit = worked_unit(one.kind, system, millimeters=_in_millimeters(put_into))
    number = number_text(unit.number(one.value))
    if one.kind is Kind.PITCH and system is System.METRIC:
        # It is shown as an angle, and put in as a rise.
        return f"{number} for 12 of run"
    return in_currency(f"{number} {unit.name}".rstrip(), one.currency)


def _in_millimeters(figure: Figure) -> bool:
    return in_millimeters([figure.kind, *(term.kind for term in figure.terms)])


def _below(figure: Figure) -> Iterator[Figure]:
    """The figure and all it rests on, each once."""
    seen: set[str] = set()
    waiting = [figure]
    while waiting:
        one = waiting.pop()
        if one.key not in seen:
            seen.add(one.key)
            yield one
            waiting.extend(reversed(one.terms))


def _headed(label: str, value: str, width: int) -> str:
    room = width - len(label) - len(value)
    return f"{label}{' ' * max(room, 2)}{value}"


def _wrapped(text: str, indent: int, width: int) -> list[str]:
    return textwrap.wrap(
        text, max(width, 20), initial_indent=" " * indent, subsequent_indent=" " * (indent + 2),
        break_long_words=False, break_on_hyphens=False,
    )


def _standing(term: Figure, system: System) -> str:
    """How far a term can be trusted, and where it comes from."""
    if term.source is STAND_IN:
        return f"{term.standing.value}, until somebody knows"
    origin = "worked out" if term.formula is not None else source_in(term.source, system)
    return f"{term.standing.value}, {origin}"


def _terms(
    figure: Figure, terms: tuple[Figure, ...], system: System, width: int
) -> Iterator[str]:
    """One row for each term: symbol, name, value, standing, where it comes from."""
    shown = len(terms) if len(terms) <= _SUMS_SHOWN else _SUMS_SHOWN - 1
    symbols = figure.symbols[:shown]
    wide = max((len(s) for s in symbols), default=0)
    for symbol, term in zip(symbols, terms, strict=False):
        value = as_put_in(term, system, figure)
        row = f"{symbol:<{wide}}  {term.label}  {value}  {_standing(term, system)}"
        yield from _wrapped(row, 2 * _INDENT, width)
    if len(terms) > shown:
        yield from _wrapped(f"and {len(terms) - shown} more like these", 2 * _INDENT, width)
