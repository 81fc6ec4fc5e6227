"""Prices as they are said on the phone: read exactly, shown so that they read back."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.job.rates import (
    DEPOSIT,
    FREIGHT,
    METAL,
    SURCHARGE,
    Rate,
    rate_text,
    read_money,
    read_rate,
)
from coilwright.units import System, UnreadableQuantity
from coilwright.units.bases import BASES, Per, basis_named
from tests.rules import for_each


@for_each([
    ("$1.78/lb", "1.78", "lb"), ("62.40 per cwt", "62.40", "cwt"), ("178¢/lb", "1.78", "lb"),
    ("62 cents a pound", "0.62", "lb"), ("148/sq", "148", "square"), ("$2.90 a foot", "2.90", "ft"),
    ("$4,650 lump", "4650", "lump"), ("9.5 USD/m²", "9.5", "m²"), ("2400/coil", "2400", "coil"),
    ("1500 per short ton", "1500", "short ton"), ("$3200 per long ton", "3200", "long ton"),
])  # fmt: skip
def test_read(typed: str, amount: str, per: str) -> None:
    assert read_rate(typed, "Price", METAL) == Rate(Decimal(amount), per)


def test_a_charge_without_a_basis_is_a_lump() -> None:
    assert read_rate("385", "Freight", FREIGHT, "lump") == Rate(Decimal(385), "lump")
    for said, included in (("Included", True), ("incl.", True), ("no charge", False), ("0", False)):
        assert read_rate(said, "Freight", FREIGHT, "lump") == Rate(Decimal(0), "lump", included)
    assert read_rate("12 %", "Surcharge", SURCHARGE, "lump") == Rate(Decimal(12), "%")


@for_each([
    ("1.78", "does not say for what"), ("-2/lb", "below zero"), ("abc", "is not an amount"),
    ("$1/volt", "nothing a price is for"), ("1/ton", "which ton"), ("4.10 per mile", "distance"),
    ("12 %", "share"), ("$99999999999/lb", "too much"), ("0.0000001/lb", "too fine"),
    ("1.78/lb or so, he said he would have to ask the mill and call again", "not an amount"),
    ("1,78/lb", "comma where no thousands end"),
])  # fmt: skip
def test_refused_in_a_sentence(typed: str, says: str) -> None:
    with pytest.raises(UnreadableQuantity, match=says) as refused:
        read_rate(typed, "Price", METAL)
    assert str(refused.value).startswith("Price: ")
    assert str(refused.value).endswith((".", "?"))


RATES = st.builds(
    Rate,
    st.decimals(0, 10**6, places=4).map(lambda amount: amount + 0),
    st.sampled_from([name for name in BASES if BASES[name].per is not Per.SHARE]),
)


@given(RATES)
def test_what_is_shown_reads_back(rate: Rate) -> None:
    allowed = {basis_named(rate.per).per}
    again = read_rate(rate_text(rate), "Price", allowed)
    assert (again.amount, again.per) == (rate.amount, rate.per)


def test_a_weight_for_money_is_told_where_it_goes() -> None:
    with pytest.raises(UnreadableQuantity) as refused:
        read_money("1500 lb", "Minimum charge")
    assert str(refused.value) == ("Minimum charge: “1500 lb” is no amount of money; write one, "
                                  "like $500. A least weight goes in “Least order”.")
    assert read_money("$500", "Minimum charge") == 500


def test_a_deposit_is_money_or_a_share() -> None:
    assert read_rate("30%", "Deposit", DEPOSIT, "lump") == Rate(Decimal(30), "%")
    with pytest.raises(UnreadableQuantity, match="weight"):
        read_rate("1/lb", "Deposit", DEPOSIT, "lump")


def test_a_price_without_a_basis_is_told_those_of_the_jobs_units() -> None:
    for system, said in ((System.US, "per cwt, per ft, per square, per coil"),
                         (System.METRIC, "per tonne, per m, per m², per coil")):
        with pytest.raises(UnreadableQuantity, match=said):
            read_rate("1.78", "Price", METAL, system=system)
        for basis in re.findall(r"per (\S+?)(?:,|$)", said):
            assert read_rate(f"1.78 per {basis}", "Price", METAL, system=system).amount
