"""US government guide specifications (UFGS): coatings, and metals that may not meet.

UFGS 07412: AZ50 only where factory painted, else AZ55 (read). UFGS 07600 paragraph 2.1.1 and
07612N paragraph 3.2: no copper run-off on other metals; aluminum kept from dissimilar metals,
masonry and treated wood (read). Canadian Copper & Brass: copper and aluminum (read).
"""

from __future__ import annotations

import pytest

from coilwright.job.metal import CoatingName, Finish, MetalName, Touching
from coilwright.plan import plan
from coilwright.values.finding import Level
from coilwright.values.source import Grade
from tests.cases import set_answers, small_gable
from tests.rules import for_each


@pytest.mark.parametrize(
    ("coating", "finish", "care"),
    [(CoatingName.AZ50, Finish.BARE, True), (CoatingName.AZ50, Finish.PVDF, False),
     (CoatingName.AZ55, Finish.BARE, False)],
)  # fmt: skip
def test_bare_aluminum_zinc(coating: CoatingName, finish: Finish, care: bool) -> None:
    job = set_answers(small_gable(), {"metal.coating": coating, "metal.finish": finish})
    assert any(f.key == "metal.bare_az50" for f in plan(job).findings) is care


@for_each([(MetalName.ALUMINUM, Touching.COPPER, Level.STOP),
     (MetalName.STEEL, Touching.COPPER, Level.STOP),
     (MetalName.ALUMINUM, Touching.MASONRY, Level.CARE),
     (MetalName.ALUMINUM, Touching.TREATED_WOOD, Level.CARE),
     (MetalName.ALUMINUM, Touching.STEEL, Level.CARE),
     (MetalName.COPPER, Touching.COPPER, None),
     (MetalName.ALUMINUM, Touching.ALUMINUM, None),
     (MetalName.ALUMINUM, Touching.NOTHING, None),
     (MetalName.ZINC, Touching.STEEL, None)])  # fmt: skip
def test_unlike_materials(metal: MetalName, touching: Touching, level: Level | None) -> None:
    job = set_answers(small_gable(), {"metal.metal": metal, "metal.touching": touching})
    levels = [f.level for f in plan(job).findings if f.key == "metal.unlike"]
    assert levels == ([] if level is None else [level])


@pytest.mark.parametrize(
    ("metal", "touching", "grade"),
    [(MetalName.ALUMINUM, Touching.TREATED_WOOD, Grade.PUBLISHED),
     (MetalName.STEEL, Touching.COPPER, Grade.PUBLISHED),
     (MetalName.STEEL, Touching.TREATED_WOOD, Grade.MEMORY),
     (MetalName.COPPER, Touching.STEEL, Grade.MEMORY),
     (MetalName.ZINC, Touching.MASONRY, Grade.MEMORY)],
)  # fmt: skip
def test_only_what_was_read_is_called_published(
    metal: MetalName, touching: Touching, grade: Grade
) -> None:
    job = set_answers(small_gable(), {"metal.metal": metal, "metal.touching": touching})
    (finding,) = (f for f in plan(job).findings if f.key == "metal.unlike")
    assert finding.source.grade is grade
