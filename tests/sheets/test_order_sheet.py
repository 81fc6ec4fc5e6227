"""The order sheet: one page a supplier can make the coils from, with nothing private on it."""

from __future__ import annotations

import dataclasses
import datetime
import re
from decimal import Decimal
from typing import Any

import pytest

from coilwright.calc.coil import heaviest_arrival
from coilwright.calc.sources import MASS
from coilwright.job.answers import asked
from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilOn
from coilwright.job.edit import new_job
from coilwright.job.haul import LiftBy
from coilwright.job.metal import (
    CoatingName,
    Finish,
    MetalName,
    Shade,
    ThicknessBasis,
    ThicknessIs,
)
from coilwright.job.order import Order
from coilwright.job.quotes import Quote, QuoteSection
from coilwright.job.rates import Rate
from coilwright.plan import plan
from coilwright.plan.receiving.receive import receive
from coilwright.sheets import render
from coilwright.sheets.designations import designation, own_grade
from coilwright.store.shipped import demo_jobs
from coilwright.units import Kind, System
from coilwright.values.figure import Figure, compute
from coilwright.values.rounding import Rounding
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers, small_gable
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.rules import for_each
from tests.sheets.pages import READER, Page, read_tables, table_under


def order(**answers: Any) -> str:
    keys = {key.replace("__", "."): value for key, value in answers.items()}
    return render("order", plan(set_answers(small_gable(), keys)), "md")


def rows(text: str) -> dict[str, str]:
    """The answers on a sheet by what they are called."""
    return {
        row[0]: row[1]
        for table in read_tables(text)
        if table.title != "How these numbers were made"
        for row in table.rows
    }


def read(text: str) -> str:
    """The text of a sheet as a reader of Markdown shows it, in one line."""
    return " ".join(Page(READER.render(text)).text.split())


def test_a_ready_order_bears_no_word_of_its_state() -> None:
    text = order()
    for word in ("READY", "DRAFT", "~", "guess", "to ask"):
        assert word not in text


def test_the_hand_worked_order_in_figures() -> None:
    """The gable by hand: 21 in strip, 1,335.61 ft, 2,250.3 lb; 0.9 of it 1,202.05 ft, 1.1 of it
    2,475.3 lb. Lengths go up to the inch; weights and diameters that hold go down."""
    text = order(coils__width_tolerance=1 / 16, coils__camber=0.25)
    said = rows(text)
    assert said["Slit width"] == "21 in ± 1/16 in"
    assert said["Camber"] == "1/4 in in 8 ft at most"
    assert said["Inside diameter, ID"] == "20 in"
    assert said["Weight tolerance, each coil"] == "10 % under, 10 % over"
    assert said["Standard"] == (
        "ASTM A792, coating AZ50 (A792M: AZM150); prepainted to ASTM A755 over it")
    assert said["Painted (prime) side"] == "outside of the coil"
    assert coil_rows(text) == [
        ["1", "1", "1,335 ft 8 in", "2,250 lb", "1,202 ft 1 in", "2,475 lb", "32 in"]]
    assert "1 coil, 1,335 ft 8 in, 2,250 lb." in read(text)


def coil_rows(text: str) -> list[list[str]]:
    return next(list(map(list, table.rows)) for table in read_tables(text)
                if table.header[0] == "coil")


def test_a_metric_order_is_rounded_as_metric_mills_read() -> None:
    """1,335.61 ft is 407.094 m, 0.9 of it 366.385 m; 2,475.3 lb is 1122.8 kg; 32 in is 812.8 mm.
    """
    text = render("order", plan(dataclasses.replace(small_gable(), units=System.METRIC)), "md")
    assert coil_rows(text)[0][2:] == ["407.10 m", "1021 kg", "366.39 m", "1122 kg", "810 mm"]


def test_what_carries_a_coil_caps_what_it_may_weigh() -> None:
    def heaviest(**answers: Any) -> str:
        return coil_rows(order(**answers))[0][5]

    assert heaviest(coils__site_lift=2400.5) == "2,400 lb"
    assert heaviest(machine__rack_load=4600.0) == "2,300 lb"
    assert heaviest(coils__tolerance_over=0.05) == "2,362 lb"  # 2,250.3·1.05 = 2,362.8
    floor = order(coils__coil_on=CoilOn.DECOILER, machine__decoiler_load=5500.0,
                  machine__decoiler_diameter=44.0)
    assert coil_rows(floor)[0][5:] == ["2,475 lb", "44 in"]


def test_alike_coils_stand_in_one_row_and_add_up() -> None:
    found = plan(set_answers(small_gable(), {"machine.arbor_load": 450.0}))
    assert len(found.coils) > 3
    rows = coil_rows(render("order", found, "md"))
    counts = [int(row[1]) for row in rows]
    assert sum(counts) == len(found.coils)
    assert len(counts) < len(found.coils)
    numbers = [n for row in rows for part in row[0].split(", ")
               for n in range(int(part.split("–")[0]), int(part.split("–")[-1]) + 1)]
    assert sorted(numbers) == [coil.number for coil in found.coils]


def test_a_coil_has_one_number_on_all_sheets() -> None:
    """Coils of one size are told apart on order, run, receiving and haul by one number."""
    found = plan(demo_jobs()["quarry-house-hip"])
    (row,) = coil_rows(render("order", found, "md"))
    assert row[:2] == ["1–3", "3"], "of nearly one length: ordered alike"
    assert "order and coil number" in render("order", found, "md")
    for number in (1, 2, 3):
        for kind in ("run", "receiving"):
            text = render(kind, found, "md")
            part = next(p for p in text.split("\n## ")
                        if f"coil {number} of the order" in p.split("\n")[0].lower())
            assert row[2] in read(part), (kind, row)
        assert f"Coil {number}" in render("haul", found, "md")


PRIVATE = {
    "job.client": "Mrs. Invented", "job.site": "behind the mill", "job.designer": "Q. Invented",
    "metal.shade": Shade.DARK,
}


def test_nothing_private_is_on_a_draft() -> None:
    job = guess(set_answers(small_gable(), {
        **PRIVATE, "metal.color_confirmed": YesNo.NO, "machine.thinnest": None,
    }), "panel.take_up", "coils.tolerance")
    job = dataclasses.replace(job, order=Order(ship_to="Gate 3, Invented Lane"))
    found = plan(job)
    assert not found.ready
    text = render("order", found, "md")
    assert text.count("DRAFT") == 1
    said = read(text)
    for word in ("Invented,", "Mrs.", "mill,", "behind", "Q. Invented", "~", "guess",
                 "confirmed by", "How these numbers", "Caution", "equation"):
        assert word not in said, word
    for reason in found.reasons:
        assert reason.text not in said
    assert "Gate 3, Invented Lane" in said


def test_the_head_holds_what_was_given_and_room_for_the_rest() -> None:
    job = dataclasses.replace(small_gable(), order=Order(
        number="H-12", revision="A", date=datetime.date(2027, 3, 1), buyer="Invented Roofs",
        hours="7 to 3", unloading="forklift", freight="prepaid",
    ))
    said = rows(render("order", plan(job), "md"))
    assert [said[key] for key in ("Order number", "Revision", "Date", "Buyer")] == [
        "H-12", "A", "Mar 1, 2027", "Invented Roofs"]
    assert said["Receiving hours"] == "7 to 3"
    assert said["Unloading, by us"] == (
        "forklift; no package over 6,000 lb, skid and packing included; call us before shipping: "
        "day, truck, how it is loaded")
    assert said["Price and terms"] == "state them when you confirm"
    for label in ("Your order number", "Ship date", "Price, and by what", "Thickness shipped"):
        assert set(said[label]) == {"_"}
    assert said["Freight"] == "prepaid"
    assert set(said["Supplier"]) == {"_"}


@pytest.mark.parametrize(("lift", "order", "request_says", "reached"), [
    # 2,475 lb is the most the coil may come at: all that lifts it is of the package then.
    (2475.0, "weights are of the metal alone, worked out at the thickness above; max weight 2,475 "
     "lb is gross, skid and packing included: a coil that they would bring over that comes so much "
     "lighter, down to min length.", True, "max weight"),
    (2520.0, "A coil that skid and packing would bring over 2,520 lb comes so much lighter, down "
     "to min length.", False, "2,520 lb gross"),
    (2575.0, "weights, max weight too, are of the metal alone, worked out at the thickness above. "
     "Min length", False, "max weight"),
])
def test_what_max_weight_is_of_is_said_so_that_nobody_has_to_call(
    lift: float, order: str, request_says: bool, reached: str
) -> None:
    made = plan(set_answers(small_gable(), {"coils.site_lift": lift}))
    said = [" ".join(render(kind, made, "text", 200).split()) for kind in ("order", "request")]
    assert order in said[0]
    assert ("Max weight 2,475 lb is gross, skid and packing included." in said[1]) is request_says
    # 2,025 lb at min length, of 0.0236 in: what a package may weigh less 100 lb of skid and packing
    # (common practice, no source), or max weight of metal alone where that leaves room.
    found = re.search(r"Metal over ([\d.]+) in would reach (.+?) before min length(.*?): ship",
                      said[0])
    assert found is not None
    assert float(found[1]) == pytest.approx(0.0236 * min(2475, lift - 100) / 2025, abs=1.1e-4)
    assert found.groups()[1:] == (
        reached, ", counting about 100 lb of skid and packing" if lift < 2575 else "")
    # What comes over it, where better gear is there by then, is over what was ordered gross.
    came = with_arrived(made.job, arrival(mass=2480.0, weighed=None))
    (held,) = receive(dataclasses.replace(plan(came), current=plan(
        set_answers(came, {"coils.site_lift": 5000.0}))))
    (found,) = [one for one in held.findings if one.key.endswith(".mass")]
    assert request_says == ("says max weight gross" in found.do)
    assert request_says != ("the order counts the metal alone" in found.do)


def test_a_supplier_calls_where_skid_and_packing_alone_bring_a_coil_over_what_is_lifted() -> None:
    """About 2,025 lb at min length, and 100 lb of skid and packing (common practice, no source)."""
    job = set_answers(small_gable(), {"coils.site_lift": 2110.0, "coils.tolerance": 0.02})
    assert ("Metal as ordered would reach 2,110 lb gross before min length, counting about 100 lb "
            "of skid and packing: call us before you slit.") in " ".join(
                render("order", plan(job), "text", 200).split())


def test_a_max_weight_over_what_the_gear_lifts_is_not_said_to_be_of_the_package() -> None:
    """By its plate the gear lifts 2,400 lb: the page cannot say 2,475 lb gross beside that."""
    made = plan(set_answers(small_gable(), {
        "haul.site_by": LiftBy.FORKLIFT, "haul.site_fork_capacity": 2400.0,
        "haul.site_fork_center": 24.0, "haul.site_coil_center": 24.0, "haul.site_attachment": 0.0,
        "coils.site_lift": None}))
    said = " ".join(render("order", made, "text", 200).split())
    assert "gross, skid" not in said
    assert "skid and packing would bring over 2,400 lb comes so much lighter" in said
    (found,) = [one for one in made.findings if one.key == "coils.packing"]
    assert "is gross" not in found.do


def test_no_package_is_asked_for_that_the_gear_does_not_lift_beside_its_attachment() -> None:
    job = set_answers(small_gable(), {
        "coils.site_lift": 5000.0, "haul.site_by": LiftBy.FORKLIFT,
        "haul.site_fork_capacity": 5000.0, "haul.site_fork_center": 24.0,
        "haul.site_coil_center": 20.0, "haul.site_attachment": 250.0})
    assert "no package over 4,750 lb" in rows(render("order", plan(job), "md"))[
        "Unloading, by us"]


@for_each([1750.2, 1750.6, 1751.0])
def test_no_coil_is_ordered_heavier_than_the_most_it_may_weigh(mass: float) -> None:
    def weight(value: float) -> Figure:
        return Figure("coil.1.mass", "Weight", value, Kind.MASS, MASS, Standing.SURE,
                      rounding=Rounding.NEAREST)

    for over in (0.0, 0.0002, 0.02):
        share = Figure("over", "Over", over, Kind.PERCENT, MASS, Standing.SURE)
        heaviest = compute("coil.1.heaviest", "Heaviest", heaviest_arrival, weight(mass), share,
                           rounding=Rounding.MOST)
        each, most = (int(figure.text().removesuffix(" lb").replace(",", ""))
                      for figure in (weight(mass), heaviest))
        assert each <= most <= mass * (1 + over) + 0.5


def test_price_and_terms_are_those_of_the_quote_it_was_given_on() -> None:
    quote = Quote(supplier="Birch (invented)", reference="Q-88", date=datetime.date(2027, 2, 9),
                  awarded=True)
    job = dataclasses.replace(
        small_gable(), quotes=QuoteSection(received=(quote,)),
        order=Order(number="H-12", terms="30 days", supplier="Birch (invented)"))
    said = rows(render("order", plan(job), "md"))
    assert said["Price and terms"] == "your quote Q-88 of Feb 9, 2027, 30 days"
    priced = dataclasses.replace(quote, price=Rate(Decimal("1.32"), "lb"))
    said = rows(render("order", plan(dataclasses.replace(
        job, quotes=QuoteSection(received=(priced,)))), "md"))
    assert said["Price and terms"] == (
        "your quote Q-88 of Feb 9, 2027, metal $1.32/lb, charges as quoted, 30 days")
    carried = dataclasses.replace(priced, freight=Rate(Decimal("520"), "lump"))
    apart = rows(render("order", plan(dataclasses.replace(
        job, quotes=QuoteSection(received=(carried,)),
        order=dataclasses.replace(job.order, freight="600 prepaid"))), "md"))
    assert apart["Price and terms"] == (
        "your quote Q-88 of Feb 9, 2027, metal $1.32/lb, charges as quoted, freight as below, "
        "30 days")
    assert apart["Freight"].startswith("600 prepaid")
    other = dataclasses.replace(job, quotes=QuoteSection(received=(priced,)),
                                order=Order(number="H-12", supplier="Alder (invented)"))
    assert rows(render("order", plan(other), "md"))["Price and terms"] == (
        "state them when you confirm")


def test_metal_too_thick_for_its_limits_is_said_beside_the_length_and_only_then() -> None:
    """0.0236 in at 0.9 of the length may weigh 1.1 of the weight: 0.02884 in is as thick as the
    metal can be. Half of the rack is full at 2,250.3 lb: 0.0236/0.9 in, 0.02622 in."""
    thick = {"metal__thickness_is": ThicknessIs.MINIMUM}
    held = read(order(**thick, metal__thickness_tolerance=0.0052,
                      metal__thickness_standard="ASTM A924"))
    assert "Metal over" not in held
    assert "+ 0.0052 in by ASTM A924" in held
    said = read(order(**thick, metal__thickness_tolerance=0.0053))
    assert "Metal over 0.0288 in would reach max weight before min length: ship thinner" in said
    assert said.index("Metal over") < said.index("One production lot")
    # Where the tolerance is not known, what happens is said all the same.
    assert "Metal over 0.0288 in" in read(order())
    assert "Metal over 0.0262 in" in read(order(machine__rack_load=2 * 2250.4))
    # π·(30² − 20²)/4 ÷ 0.0236 in is 16,640 in; the least length 14,425 in.
    assert "Metal over 0.0272 in would reach max OD" in read(order(machine__rack_diameter=30.0))


def test_an_empty_job_gives_a_draft_with_room_to_write() -> None:
    said = rows(render("order", plan(new_job()), "md"))
    assert set(said["Metal"]) == {"_"}
    assert set(said["Inside diameter, ID"]) == {"_"}


def test_what_was_left_to_the_supplier_says_so_and_what_is_open_is_none() -> None:
    """Waived with a reason: the order leaves it to the supplier. Open: it is a draft with room to
    write. On a request it is asked."""
    left = "your standard; state it when you confirm"
    said = rows(order())
    assert said["Grade"] == said["Back coat"] == said["Skid"] == left
    assert said["Slit width"] == f"21 in; tolerance: {left}"
    assert said["Minimum or nominal, and tolerance"] == left
    job = dataclasses.replace(small_gable(), questions={})
    found = plan(job)
    assert not found.ready
    said = rows(render("order", found, "md"))
    for label in ("Grade", "Color code", "Back coat", "Protective film", "Eye of the coils",
                  "Skid"):
        assert set(said[label]) == {"_"}, label
    asked_for = rows(render("request", found, "md"))
    assert asked_for["Grade"] == asked_for["Skid"] == "please state"
    assert "supplier to state" not in render("order", found, "md")


def test_the_jobs_own_name_stays_here() -> None:
    """The order bears its number and the reference that was given, and no name of the job."""
    job = set_answers(small_gable(), {"job.name": "Widow Invented's porch"})
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, number="1042",
                                                             reference="yard 2"))
    for kind in ("order", "request"):
        for form in ("md", "html", "text"):
            assert "Widow" not in render(kind, plan(job), form)
    assert render("order", plan(job), "text").startswith("Coil order 1042\n")
    assert rows(render("order", plan(job), "md"))["Your reference"] == "yard 2"


def test_copper_is_asked_nothing_of_paint() -> None:
    """16 oz in three-quarter hard; 0.0216 in nominal, ASTM B370."""
    text = order(
        metal__metal=MetalName.COPPER, metal__coating=None, metal__finish=None,
        metal__color=None, metal__color_confirmed=None, metal__painted_side=None,
        metal__thickness=0.0216, metal__thickness_basis=None, metal__gauge=16,
        metal__grade="C11000", metal__temper="H03", metal__thickness_is=ThicknessIs.NOMINAL,
        metal__thickness_tolerance=0.0026,
    )
    said = rows(text)
    assert said["Thickness"] == "0.0216 in nominal, ± 0.0026 in"
    assert (said["Alloy"], said["Temper"]) == ("C11000", "H03")
    assert said["Weight of the sheet"] == "16 oz per sq ft, nominal; the thickness governs"
    for word in ("paint", "color", "film", "finish", "coating", "back coat"):
        assert word not in text.casefold(), word


def test_nothing_of_paint_is_open_on_a_copper_job() -> None:
    job = set_answers(small_gable(), {
        "metal.metal": MetalName.COPPER, "metal.coating": None, "metal.finish": None,
        "metal.color": None, "metal.color_confirmed": None, "metal.painted_side": None,
        "metal.thickness": 0.0216, "metal.thickness_basis": None,
    })
    calls = {answer.key for answer in asked(job)}
    assert {"metal.grade", "metal.temper"} <= calls
    assert not calls & {"metal.finish", "metal.color", "metal.color_code", "metal.back_coat",
                        "metal.film", "metal.painted_side", "metal.coating"}
    assert not {key for key in plan(job).open_answers if key.startswith("metal.")}


def test_grade_is_said_once_however_it_is_typed() -> None:
    for typed in ("50", "grade 50", "Grade 50"):
        metal = dataclasses.replace(small_gable().metal, grade=typed)
        assert designation(metal).casefold().count("grade") == 1, typed
    own = small_gable().metal
    assert "A792" in designation(own, standard_only=True)
    for typed, said in (("50, A792", "50"), ("SS50 to ASTM A792", "SS50"), ("A792 Grade 50", "50"),
                        ("50 (A792M)", "50"), ("50, A653", "50, A653"), ("A792", "A792"),
                        ("A7925", "A7925")):
        assert own_grade(dataclasses.replace(own, grade=typed)) == said, typed


def test_a_grade_typed_for_another_metal_is_not_said_of_this_one() -> None:
    section = dataclasses.replace(small_gable().metal, grade="3105", temper="H14")
    assert "H14" not in designation(section)
    copper = dataclasses.replace(section, metal=MetalName.COPPER, coating=None)
    assert designation(copper) == "ASTM B370, temper H14"


@for_each([
    # Designations as the model code's table names them, or from memory where it was not read.
    (MetalName.STEEL, CoatingName.AZ55, Finish.BARE, "ASTM A792, coating AZ55 (A792M: AZM165)"),
    (MetalName.STEEL, CoatingName.G90, Finish.SMP,
     "ASTM A653, coating G90 (A653M: Z275); prepainted to ASTM A755 over it"),
    (MetalName.ALUMINUM, None, Finish.PVDF, "ASTM B209"),
    (MetalName.COPPER, None, Finish.BARE, "ASTM B370"),
    (MetalName.STAINLESS, None, Finish.BARE, "ASTM A240"),
    (MetalName.ZINC, None, Finish.BARE, "ASTM B69 (Europe: EN 988)"),
    (MetalName.STEEL, None, Finish.BARE, ""),
    (None, None, None, ""),
])
def test_designations(
    metal: MetalName | None, coating: CoatingName | None, finish: Finish | None, words: str
) -> None:
    section = dataclasses.replace(small_gable().metal, metal=metal, coating=coating, finish=finish)
    assert designation(section).startswith(words)
    assert bool(designation(section)) == bool(words)


def test_a_standard_that_was_typed_stands_in_place_of_the_usual_one() -> None:
    section = dataclasses.replace(small_gable().metal, standard="EN 10346", grade="S280GD")
    assert designation(section) == "EN 10346, coating AZ150 (AZ50), S280GD"
    copper = dataclasses.replace(section, metal=MetalName.COPPER, standard="EN 1172", grade=None)
    assert designation(copper) == "EN 1172"


def test_thickness_says_how_it_is_meant() -> None:
    said = rows(order(
        metal__thickness_basis=ThicknessBasis.BARE, metal__gauge=24,
        metal__thickness_is=ThicknessIs.MINIMUM, metal__thickness_tolerance=0.004,
    ))
    assert said["Thickness"] == (
        "0.0236 in minimum, + 0.0040 in, bare, before coating; paint is not part of it")
    assert "Gauge" not in said


def test_a_tested_assembly_names_its_report() -> None:
    engineered = {
        "job__engineered": YesNo.YES, "panel__report": "T-1", "panel__report_widest": 18.0,
        "panel__report_thinnest": 0.0236, "panel__report_metal": MetalName.STEEL,
    }  # fmt: skip
    text = order(**engineered)
    assert "report T-1): no metal but steel, and none thinner than 0.0236 in" in text
    assert "tested assembly" not in order()


def test_what_buyers_forget_is_there() -> None:
    text = order()
    for words in ("One production lot", "mill certificate", "warranties of finish",
                  "Tag every coil", "as shipped", "burr"):
        assert words.casefold() in text.casefold()


def test_how_the_numbers_were_made_stands_behind_the_summary() -> None:
    found = plan(small_gable())
    table = table_under(render("summary", found, "md"), "How these numbers were made")
    by_label = {row[0]: row for row in table.rows}
    for coil in found.coils:
        row = by_label[coil.mass.label]
        assert row[1:3] == ["2,250 lb", "p·L"]
        assert row[3] == "p 1.685 lb/ft, L 1,335 ft 8 in"
    assert by_label["Strip width"][2] == "c + u"
    assert all(row[4] for row in by_label.values())
    assert len(by_label) == len(table.rows)


def test_of_many_coils_the_first_stands_for_all() -> None:
    found = plan(set_answers(small_gable(), {"machine.arbor_load": 450.0}))
    assert len(found.coils) > 3
    made = render("summary", found, "md").split("## How these numbers were made")[1]
    assert "Coil 1 stands for all" in made
    assert "Coil 2" not in made


def test_the_page_is_set_close_and_keeps_its_tables_whole() -> None:
    html = render("order", plan(small_gable()), "html")
    assert '<body class="compact">' in html
    assert html.count("<table") == html.count('keep">')
    assert "counter(page)" in html
