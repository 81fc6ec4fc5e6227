"""*Professional Roofing*, October 2002: panels that only shed water are used from 3:12 (14°).

Flag: published (read).
"""

from __future__ import annotations

import pytest

from coilwright.choices import Seam
from coilwright.plan import plan
from coilwright.plan.checks.roof import SHEDDING
from coilwright.units.pitches import angle_from_rise
from tests.cases import set_answers, small_gable
from tests.printed import printed


def test_three_in_twelve_is_14_degrees() -> None:
    assert SHEDDING == 3
    assert angle_from_rise(SHEDDING) == printed("14")


@pytest.mark.parametrize(
    ("seam", "pitch", "care"),
    [(Seam.SNAP_LOCK, 2.9, True), (Seam.SNAP_LOCK, 3.0, False), (Seam.DOUBLE_LOCK, 2.9, False)],
)  # fmt: skip
def test_a_snap_lock_seam_on_a_low_slope(seam: Seam, pitch: float, care: bool) -> None:
    job = set_answers(small_gable(pitch=pitch), {"panel.seam": seam})
    assert any(f.key == "roof.snap_lock_flat" for f in plan(job).findings) is care
