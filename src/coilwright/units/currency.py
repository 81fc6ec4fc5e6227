"""Money in the currency of a job: the core counts in one, and dollars are how it writes it.

Nothing is ever turned from one currency into another. An amount is read, kept and shown in the one
currency that its job says; here its written form goes from dollars to that currency and back.
"""

from __future__ import annotations

import re

DOLLARS = "USD"
"""The code that money is in where nothing else is said (ISO 4217)."""
_SIGNS = {
    "EUR": ("€", "euros", "euro"), "GBP": ("£",), "CAD": ("ca$", "c$", "$"),
    "AUD": ("au$", "a$", "$"), "NZD": ("nz$", "$"), "CHF": ("fr.", "sfr"), "SEK": ("kr",),
    "NOK": ("kr",), "DKK": ("kr",), "PLN": ("zł",), "CZK": ("kč",),
}
"""What people write for a currency beside its code, in lower case, the longest first."""
_AMOUNT = re.compile(r"([-\u2212]?)\$([\d.,\u202f]+)")
_FOREIGN = re.compile(r"us\$|[$€£]|\busd\b|\bdollars?\b|\beuros?\b", re.IGNORECASE)


class OtherCurrency(ValueError):
    """What was typed names another currency than the job's; the message is what it names."""


def currency_named(text: str) -> str:
    """The code of a currency by code or sign; empty for what is none, or may be several.

    >>> currency_named("eur"), currency_named("£"), currency_named("kr"), currency_named("$")
    ('EUR', 'GBP', '', 'USD')
    """
    word = text.strip().casefold()
    if word in ("$", "us$", "dollar", "dollars"):
        return DOLLARS
    if re.fullmatch("[a-z]{3}", word):
        return word.upper()
    signed = [code for code, signs in _SIGNS.items() if word in signs]
    return signed[0] if len(signed) == 1 else ""


def in_currency(text: str, currency: str) -> str:
    """Amounts that are written in dollars, written in another currency: the code after them.

    >>> in_currency("$1,234.50", "EUR"), in_currency("$2.65/kg", "SEK"), in_currency("$3.00", "USD")
    ('1,234.50 EUR', '2.65 SEK/kg', '$3.00')
    """
    if currency == DOLLARS:
        return text
    return _AMOUNT.sub(rf"\1\2 {currency}", text).replace(DOLLARS, currency)


def as_dollars(text: str, currency: str) -> str:
    """What was typed for money of a currency, written as the core reads it: in dollars.

    Raises OtherCurrency where it names one that the job is not in.

    >>> as_dollars("2.10 EUR/kg", "EUR"), as_dollars("€2.10", "EUR"), as_dollars("2.10/kg", "EUR")
    ('2.10 USD/kg', '2.10', '2.10 USD/kg')
    """
    plain = text
    if currency != DOLLARS:
        for sign in (currency.casefold(), *_SIGNS.get(currency, ())):
            whole = rf"(?<![^\W\d_]){re.escape(sign)}(?![^\W\d_])" if sign[-1].isalpha() else (
                re.escape(sign))
            plain, found = re.subn(whole, " ", plain, flags=re.IGNORECASE)
            if found:
                break
        foreign = _FOREIGN.search(plain)
        if foreign is not None:
            raise OtherCurrency(foreign[0])
    per = re.fullmatch(r"\s*([-+]?[\d.,\s\u202f]*\d)\s*(?:/|\bper\b)\s*(\w+\.?)\s*", plain)
    return f"{per[1]} {DOLLARS}/{per[2]}" if per else plain.strip()
