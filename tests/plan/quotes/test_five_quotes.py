"""Five quotes in five bases for the demo barn, ranked as a hand calculation ranks them.

By hand: two sides of 42 ft × 18 ft take 64 panels of 18 ft 1 in, 1,157 1/3 ft. With 3 % spare,
6 ft and 4 ft lost and 10 % under: (1157 1/3 × 1.03 + 10) / 0.9 = 1,335.614 815 ft. The strip weighs
0.2833 × 0.0236 × 21 × 12 = 1.684 841 76 lb/ft: 2,250.2996 lb.
"""

from __future__ import annotations

import csv
import dataclasses
import io
import math
from decimal import Decimal
from itertools import permutations

import pytest

from coilwright.job.choices import YesNo
from coilwright.job.quotes import Sorting
from coilwright.plan import plan
from coilwright.plan.quotes.award import award
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import Group, Part, Share
from coilwright.sheets import render
from coilwright.sheets.data.quotes import quotes_data
from coilwright.sheets.quotes import compared_words
from coilwright.units import System
from tests.cases import set_answers
from tests.plan.quotes.five import FIVE, all_in, barn, rate

FEET = (Decimal(3472) / 3 * Decimal("1.03") + 10) / Decimal("0.9")
POUNDS_PER_FOOT = Decimal("0.2833") * Decimal("0.0236") * 21 * 12
POUNDS = FEET * POUNDS_PER_FOOT
CENT = Decimal("0.01")
BY_HAND = {
    # As ordered, 1,335 ft 8 in × $2.90 = $3,873.43; 60 miles × $4.10 = $246; 12 % of that $29.52
    "Alder": Decimal("3873.43") + Decimal("246.00") + Decimal("29.52"),
    # 2,250.2996 lb × $1.78 = $4,005.53; × $0.04 = $90.01; $25.00 a skid; $385.00 freight
    "Birch & Daughters": Decimal("4005.53") + Decimal("90.01") + 25 + 385,
    # 3,000 lb at least: 3000 / 1.68484176 ft × 21/12 ft = 3,116.02 sq ft × $1.48
    "Slate Creek": (3000 / POUNDS_PER_FOOT * Decimal("1.75") * Decimal("1.48")).quantize(CENT),
    "Fern Hollow": Decimal(4650),
    # Nothing under: 1157 1/3 × 1.03 + 10 = 1,202.0533 ft, 2,025.27 lb; in steps of 500: 2,500 lb
    "Elk Fork": Decimal(25) * 190,
}


def test_the_hand_calculation_itself() -> None:
    assert round(FEET, 6) == Decimal("1335.614815")
    assert round(POUNDS, 4) == Decimal("2250.2996")
    assert math.ceil(FEET * 12) == 1335 * 12 + 8
    assert (Decimal(math.ceil(FEET * 12)) / 12 * Decimal("2.90")).quantize(CENT) == Decimal(
        "3873.43")
    assert (POUNDS * Decimal("1.78")).quantize(CENT) == Decimal("4005.53")
    assert (POUNDS * Decimal("0.04")).quantize(CENT) == Decimal("90.01")
    assert BY_HAND["Slate Creek"] == Decimal("4611.71")
    assert list(BY_HAND.values()) == sorted(BY_HAND.values())


def test_ranked_as_by_hand() -> None:
    found = compare(plan(barn(*FIVE)))
    assert [one.group for one in found.quotes] == [Group.COMPLETE] * 5
    ranked = {one.supplier.removesuffix(" (invented)"): one.landed for one in found.ranked}
    assert list(ranked.items()) == list(BY_HAND.items())


def test_what_would_ship() -> None:
    made = {one.supplier.split()[0]: one.shipment for one in compare(plan(barn(*FIVE))).quotes}
    assert all(made.values())
    weights = {name: float(one.mass) for name, one in made.items() if one is not None}
    assert {n: round(w, 1) for n, w in weights.items()} == {
        "Birch": 2250.3, "Slate": 3000.0, "Alder": 2250.3, "Elk": 2500.0, "Fern": 2250.3}
    slate, elk = made["Slate"], made["Elk"]
    assert slate is not None
    assert elk is not None
    # One coil of 1,664 ft is the longest the rack takes; 3,000 lb are 1,780.6 ft.
    assert len(slate.lengths) == 2
    assert round(float(slate.over), 1) == 749.7
    assert round(float(elk.over), 1) == round(2500 - 2025.2690, 1)
    # 1,483.818 ft less panels, 1,157.333 ft, thread-up and tail, 10 ft
    assert round(float(elk.leftover) / 12, 1) == 316.5
    # As the run sheet says it: each coil's down to the inch, then their sum.
    assert len(slate.left) == 2
    assert slate.leftover_read == sum(math.floor(one) for one in slate.left)
    assert 0 < slate.leftover - slate.leftover_read < 2


def test_by_unit_metal_moved_days_and_cash() -> None:
    found = {one.supplier.split()[0]: one for one in compare(plan(barn(*FIVE))).quotes}
    birch, elk, alder = found["Birch"], found["Elk"], found["Alder"]
    # 15.12 squares, 1,157.33 ft, 2,250.30 lb
    assert birch.by(Share.ROOF) == Decimal("297.99")
    assert birch.by(Share.PANEL) == Decimal("3.8930")
    assert birch.by(Share.WEIGHT) == Decimal("2.0022")
    # 15.12 squares are 140.4694 m²
    assert birch.by(Share.ROOF, System.METRIC) == Decimal("32.07")
    assert birch.cost is not None
    # a tenth of 4,005.53 down and up
    assert birch.cost.moved == (Decimal("4104.99"), Decimal("4906.10"))
    # 10 % over, by a theoretical weight too: coils that come longer weigh more by it. Metal
    # 4,406.09, slitting 99.01, skid 25, freight 385
    assert birch.cost.most == Decimal("4915.10")
    assert (str(birch.arrives), birch.slack) == ("2027-03-30", 13)
    assert elk.cash == Decimal("1425.00")
    assert alder.cash == alder.landed
    assert birch.cash is None


@pytest.mark.slow
def test_neither_the_order_of_entry_nor_the_units_rank() -> None:
    wanted = [(one.supplier, one.landed) for one in compare(plan(barn(*FIVE))).ranked]
    for some in list(permutations(FIVE))[::17]:
        assert [(o.supplier, o.landed) for o in compare(plan(barn(*some))).ranked] == wanted
    metric = dataclasses.replace(barn(*FIVE), units=System.METRIC)
    # By the foot it is the length as the order says it: 407.10 m, which are 1,335.630 ft.
    by_length = [(o.supplier, o.landed) for o in compare(plan(metric)).ranked]
    assert by_length[1:] == wanted[1:]
    assert by_length[0] == (wanted[0][0], wanted[0][1] - Decimal("3873.43") + (
        Decimal("407.10") / Decimal("0.3048") * Decimal("2.90")).quantize(CENT))


def test_sorted_by_what_the_user_wants() -> None:
    found = compare(plan(barn(*FIVE)))
    arrivals = [one.arrives for one in found.sorted(Sorting.ARRIVES)]
    assert arrivals == sorted(day for day in arrivals if day is not None)
    assert found.sorted(Sorting.CASH)[0].supplier.startswith("Elk")
    shipped = [float(o.shipment.mass) for o in found.sorted(Sorting.SHIPPED) if o.shipment]
    assert shipped == sorted(shipped)


def test_the_plan_itself_does_not_change() -> None:
    bare, quoted = plan(barn()), plan(barn(*FIVE))
    assert {key: one.value for key, one in bare.figures.items()} == {
        key: one.value for key, one in quoted.figures.items()}
    assert bare.findings == quoted.findings


def test_metal_for_trim_is_in_what_lands_worked_by_hand() -> None:
    job = barn(dataclasses.replace(FIVE[0], trim_metal=rate("2.05/lb", "trim_metal"),
                                   freight=rate("12/cwt", "freight")), *FIVE[1:], trim=None)
    found = compare(plan(job))
    assert found.trim == "The order takes metal for trim beside the coils, 5 pieces: it is in " \
        "what lands."
    birch = found.quotes[0]
    # 5 sheets of 48 × 120 in: 0.2833 × 0.0236 × 48 × 120 × 5 lb × $2.05, and 12 a cwt of all
    sheets = Decimal("0.2833") * Decimal("0.0236") * 48 * 120 * 5
    assert round(sheets, 4) == Decimal("192.5533")
    assert birch.cost is not None
    amounts = {one.name: one.amount for one in birch.cost.lines}
    assert amounts["Metal for trim"] == (sheets * Decimal("2.05")).quantize(CENT)
    assert amounts["Freight"] == ((POUNDS + sheets) / 100 * 12).quantize(CENT)
    assert birch.cost.part(Part.TRIM) == Decimal("394.73")
    # A tenth of both metals, each line rounded for itself; slitting, skids and freight stay
    metals = POUNDS * Decimal("1.78"), sheets * Decimal("2.05")
    rest = Decimal("90.01") + 25 + amounts["Freight"]
    for moved, times in zip(birch.cost.moved, ("0.9", "1.1"), strict=True):
        assert moved == rest + sum((one * Decimal(times)).quantize(CENT) for one in metals)
    assert birch.by(Share.WEIGHT) == (
        (birch.landed or 0) / (POUNDS + sheets)).quantize(Decimal("0.0001"))


def test_sheets_are_counted_each_and_coils_as_coils() -> None:
    job = barn(dataclasses.replace(FIVE[0], trim_metal=rate("46 each", "trim_metal"),
                                   skid=rate("25/coil", "skid")), trim=None)
    cost = compare(plan(job)).quotes[0].cost
    assert cost is not None
    said = {one.name: one.words for one in cost.lines}
    assert said["Metal for trim"] == "$46.00 each × 5"
    assert said["Skids"] == "$25.00/coil × 1 coil"
    two = compare(plan(set_answers(job, {"coils.supplier_heaviest": 1500.0}))).quotes[0].cost
    assert two is not None
    assert {one.name: one.words for one in two.lines}["Skids"] == "$25.00/coil × 2 coils"


def test_what_is_compared_names_who_would_ship_something_else() -> None:
    """A heading of one supplier's coils over the sums of another's was taken for all of them."""
    asked = plan(barn(all_in("Pine (invented)", "2.45/lb"),
                      all_in("Elk Fork (invented)", "2.50/lb", coil_lengths=(12000.0,))))
    said = compared_words(asked, compare(asked))
    assert said.startswith("The plan: 1 coil, 21 in × 0.0236 in, 1,335 ft 8 in, 2,250 lb. ")
    assert said.endswith("Others would ship: Elk Fork (invented) 2 coils, 2,000 ft, 3,370 lb")
    given = plan(award(asked, 2))
    said = compared_words(given, compare(given))
    assert said.startswith("Ordered of Elk Fork (invented): 2 coils, 21 in × 0.0236 in, 2,000 ft")
    assert said.endswith("Others would ship: Pine (invented) 1 coil, 1,335 ft 8 in, 2,250 lb")
    assert said in " ".join(render("quotes", given, "text").split())
    # Where it sells otherwise by now, it is still no other than itself.
    sells = dataclasses.replace(given.job.quotes.received[1], coil_lengths=(16200.0,))
    now = plan(dataclasses.replace(given.job, quotes=dataclasses.replace(
        given.job.quotes, received=(given.job.quotes.received[0], sells))))
    assert compared_words(now, compare(now)).count("Elk Fork") == 1
    same = plan(barn(all_in("Pine (invented)", "2.45/lb")))
    assert "Others" not in compared_words(same, compare(same))


def test_nothing_else_charged_gives_no_metal_away() -> None:
    """Sheets for trim are metal, no charge: who gives them along says so."""
    silent, said = (
        compare(plan(barn(all_in("Pine (invented)", "1.78/lb", **price), trim=None))).quotes[0]
        for price in ({}, {"trim_metal": "included"}))
    assert silent.missing == ("metal for trim",)
    assert said.missing == ()


def test_without_a_price_for_trim_a_quote_is_not_complete_until_it_is_left_out() -> None:
    asked = compare(plan(barn(FIVE[0], trim=None))).quotes[0]
    assert (asked.group, asked.missing) == (Group.INCOMPLETE, ("metal for trim",))
    left = compare(plan(barn(FIVE[0], trim=YesNo.NO)))
    assert left.quotes[0].group is Group.COMPLETE
    assert left.trim == "Metal for trim, 5 pieces, is bought elsewhere and left out."


def test_what_lands_is_a_figure_that_opens_down_to_the_answers() -> None:
    birch = compare(plan(barn(*FIVE))).quotes[0]
    landed, square, foot, pound = birch.figures()
    assert landed.text() == "$4,505.54"
    assert landed.equation == "C1 + C2 + C3 + C4"
    assert [(one.label, one.text(), one.equation) for one in landed.terms] == [
        ("Metal", "$4,005.53", "p·W / u"), ("Slitting", "$90.01", "p·W / u"),
        ("Skids", "$25.00", "p·n"), ("Freight", "$385.00", "")]
    below = {one.key for one in landed.below()}
    assert {"coil.mass_ordered", "coils.tolerance", "panel.take_up"} <= below
    assert [round(one.value, 4) for one in (square, foot, pound)] == [297.99, 3.8930, 2.0022]
    for figure in (landed, square, foot, pound, *landed.terms):
        if figure.formula is not None:
            again = figure.formula(*[one.value for one in figure.terms])
            assert abs(again - figure.value) <= 0.00501, figure.label


def test_another_currency_is_never_shown_as_dollars() -> None:
    cad = dataclasses.replace(FIVE[1], currency="CAD")
    landed, *_ = compare(plan(barn(cad))).quotes[0].figures()
    assert landed.text().endswith(" CAD")
    assert "$" not in landed.text()
    assert all("$" not in one.text() for one in landed.terms)


@pytest.mark.parametrize(("system", "length", "weight", "column"), [
    (System.US, "1,335 ft 8 in", "2,250 lb", "shipped (lb)"),
    # 407.096 m, up to 10 mm; 1020.72 kg
    (System.METRIC, "407.10 m", "1021 kg", "shipped (kg)"),
])
def test_what_would_ship_is_said_as_the_order_says_it(
    system: System, length: str, weight: str, column: str
) -> None:
    """On the sheet, in its rows and in JSON: the coil that is asked for is the one on the order."""
    made = plan(dataclasses.replace(barn(FIVE[0]), units=system))
    assert f"{length}, {weight}" in render("quotes", made, "text", 200)
    (row,) = csv.DictReader(io.StringIO(render("quotes", made, "csv")))
    assert row[column] == weight.split()[0].replace(",", "")
    ships = quotes_data(compare(made), system)[0]["ships"]
    assert [one["text"] for one in (ships["length"], *ships["coils"], ships["mass"])] == [
        length, length, weight]
    assert f"Expected leftover  {ships['leftover']['text']}, " in render(
        "quotes", made, "text", 200)
