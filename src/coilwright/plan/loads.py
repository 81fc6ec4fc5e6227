"""A load held to the rating that carries it."""

from __future__ import annotations

from coilwright.calc import haul, tie_down
from coilwright.plan.ledger import Lacking, Ledger, Term, known, missing
from coilwright.plan.result import LoadLine
from coilwright.units import Kind
from coilwright.values.figure import Figure


def load_line(
    ledger: Ledger, key: str, name: str, place: str, load: Term,
    rating: Term, *answers: str, at_least: Figure | None = None,
) -> LoadLine:
    """The line, and its margin entered as `key`.margin where load and rating are both known.

    at_least: the part of the load that is known; where that alone is over the rating, it stands
    for the load, and nothing that is missing can make it less.
    """
    needs = Lacking(missing((load, rating))).needs
    carried, carries = known(load), known(rating)
    if (
        carried is None and at_least is not None and carries is not None
        and at_least.value > carries.value * (1 + 1e-9)
    ):
        carried = at_least
    margin = None
    if carried is not None and carries is not None:
        formula = tie_down.ties_to_spare if carried.kind is Kind.COUNT else haul.margin
        margin = ledger.put(f"{key}.margin", f"{name}: margin", formula, carries, carried)
    return LoadLine(key, name, place, carried, carries, margin, needs, answers)
