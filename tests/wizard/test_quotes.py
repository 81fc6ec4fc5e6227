"""The Suppliers step: quotes as rows, ranked beside each other, awarded; nothing typed is lost."""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Callable
from pathlib import Path
from typing import cast

import pytest
from textual.widgets import Input, OptionList, Static

from coilwright.drawing.cost import landed_words
from coilwright.job.answers import UnreadableAnswer
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.spec import Form
from coilwright.job.edit import do_not_know, give, step_guesses
from coilwright.job.job import Job
from coilwright.job.life import Confirmed, OrderState
from coilwright.job.life_lines import life_lines
from coilwright.job.metal import MetalName
from coilwright.job.quotes import Quote
from coilwright.job.rows.quotes import QUOTES as PLACE
from coilwright.job.rows.quotes import add, label
from coilwright.job.sending import stepped
from coilwright.job.shop import Shop, Supplier
from coilwright.plan import plan
from coilwright.plan.questions import reply
from coilwright.plan.quotes.award import award, otherwise_words
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import Share
from coilwright.sheets.quotes import share_words
from coilwright.sheets.sending import send
from coilwright.sheets.state import state_of
from coilwright.store import Store
from coilwright.store.shop import save_shop
from coilwright.units import Kind, System
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.about_line import AboutLine
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.quote_measures import MEASURES, RateAnswer, SizesAnswer
from coilwright.wizard.lists.quotes import QUOTES, quote_lines
from coilwright.wizard.lists.screen import ListScreen
from coilwright.wizard.screens.figures import WorkingScreen
from coilwright.wizard.session import Session
from coilwright.wizard.steps.quotes.life_screen import LifeScreen
from tests.cases import set_answers
from tests.plan.quotes.five import FIVE, barn, quote
from tests.wizard.pilot import SteadyPilot, driven
from tests.wizard.wizard_driving import SIZES, screen_text, settle, wizard

Make = Callable[..., CoilwrightApp]


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty data folder."""
    return Store(tmp_path / "data")


@pytest.fixture
def app_on(store: Store) -> Make:
    """An app on a job, at the step of the suppliers."""
    return lambda job: CoilwrightApp(store, Session(store, job), "quotes")


def job_of(app: CoilwrightApp) -> Job:
    """The job that is worked on."""
    return wizard(app).session.job


async def into_rows(app: CoilwrightApp, pilot: SteadyPilot) -> RowsBlock:
    """The focus in the rows."""
    block = wizard(app).query_one("#quote-block", RowsBlock)
    block.take_focus()
    await settle(pilot)
    return block


@pytest.mark.parametrize("size", SIZES)
async def test_ranked_beside_each_other(app_on: Make, size: tuple[int, int]) -> None:
    app = app_on(barn(*FIVE, quote("Tern Hill (invented)", price="$1.62/lb")))
    async with driven(app, size=size) as pilot:
        block = await into_rows(app, pilot)
        names = [line.name.split()[0] for line in block.shown]
        assert names == ["Alder", "Birch", "Slate", "Fern", "Elk", "Tern"]
        text = screen_text(app)
        for words in ("1 Alder", "2 Birch", "$4,148.95", "$1.78/lb", "at least $3,645.49",
                      "missing: slitting"):
            assert words in text
        if size[0] > 80:
            return
        # Above the first row there is nothing, and the ends are reached from either end.
        await pilot.press("home", "up")
        assert app.focused is block.list
        await pilot.press("end", "down", "end")
        last = app.focused
        assert last is not None
        assert last is not block.list
        assert last not in block.ancestors_with_self
        await pilot.press("home")
        assert app.focused is block.list
        assert block.list.highlighted == 0
        # Back from the summary one is on the row from which it was opened.
        await pilot.press("down", "down", "f9")
        await settle(pilot)
        assert wizard(app).step == "summary"
        await pilot.press("f9")
        await settle(pilot)
        assert app.focused is block.list
        assert block.list.highlighted == 2


async def test_a_quote_is_entered_by_keys_and_counts_at_once(app_on: Make) -> None:
    app = app_on(barn())
    async with driven(app, size=(80, 24)) as pilot:
        await into_rows(app, pilot)
        text = screen_text(app)
        assert "2  Type each quote as it comes" in text, "what to do first"
        assert "Sort by" not in text, "what nothing is asked of is not shown"
        await pilot.press("a")
        form = app.screen
        assert isinstance(form, EntryScreen)
        await pilot.paste("Birch & Daughters")
        await pilot.press("enter")
        await pilot.paste("178 per cwt")
        await settle(pilot)
        assert "at least $4,005.53" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        (one,) = job_of(app).quotes.received
        assert one.supplier == "Birch & Daughters"
        assert one.price is not None
        assert (str(one.price.amount), one.price.per) == ("178", "cwt")
        text = screen_text(app)
        assert "missing: slitting, film, skid, freight, lead time" in text


async def test_what_cannot_be_read_is_kept_and_the_quote_not_ranked(app_on: Make) -> None:
    app = app_on(barn(*FIVE[:1]))
    async with driven(app, size=(80, 24)) as pilot:
        await into_rows(app, pilot)
        await pilot.press("enter")
        box = app.screen.query(Input)[1]
        box.focus()
        await settle(pilot)
        box.value = ""
        await pilot.paste("-3 bucks")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert job_of(app).typed == {"quotes.received.0.price": "-3 bucks"}
        assert "“-3 bucks” cannot be taken" in screen_text(app)
        assert compare(wizard(app).session.plan).ranked == ()
        # It opens at the box to mend.
        await pilot.press("enter")
        await settle(pilot)
        form = app.screen
        assert form.focused is form.query(Input)[1]


async def test_all_of_it_is_read_over_the_step(app_on: Make) -> None:
    app = app_on(barn(*FIVE))
    async with driven(app, size=(80, 24)) as pilot:
        await into_rows(app, pilot)
        await pilot.press("down", "v")
        assert isinstance(app.screen, ListScreen)
        await pilot.press("down")
        text = screen_text(app)
        for words in ("Birch & Daughters (invented): $4,505.54", "$1.78/lb × 2,250.3 lb"):
            assert words in text
        # F2 opens how what the marked one lands at was made.
        await pilot.press("f2")
        assert isinstance(app.screen, WorkingScreen)
        assert "4005.53 + 90.01 + 25 + 385" in screen_text(app)
        await pilot.press("escape", "escape")
        assert app.screen is wizard(app)
        # s sorts by the next thing there is: the day of arrival. The mark goes with its quote, or
        # w would award another.
        block = wizard(app).query_one("#quote-block", RowsBlock)
        before, at = block.marked(), block.list.highlighted
        assert before is not None
        await pilot.press("s")
        await settle(pilot)
        after = block.marked()
        assert after is not None
        assert after.key == before.key
        assert block.list.highlighted != at
        assert [line.name.split()[0] for line in block.shown] == [
            "Alder", "Elk", "Birch", "Fern", "Slate"]


def test_an_award_says_what_it_does_to_what_a_supplier_has_and_stays_once_that_came(
    store: Store
) -> None:
    sent = send(barn(*FIVE), datetime.date(2027, 3, 4))
    rows = JobRows(QUOTES, Session(store, sent))
    first, second = rows.lines()[:2]
    save_shop(store.folder, Shop(suppliers=(
        Supplier(name="ALDER (invented)", contact="R. Demo (invented)", phone="555-0177"),)))
    said = rows.do("award", first).say
    head = rows.session.job.order
    assert (head.attention, head.supplier_phone) == ("R. Demo (invented)", "555-0177"), (
        "whom the shop knows there")
    assert said.endswith(
        "Revision A of order D-1041 stands with Birch (invented): cancel it there in writing "
        "before this goes to Alder (invented). This one needs a number of its own. u takes this "
        "back.")
    # The award of an order that was sent is moved, or taken off, by a key that was asked.
    moved = rows.session.job
    (one,) = moved.life.sent
    rows.change(dataclasses.replace(moved, life=dataclasses.replace(
        moved.life, sent=(dataclasses.replace(one, supplier="Alder  (invented)"),))), "theirs")
    theirs = rows.session.job
    for line in (second, first):
        assert "revision A of Mar 4, 2027, and its supplier works by it. w once more does it." in (
            rows.do("award", line).say)
        assert rows.session.job is theirs
    # After something else it is asked again.
    rows.do("details", first)
    assert "w once more does it." in rows.do("award", first).say
    assert rows.session.job is theirs
    # Where it went to another, this one has nothing to work by: it is taken off as any award is.
    rows.change(moved, "Birch's")
    assert rows.do("award", first).say == (
        "The order goes to Alder (invented) by this quote. w once more takes that back.")
    said = rows.do("award", first).say
    assert rows.session.job.order == sent.order
    assert said.endswith("Birch (invented) has revision A of Mar 4, 2027 and works by it until you "
                         "send revision B; u takes this back.")
    # An awarded one that was given for another color is awarded anew by the key that was asked.
    rows.do("award", first)
    rows.change(give(rows.session.job, MetalKey.COLOR, "Bark gray"), "gray")
    for asked in (True, False):
        said = rows.do("award", rows.lines()[0]).say
        assert said.startswith("Is the quote of Alder (invented) for the order as it is now?"
                               ) is asked
        found = compare(rows.session.plan).quotes[rows.lines()[0].key]
        assert (found.quote.awarded, bool(otherwise_words(rows.session.plan, found))) == (
            True, asked)
    assert [line[1:] for line in life_lines(rows.session.job)[1:]] == [
        ("awarded", "Alder (invented)"), ("award taken back", "Alder (invented)"),
        ("awarded", "Alder (invented)"),
        ("awarded anew", "Alder (invented): Color was slate gray (invented sample 3), and Bark "
         "gray is ordered; for 1 coil, 2,250 lb")]
    rows.change(sent, "as it was")
    came = stepped(rows.session.job, OrderState.DELIVERED, datetime.date(2027, 4, 2))
    rows = JobRows(QUOTES, Session(store, came))
    for line in (first, second):
        assert rows.do("award", line).say == (
            "The order is delivered on Apr 2, 2027: by which quote it went is on record and stays. "
            "Where the record is wrong, a step back in Life of the order comes first.")
        assert rows.session.job.quotes == came.quotes


def test_what_a_lump_is_for_is_kept_as_it_is_typed(store: Store) -> None:
    rows = JobRows(QUOTES, Session(store, barn(quote("Fern Hollow (invented)"))))
    at = [one.name for one in QUOTES.measures].index("price")
    now = rows.session.plan.figures["coil.mass_ordered"].as_read()
    for typed, kept in (("$4,650 lump", now), ("1.62/lb", None)):
        rows.entry(0).take(at, typed)
        assert rows.session.job.quotes.received[0].lump_for == kept


async def test_awarding_fills_the_order_and_undo_takes_it_back(app_on: Make) -> None:
    app = app_on(barn(*FIVE))
    async with driven(app, size=(80, 24)) as pilot:
        await into_rows(app, pilot)
        await pilot.press("down", "w")
        await settle(pilot)
        job = job_of(app)
        assert [one.awarded for one in job.quotes.received] == [True, False, False, False, False]
        assert job.order.supplier == "Birch & Daughters (invented)"
        assert job.coils.lead_time == 29
        assert "2 ✓ Birch" in screen_text(app)
        assert plan(job).figures["coil.cost"].text() == "$4,005.53"
        # The key asks before it takes an award back: struck twice it awards, and no more.
        await pilot.press("w")
        await settle(pilot)
        assert job_of(app) == job
        assert app.notices[0].message.endswith("by this quote. w once more takes that back.")
        # What was replied while it goes there is asked anew of the next one, which a line says.
        session = wizard(app).session
        session.change(reply(job, "supplier.slitting", "both edges slit, A. Birch")[0], "replied")
        session.seal()
        await pilot.press("down", "w")
        await settle(pilot)
        assert "To be asked anew, for it went to Birch & Daughters (invented): 1 question." in (
            app.notices[0].message)
        session.undo()
        session.undo()
        wizard(app).refresh_all()
        # A key that leads elsewhere takes back what a key had asked.
        rows = app.screen.query_one("#quote-block", RowsBlock).rows
        assert rows is not None
        rows.asked_about = 1, job
        await pilot.press("up")
        await settle(pilot)
        assert rows.asked_about is None
        # Deleted, it would leave the order with nobody's price, days and name.
        await pilot.press("d", "d")
        await settle(pilot)
        assert job_of(app) == job
        # Nothing was deleted, so nothing came in its place: it is said again, and no more.
        assert QUOTES.held is not None
        assert {app.notices[at].message for at in (0, 1)} == {QUOTES.held(job, 0)}
        # A copy is one more quote, not a second order; it may go.
        await pilot.press("c")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert [one.awarded for one in job_of(app).quotes.received].count(True) == 1
        assert len(job_of(app).quotes.received) == 6
        await pilot.press("ctrl+z", "ctrl+z")
        await settle(pilot)
        assert not any(one.awarded for one in job_of(app).quotes.received)
        assert job_of(app).coils.lead_time == 21


async def left(app: CoilwrightApp, pilot: SteadyPilot) -> None:
    """Leave the life of the order, which stays below what it asks."""
    await settle(pilot)
    if isinstance(app.screen, LifeScreen):
        await pilot.press("escape")
        await settle(pilot)


async def step(
    app: CoilwrightApp, pilot: SteadyPilot, day: str, *down: str, note: str | None = None
) -> None:
    """Record the next step of the order on a day; down: how often, to the one that is meant."""
    wizard(app).action_order_life()
    await settle(pilot)
    await pilot.press("n", *down, "enter")
    await settle(pilot)
    assert isinstance(app.screen_stack[-2], LifeScreen), "what it asks lies over it"
    assert "Enter goes on, and on the last line takes all" in " ".join(
        screen_text(app).replace("│", " ").split())
    app.screen.query(Input)[0].value = day
    if note is not None:
        app.screen.query(Input)[1].value = note
    await pilot.press("enter", "enter")
    await left(app, pilot)


@pytest.mark.usefixtures("collected")
async def test_an_order_from_request_to_run_and_back(
    app_on: Make, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("life", "confirmed"):
        monkeypatch.setattr(f"coilwright.wizard.steps.quotes.{name}.today",
                            lambda: datetime.date(2027, 4, 9))
    app = app_on(barn(*FIVE))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await step(app, pilot, "2027-03-01")
        assert job_of(app).life.state is OrderState.OUT
        # What is said of its date goes with the day as it is typed.
        job = job_of(app)
        wizard(app).session.change(dataclasses.replace(job, order=dataclasses.replace(
            job.order, date=datetime.date(2027, 3, 20))), "dated")
        wizard(app).action_order_life()
        await settle(pilot)
        await pilot.press("n", "enter")
        await settle(pilot)
        for day, on in (("", ""), ("3 10 2027", "Mar 10, 2027"), ("Mar 20, 2027", "")):
            if day:
                app.screen.query(Input)[0].value = day
                await settle(pilot)
            said = str(app.screen.query_one("#lines-about", Static).content)
            assert (f"goes out before that, on {on}." in said) is bool(on), day
            assert ("goes out before that" in said) is bool(on), day
        await pilot.press("escape")
        await left(app, pilot)
        wizard(app).session.undo()
        await step(app, pilot, "March 4, 2027", note="sent by e-mail")
        assert job_of(app).life.steps[-1].note.endswith("; sent by e-mail")
        assert state_of(wizard(app).session.plan) == "ORDERED Mar 4, 2027, revision A"
        wizard(app).session.change(give(job_of(app), "metal.back_coat", "white"), "back coat")
        wizard(app).session.seal()
        wizard(app).session.change(give(job_of(app), "coils.spare", 0.05), "spare")
        wizard(app).action_order_life()
        await settle(pilot)
        said = screen_text(app)
        assert "CHANGED, 1 to settle before revision" in said
        # What the supplier is told stands first; what is behind it is folded.
        assert said.index("For the supplier, since revision A") < said.index("Coil 1")
        assert "Behind it, on our side: 1 answer and " in said
        assert "n next: send B  b step back" in said
        assert "3 %, now 5 %" not in said
        await pilot.press("m", "end")
        await settle(pilot)
        assert "3 %, now 5 %" in screen_text(app)
        await pilot.press("s")
        await settle(pilot)
        assert "Coil order" in screen_text(app)
        await pilot.press("w")
        page = store.sheets_folder / "order-d-1041-a-as-sent.html"
        await pilot.press("escape")
        # With it the load is another one than was weighed: as it was, the order can be sent.
        wizard(app).session.undo()
        assert page.read_text("utf-8") == job_of(app).life.sent[0].page
        await step(app, pilot, "2027-03-08")
        assert [one.revision for one in job_of(app).life.sent] == ["A", "B"]
        assert "wash coat, light gray (invented) → white" in " ".join(
            job_of(app).life.sent[1].sheet.split())
        session = wizard(app).session
        # What the supplier writes back is recorded beside it: it comes before the coils.
        await step(app, pilot, "2027-03-01", note="T-88")
        await pilot.press("enter")
        await settle(pilot)
        assert "It was confirmed on Mar 1, 2027" in screen_text(app)
        app.screen.query(Input)[0].value = "2027-04-20"
        await pilot.press("enter")
        await settle(pilot)
        shown = " ".join(screen_text(app).split())
        assert "Apr 20, 2027 has not come yet" in shown
        assert "Enter takes all; Escape" in shown, "they were gone through once"
        assert session.job.life.sent[-1].confirmed is None
        app.screen.query(Input)[0].value = "2027-03-10"
        await pilot.press("enter")
        await settle(pilot)
        # One goes on from there: what is next stands in it, and the last step is taken back in it.
        assert isinstance(app.screen, LifeScreen)
        assert "n next: delivered" in screen_text(app)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert isinstance(app.screen, LifeScreen)
        assert session.job.life.sent[-1].confirmed is None
        session.redo()
        await left(app, pilot)
        sent_back = job_of(app).life.sent[-1].confirmed
        assert sent_back == Confirmed(date=datetime.date(2027, 3, 10), number="T-88")
        wizard(app).action_order_life()
        await settle(pilot)
        assert "Revision B confirmed Mar 10, 2027, their number T-88, no ship" in " ".join(
            screen_text(app).replace("│", " ").split())
        assert "What revision B changed of revision A" in screen_text(app)
        await pilot.press("b")
        await settle(pilot)
        assert "has revision B: tell them" in screen_text(app)
        await pilot.press("enter", "enter")
        await left(app, pilot)
        assert "still has revision B" in app.notices[0].message
        await wizard(app).go("summary")
        await settle(pilot)
        # The title has room for it, and the summary says it where it says READY.
        shown = screen_text(app)
        assert "revision B does not stand" in shown.partition("\n")[0]
        assert "Nothing stands as sent" in shown.partition("Questions")[0]
        wizard(app).action_order_life()
        await settle(pilot)
        assert "Nothing stands as sent" in screen_text(app)
        await pilot.press("escape")
        wizard(app).session.undo()
        await step(app, pilot, "2027-04-02")
        assert job_of(app).life.state is OrderState.DELIVERED
        # What is awaited is of today: it is no note on the day of the step.
        assert not job_of(app).life.steps[-1].note
        await settle(pilot)
        wizard(app).action_order_life()
        await settle(pilot)
        assert "Coils, today: 1 coil awaited." in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        assert re.search(r"State +DELIVERED Apr 2, 2027", screen_text(app)), "as its title says"
        assert "READY" not in screen_text(app)
        # A day that cannot be is there to be mended, and so is what was typed beside it.
        await step(app, pilot, "2027-04-01", note="all five ran well")
        assert [box.value for box in app.screen.query(Input)] == ["2027-04-01", "all five ran well"]
        await pilot.press("escape")
        await left(app, pilot)
        assert job_of(app).life.state is OrderState.DELIVERED
        # A day that has not come yet is asked about, and Enter again records it.
        await step(app, pilot, "2027-04-10")
        assert "has not come yet" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert "After the run" in screen_text(app)
        # What is left on paper is counted by the order that was sent, as Receiving counts.
        assert "Held to revision B, sent Mar 8, 2027" in screen_text(app)
        # However much is said has all the room there is, and can be read on where that is little.
        await pilot.press(*"999 ft")
        await settle(pilot)
        shown = " ".join(screen_text(app).replace("│", " ").split())
        said = cast("EntryScreen", app.screen).entry.about(76)
        assert len(" ".join(said)) > 4 * 76
        assert all(line in shown for line in said)
        await pilot.resize_terminal(60, 18)
        await settle(pilot)
        assert app.screen.query_one(AboutLine).allow_focus()
        await pilot.press("escape")
        await left(app, pilot)
        assert job_of(app).life.state is OrderState.RUN
        wizard(app).session.undo()
        assert job_of(app).life.state is OrderState.DELIVERED


async def test_a_new_job_like_this_one_and_like_the_marked_one(
    app_on: Make, store: Store
) -> None:
    app = app_on(barn(*FIVE))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_like_this()
        await settle(pilot)
        (made,) = [entry for entry in store.jobs() if "copy" in entry.title]
        assert store.load(made.path).quotes.received == ()
        # One goes on in the new one, from its name; the old one stays as it was.
        assert wizard(app).session.path == made.path
        assert (focused := wizard(app).focused_field()) is not None
        assert focused.key == JobKey.NAME
        assert any("was not changed" in n.message for n in app.notices)
        await pilot.paste("Hen house")
        assert job_of(app).title == "Hen house"
        assert "(copy)" not in screen_text(app)
        await pilot.press("f10")
        await settle(pilot)
        # Its file is called as it is: the list of files names no other client's place.
        assert {one.path.name for one in store.jobs()} >= {"hen-house.job.json"}
        assert not any("copy" in one.path.name for one in store.jobs())
        assert not any("is kept as it began" in n.message for n in app.notices)
    app = CoilwrightApp(store)
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("down", "l")
        await settle(pilot)
        job = job_of(app)
        assert job.title.endswith("(copy)")
        assert job.roof == barn().roof
        assert "guesses now, of that job" in app.notices[0].message
        guesses = step_guesses(job, "roof")
        assert {"roof.planes.0"} <= {*guesses}
        await wizard(app).go("roof")
        wizard(app).action_confirm_step()
        assert not step_guesses(job_of(app), "roof")
        assert app.notices[0].message.startswith(f"{len(guesses)} guesses made sure")
        wizard(app).action_undo()
        assert step_guesses(job_of(app), "roof") == guesses
        await wizard(app).go("summary")
        wizard(app).action_confirm_step()
        assert "is a guess" in app.notices[0].message
        assert wizard(app).session.path not in (None, made.path)
    app = CoilwrightApp(store)
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        rows = app.screen.query_one("#start-rows", OptionList)
        rows.highlighted = rows.get_option_index("demo:heron-lane-barn")
        await pilot.press("l")
        await settle(pilot)
        assert job_of(app).title == "Heron Lane barn (copy)"
        # A copy is kept though nothing of it is changed: it is a job with all it took along.
        kept = wizard(app).session.path
        await pilot.press("f10")
        await settle(pilot)
        assert kept in [entry.path for entry in store.jobs()]
        assert "“Heron Lane barn (copy)” is kept as it began" in app.notices[0].message


async def test_the_summary_says_what_it_costs_and_what_it_lands_at(app_on: Make) -> None:
    app = app_on(award(plan(barn(*FIVE)), 1))
    async with driven(app, size=(120, 40)) as pilot:
        await wizard(app).go("summary")
        await settle(pilot)
        text = screen_text(app)
        # $4,005.53 and $4,505.54 over 15.12 squares
        assert "$4,005.53 · $264.92 per square of roof" in text
        assert "$4,505.54 · $297.99 per square of roof · Birch & Daughters (invented)" in text


def test_a_quote_says_which_side_belongs_into_which_box() -> None:
    measure = next(one for one in MEASURES if one.name == "tolerance")
    with pytest.raises(UnreadableAnswer, match="Put 0 % into the box of what may come under, and "
                       "10 % into that of what may come over"):
        measure.typed("quotes.received.0.tolerance").answer.read("−0/+10 %")
    assert measure.typed("quotes.received.0.tolerance").answer.read("5 %") == 0.05


def test_a_box_is_called_the_same_in_the_form_and_in_what_is_said_of_it() -> None:
    assert {one.name: one.label for one in MEASURES} == {
        one.name: label(one.name) for one in MEASURES}


def test_included_stands_in_the_box_as_it_was_typed() -> None:
    box = RateAnswer("quotes.received.0.slitting", "Slitting", Form.TEXT)
    for typed, shown in (("included", "included"), ("incl.", "included"), ("0", "no charge"),
                         ("none", "no charge")):
        assert box.text(box.read(typed)) == shown, typed
        assert box.read(shown) == box.read(typed)
    assert box.text(box.read("0/lb")) == "$0.00/lb"
    assert box.text(box.read("0.04/lb")) == "$0.04/lb"


def test_a_price_is_read_in_the_currency_of_its_quote_and_in_no_other() -> None:
    job = add(add(barn(), Quote(supplier="A", currency="EUR")), Quote(supplier="B", currency="CAD"))
    for index, typed, other in ((0, "€2.10/kg", "$2.10/kg"), (0, "2.10 EUR/kg", "2.10 USD/kg"),
                                (1, "$2.10/kg", "€2.10/kg"), (1, "CAD 2.10/kg", "£2.10/kg")):
        box = RateAnswer(f"quotes.received.{index}.price", "Price", Form.TEXT).in_job(job)
        assert str(box.read(typed, System.METRIC).amount) == "2.10", typed
        # Its currency stands in a row of its own, and its box reads what stands in it.
        assert box.text(box.read(typed)) == "2.10/kg", typed
        assert box.read(box.text(box.read(typed))) == box.read(typed)
        with pytest.raises(UnreadableAnswer, match="this quote is in"):
            box.read(other, System.METRIC)
    # Where nobody picked it, it is the job's; while the job has none, a number waits for it.
    metric = dataclasses.replace(job, units=System.METRIC)
    metric = add(metric, Quote(supplier="C", job_currency=True))
    currency = next(one for one in MEASURES if one.name == "currency").asked(PLACE, 2).answer
    assert currency.value(metric) is None
    open_box = RateAnswer("quotes.received.2.price", "Price", Form.TEXT).in_job(metric)
    assert str(open_box.read("2.10/kg", System.METRIC).amount) == "2.10"
    with pytest.raises(UnreadableAnswer, match="put that into “Currency”"):
        open_box.read("2.10 USD/kg", System.METRIC)
    given = give(metric, JobKey.CURRENCY, "SEK")
    assert currency.value(given) == "SEK"
    picked = currency.put(given, "CHF")
    assert currency.value(give(picked, JobKey.CURRENCY, "EUR")) == "CHF"
    assert currency.value(currency.put(picked, None)) == "SEK"
    dollars = RateAnswer("quotes.received.9.price", "Price", Form.TEXT).in_job(job)
    assert dollars.text(dollars.read("$2.10/lb")) == "$2.10/lb"


def test_a_coating_is_asked_of_metals_that_have_one() -> None:
    coating = next(one for one in MEASURES if one.name == "coating")
    assert coating.applies is not None
    job, theirs = barn(), Quote(supplier="Pine (invented)")
    assert coating.applies(job, theirs, "")
    assert not coating.applies(
        job, dataclasses.replace(theirs, metal=MetalName.ALUMINUM), "")
    bare = set_answers(job, {"metal.metal": MetalName.ALUMINUM})
    assert not coating.applies(bare, theirs, "")
    assert coating.applies(bare, dataclasses.replace(theirs, metal=MetalName.STEEL), "")
    # A gauge is asked where metal goes by one; in metric only what somebody has put in stays.
    gauge = next(one for one in MEASURES if one.name == "gauge")
    metric = dataclasses.replace(job, units=System.METRIC)
    assert gauge.applies is not None
    assert [gauge.applies(each, one, "") for each, one in (
        (job, theirs), (metric, theirs), (metric, dataclasses.replace(theirs, gauge=24)),
    )] == [True, False, True]


def test_a_share_of_what_a_quote_lands_at_is_marked_as_the_whole_is() -> None:
    sure = barn(quote("Birch (invented)", price="2.45/lb"))
    for job, mark in ((sure, ""), (do_not_know(sure, CoilsKey.SPARE), "~ ")):
        (report,) = compare(plan(job)).quotes
        for said in (landed_words(report).removeprefix("at least "),
                     share_words(report, Share.ROOF, System.US)):
            assert said.startswith(f"{mark}$")


def test_a_suppliers_name_stands_whole_in_the_list_or_below_its_row() -> None:
    """At 120 cells the list is 57 wide: two suppliers of one beginning read alike."""
    (report,) = compare(plan(barn(quote("Ostheim Coil Yard North", price="2.45/lb")))).quotes
    for width in (57, 70):
        lines = quote_lines(report, None, System.US, width).split("\n")
        assert all(len(line) <= width for line in lines)
        assert lines[0].count("Ostheim Coil Yard North") == (width == 70)
        assert lines[1].strip().startswith("Ostheim Coil Yard North: ") is (width == 57)


def test_a_quote_changed_after_its_award_says_how_the_order_takes_it_in(tmp_path: Path) -> None:
    job = award(plan(barn(quote("Pine (invented)", price="2.45/lb", lead_time=20))), 1)
    assert QUOTES.below is not None

    def said(shown: Job) -> str:
        return " ".join(QUOTES.below(Session(Store(tmp_path), shown), 100))

    assert "than when it was" not in said(job)
    (one,) = job.quotes.received
    changed = dataclasses.replace(job, quotes=dataclasses.replace(
        job.quotes, received=(dataclasses.replace(one, lead_time=25),)))
    assert ("By now the quote of Pine (invented) says otherwise than when it was awarded: "
            "Lead time, days (then “20”, now “25”).") in said(changed)
    assert QUOTES.entry.about is not None
    follows = "The order does not follow yet: w on its row takes that in."
    for shown, told in ((job, False), (changed, True)):
        foot = QUOTES.entry.about(JobRows(QUOTES, Session(Store(tmp_path), shown)), 0, 100)
        assert (follows in foot) is told
    assert "w takes the quote in as it is now" in said(changed)
    assert "The order does not follow by itself" in said(changed)
    # Nor does it in what coils are sold: what is ordered stands beside what would ship.
    sized = award(plan(barn(dataclasses.replace(one, awarded=False, coil_masses=(1500.0,)))), 1)
    changed = dataclasses.replace(sized, quotes=dataclasses.replace(
        sized.quotes, received=(dataclasses.replace(
            sized.quotes.received[0], coil_masses=(1200.0,)),)))
    assert "The order does not follow by itself" in said(changed)
    assert re.search(r"Ordered of Pine \(invented\): 2 coils, [^:]*3,000 lb.* Awarded anew it "
                     r"would ship 2 coils, [^:]*2,400 lb", said(changed))


def test_sizes_are_read_with_strokes_between_as_people_write_them() -> None:
    sizes = SizesAnswer("quote.coil_masses", "Coil weights", Form.QUANTITY, Kind.MASS, ("lb", "kg"))
    for text in ("400/600/800", "400 / 600 / 800", "400/600/800 kg"):
        assert sizes.read(text, System.METRIC) == sizes.read("400; 600; 800", System.METRIC)
    assert sizes.read("1/2", System.US) == (0.5,), "a fraction is one"
