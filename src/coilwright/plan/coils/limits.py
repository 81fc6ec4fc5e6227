"""What limits a coil, each limit as the longest length it allows, and which one governs."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.calc import coil
from coilwright.calc.metal import is_coated
from coilwright.job.coils import CoilOn
from coilwright.job.metal import ThicknessBasis
from coilwright.plan.ledger import Lack, Ledger, Term, known
from coilwright.plan.result import Limit

_STATED = ("metal.thickness_basis",)
_PLACE = ("coils.coil_on",)


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
    per_length = ledger.got("strip.mass_per_length")
    wrap = _wound_thickness(ledger)
    place = ledger.job.coils.coil_on
    if place is None:
        ledger.lack("coil.longest", "Longest coil", ("coils.coil_on",))
        return (), None
    if not place.is_rack:
        holder = [_by_mass(ledger, "decoiler", "floor decoiler's load",
                           "the load the floor decoiler carries",
                           ledger.answer("machine.decoiler_load"), per_length)]
    else:
        holder = _rack(ledger, per_length)
    candidates = [*holder, _by_diameter(ledger, place, wrap), *_by_others(ledger, per_length)]
    # With one arbor there is no share of the rack among the terms, yet it rests on there being one.
    picks = (*_PLACE, "machine.arbors") if place.is_rack else _PLACE
    longest = ledger.put("coil.longest", "Longest coil", coil.longest,
                         *(c.length for c in candidates), picks=picks)
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
                     ledger.answer("machine.arbor_load"), per_length)
    arbors = ledger.given("machine.arbors")
    if arbors is None:
        return [arbor, _Candidate("rack", "", "", ledger.lack(
            "limit.rack", "Longest coil: the rack", ("machine.arbors",)))]
    if arbors.value <= 1:
        return [arbor]
    share = ledger.put("limit.rack.mass", "Share of the rack's load", coil.share_of_rack,
                       ledger.answer("machine.rack_load"), arbors, note="all arbors loaded alike")
    return [arbor, _by_mass(ledger, "rack", "the rack's load, shared",
                            "the load the whole rack carries, all arbors loaded", share,
                            per_length)]


def _by_diameter(ledger: Ledger, place: CoilOn, wrap: Term) -> _Candidate:
    """What winds up to the largest outside diameter that rack or decoiler takes."""
    key, label = "limit.diameter", "Longest coil: outside diameter"
    largest = ledger.answer("machine.rack_diameter" if place.is_rack
                            else "machine.decoiler_diameter")
    inside = ledger.answer("coils.inside_diameter")
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
    return [
        _by_mass(ledger, key, name, words, mass, per_length)
        for key, name, words, answer in (
            ("supplier", "the supplier's heaviest", "the heaviest coil the supplier ships",
             "coils.supplier_heaviest"),
            ("site", "what the site can lift", "the heaviest coil the site's gear can lift",
             "coils.site_lift"),
        )
        if (mass := ledger.given(answer)) is not None
    ]


def _wound_thickness(ledger: Ledger) -> Term:
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
