"""A line of what follows from a row, which begins with how heavy a finding is."""

from __future__ import annotations

from textual.content import Content

from coilwright.wizard.widgets.results import LEVELS


def weighed_line(line: str) -> Content:
    """A line of what follows; the word that says how heavy a finding is stands out."""
    for level, color in LEVELS.items():
        word = level.value.upper()
        if line.startswith(f"{word} "):
            return Content.assemble((word, f"bold {color}"), line.removeprefix(word))
    return Content(line)
