"""Machines picked and confirmed, the summary ranked, sheets saved."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import cast

import pytest
from textual import events
from textual.content import Content
from textual.widgets import Input, OptionList

from coilwright.job import from_shop
from coilwright.job.answers import ANSWERS, answers_of
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.edit import clear, confirm, do_not_know, give, new_job
from coilwright.job.job import Job
from coilwright.job.panel import Seam
from coilwright.plan import plan
from coilwright.plan.ask_first import ask_first
from coilwright.plan.quotes.award import award
from coilwright.sheets import render
from coilwright.sheets.machine import about_machine
from coilwright.sheets.saving import saved_words
from coilwright.store import Store
from coilwright.store.reader import read_model, to_text
from coilwright.store.shipped import demo_jobs, demo_stock, machines
from coilwright.units import Kind, System, show
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.notices import Notice
from coilwright.wizard.screens.help import NoticesScreen
from coilwright.wizard.screens.machines import MachinesScreen
from coilwright.wizard.session import Session
from coilwright.wizard.steps.coils import coils_lines
from coilwright.wizard.steps.machine.machines import confirm_machine, with_machine
from coilwright.wizard.steps.summary import SummaryBlock
from coilwright.wizard.steps.summary.buying import to_buy
from coilwright.wizard.steps.summary.chart import Chart
from coilwright.wizard.widgets.columns import cells
from coilwright.wizard.widgets.rows import SHOWN_FIRST
from coilwright.wizard.widgets.standing_word import TurnsStanding
from tests.plan.quotes.five import all_in, barn
from tests.wizard.pilot import BOUND, driven
from tests.wizard.wizard_driving import (
    READY,
    SIZES,
    job_of,
    screen_lines,
    screen_text,
    settle,
    wizard,
)


def test_a_picked_machine_is_a_guess_until_confirmed() -> None:
    for machine in machines().values():
        job = with_machine(do_not_know(job_of(READY), MetalKey.PAINTED_SIDE), machine)
        given = [a for a in answers_of("machine") if a.section == "machine"
                 and a.value(job) is not None and a.key != MachineKey.NAME]
        assert len(given) > 7
        assert all(a.standing(job) is Standing.GUESS for a in given)
        sure = confirm_machine(job)
        assert all(a.standing(sure) is Standing.SURE for a in given)
        assert sure.machine == machine
        assert "machine.example" not in [f.key for f in plan(job).findings]
        told = [f.what for f in plan(sure).findings if f.key == "machine.example"]
        assert told == [f"The machine is called “{machine.name}”, and each of its values stands as "
                        "sure."]
        ours = give(sure, MachineKey.NAME, "Old blue")
        assert "machine.example" not in [f.key for f in plan(ours).findings]
        # What its manual says of the coil stands on no plate.
        assert ANSWERS[MetalKey.PAINTED_SIDE].standing(sure) is Standing.GUESS


def test_what_a_machine_says_of_a_profile_is_sure_for_the_one_that_was_confirmed() -> None:
    """Picked before there is a seam: what it says of each profile is a guess once there is one."""
    machine = machines()["two-arbor-notching"]
    widest, take_up = (ANSWERS[k] for k in (MachineKey.PROFILE_WIDEST, MachineKey.PROFILE_TAKE_UP))
    job = job_of({"panel.seam": "double-lock", "panel.leg": "2"}, with_machine(Job(), machine))
    assert widest.standing(job) is take_up.standing(job) is Standing.GUESS
    job = confirm(job, MachineKey.PROFILE_WIDEST)
    assert (widest.standing(job), take_up.standing(job)) == (Standing.SURE, Standing.GUESS)
    assert widest.key not in plan(job).guesses
    other = job_of({"panel.leg": "1 1/2"}, job)
    assert widest.value(other) == 21
    assert widest.standing(other) is Standing.GUESS
    assert widest.key in plan(other).guesses
    kept = from_shop.keep_machine(other, "Ours")
    again = from_shop.with_machine(new_job(), kept)
    for leg, standing in (("2", Standing.SURE), ("1 1/2", Standing.GUESS)):
        made = job_of({"panel.seam": "double-lock", "panel.leg": leg}, again)
        assert widest.standing(made) is standing
    assert read_model(to_text(other), Job, "here") == other


def test_every_example_says_it_is_invented() -> None:
    for machine in machines().values():
        lines = about_machine(machine, new_job().units)
        assert any("invented" in line for line in lines)
        assert any("plate" in line for line in lines)


async def test_pick_and_confirm_on_the_screen(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(job_of(READY), "machine")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.click("#pick-machine")
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        session = wizard(app).session
        first = next(iter(machines().values()))
        assert session.job.machine == first
        assert session.plan.guesses
        assert "invented" in screen_text(app)
        # Of an invented example it asks once: one click had made fourteen values sure.
        await pilot.click("#confirm-machine")
        await settle(pilot)
        assert any(key.startswith("machine.") for key in session.plan.guesses)
        assert "the same once more makes them sure" in app.notices[0].message
        wizard(app).action_confirm_step()
        assert any(key.startswith("machine.") for key in session.plan.guesses), "nor by the palette"
        await pilot.click("#confirm-machine")
        await settle(pilot)
        assert not any(key.startswith("machine.") for key in session.plan.guesses)
        # On to what is asked next, not to the machine's name, which a letter would replace.
        assert wizard(app).focused is wizard(app).query_one("#save-machine")
        await pilot.press("y")
        assert session.job.machine.name == first.name
        await pilot.press("ctrl+z")
        session.change(clear(session.job, MetalKey.PAINTED_SIDE), "open")
        await pilot.click("#confirm-machine")
        await pilot.click("#confirm-machine")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key == MetalKey.PAINTED_SIDE
        await pilot.press("ctrl+z", "ctrl+z", "ctrl+z")
        await settle(pilot)
        assert session.job.machine == job_of(READY).machine


async def test_a_machine_is_read_before_it_is_taken_and_its_profile_picked(
    app_on: Callable[..., CoilwrightApp], monkeypatch: pytest.MonkeyPatch
) -> None:
    known = list(machines().values())
    notching = machines()["two-arbor-notching"]
    app = app_on(with_machine(Job(), notching), "machine")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        await pilot.click("#pick-machine")
        await settle(pilot)
        rows = app.screen.query_one("#machine-list", OptionList)
        # It opens on the one that is taken; examples of the other units come last.
        assert rows.get_option_at_index(rows.highlighted or 0).id == "two-arbor-notching"
        assert rows.get_option_at_index(rows.option_count - 1).id == "two-arbor-metric"
        assert "Examples, metric" in screen_text(app)
        in_metric = MachinesScreen(machines(), System.METRIC, pick=True)
        assert (next(iter(in_metric.machines)), in_metric.first) == ("two-arbor-metric",) * 2
        # Its name, typed whole, marks it; what names none is kept from Enter, as in any list.
        monkeypatch.setattr("coilwright.wizard.screens.pick.ONE_WORD", BOUND)
        rows.highlighted = last = rows.option_count - 1
        await pilot.press("space")
        assert rows.highlighted == last, "a space begins no name"
        rows.highlighted = 0
        await pilot.press(*"two-arbor trailer")
        assert rows.get_option_at_index(rows.highlighted or 0).id == "two-arbor-trailer"
        await pilot.press("x", "enter")
        assert isinstance(app.screen, MachinesScreen)
        await pilot.click("#machine-list", offset=(3, 0))
        await settle(pilot)
        assert rows.highlighted == 0  # a click marks, so that one can read what it holds
        assert session.job.machine == notching
        await pilot.click("#machine-list", offset=(3, 0))
        await settle(pilot)
        assert session.job.machine == known[0]
        await pilot.press("ctrl+z", "ctrl+n")
        await settle(pilot)
        assert wizard(app).focused is not None
        assert wizard(app).focused.id == "pick-profile"
        await pilot.press("enter", "down", "enter")
        await settle(pilot)
        panel = session.job.panel
        assert (panel.seam, panel.leg, panel.take_up) == (Seam.DOUBLE_LOCK, 1.5, 4.25)
        assert "Profile of this machine: double-lock, leg 1 1/2 in" in screen_text(app)
        await pilot.click("#confirm-profile")
        await settle(pilot)
        assert "panel.leg" not in session.plan.guesses
        await pilot.press("ctrl+z", "ctrl+z")
        await settle(pilot)
        assert session.job.panel.seam is None
        assert session.job.panel.take_up is None


async def test_fits_are_words(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(demo_jobs()["mill-row-mistakes"], "machine")
    async with driven(app, size=(120, 60)) as pilot:
        await settle(pilot)
        text = screen_text(app)
        assert "TOO MUCH" in text
        assert " fits" in text


async def test_coils_name_the_governing_limit_and_the_cuts(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "coils")
    async with driven(app, size=(120, 60)) as pilot:
        await settle(pilot)
        text = screen_text(app)
        plan = wizard(app).session.plan
        assert plan.governing is not None
        row = next(line for line in text.splitlines() if "◂ governs" in line)
        assert plan.governing.name in row
        for coil in plan.coils:
            assert coil.length.text() in text
            assert coil.mass.text() in text
            assert coil.outside_diameter.text() in text
        assert "Where the metal goes" in text


def test_the_chart_cuts_no_name_at_72_columns_and_no_row_is_too_long() -> None:
    done = plan(demo_jobs()["quarry-house-hip"])
    effects = ask_first(done.job, done)
    assert {"Rack: largest coil", "Rack: largest coil ID"} <= {one.label for one in effects}
    for width in range(57, 118):  # a list on terminals from 60 cells on
        chart = Chart(done, effects, width)
        for effect in effects:
            first, *_ = Content.assemble("  1 ", *chart.row(effect)).plain.split("\n")
            assert cells(first) <= width, first
            assert width < 70 or f" {effect.label} " in first, (width, first)


def test_no_line_of_the_coils_is_cut(store: Store) -> None:
    for job in demo_jobs().values():
        session = Session(store, dataclasses.replace(job, on_hand=demo_stock().coils))
        for width in (57, 69, 77, 110):
            for line in coils_lines(session, width):
                assert "…" not in line
                assert cells(line) <= width


async def test_the_summary_ranks_what_to_ask(app_on: Callable[..., CoilwrightApp]) -> None:
    job = do_not_know(do_not_know(job_of(READY), "panel.take_up"), "coils.spare")
    app = app_on(job, "summary")
    async with driven(app, size=(96, 40)) as pilot:
        await settle(pilot)
        effects = ask_first(job)
        text = screen_text(app)
        places = [text.index(f" {effect.label}  ") for effect in effects]
        assert places == sorted(places)
        spans = [e.ends for e in effects if e.ends]
        low, high = (show(end(e[place] for e in spans), Kind.MASS)
                     for place, end in enumerate((min, max)))
        row = next(line for line in text.splitlines() if "Settle first" in line)
        assert row.index(low) < row.index(high), "the chart says both ends of its scale"
        assert "┃" in next(line for line in text.splitlines() if "Take-up" in line)
        bought = next(line for line in text.splitlines() if " Buy " in line)
        assert f" ~ {len(plan(job).coils)} coil · " in bought
        await pilot.press("enter")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key == effects[0].key


@pytest.mark.parametrize("size", SIZES)
async def test_all_of_the_summary_is_reached_by_arrows_and_tab_and_its_letters_work_everywhere(
    app_on: Callable[..., CoilwrightApp], size: tuple[int, int], store: Store
) -> None:
    job = do_not_know(do_not_know(job_of(READY), "panel.take_up"), "coils.spare")
    app = app_on(job, "summary")
    async with driven(app, paint=False, size=size) as pilot:
        await settle(pilot)
        screen = wizard(app)

        def here() -> str:
            focused = screen.focused
            assert focused is not None
            at = focused.highlighted_option if isinstance(focused, OptionList) else None
            return f"{focused.id} {'' if at is None else at.id}".rstrip()

        lists = [screen.query_one(f"#summary-{name}", OptionList) for name in ("top", "rows")]
        wanted = [f"{rows.id} {option.id}" for rows in lists for option in rows.options
                  if option.id]
        await pilot.press("home")
        met = [here()]
        while met[-1] != "save-sheets" and len(met) <= len(wanted) + 9:
            await pilot.press("down")
            met.append(here())
        assert met == [*wanted, "order-head", "sheets-folder", "save-sheets"]
        for back in reversed(met[:-1]):
            await pilot.press("up")
            assert here() == back
        await pilot.press("tab", "tab")
        buttons = []
        while here() != "sheets-folder":
            buttons.append(here())
            await pilot.press("tab")
        assert buttons == ["order-head", "requests", "order-life", "run-done"]

        folder = screen.query_one("#sheets-folder", Input)
        folder.value = str(store.folder / "here")
        await pilot.press("end", "o")
        assert folder.value.endswith("hereo"), "in a box a letter is a letter"
        await pilot.press("backspace")
        for place in ("#summary-top", "#summary-rows", "#requests", "#save-sheets"):
            screen.query_one(place).focus()
            await pilot.press("o")
            assert type(app.screen).__name__ == "EntryScreen", place
            await pilot.press("escape")
        for letter, name in (("r", "ListScreen"), ("l", "LifeScreen"), ("a", "EntryScreen")):
            await pilot.press(letter)
            assert type(app.screen).__name__ == name
            await pilot.press("escape")
        await pilot.press("s")
        await settle(pilot)
        assert list((store.folder / "here").glob("order-*.md"))


async def test_what_is_ranked_anew_stays_under_the_hand_and_f4_held_down_confirms_one(
    app_on: Callable[..., CoilwrightApp], monkeypatch: pytest.MonkeyPatch
) -> None:
    app = app_on(demo_jobs()["quarry-house-hip"], "summary")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        block = screen.query_one(SummaryBlock)
        rows = screen.query_one("#summary-rows", OptionList)
        await pilot.press(*["down"] * 12)

        def marked() -> tuple[str, int]:
            option = rows.highlighted_option
            lines = screen_lines(app)
            return (option.id or "" if option else "",
                    next((y for y, line in enumerate(lines) if "▸" in line), -1))

        before = marked()
        effects = screen.controllers.ranking.effects
        block.ranked(screen.session, tuple(reversed(effects)), False)
        await settle(pilot)
        assert [o.id for o in rows.options if o.id and o.id[3:] == effects[0].key] != []
        assert marked() == before
        block.ranked(screen.session, effects, True)
        await settle(pilot)
        assert marked() == before

        session = screen.session
        guessed = len(session.plan.guesses)
        await pilot.press("f4", "f4", "f4")
        await settle(pilot)
        assert len(session.plan.guesses) == guessed - 1
        assert session.job.standing.get(before[0].removeprefix("go:")) is not Standing.GUESS
        assert "marks the next line" in screen_text(app)
        await pilot.press("down", "f4", "f4")
        await settle(pilot)
        assert len(session.plan.guesses) == guessed - 2
        # What the wheel took out of sight is shown before a key does anything to it.
        await pilot.press("down")
        at = rows.highlighted
        rows.scroll_to(y=0, animate=False, immediate=True)
        await pilot.press("f4")
        assert len(session.plan.guesses) == guessed - 2
        assert SHOWN_FIRST in {one.message for one in app._notifications}
        assert rows.highlighted == at
        assert "▸" in screen_text(app)
        # Between two lines each arrow marks the one on its side.
        await pilot.press("up")
        assert rows.highlighted is not None
        above = rows.highlighted
        await pilot.press("f4", "down")
        assert rows.highlighted == above, "the one below went up into its place"
        await pilot.press("f4", "up")
        assert rows.highlighted is not None
        assert rows.highlighted < above
        # A click on a guess is as F4 on its row; the second of a double click opens no other one.
        at, guessed = rows.highlighted - 1, len(session.plan.guesses)
        key = (rows.get_option_at_index(at).id or "").removeprefix("go:")
        y = rows._index_to_line[at] - round(rows.scroll_y)
        await pilot.click(rows, offset=(rows.render_line(y).text.index("~") + 2, y), times=2)
        await settle(pilot)
        assert len(session.plan.guesses) == guessed - 1
        assert key not in session.plan.guesses
        # A slow second click, for which the pointer was not moved, only marks what moved up.
        turned: list[object] = []
        monkeypatch.setattr(rows, "post_message", turned.append)

        def clicked(row: int) -> None:
            rows.on_click(cast("events.Click", SimpleNamespace(
                style=SimpleNamespace(meta={"option": row, "turns": True}), chain=1, screen_x=30,
                screen_y=9, prevent_default=lambda: None)))

        clicked(at)
        moved = sum(isinstance(one, TurnsStanding.Turned) for one in turned)
        clicked(at + 1)
        assert rows.highlighted == at + 1
        clicked(at + 1)
        assert [moved, sum(isinstance(one, TurnsStanding.Turned) for one in turned)] == [1, 2]
        monkeypatch.undo()
        assert app.screen is screen
        assert screen.step == "summary"


async def test_sheets_are_saved_where_it_says(
    app_on: Callable[..., CoilwrightApp], store: Store
) -> None:
    app = app_on(job_of(READY), "summary")
    async with driven(app, size=(120, 40), notifications=True) as pilot:
        await settle(pilot)
        await pilot.click("#save-sheets")
        await settle(pilot)
        saved = sorted(path.name for path in store.sheets_folder.iterdir())
        (page,) = store.sheets_folder.glob("order-*.md")
        assert page.with_suffix(".html").name in saved
        assert "Sheets saved" in screen_text(app)
        (toast,) = app.screen.query("Toast")
        said = app.notices[0].line
        assert said.startswith(f"Sheets saved in {store.sheets_folder}: {len(saved)} files. To pr")
        assert "order, questions, run" in said
        at_home = saved_words((), Path.home() / ".local/share/coilwright/sheets", plan(Job()))
        assert "in ~/.local/share/coilwright/sheets:" in (
            Notice(at_home, "", "information").in_row(78)), "where, at 80 columns too"
        assert toast.size.height == 1
        order = page.read_text("utf-8")
        mass = wizard(app).session.plan.figures["coil.mass_ordered"]
        assert mass.text() in order
        # In a dialog too F12 reads what was said in full.
        await pilot.press("ctrl+g", "f12")
        await settle(pilot)
        assert isinstance(app.screen, NoticesScreen)
        assert "spreadsheet" in screen_text(app)


async def test_a_folder_that_cannot_be_used_is_said(
    app_on: Callable[..., CoilwrightApp], store: Store
) -> None:
    store.folder.mkdir(parents=True)
    (store.folder / "file").write_text("")
    app = app_on(job_of(READY), "summary")
    async with driven(app, size=(120, 40), notifications=True) as pilot:
        await settle(pilot)
        folder = app.screen.query_one("#sheets-folder", Input)
        folder.value = str(store.folder / "file")
        folder.focus()
        await pilot.press("enter")  # saves, as the button beside it
        await settle(pilot)
        assert "Not saved" in screen_text(app)
        # Of a person nobody knows there is none: it ends nothing.
        folder.value = "~no-such-person/sheets"
        await pilot.press("enter")
        await settle(pilot)
        assert "no name of a file or folder" in screen_text(app)


@pytest.mark.parametrize("name", ["heron-lane-barn", "quarry-house-hip"])
def test_what_to_buy_reads_on_every_summary_as_on_the_order(name: str) -> None:
    done = plan(demo_jobs()[name])
    order, summary = render("order", done, "text"), render("summary", done, "md")
    total = re.search(r"Total of these coils: .*?coils?, (.+? in), (.+? lb)", order)
    assert total is not None
    length, mass = total.groups()
    assert to_buy(done)[0][2].endswith(f"{length} · {mass}")
    for coil in done.coils:
        assert (one := coil.length.text()) in order
        assert one in summary


def test_an_order_by_a_quote_has_one_price_on_top_of_the_summary() -> None:
    """The lump as quoted, and no cost by weight beside it that is more."""
    asked = plan(barn(all_in("Elk Fork (invented)", "$4,350 lump")))
    done = plan(give(award(asked, 1), CoilsKey.SPARE, 0.1))
    found = {name: words for name, _, words in to_buy(done)}
    assert "Cost" not in found
    assert found["Lands at"].startswith("$4,350.00 · ")
