"""Saving a job's sheets into a folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.store import slug, write_whole

if TYPE_CHECKING:
    from coilwright.plan import Plan


def save_sheets(plan: Plan, folder: Path, kinds: tuple[str, ...] = ()) -> tuple[Path, ...]:
    """Write sheets as Markdown and HTML, and as CSV where they have rows; the paths.

    Raises StoreError.

    kinds: which; without any, every sheet. A sheet saved before under the same name is replaced
    by what the job says now.
    """
    from coilwright.sheets import KINDS, render

    saved = []
    for kind in kinds or KINDS:
        for form in ("md", "html", *(("csv",) if KINDS[kind].rows else ())):
            path = folder / f"{slug(plan.job.title)}-{kind}.{form}"
            write_whole(path, render(kind, plan, form))
            saved.append(path)
    return tuple(saved)


def saved_words(saved: tuple[Path, ...], folder: Path) -> str:
    """What was saved, short enough to leave the screen readable: which sheets, how many files."""
    kinds = tuple(dict.fromkeys(path.stem.rpartition("-")[2] for path in saved))
    forms = ", ".join(dict.fromkeys(path.suffix.lstrip(".") for path in saved))
    return f"{len(saved)} files ({forms}) in {folder}: {', '.join(kinds)}"
