"""Widths compared, the longer search, and leftovers back to stock."""

from __future__ import annotations

import asyncio
import dataclasses
import datetime
import threading
from collections.abc import Callable
from typing import Any

import pytest
from textual.widgets import Input, Static

import coilwright.plan
from coilwright.job.edit import clear, give
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.job.receiving import Arrival, Decision, Fault
from coilwright.job.roof import Building, Plane
from coilwright.job.stock import LengthBy, Stock
from coilwright.plan import Plan, plan, replan
from coilwright.plan.coils.after_run import after_run, put_back
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.plan.panel.compare import compare
from coilwright.sheets import render
from coilwright.sheets.baseline import baseline, baseline_words
from coilwright.sheets.proof_words import found_line, is_proven, proof_line
from coilwright.sheets.sending import send
from coilwright.store import Store
from coilwright.store.reader import to_text
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.store.stock import load_stock, save_stock
from coilwright.units import System
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.coils_on_hand import StockRows
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.run_done import RunDone
from coilwright.wizard.lists.run_words import change_lines
from coilwright.wizard.lists.stock_book import book_of
from coilwright.wizard.session import Session
from coilwright.wizard.steps.panel.widths import (
    COLUMNS,
    WidthsScreen,
    columns_for,
    ordered,
    row_line,
)
from tests.cases import small_gable
from tests.plan.coils.stock import coil, with_coils
from tests.plan.quotes.five import barn as quoted_barn
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.wizard.pilot import driven, until
from tests.wizard.wizard_driving import screen_text, settle, type_text, wizard

Make = Callable[..., CoilwrightApp]


def barn(*, stock: bool = False) -> Job:
    job = demo_jobs()["heron-lane-barn"]
    return with_fitting(job, demo_stock()) if stock else job


def unproven() -> Job:
    """A job whose cut plan is not proven at once: some coils, panels of odd lengths."""
    job = give(barn(), "roof.building", Building.PLANES)
    lengths = [(240 + 37 * n % 320, 16 * (1 + n % 4)) for n in range(30)]
    planes = tuple(Plane(name=f"P{n}", eave=float(wide), slope_length=float(up), pitch=6)
                   for n, (up, wide) in enumerate(lengths))
    job = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))
    coils = (coil(f"B-{n}", (700 + 313 * n % 1200) / 12, color=job.metal.color)
             for n in range(10))
    return with_coils(job, *coils)


def with_steps(job: Job, *states: OrderState) -> Job:
    """The job with further steps of its order, a day each after all others."""
    steps = (LifeStep(state=state, date=datetime.date(2027, 5, number))
             for number, state in enumerate(states, 1))
    return dataclasses.replace(
        job, life=dataclasses.replace(job.life, steps=(*job.life.steps, *steps)))


def cuts_of(done: Plan) -> list[object]:
    """What is cut from which coil."""
    return [(c.length.value, c.cuts) for c in (*done.coils, *done.from_stock)]


class TestWidths:
    def test_sorting_puts_what_is_not_known_last(self) -> None:
        rows = compare(barn())
        for column in COLUMNS:
            figures = [column.figure(row) for row in ordered(rows, column, down=True)]
            values = [f.value for f in figures if f is not None]
            assert values == sorted(values, reverse=True)
            assert None not in figures[: len(values)]

    def test_why_there_is_no_weight_is_said_where_nothing_can_be_ordered_yet(
        self, store: Store
    ) -> None:
        job = clear(barn(), "coils.tolerance")
        said = WidthsScreen(Session(store, job)).about(compare(job)[0])
        assert said[1].startswith("Weight to order still needs: “Tolerance, under”.")
        assert "still needs" not in " ".join(
            WidthsScreen(Session(store, barn())).about(compare(barn())[0]))

    @pytest.mark.parametrize("width", [50, 75, 107])
    def test_rows_fit_and_weight_and_length_stay(self, width: int) -> None:
        rows = compare(barn(stock=True))
        columns = columns_for(rows, System.US, width)
        assert {"ordered", "weight"} <= {c.head for c in columns}
        for row in rows:
            assert len(row_line(row, columns, rows, System.US)) <= width

    async def test_one_key_takes_the_marked_width(
        self, app_on: Make
    ) -> None:
        app = app_on(barn(), "panel")
        async with driven(app, size=(120, 40), notifications=True) as pilot:
            await settle(pilot)
            await pilot.press("f8")
            await settle(pilot)
            screen = app.screen
            assert isinstance(screen, WidthsScreen)
            row = screen.marked()
            assert row is not None
            assert row.coverage == 16
            await pilot.press("s", "s", "s")
            assert screen.by is not None
            assert screen.by.head == "weight"
            await pilot.press("home")
            least = screen.marked()
            assert least is not None
            await pilot.press("enter")
            await settle(pilot)
            session = wizard(app).session
            assert session.job.panel.coverage == least.coverage
            assert least.mass is not None
            assert session.plan.figures["coil.mass_ordered"].value == least.mass.value
            await pilot.press("ctrl+z")
            await settle(pilot)
            assert session.job.panel.coverage == 16

    async def test_a_head_sorts_by_mouse(self, app_on: Make) -> None:
        app = app_on(barn(), "panel")
        async with driven(app, size=(80, 24), notifications=True) as pilot:
            await settle(pilot)
            await pilot.press("f8")
            await settle(pilot)
            screen = app.screen
            assert isinstance(screen, WidthsScreen)
            line = next(t for t in screen_text(app).splitlines() if "ordered" in t)
            await pilot.click("#widths-heads", offset=(line.index("ordered"), 0))
            await settle(pilot)
            assert screen.by is not None
            assert screen.by.head == "ordered"

    async def test_without_a_range_it_says_what_is_missing(self, app_on: Make) -> None:
        job = barn()
        job = dataclasses.replace(job, machine=dataclasses.replace(job.machine, profiles=()))
        app = app_on(job, "panel")
        async with driven(app, size=(80, 24), notifications=True) as pilot:
            await settle(pilot)
            await pilot.press("f8")
            await settle(pilot)
            assert "No widths yet" in screen_text(app)


class TestSearch:
    def test_small_jobs_are_proven_at_once(self) -> None:
        done = plan(barn(stock=True))
        assert is_proven(done)
        assert proof_line(done).startswith("Proven")

    def test_a_plan_is_taken_only_for_its_job_and_comes_back_with_undo(
        self, store: Store
    ) -> None:
        session = Session(store, unproven())
        quick = session.plan
        better = replan(session.job, 1.0)
        assert cuts_of(better) != cuts_of(quick)
        other = give(session.job, "panel.coverage", 15.0)
        assert not session.take_plan(plan(other))
        assert session.plan is quick
        assert session.take_plan(better)
        assert cuts_of(session.plan) == cuts_of(better)
        session.change(give(session.job, "panel.coverage", 15.0), "narrower")
        assert cuts_of(session.plan) != cuts_of(better)
        session.undo()
        assert cuts_of(session.plan) == cuts_of(better)
        assert session.undo() is None, "nobody typed the cuts: they are no step of undo"

    def test_looking_at_a_job_writes_no_file_though_a_search_found_more(
        self, store: Store
    ) -> None:
        session = Session(store, unproven())
        assert session.take_plan(replan(session.job, 1.0))
        assert session.save()
        assert session.path is None
        session.change(give(session.job, "job.name", "Now it is mine"), "name")
        assert session.take_plan(replan(session.job, 1.0))
        assert session.save()
        assert session.path is not None
        assert store.load(session.path).found_cuts is not None

    def test_opened_again_it_is_the_same_order(self, store: Store) -> None:
        session = Session(store, unproven(), store.create(unproven()))
        better = replan(session.job, 1.0)
        assert session.take_plan(better)
        assert session.save()
        assert session.path is not None
        again = Session.open(store, session.path).plan
        assert cuts_of(again) == cuts_of(better)
        assert is_proven(again)

    @pytest.mark.parametrize("step", ["coils", "roof"])
    async def test_it_starts_by_itself_finds_less_metal_and_proves_it(
        self, app_on: Make, step: str
    ) -> None:
        job = unproven()
        quick = plan(job)
        assert not is_proven(quick), "the case must leave something to search for"
        app = app_on(job, step, search_seconds=600.0)
        async with driven(app, size=(80, 24), notifications=True) as pilot:
            screen = wizard(app)
            await until(pilot, lambda: is_proven(screen.session.plan))
            found = screen.session.plan
            assert found.proof is not None
            assert found.proof.gap.value == 0
            assert found.figures["coil.length_ordered"].value < quick.figures[
                "coil.length_ordered"].value
            assert found_line(quick, found).startswith("Better by ")
            assert found_line(found, found).startswith("Nothing better was found.")
            # As much metal in other cuts is nothing to read of.
            nearly = dataclasses.replace(found, figures={
                **found.figures, "coil.length_ordered": dataclasses.replace(
                    found.figures["coil.length_ordered"],
                    value=found.figures["coil.length_ordered"].value + 0.2)})
            assert found_line(nearly, found).startswith("Nothing better was found.")
            assert screen.session.job.found_cuts == found.found
            await settle(pilot)
            await screen.go("coils")
            await settle(pilot)
            assert "Proven" in _proof(screen)

    async def test_none_starts_where_no_time_is_given_but_one_can_be_asked_for(
        self, app_on: Make
    ) -> None:
        app = app_on(unproven(), "coils")
        async with driven(app, size=(80, 24), notifications=True) as pilot:
            await settle(pilot)
            screen = wizard(app)
            assert not screen.controllers.search.waits
            assert "Within" in _proof(screen)
            await screen.run_action("search_metal")
            await until(pilot, lambda: is_proven(screen.session.plan))

    async def test_a_search_never_blocks_shows_how_far_it_is_and_stops(
        self, app_on: Make, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        threads: list[threading.Thread] = []
        monkeypatch.setattr(coilwright.plan, "replan", endless(threads))
        app = app_on(unproven(), "coils", search_seconds=600.0)
        async with driven(app, size=(80, 24), notifications=True) as pilot:
            screen = wizard(app)
            await until(pilot, lambda: "1,000 ft of new metal so far" in _proof(screen))
            assert threads[0] is not threading.main_thread()
            await pilot.press("ctrl+b")
            await until(pilot, lambda: screen.step == "trim")
            assert screen.controllers.search.searching, "the keys work while it searches"
            await screen.run_action("search_metal")
            await until(pilot, lambda: not screen.controllers.search.searching)
            await settle(pilot)
            await screen.go("coils")
            await settle(pilot)
            assert "Within" in _proof(screen)
            assert len(threads) == 1, "what was stopped does not start by itself again"

    async def test_a_key_that_changes_the_job_ends_the_search_and_begins_another(
        self, app_on: Make, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        threads: list[threading.Thread] = []
        monkeypatch.setattr(coilwright.plan, "replan", endless(threads))
        app = app_on(unproven(), "coils", search_seconds=600.0)
        async with driven(app, size=(80, 24), notifications=True) as pilot:
            screen = wizard(app)
            await until(pilot, lambda: len(threads) == 1)
            screen.session.type_text("coils.spare", "5")
            screen.changed()
            await until(pilot, lambda: not threads[0].is_alive() or len(threads) == 2)
            assert screen.session.plan.job.coils.spare == pytest.approx(0.05)
            await until(pilot, lambda: len(threads) == 2)
            assert screen.controllers.search.searching

    async def test_leaving_ends_the_search(
        self, app_on: Make, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        threads: list[threading.Thread] = []
        ended = threading.Event()
        monkeypatch.setattr(coilwright.plan, "replan", endless(threads, ended))
        app = app_on(unproven(), "coils", search_seconds=600.0)
        async with driven(app, size=(80, 24), notifications=True) as pilot:
            screen = wizard(app)
            await until(pilot, lambda: len(threads) == 1)
            screen.action_leave()
            await until(pilot, lambda: app.screen is not screen)
        await asyncio.to_thread(ended.wait)


def endless(
    threads: list[threading.Thread], ended: threading.Event | None = None
) -> Callable[..., Plan]:
    """A search in place of the true one that goes on until it is canceled."""

    def search(
        job: Job, _seconds: float, _clock: Any, progress: Callable[[float, float], None],
        canceled: Callable[[], bool],
    ) -> Plan:
        threads.append(threading.current_thread())
        while not canceled():
            progress(12_000.0, 11_900.0)
        if ended is not None:
            ended.set()
        return plan(job)

    return search


def _proof(screen: Any) -> str:
    return " ".join(str(s.render()) for s in screen.query("SearchBlock Static"))


class TestAfterTheRun:
    def test_twice_changes_nothing_more(self) -> None:
        done, stock = plan(barn(stock=True)), demo_stock()
        once, stays, _ = put_back(done, stock, {})
        assert once == after_run(done, stock, {})
        assert not stays
        again, stays, _ = put_back(done, once, {})
        assert again == once
        assert set(stays) == {coil.tag for coil in done.from_stock}
        measured, stays, _ = put_back(done, once, {done.from_stock[0].key: 60.0})
        found = measured.find(done.from_stock[0].tag)
        assert found is not None
        assert found.length == 60.0

    def test_what_was_put_back_is_said_and_not_asked_again(self, store: Store) -> None:
        made, book = plan(barn(stock=True)), book_of(store)
        save_stock(store.folder, demo_stock())
        book = book_of(store)
        kept: list[dict[str, str]] = []

        def run() -> RunDone:
            known = dataclasses.replace(made.job, put_in_stock=kept[-1] if kept else {})
            return RunDone(book, dataclasses.replace(made, job=known), "", kept.append)

        first = run()
        assert not first.is_all_back
        first.texts[first.asked[-1].answer.key] = "37 ft"
        first.texts[first.asked[0].answer.key] = "0"
        # The list of coils on hand calls such a one too short to keep: so does what keeps it.
        (short,) = (line for line in first.about(100) if line.startswith("Too short to keep"))
        assert short == ("Too short to keep (leftover worth keeping: 20 ft), and in stock all the "
                         "same: S-102, 17 ft 4 in; S-107, 16 ft 8 in. 0 as what is left keeps one "
                         "out.")
        # Nothing was sent: a new coil is asked about once, for it may have been bought elsewhere.
        before = book.stock
        assert first.do("put_back").say == (
            "No order of this job was sent, by its life: only coils that did come have anything to "
            "put back. Ctrl+S again keeps it.")
        assert book.stock == before
        done = first.do("put_back")
        assert done.changed
        assert done.say == "It is put back; Ctrl+Z takes it back.", "what was asked is no more"
        assert "not marked run" not in first.said, "nothing was sent"
        again = run()
        assert again.is_all_back
        (said,) = [line for line in again.about(100) if line.startswith("Put back already")]
        assert said.startswith("Put back already: S-101, used up; S-102, ")
        assert "; Heron Lane barn 1, 37 ft. Another length" in said
        assert again.texts[again.asked[0].answer.key] == "0 in", "used up is not empty"
        again.texts[again.asked[-1].answer.key] = "0"
        assert again.do("put_back").changed
        assert "coil 1 of the order is used up: nothing of it goes to stock" in again.said
        assert run().is_all_back
        assert again.do("undo").changed
        assert run().texts[again.asked[-1].answer.key] == "37 ft"
        assert not any(line.startswith("Not as") for line in again.about(100))
        # Who takes it back in the stock has it to put back again.
        book.undo()
        undone = run()
        assert not undone.is_all_back
        assert undone.back_words() == []
        # One that another job cut was not put back by this.
        taken = made.job.on_hand[made.from_stock[0].index]
        book.change(book.stock.put(dataclasses.replace(taken, length=120.0)), "another job")
        kept.clear()
        assert any(line == "Not as this job took them, so they stay unless measured: S-101, 10 ft"
                   for line in run().about(100))

    def test_changes_in_lines(self) -> None:
        before = Stock(coils=(coil("A", 10), coil("B", 20), coil("C", 30)))
        worked_out = coil("B", 5, length_by=LengthBy.SAID)
        after = Stock(coils=(coil("A", 10), worked_out, coil("D", 7)))
        # On paper more is left of it than so much.
        assert change_lines(before, after, System.US) == [
            "B: 20 ft in stock, then 5 ft, the least that can be left: not measured",
            "C is used up: taken out of stock", "D goes into stock with 7 ft"]

    def test_which_of_two_arrivals_was_run_is_asked_first(self, store: Store) -> None:
        knowingly = {"decision": Decision.TAKEN, "decided_by": "A. Reed", "reason": "two lots"}
        done = plan(with_arrived(
            small_gable(), arrival(coil=1, lot="L-44", **knowingly),
            arrival(tag="R-2", coil=1, lot="L-45", length=1400.0 * 12, **knowingly)))
        book = book_of(store)
        run = RunDone(book, done)
        pick, length = run.asked
        run.texts[length.answer.key] = "37 ft"
        assert "Say first which" in run.do("put_back").say
        assert not book.stock.coils
        run.texts[pick.answer.key] = pick.answer.choices[1].value
        # 1,400 ft by its tag, less 13,888 in of panels and 120 in of thread-up and tail.
        assert ("Coil 1 of the order, tag R-2, lot L-45. On paper 232 ft 8 in is left, by its tag."
                in run.about(100))
        assert run.do("put_back").changed
        (coil,) = book.stock.coils
        assert (coil.tag, coil.lot, coil.length) == ("R-2", "L-45", 444.0)
        # Undo there is of what was typed there, then of what this job put in stock: nothing of
        # another job's is taken back by it, though that is of the same name.
        kept: list[dict[str, str]] = []
        other = RunDone(book, done, session=Session(store, done.job))
        other.take(1, "2 ft")
        other.take(1, "20 ft")
        assert other.do("undo").say == "Undid: coil 1 of the order"
        assert not other.measured()
        assert other.do("redo").say == "Redid: coil 1 of the order"
        assert other.measured()
        other.do("undo")
        for _ in range(2):
            assert other.do("undo").say == (
                "Nothing of this job to undo here. The last change of the stock was: run of "
                f"{done.job.title}. The list of coils on hand takes it back.")
        assert book.stock.coils == (coil,)
        # In the list of coils on hand, held to another job, it is said first what that is; what
        # this job put there, or where no job is held to, is here.
        other_job = Session(store, done.job)
        for name, first, coils in (("undo", "Last changed, and not here: run of", ()),
                                   ("redo", "Last taken back, and not here: run of", (coil,))):
            before, in_list = book.stock.coils, StockRows(book, other_job)
            said = in_list.do(name, None).say
            assert said.startswith(first)
            assert "(After the run of another job)" in said
            assert book.stock.coils == before
            in_list.do(name, None)
            assert book.stock.coils == coils
        for name, does, coils in (("undo", "Undid", ()), ("redo", "Redid", (coil,))):
            assert StockRows(book).do(name, None).say.startswith(f"{does}: run of")
            assert book.stock.coils == coils
        # Opened again, as by the same job, it is here; made again, it is in the job again.
        put = dataclasses.replace(done.job, put_in_stock={"coil.1": "R-2"})
        again = RunDone(book, dataclasses.replace(done, job=put), "", kept.append)
        assert again.measured() == {}
        assert again.do("undo").say == f"Undid in the stock: run of {done.job.title}"
        assert (book.stock.coils, kept) == ((), [{}])
        assert again.measured() == {}, "nobody typed here what stood in the box"
        again.do("redo")
        assert (book.stock.coils, kept[-1]) == ((coil,), {"coil.1": "R-2"})
        # More than a coil was long is kept knowingly, and stays said. By its tag 1,400 ft, to 1 %.
        again.take(0, pick.answer.choices[1].value)
        again.take(1, "9000 ft")
        said = "9,000 ft is more than R-2 was"
        assert again.do("put_back").say == f"{said} (at most 1,414 ft). Ctrl+S again keeps it."
        assert book.stock.coils == (coil,)
        again.take(1, "9001 ft")
        assert again.do("put_back").say.startswith("9,001 ft is more"), "another one, asked anew"
        assert again.do("put_back").changed
        assert [one.length for one in book.stock.coils] == [9001 * 12]
        assert any("9,001 ft is more than can be left" in line for line in again.about(100))

    def test_a_file_copied_by_hand_says_first_whose_coil_it_puts_back(self, store: Store) -> None:
        """It says what its original said: what that put in stock is not its own."""
        done = plan(with_arrived(small_gable(), arrival(coil=1)))
        book = book_of(store)
        first = RunDone(book, done)
        first.take(0, "37 ft")
        assert first.do("put_back").changed
        ran = dataclasses.replace(done, job=dataclasses.replace(
            done.job, put_in_stock={"coil.1": "R-1", "coil.2": "R-2"}))
        original = store.create(ran.job)
        copy = original.with_name("copied-by-hand.job.json")
        copy.write_text(original.read_text())
        run = RunDone(book, ran, session=Session.open(store, copy))
        run.take(0, "12 ft")
        before = book.stock
        assert run.do("put_back").say.startswith(
            f"{original.name} says as well that it put R-1 and R-2 in stock: one of these files ")
        assert book.stock == before
        assert run.do("put_back").changed
        (there,) = book.stock.coils
        assert there.length == 144.0
        # Coil 2 is none of the job any more, and nothing of it is in stock.
        run.take(0, "11 ft")
        assert run.do("put_back").changed
        # Alone it may have been renamed by hand, and one of another order is none of it.
        other = dataclasses.replace(ran.job, order=dataclasses.replace(
            ran.job.order, number="another"))
        store.save(original, other)
        alone = RunDone(book, ran, session=Session.open(store, copy))
        alone.take(0, "13 ft")
        assert alone.do("put_back").changed
        # Copied before anything was put back it says nothing of the stock: it has the same coils.
        sent = dataclasses.replace(other, put_in_stock={})
        for file in (original, copy):
            file.write_text(to_text(sent))
        book.change(Stock(), "none on hand")
        with_same = f"{copy.name} has R-1 of this order too: one of these files is a copy of the "
        ours = RunDone(book, plan(sent), session=Session.open(store, original))
        ours.take(0, "10 ft")
        assert ours.do("put_back").say.startswith(with_same)
        assert not book.stock.coils
        assert ours.do("put_back").changed
        store.save(original, dataclasses.replace(sent, put_in_stock=ours.put))
        theirs = RunDone(book, plan(sent), session=Session.open(store, copy))
        theirs.take(0, "12 ft")
        assert theirs.do("put_back").say == (
            f"{original.name} says that it put R-1 in stock: one of these files is a copy of the "
            "other. Ctrl+S again puts it in stock once more.")
        assert [one.length for one in book.stock.coils] == [120.0]
        assert theirs.do("put_back").changed
        # What it put there itself it puts right without a word.
        theirs.take(0, "11 ft")
        assert theirs.do("put_back").changed
        assert [(one.tag, one.length) for one in book.stock.coils] == [
            ("R-1", 120.0), ("R-1-2", 132.0)]

    def test_what_has_not_come_or_is_on_hold_goes_into_no_stock(self, store: Store) -> None:
        job = give(small_gable(), "coils.supplier_heaviest", 850.0)
        assert len(plan(job).coils) == 3
        book = book_of(store)
        assert len(RunDone(book, plan(job)).asked) == 3, "nothing is entered in Receiving"
        drafted = RunDone(book, plan(job)).about(100)
        assert not any("Receiving" in line for line in drafted)
        assert any(line.startswith("No order of this job was sent") for line in drafted)
        sent = dataclasses.replace(job, life=Life(steps=(LifeStep(
            state=OrderState.ORDERED, date=datetime.date(2027, 4, 9)),)))
        assert not RunDone(book, plan(sent)).asked, "sent, and nobody said that it came"
        (line,) = (line for line in RunDone(book, plan(sent)).about(100) if "Receiving" in line)
        assert line.startswith("Coil 1 of the order; coil 2 of the order; coil 3 of the order: "
                               "still on its way")
        there = with_steps(sent, OrderState.DELIVERED)
        assert len(RunDone(book, plan(there)).asked) == 3
        assert any(line.startswith("Nothing of the order is entered in Receiving")
                   for line in RunDone(book, plan(there)).about(100))
        came = with_arrived(sent, Arrival(tag="R-1", coil=1),
                            Arrival(tag="R-2", coil=2, faults=(Fault.RUST,)))
        run = RunDone(book, plan(came))
        # The tag is what hangs on it.
        assert [asked.answer.label for asked in run.asked] == ["coil 1, tag R-1"]
        held, gone = (line for line in run.about(100) if "of the order" in line)
        assert held.startswith("Coil 2 of the order, tag R-2")
        assert "ON HOLD in Receiving" in held
        assert gone.startswith("Coil 3 of the order: not come, by Receiving")
        back = dataclasses.replace(came.arrived[1], decision=Decision.SENT_BACK)
        gone, waited = (line for line in RunDone(book, plan(
            with_arrived(sent, came.arrived[0], back))).about(100) if "of the order" in line)
        assert gone.startswith("Coil 2 of the order: sent back, and nothing has come in its place")
        assert waited.startswith("Coil 3 of the order: not come, by Receiving")
        # Taken knowingly, by name and with a reason, it is run.
        taken = dataclasses.replace(came.arrived[1], decision=Decision.TAKEN, decided_by="A. Reed",
                                    reason="rust on the outer wrap alone")
        assert len(RunDone(book, plan(with_arrived(sent, came.arrived[0], taken))).asked) == 2
        # What went to stock before is asked all the same, so that it can be put right.
        before = dataclasses.replace(came, put_in_stock={"coil.3": "R-3"})
        assert len(RunDone(book, plan(before)).asked) == 2
        # Of two that came for one coil the held one was not run: nothing is picked.
        both = with_arrived(sent, *came.arrived, Arrival(tag="R-4", coil=2))
        run = RunDone(book, plan(both))
        assert len(run.asked) == 2
        run.texts[run.asked[1].answer.key] = "20 ft"
        assert run.do("put_back").changed
        assert [coil.tag for coil in book.stock.coils] == ["R-4"]

    def test_left_on_paper_is_of_the_lists_on_the_run_sheet(self, store: Store) -> None:
        job = with_steps(send(quoted_barn(), datetime.date(2027, 3, 4)), OrderState.DELIVERED)
        longer = tuple(dataclasses.replace(one, eave=600.0) for one in job.roof.planes)
        changed = plan(dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=longer)))

        def paper(made: Plan) -> list[str]:
            return [asked.help for asked in RunDone(book_of(store), made).asked]

        # The coil that comes is of the order as it was sent; what is cut from it, as it is now.
        assert "On paper it is 48 ft 8 5/8 in short of its list, by the order." in (
            paper(baseline(changed))[0])
        assert "It is 48 ft 8 5/8 in short of this list" in render("run", changed, "text")
        assert "by the lists of the job as it is now" in "".join(
            RunDone(book_of(store), baseline(changed)).about(100))
        assert "168 ft 3 in is left" in paper(plan(job))[0]
        held_to = baseline_words(changed)
        assert held_to in RunDone(book_of(store), baseline(changed), held_to).about(100)

    def test_run_once_more_takes_the_place_of_what_is_there(self, store: Store) -> None:
        done, book = plan(small_gable()), book_of(store)
        kept: list[dict[str, str]] = []

        def again(text: str) -> list[tuple[str, float | None]]:
            known = dataclasses.replace(done.job, put_in_stock=kept[-1] if kept else {})
            run = RunDone(book, dataclasses.replace(done, job=known), "", kept.append)
            run.texts[run.asked[-1].answer.key] = text
            if not run.do("put_back").changed:  # no order was sent: it is asked, where it is new
                assert run.do("put_back").changed
            return [(coil.tag, coil.length) for coil in book.stock.coils]

        tag = f"{done.job.title} 1"
        book.change(Stock(coils=(coil(tag, 5),)), "another job's, of the same name")
        other = (tag, 60.0)
        assert again("37 ft") == [other, (f"{tag}-2", 444.0)]
        moved = book.stock.coils[-1]
        book.change(book.stock.swap(moved.tag, dataclasses.replace(moved, where="bay 2")), "moved")
        assert again("30 ft") == [other, (f"{tag}-2", 360.0)]
        assert book.stock.coils[-1].where == "bay 2"
        assert again("0") == [other]
        assert again("12 ft") == [other, (f"{tag}-2", 144.0)]
        # Whoever took it out of stock meanwhile: then it is put in anew.
        book.change(book.stock.take(f"{tag}-2"), "sold")
        assert again("12 ft") == [other, (f"{tag}-2", 144.0)]

    async def test_one_move_with_a_measured_length_and_undo(
        self, app_on: Make, store: Store
    ) -> None:
        save_stock(store.folder, demo_stock())
        app = app_on(barn(stock=True), "summary")
        async with driven(app, size=(120, 40), notifications=True) as pilot:
            await settle(pilot)
            await pilot.click("#run-done")
            await settle(pilot)
            screen = app.screen
            assert isinstance(screen, EntryScreen)
            assert isinstance(screen.entry, RunDone)
            await type_text(pilot, "about ten")
            await pilot.press("ctrl+s")
            await settle(pilot)
            assert load_stock(store.folder)[0] == demo_stock(), "nothing until all is read"
            await type_text(pilot, "10 ft")
            new = screen.entries[-1]
            new.focus()
            await settle(pilot)
            await type_text(pilot, "37")
            await pilot.press("ctrl+s")
            await settle(pilot)
            assert load_stock(store.folder)[0] == demo_stock(), "no order was sent: asked first"
            await pilot.press("ctrl+s")
            await settle(pilot)
            stock = load_stock(store.folder)[0]
            first = stock.find("S-101")
            assert first is not None
            assert first.length == 120
            left = stock.find("Heron Lane barn 1")
            assert left is not None
            assert (left.length, left.width) == (444, 21)
            await pilot.press("ctrl+s")
            await settle(pilot)
            assert load_stock(store.folder)[0] == stock, "not twice"
            await type_text(pilot, "36")
            await pilot.press("ctrl+s")
            await settle(pilot)
            lengths = [coil.length for coil in load_stock(store.folder)[0].coils
                       if coil.tag.startswith("Heron Lane barn")]
            assert lengths == [432], "in the place of what went to stock before"
            await pilot.press("ctrl+z")
            assert load_stock(store.folder)[0] == stock
            await pilot.press("ctrl+z")
            await settle(pilot)
            assert load_stock(store.folder)[0] == stock, "36 was typed"
            assert isinstance(new.box, Input)
            assert new.box.value == "37"
            await pilot.press("ctrl+z")
            await settle(pilot)
            assert load_stock(store.folder)[0] == demo_stock()
            await pilot.press("ctrl+y")
            assert load_stock(store.folder)[0] == stock
            await pilot.press("ctrl+z")
            await settle(pilot)
            await type_text(pilot, "37")
            await pilot.press("ctrl+s", "escape")
            await settle(pilot)
            assert wizard(app).session.job.put_in_stock == {
                "coil.1": "Heron Lane barn 1", "on_hand.1": "S-101", "on_hand.2": "S-102",
                "on_hand.3": "S-107"}
            session = wizard(app).session
            session.type_text("job.client", "B. Demo")
            session.undo()
            assert session.job.put_in_stock, "undo of an answer empties no shelf"
            # Opened again, as after a step back: what is there stands in the box.
            await pilot.click("#run-done")
            await settle(pilot)
            again = app.screen
            assert isinstance(again, EntryScreen)
            box = again.entries[-1].box
            assert isinstance(box, Input)
            assert box.value == "37 ft"
            first_box = again.entries[0].box
            assert isinstance(first_box, Input)
            assert first_box.value == "10 ft"
            assert "Put back already: S-101, 10 ft;" in screen_text(app)
            assert "Not as this job took them" not in screen_text(app)
            again.query_one("#entry-done").focus()
            await settle(pilot)
            # One button alone: there is none beside it.
            assert str(again.query_one("#entry-help", Static).render()).strip() == "Enter does it"
            stood = load_stock(store.folder)[0]
            await pilot.press("ctrl+s", "escape")
            await settle(pilot)
            assert load_stock(store.folder)[0] == stood


async def test_the_run_sheet_is_saved_in_all_its_forms(app_on: Make, store: Store) -> None:
    app = app_on(barn(stock=True), "summary")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await app.screen.run_action("save_sheets")
        await settle(pilot)
        saved = {path.name for path in store.sheets_folder.iterdir()}
        assert {f"heron-lane-barn-run.{form}" for form in ("md", "html", "csv")} <= saved
        assert "heron-lane-barn-questions.csv" not in saved
        rows = (store.sheets_folder / "heron-lane-barn-run.csv").read_text("utf-8")
        assert "S-101,yes,8 (invented)" in rows
