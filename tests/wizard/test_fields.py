"""What is typed is never lost, and never silently replaced by an old number."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual import events
from textual.geometry import Size
from textual.widgets import OptionList

from coilwright.drawing.line_work import LineWork
from coilwright.drawing.shapes import shape_lines
from coilwright.job.answers import ANSWERS
from coilwright.job.edit import new_job
from coilwright.job.roof import Building
from coilwright.store import Store
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.session import Session
from coilwright.wizard.settings import remembered_line_work
from coilwright.wizard.widgets.choice import ChoiceBox
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.help_area import HelpArea
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    job_of,
    screen_lines,
    screen_text,
    settle,
    type_text,
    wizard,
)


async def test_unreadable_text_stays_says_why_and_survives_reopening(
    app_on: Callable[..., CoilwrightApp], store: Store
) -> None:
    app = app_on(job_of(READY), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await type_text(pilot, "five-ish")
        await settle(pilot)
        screen = wizard(app)
        assert "strip.width" not in screen.session.plan.figures
        assert not screen.session.plan.ready
        assert "five-ish" in screen_text(app)
        assert "unclear" not in screen_text(app), "nobody has said yet that this is all of it"
        await pilot.press("enter")
        await settle(pilot)
        field = screen.focused_field()
        assert field is not None
        assert field.key == "panel.take_up"
        assert "five-ish" in screen_text(app)
        assert "unclear" in screen_text(app)
        assert "has no number in it" in screen_text(app)
        for text, unclear in (("4 5/8", False), ("five-ish", True)):
            screen.session.type_text(field.key, text)
            screen.form.take(field)
            if unclear:
                await pilot.press("enter")
            assert field.has_class("-unclear") == unclear, "before there is a plan of it"
        await pilot.press("ctrl+n")
        await settle(pilot)
        assert screen.step == "trim"
        assert screen.flush()
        path = screen.session.path
    assert path is not None
    again = CoilwrightApp(store, Session.open(store, path), "panel", "panel.take_up")
    async with driven(again, size=(80, 24)) as pilot:
        await settle(pilot)
        assert "five-ish" in screen_text(again)
        await type_text(pilot, "5")
        await pilot.press("enter")
        await settle(pilot)
        assert "unclear" not in screen_text(again)
        assert wizard(again).session.plan.ready


async def test_an_error_does_not_move_the_form(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(job_of(READY), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        before = [line[:20] for line in screen_lines(app)[2:10]]
        await type_text(pilot, "nine nine")
        await pilot.press("enter", "tab")
        await settle(pilot)
        after = [line[:20] for line in screen_lines(app)[2:10]]
        signs = str.maketrans("▸×", "  ")
        assert [b.translate(signs) for b in before] == [a.translate(signs) for a in after]
        assert "×" in str(wizard(app).query_one(HelpArea).render())
        # Help that takes both lines still says that there is more of it.
        await pilot.resize_terminal(72, 24)
        await wizard(app).go("metal", "metal.metal")
        await settle(pilot)
        area = wizard(app).query_one(HelpArea)
        # Its words are never parted, whatever the width.
        assert "F1\u00a0says\u00a0more" in str(area.render())
        assert str(area.render()).count("\n") == 1 == area.size.height - 1


async def test_leaving_a_field_shows_how_it_was_read(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(new_job(), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await type_text(pilot, "5.25")
        field = wizard(app).focused_field()
        assert field is not None
        assert field.box.value == "5.25"
        await pilot.press("tab")
        await settle(pilot)
        assert field.box.value == "5 1/4 in"


async def test_do_not_know_and_confirm(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(new_job(), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        session = wizard(app).session
        await pilot.press("f3")
        assert ANSWERS["panel.take_up"].value(session.job) == 5
        assert ANSWERS["panel.take_up"].standing(session.job) is Standing.GUESS
        await pilot.press("f4")
        assert ANSWERS["panel.take_up"].standing(session.job) is Standing.SURE
        # Typed over itself, in one letter or as it stands, a guess is sure.
        for said in ("5", wizard(app).query_one("#field-panel-take_up", Field).box.value):
            await pilot.press("f4")
            assert ANSWERS["panel.take_up"].standing(session.job) is Standing.GUESS
            await type_text(pilot, said)
            assert ANSWERS["panel.take_up"].standing(session.job) is Standing.SURE
            await pilot.press("down", "up")


async def test_what_the_order_waits_for_is_not_called_optional(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    answers = {key: text for key, text in READY.items() if key != "coils.site_lift"}
    app = app_on(job_of(answers), "coils", "coils.site_lift")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        field = wizard(app).form.field("coils.site_lift")
        assert field is not None
        assert field.standing_word(wizard(app).session.job) == "ask"
        other = wizard(app).form.field("coils.minimum_order")
        assert other is not None
        assert other.standing_word(wizard(app).session.job) == "optional"


async def test_do_not_know_without_a_usual_value_says_whom_to_ask(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(new_job(), "metal", "metal.thickness")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await pilot.press("f3")
        await settle(pilot)
        assert "Nothing is usual" in screen_text(app)
        assert "supplier" in screen_text(app)
        assert "don't know" in screen_text(app)
        await type_text(pilot, "0.02")
        await pilot.press(*["backspace"] * 4)
        assert "don't know" not in screen_text(app)


async def test_undo_and_redo_say_what(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(job_of({"panel.take_up": "5"}), "panel", "panel.take_up")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        session = wizard(app).session
        await type_text(pilot, "6 in")
        await pilot.press("enter")
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert ANSWERS["panel.take_up"].value(session.job) == 5
        assert "Undid: Take-up 6 in" in screen_text(app)
        field = wizard(app).form.field("panel.take_up")
        assert field is not None
        assert field.box.value == "5 in"
        await pilot.press("ctrl+y")
        await settle(pilot)
        assert ANSWERS["panel.take_up"].value(session.job) == 6
        assert field.box.value == "6 in"


async def test_questions_that_are_not_asked_stay_dim_and_keep_what_was_typed(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "metal", "metal.finish")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        assert screen.form.field("metal.color") is not None
        await pilot.press("enter", "b", "enter")
        await settle(pilot)
        assert screen.form.field("metal.color") is None
        await pilot.press("down", "X")
        await settle(pilot)
        assert "Not asked now: Finish is “bare, not painted”." in screen_text(app)
        assert screen.session.job.metal.color == READY["metal.color"], "typing there changes none"
        await pilot.press("ctrl+n", "ctrl+b")
        await settle(pilot)
        assert "Color " not in screen_text(app), "gone where the step is gone to again"
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert "slate (invented)" in screen_text(app)


@pytest.mark.parametrize(
    ("step", "key", "word"),
    [("panel", "panel.take_up", "machine maker"), ("coils", "coils.tolerance", "supplier")],
)
async def test_f1_gives_all_the_words(
    app_on: Callable[..., CoilwrightApp], step: str, key: str, word: str
) -> None:
    app = app_on(new_job(), step, key)
    async with driven(app, size=(80, 40)) as pilot:
        await pilot.press("f1")
        await settle(pilot)
        text = screen_text(app)
        for heading in ("Why it is asked", "What is usual", "Source", "Who knows", word):
            assert heading in text


async def test_metric_shows_and_keeps_sizes(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(job_of(READY), "job", "job.units")
    async with driven(app, size=(80, 24)) as pilot:
        before = wizard(app).session.job
        await pilot.press("x", "q")
        await settle(pilot)
        assert wizard(app).session.job is before
        assert [one.message for one in app._notifications] == [
            "“x” picks nothing at Units: u or m does, and ← →."], "once, not at each letter"
        await pilot.press("left", *"metric")  # the word typed out: its letters are no other picks
        await settle(pilot)
        assert len(app._notifications) == 1
        await pilot.press("ctrl+n", "ctrl+n", "ctrl+n")
        await settle(pilot)
        assert "mm" in screen_text(app)
        # 3,000 lb stands in its box as people read it; gone through, the boxes change nothing.
        assert "1361 kg" in screen_text(app)
        for _ in list(wizard(app).form.fields()):
            # Enter would open a list of picks.
            await pilot.press("tab" if isinstance(app.focused, ChoiceBox) else "enter")
        await settle(pilot)
        assert wizard(app).session.job.machine == before.machine
        assert wizard(app).session.job.panel == before.panel


async def test_enter_opens_a_list_answered_or_not_and_a_stray_letter_changes_nothing(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "metal", "metal.finish")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        before = session.job.metal.finish
        assert before is not None
        assert "▾ Enter opens" in screen_text(app)
        # A double click is as one: the second of it, wherever it would fall on the list that the
        # first opened, picks no row there and closes nothing beside them. Nor does that of a click
        # that closed the list press what lies below it. A quick click at another place counts.
        choice = app.focused
        assert choice is not None
        x, y = choice.content_region.offset
        for second, when in (((x, y), 9.2), ((x + 1, y + 1), 9.4)):
            await pilot.click_at(x, y, 9.0)
            assert isinstance(app.screen, PickScreen)
            await pilot.click_at(*second, when)
            assert isinstance(app.screen, PickScreen), second
            await pilot.click_at(0, 0, when + 0.1)
            assert app.screen is wizard(app), "beside it, and at once"
            await pilot.click_at(0, 0, when + 0.2)
            assert app.screen is wizard(app)
            assert session.job.metal.finish is before
        # A letter opens it at the first that begins with it; a word that is none of its picks was
        # meant for another answer.
        await pilot.press("b")
        await settle(pilot)
        assert isinstance(app.screen, PickScreen)
        marked = app.screen.query_one(OptionList).highlighted
        assert marked is not None
        assert app.screen.choices[marked].startswith("b")
        assert session.job.metal.finish is before, "opened, not picked"
        await pilot.press(*"lue", "enter")
        await settle(pilot)
        assert app.screen is wizard(app)
        assert session.job.metal.finish is before
        assert [one.message for one in app._notifications] == [
            "“blue” changed nothing: Finish is a list. Enter opens it, ↓ goes on."]
        # A letter that none begins with, and words after it: a space within them opens nothing.
        await pilot.press("x", *"Harbor", "space", *"Slate")
        await settle(pilot)
        assert app.screen is wizard(app)
        assert session.job.metal.finish is before
        await pilot.press("enter")
        await settle(pilot)
        assert app.screen is wizard(app), "what is typed next would jump in the list"
        assert "“xHarbor Slate” changed nothing" in next(iter(app._notifications)).message
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, PickScreen)
        await pilot.press("escape")
        await settle(pilot)
        assert session.job.metal.finish is before
        # The same pick, taken from the list by hand, is a guess no more.
        await pilot.press("f4")
        assert ANSWERS["metal.finish"].standing(session.job) == "guess"
        await pilot.press("enter")
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        assert session.job.metal.finish is before
        assert ANSWERS["metal.finish"].standing(session.job) == "sure"
        # The cursor stays on what was picked, so that what is typed next goes nowhere else; Enter
        # goes on, as from any other row, and opens the list again once one is back, or after
        # another key.
        picked, job = app.focused, session.job
        assert "▾ Enter goes on" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert app.screen is wizard(app)
        assert app.focused is not picked
        await pilot.press("up")
        await settle(pilot)
        assert app.focused is picked
        assert "▾ Enter opens" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        await pilot.press("x", "enter")
        await settle(pilot)
        assert isinstance(app.screen, PickScreen)
        await pilot.press("escape")
        await settle(pilot)
        assert app.focused is picked
        assert session.job is job
        # The first letter means the pick it stands on, where that begins so; once more goes to the
        # next that does. The ends of the list are ends.
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, PickScreen)
        marks, rows = [], app.screen.query_one(OptionList)
        for key in ("home", "up", "p", "p", "p", "p", "end", "down"):
            await pilot.press(key)
            marks.append(rows.highlighted)
        with_p = [at for at, name in enumerate(app.screen.choices) if name[0] in "pP"]
        assert with_p[0] == 0
        last = len(app.screen.choices) - 1
        assert marks == [0, 0, 0, *with_p[1:], 0, last, last]
        # Within a word a letter means nothing.
        words = " ".join(app.screen.choices).casefold()
        within = next(one for one in words if one.isalpha() and f" {one}" not in f" {words}")
        await pilot.press("home", within)
        assert rows.highlighted == 0
        assert any(within in name.casefold() for name in app.screen.choices[1:])
        assert f"“{within}” begins none of them" in screen_text(app)
        # What one is not is no word of it.
        await pilot.press("home", *"pain")
        assert rows.highlighted == 0
        assert "“pain” begins none of them" in screen_text(app)
        # What the trade writes is a word of its row; what leads nowhere begins no other search.
        smp = app.screen.choices.index("silicone-modified polyester")
        await pilot.press("home", *"smp")
        assert rows.highlighted == smp
        assert "polyester, SMP" in screen_text(app)
        assert "letters jump" in screen_text(app)
        await pilot.press(*"xp")
        assert rows.highlighted == smp
        assert "“smpxp” begins none of them; Enter picks the marked one" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("b", "enter")
        await settle(pilot)
        assert app.focused is picked
        assert session.job.metal.finish is not before
        # The second click of one that picked falls on nothing that lies below the list.
        x, y = choice.content_region.offset
        await pilot.click_at(x, y, 20.0)
        picks = app.screen.query_one(OptionList).content_region
        assert picks.height > 1
        row = next(at for at in range(picks.y, picks.bottom) if abs(at - y) > 1)
        await pilot.click_at(picks.x + 1, row, 20.1)
        assert app.screen is wizard(app), "picked, and at once"
        focused = app.focused
        await pilot.click_at(picks.x + 1, row, 20.3)
        assert (app.screen, app.focused) == (wizard(app), focused)


async def test_dont_know_overwrites_nothing_and_one_key_turns_guess_and_sure(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session, answer = wizard(app).session, ANSWERS["panel.take_up"]
        await type_text(pilot, "5.5")
        # F4 right after typing means to settle it: it stays sure, and the next one turns it.
        await pilot.press("f4")
        assert answer.standing(session.job) == "sure"
        assert "F4 once more makes it a guess" in list(app._notifications)[-1].message
        await pilot.press("f4")
        assert answer.standing(session.job) == "guess"
        await type_text(pilot, "5.5")
        for key, standing in (("f3", "guess"), ("f4", "sure"), ("f4", "guess"), ("f4", "sure"),
                              ("f3", "guess"), ("f3", "sure"), ("f4", "guess"), ("f3", "sure"),
                              ("f3", "guess")):
            await pilot.press(key)
            assert answer.value(session.job) == 5.5
            assert answer.standing(session.job) == standing, key
            said = list(app._notifications)[-1].message
            now = "only a guess" if standing == "guess" else standing
            assert said.startswith(f"Take-up: 5 1/2 in is {now} now; "), said
        # Gone to again it may stand there for long: only F4 makes it sure.
        await pilot.press("down", "up", "f3")
        assert answer.standing(session.job) == "guess"
        assert "guess already" in list(app._notifications)[-1].message


async def test_line_work_is_chosen_by_what_it_looks_like_and_kept(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    """Each way is drawn as it would look, says what it needs, and the one in use is marked."""
    app = app_on(job_of(READY), "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await app.run_action("line_work")
        await settle(pilot)
        shown = screen_text(app)
        assert "Empty boxes or ?" in shown
        now = app.line_work
        assert f"{now.value}  (now)" in shown
        for work in LineWork:
            assert work.value in shown
            first = shape_lines(Building.HIP, 15, 4, work)[0].strip()
            assert first
            assert first in shown, work
        rows = app.screen.query_one(OptionList)
        assert rows.highlighted == list(LineWork).index(now)
        await pilot.press("end", "enter")
        await settle(pilot)
        assert app.screen is wizard(app)
        assert app.line_work is list(LineWork)[-1]
        assert remembered_line_work(app.store.folder) is app.line_work


@pytest.mark.quick
@pytest.mark.parametrize(("room", "said"), [
    (31, " Enter goes on"), (25, " Enter: on"), (20, "")])
def test_that_enter_goes_on_after_a_pick_is_said_as_far_as_there_is_room(
    room: int, said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ChoiceBox, "size", Size(room, 1))
    monkeypatch.setattr(ChoiceBox, "has_focus", True)
    box = ChoiceBox(("double-lock", "single-lock, snapped"), "Seam")
    box.pick("double-lock", by_hand=True)
    assert str(box.render()) == f"‹double-lock› ▾{said}"


@pytest.mark.quick
def test_the_letter_of_the_pick_that_stands_there_means_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """So a guess at it is sure, as by Enter and by a click on it."""
    monkeypatch.setattr(ChoiceBox, "size", Size(60, 1))
    box = ChoiceBox(("coating included", "bare, before coating"), "Thickness includes")
    box.value = "coating included"
    posted: list[object] = []
    monkeypatch.setattr(box, "post_message", posted.append)
    monkeypatch.setattr(box, "refresh", lambda: None)
    box.on_key(events.Key("c", "c"))
    (said,) = posted
    assert isinstance(said, ChoiceBox.Changed)
    assert said.value == "coating included"
