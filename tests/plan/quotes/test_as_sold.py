"""What the awarded supplier sells holds the order: sizes, steps, heaviest, least and tolerance."""

from __future__ import annotations

import dataclasses
import datetime
import itertools
import math
import re
from typing import Any

import pytest

from coilwright.calc.quotes import exact
from coilwright.job.anonymous import without_names
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.copies import copied
from coilwright.job.edit import accept, give
from coilwright.job.job import Job
from coilwright.job.quoted_sizes import sizes_text
from coilwright.job.quotes import Quote, QuoteSection
from coilwright.job.sending import order_checksum
from coilwright.plan import plan
from coilwright.plan.life import answer_changes
from coilwright.plan.order_limits import heaviest_coil
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.questions import reply
from coilwright.plan.quotes.award import (
    anew_words,
    award,
    otherwise_words,
    since_award,
    withdrawn,
)
from coilwright.plan.quotes.compare import compare, with_given_for
from coilwright.plan.quotes.in_sizes import Tried, least_in_sizes
from coilwright.plan.result import Plan
from coilwright.sheets import render
from coilwright.sheets.proof_words import proof_line
from coilwright.store.reader import read_model, to_text
from coilwright.store.shipped import demo_jobs
from coilwright.units import Kind, System, read
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.wizard.steps.summary.buying import to_buy
from tests.plan.quotes.five import all_in, barn, quote


def awarded(said: Quote, job: Job | None = None) -> Plan:
    """The barn, 1 coil of 2,250 lb, where its order goes by a quote and nothing else changed."""
    base = barn() if job is None else job
    received = (dataclasses.replace(said, awarded=True),)
    return plan(dataclasses.replace(base, quotes=dataclasses.replace(
        base.quotes, received=received)))


def not_as_sold(made: Plan) -> list[Finding]:
    """What is said of it."""
    return [one for one in made.findings if one.key == "quotes.not_as_sold"]


@pytest.mark.parametrize(("small", "many", "large"), [(400, 3, 600), (600, 4, 800), (300, 4, 400)])
def test_of_as_much_metal_the_fewest_coils_are_taken_in_kilograms_too(
    small: int, many: int, large: int
) -> None:
    """3 coils of 400 kg are 1,200 kg as 2 of 600 kg are, and were a hair less in pounds."""
    heavy = exact(0.1371)
    sizes = [exact(read(f"{size} kg", Kind.MASS)) / heavy for size in (small, large)]
    counts = (many, small * many // large)
    tries = [Tried(f"{count} coils", [size - 1] * count, heavy)
             for size, count in zip(sizes, counts, strict=True)]
    for order in (tries, tries[::-1]):
        found = least_in_sizes(Quote(supplier="Alder (invented)"), order, sizes, sizes[-1])
        assert found is not None
        assert found[0] == f"{counts[1]} coils"


@pytest.mark.parametrize(("said", "words"), [
    ({"heaviest": 2000.0}, "its heaviest coil is 2,000 lb"),
    ({"coil_masses": (700.0, 1000.0)}, "it sells coils of 700 lb or 1,000 lb and no others"),
    ({"coil_lengths": (9600.0,)}, "it sells coils of 800 ft and no others"),
    ({"coil_masses": (2000.0,), "increment": 7000.0}, "it sells in steps of 7,000 lb"),
    ({"minimum": 3000.0}, "its least order is 3,000 lb"),
    ({"tolerance": 0.2}, "it may ship 20 % under, and the order counts on 10 %"),
])
def test_what_the_order_says_and_the_supplier_does_not_sell_holds_it(
    said: dict[str, Any], words: str
) -> None:
    made = awarded(all_in("Elk Fork (invented)", "2.62/lb", **said))
    (found,) = not_as_sold(made)
    assert (found.level, found.step) == (Level.STOP, "quotes")
    assert words in found.what
    assert found.accept
    assert not made.readiness.ready
    # What leaves the house says nothing of it.
    assert found.what not in render("order", made, "text")


@pytest.mark.parametrize("said", [
    {}, {"coil_masses": (700.0, 2260.0)}, {"length_increment": 120.0}, {"increment": 100.0},
    {"heaviest": 2250.4}, {"increment": 50.0}, {"minimum": 2250.0}, {"tolerance": 0.1},
])
def test_an_order_that_is_sold_as_it_stands_is_not_held(said: dict[str, Any]) -> None:
    made = awarded(all_in("Elk Fork (invented)", "2.62/lb", **said))
    assert not not_as_sold(made)
    assert made.readiness.ready


def test_what_is_sold_is_said_once_however_many_sizes_are_none_of_it() -> None:
    job = give(demo_jobs()["quarry-house-hip"], CoilsKey.SUPPLIER_HEAVIEST, 500.0)
    made = awarded(all_in("Elk Fork (invented)", "2.62/lb", coil_masses=(300.0,)), job)
    assert len({one.length.text() for one in made.coils}) > 1
    (found,) = not_as_sold(made)
    assert found.what.count("it sells coils of 300 lb and no others") == 1
    for one in made.coils:
        assert one.length.text() in found.what


def test_once_it_is_taken_on_the_quote_lands_at_what_is_ordered() -> None:
    """The summary bought one weight and landed at the price of another, and nothing said why."""
    made = awarded(all_in("Elk Fork (invented)", "2/lb", coil_masses=(700.0, 1000.0)))
    (found,) = not_as_sold(made)
    other = to_buy(made)[-1]
    assert other[0] == "Lands at"
    assert re.search(r"for \d coils, [\d,]+ lb, as it sells them, not for what is ordered$",
                     other[2])
    taken = plan(accept(made.job, found.key, found.accept, "Ann", "they cut to it", found.what))
    (report,) = (one for one in compare(taken).quotes if one.quote.awarded)
    assert report.shipment is not None
    ordered = taken.figures[Key.COIL_MASS_ORDERED].value
    assert float(report.shipment.mass) == pytest.approx(ordered, abs=0.5 * len(taken.coils))
    assert report.is_by_weight(plan(give(taken.job, CoilsKey.PRICE, 2.0)).figures[Key.COIL_COST])
    assert "as it sells them" not in to_buy(taken)[-1][2]


def test_a_minimum_that_its_answer_says_is_said_once() -> None:
    job = give(barn(), CoilsKey.MINIMUM_ORDER, 3000.0)
    made = awarded(quote("Elk Fork (invented)", price="2.62/lb", minimum=3000.0), job)
    assert not not_as_sold(made)
    assert [one.key for one in made.findings if one.level is Level.STOP] == ["coils.minimum"]


def test_a_quote_that_is_not_awarded_holds_nothing() -> None:
    assert not not_as_sold(plan(barn(all_in("Elk Fork (invented)", "2.62/lb", heaviest=900.0))))


@pytest.mark.parametrize(("said", "lengths"), [
    ({"coil_masses": (700.0, 1000.0, 1500.0)}, ["415 ft 6 in"] * 4),
    ({"coil_lengths": (12000.0,)}, ["1,000 ft"] * 2),
    ({"increment": 400.0}, ["1,424 ft 6 in"]),
    ({"length_increment": 120.0}, ["1,340 ft"]),
])
def test_what_is_awarded_is_ordered_as_it_was_worked_out(
    said: dict[str, Any], lengths: list[str]
) -> None:
    """The barn takes 1 coil of 1,335 ft 8 in; what its supplier sells is what the order says."""
    asked = plan(barn(all_in("Elk Fork (invented)", "2.62/lb", **said)))
    landed = compare(asked).quotes[0]
    made = plan(award(asked, 1))
    assert [one.length.text(made.job.units) for one in made.coils] == lengths
    assert landed.shipment is not None
    assert [one.length.value for one in made.coils] == pytest.approx(
        [float(one) for one in landed.shipment.lengths])
    assert not not_as_sold(made)
    assert lengths[0] in render("order", made, "text")
    assert landed.landed is not None
    cost = made.figures[Key.COIL_COST].value
    assert cost == pytest.approx(float(landed.landed), abs=0.01), "one price on all screens"
    assert compare(made).quotes[0].landed == landed.landed
    for one in made.coils:
        most = heaviest_coil(made, one).as_read(made.job.units)
        assert most >= one.mass.as_read(made.job.units), "max weight takes what is sold"
    if "coil_masses" in said or "coil_lengths" in said:
        assert made.governing is not None
        assert made.governing.words == "the size taken of those the supplier sells"
        (governs,) = [one for one in made.findings if one.key == "coils.governs"]
        assert "heaviest coil the supplier ships" not in governs.what
        assert "Tell the supplier" not in governs.do, "its own size is no news to it"
    # The account adds up, with what comes beyond what is wanted as a line of its own.
    assert "coils as long as they are sold" in [one.name for one in made.account]
    assert made.figures[Key.ACCOUNT_TOTAL].value == pytest.approx(
        made.figures[Key.COIL_MASS_ORDERED].value)
    back = plan(withdrawn(made.job))
    assert [one.length.value for one in back.coils] == [one.length.value for one in asked.coils]


def test_another_size_that_takes_less_since_the_award_is_told_until_it_is_awarded_anew() -> None:
    """The order stood at a size that a larger roof had taken, with 350 lb more than need be."""
    def told(made: Plan) -> list[str]:
        return [one.what for one in made.findings if one.key == "quotes.other_size"]

    def long(job: Job, eave: float) -> Job:
        return dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=tuple(
            dataclasses.replace(one, eave=eave) for one in job.roof.planes)))

    heavy = all_in("Elk Fork (invented)", "2.62/lb", coil_masses=(500.0, 700.0, 1000.0))
    asked = barn(heavy)
    (eave,) = {one.eave for one in asked.roof.planes}
    assert eave is not None
    # 2 × 1,179.4 lb are 2,358 lb, each coil rounded as on the order, and not 2,359 lb.
    lengths = barn(all_in("Elk Fork (invented)", "2.62/lb", coil_lengths=(4800.0, 8400.0)))
    short = award(plan(long(lengths, eave / 4)), 1)
    (said,) = told(plan(long(short, eave)))
    assert said.endswith("2 coils of 700 ft make the same panels: 2,358 lb.")
    fired, smaller = 0, 0
    for first, then in itertools.permutations((eave * share / 8 for share in (4, 6, 8)), 2):
        made = plan(award(plan(long(asked, first)), 1))
        assert told(made) == [], "as it is awarded none of its sizes takes less"
        now = plan(long(made.job, then))
        anew = plan(award(now, 1))
        assert told(anew) == []
        # It is told where awarding anew ships less, and says how much that is.
        had, gets = (one.figures[Key.COIL_MASS_ORDERED] for one in (now, anew))
        assert len(told(now)) == (gets.value < had.value * 0.99)
        for said in told(now):
            assert had.text() in said
            assert said.endswith(f" make the same panels: {gets.text()}.")
            fired += 1
            # Nor is less than its least order advised, for nobody can order it.
            (one,) = now.job.quotes.received
            least = dataclasses.replace(one, minimum=had.value)
            assert told(plan(dataclasses.replace(now.job, quotes=dataclasses.replace(
                now.job.quotes, received=(least,))))) == []
        (governs,) = [one for one in now.findings if one.key == "coils.governs"]
        longest = max(one.length.value for one in now.coils)
        assert now.governing is not None
        assert ("a smaller one of them holds the panels" in governs.what) is (
            longest < now.governing.length.value * 0.99)
        smaller += "a smaller one" in governs.what
    assert smaller
    assert fired


def test_awarded_anew_as_the_finding_says_the_order_follows() -> None:
    made = awarded(all_in("Elk Fork (invented)", "2.62/lb", coil_masses=(700.0, 1000.0)))
    for sizes in ((700.0, 1000.0), (700.0,)):
        asked = plan(barn(all_in("Elk Fork (invented)", "2.62/lb", coil_masses=sizes)))
        assert ("an uneven mix" in render("quotes", asked, "text", 200)) is (len(sizes) > 1)
    (found,) = not_as_sold(made)
    assert "w asks, and w once more awards the quote as it is now" in found.do
    assert otherwise_words(made, compare(made).quotes[0])
    anew = plan(award(made, 1))
    assert not not_as_sold(anew)
    assert otherwise_words(anew, compare(anew).quotes[0]) == "", "w takes it away next"
    assert len(anew.coils) == 4


@pytest.mark.parametrize("said", [
    {}, {"coil_masses": (700.0, 1000.0, 1500.0)}, {"coil_lengths": (12000.0,)},
    {"increment": 400.0, "minimum": 2000.0}, {"tolerance": 0.05, "heaviest": 1500.0},
])
@pytest.mark.parametrize("price", ["2.62/lb", "4.35/ft", "248/square", "$4,350 lump", "2400/coil"])
def test_a_quote_that_is_changed_after_its_award_is_named_and_no_other(
    price: str, said: dict[str, Any]
) -> None:
    made = plan(award(plan(barn(all_in("Elk Fork (invented)", price, width=21.0, **said))), 1))
    assert since_award(made.job, compare(made).quotes[0]) == ()
    # Its coils hang on more than the quote: another spare is no change of it.
    more = plan(give(made.job, CoilsKey.SPARE, 0.06))
    assert since_award(more.job, compare(more).quotes[0]) == ()
    (one,) = made.job.quotes.received
    changed = plan(dataclasses.replace(made.job, quotes=dataclasses.replace(
        made.job.quotes, received=(dataclasses.replace(one, lead_time=25),))))
    named = since_award(changed.job, compare(changed).quotes[0])
    assert named == (f"{ANSWERS[CoilsKey.LEAD_TIME].label} (then “21”, now “25”)",)
    # Awarded anew, nothing differs; what somebody wrote over the quote is theirs.
    anew = plan(award(changed, 1))
    assert since_award(anew.job, compare(anew).quotes[0]) == ()
    own = plan(give(changed.job, CoilsKey.LEAD_TIME, 21))
    assert since_award(own.job, compare(own).quotes[0]) == ()
    metric = plan(give(made.job, JobKey.UNITS, System.METRIC))
    assert since_award(metric.job, compare(metric).quotes[0]) == ()


@pytest.mark.parametrize(("now", "held", "then"), [
    ({"coil_masses": (1200.0,)}, True, [1200.0, 1200.0]),
    ({"coil_masses": (), "heaviest": 5000.0}, False, [2250.0]),
])
def test_sizes_that_are_quoted_anew_change_no_order_until_it_is_awarded_anew(
    now: dict[str, Any], held: bool, then: list[float]
) -> None:
    """The order of 2 coils of 1,500 lb became 2 of 1,200 lb as the quote was typed over."""
    made = plan(award(plan(barn(all_in("Elk Fork (invented)", "2.62/lb",
                                       coil_masses=(1500.0,)))), 1))
    paper = render("order", made, "text")
    (one,) = made.job.quotes.received
    other = plan(dataclasses.replace(made.job, quotes=dataclasses.replace(
        made.job.quotes, received=(dataclasses.replace(one, **now),))))
    (report,) = compare(other).quotes
    assert report.shipment is not None
    assert [one.mass.value for one in other.coils] == pytest.approx([1500.0] * 2)
    assert float(report.shipment.mass) == pytest.approx(3000.0)
    assert str(report.landed) == "7860.00" == f"{other.figures[Key.COIL_COST].value:.2f}"
    assert render("order", other, "text") == paper
    assert order_checksum(other.job) == order_checksum(made.job)
    assert other.governing is not None
    assert other.governing.words == "the size taken of those the supplier sells"
    assert "the coils that are sold" in otherwise_words(other, report)
    assert len(not_as_sold(other)) == held
    assert not [one for one in other.findings if one.key == "quotes.other_size"]
    # Suppliers and the point of care name the same, once, and so does the record of the next award.
    (told,) = since_award(other.job, report)
    assert told == "the coils that are sold (then “In coils of 1,500 lb and no others”)"
    (care,) = [one.what for one in other.findings if one.key == "quotes.otherwise"]
    assert care.endswith(f"than when it was awarded: {told}.")
    many = "2 coils, 2,400 lb" if held else "1 coil, 2,250 lb"
    assert anew_words(other, report) == f"{told}; for {many}"
    anew = plan(award(other, 1))
    assert [one.mass.as_read(System.US) for one in anew.coils] == then
    (again,) = compare(anew).quotes
    assert f"{anew.figures[Key.COIL_COST].value:.2f}" == str(again.landed) != "7860.00"
    assert withdrawn(anew.job).quotes.sold is None
    labels = {one.label for one in answer_changes(made.job, anew.job)}
    assert labels >= {"Size taken of those sold" if held else
                      ANSWERS[CoilsKey.SUPPLIER_HEAVIEST].label}
    # In a file of a time that did not keep what was sold it is kept as the quote is typed over.
    older = plan(dataclasses.replace(made.job, quotes=dataclasses.replace(
        made.job.quotes, sold=None)))
    typed = dataclasses.replace(other.job, quotes=dataclasses.replace(
        other.job.quotes, sold=None))
    assert with_given_for(older, typed, 0).quotes.sold == made.job.quotes.sold


@pytest.mark.parametrize(("standing", "ships", "says"), [
    (Standing.GUESS, [1200.0] * 2, ""),
    (Standing.SURE, [800.0] * 3,
     "Its 1,200 lb is passed over: “Supplier's heaviest” on Coils says 1,100 lb."),
])
def test_a_guess_of_the_heaviest_coil_holds_no_size_back_that_a_supplier_sells(
    standing: Standing, ships: list[float], says: str
) -> None:
    """A copy has it of the supplier of another order: 6 × 800 lb were worked out, and nothing said
    why."""
    sizes = all_in("Elk Fork (invented)", "2.62/lb", coil_masses=(800.0, 1200.0))
    asked = plan(give(barn(sizes), CoilsKey.SUPPLIER_HEAVIEST, 1100.0, standing))
    (report,) = compare(asked).quotes
    assert report.shipment is not None
    assert [float(one * report.shipment.mass_per_length)
            for one in report.shipment.lengths] == pytest.approx(ships)
    assert (report.note, report.mark) == (says, "")
    made = plan(award(asked, 1))
    assert [one.mass.value for one in made.coils] == pytest.approx(ships)
    (again,) = compare(made).quotes
    assert (again.note, again.landed) == (says, report.landed)
    # Who says a heaviest coil beside the sizes is held to that.
    stated = plan(give(barn(dataclasses.replace(sizes, heaviest=1000.0)),
                       CoilsKey.SUPPLIER_HEAVIEST, 1100.0, standing))
    (report,) = compare(stated).quotes
    assert report.shipment is not None
    assert len(report.shipment.lengths) == 3
    assert report.note == ""


@pytest.mark.parametrize(("first", "then"), [
    ("2.62/lb", "2.90/lb"), ("$4,350 lump", "$5,000 lump"),
])
def test_a_price_that_is_quoted_anew_is_on_the_order_once_it_is_awarded_anew(
    first: str, then: str
) -> None:
    """The supplier's page had the price typed last, beside the cost of the one that was taken."""
    made = plan(award(plan(barn(all_in("Elk Fork (invented)", first))), 1))
    (one,) = made.job.quotes.received
    other = plan(dataclasses.replace(made.job, quotes=dataclasses.replace(
        made.job.quotes, received=(dataclasses.replace(
            one, price=all_in("A", then).price, lead_time=25),))))
    assert render("order", other, "text") == render("order", made, "text")
    assert other.figures[Key.COIL_COST].value == made.figures[Key.COIL_COST].value
    assert not [one for one in other.findings if one.key == "quotes.lump"]
    said = "at the price quoted by now, not at the one that was awarded"
    assert [to_buy(one)[-1][2].endswith(said) for one in (made, other)] == [False, True]
    (report,) = compare(other).quotes
    lead, price = since_award(other.job, report)
    assert lead == f"{ANSWERS[CoilsKey.LEAD_TIME].label} (then “21”, now “25”)"
    assert price.startswith("price (then “$")
    (care,) = [one.what for one in other.findings if one.key == "quotes.otherwise"]
    assert care.endswith(f"than when it was awarded: {lead}; {price}.")
    assert anew_words(other, report).startswith(f"{lead}; {price}; for 1 coil, ")
    anew = plan(award(other, 1))
    assert render("order", anew, "text") != render("order", made, "text")
    assert anew.figures[Key.COIL_COST].text() == f"${compare(anew).quotes[0].landed:,}"
    assert not [one for one in anew.findings if one.key == "quotes.otherwise"]


def test_a_size_that_its_supplier_sells_as_well_is_named_though_the_order_is_cut_for_another(
) -> None:
    made = plan(award(plan(barn(all_in("Elk Fork (invented)", "2.62/lb",
                                       coil_masses=(700.0, 1000.0)))), 1))
    (one,) = made.job.quotes.received
    sells = dataclasses.replace(one, coil_masses=(700.0, 1000.0, 4900.0))
    more = plan(dataclasses.replace(
        made.job, quotes=dataclasses.replace(made.job.quotes, received=(sells,))))
    replied = more.job.questions["supplier.custom_length"].text
    assert replied == "In coils of 700 lb or 1,000 lb and no others. (quote of Elk Fork (invented))"
    assert since_award(more.job, compare(more).quotes[0])[-1] == (
        "the coils that are sold (then “In coils of 700 lb or 1,000 lb and no others”)")
    # The Summary and the command line say it with the other findings.
    (told,) = [one for one in more.findings if one.key == "quotes.otherwise"]
    assert "(then “In coils of 700 lb or 1,000 lb and no others”)." in told.what
    anew = plan(award(more, 1))
    assert "4,900 lb" in anew.job.questions["supplier.custom_length"].text
    assert not [one for one in plan(anew.job).findings if one.key == "quotes.otherwise"]
    assert since_award(anew.job, compare(anew).quotes[0]) == ()


def test_sizes_are_said_as_they_were_quoted() -> None:
    job = award(plan(barn(all_in("Elk Fork (invented)", "2.62/lb",
                                 coil_masses=(700.0, 1091.25)))), 1)
    sold = job.questions["supplier.custom_length"].text
    assert sold.startswith("In coils of 700 lb or 1,091.25 lb and no others.")
    # One that is quoted in kilograms is read in pounds as everything is.
    assert sizes_text(Quote(supplier="A", coil_masses=(400 / 0.45359237,)), System.US) == "882 lb"
    assert sizes_text(Quote(supplier="A", coil_masses=(400 / 0.45359237,)), System.METRIC) == (
        "400 kg")


def test_sizes_that_change_after_it_was_sent_ask_for_a_revision() -> None:
    job = awarded(all_in("Elk Fork (invented)", "2.62/lb", coil_masses=(2500.0,))).job
    (one,) = job.quotes.received
    larger = dataclasses.replace(job.quotes, received=(
        dataclasses.replace(one, coil_masses=(2600.0,)),))
    assert order_checksum(dataclasses.replace(job, quotes=larger)) != order_checksum(job)


def test_a_lump_for_other_coils_than_those_ordered_now_is_told() -> None:
    made = plan(award(plan(barn(all_in("Elk Fork (invented)", "$4,350 lump"))), 1))
    assert not [one for one in made.findings if one.key == "quotes.lump"]
    quoted = made.figures[Key.COIL_MASS_ORDERED].text(made.job.units)
    more = plan(give(made.job, CoilsKey.SPARE, 0.1))
    (said,) = [one for one in more.findings if one.key == "quotes.lump"]
    assert said.level is Level.CARE
    assert "a lump, $4,350.00, for other coils than these" in said.what
    now = more.figures[Key.COIL_MASS_ORDERED].text(more.job.units)
    assert quoted != now
    assert f"for {quoted}, and {now} are ordered now" in said.what
    # The cost stays what was quoted, as what it lands at does, and its parts add up to it.
    assert more.figures[Key.COIL_COST].text(more.job.units) == "$4,350.00"
    assert sum(one.money.value for one in more.account if one.money) == pytest.approx(4350.0)
    sheet = render("summary", more, "text")
    assert "Lands at, from Elk Fork (invented)" in sheet
    assert "Cost of the coils  " not in sheet.partition("Figures")[2].partition("Planes")[0]
    # A price that is typed over it goes by the weight again, and is no lump any longer.
    typed = plan(give(more.job, CoilsKey.PRICE, 2.0))
    assert typed.figures[Key.COIL_COST].value == pytest.approx(
        2.0 * typed.figures[Key.COIL_MASS_ORDERED].value)
    assert not [one for one in typed.findings if one.key == "quotes.lump"]


def test_coils_of_nearly_one_length_are_ordered_alike_where_any_length_is_sold() -> None:
    """The house takes 3 coils a hand apart; a supplier who sells steps gets them as they are."""
    job = demo_jobs()["quarry-house-hip"]
    made = plan(job)
    wanted = [made.figures[f"coil.{number}.wanted"].value for number in (1, 2, 3)]
    assert len(set(wanted)) > 1
    assert {one.length.value for one in made.coils} == {max(wanted)}
    assert sum(made.figures[f"coil.{number}.length"].value - wanted[number - 1]
               for number in (1, 2, 3)) <= 0.005 * sum(wanted)
    (said,) = [one for one in made.findings if one.key == "coils.alike"]
    assert said.level is Level.NOTE
    assert f"3 × {made.coils[0].length.text(job.units)}" in said.what
    assert made.figures[Key.COIL_LONGER].text(job.units) in said.why
    assert "coils ordered alike" in [one.name for one in made.account]
    lighter = plan(give(job, CoilsKey.SUPPLIER_HEAVIEST, 800.0))
    (note,) = [one.what for one in lighter.findings if one.key == "coils.alike"]
    assert re.search(r"alike: 3 × [^×;]+; not 1 × [^×]+, for which", note), note
    longer = made.figures[Key.COIL_LONGER].text(job.units)
    assert f"Ordered alike, the coils take {longer} more." in proof_line(made)
    assert made.figures[Key.ACCOUNT_TOTAL].value == pytest.approx(
        made.figures[Key.COIL_MASS_ORDERED].value)
    assert len([one for one in made.buy if one.what is BuyWhat.COIL]) == 1, "one line to buy"
    # Who sells steps makes each coil up to the next one from what it wants, in both reckonings.
    stepped = all_in("Elk Fork (invented)", "2.62/lb", length_increment=6.0)
    asked = plan(dataclasses.replace(job, quotes=QuoteSection(received=(stepped,))))
    landed = compare(asked).quotes[0]
    assert landed.shipment is not None
    assert [float(one) for one in landed.shipment.lengths] == pytest.approx(
        [math.ceil(one / 6.0 - 1e-9) * 6.0 for one in wanted])
    awarded_to = plan(award(asked, 1))
    assert [one.length.value for one in awarded_to.coils] == pytest.approx(
        [float(one) for one in landed.shipment.lengths])
    assert not [one for one in awarded_to.findings if one.key == "coils.alike"]


def grown(job: Job, times: float) -> Job:
    """The job with eaves so many times as long."""
    planes = tuple(dataclasses.replace(one, eave=one.eave * times) for one in job.roof.planes)
    return dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))


def test_an_awarded_quote_lands_at_what_is_ordered_and_not_at_what_it_would_ship_anew() -> None:
    """Two coils of 750 ft were ordered; the roof grew, and three of them do where four of 500 ft
    would: 3 × $3,310.714 = $9,932.14."""
    sold = all_in("Elk Fork (invented)", "2.62/lb", coil_lengths=(6000.0, 9000.0))
    job = award(plan(barn(sold)), 1)
    (before,) = compare(plan(job)).quotes
    assert (str(before.landed), before.anew) == ("6621.43", None)
    made = plan(grown(job, 1.2))
    (report,) = compare(made).quotes
    assert report.shipment is not None
    assert report.anew is not None
    assert [*map(float, report.shipment.lengths)] == [9000.0] * 3
    assert [*map(float, report.shipment.lengths)] == [one.length.value for one in made.coils]
    assert [*map(float, report.anew.lengths)] == [6000.0] * 4
    assert str(report.landed) == "9932.14"
    assert made.figures[Key.COIL_COST].text() == "$9,932.14"
    sheet = " ".join(render("quotes", made, "text").split())
    assert "Awarded anew 4 coils, 2,000 ft" in sheet
    assert "Others would ship" not in sheet
    # Awarded anew it is what it would ship.
    assert otherwise_words(made, report)
    (again,) = compare(plan(award(made, 1))).quotes
    assert otherwise_words(plan(award(made, 1)), again) == ""
    assert again.anew is None
    assert str(again.landed) == "8828.57"


@pytest.mark.parametrize("given", [False, True])
def test_a_lump_for_other_coils_than_are_asked_for_now_says_so_on_its_row(given: bool) -> None:
    """1.2 times the eaves; whether it is awarded or not."""
    before = plan(barn(quote("Fern Hollow (invented)")))
    typed = dataclasses.replace(before.job.quotes.received[0], **{
        name: getattr(all_in("Fern Hollow (invented)", "$4,650 lump"), name)
        for name in ("price", "all_in", "lead_time")})
    job = with_given_for(before, dataclasses.replace(before.job, quotes=dataclasses.replace(
        before.job.quotes, received=(typed,))), 0)
    if given:
        job = award(plan(job), 1)
    (report,) = compare(plan(job)).quotes
    assert "lump" not in report.note
    bigger = plan(grown(job, 1.2))
    (report,) = compare(bigger).quotes
    was, now = (one.figures[Key.COIL_MASS_ORDERED].text() for one in (before, bigger))
    assert report.note.startswith(f"CARE: its lump is for {was}, and {now} are to be ordered now")
    # Another price is one of the coils as they are now; the same one, typed elsewhere, is not.
    assert with_given_for(bigger, bigger.job, 0) is bigger.job
    other = dataclasses.replace(report.quote, price=all_in("A", "$5,000 lump").price)
    anew = with_given_for(bigger, dataclasses.replace(bigger.job, quotes=dataclasses.replace(
        bigger.job.quotes, received=(other,))), 0)
    assert compare(plan(anew)).quotes[0].note == ""


def test_an_order_to_a_supplier_who_quoted_nothing_for_it_says_that_what_they_sell_is_not_known(
) -> None:
    """A copy had gone out for coils of a length that its supplier had sold none of before."""
    said = all_in("Elk Fork (invented)", "190/cwt", coil_lengths=(6000.0, 12000.0), minimum=1000.0,
                  date=datetime.date(2027, 2, 3))
    other = all_in("Tern Hill (invented)", "250/cwt")

    def unquoted(job: Job, supplier: str = " elk  fork (Invented)") -> list[str]:
        to = dataclasses.replace(job.order, supplier=supplier)
        return [one.what for one in plan(dataclasses.replace(job, order=to)).findings
                if one.key == "quotes.none"]

    first = award(plan(barn(said, other)), 1)
    assert unquoted(first) == [], "its quote says what it sells"
    (bare,) = unquoted(barn(other))
    assert bare == ("No quote of elk fork (Invented) stands in this job: which lengths and weights "
                    "of coil they sell, and at what price, is not known here.")
    for copy in (copied(first), copied(copied(first))):
        (told,) = unquoted(copy)
        assert told == (f"{bare} For the order that this job began as a copy of, their quote of "
                        "Feb 3, 2027 said: coils of 500 ft or 1,000 ft and no others; no order "
                        "under 1,000 lb.")
        assert "190" not in str(copy.quotes), "a price is of its own order"
        assert [coil.length.value for coil in plan(copy).coils] == [
            coil.length.value for coil in plan(barn()).coils], "it limits nothing"
        assert unquoted(copy, "Slate Creek (invented)") == [
            bare.replace("elk fork (Invented)", "Slate Creek (invented)")]
        assert unquoted(copy, "") == []
        asked, _ = reply(copy, "supplier.custom_length", "Any length, J. Elk", True)
        assert unquoted(asked) == [], "it was asked whether they wind to length"
    assert "Elk Fork" in str(read_model(to_text(copy), Job, "copy").quotes.sold_before)
    assert "Elk" not in to_text(without_names(copy, "a class"))
