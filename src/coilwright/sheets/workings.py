"""How the numbers of a sheet were made: equation, what was put in, source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coilwright.sheets.writing import figure_text, safe, table
from coilwright.units import System
from coilwright.values.figure import Figure

_HEADER = ("figure", "value", "equation", "put in", "source")
_SUMS_SHOWN = 6
"""Terms written out for a sum; of more, their number is given."""


def workings(figures: Iterable[Figure], system: System, stop_at: tuple[str, ...] = ()) -> str:
    """A table of the figures and all they rest on, each once.

    stop_at: beginnings of keys whose terms are not opened; there may be hundreds.
    """
    rows = [_row(figure, system) for figure in _opened(figures, stop_at)]
    return table(_HEADER, rows) if rows else ""


def _opened(figures: Iterable[Figure], stop_at: tuple[str, ...]) -> Iterator[Figure]:
    seen: set[str] = set()
    waiting = list(figures)[::-1]
    while waiting:
        figure = waiting.pop()
        if figure.key in seen:
            continue
        seen.add(figure.key)
        yield figure
        if not figure.key.startswith(stop_at):
            waiting.extend(reversed(figure.terms))


def _row(figure: Figure, system: System) -> tuple[str, ...]:
    terms = figure.terms
    if len(terms) > _SUMS_SHOWN:
        put_in = f"{len(terms)} terms"
    else:
        put_in = ", ".join(
            f"{safe(symbol)} {figure_text(term, system)}"
            for symbol, term in zip(figure.symbols, terms, strict=True)
        )
    source = safe(str(figure.source))
    note = f"; {safe(figure.note)}" if figure.note else ""
    return (
        safe(figure.label), figure_text(figure, system), safe(figure.equation), put_in,
        f"{source}{note}",
    )
