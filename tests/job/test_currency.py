"""The one currency of a job: what is typed for it, shown in it, and follows it. All by hand."""

from __future__ import annotations

import dataclasses
from decimal import Decimal

import pytest

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.copies import copied
from coilwright.job.edit import clear, give, give_text
from coilwright.job.from_shop import start
from coilwright.job.job import Job
from coilwright.job.names import answer_error, value_text
from coilwright.job.quotes import Quote, QuoteSection
from coilwright.job.rates import Rate
from coilwright.job.rows import quotes
from coilwright.job.shop import Buyer, Shop
from coilwright.plan import plan
from coilwright.plan.quotes.compare import compare, comparison_currency
from coilwright.plan.quotes.report import Group
from coilwright.plan.working import lines
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.store.files import StoreError
from coilwright.store.reader import read_model, to_text
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.values.keys import Key
from coilwright.values.standing import Standing

PRICE = CoilsKey.PRICE


def in_euros(job: Job | None = None) -> Job:
    job = give(job or Job(), JobKey.UNITS, System.METRIC)
    job, error = give_text(job, JobKey.CURRENCY, "€")
    assert (error, job.currency) == ("", "EUR")
    return job


@pytest.mark.parametrize("typed", [
    "2.10", "2,10", "2.10/kg", "2.10 EUR/kg", "EUR 2.10/kg", "€2.10/kg", "2.10 € per kg",
    "2.10 eur/kg"])
def test_a_price_is_read_in_the_currency_of_the_job(typed: str) -> None:
    job, error = give_text(in_euros(), PRICE, typed)
    assert not error
    assert job.coils.price == pytest.approx(2.10 * 0.45359237, rel=1e-12)
    assert value_text(job, PRICE) == "2.10 EUR/kg"
    # What stands in the box changes nothing, and reads back.
    assert give_text(job, PRICE, value_text(job, PRICE)) == (job, "")
    assert ANSWERS[PRICE].in_job(job).bare_unit(job.units) == "EUR/kg"
    unsaid = give(job, JobKey.CURRENCY, None)
    assert ANSWERS[PRICE].in_job(unsaid).bare_unit(job.units) == "/kg", "nobody said dollars"


@pytest.mark.parametrize("typed", ["$2.10/kg", "2.10 USD/kg", "2.10 dollars/kg", "2.10 SEK/kg"])
def test_a_price_in_another_currency_is_told_and_never_taken(typed: str) -> None:
    job, error = give_text(in_euros(), PRICE, typed)
    assert error
    assert job.coils.price is None
    assert answer_error(job, PRICE) == error


def test_dollars_of_another_country_are_typed_with_their_sign() -> None:
    job = give(in_euros(), JobKey.CURRENCY, "CAD")
    job, error = give_text(job, PRICE, "$4.00/kg")
    assert (error, value_text(job, PRICE)) == ("", "4.00 CAD/kg")


def test_a_price_that_was_typed_in_another_currency_is_a_guess() -> None:
    # Who types a price first and names the currency then means that price.
    job = in_euros(give_text(Job(), PRICE, "2.10")[0])
    assert ANSWERS[PRICE].standing(job) is Standing.SURE
    job = give(job, JobKey.CURRENCY, "SEK")
    assert ANSWERS[PRICE].standing(job) is Standing.GUESS
    # Another answer does nothing to it.
    sure, _ = give_text(job, PRICE, "2.20")
    assert ANSWERS[PRICE].standing(give(sure, JobKey.NAME, "Barn")) is Standing.SURE


def test_it_is_asked_in_metric_and_stays_in_sight_once_it_is_another() -> None:
    asked = ANSWERS[JobKey.CURRENCY].asked
    assert not asked(Job())
    assert asked(give(Job(), JobKey.UNITS, System.METRIC))
    assert asked(give(in_euros(), JobKey.UNITS, System.US))
    assert give_text(in_euros(), JobKey.CURRENCY, "kr")[1].endswith("such as EUR or SEK.")


def test_all_money_of_a_plan_is_in_it_to_the_last_term() -> None:
    dollars = give(give(demo_jobs()["quarry-house-hip"], PRICE, 1.0), JobKey.UNITS, System.METRIC)
    euros = in_euros(dollars)
    made, before = plan(euros), plan(dollars)
    cost = made.figures[Key.COIL_COST]
    # The same number of the same units: nothing is turned from one into the other.
    assert cost.value == before.figures[Key.COIL_COST].value
    assert cost.text(System.METRIC).endswith(" EUR")
    assert cost.unit == "EUR"
    worked = "\n".join(lines(cost, System.METRIC))
    assert "EUR/kg" in worked
    money = [line.money for line in made.account if line.money is not None]
    assert money
    for text in (worked, *(one.text(System.METRIC) for one in money), str(summary_data(made))):
        assert "$" not in text
        assert "USD" not in text
    assert "$" in before.figures[Key.COIL_COST].text(System.METRIC)


def test_quotes_follow_it_and_may_differ() -> None:
    job = in_euros()
    assert quotes.new_quote(job).currency == comparison_currency(job) == "EUR"
    job = quotes.add(job, Quote(supplier="A", currency="CHF"))
    # One begun before somebody gave the job's may be in another by silence: it is not the measure.
    assert (quotes.new_quote(job).currency, comparison_currency(job)) == ("CHF", "EUR")
    assert comparison_currency(clear(job, JobKey.CURRENCY)) == "CHF"
    assert comparison_currency(give(job, "quotes.currency", "CHF")) == "CHF"
    job = quotes.add(job, Quote(supplier="B", currency="SEK"))
    assert comparison_currency(job) == "EUR"


def test_a_quotes_currency_that_nobody_picked_is_the_jobs_and_not_known_where_none_is() -> None:
    base = dataclasses.replace(demo_jobs()["quarry-house-hip"], units=System.METRIC,
                               quotes=QuoteSection())
    job = quotes.add(base, dataclasses.replace(
        quotes.new_quote(base), price=Rate(amount=Decimal(2), per="lb")))
    (said,) = compare(plan(job)).quotes
    assert (said.quote.currency, said.group) == ("", Group.FAULTY)
    assert said.faults[0].startswith("Nobody said what currency it is in.")
    assert comparison_currency(job) == "", "nor is it compared in dollars"
    for given, code in (
            (job, ""), (give(job, JobKey.UNITS, System.US), "USD"),
            (give(job, JobKey.CURRENCY, "SEK"), "SEK")):
        again = read_model(to_text(given), Job, "job")
        assert again == given
        assert [one.currency for one in again.quotes.received] == [code]
        assert ("Nobody said" in str(compare(plan(again)).quotes[0].faults)) is (not code)
    # A file of an earlier version says nothing of one in dollars.
    old = quotes.add(base, Quote(supplier="A"))
    assert "currency" not in to_text(old)
    assert give(old, JobKey.CURRENCY, "SEK").quotes.received[0].currency == "USD"


def test_a_supplier_is_asked_for_it_where_it_was_said() -> None:
    job = give(demo_jobs()["quarry-house-hip"], JobKey.UNITS, System.METRIC)
    said = "Quote in EUR, by the kilogram"
    assert said not in " ".join(render("request", plan(job), "md").split())
    assert said in " ".join(render("request", plan(in_euros(job)), "md").split())


def test_the_shop_gives_it_and_a_copy_and_a_file_keep_it() -> None:
    assert start(Job(), Shop(buyer=Buyer(currency="SEK"))).currency == "SEK"
    assert start(Job(), Shop(buyer=Buyer(company="A"))).currency == "USD"
    assert copied(in_euros()).currency == "EUR"
    assert read_model(to_text(in_euros()), Job, "job") == in_euros()
    with pytest.raises(StoreError, match="three capital letters"):
        read_model(to_text(Shop(buyer=Buyer(currency="euro"))), Shop, "shop")


def test_a_job_of_before_is_in_dollars() -> None:
    text = to_text(give(Job(), JobKey.UNITS, System.METRIC))
    assert "currency" not in text.replace('"currency": null', "")
    assert read_model(text, Job, "job").currency == "USD"
