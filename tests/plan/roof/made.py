"""Buildings of every shape for the roof's tests, and panels by shapely to hold them to."""

from __future__ import annotations

import math

import shapely
from hypothesis import strategies as st

from coilwright.calc.roof.layout import THINNEST_PANEL
from coilwright.calc.roof.outline import noise
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.job import Job
from coilwright.job.roof import Building, WingEnd
from coilwright.plan.result import PlanePlan
from tests.cases import building, set_answers

SHAPES = tuple(shape for shape in Building if shape is not Building.PLANES)
WINGED = (Building.ELL, Building.GABLED_ELL, Building.CROSS)
AT_END = (Building.ELL, Building.GABLED_ELL)
"""Shapes with a wing at one end or the other."""
PITCHES = st.sampled_from([0.5, 2.0, 4.0, 5.0, 6.0, 8.0, 9.0, 12.0, 17.3])


@st.composite
def buildings(draw: st.DrawFn, shapes: tuple[Building, ...] = SHAPES) -> Job:
    """A building that can be, with measures to 1/8 in as a tape gives them."""

    def size(low: float, high: float) -> float:
        return draw(st.integers(math.ceil(low * 8), math.floor(high * 8))) / 8

    shape = draw(st.sampled_from(shapes))
    eave, rake = size(0, 30), size(0, 24)
    width = size(120, 480)
    measures = {
        "eave_overhang": eave, "rake_overhang": rake, "width": width, "pitch": draw(PITCHES),
        "length": size(120, 900),
    }  # fmt: skip
    if shape is Building.PORCH:
        measures |= {"porch_depth": size(48, 144), "porch_pitch": draw(PITCHES)}
    elif shape is Building.GAMBREL:
        measures |= {"lower_run": size(12, width / 2 - 12), "lower_pitch": measures["pitch"] + 6}
    elif shape in WINGED:
        wing = draw(st.sampled_from([width, 0.0])) or size(60, width)
        measures |= {"wing_width": wing, "wing_projection": size(max(12, eave - rake + 1), 400)}
        if shape is Building.ELL:
            measures["length"] = size(max(wing + 2 * eave, width / 2 + eave) + 1, 1200)
        elif shape is Building.GABLED_ELL:
            # Overhangs are often alike, and then the outer valley begins in the corner.
            rake = draw(st.sampled_from([rake, eave]))
            measures["rake_overhang"] = rake
            measures["length"] = size(wing + max(0.0, eave - rake), wing + 400)
        else:
            first = max(0.0, eave - rake)
            left = size(first, first + 300)
            measures["wing_left"] = left
            measures["length"] = size(left + wing + max(0.0, eave - rake), left + wing + 400)
    ends = {"roof.wing_end": draw(st.sampled_from(WingEnd))} if shape in AT_END else {}
    starts = [s for s in PanelStart if s is not PanelStart.OFFSET]
    return set_answers(
        building(shape, **measures),
        {**ends, "panel.start": draw(st.sampled_from(starts)),
         "panel.coverage": draw(st.sampled_from([12.0, 16.0, 16.5, 19.75]))},
    )  # fmt: skip


def pieces(plane: PlanePlan, coverage: float) -> list[tuple[float, float, float]]:
    """Foot, top and area of each panel by its definition: the outline cut by boxes, by shapely."""
    assert plane.start is not None
    outline = shapely.Polygon(plane.outline)
    _, low, right, high = outline.bounds
    found = []
    # Exactly 1/16 in counts as a panel, whatever the last digits; the least-metal start may leave
    # a strip just under it.
    least = THINNEST_PANEL - noise(plane.outline)
    x = plane.start
    while x < right:
        box = shapely.box(x, low - 1, x + coverage, high + 1)
        for piece in shapely.get_parts(outline.intersection(box)):
            x0, y0, x1, y1 = piece.bounds
            if piece.geom_type == "Polygon" and x1 - x0 >= least:
                found.append((y0, y1, piece.area))
        x += coverage
    return sorted(found)


def plan_area(job: Job) -> dict[str, float]:
    """Area seen from above [in²] by the pitch it has: `main`, and `other` for a second pitch.

    Written down from the plan alone: walls, and overhangs outside them.
    """
    roof = job.roof
    assert roof.length is not None
    assert roof.width is not None
    eave, rake = roof.eave_overhang or 0.0, roof.rake_overhang or 0.0
    long, wide = roof.length + 2 * rake, roof.width + 2 * eave
    if roof.building is Building.HIP:
        return {"main": (roof.length + 2 * eave) * wide, "other": 0.0}
    if roof.building is Building.PORCH:
        assert roof.porch_depth is not None
        return {"main": long * wide, "other": long * (roof.porch_depth + eave)}
    if roof.building is Building.GAMBREL:
        assert roof.lower_run is not None
        low = 2 * long * (roof.lower_run + eave)
        return {"main": long * wide - low, "other": low}
    if roof.building in WINGED:
        assert roof.wing_width is not None
        assert roof.wing_projection is not None
        ends = eave + rake if roof.building is Building.ELL else 2 * rake
        out = roof.wing_projection + rake - eave
        main = (roof.length + ends) * wide + out * (roof.wing_width + 2 * eave)
        if roof.building is Building.GABLED_ELL:
            # The wing's outer eave stands out past the main part's rake, as far as that begins.
            main += max(0.0, eave - rake) ** 2
        return {"main": main, "other": 0.0}
    return {"main": long * wide, "other": 0.0}
