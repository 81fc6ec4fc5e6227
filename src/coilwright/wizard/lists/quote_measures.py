"""What is asked of a quote: its boxes, how each is read, when it applies. No screens here."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from coilwright.calc.metal import is_coated
from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.answers.coils import Days
from coilwright.job.answers.metal import CoatingAnswer, ToleranceAnswer
from coilwright.job.answers.money import CurrencyAnswer
from coilwright.job.answers.sides import EitherWayAnswer, OneSideAnswer
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, Finish, MetalName, ThicknessIs
from coilwright.job.quotes import MOST_SIZES, RATES, TYPED, BilledBy, PaidWhen, Quote
from coilwright.job.rates import INCLUDED, NO_CHARGE, money_text, rate_text, read_money, read_rate
from coilwright.units import Kind, System, UnreadableQuantity
from coilwright.units.bases import Per, basis_named
from coilwright.units.currency import DOLLARS, OtherCurrency, as_dollars
from coilwright.wizard.lists.measure import Measure, always
from coilwright.wizard.lists.typed import NameAnswer
from coilwright.wizard.today import DayAnswer

_BY_AREA = (
    "A price by area is for flat coil as it ships: a square of it is 100 sq ft. A roof takes more "
    "flat coil than it is large, for seams and overlaps. Where the supplier means the finished "
    "roof, write it so: 248/square of roof."
)
"""What a price by the square is for: twice as much may hang on it."""
_POUNDS, _FEET, _INCHES = ("lb", "kg"), ("ft", "m"), ("in", "mm")


_NO_CURRENCY = "XTS"
"""A code that no money has (ISO 4217)."""


def _sign(system: System, currency: str) -> str:
    """The currency in boxes of prices: only dollars where US units are used have a sign; any other
    is said in a row of its own there."""
    return DOLLARS if system is System.US and currency == DOLLARS else ""


def _currency_of(key: str, job: Job) -> str:
    """The currency of the quote that a box belongs to."""
    number = key.removeprefix(TYPED).partition(".")[0]
    received = job.quotes.received
    return received[int(number)].currency if number.isdecimal() and int(number) < len(
        received) else DOLLARS


def _picked(quote: Quote, currency: str | None) -> Quote:
    """The quote in a currency that somebody picked; None: in the job's."""
    return dataclasses.replace(quote, currency=currency or "", job_currency=not currency)


def _in_its_currency(text: str, label: str, currency: str) -> str:
    """What was typed, without the code or sign of the quote's currency. Raises UnreadableAnswer
    where it names another."""
    try:
        return as_dollars(text, currency or _NO_CURRENCY)
    except OtherCurrency as other:
        if not currency:
            raise UnreadableAnswer(
                f"{label}: the price says {other}; put that into “Currency”, or into the row of "
                "that name on Job, and the number alone here.") from None
        raise UnreadableAnswer(f"{label}: this quote is in {currency}, and the price says {other}; "
                               "its currency stands in a row of its own.") from None


@dataclass(frozen=True, slots=True)
class RateAnswer(Answer):
    """A price and what it is for: `1.78/lb`, `148 per square`, `385`, `12 %`.

    currency: of its quote.
    """

    currency: str = DOLLARS

    def in_job(self, job: Job) -> Answer:
        """The answer in the currency of its quote."""
        return dataclasses.replace(self, currency=_currency_of(self.key, job))

    def read(self, text: str, system: System = System.US) -> Any:
        """The rate. Raises UnreadableAnswer with a sentence for the user."""
        name = self.key.rpartition(".")[2]
        text = _in_its_currency(text, self.label, self.currency)
        try:
            return read_rate(text, self.label, RATES[name], None if name == "price" else "lump",
                             system)
        except UnreadableQuantity as error:
            raise UnreadableAnswer(str(error)) from None

    def text(self, value: Any, system: System = System.US) -> str:
        """The rate as it stands in the box; nothing for all together is *included*, or
        *no charge* where nobody said that it is."""
        if (value is not None and not value.amount and value.per == "lump"
                and not self.key.endswith(".price")):
            return INCLUDED if value.included else NO_CHARGE
        return "" if value is None else rate_text(
            value, _sign(system, self.currency), system,
            pieces=self.key.endswith(".trim_metal"))


@dataclass(frozen=True, slots=True)
class MoneyAnswer(Answer):
    """An amount of money: `$450`. currency: of its quote."""

    currency: str = DOLLARS

    def in_job(self, job: Job) -> Answer:
        """The answer in the currency of its quote."""
        return dataclasses.replace(self, currency=_currency_of(self.key, job))

    def read(self, text: str, system: System = System.US) -> Any:
        """The amount. Raises UnreadableAnswer with a sentence for the user."""
        del system
        text = _in_its_currency(text, self.label, self.currency)
        try:
            return read_money(text, self.label)
        except UnreadableQuantity as error:
            raise UnreadableAnswer(str(error)) from None

    def text(self, value: Any, system: System = System.US) -> str:
        """The amount as it stands in the box."""
        return "" if value is None else money_text(
            value, _sign(system, self.currency), system)


_SLASHES = re.compile(r"\d{3,}(?:\s*/\s*\d{3,})+(?:\s*[a-z]+)?", re.IGNORECASE)
"""Sizes with strokes between: no fraction of a unit has parts so large."""


class SizesAnswer(Answer):
    """Several sizes of coil on one line: `1000; 2000; 3000`."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The sizes. Raises UnreadableAnswer with a sentence for the user."""
        between = r"\s*/\s*" if _SLASHES.fullmatch(text.strip()) else r"\s*;\s*|,\s+"
        parts = [part.strip() for part in re.split(between, text.strip().rstrip(";"))]
        if not all(parts):
            raise UnreadableAnswer(
                f"{self.label}: sizes with semicolons between are wanted, such as 1000; 2000.")
        if len(parts) > MOST_SIZES:
            raise UnreadableAnswer(f"{self.label}: {MOST_SIZES} sizes are enough.")
        return tuple(self._one().read(part, system) for part in parts)

    def text(self, value: Any, system: System = System.US) -> str:
        """The sizes as they stand in the box."""
        return "; ".join(self._one().text(size, system) for size in value or ())

    def _one(self) -> Answer:
        return Answer(self.key, self.label, Form.QUANTITY, self.kind, self.bare, low=self.low,
                      high=self.high)


Applies = Callable[[Job, Quote, str], bool]


def _rate(name: str, label: str, help_line: str, applies: Applies | None = None, more: str = ""
          ) -> Measure[Quote]:
    return Measure(name=name, label=label, help=help_line, form=Form.TEXT, spec=RateAnswer,
                   applies=applies, more=more)


def _text(name: str, label: str, help_line: str) -> Measure[Quote]:
    return Measure(name=name, label=label, help=help_line, form=Form.TEXT, empty="",
                   get=lambda quote: getattr(quote, name) or None)


def _pick(name: str, label: str, help_line: str, choices: Any, applies: Applies | None = None,
          **more: Any) -> Measure[Quote]:
    return Measure(name=name, label=label, help=help_line, form=Form.CHOICE,
                   choices=tuple(choices), applies=applies, **more)


def _mass(name: str, label: str, help_line: str) -> Measure[Quote]:
    return Measure(name=name, label=label, help=help_line, kind=Kind.MASS, bare=_POUNDS,
                   zero=True, high=120_000)


def _count(name: str, label: str, help_line: str, low: int, high: int,
           applies: Applies | None = None, **more: Any) -> Measure[Quote]:
    return Measure(name=name, label=label, help=help_line, form=Form.COUNT, kind=Kind.COUNT,
                   low=low, high=high, zero=low == 0, applies=applies, **more)


def _day(name: str, label: str, help_line: str) -> Measure[Quote]:
    return Measure(name=name, label=label, help=help_line, form=Form.DATE, spec=DayAnswer)


def _goes_by(*names: str, per: Per) -> Applies:
    def applies(job: Job, quote: Quote, key: str) -> bool:
        del job, key
        rates = (getattr(quote, name) for name in names)
        return any(rate is not None and basis_named(rate.per).per is per for rate in rates)

    return applies


def _asks_report(job: Job, quote: Quote, key: str) -> bool:
    del key
    return job.job.engineered is YesNo.YES or quote.report is not None


def _painted(job: Job, quote: Quote, key: str) -> bool:
    del key
    return job.metal.may_be_painted or quote.color is not None


def _coated(job: Job, quote: Quote, key: str) -> bool:
    """Whether the metal quoted, else the one asked, comes with a metallic coating."""
    del key
    metal = quote.metal or job.metal.metal
    return metal is None or is_coated(metal) or quote.coating is not None


def _by_gauge(job: Job, quote: Quote, key: str) -> bool:
    """Whether metal goes by gauge: where units are metric it is sold by its thickness."""
    del key
    return job.units is System.US or quote.gauge is not None


def _buys_trim(job: Job, quote: Quote, key: str) -> bool:
    del key
    return bool(job.trim.pieces) or quote.trim_metal is not None


def _charge(name: str, label: str) -> Measure[Quote]:
    return _rate(name, label, "An amount, or per lb, ft or coil; 0 or included: no more to pay.")


MEASURES: tuple[Measure[Quote], ...] = (
    Measure(name="supplier", label="Supplier", help="Who quotes.", form=Form.TEXT,
            spec=NameAnswer, empty="Supplier"),
    _rate("price", "Price of the metal",
          "1.78/lb, 62 per cwt, 2.90/ft, 148/square of flat coil; 4650 lump.",
          more=_BY_AREA),
    _pick("billed_by", "Weight billed",
          "Theoretical is worked out from the sizes; actual is what the scale says.",
          BilledBy, _goes_by("price", per=Per.WEIGHT), offered=always,
          unasked="no price by weight; asked once the price goes by weight"),
    Measure(name="width", label="Width quoted", kind=Kind.WIDTH, bare=_INCHES, low=1, high=100,
            help="Of the slit coil; a price by the foot needs it."),
    _pick("all_in", "Nothing else charged", "Yes where what is left empty below costs nothing.",
          YesNo),
    _rate("freight", "Freight", "To your site: 385, 0.05/lb, 4.10/mile; 0, or included."),
    _count("distance", "Freight distance", "How far it goes, in the unit of its rate.", 1, 20_000,
           _goes_by("freight", "fuel", per=Per.DISTANCE), offered=always,
           unasked="no rate by distance; asked once freight or fuel goes by distance"),
    _charge("slitting", "Slitting"),
    _rate("skid", "Skids", "An amount, per lb or coil; included: in the price; none: no "
                           "charge."),
    _charge("film", "Film"),
    _charge("custom_color", "Custom color"),
    _charge("set_up", "Set-up"),
    _rate("trim_metal", "Metal for trim", "Flat sheets and coils for trim: 310, 2.05/lb, 95 each.",
          _buys_trim),
    _rate("metal_surcharge", "Metal surcharge",
          "By weight, such as 0.05/lb, or a percentage of the metal."),
    _rate("fuel", "Fuel surcharge", "An amount, per mile, or a percentage of the freight."),
    Measure(name="minimum_charge", label="Minimum charge", form=Form.TEXT, spec=MoneyAnswer,
            help="The least that is billed, freight aside, in money: $500. A least weight goes in "
                 "“Least order”."),
    _rate("deposit", "Deposit", "Money, or a percentage, before anything is made."),
    _pick("paid_when", "The rest is paid", "When the balance is due.", PaidWhen),
    _text("terms", "Terms", "What else was said of payment."),
    Measure(name="currency", label="Currency", form=Form.TEXT, spec=CurrencyAnswer,
            get=lambda quote: quote.currency or None, put=_picked,
            help="Of all its amounts, by three letters; left empty, the job's."),
    Measure(name="lead_time", label="Lead time, days", form=Form.COUNT, kind=Kind.COUNT, spec=Days,
            low=0, high=730, zero=True,
            help="Calendar days, or weeks, from the order to the coils on site."),
    _day("arrives", "Arrives on", "Where the supplier names a day."),
    _day("valid_until", "Price holds until", "The last day the price holds."),
    _mass("minimum", "Least order", "The least weight they sell."),
    _mass("increment", "Sold in steps of", "The order's weight goes up in steps of it."),
    Measure(name="length_increment", label="Coil length in steps", kind=Kind.LENGTH, bare=_FEET,
            high=12_000, help="Each coil's length goes up in steps of it."),
    Measure(name="coil_masses", label="Coil weights offered", kind=Kind.MASS, bare=_POUNDS,
            form=Form.TEXT, spec=SizesAnswer, empty=(), low=50, high=60_000,
            help="Where only some are sold: 1000; 2000; 3000."),
    Measure(name="coil_lengths", label="Coil lengths offered", kind=Kind.LENGTH, bare=_FEET,
            form=Form.TEXT, spec=SizesAnswer, empty=(), low=120, high=240_000,
            help="Where only some are sold: 500 ft; 1000 ft."),
    _mass("heaviest", "Heaviest coil", "The heaviest coil they ship."),
    Measure(name="tolerance", label="Tolerance, under", kind=Kind.PERCENT, zero=True, high=0.5,
            bare=("%", "%"), spec=OneSideAnswer,
            help="How far under the ordered weight they may ship."),
    Measure(name="tolerance_over", label="Tolerance, over", kind=Kind.PERCENT, zero=True,
            high=0.5, bare=("%", "%"), spec=OneSideAnswer,
            help="How far over the ordered weight they may ship."),
    Measure(name="inside_diameter", label="Inside diameter", kind=Kind.WIDTH, bare=_INCHES,
            low=1, high=60, help="Of the coils, where it is not what was asked."),
    Measure(name="width_tolerance", label="Width tolerance", kind=Kind.WIDTH, bare=_INCHES,
            zero=True, high=1, spec=EitherWayAnswer, help="Of the slit strip, either way."),
    Measure(name="camber", label="Camber", kind=Kind.WIDTH, bare=_INCHES, high=4,
            help="Bow of an edge at most, over the length the order tells it over."),
    _pick("metal", "Metal quoted", "Where it is not the metal asked.", MetalName),
    _pick("coating", "Coating quoted", "Where it is not the coating asked.", CoatingName, _coated,
          spec=CoatingAnswer),
    _count("gauge", "Gauge quoted", "As they said it; the decimal thickness decides.", 1, 99,
           _by_gauge),
    Measure(name="thickness", label="Thickness quoted", kind=Kind.THICKNESS, bare=_INCHES,
            low=0.004, high=0.25, help="Decimal; the plan is rerun on it."),
    _pick("thickness_is", "It is a", "Whether the thickness is a minimum or a nominal.",
          ThicknessIs),
    Measure(name="thickness_tolerance", label="Thickness tolerance", kind=Kind.THICKNESS,
            bare=_INCHES, zero=True, high=0.02, spec=ToleranceAnswer,
            help="How far what comes may differ from it."),
    _pick("finish", "Finish quoted", "Where it is not the finish asked.", Finish),
    _pick("color", "Has the color", "Whether the color asked can be had.", YesNo, _painted),
    _text("back_coat", "Back coat", "What is on the underside, and how thick."),
    _pick("one_lot", "One production lot", "Whether all coils come from one lot.", YesNo),
    _pick("report", "Has a test report", "For the panel from this metal.", YesNo, _asks_report),
    _count("paint_warranty", "Paint warranty, years", "0 where there is none.", 0, 100),
    _count("metal_warranty", "Metal warranty, years", "0 where there is none.", 0, 100),
    _count("watertight_warranty", "Watertight, years", "0 where there is none.", 0, 100),
    _text("warranty_voids", "Warranty is void by", "What ends it: salt water, cut edges, pitch."),
    _text("stock_place", "Where the stock is", "The warehouse or mill it ships from."),
    _text("by", "Who said so", "The person."),
    _text("reference", "Their quote number", "As it stands on their paper."),
    _day("date", "Date of the quote", "The day it was made."),
    _text("remark", "Remark", "Anything else worth keeping."),
)
