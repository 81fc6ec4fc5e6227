"""Coils on hand in the wizard: the list, a job's use of it, a damaged file, two windows."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Callable
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from coilwright.job.answers.panel import PanelKey
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, MetalName
from coilwright.job.stock import LengthBy, Stock
from coilwright.plan import fitting, plan
from coilwright.plan.coils.leftovers import offer_leftovers
from coilwright.store import Store, StoreError
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.store.stock import load_stock, read_stock, save_stock, stock_path
from coilwright.units import System
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.coil_blocks import coil_rows
from coilwright.wizard.lists.coil_draft import CoilDraft, about_typed, coil_of, texts_of
from coilwright.wizard.lists.coil_planes import plane_choices
from coilwright.wizard.lists.coils_on_hand import COILS_ON_HAND, StockRows
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.row_list import RowList
from coilwright.wizard.lists.screen import ListScreen
from coilwright.wizard.lists.stock_book import NEW, StockBook, book_of
from coilwright.wizard.lists.stock_text import Use, about_lines, stock_rows, toggled
from coilwright.wizard.screens.start import StartScreen
from coilwright.wizard.steps.summary import SummaryBlock
from coilwright.wizard.widgets.blocks import BarButton
from coilwright.wizard.widgets.field import Field
from tests.cases import small_gable
from tests.plan.coils.stock import coil, with_coils
from tests.rules import for_each
from tests.wizard.pilot import driven, until
from tests.wizard.wizard_driving import screen_lines, screen_text, settle, type_text, wizard

Make = Callable[..., CoilwrightApp]


def barn() -> Job:
    return demo_jobs()["heron-lane-barn"]


@pytest.mark.parametrize("system", list(System))
def test_a_coil_is_typed_as_it_is_shown(system: System) -> None:
    for one in demo_stock().coils:
        made, error = coil_of(texts_of(one, system), system)
        assert not error
        assert made is not None
        for name in ("tag", "metal", "coating", "color", "lot", "where", "thickness_basis"):
            assert getattr(made, name) == getattr(one, name)
        for name in ("thickness", "width", "length", "outside", "inside"):
            assert getattr(made, name) == pytest.approx(getattr(one, name), rel=1e-6)


@for_each([({"tag": ""}, "missing: tag"), ({"width": ""}, "missing: width"),
     ({"length": "none"}, "none"), ({"length": "0"}, "more than 0"), ({"length": "-5 ft"}, "-5 ft"),
     ({"length": ""}, "its length, or its outside"), ({"metal": "tin"}, "tin"),
     ({"length": "", "outside": "20", "inside": "20"}, "outside diameter must be"),
     ({"length": "", "outside": "20"}, "outside and inside")])
def test_what_makes_no_coil_is_said(change: dict[str, str], said: str) -> None:
    texts = {**texts_of(coil("T", 100), System.US), **change}
    made, error = coil_of(texts, System.US)
    assert made is None
    assert said in error
    assert error.endswith(".")


def test_a_job_takes_a_coil_renews_it_and_gives_it_back() -> None:
    stock, job = demo_stock(), barn()
    uses = {row.coil.tag: row.use for row in stock_rows(stock, job)}
    assert uses == {"S-101": Use.FITS, "S-102": Use.FITS, "S-107": Use.FITS, "C-20": Use.UNFIT,
                    "S-90": Use.UNFIT}

    def row(stock: Stock, tag: str) -> Any:
        return next(r for r in stock_rows(stock, job) if r.coil.tag == tag)

    job = toggled(job, row(stock, "S-101"))
    assert row(stock, "S-101").use is Use.USED
    first = stock.find("S-101")
    assert first is not None
    shorter = stock.put(dataclasses.replace(first, length=100.0))
    assert row(shorter, "S-101").use is Use.CHANGED
    assert row(stock.take("S-101"), "S-101").use is Use.GONE
    job = toggled(job, row(shorter, "S-101"))
    assert job.on_hand == (shorter.find("S-101"),)
    job = toggled(job, row(shorter, "S-101"))
    assert job.on_hand == ()


def test_a_new_coil_takes_the_metal_of_the_job_into_empty_boxes(store: Store) -> None:
    book, job = book_of(store), barn()
    view = COILS_ON_HAND.entry
    draft = CoilDraft(view, book, NEW, job, System.US)
    assert draft.buttons() == (("as_job", "Metal as the job's"),)
    assert [one.answer.label for one in draft.asked if "F4" in one.help] == ["Metal"]
    assert not any("F4" in one.help for one in CoilDraft(view, book, NEW, None, System.US).asked)
    draft.texts = {"tag": "P-1", "color": "Red"}
    took, stays = draft.do("as_job").say.split(" What you gave before stays ")
    assert "color" not in took
    assert stays == "and is not the job's: color; empty it, and the same again takes the job's."
    assert draft.texts["color"] == "Red", "what is typed stays"
    coded = CoilDraft(view, book, NEW, give(job, "metal.color_code", "S-05"), System.US)
    for typed, code in (("Red", ""), ("", "S-05")):
        coded.texts = {"tag": "P-1", "color": typed}
        coded.do("as_job")
        assert coded.texts.get("color_code", "") == code, "the code of the job's color"
    assert draft.texts["width"] == "21 in", "as wide as the strip"
    draft.texts |= {"color": "", "width": "60 in", "length": "100 ft"}
    assert "is not the job's: width" in draft.do("as_job").say
    assert draft.texts["width"] == "60 in"
    draft.texts["width"] = "21"  # the same, in other letters
    assert "not the job's" not in draft.do("as_job").say
    draft.texts["width"] = "60 in"
    made, error = draft.coil()
    assert not error
    assert made is not None
    assert fitting(job, made) == (), "what it took is what the job asks for"
    assert not CoilDraft(view, book, NEW, None, System.US).buttons(), "no job to take it from"
    # Coatings are picked by the names of the job's own standard; lengths read as their box does.
    coating = next(one.answer for one in draft.asked if one.answer.label == "Metallic coating")
    metric = give(give(job, "job.units", System.METRIC), "metal.standard", "EN 10346")
    draft = CoilDraft(view, book, NEW, metric, System.METRIC)
    assert CoatingName.G90 not in coating.picks(draft.job())
    assert CoatingName.G90 in coating.picks(CoilDraft(view, book, NEW, job, System.US).job())
    tagged = dataclasses.replace(coil("P-2", 35 / 0.3048), length_by=LengthBy.SAID)
    assert about_typed(tagged, None, System.METRIC) == [
        "Length 35.000 m, counted as 34.65 m: it is not measured."]


def test_where_two_lots_meet_the_key_that_parts_them_is_said() -> None:
    job = with_coils(small_gable(), coil("A", 400, lot="L-1"))
    (row,) = stock_rows(Stock(coils=job.on_hand), job)
    said = " ".join(about_lines(row, plan(job), System.US))
    assert ("Panels of two lots meet on a plane: p keeps a coil to planes of its own, or to trim."
            in said)
    assert plane_choices(plan(job), "A") == ("no planes of its own", "Side"), "no trim of the coil"
    # Kept to a plane that it does not hold, the list and the step say one thing.
    kept = dataclasses.replace(job, on_hand_planes={"A": ("Side",)})
    made = plan(kept)
    (row,) = stock_rows(Stock(coils=kept.on_hand), kept, made)
    assert row.use is Use.IDLE
    (step,) = coil_rows(kept, made)
    listed = " ".join(about_lines(row, made, System.US))
    (finding,) = [f for f in made.findings if f.key == "on_hand.1.planes"]
    for said in (listed, step.use):
        assert finding.what in said
        assert finding.why in said
    assert toggled(kept, row).on_hand == ()


class TestBook:
    def test_changes_are_written_and_undone(self, store: Store) -> None:
        book = StockBook(store)
        book.read()
        book.change(book.stock.put(coil("A", 10)), "A added")
        assert load_stock(store.folder)[0].find("A") is not None
        assert book.undo() == "A added"
        assert load_stock(store.folder)[0] == Stock()
        assert book.undo() is None
        assert book.redo() == "A added"
        assert load_stock(store.folder)[0].find("A") is not None
        assert book.redo() is None
        book.undo()
        book.change(book.stock.put(coil("B", 10)), "B added")
        assert book.redo() is None, "what was changed since would be lost"

    def test_another_windows_list_is_not_written_over(self, store: Store) -> None:
        book = StockBook(store)
        book.read()
        book.change(book.stock.put(coil("A", 10)), "A added")
        theirs = Stock(coils=(coil("THEIRS", 77),))
        save_stock(store.folder, theirs)
        with pytest.raises(StoreError, match="Another window"):
            book.change(book.stock.put(coil("B", 10)), "B added")
        assert load_stock(store.folder)[0] == theirs == book.stock
        book.change(book.stock.put(coil("B", 10)), "B added")
        assert len(load_stock(store.folder)[0].coils) == 2

    def test_drafts_outlive_the_program(self, store: Store) -> None:
        StockBook(store).keep_draft(NEW, {"tag": "T", "length": "long"})
        assert StockBook(store).drafts == {NEW: {"tag": "T", "length": "long"}}
        StockBook(store).keep_draft(NEW, None)
        assert StockBook(store).drafts == {}

    @pytest.mark.parametrize("text", ["", "[1]", "{", '{"a": 1}', '{"a": {"b": 2}}'])
    def test_odd_drafts_do_no_harm(self, store: Store, text: str) -> None:
        store.folder.mkdir(parents=True)
        (store.folder / "stock.drafts.json").write_text(text, "utf-8")
        assert not any(StockBook(store).drafts.values())


async def fill(pilot: Pilot[Any], texts: dict[str, str]) -> None:
    """Type into the fields of the coil's form by their names."""
    screen = pilot.app.screen
    assert isinstance(screen, EntryScreen)
    assert isinstance(screen.entry, CoilDraft)
    for name, text in texts.items():
        field = next(f for f in screen.entries if f.key == f"on-hand.{name}")
        field.focus()
        await settle(pilot)
        if field.answer.choices:
            await pilot.press(text[0])
        else:
            await type_text(pilot, text)
    await settle(pilot)


async def test_add_change_delete_and_undo(
    app_on: Make, store: Store
) -> None:
    app = app_on()
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        assert isinstance(app.screen, StartScreen)
        await pilot.press("c")
        await settle(pilot)
        assert isinstance(app.screen, ListScreen)
        assert "none yet" in screen_text(app)
        await pilot.press("a")
        await settle(pilot)
        await fill(pilot, {"tag": "P-1", "metal": "copper", "thickness": "0.0216", "width": "20",
                           "outside": "22 1/2", "inside": "20"})
        await pilot.press("escape")
        await settle(pilot)
        (made,) = load_stock(store.folder)[0].coils
        assert (made.tag, made.outside, made.inside) == ("P-1", 22.5, 20.0)
        assert " to " in screen_text(app), "a length by diameters is a range"
        await pilot.press("enter")
        await settle(pilot)
        await fill(pilot, {"where": "cage"})
        await pilot.press("escape")
        await settle(pilot)
        assert load_stock(store.folder)[0].coils[0].where == "cage"
        await pilot.press("d")
        await settle(pilot)
        assert load_stock(store.folder)[0].coils == ()
        await pilot.press("u", "u")
        await settle(pilot)
        assert load_stock(store.folder)[0].coils == (made,)
        assert "Ctrl+Y makes it again" in screen_text(app)
        await pilot.press("ctrl+y")
        await settle(pilot)
        assert load_stock(store.folder)[0].coils[0].where == "cage"
        # On the first screen u is for jobs: what names it for coils is not read there.
        await pilot.press("d")
        await settle(pilot)
        assert "u brings it back" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        assert isinstance(app.screen, StartScreen)
        assert "brings it back" not in screen_text(app)


async def test_a_half_typed_coil_is_kept_aside(app_on: Make, store: Store) -> None:
    app = app_on()
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("c", "a")
        await settle(pilot)
        await fill(pilot, {"tag": "P-2", "width": "very"})
        await pilot.press("escape")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen), "it says first what is not right"
        await pilot.press("escape")
        await settle(pilot)
        assert load_stock(store.folder)[0].coils == ()
        await pilot.press("a")
        await settle(pilot)
        assert "P-2" in screen_text(app)
        assert "very" in screen_text(app)


async def test_a_tag_that_is_taken_is_refused(app_on: Make, store: Store) -> None:
    save_stock(store.folder, Stock(coils=(coil("P-1", 50), coil("P-2", 60))))
    app = app_on()
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("c", "enter")
        await settle(pilot)
        await fill(pilot, {"tag": "p-2"})
        assert "already" in screen_text(app)
        await pilot.press("escape", "escape")
        await settle(pilot)
        tags = [c.tag for c in load_stock(store.folder)[0].coils]
        assert tags == ["P-1", "P-2"]


async def test_a_damaged_file_is_one_sentence_and_nothing_is_lost(
    app_on: Make, store: Store
) -> None:
    store.folder.mkdir(parents=True)
    stock_path(store.folder).write_text('{"coils": [', "utf-8")
    app = app_on()
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("c")
        await settle(pilot)
        assert "stock.damaged-1.json" in screen_text(app).replace("│\n│", "").replace(" ", "")
        assert (store.folder / "stock.damaged-1.json").read_text("utf-8") == '{"coils": ['


async def test_three_part_coils_and_the_barn_orders_less(
    app_on: Make, store: Store
) -> None:
    """By hand: (310 − 10)/1.03/18.083 = 16 panels, (195 − 10)/… = 9, (250.2 − 10)/… = 12 of 64.

    37 panels less: 37·18.083·1.03/0.9 = 765.75 ft less to order at 1.6848 lb/ft, 1,290 lb.
    """
    save_stock(store.folder, demo_stock())
    app = app_on(barn(), "coils")
    async with driven(app, size=(120, 40), notifications=True) as pilot:
        await settle(pilot)
        session = wizard(app).session
        session.type_text("coils.price", "1.20")
        before = session.plan.figures["coil.length_ordered"].value
        await pilot.app.screen.run_action("stock")
        await settle(pilot)
        await pilot.press("f")
        await settle(pilot)
        figures = session.plan.figures
        assert len(session.job.on_hand) == 3
        assert before - figures["coil.length_ordered"].value == pytest.approx(765.75 * 12, abs=1)
        text = " ".join(screen_text(app).replace("│", " ").split())
        assert "save 765 ft 9 in, 1,290 lb, $1,548" in text
        assert "It is copper" not in text
        await pilot.press("down", "down", "down", "space")
        await settle(pilot)
        assert len(session.job.on_hand) == 3, "a coil that does not fit is not taken"
        assert "It is copper; the job takes steel." in " ".join(
            screen_text(app).replace("│", " ").split())
        await pilot.press("home", "space")
        await settle(pilot)
        assert len(session.job.on_hand) == 2
        await pilot.press("u")
        await settle(pilot)
        assert len(session.job.on_hand) == 3
        await pilot.press("home", "p")
        await settle(pilot)
        await pilot.press("down", "enter")
        await settle(pilot)
        assert session.job.on_hand_planes == {"S-101": ("North side",)}
        assert "S-101 is kept to North side." in screen_text(app)
        (planes,) = [f for f in session.plan.findings if f.key == "on_hand.1.planes"]
        shown = " ".join(screen_text(app).replace("│", " ").split())
        assert "unused S-101" in shown, "it is too short"
        assert planes.why.split(",")[0] in shown, "the list gives the same reason as the step"
        await pilot.press("p")
        await settle(pilot)
        await pilot.press("down", "enter")
        await settle(pilot)
        assert session.job.on_hand_planes == {}
        await pilot.press("a")
        await settle(pilot)
        await pilot.press("f4")
        await settle(pilot)
        screen = pilot.app.screen
        assert isinstance(screen, EntryScreen)
        assert isinstance(screen.entry, CoilDraft)
        assert screen.entry.texts["metal"] == session.job.metal.metal
        assert "AZ50" in screen_text(app), "the rows that the metal brings are there"
        await pilot.press("escape", "escape")
        await settle(pilot)
        await pilot.press("u", "u")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert session.job.on_hand == ()


async def test_use_by_mouse(app_on: Make, store: Store) -> None:
    save_stock(store.folder, demo_stock())
    app = app_on(barn(), "coils")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await app.screen.run_action("stock")
        await settle(pilot)
        for words, count in (("f all that fit", 3), ("Space use", 2), ("u undo", 3)):
            word = next(w for w in app.screen.query("RowWord") if str(w.render()) == words)
            # A double click takes one step back; twice it would be none of the coils.
            await pilot.click(word, times=2 if words == "u undo" else 1)
            await settle(pilot)
            screen = app.screen
            assert isinstance(screen, ListScreen)
            assert screen.rows.session is not None
            assert len(screen.rows.session.job.on_hand) == count
        rows = app.screen.query_one(RowList)
        await pilot.click(rows, offset=(12, 1))
        await settle(pilot)
        assert isinstance(app.screen, ListScreen), "the first click marks"
        # On the marked row the first click of a double click opens it; the second falls on no box
        # of the form that opened.
        x, y = rows.content_region.offset
        await pilot.click_at(x + 12, y + 1, 9.0)
        opened = app.screen
        assert isinstance(opened, EntryScreen)
        focused, job = app.focused, opened.entry.job()
        await pilot.click_at(x + 12, y + 1, 9.2)
        assert (app.screen, app.focused) == (opened, focused)
        assert opened.entry.job() == job


def test_tags_from_outside_are_shown_as_they_are(store: Store) -> None:
    odd = coil("[b]x[/b]\x1b", 10)
    save_stock(store.folder, Stock(coils=(odd,)))
    assert json.loads(stock_path(store.folder).read_text("utf-8"))
    from coilwright.wizard.lists.coils_on_hand import row_text

    (row,) = stock_rows(book_of(store).stock, None)
    text = row_text(row, System.US, 76)
    assert "[b]x[/b]·" in text
    assert len(text) <= 76


@pytest.mark.parametrize("width", [76, 150])
def test_a_row_cuts_nothing_while_there_is_room(store: Store, width: int) -> None:
    """`aluminum 0.0320 …` had stood in a row that was half empty."""
    save_stock(store.folder, Stock(coils=(
        coil("A7", 200, metal=MetalName.ALUMINUM, coating=None, thickness=0.032, width=20.5,
             color="slate gray"),)))
    rows = StockRows(book_of(store))
    [[text]] = COILS_ON_HAND.show(rows, rows.lines(), width)
    assert " ".join(str(text).split()) == "A7 aluminum 0.0320 in 20 1/2 in 200 ft slate gray"


def test_the_list_without_a_job_is_in_the_units_of_the_last_one_and_cuts_no_tag(
    store: Store,
) -> None:
    long = "Leftover of the north barn"
    save_stock(store.folder, Stock(coils=(coil("A", 10), coil(long, 10))))
    assert StockRows(book_of(store)).system is System.US, "there is no job yet"
    store.create(dataclasses.replace(barn(), units=System.METRIC, about=""))
    rows = StockRows(book_of(store))
    assert rows.system is System.METRIC
    shown = [str(text) for (text,) in COILS_ON_HAND.show(rows, COILS_ON_HAND.lines(rows), 90)]
    assert long in shown[1]
    assert "3.048 m" in shown[0]


def test_saving_is_what_the_plan_says() -> None:
    from coilwright.plan.coils.leftovers import with_fitting
    from coilwright.wizard.lists.coils_on_hand import saved_line

    done = plan(with_fitting(barn(), demo_stock()))
    assert "no price is known" in saved_line(done)
    assert done.figures["save.mass"].text() in saved_line(done)
    assert saved_line(plan(barn())) == ""
    assert done.proof is not None
    for proven in (True, False):
        found = dataclasses.replace(done, proof=dataclasses.replace(done.proof, proven=proven))
        assert saved_line(found).endswith(", as found so far.") is not proven


@pytest.mark.parametrize("size", [(80, 24), (130, 40)])
async def test_leftovers_in_stock_that_fit_are_named_and_taken_with_one_key(
    app_on: Make, store: Store, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    save_stock(store.folder, demo_stock())
    guessed = give(barn(), PanelKey.COVERAGE, 16.0, Standing.GUESS)
    offer = offer_leftovers(plan(guessed), demo_stock())
    assert offer is not None
    tags = [one.tag for one in offer.coils]
    reads = []
    monkeypatch.setattr("coilwright.store.stock.read_stock",
                        lambda folder: reads.append(folder) or read_stock(folder))
    app = app_on(guessed, "coils")
    async with driven(app, size=size) as pilot:
        screen = wizard(app)
        await until(pilot, lambda: screen.session.offer)
        first = next(line for line in screen_lines(app) if "Coils you have" in line)
        assert offer.mass.text() in first
        assert all(tag in str(screen.query_one("#offered", Static).content) for tag in tags)
        field = screen.query(Field).first()
        at = field.region.y
        shown = screen.session.offer
        await screen.go_to_key("coils.spare")
        await type_text(pilot, "12")
        await until(pilot, lambda: screen.session.offer not in (None, shown))
        assert len(reads) == 1, "read as the step is shown, not with a key"
        await pilot.press("ctrl+z")
        await screen.go("summary")
        await until(pilot, lambda: f"{', '.join(tags)} in stock" in " ".join(
            screen_text(app).split()))
        # What is offered may be known after what is ranked, which stays ranked.
        await until(pilot, lambda: "ranking them" not in screen_text(app))
        screen.query_one(SummaryBlock).show(screen.session)
        await settle(pilot)
        assert "Settle first" in screen_text(app)
        assert "ranking them" not in screen_text(app)
        await screen.go("coils")
        await until(pilot, lambda: screen.session.offer)
        assert field.region.y == at
        screen.query_one("#take-hint", BarButton).focus()
        await pilot.press("enter")
        await settle(pilot)
        assert [one.tag for one in screen.session.job.on_hand] == tags
        await until(pilot, lambda: screen.session.offer is None)
        assert not screen.query_one("#take-hint").display
        # Enter adds where one stands on that line, and only there.
        hint = screen.query_one("#stock-hint", BarButton)
        for here, says in ((hint, "in this job; Enter adds"), (field.box, "↑, Enter adds")):
            here.focus()
            await until(pilot, lambda says=says: hint.words.endswith(says))
        assert field.region.y == at
        await pilot.press("ctrl+z")
        await until(pilot, lambda: screen.session.offer)
        assert screen.session.job.on_hand == ()
