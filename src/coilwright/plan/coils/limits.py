"""What limits a coil, each limit as the longest length it allows, and which one governs."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.calc import coil
from coilwright.calc.metal import is_coated
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.coils import CoilOn
from coilwright.job.metal import ThicknessBasis
from coilwright.plan.ledger import Lack, Ledger, Term, known
from coilwright.plan.order_limits import in_sizes_sold
from coilwright.plan.result import Limit
from coilwright.values.keys import Key

_STATED = (MetalKey.THICKNESS_BASIS,)
_PLACE = (CoilsKey.COIL_ON,)

_AS_ORDERED = "as ordered; what is shipped is held by the order's max weight and max OD"


SIZE_TAKEN = "the size taken of those the supplier sells"


@dataclass(frozen=True, slots=True)
class _Candidate:
    """One thing that may limit a coil, with the longest length it allows or what that lacks."""

    key: str
    name: str
    words: str
    length: Term


def enter_limits(ledger: Ledger) -> tuple[tuple[Limit, ...], Limit | None]:
    """Enter every limit that is known and the longest coil; return them and the governing one.

    The limits of the rack or decoiler must be known; the supplier's and the site's count where
    they are given.
    """
    per_length = ledger.got(Key.STRIP_MASS_PER_LENGTH)
    wrap = _wound_thickness(ledger)
    place = ledger.job.coils.coil_on
    if place is None:
        ledger.lack(Key.COIL_LONGEST, "Longest coil that fits", (CoilsKey.COIL_ON,))
        return (), None
    if not place.is_rack:
        holder = [_by_mass(ledger, "decoiler", "floor decoiler's load",
                           "the load the floor decoiler carries",
                           ledger.answer(MachineKey.DECOILER_LOAD), per_length)]
    else:
        holder = _rack(ledger, per_length)
    candidates = [*holder, _by_diameter(ledger, place, wrap), *_by_others(ledger, per_length)]
    # With one arbor there is no share of the rack among the terms, yet it rests on there being one.
    picks = (*_PLACE, MachineKey.ARBORS) if place.is_rack else _PLACE
    longest = ledger.put(Key.COIL_LONGEST, "Longest coil that fits", coil.longest,
                         *(c.length for c in candidates), picks=picks, note=_AS_ORDERED)
    limits = tuple(
        Limit(c.key, c.name, c.words, length)
        for c in candidates
        if (length := known(c.length)) is not None
    )
    if known(longest) is None:
        return limits, None
    return limits, min(limits, key=lambda limit: limit.length.value)


def _by_mass(
    ledger: Ledger, key: str, name: str, words: str, mass: Term, per_length: Term
) -> _Candidate:
    length = ledger.put(f"limit.{key}", f"Longest coil: {name}", coil.length_of_mass, mass,
                        per_length)
    return _Candidate(key, name, words, length)


def _rack(ledger: Ledger, per_length: Term) -> list[_Candidate]:
    """What one arbor carries and, where there are several, a coil's share of the whole rack."""
    arbor = _by_mass(ledger, "arbor", "one arbor's load", "the load one arbor carries",
                     ledger.answer(MachineKey.ARBOR_LOAD), per_length)
    arbors = ledger.given(MachineKey.ARBORS)
    if arbors is None:
        return [arbor, _Candidate("rack", "", "", ledger.lack(
            Key.LIMIT_RACK, "Longest coil: the rack", (MachineKey.ARBORS,)))]
    if arbors.value <= 1:
        return [arbor]
    share = ledger.put(Key.LIMIT_RACK_MASS, "Share of the rack's load", coil.share_of_rack,
                       ledger.answer(MachineKey.RACK_LOAD), arbors, note="all arbors loaded alike")
    return [arbor, _by_mass(ledger, "rack", "the rack's load, shared",
                            "the load of the whole rack with all arbors loaded", share,
                            per_length)]


def _by_diameter(ledger: Ledger, place: CoilOn, wrap: Term) -> _Candidate:
    """What winds up to the largest outside diameter that rack or decoiler takes."""
    key, label = Key.LIMIT_DIAMETER, "Longest coil: outside diameter"
    largest = ledger.answer(MachineKey.RACK_DIAMETER if place.is_rack
                            else MachineKey.DECOILER_DIAMETER)
    inside = ledger.answer(CoilsKey.INSIDE_DIAMETER)
    most, least = known(largest), known(inside)
    if most is not None and least is not None and most.value <= least.value:
        length: Term = ledger.lack(
            key, label, (),
            "the inside diameter is not smaller than the largest outside diameter",
        )
    else:
        length = ledger.put(key, label, coil.wound_length, largest, inside, wrap, picks=_PLACE)
    return _Candidate("diameter", "the outside diameter",
                      "the largest outside diameter that fits", length)


def _by_others(ledger: Ledger, per_length: Term) -> list[_Candidate]:
    """The heaviest coil of the supplier and of the site, where they are given."""
    # Of the sizes a supplier sells, the award takes the one that makes the roof with least metal.
    name, words = (("the size taken of those sold", SIZE_TAKEN) if in_sizes_sold(ledger.job) else
                   ("the supplier's heaviest", "the heaviest coil the supplier ships"))
    return [
        _by_mass(ledger, key, name, words, mass, per_length)
        for key, name, words, answer in (
            ("supplier", name, words, CoilsKey.SUPPLIER_HEAVIEST),
            ("site", "what the site can lift", "the heaviest coil the site's gear can lift",
             CoilsKey.SITE_LIFT),
        )
        if (mass := ledger.given(answer)) is not None
    ]


def _wound_thickness(ledger: Ledger) -> Term:
    thickness = ledger.answer(MetalKey.THICKNESS)
    allowance = ledger.answer(CoilsKey.WRAP_ALLOWANCE)
    coating = ledger.figures.get(Key.METAL_COATING_THICKNESS)
    metal = ledger.job.metal
    coated = is_coated(metal.metal)
    if metal.thickness_basis is ThicknessBasis.BARE and coated:
        added = coating or Lack(Key.METAL_COATING_THICKNESS, "Coating thickness",
                                (MetalKey.COATING,))
        return ledger.put(Key.COIL_WRAP, "Thickness of one wrap",
                          coil.wound_thickness_over_coating, thickness, added, allowance,
                          picks=(*_STATED, MetalKey.METAL))
    # Of the two answers that would bring the coating in, the one that leaves it out decides.
    picks = _STATED if coated else (MetalKey.METAL,)
    return ledger.put(Key.COIL_WRAP, "Thickness of one wrap", coil.wound_thickness, thickness,
                      allowance, picks=picks)
