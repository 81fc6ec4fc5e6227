"""My shop in the wizard: filled once, picked again, shared; and who else claims a coil."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from textual.widgets import Input, OptionList

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.edit import give, new_job
from coilwright.job.haul import HitchKind
from coilwright.job.job import Job
from coilwright.job.shop import Buyer, KeptMachine, Rig, Shop, Supplier
from coilwright.job.stock import Stock
from coilwright.store import Store
from coilwright.store.shipped import machines
from coilwright.store.shop import load_shop, save_shop, shop_path
from coilwright.store.stock import save_stock
from coilwright.units import System
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.form import Line
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.row_list import RowList
from coilwright.wizard.lists.screen import ListScreen
from coilwright.wizard.lists.shop import MY_MACHINES, MY_RIGS
from coilwright.wizard.screens.help import TextModal
from coilwright.wizard.screens.machines import MachinesScreen
from coilwright.wizard.screens.shop import ShopScreen
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.session import Session
from coilwright.wizard.shop_session import ShopSession
from tests.cases import small_gable
from tests.plan.coils.stock import coil
from tests.store.test_shop import shop, typed_job
from tests.wizard.pilot import driven, until
from tests.wizard.wizard_driving import screen_lines, settle

SIZE = (80, 24)


def text(app: CoilwrightApp) -> str:
    return "\n".join(screen_lines(app))


def said(app: CoilwrightApp) -> str:
    return "\n".join(f"{notice.title} {notice.message}" for notice in app.notices)


async def test_the_shop_is_filled_in_from_the_start_screen_and_kept(tmp_path: Path) -> None:
    app = CoilwrightApp(Store(tmp_path))
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("s")
        assert isinstance(app.screen, ShopScreen)
        await pilot.press("f1")
        assert isinstance(app.screen, TextModal)
        assert "What it is for" in text(app)
        await pilot.press("escape", "enter")
        assert isinstance(app.screen, EntryScreen)
        await pilot.paste("Gable & Seam (invented)")
        await pilot.press("enter")
        await pilot.paste("A. Field")
        await pilot.press("escape")
        await pilot.press("down", "down", "down", "enter")
        assert isinstance(app.screen, ListScreen)
        await pilot.press("a")
        await pilot.paste("Birch (invented)")
        await pilot.press("escape")
        # What is said below is short: nothing leads there, and the row keeps its mark.
        await pilot.press("down", "tab")
        assert app.focused is app.screen.query_one(RowList)
        assert "▸Birch (invented)" in text(app)
        # A second one of the same name gets a number: no two are alike.
        await pilot.press("a")
        await pilot.paste("birch (invented)")
        await pilot.press("escape", "escape")
        assert "Birch (invented), birch (invented) 2" in text(app)
        # Coils on hand are told as the lists are; what was written meanwhile is read.
        coils_line = "Coils on hand        "
        assert f"{coils_line}none yet" in text(app)
        save_stock(tmp_path, Stock(coils=(coil("Q-1", 400), coil("Q-2", 400))))
        assert isinstance(app.screen, ShopScreen)
        app.screen.fill()
        await settle(pilot)
        assert f"{coils_line}2 coils: Q-1, Q-2" in text(app)
        await pilot.press("escape")
    kept = load_shop(tmp_path)[0]
    assert (kept.buyer.company, kept.buyer.contact) == ("Gable & Seam (invented)", "A. Field")
    assert [one.name for one in kept.suppliers] == ["Birch (invented)", "birch (invented) 2"]


async def test_what_cannot_be_read_is_kept_and_undo_brings_back(tmp_path: Path) -> None:
    save_shop(tmp_path, shop())
    app = CoilwrightApp(Store(tmp_path))
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("s", "down", "down", "enter", "enter", "down", "down")
        assert app.focused is not None
        assert isinstance(app.focused, Input)
        app.focused.select_all()
        await pilot.paste("a lot")
        await pilot.press("escape")
        kept = load_shop(tmp_path)[0]
        assert kept.typed == {"shop.x": "half typed", "shop.rigs.0.trailer_gvwr": "a lot"}
        assert kept.rigs[0].haul.trailer_gvwr is None
        await pilot.press("d")
        assert load_shop(tmp_path)[0].rigs == ()
        await pilot.press("u", "u")
        assert load_shop(tmp_path)[0] == shop()


async def test_a_machine_and_a_rig_typed_once_are_saved_and_picked_again(tmp_path: Path) -> None:
    store = Store(tmp_path)
    session = Session(store, typed_job())
    app = CoilwrightApp(store, session, "machine")
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("ctrl+s", "enter")
        assert "Old blue is in your shop" in said(app)
        assert isinstance(app.screen, WizardScreen)
        await app.screen.go("haul")
        await pilot.press("ctrl+s")
        await pilot.paste("Gray trailer")
        await pilot.press("enter", "enter")
    kept = load_shop(tmp_path)[0]
    assert [one.name for one in (*kept.machines, *kept.rigs)] == ["Old blue", "Gray trailer"]
    save_shop(tmp_path, dataclasses.replace(kept, rigs=(
        *kept.rigs, dataclasses.replace(kept.rigs[0], name="Other"))))
    fresh = Session(store, dataclasses.replace(
        new_job("Shed"), metal=typed_job().metal, panel=typed_job().panel))
    app = CoilwrightApp(store, fresh, "machine")
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("enter")
        assert isinstance(app.screen, MachinesScreen)
        assert "My machines" in text(app)
        await pilot.press("enter")
        assert fresh.job.machine.name == "Old blue"
        assert isinstance(app.screen, WizardScreen)
        app.screen.action_pick_rig()
        await pilot.rest()
        await pilot.press("enter")
    assert fresh.job.haul.trailer_gvwr == 14_000
    standing = {key: ANSWERS[key].standing(fresh.job) for key in (
        MachineKey.RACK_LOAD, MachineKey.WEIGHT, HaulKey.TRAILER_GVWR, HaulKey.TOW_GVWR)}
    assert list(standing.values()) == [
        Standing.SURE, Standing.GUESS, Standing.SURE, Standing.GUESS]
    assert fresh.job.haul.tongue_weight is None


async def test_a_new_job_starts_from_the_shop(tmp_path: Path) -> None:
    save_shop(tmp_path, shop())
    app = CoilwrightApp(Store(tmp_path))
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("n")
        assert isinstance(app.screen, WizardScreen)
        job = app.screen.session.job
        assert (job.order.buyer, job.machine.name) == ("Gable & Seam (invented)", "Old blue")


async def test_a_damaged_shop_is_said_and_a_job_begins_without_it(tmp_path: Path) -> None:
    shop_path(tmp_path).write_text("{ half", "utf-8")
    app = CoilwrightApp(Store(tmp_path))
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("n")
        assert "It is kept as" in said(app)
        assert isinstance(app.screen, WizardScreen)
        assert app.screen.session.job == new_job()


async def test_export_and_import_from_the_screen(tmp_path: Path) -> None:
    save_shop(tmp_path / "mine", shop())
    file = tmp_path / "shared.json"
    app = CoilwrightApp(Store(tmp_path / "mine"))
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("s", "e")
        box = app.screen.query_one("#line-0", Input)
        box.value = str(file)
        await pilot.press("enter")
        await until(pilot, file.exists)
    save_shop(tmp_path / "theirs", Shop(buyer=Buyer(company="Theirs"),
                                        suppliers=(Supplier(name="Tern Hill (invented)"),)))
    app = CoilwrightApp(Store(tmp_path / "theirs"))
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("s", "i")
        app.screen.query_one("#line-0", Input).value = str(tmp_path / "none.json")
        await pilot.press("enter")
        assert "Nothing was taken in" in said(app)
        await pilot.press("i")
        app.screen.query_one("#line-0", Input).value = str(file)
        await pilot.press("enter")
        assert "Yours is kept: company" in said(app)
    found = load_shop(tmp_path / "theirs")[0]
    assert found.buyer.company == "Theirs"
    assert [one.name for one in found.suppliers] == [
        "Tern Hill (invented)", "Birch & Daughters (invented)"]
    assert found.machines == shop().machines


async def test_two_windows_on_one_shop_lose_nothing(tmp_path: Path) -> None:
    save_shop(tmp_path, shop())
    app = CoilwrightApp(Store(tmp_path))
    async with driven(app, size=SIZE) as pilot:
        await pilot.press("s", "down", "down", "down", "enter")
        save_shop(tmp_path, dataclasses.replace(shop(), rigs=()))
        await pilot.press("d")
        assert "Another window changed the shop" in said(app)
    assert load_shop(tmp_path)[0] == dataclasses.replace(shop(), rigs=())


async def test_start_screen_and_coils_step_say_who_else_claims_a_coil(tmp_path: Path) -> None:
    store = Store(tmp_path)
    save_stock(tmp_path, Stock(coils=(coil("A-1", 100),)))
    for title in ("Barn", "Shed"):
        store.create(dataclasses.replace(new_job(title), on_hand=(coil("A-1", 100),)), "DRAFT")
    app = CoilwrightApp(store)
    async with driven(app, size=SIZE) as pilot:
        await until(pilot, lambda: "coil A-1 is claimed by “Shed” too" in text(app))
        assert "coil A-1 is claimed by “Barn” too" in text(app)
        await pilot.press("down")
        rows = app.screen.query_one("#start-rows", OptionList)
        assert ((rows.highlighted_option and rows.highlighted_option.id) or "").startswith("job:")
        await pilot.press("enter")
        screen = app.screen
        assert isinstance(screen, WizardScreen)
        await screen.go("coils")
        await pilot.rest()
        block = screen.query_one("StockBlock .none-yet")
        assert "is claimed by" in str(block.render())
        await screen.run_action("stock")
        await until(pilot, lambda: "A-1" in text(app))
        assert "CARE claimed by “Barn”; it can be cut once." in text(app)
        assert ", claimed" in text(app), "in the row, whichever is marked"


def test_a_rig_is_told_in_the_units_of_the_latest_job(tmp_path: Path) -> None:
    """17 lb had been taken for what a hitch may pull without a word."""
    rig = Rig(name="Gray", haul=dataclasses.replace(
        Job().haul, hitch=HitchKind.BALL, hitch_rating=17.0, tow_weight=18.0, trailer_gvwr=9990.0))
    save_shop(tmp_path, Shop(rigs=(rig,), machines=(
        KeptMachine(name="Blue", machine=machines()["two-arbor-metric"]),)))
    store = Store(tmp_path)
    for gvwr, pull, arbor, job in (
        ("9,990 lb", "17 lb; such plates say 1,000 lb to 60,000 lb", "2,646 lb", None),
        ("4531 kg", "7.7 kg; such plates say 454 kg to 27\u202f216 kg", "1200 kg",
         give(small_gable(), "job.units", System.METRIC)),
    ):
        if job is not None:
            store.create(job)
        opened = JobRows(MY_RIGS, ShopSession(store))
        [parts] = MY_RIGS.show(opened, [Line(0, 0, "Gray", rig)], 80)
        # What plates call a rating keeps its letters.
        assert f"gross rating {gvwr}" in "".join(str(part[0]) for part in parts)
        (line,) = opened.entry(0).about(70)
        assert line.startswith(f"CARE Hitch: max trailer is {pull}. "
                               "Also odd: Vehicle: loaded weight.")
        mine = JobRows(MY_MACHINES, ShopSession(store))
        (kept,) = MY_MACHINES.lines(mine)
        assert f"load on one arbor: {arbor}" in MY_MACHINES.view.about(mine, kept, 80)
