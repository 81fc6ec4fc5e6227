"""The controllers by themselves: each with a context that writes down what it is asked."""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from textual.widgets import Static

from coilwright.calc import sources
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.attempt import Attempt
from coilwright.job.choices import YesNo
from coilwright.job.edit import clear, do_not_know, give, new_job
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.job.life_lines import life_lines, with_award
from coilwright.job.metal import Shade
from coilwright.job.sending import stands_elsewhere
from coilwright.job.stock import Stock
from coilwright.plan import plan
from coilwright.plan.ask_first import ask_first
from coilwright.plan.questions import reply
from coilwright.plan.quotes.award import award
from coilwright.sheets.sending import send
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs
from coilwright.store.stock import save_stock
from coilwright.units import System
from coilwright.values.finding import Finding, Level
from coilwright.values.standing import Standing
from coilwright.wizard.answering import AnswerController, Focus, answer_to_change
from coilwright.wizard.context import Context
from coilwright.wizard.lists.arrivals import ARRIVALS
from coilwright.wizard.lists.coils_on_hand import StockRows
from coilwright.wizard.lists.papers import ORDER
from coilwright.wizard.lists.requests import REQUEST_LIST
from coilwright.wizard.lists.run_done import RunDone
from coilwright.wizard.lists.shop import MY_BUYER, MY_MACHINES, MY_RIGS, MY_SUPPLIERS
from coilwright.wizard.lists.stock_book import RunPut, book_of
from coilwright.wizard.ranking import RankingController
from coilwright.wizard.screens.help import FindingScreen
from coilwright.wizard.screens.lines import LinesScreen
from coilwright.wizard.screens.saving import ConflictScreen, SavingController
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import load_view
from coilwright.wizard.steps.coils.search import SearchController
from coilwright.wizard.steps.coils.stock import StockController
from coilwright.wizard.steps.haul.loads import lighter_coils
from coilwright.wizard.steps.machine.machines import MachineController
from coilwright.wizard.steps.panel.widths import compare_widths
from coilwright.wizard.steps.quotes.life import LifeController
from coilwright.wizard.steps.quotes.life_screen import LifeScreen
from coilwright.wizard.steps.quotes.next_steps import RUN_AT_ONCE, Wrote, next_steps, press_words
from coilwright.wizard.steps.roof import PlanesController
from coilwright.wizard.steps.summary.controller import SummaryController, row_keys
from coilwright.wizard.undoing import LIFE, Stepped, go_into, step_again, step_back
from coilwright.wizard.widgets.form import StepForm
from tests.plan.coils.stock import coil
from tests.plan.quotes.five import FIVE, barn
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.wizard.wizard_driving import READY, job_of

BARN = demo_jobs()["heron-lane-barn"]
HIP = demo_jobs()["quarry-house-hip"]
"""A job with guesses: there is something to ask first."""


@dataclass
class Written:
    """What a controller asked of its screen, in order."""

    session: Session
    notices: list[str] = field(default_factory=list)
    opened: list[tuple[Any, Any]] = field(default_factory=list)
    went: list[str] = field(default_factory=list)
    changes: int = 0
    later: list[Callable[[], object]] = field(default_factory=list)
    threads: list[str] = field(default_factory=list)

    def context(self) -> Context:
        """A context that only writes down."""

        def say(message: str, **_more: object) -> None:
            self.notices.append(message)

        def changed() -> None:
            self.changes += 1

        async def go(key: str) -> None:
            self.went.append(key)

        def later(_seconds: float, call: Callable[[], object]) -> Any:
            self.later.append(call)
            return Stopped()

        def in_thread(_work: Callable[[], None], name: str) -> Any:
            self.threads.append(name)
            return None

        return Context(
            session=self.session, say=say, changed=changed, show_again=lambda: None, go=go,
            open=lambda screen, closed=None: self.opened.append((screen, closed)), later=later,
            in_thread=in_thread, from_thread=lambda call, *given: call(*given),
            soon=lambda call, *given: call(*given),
        )


class Stopped:
    """A timer that never runs out."""

    def stop(self) -> None:
        """Nothing to stop."""


def written(store: Store, job: Job) -> Written:
    return Written(Session(store, job))


def want_next(seen: Written) -> None:
    """Press the key of the next step in the life of the order."""
    life, _closed = seen.opened[-1]
    assert isinstance(life, LifeScreen)
    life.action_want("next")


def answers(seen: Written, key: str = "", figure: str = "", step: str = "panel") -> \
        AnswerController:
    focus = Focus(step, load_view(step).headlines, key, figure)
    return AnswerController(seen.context(), lambda: focus)


class TestAnswers:
    def test_a_usual_value_stands_in_and_is_then_confirmed(self, store: Store) -> None:
        seen = written(store, new_job())
        answers(seen, "panel.take_up").do_not_know()
        assert "panel.take_up" in plan(seen.session.job).guesses
        answers(seen, "panel.take_up").do_not_know()
        assert seen.notices == ["It is a guess already; F4 confirms it once somebody knows."]
        answers(seen, "panel.take_up").confirm()
        assert "panel.take_up" not in plan(seen.session.job).guesses
        assert seen.changes == 2

    def test_a_guess_at_what_was_usual_becomes_what_is_usual_now(self, store: Store) -> None:
        """150 °F until the color is dark, then 180 °F; what somebody gave stays what it is."""
        seen = written(store, do_not_know(new_job(), JobKey.HOTTEST))
        seen.session.change(give(seen.session.job, MetalKey.SHADE, Shade.DARK), "Shade dark")
        hottest = answers(seen, JobKey.HOTTEST, step="job")
        hottest.do_not_know()
        assert seen.session.job.job.hottest == 180
        assert seen.session.job.standing[JobKey.HOTTEST] is Standing.GUESS
        hottest.do_not_know()
        assert seen.notices == [
            "As the job is now the guess is 180 °F in place of 150 °F; Ctrl+Z takes that back.",
            "It is a guess already; F4 confirms it once somebody knows."]
        for given, standing in ((150.0, Standing.SURE), (160.0, Standing.GUESS)):
            seen.session.change(give(seen.session.job, JobKey.HOTTEST, given, standing), "by hand")
            hottest.do_not_know()
            assert seen.session.job.job.hottest == given

    def test_without_an_answer_in_hand_that_is_said(self, store: Store) -> None:
        seen = written(store, new_job())
        answers(seen).do_not_know()
        answers(seen).confirm()
        assert seen.notices == ["Move to an answer first."] * 2
        answers(seen, figure="roof.area").confirm()
        row = Focus("coils", (), take_key=lambda _key: False)
        AnswerController(seen.context(), lambda: row).confirm()
        assert seen.notices[2:] == ["A figure is as sure as its answers: Enter shows them.",
                                    "This row is no answer, so it is no guess: Enter opens it."]
        assert seen.changes == 0

    def test_a_click_turns_the_standing_round(self, store: Store) -> None:
        seen = written(store, new_job())
        turn = answers(seen).turn_standing
        turn("panel.take_up")
        assert "panel.take_up" in plan(seen.session.job).guesses
        turn("panel.take_up")
        assert seen.session.job.standing.get("panel.take_up", Standing.SURE) is Standing.SURE
        turn("panel.take_up")
        assert "panel.take_up" in plan(seen.session.job).guesses
        turn("panel.report")
        assert seen.notices == [
            "5 in is sure now; F4 or a click on that word makes it a guess.",
            "5 in is only a guess now; F3 or F4 makes it sure again.",
            "Nothing is usual for this one; F1 says whom to ask."]

    def test_the_working_is_of_the_focused_figure_or_of_one_that_rests_on_the_answer(
        self, store: Store
    ) -> None:
        seen = written(store, BARN)
        answers(seen, figure="coil.mass_ordered").working()
        answers(seen, "panel.take_up").working()
        assert [screen.figure.key for screen, _ in seen.opened] == [
            "coil.mass_ordered", "strip.width"]

    def test_a_figure_that_is_not_there_says_what_it_waits_for(self, store: Store) -> None:
        seen = written(store, new_job())
        answers(seen, figure="strip.width").working()
        assert not seen.opened
        assert seen.notices[0].startswith("Strip width still needs: ")

    async def test_a_screen_that_returns_an_answer_leads_to_it(self, store: Store) -> None:
        seen = written(store, BARN)
        answers(seen).questions(store.folder, ())
        answers(seen).figures()
        for _screen, closed in seen.opened:
            await closed(None)
            await closed("panel.leg")
        assert seen.went == ["panel.leg"] * 2

    def test_undo_and_redo_say_what_they_did(self, store: Store) -> None:
        seen = written(store, new_job())
        answers(seen, "panel.take_up").do_not_know()
        answers(seen).undo()
        answers(seen).redo()
        answers(seen).redo()
        assert seen.notices == [
            "Undid: Take-up: don't know", "Redid: Take-up: don't know", "Nothing to redo."]
        assert seen.changes == 3

    def test_what_stood_in_a_box_comes_back_before_the_job_is_left(self, store: Store) -> None:
        seen = written(store, BARN)
        answers(seen, "panel.take_up").put_back()
        assert "F10 leaves the job" in seen.notices[0]
        seen.session.type_text("panel.take_up", "about so")
        answers(seen, "panel.take_up").put_back()
        assert "stands there again" in seen.notices[1]
        assert "panel.take_up" not in seen.session.job.typed


def test_what_was_changed_elsewhere_is_named_before_it_is_taken_back(store: Store) -> None:
    session = Session(store, BARN)
    session.here = "arrival"
    assert session.change(with_arrived(BARN, arrival()), "Coil 2: Camber 3/8")
    told = ("Last {}, and not here: Coil 2: Camber 3/8 (Receiving). The same key again {}.")
    # It stays known where it was made once the job is opened anew.
    session.save()
    assert session.path is not None
    session = Session.open(store, session.path)
    session.here = "quotes"
    assert step_back(session) == Stepped(told.format("changed", "takes it back"), False)
    assert session.job.arrived
    # Elsewhere, or after the focus went to another answer, it is named anew.
    assert step_back(session, LIFE) == Stepped(told.format("changed", "takes it back"), False)
    session.seal()
    assert not step_back(session).done
    assert step_back(session) == Stepped("Undid: Coil 2: Camber 3/8", True)
    assert not session.job.arrived
    session.here = "roof"
    assert step_again(session) == Stepped(told.format("taken back", "makes it again"), False)
    assert step_again(session).done
    session.here = "arrival"
    assert step_back(session).done
    assert step_back(session) == Stepped("Nothing to undo.", False)


def test_what_stands_on_the_step_is_taken_back_at_once(store: Store) -> None:
    """Wherever it was changed; and what was changed here, wherever it stands."""
    for here, at_once in (("summary", True), ("machine", False), ("panel", True), (LIFE, False)):
        session = Session(store, BARN)
        session.here = "summary"
        assert session.doubt("panel.take_up")
        session.here = here
        assert step_back(session).done is at_once, here
    awarded = award(plan(barn(*FIVE)), 1)
    session = Session(store, barn(*FIVE))
    session.here = "quotes"
    assert session.change(awarded, "awarded")
    session.here = "coils"  # where only some of it stands
    assert not step_back(session).done
    # What undo leaves as it is, a reply in practice or a coil put back in stock, is no part of it.
    for beside in ({"practice": Attempt(practice="wrong-gauge", seed=1)},
                   {"put_in_stock": {"coil.1": "R-2"}, "put_back_on": datetime.date(2026, 5, 1)}):
        session = Session(store, BARN)
        session.here = "summary"
        assert session.doubt("panel.take_up")
        session.take_beside(dataclasses.replace(session.job, **beside))
        session.here = "panel"
        assert step_back(session) == Stepped("Undid: Take-up: a guess", True)
        assert session.job == dataclasses.replace(BARN, **beside)


def test_what_went_to_stock_last_is_named_before_an_older_change(store: Store) -> None:
    """It is taken back where it lies, in After the run or in the list of coils on hand."""
    session, book = Session(store, BARN), book_of(store)
    session.here = "summary"
    assert not step_back(session).done

    def put(tag: str) -> None:
        book.change(book.stock.put(coil(tag, 37)), "run of the barn",
                    RunPut(session, {}, {"coil.1": tag}))

    put("R-1")
    assert step_back(session) == Stepped(
        "Nothing to undo here. Last put in stock: run of the barn; After the run, or Coils on "
        "hand, takes it back.", False)
    in_list = StockRows(book, session)
    for name, does, tags in (("undo", "Undid", {}), ("redo", "Redid", {"coil.1": "R-1"}),
                             ("undo", "Undid", {})):
        assert in_list.do(name, None).say.startswith(f"{does}: run of the barn")
        assert session.job.put_in_stock == tags, "the job says the same as the stock"
    assert step_back(session).said == "Nothing to undo."
    assert session.doubt("panel.take_up")
    put("R-2")
    assert step_back(session) == Stepped(
        "Last put in stock: run of the barn; After the run, or Coils on hand, takes it back. The "
        "same key again undoes: Take-up: a guess.", False)
    assert step_back(session) == Stepped("Undid: Take-up: a guess", True)
    put("R-3")
    assert session.doubt("panel.take_up")
    assert step_back(session).done, "what was changed since is the last"


def test_each_list_that_opens_over_a_step_has_a_name_there(store: Store) -> None:
    for form in (ARRIVALS, REQUEST_LIST, ORDER, MY_BUYER, MY_MACHINES, MY_RIGS, MY_SUPPLIERS):
        session = Session(store, BARN)
        go_into(session, form.key)
        assert session.here == form.key


def test_a_notice_never_steers_the_terminal(store: Store) -> None:
    session = Session(store, BARN)
    session.change(new_job(), "a\x1b[2Jb")
    assert step_back(session).said == "Undid: a·[2Jb"


class TestRanking:
    def test_a_ranking_of_an_older_plan_is_not_taken(self, store: Store) -> None:
        seen = written(store, HIP)
        shown: list[tuple[int, bool]] = []
        ranking = RankingController(
            seen.context(), lambda _plan, effects, fresh: shown.append((len(effects), fresh)))
        old = seen.session.plan
        effects = ask_first(seen.session.job, old)
        assert effects
        ranking.rank_soon(at_once=False)
        assert (shown, len(seen.later)) == ([(0, False)], 1)
        seen.session.type_text("panel.take_up", "5 1/8 in")
        ranking.take(old, effects)
        assert ranking.effects == ()
        ranking.take(seen.session.plan, effects)
        assert shown[-1] == (len(effects), True)

    def test_on_the_summary_it_is_ranked_at_once(self, store: Store) -> None:
        seen = written(store, HIP)
        ranking = RankingController(seen.context(), lambda *_given: None)
        assert seen.session.plan.readiness.to_settle
        ranking.rank_soon(at_once=True)
        assert seen.threads == ["ask-first"]


class TestSaving:
    def test_what_goes_wrong_is_said_once_and_tried_again(
        self, store: Store, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        from coilwright.store import StoreError

        seen = written(store, BARN)
        told: list[str] = []
        saving = SavingController(seen.context(), lambda: True, lambda: told.append("told"))
        seen.session.type_text("job.name", "Another name")

        def full(_job: Job, _state: object) -> tuple[Path, object]:
            raise StoreError("There is no room.")

        with monkeypatch.context() as patched:
            patched.setattr(store, "create_stamped", full)
            assert not saving.save()
            assert not saving.flush()
        assert (saving.trouble, seen.notices) == ("There is no room.", ["There is no room."])
        assert saving.flush()
        assert (saving.trouble, told) == ("", ["told", "told"])

    def test_two_windows_are_asked_about_once(self, store: Store) -> None:
        path = store.create(BARN)
        seen = Written(Session.open(store, path))
        saving = SavingController(seen.context(), lambda: True, lambda: None)
        other = Session.open(store, path)
        other.type_text("job.name", "Theirs")
        assert other.save()
        saving.look()
        saving.look()
        [(screen, answered)] = seen.opened
        assert isinstance(screen, ConflictScreen)
        answered(False)
        assert seen.session.job.title == "Theirs"


class TestSteps:
    def test_a_machine_that_is_picked_is_a_guess_until_it_is_confirmed(
        self, store: Store
    ) -> None:
        seen = written(store, new_job())
        machine = MachineController(seen.context())
        machine.confirm()
        machine.pick()
        screen, picked = seen.opened[0]
        picked(next(iter(screen.machines)))
        for _ in range(3):
            machine.confirm()
        assert [notice.partition(":")[0].partition(" until")[0] for notice in seen.notices] == [
            "There is no machine to confirm yet", "Every value is a guess", "Not yet",
            "All values that are there are sure now. The plate decides.", "Nothing to confirm"]

    def test_a_blank_job_has_nothing_to_run_to_search_or_to_compare(self, store: Store) -> None:
        seen = written(store, new_job())
        StockController(seen.context(), lambda: None).run_done()
        SearchController(seen.context(), lambda: None).start_or_stop()
        compare_widths(seen.context())
        assert not seen.opened
        assert not seen.threads
        assert [notice.split(":")[0].split(",")[0] for notice in seen.notices] == [
            "There is nothing to run yet", "There is no cut plan yet to better.",
            "To compare widths"]

    def test_marked_run_what_was_put_back_is_not_asked_again(self, store: Store) -> None:
        seen = written(store, BARN)
        looked: list[bool] = []
        stock = StockController(seen.context(), lambda: looked.append(True))
        (new,) = seen.session.plan.coils
        tags = {f"coil.{new.number}": "R-1"}
        seen.session.take_beside(dataclasses.replace(seen.session.job, put_in_stock=tags,
            put_back_on=datetime.date(2027, 4, 9)))
        stock.run_marked()
        assert len(seen.opened) == 1, "it is in no stock"
        save_stock(store.folder, Stock(coils=(coil("R-1", 30),)))
        stock.run_marked()
        assert len(seen.opened) == 1
        assert seen.notices == ["All is put back already, on Apr 9, 2027: R-1, 30 ft. After "
                                "the run on the Summary changes that."]
        # Nothing is left of it: that was put back too, and is asked no more than the other.
        seen.session.take_beside(dataclasses.replace(
            seen.session.job, put_in_stock={f"coil.{new.number}": ""}, put_back_on=None))
        stock.run_marked()
        assert len(seen.opened) == 1
        assert seen.notices[1:] == ["All is put back already: coil 1 of the order, used up. After "
                                    "the run on the Summary changes that."]
        stock.run_done()
        assert len(seen.opened) == 2
        # What is put back there, or taken back, is looked at anew by what the steps say of stock.
        screen, closed = seen.opened[-1]
        screen.entry.take(0, "20 ft")
        assert screen.entry.do("put_back").changed
        assert len(looked) == 1
        assert screen.entry.do("undo").changed
        assert len(looked) == 2
        closed(None)
        assert len(looked) == 3
        # An order whose leftovers are in stock is not marked run by that: it is said.
        for state, is_said in ((OrderState.DELIVERED, True), (OrderState.RUN, False)):
            life = Life(steps=(LifeStep(state=state, date=datetime.date(2027, 4, 9)),))
            done = RunDone(book_of(store), plan(dataclasses.replace(
                seen.session.job, life=life, put_in_stock={})))
            box = done.asked[0].answer.key
            # So much is never left of one whose panels are all cut.
            for text, too_much in (("500 ft", True), ("20 ft", False)):
                done.texts[box] = text
                assert any(f"Coil 1 of the order: {text} is more than can be left" in line
                           for line in done.about(80)) is too_much
            assert done.do("put_back").changed
            assert ("not marked run yet: Life on the Summary" in done.said) is is_said
            assert done.do("undo").changed

    def test_the_next_plane_comes_round_to_the_first(self, store: Store) -> None:
        seen = written(store, BARN)
        planes = PlanesController(seen.context())
        numbers = [plane.number for plane in seen.session.plan.planes]
        met = []
        for _ in numbers:
            planes.choose_next()
            met.append(seen.session.chosen_plane)
        assert sorted(met) == numbers

    async def test_lighter_coils_without_a_lift_say_why_not(self, store: Store) -> None:
        seen = written(store, new_job())
        await lighter_coils(seen.context())
        assert seen.notices == ["First say what lifts the coils at the site or in the shop."]
        assert not seen.went

    async def test_a_line_of_the_summary_opens_what_it_names(self, store: Store) -> None:
        seen = written(store, BARN)
        asked: list[str] = []
        summary = SummaryController(seen.context(), answers(seen),
                                    lambda: asked.append("questions"),
                                    lambda at: asked.append(at),
                                    lambda: asked.append("take"),
                                    lambda: asked.append("brief"))
        await summary.open("questions", "")
        await summary.open("head", "order.buyer")
        await summary.open("take", "")
        await summary.open("brief", "practice")
        await summary.open("go", "panel.leg")
        await summary.open("figure", "coil.mass_ordered")
        assert (asked, seen.went) == (
            ["questions", "order.buyer", "take", "brief"], ["panel.leg"])
        assert seen.opened[0][0].figure.key == "coil.mass_ordered"
        assert not summary.help("figure:coil.mass_ordered")
        assert not summary.working("go:panel.leg")

    def test_the_keys_of_a_line_of_the_summary_do_what_its_help_says(self, store: Store) -> None:
        seen = written(store, do_not_know(BARN, "coils.spare"))
        summary = SummaryController(seen.context(), answers(seen), lambda: None, lambda: None,
                                    lambda: None, lambda: None)
        line = "go:coils.spare"
        assert row_keys(seen.session.plan, line) == (
            "Enter: to Spare, step 7 · F4 or a click on the guess: it is sure")
        summary.confirm(line)
        assert "coils.spare" not in seen.session.plan.guesses
        assert row_keys(seen.session.plan, line) == "Enter: to Spare, step 7"
        summary.waive(line)
        summary.confirm("figure:strip.width")
        assert seen.notices == [
            "It is sure now; Ctrl+Z takes that back.",
            "w waives a question that holds the order; this is none.",
            "F4 makes one marked guess sure, or settles a question by its reply.",
        ]
        # What the designer says no to is waived by nobody.
        job, _ = reply(give(BARN, JobKey.ENGINEERED, YesNo.YES), "designer.profile", "No.")
        seen.session.change(job, "asked")
        assert row_keys(seen.session.plan, "question:designer.profile") == (
            "Enter: it is confirmed as ordered")
        summary.waive("question:designer.profile")
        assert seen.notices[-1].endswith("No waiver lifts it: another reply does.")
        assert seen.opened == []

    async def test_what_went_since_it_was_painted_opens_nothing(self, store: Store) -> None:
        seen = written(store, BARN)
        summary = SummaryController(seen.context(), answers(seen), lambda: None, lambda: None,
                                    lambda: None, lambda: None)
        for kind, key in (("figure", "coil.gone"), ("finding", "999"), ("stop", "999")):
            await summary.open(kind, key)
            assert not summary.help(f"{kind}:{key}")
        assert (seen.opened, seen.went) == ([], [])

    def test_sheets_are_saved_where_it_says(self, store: Store, tmp_path: Path) -> None:
        seen = written(store, BARN)
        summary = SummaryController(seen.context(), answers(seen), lambda: None, lambda: None,
                                    lambda: None, lambda: None)
        summary.save_sheets(tmp_path)
        assert list(tmp_path.glob("order-*.md"))
        assert f"in {tmp_path}: " in seen.notices[0]


def test_the_first_form_waits_for_no_plan(store: Store) -> None:
    """What it is to show is on the screen before anything is worked out."""
    session = Session(store, new_job())
    StepForm(load_view("job"), session)
    assert not session.planned


@pytest.mark.quick
def test_a_finding_leads_to_the_answer_that_is_most_likely_to_clear_it() -> None:
    """An open one before a guess, a guess before one that is sure; of equals the first."""
    sure = job_of(READY)
    guessed = do_not_know(sure, CoilsKey.SPARE)
    is_open = clear(guessed, CoilsKey.SITE_LIFT)
    finding = Finding(Level.CARE, "x", "What.", "Why.", "Do.", sources.TRADE, "coils",
                      (PanelKey.TAKE_UP, CoilsKey.SPARE, CoilsKey.SITE_LIFT))
    for job, key in ((sure, PanelKey.TAKE_UP), (guessed, CoilsKey.SPARE),
                     (is_open, CoilsKey.SITE_LIFT)):
        assert answer_to_change(job, finding) == key
    (unknown,) = (f for f in plan(is_open).stops if f.key == "coils.site_lift_unknown")
    assert answer_to_change(is_open, unknown) == CoilsKey.SITE_LIFT
    assert "haul.site_by" in unknown.answers
    # One that a list changes, as that of the coils on hand, leads to the step of the list.
    # And one that a row of a list changes leads to that row.
    for answers, said in (((), "Coils."), (("trim.pieces.0",), "Trim, to what it is about.")):
        screen = FindingScreen(dataclasses.replace(finding, answers=answers), System.US, go="")
        (words,) = [str(one.content) for one in screen.ways_on() if isinstance(one, Static)]
        assert re.fullmatch(rf"Enter goes to step \d, {said}", words)


def test_a_run_of_coils_that_all_came_is_recorded_with_their_delivery(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("coilwright.wizard.steps.quotes.life.today",
                        lambda: datetime.date(2027, 3, 10))
    good = arrival(coil=1, color=barn().metal.color or "", thickness=(0.0253, 0.0254, 0.0253))
    seen = written(store, with_arrived(send(barn(), datetime.date(2027, 3, 4)), good))
    steps = [*next_steps(seen.session.plan).values()]
    assert steps[:3] == [OrderState.DELIVERED, OrderState.RUN, Wrote.CONFIRMED], "none is yet"
    LifeController(seen.context(), lambda: None, str).show()
    want_next(seen)
    for answer in (RUN_AT_ONCE, ("2027-03-10", "by two")):
        _screen, closed = seen.opened[-1]
        closed(answer)
    assert [(one.state, one.note) for one in seen.session.job.life.steps[1:]] == [
        (OrderState.DELIVERED, "1 coil accepted; marked with the run"), (OrderState.RUN, "by two")]
    life, _closed = seen.opened[-1]
    assert isinstance(life, LifeScreen), "one goes on from there"
    # Days were written down ahead: what is offered for a step back is no day that is refused.
    with monkeypatch.context() as earlier:
        earlier.setattr("coilwright.wizard.steps.quotes.life.today",
                        lambda: datetime.date(2027, 3, 8))
        life.action_want("back")
    asked, closed = seen.opened[-1]
    assert isinstance(asked, LinesScreen)
    closed((asked._lines[0].text, "not yet"))
    last = seen.session.job.life.steps[-1]
    assert (last.back, last.date) == (True, datetime.date(2027, 3, 10))
    bare = written(store, send(barn(), datetime.date(2027, 3, 4)))
    assert OrderState.RUN not in next_steps(bare.session.plan).values(), "nothing came"
    # Who looks for where an order is sent finds the word, whatever is likelier next.
    assert press_words(plan(barn())) == "out for quotes or send revision A (ordered)"
    assert press_words(bare.session.plan) == "confirmed"
    # Sent on a day ahead: what is offered for what its supplier wrote back is that day, at once.
    LifeController(bare.context(), lambda: None, str).show()
    want_next(bare)
    with monkeypatch.context() as earlier:
        earlier.setattr("coilwright.wizard.steps.quotes.confirmed.today",
                        lambda: datetime.date(2027, 3, 1))
        _picks, closed = bare.opened[-1]
        closed(next(words for words, step in next_steps(bare.session.plan).items()
                    if step is Wrote.CONFIRMED))
        asked, closed = bare.opened[-1]
        assert isinstance(asked, LinesScreen)
        assert asked._lines[0].text == "Mar 4, 2027"
        closed(tuple(one.text for one in asked._lines))
    (sent,) = bare.session.job.life.sent
    assert sent.confirmed is not None
    assert sent.confirmed.date == sent.date, "nobody is told that the right day has not come"
    bare.session.undo()
    # Given to another, it is canceled where it stands before it can be sent there.
    job = with_award(bare.session.job, "Tern Hill", datetime.date(2027, 3, 6))
    moved = written(store, dataclasses.replace(
        job, order=dataclasses.replace(job.order, supplier="Tern Hill")))
    steps = next_steps(moved.session.plan)
    assert next(iter(steps)) == "canceled with Birch (invented), in writing"
    assert OrderState.ORDERED not in steps.values(), "a stop holds it"
    LifeController(moved.context(), lambda: None, str).show()
    want_next(moved)
    with monkeypatch.context() as earlier:
        earlier.setattr("coilwright.wizard.steps.quotes.life.today",
                        lambda: datetime.date(2027, 3, 1))
        moved.opened[-1][1](next(iter(steps)))
    asked, closed = moved.opened[-1]
    assert isinstance(asked, LinesScreen)
    assert asked._lines[0].text == "Mar 4, 2027", "not the day it is, which is before it was sent"
    closed(("2027-03-09", "by e-mail"))
    now = moved.session.plan
    assert stands_elsewhere(now.job) is None
    assert OrderState.ORDERED in next_steps(now).values()
    assert not {Wrote.CONFIRMED, Wrote.CANCELED} & {*next_steps(now).values()}
    assert [what for _day, what, _note in life_lines(now.job)] == [
        "ordered", "awarded", "canceled"]
