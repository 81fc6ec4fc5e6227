"""How somebody wants the screens: a small file in the data folder, the same for all jobs."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from textual.widget import Widget

from coilwright.store import StoreError, read_text, write_whole

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork

_NAME = "settings.json"
_FORMAT = "coilwright-settings"


def line_work(widget: Widget) -> LineWork:
    """What drawings on a widget are made of."""
    work: LineWork | None = getattr(widget.app, "line_work", None)
    return usual_line_work() if work is None else work


def remembered_theme(folder: Path) -> str | None:
    """The theme chosen last; None where none was, or where the file cannot be read."""
    return _text(folder, "theme")


def remember_theme(folder: Path, theme: str) -> None:
    """Keep the theme for the next time. Raises StoreError."""
    _keep(folder, "theme", theme)


def remembered_line_work(folder: Path) -> LineWork:
    """The line work chosen last; where none was, what this terminal is likely to show."""
    from coilwright.drawing.line_work import LineWork  # the first form is there before a drawing

    wanted = _text(folder, "line_work")
    return LineWork(wanted) if wanted in {work.value for work in LineWork} else usual_line_work()


def remember_line_work(folder: Path, work: LineWork) -> None:
    """Keep the line work for the next time. Raises StoreError."""
    _keep(folder, "line_work", work.value)


def remembered_hand_in(folder: Path) -> Path | None:
    """The folder that was handed in to last: a class on one machine hands in to the same."""
    kept = _text(folder, "hand_in")
    return Path(kept) if kept else None


def remember_hand_in(folder: Path, place: Path) -> None:
    """Keep the folder that was handed in to, to be offered to the next. Raises StoreError."""
    _keep(folder, "hand_in", str(place.absolute()))


def remembered_export(folder: Path) -> Path | None:
    """The folder that a practice job was written to last: all of a class's go to the same."""
    kept = _text(folder, "export")
    return Path(kept) if kept else None


def remember_export(folder: Path, place: Path) -> None:
    """Keep the folder that a practice job was written to. Raises StoreError."""
    _keep(folder, "export", str(place.absolute()))


def usual_line_work() -> LineWork:
    """Braille, which most fonts have; less where the terminal says that it cannot show it."""
    from coilwright.drawing.line_work import LineWork

    encoding = (getattr(sys.__stdout__, "encoding", None) or "utf-8").casefold()
    if not encoding.startswith("utf"):
        return LineWork.ASCII
    return LineWork.BLOCKS if os.environ.get("TERM") == "linux" else LineWork.BRAILLE


def _read(folder: Path) -> dict[str, object]:
    """All settings; none where the file cannot be read."""
    path = folder / _NAME
    if not path.exists():
        return {}
    try:
        data = json.loads(read_text(path))
    except (StoreError, ValueError, RecursionError):
        return {}
    if not isinstance(data, dict) or data.get("format") != _FORMAT:
        return {}
    return data


def _text(folder: Path, name: str) -> str | None:
    value = _read(folder).get(name)
    return value if isinstance(value, str) else None


def _keep(folder: Path, name: str, value: str) -> None:
    kept = {"format": _FORMAT, "version": 1, **_read(folder), name: value}
    write_whole(folder / _NAME, json.dumps(kept, indent=1) + "\n")
