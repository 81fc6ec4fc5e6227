"""Coils in stock that a job does not use: which would save new metal, held to whole plans."""

from __future__ import annotations

import dataclasses
import datetime

import pytest
from hypothesis import given

from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.job.stock import Stock
from coilwright.plan import fitting, plan
from coilwright.plan.coils.leftovers import fitting_leftovers, offer_leftovers, taken, with_coils
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.values.keys import Key
from tests.cases import small_gable
from tests.plan.coils.stock import coil, jobs_with_coils


def test_the_barn_is_offered_the_leftovers_that_save() -> None:
    before = plan(demo_jobs()["heron-lane-barn"])
    offer = offer_leftovers(before, demo_stock())
    assert offer is not None
    after = plan(taken(before.job, offer))
    assert {one.index for one in after.from_stock} == set(range(len(offer.coils))), "all are used"
    for key, saved in ((Key.COIL_LENGTH_ORDERED, offer.length),
                       (Key.COIL_MASS_ORDERED, offer.mass)):
        assert saved.value == pytest.approx(before.figures[key].value - after.figures[key].value)
    assert offer_leftovers(after, demo_stock()) is None, "what is in the job is offered no more"


@given(jobs_with_coils())
def test_what_is_offered_fits_is_used_and_saves_what_is_said(job: Job) -> None:
    bare, stock = dataclasses.replace(job, on_hand=()), Stock(coils=job.on_hand)
    now = plan(bare)
    offer = offer_leftovers(now, stock)
    if offer is None:
        return
    assert all(one in stock.coils and not fitting(bare, one) for one in offer.coils)
    then = plan(taken(bare, offer))
    still = then.figures.get(Key.COIL_LENGTH_ORDERED)
    assert now.figures[Key.COIL_LENGTH_ORDERED].value - (still.value if still else 0.0) == (
        pytest.approx(offer.length.value, abs=1e-6))
    assert offer.length.value > 0


def test_a_leftover_that_does_the_whole_job_saves_the_whole_order() -> None:
    now = plan(small_gable())
    offer = offer_leftovers(now, Stock(coils=(coil("A", 2000), coil("B", 2000, color="Red"))))
    assert offer is not None
    assert [one.tag for one in offer.coils] == ["A"]
    assert offer.length.value == now.figures[Key.COIL_LENGTH_ORDERED].value


def test_nothing_is_offered_without_cause() -> None:
    job = small_gable()
    stock = Stock(coils=(coil("A", 400),))
    assert fitting_leftovers(job, stock)
    assert offer_leftovers(plan(job), Stock()) is None
    assert offer_leftovers(plan(job), Stock(coils=(coil("A", 1),))) is None, "too short to cut from"
    assert not fitting_leftovers(with_coils(job, stock.coils), stock), "it is in the job"
    step = LifeStep(state=OrderState.ORDERED, date=datetime.date(2026, 4, 1))
    sent = dataclasses.replace(job, life=Life(steps=(step,)))
    assert not fitting_leftovers(sent, stock), "what was sent is not changed behind one's back"


def test_coils_of_the_job_stay_as_they_are() -> None:
    job = with_coils(small_gable(), (coil("A", 300),))
    both = with_coils(job, (coil("a", 900), coil("B", 200), coil("C", 200, color="Red")))
    assert both.on_hand == (*job.on_hand, coil("B", 200))
