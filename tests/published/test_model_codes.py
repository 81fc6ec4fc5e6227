"""IBC and IRC: the slope and the metals the program holds a roof to.

IBC 1507.4.2 / IRC R905.10.2, slopes: read only in paraphrases, and from memory (copy).
IBC table 1507.4.3(1): aluminum, copper and AZ50 read in the 2018 edition; zinc and G90 from
memory. 2018 IBC 1507.5.2, metal shingles from 3:12, is read and says why a seam matters.
"""

from __future__ import annotations

import pytest

from coilwright.calc.metal import METALS
from coilwright.job.answers import Value
from coilwright.job.metal import CoatingName, MetalName
from coilwright.plan import plan
from coilwright.plan.roof.checks import LEAST_STANDING_SEAM
from coilwright.values.finding import Level
from coilwright.values.source import Grade
from tests.cases import set_answers, small_gable
from tests.printed import printed


def test_standing_seam_from_a_quarter_in_twelve() -> None:
    # item 3, standing seam: 1/4:12, printed as 2 %
    assert printed("0.25") == LEAST_STANDING_SEAM
    assert printed("2") == LEAST_STANDING_SEAM / 12 * 100


@pytest.mark.parametrize(("pitch", "stops"), [(0.24, True), (0.25, False), (0.26, False)])
def test_a_flatter_roof_is_stopped(pitch: float, stops: bool) -> None:
    found = plan(small_gable(pitch=pitch)).findings
    assert any(f.key == "roof.too_flat" and f.level is Level.STOP for f in found) is stops


def test_thinnest_metals() -> None:
    assert METALS["aluminum"].code_thinnest == printed("0.024")  # ASTM B209, roll-formed
    assert METALS["copper"].code_thinnest == printed("0.0216")  # 16 oz of ASTM B370
    assert METALS["zinc"].code_thinnest == printed("0.027")  # from memory
    assert METALS["steel"].code_thinnest is None
    assert METALS["stainless steel"].code_thinnest is None


@pytest.mark.parametrize(
    ("metal", "thickness", "care"),
    [(MetalName.ALUMINUM, 0.0239, True), (MetalName.ALUMINUM, 0.024, False),
     (MetalName.COPPER, 0.0215, True), (MetalName.COPPER, 0.0216, False),
     (MetalName.ZINC, 0.0269, True), (MetalName.ZINC, 0.027, False),
     (MetalName.STEEL, 0.0149, False)],
)  # fmt: skip
def test_thinner_metal_is_questioned(metal: MetalName, thickness: float, care: bool) -> None:
    job = set_answers(small_gable(), {"metal.metal": metal, "metal.thickness": thickness})
    assert any(f.key == "metal.under_code" for f in plan(job).findings) is care


@pytest.mark.parametrize(
    ("coating", "care"),
    [(CoatingName.AZ50, False), (CoatingName.AZ55, False), (CoatingName.G90, False),
     (CoatingName.G60, True), (CoatingName.NONE, True)],
)  # fmt: skip
def test_lesser_coatings_are_questioned(coating: CoatingName, care: bool) -> None:
    job = set_answers(small_gable(), {"metal.coating": coating})
    assert any(f.key == "metal.thin_coating" for f in plan(job).findings) is care


@pytest.mark.parametrize(
    ("changes", "key", "grade"),
    [({"metal.metal": MetalName.ALUMINUM, "metal.thickness": 0.02}, "metal.under_code",
      Grade.PUBLISHED),
     ({"metal.metal": MetalName.ZINC, "metal.thickness": 0.02}, "metal.under_code", Grade.MEMORY),
     ({"metal.coating": CoatingName.G60}, "metal.thin_coating", Grade.MEMORY)],
)  # fmt: skip
def test_what_is_from_memory_is_not_called_published(
    changes: dict[str, Value | None], key: str, grade: Grade
) -> None:
    """Aluminum and AZ50 were read in the table; zinc and G90 were not."""
    (finding,) = (f for f in plan(set_answers(small_gable(), changes)).findings if f.key == key)
    assert finding.source.grade is grade
