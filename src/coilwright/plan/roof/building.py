"""Planes that a building shape makes, from plan length, width, overhangs and pitch.

In buildings with a wing of equal pitch x runs along the main part and y across it from its front
eave; the wing stands out in front. Every face rises with its distance from its own eave, so
valleys and hips run at 45° in plan, and a length up the slope is its run times the slope factor.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import sources
from coilwright.calc.roof import building, slope
from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.outline import OutlineError
from coilwright.job.answers.roof import RoofKey
from coilwright.job.roof import Building
from coilwright.plan.ledger import Ledger, Term
from coilwright.plan.roof.faces import FACE_OPENINGS, SAME, DrawnPlane, Faces
from coilwright.plan.roof.openings import stop_opening, unfinished
from coilwright.plan.roof.pitch import building_pitch, pitch_answers, pitch_fault
from coilwright.plan.roof.wings import draw_cross, draw_ell, draw_gabled_ell
from coilwright.units import Kind, show
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key


def building_faults(ledger: Ledger) -> list[Finding]:
    """A stop for each way the measures given do not fit the building shape."""
    shape = ledger.job.roof.building
    found = list(_pitch_faults(ledger))
    match shape:
        case Building.GAMBREL:
            found += _gambrel_faults(ledger)
        case Building.ELL | Building.GABLED_ELL | Building.CROSS:
            found += _wing_faults(ledger)
        case (None | Building.SHED | Building.GABLE | Building.HIP | Building.PORCH
              | Building.PLANES):
            pass
        case _:
            assert_never(shape)
    return found


def cannot_be(because: str) -> Finding:
    """A stop for measures that make a face no roof can have, whatever the reason."""
    return _stop("no_building", f"These measures make no such building. {because}",
                 "Correct the measures of the building, or measure its planes one by one.",
                 RoofKey.BUILDING, RoofKey.LENGTH, RoofKey.WIDTH)


def _stop(key: str, what: str, do: str, *answers: str) -> Finding:
    return Finding(
        Level.STOP, f"roof.{key}", what,
        "No roof has these measures, so none of its planes can be drawn.",
        do, sources.PLANE_GEOMETRY, "roof", answers,
    )


def _pitch_faults(ledger: Ledger) -> Iterator[Finding]:
    fault = pitch_fault(ledger)
    if fault:
        yield _stop(
            "no_pitch", fault, "Measure both lengths again, or give the pitch itself.",
            *pitch_answers(ledger.job),
        )


def _gambrel_faults(ledger: Ledger) -> Iterator[Finding]:
    roof = ledger.job.roof
    if roof.width is None or roof.lower_run is None or roof.lower_run < roof.width / 2 - SAME:
        return
    half = show(roof.width / 2, Kind.LENGTH, ledger.job.units)
    yield _stop(
        "lower_run_long",
        f"The lower slope's run is {show(roof.lower_run, Kind.LENGTH, ledger.job.units)}; half "
        f"the width is {half}.",
        f"Give a run of less than {half}, so that something is left for the upper slope.",
        RoofKey.LOWER_RUN, RoofKey.WIDTH,
    )


def _wing_faults(ledger: Ledger) -> Iterator[Finding]:
    roof = ledger.job.roof
    length, width = roof.length, roof.width
    wide, out = roof.wing_width, roof.wing_projection
    eave, rake = roof.eave_overhang, roof.rake_overhang

    def said(value: float) -> str:
        return show(value, Kind.LENGTH, ledger.job.units)

    if wide is not None and width is not None and wide > width + SAME:
        yield _stop(
            "wing_wide", f"The wing is {said(wide)} wide; the main part is {said(width)}.",
            f"Give a wing of {said(width)} or less: with equal pitches a wider one would stand "
            "above the main ridge. Or take the wider part as the main one.",
            RoofKey.WING_WIDTH, RoofKey.WIDTH,
        )
    if eave is None or rake is None:
        return
    if out is not None and out + rake - eave <= SAME:
        yield _stop(
            "wing_short",
            f"The wing stands out {said(out)}, which does not clear the main part's eave.",
            f"Give more than {said(eave - rake)}: the eave overhang less the rake overhang.",
            RoofKey.WING_PROJECTION, RoofKey.EAVE_OVERHANG, RoofKey.RAKE_OVERHANG,
        )
    if length is None or wide is None:
        return
    if roof.building is Building.ELL and width is not None:
        least = max(wide + 2 * eave, width / 2 + eave) - eave - rake
        if length <= least + SAME:
            yield _stop(
                "main_short",
                f"The main part is {said(length)} long, which leaves it no eave beside the wing.",
                f"Give more than {said(least)}, or take the longer part as the main one.",
                RoofKey.LENGTH, RoofKey.WING_WIDTH,
            )
    if roof.building is Building.GABLED_ELL:
        least = wide + max(0.0, eave - rake)
        if length < least - SAME:
            yield _stop(
                "main_short",
                f"The main part is {said(length)} long, which is too short for the wing's eaves.",
                f"Give {said(least)} or more, or take the longer part as the main one.",
                RoofKey.LENGTH, RoofKey.WING_WIDTH,
            )
    left = roof.wing_left
    if roof.building is Building.CROSS and left is not None:
        first, last = max(0.0, eave - rake), length + min(0.0, rake - eave) - wide
        if last < first - SAME:
            yield _stop(
                "wing_outside",
                f"A wing {said(wide)} wide with its eaves does not fit along {said(length)}.",
                f"Give a wing of {said(max(0.0, wide + last - first))} or less.",
                RoofKey.WING_WIDTH, RoofKey.LENGTH,
            )
        elif not first - SAME <= left <= last + SAME:
            yield _stop(
                "wing_outside",
                f"A wing {said(left)} from the left end reaches past the main part's ends.",
                f"Give {said(first)} to {said(last)}, so that its eaves stay between the rakes. A "
                f"wing flush with an end is another shape: “{Building.GABLED_ELL.value}”.",
                RoofKey.WING_LEFT, RoofKey.WING_WIDTH, RoofKey.LENGTH,
            )


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
            ledger.lack(Key.ROOF_AREA, "Roof area", (RoofKey.BUILDING,))
        return [], []
    pitch = building_pitch(ledger)
    factor = ledger.put(Key.ROOF_SLOPE_FACTOR, "Slope factor", slope.slope_factor, pitch)
    faces = Faces(ledger, pitch, factor)
    wrong = building_faults(ledger)
    if wrong:
        ledger.lack(Key.BUILDING_AREA, "Building: area", wrong[0].answers, wrong[0].what)
        return [], wrong
    _draw(shape, faces)
    try:
        drawn = faces.draw()
        return drawn, [*faces.findings, *_unfinished(ledger, drawn)]
    except OutlineError as error:
        wrong = [cannot_be(str(error))]
        ledger.lack(Key.BUILDING_AREA, "Building: area", wrong[0].answers, wrong[0].what)
        return [], wrong


def _unfinished(ledger: Ledger, drawn: list[DrawnPlane]) -> Iterator[Finding]:
    """Openings of the building that lack a size, or lie on no face it has."""
    told = ledger.job.roof.building_openings
    yield from unfinished(told, "a face", FACE_OPENINGS.removesuffix("."))
    names = {plane.name for plane in drawn}
    for place, opening in enumerate(told):
        if names and opening.on not in names:
            on = opening.on or "a face nobody named"
            yield stop_opening(
                f"{FACE_OPENINGS}{place}",
                f"Opening {place + 1} lies on {on}; this building has {', '.join(sorted(names))}.",
                "Say on which face it lies, or take the opening out of the list.")


def _shed(faces: Faces) -> None:
    eave = _eave_with_rakes(faces)
    up = faces.put(Key.ROOF_SLOPE_LENGTH, "Slope length", building.full_slope, RoofKey.WIDTH,
                   RoofKey.EAVE_OVERHANG, faces.factor)
    faces.rectangle("Roof", eave, up)


def _gable(faces: Faces) -> None:
    eave = _eave_with_rakes(faces)
    up = faces.put(Key.ROOF_SLOPE_LENGTH, "Slope length", building.half_slope, RoofKey.WIDTH,
                   RoofKey.EAVE_OVERHANG, faces.factor)
    faces.rectangle("Side 1", eave, up)
    faces.rectangle("Side 2", eave, up)


def _porch(faces: Faces) -> None:
    _gable(faces)
    pitch = faces.ledger.answer(RoofKey.PORCH_PITCH)
    factor = faces.put(Key.ROOF_PORCH_FACTOR, "Porch slope factor", slope.slope_factor, pitch)
    up = faces.put(Key.ROOF_PORCH_SLOPE_LENGTH, "Porch slope length", building.porch_slope,
                   RoofKey.PORCH_DEPTH, RoofKey.EAVE_OVERHANG, factor)
    eave = _eave_with_rakes(faces)
    faces.rectangle("Porch", eave, up, pitch, {_TOP: EdgeKind.WALL})


def _gambrel(faces: Faces) -> None:
    eave = _eave_with_rakes(faces)
    pitch = faces.ledger.answer(RoofKey.LOWER_PITCH)
    factor = faces.put(Key.ROOF_LOWER_FACTOR, "Lower slope factor", slope.slope_factor, pitch)
    low = faces.put(Key.ROOF_LOWER_SLOPE_LENGTH, "Lower slope length", building.porch_slope,
                    RoofKey.LOWER_RUN, RoofKey.EAVE_OVERHANG, factor)
    high = faces.put(Key.ROOF_SLOPE_LENGTH, "Upper slope length", building.upper_slope,
                     RoofKey.WIDTH, RoofKey.LOWER_RUN, faces.factor)
    for side in (1, 2):
        faces.rectangle(f"Lower {side}", eave, low, pitch, {_TOP: EdgeKind.BREAK})
        faces.rectangle(f"Upper {side}", eave, high, None, {_BOTTOM: EdgeKind.BREAK})


def _hip(faces: Faces) -> None:
    long, wide = RoofKey.LENGTH, RoofKey.WIDTH
    length, width = faces.ledger.given(long), faces.ledger.given(wide)
    if length is not None and width is not None and length.value < width.value:
        long, wide = wide, long
    # Which of the two is the length depends on both.
    faces.picks = (*faces.picks, RoofKey.LENGTH, RoofKey.WIDTH)
    over = RoofKey.EAVE_OVERHANG
    side = faces.put(Key.ROOF_EAVE, "Side eave", building.eave_length, long, over)
    end = faces.put(Key.ROOF_END_EAVE, "End eave", building.eave_length, wide, over)
    ridge = faces.put(Key.ROOF_RIDGE, "Ridge", building.hip_ridge, long, wide)
    up = faces.put(Key.ROOF_SLOPE_LENGTH, "Slope length", building.half_slope, wide, over,
                   faces.factor)
    factor = faces.ledger.put(Key.ROOF_HIP_FACTOR, "Hip factor", slope.hip_factor, faces.pitch)
    faces.put(Key.ROOF_HIP, "Each hip", building.hip_length, wide, over, factor)
    faces.trapezoid("Side 1", side, ridge, up)
    faces.trapezoid("Side 2", side, ridge, up)
    faces.triangle("End 1", end, up)
    faces.triangle("End 2", end, up)


def _eave_with_rakes(faces: Faces) -> Term:
    return faces.put(Key.ROOF_EAVE, "Eave", building.eave_length, RoofKey.LENGTH,
                     RoofKey.RAKE_OVERHANG)


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
        case Building.GABLED_ELL:
            draw_gabled_ell(faces)
        case Building.CROSS:
            draw_cross(faces)
        case Building.PLANES:
            return
        case _:
            assert_never(shape)
