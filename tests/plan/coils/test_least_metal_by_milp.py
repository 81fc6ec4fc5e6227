"""The plan's new metal against an integer solver's (scipy's milp, HiGHS) on the same coils."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.plan import Plan, plan
from tests.cases import set_answers, small_gable, with_planes
from tests.draws import draws
from tests.plan.coils.stock import coil, with_coils


@st.composite
def part_coil_jobs(draw: st.DrawFn) -> Job:
    """A roof of few panel lengths, two or three part coils, and new coils that hold little."""
    planes = [
        Plane(eave=16.0 * draw(st.integers(1, 6)), slope_length=draw(st.integers(60, 300)) - 1.0,
              pitch=6)
        for _ in range(draw(st.integers(1, 3)))
    ]
    feet = draw(st.lists(st.integers(20, 110), min_size=2, max_size=3))
    job = set_answers(small_gable(), {"coils.supplier_heaviest": draw(st.sampled_from(
        [150.0, 250.0, 3000.0]))})  # fmt: skip
    coils = (coil(f"T-{n}", length) for n, length in enumerate(feet))
    return with_coils(with_planes(job, *planes), *coils)


def solved(done: Plan) -> float:
    """Least metal from new coils [in, panels and losses], by the solver."""
    counts: dict[float, int] = {}
    for plane in done.planes:
        for group in plane.groups:
            counts[group.length] = counts.get(group.length, 0) + group.count
    rooms = [f.value for k, f in done.figures.items() if k.startswith("on_hand.")
             and k.endswith(".usable") and f.value > 0]  # fmt: skip
    usable = done.figures["coil.usable"].value
    lengths = list(counts)
    new = len(done.coils) + 1
    bins = len(rooms) + new
    kinds = len(lengths)
    loss = 120 / 1.03
    # One column for each length in each coil, then one for each new coil: used or not.
    cost = np.array([0.0] * (len(rooms) * kinds) + lengths * new + [loss] * new)
    rows, low, high = [], [], []
    for j, length in enumerate(lengths):
        row = np.zeros(len(cost))
        row[j : bins * kinds : kinds] = 1
        rows.append(row)
        low.append(counts[length])
        high.append(counts[length])
    for b in range(bins):
        row = np.zeros(len(cost))
        row[b * kinds : (b + 1) * kinds] = lengths
        room = rooms[b] if b < len(rooms) else usable
        if b >= len(rooms):
            row[bins * kinds + b - len(rooms)] = -usable
            room = 0.0
        rows.append(row)
        low.append(-np.inf)
        high.append(room + 1e-6)
    upper = [float(counts[w]) for _ in range(bins) for w in lengths] + [1.0] * new
    found = milp(cost, constraints=LinearConstraint(np.array(rows), low, high),
                 integrality=np.ones(len(cost)), bounds=Bounds(0, upper),
                 options={"time_limit": 20, "mip_rel_gap": 0})  # fmt: skip
    assert found.status == 0
    return float(found.fun)


@given(part_coil_jobs())
@settings(max_examples=draws(30), deadline=None)
def test_never_worse_where_proven_and_never_above_the_bound(job: Job) -> None:
    done = plan(job)
    least = solved(done)
    assert done.proof is not None
    bound = done.figures["coil.least_metal"].value
    mine = sum(c.panels_length.value + 120 / 1.03 for c in done.coils)
    assert bound <= least + 1e-4
    assert mine >= least - 1e-4
    if done.proof.proven:
        assert mine == pytest.approx(least, abs=1e-3)


def test_small_jobs_are_proven_at_once() -> None:
    job = with_coils(small_gable(), coil("A", 310), coil("B", 195), coil("C", 142))
    done = plan(job)
    assert done.proof is not None
    assert done.proof.proven
    mine = sum(c.panels_length.value + 120 / 1.03 for c in done.coils)
    assert mine == pytest.approx(solved(done), abs=1e-3)
