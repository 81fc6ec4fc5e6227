"""Planes that a building shape makes, from plan length, width, overhangs and pitch."""

from __future__ import annotations

from typing import assert_never

from coilwright.calc.roof import building, slope
from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.outline import OutlineError
from coilwright.job.roof import Building
from coilwright.plan.building_faults import cannot_be, faults
from coilwright.plan.building_pitch import building_pitch
from coilwright.plan.drawn import DrawnPlane
from coilwright.plan.faces import Faces
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.wings import draw_cross, draw_ell
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding


def planes_of(shape: Building | None) -> int:
    """How many planes a building shape makes, at least."""
    match shape:
        case None | Building.PLANES:
            return 0
        case Building.SHED:
            return 1
        case Building.GABLE:
            return 2
        case Building.PORCH:
            return 3
        case Building.HIP | Building.ELL | Building.GAMBREL:
            return 4
        case Building.CROSS:
            return 5
        case _:
            assert_never(shape)


_TOP, _BOTTOM = 3, 1
"""The edges of a rectangle, by the corner they start at."""


def draw_building(ledger: Ledger) -> tuple[list[DrawnPlane], list[Finding]]:
    """The planes of the building shape, and a stop for measures that make no such building.

    While a measure is missing or wrong there are no planes, and `building.area` says what it
    lacks.
    """
    shape = ledger.job.roof.building
    if shape is None or shape is Building.PLANES:
        if shape is None and not ledger.job.roof.planes:
            ledger.lack("roof.area", "Roof area", ("roof.building",))
        return [], []
    pitch = building_pitch(ledger)
    factor = ledger.put("roof.slope_factor", "Slope factor", slope.slope_factor, pitch)
    faces = Faces(ledger, pitch, factor)
    wrong = faults(ledger)
    if wrong:
        ledger.lack("building.area", "Building: area", wrong[0].answers, wrong[0].what)
        return [], wrong
    _draw(shape, faces)
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
    length, width = faces.ledger.answer(long), faces.ledger.answer(wide)
    if isinstance(length, Figure) and isinstance(width, Figure) and length.value < width.value:
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


def _eave_with_rakes(faces: Faces) -> Figure | Lack:
    return faces.put("roof.eave", "Eave", building.eave_length, "roof.length",
                     "roof.rake_overhang")


def _draw(shape: Building, faces: Faces) -> None:
    match shape:
        case Building.SHED:
            _shed(faces)
        case Building.GABLE:
            _gable(faces)
        case Building.HIP:
            _hip(faces)
        case Building.PORCH:
            _porch(faces)
        case Building.GAMBREL:
            _gambrel(faces)
        case Building.ELL:
            draw_ell(faces)
        case Building.CROSS:
            draw_cross(faces)
        case Building.PLANES:
            return
        case _:
            assert_never(shape)
