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
from coilwright.job.answers.roof import STEEPEST
from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.plan.ledger import Ledger, Term, known
from coilwright.plan.roof.faces import ORIGIN, DrawnPlane, Faces
from coilwright.units import Kind, show
from coilwright.values.finding import Finding, Level

_KEY, _LABEL = "roof.pitch", "Pitch"
_RUN = "roof.pitch_run"


def pitch_answers(job: Job) -> tuple[str, ...]:
    """The answers the building's pitch is from: itself, or a rise or a slope length and its run."""
    roof = job.roof
    if roof.pitch is None and roof.pitch_run is not None:
        if roof.pitch_rise is not None:
            return "roof.pitch_rise", _RUN
        if roof.pitch_slope is not None:
            return "roof.pitch_slope", _RUN
    return (_KEY,)


def building_pitch(ledger: Ledger) -> Term:
    """Enter the building's pitch [rise per 12]; what it lacks where lengths give none."""
    first, *rest = pitch_answers(ledger.job)
    if not rest:
        return ledger.answer(_KEY)
    length, run = ledger.answer(first), ledger.answer(_RUN)
    fault = pitch_fault(ledger)
    if fault:
        return ledger.lack(_KEY, _LABEL, (first, _RUN), fault)
    formula = slope.pitch_from_rise if first == "roof.pitch_rise" else slope.pitch_from_slope
    return ledger.put(_KEY, _LABEL, formula, length, run)


def pitch_fault(ledger: Ledger) -> str:
    """Why the two lengths measured for the pitch give none; empty where they do or lack."""
    first, *rest = pitch_answers(ledger.job)
    if not rest:
        return ""
    length, run = ledger.given(first), ledger.given(_RUN)
    if length is None or run is None:
        return ""
    rise = length.value
    if first == "roof.pitch_slope":
        if length.value < run.value:
            return (
                f"The length up the slope is {length.text(ledger.job.units)}, less than its level "
                f"run of {run.text(ledger.job.units)}; no slope is shorter than its run."
            )
        rise = (length.value**2 - run.value**2) ** 0.5
    if 12 * rise > STEEPEST * run.value:
        steepest = show(STEEPEST, Kind.PITCH, ledger.job.units)
        return (
            f"The lengths measured for the pitch give more than {steepest}; no roof is so steep."
        )
    return ""


SAME = 1e-6
"""Lengths [in] nearer than this are one."""


def building_faults(ledger: Ledger) -> list[Finding]:
    """A stop for each way the measures given do not fit the building shape."""
    shape = ledger.job.roof.building
    found = list(_pitch_faults(ledger))
    match shape:
        case Building.GAMBREL:
            found += _gambrel_faults(ledger)
        case Building.ELL | Building.CROSS:
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
                 "roof.building", "roof.length", "roof.width")


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
        "roof.lower_run", "roof.width",
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
            "roof.wing_width", "roof.width",
        )
    if eave is None or rake is None:
        return
    if out is not None and out + rake - eave <= SAME:
        yield _stop(
            "wing_short",
            f"The wing stands out {said(out)}, which does not clear the main part's eave.",
            f"Give more than {said(eave - rake)}: the eave overhang less the rake overhang.",
            "roof.wing_projection", "roof.eave_overhang", "roof.rake_overhang",
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
                "roof.length", "roof.wing_width",
            )
    left = roof.wing_left
    if roof.building is Building.CROSS and left is not None:
        first, last = max(0.0, eave - rake), length + min(0.0, rake - eave) - wide
        if last < first - SAME:
            yield _stop(
                "wing_outside",
                f"A wing {said(wide)} wide with its eaves does not fit along {said(length)}.",
                f"Give a wing of {said(max(0.0, wide + last - first))} or less.",
                "roof.wing_width", "roof.length",
            )
        elif not first - SAME <= left <= last + SAME:
            yield _stop(
                "wing_outside",
                f"A wing {said(left)} from the left end reaches past the main part's ends.",
                f"Give {said(first)} to {said(last)}, so that its eaves stay between the rakes.",
                "roof.wing_left", "roof.wing_width", "roof.length",
            )


_EAVE, _RAKE = "roof.eave_overhang", "roof.rake_overhang"


def draw_ell(faces: Faces) -> None:
    """A main part gabled on the right and hipped on the left, with a wing at its left end.

    The wing's outer wall is in line with the main part's left end, and its far end is gabled.
    """
    long = faces.put("roof.main_length", "Main part, with overhangs", building.main_length,
                     "roof.length", _EAVE, _RAKE)
    wide, half_wide, up, wing_wide, half_wing, wing_up, out = _measures(faces)
    minus = building.rest_of_length
    outer = faces.put("roof.outer_eave", "Outer eave", building.both_lengths, wide, out)
    knee = faces.put("roof.outer_knee", "Outer side: to below the wing ridge's end", minus, wide,
                     half_wing)
    front = faces.put("roof.front_eave", "Front eave", minus, long, wing_wide)
    front_top = faces.put("roof.front_top", "Front: to below the ridge's left end", minus,
                          half_wide, wing_wide)
    valley_top = faces.put("roof.valley_top", "Front: to below the valley's top", minus, ORIGIN,
                           half_wing)
    ridge = faces.put("roof.ridge", "Ridge", minus, long, half_wide)
    wing_ridge = faces.put("roof.wing_ridge", "Wing ridge", building.both_lengths, out, half_wing)
    zero = ORIGIN
    faces.corners("Front", (zero, zero), (front, zero), (front, up), (front_top, up),
                  (valley_top, wing_up))
    faces.corners("Back", (zero, zero), (long, zero), (ridge, up), (zero, up))
    faces.corners("Outer side", (zero, zero), (outer, zero), (outer, wing_up), (knee, wing_up),
                  (half_wide, up))
    faces.corners("Wing inner side", (zero, zero), (out, zero), (wing_ridge, wing_up),
                  (zero, wing_up))


def draw_cross(faces: Faces) -> None:
    """A gable with a gabled wing in front, some way along it.

    A wing as wide as the main part reaches its ridge and splits the front in two.
    """
    long = faces.put("roof.eave", "Eave", building.eave_length, "roof.length", _RAKE)
    wide, _, up, wing_wide, half_wing, wing_up, out = _measures(faces)
    left = faces.put("roof.front_left_eave", "Front eave left of the wing", building.wing_eave,
                     "roof.wing_left", _RAKE, _EAVE)
    past = faces.put("roof.wing_right_end", "To the wing's right eave", building.both_lengths,
                     left, wing_wide)
    right = faces.put("roof.front_right_eave", "Front eave right of the wing",
                      building.rest_of_length, long, past)
    peak = faces.put("roof.valley_top", "To below the valleys' top", building.both_lengths, left,
                     half_wing)
    back = faces.put("roof.valley_back", "Back from the wing's eave to the valley's top",
                     building.rest_of_length, ORIGIN, half_wing)
    wing_ridge = faces.put("roof.wing_ridge", "Wing ridge", building.both_lengths, out, half_wing)
    zero = ORIGIN
    main, wing = known(wide), known(wing_wide)
    if main is not None and wing is not None and abs(main.value - wing.value) <= SAME:
        # That the front is two planes rests on both widths, and so does every plane's number.
        faces.picks = (*faces.picks, "roof.width", "roof.wing_width")
        faces.corners("Front left", (zero, zero), (left, zero), (peak, up), (zero, up))
        faces.corners("Front right", (zero, zero), (right, zero), (right, up), (back, up))
    else:
        faces.corners("Front", (zero, zero), (left, zero), (peak, wing_up), (past, zero),
                      (long, zero), (long, up), (zero, up))
    faces.rectangle("Back", long, up)
    faces.corners("Wing left side", (zero, zero), (out, zero), (out, wing_up), (back, wing_up))
    faces.corners("Wing right side", (zero, zero), (out, zero), (wing_ridge, wing_up),
                  (zero, wing_up))


def _measures(
    faces: Faces,
) -> tuple[Term, Term, Term, Term, Term, Term, Term]:
    """Width, its half, slope length; the wing's width, its half, slope length; the wing's eave."""
    wide = faces.put("roof.main_width", "Main width, with overhangs", building.eave_length,
                     "roof.width", _EAVE)
    half_wide = faces.put("roof.main_run", "Main run", building.half, wide)
    up = faces.put("roof.slope_length", "Slope length", slope.up_the_slope, half_wide,
                   faces.factor)
    wing_wide = faces.put("roof.wing_width_out", "Wing width, with overhangs",
                          building.eave_length, "roof.wing_width", _EAVE)
    half_wing = faces.put("roof.wing_run", "Wing run", building.half, wing_wide)
    wing_up = faces.put("roof.wing_slope_length", "Wing slope length", slope.up_the_slope,
                        half_wing, faces.factor)
    out = faces.put("roof.wing_eave", "Wing eave", building.wing_eave, "roof.wing_projection",
                    _RAKE, _EAVE)
    return wide, half_wide, up, wing_wide, half_wing, wing_up, out


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
    wrong = building_faults(ledger)
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
