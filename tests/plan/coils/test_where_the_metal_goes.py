"""Where the metal goes: every part there, none counted twice, all together the order."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings

from coilwright.job.job import Job
from coilwright.job.roof import Opening, Openings, Plane
from coilwright.plan import plan
from tests.cases import set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import whole_jobs


@given(whole_jobs())
@settings(max_examples=draws(150))
def test_the_parts_add_up_to_the_ordered_weight(job: Job) -> None:
    done = plan(job)
    assume(done.account)
    ordered = done.figures["coil.mass_ordered"].value
    parts = [line.mass.value for line in done.account]
    assert math.fsum(parts) == pytest.approx(ordered, rel=1e-9)
    assert done.figures["account.total"].value == pytest.approx(ordered, rel=1e-9)
    assert math.fsum(line.share.value for line in done.account) == pytest.approx(1, rel=1e-9)


@given(whole_jobs())
@settings(max_examples=draws(100))
def test_no_part_is_less_than_nothing(job: Job) -> None:
    done = plan(job)
    assume(done.account)
    ordered = done.figures["coil.mass_ordered"].value
    for line in done.account:
        assert line.mass.value >= -1e-9 * ordered, line.name


def test_each_part_by_itself() -> None:
    """By hand: 100 in by 100 in, 16 in coverage: six whole panels and one ripped to 4 in."""
    job = with_planes(small_gable(), Plane(eave=100, slope_length=100, pitch=6))
    done = plan(job)
    sheet = 0.2833 * 0.0236
    parts = {line.name: line.mass.value for line in done.account}
    net = 7 * 101
    ordered = (net * 1.03 + 120) / 0.9
    assert parts == pytest.approx(
        {
            "roof covered": 10_000 * sheet,
            "seam take-up": 700 * 5 * sheet,
            "ripped edges": (700 * 16 - 10_000) * sheet,
            "end allowance": 7 * 21 * sheet,
            "thread and tail": 120 * 21 * sheet,
            "spare": net * 0.03 * 21 * sheet,
            "tolerance": ordered * 0.10 * 21 * sheet,
        }
    )


def test_openings_that_panels_run_over_have_their_own_line() -> None:
    plane = Plane(
        eave=160, slope_length=100, pitch=6, alike=3,
        openings=(Opening(left=30, up=20, width=40, height=50),),
    )  # fmt: skip
    sheet = 0.2833 * 0.0236
    through = plan(with_planes(small_gable(), plane))
    parts = {line.name: line.mass.value for line in through.account}
    assert parts["cut out at openings"] == pytest.approx(3 * 40 * 50 * sheet)
    assert parts["roof covered"] == pytest.approx(3 * (160 * 100 - 40 * 50) * sheet)
    around = plan(
        set_answers(with_planes(small_gable(), plane), {"roof.openings": Openings.DEDUCT})
    )
    parts = {line.name: line.mass.value for line in around.account}
    assert "cut out at openings" not in parts
    assert parts["roof covered"] == pytest.approx(3 * (160 * 100 - 40 * 50) * sheet)


def test_no_order_no_account() -> None:
    done = plan(set_answers(small_gable(), {"metal.thickness": None}))
    assert done.account == ()
    assert "account.total" not in done.figures
