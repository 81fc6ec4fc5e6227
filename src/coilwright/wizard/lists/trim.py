"""Trim: what is asked of a piece, how the list shows them, blanks as they are cut. No screens.

What was typed and could not be read lies in the job, under `trim.pieces.0.flat_width`; the piece
then stops the order, see `plan/trim.py`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.answers import Answer, Form
from coilwright.job.job import Job
from coilwright.job.rows import trim as edit_trim
from coilwright.job.rows.trim import PIECES, standing_of
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.units import Kind, show
from coilwright.values.standing import Standing
from coilwright.wizard.lists.form import (
    Action,
    EntryView,
    Line,
    Measure,
    Outcome,
    Part,
    RowForm,
    always,
)
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.typed import AnglesAnswer, NameAnswer, WidthsAnswer
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.columns import cells, fit, pad
from coilwright.words.counting import counted, noun

if TYPE_CHECKING:
    from coilwright.plan import Plan, TrimNest

_INCHES, _FEET = ("in", "mm"), ("ft", "m")


# -- what is asked -------------------------------------------------------------------------


class GoesOn(StrEnum):
    """Where a piece goes: on edges of one kind, whose length it then has, or elsewhere."""

    EAVE = "eave"
    RAKE = "rake"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    WALL = "wall"
    BREAK = "pitch break"
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
    return Measure(name=name, label=label, help=help_line, kind=kind,
                   bare=_FEET if kind is Kind.LENGTH else _INCHES, high=high, zero=zero,
                   applies=applies, **more)


def _several(name: str, label: str, help_line: str, spec: type[Answer],
             applies: Applies, unasked: str) -> Measure[TrimPiece]:
    return Measure(name=name, label=label, help=help_line, form=Form.TEXT, spec=spec, empty=(),
                   applies=applies, offered=always, unasked=unasked)


def _goes_on(piece: TrimPiece) -> GoesOn:
    return GoesOn(piece.kind.value) if piece.kind else GoesOn.ELSEWHERE


def _put_on(piece: TrimPiece, on: GoesOn | None) -> TrimPiece:
    kind = None if on in (None, GoesOn.ELSEWHERE) else EdgeKind(on.value)
    return dataclasses.replace(piece, kind=kind)


_GIVEN = "the flat width is given; empty it to add up legs and hems instead"
_NO_RADIUS = "no bend radius; asked once one is given"
MEASURES: tuple[Measure[TrimPiece], ...] = (
    Measure(name="name", label="Name", form=Form.TEXT, spec=NameAnswer, empty="Trim",
            help="What you call it at the brake, such as ridge cap."),
    Measure(name="kind", label="Goes on", form=Form.CHOICE, choices=tuple(GoesOn), get=_goes_on,
            put=_put_on, help="On an edge, its length is that of all such edges of the roof."),
    Measure(name="made_from", label="Cut from", form=Form.CHOICE, choices=tuple(TrimFrom),
            empty=TrimFrom.PANEL_COIL,
            help="From the panel coil it adds to the order of coil."),
    _size("width", "Other coil: width", "How wide that other coil is.", Kind.WIDTH, 100,
          applies=_other_coil),
    _size("flat_width", "Flat width", "Width of the flat blank. Empty: by its legs and hems below.",
          Kind.WIDTH, 100),
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
    _size("length", "Length", "Length to cover. Empty: that of the roof's edges of this kind.",
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


# -- in lines of text ----------------------------------------------------------------------


_ONE_LINE = 74
"""Cells a piece takes on one line."""


def on_text(piece: TrimPiece) -> str:
    """Where a piece goes, in a word."""
    return str(piece.kind) if piece.kind else "elsewhere"


def piece_row(plan: Plan, index: int, width: int) -> str:
    """One piece on a line, or two where there is little room.

    Name, where, flat width, pieces, metal; a piece that is a guess says so first.
    """
    piece, system = plan.job.trim.pieces[index], plan.job.units
    guess = standing_of(plan.job, index) is not Standing.SURE
    named = f"guess: {escape_controls(piece.name)}" if guess else escape_controls(piece.name)
    name = pad(named, 15 if width < 100 else 30)
    row = next((r for r in plan.trim if r.number == index + 1), None)
    if row is not None:
        mark = row.count.mark or " "
        size = (
            f"{pad(f'{row.flat_width.mark}{row.flat_width.text(system)} flat', 15)} {mark}"
            f"{pad(f'{row.count.text(system)} of {row.blank.text(system)}', 16)}"
        )
    else:
        size = pad(why_not(plan, index), 33)
    if width < _ONE_LINE:
        head = f"{index + 1:>3} {pad(named, 20)} {pad(on_text(piece), 11)} "
        return f"{fit(head + piece.made_from, width)}\n{fit(f'      {size}', width)}"
    return fit(f"{index + 1:>3} {name} {pad(on_text(piece), 9)} {size} {piece.made_from}", width)


def why_not(plan: Plan, index: int) -> str:
    """Why a piece has no blanks yet, in a few words."""
    piece, key = plan.job.trim.pieces[index], f"trim.{index + 1}"
    if any(f.key == f"{key}.none" for f in plan.findings):
        return f"the roof has no {piece.kind}"
    if any(typed.startswith(f"trim.pieces.{index}.") for typed in plan.job.typed):
        return "unclear: open it"
    if piece.flat_width is None and not piece.legs:
        return "flat width is missing"
    if any(f.key == f"{key}.cannot" for f in plan.findings):
        return "cannot be made so: open it"
    lack = plan.lacks.get(f"{key}.count")
    return "length is missing" if lack is not None and not lack.needs else "waits for answers"


def about_piece(plan: Plan, index: int) -> list[str]:
    """What follows from a piece's measures, or the finding on it."""
    key, system = f"trim.{index + 1}", plan.job.units
    for finding in plan.findings:
        if finding.key in (f"{key}.cannot", f"{key}.none"):
            return [f"{finding.level.value.upper()} {finding.what} {finding.do}"]
    row = next((r for r in plan.trim if r.number == index + 1), None)
    if row is None:
        lack = plan.lacks.get(f"{key}.count")
        if lack is not None and lack.because:
            return [f"Not yet: {lack.because}."]
        return ["Its blanks wait for answers that are still open."]
    piece = row.piece
    length = plan.figures.get(f"{key}.length") or plan.figures.get(
        f"edges.{piece.kind.name.lower()}" if piece.kind else "")
    cover = f" cover {length.text(system)}" if length is not None else ""
    pieces = noun(row.count.value, "piece")
    said = (
        f"{row.count.mark}{row.count.text(system)} {pieces} of {row.blank.text(system)}{cover}; "
        f"flat width {row.flat_width.mark}{row.flat_width.text(system)}; blanks "
        f"{row.area.mark}{row.area.text(system)}."
    )
    lines = [said]
    if piece.flat_width is not None and (piece.legs or piece.hems):
        lines.append("The flat width that is given counts; its legs and hems do not.")
    elif (plain := plan.figures.get(f"{key}.plain")) is not None:
        lines += [
            f"Legs and hems added up: {plain.text(system)}. With its bends: "
            f"{row.flat_width.mark}{row.flat_width.text(system)}.",
            "Bend one and measure it before the rest is cut: brakes differ.",
        ]
    return lines


def nest_lines(plan: Plan, nest: TrimNest, width: int) -> list[str]:
    """One metal: how many sheets or rows, what each row is cut into, and what is left."""
    system, pieces = plan.job.units, plan.job.trim.pieces
    rows = (f"{nest.rows.mark}{nest.rows.text(system)} {noun(nest.rows.value, 'row')} of "
            f"{nest.blank.text(system)}")
    if nest.sheets is not None:
        along = plan.figures[f"{nest.key}.along"].text(system)
        sheets = f"{nest.sheets.text(system)} {noun(nest.sheets.value, 'sheet')}"
        many = f"{nest.sheets.mark}{sheets}, rows from each: {along}"
    else:
        many = f"{nest.length.mark}{nest.length.text(system)} of coil"
    drop = f"{nest.drop.mark}{nest.drop.text(system)}"
    proof = "fewer rows cannot do" if nest.proven else f"{counted(nest.bound, 'row')} at least"
    lines = [
        fit(f"{nest.made_from}, {nest.width.text(system)} wide: {rows}", width),
        *_wrapped("  ", [f"{many};", f"drop {drop};", proof], "", width, " "),
    ]
    flat_widths = {
        row.number: f"{row.flat_width.mark}{row.flat_width.text(system)}" for row in plan.trim
    }
    for pattern in nest.patterns:
        left = f"{show(pattern.drop, Kind.WIDTH, system)} drop"
        if pattern.length < nest.blank.value:
            left += f", the row {show(pattern.length, Kind.LENGTH, system)} long"
        cuts = [
            f"{count} × {flat_widths[number]} {escape_controls(pieces[number - 1].name)}"
            for number, count in pattern.across
        ]
        times = "1 row: " if pattern.times == 1 else f"{pattern.times} rows: "
        lines.extend(_wrapped(f"  {times:<9}", cuts, f"; {left}", width, " + "))
    return lines


def _wrapped(head: str, parts: list[str], tail: str, width: int, sign: str) -> list[str]:
    """Parts on as many lines as it takes: nobody cuts from a line that is cut short."""
    room = width - len(sign.rstrip()) - 1
    lines, now = [], head + parts[0]
    # What is left over may stand on a line of its own too.
    left = [said for said in tail.replace(", ", "\n, ").split("\n") if said]
    more = [*((sign, part) for part in parts[1:]),
            *((f"{said[0]} ", said[1:].strip()) for said in left)]
    for between, part in more:
        if cells(now + between + part) > room:
            lines.append(now + between.rstrip())
            now = " " * len(head) + part
        else:
            now += between + part
    return [fit(line, width) for line in (*lines, now)]


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
    """A piece for each kind of edge that the roof has and no piece goes on."""
    job, figures = opened.session.job, opened.session.plan.figures
    lengths = {
        kind: figures[key].value for kind in EdgeKind
        if (key := f"edges.{kind.name.lower()}") in figures
    }
    kinds = edit_trim.missing_kinds(job, lengths)
    if not kinds:
        return Outcome(say="Every kind of edge has its piece." if lengths
                       else "The roof has no edges yet; measure it first.")
    made = [TrimPiece(name=edit_trim.NAMES[kind], kind=kind) for kind in kinds]
    names = ", ".join(piece.name for piece in made)
    opened.change(PIECES.add(job, *made), f"Trim for every edge: {names}")
    return Outcome(changed=True, mark=len(job.trim.pieces),
                   say=f"Added: {names}. Each still needs its flat width.")


def _called(job: Job, index: int) -> str:
    return escape_controls(job.trim.pieces[index].name)


def _title(opened: JobRows, index: int) -> str:
    job = opened.session.job
    return f"{_called(job, index)}  ({standing_of(job, index).value})"


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
               tooltip="A piece for each kind of edge that has none yet", do=_for_edges),
        Action(name="copy", keys="c", label="Copy piece", word="c copy",
               tooltip="One more piece like this one"),
        Action(name="delete", keys="d,delete", label="Delete piece", word="d delete",
               tooltip="Take the piece out; Ctrl+Z brings it back"),
        Action(name="turn", keys="g", label="Guess or sure", word="g guess",
               tooltip="Its measures are a guess, or sure again"),
        Action(name="guess", keys="f3", label="It is a guess",
               tooltip="The piece's measures are a guess"),
        Action(name="sure", keys="f4", label="Confirm", tooltip="The piece's measures are sure"),
    ),
    name=_called,
    new=lambda job: TrimPiece(name=f"Trim {len(job.trim.pieces) + 1}"),
    empty="    none yet: a adds a piece, e one for each kind of edge",
    no_row="There is no piece yet; a adds one.",
    heading=lambda _shown, _all: " Pieces ",
    bars=((("add", "edges"), ("copy", "delete", "turn")),),
    tallest=9,
    below=_nests,
    below_title="Blanks, row by row",
    entry=EntryView(
        title=_title,
        about=lambda opened, index, _width: about_piece(opened.session.plan, index),
        hint="All counts as you type; F3 a guess, F4 sure; Ctrl+Z undoes; Escape closes",
        keys=(
            Action(name="guess", keys="f3", label="It is a guess",
                   tooltip="These measures are a guess"),
            Action(name="sure", keys="f4", label="Confirm", tooltip="These measures are sure"),
            Action(name="undo", keys="ctrl+z", label="Undo",
                   tooltip="Take the last change back"),
        ),
    ),
)
"""The list of pieces of trim."""
