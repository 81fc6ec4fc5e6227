"""Production lots: where panels of one roof come from more than one of them."""

from __future__ import annotations

import pytest

from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.job.stock import CoilOnHand
from coilwright.plan import plan
from coilwright.values.finding import Finding, Level
from tests.cases import small_gable, with_planes
from tests.plan.coils.stock import coil, with_coils


def told(job: Job, *coils: CoilOnHand) -> list[Finding]:
    return [f for f in plan(with_coils(job, *coils)).findings if f.key == "coils.lots"]


def test_new_coils_alone_are_one_lot() -> None:
    assert told(small_gable()) == []


def test_on_hand_and_new_meet_on_one_plane() -> None:
    (finding,) = told(small_gable(), coil("A", 400, lot="L-1"))
    assert finding.level is Level.CARE
    assert "lot L-1, new coils" in finding.what
    assert "they meet on Side" in finding.what


@pytest.mark.parametrize(
    ("first", "second", "speaks"),
    [
        ("L-1", "L-2", True),
        ("L-1", "l-1 ", False),
        ("L-1", "", True),
        # two coils of which nobody knows the lot may be of two
        ("", "", True),
    ],
)
def test_two_coils_on_hand_that_do_the_whole_roof(first: str, second: str, speaks: bool) -> None:
    done = plan(with_coils(small_gable(), coil("A", 700, lot=first), coil("B", 700, lot=second)))
    assert done.coils == ()
    assert {c.tag for c in done.from_stock} == {"A", "B"}
    assert any(f.key == "coils.lots" for f in done.findings) is speaks


def test_strips_of_one_coil_are_one_lot() -> None:
    done = plan(with_coils(small_gable(), coil("A", 700, width=42.0)))
    assert done.coils == ()
    assert len(done.from_stock) == 2
    assert not [f for f in done.findings if f.key == "coils.lots"]


def test_a_lot_that_is_not_used_says_nothing() -> None:
    assert told(small_gable(), coil("A", 1500, lot="L-1"), coil("B", 11, lot="L-2")) == []


def test_lots_that_do_not_meet_on_a_plane_are_only_noted() -> None:
    """A plane of long panels from one coil on hand; the other, of short ones, from another."""
    job = with_planes(
        small_gable(),
        Plane(name="Long", eave=160.0, slope_length=300.0, pitch=6.0),
        Plane(name="Short", eave=32.0, slope_length=100.0, pitch=6.0),
    )
    lots = coil("A", 270, lot="L-1"), coil("B", 27.5, lot="L-2")
    done = plan(with_coils(job, *lots))
    cut = {c.tag: {cut.name for cut in c.cuts} for c in done.from_stock}
    assert cut == {"A": {"Long"}, "B": {"Short"}}
    (finding,) = told(job, *lots)
    assert finding.level is Level.NOTE
    assert "each plane from one of them" in finding.what
