"""What the wizard remembers beside the jobs: the theme. A small file in the data folder."""

from __future__ import annotations

import json
from pathlib import Path

from coilwright.store import StoreError, read_text, write_whole

_NAME = "settings.json"
_FORMAT = "coilwright-settings"


def remembered_theme(folder: Path) -> str | None:
    """The theme chosen last; None where none was, or where the file cannot be read."""
    path = folder / _NAME
    if not path.exists():
        return None
    try:
        data = json.loads(read_text(path))
    except (StoreError, ValueError, RecursionError):
        return None
    if not isinstance(data, dict) or data.get("format") != _FORMAT:
        return None
    theme = data.get("theme")
    return theme if isinstance(theme, str) else None


def remember_theme(folder: Path, theme: str) -> None:
    """Keep the theme for the next time. Raises StoreError."""
    text = json.dumps({"format": _FORMAT, "version": 1, "theme": theme}, indent=1)
    write_whole(folder / _NAME, text + "\n")
