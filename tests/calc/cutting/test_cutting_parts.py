"""The parts of cutting held to brute force."""

from __future__ import annotations

import itertools
import math
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.cutting.assignment import even_out
from coilwright.calc.cutting.bin_packing import fewest_bins, pack_listed
from coilwright.calc.cutting.branch_and_bound import BranchAndBound
from coilwright.calc.cutting.column_generation import bounded_knapsack, relax
from coilwright.calc.cutting.lattice import lattice_for
from coilwright.calc.cutting.packing import bins, bound_l1, bound_l2, first_fit_decreasing, gathered
from coilwright.calc.cutting.problem import NewCoils, Problem
from tests.calc.cutting.references import sheets_milp
from tests.draws import draws

kinds = st.lists(
    st.tuples(st.integers(1, 30), st.integers(0, 3)), min_size=1, max_size=5,
    unique_by=lambda kind: kind[0],
).map(lambda found: sorted(found, reverse=True))


def every_choice(counts: list[int]) -> list[tuple[int, ...]]:
    return list(itertools.product(*(range(n + 1) for n in counts)))


@settings(max_examples=draws(150), deadline=None)
@given(kinds, st.integers(0, 120))
def test_reachable_sums_and_their_choices_are_all_there_are(
    found: list[tuple[int, int]], limit: int
) -> None:
    lengths, counts = [w for w, _ in found], [n for _, n in found]
    by_sum: dict[int, set[tuple[int, ...]]] = {}
    for choice in every_choice(counts):
        whole = sum(w * n for w, n in zip(lengths, choice, strict=True))
        if whole <= limit:
            by_sum.setdefault(whole, set()).add(choice)
    above = subset_sums.layers(lengths, counts, limit)
    assert list(subset_sums.sums_down(above[0], limit)) == sorted(by_sum, reverse=True)
    assert subset_sums.top(above[0], limit) == max(by_sum)
    for whole, choices in by_sum.items():
        assert set(subset_sums.choices(above, lengths, counts, whole)) == choices
        assert subset_sums.choose(above, lengths, counts, whole) in choices
        assert subset_sums.choose(above, lengths, counts, whole, Random(whole)) in choices


@settings(max_examples=draws(150), deadline=None)
@given(kinds, st.integers(0, 60), st.randoms(use_true_random=False))
def test_the_most_valuable_choice(found: list[tuple[int, int]], room: int, chance: Random) -> None:
    lengths, counts = [w for w, _ in found], [n for _, n in found]
    values = [chance.randint(-5, 50) for _ in lengths]
    best = max(
        sum(v * n for v, n in zip(values, choice, strict=True))
        for choice in every_choice(counts)
        if sum(w * n for w, n in zip(lengths, choice, strict=True)) <= room
    )
    answer = bounded_knapsack(lengths, counts, values, room, Allowance(10))
    assert answer is not None
    value, choice = answer
    assert value == best == sum(v * n for v, n in zip(values, choice, strict=True))
    assert sum(w * n for w, n in zip(lengths, choice, strict=True)) <= room
    assert all(0 <= n <= most for n, most in zip(choice, counts, strict=True))


@settings(max_examples=draws(60), deadline=None)
@given(kinds.filter(lambda found: any(n for _, n in found)), st.integers(30, 60))
def test_bounds_never_exceed_and_searches_meet_the_fewest_bins(
    found: list[tuple[int, int]], room: int
) -> None:
    lengths, counts = [w for w, _ in found if _], [n for _, n in found if n]
    fewest = sheets_milp(lengths, counts, room)
    assert bound_l1(lengths, counts, room) <= bound_l2(lengths, counts, room) <= fewest
    mix = relax(lengths, counts, room, Allowance(10))
    assert mix.finished
    assert mix.bound <= fewest
    for search in (pack_listed,):
        packing, settled = search(lengths, counts, room, fewest, Allowance(10))
        assert settled
        assert packing is not None
        assert bins(packing) <= fewest
        assert search(lengths, counts, room, fewest - 1, Allowance(10)) == (None, True)
    answer = fewest_bins(lengths, counts, room, Allowance(10))
    assert answer.proven
    assert bins(answer.packing) == fewest


@settings(max_examples=draws(80), deadline=None)
@given(kinds.filter(lambda found: any(n for _, n in found)), st.integers(30, 60))
def test_first_fit_is_first_fit_decreasing_piece_by_piece(
    found: list[tuple[int, int]], room: int
) -> None:
    lengths, counts = [w for w, _ in found], [n for _, n in found]
    left: list[int] = []
    for length, count in found:
        for _ in range(count):
            home = next((i for i, space in enumerate(left) if space >= length), None)
            if home is None:
                left.append(room - length)
            else:
                left[home] -= length
    packing = first_fit_decreasing(lengths, counts, room)
    assert bins(packing) == len(left)
    spaces = sorted(
        room - sum(w * n for w, n in zip(lengths, pattern, strict=True))
        for pattern, times in packing for _ in range(times)
    )
    assert spaces == sorted(left)


@settings(max_examples=draws(60), deadline=None)
@given(kinds.filter(lambda found: sum(n for _, n in found) > 2), st.integers(2, 3))
def test_new_coils_are_as_even_as_can_be_where_that_is_claimed(
    found: list[tuple[int, int]], number: int
) -> None:
    lengths = [w for w, _ in found]
    pieces = [j for j, (_, n) in enumerate(found) for _ in range(n)][:8]
    homes = [[0] * len(lengths) for _ in range(number)]
    for turn, j in enumerate(pieces):
        homes[turn % number][j] += 1
    start = gathered([tuple(home) for home in homes if any(home)])
    coils, proven = even_out(lengths, start, Allowance(10))
    assert len(coils) == bins(start)
    assert sorted(j for coil in coils for j, n in enumerate(coil) for _ in range(n)) == pieces
    fullest = max(subset_sums.whole_length(lengths, coil) for coil in coils)
    least = min(
        max(sum(lengths[j] for j, h in zip(pieces, home, strict=True) if h == c)
            for c in range(len(coils)))
        for home in itertools.product(range(len(coils)), repeat=len(pieces))
        if len(set(home)) == len(coils)
    )
    assert fullest >= least
    if proven:
        assert fullest == least


@pytest.mark.parametrize(
    ("lengths", "step"),
    [
        ([216.0, 217.0], 1.0),
        ([216.0, 218.0], 2.0),
        ([216.25, 217.75], 0.25),
        ([10.1, 20.3], 0.1),
        ([3005 / 25.4, 1990 / 25.4], 5 / 25.4),
    ],
)
def test_the_step_all_lengths_lie_on(lengths: list[float], step: float) -> None:
    lattice = lattice_for(lengths, 1000.0)
    assert lattice.exact
    assert math.isclose(lattice.step, step)


def test_lengths_on_no_step_are_rounded_to_the_safe_side() -> None:
    lengths = [100 * math.sqrt(2), 100 * math.pi]
    lattice = lattice_for(lengths, 1000.0)
    assert not lattice.exact
    for length in lengths:
        assert lattice.length(length) * lattice.step >= length
        assert lattice.length_at_least(length) * lattice.step <= length
        assert lattice.room(length) * lattice.step <= length
        assert lattice.room_at_most(length) * lattice.step >= length


def test_an_allowance_ends_by_work_by_clock_and_by_wish() -> None:
    by_work = Allowance(100)
    assert by_work.spend(1)
    assert not by_work.spend(by_work.left + 1)
    assert not by_work.cut_short
    by_clock = Allowance(100, clock=itertools.count().__next__)
    by_clock.spend(1000)
    assert not by_clock.cut_short
    by_clock = Allowance(0, clock=itertools.count().__next__)
    by_clock.spend(1000)
    assert by_clock.cut_short
    by_wish = Allowance(100, lambda: True)
    assert not by_wish.spend(1000)
    assert by_wish.cut_short
    whole = Allowance(100)
    part = whole.share(50)
    assert part.spend(40)
    assert not part.spend(20)
    assert whole.spend(1)


def test_neither_many_lengths_nor_many_coils_on_hand_go_too_deep() -> None:
    lengths, counts = list(range(3_000, 1_500, -1)), [1] * 1_500
    above = subset_sums.layers(lengths, counts, 9_001)
    for choice in itertools.islice(subset_sums.choices(above, lengths, counts, 9_001), 50):
        assert subset_sums.whole_length(lengths, choice) == 9_001
    rooms = (11,) * 1_200
    problem = Problem((10,), (1_200,), rooms, tuple(map(float, rooms)), 20, 0.0, 5.0)
    search = BranchAndBound(problem, NewCoils(problem), None, Allowance(1.0), lambda _: False)
    assert not search.run()  # nothing is said to be the best that was not looked through
