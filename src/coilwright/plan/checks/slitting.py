"""Checks of slitting: masters too narrow for the strip, and trim that costs less beside it."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import slitting
from coilwright.job.answers.coils import MASTERS
from coilwright.plan.checks.view import View, care, note
from coilwright.plan.slitting import _LOOSE
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding

_LEAST_SAVED = 1.0
"""Less than this [lb] is not worth another set-up of the slitter (common practice, no source)."""


def check_slitting(view: View) -> Iterator[Finding]:
    """All checks of the supplier's masters."""
    masters = [
        (number, key, view.figures[key]) for number, key in enumerate(MASTERS, 1)
        if key in view.figures
    ]
    if not masters:
        return
    yield from _narrow(view, masters)
    yield from _trim_beside(view, masters)


def _narrow(view: View, masters: list[tuple[int, str, Figure]]) -> Iterator[Finding]:
    strip, edge = view.value("strip.width"), view.value("coils.edge_trim") or 0.0
    if strip is None:
        return
    narrow = [m for m in masters if strip > m[2].value - edge + _LOOSE]
    say = note if len(narrow) < len(masters) else care
    trimmed = f" less {view.text('coils.edge_trim')} of edge trim" if edge else ""
    for number, key, master in narrow:
        yield say(
            f"slit.narrow{number}",
            f"The strip, {view.text('strip.width')}, is wider than the master, "
            f"{master.text(view.job.units)}{trimmed}.",
            "No strip of that width can be slit from it.",
            "Use a wider master, or a narrower coverage width.",
            slitting.SLIT, key, "coils.edge_trim", "panel.coverage",
        )


def _trim_beside(view: View, masters: list[tuple[int, str, Figure]]) -> Iterator[Finding]:
    """Of the masters that take less metal so, the one that takes the least."""
    saved = [
        (view.figures[f"slit.{number}.beside.mass"].value, number, key, master)
        for number, key, master in masters
        if (view.value(f"slit.{number}.beside.saves") or 0.0) >= _LEAST_SAVED
    ]
    if not saved:
        return
    _, number, key, master = min(saved, key=lambda row: row[:2])
    yield note(
        "slit.beside",
        f"Slit to its girths beside the strip, the trim takes "
        f"{view.text(f'slit.{number}.beside.saves')} less of a {master.text(view.job.units)} "
        "master.",
        "Trim cut from the strip takes strip; slit beside it, it takes what would be lost.",
        "Ask the supplier to slit the girths too and what that costs; to order so, set the "
        "pieces to come from another coil as wide as their girth.",
        slitting.SLIT, key, "coils.edge_trim",
    )
