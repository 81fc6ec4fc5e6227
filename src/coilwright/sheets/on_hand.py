"""Coils on hand on a sheet: what is cut from each, what is left, and what they save."""

from __future__ import annotations

from coilwright.plan.result import Plan
from coilwright.sheets.writing import figure_text, heading, joined, paragraph, safe, table
from coilwright.units import Kind, show


def on_hand_part(plan: Plan) -> str:
    """The coils on hand that are used; empty where none are."""
    if not plan.from_stock:
        return ""
    system = plan.job.units
    rows = [
        (
            safe(coil.name),
            ", ".join(
                f"{cut.count:,} × {safe(show(cut.length, Kind.LENGTH, system))} {safe(cut.name)}"
                for cut in coil.cuts
            ),
            figure_text(coil.length, system),
            figure_text(coil.left, system) + (" (stub)" if coil.stub else ""),
        )
        for coil in plan.from_stock
    ]
    saved = [
        figure_text(plan.figures[key], system)
        for key in ("save.length", "save.mass", "save.money") if key in plan.figures
    ]
    return joined([
        heading(2, "Coils on hand"),
        table(("coil", "panels", "at least", "left"), rows, right=(2, 3)),
        paragraph(f"They save {', '.join(saved)} of the order.") if saved else "",
    ])
