"""Rules of thumb of the trade, held against what the program computes.

Every value: common practice, no source.
"""

from __future__ import annotations

import pytest

from coilwright.calc.coil import coil_mass, length_of_mass, outside_diameter, wound_length
from coilwright.calc.gauges import GAUGES
from coilwright.calc.metal import METALS, sheet_mass
from coilwright.calc.strip import mass_per_length
from coilwright.job.edit import usual_value
from coilwright.job.metal import MetalName
from coilwright.plan import plan
from coilwright.words import words
from tests.cases import set_answers, small_gable
from tests.printed import printed


def per_length(metal: str, thickness: float, width: float) -> float:
    """Weight by length [lb/in]."""
    return mass_per_length(sheet_mass(METALS[metal].density, thickness), width)


@pytest.mark.parametrize("thickness", [0.0157, 0.0236, 0.0296])
def test_3000_lb_of_24_in_steel_is_about_31_in(thickness: float) -> None:
    length = length_of_mass(3000, per_length("steel", thickness, 24))
    diameter = outside_diameter(20, length, thickness)
    assert diameter == printed("31")
    assert diameter < 32


@pytest.mark.parametrize("thickness", [0.027, 0.032, 0.040])
def test_aluminum_of_that_width_reaches_32_in_near_1150_lb(thickness: float) -> None:
    mass = coil_mass(per_length("aluminum", thickness, 24), wound_length(32, 20, thickness))
    assert mass == pytest.approx(1150, abs=5)


@pytest.mark.parametrize(
    ("inside", "governs", "pounds"),
    [(20, "diameter", "2916"), (16, "arbor", "3000")],
)
def test_21_in_steel_is_diameter_first_or_weight_first(
    inside: float, governs: str, pounds: str
) -> None:
    plans = plan(set_answers(small_gable(), {"coils.inside_diameter": inside}))
    assert plans.governing is not None
    assert plans.governing.key == governs
    mass = coil_mass(
        plans.figures["strip.mass_per_length"].value, plans.figures["coil.longest"].value
    )
    assert mass == printed(pounds)


def test_wide_steel_meets_the_weight_first_and_aluminum_the_diameter() -> None:
    steel = plan(set_answers(small_gable(), {"panel.coverage": 19.0}))
    assert steel.figures["strip.width"].value == 24
    assert steel.governing is not None
    assert steel.governing.key == "arbor"
    for coverage in (12.0, 16.0, 19.0):
        for inside in (16.0, 20.0, 24.0):
            job = set_answers(
                small_gable(),
                {"metal.metal": MetalName.ALUMINUM, "metal.thickness": 0.032,
                 "panel.coverage": coverage, "coils.inside_diameter": inside},
            )  # fmt: skip
            governing = plan(job).governing
            assert governing is not None
            assert governing.key == "diameter"


def test_usual_values() -> None:
    assert (words("panel.take_up").low, words("panel.take_up").high) == ("4 in", "6 in")
    assert usual_value("coils.tolerance") == pytest.approx(0.10)
    assert usual_value("machine.arbor_load") == 3000
    assert usual_value("machine.rack_load") == 6000
    assert usual_value("machine.rack_diameter") == 32
    assert usual_value("machine.decoiler_diameter") == 45
    # a notching unit adds weight: 2,700 lb a coil then
    assert words("machine.arbor_load").low == "2700 lb"
    assert (words("coils.inside_diameter").low, words("coils.inside_diameter").high) == (
        "16 in", "24 in",
    )  # fmt: skip


def test_what_portable_machines_form() -> None:
    # coated or painted steel 28 to 22 ga; aluminum 0.027 to 0.040 in; copper 16 to 20 oz
    steel = METALS["steel"]
    assert steel.usual_thinnest <= GAUGES[28].manufacturers
    assert steel.usual_thickest >= GAUGES[22].galvanized
    assert (METALS["aluminum"].usual_thinnest, METALS["aluminum"].usual_thickest) == (
        0.027, 0.040,
    )  # fmt: skip
    assert (METALS["copper"].usual_thinnest, METALS["copper"].usual_thickest) == (
        0.0216, 0.0270,
    )  # fmt: skip
