"""The trim on a sheet: how the blanks are cut, row by row, and what is bent of them."""

from __future__ import annotations

from coilwright.plan.result import Plan, TrimNest
from coilwright.sheets.writing import figure_text, heading, joined, paragraph, safe, table
from coilwright.units import Kind, show
from coilwright.words.counting import counted, noun


def trim_blanks(plan: Plan) -> str:
    """Pieces, then by metal the rows of blanks side by side; empty where there is no trim."""
    if not plan.trim:
        return ""
    system = plan.job.units
    pieces = [
        (
            safe(row.piece.name), str(row.piece.kind or "elsewhere"),
            figure_text(row.girth, system), figure_text(row.blank, system),
            figure_text(row.count, system),
        )
        for row in plan.trim
    ]
    return joined([
        heading(2, "Trim blanks"),
        table(("piece", "goes on", "girth", "blank", "pieces"), pieces, right=(2, 3, 4)),
        *(_nest(plan, nest) for nest in plan.nests),
    ])


def _nest(plan: Plan, nest: TrimNest) -> str:
    system = plan.job.units
    rows = []
    for pattern in nest.patterns:
        across = ", ".join(
            f"{count} × {safe(plan.job.trim.pieces[number - 1].name)}"
            for number, count in pattern.across
        )
        rows.append((str(pattern.times), across, safe(show(pattern.drop, Kind.WIDTH, system))))
    rows_said = f"{figure_text(nest.rows, system)} {noun(nest.rows.value, 'row')}"
    many = (
        rows_said if nest.sheets is None
        else f"{figure_text(nest.sheets, system)} {noun(nest.sheets.value, 'sheet')}, {rows_said}"
    )
    least = f"{counted(nest.bound, 'row')} at least"
    proof = "no nesting takes fewer rows" if nest.proven else least
    return joined([
        heading(3, f"{nest.made_from.capitalize()}, {safe(nest.width.text(system))} wide"),
        paragraph(
            f"{many} of {figure_text(nest.blank, system)} ({proof}); drop "
            f"{figure_text(nest.drop, system)}."
        ),
        table(("rows", "side by side", "left over"), rows, right=(0, 2)),
    ])
