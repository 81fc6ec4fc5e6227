"""Where each job was left: step and answer, in a small file beside the jobs; where sheets go."""

from __future__ import annotations

import json
from contextlib import suppress
from pathlib import Path
from typing import Any

from textual.screen import Screen
from textual.widgets import Input

from coilwright.job.answers import ANSWERS, step_of
from coilwright.job.steps import STEPS
from coilwright.store import StoreError, read_text, write_whole
from coilwright.store.files import named_path
from coilwright.wizard.session import Session

_NAME = "places.json"
_FORMAT = "coilwright-places"
_MOST = 200
"""So many jobs, the ones left last, are remembered."""


def recall(folder: Path, job: Path) -> tuple[str, str | None]:
    """The step a job was left at and the answer on it; the first step where nothing is known."""
    at = _read(folder).get(str(job.absolute()), "")
    step = step_of(at)
    if step not in {s.key for s in STEPS}:
        return STEPS[0].key, None
    return step, at if at in ANSWERS else None


def remember(session: Session, place: str) -> None:
    """Keep where a job is left, where that can be written. place: an answer's key, or a step's."""
    if session.path is None:
        return
    folder, name = session.store.folder, str(session.path.absolute())
    places = _read(folder)
    places.pop(name, None)
    places[name] = place
    kept = dict(list(places.items())[-_MOST:])
    text = json.dumps({"format": _FORMAT, "version": 1, "places": kept}, indent=1)
    with suppress(StoreError):  # it is only a convenience
        write_whole(folder / _NAME, text + "\n")


def _read(folder: Path) -> dict[str, str]:
    """All places; none where the file cannot be read: it is only a convenience."""
    try:
        data = json.loads(read_text(folder / _NAME)) if (folder / _NAME).is_file() else {}
    except (StoreError, ValueError, RecursionError, OSError):
        return {}
    if not isinstance(data, dict) or data.get("format") != _FORMAT:
        return {}
    places = data.get("places")
    if not isinstance(places, dict):
        return {}
    return {str(k): v for k, v in places.items() if isinstance(v, str)}


def sheets_folder(screen: Screen[Any], usual: Path) -> Path:
    """Where sheets are saved: the folder that is named on a screen, or the usual one. Raises
    StoreError for a name that none can have."""
    boxes = screen.query("#sheets-folder").results(Input)
    named = next((box.value.strip() for box in boxes), "")
    return named_path(named) if named else usual
