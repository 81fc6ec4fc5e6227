"""Which coils ride where on the road: on the machine's rack, and as cargo."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import assert_never

from coilwright.calc import coil as wound
from coilwright.job.haul import CargoOn
from coilwright.plan.from_stock import across_on_hand
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.result import CoilPlan, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import Figure, worst
from coilwright.values.source import ANSWER, SHARED_OUT
from coilwright.values.standing import Standing


@dataclass(frozen=True, slots=True)
class CoilToHaul:
    """One coil of the job and the most it can weigh. key begins the keys of its figures."""

    key: str
    name: str
    mass: Figure
    on_hand: StockCoil | None = None


@dataclass(frozen=True, slots=True)
class Hauled:
    """Weights of coils on the road.

    rack: on the machine's rack. cargo: hauled as cargo, the heaviest there are. aboard: cargo on
    the machine's trailer, beside what is on the rack; None where no cargo is on it. coils: those
    that the cargo is, heaviest first; empty where that is not known.
    """

    rack: Figure | Lack
    cargo: Figure | Lack | None
    aboard: Figure | Lack | None
    coils: tuple[CoilToHaul, ...]


def coils_to_haul(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> tuple[CoilToHaul, ...]:
    """All coils of the job as heavy as they can come, heaviest first."""
    found = [
        CoilToHaul(f"coil.{c.number}", f"Coil {c.number}",
                   ledger.figures[f"coil.{c.number}.heaviest"])
        for c in coils
    ]
    found += [CoilToHaul(c.key, c.name, c.heaviest, c) for c in from_stock]
    return tuple(sorted(found, key=lambda c: -c.mass.value))


def across(ledger: Ledger, coil: CoilToHaul) -> Figure | Lack:
    """The most a coil is across: worked out, or measured on one on hand."""
    if coil.on_hand is None:
        return ledger.figures[f"{coil.key}.largest"]
    return across_on_hand(ledger, coil.on_hand)


def enter_hauled(ledger: Ledger, coils: tuple[CoilToHaul, ...]) -> Hauled:
    """Enter what rides on the rack and what is hauled as cargo."""
    ledger.drawn("haul.coils", "Coils of this job", float(len(coils)), Kind.COUNT,
                 worst(tuple(c.mass for c in coils)), "new ones, and those on hand it uses",
                 SHARED_OUT)
    on_rack = ledger.answer("haul.rack_coils")
    rack = _rack(ledger, coils, on_rack)
    as_cargo = ledger.answer("haul.cargo_coils")
    many = 0 if isinstance(as_cargo, Lack) else int(as_cargo.value)
    if not many:
        return Hauled(rack, None, None, ())
    cargo = _heaviest(ledger, "haul.cargo", "Coils hauled as cargo", coils, 0, many,
                      "haul.cargo_coils", "haul.cargo_coils")
    taken = coils[:many] if isinstance(cargo, Figure) else ()
    carried = ledger.job.haul.cargo_on
    match carried:
        case CargoOn.OTHER:
            return Hauled(rack, cargo, None, taken)
        case None:
            where = Lack("haul.cargo_aboard", "Cargo on the machine's trailer", ("haul.cargo_on",))
            return Hauled(rack, cargo, where, taken)
        case CargoOn.TRAILER:
            return Hauled(rack, cargo, _aboard(ledger, coils, on_rack, many, cargo), taken)
        case _:
            assert_never(carried)


def _rack(
    ledger: Ledger, coils: tuple[CoilToHaul, ...], on_rack: Figure | Lack
) -> Figure | Lack:
    weighed = ledger.answer("haul.rack_mass")
    if isinstance(weighed, Figure):
        return weighed
    key, label = "haul.rack", "Coils on the rack"
    if isinstance(on_rack, Lack):
        return ledger.put(key, label, wound.summed_mass, on_rack)
    many = int(on_rack.value)
    if not many:
        return ledger.drawn(key, label, 0.0, Kind.MASS, on_rack.standing,
                            "no coil rides on the rack", ANSWER)
    return _heaviest(ledger, key, label, coils, 0, many, "haul.rack_mass", "haul.rack_coils")


def _aboard(
    ledger: Ledger, coils: tuple[CoilToHaul, ...], on_rack: Figure | Lack, many: int,
    cargo: Figure | Lack,
) -> Figure | Lack:
    """The cargo beside the rack: the next heaviest coils, where the heaviest are on the rack.

    Where the rack was weighed nobody knows which coils are on it, and where more coils are
    hauled than there are one is in two places: then the cargo is the heaviest there are.
    """
    racked = 0
    if isinstance(on_rack, Figure) and ledger.job.haul.rack_mass is None:
        racked = int(on_rack.value)
    if not racked or racked + many > len(coils):
        return cargo
    return _heaviest(ledger, "haul.cargo_aboard", "Cargo beside the coils on the rack", coils,
                     racked, many, "haul.cargo_coils", "haul.cargo_coils", "haul.rack_coils")


def _heaviest(
    ledger: Ledger, key: str, label: str, coils: tuple[CoilToHaul, ...], after: int, many: int,
    better: str, *picks: str,
) -> Figure | Lack:
    """The `many` heaviest coils after the first `after`.

    better: the answer that would say it where the job has not so many coils.
    """
    if not coils:
        waits = ledger.lacks.get("coil.mass_ordered")
        needs, because = (waits.needs, waits.because) if waits else ((), "there are no coils yet")
        return ledger.lack(key, label, needs, because)
    if after + many > len(coils):
        there = "one coil" if len(coils) == 1 else f"{len(coils)} coils"
        return ledger.lack(key, label, (better,), f"this job has only {there}")
    chosen = [c.mass for c in coils[after:after + many]]
    total = ledger.put(key, label, wound.summed_mass, *chosen, picks=picks)
    assert isinstance(total, Figure)
    # Which coils are the heaviest rests on the weights of all.
    if total.standing is Standing.SURE and worst(tuple(c.mass for c in coils)) != Standing.SURE:
        total = ledger.add(replace(total, standing=Standing.GUESS))
    return total
