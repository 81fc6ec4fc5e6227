"""The frame and the fields: what is marked, what is never cut, what is said instead of a figure."""

from __future__ import annotations

import dataclasses
import gc
import json
import re
from collections.abc import Callable

import pytest
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.geometry import Size
from textual.theme import Theme
from textual.widgets import Button
from textual.widgets._toast import Toast

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.attempt import Attempt
from coilwright.job.edit import clear, give_text, new_job
from coilwright.job.practice import to_work_on
from coilwright.job.roof import Building
from coilwright.job.steps import STEPS
from coilwright.plan.questions import reply
from coilwright.store import Store
from coilwright.store.practice import shipped_practices
from coilwright.store.shipped import demo_jobs, demo_stock, machines
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key
from coilwright.values.source import PRACTICE
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.commands import WizardCommands
from coilwright.wizard.dimmed import Dimmed
from coilwright.wizard.lists.plane_text import no_planes
from coilwright.wizard.lists.row_list import _instead
from coilwright.wizard.progress import lack_sentence, left_on, waits_for
from coilwright.wizard.session import Session
from coilwright.wizard.settings import remember_theme, remembered_theme
from coilwright.wizard.step_view import load_view
from coilwright.wizard.steps.machine.machines import is_picked, with_machine
from coilwright.wizard.steps.summary.controller import row_keys
from coilwright.wizard.steps.summary.lines import Lines
from coilwright.wizard.themes import CONTRAST, DARK, LIGHT
from coilwright.wizard.widgets.blocks import BarButton
from coilwright.wizard.widgets.columns import cells
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.help_area import usual_line
from coilwright.wizard.widgets.results import FigureLine, counted_findings
from coilwright.words import cautions
from tests.cases import building, set_answers
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

AppOn = Callable[..., CoilwrightApp]


@pytest.mark.parametrize(("levels", "said"), [
    ("N", "1 note"), ("CC", "2 warnings"), ("CNN", "3 warnings and notes"),
    ("SNN", "1 stop and 2 notes"), ("SS", "2 stops"),
])
def test_the_side_box_says_of_what_there_is_more_on_the_summary(levels: str, said: str) -> None:
    """Where none of them stood above it, one read only “1 more, on the summary”: of what?"""
    level = {"S": Level.STOP, "C": Level.CARE, "N": Level.NOTE}
    found = [Finding(level[one], "a", "What.", "Why.", "Do.", PRACTICE, "job") for one in levels]
    assert counted_findings(found) == said



async def test_the_pick_list_marks_its_row_and_letters_jump(app_on: AppOn) -> None:
    app = app_on(job_of({"metal.metal": "copper"}), "metal", "metal.metal")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("space")
        await settle(pilot)
        assert "▸copper  (now)" in screen_text(app)
        await pilot.press("s", "t", "a")
        await settle(pilot)
        assert "▸stainless steel" in screen_text(app)
        assert "▸copper" not in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert wizard(app).session.job.metal.metal == "stainless steel"


async def test_enter_on_an_open_choice_lists_it(app_on: AppOn) -> None:
    app = app_on(new_job(), "metal", "metal.metal")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        assert "letters jump" in screen_text(app)


async def test_the_focused_button_is_marked_and_the_bar_is_one_row(app_on: AppOn) -> None:
    app = app_on(with_machine(job_of(READY), next(iter(machines().values()))), "machine")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("up")
        await settle(pilot)
        assert "▸Pick a machine" in screen_text(app)
        await pilot.press("right")
        await settle(pilot)
        assert "▸Confirm all" in screen_text(app)
        assert "▸Pick" not in screen_text(app)
        await pilot.press("down")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key == "machine.name"


async def test_a_blank_machine_begins_with_picking_one_and_confirms_nothing(
    app_on: AppOn
) -> None:
    app = app_on(new_job(), "machine")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        assert isinstance(screen.focused, Button)
        assert screen.focused.id == "pick-machine"
        assert not screen.query_one("#confirm-machine", BarButton).display
        before = screen.session.job
        screen.action_confirm_machine()
        await settle(pilot)
        assert screen.session.job == before
        assert "no machine to confirm" in " ".join(screen_text(app).split())


def test_a_machine_is_there_once_something_of_it_is_said() -> None:
    assert not is_picked(new_job())
    assert is_picked(job_of({"machine.name": "ours"}))
    assert is_picked(job_of({"machine.widest_strip": "26"}))


async def test_a_value_is_never_cut(app_on: AppOn) -> None:
    app = app_on(demo_jobs()["quarry-house-hip"])
    async with driven(app, size=(60, 24)) as pilot:
        for width in (60, 80):
            await pilot.resize_terminal(width, 24)
            for step in (s.key for s in STEPS if s.key != "summary"):
                await wizard(app).go(step)
                await settle(pilot)
                plan, text = wizard(app).session.plan, screen_text(app)
                for headline in load_view(step).headlines[:6]:
                    figure = plan.figures.get(headline.key)
                    if figure is not None:
                        value = f" {figure.text(plan.job.units)} "
                        assert value in text.replace("\n", " \n "), (width, step, headline.key)


async def test_the_focus_is_seen_in_the_results(app_on: AppOn) -> None:
    app = app_on(job_of(READY), "panel")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        first = next(iter(wizard(app).query(FigureLine).results(FigureLine)))
        first.focus()
        await settle(pilot)
        assert "▸  Strip width" in screen_text(app)
        wizard(app).form.first()
        await settle(pilot)
        assert "▸  Strip width" not in screen_text(app)


async def test_the_unit_stands_only_beside_a_bare_number(app_on: AppOn) -> None:
    app = app_on(new_job(), "panel", "panel.coverage")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)

        def row() -> str:
            line = next(x for x in screen_lines(app) if x.startswith("▸Coverage width"))
            return " ".join(line.split())

        assert row() == "▸Coverage width in ask"
        await type_text(pilot, "16")
        await settle(pilot)
        assert row() == "▸Coverage width 16 in sure"
        await type_text(pilot, "1 ft")
        await settle(pilot)
        assert row() == "▸Coverage width 1 ft sure"


async def test_cautions_are_one_line_in_a_narrow_form_and_all_behind_it(app_on: AppOn) -> None:
    app = app_on(job_of(READY), "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        line = next(iter(wizard(app).query("CautionLine")))
        line.focus()
        await settle(pilot)
        assert "Enter here shows all" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        text = " ".join(screen_text(app).split())
        assert " ".join(cautions("roof")[0].split())[:40] in text


async def test_f2_names_what_is_missing(app_on: AppOn) -> None:
    app = app_on(new_job(), "panel", "panel.coverage")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("f2")
        await settle(pilot)
        said = " ".join(screen_text(app).split())
        assert "Strip width still needs:" in said
        assert "more answers" not in said


def test_every_headline_says_what_it_waits_for() -> None:
    from coilwright.plan import plan

    for job in (new_job(), *demo_jobs().values()):
        found = plan(job)
        for step in STEPS:
            for headline in load_view(step.key).headlines:
                if headline.key not in found.figures:
                    said = lack_sentence(found, headline.key, headline.label)
                    assert said.startswith(headline.label)
                    assert "more answers" not in said
                    assert waits_for(found, headline.key)


def test_what_cannot_be_read_and_what_cannot_be_are_not_called_missing(store: Store) -> None:
    from coilwright.plan import plan

    house = building(Building.GABLED_ELL, wing_width=240.0, wing_projection=144.0)
    unread, error = give_text(house, RoofKey.LENGTH, "4O ft")
    assert error
    assert waits_for(plan(unread), Key.ROOF_AREA) == "cannot read Plan length"
    assert lack_sentence(plan(unread), Key.ROOF_AREA, "Roof") == (
        "Roof waits for what cannot be read: Plan length.")
    wide = plan(set_answers(house, {RoofKey.WING_WIDTH: 300.0}))
    assert waits_for(wide, Key.ROOF_AREA) == "check Wing width"
    assert lack_sentence(wide, Key.ROOF_AREA, "Roof") == (
        "Roof cannot be worked out; check: Wing width, Plan width. (The wing is 25 ft wide; the "
        "main part is 24 ft.)")
    # So does the list of planes, which had told who had picked a shape to pick one.
    assert no_planes(plan(unread)) == "   none yet: cannot read Plan length"
    assert no_planes(wide) == "   none yet: check Wing width, Plan width"
    assert no_planes(plan(building(Building.ELL))) == (
        "   none yet: needs Wing stands out, Wing width")
    assert no_planes(plan(new_job())).startswith("   none yet: pick a shape above")
    # Where that takes two lines, the second begins below the first.
    (row,) = _instead(no_planes(wide), 30)
    assert str(row.prompt).split("\n") == ["   none yet: check Wing width,", "   Plan width"]
    # What is not there at all is still what it needs, beside one that is; unread comes first.
    both = set_answers(unread, {RoofKey.WING_WIDTH: None})
    assert waits_for(plan(both), Key.ROOF_AREA) == "cannot read Plan length"
    assert waits_for(plan(set_answers(house, {RoofKey.WING_WIDTH: None})), Key.ROOF_AREA) == (
        "needs Wing width")
    # So does the list of figures on the summary, and Enter there leads to that answer.
    for found, said, first in ((plan(unread), "cannot read Plan length", RoofKey.LENGTH),
                               (wide, "check Wing width, Plan width", RoofKey.WING_WIDTH)):
        session = Session(store, found.job)
        rows = Lines(session, (), fresh=True, room=80, size=Size(80, 24)).rows()
        (line,) = (row for row in rows if "Roof area" in str(row.prompt))
        assert said in " ".join(str(line.prompt).split())
        assert line.id == f"go:{first}#{Key.ROOF_AREA}"
        assert row_keys(found, line.id).startswith(f"Enter: to {ANSWERS[first].label},")
    # A reply against the order has its own sign there, and says what the two are.
    coils = job_of(READY | {"coils.supplier_heaviest": "600"})
    two, _ = reply(coils, "supplier.one_lot", "Two lots")
    session = Session(store, two)
    (held,) = (row for row in Lines(session, (), fresh=True, room=80, size=Size(80, 24)).rows()
               if row.id == "question:supplier.one_lot")
    assert str(held.prompt).split()[0] == "≠"
    assert "replied “Two lots”; the order asks for one production lot" in " ".join(
        str(held.prompt).split())
    assert "F4" not in row_keys(session.plan, "question:supplier.one_lot")


def test_no_headline_waits_for_what_it_is_not_made_of() -> None:
    from coilwright.plan import plan

    unsigned = clear(demo_jobs()["heron-lane-barn"], MetalKey.COLOR_CONFIRMED)
    assert waits_for(plan(unsigned), RoofKey.PITCH) == "not for this job"
    # In practice a limit is not nothing: it is kept back.
    practiced = to_work_on(shipped_practices()["weight-or-diameter"],
                           Attempt(practice="weight-or-diameter"))
    assert waits_for(plan(practiced), Key.COIL_LONGEST) == "kept back"
    assert lack_sentence(plan(practiced), Key.COIL_LONGEST, "Longest") == (
        "Longest is kept back until the practice is handed in.")
    assert waits_for(plan(new_job()), CoilsKey.LEAD_TIME) == "needs “Lead time, days”"
    assert waits_for(plan(new_job()), Key.COILS_DAYS_SPARE) == "needs Needed by"
    assert waits_for(plan(new_job()), Key.ROOF_SLOPE_FACTOR) == "needs Building shape"


async def test_an_error_is_read_in_full_from_another_field(app_on: AppOn) -> None:
    app = app_on(job_of(READY), "panel", "panel.take_up")
    async with driven(app, size=(60, 24)) as pilot:
        await settle(pilot)
        await type_text(pilot, "five-ish")
        await pilot.press("tab")
        from coilwright.job.names import answer_error

        error = answer_error(wizard(app).session.job, "panel.take_up")
        for width in (60, 80):
            await pilot.resize_terminal(width, 24)
            await settle(pilot)
            assert " ".join(error.split()) in " ".join(screen_text(app).split())
            row = next(x for x in screen_lines(app) if "five-ish" in x)
            assert row.startswith("×Take-up")
            assert "unclear" in row


async def test_the_rail_counts_what_is_left(app_on: AppOn) -> None:
    app = app_on(new_job(), "metal")
    async with driven(app, size=(60, 24)) as pilot:
        await settle(pilot)
        left = left_on(wizard(app).session.plan, "metal")
        assert left > 1
        for width in (60, 72, 80, 120):
            await pilot.resize_terminal(width, 24)
            await settle(pilot)
            assert f"DRAFT, {left} to settle here" in screen_lines(app)[0]
            assert (f"? {left}" if width >= 120 else f"? ask {left}") in screen_text(app)
            if width < 100:
                rail = screen_lines(app)[1]
                assert all(f"{n}" in rail for n in range(1, len(STEPS) + 1))
                assert rail.rstrip().endswith("›")
                assert re.search(r"›\s+4", rail), "the step that is shown stands apart"


async def test_the_theme_is_remembered(app_on: AppOn, store: Store) -> None:
    app = app_on(new_job())
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        assert not (store.folder / "settings.json").exists()
        app.theme = "coilwright-light"
        await settle(pilot)
    assert remembered_theme(store.folder) == "coilwright-light"
    assert app_on(new_job()).theme == "coilwright-light"


@pytest.mark.parametrize(
    "text", ["{ half", "[]", '{"format": "other", "theme": "x"}', '{"theme": 3}', "\0"]
)
def test_a_damaged_settings_file_is_no_trouble(store: Store, text: str) -> None:
    store.folder.mkdir(parents=True)
    (store.folder / "settings.json").write_text(text)
    assert remembered_theme(store.folder) is None
    assert CoilwrightApp(store).theme == "coilwright-dark"


async def test_only_our_themes_and_the_terminals_own_are_offered(app_on: AppOn) -> None:
    app = app_on(new_job())
    assert sorted(app.available_themes) == [
        "ansi-dark", "ansi-light", "coilwright-contrast", "coilwright-dark", "coilwright-light",
    ]  # fmt: skip
    async with driven(app) as pilot:
        for name in app.available_themes:
            app.theme = name
            await pilot.pause()
            assert app.current_theme.name == name
            # In our own looks what is dim is a color of ours, in the terminal's own the terminal's.
            ours = any(isinstance(one, Dimmed) for one in app.get_line_filters())
            assert ours != name.startswith("ansi")


def _contrast(one: Color, other: Color) -> float:
    """The contrast ratio as WCAG 2.2 defines it."""

    def luminance(color: Color) -> float:
        red, green, blue = (
            p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in color.normalized)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(
    ("theme", "least"), [(DARK, 4.5), (LIGHT, 4.5), (CONTRAST, 7.0)], ids=lambda x: str(x))
def test_words_stand_out_from_what_is_behind_them(theme: Theme, least: float) -> None:
    """WCAG 2.2, success criteria 1.4.3, 1.4.6 and 1.4.11."""
    colors = {name: Color.parse(value) for name, value in
              theme.to_color_system().generate().items() if value.startswith("#")}
    words = ("foreground", "primary", "secondary", "accent", "success", "warning", "error")
    for behind in ("background", "surface"):
        for front in words:
            assert _contrast(colors[behind], colors[front]) >= least, (front, behind)
    # Inputs that have the keyboard, the line of keys, and the step one is at.
    for front in ("foreground", "secondary", "accent", "footer-key-foreground"):
        assert _contrast(colors["panel"], colors[front]) >= 4.5, front
    # The marked row of a list.
    marked = colors["background"].blend(colors["primary"], 0.35)
    for front in ("foreground", "secondary", "accent"):
        assert _contrast(marked, colors[front]) >= 4.5, front
    # What is dim, wherever it stands, the marked row as well.
    in_box = colors["surface"].blend(colors["primary"], 0.35)
    for behind in (colors["background"], colors["surface"], colors["panel"], marked, in_box):
        said = Style(color=colors["foreground"].rich_color, bgcolor=behind.rich_color, dim=True)
        (shown,) = Dimmed().apply([Segment("words", said)], behind)
        assert shown.style is not None
        assert shown.style.color is not None
        assert not shown.style.dim
        assert shown.style.color != said.color
        assert _contrast(behind, Color.from_rich_color(shown.style.color)) >= 4.5
    # A mark in its own color on a marked row, and on the step one is at; lines of boxes stay faint.
    here = colors["background"].blend(colors["primary"], 0.3)
    for behind in (colors["background"], colors["panel"], here, marked, in_box):
        for front in words:
            style = Style(color=colors[front].rich_color, bgcolor=behind.rich_color)
            for text in ("STOP", "✓"):
                (shown,) = Dimmed().apply([Segment(text, style)], behind)
                assert shown.style is not None
                assert shown.style.color is not None
                assert _contrast(behind, Color.from_rich_color(shown.style.color)) >= 4.5, front
            assert Dimmed().apply([line := Segment("│──", style)], behind) == [line]
    bare = Segment("words", Style(dim=True))  # without a color it stays the terminal's
    assert Dimmed().apply([bare], colors["background"]) == [bare]
    for thumb in ("scrollbar", "scrollbar-hover", "scrollbar-active"):
        assert _contrast(colors["scrollbar-background"], colors[thumb]) >= 3, thumb


async def test_a_notice_covers_nothing_and_can_be_read_again(app_on: AppOn) -> None:
    app = app_on(job_of({"panel.take_up": "5"}), "panel", "panel.take_up")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("f3", "f3", "f3", "f3")
        await settle(pilot)
        (toast,) = app.screen.query("Toast")
        said = "5 in is sure now; F4 or a click on that word makes it a guess."
        assert said in screen_lines(app)[-1]
        others = (app.screen.query_one("#middle"), app.screen.query_one("#results"),
                  app.screen.query_one("KeysFooter"))
        assert not any(toast.region.overlaps(other.region) for other in others)
        assert "f10 Jobs" in screen_lines(app)[-2]
        wizard(app).say("A long one goes on and on. " * 9)
        await settle(pilot)
        (toast,) = app.screen.query("Toast")
        assert not any(toast.region.overlaps(other.region) for other in others)
        assert screen_lines(app)[-1].rstrip().endswith("… F12 reads on")
        assert "f10 Jobs" in screen_lines(app)[-2]
        await pilot.click("Toast")
        await settle(pilot)
        assert "The newest first" in screen_text(app), "a click on it is as the key it names"
        await pilot.press("escape", "down")
        await settle(pilot)
        assert "sure now" not in screen_text(app), "it was said of the answer before"
        assert "f10 Jobs" in screen_lines(app)[-2]
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert "Undid" in screen_lines(app)[-1]
        undone = wizard(app).session.job
        await pilot.click("Toast", offset=(2, 0))
        await settle(pilot)
        assert wizard(app).session.job is undone, "only the words of a key press it"
        await pilot.press("f12")
        await settle(pilot)
        said = screen_text(app)
        assert said.index("Undid") < said.index("5 in is sure now")
        found = [hit.text async for hit in WizardCommands(app.screen_stack[0]).discover()]
        assert found[-8:] == [
            "Notices", "Looks and settings", "Look: dark", "Look: light", "Look: high contrast",
            "Look: the terminal's own, dark", "Look: the terminal's own, light",
            "Leave Coilwright",
        ]
        assert found[0] == "Step 1: Job"


@pytest.mark.parametrize("room", [57, 77, 100])
def test_what_is_usual_ends_with_the_key_that_says_the_rest(room: int) -> None:
    lines = [usual_line(demo_jobs()["quarry-house-hip"], Field(answer), room)
             for answer in ANSWERS.values()]
    assert max(map(cells, lines)) <= room
    assert all(line.endswith(("F1 says why", "F1 says more")) for line in lines)
    assert sum(line.endswith("F1 says why") for line in lines) > len(lines) / 2


def test_a_theme_that_is_gone_falls_back(store: Store) -> None:
    remember_theme(store.folder, "no such theme")
    data = json.loads((store.folder / "settings.json").read_text("utf-8"))
    assert data["format"] == "coilwright-settings"
    assert CoilwrightApp(store).theme == "coilwright-dark"


async def test_waste_is_collected_once_the_first_screen_stands(app_on: AppOn) -> None:
    gc.disable()
    try:
        async with driven(app_on(new_job()), size=(80, 24)) as pilot:
            await settle(pilot)
            assert gc.isenabled()
    finally:
        gc.enable()
        gc.unfreeze()


async def test_coils_on_hand_stand_on_the_coils_step(app_on: AppOn) -> None:
    job = dataclasses.replace(demo_jobs()["heron-lane-barn"], on_hand=demo_stock().coils)
    app = app_on(job, "coils")
    async with driven(app, size=(120, 60)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        text = screen_text(app)
        assert screen.session.plan.from_stock
        for coil in job.on_hand:
            assert coil.tag in text
        assert "used; left past spare, thread-up and tail: " in text
        assert "not used: It is copper" in " ".join(text.split())
        rows = screen.query_one("JobCoils")
        rows.focus()
        await pilot.press("d")
        await settle(pilot)
        assert screen.session.job.on_hand == job.on_hand[1:]
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert screen.session.job.on_hand == job.on_hand
        # Where no finding is of the step, one line says how many there are, and none of it is cut.
        screen.session.change(demo_jobs()["heron-lane-barn"], "No coil on hand")
        await screen.go("quotes")
        await settle(pilot)
        beside = " ".join(" ".join(line[80:] for line in screen_lines(app)).split())
        assert re.search(r"\d warnings and notes, on the summary", beside)


def test_no_label_of_a_result_is_one_only_an_insider_reads() -> None:
    for step in ("metal", "machine", "coils"):
        for headline in load_view(step).headlines:
            assert headline.label not in {"Sheet", "Across", "At most", "Good for", "Strip"}


async def test_a_notice_that_goes_by_itself_leaves_the_screen_as_it_was(app_on: AppOn) -> None:
    app = app_on(new_job(), "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        body = wizard(app).query_one("#body")
        before = body.region
        app.notify("Something was said.")
        await settle(pilot)
        assert "Something was said." in screen_text(app)
        assert body.region == before, "nothing moves, so that a click hits what it was aimed at"
        app.screen.query_one(Toast)._expire()  # its time is over
        await settle(pilot)
        assert body.region == before
        wizard(app).query_one("#figures .figure").focus()
        await settle(pilot)
        assert body.region == before
