"""What the awarded quote charges, and when it arrives, typed over after the award."""

from __future__ import annotations

import dataclasses
import datetime
from decimal import Decimal
from typing import Any

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.quotes import RATES, BilledBy, Charges
from coilwright.job.rates import Rate
from coilwright.plan import plan
from coilwright.plan.quotes.award import anew_words, award, otherwise_words
from coilwright.plan.quotes.charged import CHARGES
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.filled import says_otherwise
from coilwright.units import System
from coilwright.values.keys import Key
from coilwright.wizard.steps.summary.buying import to_buy
from tests.plan.quotes.five import all_in, barn


def charged_otherwise(job: Job) -> tuple[str, ...]:
    """What the awarded quote of a job says otherwise than when it was awarded."""
    quote = job.quotes.awarded
    assert quote is not None
    return says_otherwise(job, quote)


def test_what_is_charged_is_all_that_a_quote_has_a_price_for() -> None:
    kept = {one.name for one in dataclasses.fields(Charges)}
    assert RATES.keys() - {"price"} <= kept == CHARGES.keys()


def test_a_charge_that_is_typed_over_is_named_until_it_is_awarded_anew() -> None:
    then: dict[str, Any] = {
        "slitting": Rate(Decimal("0.05"), "lb"), "metal_surcharge": Rate(Decimal(4), "%"),
        "fuel": Rate(Decimal(12), "%"), "skid": Rate(Decimal(25), "coil"),
        "minimum_charge": Decimal(500), "billed_by": BilledBy.THEORETICAL,
        "freight": Rate(Decimal(200), "lump")}
    job = award(plan(barn(dataclasses.replace(
        all_in("Elk Fork (invented)", "2.62/lb"), **then))), 1)
    (one,) = job.quotes.received
    for name, now, said in (
        ("slitting", Rate(Decimal("0.09"), "lb"), "slitting (then “$0.05/lb”, now “$0.09/lb”)"),
        ("metal_surcharge", None, "metal surcharge (then “4 %”, now “not said”)"),
        ("skid", Rate(Decimal(0), "lump", included=True),
         "skids (then “$25.00/coil”, now “included”)"),
        ("fuel", Rate(Decimal(18), "%"), "fuel surcharge (then “12 %”, now “18 %”)"),
        ("skid", Rate(Decimal(40), "coil"), "skids (then “$25.00/coil”, now “$40.00/coil”)"),
        ("minimum_charge", Decimal(9000), "minimum charge (then “$500.00”, now “$9,000.00”)"),
        ("billed_by", BilledBy.ACTUAL,
         "weight that is billed (then “theoretical weight”, now “actual weight”)"),
        ("freight", Rate(Decimal(250), "lump"), "freight (then “$200.00 as quoted”)"),
        # What was not said then is put in as we ask for it: it takes nothing back.
        ("set_up", Rate(Decimal(90), "lump"), None),
    ):
        other = dataclasses.replace(job, quotes=dataclasses.replace(job.quotes, received=(
            dataclasses.replace(one, **{name: now}),)))
        assert charged_otherwise(other) == ((said,) if said else ())
        # The order stays as it was given.
        assert other.quotes.as_awarded == job.quotes.awarded
        # A file of a time that did not keep the charges says nothing of them.
        assert job.quotes.sold is not None
        older = dataclasses.replace(other, questions={}, quotes=dataclasses.replace(
            other.quotes, sold=dataclasses.replace(job.quotes.sold, charges=None)))
        assert charged_otherwise(older) == ()
    made = plan(other)
    assert to_buy(made)[-1][2].endswith(
        "at the charges quoted by now, not at those that were awarded")
    assert charged_otherwise(award(made, 1)) == ()


def test_a_currency_that_is_cleared_makes_no_price_another() -> None:
    given = dataclasses.replace(
        all_in("Elk Fork (invented)", "2.62/kg", freight=Rate(Decimal(200), "lump"),
               deposit=Rate(Decimal(500), "lump")), currency="EUR", job_currency=True)
    euro = give(give(barn(given), "job.units", System.METRIC), JobKey.CURRENCY, "EUR")
    job = award(plan(euro), 1)
    assert job.quotes.filled.keys() >= {"supplier.price_basis", "supplier.payment"}
    unsaid = give(job, JobKey.CURRENCY, None)
    assert unsaid.quotes.received[0].currency == ""
    assert charged_otherwise(unsaid) == ()
    found = {one.key for one in plan(unsaid).findings}
    assert ("job.currency" in found, "quotes.otherwise" in found) == (True, False)
    # Another sum is one in any currency, and so is another currency.
    dearer = dataclasses.replace(unsaid, quotes=dataclasses.replace(
        unsaid.quotes, received=(dataclasses.replace(
            unsaid.quotes.received[0], price=Rate(Decimal(3), "kg")),)))
    assert charged_otherwise(dearer) == ("price (then “2.62 EUR/kg”, now “3.00/kg”)",)
    assert "price (then “2.62 EUR/kg”)" in charged_otherwise(give(job, JobKey.CURRENCY, "USD"))


def test_a_day_of_arrival_counts_everywhere_beside_a_lead_time() -> None:
    """14 days from Mar 1 are Mar 15. A day that is named beside them is what counts: in the list,
    in an award, and as what changed since one."""
    given = dataclasses.replace(all_in("Elk Fork (invented)", "2.62/lb"), lead_time=14)
    job = award(plan(give(barn(given), CoilsKey.ORDER_DATE, datetime.date(2027, 3, 1))), 1)

    def naming(job: Job, day: datetime.date | None) -> Job:
        (one,) = job.quotes.received
        return dataclasses.replace(job, quotes=dataclasses.replace(
            job.quotes, received=(dataclasses.replace(one, arrives=day),)))

    def told(job: Job) -> list[str]:
        return [one.what.partition("awarded: ")[2] for one in plan(job).findings
                if one.key == "quotes.otherwise"]

    same, later = (naming(job, datetime.date(2027, 3, day)) for day in (15, 20))
    assert (told(job), told(same)) == ([], [])
    assert told(later) == ["arrival (then “14 days”, now “Mar 20, 2027”)."]
    care = ("CARE: its 14 days from Mar 1, 2027 come to Mar 15, 2027, and it names Mar 20, 2027: "
            "the day is counted with; ask which of them holds, and clear the other.")
    assert [care in compare(plan(one)).quotes[0].deviations for one in (job, same, later)] == [
        False, False, True]
    anew = award(plan(later), 1)
    figures = plan(anew).figures
    (report,) = compare(plan(anew)).quotes
    assert (anew.coils.lead_time, told(anew)) == (19, [])
    assert report.slack == figures[Key.COILS_DAYS_SPARE].value
    assert told(naming(anew, datetime.date(2027, 3, 22))) == [
        "arrival (then “Mar 20, 2027”, now “Mar 22, 2027”)."]
    assert told(naming(anew, None)) == ["arrival (then “Mar 20, 2027”, now “14 days”)."]
    (said,) = {one.key: one for one in plan(anew).questions}["supplier.lead_time"].quoted
    assert said.text == "Mar 20, 2027"


def test_an_order_that_goes_out_later_is_no_change_of_its_quote() -> None:
    given = dataclasses.replace(all_in("Elk Fork (invented)", "2.62/lb"), lead_time=None,
                                arrives=datetime.date(2027, 3, 22))
    base = give(barn(given), CoilsKey.ORDER_DATE, datetime.date(2027, 3, 1))
    made = plan(award(plan(base), 1))
    assert made.job.coils.lead_time == 21

    def told(job: Job) -> dict[str, str]:
        return {one.key: one.what for one in plan(job).findings
                if one.key in ("quotes.otherwise", "quotes.day_moved")}

    assert told(made.job) == {}
    later = give(made.job, CoilsKey.ORDER_DATE, datetime.date(2027, 3, 8))
    says = ("it still says Mar 22, 2027, 14 days from Mar 8, 2027, the day of the order by now, "
            "and the order counts on 21 days.")
    assert told(later) == {"quotes.day_moved": (
        "The order's day moved since the quote of Elk Fork (invented) was awarded: of its day of "
        f"arrival {says}")}
    (report,) = compare(plan(later)).quotes
    assert otherwise_words(plan(later), report) == f"Of its day of arrival {says}"
    assert anew_words(plan(later), report).startswith(f"{ANSWERS[CoilsKey.LEAD_TIME].label}; ")
    assert told(award(plan(later), 1)) == {}
    # Where the quote names another day, it is that which changed.
    (one,) = made.job.quotes.received
    other = dataclasses.replace(made.job, quotes=dataclasses.replace(made.job.quotes, received=(
        dataclasses.replace(one, arrives=datetime.date(2027, 3, 29)),)))
    assert told(other) == {"quotes.otherwise": (
        "The quote of Elk Fork (invented) says otherwise by now than when it was awarded: "
        "arrival (then “Mar 22, 2027”, now “Mar 29, 2027”).")}
