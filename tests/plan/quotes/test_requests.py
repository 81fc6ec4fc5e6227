"""Requests, quotes and the state of the order go together; replies stand at their questions."""

from __future__ import annotations

import dataclasses
import datetime

from coilwright.job.choices import YesNo
from coilwright.job.job import Asked, Job
from coilwright.job.life import OrderState
from coilwright.job.quotes import Quote
from coilwright.job.requests import Request
from coilwright.job.sending import stepped
from coilwright.plan import plan
from coilwright.plan.questions import Question, Status
from coilwright.plan.quotes.award import award
from coilwright.plan.quotes.compare import compare
from coilwright.sheets import render
from coilwright.sheets.state import state_of
from tests.plan.quotes.five import all_in, barn

DAY = datetime.date(2027, 3, 1)


def asked(*quotes: Quote) -> Job:
    """The barn out for quotes at two suppliers."""
    requests = tuple(Request(supplier=name, number="R7", date=DAY, by="A. Demo")
                     for name in ("Birch (invented)", "Tern (invented)"))
    job = dataclasses.replace(barn(*quotes), requests=requests)
    return stepped(job, OrderState.OUT, DAY)


def test_who_was_asked_and_has_not_quoted_is_said_with_the_state() -> None:
    job = asked()
    assert state_of(plan(job)) == "READY, OUT FOR QUOTES Mar 1, 2027, 0 of 2 quoted"
    assert "Tern (invented), Mar 1, 2027, R7" in render("quotes", plan(job), "text")
    job = asked(all_in(" birch  (invented)", "1.78/lb"), all_in("Elk (invented)", "1.9/lb"))
    assert "1 of 2 quoted" in state_of(plan(job))
    given = dataclasses.replace(job.quotes.received[0], supplier="Elk (invented)", awarded=True)
    assert state_of(plan(dataclasses.replace(job, quotes=dataclasses.replace(
        job.quotes, received=(given,))))) == "READY, AWARDED to Elk (invented)"
    to_elk = dataclasses.replace(job, quotes=dataclasses.replace(
        job.quotes, received=(job.quotes.received[0], given)))
    assert "✓ Elk (invented), awarded" in render("quotes", plan(to_elk), "text")
    assert "awarded" not in render("quotes", plan(job), "text")
    found = compare(plan(job))
    assert [one.supplier for one in found.awaited] == ["Tern (invented)"]
    assert [one.request is not None for one in found.quotes] == [True, False]
    text = render("quotes", plan(job), "text")
    assert "Asked, and not quoted yet" in text
    assert "Needed by Apr 12, 2027." in text
    assert "**Worth asking:** " in render("quotes", plan(job), "md")
    assert "Mar 1, 2027, R7, by A. Demo" in text


def question(job: Job, key: str) -> Question:
    """One question of a job."""
    return next(one for one in plan(job).questions if one.key == key)


def test_a_reply_in_a_quote_stands_at_its_question_and_is_settled_by_the_award() -> None:
    birch = all_in("Birch", "1.78/lb", one_lot=YesNo.YES, lead_time=29)
    elk = all_in("Elk", "1.90/lb", one_lot=YesNo.NO)
    bare = dataclasses.replace(barn(birch, elk), questions={})
    lot = question(bare, "supplier.one_lot")
    assert (lot.status, lot.said) == (
        Status.GUESS, "Birch: Yes, one lot.; Elk: No, more than one lot.")
    quoted = question(bare, "supplier.lead_time").quoted
    assert [str(one) for one in quoted] == ["Birch: 29 days", "Elk: 21 days"]
    said = {"supplier.one_lot": Asked(text="one lot, J. at Birch", settled=True)}
    own = question(dataclasses.replace(bare, questions=said), "supplier.one_lot")
    assert (own.status, own.said) == (Status.SETTLED, "one lot, J. at Birch")
    # Given to one that says nothing of it, another's reply is none: its coils do not come.
    silent = award(plan(dataclasses.replace(barn(birch, all_in("Fern", "1.80/lb")), questions={})),
                   2)
    lot = question(silent, "supplier.one_lot")
    assert (lot.status, lot.reply, lot.quoted) == (Status.OPEN, "", ())
    settled = question(award(plan(bare), 1), "supplier.one_lot")
    assert (settled.status, settled.said) == (Status.SETTLED, "Yes, one lot. (quote of Birch)")
