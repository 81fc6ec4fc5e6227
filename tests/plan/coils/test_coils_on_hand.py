"""Coils on hand in a plan: used first, never past their end, and what they save."""

from __future__ import annotations

import dataclasses
import math
from collections import Counter

import pytest
from hypothesis import assume, given, settings

from coilwright.job.answers.metal import MetalKey
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, Finish, MetalName
from coilwright.job.roof import Plane
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.plan import Plan, fitting, plan, replan
from coilwright.plan.coils.after_run import after_run
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from tests.cases import set_answers, small_gable, with_planes
from tests.draws import draws
from tests.plan.coils.stock import coil, jobs_with_coils, with_coils
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.values.written import check


def ordered(job: Job) -> Plan:
    done = plan(job)
    assume(done.coils or done.from_stock)
    return done


@given(jobs_with_coils())
@settings(max_examples=draws(60), deadline=None)
def test_every_panel_once_and_no_coil_past_its_end(job: Job) -> None:
    done = ordered(job)
    wanted, given_out = Counter[tuple[int, float]](), Counter[tuple[int, float]]()
    for plane in done.planes:
        for group in plane.groups:
            wanted[plane.number, group.length] += group.count
    for coils in (done.coils, done.from_stock):
        for one in coils:
            for cut in one.cuts:
                given_out[cut.plane, cut.length] += cut.count
    assert given_out == wanted
    spare = job.coils.spare or 0.0
    lost = (job.machine.thread_up or 0.0) + (job.machine.tail or 0.0)
    for one in done.from_stock:
        panels = math.fsum(cut.length * cut.count for cut in one.cuts)
        assert one.panels_length.value == pytest.approx(panels)
        assert one.taken.value == pytest.approx(panels * (1 + spare) + lost)
        assert one.left.value >= -1e-6 * one.length.value
        assert one.left.value == pytest.approx(one.length.value - one.taken.value)
    strips = [(one.index, one.strip) for one in done.from_stock]
    assert len(set(strips)) == len(strips)
    assert all(1 <= one.strip <= one.strips for one in done.from_stock)


@given(jobs_with_coils())
@settings(max_examples=draws(60), deadline=None)
def test_the_account_still_adds_up(job: Job) -> None:
    done = ordered(job)
    masses = [line.mass.value for line in done.account]
    scale = math.fsum(map(abs, masses))
    order = done.figures["coil.mass_ordered"].value
    assert abs(math.fsum(masses) - order) <= 1e-9 * scale
    assert abs(done.figures["account.total"].value - order) <= 1e-9 * scale
    length = math.fsum(line.length.value for line in done.account if line.length)
    assert abs(length - done.figures["coil.length_ordered"].value) <= 1e-9 * scale / (
        done.figures["strip.mass_per_length"].value
    )
    for line in done.account:
        assert (line.mass.value >= -1e-9 * scale) == (line.name != "from coils on hand")


@given(jobs_with_coils())
@settings(max_examples=draws(60), deadline=None)
def test_coils_on_hand_never_make_the_order_longer(job: Job) -> None:
    done = ordered(job)
    alone = plan(with_coils(job))
    if not alone.coils:
        return
    less = done.figures["coil.length_ordered"].value
    more = alone.figures["coil.length_ordered"].value
    assert less <= more * (1 + 1e-9)
    if "save.length" in done.figures:
        assert done.figures["save.length"].value == pytest.approx(more - less, abs=1e-6 * more)
        # Who takes them sees the order fall by just what was said, each to the inch and the pound.
        for saved, of in (("save.length", "coil.length_ordered"),
                          ("save.mass", "coil.mass_ordered")):
            with_, without = (each.figures[of].as_read(job.units) for each in (done, alone))
            assert done.figures[saved].as_read(job.units) == pytest.approx(without - with_)
    assert done.proof is not None
    assert done.proof.least.value <= less * (1 + 1e-9)
    if done.proof.proven:
        assert done.proof.gap.value == pytest.approx(0, abs=1e-6 * more)


@given(jobs_with_coils())
@settings(max_examples=draws(20), deadline=None)
def test_every_equation_gives_its_figure(job: Job) -> None:
    for figure in plan(job).figures.values():
        if figure.key.startswith(("on_hand", "save", "coil", "account")) and figure.formula:
            check(figure)


@given(jobs_with_coils())
@settings(max_examples=draws(20), deadline=None)
def test_the_same_job_gives_the_same_plan(job: Job) -> None:
    def told(done: Plan) -> object:
        return ([(c.length.value, c.cuts) for c in done.coils],
                [(c.key, c.left.value, c.cuts) for c in done.from_stock],
                done.findings)  # fmt: skip

    first = told(plan(job))
    assert told(plan(job)) == first


class TestTheBarn:
    """The demo barn: 64 panels of 217 in, strips of 21 in; 3 % spare, 10 ft lost, 10 % short."""

    def job(self) -> Job:
        barn = set_answers(demo_jobs()["heron-lane-barn"], {"coils.price": 1.2})
        return with_coils(barn, *demo_stock().coils)

    def test_worked_by_hand(self) -> None:
        """Whole panels from each part coil, the rest from a new one.

        S-101: (3720 − 120)/1.03 = 3495 in, 16 panels. S-102: (2340 − 120)/1.03 = 2155 in, 9.
        S-107: π·(22.375² − 20.125²)/(4·0.0236·1.06) = π·95.625/0.100064 = 3002 in;
        (3002 − 120)/1.03 = 2798 in, 12. Left for a new coil: 64 − 37 = 27 panels:
        (27·217·1.03 + 120)/0.9 = 6838.6 in. Without: (64·217·1.03 + 120)/0.9 = 16,027.4 in.
        Saved: 9188.7 in, 765 ft 9 in; at 0.2833·0.0236·21 lb/in 1290.1 lb; at $1.20 $1548.
        """
        done = plan(self.job())
        assert [(c.tag, sum(cut.count for cut in c.cuts)) for c in done.from_stock] == [
            ("S-101", 16), ("S-102", 9), ("S-107", 12),
        ]  # fmt: skip
        assert [sum(cut.count for cut in c.cuts) for c in done.coils] == [27]
        value = {key: figure.value for key, figure in done.figures.items()}
        assert value["coil.length_ordered"] == pytest.approx(6838.6, abs=0.1)
        assert value["save.without"] == pytest.approx(16_027.4, abs=0.1)
        assert value["save.length"] == pytest.approx(9188.7, abs=0.1)
        assert value["save.mass"] == pytest.approx(1290.1, abs=0.1)
        assert value["save.money"] == pytest.approx(1548.2, abs=0.1)
        assert value["coil.cost"] == pytest.approx(value["coil.mass_ordered"] * 1.2)
        assert done.proof is not None
        assert done.proof.proven

    def test_no_more_than_37_panels_fit_the_part_coils(self) -> None:
        """Each coil alone holds at most ⌊what it is good for / 217 in⌋ panels, so the plan is
        the least there is."""
        done = plan(self.job())
        most = sum(math.floor(c.usable.value / 217) for c in done.from_stock)
        assert most == 37

    def test_why_the_others_are_not_used(self) -> None:
        found = {f.key: f for f in plan(self.job()).findings if f.key.endswith(".unfit")}
        said = {key: f.what for key, f in found.items()}
        assert "on hand is not used: it is copper; the job takes steel." in said["on_hand.4.unfit"]
        assert "its coating is G90; the job takes AZ50." in said["on_hand.5.unfit"]
        assert "Its color is moss" in said["on_hand.5.unfit"]
        # What would change it is what it differs in.
        assert {MetalKey.COATING, MetalKey.COLOR} <= {*found["on_hand.5.unfit"].answers}


def gable(*coils: CoilOnHand) -> Plan:
    return plan(with_coils(small_gable(), *coils))


def keys(done: Plan) -> set[str]:
    return {f.key for f in done.findings}


def test_all_from_stock_orders_nothing_and_is_ready() -> None:
    done = gable(coil("A", 1300))
    assert done.coils == ()
    assert len(done.from_stock) == 1
    assert done.figures["coil.mass_ordered"].value == 0
    assert done.figures["account.total"].value == pytest.approx(0, abs=1e-9)
    assert done.ready
    assert "on_hand.lifting" in keys(done)
    assert "coil.mass_ordered" not in done.lacks


def test_a_wide_coil_gives_strips_side_by_side() -> None:
    """48 in gives two strips of 21 in, 6 in over; each is good for (2400 − 120)/1.03 in."""
    done = gable(coil("W", 200, width=48.0))
    assert [(c.name, c.strip, c.strips) for c in done.from_stock] == [
        ("W, strip 1", 1, 2), ("W, strip 2", 2, 2),
    ]  # fmt: skip
    assert done.figures["on_hand.1.drop"].value == 6
    assert [sum(cut.count for cut in c.cuts) for c in done.from_stock] == [10, 10]
    assert "on_hand.1.slit" in keys(done)


@pytest.mark.parametrize(("feet", "key"), [(9.0, "unfit"), (25.0, "unused")])
def test_a_coil_too_short_for_anything_says_so(feet: float, key: str) -> None:
    done = gable(coil("A", feet))
    assert done.from_stock == ()
    assert f"on_hand.1.{key}" in keys(done)
    saved = done.figures.get("save.length")
    assert saved is None or saved.value == pytest.approx(0, abs=1e-9)


def test_a_panel_longer_than_a_new_coil_can_come_from_stock() -> None:
    long = with_planes(small_gable(), Plane(eave=15, slope_length=19_000, pitch=6))
    assert "coil.panel_too_long" in keys(plan(long))
    done = plan(with_coils(long, coil("A", 1700)))
    assert "coil.panel_too_long" not in keys(done)
    assert done.coils == ()
    assert "without them a panel" in done.lacks["save.length"].because


def test_stubs_by_the_length_worth_keeping() -> None:
    """20 panels of 217 in from 4700 in: 4700 − 20·217·1.03 − 120 = 109.8 in left."""
    short = set_answers(small_gable(), {"coils.keep_length": 120.0})
    done = plan(with_coils(short, coil("A", 4700 / 12)))
    assert done.from_stock[0].left.value == pytest.approx(109.8)
    assert done.from_stock[0].too_short
    used_up = plan(with_coils(short, coil("A", (4700 - 109.4) / 12)))
    assert not used_up.from_stock[0].too_short, "0 in is no leftover"
    assert used_up.from_stock[0].left.text() == "0 in"
    keep = set_answers(small_gable(), {"coils.keep_length": 100.0})
    assert not plan(with_coils(keep, coil("A", 4700 / 12))).from_stock[0].too_short


def test_too_heavy_too_large_and_too_much_together() -> None:
    light = set_answers(small_gable(), {"machine.arbor_load": 400.0})
    stops = {f.key for f in plan(with_coils(light, coil("A", 310))).stops}
    assert "on_hand.1.too_heavy" in stops
    large = plan(with_coils(small_gable(), coil("A", outside=32.5, inside=20.0)))
    assert "on_hand.1.too_large" in {f.key for f in large.stops}
    weak = set_answers(small_gable(), {"machine.rack_load": 900.0})
    done = plan(with_coils(weak, coil("A", 310), coil("B", 300)))
    found = next(f for f in done.findings if f.key == "coils.rack_together")
    assert found.level is Level.CARE
    assert done.figures["coil.rack_together"].value == pytest.approx(
        0.2833 * 0.0236 * 21 * 610 * 12
    )
    strong = plan(with_coils(small_gable(), coil("A", 310), coil("B", 300)))
    assert "coils.rack_together" not in keys(strong)


def test_a_new_coil_beside_one_on_hand_counts_at_the_heaviest_it_may_come() -> None:
    """On the rack sits what arrives, not what was ordered."""
    weak = set_answers(small_gable(), {"machine.rack_load": 4000.0})
    done = plan(with_coils(weak, coil("A", 600)))
    (new,) = done.coils
    arrives = new.mass.value * (1 + 0.10)
    assert done.figures["coil.rack_together"].value == pytest.approx(
        0.2833 * 0.0236 * 21 * 600 * 12 + arrives
    )


def test_lots_that_mix_are_said_once() -> None:
    said = [k for k in keys(gable(coil("A", 310, lot="1"))) if k.endswith("lots")]
    assert said == ["coils.lots"]
    assert not [k for k in keys(gable(coil("A", 1300, lot="1"))) if k.endswith("lots")]


def test_a_coil_of_known_length_that_comes_out_too_large_is_stopped_too() -> None:
    """√(20² + 4·1,400·12·0.0236/π) = √904.8 = 30.08 in across."""
    for largest, stops in ((30.0, ["on_hand.1.too_large"]), (30.1, [])):
        small = set_answers(small_gable(), {"machine.rack_diameter": largest})
        done = plan(with_coils(small, coil("A", 1400)))
        assert [f.key for f in done.stops] == stops
        assert done.figures["on_hand.1.across"].value == pytest.approx(30.08, abs=0.001)
        for finding in done.stops:
            assert "about 30.08" in finding.what
            assert "Measure it" in finding.do


@pytest.mark.parametrize(("inside", "stops"), [
    (15.9, ["on_hand.1.inside"]), (16.0, []), (24.0, []), (24.1, ["on_hand.1.inside"]),
])
def test_a_coil_whose_hole_fits_no_arbor_is_stopped(inside: float, stops: list[str]) -> None:
    done = plan(with_coils(small_gable(), coil("A", outside=27.0, inside=inside)))
    assert done.from_stock
    assert [f.key for f in done.stops if f.key != "coils.lots"] == stops
    # one that is slit first is wound anew
    wide = plan(with_coils(small_gable(), coil("A", outside=27.0, inside=inside, width=42.0)))
    assert wide.from_stock
    assert [f.key for f in wide.stops if f.key != "coils.lots"] == []


def test_metal_of_another_kind_is_left_alone() -> None:
    done = gable(coil("A", 310, metal=MetalName.ZINC))
    assert done.from_stock == ()
    assert "on_hand.1.unfit" in keys(done)


def test_a_guess_that_decides_the_fit_marks_what_follows() -> None:
    job = with_coils(small_gable(), coil("A", 310))
    marked = dataclasses.replace(job, standing={"metal.color": Standing.GUESS})
    assert plan(job).figures["coil.length_ordered"].mark == ""
    assert plan(marked).figures["coil.length_ordered"].mark == "~"


def test_a_longer_search_is_never_worse_and_can_be_stopped() -> None:
    job = with_planes(
        with_coils(small_gable(), *(coil(f"T-{n}", 80 + 37 * n) for n in range(6))),
        *(Plane(eave=16 * 6, slope_length=100.5 + 23.25 * n, pitch=6) for n in range(9)),
    )
    quick = plan(job)
    heard: list[tuple[float, float]] = []
    longer = replan(job, 0.2, progress=lambda metal, bound: heard.append((metal, bound)))
    assert (longer.figures["coil.length_ordered"].value
            <= quick.figures["coil.length_ordered"].value * (1 + 1e-9))  # fmt: skip
    assert heard
    assert all(bound <= metal + 1e-6 for metal, bound in heard)
    stopped = replan(job, 0.2, canceled=lambda: True)
    assert (stopped.figures["coil.length_ordered"].value
            <= quick.figures["coil.length_ordered"].value * (1 + 1e-9))  # fmt: skip


@pytest.mark.parametrize(("written", "is_fit"), [
    ("S-05 (invented)", True), ("s 05 invented", True), ("SLATE", True),
    ("Slate, S-05 (invented)", True), ("S-06 (invented)", False), ("moss", False),
])
def test_a_coil_named_by_its_color_or_by_the_code_of_it_fits(written: str, is_fit: bool) -> None:
    job = small_gable()
    metal = dataclasses.replace(job.metal, color_code="S-05 (invented)")
    assert (fitting(dataclasses.replace(job, metal=metal), coil("C", 100, color=written)) == ()
            ) is is_fit


@pytest.mark.parametrize(("color", "code", "reason"), [
    ("Slate", "s 05 invented", ""), ("Slate", "", ""), ("", "S-05 (invented)", ""),
    ("S-05 (invented)", "S-05 (invented)", ""),
    ("Slate", "S-06", "Its color code is S-06; the job takes slate, S-05 (invented)."),
    ("Moss", "S-05 (invented)", "Its color is Moss, S-05 (invented); the job takes slate, S-05 "
     "(invented)."),
])
def test_a_coil_fits_by_color_and_code_as_the_client_signs_for_both(
    color: str, code: str, reason: str
) -> None:
    job = small_gable()
    coded = dataclasses.replace(job, metal=dataclasses.replace(
        job.metal, color_code="S-05 (invented)"))
    own = coil("C", 100, color=color, color_code=code)
    assert fitting(coded, own) == ((reason,) if reason else ())
    if color == "Slate":
        assert fitting(job, own) == (), "the job asks for no code"
    # What is left of a new one bears the color and code that were ordered, each once, where its tag
    # says either; and bare metal bears none, though a color was answered before it was bare.
    both, bare = ("slate", "S-05 (invented)"), set_answers(coded, {"metal.finish": Finish.BARE})
    for of, came, kept in ((coded, "", both), (coded, "Slate S-05 (invented)", both),
                           (coded, "S-05 (invented)", both), (coded, "Moss", ("Moss", "")),
                           (bare, "", ("", "")), (bare, "slate", ("slate", ""))):
        (left,) = after_run(plan(with_arrived(of, arrival(coil=1, color=came))), Stock(),
                            {"coil.1": 400.0}).coils
        assert (left.color, left.color_code) == kept
        assert left.coating is CoatingName.AZ50
    # Nor has aluminum the coating that was answered while it was steel.
    aluminum = set_answers(coded, {"metal.metal": MetalName.ALUMINUM, "metal.thickness": 0.032})
    (left,) = after_run(plan(aluminum), Stock(), {"coil.1": 400.0}).coils
    assert (left.coating, left.thickness_basis) == (None, None)


def test_a_guess_of_what_is_not_asked_of_the_metal_leaves_no_mark() -> None:
    """Aluminum has no coating that its thickness could include: a guess from before is of nothing,
    and an order that is ready by all that is asked has no figure marked."""
    job = set_answers(small_gable(), {
        "metal.metal": MetalName.ALUMINUM, "metal.coating": None, "metal.thickness": 0.032})
    on_hand = dataclasses.replace(job, on_hand=(coil(
        "A", 100, metal=MetalName.ALUMINUM, coating=None, thickness_basis=None, thickness=0.032),))
    for key, marked in (("metal.thickness_basis", False), ("metal.color", True)):
        done = plan(dataclasses.replace(on_hand, standing={key: Standing.GUESS}))
        assert done.from_stock, [f.what for f in done.findings]
        assert bool(done.figures[Key.COIL_COUNT].mark) is marked, key
