"""How the screens look: colors, and what drawings are made of; both kept for the next time.

Each is a screen that asks, and what its answer does.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from textual.app import App

from coilwright.store import StoreError
from coilwright.wizard.screens.base import SizedScreen
from coilwright.wizard.screens.line_work import LineWorkScreen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.settings import remember_line_work
from coilwright.wizard.themes import THEMES

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork

_LINES = "Lines of drawings"


def ask_looks(
    app: App[Any], work: LineWork, lines: Callable[[], None]
) -> tuple[PickScreen, Callable[[str | None], None]]:
    """Pick colors, which show at once.

    work: what drawings are made of; lines: has that picked.
    """
    names = {title.capitalize(): name for name, title in THEMES.items()}
    choices, about = (*names, _LINES), {_LINES: f"now {work.value}"}

    def picked(wanted: str | None) -> None:
        if wanted == _LINES:
            lines()
        elif wanted is not None:
            app.theme = names[wanted]

    now = THEMES[app.theme].capitalize()
    return PickScreen("Looks, for all jobs", choices, now, about=about), picked


def ask_lines(
    app: App[Any], now: LineWork, folder: Path, take: Callable[[LineWork], None]
) -> tuple[LineWorkScreen, Callable[[LineWork | None], None]]:
    """Pick what drawings are made of; those that are shown are drawn anew.

    folder: where it is kept for the next time; take: keeps it until then.
    """
    def picked(work: LineWork | None) -> None:
        if work is None:
            return
        take(work)
        try:
            remember_line_work(folder, work)
        except StoreError as error:
            app.notify(f"The lines are not remembered: {error}", severity="warning",
                       markup=False)
        for screen in app.screen_stack:
            if isinstance(screen, SizedScreen):
                screen.redraw()

    return LineWorkScreen(now), picked
