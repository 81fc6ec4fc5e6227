"""`python -m tests.widths`: every step at every width from 60 to 160, an empty and a full job.

It looks for what a size takes away: a box narrower than what stands in it, a standing or a label
that is cut, a button out of reach, a step that cannot be clicked, a key cut at the foot. It takes
some minutes; a test does the same at the widths where the layout changes.
"""

from __future__ import annotations

import asyncio
import dataclasses
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

from textual.widget import Widget
from textual.widgets import Input

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.choice import ChoiceBox
from coilwright.wizard.widgets.columns import cells
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.keys_footer import KeysFooter
from coilwright.wizard.widgets.rail import Rail
from coilwright.wizard.widgets.results import FigureLine
from coilwright.wizard.widgets.text import Hanging
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import settle, wizard

Sizes = Sequence[tuple[int, int]]

LEAST_FORM = 4
"""Rows of a form that is of any use."""
INDENT = 3
"""Cells before a box that stands on a row of its own."""


def full_job() -> Job:
    """The demo job with a hip roof, and coils on hand."""
    return dataclasses.replace(demo_jobs()["quarry-house-hip"], on_hand=demo_stock().coils)


JOBS = {"empty": new_job, "full": full_job}


def faults(screen: WizardScreen) -> Iterator[str]:
    """A sentence for everything that the size the screen has takes away."""
    form = screen.form
    if form.size.height < LEAST_FORM:
        yield f"the form has {form.size.height} rows"
    for field in form.query(Field):
        if _shown(field):
            yield from cut_field(field)
    for button in (*form.query("Button"), *form.query(".press")):
        if _shown(button):
            yield from _cut_button(button, form)
    for box in form.query(Input):
        if _shown(box) and box.region.right > form.region.right:
            yield f"a box goes on behind the edge of the form: {box.value!r}"
    for line in screen.query(FigureLine):
        said = str(line.render())
        if _shown(line) and max(map(cells, said.split("\n"))) > line.size.width:
            yield f"{said!r} has {line.size.width} cells"
        if _shown(line) and screen.wide and "…" in said:
            yield f"{said!r} is cut"
    for text in screen.query(Hanging):
        said = str(text.render())
        if screen.wide and _shown(text) and said.count("\n") + 1 > text.size.height:
            yield f"{said!r} has {text.size.height} rows"
    rail = screen.query_one(Rail)
    for target in ("back", "next", *(step.key for step in STEPS)):
        x, y = rail.place(target)
        if not (x < rail.size.width and y < rail.size.height):
            yield f"{target} is outside the line of steps"
    for key in screen.query_one(KeysFooter).children:
        if key.display and key.region.right > screen.size.width:
            yield f"the foot cuts {key.render()}"


def _shown(widget: Widget) -> bool:
    return all(w.display for w in widget.ancestors_with_self if isinstance(w, Widget))


def cut_field(field: Field) -> Iterator[str]:
    """A box holds what stands in it, as far as the form is wide; label and standing are whole."""
    box, width = field.box, field.size.width
    needs = box.needs if isinstance(box, ChoiceBox) else cells(box.value) + 1
    if box.size.width < min(needs, width - INDENT):
        yield f"{field.key}: {needs} cells in a box of {box.size.width}"
    row = str(field.render())
    if cells(row) > width:
        yield f"{field.key}: a row of {cells(row)} cells in {width}"
    if field.answer.label not in row:
        yield f"{field.key}: its label is cut"
    if field.with_standing and not row.rstrip().endswith(field.standing_word(wizard_job(field))):
        yield f"{field.key}: no standing"


def wizard_job(field: Field) -> Job:
    """The job on the screen of a field."""
    screen = field.screen
    assert isinstance(screen, WizardScreen)
    return screen.session.job


def _cut_button(button: Widget, form: Widget) -> Iterator[str]:
    """It stands whole inside its form, and inside what holds it."""
    words, region = str(button.render()).strip(), button.region
    if not words:
        return
    if region.right > form.region.right or region.width < cells(words):
        yield f"{words!r} is cut"
    holder = button.parent
    if isinstance(holder, Widget) and button.virtual_region.bottom > holder.size.height:
        yield f"{words!r} is below what holds it"


async def look(job: Job, sizes: Sizes, home: Path) -> dict[str, list[tuple[int, int]]]:
    """Every fault on every step of a job, with the sizes at which it is one.

    Nothing is painted: only the layout is looked at.
    """
    found: dict[str, list[tuple[int, int]]] = {}
    store = Store(home)
    app = CoilwrightApp(store, Session(store, job, search_seconds=0.0))
    async with driven(app, paint=False, size=sizes[0]) as pilot:
        await settle(pilot)
        for size in sizes:
            # A size at a time: another one may have every widget styled anew.
            await pilot.resize_terminal(*size)
            for step in STEPS:
                await wizard(app).go(step.key)
                await pilot.rest()
                for fault in faults(wizard(app)):
                    found.setdefault(f"{step.key}: {fault}", []).append(size)
    return found


def main() -> int:
    """Print what is cut where; 1 where anything is."""
    heights = tuple(map(int, sys.argv[1:])) or (18, 24)
    sizes = [(width, height) for height in heights for width in range(60, 161)]
    bad = 0
    for name, make in JOBS.items():
        with tempfile.TemporaryDirectory() as home:
            found = asyncio.run(look(make(), sizes, Path(home)))
        bad += len(found)
        for fault, where in found.items():
            print(f"{name}: {fault}, at {len(where)} sizes from {where[0]} to {where[-1]}")
    print(f"{len(sizes)} sizes of {len(STEPS)} steps, {len(JOBS)} jobs: {bad} faults")
    return 1 if bad else 0


if __name__ == "__main__":
    raise SystemExit(main())
