"""Driving the wizard in tests as a person does: by keys and by clicks, and reading the screen."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from textual.pilot import Pilot
from textual.widgets import Input

from coilwright.job.edit import give_text
from coilwright.job.job import Job
from coilwright.job.names import reading_error
from coilwright.plan.ready import ReasonKind
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.form import RowForm
from coilwright.wizard.lists.job_rows import JobRowEntry, JobRows
from coilwright.wizard.lists.screen import ListScreen
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.field import Field
from tests.cases import HEAD, REPLIES
from tests.wizard.pilot import SteadyPilot, paint_waiting, until

SIZES = [(80, 24), (120, 40)]

READY: dict[str, str] = {
    "job.name": "Heron Lane barn", "job.engineered": "no", "job.salt_water": "no",
    "roof.building": "gable", "roof.length": "42 ft", "roof.width": "30 ft",
    "roof.eave_overhang": "1 ft", "roof.rake_overhang": "0", "roof.pitch": "6/12",
    "metal.metal": "steel", "metal.coating": "AZ50", "metal.thickness": "0.0236",
    "metal.thickness_basis": "coating included", "metal.finish": "PVDF 70 %",
    "metal.color": "slate (invented)", "metal.color_confirmed": "yes",
    "metal.painted_side": "outside of the coil", "metal.touching": "nothing unlike it",
    "panel.seam": "double-lock", "panel.leg": "2", "panel.coverage": "16",
    "panel.take_up": "5", "panel.start": "least metal", "panel.end_allowance": "1 in",
    "panel.rounding": "1/4",
    "metal.color_code": "S-3", "metal.back_coat": "wash coat", "metal.film": "no",
    "machine.thinnest": "0.0149", "machine.thickest": "0.0299",
    "machine.narrowest_strip": "16", "machine.widest_strip": "26",
    "machine.profile_narrowest": "12", "machine.profile_widest": "20",
    "machine.arbors": "2", "machine.arbor_load": "3000", "machine.rack_load": "6000",
    "machine.rack_diameter": "34", "machine.smallest_coil_id": "16",
    "machine.largest_coil_id": "24", "machine.thread_up": "6", "machine.tail": "4",
    "coils.coil_on": "overhead rack", "coils.inside_diameter": "20", "coils.spare": "3",
    "coils.tolerance": "10", "coils.wrap_allowance": "4", "coils.site_lift": "6000",
}
"""An invented job that can be ordered, as it would be typed; with `REPLIES` it is ready."""


def job_of(texts: Mapping[str, str], start: Job | None = None) -> Job:
    """A job with these answers typed in and sure; a new one has its questions replied to."""
    from coilwright.job.edit import confirm, new_job

    job = start or dataclasses.replace(new_job(), questions=dict(REPLIES), order=HEAD)
    for key, text in texts.items():
        job, error = give_text(job, key, text)
        assert not error, error
        job = confirm(job, key)
    return job


async def take_replies(pilot: Pilot[Any]) -> None:
    """The replies and the order head of the invented job, once only these hold the order."""
    app = pilot.app
    assert isinstance(app, CoilwrightApp)
    screen = wizard(app)
    plan = screen.session.plan
    kinds = {r.kind for r in plan.reasons}
    assert kinds == {ReasonKind.QUESTION, ReasonKind.HEAD}, [r.text for r in plan.reasons]
    job = dataclasses.replace(screen.session.job, questions=dict(REPLIES), order=HEAD)
    assert screen.session.change(job, "Replies taken")
    screen.changed()
    await settle(pilot)


def screen_lines(app: CoilwrightApp) -> list[str]:
    """What stands on the screen, line by line."""
    paint_waiting()
    # The compositor is private; this is the only place that looks into it.
    return ["".join(s.text for s in strip) for strip in app.screen._compositor.render_strips()]


def screen_text(app: CoilwrightApp) -> str:
    """What stands on the screen."""
    return "\n".join(screen_lines(app))


def wizard(app: CoilwrightApp) -> WizardScreen:
    """The wizard screen, which must be shown."""
    screen = app.screen
    assert isinstance(screen, WizardScreen), screen
    return screen


async def settle(pilot: Pilot[Any]) -> None:
    """Wait until the app is at rest and no worker is at work."""
    app = pilot.app
    await until(SteadyPilot(app), lambda: all(worker.is_finished for worker in app.workers))


async def type_text(pilot: Pilot[Any], text: str, paste: bool = False) -> None:
    """Type into what has the focus, over what stands there; or paste it in one piece."""
    here = pilot.app.focused
    over = () if isinstance(here, Input) and not here.value else ("home", "shift+end", "delete")
    if paste:
        await pilot.press(*over)
        await SteadyPilot(pilot.app).paste(text)
    else:
        await pilot.press(*over, *text)


async def fill_by_keys(
    pilot: Pilot[Any], field: Field, text: str, paste: bool = False
) -> None:
    """Answer the focused field by keys alone."""
    if field.answer.choices:
        words = [str(choice) for choice in field.answer.choices]
        if field.box.value not in words:
            await pilot.press("right")
        turns = words.index(text) - words.index(field.box.value)
        for _ in range(abs(turns)):
            await pilot.press("right" if turns > 0 else "left")
        assert field.box.value == text
        return
    await type_text(pilot, text, paste)


async def walk_by_keys(
    pilot: Pilot[Any], texts: Mapping[str, str], paste: bool = False
) -> set[str]:
    """Answer every field of the step that is shown, by keys alone; the keys that were met.

    paste: texts come in one piece, instead of letter by letter.
    """
    app = pilot.app
    assert isinstance(app, CoilwrightApp)
    screen = wizard(app)
    met: set[str] = set()
    if not list(screen.form.fields()):
        return met  # a step that asks this job nothing
    for _ in range(200):
        field = screen.focused_field()
        if field is None:
            await pilot.press("tab")
            continue
        if field.key in met:
            return met
        met.add(field.key)
        if field.key in texts:
            await fill_by_keys(pilot, field, texts[field.key], paste)
            if field.answer.standing(screen.session.job) != "sure":
                await pilot.press("f4")
        last = list(screen.form.fields())[-1] is field
        # Enter on a pick of many words would list them.
        await pilot.press("down" if field.answer.choices else "enter")
        if last:
            return met
    raise AssertionError("the walk through the fields does not end")


def give_row(
    form: RowForm[Any], job: Job, index: int, name: str, text: str
) -> tuple[Job, str]:
    """The job with a measure of a row typed into its form; the error if it was not read."""
    session = Session(Store(Path("unused")), job)
    entry = JobRows(form, session).entry(index)
    at = next(at for at, asked in enumerate(entry.asked) if asked.answer.key.endswith(f".{name}"))
    entry.take(at, text)
    key, read = entry.asked[at].answer.key, entry.asked[at].answer.read
    typed = session.job.typed.get(key)
    return session.job, "" if typed is None else reading_error(read, typed, session.job)


def entry_of(app: CoilwrightApp, key: str) -> JobRowEntry:
    """The row whose form is shown, of the list of a key."""
    screen = app.screen
    assert isinstance(screen, EntryScreen), screen
    assert isinstance(screen.entry, JobRowEntry)
    assert screen.entry.rows.form.key == key
    return screen.entry


def list_of(app: CoilwrightApp, key: str) -> ListScreen:
    """The list of a key over the wizard, which must be shown."""
    screen = app.screen
    assert isinstance(screen, ListScreen), screen
    assert screen.form.key == key
    return screen
