"""Trim: the flat width of each piece, how many, and their blanks nested across the metal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import trim as calc
from coilwright.calc.roof import shapes
from coilwright.calc.sources import TRADE
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.trim import TrimKey
from coilwright.job.choices import YesNo
from coilwright.job.trim import TrimFrom, TrimPiece, piece_key
from coilwright.plan.ledger import Lack, Lacking, Ledger, Term, known, require
from coilwright.plan.result import TrimNest, TrimRow
from coilwright.plan.roof.around import Around, around_key
from coilwright.plan.roof.edges import Runs, edge_key
from coilwright.plan.trim_nests import metal_of, nest_rows
from coilwright.plan.trim_short import Ways, sliver_findings, without_slivers
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import FigureKey, Key, part_of, row_key
from coilwright.values.source import ANSWER, STAND_IN
from coilwright.values.standing import Standing
from coilwright.words.counting import counted

_LOOSE = 1e-6

_SQUARE = 90.0
"""What a bend turns the sheet through where no angle is given [degrees]."""
_ROUNDING = 1e-9
_DIGITS = 6
"""Digits of an inch to which two blanks are of one length."""


class CannotMake(Exception):
    """A piece cannot be made as it is described: what, why, what to do, a sentence each.

    answers: of the step, where they would change it; else what is changed is the piece.
    """

    def __init__(self, what: str, why: str, do: str, *answers: str) -> None:
        super().__init__(what)
        self.what = what
        self.why = why
        self.do = do
        self.answers = answers


def enter_trim(
    ledger: Ledger, runs: Runs, around: Around
) -> tuple[tuple[TrimRow, ...], tuple[TrimNest, ...], list[Finding]]:
    """Enter every piece's count and blanks, and nest them on the metal they are cut from.

    runs, around: the roof's edges and its openings one by one; each has its own laps and its own
    last piece. A piece that cannot be made says why in a finding and is left out of the nesting.
    """
    rows: list[TrimRow] = []
    findings: list[Finding] = []
    for number, piece in enumerate(ledger.job.trim.pieces, 1):
        ways = _ways(piece, runs, around)
        try:
            row, finding = _row(ledger, number, piece, without_slivers(piece, ways))
        except CannotMake as error:
            row, finding = None, Finding(
                Level.STOP, f"trim.{number}.cannot", error.what, error.why, error.do, calc.NESTED,
                "trim", error.answers or (piece_key(number - 1),))
        if finding is not None:
            findings.append(finding)
        if row is not None:
            rows.append(row)
            findings.extend(sliver_findings(ledger, row, ways))
    nests: list[TrimNest] = []
    for metal in dict.fromkeys(metal_of(ledger, row) for row in rows):
        together = [row for row in rows if metal_of(ledger, row) == metal]
        made = nest_rows(ledger, f"trim.nest{len(nests) + 1}", together)
        nests.append(made)
    from_coil = [n for n in nests if n.made_from is TrimFrom.PANEL_COIL]
    if not ledger.job.trim.pieces and ledger.job.job.trim_in_house is YesNo.YES:
        findings.append(_no_pieces())
    if from_coil:
        ledger.put(Key.TRIM_FROM_COIL, "Trim cut from the panel coil, end to end",
                   shapes.summed_length, *(n.length for n in from_coil))
    return tuple(rows), tuple(nests), findings


def _ways(piece: TrimPiece, runs: Runs, around: Around) -> Ways:
    if piece.around is not None:
        return around.get(piece.around, ())
    return () if piece.kind is None else runs.get(piece.kind, ())


def _no_pieces() -> Finding:
    return Finding(
        # That nothing is there yet is an open answer; why it matters stands where it is given.
        Level.NOTE, "trim.no_pieces", "Trim is made in-house, and no piece is listed on Trim yet.",
        "Metal for trim is bought with the panels; bought later it is of another production "
        "lot, and may "
        "cost a delivery of its own.",
        "List the pieces, or say that trim is bought.", TRADE, "trim",
        # No answer of its own: who has just said that trim is made has not come to its list yet.
        (),
    )


def _row(
    ledger: Ledger, number: int, piece: TrimPiece, ways: Ways
) -> tuple[TrimRow | None, Finding | None]:
    """The row of one piece, or None while something is missing; and a word on it where needed.

    Raises CannotMake.
    """
    key, system = row_key("trim", number), ledger.job.units
    own = piece_key(number - 1)
    length = _length(ledger, number, piece)
    flat_width = enter_flat_width(ledger, number, piece)
    if (unread := _unread(ledger, number)) is not None:
        raise CannotMake(f"What was typed for “{piece.name}” cannot be read: {unread}.",
                         "Nothing may stand in for it without a word.",
                         "Open the piece and write it again.")
    lap = _own(ledger, number, "lap", piece.lap, Kind.WIDTH)
    blank = _own(ledger, number, "blank", piece.blank, Kind.LENGTH)
    width = _width(ledger, number, piece)
    if flat_width is None:
        raise CannotMake(f"“{piece.name}” has no flat width.", "Without it no blank can be cut.",
                         "Give the flat width, or its legs and hems.")
    if width is None:
        raise CannotMake(f"“{piece.name}” comes from another coil of unknown width.",
                         "Its blanks cannot be nested.", "Give that coil's width.")
    try:
        lap, blank = require(lap, blank)
    except Lacking as lacking:
        ledger.lack(part_of(key, "count"), f"{piece.name}: pieces", lacking.needs, lacking.because)
        return None, _left_out(key, piece, known(lap) is None, known(blank) is None,
                               lacking.needs)
    if blank.value <= lap.value:
        raise CannotMake(
            f"“{piece.name}” is {blank.text(system)} long and laps {lap.text(system)}.",
            "A piece must be longer than its lap, or it covers nothing.",
            "Make the lap shorter or the blank longer.",
            *(key for key, own in ((TrimKey.LAP, piece.lap), (TrimKey.BLANK, piece.blank))
              if own is None))
    run = known(length)
    if run is not None and run.value <= _LOOSE:
        return None, Finding(
            Level.NOTE, f"{key}.none", f"“{piece.name}” is not needed: the roof has no "
            f"{piece.goes_on}.", "Its length is taken from what it goes on.",
            "Take it off the list, or type its length.", calc.LAPPED_RUN, "trim", (TrimKey.LAP,))
    try:
        length, width, flat_width = require(length, width, flat_width)
    except Lacking as lacking:
        ledger.lack(part_of(key, "count"), f"{piece.name}: pieces", lacking.needs, lacking.because)
        return None, None
    counts, cuts, sizes = [], [], dict[float, int]()
    for each, many, one in _runs(ledger, number, piece, length, lap, ways):
        n = ledger.put(f"{one}.pieces", f"{piece.name}: pieces of one run", calc.pieces, each, lap,
                       blank, picks=(own,))
        last = ledger.put(f"{one}.last", f"{piece.name}: last blank of the run", calc.last_blank,
                          each, n, lap, blank)
        counts.append(ledger.put(f"{one}.all", f"{piece.name}: pieces of runs alike",
                                 calc.pieces_of_runs, n, many))
        cuts.append(ledger.put(f"{one}.cut", f"{piece.name}: blanks of runs alike, end to end",
                               calc.cut_length, each, n, lap, many))
        for size, times in ((blank.value, n.value - 1), (last.value, 1)):
            if times:
                size = round(min(size, blank.value), _DIGITS)
                sizes[size] = sizes.get(size, 0) + int(times * many.value)
    count = ledger.put(part_of(key, "count"), f"{piece.name}: pieces", calc.all_pieces, *counts)
    cut = ledger.put(
        part_of(key, "cut"), f"{piece.name}: blanks end to end", shapes.summed_length, *cuts
    )
    _refuse_too_large(ledger, piece, flat_width, width, blank)
    area = ledger.put(part_of(key, "area"), f"{piece.name}: area of the blanks", calc.blanks_area,
                      cut, flat_width)
    return TrimRow(number=number, piece=piece, flat_width=flat_width, width=width, blank=blank,
                   count=count, cut=cut, area=area,
                   sizes=tuple(sorted(sizes.items(), reverse=True))), None


def _runs(
    ledger: Ledger, number: int, piece: TrimPiece, length: Figure, lap: Figure, ways: Ways
) -> Iterator[tuple[Figure, Figure, str]]:
    """The runs a piece goes on: length, how many alike, and what their figures' keys begin with.

    length: all of them together. Each side of an opening is a run, and laps the next at its corner.
    """
    key = row_key("trim", number, "run")
    if piece.length is not None or piece.goes_elsewhere:
        runs = given(ledger, number, "runs", "runs", float(piece.runs), Kind.COUNT)
        each = length if piece.runs == 1 else ledger.put(
            f"{key}1.length", f"{piece.name}: one run", calc.equal_run, length, runs)
        yield each, runs, f"{key}1"
        return
    for place, (each_value, many) in enumerate(ways, 1):
        on_edge = piece.around is None
        note = ("an edge of the roof; one that two planes share counts once" if on_edge
                else "a side of an opening")
        each = ledger.drawn(f"{key}{place}.{'length' if on_edge else 'side'}",
                            f"{piece.name}: {'run' if on_edge else 'side'} {place}", each_value,
                            Kind.LENGTH, length.standing, note)
        yield (
            each if on_edge else ledger.put(
                f"{key}{place}.length", f"{piece.name}: run {place}", calc.side_run, each, lap),
            ledger.drawn(f"{key}{place}.count", f"{piece.name}: runs like run {place}",
                         float(many), Kind.COUNT, length.standing, note),
            f"{key}{place}",
        )


def _refuse_too_large(
    ledger: Ledger, piece: TrimPiece, flat_width: Figure, width: Figure, blank: Figure
) -> None:
    """Raise CannotMake for a blank that does not come out of its metal."""
    system = ledger.job.units
    if flat_width.value > width.value + _LOOSE:
        raise CannotMake(
            f"“{piece.name}” has a flat width of {flat_width.text(system)}; the {piece.made_from} "
            f"is {width.text(system)} wide.", "A blank wider than its metal cannot be cut.",
            "Cut it from wider metal, or make it of two pieces.",
            *((TrimKey.SHEET_WIDTH,) if piece.made_from is TrimFrom.FLAT_SHEET else ()))
    if piece.made_from is TrimFrom.FLAT_SHEET:
        sheet = ledger.given(TrimKey.SHEET_LENGTH)
        if sheet is not None and blank.value > sheet.value + _LOOSE:
            raise CannotMake(
                f"Blanks of {blank.text(system)} are longer than the flat sheets, which are "
                f"{sheet.text(system)}: “{piece.name}”.",
                "A blank longer than its sheet cannot be cut.",
                "Make the blank shorter, or use longer sheets.",
                TrimKey.SHEET_LENGTH, *((TrimKey.BLANK,) if piece.blank is None else ()))


def _unread(ledger: Ledger, number: int) -> str | None:
    """What was typed for a piece and waits to be read, if there is any."""
    typed = ledger.job.typed
    return next((f"“{typed[key]}”" for key in typed
                 if key.startswith(f"{piece_key(number - 1)}.")), None)


def _left_out(
    key: str, piece: TrimPiece, no_lap: bool, no_blank: bool, needs: tuple[str, ...]
) -> Finding | None:
    """That the order is still without a piece, where it is cut from the panel coil."""
    if piece.made_from is not TrimFrom.PANEL_COIL:
        return None
    waits = ["its lap"] * no_lap + ["the length of its blanks"] * no_blank
    unknown = " and ".join(waits)
    return Finding(
        Level.CARE, f"{key}.left_out",
        f"“{piece.name}” is not in the order yet: {unknown} {'are' if len(waits) > 1 else 'is'} "
        "not known.",
        "It is to be cut from the panel coil, so the order comes out too small without it.",
        f"Give {unknown}.", calc.LAPPED_RUN, "trim", needs)


def _own(
    ledger: Ledger, number: int, name: str, value: float | None, kind: Kind
) -> Term:
    """A piece's own lap or blank, or that of the step."""
    if value is None:
        return ledger.answer(f"trim.{name}")
    return given(ledger, number, name, name, value, kind)


def _length(ledger: Ledger, number: int, piece: TrimPiece) -> Term:
    if piece.length is not None:
        return given(ledger, number, "length", "length", piece.length, Kind.LENGTH)
    covered = covered_key(piece)
    if covered is None:
        return Lack(row_key("trim", number, "length"), f"{piece.name}: length", (),
                    f"“{piece.name}” goes on no edge and has no length of its own")
    return ledger.got(covered)


def covered_key(piece: TrimPiece) -> FigureKey | None:
    """The key of the length of all that a piece goes on or around; None where it goes elsewhere."""
    if piece.around is not None:
        return around_key(piece.around)
    return None if piece.kind is None else edge_key(piece.kind)


def _width(ledger: Ledger, number: int, piece: TrimPiece) -> Term | None:
    match piece.made_from:
        case TrimFrom.PANEL_COIL:
            return ledger.got(Key.STRIP_WIDTH)
        case TrimFrom.FLAT_SHEET:
            return ledger.answer(TrimKey.SHEET_WIDTH)
        case TrimFrom.OTHER_COIL:
            if piece.width is None:
                return None
            return given(ledger, number, "width", "the other coil's width", piece.width,
                         Kind.WIDTH)
        case _:
            assert_never(piece.made_from)


def _standing(ledger: Ledger, number: int) -> Standing:
    """How far the measures of the piece of this number, from 1, can be trusted."""
    return Standing.GUESS if ledger.guessed(piece_key(number - 1)) else Standing.SURE


def given(
    ledger: Ledger, number: int, name: str, label: str, value: float, kind: Kind, note: str = ""
) -> Figure:
    """Enter a measure of a piece, as far to be trusted as the piece itself."""
    piece = ledger.job.trim.pieces[number - 1]
    standing = _standing(ledger, number)
    source = ANSWER if standing is Standing.SURE else STAND_IN
    return ledger.add(Figure(f"trim.{number}.{name}", f"{piece.name}: {label}", value, kind,
                             source, standing, note=note))


def enter_flat_width(ledger: Ledger, number: int, piece: TrimPiece) -> Term | None:
    """Enter the flat width of the piece of this number; None where nothing says what it is.

    With a bend radius the legs are measured outside, to the mold lines: what a bend takes
    there is taken off, and the sheet it needs is put in. Raises CannotMake.
    """
    key = row_key("trim", number)
    if piece.flat_width is not None:
        return given(ledger, number, "flat_width", "flat width", piece.flat_width, Kind.WIDTH)
    if not piece.legs:
        return None
    legs, hems = (
        [
            given(ledger, number, f"{part}{n}", f"{part} {n}", width, Kind.WIDTH)
            for n, width in enumerate(widths, 1)
        ]
        for part, widths in (("leg", piece.legs), ("hem", piece.hems))
    )
    if piece.radius is None or len(legs) < 2:
        return ledger.put(part_of(key, "flat_width"), f"{piece.name}: flat width", calc.flat_width,
                          *legs, *hems)
    ledger.put(part_of(key, "plain"), f"{piece.name}: legs and hems added up", calc.flat_width,
               *legs, *hems)
    parts = _developed(ledger, number, piece, legs, piece.radius)
    return ledger.put(part_of(key, "flat_width"), f"{piece.name}: flat width, bends counted",
                      calc.developed_width, *parts, *hems)


def _developed(
    ledger: Ledger, number: int, piece: TrimPiece, legs: list[Figure], inside: float
) -> list[Term]:
    """Flats and what the bends take, in the order they lie in on the sheet."""
    key, bends = row_key("trim", number), len(legs) - 1
    if piece.angles and len(piece.angles) != bends:
        raise CannotMake(
            f"“{piece.name}” has {len(legs)} legs, so {counted(bends, 'bend')} between them, and "
            f"{counted(len(piece.angles), 'angle')}.",
            "Each bend takes sheet by its own angle.",
            "Give an angle for each bend, or none where all are right angles.")
    radius = given(ledger, number, "radius", "inside radius of its bends", inside, Kind.WIDTH)
    thickness = _thickness(ledger, number, piece)
    setbacks: list[Term] = []
    allowances: list[Term] = []
    for bend, degrees in enumerate(piece.angles or (_SQUARE,) * bends, 1):
        angle = given(ledger, number, f"angle{bend}", f"bend {bend} turns through, in degrees",
                      degrees, Kind.RATIO, "" if piece.angles else "a right angle: none is given")
        factor = ledger.put(f"{key}.factor{bend}", f"{piece.name}: setback factor of bend {bend}",
                            calc.setback_factor, angle)
        setbacks.append(ledger.put(f"{key}.setback{bend}", f"{piece.name}: setback of bend {bend}",
                                   calc.setback, factor, radius, thickness))
        allowances.append(ledger.put(f"{key}.bend{bend}", f"{piece.name}: bend allowance {bend}",
                                     calc.bend_allowance, radius, thickness, angle))
    parts: list[Term] = []
    for place, leg in enumerate(legs):
        beside = setbacks[max(0, place - 1): place + 1]
        flat = ledger.put(f"{key}.flat{place + 1}", f"{piece.name}: flat of leg {place + 1}",
                          calc.flat, leg, *beside)
        developed = known(flat)
        if developed is not None and developed.value < -_ROUNDING:
            system = ledger.job.units
            raise CannotMake(
                f"Leg {place + 1} of “{piece.name}” is {leg.text(system)}; its bends at a radius "
                f"of {radius.text(system)} take more than that.",
                "A leg must reach from bend to bend, or it cannot be bent.",
                "Check the leg, the bend radius and the angles; legs are measured outside.")
        parts += [flat, *allowances[place: place + 1]]
    return parts


def _thickness(ledger: Ledger, number: int, piece: TrimPiece) -> Term:
    """Thickness of the metal the piece is bent from. Raises CannotMake."""
    match piece.made_from:
        case TrimFrom.PANEL_COIL:
            return ledger.answer(MetalKey.THICKNESS)
        case TrimFrom.OTHER_COIL | TrimFrom.FLAT_SHEET:
            pass
        case _:
            assert_never(piece.made_from)
    if piece.thickness is None:
        raise CannotMake(
            f"“{piece.name}” comes from {piece.made_from} of unknown thickness.",
            "What its bends take goes by the thickness.",
            "Give that metal's thickness, or clear the bend radius.")
    return given(ledger, number, "thickness", "thickness of its metal", piece.thickness,
                 Kind.THICKNESS)
