"""Panels that are shorter than the machine forms: cut by hand from a longer one."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.answers.machine import MachineKey
from coilwright.job.job import Job
from coilwright.plan.view import View, care, note
from coilwright.units import Kind, System
from coilwright.values.finding import Finding
from coilwright.values.source import PLATE
from coilwright.words.counting import listed

_USUAL, _USUAL_IN_METRIC = 36.0, 1 / 0.0254
"""Shortest panel of many machines [in] (common practice, no source)."""
_LOOSE = 1e-6
_WHY = ("A piece that lets go of the last driven rolls before the next ones have it stops in the "
        "machine, and a hand that reaches for it is caught.")
_DO = ("Form one panel as long as several of them together, or longer, and cut them off it by hand "
       "on the bench. Never push or pull a piece through; stop and lock the drive before a hand "
       "goes near rolls or shear.")


def shortest_formed(job: Job) -> float:
    """The shortest panel the machine forms [in], as its maker says; else what is usual."""
    said = job.machine.shortest_panel
    if said is not None:
        return said
    return _USUAL if job.units is System.US else _USUAL_IN_METRIC


def is_too_short(job: Job, length: float) -> bool:
    """Whether a panel of this length [in] is shorter than the machine forms, as far as known."""
    return length < shortest_formed(job) - _LOOSE


def check_shortest(view: View) -> Iterator[Finding]:
    """Panels that are too short for the machine, or may be while its shortest is not known."""
    short = [(group.length, group.count, plane.name) for plane in view.planes
             for group in plane.groups if is_too_short(view.job, group.length)]
    if not short:
        return
    count = sum(many for _, many, _ in short)
    names = list(dict.fromkeys(name for _, _, name in short))
    on = listed(names)
    many = "1 panel is" if count == 1 else f"{count:,} panels are"
    limit = view.say(shortest_formed(view.job), Kind.LENGTH)
    least = view.say(min(length for length, _, _ in short), Kind.LENGTH)
    down = f"down to {least}, on {on}" if count > 1 else f"{least}, on {on}"
    if view.job.machine.shortest_panel is None:
        yield note(
            "panel.short", f"{many} shorter than {limit}: {down}. Many machines form none so "
            "short.", _WHY, f"Ask the machine's maker for its shortest panel. {_DO}",
            sources.TRADE, MachineKey.SHORTEST_PANEL, step="machine")
        return
    yield care(
        "panel.short", f"{many} shorter than the {limit} the machine forms: {down}.", _WHY, _DO,
        PLATE, MachineKey.SHORTEST_PANEL, step="machine")
