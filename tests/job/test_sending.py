"""Steps in the life of an order: dated, in order, back and recorded; revisions by letters."""

from __future__ import annotations

import dataclasses
import datetime

import pytest

from coilwright.job.copies import copied
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.life import Life, OrderState, Sent
from coilwright.job.sending import (
    CannotStep,
    answered_otherwise,
    as_sent,
    date_words,
    moved_from,
    next_revision,
    next_states,
    number_for,
    order_checksum,
    stands_words,
    state_before,
    stepped,
    stepped_back,
    still_out,
    to_send,
)
from coilwright.plan import plan
from coilwright.sheets.state import state_of
from tests.plan.quotes.five import barn

DAY = datetime.date(2027, 3, 1)


def later(days: int) -> datetime.date:
    """So many days after the first."""
    return DAY + datetime.timedelta(days=days)


def ordered() -> Job:
    """The barn, asked for and ordered."""
    out = stepped(barn(), OrderState.OUT, DAY)
    return as_sent(to_send(out, later(3)), "the text", "the page", "the job")


def test_the_way_of_an_order() -> None:
    job = ordered()
    assert (job.life.state, job.order.revision, job.order.date) == (
        OrderState.ORDERED, "A", later(3))
    job = stepped(job, OrderState.DELIVERED, later(24), "one coil held")
    job = stepped(job, OrderState.RUN, later(30))
    assert [step.state.value for step in job.life.steps] == [
        "out for quotes", "ordered", "delivered", "run"]
    assert next_states(job) == ()


def test_a_job_whose_metal_is_all_on_hand_is_run_next_and_back() -> None:
    for job in (barn(), stepped(barn(), OrderState.OUT, DAY)):
        assert next_states(job, from_stock=True) == (OrderState.RUN,)
        run = stepped(job, OrderState.RUN, DAY, from_stock=True)
        assert run.life.state is OrderState.RUN
        assert stepped_back(run, DAY).life.state is job.life.state
    with pytest.raises(CannotStep, match="it can be run"):
        stepped(barn(), OrderState.ORDERED, DAY, from_stock=True)


def test_a_step_that_cannot_follow_or_comes_too_early_is_refused() -> None:
    with pytest.raises(CannotStep, match="cannot be run next"):
        stepped(barn(), OrderState.RUN, DAY)
    with pytest.raises(CannotStep, match="before the step that came last"):
        stepped(ordered(), OrderState.DELIVERED, DAY)
    with pytest.raises(CannotStep, match="no step to go back"):
        stepped_back(barn(), DAY)


def test_a_step_back_is_recorded_and_what_was_sent_stays() -> None:
    back = stepped_back(ordered(), later(4), "they cannot ship")
    assert (back.life.state, back.life.steps[-1].back) == (OrderState.OUT, True)
    assert len(back.life.steps) == 3
    assert back.life.sent == ordered().life.sent
    assert stepped_back(back, later(5)).life.state is OrderState.DRAFT


def test_what_the_supplier_has_stands_until_a_step_back_and_once_sent_again() -> None:
    assert still_out(barn()) is None
    job = ordered()
    assert still_out(job) is None
    run = stepped(stepped(job, OrderState.DELIVERED, later(24)), OrderState.RUN, later(30))
    assert still_out(stepped_back(run, later(31))) is None
    back = stepped_back(job, later(4))
    assert still_out(back) is job.life.latest
    assert still_out(stepped_back(back, later(5))) is job.life.latest
    # Nobody is told by running it from stock.
    assert still_out(stepped(back, OrderState.RUN, later(6), from_stock=True)) is job.life.latest
    again = as_sent(to_send(back, later(7)), "the text", "the page", "the job")
    assert still_out(again) is None


@pytest.mark.parametrize(("key", "changes"), [
    ("job.name", False), ("job.client", False), ("job.designer", False),
    ("job.building_use", False), ("job.site", True), ("metal.color", True),
])
def test_what_no_order_bears_changes_none(key: str, changes: bool) -> None:
    job = ordered()
    assert answered_otherwise(give(job, key, "Other")) is changes
    # One that was sent by a program that counted them is not changed by having been so.
    old = dataclasses.replace(job.life.sent[-1], checksum=order_checksum(
        job, ("quotes.", "job.units")))
    kept = dataclasses.replace(job, life=dataclasses.replace(job.life, sent=(old,)))
    assert not answered_otherwise(kept)
    assert answered_otherwise(give(kept, key, "Other"))


def test_a_step_back_leaves_the_day_of_the_state_and_what_was_typed() -> None:
    job = stepped(ordered(), OrderState.DELIVERED, later(24))
    job = stepped(job, OrderState.RUN, later(30))
    assert state_before(job) is OrderState.DELIVERED
    note = "x" * 300
    back = stepped_back(job, later(40), note)
    assert back.life.since == later(24)
    assert back.life.steps[-1].note == note
    assert state_of(plan(back)) == "DELIVERED Mar 25, 2027"
    with pytest.raises(CannotStep, match="601 letters"):
        stepped_back(job, later(40), "x" * 601)


def test_a_date_put_in_at_the_head_stays_and_a_revision_is_never_dated_before() -> None:
    job = barn()
    head = dataclasses.replace(job.order, date=later(5))
    coils = dataclasses.replace(job.coils, order_date=later(2))
    job = dataclasses.replace(job, order=head, coils=coils)
    assert date_words(job, later(3)) == "dated Mar 6, 2027, Order date was Mar 3, 2027"
    sent = as_sent(to_send(job, later(3)), "text", "page", "job", "by e-mail", later(3))
    (one,) = sent.life.sent
    assert (sent.order.date, one.date, one.dated) == (later(5), later(3), later(5))
    assert sent.coils.order_date == sent.life.since == later(3)
    assert sent.life.steps[-1].note == "revision A to Birch (invented): by e-mail"
    assert next_states(sent)[0] is OrderState.DELIVERED
    changed = give(sent, "coils.spare", 0.05)
    assert next_states(changed, otherwise=True)[0] is OrderState.ORDERED
    assert to_send(changed, later(4)).order.date == later(5)
    assert to_send(changed, later(9)).order.date == later(9)
    assert date_words(changed, later(9)) == ""


def test_letters_of_revisions() -> None:
    one = Sent(revision="A", date=DAY, sheet="", job="")
    assert [next_revision(Job(life=Life(sent=(one,) * n))) for n in (0, 1, 25, 26, 27, 701, 702)
            ] == ["A", "B", "Z", "AA", "AB", "ZZ", "AAA"]


def test_each_supplier_has_revisions_and_a_number_of_its_own() -> None:
    job = ordered()
    moved = dataclasses.replace(job, order=dataclasses.replace(job.order, supplier="Tern Hill"))
    assert (moved_from(job), moved_from(moved)) == (None, job.life.latest)
    assert (next_revision(job), next_revision(moved)) == ("B", "A")
    assert (number_for(job, job.order.supplier), number_for(job, "Tern Hill")) == ("D-1041", "")
    assert stands_words(moved) == (
        "Revision A of order D-1041 stands with Birch (invented): cancel it there in writing "
        "before this goes to Tern Hill.")
    # A step back cancels nothing; what has come is with nobody, and no name names nobody.
    assert moved_from(stepped_back(moved, later(4))) is job.life.latest
    assert moved_from(stepped(moved, OrderState.DELIVERED, later(24))) is None
    nobody = dataclasses.replace(job, order=dataclasses.replace(job.order, supplier=" "))
    assert (moved_from(nobody), next_revision(nobody)) == (None, "B")
    # In a file of a time that counted all revisions together, no letter is given twice.
    one, again = job.life.sent[0], dataclasses.replace(
        job.life.sent[0], revision="B", supplier="TERN  Hill")
    old = dataclasses.replace(moved, life=dataclasses.replace(moved.life, sent=(one, again)))
    assert next_revision(old) == "C"
    back = dataclasses.replace(old, order=dataclasses.replace(
        job.order, supplier=one.supplier, number="D-1042"))
    assert (next_revision(back), moved_from(back)) == ("B", again)
    assert number_for(back, one.supplier) == "D-1042", "it is nobody else's"


def test_a_change_is_seen_and_what_changes_no_order_is_not() -> None:
    job = ordered()
    assert not answered_otherwise(job)
    assert not answered_otherwise(dataclasses.replace(job, about="other words"))
    assert answered_otherwise(give(job, "coils.spare", 0.05))
    planes = dataclasses.replace(job.roof.planes[0], eave=510.0), *job.roof.planes[1:]
    roof = dataclasses.replace(job.roof, planes=planes)
    assert answered_otherwise(dataclasses.replace(job, roof=roof))
    again = as_sent(to_send(give(job, "coils.spare", 0.05), later(6)), "text 2", "page 2", "job 2")
    assert not answered_otherwise(again)
    assert [one.revision for one in again.life.sent] == ["A", "B"]


def test_a_copy_has_no_life_of_another_order() -> None:
    assert copied(ordered()).life == Life()
