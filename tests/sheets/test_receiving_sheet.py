"""The receiving sheet: to fill by hand, or as it was entered; and the summary's JSON."""

from __future__ import annotations

import dataclasses
import datetime
import json

from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.drawing.safe_text import one_line
from coilwright.job.arrival_words import receiving_words
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import Finish
from coilwright.job.receiving import Arrival, Fault
from coilwright.plan import plan
from coilwright.plan.questions import reply, waive
from coilwright.plan.quotes.award import award
from coilwright.sheets import KINDS, render
from coilwright.sheets.data.schema import SCHEMA
from coilwright.sheets.data.summary import summary_data, summary_json
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from tests.cases import set_answers, small_gable
from tests.draws import draws
from tests.plan.quotes.five import all_in, barn
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.sheets.pages import Page, faults, read_tables, table_under


def sheet(job: Job, form: str = "text") -> str:
    return render("receiving", plan(job), form, 100)


def flat(text: str) -> str:
    return " ".join(text.split())


class TestByHand:
    def test_every_ordered_coil_has_its_room(self) -> None:
        job = set_answers(small_gable(), {"machine.arbor_load": 1300.0})
        coils = plan(job).coils
        assert len(coils) > 1
        text = sheet(job)
        for coil in coils:
            assert f"Coil {coil.number} of the order" in text
            assert text.count(coil.mass.text()) >= 1
        assert text.count("found, write here") == len(coils)
        assert text.count("Camber, over 8 ft") == len(coils)

    def test_it_holds_a_coil_to_what_the_order_says(self) -> None:
        """Max weight, least length and largest diameter are the order's own, rounded as there."""
        job = set_answers(small_gable(), {"coils.site_lift": 2400.5, "coils.camber": 0.125,
                                          "coils.width_tolerance": 1 / 16})
        ordered = read_tables(render("order", plan(job), "md"))
        ((_number, *coil),) = next(table.rows for table in ordered if table.header[0] == "coil")
        rows = {row[0]: row for row in table_under(sheet(job, "md"), "Coil 1 of the order").rows}
        assert coil[3:] == ["1,202 ft 1 in", "2,400 lb", "32 in"]
        assert rows["Length on the tag"][1:3] == [coil[1], f"{coil[3]} or more"]
        assert rows["Weight, tag or scale"][2] == "2,025 lb to 2,400 lb"
        assert rows["Outside diameter"][1:3] == ["", f"{coil[5]} or less"]
        assert rows["Camber, over 8 ft"][2] == "1/8 in or less"
        assert rows["Width"][2] == "20 15/16 in to 21 1/16 in"
        assert rows["Painted side"][1] == "outside of the coil"
        # What every coil is stands once, over them all.
        assert rows["Metal and designation"][1:3] == ["as above", ""]
        above = {row[0]: row[1] for table in read_tables(sheet(job, "md"))
                 if table.header[0] == "every coil, as ordered" for row in table.rows}
        assert above["Standard"].startswith("ASTM A792, coating AZ50")

    def test_a_coil_has_room_to_write_and_stays_on_one_page(self) -> None:
        html = sheet(small_gable(), "html")
        start = html.index('<section class="keep">')
        section = html[start:html.index("</section>", start)]
        rows = section.count("<tr>") - 1
        assert rows >= 12
        assert section.count('<td class="write wide">') == rows
        assert ".keep { break-inside: avoid; }" in html
        assert "Hold, because: <span class=\"room\">____" in section

    def test_it_says_what_to_do_before_unloading_and_before_signing(self) -> None:
        text = flat(sheet(small_gable()))
        with_film = flat(sheet(set_answers(small_gable(), {"metal.film": YesNo.YES})))
        words = receiving_words()
        for lines in words.lists.values():
            for line in lines:
                assert flat(line) in text
        for fault in Fault:
            assert with_film.count(fault.value) >= 2
        assert Fault.NO_FILM not in text, "none was ordered"
        entered = flat(sheet(with_arrived(small_gable(), arrival())))
        assert "☐ scratched" in entered
        assert Fault.NO_FILM not in entered
        assert "Received by" in text

    def test_what_was_ordered_stands_on_it(self) -> None:
        text = sheet(small_gable())
        for said in ("21 in", "0.0236 in", "slate", "outside of the coil", "1,202 ft 1 in", "AZ50",
                     "2,025 lb to 2,475 lb", "32 in or less"):
            assert said in text

    def test_bare_metal_asks_for_no_color(self) -> None:
        job = set_answers(small_gable(), {"metal.finish": Finish.BARE, "metal.color": None})
        assert "\nColor " not in sheet(job)
        assert "\nColor " in sheet(small_gable())

    def test_without_an_order_it_says_so(self) -> None:
        assert "No new coil is worked out yet" in flat(sheet(Job()))


class TestEntered:
    def test_a_good_coil(self) -> None:
        text = flat(sheet(with_arrived(small_gable(), arrival())))
        assert "1 arrived: 1 to accept." in text
        assert "ACCEPT. Nothing found against it. The person in charge decides." in text
        assert "write here" not in text
        assert "by its diameters" in text
        assert "How these numbers were made" not in text

    def test_what_the_cuts_take_is_shown_for_each_coil(self) -> None:
        job = set_answers(small_gable(), {"machine.arbor_load": 1300.0})
        two = with_arrived(job, arrival(coil=1), arrival(tag="R-2", coil=2))
        made = render("summary", plan(two), "md").partition("How these numbers were made")[2]
        for tag in ("R-1", "R-2"):
            assert f"{tag}: what its cuts take, spare included" in made

    def test_a_held_one_says_why_and_what_to_do(self) -> None:
        job = with_arrived(small_gable(), arrival(width=20.5, faults=(Fault.WET,), remark="late"))
        text = flat(sheet(job))
        assert "1 arrived: 1 to hold. Held: coil 1 of the order, tag R-1, lot L-7." in text
        assert ("Hold. It is 20 1/2 in wide; ordered 21 in, allowed 20.969 in to 21 1/8 in."
                in text)
        assert "write it on the bill of lading before you sign" in text
        assert "☑ wet or stained" in text
        metric = flat(sheet(dataclasses.replace(job, units=System.METRIC)))
        assert "write it on the freight papers before you sign" in metric
        assert "bill of lading" not in metric
        assert "Remark: late" in text

    def test_those_awaited_keep_their_room(self) -> None:
        job = set_answers(small_gable(), {"machine.arbor_load": 1300.0})
        job = with_arrived(job, arrival(coil=2, length=None), arrival(tag="Z", coil=77))
        text = flat(sheet(job))
        assert "Still awaited: coil 1 of the order." in text.replace("│ ", "")
        assert "found, write here" in text
        assert "It is put down as coil 77; 2 are ordered." in text

    @settings(max_examples=draws(20))
    @given(st.text(min_size=1, max_size=40).filter(lambda t: t.strip()))
    def test_what_was_typed_is_text(self, typed: str) -> None:
        one = arrival(tag=typed, lot=typed, color=typed, remark=typed)
        page = Page(sheet(with_arrived(small_gable(), one, arrival(lot=typed + "x")), "html"))
        plain = arrival(tag="x", lot="x", color="x", remark="x")
        known = Page(sheet(with_arrived(small_gable(), plain, arrival(lot="xx")), "html"))
        assert page.tags - {"wbr"} == known.tags - {"wbr"}
        if one_line(typed):
            assert one_line(typed) in page.text

    def test_it_is_one_of_the_sheets(self) -> None:
        assert KINDS["receiving"].title == "Receiving sheet"
        rows = render("receiving", plan(small_gable()), "csv").splitlines()
        assert rows[0] == "coil,what,ordered,allowed,found"
        assert ('coil 1 of the order,Length on the tag,"1,335 ft 8 in","1,202 ft 1 in or more",'
                in rows)
        assert not any("_" in row for row in rows), "room to write is empty in a spreadsheet"
        came = with_arrived(small_gable(), arrival(), arrival(tag="Z", coil=77))
        rows = render("receiving", plan(came), "csv").splitlines()
        assert '"coil 1 of the order, tag R-1, lot L-7",Inside diameter,20 in,' in rows[5]
        assert any(row.startswith('"tag Z, lot L-7",') for row in rows), "nobody ordered it"


class TestJson:
    def test_there_only_when_there_are_any(self) -> None:
        assert "arrived" not in summary_data(plan(small_gable()))

    def test_of_the_promised_shape(self) -> None:
        job = with_arrived(small_gable(), arrival(width=20.5, faults=(Fault.RUST,)),
                           Arrival(tag="R-2"), arrival(tag="R-3", length=2000.0 * 12))
        data = json.loads(summary_json(plan(job)))
        assert faults(data, SCHEMA, SCHEMA) == []
        first, second, third = data["arrived"]
        assert (first["verdict"], second["verdict"]) == ("hold", "not finished")
        assert first["faults"] == ["rust or white rust"]
        assert any("20 1/2 in" in reason["what"] for reason in first["reasons"])
        assert [way["key"] for way in first["lengths"]] == ["by_tag", "by_mass", "by_across"]
        assert third["disagree"][0]["causes"]
        for figure in first["figures"].values():
            assert all(term in first["figures"] for term in figure["terms"].values())

    def test_the_shape_can_be_broken(self) -> None:
        data = json.loads(summary_json(plan(with_arrived(small_gable(), arrival()))))
        data["arrived"][0]["verdict"] = "perhaps"
        assert faults(data, SCHEMA, SCHEMA) != []


def test_metal_for_trim_is_received_too_and_the_order_is_named() -> None:
    barn = demo_jobs()["heron-lane-barn"]
    barn = dataclasses.replace(barn, order=dataclasses.replace(
        barn.order, number="D-1041", revision="A", supplier="Birch (invented)",
        supplier_phone="555-0177"))
    text = render("receiving", plan(barn), "md")
    assert "| Order | D-1041, revision A |" in text
    assert "| Supplier | Birch" in text
    assert "| Supplier's phone | 555-0177 |" in text, "nobody asked them by a request"
    assert "555-0177" not in render("order", plan(barn), "md"), "they know their own"
    # Whoever took more lots on knowingly ordered no single one: both papers say the same.
    assert "| Lot | one for all coils |" in text
    more = waive(reply(barn, "supplier.one_lot", "Two lots")[0], "supplier.one_lot", "one a side")
    assert "| Lot | as the supplier replied |" in render("receiving", plan(more), "md")
    assert "**Production lots** as you replied" in render("order", plan(more), "md")
    # 5 sheets of 48 in by 10 ft: 48·120·0.0236·0.2833 = 38.5 lb each.
    assert "| 5 | flat sheet for trim | 48 in | 0.0236 in | 10 ft | 38.5 lb |" in text
    assert "Metal for trim" not in render("receiving", plan(small_gable()), "md")


def test_the_day_is_the_awarded_quotes_where_there_is_one() -> None:
    needed = datetime.date(2027, 4, 12)
    job = set_answers(barn(all_in("Birch (invented)", "190/cwt")), {"job.needed_by": needed})
    assert "Expected by Apr 12, 2027" in flat(sheet(job))
    job = award(plan(job), 1)
    # Ordered on Mar 1, and three weeks.
    assert ("Expected by Mar 22, 2027, by the supplier's quote; needed by Apr 12, 2027"
            in flat(sheet(job)))
    elsewhere = dataclasses.replace(
        job, order=dataclasses.replace(job.order, supplier="Slate Creek (invented)"))
    assert "Expected by Apr 12, 2027" in flat(sheet(elsewhere))
