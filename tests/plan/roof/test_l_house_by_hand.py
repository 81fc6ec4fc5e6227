"""An L-shaped house with a dormer and a chimney, taken off by hand, to the inch.

The house is invented. All roofs are 9 in 12, so that a length up the slope is its run times 1.25,
and along a hip or valley every inch of eave is 1.25 in up the slope. Walls: main part 48 by 24 ft,
wing 16 ft wide standing out 16 ft at the left end; overhangs 12 in all round. Panels cover 16 in
from the left, get 1 in for both ends, and stop at openings.

By hand, in feet as seen from above, overhangs included: main part 50 by 26, wing 18 wide, 16 from
the main eave to its gable. Runs: 13 ft main, 9 ft wing. Slopes: 13 × 1.25 = 16 ft 3 in (195 in) and
9 × 1.25 = 11 ft 3 in (135 in).
"""

from __future__ import annotations

import dataclasses
import math
from collections import Counter

import pytest

from coilwright.job.edit import give_text
from coilwright.job.job import Job
from coilwright.job.roof import Opening
from coilwright.job.rows import planes as edit_planes
from coilwright.plan import Plan, plan, plane_changes
from coilwright.store.plane_rows import read_rows, write_rows
from tests.cases import small_gable

TYPED = {
    "roof.building": "L with a valley", "roof.length": "48", "roof.width": "24 ft",
    "roof.wing_width": "16'", "roof.wing_projection": "16 ft", "roof.eave_overhang": "12",
    "roof.rake_overhang": "12 in", "roof.pitch": "9/12", "roof.openings": "deduct",
    "panel.start": "left", "panel.coverage": "16", "panel.end_allowance": "1",
    "panel.rounding": "1/4",
}  # fmt: skip
HIP = math.sqrt(2 + 0.75**2)
"""Length of a 9 in 12 hip or valley for each inch of common run: 1.6008 (Griffith, *Carpentry*)."""

# Strip by strip, heights read off at its sides; each is 1 in longer as cut.
BACK = Counter({
    # eave 600, ridge 444, hip at the right. 27 whole strips to 432, the 28th holds the ridge's end.
    # The 19th (288 to 304) is crossed by the chimney, 150 to 182 up: 150 below it and 13 above.
    195 + 1: 28 - 1, 150 + 1: 1, 13 + 1: 1,
    # from 448 on the hip: 152 in of eave left is 190 up, and 20 less each strip; 8 in left: 10.
    191: 1, 171: 1, 151: 1, 131: 1, 111: 1, 91: 1, 71: 1, 51: 1, 31: 1, 11: 1,
})  # fmt: skip
# The 151 of the chimney and the 151 on the hip are one length.
BACK[151] = 2
OUTER = Counter({
    # eave 504; hip up from the left end to the ridge's end at 156, down to the wing's at 204.
    21: 1, 41: 1, 61: 1, 81: 1, 101: 1, 121: 1, 141: 1, 161: 1, 181: 1, 196: 1,
    191: 1, 171: 1, 151: 1,
    # then flat at 135: from the 14th strip to the 32nd.
    136: 19,
})  # fmt: skip
FRONT = Counter({
    # starts 108 left of its eave, where the valley meets the wing ridge, 135 up.
    # Valley down by 20 a strip; the hip up by 20 to the ridge: 40, 80, 120, then 140, 160, 180.
    41: 1, 81: 1, 121: 1, 141: 1, 161: 1, 181: 1,
    # 25 whole ones; the dormer crosses four of them, 40 to 140 up: 40 below it and 55 above.
    196: 25 - 4, 56: 4,
})  # fmt: skip
FRONT[41] += 4
INNER = Counter({
    # eave 192, valley from its right end to 300; 12 whole strips, the 13th starts at the valley.
    136: 13, 116: 1, 96: 1, 76: 1, 56: 1, 36: 1, 16: 1,
})  # fmt: skip
DORMER = Counter({46: 4, 26: 1, 6: 1})
"""Eave 48, ridge 84, 45 up: whole to 48 and the strip after it, then 25 and 5 above the valley."""
DORMER_LEFT = Counter({21: 1, 41: 1, 46: 4})
"""Its mirror image starts at the valley: 20, 40, then whole."""


def house() -> Job:
    """As it is typed: the shape, then the chimney and the dormer on the planes it made."""
    job = small_gable()
    job = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=()))
    for key, text in TYPED.items():
        job, error = give_text(job, key, text)
        assert error == "", (key, error)
    job = plane_changes.to_planes(job)
    front, back, *_ = job.roof.planes
    chimney = Opening(left=288, up=150, width=24, height=32)
    dormer = Opening(left=100, up=40, width=72, height=100)
    job = edit_planes.replace(job, 0, dataclasses.replace(front, openings=(dormer,)))
    job = edit_planes.replace(job, 1, dataclasses.replace(back, openings=(chimney,)))
    typed = "name,shape,eave,top,slope length,offset,pitch\nDormer,trapezoid,4,7,3 ft 9,0,9/12\n"
    job = edit_planes.add(job, *read_rows(typed).good)
    return plane_changes.mirror(edit_planes.duplicate(job, 4), 5)


@pytest.fixture(scope="module")
def done() -> Plan:
    return plan(house())


def lengths(done: Plan, number: int) -> Counter[float]:
    return Counter({g.length: g.count for g in done.planes[number - 1].groups})


@pytest.mark.parametrize(
    ("number", "name", "by_hand"),
    [(1, "Front", FRONT), (2, "Back", BACK), (3, "Outer side", OUTER),
     (4, "Wing inner side", INNER), (5, "Dormer", DORMER), (6, "Dormer", DORMER_LEFT)],
)  # fmt: skip
def test_every_panel_is_there_to_the_inch(
    done: Plan, number: int, name: str, by_hand: Counter[float]
) -> None:
    assert done.planes[number - 1].name == name
    assert lengths(done, number) == by_hand


def test_panels_in_all(done: Plan) -> None:
    whole = FRONT + BACK + OUTER + INNER + DORMER + DORMER_LEFT
    assert done.figures["panels.count"].value == sum(whole.values())
    assert done.figures["panels.length"].value == sum(n * each for each, n in whole.items())


def test_area(done: Plan) -> None:
    """Plan (50 × 26 + 18 × 16) × 1.25, less dormer and chimney, and the dormer's own two."""
    roof = (50 * 26 + 18 * 16) * 1.25 - 72 * 100 / 144 - 24 * 32 / 144
    dormer = 2 * (48 + 84) / 2 * 45 / 144
    assert done.figures["roof.area"].value / 144 == pytest.approx(roof + dormer, rel=1e-12)


@pytest.mark.parametrize(
    ("kind", "inches"),
    [
        ("eave", 600 + 504 + 384 + 192 + 2 * 48),
        ("rake", 195 + 195 + 135 + 135 + 2 * 45),
        ("ridge", 444 + 300 + 84),
        ("hip", (156 + 48) * HIP),
        # the dormer's valleys meet an opening, not a plane's edge, so they count whole
        ("valley", (108 + 36 + 36) * HIP),
        ("wall", 0),
    ],
)
def test_edges(done: Plan, kind: str, inches: float) -> None:
    assert done.figures[f"edges.{kind}"].value == pytest.approx(inches, abs=1e-6)


def test_only_the_dormers_valleys_are_without_a_partner(done: Plan) -> None:
    told = [f for f in done.findings if f.key.endswith(("_alone", "_unlike"))]
    assert [f.key for f in told] == ["roof.valley_alone"]
    assert "1 more has none" in told[0].what


def test_ends_on_the_hip_are_cut_at_its_angle(done: Plan) -> None:
    """1.25 in up for each inch along: atan 1.25 = 51.3°."""
    rows = {r.length: (r.low.words, r.high.words) for r in done.planes[1].panel_list}
    assert rows[191.0] == ("square", "51.3° falling right")
    # the strip with the ridge's end in it ends on both
    assert ("square", "shaped") in {
        (r.low.words, r.high.words) for r in done.planes[1].panel_list if r.length == 196
    }


def test_as_a_table_and_back_it_is_the_same_house(done: Plan) -> None:
    rows = read_rows(write_rows(done.job.roof.planes))
    assert rows.good == done.job.roof.planes
