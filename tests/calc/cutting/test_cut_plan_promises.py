"""What a cut plan promises whatever it is asked: fit, honesty, time, order and clear refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.cutting.cutplan import CannotCut, Demand, PanelTooLong, cut_plan
from tests.calc.cutting import instances
from tests.calc.cutting.checking import hold_to_the_order
from tests.draws import draws
from tests.work import within


@st.composite
def orders(draw: st.DrawFn) -> tuple[list[Demand], list[float], float, float]:
    step = draw(st.sampled_from([1.0, 0.25, 0.0625, 0.1, 1 / 25.4, 5 / 25.4, None]))
    lengths = st.floats(12, 480) if step is None else st.integers(
        math.ceil(12 / step), int(480 / step)
    ).map(lambda n: n * step)
    demands = draw(st.lists(
        st.builds(Demand, lengths, st.integers(0, 12), st.integers(0, 3)), max_size=8
    ))
    coils = draw(st.lists(st.floats(1, 4000), max_size=4))
    return demands, coils, draw(st.floats(480, 6000)), draw(st.sampled_from([0.0, 48.5, 120.0]))


@settings(max_examples=draws(120), deadline=None)
@given(orders())
def test_every_demand_is_met_and_no_coil_is_overfilled(
    question: tuple[list[Demand], list[float], float, float]
) -> None:
    demands, coils, longest, loss = question
    plan = cut_plan(demands, coils, longest, loss_per_new=loss, seconds=0.05)
    hold_to_the_order(plan, demands, coils, longest, loss, 240.0)
    whole = math.fsum(d.length * d.count for d in demands)
    assert plan.new_metal_bound >= min(plan.new_metal, whole - math.fsum(coils)) - 1e-6


def test_no_panels_need_no_coils() -> None:
    plan = cut_plan([Demand(100.0, 0)], [500.0], 1000.0, loss_per_new=120.0)
    assert plan.coils == ()
    assert plan.new_metal == 0
    assert plan.proven.metal


def test_coils_on_hand_are_filled_to_the_last_inch_where_panels_allow() -> None:
    # 3 × 100 and 2 × 150 fill a coil of 300 and one of 300 only as 100+100+100 and 150+150.
    plan = cut_plan([Demand(100.0, 3), Demand(150.0, 2)], [300.0, 300.0], 1000.0)
    assert plan.new_metal == 0
    assert plan.stubs == 0
    assert sorted(coil.leftover for coil in plan.coils) == [0, 0]


def test_the_loss_of_one_more_new_coil_outweighs_a_little_metal() -> None:
    # All three from new coils takes two (200 of panels over 150): 200 + 2 × 50. With the 60 cut
    # from the coil on hand, 140 + 50.
    plan = cut_plan([Demand(70.0, 2), Demand(60.0, 1)], [65.0], 150.0, loss_per_new=50.0)
    assert plan.new_metal == 190
    assert plan.new_coils == 1
    assert plan.proven.coils


def test_a_leftover_worth_keeping_is_preferred_to_two_stubs() -> None:
    plan = cut_plan([Demand(100.0, 4)], [500.0, 500.0], 1000.0, keep=240.0)
    # All four from one coil leaves 100 (a stub); two from each leaves 300 twice.
    assert plan.stubs == 0
    assert [coil.leftover for coil in plan.coils] == [300.0, 300.0]


def test_new_coils_are_evened_out() -> None:
    plan = cut_plan([Demand(100.0, 12)], [], 1000.0)
    assert [coil.used for coil in plan.coils] == [600.0, 600.0]
    assert plan.proven.even


def test_planes_stay_together_where_it_is_free() -> None:
    demands = [Demand(217.0, 32, 0), Demand(217.0, 32, 1)]
    plan = cut_plan(demands, [], 9000.0, loss_per_new=120.0)
    assert [coil.cuts for coil in plan.coils] == [((0, 32),), ((1, 32),)]


def test_planes_of_many_lengths_stay_together_too() -> None:
    demands = [Demand(100.0 + 10 * i, 4, plane) for plane in (0, 1) for i in range(6)]
    plan = cut_plan(demands, [], 4000.0)
    assert plan.new_coils == 2
    for coil in plan.coils:
        assert len({demands[i].plane for i, _ in coil.cuts}) == 1


def test_coils_may_be_a_little_uneven_to_keep_planes_together() -> None:
    demands = [Demand(100.0, 11, 0), Demand(100.0, 9, 1)]
    even = cut_plan(demands, [], 1500.0)
    together = cut_plan(demands, [], 1500.0, even_within=100.0)
    assert [coil.used for coil in even.coils] == [1000.0, 1000.0]
    assert [coil.cuts for coil in together.coils] == [((0, 11),), ((1, 9),)]


def test_cuts_regrouped_by_planes_are_said_to_be_even_only_where_they_are() -> None:
    demands = [Demand(100.0, 11, 0), Demand(100.0, 9, 1)]
    together = cut_plan(demands, [], 1500.0, even_within=100.0)
    assert [coil.used for coil in together.coils] == [1100.0, 900.0]
    assert not together.proven.even
    # Two planes alike regroup as evenly as they were.
    alike = cut_plan([Demand(100.0, 10, 0), Demand(100.0, 10, 1)], [], 1500.0, even_within=100.0)
    assert [coil.cuts for coil in alike.coils] == [((0, 10),), ((1, 10),)]
    assert alike.proven.even


_ODD = 100 * math.sqrt(2)
"""A length on no common step with others [in]."""


@pytest.mark.parametrize(
    ("demands", "coils", "longest"),
    [
        ([Demand(_ODD, 1)], [_ODD], 0.0),
        ([Demand(_ODD, 2)], [], _ODD),
        ([Demand(_ODD, 1), Demand(303.625, 1)], [303.625], _ODD),
        ([Demand(_ODD, 1), Demand(303.625, 1)], [_ODD + 303.625], 0.0),
        ([Demand(_ODD, 2), Demand(100 / 3, 3)], [2 * _ODD, 100.0], 0.0),
        ([Demand(63.5625, 1)], [63.5625 - 5e-7], 0.0),
    ],
)
def test_a_panel_exactly_as_long_as_a_coil_is_good_for_fits(
    demands: list[Demand], coils: list[float], longest: float
) -> None:
    plan = cut_plan(demands, coils, longest)
    hold_to_the_order(plan, demands, coils, longest, 0.0, 240.0)


@settings(max_examples=draws(120), deadline=None)
@given(st.lists(st.tuples(st.floats(20, 500), st.integers(1, 3)), min_size=1, max_size=4),
       st.integers(0, 3))
def test_coils_just_as_long_as_their_panels_are_filled_and_never_overfilled(
    panels: list[tuple[float, int]], more: int
) -> None:
    demands = [Demand(length, count) for length, count in panels]
    coils = [length for length, count in panels for _ in range(count)]
    plan = cut_plan(demands, [*coils, *coils[:more]], 0.0, seconds=0.05)
    hold_to_the_order(plan, demands, [*coils, *coils[:more]], 0.0, 0.0, 240.0)


def test_a_panel_longer_than_any_coil_is_refused() -> None:
    with pytest.raises(PanelTooLong, match="Panel 2 is 900 in long, and no coil is good for more") \
            as refusal:
        cut_plan([Demand(100.0, 1), Demand(900.0, 1)], [300.0], 800.0)
    assert refusal.value.demand == 1


def test_a_long_panel_is_cut_from_the_only_coil_long_enough() -> None:
    plan = cut_plan([Demand(500.0, 1), Demand(300.0, 3)], [600.0, 350.0], 400.0)
    long = next(coil for coil in plan.coils if (0, 1) in coil.cuts)
    assert long.on_hand == 0


def test_two_long_panels_for_one_long_coil_are_refused() -> None:
    with pytest.raises(CannotCut, match="do not all fit on the coils on hand"):
        cut_plan([Demand(500.0, 2)], [600.0], 400.0)


def test_without_new_coils_all_must_fit_on_hand() -> None:
    assert cut_plan([Demand(100.0, 3)], [310.0], 0.0).new_coils == 0
    with pytest.raises(CannotCut, match="none can be ordered"):
        cut_plan([Demand(100.0, 4)], [310.0], 0.0)


@pytest.mark.parametrize(
    ("demands", "coils", "longest", "words"),
    [
        ([Demand(0.0, 1)], [], 100.0, "Panel 1: the length must be above 0"),
        ([Demand(math.nan, 1)], [], 100.0, "Panel 1: the length must be above 0"),
        ([Demand(10.0, -1)], [], 100.0, "Panel 1: the count cannot be -1"),
        ([Demand(10.0, 1)], [-5.0], 100.0, "A coil on hand: -5.0 makes no sense"),
        ([Demand(10.0, 1)], [], math.inf, "The longest new coil: inf makes no sense"),
    ],
)
def test_senseless_sizes_are_refused_in_a_sentence(
    demands: list[Demand], coils: list[float], longest: float, words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        cut_plan(demands, coils, longest)


def test_floats_that_lie_on_tenths_and_millimeters_are_added_exactly() -> None:
    # In floats 10.1 + 20.2 is a hair under 30.3, and 0.1 + 0.2 a hair over 0.3.
    assert cut_plan([Demand(10.1, 1), Demand(20.2, 1)], [30.3], 100.0).stubs == 0
    assert cut_plan([Demand(0.1, 1), Demand(0.2, 1)], [0.3], 100.0).new_metal == 0
    mm = 1 / 25.4
    plan = cut_plan([Demand(3005 * mm, 2), Demand(1995 * mm, 2)], [10_000 * mm], 20_000 * mm)
    assert plan.new_metal == 0
    assert plan.stubs == 0
    assert plan.proven.metal


def test_lengths_on_no_step_are_planned_with_a_true_bound() -> None:
    demands = [Demand(100 * math.sqrt(2 + i), 6) for i in range(8)]
    coils = [2000 * math.e, 1234.56789]
    plan = cut_plan(demands, coils, 9000.0, loss_per_new=120.0, seconds=0.5)
    hold_to_the_order(plan, demands, coils, 9000.0, 120.0, 240.0)
    whole = math.fsum(d.length * d.count for d in demands)
    assert whole - sum(coils) + 120 <= plan.new_metal_bound + 1e-6
    assert plan.gap < 1.0


@pytest.mark.slow
@pytest.mark.parametrize("seed", [3, 4])
@pytest.mark.parametrize("share", [0.8, 1.02])
def test_the_same_order_gives_the_same_plan(seed: int, share: float) -> None:
    order = instances.large(seed, share)
    plans = [
        cut_plan(order.demands, order.on_hand, order.longest, loss_per_new=order.loss, seconds=20)
        for _ in range(2)
    ]
    assert plans[0] == plans[1]
    assert not plans[0].cut_short


def hard() -> tuple[list[Demand], list[float], float]:
    """Long panels of all lengths on short new coils: nothing is proven in a short while."""
    demands = [Demand(540.0 + 26 * i + i * i % 19, 1) for i in range(40)]
    return demands, [8001.0], 1600.0


@pytest.mark.parametrize("looks", [0, 1, 20])
def test_the_clock_ends_the_search_and_a_bound_is_given(looks: int) -> None:
    """A clock that stands still for some looks and then runs an hour with each."""
    demands, coils, longest = hard()
    asked = 0

    def clock() -> float:
        nonlocal asked
        asked += 1
        return 3600.0 * max(0, asked - looks - 1)

    plan = cut_plan(demands, coils, longest, loss_per_new=160.0, seconds=60.0, clock=clock)
    hold_to_the_order(plan, demands, coils, longest, 160.0, 240.0)
    assert plan.cut_short
    assert 0 < plan.new_metal_bound <= plan.new_metal
    assert not plan.proven.metal
    assert plan.gap > 0
    # One look ends the search, one the evening out of new coils; each begins with one.
    assert asked <= looks + 4


def test_a_caller_can_stop_the_search_and_still_gets_a_plan() -> None:
    demands, coils, longest = hard()
    asked = 0

    def canceled() -> bool:
        nonlocal asked
        asked += 1
        return asked > 3

    plan = cut_plan(demands, coils, longest, seconds=60.0, canceled=canceled)
    assert plan.cut_short
    assert asked <= 6
    hold_to_the_order(plan, demands, coils, longest, 0.0, 240.0)


def test_progress_tells_of_less_metal_and_of_the_bound() -> None:
    demands, coils, longest = hard()
    heard: list[tuple[float, float]] = []
    plan = cut_plan(demands, coils, longest, loss_per_new=160.0, seconds=0.3,
                    progress=lambda metal, bound: heard.append((metal, bound)))
    assert heard
    assert [metal for metal, _ in heard] == sorted({metal for metal, _ in heard}, reverse=True)
    assert math.isclose(heard[-1][0], plan.new_metal)
    assert all(bound <= plan.new_metal + 1e-6 for _, bound in heard)


@pytest.mark.parametrize("share", [0.3, 0.8, 1.02, 1.3])
def test_residential_orders_are_proven_at_every_level(share: float) -> None:
    for seed in range(5):
        order = instances.residential(seed, share)
        plan = cut_plan(order.demands, order.on_hand, order.longest, loss_per_new=order.loss)
        hold_to_the_order(plan, order.demands, order.on_hand, order.longest, order.loss, 240.0)
        assert plan.proven.metal
        assert plan.proven.coils
        assert plan.proven.stubs


@pytest.mark.parametrize("share", [0.3, 0.8, 1.02, 1.3])
def test_large_orders_are_proven_least_in_metal_and_coils(share: float) -> None:
    for seed in range(2):
        order = instances.large(seed, share)
        plan = cut_plan(order.demands, order.on_hand, order.longest, loss_per_new=order.loss,
                        seconds=3.0)
        hold_to_the_order(plan, order.demands, order.on_hand, order.longest, order.loss, 240.0)
        assert plan.proven.metal
        assert plan.proven.coils


def test_a_residential_order_is_proven_with_little_work() -> None:
    order = instances.residential(1)
    within(5_000, lambda: cut_plan(
        order.demands, order.on_hand, order.longest, loss_per_new=order.loss
    ))


def test_new_coils_are_evened_out_even_when_the_least_is_not_proven() -> None:
    # Three or so of the long panels to a coil: levels far apart unless they are evened out.
    demands = [*hard()[0], Demand(300.0, 8)]
    plan = cut_plan(demands, [8001.0], 4000.0, loss_per_new=160.0, seconds=0.3)
    new = [coil.used for coil in plan.coils if coil.is_new]
    assert len(new) > 2
    assert max(new) - min(new) < 500
