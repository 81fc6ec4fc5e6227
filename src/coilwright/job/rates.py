"""A price and what it is for, in exact decimals: `$1.78/lb`, `148 per square`, `250`, `12 %`."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated

from coilwright.job.fields import STRICT, Constraint
from coilwright.units import System, UnreadableQuantity, in_thousands
from coilwright.units.bases import Basis, Per, basis_named
from coilwright.units.numbers import quote, without_spaces

MOST_MONEY = Decimal(10**9)
_MOST_DECIMALS = 6
_MOST_TEXT = 60


def _is_money(value: Decimal) -> bool:
    exponent = value.as_tuple().exponent if value.is_finite() else None
    return (isinstance(exponent, int) and exponent >= -_MOST_DECIMALS
            and 0 <= value <= MOST_MONEY)


def _is_basis(name: str) -> bool:
    try:
        basis_named(name)
    except UnreadableQuantity:
        return False
    return True


Money = Annotated[Decimal, Constraint(
    _is_money, "an amount of money is wanted, from 0 to 1,000,000,000 with 6 decimals at most"
)]
"""An amount of money, in the currency named beside it."""


@dataclass(frozen=True, slots=True)
class Rate:
    """So much money for one unit of a basis (`units.bases`), or a share in percent.

    amount: never below zero. per: the name of the basis. included: nothing more is paid because it
    comes with the price, which “no charge” alone does not say.
    """

    __pydantic_config__ = STRICT

    amount: Money
    per: Annotated[str, Constraint(_is_basis, "it must be what a price is for, such as lb, cwt, "
                                              "ft, square, coil or lump")]
    included: bool = False


METAL = frozenset((Per.WEIGHT, Per.LENGTH, Per.AREA, Per.ROOF_AREA, Per.COIL, Per.LUMP))
"""What the price of metal, and of work on it, may be for."""
SURCHARGE = METAL | {Per.SHARE}
FREIGHT = frozenset((Per.WEIGHT, Per.COIL, Per.LUMP, Per.DISTANCE))
FUEL = FREIGHT | {Per.SHARE}
DEPOSIT = frozenset((Per.SHARE, Per.LUMP))

_MONEY = frozenset((Per.LUMP,))
_AMOUNT = re.compile(
    r"\s*(?:us\s*)?(?P<sign>[$¢])?\s*(?P<minus>[-−]?)\s*"
    r"(?P<number>\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d*)?|\.\d+)\s*"
    r"(?P<word>usd|dollars?|cents?|[¢$])?\s*(?P<rest>.*)", re.IGNORECASE | re.DOTALL)
INCLUDED = "included"
NO_CHARGE = "no charge"
_WITH_IT = frozenset((INCLUDED, "incl", "in the price"))
"""What suppliers write of what comes with the price."""
_NOTHING = _WITH_IT | {NO_CHARGE, "none", "nothing", "free"}
"""What they write where they charge nothing more, be it that nothing comes."""
_PER = re.compile(r"(?:/|per\b|an?\b|for an?\b)\s*", re.IGNORECASE)


def read_money(text: str, label: str) -> Decimal:
    """An amount of money alone. Raises UnreadableQuantity with a sentence for the person."""
    return read_rate(text, label, _MONEY, "lump").amount


def read_rate(
    text: str, label: str, allowed: Collection[Per], bare: str | None = None,
    system: System = System.US,
) -> Rate:
    """A price and its basis as typed. system: whose units the sentences speak in.

    allowed: what the basis may measure. bare: the basis where none is typed, and then *included*
    or *none* is an amount of nothing; None: one has to be. Raises UnreadableQuantity with a
    sentence for the person who typed.
    """
    said = " ".join(text.casefold().split()).rstrip(".")
    if bare is not None and said in _NOTHING:
        return Rate(Decimal(0), bare, said in _WITH_IT)
    us = system is System.US
    # In metric the currency stands in a row of its own, and is none of dollars as a rule.
    like = ("$1.78/lb" if us else "3.92/kg") if Per.DISTANCE not in allowed else (
        "$450 or $4.10/mile" if us else "450 or 2.55/km")
    found = _AMOUNT.fullmatch(without_spaces(text[:_MOST_TEXT + 1], plain=True))
    if found is None or len(text) > _MOST_TEXT:
        raise UnreadableQuantity(f"{label}: {quote(text)} is not an amount; write it like {like}.")
    if found["minus"]:
        raise UnreadableQuantity(f"{label}: {quote(text)} is below zero; nobody pays you for it.")
    amount = Decimal(found["number"].replace(",", ""))
    if found["sign"] == "¢" or (found["word"] or "").casefold() in ("¢", "cent", "cents"):
        amount = amount.scaleb(-2)
    if not _is_money(amount):
        raise UnreadableQuantity(f"{label}: {quote(text)} is too much, or too fine, to be real.")
    rest = found["rest"].strip()
    if re.match(r",\s*\d", rest):
        raise UnreadableQuantity(
            f"{label}: {quote(text)} has a comma where no thousands end; write decimals with a "
            f"point, like {like}.")
    per = _PER.match(rest)
    name = rest[per.end():].strip() if per else rest
    if not name:
        if bare is None:
            raise UnreadableQuantity(
                f"{label}: {quote(text)} does not say for what; write it like {like}, or with "
                f"{'per cwt, per ft, per square' if us else 'per tonne, per m, per m²'}, per coil "
                "or lump.")
        name = bare
    basis = _basis(name, label)
    if basis.per not in allowed and allowed == _MONEY:
        weight = basis.per is Per.WEIGHT
        raise UnreadableQuantity(
            f"{label}: {quote(text)} is no amount of money; write one, like $500."
            + (" A least weight goes in “Least order”." if weight else ""))
    if basis.per not in allowed:
        words = ", ".join(sorted(one.value for one in allowed))
        raise UnreadableQuantity(
            f"{label}: {quote(text)} goes by {basis.per.value}; it can go by {words}.")
    return Rate(amount, basis.name)


def _basis(name: str, label: str) -> Basis:
    try:
        return basis_named(name)
    except UnreadableQuantity as error:
        raise UnreadableQuantity(f"{label}: {error}") from None


def money_text(
    amount: Decimal, currency: str = "USD", system: System = System.US
) -> str:
    """An amount as people read it: cents, and finer where it is finer than cents. Without a
    currency it is the number alone.

    >>> money_text(Decimal("4412")), money_text(Decimal("0.6245"), "CAD")
    ('$4,412.00', '0.6245 CAD')
    """
    exponent = amount.as_tuple().exponent
    places = max(2, -exponent if isinstance(exponent, int) else 2)
    number = in_thousands(amount, system, places)
    return f"${number}" if currency == "USD" else f"{number} {currency}".rstrip()


def rate_text(
    rate: Rate, currency: str = "USD", system: System = System.US, *, pieces: bool = False
) -> str:
    """A price with its basis, as it stands in its box: reading it gives it again.

    pieces: what is counted by it are sheets too, so that it is of each, not of a coil.

    >>> rate_text(Rate(Decimal("1.78"), "lb")), rate_text(Rate(Decimal("12"), "%"))
    ('$1.78/lb', '12 %')
    """
    basis = basis_named(rate.per)
    if basis.per is Per.SHARE:
        return f"{rate.amount:f} %"
    amount = money_text(rate.amount, currency, system)
    if pieces and basis.per is Per.COIL:
        return f"{amount} each"
    return f"{amount} lump" if basis.per is Per.LUMP else f"{amount}/{basis.name}"
