"""`python -m tests.pictures`: take the pictures of real screens that README shows.

The wizard runs on the invented demo jobs in a data folder of its own; what it paints is written
as SVG to demo/screens. Fonts are the reader's own: no picture asks a network for one.
"""

from __future__ import annotations

import asyncio
import re
import tempfile
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from coilwright.edit import do_not_know
from coilwright.shipped import demo_jobs, folder
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.session import Session

Move = Callable[[Pilot[Any]], Awaitable[None]]
_WEB_FONT = re.compile(r"@font-face\s*\{[^}]*\}\s*", re.DOTALL)


async def _stay(pilot: Pilot[Any]) -> None:
    await pilot.pause()


async def _open_working(pilot: Pilot[Any]) -> None:
    await pilot.press("f2")
    await pilot.pause()


SHOTS: tuple[tuple[str, str, str, tuple[int, int], str | None, str | None, Move], ...] = (
    ("panel-80x24", "heron-lane-barn", "panel", (80, 24), "panel.take_up", "panel.take_up", _stay),
    ("roof-120x40", "quarry-house-hip", "roof", (120, 40), None, None, _stay),
    ("coils-120x40", "quarry-house-hip", "coils", (120, 40), None, None, _stay),
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
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            await app.workers.wait_for_complete()
            await pilot.pause(0.3)
            await move(pilot)
            await pilot.pause(0.2)
            picture = _WEB_FONT.sub("", app.export_screenshot(title="Coilwright"))
        place = folder("demo") / "screens" / f"{name}.svg"
        place.parent.mkdir(exist_ok=True)
        place.write_text(picture, "utf-8")
        print(place.name)


def main() -> None:
    """Take the pictures."""
    with tempfile.TemporaryDirectory() as home:
        asyncio.run(take(Path(home)))


if __name__ == "__main__":
    main()
