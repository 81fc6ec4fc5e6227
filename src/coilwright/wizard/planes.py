"""The list of planes: its rows, and which of them a search finds. No screens here.

A plane's standing lies in the job beside those of the answers, under `roof.planes.0`; it moves
with the plane.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coilwright.job.job import Job
from coilwright.job.rows.planes import plane_key, replace, standing_of
from coilwright.units import Kind, System, show
from coilwright.values.standing import Standing

if TYPE_CHECKING:
    from coilwright.plan import Plan, PlanePlan


def unreadable(job: Job, index: int) -> bool:
    """Whether something typed for a plane could not be read."""
    return any(key.startswith(f"{plane_key(index)}.") for key in job.typed)


def with_standing(job: Job, index: int, standing: Standing) -> Job:
    """The job with a plane's measures sure or a guess."""
    return replace(job, index, job.roof.planes[index], standing)


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the list of planes. index is None for a plane the building shape made."""

    number: int
    index: int | None
    name: str
    about: str
    standing: Standing

    def answers_to(self, words: Iterable[str]) -> bool:
        """Whether all words, in small letters, stand somewhere in the row."""
        text = f"{self.number} {self.name} {self.about} {self.standing.value}".casefold()
        return all(word in text for word in words)


def rows(job: Job, plan: Plan) -> tuple[Row, ...]:
    """All planes, those the building shape makes first."""
    # Imported here: the first form is on the screen before any plan is needed.
    from coilwright.plan.roof.building import planes_of

    drawn = {plane.index: plane for plane in plan.planes if plane.index is not None}
    found = [
        Row(plane.number, None, plane.name, f"building {_size(plane, job.units)}",
            plane.area.standing)
        for plane in plan.planes
        if plane.index is None
    ]
    # Counted from the shape, as the plan does: a plane keeps its number while the building still
    # lacks a measure.
    first = max(planes_of(job.roof.building), len(found)) + 1
    for index, measured in enumerate(job.roof.planes):
        number = first + index
        here = drawn.get(index)
        name = measured.name or (here.name if here is not None else f"Plane {number}")
        if here is None:
            about, standing = _because(plan, index, name), Standing.ASK
        else:
            count = len(measured.openings)
            holes = "" if not count else f", {count} opening{'s' if count > 1 else ''}"
            alike = f", {measured.alike} alike" if measured.alike > 1 else ""
            about = f"{measured.shape.value} {_size(here, job.units)}{alike}{holes}"
            standing = standing_of(job, index)
        found.append(Row(number, index, name, about, standing))
    return tuple(found)


def found_rows(rows: tuple[Row, ...], text: str) -> tuple[Row, ...]:
    """The rows a search finds: those with its text in the name, else those with all its words.

    All of them where nothing is searched.
    """
    wanted = " ".join(text.casefold().split())
    named = tuple(row for row in rows if wanted in row.name.casefold())
    return named or tuple(row for row in rows if row.answers_to(wanted.split()))


def row_of(rows: tuple[Row, ...], index: int) -> Row | None:
    """The row of a measured plane."""
    return next((row for row in rows if row.index == index), None)


def _size(plane: PlanePlan, system: System) -> str:
    """A plane's area, how long it is, and how far up the slope, true lengths."""
    from coilwright.drawing.plane_facts import bounds_of

    box = bounds_of(plane.outline)
    along, up = (show(size, Kind.LENGTH, system) for size in (box.width, box.height))
    return f"{plane.area.text(system)}, {along} × {up}"


def _because(plan: Plan, index: int, name: str) -> str:
    """Why a plane is not drawn, without its name."""
    key = plane_key(index)
    for lack in plan.lacks.values():
        if key in lack.needs and lack.because:
            return lack.because.removeprefix(f"{name} ").removeprefix(f"{name}: ")
    return "not drawn yet"
