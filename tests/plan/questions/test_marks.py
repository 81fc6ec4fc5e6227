"""A mark on a figure: there exactly when an answer that it depends on is not sure.

By brute force on generated jobs, with no list of what depends on what. What moves under another
value of an answer depends on it, so it must be marked while that answer is a guess. What is
marked must have a marked figure among those put in; or else it stands at the bottom, and then
the guess must be seen to move it on some job.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from fnmatch import fnmatchcase

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS, Form, Value
from coilwright.job.job import Job
from coilwright.plan import Plan, plan
from coilwright.values.figure import Figure
from tests.cases import guess, set_answers
from tests.draws import draws
from tests.generated import whole_jobs

ANY = "*"
_START = "it can move the start of least metal, and so the panels"
_TURNED = "only on a hip roof wider than long do length and width change places"
SELDOM = {
    (ANY, "coil.count"): "a whole number that follows from all that makes coils longer",
    (ANY, "buy.coil.*.count"): "the same, of the coils of one length",
    (ANY, "coil.gap"): "how far the plan is from its bound; mostly nothing, whatever the answers",
    (ANY, "coil.least_metal"): "it follows from all that limits a coil, seldom from each",
    (ANY, "edges.*"): "edges are told apart on the drawn outlines; a kind that is not there is 0",
    ("metal.metal", "coil.wrap"): "only steel stated bare winds a coating beside its thickness",
    ("roof.length", "roof.end_eave"): _TURNED,
    ("roof.length", "roof.hip"): _TURNED,
    ("roof.length", "roof.slope_length"): _TURNED,
    ("roof.*", "plane.*.panels"): _START,
    ("roof.wing_end", "plane.*.laid"): "left for right as much lies under panels, but for a strip "
                                       "left bare and openings that stay where they are",
    ("panel.end_allowance", "plane.*.panels"): _START,
    ("panel.end_allowance", "plane.*.extent"): _START,
    ("panel.end_allowance", "plane.*.laid"): _START,
}
"""Marks that few jobs or none bear out, and why they are right all the same."""
JOBS = 32


def answered(job: Job) -> Iterator[str]:
    """Answers with a value that a figure can rest on."""
    for key, answer in ANSWERS.items():
        picked = answer.form in (Form.QUANTITY, Form.COUNT, Form.CHOICE) and key != "job.units"
        if picked and answer.asked(job) and answer.value(job) is not None:
            yield key


def others(job: Job, key: str) -> Iterator[Value]:
    """Other values the answer might have had."""
    answer = ANSWERS[key]
    own = answer.value(job)
    if answer.form is Form.CHOICE:
        yield from (choice for choice in answer.choices if choice != own)
    elif answer.form is Form.COUNT:
        yield from (n for n in (1, 2, 3) if n != own)
    else:
        assert isinstance(own, float)
        yield from (own * share + (own == 0) * 0.01 for share in (0.1, 0.8, 1.03, 1.5, 3, 10))


def figures(done: Plan) -> dict[str, Figure]:
    """The figures by key; a plane is numbered among those of its own making."""
    # From a plane's own number, not from how many are drawn: the planes of a building that cannot
    # be drawn keep their numbers free.
    shaped = next((p.number - p.index - 1 for p in done.planes if p.index is not None), 999)

    def named(key: str) -> str:
        found = re.match(r"plane\.(\d+)\.", key)
        if found is None:
            return key
        number = int(found[1])
        if number <= shaped:
            return f"shaped.{key}"
        return f"measured.plane.{number - shaped}.{key[found.end():]}"

    return {named(key): figure for key, figure in done.figures.items()}


def same(one: Figure, other: Figure) -> bool:
    return math.isclose(one.value, other.value, rel_tol=1e-9, abs_tol=1e-12)


@given(whole_jobs(guesses=False), st.data())
@settings(max_examples=draws(150), suppress_health_check=[HealthCheck.data_too_large])
def test_what_moves_with_an_answer_is_marked(job: Job, data: st.DataObject) -> None:
    key = data.draw(st.sampled_from(sorted(answered(job))), label="answer")
    value = data.draw(st.sampled_from(list(others(job, key))), label="other value")
    marked = {k for k, f in figures(plan(guess(job, key))).items() if f.mark}
    before, after = figures(plan(job)), figures(plan(set_answers(job, {key: value})))
    moved = {k for k, f in before.items() if k in after and not same(f, after[k])}
    assert moved - marked == set()


@given(whole_jobs())
@settings(max_examples=draws(60))
def test_a_mark_goes_through_every_later_figure(job: Job) -> None:
    for figure in plan(job).figures.values():
        if any(term.mark for term in figure.terms):
            assert figure.mark, figure.key


@given(whole_jobs(guesses=False))
@settings(max_examples=draws(30))
def test_nothing_is_marked_while_all_is_sure(job: Job) -> None:
    done = plan(job)
    # The hips of planes alike are paired by their length alone: a guess that no answer is to blame
    # for, and that says so.
    assume(not any(finding.key == "roof.hips_by_length" for finding in done.findings))
    assert [key for key, figure in done.figures.items() if figure.mark] == []


def sample() -> list[Job]:
    """The same jobs every time; every other one with coils so small that it takes several."""
    jobs: list[Job] = []

    @settings(max_examples=JOBS, phases=[Phase.generate], database=None, derandomize=True,
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(whole_jobs(guesses=False))
    def collect(job: Job) -> None:
        jobs.append(job)

    collect()
    small = {"machine.arbor_load": 700.0, "machine.decoiler_load": 700.0}
    return [set_answers(job, small) if n % 2 else job for n, job in enumerate(jobs)]


def general(key: str) -> str:
    """The key with all numbers alike, and all kinds of edges."""
    key = re.sub(r"\d+", ANY, key)
    return "edges.*" if key.startswith("edges.") else key


def bottoms(job: Job, key: str) -> set[str]:
    """What is marked by a guess of one answer without a marked figure put in."""
    return {
        k
        for k, f in plan(guess(job, key)).figures.items()
        if f.mark and k != key and not any(term.mark for term in f.terms)
    }


def seldom(pair: tuple[str, str]) -> bool:
    """Whether few jobs would bear out this mark of a figure under a guessed answer."""
    return any(
        pair[1] == figure and fnmatchcase(pair[0], answer) for answer, figure in SELDOM
    )


@pytest.mark.slow
def test_what_is_marked_at_the_bottom_is_seen_to_move() -> None:
    seen: set[tuple[str, str]] = set()
    waiting: set[tuple[str, str]] = set()
    for job in sample():
        before = plan(job).figures
        for key in answered(job):
            unseen = [
                (pair, k)
                for k in bottoms(job, key)
                if (pair := (key, general(k))) not in seen and not seldom(pair)
            ]
            if not unseen:
                continue
            waiting |= {pair for pair, _ in unseen}
            for value in others(job, key):
                after = plan(set_answers(job, {key: value})).figures
                seen |= {p for p, k in unseen if k not in after or not same(before[k], after[k])}
    assert len(seen) > 40, "the jobs bear out most marks"
    assert waiting - seen == set()
