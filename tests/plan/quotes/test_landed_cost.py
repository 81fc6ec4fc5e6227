"""The landed cost of generated quotes against a calculation of its own, in plain decimals."""

from __future__ import annotations

import dataclasses
import math
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal, localcontext

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.choices import YesNo
from coilwright.job.coils import Slitting
from coilwright.job.edit import give
from coilwright.job.quotes import BilledBy, Quote, QuoteSection
from coilwright.job.rates import Rate
from coilwright.job.trim import TrimPiece
from coilwright.plan import plan
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import Comparison, Group
from coilwright.sheets.quotes import note_words, quote_facts
from coilwright.units import System
from tests.draws import draws
from tests.plan.coils.slit_jobs import CAP, DRIP, RAKE, slit_job
from tests.plan.quotes.five import all_in, barn

PLAN = plan(barn())
MASS, LENGTH = (Decimal(repr(PLAN.figures[key].value))
                for key in ("coil.mass_ordered", "coil.length_ordered"))
PER_INCH = Decimal(repr(PLAN.figures["strip.mass_per_length"].value))
KILOGRAM, METER = Decimal("0.45359237"), Decimal("0.0254")
CENT = Decimal("0.01")


def units(per: str, mass: Decimal, distance: int) -> Decimal:
    """How many of a basis are in one coil of 21 in so heavy [lb]; its length as it is ordered."""
    length = mass / PER_INCH
    ordered = (length - Decimal("0.000001")).to_integral_value(ROUND_CEILING)
    return {
        "lb": mass, "cwt": mass / 100, "short ton": mass / 2000, "kg": mass * KILOGRAM,
        "tonne": mass * KILOGRAM / 1000, "ft": ordered / 12, "m": ordered * METER,
        "sq ft": length * 21 / 144, "square": length * 21 / 14400,
        "m²": length * 21 * METER * METER,
        "roof square": Decimal(2 * 42 * 18) / 100, "coil": Decimal(1), "lump": Decimal(1),
        "mile": Decimal(distance), "km": Decimal(distance),
    }[per]


METAL_RANGE = {
    "lb": ("0.5", "5"), "cwt": ("50", "500"), "short ton": ("900", "9000"), "kg": ("1", "10"),
    "tonne": ("1000", "9000"), "ft": ("0.8", "8"), "m": ("2", "20"), "sq ft": ("0.4", "4"),
    "square": ("50", "500"), "m²": ("5", "50"), "roof square": ("60", "600"),
    "coil": ("900", "9000"), "lump": ("900", "9000"),
}


def rates(*names: str) -> st.SearchStrategy[Rate]:
    """Rates by these bases, as small as a charge beside the metal is."""
    return st.builds(Rate, st.decimals(0, 5, places=3), st.sampled_from(names))


METAL_RATES = st.sampled_from(sorted(METAL_RANGE)).flatmap(lambda name: st.builds(
    Rate, st.decimals(*METAL_RANGE[name], places=4), st.just(name)))
BESIDE = st.none() | rates("lb", "cwt", "ft", "coil", "lump", "m²")
QUOTES = st.builds(
    Quote,
    supplier=st.just("A"), price=METAL_RATES, slitting=BESIDE, set_up=BESIDE, skid=BESIDE,
    film=BESIDE, custom_color=BESIDE,
    metal_surcharge=st.none() | rates("lb", "%", "lump"),
    freight=st.none() | rates("mile", "km", "lump", "cwt", "lb"),
    fuel=st.none() | rates("%", "mile", "lump"),
    distance=st.integers(1, 900), width=st.just(21.0), all_in=st.just(YesNo.YES),
    minimum_charge=st.none() | st.decimals(0, 9000, places=2), lead_time=st.just(7),
    minimum=st.none() | st.integers(0, 2500).map(float),
    increment=st.none() | st.sampled_from([50.0, 100.0, 250.0]),
)


def by_hand(quote: Quote) -> Decimal:
    """What it lands at, added up in decimals of 60 digits."""
    with localcontext() as context:
        context.prec = 60
        mass = max(LENGTH * PER_INCH, Decimal(quote.minimum or 0))
        if quote.increment:
            step = Decimal(quote.increment)
            mass = (mass / step).to_integral_value(ROUND_CEILING) * step

        def line(rate: Rate | None, of: Decimal = Decimal(0)) -> Decimal:
            if rate is None:
                return Decimal(0)
            amount = rate.amount * of / 100 if rate.per == "%" else (
                rate.amount * units(rate.per, mass, quote.distance or 0))
            return amount.quantize(CENT, ROUND_HALF_UP)

        metal = line(quote.price)
        billed = metal + sum(map(line, (quote.slitting, quote.set_up, quote.skid, quote.film,
                                        quote.custom_color)))
        billed += line(quote.metal_surcharge, metal)
        billed = max(billed, quote.minimum_charge or Decimal(0))
        freight = line(quote.freight)
        return billed + freight + line(quote.fuel, freight)


@settings(max_examples=draws(40))
@given(QUOTES)
def test_as_by_hand(quote: Quote) -> None:
    report = compare(plan(barn(quote))).quotes[0]
    assert report.group is Group.COMPLETE, report.note
    assert report.landed == by_hand(quote)
    assert report.cost is not None
    assert sum(line.amount for line in report.cost.lines) == report.landed
    for line in report.cost.lines:
        figure = line.figure
        assert figure is not None
        assert figure.value == float(line.amount)
        if figure.formula is not None:
            again = figure.formula(*[one.value for one in figure.terms])
            # To half a cent, and what a float of that size can say.
            assert abs(again - figure.value) <= 0.00501, line.name
    assert report.cost.figure.value == float(by_hand(quote))
    low, high = report.cost.moved
    assert low <= report.landed <= high


SHEET = Decimal("0.2833") * Decimal("0.0236")
"""A square inch of the metal [lb]."""
PASS = (Decimal(64 * 217) / 2 * Decimal("1.03") + 120) / Decimal("0.9")
"""64 panels of 217 in from two strands side by side, 3 % spare, 120 in lost, 10 % under [in]."""
MASTER, STRANDS = PASS * 43 * SHEET, PASS * 42 * SHEET
"""A 43 in master slit in one pass of two strands of 21 in: an inch is drop [lb]."""


def in_passes(*quotes: Quote, trim: tuple[TrimPiece, ...] = ()) -> Comparison:
    """The gable's coils in one pass of a 43 in master, with quotes."""
    job = slit_job(43.0, trim=trim, coils__price=1.4, coils__slitting=Slitting.PASSES)
    return compare(plan(dataclasses.replace(job, quotes=QuoteSection(received=quotes))))


def test_in_passes_the_drop_is_paid_for_worked_by_hand() -> None:
    """All that goes by the weight or area of the metal goes by the master's: the drop is bought."""
    # 8,080.3556 in × 43 in × 0.00668588 lb/sq in; two strands of 21 in are 2,269.0201 lb
    assert round(PASS, 4) == Decimal("8080.3556")
    assert (round(MASTER, 4), round(STRANDS, 4)) == (Decimal("2323.0444"), Decimal("2269.0201"))
    found = in_passes(
        all_in("A", "1.40/lb", slitting="0.04/lb", skid="25/coil", freight="10/cwt"),
        all_in("B", "148/square"), all_in("C", "2.90/ft", width=21.0)).quotes
    amounts = [{line.name: line.amount for line in one.cost.lines} for one in found
               if one.cost is not None]
    # 2,323.0444 × $1.40, × $0.04; two coils; 22.690201 cwt of strands × $10
    assert amounts[0] == {"Metal": Decimal("3252.26"), "Slitting": Decimal("92.92"),
                          "Skids": Decimal("50.00"), "Freight": Decimal("226.90")}
    # 8,080.3556 × 43 / 14,400 = 24.1288 squares; by length the strands, 2 × 673 ft 5 in
    assert amounts[1:] == [{"Metal": Decimal("3571.07")}, {"Metal": Decimal("3905.82")}]
    # As the summary says that the order costs.
    cost = plan(slit_job(43.0, coils__price=1.4, coils__slitting=Slitting.PASSES))
    assert round(cost.figures["coil.cost"].value, 2) == 3252.26


@settings(max_examples=draws(20))
@given(METAL_RATES, st.none() | st.integers(0, 9000).map(float))
def test_in_passes_as_by_hand(price: Rate, minimum: float | None) -> None:
    """In decimals of 60 digits; a least order grows drop and strands alike."""
    (found,) = in_passes(Quote(supplier="A", price=price, width=21.0, minimum=minimum,
                               all_in=YesNo.YES, lead_time=7)).quotes
    with localcontext() as context:
        context.prec = 60
        mass = max(MASTER, Decimal(minimum or 0))
        strands, area = mass * 42 / 43 / 21 / SHEET, mass / SHEET
        lengths = () if found.shipment is None else found.shipment.lengths
        coils, ordered = len(lengths), Decimal(sum(
            math.ceil(float(one) - 1e-6) for one in lengths))
        assert not lengths or abs(float(sum(lengths)) / float(strands) - 1) < 1e-9
        of_it = {
            "ft": ordered / 12, "m": ordered * METER, "sq ft": area / 144, "square": area / 14400,
            "m²": area * METER * METER, "coil": Decimal(coils),
        }.get(price.per)
        assert found.landed == (price.amount * (
            units(price.per, mass, 0) if of_it is None else of_it)).quantize(CENT, ROUND_HALF_UP)
    assert found.cost is not None
    for line in found.cost.lines:
        assert line.figure is not None
        if line.figure.formula is not None:
            again = line.figure.formula(*[one.value for one in line.figure.terms])
            assert abs(again - line.figure.value) <= 0.00501, line.name


def test_a_strand_for_trim_is_paid_for_once_with_its_master() -> None:
    found = in_passes(all_in("A", "1.40/lb", freight="10/cwt"), trim=(DRIP, RAKE, CAP))
    assert found.trim == "1 strand for trim in the passes: the master's metal, paid for with it."
    (one,) = found.quotes
    assert one.missing == ()
    assert one.shipment is not None
    made = one.shipment.plan
    assert one.cost is not None
    master, (strand,) = made.ordered_slit, [b for b in made.buy if b.in_pass]
    assert master is not None
    assert [line.amount for line in one.cost.lines] == [
        (Decimal(repr(master.mass.value)) * Decimal("1.40")).quantize(CENT, ROUND_HALF_UP),
        # Strands for panels and for trim ride; the drop does not.
        ((sum(Decimal(repr(c.mass.value)) for c in made.coils) + Decimal(repr(strand.mass.value)))
         / 10).quantize(CENT, ROUND_HALF_UP)]


@pytest.mark.parametrize("system", System)
def test_by_the_pound_it_lands_at_what_the_summary_says_the_coils_cost(system: System) -> None:
    """In either system of units, to the cent: the weight is not rounded before it is priced."""
    job = barn(all_in("A", "1.78/lb"))
    job = dataclasses.replace(job, units=system,
                              coils=dataclasses.replace(job.coils, price=1.78))
    made = plan(job)
    assert compare(made).quotes[0].landed == Decimal("4005.53")
    assert made.figures["coil.cost"].text(system).replace(",", "") == "$4005.53"


@settings(max_examples=draws(8))
@given(st.lists(QUOTES, min_size=2, max_size=5), st.randoms())
def test_the_order_of_entry_never_ranks(quotes: list[Quote], random: object) -> None:
    plain = [o.quote for o in compare(plan(barn(*quotes))).ranked]
    mixed = list(quotes)
    random.shuffle(mixed)  # type: ignore[attr-defined]
    assert [o.quote for o in compare(plan(barn(*mixed))).ranked] == plain


@pytest.mark.parametrize(("heaviest", "billed"), [
    (600.0, "theoretical weight, 2,306 lb, not rounded coil by coil"),
    (900.0, "theoretical weight"),
])
def test_the_weight_billed_is_told_from_that_of_coils_rounded_one_by_one(
    heaviest: float, billed: str
) -> None:
    """Four coils of 576.6 lb are 4 × 577 = 2,308 lb on the order, and billed at 2,306.46."""
    sold = all_in("Elk Fork (invented)", "2.45/lb", billed_by=BilledBy.THEORETICAL)
    job = give(barn(sold), CoilsKey.SUPPLIER_HEAVIEST, heaviest)
    (report,) = compare(plan(job)).quotes
    facts = dict(quote_facts(report, job.units))
    assert facts["Weight billed"] == billed
    assert ("2,308 lb" in facts["Would ship"]) is (heaviest == 600.0)
    assert "what it lands at if the price of metal falls or rises" in facts["Metal ∓10 %"]
    bare = dataclasses.replace(sold, price=Rate(Decimal("2.45"), "ft"), billed_by=None)
    (report,) = compare(plan(barn(bare))).quotes
    assert "Weight billed" not in dict(quote_facts(report, job.units))


def test_what_is_more_than_needed_says_beside_what_where_the_cuts_are_made_anew() -> None:
    """The hand-worked gable wants 2,250.3 lb in one coil: of 2,300 lb 49.7 are too many. A least
    order cuts nothing anew: what is needed then is the order's own weight, which stands above it.
    """
    for said, words in (({"coil_masses": (2300.0,)},
                         "49.7 lb: cut for its sizes, the coils need 2,250 lb"),
                        ({"minimum": 2300.0}, "49.7 lb")):
        job = barn(all_in("Elk Fork (invented)", "2.45/lb", **said))
        (report,) = compare(plan(job)).quotes
        assert dict(quote_facts(report, job.units))["More than needed"] == words
        assert note_words(report, job.units) == "49.7 lb more than the 2,250 lb needed" + (
            " in its sizes" if "coil_masses" in said else "")
