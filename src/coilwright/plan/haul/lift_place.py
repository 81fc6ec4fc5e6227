"""One place where coils are lifted: where its figures go, what it carries, the heaviest coil."""

from __future__ import annotations

from typing import Any, overload

from coilwright.calc import lifting as calc
from coilwright.job.haul import LiftGear
from coilwright.plan.haul.loads import at_densest, densest, heaviest_new_coil
from coilwright.plan.ledger import Lack, Ledger, Term, known
from coilwright.plan.result import CoilPlan, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.formula import Formula
from coilwright.values.keys import (
    FigureKey,
    Key,
    LiftPart,
    LiftPlace,
    lift_key,
    unslit_key,
)
from coilwright.values.rounding import Rounding
from coilwright.values.source import ANSWER
from coilwright.values.standing import Standing


class Place:
    """One place's gear, and where its figures go in the ledger."""

    def __init__(self, ledger: Ledger, place: LiftPlace, gear: LiftGear) -> None:
        self.ledger, self.place, self.gear = ledger, place, gear
        self.by = lift_key(place, "by")

    def key(self, name: LiftPart) -> FigureKey:
        """The key of one of its answers or figures."""
        return lift_key(self.place, name)

    def keys(self, *names: LiftPart) -> tuple[FigureKey, ...]:
        """The keys of several."""
        return tuple(map(self.key, names))

    def label(self, text: str) -> str:
        """What a figure of this place is called."""
        return f"{self.place.capitalize()}: {text}"

    def answer(self, name: LiftPart) -> Term:
        """One of its answers, or what it lacks."""
        return self.ledger.answer(self.key(name))

    @overload
    def put(self, name: LiftPart, text: str, formula: Formula[Any], *terms: Figure,
            note: str = "", picks: tuple[str, ...] = ()) -> Figure: ...

    @overload
    def put(self, name: LiftPart, text: str, formula: Formula[Any], *terms: Term,
            note: str = "", picks: tuple[str, ...] = ()) -> Term: ...

    def put(self, name: LiftPart, text: str, formula: Formula[Any], *terms: Term,
            note: str = "", picks: tuple[str, ...] = ()) -> Term:
        """Enter a figure of this place: it hangs on what lifts there."""
        return self.ledger.put(self.key(name), self.label(text), formula, *terms, note=note,
                               picks=(self.by, *picks),
                               rounding=Rounding.SUM if formula is calc.lifted else None)

    def limit(self, carries: Term, attachment: Term) -> None:
        """Enter the heaviest coil to order that is carried."""
        text = "heaviest coil to order"
        most, least = known(carries), known(attachment)
        if most is not None and least is not None and most.value <= least.value:
            self.no_limit("the attachment alone is all the gear carries")
            return
        note, over = "as ordered: carried however heavy it may come", self.ledger.over_side()
        both = densest(self.ledger)
        if both is None:
            self.put("coil_limit", text, calc.heaviest_as_ordered, carries, attachment,
                     over, note=note)
            return
        dense = self.put("coil_limit_dense", f"{text}, of the heaviest copper",
                         calc.heaviest_as_ordered, carries, attachment,
                         over)
        self.put("coil_limit", text, calc.from_densest, dense, *both, note=note)

    def no_limit(self, because: str) -> None:
        """Enter why no coil can be ordered for this gear."""
        self.ledger.lack(self.key("coil_limit"), self.label("heaviest coil to order"), (), because)


def heaviest_lifted(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> tuple[Term, CoilPlan | StockCoil | None]:
    """The heaviest coil's weight at most, and the coil."""
    weights: list[tuple[Figure, CoilPlan | StockCoil]] = [
        (heaviest_new_coil(ledger, coil), coil) for coil in coils
    ]
    weights += [(_before_slitting(ledger, coil), coil) for coil in from_stock]
    if weights:
        return max(weights, key=lambda pair: pair[0].value)
    waits = ledger.lacks.get(Key.COIL_MASS_ORDERED)
    return waits or Lack(Key.COIL_MASS_ORDERED, "Weight to order", (), "there is no coil"), None


def _before_slitting(ledger: Ledger, coil: StockCoil) -> Figure:
    """What a coil on hand weighs at most, whole: it may be lifted before it is slit."""
    strip, width = ledger.figures[Key.STRIP_WIDTH], ledger.job.on_hand[coil.index].width
    mass = at_densest(ledger, coil.key, coil.name, coil.heaviest)
    if width <= strip.value:
        return mass
    number, tag = coil.index + 1, f"{coil.tag}: "
    wide = ledger.drawn(unslit_key(number, width=True), f"{tag}width before it is slit", width,
                        Kind.WIDTH, Standing.SURE, source=ANSWER)
    return ledger.put(unslit_key(number), f"{tag}weight at most, before it is slit",
                      calc.before_slitting, mass, wide, strip)
