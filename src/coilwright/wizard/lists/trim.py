"""Trim: what is asked of a piece, and what is done with the list of them. No screens.

What was typed and could not be read lies in the job, under `trim.pieces.0.flat_width`; the piece
then stops the order, see `plan/trim.py`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from enum import StrEnum
from typing import Any

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.answers import Answer, Form
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.roof import OpeningWhat
from coilwright.job.rows import trim as edit_trim
from coilwright.job.rows.trim import PIECES, standing_of
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan.roof.around import around_key
from coilwright.plan.roof.edges import edge_key
from coilwright.units import Kind, show
from coilwright.values.standing import Standing
from coilwright.wizard.lists.form import Action, EntryView, Line, Opened, Outcome, Part, RowForm
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.measure import Measure, always
from coilwright.wizard.lists.stands import FORM_STANDS, ROW_STANDS, TURN
from coilwright.wizard.lists.trim_text import about_piece, nest_lines, piece_row
from coilwright.wizard.lists.typed import AnglesAnswer, NameAnswer, WidthsAnswer
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.words import trim_words

_INCHES, _FEET = ("in", "mm"), ("ft", "m")


# -- what is asked -------------------------------------------------------------------------


class GoesOn(StrEnum):
    """Where a piece goes: on edges or around openings of one kind, or elsewhere."""

    EAVE = "eave"
    RAKE = "rake"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    WALL = "wall"
    BREAK = "pitch break"
    CHIMNEY = "chimney"
    SKYLIGHT = "skylight"
    VENT = "vent"
    OPENING = "opening"
    ELSEWHERE = "elsewhere"


Applies = Callable[[Job, TrimPiece, str], bool]


def _by_legs(job: Job, piece: TrimPiece, key: str) -> bool:
    typed = any(f"{key}.{name}" in job.typed for name in ("legs", "hems"))
    return piece.flat_width is None or bool(piece.legs or piece.hems) or typed


def _bent(job: Job, piece: TrimPiece, key: str) -> bool:
    return _by_legs(job, piece, key) and (
        piece.radius is not None or bool(piece.angles)
        or any(f"{key}.{name}" in job.typed for name in ("radius", "angles")))


def _bent_elsewhere(job: Job, piece: TrimPiece, key: str) -> bool:
    return _bent(job, piece, key) and piece.made_from is not TrimFrom.PANEL_COIL


def _other_coil(_job: Job, piece: TrimPiece, _key: str) -> bool:
    return piece.made_from is TrimFrom.OTHER_COIL


def _size(name: str, label: str, help_line: str, kind: Kind, high: float, *,
          zero: bool = False, applies: Applies | None = None, **more: Any) -> Measure[TrimPiece]:
    """A measure of one size."""
    return Measure(name=name, label=label, help=help_line, kind=kind,
                   bare=_FEET if kind is Kind.LENGTH else _INCHES, high=high, zero=zero,
                   applies=applies, more=trim_words(name), **more)


def _several(name: str, label: str, help_line: str, spec: type[Answer],
             applies: Applies, unasked: str) -> Measure[TrimPiece]:
    return Measure(name=name, label=label, help=help_line, form=Form.TEXT, spec=spec, empty=(),
                   applies=applies, more=trim_words(name), offered=always, unasked=unasked)


def _goes_on(piece: TrimPiece) -> GoesOn:
    return GoesOn(piece.goes_on)


def _put_on(piece: TrimPiece, on: GoesOn | None) -> TrimPiece:
    word = "" if on is None else on.value
    kind = next((kind for kind in EdgeKind if kind.value == word), None)
    around = next((what for what in OpeningWhat if what.noun == word), None)
    return dataclasses.replace(piece, kind=kind, around=around)


_GIVEN = "the flat width is given; empty it to add up legs and hems instead"
_NO_RADIUS = "no bend radius; asked once one is given"
MEASURES: tuple[Measure[TrimPiece], ...] = (
    Measure(name="name", label="Name", form=Form.TEXT, spec=NameAnswer, empty="Trim",
            help="What you call it at the brake, such as ridge cap."),
    Measure(name="kind", label="Goes on", form=Form.CHOICE, choices=tuple(GoesOn), get=_goes_on,
            put=_put_on,
            help="Its length is then that of all such edges, or around all such openings."),
    Measure(name="made_from", label="Cut from", form=Form.CHOICE, choices=tuple(TrimFrom),
            empty=TrimFrom.PANEL_COIL,
            help="From the panel coil it adds to the order of coil."),
    _size("width", "Other coil: width", "How wide that other coil is.", Kind.WIDTH, 100,
          applies=_other_coil),
    _size("flat_width", "Flat width",
          "Width of the blank before it is bent. Empty: by its legs and hems.", Kind.WIDTH, 100),
    _several("legs", "… or its legs", "Leg by leg, semicolons between, such as 3; 5 1/2; 1.",
             WidthsAnswer, _by_legs, _GIVEN),
    _several("hems", "… and hems", "Hem by hem; a double hem is two of them.", WidthsAnswer,
             _by_legs, _GIVEN),
    _size("radius", "Inside bend radius",
          "Empty: bends are left out. Given: legs are measured outside.", Kind.WIDTH, 12,
          zero=True, applies=_by_legs, offered=always, unasked=_GIVEN),
    _several("angles", "… bend angles",
             "Degrees from flat, a bend each: 90; 45. Empty: all right angles.", AnglesAnswer,
             _bent, _NO_RADIUS),
    _size("thickness", "… metal thickness", "Thickness of the metal this piece is cut from.",
          Kind.THICKNESS, 0.25, applies=_bent_elsewhere, offered=always, unasked=_NO_RADIUS),
    _size("length", "Length", "Length to cover. Empty: that of all it goes on, as measured.",
          Kind.LENGTH, 120_000),
    Measure(name="runs", label="… in equal runs", form=Form.COUNT, kind=Kind.COUNT, low=1,
            high=1000, empty=1, applies=lambda _job, piece, _key: piece.length is not None,
            offered=always, unasked="no length here; asked once the length is given",
            help="Eight rakes are eight runs, each with its own laps and last piece."),
    _size("lap", "Own lap", "Where it laps by other than the step's own lap.", Kind.WIDTH, 24,
          zero=True),
    _size("blank", "Own blank length", "Where it is bent in lengths other than the step's.",
          Kind.LENGTH, 600),
)


# -- the list ------------------------------------------------------------------------------


def _lines(opened: JobRows) -> list[Line]:
    return [Line(index, index, piece.name)
            for index, piece in enumerate(opened.session.job.trim.pieces)]


def _show(opened: JobRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    return [(piece_row(opened.session.plan, line.index or 0, width),) for line in lines]


def _nests(session: Session, width: int) -> list[str]:
    """By metal, how the rows are cut and what is left, for whoever stands at the brake."""
    return [
        line for number, nest in enumerate(session.plan.nests)
        for line in (*([""] if number else []), *nest_lines(session.plan, nest, width))
    ]


def _for_edges(opened: JobRows, _line: Line | None) -> Outcome:
    """A piece for each kind of edge or opening that the roof has and no piece goes on."""
    job, figures = opened.session.job, opened.session.plan.figures
    lengths = {kind: figures[key].value for kind in EdgeKind
               if (key := edge_key(kind)) in figures}
    around = {what: figures[key].value for what in OpeningWhat
              if (key := around_key(what)) in figures}
    made = edit_trim.missing_pieces(job, lengths, around)
    if not made:
        return Outcome(say="Every kind of edge and of opening has its piece." if lengths
                       else "The roof has no edges yet; measure it first.")
    first, now = len(job.trim.pieces), PIECES.add(job, *made)
    for index in range(first, first + len(made)):
        now, _said = _usual_width(PIECES.with_standing(now, index, Standing.GUESS), index)
    names = ", ".join(piece.name for piece in made)
    opened.change(now, f"Trim for every edge and opening: {names}")
    return Outcome(changed=True, mark=first,
                   say=f"Added: {names}. Their flat widths are usual ones, guesses: Enter opens "
                       "a piece to change it.")


def _usual_width(job: Job, index: int) -> tuple[Job, str]:
    """The job with a usual flat width of a piece that has none, and words on it."""
    width = edit_trim.usual_width(job, index)
    if width is None:
        return job, ""
    said = f"Flat width {show(width, Kind.WIDTH, job.units)}: usual, so a guess."
    piece = dataclasses.replace(PIECES.row(job, index), flat_width=width)
    return PIECES.replace(job, index, piece), said


def _width_typed(opened: JobRows, job: Job, index: int) -> Job:
    """A piece is sure once another flat width was typed: the usual one was what it guessed."""
    before = PIECES.row(opened.session.job, index).flat_width
    now = PIECES.row(job, index).flat_width
    return job if now in (None, before) else PIECES.with_standing(job, index, Standing.SURE)


def _all_from(made_from: TrimFrom) -> Callable[[JobRows, Line | None], Outcome]:
    """What cuts every piece from one metal."""
    def do(opened: JobRows, line: Line | None) -> Outcome:
        job = opened.session.job
        if not job.trim.pieces:
            return Outcome(say="There is no piece yet; a adds one.")
        opened.change(edit_trim.all_from(job, made_from), f"All trim from {made_from}")
        needs = made_from is TrimFrom.OTHER_COIL and any(
            piece.width is None for piece in opened.session.job.trim.pieces)
        more = " Each still needs that coil's width." if needs else ""
        return Outcome(changed=True, mark=None if line is None else line.key,
                       say=f"Every piece is cut from {made_from} now.{more}")

    return do


def _all_sure(opened: JobRows, line: Line | None) -> Outcome:
    """Every piece is sure that has its flat width; one that lacks it is no more than a wish."""
    job = opened.session.job
    if not job.trim.pieces:
        return Outcome(say="There is no piece yet; a adds one.")
    lack = []
    for index, piece in enumerate(job.trim.pieces):
        if piece.flat_width is not None or piece.legs:
            job = PIECES.with_standing(job, index, Standing.SURE)
        else:
            lack.append(escape_controls(piece.name))
    if job == opened.session.job:
        return Outcome(say=f"Nothing to make sure: {', '.join(lack)} has no flat width yet."
                       if lack else "Every piece is sure already.")
    opened.change(job, "All trim sure")
    said = f"All but {', '.join(lack)} are" if lack else "Every piece is"
    return Outcome(changed=True, mark=None if line is None else line.key,
                   say=f"{said} sure now, as measured; Ctrl+Z takes it back.")


def _called(job: Job, index: int) -> str:
    return escape_controls(job.trim.pieces[index].name)


def _title(opened: JobRows, index: int) -> str:
    job = opened.session.job
    return f"{_called(job, index)}  ({standing_of(job, index).value})"


def _instead(rows: Opened) -> str:
    session = rows.session
    assert session is not None
    if session.job.job.trim_in_house is YesNo.NO:
        return "    none wanted: trim is bought (Job step)"
    todo = ["Enter on a piece: its width flat, and what it is cut from."]
    if not session.plan.planes:
        todo.insert(0, "First the roof, step 2: its edges say how long each piece is.")
    return "\n".join(("    none yet: a adds one, e one for each edge and opening",
                      *(f"    {number}  {one}" for number, one in enumerate(todo, 1))))


TRIM: RowForm[TrimPiece] = RowForm(
    key="trim",
    place=PIECES,
    measures=MEASURES,
    lines=_lines,
    show=_show,
    actions=(
        Action(name="add", keys="a,insert", label="Add piece", tooltip="One more piece",
               word="a add"),
        Action(name="edges", keys="e", label="For every edge", word="e one for every edge",
               tooltip="A piece for each kind of edge and of opening that has none yet",
               do=_for_edges),
        Action(name="sheets", keys="s", label="All from flat sheet", word="s all from flat sheet",
               tooltip="Every piece is cut from flat sheet", do=_all_from(TrimFrom.FLAT_SHEET)),
        Action(name="panels", keys="p", label="All from panel coil", word="p panel coil",
               tooltip="Every piece is cut from the panel coil",
               do=_all_from(TrimFrom.PANEL_COIL)),
        Action(name="others", keys="o", label="All from other coil", word="o other coil",
               tooltip="Every piece is cut from another coil",
               do=_all_from(TrimFrom.OTHER_COIL)),
        Action(name="copy", keys="c", label="Copy piece", word="c copy",
               tooltip="One more piece like this one"),
        Action(name="delete", keys="d,delete", label="Delete piece", word="d delete",
               tooltip="Take the piece out; Ctrl+Z brings it back"),
        Action(name="turn", keys="g", label="Guess or sure", word="g guess/sure",
               tooltip="Its measures are a guess, or sure again"),
        Action(name="all_sure", keys="y", label="All sure", word="y all sure", do=_all_sure,
               tooltip="The measures of every piece are sure"),
        *ROW_STANDS,
    ),
    name=_called,
    new=lambda job: TrimPiece(name=f"Trim {len(job.trim.pieces) + 1}"),
    empty=_instead,
    no_row="There is no piece yet; a adds one.",
    heading=lambda _shown, _all: " Pieces ",
    bars=((("add", "edges"), ("copy", "delete", "turn")),
          (("sheets", "panels", "others"), ("all_sure",))),
    guessed=_usual_width,
    taken=_width_typed,
    tallest=9,
    below=_nests,
    below_title="Blanks, row by row",
    entry=EntryView(
        title=_title,
        about=lambda opened, index, _width: about_piece(opened.session.plan, index),
        hint="All counts as you type; F3 a guess, F4 sure; Ctrl+Z undoes; Escape closes",
        keys=(
            *FORM_STANDS,
            Action(name="undo", keys="ctrl+z", label="Undo",
                   tooltip="Take the last change back"),
        ),
        buttons=(TURN,),
    ),
)
"""The list of pieces of trim."""
