"""*Professional Roofing*, October 2002: which panels are used on which slope.

Panels that only shed water: from 3:12 (14°), on a deck. Panels that keep water out: from 1/2:12
(2.5°); these may span.

Flag: published (read).
"""

from __future__ import annotations

import pytest

from coilwright.job.panel import Deck, Seam
from coilwright.plan import plan
from coilwright.plan.roof.checks import BARRIER, SHEDDING
from coilwright.units.pitches import angle_from_rise
from tests.cases import set_answers, small_gable
from tests.printed import printed


def test_three_in_twelve_is_14_degrees() -> None:
    assert SHEDDING == 3
    assert angle_from_rise(SHEDDING) == printed("14")


def test_half_in_twelve_is_2_5_degrees() -> None:
    """Printed to the half degree; 2.386° is nearer to 2.5° than to 2°."""
    assert BARRIER == 0.5
    assert round(angle_from_rise(BARRIER) * 2) / 2 == 2.5


@pytest.mark.parametrize(("pitch", "care"), [(0.25, True), (0.49, True), (0.5, False)])
def test_a_panel_that_keeps_water_out_on_next_to_no_slope(pitch: float, care: bool) -> None:
    findings = plan(small_gable(pitch=pitch)).findings
    assert any(f.key == "roof.double_lock_flat" for f in findings) is care


@pytest.mark.parametrize(
    ("seam", "deck", "care"),
    [
        (Seam.SNAP_LOCK, Deck.OPEN, True),
        (Seam.SNAP_LOCK, Deck.PLYWOOD, False),
        (Seam.DOUBLE_LOCK, Deck.OPEN, False),
    ],
)
def test_a_panel_that_only_sheds_water_lies_on_a_deck(
    seam: Seam, deck: Deck, care: bool
) -> None:
    job = set_answers(small_gable(), {"panel.seam": seam, "panel.deck": deck})
    assert any(f.key == "panel.open_framing" for f in plan(job).findings) is care


@pytest.mark.parametrize(
    ("seam", "pitch", "care"),
    [(Seam.SNAP_LOCK, 2.9, True), (Seam.SNAP_LOCK, 3.0, False), (Seam.DOUBLE_LOCK, 2.9, False)],
)  # fmt: skip
def test_a_snap_lock_seam_on_a_low_slope(seam: Seam, pitch: float, care: bool) -> None:
    job = set_answers(small_gable(pitch=pitch), {"panel.seam": seam})
    assert any(f.key == "roof.snap_lock_flat" for f in plan(job).findings) is care
