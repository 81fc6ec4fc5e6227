"""Saving a job's sheets into a folder."""

from __future__ import annotations

from pathlib import Path

from coilwright.plan import Plan
from coilwright.sheets import KINDS, sheet_files
from coilwright.store import slug, write_whole


def save_sheets(plan: Plan, folder: Path, kinds: tuple[str, ...] = ()) -> tuple[Path, ...]:
    """Write sheets as Markdown and HTML, CSV where they have rows, text for an e-mail; the paths.

    Raises StoreError.

    kinds: which; without any, every sheet. A sheet saved before under the same name is replaced
    by what the job says now.
    """
    saved = []
    for name, text in sheet_files(plan, kinds):
        path = folder / f"{slug(plan.job.title)}-{name}"
        write_whole(path, text)
        saved.append(path)
    return tuple(saved)


def saved_words(saved: tuple[Path, ...], folder: Path) -> str:
    """What was saved, short enough to leave the screen readable: which sheets, how many files."""
    stems = [f"{path.stem}-" for path in saved]
    kinds = [kind for kind in KINDS if any(f"-{kind}-" in stem for stem in stems)]
    forms = ", ".join(dict.fromkeys(path.suffix.lstrip(".") for path in saved))
    return f"{len(saved)} files ({forms}) in {folder}: {', '.join(kinds)}"
