"""`python -m tests.key_counts`: how many keys two jobs take, from the list of jobs to the sheets.

Scripted journeys through the real wizard, key by key; nothing is pasted. Letters are what stands in
boxes; all else (arrows, Enter, function keys, letters that are commands) is a control key.
"""

from __future__ import annotations

import asyncio
import tempfile
from collections.abc import Mapping
from pathlib import Path

from coilwright.job.steps import STEPS
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.widgets.choice import ChoiceBox
from coilwright.wizard.widgets.field import Field
from tests.wizard.pilot import SteadyPilot, driven
from tests.wizard.wizard_driving import READY, job_of, settle, wizard

SIZE = (120, 40)

NEWCOMER: dict[str, str] = {
    "job.name": "Mill Lane", "job.engineered": "no", "job.salt_water": "no",
    "job.trim_in_house": "yes",
    "roof.building": "L with a valley", "roof.length": "42", "roof.width": "26",
    "roof.eave_overhang": "1 ft", "roof.rake_overhang": "0", "roof.pitch": "6",
    "roof.wing_projection": "14", "roof.wing_width": "20", "roof.wing_left": "4",
    "metal.metal": "steel", "metal.coating": "AZ50", "metal.thickness": "0.0236",
    "metal.finish": "PVDF 70 %", "metal.color": "slate", "metal.color_confirmed": "yes",
    "metal.painted_side": "outside of the coil", "metal.touching": "nothing unlike it",
    "panel.seam": "double-lock", "panel.leg": "2", "panel.coverage": "16",
}
"""What a newcomer knows, as short as the wizard reads it; of all else F3 makes a guess."""
CHIMNEY = {"left": "10", "up": "4", "width": "2", "height": "3"}


class Counted:
    """Presses keys and counts them."""

    def __init__(self, pilot: SteadyPilot) -> None:
        self.pilot = pilot
        self.letters = self.control = 0

    @property
    def keys(self) -> int:
        """All of them."""
        return self.letters + self.control

    async def press(self, *keys: str) -> None:
        """Keys that do something."""
        self.control += len(keys)
        await self.pilot.press(*keys)

    async def type(self, text: str) -> None:
        """Letters of a text."""
        self.letters += len(text)
        await self.pilot.press(*text)

    async def answer(self, field: Field, text: str) -> None:
        """Answer a field and go on to the next."""
        box = field.box
        if not isinstance(box, ChoiceBox):
            await self.type(text)
            await self.press("enter")
            return
        picks = list(box.choices)
        if sum(len(pick) + 2 for pick in picks) <= box.size.width:
            before = picks.index(box.value) if box.value in picks else -1
            await self.press(*(["right"] * (picks.index(text) - before)))
        else:
            # Enter lists them; letters jump.
            letters = next(
                text[:n] for n in range(1, len(text) + 1)
                if sum(pick.casefold().startswith(text[:n].casefold()) for pick in picks) == 1)
            await self.press("enter")
            await self.type(letters)
            await self.press("enter")
        await self.press("down")


async def newcomer(app: CoilwrightApp, counted: Counted) -> None:
    """From an empty list of jobs to the sheets: every answer met in order, known or a guess."""
    await counted.press("enter")
    for step in STEPS[:-1]:
        if step.key in ("haul", "quotes"):
            await counted.press("ctrl+n")
            continue
        if step.key == "machine":
            await counted.press("enter", "enter")  # pick a machine: the first example
        if step.key == "panel":
            await counted.press("enter", "enter")  # its first profile
            while wizard(app).focused_field() is None:
                await counted.press("down")
        await _form(app, counted, NEWCOMER)
        if step.key == "roof":
            await _chimney(app, counted)
        if step.key == "trim":
            await _to_list(app, counted, "trim")
            await counted.press("e")  # a piece for every edge
        await counted.press("ctrl+n")
    await counted.press("s")


async def _form(app: CoilwrightApp, counted: Counted, known: Mapping[str, str]) -> None:
    """Every field of the form that asks something, in order."""
    met: set[str] = set()
    while (field := wizard(app).focused_field()) is not None and field.key not in met:
        met.add(field.key)
        asks = field.standing_word(wizard(app).session.job) == "ask"
        if field.key in known:
            await counted.answer(field, known[field.key])
        elif asks:
            await counted.press("f3", "down")
        else:
            await counted.press("down")


async def _to_list(app: CoilwrightApp, counted: Counted, key: str) -> None:
    """On to a list of rows on the step."""
    for block in wizard(app).form.query(RowsBlock):
        if block.form.key == key:
            while app.focused is None or block not in app.focused.ancestors:
                await counted.press("tab")
            return
    raise AssertionError(key)


async def _chimney(app: CoilwrightApp, counted: Counted) -> None:
    """A chimney, by its measures from the left and up from the eave."""
    await _to_list(app, counted, "opening")
    await counted.press("a", "enter")  # on the first plane
    met: set[str] = set()
    while isinstance(app.screen, EntryScreen):
        field = app.screen.here()
        if field is None or field.key in met:
            break
        met.add(field.key)
        name = field.key.rpartition(".")[2]
        if name in CHIMNEY:
            await counted.answer(field, CHIMNEY[name])
        else:
            await counted.press("down")
    await counted.press("escape")


async def expert(counted: Counted) -> None:
    """A second job like an old one: another name, roof and color, then the sheets."""
    await counted.press("down", "l")  # the old job, one like it
    await counted.type("Second barn")
    await counted.press("ctrl+n", "down")
    for text in ("54 ft", "36 ft"):
        await counted.type(text)
        await counted.press("enter")
    await counted.press("ctrl+g")
    await counted.type("color")
    await counted.press("enter")
    await counted.type("rust (invented)")
    await counted.press("f9", "s")


async def count(journey: str, home: Path) -> Counted:
    """The keys of a journey, and what it came to checked."""
    store = Store(home)
    if journey == "expert":
        store.create(job_of(READY))
    app = CoilwrightApp(store)
    async with driven(app, paint=False, size=SIZE) as pilot:
        await settle(pilot)
        counted = Counted(pilot)
        await (expert(counted) if journey == "expert" else newcomer(app, counted))
        await settle(pilot)
        plan = wizard(app).session.plan
        assert plan.coils, plan.lacks
        if journey == "newcomer":
            assert plan.job.roof.building_openings or any(p.openings for p in plan.job.roof.planes)
            assert plan.job.trim.pieces
        assert list(store.sheets_folder.glob("*order*")), "no sheet was saved"
        if journey == "expert":
            job = plan.job
            assert job.title == "Second barn"
            assert job.roof.length == 54 * 12.0
            assert job.metal.color == "rust (invented)"
    return counted


def main() -> None:
    """Print both."""
    for journey in ("newcomer", "expert"):
        with tempfile.TemporaryDirectory() as home:
            counted = asyncio.run(count(journey, Path(home)))
        print(f"{journey}: {counted.keys} keys, {counted.control} of them control keys, "
              f"{counted.letters} letters")


if __name__ == "__main__":
    main()
