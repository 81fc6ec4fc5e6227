"""What is missing, what deviates, what the job must have, and what cannot be compared."""

from __future__ import annotations

import dataclasses
import datetime
from typing import Any

import pytest

from coilwright.job.choices import YesNo
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, Finish, MetalName, ThicknessIs
from coilwright.job.quotes import Quote, QuoteSection
from coilwright.plan import plan
from coilwright.plan.quotes.award import award
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import Group, QuoteReport
from coilwright.wizard.lists.quote_measures import MEASURES
from coilwright.wizard.today import today
from tests.plan.coils.stock import coil
from tests.plan.quotes.five import ORDER_DAY, all_in, barn, quote, rate
from tests.rules import for_each


def one(*quotes: Quote, **changes: Any) -> QuoteReport:
    """The report on the first quote, of the barn with changes to its job section."""
    job = barn(*quotes)
    job = dataclasses.replace(job, job=dataclasses.replace(job.job, **changes))
    return compare(plan(job)).quotes[0]


def test_an_incomplete_quote_lands_at_least_and_is_never_before_a_complete_one() -> None:
    cheap = quote("Tern Hill", price="0.50/lb")
    found = compare(plan(barn(cheap, all_in("Birch", "$1.78/lb"))))
    tern = found.quotes[0]
    assert (tern.group, tern.at_least) == (Group.INCOMPLETE, True)
    assert tern.missing == ("slitting", "film", "skid", "freight", "lead time")
    assert [o.supplier for o in found.sorted()] == ["Birch", "Tern Hill"]
    assert [o.supplier for o in found.ranked] == ["Birch"]


def test_all_in_means_that_what_is_not_said_is_nothing() -> None:
    assert one(all_in("A", "1.78/lb")).missing == ()
    assert one(quote("A", price="1.78/lb", slitting="0", film="0", skid="0", freight="0",
                     lead_time=21)).missing == ()


def test_freight_by_the_mile_needs_the_miles() -> None:
    found = one(all_in("A", "1.78/lb", freight="4.10/mile"))
    assert found.missing == ("how far the freight goes, in miles",)
    assert found.group is Group.INCOMPLETE


def test_the_minimum_charge_is_billed_where_the_metal_is_less() -> None:
    found = one(all_in("A", "1.00/lb", minimum_charge=rate("5000").amount, freight="100"))
    assert found.cost is not None
    assert found.landed == 5100
    assert [line.name for line in found.cost.lines] == [
        "Metal", "Up to the minimum charge", "Freight"]


def test_deviations_are_flagged() -> None:
    found = one(all_in(
        "A", "1.78/lb", coating=CoatingName.G90, thickness=0.024, width=24.0, one_lot=YesNo.NO,
        finish=Finish.SMP, thickness_is=ThicknessIs.NOMINAL, tolerance_over=0.2, gauge=25,
        inside_diameter=16.0))
    said = " ".join(found.deviations)
    for words in ("G90", "AZ50 was asked", "0.0240 in; 0.0236 in was asked", "24 in wide",
                  "21 in was asked", "cover 19 in", "production lot", "silicone-modified",
                  "nominal", "20 % over", "25 gauge; 24 was asked", "Inside diameter 16 in"):
        assert words in said


def test_what_is_quoted_as_asked_deviates_in_nothing() -> None:
    found = one(all_in("A", "1.78/lb", coating=CoatingName.AZ50, thickness=0.0236, width=21.0,
                       gauge=24, finish=Finish.PVDF, tolerance=0.1, tolerance_over=0.1))
    assert found.deviations == ()
    assert found.group is Group.COMPLETE


def test_the_plan_is_rerun_on_the_quoted_width_thickness_and_tolerance() -> None:
    wide = one(all_in("A", "1.78/lb", width=24.0)).shipment
    thick = one(all_in("A", "1.78/lb", thickness=0.0276)).shipment
    exact = one(all_in("A", "1.78/lb", tolerance=0.0)).shipment
    plain = one(all_in("A", "1.78/lb")).shipment
    assert wide
    assert thick
    assert exact
    assert plain
    assert wide.plan.figures["panel.coverage"].value == 19.0
    assert float(thick.mass / plain.mass) == pytest.approx(0.0276 / 0.0236)
    assert float(exact.length / plain.length) == pytest.approx(0.9)


def test_must_haves() -> None:
    assert "no test report" in one(
        all_in("A", "1.78/lb", report=YesNo.NO), engineered=YesNo.YES).misses[0]
    assert one(all_in("A", "1.78/lb", report=YesNo.NO)).misses == ()
    assert "slate gray" in one(all_in("A", "1.78/lb", color=YesNo.NO)).misses[0]
    bare = give(barn(all_in("A", "1.78/lb", color=YesNo.NO)), "metal.finish", Finish.BARE)
    assert compare(plan(bare)).quotes[0].misses == (), "bare metal has no color to have"
    late = one(all_in("A", "1.78/lb", lead_time=60))
    assert late.misses == ("Arrives 18 days late, on Apr 30, 2027.",)
    assert late.group is Group.MISSES

def test_a_quote_for_another_metal_is_said_and_never_ranked() -> None:
    found = compare(plan(barn(all_in("A", "0.50/lb", metal=MetalName.COPPER),
                              all_in("B", "9/lb"))))
    other = found.quotes[0]
    assert other.misses[0] == "Quotes copper; the job is of steel."
    assert other.group is Group.MISSES
    assert [o.supplier for o in found.ranked] == ["B"]


def test_what_stops_the_plan_on_what_is_quoted_is_a_must_have() -> None:
    found = one(all_in("A", "1.78/lb", thickness=0.0359))
    assert found.group is Group.MISSES
    assert any("On what is quoted" in said for said in found.misses)


def test_what_the_buyers_own_coil_brings_about_is_no_fault_of_the_supplier() -> None:
    """The leftover makes the north side of the panels asked for, but not of narrower ones."""
    job = barn(all_in("A", "1.78/lb"), all_in("B", "1.70/lb", width=20.0))
    own = coil("L-7", 616, lot="L7", color=job.metal.color)
    base = plan(dataclasses.replace(job, on_hand=(own,)))
    assert not base.stops
    as_asked, narrow = compare(base).quotes
    assert (as_asked.own_coils, as_asked.note) == ((), "")
    assert (narrow.group, narrow.misses) == (Group.COMPLETE, ())
    (said,) = narrow.own_coils
    assert "lot L7, new coils; they meet on North side" in said
    assert said in narrow.note
    # Once it is awarded the order is held by it until somebody decides.
    held = plan(award(base, 2))
    assert [one.key for one in held.stops] == ["coils.lots"]


def test_coil_sizes_offered_go_through_the_cut_plan() -> None:
    made = one(all_in("A", "1.78/lb", coil_masses=(1000.0, 1500.0, 2500.0))).shipment
    assert made is not None
    assert [round(float(c * made.mass_per_length)) for c in made.lengths] == [2500]
    made = one(all_in("A", "1.78/lb", coil_lengths=(400 * 12.0, 800 * 12.0))).shipment
    assert made is not None
    assert sorted({float(c) / 12 for c in made.lengths}) == [800.0]
    assert all(c.panels_length.value <= 800 * 12 for c in made.plan.coils)
    none = one(all_in("A", "1.78/lb", coil_lengths=(200.0,)))
    assert none.group is Group.FAULTY
    assert "None of the coil sizes offered" in none.faults[0]


def test_steps_of_length() -> None:
    made = one(all_in("A", "1.78/lb", length_increment=50 * 12.0)).shipment
    assert made is not None
    assert [float(c) / 12 for c in made.lengths] == [1350.0]


@for_each([
    (all_in("A", "2.90/ft"), "how wide that is was not said"),
    (all_in("A", "178/lb", minimum_charge=None, currency="USD", width=4.0), "take-up"),
    (all_in("A", "$2000/lb"), "has the point slipped"),
    (all_in("A", "0.001/lb"), "has the point slipped"),
    (all_in("A", "0/lb"), "nobody gives metal away"),
    (all_in("A", "1.78/lb", valid_until=datetime.date(2027, 2, 1)), "over on Mar 1, 2027"),
    (all_in("A", "1.78/lb", arrives=datetime.date(2027, 2, 1)), "before Mar 1, 2027"),
    (all_in("A", "1.78/lb", date=ORDER_DAY, valid_until=datetime.date(2027, 2, 28)),
     "before the day it was made"),
    (all_in("A", "1.78/lb", minimum=1e8), "slipped by a point"),
])
def test_bad_input_is_said_and_never_ranked(bad: Quote, says: str) -> None:
    found = compare(plan(barn(bad, all_in("B", "9/lb"))))
    report = found.quotes[0]
    assert says in " ".join(report.faults)
    assert report.group is Group.FAULTY
    assert [o.supplier for o in found.ranked] == ["B"]


def test_currencies_are_never_mixed() -> None:
    cad = all_in("A", "2.40/lb", currency="CAD")
    usd = all_in("B", "1.78/lb")
    found = compare(plan(barn(cad, usd)))
    assert found.currency == "USD"
    assert [o.supplier for o in found.ranked] == ["B"]
    assert "Quoted in CAD; quotes are compared in USD here" in found.quotes[0].faults[0]
    # Begun before somebody gave the job's currency, it keeps the one that was in its box.
    given = give(barn(usd), "job.currency", "EUR")
    assert compare(plan(given)).quotes[0].faults == (
        "Quoted in USD; quotes are compared in EUR here. Ask for EUR, or set the currency of the "
        "comparison.",)
    alone = compare(plan(barn(cad)))
    assert (alone.currency, [o.supplier for o in alone.ranked]) == ("CAD", ["A"])
    job = barn(cad, usd)
    job = dataclasses.replace(job, quotes=dataclasses.replace(job.quotes, currency="CAD"))
    assert [o.supplier for o in compare(plan(job)).ranked] == ["A"]


def test_what_cannot_be_read_is_kept_and_not_ranked() -> None:
    job = dataclasses.replace(barn(all_in("A", "1.78/lb")),
                              typed={"quotes.received.0.price": "about 2 bucks"})
    report = compare(plan(job)).quotes[0]
    assert report.faults[0] == "Price of the metal: “about 2 bucks” cannot be taken."
    assert report.landed is None


def test_a_lead_time_that_cannot_be_read_leaves_only_the_arrival_open() -> None:
    job = dataclasses.replace(barn(all_in("A", "190/sq", lead_time=None)),
                              typed={"quotes.received.0.lead_time": "soon"})
    report = compare(plan(job)).quotes[0]
    assert (report.faults, report.missing, report.arrives) == ((), ("lead time",), None)
    assert report.group is Group.INCOMPLETE
    assert report.deviations[0] == "Lead time, days: “soon” cannot be taken."
    assert report.cost is not None
    assert report.cost.lines[0].words.startswith("$190.00 per square of flat coil × ")


@pytest.mark.parametrize("day", ["date", "valid_until"])
def test_a_day_that_cannot_be_read_takes_no_sum_away(day: str) -> None:
    job = barn(all_in("A", "1.78/lb"))
    read = compare(plan(job)).quotes[0]
    report = compare(plan(dataclasses.replace(
        job, typed={f"quotes.received.0.{day}": "the 3rd"}))).quotes[0]
    assert (report.landed, report.group) == (read.landed, read.group)
    assert report.landed is not None
    assert "“the 3rd” cannot be taken." in report.deviations[0]


def test_the_days_of_a_quote_may_be_typed_as_words() -> None:
    for name in ("date", "valid_until", "arrives"):
        (measure,) = (measure for measure in MEASURES if measure.name == name)
        assert measure.typed("quotes.received.0").answer.read(" Today") == today()


@pytest.mark.parametrize(("typed", "days"), [("5 weeks", 35), ("18 days", 18), ("21", 21)])
def test_a_lead_time_is_read_as_the_order_reads_it(typed: str, days: int) -> None:
    [asked] = [measure for measure in MEASURES if measure.name == "lead_time"]
    assert asked.typed("quotes.received.0").answer.read(typed) == days


def test_an_order_that_is_not_known_yet_ranks_nothing() -> None:
    found = compare(plan(Job(quotes=QuoteSection(received=(all_in("A", "1.78/lb"),)))))
    assert found.lack.startswith("The order is not known yet")
    assert found.ranked == ()


def test_without_an_order_date_no_day_of_arrival_is_made_up() -> None:
    job = barn(all_in("A", "1.78/lb"), order_day=None)
    report = compare(plan(job)).quotes[0]
    assert (report.arrives, report.slack, report.group) == (None, None, Group.COMPLETE)
    today = compare(plan(job), datetime.date(2027, 3, 10)).quotes[0]
    assert str(today.arrives) == "2027-03-31"
