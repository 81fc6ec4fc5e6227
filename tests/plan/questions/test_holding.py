"""Questions that hold an order: one that is neither answered nor waived makes it a draft."""

from __future__ import annotations

import dataclasses
import re

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.plan.questions import Status, reply
from coilwright.plan.ready import ReasonKind, open_words
from coilwright.sheets import render
from coilwright.sheets.state import state_at, state_of
from coilwright.store.shipped import demo_jobs
from coilwright.values.standing import Standing
from tests.cases import small_gable
from tests.plan.questions.held import unsettled


def held_by(job: Job) -> tuple[str, ...]:
    return tuple(r.key for r in plan(job).reasons if r.kind is ReasonKind.QUESTION)


def test_open_questions_that_hold_make_a_draft_and_are_counted() -> None:
    done = plan(unsettled(small_gable()))
    held = held_by(done.job)
    assert len(held) > 1
    assert not done.ready
    assert open_words(done.readiness) == f"{len(held)} questions hold the order"
    assert state_of(done) == f"DRAFT, {len(held)} to settle"
    # A step says what is to be settled there; the sum stands on the summary.
    assert (state_at(done, 0), state_at(done, 2)) == ("DRAFT", "DRAFT, 2 to settle here")
    text = render("summary", done, "md")
    assert f"Before it can be sent ({len(held)})" in text
    assert "READY" not in text


def test_one_is_said_as_one_and_none_is_not_said() -> None:
    job = small_gable()
    assert open_words(plan(job).readiness) == ""
    (one, *_) = held_by(unsettled(job))
    left = dataclasses.replace(
        job, questions={k: v for k, v in job.questions.items() if k != one})
    assert held_by(left) == (one,)
    assert open_words(plan(left).readiness) == "1 question holds the order"


def test_two_questions_about_one_answer_are_one_reason() -> None:
    job = dataclasses.replace(small_gable(), job=dataclasses.replace(
        small_gable().job, engineered=None))
    asked = [q for q in plan(job).questions if q.words.answer == "job.engineered"]
    assert len(asked) == 2
    assert [r.kind for r in plan(job).reasons] == [ReasonKind.ASK]


def test_a_reply_that_settles_takes_its_reason_away() -> None:
    job = unsettled(small_gable())
    while held := held_by(job):
        # An answer can call for one more question: what is minimum has a tolerance.
        key = held[0]
        (question,) = (q for q in plan(job).questions if q.key == key)
        said = {"coils.lead_time": "21", "coils.supplier_heaviest": "5000 lb",
                "metal.thickness_is": "minimum", "metal.thickness_tolerance": "0.004 in",
                "metal.film": "no", "coils.width_tolerance": "1/16 in", "coils.camber": "1/4 in",
                "coils.eye": "eye to the side", "coils.skid": "yes"}
        job, error = reply(job, key, said.get(question.words.answer, "yes, by phone"))
        assert not error
        assert key not in held_by(job)
    assert plan(job).ready


def test_the_sheet_sends_each_first_thing_to_the_person_its_question_is_put_to() -> None:
    from coilwright.job.edit import new_job
    from coilwright.plan.ask_first import ask_first

    job = new_job("Cold")
    found = plan(job)
    persons = {q.words.answer: q.who for q in found.questions}
    text = render("questions", found, "md").split("## Ask these first")[1].split("\n## ")[0]
    told = re.findall(r"\*\*(.+?)\*\*.*\*Ask (.+?)\.\*", text)
    first = ask_first(job, found)[:3]
    assert [label for label, _ in told] == [e.label for e in first]
    for (_, person), effect in zip(told, first, strict=True):
        who = persons.get(effect.key, effect.who)
        assert person == ("yourself" if who == "you" else f"the {who}")
    assert all(q.status is not Status.SETTLED for q in found.questions if q.urgent)


def test_what_answers_say_together_is_not_asked_once_more() -> None:
    """Width and camber stood on the order, and how true the strip must be was still open."""
    def strip(job: Job) -> tuple[Status, str]:
        return next((one.status, one.said) for one in plan(job).questions
                    if one.key == "machine_maker.strip_true")

    job = give(give(demo_jobs()["heron-lane-barn"], CoilsKey.WIDTH_TOLERANCE, 1 / 32),
               CoilsKey.CAMBER, 0.25)
    job = dataclasses.replace(job, questions={})
    assert strip(job) == (Status.SETTLED, "Width tolerance, ± 1/32 in; Camber, at most 1/4 in")
    doubted = give(job, CoilsKey.CAMBER, 0.25, Standing.GUESS)
    assert strip(doubted)[0] is Status.OPEN
    told, _ = reply(doubted, "machine_maker.strip_true", "1/8 in in 8 ft")
    assert strip(told) == (Status.SETTLED, "1/8 in in 8 ft")
