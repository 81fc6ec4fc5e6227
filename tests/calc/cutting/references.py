"""Other people's solvers, asked the same questions: integer programs for cut plans and nesting.

`scipy.optimize.milp` answers in the tests; CP-SAT joins in where it is installed, and in the
benchmark. Lengths are whole numbers here, so that nothing hangs on rounding.
"""

from __future__ import annotations

import importlib.util
from collections.abc import Sequence
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix

HAS_CP_SAT = importlib.util.find_spec("ortools") is not None

Objective = tuple[float, int, int, float]
"""New metal, new coils, stubs, stub length: minimized in this order."""


def cut_plan_milp(
    lengths: Sequence[int], counts: Sequence[int], on_hand: Sequence[int], longest: int,
    loss: int, keep: int, most_new: int,
) -> Objective | None:
    """The best cut plan by HiGHS, one level after another; None where there is none."""
    m, h, k = len(lengths), len(on_hand), most_new
    b = h + k
    # x[j, bin] panels; y[new] used; per coil on hand: used u, stub s, kept e, stub length g.
    size = m * b + k + 4 * h
    y0, u0, s0, e0, g0 = m * b, m * b + k, m * b + k + h, m * b + k + 2 * h, m * b + k + 3 * h

    def x(j: int, c: int) -> int:
        return j * b + c

    rows: list[tuple[dict[int, float], float, float]] = []
    for j in range(m):
        rows.append(({x(j, c): 1 for c in range(b)}, counts[j], counts[j]))
    for c in range(k):
        row = {x(j, h + c): float(lengths[j]) for j in range(m)}
        row[y0 + c] = -longest
        rows.append((row, -np.inf, 0))
        if c:
            rows.append(({y0 + c: 1, y0 + c - 1: -1}, -np.inf, 0))
    for c in range(h):
        row = {x(j, c): float(lengths[j]) for j in range(m)}
        rows.append((row | {u0 + c: -on_hand[c]}, -np.inf, 0))
        # leftover = room − used; where the coil is used and no stub: 0 left, or at least `keep`.
        free = {i: -v for i, v in row.items()}
        # used, not stub, not kept → leftover ≤ 0
        rows.append(
            (free | {u0 + c: on_hand[c], s0 + c: -on_hand[c], e0 + c: -on_hand[c]}, -np.inf, 0)
        )
        # kept → leftover ≥ keep
        rows.append((free | {e0 + c: -float(keep)}, -on_hand[c], np.inf))
        # stub → its length counts
        rows.append((free | {g0 + c: -1, s0 + c: on_hand[c]}, -np.inf, 0))
    upper = np.full(size, np.inf)
    for j in range(m):
        for c in range(b):
            upper[x(j, c)] = counts[j]
    upper[y0:g0] = 1
    whole = np.ones(size)
    whole[g0:] = 0
    metal = np.zeros(size)
    for j in range(m):
        for c in range(k):
            metal[x(j, h + c)] = lengths[j]
    metal[y0:y0 + k] = loss
    goals = [metal]
    for start, stop in ((y0, u0), (s0, e0), (g0, size)):
        goal = np.zeros(size)
        goal[start:stop] = 1
        goals.append(goal)
    found = []
    for goal in goals:
        table = lil_matrix((len(rows), size))
        for i, (row, _, _) in enumerate(rows):
            for col, value in row.items():
                table[i, col] = value
        limits = LinearConstraint(table.tocsr(), [r[1] for r in rows], [r[2] for r in rows])
        answer = milp(goal, constraints=limits, bounds=Bounds(0, upper), integrality=whole,
                      options={"mip_rel_gap": 0.0, "time_limit": 20})
        if answer.status == 2:
            return None
        assert answer.status == 0, answer.message
        value = float(round(answer.fun))
        found.append(value)
        rows.append(({i: float(v) for i, v in enumerate(goal) if v}, -np.inf, value + 1e-6))
    return found[0], int(found[1]), int(found[2]), found[3]


def cut_plan_cp_sat(
    lengths: Sequence[int], counts: Sequence[int], on_hand: Sequence[int], longest: int,
    loss: int, keep: int, most_new: int, seconds: float = 20.0, workers: int = 1,
) -> tuple[Objective | None, bool]:
    """The best cut plan by CP-SAT, level after level, and whether every level is proven."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    m, h = len(lengths), len(on_hand)
    rooms = [*on_hand, *([longest] * most_new)]
    x = [[model.new_int_var(0, counts[j], "") for _ in rooms] for j in range(m)]
    for j in range(m):
        model.add(sum(x[j]) == counts[j])
    used = [sum(lengths[j] * x[j][c] for j in range(m)) for c in range(len(rooms))]
    new = [model.new_bool_var("") for _ in range(most_new)]
    for c, flag in enumerate(new):
        model.add(used[h + c] <= longest * flag)
        if c:
            model.add_implication(flag, new[c - 1])
    stubs, stub_lengths = [], []
    for c, room in enumerate(on_hand):
        touched, stub, kept = (model.new_bool_var("") for _ in range(3))
        length = model.new_int_var(0, room, "")
        model.add(used[c] <= room * touched)
        model.add(used[c] == room).only_enforce_if(touched, ~stub, ~kept)
        model.add(used[c] <= room - keep).only_enforce_if(kept)
        model.add(length >= room - used[c]).only_enforce_if(stub)
        stubs.append(stub)
        stub_lengths.append(length)
    goals = [
        sum(used[h:]) + loss * sum(new), sum(new), sum(stubs), sum(stub_lengths)
    ]
    found: list[int] = []
    proven = True
    for goal in goals:
        if isinstance(goal, int):
            found.append(goal)
            continue
        model.minimize(goal)
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = seconds
        solver.parameters.num_workers = workers
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return None, True
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return None, False
        proven = proven and status == cp_model.OPTIMAL
        value = round(solver.objective_value)
        found.append(value)
        model.add(goal <= value)
        model.clear_hints()
        for row in x:
            for variable in row:
                model.add_hint(variable, solver.value(variable))
    return (float(found[0]), found[1], found[2], float(found[3])), proven


def all_patterns(
    widths: Sequence[int], counts: Sequence[int], stock: int
) -> list[tuple[int, ...]]:
    """Every maximal way to cut one sheet."""
    patterns: list[tuple[int, ...]] = []

    def grow(j: int, left: int, taken: list[int]) -> None:
        if j == len(widths):
            if all(n == most or w > left
                   for n, most, w in zip(taken, counts, widths, strict=True)):
                patterns.append(tuple(taken))
            return
        for n in range(min(counts[j], left // widths[j]), -1, -1):
            grow(j + 1, left - n * widths[j], [*taken, n])

    grow(0, stock, [])
    return patterns


def sheets_cp_sat(
    widths: Sequence[int], counts: Sequence[int], stock: int, most: int, seconds: float,
    workers: int = 1,
) -> tuple[int | None, bool]:
    """Fewest sheets by CP-SAT, sheet by sheet: how many of each piece are cut from it."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    x = [[model.new_int_var(0, min(n, stock // w), "") for _ in range(most)]
         for w, n in zip(widths, counts, strict=True)]
    used = [model.new_bool_var("") for _ in range(most)]
    for row, n in zip(x, counts, strict=True):
        model.add(sum(row) == n)
    filled = [sum(w * row[s] for w, row in zip(widths, x, strict=True)) for s in range(most)]
    for s, flag in enumerate(used):
        model.add(filled[s] <= stock * flag)
        if s:
            model.add(filled[s] <= filled[s - 1])
    model.minimize(sum(used))
    return _solved(model, seconds, workers)


def _solved(model: Any, seconds: float, workers: int) -> tuple[int | None, bool]:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, False
    return round(solver.objective_value), status == cp_model.OPTIMAL


def sheets_by_pattern_cp_sat(
    patterns: Sequence[tuple[int, ...]], counts: Sequence[int], seconds: float, workers: int = 1
) -> tuple[int | None, bool]:
    """Fewest sheets by CP-SAT, given every maximal pattern: how often to cut each."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    times = [model.new_int_var(0, max(counts), "") for _ in patterns]
    for j, n in enumerate(counts):
        model.add(sum(p[j] * t for p, t in zip(patterns, times, strict=True) if p[j]) >= n)
    model.minimize(sum(times))
    return _solved(model, seconds, workers)


def sheets_milp(widths: Sequence[int], counts: Sequence[int], stock: int) -> int:
    """Fewest sheets by HiGHS, given every maximal pattern."""
    table = np.array(all_patterns(widths, counts, stock), dtype=float).T
    answer = milp(np.ones(table.shape[1]), constraints=LinearConstraint(table, counts, np.inf),
                  bounds=Bounds(0, np.inf), integrality=np.ones(table.shape[1]),
                  options={"mip_rel_gap": 0.0, "time_limit": 30})
    assert answer.status == 0, answer.message
    return round(answer.fun)


def least_metal_relaxed(
    lengths: Sequence[int], counts: Sequence[int], on_hand: Sequence[int]
) -> float:
    """No plan orders less panel metal than all panels less all coils on hand."""
    return max(0.0, float(np.dot(lengths, counts) - sum(on_hand)))
