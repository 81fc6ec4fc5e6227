"""What limits a coil, each limit as the longest length it allows, and which one governs."""

from __future__ import annotations

from coilwright.calc import coil
from coilwright.calc.metal import is_coated
from coilwright.job.metal import ThicknessBasis
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.result import Limit
from coilwright.values.figure import Figure

_STATED = ("metal.thickness_basis",)
_PLACE = ("coils.coil_on",)


def enter_limits(ledger: Ledger) -> tuple[tuple[Limit, ...], Limit | None]:
    """Enter every limit that is known and the longest coil; return them and the governing one.

    The limits of the rack or decoiler must be known; the supplier's and the site's count where
    they are given.
    """
    per_length = ledger.got("strip.mass_per_length")
    wrap = _wound_thickness(ledger)
    made: list[tuple[str, str, str, Figure | Lack]] = []

    def by_mass(key: str, name: str, words: str, mass: Figure | Lack) -> None:
        length = ledger.put(f"limit.{key}", f"Longest coil: {name}", coil.length_of_mass, mass,
                            per_length)
        made.append((key, name, words, length))

    on = ledger.job.coils.coil_on
    if on is None:
        ledger.lack("coil.longest", "Longest coil", ("coils.coil_on",))
        return (), None
    if not on.is_rack:
        by_mass("decoiler", "floor decoiler's load", "the load the floor decoiler carries",
                ledger.answer("machine.decoiler_load"))
        largest = ledger.answer("machine.decoiler_diameter")
    else:
        by_mass("arbor", "one arbor's load", "the load one arbor carries",
                ledger.answer("machine.arbor_load"))
        arbors = ledger.answer("machine.arbors")
        if isinstance(arbors, Figure) and arbors.value > 1:
            share = ledger.put("limit.rack.mass", "Share of the rack's load", coil.share_of_rack,
                               ledger.answer("machine.rack_load"), arbors,
                               note="all arbors loaded alike")
            by_mass("rack", "the rack's load, shared",
                    "the load the whole rack carries, all arbors loaded", share)
        elif isinstance(arbors, Lack):
            made.append(("rack", "", "", ledger.lack("limit.rack", "Longest coil: the rack",
                                                     arbors.needs)))
        largest = ledger.answer("machine.rack_diameter")
    inside = ledger.answer("coils.inside_diameter")
    if isinstance(largest, Figure) and isinstance(inside, Figure) and largest.value <= inside.value:
        fit: Figure | Lack = ledger.lack(
            "limit.diameter", "Longest coil: outside diameter", (),
            "the inside diameter is not smaller than the largest outside diameter",
        )
    else:
        fit = ledger.put("limit.diameter", "Longest coil: outside diameter",
                         coil.wound_length, largest, inside, wrap, picks=_PLACE)
    made.append(("diameter", "the outside diameter",
                 "the largest outside diameter that fits", fit))
    for key, name, words, answer in (
        ("supplier", "the supplier's heaviest", "the heaviest coil the supplier ships",
         "coils.supplier_heaviest"),
        ("site", "what the site can lift", "the heaviest coil the site's gear can lift",
         "coils.site_lift"),
    ):
        mass = ledger.answer(answer)
        if isinstance(mass, Figure):
            by_mass(key, name, words, mass)
    # With one arbor there is no share of the rack among the terms, yet it rests on there being one.
    picks = (*_PLACE, "machine.arbors") if on.is_rack else _PLACE
    longest = ledger.put("coil.longest", "Longest coil", coil.longest, *(m[3] for m in made),
                         picks=picks)
    limits = tuple(
        Limit(key, name, words, length)
        for key, name, words, length in made
        if isinstance(length, Figure)
    )
    if isinstance(longest, Lack):
        return limits, None
    return limits, min(limits, key=lambda limit: limit.length.value)


def _wound_thickness(ledger: Ledger) -> Figure | Lack:
    thickness = ledger.answer("metal.thickness")
    allowance = ledger.answer("coils.wrap_allowance")
    coating = ledger.figures.get("metal.coating_thickness")
    metal = ledger.job.metal
    coated = is_coated(metal.metal)
    if metal.thickness_basis is ThicknessBasis.BARE and coated:
        added = coating or Lack("metal.coating_thickness", "Coating thickness",
                                ("metal.coating",))
        return ledger.put("coil.wrap", "Thickness of one wrap",
                          coil.wound_thickness_over_coating, thickness, added, allowance,
                          picks=(*_STATED, "metal.metal"))
    # Of the two answers that would bring the coating in, the one that leaves it out decides.
    picks = _STATED if coated else ("metal.metal",)
    return ledger.put("coil.wrap", "Thickness of one wrap", coil.wound_thickness, thickness,
                      allowance, picks=picks)
