"""The pieces of trim and their blanks, nested row by row on the metal they are cut from."""

from __future__ import annotations

from coilwright.job.answers.metal import MetalKey
from coilwright.job.trim import TrimFrom
from coilwright.plan.result import Plan, TrimNest, TrimPattern
from coilwright.sheets.blocks import (
    BOX,
    Block,
    Inline,
    Kept,
    heading,
    joined,
    line,
    marked,
    paragraph,
    stacked,
    table,
)
from coilwright.sheets.names import figure_text
from coilwright.units import Kind, in_thousands, show
from coilwright.words.counting import counted, noun


def trim_blanks(plan: Plan) -> tuple[Block, ...]:
    """The pieces, then by metal the rows of blanks side by side."""
    if not plan.trim:
        return ()
    system = plan.job.units
    pieces = [
        (row.piece.name, row.piece.goes_on, figure_text(row.flat_width, system),
         figure_text(row.count, system), marked(row.cut.mark, ", ".join(
             f"{in_thousands(count, system)} × {show(length, Kind.LENGTH, system)}"
             for length, count in row.sizes)))
        for row in plan.trim
    ]
    return stacked(
        heading(2, "Trim blanks"),
        table(("piece", "goes on", "flat width", "blanks", "so long each"), pieces, right=(2, 3)),
        *(_nest(plan, nest) for nest in plan.nests),
    )


def side_by_side(plan: Plan, pattern: TrimPattern) -> str:
    """The blanks of a row by name; those shorter than it with their length."""
    return ", ".join(
        f"{count} × {plan.job.trim.pieces[number - 1].name}"
        + ("" if pattern.length - length < _SAME else
           f" ({show(length, Kind.LENGTH, plan.job.units)})")
        for number, length, count in pattern.blanks)


def _nest(plan: Plan, nest: TrimNest) -> tuple[Block, ...]:
    system = plan.job.units
    rows = []
    for pattern in nest.patterns:
        rows.append((BOX, str(pattern.times), show(pattern.length, Kind.LENGTH, system),
                     side_by_side(plan, pattern),
                     show(pattern.drop, Kind.WIDTH, system)))
    many = line(figure_text(nest.rows, system), f" {noun(nest.rows.value, 'row')}")
    if nest.sheets is not None:
        many = line(figure_text(nest.sheets, system), f" {noun(nest.sheets.value, 'sheet')}, ",
                    many)
    proof = "" if nest.has_fewest_rows else f" ({counted(nest.bound, 'row')} at least)"
    own = nest.thickness
    thick: Inline = show(own, Kind.THICKNESS, system) if own is not None else figure_text(
        plan.figures.get(MetalKey.THICKNESS), system)
    return (Kept((
        heading(3, joined(filter(None, (
            _NESTED_ON[nest.made_from], f"{nest.width.text(system)} wide", thick)))),
        paragraph(many, f"{proof}; end to end ", figure_text(nest.length, system), ", drop ",
                  figure_text(nest.drop, system), ". A blank is as long as its row where no other "
                  "length is given."),
        table(("✓", "rows", "length", "side by side", "drop"), rows, right=(1, 2, 4)),
    )),)


_SAME = 1e-6
_NESTED_ON = {TrimFrom.PANEL_COIL: "Panel coil", TrimFrom.OTHER_COIL: "Coil for trim",
              TrimFrom.FLAT_SHEET: "Flat sheet"}
"""What a nest's metal is called, as on the order."""
