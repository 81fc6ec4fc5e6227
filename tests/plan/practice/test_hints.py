"""Hints go from where to what to why, each is counted, and none is about what is found already."""

from __future__ import annotations

import dataclasses

import pytest

from coilwright.job.attempt import Response
from coilwright.job.practice import Practice
from coilwright.plan import plan
from coilwright.plan.practice.hints import (
    NO_MORE,
    has_hints,
    hints_told,
    next_hint,
    take_hint,
)
from coilwright.plan.practice.propose import propose
from coilwright.plan.practice.review import review
from coilwright.plan.practice.solve import solve
from coilwright.sheets import render_as
from coilwright.sheets.practice_review import review_sheet
from coilwright.store import read_model, to_text
from coilwright.store.practice import shipped_practices
from coilwright.store.shipped import demo_jobs
from tests.attempts import right_attempt
from tests.rules import for_each

STEPS = ["Where", "What", "Why"]


def made(mistakes: int = 2) -> Practice:
    return propose(plan(demo_jobs()["heron-lane-barn"]), "barn", "Found", "A barn.",
                   mistakes=mistakes, subjects=("machine", "panel"))


def test_hints_on_a_mistake_say_where_then_what_then_why() -> None:
    solution = solve(made(), 0).solution("wrong")
    response = Response()
    for _ in range(3):
        response = take_hint(solution, response)
    told = hints_told(solution, response)
    # How many there are is not said: it would tell how many mistakes there are to find.
    assert next_hint(solution, response).startswith("h again takes the next hint; it counts")
    assert [hint.partition(":")[0] for hint in told] == STEPS
    assert response.hints == 3
    (key,) = set(response.hinted)
    assert key in solution.right
    assert told[2] == f"Why: {solution.because[key].why}"
    # Of a mistake that is picked no more is told: the next one is about another.
    picked = dataclasses.replace(take_hint(solution, Response()), picks=(key,))
    after = take_hint(solution, picked)
    assert after.hinted[-1] != key
    assert len(hints_told(solution, after)) == 2
    # Once nothing is left, to ask still counts: the answer says how much there is to find.
    everything = dataclasses.replace(response, picks=solution.right)
    assert take_hint(solution, everything).hints == 4
    assert hints_told(solution, take_hint(solution, everything)) == told


@for_each(shipped_practices().values())
def test_each_hint_of_a_decision_is_told_once_and_counted(one: Practice) -> None:
    for solution in solve(one, 1).solutions:
        response = Response()
        for count in range(3):
            assert f"({count + 1} of 3); it counts" in next_hint(solution, response)
            response = take_hint(solution, response)
            assert response.hints == count + 1
            assert hints_told(solution, response) == solution.decision.hints[:count + 1]
        # Of one form with those of a job that is made: where, what, why.
        assert [hint.partition(": ")[0] for hint in solution.decision.hints] == STEPS
        assert not any("{" in hint for hint in solution.decision.hints)
        assert take_hint(solution, response) == response
        assert next_hint(solution, response) == NO_MORE
        bare = dataclasses.replace(
            solution, figure=None, decision=dataclasses.replace(solution.decision, hints=()))
        assert not has_hints(bare)
        assert take_hint(bare, Response()) == Response()


def test_what_is_proposed_has_hints_and_a_review_counts_them() -> None:
    one = propose(plan(demo_jobs()["heron-lane-barn"]), "barn", "The barn", "A barn, invented.")
    solved = solve(one, 0)
    assert all(has_hints(solution) for solution in solved.solutions)
    assert all([hint.partition(":")[0] for hint in solution.decision.hints] == STEPS
               for solution in solved.solutions)
    attempt = right_attempt(solved)
    for key, times in (("strip", 2), ("limit", 1)):
        for _ in range(times):
            attempt = attempt.respond(
                key, take_hint(solved.solution(key), attempt.response(key)))
    text = render_as(review_sheet(review(solved, attempt)), "text", 200)
    assert "3 hints taken (2 for question 1, 1 for question 4)" in text


def test_hints_on_one_thing_are_kept_with_the_attempt() -> None:
    solution = solve(made(), 0).solution("wrong")
    response = take_hint(solution, Response())
    attempt = right_attempt(solve(made(), 0)).respond("wrong", response)
    assert read_model(to_text(attempt), type(attempt), "there") == attempt
    with pytest.raises(ValueError, match="hints on 1 things"):
        Response(hinted=("x",))
