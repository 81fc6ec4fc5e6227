"""A list is one declaration: one that only these tests declare works as the others do."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from functools import partial

import pytest
from textual.dom import DOMNode

from coilwright.job.answers import Form
from coilwright.job.job import Job
from coilwright.job.metal import MetalName
from coilwright.job.rows.place import RowPlace
from coilwright.job.stock import CoilOnHand
from coilwright.store import Store
from coilwright.units import Kind, show
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.beside import RowWord
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.form import Action, EntryView, Line, ListView, RowForm
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.measure import Measure, always
from coilwright.wizard.lists.screen import list_screen
from coilwright.wizard.lists.typed import NameAnswer
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import StepView
from coilwright.wizard.steps import trim as trim_step
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    entry_of,
    job_of,
    list_of,
    screen_text,
    settle,
    type_text,
    wizard,
)

Make = Callable[..., CoilwrightApp]


def _lines(opened: JobRows) -> list[Line]:
    return [Line(index, index, coil.tag, coil)
            for index, coil in enumerate(opened.session.job.on_hand)]


def _show(opened: JobRows, lines: Sequence[Line], width: int) -> list[Sequence[str]]:
    units = opened.session.job.units
    return [(f"  {line.name}  {show(line.row.width, Kind.WIDTH, units)} "
             f"{TINS.place.standing(opened.session.job, line.index or 0).value}"[:width],)
            for line in lines]


def _about(_opened: JobRows, line: Line | None, _width: int) -> list[str]:
    return ["Nothing marked."] if line is None else [f"{line.name} stands in {line.row.where}."]


PLACE: RowPlace[CoilOnHand] = RowPlace(
    "on_hand.", lambda job: job.on_hand,
    lambda job, coils: dataclasses.replace(job, on_hand=coils))
TINS: RowForm[CoilOnHand] = RowForm(
    key="tin",
    place=PLACE,
    measures=(
        Measure(name="tag", label="Tag", help="What is on it.", form=Form.TEXT, spec=NameAnswer,
                empty="Tin"),
        Measure(name="width", label="Width", help="Across it.", kind=Kind.WIDTH,
                bare=("in", "mm"), low=1, high=100, empty=1.0),
        Measure(name="where", label="Where", help="Where it is.", form=Form.TEXT, empty="",
                applies=lambda _job, coil, _key: coil.width > 10, offered=always,
                unasked="a narrow one; asked of wide ones"),
    ),
    lines=_lines,
    show=_show,
    actions=(
        Action(name="add", keys="a", label="Add tin", tooltip="One more tin", word="a add"),
        Action(name="copy", keys="c", label="Copy tin", tooltip="One more", word="c copy"),
        Action(name="up", keys="u", label="Tin up", tooltip="Nearer the top", word="u up"),
        Action(name="delete", keys="d", label="Delete tin", tooltip="Take it out",
               word="d delete"),
        Action(name="turn", keys="g", label="Guess or sure", tooltip="One or the other",
               word="g guess"),
        Action(name="undo", keys="z", label="Undo", tooltip="Take it back", word="z undo"),
    ),
    name=lambda job, index: job.on_hand[index].tag,
    new=lambda job: CoilOnHand(tag=f"Tin {len(job.on_hand) + 1}", metal=MetalName.STEEL,
                               thickness=0.03, width=20.0, length=100.0),
    empty="  no tin yet: a adds one",
    no_row="There is no tin yet.",
    unreadable_is_guess=True,
    heading=lambda _shown, every: f" Tins {every} ",
    bars=((("add", "copy"), ("up", "delete", "turn")),),
    view=ListView(title=lambda _opened: "All tins", hint=lambda _opened: "Escape closes",
                  about=_about),
    entry=EntryView(
        title=lambda opened, index: f"Tin {opened.session.job.on_hand[index].tag}",
        about=lambda opened, index, _width: [f"{opened.session.job.on_hand[index].width:g} in"],
        keys=(Action(name="guess", keys="f3", label="It is a guess", tooltip="It is one"),
              Action(name="sure", keys="f4", label="Confirm", tooltip="It is sure")),
    ),
)


def tags(job: Job) -> list[str]:
    return [coil.tag for coil in job.on_hand]


async def test_a_declared_list_on_a_step(app_on: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    view = StepView("trim", below=(partial(RowsBlock, TINS),))
    monkeypatch.setattr(trim_step, "VIEW", view)
    app = app_on(job_of(READY), "trim")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        session = wizard(app).session
        block = wizard(app).query_one(RowsBlock)
        block.take_focus()
        await settle(pilot)
        assert "Tins 0" in screen_text(app)
        assert "no tin yet: a adds one" in screen_text(app)
        await pilot.press("d")
        await settle(pilot)
        assert "There is no tin yet." in screen_text(app)
        await pilot.press("a")
        await settle(pilot)
        assert entry_of(app, "tin").index == 0
        await pilot.press(*"Red", "down")
        await type_text(pilot, "wide")
        await pilot.press("enter")
        await settle(pilot)
        assert "“wide”" in screen_text(app)
        assert PLACE.standing(session.job, 0) is Standing.GUESS, "while it cannot be read"
        await type_text(pilot, "8")
        await settle(pilot)
        assert "not asked: a narrow one" in screen_text(app), "it applies to wide ones only"
        await type_text(pilot, "24")
        await settle(pilot)
        assert "not asked" not in screen_text(app)
        assert "24 in" in screen_text(app)
        assert PLACE.standing(session.job, 0) is Standing.SURE, "it stands as it did before"
        await pilot.press("f3", "escape")
        await settle(pilot)
        assert "Red  24 in guess" in screen_text(app)
        await pilot.press("c")
        await settle(pilot)
        await type_text(pilot, "Blue")
        await pilot.press("escape")
        await settle(pilot)
        assert tags(session.job) == ["Red", "Blue"]
        await pilot.press("u")
        await settle(pilot)
        assert tags(session.job) == ["Blue", "Red"]
        assert block.marked() is not None
        assert block.marked().name == "Blue"  # type: ignore[union-attr]
        await pilot.press("g", "d")
        await settle(pilot)
        assert tags(session.job) == ["Red"]
        assert "Blue deleted; Ctrl+Z brings it back" in screen_text(app)
        await pilot.press("z", "z")
        await settle(pilot)
        assert tags(session.job) == ["Blue", "Red"]
        assert [PLACE.standing(session.job, index) for index in (0, 1)] == [Standing.GUESS] * 2
        await wizard(app).go("trim", "on_hand.1")
        await settle(pilot)
        assert block.marked().name == "Red"  # type: ignore[union-attr]
        # The word clicked twice on a slow screen: the second click meets another row, and shows it.
        word = _delete_word(block)
        for left in (1, 1, 0):
            await pilot.click(word)
            await settle(pilot)
            assert len(tags(session.job)) == left
        await pilot.press("z", "z")
        await settle(pilot)
        await pilot.click(word)
        await pilot.press("home")
        await pilot.click(word)
        await settle(pilot)
        assert not tags(session.job), "a key in the list: its mark was seen"
        # One click on a row and one on the word for each that is to go: none opens its form.
        await pilot.press("z", "z")
        await settle(pilot)
        for left in (1, 0):
            await pilot.click(block.list, offset=(5, left))
            await settle(pilot)
            assert wizard(app), "no form of a row"
            await pilot.click(word)
            await settle(pilot)
            assert len(tags(session.job)) == left


def _delete_word(listed: DOMNode) -> RowWord:
    return next(word for word in listed.query(RowWord) if str(word.render()) == "d delete")


async def test_the_same_list_over_the_wizard(app_on: Make) -> None:
    app = app_on(job_of(READY), "coils")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        session = wizard(app).session
        app.push_screen(list_screen(JobRows(TINS, session)))
        await settle(pilot)
        listed = list_of(app, "tin")
        assert "All tins" in screen_text(app)
        assert "Nothing marked." in screen_text(app)
        await pilot.press("a")
        await settle(pilot)
        await pilot.press(*"Red", "down", "down", *"the yard", "escape")
        await settle(pilot)
        assert app.screen is listed
        assert "Red stands in the yard." in screen_text(app)
        await pilot.press("c")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        for left in (1, 1, 0):
            await pilot.click(_delete_word(listed))
            await settle(pilot)
            assert len(tags(session.job)) == left, "the row that came there is shown first"
        await pilot.press("z")
        await settle(pilot)
        assert tags(session.job) == ["Red"]
        await pilot.press("enter")
        await settle(pilot)
        assert entry_of(app, "tin").index == 0


def test_enter_in_an_empty_list_that_nothing_is_added_to_says_so(store: Store) -> None:
    form = dataclasses.replace(TINS, new=None)
    rows = JobRows(form, Session(store, Job()))
    assert rows.do("open", None).say == form.no_row
