"""How the numbers of a practice job come about, in words: each term by its name.

On the key: a trainer who is asked reads this; symbols alone tell only those who know already.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence

from coilwright.plan.working import as_put_in, as_worked, plain_words
from coilwright.sheets.blocks import Annex, Block, Text, bullets, line, strong
from coilwright.units import System, read
from coilwright.values.figure import Figure
from coilwright.values.source import ARITHMETIC, Grade
from coilwright.words.in_units import source_in

_LARGER_LESS = re.compile(r"\(?max\((\w+), (\w+)\) − min\(\1, \2\)\)?")
"""How far two numbers lie apart, as the equations write it."""
_NAMED_TERMS = 6
"""Terms named; of more, their number is given, and none of them is opened."""
_NOT_OPENED = ("panels.", "plane.")
"""Begin the keys of figures whose terms are not opened; there may be hundreds."""


def workings_in_words(figures: Iterable[Figure], system: System) -> tuple[Block, ...]:
    """How figures and all they rest on come about, each once, in words. Empty for none."""
    items = [_in_words(one, system) for one in opened(figures, system)]
    return (Annex(line("How these numbers were made"), (bullets(items),)),) if items else ()


def _through(figure: Figure, system: System) -> Figure:
    """What a figure is of that is the sum of one, or the least of one: that one, read alike."""
    while figure.formula is not None and figure.formula.takes_many and len(figure.terms) == 1:
        (term,) = figure.terms
        if term.text(system) != figure.text(system):
            break
        figure = term
    return figure


def opened(figures: Iterable[Figure], system: System) -> Iterator[Figure]:
    """Figures and all they rest on, each once, those that have something to tell: of an answer its
    name and value tell all."""
    seen: set[tuple[str, float]] = set()
    waiting = list(figures)[::-1]
    while waiting:
        figure = _through(waiting.pop(), system)
        # By its value too: of each mistake there is one that says what it costs.
        if (figure.key, figure.value) in seen:
            continue
        seen.add((figure.key, figure.value))
        if figure.formula is not None or _is_looked_up(figure):
            yield figure
        if not figure.key.startswith(_NOT_OPENED) and len(figure.terms) <= _NAMED_TERMS:
            waiting.extend(reversed(figure.terms))


def _is_looked_up(figure: Figure) -> bool:
    """Whether it has a source that is worth a line: no answer, and not read off the drawing."""
    return bool(figure.note) or figure.source.grade not in (Grade.ANSWER, Grade.LAYOUT)


def _in_words(figure: Figure, system: System) -> Text:
    """One figure: its name and value, what it is, what it is of, and the source."""
    said = [*_of_what(figure, system), figure.note]
    source = "" if figure.source == ARITHMETIC else source_in(figure.source, system)
    text = "; ".join(part for part in said if part) or source
    more = f". Source: {source}" if source and text != source else ""
    return line(strong(f"{figure.label} = {figure.text(system)}"), f": {text}{more}.")


def _does_not_read(figure: Figure, terms: Sequence[Figure], system: System) -> bool:
    """Whether a figure is the sum of others, and whoever adds up what stands there gets another."""
    if any(one.kind is not figure.kind for one in terms) or not math.isclose(
            sum(one.value for one in terms), figure.value, rel_tol=1e-9):
        return False
    try:
        read_terms = [read(one.text(system), one.kind, system=system) for one in terms]
        total = read(figure.text(system), figure.kind, system=system)
    except ValueError:
        return False  # as an area in words that nobody types
    return not math.isclose(sum(read_terms), total, rel_tol=1e-9)


def _of_what(figure: Figure, system: System) -> tuple[str, ...]:
    """What it is, and what is put in, each by its name; with the symbols of the equation where
    they mean more than that things are alike."""
    formula, words = figure.formula, plain_words(figure)
    if formula is None:
        return ()
    terms = [_through(one, system) for one in figure.terms]
    if len(terms) > _NAMED_TERMS:
        return (f"{words}: {len(terms)} numbers",)
    named = [f"{one.label} ({one.text(system)})" for one in terms]
    if _does_not_read(figure, terms, system):
        # As they were added up: what is read of them is rounded, each by itself.
        exact = ", ".join(f"{one.label} ({as_put_in(one, system, figure)})" for one in terms)
        return (f"{words}: {exact}; together {as_worked(figure, system)}",)
    if formula.takes_many:
        return (f"{words}: {', '.join(named)}",)
    put_in = ", ".join(f"{symbol} = {name}"
                       for symbol, name in zip(figure.symbols, named, strict=True))
    equation = _LARGER_LESS.sub(r"(the larger of \1 and \2, less the smaller)", figure.equation)
    return words, f"{equation}, with {put_in}" if put_in else equation
