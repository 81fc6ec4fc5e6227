"""Flat widths with bends counted: against arcs, what stops, and what stays the plain sum."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import Plan, plan
from coilwright.store import StoreError, read_model, to_text
from tests.cases import building, set_answers
from tests.draws import draws
from tests.plan.trim.test_trim import with_trim
from tests.values.written import check


def bent(**piece: Any) -> Plan:
    """One piece, 40 ft of it, from .0236 in panel coil."""
    job = with_trim(building(Building.GABLE),
                    TrimPiece(**{"name": "Edge", "length": 480.0, **piece}))
    return plan(set_answers(job, {"metal.thickness": 0.0236}))


def stopped(done: Plan) -> str:
    return next(f.what for f in done.stops if f.key == "trim.1.cannot")


def test_without_a_radius_flat_width_is_the_plain_sum() -> None:
    done = bent(legs=(3.0, 2.0), hems=(0.5,), angles=(45.0,))
    assert done.trim[0].flat_width.value == 5.5
    assert "trim.1.plain" not in done.figures


def test_one_leg_has_no_bend() -> None:
    assert bent(legs=(6.0,), radius=0.1).trim[0].flat_width.value == 6.0


def test_a_given_flat_width_counts_instead() -> None:
    assert bent(flat_width=7.0, legs=(3.0, 2.0), radius=0.1).trim[0].flat_width.value == 7.0


def test_a_drip_edge_by_hand() -> None:
    """R .05, T .0236: setback at 90° .0736, at 45° tan 22.5°·.0736 = .030486.

    Allowances (.01743·.05 + .0078·.0236)·A = .00105558·A: .0950022 and .0475011. Flats 3 − .0736,
    2 − .0736 − .030486, .75 − .030486; with them and a hem of .5 the flat width is 6.184331.
    """
    done = bent(legs=(3.0, 2.0, 0.75), hems=(0.5,), radius=0.05, angles=(90.0, 45.0))
    assert done.trim[0].flat_width.value == pytest.approx(6.184331, abs=2e-6)
    assert done.figures["trim.1.plain"].value == 6.25


@given(
    st.lists(st.floats(0.5, 8), min_size=2, max_size=6), st.floats(0, 0.2),
    st.lists(st.floats(5, 150), min_size=5, max_size=5), st.floats(0.01, 0.06),
)
@settings(max_examples=draws(60), deadline=None)
def test_it_is_near_the_arc_through_the_middle_and_never_over_the_sum(
    legs: list[float], radius: float, turns: list[float], thickness: float
) -> None:
    """Geometry, worked out apart: straight parts plus arcs of the neutral line.

    The empirical allowance puts that line at about 0.447 of the thickness; half is taken here.
    """
    angles = tuple(turns[: len(legs) - 1])
    back = [math.tan(math.radians(a / 2)) * (radius + thickness) for a in angles]
    flats = [leg - (back[i - 1] if i else 0) - (back[i] if i < len(back) else 0)
             for i, leg in enumerate(legs)]
    assume(min(flats) > 0)
    job = with_trim(building(Building.GABLE), TrimPiece(
        name="Edge", length=480.0, legs=tuple(legs), radius=radius, angles=angles,
        made_from=TrimFrom.FLAT_SHEET, thickness=thickness))
    done = plan(job)
    arcs = sum(math.radians(a) * (radius + thickness / 2) for a in angles)
    flat_width = done.figures["trim.1.flat_width"].value
    apart = sum(math.radians(a) * (thickness * 0.06 + radius * 0.002) for a in angles)
    assert abs(flat_width - (sum(flats) + arcs)) <= apart + 1e-9
    assert flat_width <= done.figures["trim.1.plain"].value + 1e-9
    for key, figure in done.figures.items():
        if key.startswith("trim.1.") and figure.formula is not None:
            check(figure)


@pytest.mark.parametrize(
    ("piece", "words"),
    [
        ({"legs": (3.0, 0.1, 3.0), "radius": 0.16}, "Leg 2 of “Edge”"),
        ({"legs": (3.0, 2.0, 3.0), "radius": 0.1, "angles": (90.0,)},
         "has 3 legs, so 2 bends between them, and 1 angle"),
        ({"legs": (3.0, 2.0), "radius": 0.1, "made_from": TrimFrom.FLAT_SHEET},
         "flat sheet of unknown thickness"),
    ],
)
def test_what_cannot_be_bent_stops_the_order(piece: dict[str, Any], words: str) -> None:
    done = bent(**piece)
    assert words in stopped(done)
    assert not done.trim
    assert not done.ready


def test_without_a_thickness_it_waits_for_it() -> None:
    job = with_trim(building(Building.GABLE),
                    TrimPiece(name="Edge", length=480.0, legs=(3.0, 2.0), radius=0.1))
    job = dataclasses.replace(job, metal=dataclasses.replace(job.metal, thickness=None))
    done = plan(job)
    assert "metal.thickness" in done.lacks["trim.1.flat_width"].needs
    assert not done.trim
    assert not [f for f in done.stops if f.key == "trim.1.cannot"]


def test_a_guessed_thickness_marks_the_flat_width() -> None:
    from tests.cases import guess

    job = with_trim(building(Building.GABLE),
                    TrimPiece(name="Edge", length=480.0, legs=(3.0, 2.0), radius=0.1))
    done = plan(guess(job, "metal.thickness"))
    assert done.trim[0].flat_width.mark == "~"


def test_bends_are_kept_in_the_file_and_bad_ones_refused() -> None:
    job = with_trim(building(Building.GABLE), TrimPiece(
        name="Edge", legs=(3.0, 2.0), radius=0.0, angles=(22.62,), thickness=0.032))
    assert read_model(to_text(job), Job, "job") == job
    for bad in ('"radius": "0.1 in", "angles": [180]', '"angles": [0]', '"thickness": "0 in"'):
        text = '{"format": "coilwright-job", "version": 1, "trim": {"pieces": [{"name": "E", '
        with pytest.raises(StoreError, match=r"bend|thickness"):
            read_model(f"{text}{bad}}}]}}}}", Job, "job")
