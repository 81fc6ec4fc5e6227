"""Buildings with a wing of equal pitch: the L with a valley, and the cross gable.

In plan, x runs along the main part and y across it from its front eave; the wing stands out in
front. Every face rises with its distance from its own eave, so valleys and hips run at 45° in
plan, and a length up the slope is its run times the slope factor.
"""

from __future__ import annotations

from coilwright.calc.roof import building, slope
from coilwright.plan.building_faults import SAME
from coilwright.plan.faces import ORIGIN, Faces
from coilwright.plan.ledger import Term, known

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
