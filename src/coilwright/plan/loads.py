"""A load held to the rating that carries it."""

from __future__ import annotations

from coilwright.calc import haul, tie_down
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.result import LoadLine
from coilwright.units import Kind
from coilwright.values.figure import Figure


def load_line(
    ledger: Ledger, key: str, name: str, place: str, load: Figure | Lack,
    rating: Figure | Lack, *answers: str, at_least: Figure | None = None,
) -> LoadLine:
    """The line, and its margin entered as `key`.margin where load and rating are both known.

    at_least: the part of the load that is known; where that alone is over the rating, it stands
    for the load, and nothing that is missing can make it less.
    """
    needs = dict.fromkeys(
        need for term in (load, rating) if isinstance(term, Lack) for need in term.needs
    )
    if (
        isinstance(load, Lack) and at_least is not None and isinstance(rating, Figure)
        and at_least.value > rating.value * (1 + 1e-9)
    ):
        load = at_least
    margin: Figure | Lack | None = None
    if isinstance(load, Figure) and isinstance(rating, Figure):
        of = tie_down.ties_to_spare if load.kind is Kind.COUNT else haul.margin
        margin = ledger.put(f"{key}.margin", f"{name}: margin", of, rating, load)
    return LoadLine(
        key, name, place, _figure(load), _figure(rating), _figure(margin), tuple(needs), answers
    )


def _figure(term: Figure | Lack | None) -> Figure | None:
    return term if isinstance(term, Figure) else None
