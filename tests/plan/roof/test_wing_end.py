"""A wing at the right end: the house with its wing at the left, left for right, in all that is
drawn, numbered and measured from the left; its metal is the same.

By hand: a place x from the left in one house is as far from the right in the other.
"""

from __future__ import annotations

import dataclasses

import pytest

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.job import Job
from coilwright.job.roof import Building, Opening, Openings, WingEnd
from coilwright.plan import Plan, plan
from coilwright.plan.plane_changes import to_planes
from coilwright.plan.result import PlanePlan
from coilwright.plan.roof.above import seen_from_above
from coilwright.store import read_model, to_text
from coilwright.values.standing import Standing
from tests.cases import building, guess, set_answers
from tests.rules import for_each

_L = {"length": 700.0, "width": 300.0, "wing_projection": 150.0, "wing_width": 228.0, "pitch": 7.0}
_AS_WIDE = {**_L, "wing_width": 300.0}
_MORE_EAVE = {"eave_overhang": 14.0, "rake_overhang": 9.0}
_MORE_RAKE = {"eave_overhang": 9.0, "rake_overhang": 14.0}
HOUSES = {
    "hipped": building(Building.ELL, **_L, **_MORE_EAVE),
    "hipped, as wide": building(Building.ELL, **_AS_WIDE, **_MORE_RAKE),
    "gabled, its eave past the rake": building(Building.GABLED_ELL, **_L, **_MORE_EAVE),
    "gabled, its eave within the rake": building(Building.GABLED_ELL, **_L, **_MORE_RAKE),
    "gabled, as wide, past": building(Building.GABLED_ELL, **_AS_WIDE, **_MORE_EAVE),
    "gabled, as wide, within": building(Building.GABLED_ELL, **_AS_WIDE, **_MORE_RAKE),
}
OPPOSITE = {"Front left": "Front right", "Front right": "Front left"}
STARTS = {PanelStart.LEFT: PanelStart.RIGHT, PanelStart.RIGHT: PanelStart.LEFT,
          PanelStart.LEAST_METAL: PanelStart.LEAST_METAL}


def standing(job: Job, end: WingEnd | None, start: PanelStart, *holes: Opening) -> Plan:
    """The plan with the wing at an end, panels started so, and stopped at holes."""
    job = set_answers(job, {"roof.wing_end": end, "panel.start": start,
                            "roof.openings": Openings.DEDUCT})
    return plan(dataclasses.replace(job, roof=dataclasses.replace(
        job.roof, building_openings=holes)))


def by_name(done: Plan) -> dict[str, PlanePlan]:
    return {plane.name: plane for plane in done.planes}


def as_seen(done: Plan) -> dict[str, list[tuple[float, float]]]:
    """The corners of each face from above."""
    above = seen_from_above(done)
    assert above is not None
    return {face.plane.name: sorted(face.outline) for face in above.faces}


@for_each([(name, start) for name in HOUSES for start in STARTS])
def test_at_the_right_it_is_the_house_left_for_right(name: str, start: PanelStart) -> None:
    left = standing(HOUSES[name], WingEnd.LEFT, start)
    right = standing(HOUSES[name], WingEnd.RIGHT, STARTS[start])
    assert [p.name for p in left.planes] == [p.name for p in right.planes] == list(
        HOUSES[name].roof.faces)
    for key in ("roof.area", "panels.count", "panels.length", "edges.valley",
                "edges.eave", "edges.hip", "coil.mass_ordered"):
        assert right.figures[key].value == pytest.approx(left.figures[key].value, abs=1e-6)
    others = by_name(right)
    for one in left.planes:
        other = others[OPPOSITE.get(one.name, one.name)]
        assert min(x for x, y in other.outline if y == 0.0) == 0.0, "left is the eave's left end"
        if start is PanelStart.LEAST_METAL:
            continue  # of starts that take as much either house may have another
        # Numbered from the left, the first panel of one is as the last of the other.
        mine = sorted((p.y0, p.y1, p.x1 - p.x0, p.area) for p in one.panels)
        theirs = sorted((p.y0, p.y1, p.x1 - p.x0, p.area) for p in other.panels)
        assert mine == [pytest.approx(panel, abs=1e-6) for panel in theirs]
    middle = max(x for x, _ in as_seen(left)["Back"])
    assert as_seen(right) == {
        OPPOSITE.get(face, face): [
            pytest.approx(corner, abs=1e-6)
            for corner in sorted((round(middle - x, 9) + 0.0, y) for x, y in corners)]
        for face, corners in as_seen(left).items()}


def test_a_chimney_from_the_left_falls_on_the_mirrored_panels() -> None:
    """Front eave of the hipped house: 700 + 14 + 9 over all, less 228 + 28 of wing: 467 in."""
    job = HOUSES["hipped"]
    chimney = Opening(on="Front", left=100.0, up=40.0, width=24.0, height=36.0)
    there = dataclasses.replace(chimney, left=467.0 - 100.0 - 24.0)
    right = by_name(standing(job, WingEnd.RIGHT, PanelStart.LEFT, chimney))["Front"]
    left = by_name(standing(job, WingEnd.LEFT, PanelStart.RIGHT, there))["Front"]
    short = [(p.strip, p.y0, p.y1) for p in right.panels if p.x1 > 100.0 and p.x0 < 124.0]
    # 16 in panels from the left: the 7th and 8th, strips 6 and 7, are cut in two by it.
    assert sorted({strip for strip, _, _ in short}) == [6, 7]
    last = max(p.strip for p in left.panels)
    assert sorted((last - p.strip, p.y0, p.y1) for p in left.panels
                  if p.x1 > 343.0 and p.x0 < 367.0) == [
        (strip, pytest.approx(low), pytest.approx(high)) for strip, low, high in sorted(short)]
    above = seen_from_above(standing(job, WingEnd.RIGHT, PanelStart.LEFT, chimney))
    assert above is not None
    face = above.face(right.number)
    assert face is not None
    # The main part's gable is at the left now, and its front eave begins there.
    assert min(x for x, _ in face.openings[0]) == pytest.approx(100.0)


@for_each(HOUSES)
def test_a_file_without_the_answer_is_as_it_was(name: str) -> None:
    before = HOUSES[name]
    assert before.roof.wing_end is None
    read = read_model(to_text(before), Job, "test")
    assert read == before
    none, left = (standing(read, end, PanelStart.LEFT) for end in (None, WingEnd.LEFT))
    assert none.planes == left.planes
    assert "roof.wing_end" not in none.open_answers, "nothing new is asked of it"
    kept = set_answers(before, {"roof.wing_end": WingEnd.RIGHT})
    assert read_model(to_text(kept), Job, "test") == kept


def test_a_guessed_end_makes_a_guess_of_panels_and_not_of_the_area() -> None:
    for name in ("hipped", "gabled, as wide, past"):
        unsure = guess(set_answers(HOUSES[name], {"roof.wing_end": WingEnd.LEFT}), "roof.wing_end")
        figures = plan(unsure).figures
        assert figures["panels.count"].mark == "~"
        # Two parts of a front change names with the end, and so each part's area is a guess.
        assert figures["roof.area"].mark == ("~" if "wide" in name else "")
        marks = to_planes(unsure).standing
        assert marks["roof.planes.0"] is Standing.GUESS
    cross = building(Building.CROSS, **_L, **_MORE_EAVE, wing_left=100.0)
    alone = plan(guess(set_answers(cross, {"roof.wing_end": WingEnd.LEFT}), "roof.wing_end"))
    assert alone.figures["panels.count"].mark == "", "a wing between the ends has its own place"
    assert "roof.wing_end" not in alone.guesses
