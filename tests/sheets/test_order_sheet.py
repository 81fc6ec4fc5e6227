"""The order sheet says what a supplier needs, and is a draft until nothing is open."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilOn
from coilwright.job.edit import give_text, new_job
from coilwright.job.metal import CoatingName, Finish, MetalName, ThicknessBasis
from coilwright.plan import plan
from coilwright.sheets import render
from coilwright.sheets.designations import designation
from coilwright.words import cautions
from tests.cases import guess, set_answers, small_gable
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


def test_a_ready_order_says_so_and_nothing_is_marked() -> None:
    text = order()
    assert "**READY.**" in text
    assert "DRAFT" not in text
    assert "~" not in text.replace("`~`", "")
    assert "**to ask**" not in text


def test_the_hand_worked_order_in_figures() -> None:
    """The gable worked by hand: 21 in strip, 1,335 ft 7 in, 2,250 lb, one coil."""
    said = rows(order())
    assert said["Strip width, slit to"] == "21 in"
    assert said["Coils"] == "1"
    assert said["Inside diameter"] == "20 in"
    assert said["Ordered together"] == "1,335 ft 7 in, 2,250 lb"
    assert said["No coil heavier than"] == "3,000 lb (load on one arbor)"
    assert said["No coil larger across than"] == "32 in"
    assert said["Decimal thickness"].startswith("0.0236 in, coating included;")
    assert said["Standard"] == (
        "ASTM A792, coating AZ50 (A792M: AZM150); prepainted to ASTM A755 over it; the supplier "
        "names type and grade"
    )
    assert said["Painted side, as it comes off the coil"] == "outside of the coil"


def test_every_reason_stands_on_a_draft() -> None:
    found = plan(guess(set_answers(small_gable(), {
        "metal.colour_confirmed": YesNo.NO, "machine.thinnest": None, "panel.seam": None,
    }), "panel.take_up", "coils.tolerance"))
    text = render("order", found, "md")
    reasons = found.reasons
    assert "**DRAFT, not an order.**" in text
    assert f"({len(reasons)})" in text
    assert {r.kind for r in reasons} == {"stop", "ask", "guess"}
    assert len(reasons) == len(found.stops) + len(found.open_answers) + len(found.guesses)
    shown = read(text)
    for reason in reasons:
        assert reason.text in shown
    assert text.count("\n> - ") == len(reasons)


def test_a_guess_is_marked_wherever_it_reaches() -> None:
    text = render("order", plan(guess(small_gable(), "panel.take_up")), "md")
    said = rows(text)
    assert said["Strip width, slit to"] == "~ 21 in"
    assert said["Ordered together"] == "~ 1,335 ft 7 in, ~ 2,250 lb"
    assert said["Inside diameter"] == "20 in"


def test_what_was_typed_and_not_understood_is_shown() -> None:
    job, error = give_text(small_gable(), "panel.take_up", "five | <b>")
    assert error
    text = render("order", plan(job), "md")
    assert "“five \\| \\<b\\>” cannot be read" in text


def test_an_empty_job_gives_a_draft_with_much_to_ask() -> None:
    text = render("order", plan(new_job()), "md")
    assert "DRAFT" in text
    assert rows(text)["Strip width, slit to"] == "to ask"
    assert rows(text)["No coil heavier than"] == "to ask"


def test_the_least_of_what_can_be_carried_is_the_limit() -> None:
    assert rows(order(coils__site_lift=2400.0))["No coil heavier than"].startswith("2,400 lb")
    shared = rows(order(machine__rack_load=5000.0))["No coil heavier than"]
    assert shared == "2,500 lb (share of the rack's load)"
    floor = rows(order(
        coils__coil_on=CoilOn.DECOILER, machine__decoiler_load=5500.0,
        machine__decoiler_diameter=44.0,
    ))
    assert floor["No coil heavier than"] == "5,500 lb (floor decoiler load)"
    assert floor["No coil larger across than"] == "44 in"


@pytest.mark.parametrize(
    ("metal", "coating", "finish", "words"),
    [
        # Designations as the model code's table names them, or from memory where it was not read.
        (MetalName.STEEL, CoatingName.AZ55, Finish.BARE, "ASTM A792, coating AZ55 (A792M: AZM165)"),
        (MetalName.STEEL, CoatingName.G90, Finish.SMP,
         "ASTM A653, coating G90 (A653M: Z275); prepainted to ASTM A755 over it"),
        (MetalName.ALUMINIUM, None, Finish.PVDF, "ASTM B209"),
        (MetalName.COPPER, None, Finish.BARE, "ASTM B370"),
        (MetalName.STAINLESS, None, Finish.BARE, "ASTM A240"),
        (MetalName.ZINC, None, Finish.BARE, "EN 988"),
        (MetalName.STEEL, None, Finish.BARE, ""),
        (None, None, None, ""),
    ],
)
def test_designations(
    metal: MetalName | None, coating: CoatingName | None, finish: Finish | None, words: str
) -> None:
    section = dataclasses.replace(small_gable().metal, metal=metal, coating=coating, finish=finish)
    assert designation(section).startswith(words)
    assert bool(designation(section)) == bool(words)


def test_thickness_says_how_it_is_meant_and_gauge_is_a_remark() -> None:
    text = order(metal__thickness_basis=ThicknessBasis.BARE, metal__gauge=24)
    said = rows(text)
    assert said["Decimal thickness"].startswith("0.0236 in, bare, before coating")
    assert said["Gauge"] == "24 (a remark only; the decimal thickness is what is ordered)"


def test_a_tested_assembly_names_its_report() -> None:
    engineered = {
        "job__engineered": YesNo.YES, "panel__report": "T-1", "panel__report_widest": 18.0,
        "panel__report_thinnest": 0.0236, "panel__report_metal": MetalName.STEEL,
    }  # fmt: skip
    text = order(**engineered)
    assert "report T-1: metal steel, not thinner than 0.0236 in" in text
    assert "tested assembly" not in order()


def test_what_buyers_forget_is_there() -> None:
    text = order()
    for words in ("One production lot", "mill certificate", "finish warranty", "Tag every coil",
                  "at the long end", "burr"):
        assert words.casefold() in text.casefold()


def test_cautions_stand_with_the_weights() -> None:
    text = order()
    for caution in cautions("coils"):
        assert f"Caution. {caution}" in read(text)


def test_how_the_numbers_were_made_opens_every_shown_figure() -> None:
    found = plan(small_gable())
    text = render("order", found, "md")
    table = table_under(text, "How these numbers were made")
    by_label = {row[0]: row for row in table.rows}
    for coil in found.coils:
        row = by_label[coil.mass.label]
        assert row[1:3] == ["2,250 lb", "p·L"]
        assert row[3] == "p 1.685 lb/ft, L 1,335 ft 7 in"
    assert by_label["Strip width"][2] == "c + u"
    assert all(row[4] for row in by_label.values())
    assert len(by_label) == len(table.rows)


def test_of_many_coils_the_first_stands_for_all() -> None:
    found = plan(set_answers(small_gable(), {"machine.arbor_load": 450.0}))
    assert len(found.coils) > 3
    sheet, made = render("order", found, "md").split("## How these numbers were made")
    assert "Coil 1 stands for all" in made
    assert "Coil 2" not in made
    for coil in found.coils:
        assert f"| {coil.number} | {coil.length.text()} | {coil.mass.text()} |" in sheet
