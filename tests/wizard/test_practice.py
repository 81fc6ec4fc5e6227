"""Practice on the screen: begun, decided, hinted, handed in, reviewed; and what stays hidden."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
from textual.containers import VerticalScroll
from textual.events import MouseScrollDown, MouseScrollUp
from textual.geometry import Size
from textual.widgets import Input, OptionList, Static

from coilwright.job.attempt import Attempt, Response
from coilwright.job.job import Job
from coilwright.job.practice import Practice, to_work_on
from coilwright.plan import plan
from coilwright.plan.practice.solve import Solved, solve
from coilwright.sheets.file_names import file_stem
from coilwright.store import Store
from coilwright.store.begun import attempts_begun, of_variant
from coilwright.store.opened_keys import (
    key_opened,
    note_opened_key,
    review_opened,
    with_opened_key,
)
from coilwright.store.practice import (
    hand_in,
    load_attempt,
    practices,
    practices_folder,
    shipped_practices,
)
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.commands import WizardCommands
from coilwright.wizard.job_list import Row
from coilwright.wizard.screens.lines import LinesScreen
from coilwright.wizard.screens.practice.begin_words import BeginWords
from coilwright.wizard.screens.practice.brief import BriefScreen
from coilwright.wizard.screens.practice.choose import ChooseScreen
from coilwright.wizard.screens.practice.classroom import ClassScreen
from coilwright.wizard.screens.practice.controller import hand_in_folder, once_more
from coilwright.wizard.screens.practice.drill import DrillScreen
from coilwright.wizard.screens.practice.hints import HintsScreen
from coilwright.wizard.screens.practice.name_leaves import NameLeavesScreen
from coilwright.wizard.screens.practice.paper import PaperScreen
from coilwright.wizard.screens.practice.picks import PicksScreen
from coilwright.wizard.screens.practice.projector import ProjectorScreen
from coilwright.wizard.screens.practice.slides import Slide, job_slides, pages, practice_slides
from coilwright.wizard.screens.start_rows import job_rows
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.session import Session
from tests.attempts import WHEN, right_attempt
from tests.rules import for_each
from tests.wizard.pilot import SteadyPilot, driven, until
from tests.wizard.wizard_driving import SIZES, screen_text, settle, wizard

Make = Callable[..., CoilwrightApp]


def begun(name: str, seed: int = 1, whole: bool = False) -> tuple[Solved, Job]:
    """The job of somebody who has just begun; whole: all that the papers say is entered."""
    solved = solve(shipped_practices()[name], seed)
    made = dataclasses.replace(solved.practice, stripped=()) if whole else solved.practice
    return solved, to_work_on(made, Attempt(practice=name, seed=seed))


def mark(app: CoilwrightApp, key: str) -> None:
    """Mark a row of the list that is shown."""
    rows = app.screen.query_one(OptionList)
    rows.highlighted = rows.get_option_index(key)


def mark_row(app: CoilwrightApp, rows: str, key: str) -> None:
    """Mark a row of one of the lists of a step, and focus it."""
    found = app.screen.query_one(rows, OptionList)
    found.focus()
    found.highlighted = found.get_option_index(key)


async def lines(pilot: SteadyPilot, *texts: str) -> None:
    """Fill the lines that are asked for."""
    for text in texts:
        assert isinstance(pilot.app.screen, LinesScreen), pilot.app.screen
        await pilot.press("home", "shift+end", "delete")
        await pilot.paste(text)
        await pilot.press("enter")
    await settle(pilot)


async def test_practice_from_the_list_of_jobs_to_the_review(
    app_on: Make, tmp_path: Path
) -> None:
    app = app_on()
    folder = tmp_path / "shared"
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press("p")
        await settle(pilot)
        assert isinstance(app.screen, ChooseScreen)
        # The list says what is to be done, not what is to be found.
        told = " ".join(screen_text(app).split())
        assert "The new hand fills in a job: what is wrong in a job, 2 numbers" in told
        assert not any(one.teaches[:24] in told for one in shipped_practices().values())
        mark(app, "practice:weight-or-diameter")
        await pilot.press("enter")
        # By mouse as in other lists: one click marks, the next one opens.
        await pilot.press("escape")
        rows = app.screen.query_one(OptionList)
        await pilot.click("#choose-list", offset=(12, 1))
        await settle(pilot)
        assert isinstance(app.screen, ChooseScreen)
        marked = rows.highlighted_option
        assert marked is not None
        assert marked.id == next(option.id for option in rows.options if not option.disabled)
        await pilot.click("#choose-list", offset=(12, 1))
        await settle(pilot)
        assert isinstance(app.screen, LinesScreen)
        await pilot.press("escape")
        mark(app, "practice:weight-or-diameter")
        await pilot.press("enter")
        # What was typed wrong is asked again, and nothing else.
        await lines(pilot, "Gil", "third")
        assert [box.value for box in app.screen.query(Input)] == ["Gil", "third"]
        assert "“third” is no variant" in screen_text(app)
        await lines(pilot, "3")
        solved = solve(shipped_practices()["weight-or-diameter"], 3)
        assert isinstance(app.screen, BriefScreen)
        assert "What stops the coil" in screen_text(app)
        # It is kept from the start, whether anything is answered or not.
        (kept,) = wizard_under(app).session.store.jobs()
        assert kept.name.endswith("-gil")
        # A pick, with a reason.
        mark(app, "limit")
        await pilot.press("enter")
        assert isinstance(app.screen, PicksScreen)
        right = solved.solution("limit").right[0]
        wrong = next(o.key for o in solved.solution("limit").decision.options if o.key != right)
        papers = app.screen_stack[-2].query_one(VerticalScroll)
        box = app.screen.query_one(".box").region
        await pilot.press("pagedown")
        # A page is what is to be seen above the box, less lines to find one's place again.
        assert 0 < papers.scroll_y < box.y - papers.region.y
        at = papers.scroll_y
        await pilot._post_mouse_events([MouseScrollDown], "#picks-list", (2, 0))
        await settle(pilot)
        assert papers.scroll_y > at
        mark(app, wrong)
        await pilot.press("enter")
        await lines(pilot, "it looked heavy")
        # Decided, it leaves the mark on the next that is open.
        rows = app.screen.query_one(OptionList)
        assert rows.highlighted_option is not None
        assert rows.highlighted_option.id == solved.practice.decisions[1].key
        # A number on a question of picks is told, and none of its letters hands in or is kept.
        mark(app, "limit")
        await pilot.press(*"0.0253 in")
        assert isinstance(app.screen, BriefScreen)
        assert "no number is typed on it" in app.notices[-1].message
        await pilot.press("enter")
        assert isinstance(app.screen, BriefScreen)
        assert "“0.0253 in” is none of its picks" in " ".join(n.message for n in app.notices)
        # Space reads on as PgDn does, in all that is read.
        papers.scroll_home(animate=False)
        await pilot.press("space")
        assert papers.scroll_y > 0
        await pilot.press("enter")
        assert isinstance(app.screen, PicksScreen)
        await pilot.press("escape")
        # To open the hints counts nothing, and says that the next does; to read them again neither.
        await pilot.press("f1")
        assert "Enter decides it, and the mark goes on" in " ".join(screen_text(app).split())
        await pilot.press("escape", "h")
        await settle(pilot)
        assert "h takes the next hint (1 of 3); it counts." in screen_text(app)
        await pilot.press("f1")
        assert "Take the next hint; it counts" in screen_text(app)
        await pilot.press("escape")
        assert isinstance(app.screen, HintsScreen)
        await pilot.press("h")
        await settle(pilot)
        assert solved.practice.decisions[0].hints[0][:20] in screen_text(app)
        assert "h again takes the next hint (2 of 3); it counts." in screen_text(app)
        await pilot.press("escape")
        mark(app, "coils")
        await pilot.press("h")
        for step in ("Where: ", "What: ", "Why: "):
            await pilot.press("h")
            await settle(pilot)
            assert step in screen_text(app)
        assert "Nothing more is told" in screen_text(app)
        await pilot.press("h", "escape", "h")
        await settle(pilot)
        assert isinstance(app.screen, HintsScreen)
        assert [text.partition(":")[0] for _, text in app.screen.parts[1:]] == [
            "Why", "What", "Where"]
        await pilot.press("escape")
        coils = solved.solution("coils").figure
        assert coils is not None
        # A number typed on a question opens its box, and goes on in it; the papers stay readable.
        await pilot.press("4", "i")
        await settle(pilot)
        assert isinstance(app.screen, LinesScreen)
        assert app.screen.query_one(Input).value == "4i"
        assert app.screen.styles.background.a == 0
        assert "Practice: What stops the coil" in screen_text(app)
        before = papers.scroll_y
        await pilot.press("pageup")
        assert papers.scroll_y < before
        await lines(pilot, coils.text())
        attempt = wizard_under(app).session.job.practice
        assert attempt is not None
        assert attempt.response("limit").hints == 1
        assert attempt.response("limit").why == "it looked heavy"
        assert "why: it looked heavy" in screen_text(app)
        # Undo is for the job; what was decided and the hints stay.
        await pilot.press("i")
        # Leaving the box is to be on the brief again, where no key spoils an answer; its papers are
        # read with the keys of all boxes, and the mark stays at its question.
        await pilot.press("escape")
        assert isinstance(app.screen, BriefScreen)
        assert "PgUp PgDn read" in screen_text(app)
        marked = app.screen.query_one(OptionList).highlighted
        await pilot.press("pageup", "pageup", "pageup")
        assert papers.scroll_y == 0
        await pilot.press("pagedown")
        assert papers.scroll_y > 0
        assert app.screen.query_one(OptionList).highlighted == marked
        note_opened_key(wizard_under(app).session.store.folder, "weight-or-diameter")
        await pilot.press("i")
        await settle(pilot)
        assert isinstance(app.screen, LinesScreen), screen_text(app)
        about = app.screen.query_one("#lines-about", Static)
        assert "It says that the key was opened here" in str(about.render())
        # A place that will not do is asked again, with what was typed; nothing is handed in.
        (tmp_path / "a file").write_text("", "utf-8")
        await lines(pilot, "Gil", str(tmp_path / "gil.json"))
        # It is handed in once: what is open is told before.
        assert "1 of 3 questions is not answered (" in str(app.screen.query_one(".wrong").render())
        await pilot.press("enter")
        await settle(pilot)
        assert "is the name of a file" in screen_text(app)
        await lines(pilot, str(tmp_path / "a file"))
        assert "it is a file" in str(app.screen.query_one(".wrong").render())
        assert [box.value for box in app.screen.query(Input)] == ["Gil", str(tmp_path / "a file")]
        assert wizard_under(app).session.job.practice == attempt
        # The first one of a class makes the folder, and it is offered to the next one here.
        await lines(pilot, str(folder))
        assert hand_in_folder(wizard_under(app).session.store.folder) == folder
        assert isinstance(app.screen, PaperScreen)
        # Whoever takes the variant after Gil here is marked: his review is on the screen.
        attempt = wizard_under(app).session.job.practice
        assert attempt is not None
        home, next_one = wizard_under(app).session.store.folder, dataclasses.replace(
            attempt, name="Hal", key_opened=None)
        assert review_opened(home, next_one) is not None
        await pilot.press("escape", "ctrl+r")
        await settle(pilot)
        assert review_opened(home, attempt) is None, "his own is none"
        assert review_opened(home, dataclasses.replace(next_one, seed=7)) is None
        assert with_opened_key(next_one, home).key_opened is not None
        text = screen_text(app)
        assert "Gil" in text
        assert "To try once more: F10, then p" in text
        (path,) = folder.glob("*.attempt.json")
        # Called by the title: the name of a practice job may tell what there is to be found.
        assert path.name == "gil-what-stops-the-coil-from-growing-3.attempt.json"
        handed = load_attempt(path)
        assert handed.name == "Gil"
        assert handed.key_opened is not None
        assert handed.handed_in is not None
        assert handed.hints == 4
        assert handed.response("limit").picks == (wrong,)
        await pilot.press("escape")
        await settle(pilot)
        assert not wizard(app).session.plan.concealed
        assert "PRACTICE, handed in" in screen_text(app)
        # A key too many, as on the review, is typed into no box of the job that was handed in.
        assert wizard(app).step == "summary"
        assert not isinstance(app.focused, Input)
        await pilot.press("ctrl+r")
        await settle(pilot)
        assert isinstance(app.screen, PaperScreen)


def test_attempts_of_a_class_at_one_job_differ_in_the_list_of_jobs(tmp_path: Path) -> None:
    store, (solved, _) = Store(tmp_path), begun("weight-or-diameter", 3)
    names = ("Gil", "Noor Castellanos-Whitfield")
    for name in names:
        attempt = dataclasses.replace(right_attempt(solved, name), handed_in=None)
        store.create(to_work_on(solved.practice, attempt))
        store.create(to_work_on(solved.practice, attempt.hand_in(WHEN)))
    # Their files are told apart as well, where one is handed in by its name.
    assert sorted(entry.name for entry in store.jobs()) == [
        f"what-stops-the-coil-from-growing-{name}{number}"
        for name in ("gil", "noor-castellanos-whitfield") for number in ("", "-2")]
    # Who begins the same variant once more is told which counts; sheets of both have their names.
    said = BeginWords(store, solved.practice)
    assert "Variant 3 was handed in by that name" in said((" noor castellanos-whitfield", "3"))
    assert "handed in" not in said(("Noor Castellanos-Whitfield", "4")) + said(("Ann", "3"))
    begun_by = attempts_begun(store, solved.practice)
    assert len(of_variant(begun_by, "gil", 3)) == 2
    assert not of_variant(begun_by, "", 3)
    stems = [file_stem(plan(to_work_on(solved.practice, dataclasses.replace(
        begun_by[0], name="Gil", seed=seed, before=before))), "run")
        for seed, before in ((3, 0), (3, 2), (0, 0))]
    assert [stem.split("-what-")[0] for stem in stems] == [
        "practice-gil-3", "practice-gil-3-attempt-3", "practice-gil"]
    told = [once_more(solved, dataclasses.replace(begun_by[0], before=before))
            for before in (0, 1)]
    assert told[1] == ("This is attempt 2 at this variant by this name: where one before it was "
                       f"handed in, that one counts. {told[0]}")
    for width in (80, 120):
        rows = job_rows([Row(entry, True) for entry in store.jobs()], {}, width)
        texts = [str(row.prompt) for row in rows]
        assert len(set(texts)) == len(names) * 2, texts
        # Where there is room a title is read whole.
        long = "A house, a porch and a garage at the far end of it"
        (row,) = job_rows([Row(dataclasses.replace(store.jobs()[0], title=long), True)], {},
                          width + 30)
        assert (long in str(row.prompt)) == (width == 120)
        # A row writes its days in one form: as its job does.
        for units, changed in ((System.METRIC, "2 Apr 2027"), (System.US, "Apr 2, 2027")):
            (row,) = job_rows([Row(dataclasses.replace(
                store.jobs()[0], state="DRAFT", units=units,
                changed=datetime.datetime(2027, 4, 2, 6, 5)), True)], {}, width)
            assert changed in str(row.prompt)
        for name in names:
            said = [text for text in texts if f"by {name[:10]}" in text]
            assert ["handed in" in text for text in sorted(said)] == [False, True], texts


def wizard_under(app: CoilwrightApp) -> WizardScreen:
    """The wizard below what is open over it."""
    return next(screen for screen in app.screen_stack if isinstance(screen, WizardScreen))


async def test_what_is_to_be_found_is_on_no_step_and_in_no_command(
    app_on: Make, tmp_path: Path
) -> None:
    solved, job = begun("report-limits", whole=True)
    told = [f.what for f in (*solved.over.findings, *solved.key.findings)]
    hidden = [*told, *(one.why for one in solved.practice.decisions)]
    app = app_on(job)
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        assert isinstance(app.screen, BriefScreen)
        await pilot.press("escape")
        await settle(pilot)
        for step in ("roof", "metal", "panel", "machine", "coils", "haul", "quotes", "summary"):
            await wizard(app).go(step)
            await settle(pilot)
            seen = " ".join(screen_text(app).split())
            assert "^r Practice" in seen, step
            assert not any(text[:30] in seen for text in hidden), step
            assert "STOP" not in seen
            for key in ("f1", "f2", "f5", "f6"):
                await pilot.press(key)
                await settle(pilot)
                seen = " ".join(screen_text(app).split())
                assert not any(text[:30] in seen for text in hidden), (step, key)
                assert "Longest that fits" not in seen
                if app.screen is not wizard_under(app):
                    await pilot.press("escape")
                    await settle(pilot)
        provider = WizardCommands(wizard(app))
        found = " ".join([f"{hit.text} {hit.help}" async for hit in provider.discover()])
        assert not any(text[:30] in found for text in hidden)
        # What keeps it back is on no step: its line leads to the brief, and to no part of the roof.
        mark_row(app, "#summary-rows", "brief:practice")
        assert "Enter: the brief of the practice" in screen_text(app)
        await pilot.press("enter")
        assert isinstance(app.screen, BriefScreen)
        await pilot.press("escape")
        await settle(pilot)
        # Handed in, what was kept back is the lesson: the summary opens at its first stop, not
        # where the mark stood while there was none.
        await pilot.press("down", "ctrl+r", "i")
        await lines(pilot, "Gil", str(tmp_path))
        await pilot.press("enter")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        rows = wizard(app).query_one("#summary-rows", OptionList)
        assert rows.highlighted_option is not None
        first = next(one.id for one in rows.options if str(one.id).startswith("stop:"))
        assert rows.highlighted_option.id == first


async def test_undo_gives_no_hint_back(app_on: Make) -> None:
    _, job = begun("strip-and-coverage")
    app = app_on(job)
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard_under(app).session
        session.type_text("panel.coverage", "16")
        await pilot.press("h", "h")
        await pilot.press("escape", "escape")
        await settle(pilot)
        await pilot.press("ctrl+z")
        assert session.job.panel.coverage is None
        assert session.job.practice is not None
        assert session.job.practice.hints == 1


async def test_what_cannot_be_read_is_told_at_once_and_kept(app_on: Make) -> None:
    _, job = begun("strip-and-coverage")
    app = app_on(job)
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        # The line of its answer opens a question as its own does.
        await pilot.click("#brief-decisions", offset=(12, 1))
        await lines(pilot, "wide enough")
        attempt = wizard_under(app).session.job.practice
        assert attempt is not None
        assert attempt.response("strip").text == "wide enough"
        assert any("wide enough" in n.message for n in app.notices)
        assert "wide enough   ! cannot be read" in screen_text(app)


async def test_picks_are_kept_with_enter_and_left_with_escape(app_on: Make) -> None:
    solved, job = begun("report-limits")
    first, second, *_ = (one.key for one in solved.solution("outside").decision.options)
    app = app_on(job)
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        for keys, kept in ((("space", "enter"), (first,)),
                           (("down", "space", "escape", "escape"), (first,)),
                           (("down", "space", "enter"), (first, second)),
                           # Letters pick as well, and Escape drops nothing unasked.
                           (("a", "b", "escape", "enter"), ())):
            mark(app, "outside")
            await pilot.press("enter")
            assert isinstance(app.screen, PicksScreen)
            await pilot.press(*keys)
            assert ("drops it" in " ".join(n.message for n in app.notices)) >= ("escape" in keys)
            if not isinstance(app.screen, BriefScreen):
                await pilot.press("escape")  # it asks why
            assert isinstance(app.screen, BriefScreen)
            assert app.screen.attempt.response("outside").picks == kept
            assert ("a, b: " in screen_text(app)) == (len(kept) == 2)
        # Who began another version of it than the one that is here now is told, where it opens.
        session, attempt = app.screen.session, app.screen.attempt
        session.take_beside(dataclasses.replace(
            session.job, practice=dataclasses.replace(attempt, fingerprint="another")))
        await pilot.press("escape", "ctrl+r")
        await settle(pilot)
        assert isinstance(app.screen, BriefScreen)
        assert any("was changed since you began" in n.message for n in app.notices)


async def test_a_class_is_reviewed_on_the_screen(
    app_on: Make, store: Store, tmp_path: Path
) -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)
    for name in ("Al", "Bo"):
        attempt = right_attempt(solved, name)
        if name == "Bo":
            attempt = attempt.respond("strip", dataclasses.replace(
                attempt.response("strip"), text="12 in"))
        hand_in(attempt, tmp_path, solved.practice.title)
    hand_in(dataclasses.replace(right_attempt(solved, "Di"), practice="gone"), tmp_path, "Gone")
    app = app_on()
    async with driven(app, size=(120, 40)) as pilot:
        await pilot.press("p")
        mark(app, "class:")
        await pilot.press("enter")
        # A folder that will not do stays in its box, with what is wrong with it in plain words.
        (tmp_path / "empty").mkdir()
        for place, told in ((tmp_path / "nowhere", "there is no such folder"),
                            (next(tmp_path.glob("*.json")), "it is a file; name its folder"),
                            (tmp_path / "empty", "There is no attempt in")):
            await lines(pilot, str(place))
            (wrong,) = app.screen.query(".wrong")
            assert told in str(wrong.render())
            assert app.screen.query_one(Input).value == str(place)
        assert review_opened(store.folder, right_attempt(solved, "Eve")) is None
        await lines(pilot, str(tmp_path))
        assert isinstance(app.screen, ClassScreen)
        # Each review says what is right to whoever has the same variant.
        assert review_opened(store.folder, right_attempt(solved, "Eve")) is not None
        (told,) = (n.message for n in app.notices if "Left out" in n.message)
        assert "di-gone.attempt.json: There is no practice job called “gone” here" in told
        assert "it may have been renamed since" in told
        text = screen_text(app)
        assert "too small" in text
        assert "1 of 2" in text
        assert f"Bo: 2 of 3 right, {solved.practice.title}, variant 0, Mar 1, 2027" in text
        await pilot.press("s")
        saved = app.screen.folder
        assert "too small" in (saved / "class.html").read_text("utf-8")
        # Whatever opens it reads names with accents as they are written.
        assert (saved / "class.csv").read_bytes().startswith(b"\xef\xbb\xbfname,")
        assert (saved / "class-reviews.html").read_text("utf-8").count('class="page"') == 2
        # Its details lie below all else: their first line comes into sight.
        assert "Commonest mistakes" not in screen_text(app)
        await pilot.press("d")
        await settle(pilot)
        assert "Commonest mistakes" in screen_text(app)
        await pilot.press("down", "enter")
        await settle(pilot)
        assert "Bo: 2 of 3 right, 1 too small." in screen_text(app)
        assert "result" not in screen_text(app)
        assert isinstance(app.screen, PaperScreen)
        await pilot.press("d", "end")
        paper = app.screen.query_one(VerticalScroll)
        assert paper.scroll_y == paper.max_scroll_y > 0
        await pilot.press("home")
        assert paper.scroll_y == 0
        await pilot.press("d")
        await pilot.press("d")
        await settle(pilot)
        assert "result" in screen_text(app)
        # The papers of the next class, and how it goes.
        await pilot.press("escape", "escape")
        assert isinstance(app.screen, ChooseScreen)
        await pilot.press("f1")
        assert "How a class goes" in screen_text(app)
        await pilot.press("escape")
        mark(app, "practice:strip-and-coverage")
        await pilot.press("s")
        # A folder of nobody is asked again, and ends nothing.
        await lines(pilot, "2", "~no-such-person")
        (wrong,) = app.screen.query(".wrong")
        assert "no name of a file or folder" in str(wrong.render())
        await lines(pilot, str(tmp_path))
        text = (tmp_path / "nineteen-inches-that-were-not-enough-handouts.html").read_text("utf-8")
        assert text.count('class="page"') == 2


def test_what_is_picked_is_told_by_its_letters_and_its_why_has_room(store: Store) -> None:
    solved = solve(shipped_practices()["wrong-gauge"], 2)
    decision = solved.solution("wrong").decision
    for picks in (1, 3):
        given = Response(picks=tuple(one.key for one in decision.options[:picks]), hints=1,
                         why="its plate")
        attempt = Attempt(practice="wrong-gauge", seed=2).respond("wrong", given)
        session = Session(store, to_work_on(solved.practice, attempt))
        screen = BriefScreen(session, solved, store.folder, lambda _, place: Path(place))
        said = screen._row(1, decision, 60).plain.split("\n")
        assert said[1].startswith(f"    {', '.join('abc'[:picks])}: ")
        assert "  (1 hint)" in said[1]
        assert said[-1].endswith("why: its plate")
        assert max(map(len, said)) <= 60


@pytest.mark.slow
@for_each(shipped_practices().values())
def test_every_page_of_the_projector_fits_the_screen(one: Practice) -> None:
    for seed in range(1, 6):
        solved = solve(one, seed)
        for width, height in ((78, 32), (66, 16), (46, 9)):  # of 120 × 40, 80 × 24, 60 × 17
            for slide in practice_slides(solved, width, height):
                for revealed, worked in ((False, False), (True, False), (True, True)):
                    made = pages(slide, width, height, revealed=revealed, worked=worked)
                    for page in made:
                        lines = "\n\n".join("\n".join(part.lines) for part in page).split("\n")
                        assert len(lines) <= height, (seed, slide.title, lines)
                        assert max(map(len, lines)) <= width, (seed, slide.title, lines)
                    told = " ".join(" ".join(part.lines) for page in made for part in page)
                    wanted = [*(slide.drawing or slide.shown if not revealed else slide.ticked),
                              *(slide.revealed if revealed else ()),
                              *(slide.working if worked else ())]
                    flat = "".join(told.split())
                    assert all("".join(text.split()) in flat for text in wanted), slide.title
                    # A question stands on one page, and on a large screen its answer with it.
                    if not worked and not (revealed and height < 32) and height > 9:
                        assert len(made) == 1, (seed, slide.title)


def test_no_page_of_the_projector_is_one_line_left_over() -> None:
    slide = Slide("A paper", tuple(f"line {at}" for at in range(17)))
    assert [len(page[0].lines) for page in pages(slide, 60, 16)] == [9, 8]
    assert [len(page[0].lines) for page in pages(slide, 60, 17)] == [17]
    assert [len(page[0].lines) for page in pages(slide, 60, 6)] == [6, 6, 5]


@pytest.mark.parametrize("size", SIZES)
async def test_the_projector_shows_one_thing_and_reveals_it(
    app_on: Make, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    solved = solve(shipped_practices()["wrong-gauge"], 2)
    app = app_on()
    async with driven(app, size=size, notifications=True) as pilot:
        revealed: list[int] = []
        app.push_screen(ProjectorScreen(partial(practice_slides, solved),
                                        partial(revealed.append, 1)))
        await settle(pilot)
        assert isinstance(app.screen, ProjectorScreen)
        titles = [slide.title for slide in app.screen.slides]
        first = titles.index(f"Question 1 of {len(solved.solutions)}")
        assert any(slide.drawing for slide in app.screen.slides) == solved.practice.drawing
        with monkeypatch.context() as narrow:
            narrow.setattr(type(app), "size", Size(1, 1))
            app.screen.show()  # as it may be before the last size of a terminal is known
        assert app.screen.query_one("VerticalScroll").max_scroll_y == 0  # type: ignore[attr-defined]
        # Where nothing is asked, the keys of an answer say so.
        await pilot.press("r", "w")
        assert not app.screen.revealed
        assert [n.message.partition(":")[0] for n in app.notices][:2] == [
            "Nothing was worked out on this slide", "Nothing is asked on this slide"]
        assert "Nothing was worked out" in screen_text(app)
        await pilot.press(*["right"] * first)
        assert "Nothing was worked out" not in screen_text(app)
        # A click on the words of a key is as the key.
        hint = app.screen.query_one("#projector-hint", Static)
        # The arrows stand first, where they are on each slide, however it is counted.
        assert str(hint.content).startswith(("← before · → next · ", "← → · "))
        if (at := str(hint.content).find("before")) > 0:
            await pilot.click("#projector-hint", offset=(at + 2, 0))
            assert app.screen.at < first
            await pilot.press("right")
        assert not any("your answer" in text for slide in app.screen.slides
                       for text in slide.working)
        answer = solved.solutions[0].text[:30]
        why = solved.solutions[0].decision.why[:24]
        assert why not in screen_text(app)
        assert not any("☑" in line for line in app.screen.slides[first].shown)
        assert not revealed
        await pilot.press("r")
        assert revealed == [1]
        app.screen.query_one("VerticalScroll").scroll_end(animate=False)
        await settle(pilot)
        assert why in screen_text(app)
        right = {f"{solved.practice.decisions[0].letter(option.key)}. {option.words}"
                 for option in solved.practice.decisions[0].options
                 if option.key in solved.solutions[0].right}
        ticked = app.screen.slides[first].ticked
        assert {line[2:] for line in ticked if line.startswith("☑")} == right
        await pilot.press("right")
        assert not app.screen.revealed
        # A click on the slide reveals nothing before a class, and says what does.
        await pilot.click("#projector-text")
        assert not app.screen.revealed
        assert any("shows the answer" in n.message for n in app.notices)
        await pilot.press("enter")
        assert app.screen.revealed
        await pilot.press("w")
        await settle(pilot)
        assert app.screen.query_one("VerticalScroll").max_scroll_y == 0  # type: ignore[attr-defined]
        assert answer not in screen_text(app)
        # The wheel turns the pages of a slide, and goes to no other, which would hide its answer.
        at, count = app.screen.page, len(app.screen.pages)
        wheel, by = (MouseScrollDown, 1) if at + 1 < count else (MouseScrollUp, -1)
        await pilot._post_mouse_events([wheel], "#projector-text", (2, 0))
        assert app.screen.page == (at + by if count > 1 else at)
        assert app.screen.revealed
        # Escape closes the working, and not what the class looks at with it.
        app.screen.at, app.screen.page, app.screen.revealed = first + 2, 0, False
        await pilot.press("enter", "w")
        assert app.screen.worked
        await pilot.press("escape")
        assert app.screen.revealed
        assert not app.screen.worked
        # On the last one nothing goes on, and that is what is said.
        await pilot.press(*["right"] * (len(titles) + 20))
        assert any("This is the last slide" in n.message for n in app.notices)
        await pilot.press("r")
        assert any("it is the last, Esc ends" in n.message for n in app.notices)
        notes = solved.practice.notes
        for slide in app.screen.slides:
            assert notes not in " ".join((*slide.shown, *slide.revealed))


def test_a_weight_is_worked_out_before_a_class_from_length_width_thickness_and_density() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 1)
    (slide,) = (
        one for one in practice_slides(solved) if "How many pounds" in str(one.shown[:1]))
    heads = [text.split("  ")[0] for text in slide.working if text and not text.startswith(" ")]
    assert heads[0] in ("Weight to order", "Coil 1: weight")
    assert {"Weight of the strip", "Weight of the sheet", "Strip width"} <= set(heads)
    assert any("ρ·t" in text for text in slide.working)


def test_any_job_can_be_stepped_through() -> None:
    made = plan(demo_jobs()["mill-row-mistakes"])
    slides = job_slides(made)
    assert {f.what for f in made.findings} <= {text for s in slides for text in s.shown}
    assert any(slide.working for slide in slides)
    _, job = begun("report-limits", whole=True)
    assert not any("tested" in text for s in job_slides(plan(job)) for text in s.shown)


async def test_the_job_that_is_open_is_stepped_through(app_on: Make) -> None:
    app = app_on(demo_jobs()["mill-row-mistakes"])
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        wizard(app).action_project()
        await settle(pilot)
        assert isinstance(app.screen, ProjectorScreen)
        at = next(i for i, s in enumerate(app.screen.slides) if s.title == "Stop")
        await pilot.press(*["right"] * at)
        slide = app.screen.slides[at]
        assert slide.shown[0][:40] in screen_text(app)
        assert slide.revealed[0][:40] not in screen_text(app)
        await pilot.press("enter")
        assert slide.revealed[0][:40] in screen_text(app)


async def test_a_drill_counts_what_is_right_and_ends(app_on: Make) -> None:
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press("p")
        # In a wider terminal the rows have its room, as if opened there, and the mark stays.
        rows, mark_at = app.screen.query_one("#choose-list", OptionList), "practice:wrong-gauge"
        mark(app, mark_at)
        assert any("\n" in str(option.prompt) for option in rows.options)
        await pilot.resize_terminal(120, 24)
        await until(pilot, lambda: not any("\n" in str(option.prompt) for option in rows.options))
        assert rows.highlighted_option is not None
        assert rows.highlighted_option.id == mark_at
        await pilot.resize_terminal(80, 24)
        await until(pilot, lambda: any("\n" in str(option.prompt) for option in rows.options))
        mark(app, "drill:tape")
        await pilot.press("enter")
        await settle(pilot)
        screen = app.screen
        assert isinstance(screen, DrillScreen)
        await pilot.paste(screen.drill.answer)
        await pilot.press("enter")
        tape = screen.drill.shown
        await pilot.paste("1 in")
        await pilot.press("enter")
        # What the verdict is about is shown with it: another tape stands above.
        assert all(f"│ {line}".rstrip() in screen_text(app) for line in tape)
        assert "A tape, number 3: 1 of 2 right · " in screen_text(app)
        assert " s left" in screen_text(app)
        await pilot.paste("nothing")
        await pilot.press("enter")
        assert (screen.right, screen.asked) == (1, 2)
        screen.finish()
        assert screen.query_one(Input).disabled
        await settle(pilot)
        assert f"The last one: {screen.drill.answer}" in screen_text(app)
        # What Enter does no more is not offered; another minute is.
        assert "Enter answers" not in screen_text(app)
        assert "a again" in screen_text(app)
        await pilot.press("a")
        assert (screen.right, screen.asked, screen.over) == (0, 0, False)
        await pilot.paste(screen.drill.answer)
        await pilot.press("enter")
        assert "A tape, number 2: 1 of 1 right" in screen_text(app)
        # Ended early, it says the same as its minute's end; then, or unanswered, it closes.
        await pilot.press("escape")
        assert "Ended: 1 of 1 answer right." in screen_text(app)
        await pilot.press("a", "escape")
        await settle(pilot)
        assert not isinstance(app.screen, DrillScreen)


async def test_a_practice_job_is_made_on_the_screen(app_on: Make, store: Store) -> None:
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        # Of the marked job, from the first screen.
        mark(app, "demo:quarry-house-hip")
        await pilot.press("t")
        await settle(pilot)
        await lines(pilot, "Found", "A hip, invented.")
        await pilot.press("ctrl+u")
        await lines(pilot, "2", "walls")
        # What was typed is asked again, where it is wrong.
        assert isinstance(app.screen, LinesScreen)
        (wrong,) = app.screen.query(".wrong")
        assert "no such step" in str(wrong.render())
        # In the dialog's frame, above what is wrong.
        frame, box = app.screen.query_one(".box"), app.screen.query_one("#line-3")
        assert frame.region.contains_region(wrong.region)
        assert wrong.region.bottom < box.region.y + 2
        assert [box.value for box in app.screen.query(Input)] == [
            "Found", "A hip, invented.", "2", "walls"]
        assert app.focused is app.screen.query_one("#line-3")
        # Nor are there fewer mistakes than were asked for: how many fit is said before it is made.
        assert "one variant only" in " ".join(screen_text(app).split())
        await pilot.press("ctrl+u")
        await lines(pilot, "coils")
        (wrong,) = app.screen.query(".wrong")
        assert "only 1 mistake fits into coils: add a step, or take 1" in str(wrong.render())
        assert app.focused is app.screen.query_one("#line-2")
        await pilot.press("tab")
        await lines(pilot, "machine, panel")
        assert isinstance(app.screen, ChooseScreen)
        made = practices(store.folder)[0]["found"]
        assert len(solve(made, 0).solution("wrong").right) == 2
        assert any("2 mistakes" in n.message for n in app.notices)
        # Its key is read there, short and whole; one key alone spoils nobody's practice.
        await pilot.press("k")
        await settle(pilot)
        assert "This shows the answers" in screen_text(app)
        # What that leaves behind is said before, and kept from where it is read on.
        assert "That is noted" in screen_text(app)
        await pilot.press("escape")
        assert key_opened(store.folder, "found") is None
        await pilot.press("p", "enter")
        assert isinstance(app.screen, ProjectorScreen)
        await pilot.press("escape")
        assert key_opened(store.folder, "found") is None
        await pilot.press("k", "enter")
        await settle(pilot)
        assert key_opened(store.folder, "found") is not None
        assert isinstance(app.screen, PaperScreen)
        assert "What in the job has to be put right" in screen_text(app)
        await pilot.press("escape")
        # To another machine and back: a file that is sealed, taken in at the end of the list.
        out = store.folder / "to the class"
        await pilot.press("e")
        await lines(pilot, str(out))
        (path,) = out.iterdir()
        assert path.name == "found.practice.json"
        assert "What in the job" not in path.read_text("utf-8")
        await pilot.press("e")
        assert app.screen.query_one(Input).value == str(out)  # where it went last
        await pilot.press("escape")
        mark(app, "take:")
        await pilot.press("enter")
        await lines(pilot, str(path))
        (wrong,) = app.screen.query(".wrong")
        assert "called “found” already" in str(wrong.render())
        await pilot.press("escape")
        mark(app, "practice:found")
        await pilot.press("d")
        mark(app, "take:")
        await pilot.press("enter")
        await lines(pilot, str(path))
        assert practices(store.folder)[0]["found"] == made
        # One of one's own is renamed there, and deleted until u brings it back; no other is.
        await pilot.press("r")
        await lines(pilot, "Quarry on Friday")
        await pilot.press("enter")
        await settle(pilot)
        # Its site is Quarry Rise: a title, and a file for a class, that tell so are asked about.
        assert isinstance(app.screen, NameLeavesScreen)
        await pilot.press("escape")
        (wrong,) = app.screen.query(".wrong")
        assert "In its title: “Quarry” names somebody or a place of the job that it was made" in (
            str(wrong.render()))
        # Enter goes on to the story as before, which may be changed with the title.
        assert "Enter goes on" in screen_text(app)
        await lines(pilot, "Quarry on Friday")
        assert app.focused is app.screen.query_one("#line-1")
        await pilot.press("enter")
        await pilot.press("y")
        assert "Yes, all of the class may read it: Enter keeps it" in screen_text(app)
        await pilot.press("enter")
        assert "“Found” is called “Quarry on Friday” now." in app.notices[0].message
        # Nothing was changed, and nothing is asked again.
        await pilot.press("r", "enter", "enter")
        assert "“Quarry on Friday” is as it was." in app.notices[0].message
        await pilot.press("e")
        await lines(pilot, str(out))
        assert isinstance(app.screen, NameLeavesScreen)
        assert "“Quarry” names somebody" in " ".join(screen_text(app).split())
        await pilot.press("escape")
        assert [*out.iterdir()] == [path]
        await pilot.press("r")
        await lines(pilot, "Found on Friday", "Found at Rise.")
        # So does a story: it says which of the two does, and that one is taken out of it.
        await pilot.press("escape")
        (wrong,) = app.screen.query(".wrong")
        assert "In its story: “Rise” names somebody" in str(wrong.render())
        assert app.focused is app.screen.query_one("#line-1")
        await pilot.press("ctrl+u", *"Found.", "enter")
        renamed = dataclasses.replace(
            made, name="found-on-friday", title="Found on Friday", story="Found.",
            key=dataclasses.replace(made.key, job=dataclasses.replace(
                made.key.job, name="Found on Friday")))
        assert practices(store.folder)[0]["found-on-friday"] == renamed
        # Nothing of the old title is left: neither the file's name nor what stands in it.
        assert [(path.name, '"name": "found-on-friday"' in path.read_text("utf-8"))
                for path in practices_folder(store.folder).glob("*.json")] == [
            ("found-on-friday.practice.json", True)]
        await pilot.press("d")
        assert "found-on-friday" not in practices(store.folder)[0]
        # The first screen has a bin too, and a key for it: this is neither.
        assert app.notices[0].message == (
            "“Found on Friday” is in the bin of practice jobs: u in this list brings it back.")
        await pilot.press("u")
        assert practices(store.folder)[0]["found-on-friday"] == renamed
        mark(app, "practice:wrong-gauge")
        await pilot.press("d", "r")
        assert isinstance(app.screen, ChooseScreen)
        assert "comes with the program" in " ".join(n.message for n in app.notices)
        assert "wrong-gauge" in practices(store.folder)[0]
        # And of any job from the list of practice; one with mistakes is used as it is.
        mark(app, "make:")
        await pilot.press("enter")
        await settle(pilot)
        mark(app, "demo:mill-row-mistakes")
        await pilot.press("enter")
        await settle(pilot)
        assert "of its own" in screen_text(app)
        await lines(pilot, "Found", "A porch, invented.")
        assert "found" in practices(store.folder)[0]
        assert "Found" in screen_text(app)


async def test_a_job_that_is_open_is_made_a_practice_job(app_on: Make, store: Store) -> None:
    app = app_on(demo_jobs()["heron-lane-barn"])
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        # Its key is shown in practice alone.
        assert "Practice" not in screen_text(app)
        wizard(app).action_brief()
        assert "no practice" in " ".join(n.message for n in app.notices)
        wizard(app).action_make_practice()
        await settle(pilot)
        await lines(pilot, "The barn", "It stands in Heron Lane.")
        await pilot.press("ctrl+u")
        await lines(pilot, "0")
        await pilot.press("enter")
        await settle(pilot)
        # That a name leaves the house needs its own yes, and no Enter is one; who says no is at the
        # line that tells it.
        assert isinstance(app.screen, NameLeavesScreen)
        await pilot.press("enter", "enter")
        assert isinstance(app.screen, NameLeavesScreen)
        # Nor is the y of a story that was meant for the line below.
        for story in ("yard, y", "A shed for hay"):
            await pilot.press(*story, "enter", "y", "enter")
            assert isinstance(app.screen, NameLeavesScreen)
            keys = str(app.screen.query_one("#name-leaves-keys", Static).render())
            assert keys == ("Another letter was typed: y and Enter do nothing now · Escape: write "
                            "another")
            assert app.notices[0].message.endswith("Enter do nothing now. Escape: write another.")
        await pilot.press("escape")
        assert app.focused is app.screen.query_one("#line-1")
        # From the title Enter goes on to it, and makes nothing before it was seen to.
        await pilot.press("shift+tab", "enter")
        assert app.focused is app.screen.query_one("#line-1")
        await pilot.press("ctrl+u", *"A barn, invented.", "shift+tab", "ctrl+u")
        await lines(pilot, "The HERON barn")
        await pilot.press("enter")
        await settle(pilot)
        # The site is Heron Lane: a title that tells so is asked about, each anew.
        assert "“HERON” names somebody or a place" in " ".join(screen_text(app).split())
        await pilot.press("escape")
        (wrong,) = app.screen.query(".wrong")
        assert "“HERON” names somebody or a place" in str(wrong.render())
        assert app.focused is app.screen.query_one("#line-0")
        await lines(pilot, "The Heron barn")
        assert "“Heron” names somebody or a place" in " ".join(screen_text(app).split())
        assert "the-heron-barn" not in practices(store.folder)[0]
        # A letter after the y takes it back, below as well.
        await pilot.press("y", "a")
        assert "Enter keeps it" not in screen_text(app)
        await pilot.press("enter", "escape", "enter", "enter")
        await settle(pilot)
        await pilot.press("y", "enter")
        await settle(pilot)
        assert practices(store.folder)[0]["the-heron-barn"].stripped
        assert isinstance(app.screen, WizardScreen)
