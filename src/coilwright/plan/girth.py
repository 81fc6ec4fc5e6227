"""The girth of a piece of trim: as given, legs and hems added up, or developed with its bends."""

from __future__ import annotations

from coilwright.calc import trim as calc
from coilwright.job.trim import TrimFrom, TrimPiece, piece_key
from coilwright.plan.ledger import Ledger, Term, known
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.source import ANSWER, STAND_IN
from coilwright.values.standing import Standing
from coilwright.words.counting import counted

_SQUARE = 90.0
"""What a bend turns the sheet through where no angle is given [degrees]."""
_ROUNDING = 1e-9


class CannotBend(Exception):
    """A piece cannot be bent as it is described: what, why, what to do, a sentence each."""

    def __init__(self, what: str, why: str, do: str) -> None:
        super().__init__(what)
        self.what = what
        self.why = why
        self.do = do


def standing_of(ledger: Ledger, number: int) -> Standing:
    """How far the measures of the piece of this number, from 1, can be trusted."""
    return Standing.GUESS if ledger.guessed(piece_key(number - 1)) else Standing.SURE


def given(
    ledger: Ledger, number: int, name: str, label: str, value: float, kind: Kind, note: str = ""
) -> Figure:
    """Enter a measure of a piece, as far to be trusted as the piece itself."""
    piece = ledger.job.trim.pieces[number - 1]
    standing = standing_of(ledger, number)
    source = ANSWER if standing is Standing.SURE else STAND_IN
    return ledger.add(Figure(f"trim.{number}.{name}", f"{piece.name}: {label}", value, kind,
                             source, standing, note=note))


def enter_girth(ledger: Ledger, number: int, piece: TrimPiece) -> Term | None:
    """Enter the girth of the piece of this number; None where nothing says what it is.

    With a bend radius the legs are measured outside, to the mould lines: what a bend takes
    there is taken off, and the sheet it needs is put in. Raises CannotBend.
    """
    key = f"trim.{number}"
    if piece.girth is not None:
        return given(ledger, number, "girth", "girth", piece.girth, Kind.WIDTH)
    if not piece.legs:
        return None
    legs, hems = (
        [given(ledger, number, f"{part}{n}", f"{part} {n}", width, Kind.WIDTH)
         for n, width in enumerate(widths, 1)]
        for part, widths in (("leg", piece.legs), ("hem", piece.hems))
    )
    if piece.radius is None or len(legs) < 2:
        return ledger.put(f"{key}.girth", f"{piece.name}: girth", calc.girth, *legs, *hems)
    ledger.put(f"{key}.plain", f"{piece.name}: legs and hems added up", calc.girth, *legs, *hems)
    parts = _developed(ledger, number, piece, legs, piece.radius)
    return ledger.put(f"{key}.girth", f"{piece.name}: girth, bends counted",
                      calc.developed_width, *parts, *hems)


def _developed(
    ledger: Ledger, number: int, piece: TrimPiece, legs: list[Figure], inside: float
) -> list[Term]:
    """Flats and what the bends take, in the order they lie in on the sheet."""
    key, bends = f"trim.{number}", len(legs) - 1
    if piece.angles and len(piece.angles) != bends:
        raise CannotBend(
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
            raise CannotBend(
                f"Leg {place + 1} of “{piece.name}” is {leg.text(system)}; its bends at a radius "
                f"of {radius.text(system)} take more than that.",
                "A leg must reach from bend to bend, or it cannot be bent.",
                "Check the leg, the bend radius and the angles; legs are measured outside.")
        parts += [flat, *allowances[place: place + 1]]
    return parts


def _thickness(ledger: Ledger, number: int, piece: TrimPiece) -> Term:
    """Thickness of the metal the piece is bent from. Raises CannotBend."""
    if piece.made_from is TrimFrom.PANEL_COIL:
        return ledger.answer("metal.thickness")
    if piece.thickness is None:
        raise CannotBend(
            f"“{piece.name}” comes from {piece.made_from} of unknown thickness.",
            "What its bends take goes by the thickness.",
            "Give that metal's thickness, or clear the bend radius.")
    return given(ledger, number, "thickness", "thickness of its metal", piece.thickness,
                 Kind.THICKNESS)
