"""Loads held to the rating that carries them, and which coils ride where on the road."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import assert_never

from coilwright.calc import coil as wound
from coilwright.calc import haul, lifting, tie_down
from coilwright.job.answers.haul import HaulKey
from coilwright.job.choices import MetalName
from coilwright.job.haul import CargoOn
from coilwright.job.receiving import came_for
from coilwright.plan.coils.from_stock import across_on_hand
from coilwright.plan.haul.came import (
    came_at,
    counted_as,
    each_came_at,
    known_of_several,
    weights_there,
)
from coilwright.plan.ledger import Lack, Lacking, Ledger, Term, known, missing
from coilwright.plan.result import CoilPlan, LoadLine, Plan, StockCoil
from coilwright.units import Kind, System
from coilwright.values.figure import Figure, compute, worst
from coilwright.values.keys import (
    Key,
    hauled_key,
    part_of,
    row_key,
)
from coilwright.values.rounding import Rounding
from coilwright.values.source import ANSWER, SHARED_OUT
from coilwright.values.standing import Standing
from coilwright.words.counting import counted

LOADS_KEPT_BACK = "Which loads are over their ratings is kept back until the practice is handed in"
"""Said where loads would stand beside their ratings; what each comes to is worked out as ever."""


def load_line(
    ledger: Ledger, key: str, name: str, place: str, load: Term,
    rating: Term, *answers: str, at_least: Figure | None = None,
    at_most: Figure | None = None, weight: Figure | None = None,
) -> LoadLine:
    """The line, and its margin entered as `key`.margin where load and rating are both known.

    at_least: the part of the load that is known; where that alone is over the rating, it stands
    for the load, and nothing that is missing can make it less. at_most: the most the rating can
    be; where the load is over even that, it stands for the rating. weight: what is known of the
    weight that is carried, if it is not at_least.
    """
    needs = Lacking(missing((load, rating))).needs
    carried, carries = known(load), known(rating)
    part = carried or at_least
    if (
        carries is None and at_most is not None and part is not None
        and part.value > at_most.value * (1 + 1e-9)
    ):
        carries = at_most
    if (
        carried is None and at_least is not None and carries is not None
        and at_least.value > carries.value * (1 + 1e-9)
    ):
        carried = at_least
    margin = None
    if carried is not None and carries is not None:
        counted_out = carried.kind is Kind.COUNT
        formula = tie_down.ties_to_spare if counted_out else haul.margin
        margin = ledger.put(part_of(key, "margin"), f"{name}: margin", formula, carries, carried,
                            rounding=None if counted_out else Rounding.REST)
    shown = None if carried is not None else weight or at_least
    return LoadLine(key, name, place, carried, carries, margin, needs, answers, shown)


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

    rack: Term
    cargo: Term | None
    aboard: Term | None
    coils: tuple[CoilToHaul, ...]


def coils_to_haul(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> tuple[CoilToHaul, ...]:
    """All coils of the job as heavy as they can come, heaviest first; each that came, where one
    came as several."""
    found = []
    for c in coils:
        key, name = row_key("coil", c.number), f"Coil {c.number}"
        each = each_came_at(ledger.job, c)
        found += [CoilToHaul(key, name, ledger.drawn(
            hauled_key(row_key("arrived", number)), f"{name}: weight of one it came as", weight,
            Kind.MASS, Standing.SURE, source=ANSWER)) for number, weight in each]
        if not each:
            mass, least = heaviest_new_coil(ledger, c), known_of_several(ledger.job, c)
            if least > mass.value:
                first, *_ = came_for(ledger.job.arrived)[c.number]
                mass = ledger.drawn(hauled_key(row_key("arrived", first)),
                                    f"{name}: weight of what came of it, as far as known", least,
                                    Kind.MASS, Standing.SURE, source=ANSWER)
            found.append(CoilToHaul(key, name, mass))
    found += [CoilToHaul(c.key, c.name, at_densest(ledger, c.key, c.name, c.heaviest), c)
              for c in from_stock]
    return tuple(sorted(found, key=lambda c: -c.mass.value))


def densest(ledger: Ledger) -> tuple[Figure, Figure] | None:
    """The densest metal of the job's kind and the density counted with, where they differ."""
    have = known(ledger.got(Key.METAL_DENSITY))
    if ledger.job.metal.metal is not MetalName.COPPER or have is None:
        return None
    heavy = ledger.add(Figure(Key.HAUL_DENSEST, "Density of the heaviest copper",
                              lifting.COPPER_DENSEST, Kind.DENSITY, lifting.DENSEST,
                              have.standing))
    return (heavy, have) if heavy.value > have.value else None


@dataclass(frozen=True, slots=True)
class OnHandToHaul:
    """The coils on hand that a job uses, and what of them the loads of the road count.

    mass: the most all of them weigh. there: coils of the job; aboard: how many of those ride on the
    rack or as cargo, None where the rack was weighed and nobody counted them.
    """

    count: int
    mass: Figure
    there: int
    aboard: int | None

    def text(self, system: System) -> str:
        """What is known of how they get to the site, in a sentence."""
        are = "is" if self.count == 1 else "are"
        said = f"{counted(self.count, 'coil')} on hand, {self.mass.text(system)} at most, {are} "
        if self.aboard is None:
            return f"{said}in these loads only if on the rack when it was weighed."
        if not self.aboard:
            they = "it gets" if self.count == 1 else "they get"
            return f"{said}in no load of the road: plan how {they} to the site."
        if self.aboard >= self.there:
            return f"{said}counted in the loads of the road."
        return (f"{said}among the {self.there} coils of this job; the loads of the road are for "
                f"the {self.aboard} heaviest of them.")


def on_hand_to_haul(plan: Plan) -> OnHandToHaul | None:
    """The coils on hand that are used, for the road; None where there is none."""
    used, haul_answers = plan.from_stock, plan.job.haul
    if not used:
        return None
    masses = (plan.figures.get(hauled_key(coil.key), coil.heaviest) for coil in used)
    mass = compute(Key.HAUL_ON_HAND, "Coils on hand, at most", wound.summed_mass, *masses,
                   rounding=Rounding.SUM)
    racked, cargo = haul_answers.rack_coils, haul_answers.cargo_coils or 0
    weighed = haul_answers.weighed_on_rack is not None and racked is None
    riding = plan_riding(plan)
    return OnHandToHaul(len(used), mass, sum(map(len, riding)),
                        None if weighed else sum(map(len, riding[:(racked or 0) + cargo])))


def plan_riding(plan: Plan) -> tuple[tuple[float, ...], ...]:
    """What each coil weighs that is counted on the road [lb], heaviest first: each that one of the
    order came as, where it counts as that."""
    return counted_as(plan.job, (
        *(weights_there(plan.figures, plan.job, coil) for coil in plan.coils),
        *((plan.figures.get(hauled_key(coil.key), coil.heaviest).value,)
          for coil in plan.from_stock)), float)


def at_densest(ledger: Ledger, key: str, name: str, mass: Figure) -> Figure:
    """The weight to lift and haul: an order may be light by its table, a load must not be."""
    both = densest(ledger)
    if both is None:
        return mass
    return ledger.put(hauled_key(key), f"{name}: weight at most, of the heaviest copper",
                      lifting.at_densest, mass, *both)


def heaviest_new_coil(ledger: Ledger, coil: CoilPlan) -> Figure:
    """The most a new coil can weigh when it is lifted or hauled."""
    name, key = f"Coil {coil.number}", row_key("coil", coil.number)
    most = at_densest(ledger, key, name, ledger.figures[part_of(key, "heaviest")])
    came = came_at(ledger.job, coil)
    if each_came_at(ledger.job, coil):
        return ledger.drawn(hauled_key(key), f"{name}: weight of the heaviest it came as", came,
                            Kind.MASS, Standing.SURE, source=ANSWER)
    if came <= most.value:
        return most
    return ledger.drawn(hauled_key(key), f"{name}: weight as it came", came, Kind.MASS,
                        Standing.SURE, source=ANSWER)


def across(ledger: Ledger, coil: CoilToHaul) -> Term:
    """The most a coil is across: worked out, or measured on one on hand."""
    if coil.on_hand is None:
        return ledger.figures[part_of(coil.key, "largest")]
    return across_on_hand(ledger, coil.on_hand)


_Riding = tuple[tuple[CoilToHaul, ...], ...]
"""What each coil is that is counted on the road, heaviest first."""


def enter_hauled(ledger: Ledger, coils: tuple[CoilToHaul, ...]) -> Hauled:
    """Enter what rides on the rack and what is hauled as cargo."""
    by_key: dict[str, tuple[CoilToHaul, ...]] = {}
    for coil in coils:
        by_key[coil.key] = (*by_key.get(coil.key, ()), coil)
    riding = counted_as(ledger.job, by_key.values(), lambda coil: coil.mass.value)
    ledger.drawn(Key.HAUL_COILS, "Coils of this job", float(len(coils)), Kind.COUNT,
                 worst(tuple(c.mass for c in coils)), "new ones, and those on hand it uses",
                 SHARED_OUT)
    on_rack = ledger.answer(HaulKey.RACK_COILS)
    rack = _rack(ledger, riding, on_rack)
    as_cargo = ledger.given(HaulKey.CARGO_COILS)
    many = 0 if as_cargo is None else int(as_cargo.value)
    if not many:
        return Hauled(rack, None, None, ())
    cargo = _heaviest(ledger, Key.HAUL_CARGO, "Coils hauled as cargo", riding, 0, many,
                      HaulKey.CARGO_COILS, HaulKey.CARGO_COILS)
    taken = () if known(cargo) is None else tuple(
        coil for coils in riding[:many] for coil in coils)
    carried = ledger.job.haul.cargo_on
    match carried:
        case CargoOn.OTHER:
            return Hauled(rack, cargo, None, taken)
        case None:
            where = Lack(
                Key.HAUL_CARGO_ABOARD, "Cargo on the machine's trailer", (HaulKey.CARGO_ON,)
            )
            return Hauled(rack, cargo, where, taken)
        case CargoOn.TRAILER:
            return Hauled(rack, cargo, _aboard(ledger, riding, on_rack, many, cargo), taken)
        case _:
            assert_never(carried)


def _rack(
    ledger: Ledger, riding: _Riding, on_rack: Term
) -> Term:
    weighed = None if ledger.job.haul.weighed_on_rack is None else ledger.given(HaulKey.RACK_MASS)
    key, label = Key.HAUL_RACK, "Coils on the rack"
    count = known(on_rack)
    if weighed is not None:
        if count is None or not 0 < int(count.value) <= len(riding):
            return weighed
        summed = _heaviest(ledger, "haul.rack_worked", f"{label}, worked out", riding, 0,
                           int(count.value), HaulKey.RACK_MASS, HaulKey.RACK_COILS)
        return ledger.put(key, f"{label}, the worse of scale and sum", haul.worse, summed, weighed)
    if count is None:
        return ledger.put(key, label, wound.summed_mass, on_rack)
    if not int(count.value):
        return ledger.drawn(key, label, 0.0, Kind.MASS, count.standing,
                            "no coil rides on the rack", ANSWER)
    return _heaviest(ledger, key, label, riding, 0, int(count.value), HaulKey.RACK_MASS,
                     HaulKey.RACK_COILS)


def _aboard(
    ledger: Ledger, riding: _Riding, on_rack: Term, many: int, cargo: Term,
) -> Term:
    """The cargo beside the rack: the next heaviest coils, where the heaviest are on the rack.

    Where the rack was weighed nobody knows which coils are on it, and where more coils are
    hauled than there are one is in two places: then the cargo is the heaviest there are.
    """
    count = known(on_rack) if ledger.job.haul.weighed_on_rack is None else None
    racked = 0 if count is None else int(count.value)
    if not racked or racked + many > len(riding):
        return cargo
    return _heaviest(ledger, Key.HAUL_CARGO_ABOARD, "Cargo beside the coils on the rack", riding,
                     racked, many, HaulKey.CARGO_COILS, HaulKey.CARGO_COILS, HaulKey.RACK_COILS)


def _heaviest(
    ledger: Ledger, key: str, label: str, riding: _Riding, after: int, many: int,
    better: str, *picks: str,
) -> Term:
    """The `many` heaviest coils after the first `after`.

    better: the answer that would say it where the job has not so many coils.
    """
    if not riding:
        waits = ledger.lacks.get(Key.COIL_MASS_ORDERED)
        needs, because = (waits.needs, waits.because) if waits else ((), "there are no coils yet")
        return ledger.lack(key, label, needs, because)
    if after + many > len(riding):
        there = "one coil" if len(riding) == 1 else f"{len(riding)} coils"
        return ledger.lack(key, label, (better,), f"this job has only {there}")
    chosen = [c.mass for coils in riding[after:after + many] for c in coils]
    total = ledger.put(key, label, wound.summed_mass, *chosen, picks=picks,
                       rounding=Rounding.SUM)
    # Which coils are the heaviest rests on the weights of all.
    all_masses = tuple(c.mass for coils in riding for c in coils)
    if total.standing is Standing.SURE and worst(all_masses) != Standing.SURE:
        total = ledger.add(replace(total, standing=Standing.GUESS))
    return total
