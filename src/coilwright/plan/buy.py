"""Everything to buy for a job, line by line: coils for panels, coils and sheets for trim.

All of it is of the job's one metal and finish. Metal for trim may be of another thickness.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from coilwright.calc import buy as calc
from coilwright.calc import metal as metals
from coilwright.calc import slitting
from coilwright.calc.roof.panels import summed_count
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.trim import TrimKey
from coilwright.job.trim import TrimFrom
from coilwright.plan.coils.passes import TrimMetal
from coilwright.plan.ledger import Ledger, Term, known
from coilwright.plan.purchases import BuyLine, BuyWhat
from coilwright.plan.result import CoilPlan, TrimNest
from coilwright.plan.trim import given
from coilwright.units import Kind
from coilwright.values.figure import Figure, worst
from coilwright.values.keys import Key, part_of
from coilwright.values.rounding import Rounding
from coilwright.values.source import SHARED_OUT

_DIGITS = 6
"""Digits of an inch to which two coils are of one length, or two metals of one size."""


def enter_buy(
    ledger: Ledger, coils: tuple[CoilPlan, ...], nests: tuple[TrimNest, ...],
    strands: Mapping[TrimMetal, tuple[Figure, ...]],
) -> tuple[BuyLine, ...]:
    """Enter count, size and weight of all that is bought; coils first, then metal for trim.

    strands: for trim, slit beside the panels' coils; each is as long as its pass. A line that
    waits for an answer is left out; its figures say what they lack.
    """
    lines = [*_coils(ledger, coils)]
    by_metal: dict[tuple[TrimFrom, float, float | None], list[TrimNest]] = {}
    for nest in nests:
        if nest.made_from is not TrimFrom.PANEL_COIL:
            metal = nest.made_from, round(nest.width.value, _DIGITS), nest.thickness
            by_metal.setdefault(metal, []).append(nest)
    for number, ((made_from, width, thickness), same) in enumerate(by_metal.items(), 1):
        if made_from is TrimFrom.FLAT_SHEET:
            found = [_sheets(ledger, f"buy.sheet.{number}", same)]
        elif beside := strands.get((width, thickness)):
            found = list(_strands(ledger, f"buy.trim_coil.{number}", same, beside))
        else:
            found = [_other_coil(ledger, f"buy.trim_coil.{number}", same)]
        lines += [line for line in found if line is not None]
    return tuple(lines)


def _coils(ledger: Ledger, coils: tuple[CoilPlan, ...]) -> Iterator[BuyLine]:
    """The new coils, those of one length together."""
    alike: dict[float, list[CoilPlan]] = {}
    for coil in coils:
        alike.setdefault(round(coil.length.value, _DIGITS), []).append(coil)
    for number, same in enumerate(alike.values(), 1):
        key, first = f"buy.coil.{number}", same[0]
        standing = worst((ledger.figures[Key.COIL_COUNT], *(coil.length for coil in same)))
        count = ledger.drawn(
            part_of(key, "count"),
            f"Coils of {first.length.text(ledger.job.units)}",
            float(len(same)),
            Kind.COUNT,
            standing,
            "coils of one length",
            SHARED_OUT,
        )
        mass = ledger.put(part_of(key, "mass"), "Weight of coils alike", calc.mass_of_all, count,
                          first.mass, rounding=Rounding.PRODUCT)
        yield BuyLine(
            key=key, what=BuyWhat.COIL, count=count, width=ledger.figures[Key.STRIP_WIDTH],
            thickness=ledger.figures[MetalKey.THICKNESS], length=first.length, each=first.mass,
            mass=mass, trim=Key.TRIM_FROM_COIL in ledger.figures, same_lot=True,
        )


def _other_coil(ledger: Ledger, key: str, nests: list[TrimNest]) -> BuyLine | None:
    width = nests[0].width
    length = ledger.put(
        part_of(key, "length"), f"Coil for trim, {width.text(ledger.job.units)}: length to order",
        slitting.strand_length, ledger.answer(CoilsKey.SPARE), ledger.answer(CoilsKey.TOLERANCE),
        *(nest.length for nest in nests), rounding=Rounding.UP)
    count = ledger.drawn(part_of(key, "count"), "Coils for trim", 1.0, Kind.COUNT, width.standing,
                         "one coil of each width and thickness")
    return _line(ledger, key, BuyWhat.TRIM_COIL, count, nests[0], length)


def _strands(
    ledger: Ledger, key: str, nests: list[TrimNest], strands: tuple[Figure, ...]
) -> Iterator[BuyLine | None]:
    """Strands for trim, those of one length together."""
    alike: dict[float, list[Figure]] = {}
    for length in strands:
        alike.setdefault(round(length.value, _DIGITS), []).append(length)
    for number, same in enumerate(alike.values(), 1):
        at = key if len(alike) == 1 else f"{key}.{number}"
        length = ledger.put(part_of(at, "length"), "Coil for trim: length to order",
                            slitting.as_long_as_pass, same[0], rounding=Rounding.UP)
        count = ledger.drawn(part_of(at, "count"), "Coils for trim", float(len(same)), Kind.COUNT,
                             worst(tuple(same)), "strands of one length beside the panels' coils",
                             SHARED_OUT)
        line = _line(ledger, at, BuyWhat.TRIM_COIL, count, nests[0], length)
        yield None if line is None else replace(line, in_pass=True)


def _sheets(ledger: Ledger, key: str, nests: list[TrimNest]) -> BuyLine | None:
    sheets = [nest.sheets for nest in nests if nest.sheets is not None]
    if len(sheets) < len(nests):
        return None
    count = ledger.put(part_of(key, "count"), "Flat sheets for trim", summed_count, *sheets)
    return _line(ledger, key, BuyWhat.SHEET, count, nests[0], ledger.answer(TrimKey.SHEET_LENGTH))


def _line(
    ledger: Ledger, key: str, what: BuyWhat, count: Figure, nest: TrimNest, length: Term
) -> BuyLine | None:
    """A line of metal for trim; None while its length, thickness or metal is not known."""
    number = nest.patterns[0].across[0][0]
    own = ledger.job.trim.pieces[number - 1].thickness
    usual = ledger.answer(MetalKey.THICKNESS)
    thickness = (
        usual
        if own is None
        else given(ledger, number, "thickness", "thickness of its metal", own, Kind.THICKNESS)
    )
    name = f"{what.value.capitalize()}, {nest.width.text(ledger.job.units)}"
    as_panels = known(usual) is not None and _same(known(usual), known(thickness))
    sheet = ledger.got(Key.METAL_SHEET_MASS) if as_panels else _sheet_mass(ledger, key, thickness)
    each = ledger.put(part_of(key, "each"), f"{name}: weight of one", calc.piece_mass, sheet,
                      nest.width, length)
    mass = ledger.put(part_of(key, "mass"), f"{name}: weight", calc.mass_of_all, count, each)
    figures = known(length), known(thickness), known(each), known(mass)
    match figures:
        case Figure() as long, Figure() as thick, Figure() as one, Figure() as all_of_it:
            return BuyLine(key=key, what=what, count=count, width=nest.width, thickness=thick,
                           length=long, each=one, mass=all_of_it, trim=True, same_lot=as_panels)
        case _:
            return None


def _same(one: Figure | None, other: Figure | None) -> bool:
    return one is not None and other is not None and abs(one.value - other.value) < 1e-9


def _sheet_mass(ledger: Ledger, key: str, thickness: Term) -> Term:
    """Weight by area of the job's metal in another thickness."""
    label, density = "Weight of the sheet for trim", ledger.got(Key.METAL_DENSITY)
    coating = ledger.figures.get(Key.METAL_COATING_MASS)
    if coating is not None:
        return ledger.put(part_of(key, "sheet_mass"), label, metals.coated_sheet_mass, density,
                          thickness, coating)
    return ledger.put(part_of(key, "sheet_mass"), label, metals.sheet_mass, density, thickness)
