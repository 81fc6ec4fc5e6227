"""The coils to order: every panel once, no coil over a limit, enough at the shortest."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from hypothesis import assume, given, settings

from coilwright.job.coils import CoilOn
from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.plan import Plan, plan
from tests.cases import set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import whole_jobs
from tests.plan.coils import stock as stock

SLACK = 1 + 2e-9


def ordered(job: Job) -> Plan:
    """The job's plan, where it comes to an order at all."""
    done = plan(job)
    assume(done.coils)
    return done


@given(whole_jobs())
def test_every_panel_is_cut_exactly_once(job: Job) -> None:
    done = ordered(job)
    wanted = Counter[tuple[int, float]]()
    for plane in done.planes:
        for group in plane.groups:
            wanted[plane.number, group.length] += group.count
    given_out = Counter[tuple[int, float]]()
    for coil in done.coils:
        assert coil.cuts
        for cut in coil.cuts:
            given_out[cut.plane, cut.length] += cut.count
    assert given_out == wanted
    assert sum(given_out.values()) == done.figures["panels.count"].value


@given(whole_jobs())
def test_no_coil_is_over_its_limits(job: Job) -> None:
    done = ordered(job)
    machine, coils = job.machine, job.coils
    rack = coils.coil_on is CoilOn.RACK
    loads = [machine.arbor_load if rack else machine.decoiler_load, coils.supplier_heaviest,
             coils.site_lift]  # fmt: skip
    if rack and machine.arbors and machine.arbors > 1 and machine.rack_load:
        loads.append(machine.rack_load / machine.arbors)
    largest = machine.rack_diameter if rack else machine.decoiler_diameter
    assert largest is not None
    for coil in done.coils:
        assert coil.outside_diameter.value <= largest * SLACK
        for load in loads:
            assert load is None or coil.mass.value <= load * SLACK
        assert coil.length.value <= done.figures["coil.longest"].value * SLACK
    assert not any(f.key in ("machine.load", "machine.diameter") for f in done.findings)


@given(whole_jobs())
def test_the_shortest_it_may_come_still_covers_the_need(job: Job) -> None:
    done = ordered(job)
    spare, short = job.coils.spare or 0.0, job.coils.tolerance or 0.0
    lost = (job.machine.thread_up or 0.0) + (job.machine.tail or 0.0)
    for coil in done.coils:
        panels = math.fsum(cut.length * cut.count for cut in coil.cuts)
        need = panels * (1 + spare) + lost
        # One that is ordered alike with a longer one covers more than its own need.
        wanted = done.figures.get(f"coil.{coil.number}.wanted", coil.length)
        assert wanted.value * (1 - short) == pytest.approx(need, rel=1e-12)
        assert coil.length.value >= wanted.value
        assert coil.panels_length.value == pytest.approx(panels, rel=1e-12)


@given(whole_jobs())
def test_never_fewer_coils_than_the_bound(job: Job) -> None:
    done = ordered(job)
    assert done.fewest_coils is not None
    assert done.fewest_coils == done.figures["coil.fewest"].value
    assert len(done.coils) == done.figures["coil.count"].value
    assert len(done.coils) >= done.fewest_coils
    need = done.figures["panels.length"].value / done.figures["coil.usable"].value
    assert done.fewest_coils >= need - 1e-6


@given(whole_jobs())
@settings(max_examples=draws(30))
def test_the_governing_limit_is_the_least(job: Job) -> None:
    done = plan(job)
    if done.governing is None:
        assert "coil.longest" in done.lacks
        return
    least = min(limit.length.value for limit in done.limits)
    assert done.governing.length.value == least == done.figures["coil.longest"].value


def test_the_order_is_the_sum_of_its_coils() -> None:
    job = with_planes(small_gable(), Plane(eave=3000, slope_length=400, pitch=6))
    done = plan(job)
    assert len(done.coils) > 3
    assert done.figures["coil.length_ordered"].value == pytest.approx(
        math.fsum(c.length.value for c in done.coils)
    )
    assert done.figures["coil.mass_ordered"].value == pytest.approx(
        math.fsum(c.mass.value for c in done.coils)
    )


def test_equal_panels_come_out_in_even_coils() -> None:
    job = with_planes(small_gable(), Plane(eave=3000, slope_length=400, pitch=6))
    panels = [c.panels_length.value for c in plan(job).coils]
    # by one panel at most
    assert max(panels) - min(panels) <= 401 + 1e-6


def test_a_panel_longer_than_any_coil_stops_the_order() -> None:
    done = plan(with_planes(small_gable(), Plane(eave=100, slope_length=20_000, pitch=6)))
    assert done.coils == ()
    assert [f.key for f in done.stops] == ["coil.panel_too_long"]
    for key in ("coil.count", "coil.length_ordered", "coil.mass_ordered"):
        assert done.lacks[key].because
    assert not done.ready


def test_panels_too_long_for_new_coils_and_too_many_for_those_on_hand_are_told_so() -> None:
    job = with_planes(small_gable(), Plane(eave=100, slope_length=19_000, pitch=6))
    (alone,) = plan(job).stops
    (beside,) = plan(stock.with_coils(job, stock.coil("A", 1700))).stops
    assert alone.key == beside.key == "coil.panel_too_long"
    assert "one coil is good for" in alone.what
    assert "on hand" not in alone.why
    assert "one new coil is good for" in beside.what
    assert "cut all panels so long from the coils on hand" in beside.why


@pytest.mark.parametrize(
    ("key", "value", "governs"),
    [
        ("coils.supplier_heaviest", 2000.0, "supplier"),
        ("coils.site_lift", 1500.0, "site"),
        ("machine.rack_load", 4000.0, "rack"),
        ("machine.arbor_load", 2000.0, "arbor"),
        ("machine.rack_diameter", 28.0, "diameter"),
    ],
)
def test_each_limit_can_govern(key: str, value: float, governs: str) -> None:
    done = plan(set_answers(small_gable(), {key: value}))
    assert done.governing is not None
    assert done.governing.key == governs


def test_the_floor_decoiler_has_its_own_limits() -> None:
    job = set_answers(
        small_gable(),
        {"coils.coil_on": CoilOn.DECOILER, "machine.decoiler_load": 5000.0,
         "machine.decoiler_diameter": 45.0},
    )  # fmt: skip
    done = plan(job)
    assert {limit.key for limit in done.limits} == {"decoiler", "diameter", "site"}
    assert done.figures["coil.longest"].value > plan(small_gable()).figures["coil.longest"].value


def test_a_lighter_limit_never_makes_fewer_coils() -> None:
    job = with_planes(small_gable(), Plane(eave=2000, slope_length=300, pitch=6))
    counts = [
        len(plan(set_answers(job, {"machine.arbor_load": load})).coils)
        for load in (3000.0, 2500.0, 2000.0, 1500.0, 1000.0)
    ]
    assert counts == sorted(counts)
