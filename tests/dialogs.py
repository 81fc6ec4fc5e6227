"""`python -m tests.dialogs`: every screen that opens over the wizard or the list of jobs, at sizes.

It looks for what a size takes away: a widget that sticks out of what holds it with no way to
scroll to it, a text or a row that is cut, a box narrower than what stands in it, a list without
rows, the line of keys; where they are largest, for a key that a line names and that a click on its
words does not press, or that does nothing there; and, in a terminal drawn very narrow, for what is
laid out on and on. A test does the same.
"""

from __future__ import annotations

import asyncio
import dataclasses
import re
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from pathlib import Path
from typing import Any
from unittest.mock import patch

from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Button, Input, OptionList, Static

from coilwright.drawing.line_work import LineWork
from coilwright.drawing.shapes import shape_lines
from coilwright.job.answers import ANSWERS
from coilwright.job.attempt import Attempt, Response
from coilwright.job.drills import DRILLS
from coilwright.job.job import Job
from coilwright.job.practice import to_work_on
from coilwright.job.quotes import Quote
from coilwright.job.receiving import Arrival
from coilwright.job.requests import Request
from coilwright.job.roof import Building, Opening, Openings, Plane
from coilwright.job.steps import STEPS, Step
from coilwright.plan.practice.review import review
from coilwright.plan.practice.solve import solve
from coilwright.store import Store
from coilwright.store.practice import shipped_practices
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.units import System
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.keys import WIZARD_KEYS
from coilwright.wizard.lists.arrivals import ARRIVALS
from coilwright.wizard.lists.coils_on_hand import StockRows
from coilwright.wizard.lists.entry import entry_screen
from coilwright.wizard.lists.form import RowForm
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.plane_screens import PlaneEdges, PlaneZoom
from coilwright.wizard.lists.plane_tables import RowsIn, RowsOut
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.lists.quotes import QUOTES, QUOTES_READ
from coilwright.wizard.lists.requests import REQUEST_LIST
from coilwright.wizard.lists.screen import list_screen
from coilwright.wizard.lists.stock_book import StockBook
from coilwright.wizard.lists.trim import TRIM
from coilwright.wizard.screens.glossary import TermScreen, TermsScreen
from coilwright.wizard.screens.help import BoxHelpScreen, FindingScreen, KeysHelpScreen
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.screens.practice.brief import BriefScreen
from coilwright.wizard.screens.practice.choose import ChooseScreen
from coilwright.wizard.screens.practice.classroom import ClassScreen
from coilwright.wizard.screens.practice.drill import DrillScreen
from coilwright.wizard.screens.practice.hints import HintsScreen
from coilwright.wizard.screens.practice.make import PickJobScreen
from coilwright.wizard.screens.practice.name_leaves import NameLeavesScreen
from coilwright.wizard.screens.practice.paper import AnswersAhead, review_screen
from coilwright.wizard.screens.practice.picks import PicksScreen
from coilwright.wizard.screens.practice.sharing import PracticeSharing
from coilwright.wizard.screens.question import QuestionScreen
from coilwright.wizard.screens.saving import ConflictScreen, NotSavedScreen
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.session import Session
from coilwright.wizard.steps.summary.papers import SupplierPick
from coilwright.wizard.widgets import help_area, row_words, text
from coilwright.wizard.widgets.choice import ChoiceBox
from coilwright.wizard.widgets.columns import cells
from coilwright.wizard.widgets.field import Field
from coilwright.words import shape_words
from tests.attempts import right_attempt
from tests.widths import Sizes, cut_field
from tests.wizard.pilot import SteadyPilot, driven
from tests.wizard.wizard_driving import settle, wizard

SIZES: Sizes = ((60, 18), (72, 24), (80, 24), (100, 30), (120, 40))
SLIVER = (4, 50)
"""A terminal drawn that narrow, which shows nothing that can be read, still comes to rest."""


def full_job() -> Job:
    """The demo job with a hip roof, and a row in each list that it leaves empty."""
    job = demo_jobs()["quarry-house-hip"]
    plane = Plane(name="Porch", eave=240.0, slope_length=120.0, pitch=3.0,
                  openings=(Opening(left=24.0, up=24.0, width=24.0, height=48.0),))
    return dataclasses.replace(
        job, on_hand=demo_stock().coils,
        roof=dataclasses.replace(job.roof, planes=(plane,), openings=Openings.RUN_THROUGH),
        quotes=dataclasses.replace(job.quotes, received=(Quote(supplier="Birch & Daughters"),)),
        requests=(Request(supplier="Birch & Daughters (invented)"),),
        arrived=(Arrival(tag="A-1", coil=1),))


# -- what is opened ----------------------------------------------------------------------------


def _row(form: RowForm[Any], index: int = 0) -> Callable[[Session], Screen[Any]]:
    def make(session: Session) -> Screen[Any]:
        rows = JobRows(form, session)
        return entry_screen(rows.entry(index), rows)

    return make


def _coil_on_hand(session: Session) -> Screen[Any]:
    rows = StockRows(StockBook(session.store), session)
    return entry_screen(rows.entry(0), rows)


def _list(form: RowForm[Any]) -> Callable[[Session], Screen[Any]]:
    return lambda session: list_screen(JobRows(form, session))


def _question(session: Session) -> Screen[Any]:
    order = tuple(question.key for question in session.plan.questions)
    return QuestionScreen(session, order[0], order, lambda: None)


def _brief(session: Session) -> Screen[Any]:
    solved = solve(shipped_practices()["weight-or-diameter"], 1)
    job = to_work_on(solved.practice, Attempt(practice=solved.practice.name, seed=1))
    return BriefScreen(Session(session.store, job), solved, session.store.sheets_folder,
                       lambda _name, place: Path(place))


def _picks(_session: Session) -> Screen[Any]:
    solved = solve(shipped_practices()["weight-or-diameter"], 1)
    return PicksScreen(solved.solution("limit").decision, ())


def _hints(_session: Session) -> Screen[Any]:
    solution = solve(shipped_practices()["weight-or-diameter"], 1).solution("limit")
    return HintsScreen(solution, Response(hints=2), Response(hints=1))


def _reviews(_session: Session) -> list[Any]:
    solved = solve(shipped_practices()["weight-or-diameter"], 1)
    return [review(solved, right_attempt(solved, name))
            for name in ("P. Demo (invented)", "Noor Castellanos-Whitfield (invented)")]


def _to_a_file(session: Session) -> Screen[Any]:
    made: list[Screen[Any]] = []
    PracticeSharing(session.store.folder, lambda screen, _: made.append(screen),
                    lambda *_args, **_more: None).export(
        shipped_practices()["wrong-gauge"], "", "Not written: the disk is full (invented).")
    return made[0]


SCREENS: dict[str, Callable[[Session], Screen[Any]]] = {
    "row of a plane": _row(PLANES),
    "row of trim": _row(TRIM),
    "row of an arrival": _row(ARRIVALS),
    "row of a quote": _row(QUOTES),
    "row of a request": _row(REQUEST_LIST),
    "row of a coil on hand": _coil_on_hand,
    "quotes read": _list(QUOTES_READ),
    "zoom": PlaneZoom,
    "edges": PlaneEdges,
    "planes from a table": lambda _: RowsIn(System.US, "name\teave\tslope length\nA\t20 ft\t10 ft"),
    "planes to a table": lambda session: RowsOut(session.job, session.store.sheets_folder),
    "a finding": lambda session: FindingScreen(
        session.plan.findings[0], System.US, settle=lambda *_: None),
    "a question": _question,
    "pick of a shape": lambda _: PickScreen(
        "Building shape", tuple(Building), Building.HIP,
        {one: shape_lines(one, 12, 3, LineWork.BRAILLE) for one in Building},
        shape_words("building")),
    "lines": lambda session: LinesScreen(
        "Take it on knowingly", session.plan.findings[0].what,
        (Line("Name", hint="who takes it on"), Line("Reason", hint="why it is acceptable"))),
    "keys": lambda _: KeysHelpScreen([(key, key.tooltip) for key in WIZARD_KEYS]),
    "help on a box": lambda _: BoxHelpScreen(
        ANSWERS["metal.thickness"], "As the tag says it.", "With a micrometer, at three places.",
        System.US, [(key, key.tooltip) for key in WIZARD_KEYS[:6]]),
    "a term": lambda _: TermScreen("coil"),
    "terms": lambda _: TermsScreen("Words in this question", "coil, strip width, standing seam"),
    "not saved": lambda session: NotSavedScreen(session, "The disk is full (invented)."),
    "conflict": lambda session: ConflictScreen(session.job.title),
    "pick of a supplier": lambda _: SupplierPick(
        ("Birch & Daughters", "Slate Creek"), "Slate Creek", lambda _name: None),
    "brief": _brief,
    "picks": _picks,
    "hints": _hints,
    "review": lambda session: review_screen(_reviews(session)[0]),
    "class": lambda session: ClassScreen(_reviews(session), session.store.sheets_folder),
    "practice": lambda session: ChooseScreen(session.store),
    "answers ahead": lambda _: AnswersAhead("Friday at the barn (invented)"),
    "name leaves": lambda _: NameLeavesScreen("“Lane” names somebody or a place of this job."),
    "practice to a file": _to_a_file,
    "job to practice": lambda session: PickJobScreen(session.store),
    "drill": lambda _: DrillScreen(next(iter(DRILLS.values())), 1),
}
"""Screens that are made with a session."""

ACTIONS: dict[str, tuple[str, str]] = {
    "help on an answer": ("metal.thickness", "words"),
    "help on a step": ("", "step_words"),
    "working": ("", "working"),
    "questions": ("", "questions"),
    "figures": ("", "figures"),
    "glossary": ("", "glossary"),
    "go to": ("", "go_to"),
    "machines": ("", "pick_machine"),
    "coils on hand": ("", "stock"),
    "widths": ("", "widths"),
    "arrivals": ("", "arrivals"),
    "head of the order": ("", "order_head"),
    "requests": ("", "requests"),
    "life of the order": ("", "order_life"),
    "after the run": ("", "run_done"),
    "my shop": ("", "shop"),
    "projector": ("", "project"),
    "looks": ("", "app.looks"),
    "lines of drawings": ("", "app.line_work"),
    "notices": ("", "app.notices"),
}
"""Actions of the wizard that open a screen, each with the answer that has the focus."""


# -- what is wrong -----------------------------------------------------------------------------


def faults(screen: Screen[Any]) -> Iterator[str]:
    """A sentence for everything that the size the screen has takes away."""
    for widget in screen.walk_children(Widget):
        if not _shown(widget) or (widget.children and not isinstance(widget, Field)):
            continue
        name = _name(widget)
        if isinstance(widget, Field):
            yield from cut_field(widget)
        elif not widget.region.area and _said(widget).strip():
            yield f"{name}: no room"
            continue
        yield from (f"{name} {how}" for how in _sticks_out(widget))
        if isinstance(widget, OptionList):
            yield from (f"{name}: {how}" for how in _cut_rows(widget))
        elif isinstance(widget, Static) and widget.size.area:
            high = widget.visual.get_height(widget.styles, widget.size.width)
            if high > widget.size.height:
                yield f"{name}: {high} rows in {widget.size.height}: {_said(widget)[-30:]!r}"
        elif isinstance(widget, Button) and cells(_said(widget)) > widget.size.width:
            yield f"{name}: cut"
        elif isinstance(widget, Button) and (over := _covered(screen, widget)):
            yield f"{name}: {over} lies over it"
    if not any("Esc" in _said(one) for one in screen.query(Static) if one.region.area):
        yield "nothing says how it is closed"


def _shown(widget: Widget) -> bool:
    return all(w.display for w in widget.ancestors_with_self if isinstance(w, Widget))


def _said(widget: Widget) -> str:
    if isinstance(widget, Input):
        return widget.value
    if isinstance(widget, OptionList | ChoiceBox):
        return "rows"
    return str(widget.render()) if isinstance(widget, Static | Button) else ""


def _name(widget: Widget) -> str:
    called = widget.id or " ".join(sorted(widget.classes)) or type(widget).__name__
    return f"{type(widget).__name__} {called}"


def _sticks_out(widget: Widget) -> Iterator[str]:
    """Beyond what holds it: to the side at all, up or down where nothing scrolls to it."""
    scrolls = False
    for around in widget.ancestors:
        if not isinstance(around, Widget):
            return
        inside = around.content_region if not isinstance(around, Screen) else around.region
        if widget.region.x < inside.x or widget.region.right > inside.right:
            yield f"sticks out of {_name(around)} sideways"
            return
        scrolls = scrolls or around.styles.overflow_y in ("auto", "scroll")
        if not scrolls and (widget.region.y < inside.y or widget.region.bottom > inside.bottom):
            yield f"sticks out of {_name(around)}"
            return


def _covered(screen: Screen[Any], widget: Widget) -> str:
    """What is drawn where a widget is to stand: the last line of a box covers what has no room."""
    if not screen.region.contains_point(widget.region.offset):
        return ""
    there, _ = screen.get_widget_at(*widget.region.offset)
    return "" if widget in there.ancestors_with_self else _name(there)


def _cut_rows(rows: OptionList) -> Iterator[str]:
    room = rows.scrollable_content_region.width
    for option in rows.options:
        widest = max(map(cells, str(option.prompt).split("\n")))
        if widest > room:
            yield f"a row of {widest} in {room}: {str(option.prompt)!r}"
            break
    if rows.option_count and rows.size.height < min(2, rows.option_count):
        yield f"{rows.size.height} rows high"


# -- what is said of keys ----------------------------------------------------------------------


async def unheard(pilot: SteadyPilot) -> list[str]:
    """A sentence for every key named on the screen that a click on it does not press.

    What it would do is not done: the screen stays as it is, but for the focus.
    """
    found, app = [], pilot.app
    assert isinstance(app, CoilwrightApp)
    for line in app.screen.query(Static):
        keys = _keys_named(line)
        if keys and not app.screen.region.contains_region(line.region):
            line.scroll_visible(animate=False)
            await pilot.rest()
        if not app.screen.region.contains_region(line.region):
            continue  # that is said of it otherwise
        for key, at in keys.items():
            pressed: list[str] = []
            said = tuple(map(id, app.notices))
            with ExitStack() as instead:
                for where in (text, help_area, row_words):
                    instead.enter_context(patch.object(
                        where, "press_key", lambda _app, key, to=pressed: to.append(key)))
                await pilot.click(line, offset=at)
            active = app.screen.active_bindings.get(key)  # a click may bring the focus as well
            if pressed == [key] and (active is None or not active.enabled):
                found.append(f"{_name(line)}: {key} does nothing")
            elif pressed != [key] and tuple(map(id, app.notices)) == said:
                found.append(f"{_name(line)}: a click on {key} presses {pressed or 'nothing'}")
    return found


def _keys_named(line: Static) -> dict[str, tuple[int, int]]:
    """The keys that a line names, each with a place to click; none of what is only read."""
    found: dict[str, tuple[int, int]] = {}
    read = any(around.has_class("part") for around in (line, *line.ancestors)) \
        and not isinstance(line, text.KeysLine)
    words = str(line.content)
    if read or isinstance(line, text.KeyWords) or not _shown(line) or not line.region.area:
        return found
    if not _NAMES_KEYS.search(words):
        return found
    for y in range(line.size.height):
        before = text.cells_before(words, y, line.size.width)
        for x in range(line.size.width):
            key = text.key_at(words, before + x)
            # In a sentence on an answer `a` is no key.
            if key and (not isinstance(line, help_area.HelpArea) or len(key) > 1):
                found.setdefault(key, (x, y))
    return found


_NAMES_KEYS = re.compile(r"(?:^|[·;,.] )(?:Enter|Esc|Escape|F\d+) ?")


# -- at all sizes ------------------------------------------------------------------------------


async def look(
    home: Path, sizes: Sizes, names: Sequence[str] = (*SCREENS, *ACTIONS),
    steps: Sequence[Step] = STEPS,
) -> tuple[dict[str, list[tuple[int, int]]], set[type]]:
    """Every fault of the screens, with the sizes at which it is one; the kinds of screen met.

    Nothing is painted: only the layout is looked at.
    """
    found: dict[str, list[tuple[int, int]]] = {}
    met: set[type] = set()
    store = Store(home)
    app = CoilwrightApp(store, Session(store, full_job(), search_seconds=0.0))
    async with driven(app, paint=False, size=sizes[0]) as pilot:
        await settle(pilot)
        below = wizard(app)
        # Nothing of the wizard is seen then: it need not be laid out for each size as well.
        await app.push_screen(cover := Screen())
        for name in names:
            # Some set their rows when they open: at the narrowest they have the least room.
            await pilot.resize_terminal(*sizes[0])
            await open_screen(pilot, below, name)
            met.update(type(app.screen).__mro__)
            if app.screen is cover:
                found[f"{name}: does not open"] = [*sizes]
                continue
            for size in sizes:
                await pilot.resize_terminal(*size)
                await pilot.rest()
                for fault in faults(app.screen):
                    found.setdefault(f"{name}: {fault}", []).append(size)
            for fault in await unheard(pilot):
                found.setdefault(f"{name}: {fault}", []).append(sizes[-1])
            for fault in await _restless(pilot):
                found.setdefault(f"{name}: {fault}", []).append(SLIVER)
            while app.screen is not cover:
                app.pop_screen()
                await pilot.rest()
        app.pop_screen()
        for step in steps:
            await below.go(step.key)
            await settle(pilot)
            for fault in await unheard(pilot):
                found.setdefault(f"{step.title}: {fault}", []).append(sizes[-1])
    return found, met


async def _restless(pilot: SteadyPilot) -> list[str]:
    """A sentence where the screen is laid out on and on in a terminal drawn very narrow."""
    try:
        await pilot.resize_terminal(*SLIVER)
        await pilot.rest()
    except AssertionError as error:
        await pilot.resize_terminal(*SIZES[-1])
        return [str(error)]
    return []


async def open_screen(pilot: SteadyPilot, below: WizardScreen, name: str) -> None:
    """Open the screen of a name over the wizard."""
    if name in SCREENS:
        await pilot.app.push_screen(SCREENS[name](below.session))
    else:
        key, action = ACTIONS[name]
        if key:
            await below.go_to_key(key)
        await below.run_action(action)
    await settle(pilot)


def main() -> int:
    """Print what is cut where; 1 where anything is."""
    with tempfile.TemporaryDirectory() as home:
        found, _ = asyncio.run(look(Path(home), SIZES))
    for fault, where in found.items():
        print(f"{fault}, at {' '.join(f'{w}×{h}' for w, h in where)}")
    print(f"{len(SIZES)} sizes of {len(SCREENS) + len(ACTIONS)} screens: {len(found)} faults")
    return 1 if found else 0


if __name__ == "__main__":
    raise SystemExit(main())
