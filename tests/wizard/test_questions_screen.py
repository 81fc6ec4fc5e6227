"""The questions on the screen: asked, answered, settled, undone, saved; what to ask first."""

from __future__ import annotations

import dataclasses
import threading
from collections.abc import Callable

import pytest
from textual.widgets import Input, OptionList

from coilwright.job.edit import do_not_know, new_job
from coilwright.job.questions import question_words
from coilwright.plan import plan
from coilwright.plan.questions import Status
from coilwright.plan.ready import open_words
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.screens.question import QuestionScreen
from coilwright.wizard.screens.questions import QuestionsScreen
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.widgets.choice import ChoiceBox
from tests.wizard.pilot import driven, until
from tests.wizard.wizard_driving import (
    READY,
    SIZES,
    job_of,
    screen_lines,
    screen_text,
    settle,
    type_text,
    wizard,
)

Make = Callable[..., CoilwrightApp]


def mark(app: CoilwrightApp, key: str) -> None:
    """Mark a row of the list of questions."""
    rows = app.screen.query_one("#questions-list", OptionList)
    rows.highlighted = rows.get_option_index(key)


@pytest.mark.parametrize("size", SIZES)
async def test_open_first_by_person_with_what_to_ask_first(
    app_on: Make, size: tuple[int, int]
) -> None:
    app = app_on(do_not_know(job_of(READY), "panel.take_up"), "summary")
    async with driven(app, size=size) as pilot:
        await settle(pilot)
        await pilot.press("f5")
        await settle(pilot)
        assert isinstance(app.screen, QuestionsScreen)
        text = " ".join(screen_text(app).split())
        assert "Take-up, the machine maker: strip 20 to 22 in" in text
        rows = app.screen.query_one("#questions-list", OptionList)
        session = app.screen.session
        shown = [o.id for o in rows.options if o.id and not o.id.startswith("first:")]
        asked = session.plan.questions
        assert sorted(shown) == sorted(q.key for q in asked)
        assert "1 for an open answer or a guess, marked ANSWER" in text
        await pilot.press(*"5 in")  # a reply typed in the list is told, once
        await settle(pilot)
        (said,) = (one.message for one in app.notices if "changes nothing" in one.message)
        assert said.startswith("“5” changes nothing in this list: Enter opens the marked question")
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen)
        # In whichever order they are painted, what lies behind each is the one below it.
        behind = [getattr(one.render(), "screen", None) for one in app.screen_stack[:0:-1]]
        assert behind == app.screen_stack[-2::-1]
        assert app.screen.key == "machine_maker.take_up"
        said = next(q.words for q in asked if q.key == "machine_maker.take_up")
        inside = [line.split("│")[1] for line in screen_lines(app) if line.count("│") == 2]
        text = " ".join(" ".join(inside).split())
        for part in (said.ask, said.why, said.good, said.otherwise):
            assert part.split(". ")[0].rstrip(".") in text


async def test_a_number_flows_into_the_answer_with_its_error_and_is_undone(
    app_on: Make, store: Store
) -> None:
    app = app_on(do_not_know(job_of(READY), "panel.take_up"), "summary")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        await pilot.press("f5")
        await settle(pilot)
        mark(app, "machine_maker.take_up")
        await pilot.press("enter")
        await settle(pilot)
        await type_text(pilot, "five-ish")
        assert "goes into “Take-up”, not understood as it stands" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen), "what cannot be read stays on the screen"
        assert "×" in screen_text(app)
        assert session.job.typed["panel.take_up"] == "five-ish"
        await pilot.press("escape")
        await settle(pilot)
        assert "“five-ish” was not understood" in app.notices[0].message
        await pilot.press("enter")
        await settle(pilot)
        assert "five-ish" in screen_text(app)
        await type_text(pilot, "4 1/2")
        assert session.job.panel.take_up == 4.5
        assert "panel.take_up" in session.plan.guesses, "typed, and not settled yet"
        await pilot.press("enter")
        await settle(pilot)
        assert "panel.take_up" not in session.plan.guesses
        assert session.plan.figures["strip.width"].value == 20.5
        # A reply that is typed and settled in one go is one step, wherever it is taken back.
        label = session.changes.last
        assert label is not None
        assert label.label.endswith("”: 4 1/2")
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert session.job.panel.take_up != 4.5
        assert session.job.typed["panel.take_up"] == "five-ish"
        await pilot.press("ctrl+y")
        await settle(pilot)
        assert session.job.panel.take_up == 4.5
        assert "panel.take_up" not in session.plan.guesses
        # Picks in a list open as on a step, and the cursor stays on them; F4 settles the pick.
        await pilot.press("escape")
        await settle(pilot)
        assert isinstance(app.screen, QuestionsScreen)
        mark(app, "designer.deck")
        await pilot.press("enter")
        await settle(pilot)
        assert "Enter opens list · F4 settled" in screen_text(app)
        was = session.job.panel.deck
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, PickScreen)
        await pilot.press("down", "enter")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen)
        assert session.job.panel.deck not in (was, None)
        assert "panel.deck" in session.plan.guesses, "picked, and not settled yet"
        await pilot.press("f4")
        await settle(pilot)
        assert "panel.deck" not in session.plan.guesses
        # Going on settles a pick as F4 does, but none that was marked open again.
        box = app.screen.query_one(ChoiceBox)
        first, second = (pick for pick in box.choices[:3] if pick != box.value)
        box.pick(first, by_hand=True)
        await settle(pilot)
        assert "panel.deck" in session.plan.guesses
        await pilot.press("f3", "ctrl+n")
        await settle(pilot)
        assert "panel.deck" in session.plan.guesses, "marked open"
        await pilot.press("ctrl+b")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen)
        assert app.screen.key == "designer.deck"
        app.screen.query_one(ChoiceBox).pick(second, by_hand=True)
        await settle(pilot)
        await pilot.press("ctrl+n")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen)
        assert app.screen.key != "designer.deck"
        assert str(session.job.panel.deck) == second
        assert "panel.deck" not in session.plan.guesses
        # Leaving settles nothing, and says so.
        await pilot.press("ctrl+b")
        await settle(pilot)
        app.screen.query_one(ChoiceBox).pick(first, by_hand=True)
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert str(session.job.panel.deck) == first
        assert "panel.deck" in session.plan.guesses
        assert "The pick is kept, not settled yet" in app.notices[0].message
        while not isinstance(app.screen, WizardScreen):
            await pilot.press("escape")
            await settle(pilot)
        assert wizard(app).flush()
        assert session.path is not None
        assert store.load(session.path).panel.take_up == 4.5


async def test_words_are_kept_settled_opened_and_saved(app_on: Make, store: Store) -> None:
    job = job_of(READY)
    free = next(q for q in plan(job).questions if not q.words.answer)
    app = app_on(job, "job")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        session = wizard(app).session
        await pilot.press("f5")
        await settle(pilot)
        mark(app, free.key)
        await pilot.press("enter")
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        assert "Left open: nothing is written." in screen_text(app)
        assert free.key not in session.job.questions
        await pilot.press("ctrl+b")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen)
        assert app.screen.key == free.key
        await pilot.press(*"yes, by [b]phone[/]")
        assert session.job.questions[free.key].text == "yes, by [b]phone[/]"
        assert not session.job.questions[free.key].settled
        await pilot.press("f4")
        assert session.job.questions[free.key].settled
        await pilot.press("f3")
        assert not session.job.questions[free.key].settled
        await pilot.press("enter")
        await settle(pilot)
        assert session.job.questions[free.key].settled
        assert isinstance(app.screen, QuestionScreen)
        assert app.screen.key != free.key, "on to the next question"
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("s")
        await settle(pilot)
        assert "Question sheet saved" in screen_text(app)
        saved = sorted(p.name for p in store.sheets_folder.iterdir())
        assert saved == ["heron-lane-barn-questions.html", "heron-lane-barn-questions.md"]
        text = (store.sheets_folder / saved[1]).read_text("utf-8")
        assert "phone" in text


async def test_settle_and_open_from_the_list(app_on: Make) -> None:
    job = job_of(READY)
    free = next(q for q in plan(job).questions if not q.words.answer)
    app = app_on(job, "job")
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        session = wizard(app).session

        def status() -> Status:
            return next(q.status for q in session.plan.questions
                        if q.key == free.key)

        await pilot.press("f5")
        await settle(pilot)
        mark(app, free.key)
        await pilot.press("f4")
        assert status() is Status.OPEN, "a reply settles it, and nothing else does"
        assert app.notices[0].message == (
            "There is no reply yet: Enter writes one down, w waives the question.")
        await pilot.press("enter", *"yes", "escape")
        mark(app, free.key)
        rows = app.screen.query_one("#questions-list", OptionList)
        ids = [option.id for option in rows.options]
        still = {q.key for q in session.plan.questions if not q.status.is_done}
        after = next(key for key in ids[ids.index(free.key) + 1:] if key in still)
        await pilot.press("f4")
        assert status() is Status.SETTLED
        # Held down the key settles one alone; the next open one is marked by the next arrow.
        assert rows.highlighted_option is None
        await pilot.press("f4", "down")
        assert rows.highlighted_option is not None
        assert rows.highlighted_option.id == after
        mark(app, free.key)
        await pilot.press("f3")
        assert status() is Status.GUESS
        await pilot.press("ctrl+z")
        assert status() is Status.SETTLED
        rows = app.screen.query_one("#questions-list", OptionList)
        before = rows.highlighted
        await pilot.press("right")
        assert rows.highlighted != before
        key = rows.highlighted_option
        assert key is not None
        assert key.id is not None
        assert not key.id.startswith(free.key.split(".")[0] + ".")


async def test_a_job_held_by_its_questions_alone_says_them(app_on: Make) -> None:
    job = dataclasses.replace(job_of(READY), questions={})
    words = open_words(plan(job).readiness)
    assert words
    app = app_on(job, "summary")
    async with driven(app, size=(96, 40)) as pilot:
        await settle(pilot)
        text = " ".join(screen_text(app).split())
        count = len(plan(job).reasons)
        assert f"Held by {count} questions" in text
        assert f"HOLD {words}" in text
        assert f"DRAFT, {count} to settle" in text
        assert f"Summary ? ask {count}" in text
        rows = app.screen.query_one("#summary-rows", OptionList)
        line = next(o.id for o in rows.options if (o.id or "").startswith("question:"))
        rows.highlighted = rows.get_option_index(line or "")
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen)
        assert f"question:{app.screen.key}" == line
        assert f"1 of {count} that hold the order" in screen_text(app)
        await pilot.press(*"yes", "enter")
        await settle(pilot)
        assert isinstance(app.screen, QuestionScreen), "on to the next that holds the order"
        assert app.screen.key in app.screen.session.plan.readiness.holding
        await pilot.press("escape")
        await settle(pilot)
        assert isinstance(app.screen, WizardScreen), "back to the summary it was opened from"
        assert f"DRAFT, {count - 1} to settle" in screen_text(app)
        rows = app.screen.query_one("#summary-rows", OptionList)
        key = next(o.id for o in rows.options if (o.id or "").startswith("question:")) or ""
        rows.highlighted = rows.get_option_index(key)
        await settle(pilot)
        assert "w: waive it" in screen_text(app)
        await pilot.press("w", *"nobody buys", "enter")
        await settle(pilot)
        done = wizard(app).session.plan
        assert key.removeprefix("question:") in {one.key for one in done.readiness.settled}
        await pilot.press("f5")
        await settle(pilot)
        text = " ".join(screen_text(app).split())
        assert f"{open_words(done.readiness)}, marked HOLD" in text
        # One that held is settled, and goes far down: the list stands at the next that holds.
        rows = app.screen.query_one("#questions-list", OptionList)
        held = [o.id for o in rows.options if o.id in done.readiness.holding]
        one = next(key for key in held if not question_words(key).answer)
        after = held[(held.index(one) + 1) % len(held)]
        mark(app, one)
        await pilot.press("enter", *"yes", "f4", "escape")
        await settle(pilot)
        assert isinstance(app.screen, QuestionsScreen)
        assert one not in app.screen.session.plan.readiness.holding
        assert rows.highlighted_option is not None
        assert rows.highlighted_option.id == after
        await pilot.press("end", "home")
        await settle(pilot)
        assert rows.scroll_offset.y == 0, "the first heading is seen too"
        first = rows.highlighted
        await pilot.press("ctrl+end")
        assert rows.highlighted == rows.option_count - 1
        await pilot.press("ctrl+home")
        assert rows.highlighted == first, "as Home does, though it stands for the form elsewhere"
        mark(app, one)  # looked at alone, it keeps the mark
        await pilot.press("enter", "escape")
        await settle(pilot)
        assert rows.highlighted_option is not None
        assert rows.highlighted_option.id == one


async def test_every_reason_is_on_the_summary_and_goes_to_its_answer(app_on: Make) -> None:
    job = new_job("Cold")
    app = app_on(job, "summary")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        rows = app.screen.query_one("#summary-rows", OptionList)
        ids = [o.id for o in rows.options]
        reasons = [r for r in plan(job).reasons if r.kind in ("ask", "guess")]
        assert len(reasons) > 20
        for reason in reasons:
            assert f"go:{reason.key}" in ids
        # The line that says by what it is held goes to the first of them.
        for key, row in ((reasons[0].key, "held:"), *((one.key, f"go:{one.key}")
                                                      for one in (reasons[0], reasons[-1]))):
            top = row == "held:"
            rows = app.screen.query_one("#summary-top" if top else "#summary-rows", OptionList)
            rows.focus()
            rows.highlighted = rows.get_option_index(row)
            await pilot.press("enter")
            await settle(pilot)
            field = wizard(app).focused_field()
            assert field is not None
            assert field.key == key
            await pilot.press("f9")
            await settle(pilot)


async def test_ranking_runs_in_a_thread_and_an_old_one_is_ignored(
    app_on: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    import coilwright.plan.ask_first as core

    threads: list[str] = []
    real = core.ask_first

    def spy(*args: object) -> object:
        threads.append(threading.current_thread().name)
        return real(*args)  # type: ignore[arg-type]

    monkeypatch.setattr(core, "ask_first", spy)
    app = app_on(do_not_know(job_of(READY), "panel.take_up"), "summary")
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        assert threads
        assert threading.main_thread().name not in threads
        old, effects = screen.session.plan, real(screen.session.job)
        screen.session.do_not_know("coils.spare")
        screen.changed()
        await settle(pilot)
        fresh = screen.controllers.ranking.effects
        assert {e.key for e in fresh} == {"panel.take_up", "coils.spare"}
        screen.controllers.ranking.take(old, effects)
        assert screen.controllers.ranking.effects is fresh, "a ranking of an older plan is ignored"


async def test_what_to_ask_first_stands_beside_the_form(app_on: Make) -> None:
    app = app_on(do_not_know(job_of(READY), "panel.take_up"), "panel")
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        await until(pilot, lambda: "Settle first" in screen_text(app))
        text = screen_text(app)
        assert "Take-up · machine maker" in text
        wizard(app).session.confirm("panel.take_up")
        wizard(app).changed()
        await settle(pilot)
        assert "Settle first" not in screen_text(app), "nothing is left to ask"


async def test_narrow_has_one_line_where_it_fits_and_never_pushes_a_caution_out(
    app_on: Make,
) -> None:
    app = app_on(do_not_know(job_of(READY), "panel.take_up"), "coils")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await until(pilot, lambda: not app.screen.query_one("#ask-first").has_class("-empty"))
        results = app.screen.query_one("#results")
        caution = app.screen.query_one("#caution")
        assert caution.region.bottom <= results.region.bottom
        line = app.screen.query_one("#ask-first")
        if line.display:
            assert line.region.bottom <= results.region.bottom
            assert "settle first: Take-up" in screen_text(app)


async def test_words_of_the_trade_open_in_turn(app_on: Make) -> None:
    app = app_on(job_of(READY), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("f1")
        await settle(pilot)
        assert "Words in it" in screen_text(app)
        for _ in range(30):
            await pilot.press("down")
            if isinstance(app.screen.focused, OptionList):
                break
        await pilot.press("enter")
        await settle(pilot)
        first = app.screen
        assert type(first).__name__ == "TermScreen"
        await pilot.press("escape")
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("f7")
        await settle(pilot)
        app.screen.query_one(Input).value = "cambe"
        await settle(pilot)
        assert "sideways bow" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert type(app.screen).__name__ == "TermScreen"


async def test_every_figure_is_found_by_name_and_opens(app_on: Make) -> None:
    app = app_on(job_of(READY), "job")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        figures = wizard(app).session.plan.figures
        await pilot.press("f6")
        await settle(pilot)
        rows = app.screen.query_one("#figures-list", OptionList)
        assert [o.id for o in rows.options] == list(figures)
        await pilot.press(*"strip width")
        await settle(pilot)
        assert rows.get_option_at_index(0).id == "strip.width"
        await pilot.press("enter")
        await settle(pilot)
        assert "16 + 5" in screen_text(app)
        await pilot.press("down", "right", "left")
        await settle(pilot)
        terms = app.screen.query_one("#working-terms", OptionList)
        assert terms.highlighted == 1, "back at the term that was opened"
        await pilot.press("g")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key == "panel.take_up"


async def test_a_guessed_plane_is_gone_to_and_marked(app_on: Make) -> None:
    from coilwright.job.roof import Plane
    from coilwright.wizard.lists.block import RowsBlock
    from tests.cases import guess, small_gable, with_planes

    planes = [Plane(name=f"Side {n}", eave=300.0 + n, slope_length=120.0, pitch=6)
              for n in range(3)]
    job = guess(with_planes(small_gable(), *planes), "roof.planes.1")
    app = app_on(job, "summary")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        rows = app.screen.query_one("#summary-rows", OptionList)
        rows.highlighted = rows.get_option_index("go:roof.planes.1")
        await pilot.press("enter")
        await settle(pilot)
        assert wizard(app).step == "roof"
        block = app.screen.query_one(RowsBlock)
        marked = block.marked()
        assert marked is not None
        assert marked.name == "Side 1"
        assert app.screen.focused is block.list


async def test_do_not_know_on_a_guess_says_it_is_one(app_on: Make) -> None:
    app = app_on(do_not_know(job_of(READY), "panel.take_up"), "panel", "panel.take_up")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("f3")
        await settle(pilot)
        assert "It is a guess already" in screen_text(app)
