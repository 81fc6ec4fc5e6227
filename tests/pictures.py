"""`python -m tests.pictures`: take the pictures of real screens that README shows.

The wizard runs on the invented demo jobs in a data folder of its own; what it paints is written
as SVG to demo/screens. Fonts are the reader's own: no picture asks a network for one, or names
one; and no window of any system is drawn around it.
"""

from __future__ import annotations

import asyncio
import contextlib
import re
import tempfile
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from coilwright.job.edit import do_not_know
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs, folder
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.session import Session
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import settle

Move = Callable[[Pilot[Any]], Awaitable[None]]
_WEB_FONT = re.compile(r"@font-face\s*\{[^}]*\}\s*", re.DOTALL)
_WINDOW_BUTTONS = re.compile(
    r'<g transform="translate\(26,22\)">\s*(?:<circle[^>]*>(?:</circle>)?\s*)+</g>')
_NAMED_MONO = re.compile(r"font-family: [^;]+, monospace;")
_NAMED_SANS = re.compile(r"font-family: (?!monospace)[^;]+;")


async def _stay(pilot: Pilot[Any]) -> None:
    await pilot.pause()


async def _open_working(pilot: Pilot[Any]) -> None:
    await pilot.press("f2")
    await pilot.pause()


SHOTS: tuple[tuple[str, str, str, tuple[int, int], str | None, str | None, Move], ...] = (
    ("panel-80x24", "heron-lane-barn", "panel", (80, 24), "panel.take_up", "panel.take_up", _stay),
    ("roof-120x50", "quarry-house-hip", "roof", (120, 50), None, None, _stay),
    ("coils-120x40", "quarry-house-hip", "coils", (120, 40), None, None, _stay),
    ("haul-120x40", "heron-lane-barn", "haul", (120, 40), None, None, _stay),
    ("summary-120x40", "quarry-house-hip", "summary", (120, 40), None, None, _stay),
    ("mistakes-120x40", "mill-row-mistakes", "summary", (120, 40), None, None, _stay),
    ("working-80x24", "heron-lane-barn", "coils", (80, 24), None, "coils.inside_diameter",
     _open_working),
)
"""Name, demo job, step, size, an answer nobody knows, the answer in hand, what is pressed."""


async def take(home: Path) -> None:
    """Take all pictures, with jobs kept in `home`."""
    store = Store(home)
    for name, key, step, size, unknown, in_hand, move in SHOTS:
        job = demo_jobs()[key]
        if unknown is not None:
            job = do_not_know(job, unknown)
        app = CoilwrightApp(store, Session(store, job), step, in_hand)
        async with driven(app, size=size) as pilot:
            await settle(pilot)
            await move(pilot)
            await settle(pilot)
            picture = _WEB_FONT.sub("", app.export_screenshot(title="Coilwright"))
            picture = _WINDOW_BUTTONS.sub("", picture)
            picture = _NAMED_MONO.sub("font-family: monospace;", picture)
            picture = _NAMED_SANS.sub("font-family: sans-serif;", picture)
        place = folder("demo") / "screens" / f"{name}.svg"
        place.parent.mkdir(exist_ok=True)
        place.write_text(picture, "utf-8")
        print(place.name)


def main() -> None:
    """Take the pictures."""
    with tempfile.TemporaryDirectory() as place, contextlib.chdir(place):
        asyncio.run(take(Path("coilwright")))


if __name__ == "__main__":
    main()
