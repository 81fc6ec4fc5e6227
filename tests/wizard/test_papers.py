"""Order head and requests for a quote: typed, numbered, from the shop, kept in the job."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from textual.widgets import Input

from coilwright.job.copies import copied
from coilwright.job.edit import give
from coilwright.job.life import OrderState
from coilwright.job.life_lines import life_lines
from coilwright.job.order import Order
from coilwright.job.shop import Supplier
from coilwright.sheets.request import makes_draft
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs
from coilwright.store.shop import load_shop, save_shop
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.papers import ORDER, PaperRows
from coilwright.wizard.lists.requests import REQUEST_LIST
from coilwright.wizard.lists.screen import ListScreen
from coilwright.wizard.lists.shop import MY_BUYER, MY_SUPPLIERS
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.session import Session
from coilwright.wizard.today import today
from coilwright.wizard.widgets.field import field_around
from tests.store.test_shop import shop
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import screen_lines, settle

SIZE = (80, 24)
TWO = dataclasses.replace(shop(), suppliers=(
    *shop().suppliers, Supplier(
        name="Tern Hill (invented)", contact="T. Hill", phone="555-0177")))


def text(app: CoilwrightApp) -> str:
    return "\n".join(screen_lines(app))


async def test_the_order_is_numbered_filled_from_the_shop_and_typed(tmp_path: Path) -> None:
    save_shop(tmp_path, dataclasses.replace(
        TWO, buyer=dataclasses.replace(TWO.buyer, bill_to="")))
    session = Session(Store(tmp_path), dataclasses.replace(
        demo_jobs()["heron-lane-barn"], order=Order(supplier=TWO.suppliers[-1].name.upper())))
    app = CoilwrightApp(session.store, session, "summary")
    async with driven(app, size=SIZE) as pilot:
        assert isinstance(app.screen, WizardScreen)
        # A line of what holds the order leads to its own line of the head.
        await app.screen.controllers.summary.open("head", "order.freight")
        await settle(pilot)
        assert field_around(app.screen.focused).key.endswith(".freight")
        await pilot.press("escape")
        await settle(pilot)
        app.screen.query_one("#order-head").focus()
        await pilot.press("enter")
        screen = app.screen
        assert isinstance(screen, EntryScreen)
        await pilot.press("up")  # the row of buttons stands before the first box, too
        assert screen.focused is screen.query_one("#entry-done")
        assert "▸ Done" in text(app), "a sign, not a color alone"
        await pilot.press("1")
        assert "changed nothing: this is a button" in app.notices[0].message
        await pilot.press("down")
        assert screen.here() is screen.entries[0]
        place = screen.query_one("#field-order-0-ship_to Input", Input)
        assert place.placeholder == f"the site: {session.job.job.site}", "as the order prints it"
        await pilot.click("#entry-number")
        await pilot.click("#entry-buyer")
        order = session.job.order
        assert (order.number, order.date) == ("7", today())
        assert (order.buyer, order.hours) == ("Gable & Seam (invented)", "7 to 3")
        assert (order.attention, order.supplier_phone) == ("T. Hill", "555-0177")
        assert load_shop(tmp_path)[0].next_order == 8
        screen.query_one("#field-order-0-bill_to Input", Input).focus()
        await pilot.paste("PO Box 9")
        assert "My shop does not have bill to yet: Keep in my shop (Ctrl+S) keeps that" in text(app)
        await pilot.press("ctrl+s")
        assert load_shop(tmp_path)[0].buyer.bill_to == "PO Box 9"
        assert "does not have" not in text(app)
        await pilot.click("#entry-suppliers")
        assert isinstance(app.screen, PickScreen)
        await pilot.press("down", "enter")
        assert session.job.order.supplier == "Tern Hill (invented)"
        assert session.job.order.attention == "T. Hill"
        # Another name typed over it: nobody is called at the other's number.
        name = screen.query_one("#field-order-0-supplier Input", Input)
        name.focus()
        name.select_all()
        await pilot.paste("Slate Creek (invented)")
        await pilot.press("down")
        assert (session.job.order.attention, session.job.order.supplier_phone) == ("", "")
        assert app.notices[0].message == (
            "“Attention” and “Supplier's phone” were of another supplier: now empty. Ctrl+Z takes "
            "the supplier back too.")
        assert screen.query_one("#field-order-0-attention Input", Input).value == ""
        # One change: no supplier stands there with the other's person meanwhile.
        head = session.job.order
        await pilot.press("ctrl+z")
        assert (session.job.order.supplier, session.job.order.attention) == (
            "Tern Hill (invented)", "T. Hill")
        assert session.redo() == "Slate Creek (invented), and whom to call there"
        assert session.job.order == head
        screen.query_one("#field-order-0-terms Input", Input).focus()
        await pilot.paste("net 30")
        await pilot.press("up", "up", "up", "up", "up")
        focused = app.focused
        assert isinstance(focused, Input)
        focused.select_all()
        await pilot.paste("today")
        assert session.job.order.date == today()
        assert "order.0.date" not in session.job.typed
        focused.select_all()
        await pilot.paste("soon")
        await pilot.press("escape")
    (unread,) = [one for one in session.plan.reasons if one.key == "order.date"]
    assert unread.words == "The head of the order: “soon” cannot be read as Date."
    assert not session.plan.ready
    assert session.job.order.terms == "net 30"
    assert session.job.order.date is None
    assert session.job.typed["order.0.date"] == "soon"
    session.save()
    assert session.path is not None
    assert session.store.load(session.path) == session.job


async def test_suppliers_are_asked_from_the_shop_or_typed_and_sheets_saved(tmp_path: Path) -> None:
    save_shop(tmp_path, TWO)
    guessed = give(demo_jobs()["heron-lane-barn"], "panel.coverage", 16.0, Standing.GUESS)
    guessed = dataclasses.replace(guessed, order=dataclasses.replace(
        guessed.order, buyer="", phone="", ship_to=""))
    session = Session(Store(tmp_path), guessed)
    app = CoilwrightApp(session.store, session, "summary")
    async with driven(app, size=SIZE) as pilot:
        assert isinstance(app.screen, WizardScreen)
        app.screen.query_one("#requests").focus()
        await pilot.press("enter")
        assert isinstance(app.screen, ListScreen)
        # What makes it a draft is named there, and nothing that suppliers can say.
        draft = makes_draft(session.plan)
        assert "“Coverage width” is a guess" in draft[0].words
        assert all(f"– {reason.words}" in text(app) for reason in draft)
        await pilot.press("p", "down", "down", "enter")
        assert session.job.order.ship_to == "", "it goes where it is said to"
        assert [one.supplier for one in session.job.requests] == [one.name for one in TWO.suppliers]
        await pilot.press("a")
        assert app.screen.query(Input).first().value == "", "it has no name yet, and none there"
        await pilot.paste("Slate Creek (invented)")
        await pilot.press("escape")
        assert [one.number for one in session.job.requests] == ["R1", "R2", "R3"]
        assert {one.date for one in session.job.requests} == {today()}
        # Whoever is asked is waited for: the order is out, once.
        (out,) = session.job.life.steps
        assert (out.state, out.date) == (OrderState.OUT, today())
        assert out.note == ", ".join(one.name for one in TWO.suppliers)
        assert "Slate Creek (invented)" in text(app)
        (line,) = life_lines(session.job)
        assert line[2].split(", ") == [one.supplier for one in session.job.requests]
        buyer, head = shop().buyer, session.job.order
        assert (head.buyer, head.phone) == (buyer.company, buyer.phone), "who asks is known"
        # Whom one has typed is kept by one key, which is said while they are not.
        assert "My shop does not have Slate Creek (invented) yet: k keeps that" in text(app)
        await pilot.press("k")
        assert load_shop(tmp_path)[0].suppliers[-1].name == "Slate Creek (invented)"
        assert "does not have" not in text(app)
        assert "×" not in text(app)
        # Whose phone it is, its label says and its place, beside what else is the supplier's.
        await pilot.press("enter", *["down"] * 3)
        phone = field_around(app.screen.focused)
        assert (phone.key.rpartition(".")[2], phone.answer.label) == ("phone", "Supplier's phone")
        assert session.job.requests[1].phone == "555-0177", "as the shop has it"
        await pilot.press("down", "down")
        await pilot.paste("J. Reed")
        await pilot.press("escape")
        assert "× R3" in text(app)
        await pilot.press("u")
        assert "×" not in text(app)
        await pilot.press("s")
        page = tmp_path / "sheets" / "request-r3-slate-creek-invented.txt"
        # A draft was not to go out; one that was stays as it was asked, and is asked anew.
        assert page.read_text().startswith("DRAFT")
        asked = page.read_text().removeprefix("DRAFT\n\n")
        page.write_text(asked.replace("21 in", "20 in"))
        page.with_suffix(".md").unlink()
        await pilot.press("s")
        assert "R3 not sent yet? s, pressed twice, writes it anew. Sent? n asks anew" in text(app)
        await pilot.press("n", "n")
        assert [one.number for one in session.job.requests] == ["R1", "R2", "R3", "R4"]
        assert session.job.requests[-1].supplier == "Slate Creek (invented)"
        await pilot.press("s", "escape")
        assert page.read_text() == asked.replace("21 in", "20 in")
        # The first names what was changed in another list, before it is taken back.
        await pilot.press("ctrl+z", "ctrl+z", "ctrl+z")
        # The paste into its form was the last change.
        assert session.job.requests[-1].supplier == "Supplier"
    saved = sorted(path.name for path in (tmp_path / "sheets").iterdir())
    assert len(saved) == 11, "a page and two texts of each, but for the text taken away"
    assert "request-r3-slate-creek-invented.txt" in saved
    assert load_shop(tmp_path)[0].next_request == 5


def test_a_supplier_of_the_shop_who_is_typed_is_asked_with_whom_to_call(tmp_path: Path) -> None:
    save_shop(tmp_path, TWO)
    session = Session(Store(tmp_path), demo_jobs()["heron-lane-barn"])
    rows = PaperRows(REQUEST_LIST, session)
    made = rows.do("add", None)
    entry = rows.entry(made.entry)

    def typed(name: str) -> tuple[str, str, str]:
        entry.take(0, name)
        one = session.job.requests[made.entry]
        return one.contact, one.email, one.phone

    assert typed("Tern Hill") == ("", "", "")
    assert typed("tern hill (invented)") == ("T. Hill", "", "555-0177")
    # Another supplier is not called at that number, and what was typed stays.
    assert typed("Slate Creek (invented)") == ("", "", "")
    entry.take(1, "J. Reed")
    assert typed("Tern Hill (invented)") == ("J. Reed", "", "555-0177")
    # A phone in the box for e-mail is kept as it is typed, and said once.
    assert entry.left(2) is None
    entry.take(2, "555-0182")
    said = "“555-0182” is no e-mail address, for it has no @; it is kept as typed."
    assert entry.left(2).say == said
    assert session.job.requests[made.entry].email == "555-0182"

    def sent_to() -> list[str]:
        said = REQUEST_LIST.view.about(rows, rows.line(made.entry), 80)
        return [one for one in said if one.startswith("Send it to")]

    assert sent_to() == []
    assert entry.left(2) is None
    assert rows.entry(made.entry).left(2) is None, "it was there as the form was opened"
    entry.take(2, "reed.example.com")
    assert entry.close().say == said.replace("555-0182", "reed.example.com")
    entry.take(2, "reed@example.com")
    assert entry.left(2) is None
    assert sent_to() == ["Send it to reed@example.com: paste the .txt file."]
    for other in (ORDER, MY_SUPPLIERS, MY_BUYER):
        (email,) = (one for one in other.measures if one.name == "email")
        assert email.doubt("555-0182") == said


def test_a_request_that_was_not_sent_yet_is_written_anew_where_its_key_is_pressed_again(
    tmp_path: Path,
) -> None:
    from tests.sheets.test_request_sheet import asked_job

    job = asked_job()
    session = Session(Store(tmp_path), dataclasses.replace(
        job, requests=tuple(one for one in job.requests if one.date)))
    rows = PaperRows(REQUEST_LIST, session)
    page = tmp_path / "sheets" / "request-r7-birch-daughters-invented.txt"
    rows.do("save", None)
    assert "quotes@example.com" not in page.read_text()
    entry = rows.entry(0)
    entry.take(2, "quotes@example.com")
    asks = "R7 not sent yet? s again writes it anew. Sent? n asks"
    assert rows.do("save", None).say.startswith(asks)
    entry.take(1, "J. Reed")
    assert rows.do("save", None).say.startswith(asks), "the job is another than was asked of"
    rows.do("keep", None)
    assert rows.do("save", None).say.startswith(asks), "something else was done in between"
    assert "quotes@example.com" not in page.read_text()
    said = rows.do("save", None).say
    assert said.startswith("R7 written anew. 3 files")
    assert "J. Reed, quotes@example.com" in page.read_text()
    assert [one.number for one in session.job.requests] == ["R7"], "no number is lost"
    # An s too many says again what is saved, and asks nothing.
    assert rows.do("save", None).say == said.removeprefix("R7 written anew. ")


def test_a_copied_job_keeps_the_buyer_and_no_number_supplier_or_request() -> None:
    from tests.sheets.test_request_sheet import asked_job

    job = asked_job()
    job = dataclasses.replace(job, order=dataclasses.replace(
        job.order, number="7", supplier="Birch", date=today(), ship_to="Heron Lane, gravel yard",
        hours="7 to 9", unloading="forklift"), about="An invented demo")
    order = copied(job).order
    # Where the other job's coils went: this one's would go to the wrong yard without a word.
    assert (order.ship_to, order.hours, order.unloading) == ("", "", "")
    assert not copied(job).about
    assert (order.buyer, order.number, order.supplier, order.date) == (
        "Gable & Seam (invented)", "", "", None)
    assert copied(job).requests == ()
