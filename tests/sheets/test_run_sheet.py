"""The run: loading order, cumulative lengths, who carries a panel, and the stock afterwards."""

from __future__ import annotations

import csv
import dataclasses
import io
import re
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers.machine import MachineKey
from coilwright.job.edit import give, new_job
from coilwright.job.job import Job
from coilwright.job.receiving import Arrival, Decision, Fault
from coilwright.job.roof import Building, Plane
from coilwright.job.stock import Stock
from coilwright.job.trim import TrimFrom
from coilwright.plan import plan
from coilwright.plan.coils.after_run import after_run
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.plan.coils.run import run_of
from coilwright.plan.haul.loads import on_hand_to_haul
from coilwright.sheets import render
from coilwright.sheets.blocks import plain
from coilwright.sheets.machine import machine_text
from coilwright.sheets.run import run_rows
from coilwright.store import read_model, to_text
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.units import System
from coilwright.values.standing import Standing
from coilwright.wizard.lists.coil_draft import length_text
from tests.cases import building, set_answers, small_gable, with_planes
from tests.draws import draws
from tests.plan.coils.stock import coil, jobs_with_coils, with_coils
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.plan.roof.made import buildings
from tests.values.written import check


def barn() -> Job:
    return with_fitting(demo_jobs()["heron-lane-barn"], demo_stock())


def test_a_snapshot_takes_only_the_coils_that_fit() -> None:
    assert [c.tag for c in barn().on_hand] == ["S-101", "S-102", "S-107"]


def test_the_barn_by_hand() -> None:
    """6 ft thread-up, panels of 217 in, 60 ft/min, 0.2833·0.0236·21 lb/in.

    S-101: 72 + 16·217 = 3544 in run, 176 left on it, 128 past the 4 ft tail; 16·217/720 = 4.82
    min. S-107 serves both sides, 7 then 5. 64·217/720 = 19.29 min in all; a panel weighs
    217·0.140403 = 30.47 lb.
    """
    run = run_of(plan(barn()))
    assert [(c.name, c.on_hand is None) for c in run.coils] == [
        ("S-101", False), ("S-102", False), ("S-107", False), ("Coil 1", True),
    ]  # fmt: skip
    first, third = run.coils[0], run.coils[2]
    assert (first.batches[0].so_far, first.batches[0].left) == (3544, 176)
    assert first.left.value == 128
    assert first.minutes is not None
    assert first.minutes.value == pytest.approx(16 * 217 / 720)
    assert [(b.cut.name, b.cut.count, b.so_far) for b in third.batches] == [
        ("North side", 7, 72 + 7 * 217), ("South side", 5, 72 + 12 * 217),
    ]  # fmt: skip
    assert run.minutes is not None
    assert run.minutes.value == pytest.approx(64 * 217 / 720)
    # 16, 8, 12 and 28 panels take 4.8, 2.4, 3.6 and 8.4 minutes, read up and added so.
    read = [c.minutes.text() for c in run.coils if c.minutes is not None]
    assert (read, run.minutes.text()) == (["5 min", "3 min", "4 min", "9 min"], "21 min")
    assert first.batches[0].mass.value == pytest.approx(30.47, abs=0.01)
    # 30 lb, but 18 ft 1 in long
    assert first.batches[0].people == 2


def test_what_is_left_on_a_coil_by_hand() -> None:
    """1,335 ft 7.4 in less 64 panels of 217 in, 72 in and 48 in: 2,019.4 in, and a tenth less of
    the coil, 14,424.6 in, leaves 416.6 in; both are read down to the inch."""
    (coil,) = run_of(plan(small_gable())).coils
    assert coil.left.text() == "168 ft 3 in"
    assert coil.left_short is not None
    assert coil.left_short.text() == "34 ft 8 in"
    assert "a tail of 4 ft, 168 ft 3 in is left over where no spare was used. If it came at its " \
        "shortest, 34 ft 8 in." in render("run", plan(small_gable()), "text", 400)


@given(jobs_with_coils())
@settings(max_examples=draws(30), deadline=None)
def test_every_batch_once_and_lengths_that_add_up(job: Job) -> None:
    done = plan(job)
    run = run_of(done)
    cuts = [b.cut for c in run.coils for b in c.batches]
    assert cuts == [cut for c in (*done.from_stock, *done.coils) for cut in c.cuts]
    for one in run.coils:
        for batch in one.batches:
            assert batch.so_far + batch.left == pytest.approx(one.length.value)
            assert sum(row.count for row in batch.rows) == batch.cut.count
            assert batch.rows[-1].so_far == pytest.approx(batch.so_far)
            assert batch.rows[-1].left == pytest.approx(batch.left, abs=1e-6)
        last = one.batches[-1]
        tail = job.machine.tail or 0.0
        assert one.left.value == pytest.approx(last.left - tail, abs=1e-6)
        # what spare there is covers the panels run again
        assert one.left.value >= -1e-6
        check(one.left)
    rows = list(csv.reader(io.StringIO(render("run", done, "csv"))))
    assert len(rows) == 1 + sum(len(b.rows) for c in run.coils for b in c.batches)


def test_two_people_by_weight_or_length() -> None:
    job = with_planes(
        small_gable(), Plane(eave=16, slope_length=499, pitch=6),
        Plane(eave=16, slope_length=143, pitch=6), Plane(eave=16, slope_length=149, pitch=6),
    )  # fmt: skip
    text = render("run", plan(set_answers(job, {"coils.carry": 35.0})), "md")
    rows = {line.split("|")[1].strip(): line for line in text.splitlines() if "carried" not in line
            and line.count("|") == 5}  # fmt: skip
    assert "| 1 | 41 ft 8 in | 70.2 lb |" in rows["**3 people**"]  # 500 in weigh 70.2 lb
    assert "| 1 | 12 ft 6 in |" in rows["**2 people**"]
    assert "| 1 | 12 ft |" in rows["one"]
    done = plan(set_answers(job, {"coils.carry": 35.0}))
    head, *batches = csv.reader(io.StringIO(render("run", done, "csv")))
    length, carried = head.index("length (in)"), head.index("carried by")
    assert {row[length]: row[carried] for row in batches} == {"500": "3", "150": "2", "144": "1"}


def test_rows_say_the_machine_minutes_of_each_coil() -> None:
    """16 panels of 217 in at 720 in/min: 4.822 minutes, read up to 5 as on the sheet."""
    head, first, *_ = list(csv.reader(io.StringIO(render("run", plan(barn()), "csv"))))
    assert first[head.index("machine minutes, whole coil")] == "5"


def test_without_a_speed_there_are_no_minutes() -> None:
    run = run_of(plan(small_gable()))
    assert run.minutes is None
    assert "achine time" not in render("run", plan(small_gable()), "md")


def test_nothing_to_run_is_said() -> None:
    done = plan(new_job())
    assert run_of(done).coils == ()
    assert "nothing to run yet" in render("run", done, "md")
    assert len(render("run", done, "csv").splitlines()) == 1


def test_rows_cannot_become_formulas_and_keep_the_readers_units() -> None:
    job = with_planes(small_gable(), Plane(name="=1+1", eave=160, slope_length=100, pitch=6))
    metric = dataclasses.replace(job, units=System.METRIC)
    rows = list(csv.reader(io.StringIO(render("run", plan(metric), "csv"))))
    assert rows[1][rows[0].index("plane")] == "'=1+1"
    assert rows[0][6] == "length (mm)"
    assert rows[1][6] == "2565", "101 in, to a millimeter as on the page"


@given(buildings())
@settings(max_examples=draws(25), deadline=None)
def test_every_panel_of_every_plane_is_on_the_sheet_once(job: Job) -> None:
    done = plan(job)
    made = sorted(
        (batch.cut.plane, piece.copy, number)
        for coil in run_of(done).coils for batch in coil.batches for row in batch.rows
        for piece in row.pieces for number in piece.numbers
    )
    drawn = [(plane.number, copy, number) for plane in done.planes
             for copy in range(1, plane.alike + 1) for number in range(1, len(plane.panels) + 1)]
    assert made == (drawn if done.coils else [])


@pytest.mark.parametrize(("eave", "start", "said"), [
    # 16 in from the left: 3/64 in is left of 480 3/64, and no panel is made of it.
    (480.046875, PanelStart.LEFT, "right end"),
    (480.046875, PanelStart.RIGHT, "left end"),
    # An inch left over is a panel of an inch, and of 480 nothing is.
    (481.0, PanelStart.LEFT, ""),
    (480.0, PanelStart.LEFT, ""),
])
def test_an_end_that_panels_leave_bare_is_said(eave: float, start: PanelStart, said: str) -> None:
    job = set_answers(with_planes(small_gable(), Plane(
        name="Side", eave=eave, slope_length=216, pitch=6)), {"panel.start": start})
    for kind in ("run", "summary"):
        text = render(kind, plan(job), "text", 400)
        assert ("stays bare" in text) is bool(said), kind
        if said:
            assert f" its {said}" in text
            assert "up to 1/16 in stays bare, too little for one more panel" in text
    assert not said or f"Bare ends: Side at its {said}: " in render("run", plan(job), "text", 400)


class TestEnds:
    """A hip end 24 ft wide, 6/12, panels of 16 in from its middle: every hip end at one angle.

    The hip runs up the slope 12 ft·√1.25 over 12 ft: from square it is atan √1.25 = 48.2°, and
    16 in of panel take 16·√1.25 = 17.89 in off its short side.
    """

    def rows(self) -> list[dict[str, str]]:
        job = set_answers(building(Building.HIP, length=480, width=288, eave_overhang=0),
                          {"panel.start": PanelStart.PAN_CENTERED})
        head, *rows = csv.reader(io.StringIO(render("run", plan(job), "csv")))
        return [dict(zip(head, row, strict=True)) for row in rows]

    def test_mirrored_panels_are_one_row_with_angle_and_short_side(self) -> None:
        end = [row for row in self.rows() if row["plane"] == "End 1"]
        angled = [row for row in end if row["ends"] == "upper 48.2°"]
        assert len(angled) >= 7
        for row in angled:
            taken = float(row["length (in)"]) - float(row["short side (in)"])
            if row["numbers"] not in ("1 rising, 19 falling",):
                assert taken == pytest.approx(16 * 1.25**0.5, abs=1 / 32)  # told to 1/16 in
        assert angled[0]["numbers"] == "9 rising, 11 falling"
        assert angled[0]["pieces"] == "2"
        (top,) = [row for row in end if row["ends"] == "upper shaped"]
        assert (top["numbers"], top["short side (in)"]) == ("10", "")

    def test_blanks_for_trim_are_not_formed(self) -> None:
        job = demo_jobs()["heron-lane-barn"]
        pieces = tuple(dataclasses.replace(one, made_from=TrimFrom.PANEL_COIL)
                       for one in job.trim.pieces)
        job = dataclasses.replace(job, trim=dataclasses.replace(job.trim, pieces=pieces))
        _, *rows = csv.reader(io.StringIO(render("run", plan(job), "csv")))
        flat = [row for row in rows if row[4] not in {one.name for one in plan(job).planes}]
        # Each row of blanks by what lies side by side in it, all the blanks that the pieces take.
        assert len({(row[6], row[9]) for row in flat}) == len(flat) < len(rows)
        assert all(row[9].startswith("for trim: flat, not formed: ") for row in flat)
        for row in plan(job).trim:
            across = [(int(one[5]), re.search(rf"(\d+) × {row.piece.name}", one[9]))
                      for one in flat]
            assert sum(times * int(many[1]) for times, many in across if many) <= row.count.value
            assert any(many for _, many in across)

    def test_the_drawing_stands_beside_the_numbers(self) -> None:
        job = set_answers(building(Building.HIP, length=480, width=288, eave_overhang=0), {})
        html = render("run", plan(job), "html")
        assert html.count("<svg") == 3  # from above; sides alike, and ends alike
        assert "Side 1, Side 2" in html


def test_room_to_tick_and_to_write() -> None:
    done = plan(barn())
    text = render("run", done, "md")
    for said in ("made | scrap | measured left |", "☐ tagged", "☐ chocked until loaded"):
        assert text.count(said) == len(run_of(done).coils)
    assert "| ☐ | 16 | 18 ft 1 in | — | square | North side: 1–16 |" in text
    html = render("run", done, "html")
    rows = sum(len(batch.rows) for coil in run_of(done).coils for batch in coil.batches)
    assert html.count('<td class="write"></td>') == 3 * rows
    # Who ran a coil and when is written of each that is loaded, of one on hand too.
    loads = " ".join(render("run", plan(barn()), "text").split()).split("Load ")[1:]
    assert [load.count("Run by ____") for load in loads] == [1] * 4
    assert [load.count("Length on its tag") for load in loads] == [0, 0, 0, 1]


def test_the_color_stands_with_its_code() -> None:
    """A revision may change the code alone, and the crew holds the tag to this paper."""
    text = render("run", plan(give(small_gable(), "metal.color_code", "HS-44")), "text")
    assert re.search(r"Color\W+slate, HS-44\n", text)
    assert "HS-44" not in render("run", plan(small_gable()), "text")


def test_planes_alike_are_told_apart() -> None:
    """Two sides of 32 panels each; coils of 1,300 lb hold some of both."""
    text = render("run", plan(small_gable()), "md")
    assert "Side each of 2: 1–32" in text
    assert "Side: 2 planes alike. On the roof, 1 of 2 is" in text
    # 18 ft 1 in; 2 coils of which each holds one side and part of the other.
    parted = render("run", plan(set_answers(small_gable(), {"machine.arbor_load": 1300.0})), "md")
    assert re.search(r"Side \\?\(1 of 2\\?\): 1–\d+", parted)


def test_workings_are_left_to_the_summary() -> None:
    assert "How these numbers were made" not in render("run", plan(barn()), "md")
    assert "Weight of one panel" in render("summary", plan(barn()), "md")


def test_a_sheet_without_rows_says_so() -> None:
    with pytest.raises(ValueError, match="has no rows; sheets that do: order, run"):
        render("request", plan(small_gable()), "csv")


class TestAfterTheRun:
    def test_part_coils_go_back_shorter(self) -> None:
        """S-101: 3720 − 16·217·1.03 − 120 = 23.84 in, read as 23 in on all papers; S-102: 2340 −
        9·217·1.03 − 120 = 208.41 in. S-107 was measured by its diameters."""
        left = after_run(plan(barn()), demo_stock())
        assert [c.tag for c in left.coils] == [c.tag for c in demo_stock().coils]
        lengths = {c.tag: c.length for c in left.coils}
        assert (lengths["S-101"], lengths["S-102"]) == (23, 208)
        assert left.coils[2].outside is None
        assert left.find("C-20") == demo_stock().find("C-20")

    def test_in_stock_a_leftover_reads_as_on_the_papers(self) -> None:
        """23.84 in are 605.5 mm and 208.41 in 5,293.6 mm: rounded to 10 mm, no digit says more."""
        made = plan(dataclasses.replace(barn(), units=System.METRIC))
        left = after_run(made, demo_stock())
        for used, said in zip(made.from_stock, ("0.60 m", "5.29 m"), strict=False):
            there = left.find(used.tag)
            assert there is not None
            assert used.left.text(System.METRIC) == length_text(there, System.METRIC) == said

    def test_measured_lengths_count_instead(self) -> None:
        left = after_run(plan(barn()), demo_stock(), {"on_hand.1": 100.0, "coil.1": 400.0})
        one = left.find("S-101")
        assert one is not None
        assert one.length == 100
        new = left.find("Heron Lane barn 1")
        assert new is not None
        assert (new.length, new.width, new.color) == (400, 21, "slate gray (invented sample 3)")

    def test_a_coil_used_up_goes(self) -> None:
        left = after_run(plan(barn()), demo_stock(), {"on_hand.1": 0.0})
        assert left.find("S-101") is None

    def test_a_slit_coil_goes_back_as_strips(self) -> None:
        wide = coil("W", 200, width=66.0)
        keep = set_answers(small_gable(), {"coils.keep_length": 12.0})
        job = with_coils(keep, wide)
        one_plane = with_planes(job, Plane(eave=160, slope_length=216, pitch=6))
        left = after_run(plan(one_plane), Stock().put(wide))
        assert [(c.tag, c.width) for c in left.coils] == [
            ("W strip 1", 21), ("W strip 2", 21), ("W strip 3", 21), ("W drop", 3),
        ]  # fmt: skip
        assert left.coils[0].length == 44, "of 2,400 − 10·217·1.03 − 120 = 44.9 in"
        assert [c.length for c in left.coils[1:]] == [2400, 2400, 2400]

    def test_a_coil_the_stock_does_not_know_stays_out(self) -> None:
        assert after_run(plan(barn()), Stock()) == Stock()

    @given(jobs_with_coils())
    @settings(max_examples=draws(30), deadline=None)
    def test_no_metal_is_made(self, job: Job) -> None:
        stock = Stock(coils=job.on_hand)
        done = plan(job)
        left = after_run(done, stock)
        assert read_model(to_text(left), Stock, "stock") == left
        used = {c.index for c in done.from_stock}
        kept = [c for n, c in enumerate(job.on_hand) if n not in used]
        assert all(left.find(c.tag) == c for c in kept)
        for index in used:
            own = [c for c in left.coils if c.tag.startswith(job.on_hand[index].tag)]
            area = sum((c.length or 0) * c.width for c in own)
            whole = next(c for c in done.from_stock if c.index == index).length.value
            assert area <= whole * job.on_hand[index].width * (1 + 1e-9)


class TestAsItCame:
    """A coil that came is run by its own tag, lot and length, not by what was ordered."""

    def sheet(self, *arrived: Arrival, job: Job | None = None) -> str:
        job = job or small_gable()
        return " ".join(render("run", plan(with_arrived(job, *arrived)), "md").split())

    def test_its_tag_lot_and_length_by_each_measure(self) -> None:
        text = self.sheet(arrival(length=1400.0 * 12, mass=2359.0, weighed=None))
        assert "## Load 1: coil 1 of the order, tag R-1, lot L-7" in text
        # 2,359 lb / 0.140403 lb/in are 16,801 in at the ordered thickness; paint is no metal.
        assert "As it came: 1,400 ft by its tag, " in text
        assert " by its weight, " in text
        assert "The list counts by its tag: from 1,386 ft to 1,414 ft" in text
        assert "It weighs 2,359 lb by its tag" in text
        assert "as ordered" not in text.partition("## Load 1")[2].partition("| ✓")[0]
        assert "Length on its tag" not in text
        # 1,400 ft less 72 in of thread-up and 13,888 in of panels, less a tail of 48 in.
        assert "232 ft 8 in is left over where no spare was used" in text

    def test_while_nothing_came_it_is_as_ordered_with_room_for_the_tag(self) -> None:
        text = self.sheet()
        assert "## Load 1: coil 1 of the order " in text
        assert "1,335 ft 8 in as ordered" in text
        assert "Length on its tag" in text

    def test_the_shorter_of_two_that_disagree_counts(self) -> None:
        text = self.sheet(arrival(length=1600.0 * 12))
        assert "The list counts by its weight, the shorter of two that disagree" in text

    def test_too_short_a_coil_says_by_how_much(self) -> None:
        # 13,888 + 72 + 48 in are 1,167 ft 4 in.
        text = self.sheet(arrival(length=1160.0 * 12, mass=None, weighed=None, outside=None))
        assert "**It is 7 ft 4 in short of this list.**" in text

    def test_one_on_hold_is_not_run(self) -> None:
        assert "ON HOLD in Receiving: do not run this coil" in self.sheet(arrival(width=20.0))
        assert "ON HOLD" not in self.sheet(arrival())

    def test_one_taken_knowingly_says_so_with_all_that_stands_against_it(self) -> None:
        text = self.sheet(arrival(
            width=20.5, faults=(Fault.SCRATCH, Fault.DENT), decision=Decision.TAKEN,
            decided_by="Ana", reason="supplier pays half.", remark="Outer 6 ft scrapped."))
        load = text.partition("## Load 1")[2].partition("| ✓")[0]
        assert "**Taken knowingly** by Ana: supplier pays half. **Seen on it: scratched, dented " \
            "or crushed**. **It is 20 1/2 in wide; " in load
        assert "Remark: Outer 6 ft scrapped. As it came: " in load
        assert "ON HOLD" not in load

    def test_without_a_name_and_a_reason_it_stays_on_hold(self) -> None:
        text = self.sheet(arrival(width=20.5, decision=Decision.TAKEN, remark="ask Bo"))
        assert "ON HOLD in Receiving: do not run this coil" in text
        assert "Taken knowingly" not in text
        assert "Remark: ask Bo. " in text

    def test_what_holds_no_coil_is_told_too(self) -> None:
        assert "**Seen on it: film missing**. As it came" in self.sheet(
            arrival(faults=(Fault.NO_FILM,)))
        none = self.sheet(arrival())
        assert "Seen on it" not in none
        assert "Remark" not in none

    def test_of_two_that_came_each_is_named(self) -> None:
        text = self.sheet(
            arrival(tag="R-1"), arrival(tag="R-2", faults=(Fault.WET,), decision=Decision.TAKEN,
                                        decided_by="Ana", reason="dried"))
        assert "Coil 1 of the order, tag R-2, lot L-7: **Taken knowingly** by Ana: dried. " \
            "Coil 1 of the order, tag R-2, lot L-7: **Seen on it: wet or stained**. " in text

    def test_one_that_is_awaited_while_others_came_says_so(self) -> None:
        job = set_answers(small_gable(), {"machine.arbor_load": 1300.0})
        awaited = "**Awaited: it has not come, so there is nothing to run yet**. A new coil: "
        loads = self.sheet(arrival(coil=1), job=job).split("## Load ")[1:]
        assert [awaited in load for load in loads] == [False, True]
        assert "Awaited" not in self.sheet(job=job), "nothing is entered as it came"

    def test_one_sent_back_is_none_of_it(self) -> None:
        text = self.sheet(arrival(tag="R-0", decision=Decision.SENT_BACK),
                          arrival(tag="R-2", lot="L-8"))
        assert "coil 1 of the order, tag R-2, lot L-8" in text
        assert "R-0" not in text
        alone = self.sheet(arrival(tag="R-0", lot="", decision=Decision.SENT_BACK))
        assert ("Coil 1 of the order, tag R-0: sent back, and nothing has come in its place: there "
                "is nothing to run**. To come in its place: ") in alone
        assert "no coil of it is entered" not in alone

    def test_lots_that_meet_on_a_plane_are_said_before_the_first_panel(self) -> None:
        lots = "L-7", "L-8", "L-7"
        for lift, meet in ((900.0, True), (1300.0, False)):  # three coils, or one a side
            job = set_answers(small_gable(), {"coils.site_lift": lift})
            came = [arrival(tag=f"R-{coil.number}", lot=lot, coil=coil.number,
                            length=coil.length.value)
                    for coil, lot in zip(plan(job).coils, lots, strict=False)]
            text = render("run", plan(with_arrived(job, *came)), "text")
            said = " ".join(text.partition("Before the first panel")[0].split())
            assert ("Lots meet on Side: coil 2 of the order, tag R-2, lot L-8 and coil 3 of the "
                    "order, tag R-3, lot L-7." in said) is meet
            made = plan(with_arrived(job, *came))
            summary = " ".join(render("summary", made, "text").replace("│", " ").split())
            assert ("Lots meet on Side: coil 2 of the order, tag R-2, lot L-8 and coil 3 of the "
                    "order, tag R-3, lot L-7. Colors of two lots" in summary) is meet
            if meet:  # what comes in place of one that was not kept may be of any lot
                came[2] = dataclasses.replace(came[2], decision=Decision.SENT_BACK)
                again = " ".join(render("run", plan(with_arrived(job, *came)), "text").split())
                assert ("Lots may meet on Side: coil 3 of the order was not kept, and the lot of "
                        "what comes in its place is not known yet.") in again
            else:
                assert "Lots may meet" not in text

    def test_of_ends_that_are_whole_nothing_is_said_to_be_ripped(self) -> None:
        for eave, ripped in ((480.0, False), (488.0, True)):  # panels of 16 in
            job = small_gable()
            side = dataclasses.replace(job.roof.planes[0], eave=eave)
            job = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=(side,)))
            text = render("run", plan(job), "text")
            assert "How to read the lists" in text
            assert ("ripped on the roof" in " ".join(text.split())) is ripped

    def test_panels_too_short_to_form_are_cut_from_longer_ones(self) -> None:
        for shortest, said in ((218.0, 1), (217.0, 0), (None, 0)):  # its panels are 217 in long
            made = plan(set_answers(small_gable(), {"machine.shortest_panel": shortest}))
            text = " ".join(render("run", made, "md").split())
            assert text.count("too short to form: cut by hand") == said
        short = plan(with_planes(small_gable(), dataclasses.replace(
            small_gable().roof.planes[0], slope_length=30.0)))
        assert "may be too short to form: ask" in render("run", short, "md")

    def test_rows_say_the_lot_that_came(self) -> None:
        made = plan(with_arrived(small_gable(), arrival()))
        head, first, *_ = list(csv.reader(io.StringIO(render("run", made, "csv"))))
        assert first[head.index("coil")] == "coil 1 of the order"
        assert first[head.index("lot")] == "L-7"


@pytest.mark.parametrize("name", sorted(demo_jobs()))
def test_rows_of_a_metric_run_subtract_as_they_are_printed(name: str) -> None:
    """Whoever takes the next row's panels off what is left finds what the next row says."""
    job = dataclasses.replace(demo_jobs()[name], units=System.METRIC)
    tables = render("run", plan(job), "md").split("## Load ")[1:]
    followed = 0
    for one in tables:
        before: Decimal | None = None
        for line in one.splitlines():
            cells = [cell.strip(" ~`") for cell in line.replace("\\", "").split("|")]
            if len(cells) < 10 or not cells[2].isdecimal():
                continue
            count, length, left = Decimal(cells[2]), *(
                Decimal(cell.removesuffix(" m").replace(",", "")) for cell in (cells[3], cells[7]))
            if before is not None:
                followed += 1
                assert left == before - count * length, line
            before = left
    assert followed > 0 or name == "mill-row-mistakes"
    rows = list(csv.DictReader(io.StringIO(render("run", plan(job), "csv"))))
    assert all(row[size].isdecimal() for row in rows for size in (
        "length (mm)", "run so far (mm)", "left on it (mm)")), "to a millimeter, as on the page"
    for one, then in pairwise(rows):
        if one["coil"] == then["coil"]:
            taken = int(then["pieces"]) * int(then["length (mm)"])
            assert int(one["left on it (mm)"]) - int(then["left on it (mm)"]) == taken
            assert int(then["run so far (mm)"]) - int(one["run so far (mm)"]) == taken


def test_a_metric_paper_tells_a_long_panel_in_round_meters() -> None:
    text = render("run", plan(dataclasses.replace(barn(), units=System.METRIC)), "text", 400)
    assert "One person carries 20 kg at most, and no panel longer than 3.5 m alone" in text
    assert "One person carries 50 lb at most, and no panel longer than 12 ft alone" in render(
        "run", plan(barn()), "text", 400)
    # Lengths go up to 5 mm there; cut square, a panel has no short side beside its length.
    job = set_answers(dataclasses.replace(small_gable(), units=System.METRIC), {
        "panel.rounding": 5 / 25.4, "panel.end_allowance": 25 / 25.4})
    job = with_planes(job, dataclasses.replace(job.roof.planes[0], slope_length=222.94686037))
    assert "| 5.690 m | — | square | Side each of 2: 1–32 |" in render("run", plan(job), "md")
    (row, *_) = run_rows(plan(job)).rows
    assert (row[6], row[7], row[8]) == (pytest.approx(5690), "", "square")
    heavy = dataclasses.replace(set_answers(barn(), {"coils.site_lift": 1200.0}), on_hand=())
    limit = plan(heavy).figures["coil.heaviest"].value
    tight = set_answers(heavy, {"coils.site_lift": limit + 60})
    (said,) = (one.why for one in plan(dataclasses.replace(tight, units=System.METRIC)).findings
               if one.key == "coils.packing")
    assert "up to about 45 kg (common practice" in said


def test_a_coil_on_hand_weighs_the_same_on_run_sheet_and_haul_card() -> None:
    """Both the most it can: 115 kg had stood on one and 114 kg on the other."""
    for system in System:
        done = plan(dataclasses.replace(barn(), units=system))
        masses = [one.heaviest.text(system) for one in done.from_stock]
        together = on_hand_to_haul(done)
        assert together is not None
        assert together.mass.as_read(system) == pytest.approx(
            sum(one.heaviest.as_read(system) for one in done.from_stock))
        card, sheet = (" ".join(render(kind, done, "text", 400).split())
                       for kind in ("haul", "run"))
        assert together.mass.text(system) in card
        assert all(f"It weighs {mass} at most" in sheet for mass in masses)


def test_a_machine_is_called_an_example_until_its_values_are_held_against_a_plate() -> None:
    job = demo_jobs()["heron-lane-barn"]
    named = dataclasses.replace(job, machine=dataclasses.replace(
        job.machine, name="Two-arbor trailer (invented)"))

    def said(of: Job) -> str:
        return plain(machine_text(of))

    assert said(named) == "Two-arbor trailer", "all of it is confirmed"
    guessed = give(named, MachineKey.THREAD_UP, 72.0, Standing.GUESS)
    assert said(guessed) == (
        "Two-arbor trailer (invented); only an example, until its plate is read")
    assert "only an example" in render("run", plan(guessed), "text")
    own = dataclasses.replace(guessed, machine=dataclasses.replace(job.machine, name="Old blue"))
    assert said(own) == "Old blue"


def test_a_run_that_is_not_settled_says_first_what_holds_it() -> None:
    """Whoever stands at the machine with the paper is told what, not that there is something."""
    job = give(demo_jobs()["heron-lane-barn"], "metal.thickness", None)
    made = plan(job)
    held = made.readiness.reasons
    said = " ".join(render("run", made, "text", 400).split())
    assert f"Do not run from this sheet before it is settled: {held[0].words.rstrip('.')}" in said
    assert (f"(1 of {len(held)}; the summary names all)" in said) is (len(held) > 1)
