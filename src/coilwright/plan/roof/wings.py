"""Buildings with a wing: two kinds of L, and the wing along the front.

Both L are measured with the wing at the left end; one at the right end is the same left for right.
"""

from __future__ import annotations

from typing import assert_never

from coilwright.calc.roof import building, slope
from coilwright.job.answers.roof import RoofKey
from coilwright.job.roof import SPLIT_FRONT, WingEnd
from coilwright.plan.ledger import Term, known
from coilwright.plan.roof.faces import ORIGIN, SAME, Faces
from coilwright.values.keys import Key

_EAVE, _RAKE = RoofKey.EAVE_OVERHANG, RoofKey.RAKE_OVERHANG


def draw_ell(faces: Faces) -> None:
    """A main part gabled on the right and hipped on the left, with a wing at its left end.

    The wing's outer wall is in line with the main part's left end, and its far end is gabled.
    """
    _turn(faces)
    long = faces.put(Key.ROOF_MAIN_LENGTH, "Main part, with overhangs", building.main_length,
                     RoofKey.LENGTH, _EAVE, _RAKE)
    wide, half_wide, up, wing_wide, half_wing, wing_up, out = _measures(faces)
    minus = building.rest_of_length
    outer = faces.put(Key.ROOF_OUTER_EAVE, "Outer eave", building.both_lengths, wide, out)
    knee = faces.put(Key.ROOF_OUTER_KNEE, "Outer side: to below the wing ridge's end", minus, wide,
                     half_wing)
    front = faces.put(Key.ROOF_FRONT_EAVE, "Front eave", minus, long, wing_wide)
    front_top = faces.put(Key.ROOF_FRONT_TOP, "Front: to below the ridge's hip end", minus,
                          half_wide, wing_wide)
    valley_top = faces.put(Key.ROOF_VALLEY_TOP, "Front: to below the valley's top", minus, ORIGIN,
                           half_wing)
    ridge = faces.put(Key.ROOF_RIDGE, "Ridge", minus, long, half_wide)
    wing_ridge = faces.put(Key.ROOF_WING_RIDGE, "Wing ridge", building.both_lengths, out, half_wing)
    zero = faces.origin
    faces.corners("Front", (zero, zero), (front, zero), (front, up), (front_top, up),
                  (valley_top, wing_up))
    faces.corners("Back", (zero, zero), (long, zero), (ridge, up), (zero, up))
    faces.corners("Outer side", (zero, zero), (outer, zero), (outer, wing_up), (knee, wing_up),
                  (half_wide, up))
    faces.corners("Wing inner side", (zero, zero), (out, zero), (wing_ridge, wing_up),
                  (zero, wing_up))


def draw_gabled_ell(faces: Faces) -> None:
    """A gable with a gabled wing in front whose outer wall is in line with the left end wall.

    Both valleys end under the wing ridge's inner end. Where the eave overhang is the greater, the
    wing's outer eave stands out past the main part's rake: it ends where that rake begins, and
    the outer valley begins there. A wing as wide as the main part splits the front in two.
    """
    at_right = _turn(faces)
    long = faces.put(Key.ROOF_EAVE, "Eave", building.eave_length, RoofKey.LENGTH, _RAKE)
    wide, _, up, wing_wide, half_wing, wing_up, out = _measures(faces)
    minus, plus = building.rest_of_length, building.both_lengths
    left = faces.put(Key.ROOF_FRONT_LEFT_EAVE, "From the main rake to the wing's outer eave", minus,
                     _RAKE, _EAVE)
    past = faces.put(Key.ROOF_WING_RIGHT_END, "To the wing's inner eave", plus, left, wing_wide)
    front = faces.put(Key.ROOF_FRONT_RIGHT_EAVE, "Front eave", minus, long, past)
    peak = faces.put(Key.ROOF_VALLEY_TOP, "To below the valleys' top", plus, left, half_wing)
    back = faces.put(Key.ROOF_VALLEY_BACK, "Back from the wing's eave to the valley's top",
                     minus, ORIGIN, half_wing)
    wing_ridge = faces.put(Key.ROOF_WING_RIDGE, "Wing ridge", plus, out, half_wing)
    zero = faces.origin
    eave, rake = known(faces.ledger.answer(_EAVE)), known(faces.ledger.answer(_RAKE))
    # Where the outer valley begins rests on both overhangs.
    faces.picks = (*faces.picks, _EAVE, _RAKE)
    stands_out = eave is not None and rake is not None and eave.value - rake.value > SAME
    outer: Term = out
    low: Term = up
    wing_top: Term = back
    step: Term = zero
    if stands_out:
        by = faces.put(Key.ROOF_OUTER_STEP, "Wing's outer eave, past the main rake", minus, _EAVE,
                       _RAKE)
        outer = faces.put(Key.ROOF_OUTER_EAVE, "Wing's outer eave", plus, out, by)
        step = faces.put(Key.ROOF_OUTER_STEP_UP, "Up the slope to the outer valley's foot",
                         slope.up_the_slope, by, faces.factor)
        low = faces.put(Key.ROOF_OUTER_VALLEY_UP, "From the outer valley's foot to the ridge",
                        minus, up, step)
        wing_top = faces.put(Key.ROOF_OUTER_KNEE, "Outer side: to below the valley's top", minus,
                             by, half_wing)
    main, wing = known(wide), known(wing_wide)
    if main is not None and wing is not None and abs(main.value - wing.value) <= SAME:
        # Which of its two parts is the left one rests on the wing's end.
        faces.picks = (*faces.picks, RoofKey.WIDTH, RoofKey.WING_WIDTH, RoofKey.WING_END)
        foot = zero if stands_out else left
        parts = [((zero, zero), (foot, zero), (peak, low), (zero, low)),
                 ((zero, zero), (front, zero), (front, up), (back, up))]
        for name, corners in zip(SPLIT_FRONT, reversed(parts) if at_right else parts, strict=True):
            faces.corners(name, *corners)
    elif stands_out:
        faces.corners("Front", (past, zero), (long, zero), (long, up), (zero, up), (zero, step),
                      (peak, wing_up))
    else:
        faces.corners("Front", (zero, zero), (left, zero), (peak, wing_up), (past, zero),
                      (long, zero), (long, up), (zero, up))
    faces.rectangle("Back", long, up)
    faces.corners("Wing outer side", (zero, zero), (outer, zero), (outer, wing_up),
                  (wing_top, wing_up), (zero, step))
    faces.corners("Wing inner side", (zero, zero), (out, zero), (wing_ridge, wing_up),
                  (zero, wing_up))


def draw_cross(faces: Faces) -> None:
    """A gable with a gabled wing in front, some way along it.

    A wing as wide as the main part reaches its ridge and splits the front in two.
    """
    long = faces.put(Key.ROOF_EAVE, "Eave", building.eave_length, RoofKey.LENGTH, _RAKE)
    wide, _, up, wing_wide, half_wing, wing_up, out = _measures(faces)
    left = faces.put(Key.ROOF_FRONT_LEFT_EAVE, "Front eave left of the wing", building.wing_eave,
                     RoofKey.WING_LEFT, _RAKE, _EAVE)
    past = faces.put(Key.ROOF_WING_RIGHT_END, "To the wing's right eave", building.both_lengths,
                     left, wing_wide)
    right = faces.put(Key.ROOF_FRONT_RIGHT_EAVE, "Front eave right of the wing",
                      building.rest_of_length, long, past)
    peak = faces.put(Key.ROOF_VALLEY_TOP, "To below the valleys' top", building.both_lengths, left,
                     half_wing)
    back = faces.put(Key.ROOF_VALLEY_BACK, "Back from the wing's eave to the valley's top",
                     building.rest_of_length, ORIGIN, half_wing)
    wing_ridge = faces.put(Key.ROOF_WING_RIDGE, "Wing ridge", building.both_lengths, out, half_wing)
    zero = ORIGIN
    main, wing = known(wide), known(wing_wide)
    if main is not None and wing is not None and abs(main.value - wing.value) <= SAME:
        # That the front is two planes rests on both widths, and so does every plane's number.
        faces.picks = (*faces.picks, RoofKey.WIDTH, RoofKey.WING_WIDTH)
        faces.corners("Front left", (zero, zero), (left, zero), (peak, up), (zero, up))
        faces.corners("Front right", (zero, zero), (right, zero), (right, up), (back, up))
    else:
        faces.corners("Front", (zero, zero), (left, zero), (peak, wing_up), (past, zero),
                      (long, zero), (long, up), (zero, up))
    faces.rectangle("Back", long, up)
    faces.corners("Wing left side", (zero, zero), (out, zero), (out, wing_up), (back, wing_up))
    faces.corners("Wing right side", (zero, zero), (out, zero), (wing_ridge, wing_up),
                  (zero, wing_up))


def _turn(faces: Faces) -> bool:
    """Draw left for right where the wing stands at the right end; whether it does."""
    faces.way_round = (RoofKey.WING_END,)
    end = faces.ledger.job.roof.wing_end
    match end:
        case WingEnd.RIGHT:
            faces.mirror()
            return True
        case WingEnd.LEFT | None:
            return False
        case _:
            assert_never(end)


def _measures(
    faces: Faces,
) -> tuple[Term, Term, Term, Term, Term, Term, Term]:
    """Width, its half, slope length; the wing's width, its half, slope length; the wing's eave."""
    wide = faces.put(Key.ROOF_MAIN_WIDTH, "Main width, with overhangs", building.eave_length,
                     RoofKey.WIDTH, _EAVE)
    half_wide = faces.put(Key.ROOF_MAIN_RUN, "Main run", building.half, wide)
    up = faces.put(Key.ROOF_SLOPE_LENGTH, "Slope length", slope.up_the_slope, half_wide,
                   faces.factor)
    wing_wide = faces.put(Key.ROOF_WING_WIDTH_OUT, "Wing width, with overhangs",
                          building.eave_length, RoofKey.WING_WIDTH, _EAVE)
    half_wing = faces.put(Key.ROOF_WING_RUN, "Wing run", building.half, wing_wide)
    wing_up = faces.put(Key.ROOF_WING_SLOPE_LENGTH, "Wing slope length", slope.up_the_slope,
                        half_wing, faces.factor)
    out = faces.put(Key.ROOF_WING_EAVE, "Wing eave", building.wing_eave, RoofKey.WING_PROJECTION,
                    _RAKE, _EAVE)
    return wide, half_wide, up, wing_wide, half_wing, wing_up, out
