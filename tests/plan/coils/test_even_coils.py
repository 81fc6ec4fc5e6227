"""The heaviest of several coils against the least it can be, by CP-SAT on the same panels.

The count is given: the coils that the plan orders. What they hold may be up to `UNEVEN` above the
least, where planes then stay together.
"""

from __future__ import annotations

import math
from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from coilwright.calc.cutting.evened import UNEVEN, even_coils
from coilwright.calc.split import Batch
from coilwright.plan.coils.cuts import Question, share_out
from tests.draws import draws

Batches = tuple[Batch, ...]


@st.composite
def questions(draw: st.DrawFn) -> Question:
    """A few planes of whole inches, and coils that hold a half to a quarter of them, or more."""
    batches = tuple(
        Batch(plane, float(draw(st.integers(60, 480))), draw(st.integers(3, 40)))
        for plane in range(draw(st.integers(1, 4))))
    whole = math.fsum(batch.length * batch.count for batch in batches)
    room = whole / draw(st.integers(2, 4)) * draw(st.sampled_from([1.02, 1.1, 1.4]))
    rooms = tuple(draw(st.lists(st.integers(100, 4_000).map(float), max_size=2)))
    return Question(batches, max(room, *(batch.length for batch in batches)), 120 / 1.03, rooms,
                    240.0)


def filled(coil: Batches) -> float:
    return math.fsum(batch.length * batch.count for batch in coil)


def least(batches: Batches, count: int) -> float:
    """No arrangement on so many coils has a fullest one under this [in], by CP-SAT."""
    model = cp_model.CpModel()
    given_to = [[model.new_int_var(0, batch.count, "") for batch in batches]
                for _ in range(count)]
    for at, batch in enumerate(batches):
        model.add(sum(coil[at] for coil in given_to) == batch.count)
    fullest = model.new_int_var(0, round(filled(batches)), "")
    for coil in given_to:
        model.add(sum(round(batch.length) * panels
                      for batch, panels in zip(batches, coil, strict=True)) <= fullest)
    model.minimize(fullest)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 1.0
    solver.solve(model)
    return solver.best_objective_bound


@settings(max_examples=draws(36))
@given(questions())
def test_the_heaviest_coil_is_within_the_gap_of_the_least(question: Question) -> None:
    shared, _ = share_out(question)
    panels = sum(batch.count for coil in shared.new for batch in coil)
    on_hand = sum(batch.count for _, coil in shared.on_hand for batch in coil)
    assert panels + on_hand == sum(batch.count for batch in question.batches)
    if not shared.new:
        return
    from_new = Counter[tuple[int, float]]()
    for coil in shared.new:
        from_new.update({(batch.plane, batch.length): batch.count for batch in coil})
    rest = tuple(Batch(*kind, count) for kind, count in from_new.items())
    fullest = max(map(filled, shared.new))
    assert fullest <= least(rest, len(shared.new)) * (1 + UNEVEN) + 1e-6


def test_a_search_that_is_cut_short_leaves_no_coil_nearly_empty() -> None:
    """Many lengths and a leftover: the search had no time to even out, and packed the first full.

    42 panels of 100 to 511 in, 12,837 in together, and a leftover for 1,000 in of them.
    """
    lengths = tuple(Batch(at % 3, 100.0 + at * 10.03125, 1) for at in range(42))
    question = Question(lengths, 10_500.0, 116.5, (1_000.0,), 240.0)
    shared, _ = share_out(question)
    light, full = sorted(map(filled, shared.new))
    assert light > 0.9 * full


def test_equal_halves_are_taken_where_the_panels_allow_them() -> None:
    """20 panels of 129 in and 15 of 445 in, 9,255 in together: no more even than 4,605 and 4,650,
    though filling coil after coil to the middle gives 4,805 and 4,450."""
    question = Question((Batch(0, 129.0, 20), Batch(1, 445.0, 15)), 5_000.0, 116.5, (), 0.0)
    shared, _ = share_out(question)
    assert sorted(map(filled, shared.new)) == [4605.0, 4650.0]


def test_coils_that_are_even_stay_as_they_read_best() -> None:
    even = ((Batch(0, 100.0, 10),), (Batch(1, 101.0, 10),))
    assert even_coils(even, 1_200.0, 0.1) is even
    alone = ((Batch(0, 100.0, 10),),)
    assert even_coils(alone, 1_200.0, 0.1) is alone
    long = ((Batch(0, 900.0, 1),), (Batch(1, 100.0, 3),))
    assert even_coils(long, 1_200.0, 0.1) is long, "one panel is in no two coils"
