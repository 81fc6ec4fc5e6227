"""Coils as they arrive in the wizard, by keys, at both sizes; undo; nothing typed is lost."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.widgets import Input, Static

from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.receiving import Arrival, Decision, Fault
from coilwright.plan import plan
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import Verdict
from coilwright.store import Store
from coilwright.units import System
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.arrival_lines import about_short, report_lines, row_lines, row_text
from coilwright.wizard.lists.arrivals import ARRIVALS
from coilwright.wizard.lists.coil_blocks import ArrivalsBlock
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.row_list import RowList
from coilwright.wizard.lists.screen import ListScreen
from coilwright.wizard.screens.figures import FiguresScreen
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import load_view
from coilwright.wizard.widgets.columns import cells
from tests.cases import small_gable
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import screen_lines, screen_text, settle, type_text, wizard

Make = Callable[..., CoilwrightApp]
TYPED = {
    "tag": "R-1", "lot": "L-7", "color": "slate", "length": "1335", "mass": "2250",
    "weighed": "2245", "thickness": "0.0248; 0.025; 0.0249", "width": "21", "outside": "30 1/4",
    "inside": "20", "camber": "1/8", "camber_over": "8",
}


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty data folder."""
    return Store(tmp_path / "data")


@pytest.fixture
def app_on(store: Store) -> Make:
    """An app on a job, at the step where coils are ordered."""
    return lambda job: CoilwrightApp(store, Session(store, job), "coils")


async def test_a_coil_by_keys_from_the_step_to_accepted(
    app_on: Make, store: Store
) -> None:
    app = app_on(small_gable())
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).query_one("#open-arrivals").focus()
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, ListScreen)
        assert "a adds the first coil" in screen_text(app)
        assert "The driver waits" in screen_text(app)
        await pilot.press("a")
        await settle(pilot)
        form = app.screen
        assert isinstance(form, EntryScreen)
        for _ in range(40):
            field = form.here()
            assert field is not None
            name = field.key.rpartition(".")[2]
            if name in TYPED:
                await type_text(pilot, TYPED[name])
            elif name == "looked":
                await pilot.press("y")
            if name == "remark":
                break
            await pilot.press("enter")
            await settle(pilot)
        assert "ACCEPT" in screen_text(app)
        # What a decision asks comes after it, and not between it and the box one goes on to.
        names = [entry.key.rpartition(".")[2] for entry in form.entries]
        assert names[names.index("remark"):] == [
            "remark", "decision", "decided_by", "reason", "lots"]
        await pilot.press("escape")
        await settle(pilot)
        assert "✓ accept" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        job = wizard(app).session.job
        assert receive(plan(job))[0].verdict is Verdict.ACCEPT
        assert "✓ accept" in "".join(
            str(part.visual)
            for part in wizard(app).query_one(ArrivalsBlock).query(".lines").results(Static))
        wizard(app).flush()
        path = wizard(app).session.path
        assert path is not None
        assert store.load(path).arrived == job.arrived
        # On the step the first stroke says what it would take back, the next one does it.
        await pilot.press("ctrl+z")
        assert wizard(app).session.job == job
        await pilot.press("ctrl+z")
        assert wizard(app).session.job.arrived != job.arrived
        await pilot.press("ctrl+y")
        assert wizard(app).session.job == job


def test_what_came_heavier_than_it_may_stands_where_that_stood() -> None:
    for step in ("machine", "coils", "haul"):
        labels = [[head.label for head in load_view(step).heads(plan(with_arrived(
            small_gable(), arrival(mass=mass))))] for mass in (2250.0, 2510.0)]
        assert [("Heaviest by tolerance" in found, "Heaviest that came" in found)
                for found in labels] == [(True, False), (False, True)]


def test_a_decision_keeps_what_stood_against_the_coil_then(store: Store) -> None:
    """Found later is not in it: the form opens at the reason."""
    session = Session(store, with_arrived(small_gable(), arrival(faults=(Fault.WET,))))
    rows = JobRows(ARRIVALS, session)
    row = rows.entry(0)
    names = [measure.name for measure in ARRIVALS.measures]

    def take(name: str, text: str) -> Arrival:
        row.take(names.index(name), text)
        return session.job.arrived[0]

    assert take("decision", "taken knowingly").stood is None
    assert take("decided_by", "Ann").stood is None, "nobody said why"
    assert take("reason", "dried").stood == ("fault_wet",)
    assert ARRIVALS.entry.opens_at(rows, 0) == ""
    assert take("fault_dent", "yes").stood == ("fault_wet",), "the dent was seen later"
    assert receive(plan(session.job))[0].verdict is Verdict.HOLD
    assert ARRIVALS.entry.opens_at(rows, 0) == "reason"
    assert take("decided_by", "Anne").stood == ("fault_wet",), "a name put right decides nothing"
    assert take("lots", "yes").stood == ("fault_wet",), "nor does a word on the lots"
    take("lots", "")
    assert take("reason", "dried; the dent is in one wrap").stood == ("fault_dent", "fault_wet")
    assert receive(plan(session.job))[0].verdict is Verdict.TAKEN
    assert store.load(store.create(session.job)).arrived == session.job.arrived
    # Taken for its lot alone it settles the lots: the box shows so, though nobody said it.
    lots = ARRIVALS.measures[names.index("lots")]
    for stood, said, shown in ((("lot",), None, YesNo.YES), (("fault_wet", "lot"), None, None),
                               (("lot",), YesNo.NO, YesNo.NO)):
        assert lots.get is not None
        assert lots.get(arrival(stood=stood, lots=said)) is shown


async def test_what_cannot_be_read_is_said_kept_and_comes_back(app_on: Make) -> None:
    app = app_on(with_arrived(small_gable(), arrival(faults=(Fault.WET,))))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_arrivals()
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        form = app.screen
        assert isinstance(form, EntryScreen)
        here = form.here()
        assert here is not None
        assert here.key == "arrived.0.decision", "what decides on a coil on hold is in hand"
        # A tag typed there refuses nothing; an arrow does.
        before = wizard_job(app)
        await pilot.press(*"R-2")
        await settle(pilot)
        assert wizard_job(app) is before
        assert [one.message for one in app.notices][-1:] == [
            "“R” picks nothing at Decided: ← → do, so that no stray letter decides it."]
        await pilot.press("right")
        assert wizard_job(app).arrived[0].decision is Decision.REFUSED
        await pilot.press("backspace")
        assert wizard_job(app).arrived[0].decision is None
        field = next(f for f in form.entries if f.key == "arrived.0.width")
        field.focus()
        await type_text(pilot, "21 inchx")
        await pilot.press("tab")
        await settle(pilot)
        assert "“21 inchx”" in screen_text(app)
        assert wizard_job(app).typed == {"arrived.0.width": "21 inchx"}
        assert wizard_job(app).arrived[0].width is None
        await pilot.press("escape")
        await settle(pilot)
        assert "cannot be" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        again = app.screen
        assert isinstance(again, EntryScreen)
        box = next(f for f in again.entries if f.key == "arrived.0.width").box
        assert isinstance(box, Input)
        assert box.value == "21 inchx"
        assert app.focused is box, "what could not be read is in hand again"
        assert re.search("▸Width +×", screen_text(app))


def wizard_job(app: CoilwrightApp) -> Job:
    """The job under whatever screen is shown."""
    screen = app.screen
    if isinstance(screen, EntryScreen):
        return screen.entry.job()
    assert isinstance(screen, ListScreen)
    assert screen.rows.session is not None
    return screen.rows.session.job


async def test_delete_undo_and_an_undo_that_takes_the_coil_from_under_its_form(
    app_on: Make,
) -> None:
    app = app_on(with_arrived(small_gable(), arrival(), arrival(tag="R-2", width=20.5)))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_arrivals()
        await settle(pilot)
        await pilot.press("down")
        await settle(pilot)
        assert "It is 20 1/2 in wide; ordered 21 in" in screen_text(app)
        await pilot.press("d", "d")  # a key that is struck twice deletes one, as on a step
        await settle(pilot)
        assert [a.tag for a in wizard_job(app).arrived] == ["R-1"]
        await pilot.press("u")
        await settle(pilot)
        assert [a.tag for a in wizard_job(app).arrived] == ["R-1", "R-2"]
        await pilot.press("a")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert isinstance(app.screen, ListScreen)
        assert len(wizard_job(app).arrived) == 2


async def test_every_figure_of_a_coil_opens_with_its_equation(app_on: Make) -> None:
    app = app_on(with_arrived(small_gable(), arrival()))
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        wizard(app).action_arrivals()
        await settle(pilot)
        await pilot.press("w")
        await settle(pilot)
        assert isinstance(app.screen, FiguresScreen)
        await pilot.press(*"likely", "backspace", "backspace")
        await type_text(pilot, "length by its diameters")
        await pilot.press("down", "enter")
        await settle(pilot)
        text = screen_text(app)
        assert "π·(" in text
        assert "(4·t)" in text


async def test_faults_are_asked_after_looking_and_hold_it(app_on: Make) -> None:
    app = app_on(with_arrived(small_gable(), arrival(looked=None)))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_arrivals()
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        form = app.screen
        assert isinstance(form, EntryScreen)
        wet = next(f for f in form.entries if f.key == "arrived.0.fault_wet")
        assert wet.box.value == ""
        # From the first fault a key leads to the row that says no to all; itself it says nothing.
        next(f for f in form.entries if f.key == "arrived.0.fault_dent").focus()
        await settle(pilot)
        assert "No to all: F4, y." in screen_text(app)
        await pilot.press("f4")
        await settle(pilot)
        assert form.here().key == "arrived.0.looked"
        assert wizard_job(app).arrived[0].looked is None
        await pilot.press("y")
        await settle(pilot)
        assert wet.box.value == "no"
        wet.focus()
        await pilot.press("y")
        await settle(pilot)
        assert wizard_job(app).arrived[0].faults == (Fault.WET,)
        assert "HOLD" in screen_text(app)
        assert "Water, stains or damp paper" in screen_text(app)


@pytest.mark.parametrize("tag", ["[b]x[/b]", "a\x1b[31mb", "R" * 60, "漢字" * 20])
def test_odd_tags_are_text_and_lines_fit(tag: str) -> None:
    found = receive(plan(with_arrived(small_gable(), arrival(tag=tag, width=20.0))))[0]
    assert cells(row_text(found, 74)) <= 74
    assert "\x1b" not in row_text(found, 74)
    lines = list(report_lines(found, small_gable().units, 73))
    assert not any("\x1b" in line for line in lines)
    at = lines.index("Sizes, and what is allowed")
    assert all(cells(line) <= 73 for line in lines[at:])


async def test_the_keys_work_while_one_reads_on_below(app_on: Make) -> None:
    app = app_on(with_arrived(small_gable(), arrival(), arrival(tag="R-2")))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_arrivals()
        await settle(pilot)
        await pilot.press("down", "tab", "pagedown")
        await settle(pilot)
        assert app.focused is app.screen.query_one("#list-room")
        assert any("▸" in line and "R-2" in line for line in screen_lines(app)), "d means this row"
        await pilot.press("d")
        await settle(pilot)
        assert [a.tag for a in wizard_job(app).arrived] == ["R-1"]
        await pilot.press("u")
        await settle(pilot)
        assert [a.tag for a in wizard_job(app).arrived] == ["R-1", "R-2"]
        # Up from its top leads back to the rows, as Down from the last of them led here.
        rows, room = app.screen.query_one(RowList), app.screen.query_one("#list-room")
        for back in ("up", "enter"):
            room.focus()
            await pilot.press("home", back)
            await settle(pilot)
            assert app.focused is rows


async def test_an_error_elsewhere_is_named_and_leaves_the_help(app_on: Make) -> None:
    app = app_on(with_arrived(small_gable(), arrival(camber=None, camber_over=None)))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_arrivals()
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        form = app.screen
        assert isinstance(form, EntryScreen)
        entries = {f.key: f for f in form.entries}
        entries["arrived.0.coil"].focus()
        await type_text(pilot, "two")
        await pilot.press("down")
        await settle(pilot)
        assert "× Coil of the order: “two” has no number in it" in screen_text(app)
        entries["arrived.0.coil"].focus()
        await type_text(pilot, "1")
        entries["arrived.0.camber_over"].focus()
        await settle(pilot)
        assert "8 ft or more" in screen_text(app), "the length that the order tells it over"
        await type_text(pilot, "0")
        await pilot.press("down")
        await settle(pilot)
        here = form.here()
        assert here is entries["arrived.0.fault_dent"]
        text = screen_text(app)
        assert "× … over a length of: it cannot be nothing; give more than 0." in text
        assert here.help_line in text


def test_all_that_holds_a_coil_is_said_the_gravest_first() -> None:
    """At 80 cells, in the lines that the form has; what has no room is counted."""
    bad = arrival(width=20.0, faults=(Fault.WET,), camber=0.6, weighed=3100.0, mass=3100.0)
    (report,) = receive(plan(with_arrived(small_gable(), bad)))
    lines = about_short(report, System.US, 76)
    assert len(lines) <= 6
    assert all(cells(line) <= 76 for line in lines)
    held = [line for line in lines if line.startswith("HOLD  ")]
    assert held[0].startswith("HOLD  It weighs 3,100 lb; one arbor carries 3,000 lb")
    assert len(held) == 4
    assert lines[0] == "HOLD. 4 against it, 2 to look at. No decision settles a rating plate."
    # What is only to be looked at stands where lines are free.
    (report,) = receive(plan(with_arrived(small_gable(), arrival(
        width=21.25, mass=2400.0, faults=(Fault.SCRATCH,)))))
    assert about_short(report, System.US, 76) == [
        "HOLD. 1 against it, 2 to look at. The person in charge decides.",
        "HOLD  Seen on it: scratched.",
        "CARE  It is 21 1/4 in wide; ordered 21 in, allowed 20.969 in to 21 1/8 in.",
        "CARE  Its tag says 2,400 lb, the scale 2,245 lb.",
        "Length: enough by every measure; its cuts take 1,202 ft 1 in with spare."]
    worse = arrival(tag="R-2", width=20.0, faults=tuple(Fault)[:6], camber=0.6, looked=None)
    (report,) = receive(plan(with_arrived(small_gable(), worse)))
    more = about_short(report, System.US, 76)
    shown = sum(line.startswith("HOLD  ") for line in more)
    assert more[-2:] == [f"and {8 - shown} more: the list of coils says all",
                         "1 to do: looking it over for damage"]
    assert len(more) == 6
    (report,) = receive(plan(with_arrived(small_gable(), bad)))
    rows = row_lines(report, 74)
    assert not any(line.endswith("…") for line in rows)
    text = " ".join(" ".join(rows).split())
    for part in ("one arbor carries", "wet or stained", "20 in wide", "bows 0.6 in"):
        assert part in text
    assert text.index("arbor") < text.index("wet")


def test_what_is_to_do_is_counted_and_its_end_never_just_missing() -> None:
    bare = arrival(width=20.0, thickness=(), outside=None, inside=None, camber=None,
                   camber_over=None, looked=None, lot="", color="")
    for arrived in (bare, arrival(width=None, looked=None)):
        (report,) = receive(plan(with_arrived(small_gable(), arrived)))
        lines = about_short(report, System.US, 76)
        last = lines[-1]
        assert last.startswith(f"{len(report.missing)} to do: ")
        assert last.endswith("…") or all(m in last for m in report.missing)
        assert cells(last) <= 2 * 76
