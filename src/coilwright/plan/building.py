"""Planes that a building shape makes, from plan length, width, overhangs and pitch."""

from __future__ import annotations

from coilwright.calc.roof import building, slope
from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.outline import OutlineError
from coilwright.job.roof import Building
from coilwright.plan.building_faults import building_faults, cannot_be
from coilwright.plan.building_pitch import building_pitch
from coilwright.plan.drawn import DrawnPlane
from coilwright.plan.faces import Faces
from coilwright.plan.ledger import Ledger, Term
from coilwright.plan.wings import draw_cross, draw_ell
from coilwright.values.finding import Finding

PLANES_OF: dict[Building | None, int] = {
    Building.SHED: 1, Building.GABLE: 2, Building.HIP: 4, Building.PORCH: 3, Building.ELL: 4,
    Building.CROSS: 5, Building.GAMBREL: 4,
}
"""How many planes each building shape makes, at least."""
_TOP, _BOTTOM = 3, 1
"""The edges of a rectangle, by the corner they start at."""


def draw_building(ledger: Ledger) -> tuple[list[DrawnPlane], list[Finding]]:
    """The planes of the building shape, and a stop for measures that make no such building.

    While a measure is missing or wrong there are no planes, and `building.area` says what it
    lacks.
    """
    shape = ledger.job.roof.building
    if shape in (None, Building.PLANES):
        if shape is None and not ledger.job.roof.planes:
            ledger.lack("roof.area", "Roof area", ("roof.building",))
        return [], []
    pitch = building_pitch(ledger)
    factor = ledger.put("roof.slope_factor", "Slope factor", slope.slope_factor, pitch)
    faces = Faces(ledger, pitch, factor)
    wrong = building_faults(ledger)
    if wrong:
        ledger.lack("building.area", "Building: area", wrong[0].answers, wrong[0].what)
        return [], wrong
    _DRAW[shape](faces)
    try:
        return faces.draw(), []
    except OutlineError as error:
        wrong = [cannot_be(str(error))]
        ledger.lack("building.area", "Building: area", wrong[0].answers, wrong[0].what)
        return [], wrong


def _shed(faces: Faces) -> None:
    eave = _eave_with_rakes(faces)
    up = faces.put("roof.slope_length", "Slope length", building.full_slope, "roof.width",
                   "roof.eave_overhang", faces.factor)
    faces.rectangle("Roof", eave, up)


def _gable(faces: Faces) -> None:
    eave = _eave_with_rakes(faces)
    up = faces.put("roof.slope_length", "Slope length", building.half_slope, "roof.width",
                   "roof.eave_overhang", faces.factor)
    faces.rectangle("Side 1", eave, up)
    faces.rectangle("Side 2", eave, up)


def _porch(faces: Faces) -> None:
    _gable(faces)
    pitch = faces.ledger.answer("roof.porch_pitch")
    factor = faces.put("roof.porch_factor", "Porch slope factor", slope.slope_factor, pitch)
    up = faces.put("roof.porch_slope_length", "Porch slope length", building.porch_slope,
                   "roof.porch_depth", "roof.eave_overhang", factor)
    eave = _eave_with_rakes(faces)
    faces.rectangle("Porch", eave, up, pitch, {_TOP: EdgeKind.WALL})


def _gambrel(faces: Faces) -> None:
    eave = _eave_with_rakes(faces)
    pitch = faces.ledger.answer("roof.lower_pitch")
    factor = faces.put("roof.lower_factor", "Lower slope factor", slope.slope_factor, pitch)
    low = faces.put("roof.lower_slope_length", "Lower slope length", building.porch_slope,
                    "roof.lower_run", "roof.eave_overhang", factor)
    high = faces.put("roof.slope_length", "Upper slope length", building.upper_slope,
                     "roof.width", "roof.lower_run", faces.factor)
    for side in (1, 2):
        faces.rectangle(f"Lower {side}", eave, low, pitch, {_TOP: EdgeKind.BREAK})
        faces.rectangle(f"Upper {side}", eave, high, None, {_BOTTOM: EdgeKind.BREAK})


def _hip(faces: Faces) -> None:
    long, wide = "roof.length", "roof.width"
    length, width = faces.ledger.given(long), faces.ledger.given(wide)
    if length is not None and width is not None and length.value < width.value:
        long, wide = wide, long
    # Which of the two is the length depends on both.
    faces.picks = (*faces.picks, "roof.length", "roof.width")
    over = "roof.eave_overhang"
    side = faces.put("roof.eave", "Side eave", building.eave_length, long, over)
    end = faces.put("roof.end_eave", "End eave", building.eave_length, wide, over)
    ridge = faces.put("roof.ridge", "Ridge", building.hip_ridge, long, wide)
    up = faces.put("roof.slope_length", "Slope length", building.half_slope, wide, over,
                   faces.factor)
    factor = faces.ledger.put("roof.hip_factor", "Hip factor", slope.hip_factor, faces.pitch)
    faces.put("roof.hip", "Each hip", building.hip_length, wide, over, factor)
    faces.trapezoid("Side 1", side, ridge, up)
    faces.trapezoid("Side 2", side, ridge, up)
    faces.triangle("End 1", end, up)
    faces.triangle("End 2", end, up)


def _eave_with_rakes(faces: Faces) -> Term:
    return faces.put("roof.eave", "Eave", building.eave_length, "roof.length",
                     "roof.rake_overhang")


_DRAW = {
    Building.SHED: _shed,
    Building.GABLE: _gable,
    Building.HIP: _hip,
    Building.PORCH: _porch,
    Building.GAMBREL: _gambrel,
    Building.ELL: draw_ell,
    Building.CROSS: draw_cross,
}
