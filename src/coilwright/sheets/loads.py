"""Loads against their ratings as tables, for every sheet that shows them."""

from __future__ import annotations

from collections.abc import Iterable

from coilwright.plan.result import LoadLine, Plan
from coilwright.sheets.writing import figure_text, heading, joined, paragraph, safe, table
from coilwright.values.figure import Figure

PLATES_DECIDE = (
    "“Inside its rating, as entered” clears nothing: plates, local rules and qualified people "
    "decide."
)


def load_table(plan: Plan, loads: Iterable[LoadLine]) -> str:
    """One row a load: what it comes to, its rating, the margin, and a word. Empty for none."""
    rows = [
        (safe(line.name), _text(plan, line.load), _text(plan, line.rating),
         _text(plan, line.margin), _word(line))
        for line in loads
    ]
    header = ("load", "comes to", "rating", "margin", "")
    return table(header, rows, right=(1, 2, 3)) if rows else ""


def loads_part(plan: Plan) -> str:
    """All loads, under a heading; empty where there are none."""
    if not plan.loads:
        return ""
    return joined([heading(2, "Haul and lift"), load_table(plan, plan.loads),
                   paragraph(PLATES_DECIDE)])


def _word(line: LoadLine) -> str:
    if line.over or not line.known:
        return f"**{line.word}**"
    said = "inside its rating" if line.word == "inside" else "no fewer than needed"
    return f"{said}, as entered"


def _text(plan: Plan, figure: Figure | None) -> str:
    return "" if figure is None else figure_text(figure, plan.job.units)
