"""The landed cost of generated quotes against a calculation of its own, in plain decimals."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal, localcontext

from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.choices import YesNo
from coilwright.job.quotes import Quote
from coilwright.job.rates import Rate
from coilwright.plan import plan
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import Group
from tests.draws import draws
from tests.plan.quotes.five import barn

PLAN = plan(barn())
MASS, LENGTH = (Decimal(repr(PLAN.figures[key].value))
                for key in ("coil.mass_ordered", "coil.length_ordered"))
PER_INCH = Decimal(repr(PLAN.figures["strip.mass_per_length"].value))
KILOGRAM, METER = Decimal("0.45359237"), Decimal("0.0254")
CENT = Decimal("0.01")


def units(per: str, mass: Decimal, distance: int) -> Decimal:
    """How many of a basis are in one coil of 21 in so heavy [lb]."""
    length = mass / PER_INCH
    return {
        "lb": mass, "cwt": mass / 100, "short ton": mass / 2000, "kg": mass * KILOGRAM,
        "tonne": mass * KILOGRAM / 1000, "ft": length / 12, "m": length * METER,
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


@settings(max_examples=draws(8))
@given(st.lists(QUOTES, min_size=2, max_size=5), st.randoms())
def test_the_order_of_entry_never_ranks(quotes: list[Quote], random: object) -> None:
    plain = [o.quote for o in compare(plan(barn(*quotes))).ranked]
    mixed = list(quotes)
    random.shuffle(mixed)  # type: ignore[attr-defined]
    assert [o.quote for o in compare(plan(barn(*mixed))).ranked] == plain
