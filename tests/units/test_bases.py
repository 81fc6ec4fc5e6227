"""What prices are for: every basis has the size pint gives it, odd names too."""

from __future__ import annotations

from fractions import Fraction

import pytest

from coilwright.units import UnreadableQuantity, registry
from coilwright.units.bases import BASES, Basis, Per, basis_named
from tests.rules import for_each

IN_PINT = {
    "lb": "pound", "kg": "kilogram", "cwt": "short_hundredweight", "short ton": "short_ton",
    "tonne": "metric_ton", "ft": "foot", "m": "meter", "sq ft": "foot ** 2", "m²": "meter ** 2",
    "square": "square", "roof square": "square",
}  # fmt: skip
CANONICAL = {Per.WEIGHT: "pound", Per.LENGTH: "inch", Per.AREA: "inch ** 2",
             Per.ROOF_AREA: "inch ** 2"}


@for_each(IN_PINT.items())
def test_the_size_is_that_of_pint(name: str, unit: str) -> None:
    basis = BASES[name]
    there = registry().Quantity(1.0, unit).to(CANONICAL[basis.per]).magnitude
    assert float(basis.size) == pytest.approx(there, rel=1e-9)


def test_every_basis_with_a_size_is_held_to_pint() -> None:
    sized = {name for name, basis in BASES.items() if basis.per in CANONICAL}
    assert sized == set(IN_PINT)


@for_each([("Lbs.", "lb"), ("hundredweight", "cwt"), ("lin ft", "ft"), ("sq. ft.", "sq ft"),
           ("m2", "m²"), ("SQ", "square"), ("each", "coil"), ("skid", "coil"), ("flat", "lump"),
           ("miles", "mile"),
           ("square of flat coil", "square"), ("square of roof", "roof square")])
def test_as_people_write_them(typed: str, name: str) -> None:
    assert basis_named(typed) is BASES[name]


@for_each([("long ton", Per.WEIGHT, 2240), ("stone", Per.WEIGHT, 14), ("yard", Per.LENGTH, 36)])
def test_what_is_not_ours_is_looked_up(typed: str, per: Per, size: int) -> None:
    assert basis_named(typed) == Basis(typed, per, Fraction(size))


@for_each(["volt", "ton", "pound + pound", "__import__", "hour", "", "square root of pound"])
def test_what_is_no_basis_is_refused(typed: str) -> None:
    with pytest.raises(UnreadableQuantity):
        basis_named(typed)
