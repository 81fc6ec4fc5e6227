"""Questions that usually hold an order are said with care on a ready one; they make no draft."""

from __future__ import annotations

import re

from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.plan.questions import Status, hold_words, holding, questions, reply
from coilwright.sheets import render
from tests.cases import small_gable


def settled(job: Job, *keep: str) -> Job:
    """The job with every question settled but these."""
    for question in questions(job, plan(job)):
        if question.key not in keep and not question.words.answer:
            job, error = reply(job, question.key, "yes, by phone")
            assert not error
    return job


def test_a_ready_order_counts_what_is_open_and_stays_ready() -> None:
    job = small_gable()
    found = plan(job)
    count = len(holding(job, found))
    assert count > 1
    assert hold_words(job, found) == f"{count} questions that usually hold an order are open"
    assert found.ready
    text = render("summary", found, "md")
    assert "**READY.**" in text
    assert f"**CARE:** {count} questions that usually hold an order are open" in text
    assert "DRAFT" not in text


def test_one_is_said_as_one_and_none_is_not_said() -> None:
    job = small_gable()
    free = [q.key for q in holding(job, plan(job)) if not q.words.answer]
    assert free
    one = settled(job, free[0])
    rest = [q for q in holding(one, plan(one)) if q.key != free[0]]
    assert all(q.words.answer for q in rest)
    if not rest:
        assert hold_words(one, plan(one)) == "1 question that usually holds an order is open"
    done = settled(job)
    left = holding(done, plan(done))
    assert free[0] not in {q.key for q in left}
    text = render("summary", plan(done), "md")
    assert ("CARE:" in text) == bool(left)


def test_the_sheet_sends_each_first_thing_to_the_person_its_question_is_put_to() -> None:
    from coilwright.job.edit import new_job
    from coilwright.plan.ask_first import ask_first

    job = new_job("Cold")
    found = plan(job)
    persons = {q.words.answer: q.who for q in questions(job, found)}
    text = render("questions", found, "md").split("## Ask these first")[1].split("\n## ")[0]
    told = re.findall(r"\*\*(.+?)\*\*.*\*Ask (.+?)\.\*", text)
    first = ask_first(job, found)[:3]
    assert [label for label, _ in told] == [e.label for e in first]
    for (_, person), effect in zip(told, first, strict=True):
        who = persons.get(effect.key, effect.who)
        assert person == ("yourself" if who == "you" else f"the {who}")
    assert all(q.status is not Status.SETTLED for q in holding(job, found))
