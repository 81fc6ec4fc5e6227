"""Jobs with answers missing: a plan all the same, and every gap says what would close it."""

from __future__ import annotations

import dataclasses

from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS, asked
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.plan import Plan, plan
from coilwright.plan.ready import ReasonKind
from coilwright.sheets.state import state_of
from tests.cases import set_answers, small_gable
from tests.draws import draws
from tests.generated import partial_jobs
from tests.rules import for_each

HEADLINES = (
    "roof.area", "roof.squares", "strip.width", "strip.mass_per_length", "metal.sheet_mass",
    "panels.count", "panels.length", "panels.longest", "panel.movement", "coil.wrap",
    "coil.longest", "coil.usable", "coil.count", "coil.length_ordered", "coil.mass_ordered",
)  # fmt: skip
"""Figures a screen may always ask for: there, or missing with a reason."""


def give_what_it_needs(job: Job, key: str, whole: Job) -> Job:
    """The job with one needed answer (or plane) as in the whole job."""
    if key == "roof.planes":
        planes = whole.roof.planes
    elif key.startswith("roof.planes."):
        index = int(key.rsplit(".", 1)[1])
        planes = tuple(
            whole.roof.planes[i] if i == index else p for i, p in enumerate(job.roof.planes)
        )
    else:
        value = ANSWERS[key].value(whole)
        assert value is not None, f"{key} is needed and the whole job has none"
        return ANSWERS[key].put(job, value)
    return dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))


@given(partial_jobs())
@settings(max_examples=draws(150))
def test_each_gap_says_what_it_waits_for(pair: tuple[Job, Job]) -> None:
    _, partial = pair
    done = plan(partial)
    for key in HEADLINES:
        assert (key in done.figures) != (key in done.lacks), key
    for key, lack in done.lacks.items():
        assert lack.key == key
        assert lack.label
        assert lack.needs or lack.because
        assert key not in done.figures
        for need in lack.needs:
            assert need in ANSWERS or need.startswith("roof.planes")
    for figure in done.figures.values():
        assert figure.label


@given(partial_jobs(), st.data())
@settings(max_examples=draws(100))
def test_giving_what_it_needs_makes_it_appear(
    pair: tuple[Job, Job], data: st.DataObject
) -> None:
    whole, job = pair
    lacks = sorted(k for k in plan(job).lacks if k in HEADLINES)
    if not lacks:
        return
    key = data.draw(st.sampled_from(lacks))
    for _ in range(2 * len(ANSWERS)):
        done = plan(job)
        if key in done.figures:
            return
        lack = done.lacks[key]
        if not lack.needs:
            break
        before = job
        for need in lack.needs:
            job = give_what_it_needs(job, need, whole)
        if job == before:
            # measures that make no such building: what to change is said, and why
            assert lack.because, f"{key} still needs {lack.needs}, which were given"
            break
    # Only what the whole roof itself cannot have may still be missing.
    assert key in plan(whole).lacks or plan(job).lacks[key].because


@given(partial_jobs())
@settings(max_examples=draws(60))
def test_an_answer_that_is_needed_and_missing_is_open(pair: tuple[Job, Job]) -> None:
    _, partial = pair
    done = plan(partial)
    for answer in asked(partial):
        wanted = answer.needed and answer.bears(partial) and answer.key != "roof.building"
        if wanted and answer.value(partial) is None:
            assert answer.key in done.open_answers
    for key in done.open_answers:
        assert ANSWERS[key].value(partial) is None
    held = sum(reason.kind in (ReasonKind.QUESTION, ReasonKind.HEAD) for reason in done.reasons)
    assert done.readiness.to_settle == len(done.open_answers) + len(done.guesses) + held
    assert done.ready <= (done.readiness.to_settle == 0)
    assert (state_of(done) in ("READY", "NOTHING TO BUY")) == done.ready


def test_an_empty_job_has_a_plan() -> None:
    for job in (Job(), new_job(), new_job("Barn")):
        done = plan(job)
        assert set(HEADLINES) <= set(done.lacks)
        assert not done.ready
        assert state_of(done).startswith("DRAFT")
        assert done.coils == ()
        assert done.account == ()


def everything_missing(done: Plan) -> set[str]:
    return {need for lack in done.lacks.values() for need in lack.needs}


@for_each([
    ("metal.thickness", ["strip.mass_per_length", "coil.longest", "coil.mass_ordered"],
     ["roof.area", "panels.count", "strip.width", "panels.length"]),
    ("panel.take_up", ["strip.width", "strip.mass_per_length", "coil.mass_ordered"],
     ["panels.count", "metal.sheet_mass", "coil.wrap"]),
    ("panel.coverage", ["panels.count", "strip.width"], ["roof.area", "metal.sheet_mass"]),
    ("panel.start", ["panels.count", "panels.length"], ["roof.area", "strip.width"]),
    ("coils.inside_diameter", ["limit.diameter", "coil.longest", "coil.count"],
     ["limit.arbor", "panels.length", "strip.mass_per_length"]),
    ("machine.arbor_load", ["limit.arbor", "coil.longest"], ["limit.diameter"]),
    ("coils.spare", ["coil.usable", "coil.mass_ordered"], ["coil.longest"]),
    ("job.hottest", ["panel.movement"], ["coil.mass_ordered"]),
    ("coils.coil_on", ["coil.longest", "coil.mass_ordered"], ["panels.length"]),
])  # fmt: skip
def test_one_answer_missing_takes_only_what_rests_on_it(
    key: str, gone: list[str], kept: list[str]
) -> None:
    done = plan(set_answers(small_gable(), {key: None}))
    # The days to spare wait for dates, which this job has none of anyway.
    assert everything_missing(done) - everything_missing(plan(small_gable())) == {key}
    for figure in gone:
        assert key in done.lacks[figure].needs
    for figure in kept:
        assert figure in done.figures


def test_typed_text_that_cannot_be_read_is_open() -> None:
    from coilwright.job.edit import give_text

    job, error = give_text(small_gable(), "panel.take_up", "five-ish")
    assert error
    done = plan(job)
    assert "panel.take_up" in done.open_answers
    assert "panel.take_up" in done.lacks["strip.width"].needs
    assert not done.ready
