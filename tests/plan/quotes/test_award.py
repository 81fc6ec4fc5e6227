"""A quote that is awarded: supplier, price, days and limits in the job, sure by that quote."""

from __future__ import annotations

import dataclasses
import datetime
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS, Value
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.confirming import with_confirmation
from coilwright.job.copies import copied, copy_words
from coilwright.job.edit import clear, confirm, do_not_know, give
from coilwright.job.haul import LiftGear
from coilwright.job.job import Asked, Job
from coilwright.job.life import Canceled, Confirmed, Life, LifeStep, OrderState, Sent
from coilwright.job.metal import CoatingName, Finish, ThicknessIs
from coilwright.job.quotes import OwnAnswer
from coilwright.job.rates import Rate
from coilwright.job.receiving import Arrival, Decision, Fault
from coilwright.job.sending import as_sent, next_states
from coilwright.job.stock import Stock
from coilwright.plan import plan
from coilwright.plan.coils.after_run import after_run, leftovers, run_through
from coilwright.plan.coils.run import left_of, run_of
from coilwright.plan.questions import Question, Status, reply, waive
from coilwright.plan.quotes.asked_anew import opened_words
from coilwright.plan.quotes.award import CannotAward, award, otherwise_words, withdrawn
from coilwright.plan.quotes.compare import compare, with_given_for
from coilwright.plan.quotes.freight import freight_against
from coilwright.plan.quotes.replies import terms_words
from coilwright.plan.receiving.receive import receive
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.quotes import quote_facts
from coilwright.sheets.state import state_of
from coilwright.store.reader import read_model, to_text
from coilwright.units import Kind, System, show
from coilwright.values.finding import Level
from coilwright.values.keys import AnswerKey
from coilwright.values.standing import Standing
from tests.draws import draws
from tests.plan.quotes.five import FIVE, all_in, barn, quote

QUOTE = all_in(
    "Elk Fork (invented)", "190/cwt", tolerance=0.0, tolerance_over=0.05, minimum=500.0,
    heaviest=4000.0, inside_diameter=20.0, lead_time=18, by="J. Demo (invented)",
    reference="Q-7", date=datetime.date(2027, 2, 27), deposit="30 %", thickness=0.024,
)


def awarded() -> Job:
    """The barn with a quote that is awarded."""
    return award(plan(barn(QUOTE, *FIVE)), 1)


def test_what_the_quote_says_is_sure_by_quote() -> None:
    job = awarded()
    values = {key: ANSWERS[key].value(job) for key in job.by_quote}
    assert values == {
        "coils.lead_time": 18, "coils.tolerance": 0.0, "coils.tolerance_over": 0.05,
        "coils.supplier_heaviest": 4000.0, "coils.minimum_order": 500.0,
        "coils.inside_diameter": 20.0, "coils.price": 1.9, "metal.thickness": 0.024,
    }
    assert {ANSWERS[key].standing(job) for key in values} == {Standing.SURE}
    figure = plan(job).figures["coils.tolerance_over"]
    assert str(figure.source) == "the quote of Elk Fork (invented), Q-7, Feb 27, 2027"


def test_the_order_has_supplier_person_and_terms() -> None:
    order = awarded().order
    assert (order.supplier, order.attention) == ("Elk Fork (invented)", "J. Demo (invented)")
    assert order.terms == "deposit 30 %"
    # Whoever was named at the head stays where it is this supplier's, and no other's.
    for supplier, person in (("elk fork (invented)", "Sales desk"),
                             ("Birch (invented)", "J. Demo (invented)")):
        job = barn(QUOTE, *FIVE)
        job = dataclasses.replace(job, order=dataclasses.replace(
            job.order, supplier=supplier, attention="Sales desk", supplier_phone="555-0177"))
        order = award(plan(job), 1).order
        assert order.attention == person
        assert order.supplier_phone == ("555-0177" if person == "Sales desk" else "")
    none = all_in("Elk Fork (invented)", "190/cwt", deposit="0")
    assert terms_words(none, System.US) == "no deposit", "and not $0.00 lump"


def test_a_guess_becomes_sure_and_an_answer_typed_over_is_no_longer_by_quote() -> None:
    base = do_not_know(barn(QUOTE), "coils.tolerance")
    assert ANSWERS["coils.tolerance"].standing(base) is Standing.GUESS
    job = award(plan(base), 1)
    assert ANSWERS["coils.tolerance"].standing(job) is Standing.SURE
    assert "coils.tolerance" not in give(job, "coils.tolerance", 0.1).by_quote


def test_an_order_that_is_awarded_without_a_request_says_so_and_is_ordered_next() -> None:
    base = barn(all_in("Elk Fork (invented)", "190/cwt"))
    assert (next_states(base)[0], state_of(plan(base))) == (OrderState.OUT, "READY")
    job = award(plan(base), 1)
    assert (next_states(job)[0], state_of(plan(job))) == (
        OrderState.ORDERED, "READY, AWARDED to Elk Fork (invented)")


def test_only_one_is_awarded_and_it_can_be_withdrawn() -> None:
    again = award(plan(awarded()), 2)
    assert [one.awarded for one in again.quotes.received] == [False, True, *[False] * 4]
    assert not any(one.awarded for one in withdrawn(again).quotes.received)


def test_what_an_award_replaced_is_kept_and_comes_back_with_it_withdrawn() -> None:
    base = give(do_not_know(barn(QUOTE, *FIVE), "coils.tolerance"), "coils.supplier_heaviest",
                5123.4567)
    job = award(plan(base), 1)
    assert job.before_quote["coils.supplier_heaviest"] == OwnAnswer(text="5123.4567 lb")
    lapsed = {"panel.take_up"}  # it was of the thickness that was asked
    assert set(job.before_quote) == {*job.by_quote, *lapsed}
    back = withdrawn(read_model(to_text(job), Job, "there"))
    assert (back.coils, back.metal, back.by_quote, back.before_quote) == (
        base.coils, base.metal, {}, {})
    for key in job.before_quote:
        assert ANSWERS[key].standing(back) is ANSWERS[key].standing(base), key
    other = award(plan(job), 2)
    assert "coils.supplier_heaviest" not in other.by_quote, "the second does not say it"
    assert other.coils.supplier_heaviest == 5123.4567
    typed = give(job, "coils.supplier_heaviest", 3000.0)
    assert withdrawn(typed).coils.supplier_heaviest == 3000.0, "what was typed since stays"


def test_what_was_asked_is_not_what_an_awarded_quote_filled_in() -> None:
    loose = all_in("Fir (invented)", "200/cwt", tolerance=0.08, tolerance_over=0.08)
    before = plan(barn(QUOTE, loose))
    said = [one.deviations for one in compare(before).quotes]
    after = plan(award(before, 1))
    assert after.job.coils.tolerance_over == 0.05
    assert [one.deviations for one in compare(after).quotes] == [(), said[1]]
    assert not any("5 % was asked" in words for one in said for words in one)


SAID: dict[str, st.SearchStrategy[Any]] = {
    "tolerance": st.sampled_from([0.0, 0.03, 0.05, 0.08]),
    "tolerance_over": st.sampled_from([0.0, 0.05, 0.1]),
    "thickness": st.sampled_from([0.0236, 0.024, 0.0276]), "gauge": st.sampled_from([24, 22]),
    "thickness_is": st.sampled_from(ThicknessIs), "coating": st.sampled_from(CoatingName),
    "finish": st.sampled_from(Finish), "heaviest": st.sampled_from([900.0, 2000.0, 4321.98765]),
    "width_tolerance": st.sampled_from([0.0625, 0.125]), "camber": st.just(0.25),
    "thickness_tolerance": st.just(0.003), "back_coat": st.just("wash coat"),
    "minimum": st.sampled_from([500.0, 3000.0]), "inside_diameter": st.sampled_from([16.0, 20.0]),
    "width": st.sampled_from([20.5, 21.0]), "lead_time": st.integers(5, 60),
    "deposit": st.just("30 %"), "terms": st.just("net 30 days"), "one_lot": st.sampled_from(YesNo),
}
"""What a quote says beside its price, or leaves unsaid."""

ASKED: dict[AnswerKey, Value] = {
    CoilsKey.TOLERANCE: 0.04, CoilsKey.TOLERANCE_OVER: 0.07, CoilsKey.SUPPLIER_HEAVIEST: 2345.6789,
    CoilsKey.LEAD_TIME: 21, CoilsKey.MINIMUM_ORDER: 250.0, CoilsKey.INSIDE_DIAMETER: 20.0,
}
"""What the job may ask for before any quote."""


def reckoned(job: Job) -> dict[int, dict[str, object]]:
    """By number, all that is said of each quote, and its place in the list."""
    found = compare(plan(job))
    return {one.number: {
        "at": at, "group": one.group, "landed": one.landed, "mark": one.mark, "worth": one.worth,
        "cash": one.cash, "arrives": one.arrives, "missing": one.missing, "unsaid": one.unsaid,
        "deviations": one.deviations, "misses": one.misses, "faults": one.faults,
        "facts": [*quote_facts(one, job.units)],
        "figures": [(each.label, each.value, each.standing) for each in one.figures()],
        "lengths": one.shipment and one.shipment.lengths,
        "cost": one.cost and ([(each.name, each.words, each.amount) for each in one.cost.lines],
                              one.cost.moved, one.cost.most),
    } for at, one in enumerate(found.sorted())}


@settings(max_examples=draws(6))
@given(st.lists(st.fixed_dictionaries({"price": st.sampled_from(["170/cwt", "$2.90/ft"])},
                                      optional=SAID), min_size=2, max_size=3),
       st.fixed_dictionaries({}, optional={key: st.sampled_from([Standing.SURE, Standing.GUESS,
                                                                 Standing.ASK]) for key in ASKED}))
def test_whom_the_order_goes_to_changes_nothing_of_the_other_quotes(
    said: list[dict[str, Any]], asked: dict[AnswerKey, Standing]
) -> None:
    base = barn(*(quote(f"{name} (invented)", **{"width": 21.0, "all_in": YesNo.YES, **one})
                  for name, one in zip(("Ash", "Birch", "Cedar"), said, strict=False)))
    for key, mark in asked.items():
        base = clear(base, key) if mark is Standing.ASK else give(base, key, ASKED[key], mark)
    before, job = reckoned(base), base
    # One after the other, so that each award also takes the place of one before.
    for number in before:
        try:
            job = award(plan(job), number)
        except CannotAward:
            continue
        after = reckoned(job)
        for other in before:
            if other == number:  # what it says is what is asked now; all else is as it was
                after[other]["deviations"] = before[other]["deviations"]
            assert after[other] == before[other], (number, other)
        assert reckoned(withdrawn(job)) == before
    back = withdrawn(job)
    assert dataclasses.replace(back, confirmed=base.confirmed) == base


def test_nothing_of_one_award_is_left_under_the_next() -> None:
    """What the first said of terms, freight and warranties is not what the second said."""
    first = dataclasses.replace(
        all_in("Elk Fork (invented)", "190/cwt", deposit="30 %", freight="350"),
        one_lot=YesNo.YES, stock_place="Mill Town")
    second = all_in("Tern Hill (invented)", "195/cwt")
    base = dataclasses.replace(barn(first, second), questions={
        "supplier.one_lot": Asked(text="asked on Monday")})
    one = award(plan(base), 1)
    assert one.order.terms == "deposit 30 %"
    assert one.questions["supplier.nearest_stock"].text.startswith("Mill Town")
    two = award(plan(read_model(to_text(one), Job, "there")), 2)
    assert (two.order.supplier, two.order.terms, two.order.freight) == (
        "Tern Hill (invented)", base.order.terms, base.order.freight)
    assert "supplier.nearest_stock" not in two.questions
    assert two.questions["supplier.one_lot"] == Asked(text="asked on Monday")
    assert withdrawn(two).order == base.order
    agreed = dataclasses.replace(one, order=dataclasses.replace(one.order, terms="net 10"))
    assert withdrawn(agreed).order.terms == "net 10", "what was written since stays"


def test_what_one_supplier_replied_is_open_for_the_next_and_settled_on_the_way_back() -> None:
    first = dataclasses.replace(all_in("Elk Fork (invented)", "190/cwt"), stock_place="Mill Town")
    second = all_in("Tern Hill (invented)", "195/cwt")
    one = award(plan(barn(first, second)), 1)
    slit = one.questions["supplier.slitting"]
    # Whose it is that was replied before anybody was awarded, nobody wrote down.
    assert award(plan(one), 2).questions["supplier.slitting"] == slit
    one = dataclasses.replace(one, life=Life(sent=(Sent(
        revision="A", date=datetime.date(2027, 3, 4), supplier=one.order.supplier, sheet="",
        job=""),)))
    one, _ = reply(one, "supplier.slitting", "yes")
    one = waive(one, "supplier.claims", "known")
    two = award(plan(one), 2)
    (now,) = [question for question in plan(two).questions if question.key == "supplier.slitting"]
    assert (now.status, now.said) == (
        Status.GUESS, "yes (while the order went to Elk Fork (invented))")
    # Whoever settles it as it stands says that it holds of this one: whose it was is no part of it.
    held, _ = reply(two, "supplier.slitting", now.said)
    assert held.questions["supplier.slitting"].text == "yes"
    kept = {key for key in one.questions if not key.startswith("supplier.")} | {"supplier.claims"}
    assert len(kept) > 1
    assert all(two.questions[key] == one.questions[key] for key in kept)
    # It was the first's: going back there nobody has to ask it once more.
    again = award(plan(read_model(to_text(two), Job, "there")), 1)
    assert again.questions == one.questions
    own, _ = reply(two, "supplier.slitting", "no, but a shop nearby")
    assert award(plan(own), 1).questions["supplier.slitting"].text == (
        "no, but a shop nearby (while the order went to Tern Hill (invented))")


def test_what_was_replied_to_one_award_is_asked_anew_by_the_next_before_anything_is_sent() -> None:
    base = give(barn(*(all_in(name, "190/cwt") for name in (
        "Elk Fork (invented)", "Tern Hill (invented)"))), CoilsKey.WIDTH_TOLERANCE, 0.0625)
    one = award(plan(base), 1)
    one, _ = reply(one, "supplier.one_lot", "Yes, one lot, says Tom")
    one, _ = reply(one, "supplier.heaviest_coil", "4,000 lb")
    off = withdrawn(read_model(to_text(one), Job, "there"))
    for two in (award(plan(one), 2), award(plan(off), 2)):
        asked = {question.key: question for question in plan(two).questions}
        assert asked["supplier.one_lot"].status is Status.GUESS
        assert asked["supplier.one_lot"].said == (
            "Yes, one lot, says Tom (while the order went to Elk Fork (invented))")
        assert (two.coils.supplier_heaviest, asked["supplier.heaviest_coil"].status) == (
            4000.0, Status.GUESS)
        assert ANSWERS[CoilsKey.WIDTH_TOLERANCE].standing(two) is Standing.SURE
        assert not plan(two).ready
        back = award(plan(two), 1)
        assert (back.questions, back.standing) == (one.questions, one.standing)
        # A supplier is the same however its name is written.
        first, *rest = two.quotes.received
        louder = dataclasses.replace(two, quotes=dataclasses.replace(two.quotes, received=(
            dataclasses.replace(first, supplier="ELK FORK  (invented)"), *rest)))
        back = award(plan(louder), 1)
        assert (back.questions["supplier.one_lot"], back.standing) == (
            one.questions["supplier.one_lot"], one.standing)
    # Awarded anew as it is now, what it replied since its first award is no less its word.
    anew = award(plan(one), 1)
    assert ANSWERS[CoilsKey.SUPPLIER_HEAVIEST].standing(award(plan(anew), 2)) is Standing.GUESS
    assert ANSWERS[CoilsKey.WIDTH_TOLERANCE].standing(award(plan(anew), 2)) is Standing.SURE
    # Where nothing was sure before its award, all that is sure since may be its supplier's word.
    unsure = dataclasses.replace(one, quotes=dataclasses.replace(one.quotes, sure_then={}))
    assert ANSWERS[CoilsKey.SUPPLIER_HEAVIEST].standing(award(plan(unsure), 2)) is Standing.GUESS
    assert opened_words(one, award(plan(one), 2)) == (
        " To be asked anew, for it went to Elk Fork (invented): 1 question; Supplier's heaviest "
        "as a guess.")
    assert opened_words(one, award(plan(one), 1)) == ""


def test_an_order_that_was_sent_without_an_award_leaves_nothing_sure_for_another_supplier() -> None:
    base = barn(all_in("Tern Hill (invented)", "195/cwt"), all_in("Elk Fork (invented)", "190/cwt"))
    sent = dataclasses.replace(
        base, order=dataclasses.replace(base.order, supplier="Elk Fork (invented)"),
        life=Life(sent=(Sent(revision="A", date=datetime.date(2027, 3, 4), sheet="", job="",
                             supplier="Elk Fork (invented)"),)))
    assert plan(sent).ready
    moved = award(plan(sent), 1)
    assert not plan(moved).ready
    assert ANSWERS[CoilsKey.SUPPLIER_HEAVIEST].standing(moved) is Standing.GUESS
    back = withdrawn(moved)
    assert (back.questions, back.standing) == (sent.questions, sent.standing)
    # Nor does it where its own quote is awarded before it moves.
    later = award(plan(award(plan(sent), 2)), 1)
    assert ANSWERS[CoilsKey.SUPPLIER_HEAVIEST].standing(later) is Standing.GUESS


def test_tolerances_camber_and_back_coat_of_a_quote_are_its_suppliers_once_it_is_awarded() -> None:
    said = dataclasses.replace(
        all_in("Elk Fork (invented)", "190/cwt"), thickness_tolerance=0.003, width_tolerance=0.125,
        camber=0.375, back_coat="primer and wash coat")
    base = give(give(barn(said), CoilsKey.WIDTH_TOLERANCE, 0.0625), CoilsKey.CAMBER, 0.25)
    (before,) = compare(plan(base)).quotes
    assert before.deviations == ("Width within 1/8 in; 1/16 in was asked.",
                                 "Camber within 3/8 in; 1/4 in was asked.")
    job = award(plan(base), 1)
    asked = {question.key: question for question in plan(job).questions}
    for name, text in (("width_tolerance", "1/8 in"), ("camber", "3/8 in"),
                       ("thickness_tolerance", "0.0030 in"), ("back_coat", "primer and wash coat")):
        one = asked[f"supplier.{name}"]
        assert (one.status, one.said) == (Status.SETTLED, text)
        assert one.words.answer in job.by_quote
    assert withdrawn(job).coils == base.coils


def test_a_quote_of_two_lots_holds_the_order_whatever_was_replied_before_its_award() -> None:
    mixed = dataclasses.replace(all_in("Elk Fork (invented)", "190/cwt"), one_lot=YesNo.NO)
    base, key = give(barn(mixed), CoilsKey.SUPPLIER_HEAVIEST, 600.0), "supplier.one_lot"
    bare = dataclasses.replace(base, questions={
        one: asked for one, asked in base.questions.items() if one != key})

    def asked(of: Job) -> Question:
        return next(one for one in plan(of).questions if one.key == key)

    for before in (base, bare):  # settled with a yes from nobody knows whom, and not asked yet
        job = award(plan(before), 1)
        assert asked(job).status is Status.AGAINST
        assert key in plan(job).readiness.holding
        assert "Elk Fork (invented) replied “No, more than one lot" in str(plan(job).reasons)
        # Who waives it takes on what the quote says, and the order says so.
        assert asked(waive(job, key, "a lot a side")).taken_on
        said, _ = reply(job, key, "Yes, one lot after all; J. by phone")
        assert asked(said).status is Status.SETTLED
        assert key not in plan(said).readiness.holding
        assert asked(withdrawn(job)).status is asked(before).status


def test_what_the_awarded_quote_does_not_say_is_a_care_beside_ready() -> None:
    bare = quote("Tern Hill (invented)", price="1.62/lb")
    base = barn(bare, QUOTE)
    assert not [one for one in plan(base).findings if one.key == "quotes.incomplete"]
    done = plan(award(plan(base), 1))
    assert done.readiness.ready
    (said,) = [one for one in done.findings if one.key == "quotes.incomplete"]
    (report,) = [one for one in compare(done).quotes if one.quote.awarded]
    assert (said.level, said.step) == (Level.CARE, "quotes")
    assert said.what == ("The order goes to Tern Hill (invented), whose quote does not say: "
                         f"{', '.join(report.missing)}.")
    assert "lead time" in report.missing
    assert ": an amount, or “included” where it is in the price." in said.do
    whole = dataclasses.replace(bare, all_in=YesNo.YES)
    (late,) = [one for one in plan(award(plan(barn(whole)), 1)).findings
               if one.key == "quotes.incomplete"]
    assert "included" not in late.do, "of a day nobody says so"
    assert said.what in [one["what"] for one in summary_data(done)["findings"]]
    # What leaves the house says nothing of what we lack.
    for kind in ("order", "request"):
        assert "does not say" not in render(kind, done, "text")
    assert not [one for one in plan(award(plan(base), 2)).findings
                if one.key == "quotes.incomplete"]


def with_price(job: Job) -> Job:
    """The job with another price of its second quote."""
    first, second, *rest = job.quotes.received
    second = dataclasses.replace(second, price=all_in(second.supplier, "201/cwt").price)
    return dataclasses.replace(job, quotes=dataclasses.replace(
        job.quotes, received=(first, second, *rest)))


def test_a_quote_given_for_another_color_or_width_is_said_to_be_and_asked_anew() -> None:
    """A price, a lot and “has the color” given for one color had held for another."""
    said = dataclasses.replace(QUOTE, color=YesNo.YES, one_lot=YesNo.YES)
    other = all_in("Tern Hill (invented)", "200/cwt")
    job = give(barn(said, other), MetalKey.COLOR, "Peat brown")
    job = award(plan(dataclasses.replace(job, questions={})), 1)

    def care(of: Job) -> list[str]:
        return [one.what for one in plan(of).findings if one.key == "quotes.for_another"]

    def lot(of: Job) -> Status:
        return next(q.status for q in plan(of).questions if q.key == "supplier.one_lot")

    assert (care(job), lot(job)) == ([], Status.SETTLED)
    gray = give(job, MetalKey.COLOR, "Bark gray")
    (what,) = care(gray)
    assert what == ("The quote of Elk Fork (invented) was given for another order: Color was Peat "
                    "brown, and Bark gray is ordered.")
    came = dataclasses.replace(gray, life=Life(steps=(LifeStep(
        state=OrderState.DELIVERED, date=datetime.date(2027, 3, 4)),)))
    assert care(came) == [], "nothing is asked anew of what came"
    head = dataclasses.replace(gray.order, revision="B", date=datetime.date(2027, 3, 1))
    sent = as_sent(dataclasses.replace(gray, order=head), "text", "page", "job")
    said = with_confirmation(sent, Confirmed(date=datetime.date(2027, 3, 2)))
    assert (care(sent), care(said)) == ([what], []), "they wrote back on the gray that was sent"
    assert "green is ordered" in care(give(said, MetalKey.COLOR, "Moss green"))[0]
    again = dataclasses.replace(head, revision="C", date=datetime.date(2027, 3, 3))
    more = as_sent(dataclasses.replace(said, order=again), "text", "page", "job")
    assert care(more) == [], "a revision that changes something else takes none of it back"
    off = dataclasses.replace(said.life.sent[-1], canceled=Canceled(date=datetime.date(2027, 3, 4)))
    canceled = dataclasses.replace(said, life=dataclasses.replace(said.life, sent=(off,)))
    assert care(canceled) == [what], "what is canceled says nothing any more"
    tern = dataclasses.replace(head, supplier="Tern Hill (invented)")
    assert care(dataclasses.replace(said, order=tern)) == [what], "another has confirmed nothing"
    assert lot(gray) is Status.GUESS, "a lot of the other color is no reply"
    assert "before “Color” changed" in str(plan(gray).readiness.reasons)
    for report in compare(plan(gray)).quotes:
        assert report.deviations[0] == (
            "Quoted for another order: Color was Peat brown, and Bark gray is ordered.")
    first, second = gray.quotes.received
    lacks = compare(plan(dataclasses.replace(gray, quotes=dataclasses.replace(
        gray.quotes, received=(first, dataclasses.replace(second, lead_time=None)))))).quotes[1]
    assert lacks.note == f"missing: lead time; {report.deviations[0]}", "both are to be asked"
    (moved,) = care(award(plan(gray), 2))
    assert moved == what.replace("Elk Fork", "Tern Hill"), "it was given for the other color too"
    assert care(give(gray, MetalKey.COLOR, "Peat brown")) == []
    narrow = give(job, PanelKey.COVERAGE, 12.0)
    assert care(dataclasses.replace(narrow, units=System.METRIC))[0].endswith(
        f"was {show(job.panel.coverage, Kind.WIDTH, System.METRIC)}, and 304.8 mm is ordered.")
    assert care(award(plan(gray), 1)) == [], "awarded anew it is for what is ordered"
    # Put in while brown was asked, a quote is for brown, be one awarded or not.
    bare = withdrawn(job)
    typed = with_given_for(plan(bare), with_price(bare), 1)
    open_gray = give(typed, MetalKey.COLOR, "Bark gray")
    assert ["another order" in str(one.deviations) for one in compare(plan(open_gray)).quotes] == [
        False, True]
    late = award(plan(open_gray), 2)
    assert care(late) == [moved]
    assert care(award(plan(withdrawn(late)), 2)) == [], "taken back, it was asked anew"
    assert read_model(to_text(late), Job, "here") == late
    assert care(withdrawn(gray)) == []
    assert read_model(to_text(gray), Job, "here") == gray


def test_what_was_written_of_freight_stays_beside_what_the_quote_says() -> None:
    first, other = (all_in(name, "190/cwt", freight=freight) for name, freight in (
        ("Elk Fork (invented)", "350"), ("Tern Hill (invented)", "410")))
    job = barn(first, other)
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, freight="by supplier"))
    job = award(plan(job), 1)
    assert job.order.freight == "by supplier; $350.00 as quoted"
    assert award(plan(job), 1).order.freight == job.order.freight
    assert award(plan(job), 2).order.freight == "by supplier; $410.00 as quoted"
    for typed in ("supplier delivers, $350 as quoted", "in by supplier at $350.00"):
        own = dataclasses.replace(job, order=dataclasses.replace(job.order, freight=typed))
        for _ in range(2):
            own = award(plan(own), 1)
            assert own.order.freight == typed, "it says that already"
    for typed, then in (("supplier delivers, $350 as quoted", ""),
                        ("as quoted, call 555-0350", "as quoted, call 555-0350; ")):
        own = dataclasses.replace(job, order=dataclasses.replace(job.order, freight=typed))
        assert award(plan(own), 2).order.freight == f"{then}$410.00 as quoted"
    # A sum of one's own stands alone, whatever the quote says now: two would be on the page.
    for typed in ("$600 prepaid", "600 prepaid", "prepaid; $600 flat"):
        own = dataclasses.replace(job, order=dataclasses.replace(job.order, freight=typed))
        for number in (1, 2, 1):
            own = award(plan(own), number)
            assert own.order.freight == typed
            (told,) = [one for one in plan(own).findings if one.key == "quotes.freight_otherwise"]
            assert f"“{typed}”" in told.what
            assert f"“${350 if number == 1 else 410}.00 as quoted”" in told.what
            assert "the head names another amount" in told.what
    # Nor does a quoted sum stand beside that we fetch it, or pay whoever drives.
    for typed in ("collect, we fetch it with our own truck", "we pay the carrier"):
        own = dataclasses.replace(job, order=dataclasses.replace(job.order, freight=typed))
        own = award(plan(own), 2)
        assert own.order.freight == typed
        (told,) = [one for one in plan(own).findings if one.key == "quotes.freight_otherwise"]
        assert "“$410.00 as quoted”: by the head you pay whoever drives" in told.what
    # Digits of a telephone number are no freight that is written there already.
    free = dataclasses.replace(job, order=dataclasses.replace(
        job.order, freight="delivered, supplier's account"))
    assert award(plan(free), 1).order.freight == "delivered, supplier's account"
    own = dataclasses.replace(job, order=dataclasses.replace(
        job.order, freight="call 350 555 0100"))
    assert award(plan(own), 1).order.freight == "call 350 555 0100; $350.00 as quoted"


@pytest.mark.parametrize(("quoted", "head", "says"), [
    ("200", "prepaid, 250 lump", "another amount"), ("200", "600 prepaid", "another amount"),
    ("200", "200 prepaid", ""), ("200", "collect", "you pay whoever drives"),
    ("200", "prepaid by Pelham, $2,005.00", "another amount"),
    ("200", "prepaid, Dispatch 555-0200", "nothing of a charge"),
    ("200", "prepaid and added, $250.00 as quoted; $200.00 as quoted", "another amount"),
    ("200", "prepaid and added, Dispatch 555-0250, 250 mi", ""), ("200", "by supplier", ""),
    ("200", "prepaid, $200 flat", ""), ("200", "delivered, no charge", "nothing is charged"),
    ("200", "delivered, supplier's account; $200.00 as quoted", "nothing is charged"),
    ("included", "prepaid and added", "has it in the price"),
    ("included", "prepaid, in the price", ""), ("included", "$150", "another amount"),
    ("4.10/mile", "$820.00, 200 mi", ""), ("4.10/mile", "$4.50 per mile", "another amount"),
])
def test_freight_at_the_head_that_the_awarded_quote_has_otherwise_is_pointed_out(
    quoted: str, head: str, says: str
) -> None:
    bare = barn(all_in("Elk Fork (invented)", "190/cwt", freight=quoted))
    job = award(plan(dataclasses.replace(
        bare, order=dataclasses.replace(bare.order, freight=""))), 1)
    assert not freight_against(job, job.quotes.received[0]), "as the award writes it"
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, freight=head))
    found = [one for one in plan(job).findings if one.key == "quotes.freight_otherwise"]
    assert bool(found) is bool(says)
    assert all(says in one.what and head in one.what and one.level is Level.CARE for one in found)


def test_freight_quoted_anew_is_not_said_to_stand_where_the_head_was_typed_over() -> None:
    job = award(plan(barn(all_in("Elk Fork (invented)", "190/cwt", freight="200"))), 1)
    job = dataclasses.replace(
        job, order=dataclasses.replace(job.order, freight="prepaid and added"),
        quotes=dataclasses.replace(job.quotes, received=(dataclasses.replace(
            job.quotes.received[0], freight=Rate(Decimal(250), "lump")),)))
    (report,) = compare(plan(job)).quotes
    assert otherwise_words(plan(job), report) == (
        "By now it says otherwise than when it was awarded: freight (then “$200.00 as quoted”).")


def test_an_order_that_is_older_than_its_quote_is_told_so() -> None:
    """The quote is of February 27, 2027."""
    for day, said in ((26, True), (27, False)):
        job = give(awarded(), CoilsKey.ORDER_DATE, datetime.date(2027, 2, day))
        found = [one for one in plan(job).findings if one.key == "quotes.after_order"]
        assert bool(found) is said
        for one in found:
            assert one.level is Level.NOTE
            assert "dated Feb 27, 2027, and the order Feb 26, 2027" in one.what


def test_what_was_weighed_stays_sure_where_an_award_made_anew_changes_nothing_of_it() -> None:
    """The answers of the quote come off and come on again: the order is as it was weighed with."""
    base = give(barn(dataclasses.replace(QUOTE, freight=Rate(Decimal(200), "lump"))),
                "haul.tongue_weight", 900.0)
    first = award(plan(base), 1)
    mark = ANSWERS["haul.tongue_weight"].standing
    assert mark(first) is Standing.GUESS, "it was weighed with coils of another size"
    weighed = confirm(first, "haul.tongue_weight")
    dearer = dataclasses.replace(weighed, quotes=dataclasses.replace(
        weighed.quotes, received=(dataclasses.replace(
            weighed.quotes.received[0], freight=Rate(Decimal(250), "lump")),)))
    anew = award(plan(dearer), 1)
    assert mark(anew) is Standing.SURE
    assert anew.confirmed["haul.tongue_weight"] == weighed.confirmed["haul.tongue_weight"]
    thinner = dataclasses.replace(dearer, quotes=dataclasses.replace(
        dearer.quotes, received=(dataclasses.replace(
            dearer.quotes.received[0], tolerance=0.08),)))
    assert mark(award(plan(thinner), 1)) is Standing.GUESS, "its coils are of another length"


def test_what_is_awarded_lands_where_it_landed() -> None:
    before = compare(plan(barn(QUOTE, *FIVE))).quotes[0].landed
    after = compare(plan(awarded())).quotes[0]
    assert after.landed == before
    assert after.deviations == ()


def test_a_late_or_faulty_quote_is_not_awarded() -> None:
    late = plan(barn(all_in("A", "1/lb", lead_time=99)))
    with pytest.raises(CannotAward, match="late"):
        award(late, 1)
    other = dataclasses.replace(QUOTE, currency="CAD")
    with pytest.raises(CannotAward, match="CAD"):
        award(plan(barn(other, *FIVE)), 1)


def test_it_is_kept_in_the_file_and_not_copied() -> None:
    job = awarded()
    assert read_model(to_text(job), Job, "here") == job
    new = copied(job)
    assert (new.by_quote, new.quotes.received, new.order.supplier) == ({}, (), "")
    # Who carries it, and at what, was agreed on for the other order.
    assert (job.order.freight, new.order.freight) == ("prepaid by supplier, added to the bill", "")
    assert "reference, supplier, terms and freight of its order" in copy_words(job, new)


def test_a_reply_answers_the_question_it_belongs_to() -> None:
    said = dataclasses.replace(
        QUOTE, one_lot=YesNo.YES, valid_until=datetime.date(2027, 3, 20), stock_place="Mill Town",
        paint_warranty=30, warranty_voids="salt water")
    base = barn(said)
    bare = dataclasses.replace(base, questions={})
    job = award(plan(bare), 1)
    assert job.questions["supplier.one_lot"].settled
    assert job.questions["supplier.price_holds"].text.startswith("Until Mar 20, 2027.")
    assert job.questions["supplier.nearest_stock"].text == (
        "Mill Town (quote of Elk Fork (invented))")
    assert job.questions["supplier.finish_warranty"].settled
    assert "supplier.metal_warranty" not in job.questions
    # What was settled before stays as it was said.
    assert award(plan(base), 1).questions["supplier.one_lot"] == base.questions["supplier.one_lot"]


def test_what_an_awarded_quote_says_is_not_asked_once_more() -> None:
    """Price, freight and sizes stood as open questions beside the quote that says them."""
    said = quote("Tern Hill (invented)", price="1.62/lb", freight="240", coil_masses=(2500.0,))
    job = dataclasses.replace(barn(said), questions={})
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, unloading=""),
                              haul=dataclasses.replace(job.haul, site=LiftGear()))
    job = award(plan(job), 1)

    def state(of: Job, key: str) -> Status:
        return next(one.status for one in plan(of).questions if one.key == f"supplier.{key}")

    assert compare(plan(job)).quotes[0].missing, "what its price leaves out is said by itself"
    assert (state(job, "price_basis"), state(job, "custom_length")) == (Status.SETTLED,) * 2
    assert job.questions["supplier.custom_length"].text.startswith("In coils of 2,500 lb and no")
    assert state(job, "freight") is Status.GUESS, "nobody has said who unloads"
    told = dataclasses.replace(job, order=dataclasses.replace(job.order, unloading="forklift"))
    assert state(told, "freight") is Status.SETTLED
    other, _ = reply(told, "supplier.freight", "to be asked", settled=False)
    assert state(other, "freight") is Status.GUESS, "what somebody wrote since is theirs"
    assert state(withdrawn(told), "price_basis") is Status.GUESS


@pytest.mark.parametrize("amount", [0, 60])
def test_film_in_an_awarded_quote_is_not_asked_once_more(amount: int) -> None:
    said = dataclasses.replace(QUOTE, film=Rate(Decimal(amount), "lump"))
    unsaid = give(barn(said, QUOTE), "metal.film", None)

    def film(of: Job) -> Status:
        return next(one.status for one in plan(of).questions if one.key == "supplier.film")

    assert film(unsaid) is Status.OPEN
    given = award(plan(unsaid), 1)
    assert (given.metal.film, film(given)) == (YesNo.YES, Status.SETTLED)
    assert film(award(plan(unsaid), 2)) is Status.OPEN, "it says nothing of film"
    assert film(withdrawn(given)) is Status.OPEN
    bare = give(unsaid, "metal.film", YesNo.NO)
    assert award(plan(bare), 1).metal.film is YesNo.NO, "nobody wants it"


def test_skids_that_are_charged_come_with_the_coils_but_where_they_are_wanted_bare() -> None:
    said = dataclasses.replace(QUOTE, skid=Rate(Decimal(25), "coil"))
    nothing = dataclasses.replace(QUOTE, skid=Rate(Decimal(0), "coil"))
    unsaid = give(barn(said, nothing), "coils.skid", None)
    (asked,) = [one for one in plan(unsaid).questions if one.key == "supplier.skid"]
    assert asked.status is Status.OPEN
    assert asked.reply == "yes"
    job = award(plan(unsaid), 1)
    assert job.coils.skid is YesNo.YES
    (asked,) = [one for one in plan(job).questions if one.key == "supplier.skid"]
    assert asked.status is Status.SETTLED
    assert withdrawn(job).coils.skid is None
    assert award(plan(unsaid), 2).coils.skid is None, "no charge may be no skid"
    with_it = dataclasses.replace(QUOTE, skid=Rate(Decimal(0), "lump", included=True))
    with_it = award(plan(dataclasses.replace(unsaid, quotes=dataclasses.replace(
        unsaid.quotes, received=(with_it,)))), 1)
    assert with_it.coils.skid is YesNo.YES
    assert next(q.status for q in plan(with_it).questions if q.key == "supplier.skid") is (
        Status.SETTLED)
    assert award(plan(give(unsaid, "coils.skid", YesNo.NO)), 1).coils.skid is YesNo.NO


def test_what_is_left_goes_back_with_its_lot_and_its_supplier() -> None:
    job = awarded()
    job = dataclasses.replace(job, arrived=(Arrival(tag="R-1", coil=1, lot="L-77"),))
    stock = after_run(plan(job), Stock(), {"coil.1": 1200.0})
    (left,) = stock.coils
    assert (left.lot, left.supplier, left.length) == ("L-77", "Elk Fork (invented)", 1200.0)
    assert left.remark == ""


def test_what_it_came_with_goes_along_into_stock_and_on_to_the_next_run_sheet() -> None:
    came = Arrival(tag="R-1", coil=1, faults=(Fault.SCRATCH, Fault.EDGE), remark="outer wraps only",
                   decision=Decision.TAKEN)
    job = dataclasses.replace(awarded(), arrived=(came,))
    stock = after_run(plan(job), Stock(), {"coil.1": 6000.0})
    (left,) = stock.coils
    assert left.remark == "came scratched, damaged edge; outer wraps only"
    # Put back once more with another length, it keeps what was written down since.
    told = stock.put(dataclasses.replace(left, remark="scratch cut off"))
    again, _ = run_through(plan(job), told, {"coil.1": 5000.0}, put={"coil.1": left.tag})
    assert [(one.length, one.remark) for one in again.coils] == [(5000.0, "scratch cut off")]
    next_job = dataclasses.replace(barn(), on_hand=(left,), arrived=())
    paper = " ".join(render("run", plan(next_job), "text").split())
    assert f"Remark: {left.remark}" in paper


def test_which_of_two_arrivals_was_run_is_told_never_taken() -> None:
    """Shorts to 1,400 ft by its tag; what is left on paper goes by it, not by the order."""
    dented = Arrival(tag="R-1", coil=1, lot="L-44", length=1300.0 * 12)
    other = Arrival(tag="R-2", coil=1, lot="L-45", length=1400.0 * 12)
    job = dataclasses.replace(awarded(), arrived=(dented, other))
    measured = {"coil.1": 1200.0}
    (left,) = after_run(plan(job), Stock(), measured).coils
    assert left.lot == ""
    (left,) = after_run(plan(job), Stock(), measured, {1: other}).coils
    assert (left.tag, left.lot) == ("R-2", "L-45")
    gone = dataclasses.replace(dented, decision=Decision.REFUSED)
    job = dataclasses.replace(job, arrived=(gone, other))
    made = plan(job)
    stock = after_run(made, Stock(), measured)
    assert [(coil.tag, coil.lot) for coil in stock.coils] == [("R-2", "L-45")]
    assert leftovers(made, stock) == stock.coils
    (coil,) = run_of(made).coils
    (one,) = [report for report in receive(made) if report.arrival is other]
    found = left_of(coil, one)
    assert found is not None
    assert found.value == pytest.approx(1400 * 12 - coil.used.value)
    assert coil.left.value == pytest.approx(coil.length.value - coil.used.value)
    assert left_of(coil, dataclasses.replace(one, ways=())) is None
    # Once what came is given, the run itself counts by it.
    (came,) = run_of(made, receive(made)).coils
    assert came.left.value == found.value
    assert came.title == "coil 1 of the order, tag R-2, lot L-45"


def test_what_is_left_is_the_coil_that_came_not_the_one_that_was_ordered() -> None:
    """Ordered 21 in wide in slate gray; 1/32 in is a tape's reading and no other width."""
    narrow = Arrival(tag="R-1", coil=1, lot="L-44", width=20.75, color="barn red")
    for one, width, color in (
        (narrow, 20.75, "barn red"),
        (dataclasses.replace(narrow, width=20.97, color=""), 21.0, awarded().metal.color),
        (dataclasses.replace(narrow, width=21.1, color=""), 21.0, awarded().metal.color),
        (dataclasses.replace(narrow, width=None, color=""), 21.0, awarded().metal.color),
    ):
        made = plan(dataclasses.replace(awarded(), arrived=(one,)))
        (left,) = after_run(made, Stock(), {"coil.1": 1200.0}).coils
        assert (left.width, left.color) == (width, color)
