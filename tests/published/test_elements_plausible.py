"""`periodictable` 2.1.0: densities of the elements, as a check that ours are plausible.

Flag: published (read), but of pure elements: the tolerance beside each says how far the alloy
or the rolled metal may be off.
"""

from __future__ import annotations

import periodictable
import pytest

from coilwright.calc.coating import COATINGS, GRAM_PER_CM3
from coilwright.calc.metal import METALS


@pytest.mark.parametrize(
    ("metal", "element", "tolerance"),
    [
        ("steel", periodictable.Fe, 0.005),  # 0.2833 against 0.28447: within 0.5 %
        ("copper", periodictable.Cu, 0.01),  # annealed standard copper 8.89, pure 8.96
        ("aluminum", periodictable.Al, 0.01),  # 3004 and 3105 carry manganese and magnesium
        ("zinc", periodictable.Zn, 0.005),
    ],
)
def test_density(metal: str, element: periodictable.core.Element, tolerance: float) -> None:
    assert METALS[metal].density == pytest.approx(
        element.density * GRAM_PER_CM3, rel=tolerance
    )


def test_stainless_lies_by_its_mixture() -> None:
    # 18 % chromium, 8 % nickel, the rest iron, by volume of each: within 3 %, as its atoms are
    # packed closer than those of plain iron
    parts = ((0.18, periodictable.Cr), (0.08, periodictable.Ni), (0.74, periodictable.Fe))
    mixed = 1 / sum(share / element.density for share, element in parts)
    assert METALS["stainless steel"].density == pytest.approx(mixed * GRAM_PER_CM3, rel=0.03)


def test_zinc_coating_is_as_dense_as_zinc() -> None:
    g90 = COATINGS["G90"]
    density = g90.mass / g90.thickness / GRAM_PER_CM3
    assert density == pytest.approx(periodictable.Zn.density, rel=0.005)


def test_aluminum_zinc_coating_lies_by_its_mixture() -> None:
    # 55 % aluminum, 43.4 % zinc, 1.6 % silicon by mass (ASTM A792, from memory): within 3 %,
    # as the alloy is taken to fill the sum of its parts' volumes
    parts = ((0.55, periodictable.Al), (0.434, periodictable.Zn), (0.016, periodictable.Si))
    mixed = 1 / sum(share / element.density for share, element in parts)
    az50 = COATINGS["AZ50"]
    assert az50.mass / az50.thickness / GRAM_PER_CM3 == pytest.approx(mixed, rel=0.03)


def test_expansions_rank_as_the_metals_do() -> None:
    known = ["steel", "copper", "stainless steel", "zinc", "aluminum"]
    ranked = sorted(METALS.values(), key=lambda m: m.expansion)
    assert [m.name for m in ranked if m.name in known] == known
