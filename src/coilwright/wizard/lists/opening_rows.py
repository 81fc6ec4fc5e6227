"""Openings of the whole roof in one list, each in labeled boxes. No screens here.

Those in the faces of a building lie in the job by themselves and name their face; those in a plane
that was measured lie in the plane, and move with it.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from coilwright.job.job import Job
from coilwright.job.roof import (
    MeasuredTo,
    Opening,
    OpeningMeasured,
    OpeningWhat,
    Plane,
)
from coilwright.job.rows.place import RowPlace
from coilwright.job.rows.planes import PLANES
from coilwright.units import Kind, System, show
from coilwright.values.standing import Standing
from coilwright.wizard.lists.form import (
    STANDING,
    Action,
    EntryView,
    Line,
    Outcome,
    Part,
    RowForm,
    Screens,
)
from coilwright.wizard.lists.from_left import where_zero_is
from coilwright.wizard.lists.job_rows import JobRowEntry, JobRows
from coilwright.wizard.lists.level_height import level_height
from coilwright.wizard.lists.opening_measures import MEASURES
from coilwright.wizard.lists.opening_places import FACES, in_plane
from coilwright.wizard.lists.openings import split_sizes
from coilwright.wizard.lists.plane_text import found_lines, row_findings
from coilwright.wizard.lists.stands import FORM_STANDS, ROW_STANDS, TURN
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import plane_drawing
from coilwright.wizard.widgets.columns import at_commas, cells, fit, pad

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.plan import PlanePlan


def _has_faces(job: Job) -> bool:
    return job.roof.building is not None and bool(job.roof.building.faces)


@dataclass(frozen=True, slots=True)
class _Spot:
    """An opening's place: the list it lies in, and where in that. plane: the measured plane."""

    place: RowPlace[Opening]
    index: int
    opening: Opening
    plane: int | None


def _spots(job: Job) -> list[_Spot]:
    """All openings, those of a building first."""
    found: list[_Spot] = []
    if _has_faces(job):
        found += [_Spot(FACES, at, one, None) for at, one in enumerate(job.roof.building_openings)]
    for plane, measured in enumerate(job.roof.planes):
        found += [_Spot(in_plane(plane), at, one, plane)
                  for at, one in enumerate(measured.openings)]
    return found


# -- how they are shown --------------------------------------------------------------------


def words_of(opening: Opening, system: System) -> str:
    """Size and place of an opening on one line, or what it still needs."""
    if opening.missing:
        return f"still needs: {', '.join(opening.missing)}"

    def said(size: float | None) -> str:
        return show(size or 0.0, Kind.LENGTH, system)

    to = " to its middle" if opening.to is MeasuredTo.MIDDLE else ""
    row = f", {opening.count} of them" if opening.count > 1 else ""
    shape = f", {len(opening.corners)} corners" if opening.corners else ""
    what = "" if opening.what is OpeningWhat.OTHER else f"{opening.what} "
    level, placed = _IN_PLAN[opening.measured]
    return (f"{what}{said(opening.width)} × {said(opening.height)}{level}, "
            f"{said(opening.left)} from left, {said(opening.up)} up{to}{placed}{row}{shape}")


_IN_PLAN = {
    OpeningMeasured.SLOPE: ("", ""), OpeningMeasured.HEIGHT_IN_PLAN: (" in plan", ""),
    OpeningMeasured.PLAN: (" in plan", " in plan"),
}
"""What is said behind its size and behind its place."""


def _plane_name(job: Job, spot: _Spot) -> str:
    if spot.plane is None:
        return spot.opening.on or "no face"
    measured: Plane = job.roof.planes[spot.plane]
    return measured.name or f"Measured plane {spot.plane + 1}"


def _standing(job: Job, spot: _Spot) -> Standing:
    """How sure it is. One that lacks a size is still asked, however sure the others are: it holds
    the order anyway.
    """
    stands = spot.place.standing(job, spot.index)
    return Standing.ASK if spot.opening.missing and stands is Standing.SURE else stands


def _number(opened: JobRows, spot: _Spot) -> int | None:
    """The number of the plane an opening lies on."""
    return next((plane.number for plane in opened.session.plan.planes
                 if (plane.index == spot.plane if spot.plane is not None
                     else plane.index is None and plane.name == spot.opening.on)), None)


def _lines(opened: JobRows) -> list[Line]:
    job = opened.session.job
    return [
        Line((spot.place.key, spot.index), at, f"Opening {spot.index + 1} on "
             f"{_plane_name(job, spot)}", spot)
        for at, spot in enumerate(_spots(job))
    ]


def _show(opened: JobRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    job = opened.session.job
    found: list[Sequence[Part]] = []
    longest = max((cells(_plane_name(job, line.row)) for line in lines), default=0)
    wide = min(longest, 18 if width < 100 else 30)
    for line in lines:
        spot: _Spot = line.row
        number, standing = _number(opened, spot), _standing(job, spot)
        plane = pad(escape_controls(_plane_name(job, spot)), wide)
        name = f"{'?' if number is None else number:>4} {plane}  "
        room = max(10, width - wide - 13)
        first, *more = at_commas(words_of(spot.opening, job.units), room)
        found.append((
            name, (pad(first, room), "dim"),
            " ", (standing.value, STANDING),
            *((f"\n{' ' * (wide + 7)}{fit(said, room)}", "dim") for said in more)))
    return found


def _heading(_shown: int, every: int) -> str:
    return f" Openings {every} " if every else " Openings "


def _title(opened: JobRows, index: int) -> str:
    spot = _spot_in(opened, index)
    if spot is None:
        return ""
    job, standing = opened.session.job, _standing(opened.session.job, spot)
    stands = "" if standing is Standing.ASK else f"  ({standing.value})"
    return (f"Opening {spot.index + 1} on {_plane_name(job, spot)}: "
            f"{words_of(spot.opening, job.units)}{stands}")


def _spot_in(opened: JobRows, index: int) -> _Spot | None:
    """An opening by its place in the list that is open."""
    return next((spot for spot in _spots(opened.session.job)
                 if spot.place.key == opened.place.key and spot.index == index), None)


def _about(opened: JobRows, index: int, width: int) -> list[str]:
    """What is found of it, once it is measured: until then the title says what it needs; and where
    0 is.
    """
    spot = _spot_in(opened, index)
    if spot is None:
        return []
    found = row_findings(opened.session.plan, spot.place.row_key(index))
    if spot.plane is not None:  # an opening that reaches out of its plane keeps it from being drawn
        plane = row_findings(opened.session.plan, PLANES.row_key(spot.plane))
        found = [f for f in plane if f.key.endswith(".outline") or f in found]
    plan, number = opened.session.plan, _number(opened, spot)
    told = [f for f in found if not (spot.opening.missing and f.key.endswith(".opening"))]
    from_left = [] if spot.opening.corners else where_zero_is(plan, number, width)
    return [*found_lines(told, width), *level_height(plan, number, spot.opening), *from_left]


def _picture(
    opened: JobRows, index: int, width: int, height: int, work: LineWork
) -> list[str]:
    spot = _spot_in(opened, index)
    number = None if spot is None else _number(opened, spot)
    if number is None:
        return []
    return plane_drawing(opened.session.plan, width, height, number, work, zero=True)


ACTIONS = (
    Action(name="add", keys="a,insert", label="Add opening", word="a add",
           tooltip="A chimney, a skylight, a vent"),
    Action(name="copy", keys="c", label="Copy opening", tooltip="One more like this one",
           word="c copy"),
    Action(name="delete", keys="d,delete", label="Delete opening", word="d delete",
           tooltip="Take the opening out; Ctrl+Z brings it back"),
    *ROW_STANDS,
)

OPENINGS: RowForm[Opening] = RowForm(
    key="opening",
    place=FACES,
    measures=MEASURES,
    lines=_lines,
    show=_show,
    actions=ACTIONS,
    name=lambda _job, index: f"Opening {index + 1}",
    added="{name} added",
    copied="{name} copied",
    empty="   none: Enter adds a chimney, a skylight, a vent",
    no_row="There is no opening yet; add one.",
    heading=_heading,
    bars=((("add", "copy", "delete"),),),
    tallest=6,
    split=split_sizes,
    stands=lambda opened, line: _standing(opened.session.job, line.row),
    entry=EntryView(
        title=_title,
        about=_about,
        picture=_picture,
        hint="All counts as you type; F3 a guess, F4 sure; Escape closes",
        label_width=16,
        keys=FORM_STANDS,
        buttons=(TURN,),
    ),
)
"""The list of openings."""


class OpeningRows(JobRows):
    """All openings of a roof, opened: each is changed in the list it lies in."""

    def __init__(
        self, form: RowForm[Any], session: Session, screens: Screens | None = None
    ) -> None:
        super().__init__(form, session, screens)
        self._lists: dict[str, JobRows] = {}
        """Those they lie in, by their keys: each knows what a key has just done to a row of it."""

    def do(self, name: str, line: Line | None) -> Outcome:
        """Do an action with the marked line, as it is now."""
        line = self.now(line)
        if name == "add" or (name == "open" and line is None):
            return self._add()
        if line is None or line.index is None:
            return super().do(name, line)
        spot: _Spot = line.row
        return self._here(spot.place, self._in(spot.place).do_now(
            name, dataclasses.replace(line, index=spot.index)))

    def entry(self, index: int) -> JobRowEntry:
        """The form of an opening."""
        spot = next(iter(_spots(self.session.job)[index:]), None)
        if spot is None:  # taken back meanwhile: the form closes at once
            return JobRowEntry(self, len(self.place.get(self.session.job)))
        return JobRowEntry(self._in(spot.place), spot.index)

    def _in(self, place: RowPlace[Opening]) -> JobRows:
        """The list an opening lies in, opened."""
        for key, other in self._lists.items():
            if key != place.key:
                other.doubted = None
        here = JobRows(dataclasses.replace(self.form, place=place), self.session)
        return self._lists.setdefault(place.key, here)

    def _here(self, place: RowPlace[Opening], outcome: Outcome) -> Outcome:
        """What came of an action in one of the lists, as it is in all of them."""
        def at(index: int | None) -> int | None:
            return None if index is None else next(
                (at for at, spot in enumerate(_spots(self.session.job))
                 if spot.place.key == place.key and spot.index == index), None)

        mark = outcome.mark
        return dataclasses.replace(
            outcome, entry=at(outcome.entry),
            mark=(place.key, mark) if isinstance(mark, int) else mark)

    def closed(self, screen: str, result: Any) -> Outcome:
        """A screen was closed: an opening is added to the plane that was picked."""
        if screen != WHICH_PLANE:
            return super().closed(screen, result)
        picked = [plane for plane in self.session.plan.planes if in_list(plane) == result]
        return self._add_to(picked[0]) if picked else Outcome()

    def _add(self) -> Outcome:
        """A new opening: in the plane there is, or in the one that is picked."""
        job, planes = self.session.job, self.session.plan.planes
        if len(planes) > 1:
            return Outcome(screen=WHICH_PLANE)
        if planes:
            return self._add_to(planes[0])
        if _has_faces(job):
            return Outcome(say="The building lacks a measure; openings come when it is drawn.")
        return Outcome(say="An opening lies in a plane: measure one first, or say what the "
                           "building is.")

    def _add_to(self, plane: PlanePlan) -> Outcome:
        """A new opening in a plane, its form open."""
        place, on = (FACES, plane.name) if plane.index is None else (in_plane(plane.index), "")
        job, index = self.session.job, len(place.get(self.session.job))
        self.session.choose_plane(plane.number)
        self.change(place.add(job, Opening(on=on)), f"Opening {index + 1} added")
        return self._here(place, Outcome(changed=True, mark=index, entry=index))


WHICH_PLANE = "which_plane"
"""The screen on which the plane of a new opening is picked."""


def in_list(plane: PlanePlan) -> str:
    """A plane as it is picked: by its number in the drawings, and its name."""
    return f"{plane.number} {plane.name}"
