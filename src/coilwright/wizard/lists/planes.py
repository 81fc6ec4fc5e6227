"""Roof planes: what is asked of one, how the list shows them, what may be done. No screens here.

A plane's standing, and what was typed for it and could not be read, lie in the job beside those of
the answers, under `roof.planes.0` and `roof.planes.0.eave`; they move with the plane.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from coilwright.job.answers import Form
from coilwright.job.job import Job
from coilwright.job.roof import Measured, Plane, Shape
from coilwright.job.rows.planes import PLANES as PLACE
from coilwright.job.rows.planes import plane_key, standing_of
from coilwright.plan import plane_changes
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
)
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.measure import Measure, always
from coilwright.wizard.lists.openings import OpeningsAnswer, as_before
from coilwright.wizard.lists.plane_text import found_lines, no_planes, row_findings
from coilwright.wizard.lists.stands import FORM_STANDS, ROW_STANDS, TURN
from coilwright.wizard.lists.typed import LineForm, RowsAnswer, signed_length
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.step_view import plane_drawing
from coilwright.wizard.widgets.columns import at_commas, cells, fit, pad

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.plan import Plan, PlanePlan

_FEET = ("ft", "m")


# -- the rows ------------------------------------------------------------------------------


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
    drawn = {plane.index: plane for plane in plan.planes if plane.index is not None}
    found = [
        Row(plane.number, None, plane.name, f"building {_size(plane, job.units)}",
            plane.area.standing)
        for plane in plan.planes
        if plane.index is None
    ]
    for index, measured in enumerate(job.roof.planes):
        number = job.roof.first_plane + index
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


# -- what is asked -------------------------------------------------------------------------


class CornersAnswer(RowsAnswer):
    """A plane's corners on one line: `0,0; 40 ft,0; 20 ft,18 ft`."""

    rows = LineForm(
        what="Corner", like="40 ft, 0", make=tuple, measured=tuple,
        measures=(signed_length("along", "Along"), signed_length("up", "Up")),
    )


def _shaped(*shapes: Shape) -> Callable[[Job, Plane, str], bool]:
    return lambda _job, plane, _key: plane.shape in shapes


def _length(name: str, label: str, help_line: str, *shapes: Shape, low: float | None = None,
            zero: bool = False, negative: bool = False) -> Measure[Plane]:
    return Measure(name=name, label=label, help=help_line, kind=Kind.LENGTH, bare=_FEET, low=low,
                   high=120_000, zero=zero, negative=negative, applies=_shaped(*shapes))


def _unread(name: str, label: str, help_line: str) -> Measure[Plane]:
    """A length that stands in for a pitch nobody has read: asked while there is none."""
    return Measure(name=name, label=label, help=help_line, kind=Kind.LENGTH, bare=("in", "mm"),
                   low=0, high=12_000, applies=lambda _job, plane, _key: plane.pitch is None,
                   offered=always,
                   unasked="the pitch is given; empty it to measure rise and run instead")


_SIDED = (Shape.RECTANGLE, Shape.TRIANGLE, Shape.TRAPEZOID, Shape.PARALLELOGRAM)
MEASURES: tuple[Measure[Plane], ...] = (
    Measure(name="name", label="Name", form=Form.TEXT, empty="",
            help="What you call it, such as porch or north side."),
    Measure(name="shape", label="Shape", form=Form.CHOICE, choices=tuple(Shape),
            empty=Shape.RECTANGLE,
            help="Corners lets you give any outline, corner by corner."),
    _length("eave", "Eave", "Along the bottom edge, overhangs included.", *_SIDED, low=1),
    _length("top", "Top", "Length along the ridge, the top edge.", Shape.TRAPEZOID, low=0,
            zero=True),
    _length("slope_length", "Slope length",
            "From the eave's edge to ridge or wall, square to it, overhang included.", *_SIDED,
            low=1),
    _length("offset", "Top shifted by",
            "How far right of the eave's left end the top begins; empty: centered.",
            Shape.TRIANGLE, Shape.TRAPEZOID, Shape.PARALLELOGRAM, zero=True, negative=True),
    Measure(name="corners", label="Corners", form=Form.TEXT, spec=CornersAnswer, empty=(),
            table=True, applies=_shaped(Shape.CORNERS),
            help="Along the eave, up; bare: ft or m; in any direction: 0,0; 40,0; 20,18 ft 6 in"),
    Measure(name="measured", label="Measured", form=Form.CHOICE, choices=tuple(Measured),
            empty=Measured.SLOPE,
            help="In plan, level lengths are stretched up the slope by the pitch."),
    Measure(name="pitch", label="Pitch", kind=Kind.PITCH, zero=True, high=240,
            help="Rise in 12 of run, such as 6/12; needed where it was measured in plan."),
    _unread("pitch_rise", "… or rise", "A measured rise; with the run it gives the pitch."),
    _unread("pitch_run", "… over run", "The level run that belongs to the rise or slope."),
    _unread("pitch_slope", "… or slope",
            "Measured up the slope over that run, instead of the rise."),
    Measure(name="alike", label="How many alike", form=Form.COUNT, kind=Kind.COUNT, low=1,
            high=999, empty=1,
            help="Planes of exactly this size and shape, this one counted."),
    Measure(name="openings", label="Openings", form=Form.TEXT, spec=OpeningsAnswer, empty=(),
            table=True,
            help="Left, up, width, height, or its corners x, y in turn; next after ;"),
)


# -- how they are shown --------------------------------------------------------------------


def _line(row: Row) -> Line:
    if row.index is not None:
        return Line(row.index, row.index, row.name, row)
    return Line(("building", row.number), None, row.name, row,
                f"{escape_controls(row.name)} is of the shape above; press b to measure planes one "
                "by one.", f"{escape_controls(row.name)} is of the shape above, and as sure as its "
                "measures there.")


def _lines(opened: JobRows) -> list[Line]:
    return [_line(row) for row in rows(opened.session.job, opened.session.plan)]


def _show(_opened: JobRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    longest = max((cells(escape_controls(line.name)) for line in lines), default=0)
    name = min(max(4, longest), 18 if width < 100 else 30)
    room = width - name - 12
    indent = " " * (name + 6)

    # What kind they are goes first where there is no room: sizes are read.
    low = any(cells(escape_controls(line.row.about)) > room for line in lines)

    def about(row: Row) -> list[str]:
        said = escape_controls(row.about)
        kind, _, sizes = said.partition(" ")
        return at_commas(sizes if low and kind in _KINDS else said, room)

    found: list[Sequence[Part]] = []
    for row in (line.row for line in lines):
        first, *more = about(row)
        found.append((
            f"{row.number:>4} {pad(escape_controls(row.name), name)} ",
            (pad(first, room), "dim"),
            " ", (row.standing.value, STANDING),
            *((f"\n{indent}{fit(said, room)}", "dim") for said in more),
        ))
    return found


_KINDS = {"building", *(shape.value for shape in Shape)}
"""What the words about a plane begin with."""


def _find(lines: Sequence[Line], text: str) -> list[Line]:
    found = found_rows(tuple(line.row for line in lines), text)
    return [line for line in lines if line.row in found]


def _heading(shown: int, every: int) -> str:
    count = f"{shown} of {every}" if shown < every else f"{every}"
    return f" Planes {count} " if every else " Planes "


def _title(opened: JobRows, index: int) -> str:
    line = opened.line(index)
    if line is None:
        return ""
    row: Row = line.row
    return f"{row.name}: {row.about}  ({row.standing.value})"


def _picture(
    opened: JobRows, index: int, width: int, height: int, work: LineWork
) -> list[str]:
    plan = opened.session.plan
    number = next((plane.number for plane in plan.planes if plane.index == index), None)
    return [] if number is None else plane_drawing(plan, width, height, number, work)


# -- what may be done ----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class TakenRows:
    """Planes of a table that were confirmed, and the text that is still to be put right."""

    planes: tuple[Plane, ...]
    left: str


def _mirror(opened: JobRows, line: Line | None) -> Outcome:
    if line is None or line.index is None:
        return Outcome(say=PLANES.no_row if line is None else line.fixed)
    job = plane_changes.mirror(opened.session.job, line.index)
    if not opened.change(job, f"{line.name} mirrored"):
        return Outcome()
    return Outcome(changed=True, mark=line.index, say=f"{escape_controls(line.name)} mirrored")


def _own(opened: JobRows, _line: Line | None) -> Outcome:
    """Make the building's planes ordinary ones, to be changed one by one."""
    job = plane_changes.to_planes(opened.session.job)
    if job is opened.session.job:
        return Outcome(say="The building shape makes no planes yet.")
    if job.roof.building_openings:
        return Outcome(say="An opening lies on none of its faces, so it would be in no plane: say "
                           "in the list of openings on which it lies, or take it out.")
    opened.change(job, "Building turned into planes")
    return Outcome(changed=True, say="Each plane can be changed by itself now.")


def _screen(name: str, *, of_a_plane: bool = False) -> Callable[[JobRows, Line | None], Outcome]:
    return lambda _opened, line: Outcome(screen="" if of_a_plane and line is None else name)


def _closed(opened: JobRows, screen: str, result: Any) -> Outcome:
    """Put planes that were read from a table at the end; the rest of its text is kept."""
    if screen != "rows_in":
        return Outcome(changed=True)
    if not isinstance(result, TakenRows):
        return Outcome()
    opened.kept["table"] = result.left
    if not result.planes:
        return Outcome()
    if full := PLACE.no_room(opened.session.job, len(result.planes)):
        return Outcome(say=full)
    index = len(opened.session.job.roof.planes)
    words = "1 plane" if len(result.planes) == 1 else f"{len(result.planes)} planes"
    opened.change(PLACE.add(opened.session.job, *result.planes), f"{words} from rows")
    return Outcome(changed=True, mark=index, say=f"{words} added; Ctrl+Z takes them out again")


ACTIONS = (
    Action(name="add", keys="a,insert", label="Add plane", tooltip="Measure one more plane",
           word="a add"),
    Action(name="copy", keys="c", label="Copy plane", tooltip="One more plane like this one",
           word="c copy"),
    Action(name="mirror", keys="m", label="Mirror plane", do=_mirror, on_row=True,
           tooltip="Turn the plane left for right", word="m mirror"),
    Action(name="delete", keys="d,delete", label="Delete plane", word="d delete",
           tooltip="Take the plane out; Ctrl+Z brings it back"),
    Action(name="up", keys="u,shift+up", label="Plane up", word="u up",
           tooltip="A place nearer the top of the list"),
    Action(name="down", keys="n,shift+down", label="Plane down", word="n down",
           tooltip="A place nearer the end of the list"),
    Action(name="find", keys="slash,f", label="Find plane", word="/ find",
           tooltip="Part of a name, a shape, a size or a standing"),
    Action(name="zoom", keys="z", label="Draw large", word="z draw large",
           do=_screen("zoom", of_a_plane=True),
           tooltip="The plane as large as the screen allows"),
    Action(name="edges", keys="e", label="Edges", word="e edges",
           do=_screen("edges", of_a_plane=True),
           tooltip="The plane's edges: kinds and true lengths"),
    Action(name="rows_in", keys="p", label="Planes from a table", word="p from a table",
           do=_screen("rows_in"),
           tooltip="Planes from a table, pasted or in a file"),
    Action(name="rows_out", keys="x", label="Planes to a table", word="x to a table",
           do=_screen("rows_out"), tooltip="All planes as a table in a file"),
    Action(name="own", keys="b", label="Measure one by one", word="b measure one by one", do=_own,
           tooltip="The building's planes become measured ones, to be changed one by one"),
    Action(name="all", keys="escape", label="Show all", tooltip="End the search"),
    *ROW_STANDS,
)


def _taken(opened: JobRows, job: Job, index: int) -> Job:
    """The box of a plane's openings has their sizes alone: what else they are stays with them."""
    plane = PLACE.row(job, index)
    if opened.as_opened is None or plane.openings == opened.as_opened.openings:
        return job
    return PLACE.replace(job, index, replace(
        plane, openings=as_before(opened.as_opened.openings, plane.openings, job.units)))


PLANES: RowForm[Plane] = RowForm(
    key="plane",
    place=PLACE,
    measures=MEASURES,
    lines=_lines,
    show=_show,
    actions=ACTIONS,
    name=lambda job, index: (job.roof.planes[index].name
                             or f"Plane {job.roof.first_plane + index}"),
    new=lambda _job: Plane(),
    copied="{name} copied",
    empty=lambda opened: no_planes(opened.session.plan),
    no_row="There is no plane yet; add one.",
    unreadable_is_guess=True,
    heading=_heading,
    bars=(
        (("add", "copy", "mirror", "delete"), ("up", "down", "find")),
        (("zoom", "edges", "rows_in", "rows_out"), ("own",)),
    ),
    tallest=8,
    draws=lambda line: line.row.number,
    find=_find,
    find_hint="find: part of a name, a shape, a size, a standing",
    nothing_found="   no plane has these words; Escape shows all again",
    enter="zoom",
    taken=_taken,
    stands=lambda _opened, line: line.row.standing,
    closed=_closed,
    entry=EntryView(
        title=_title,
        about=lambda opened, index, width: found_lines(
            row_findings(opened.session.plan, PLACE.row_key(index)), width),
        picture=_picture,
        hint="All counts as you type; F3 a guess, F4 sure; Escape closes",
        label_width=18,
        keys=FORM_STANDS,
        buttons=(
            TURN,
            ("zoom", lambda _opened, _index: "Draw large"),
            ("edges", lambda _opened, _index: "Edges"),
        ),
    ),
)
"""The list of planes."""
