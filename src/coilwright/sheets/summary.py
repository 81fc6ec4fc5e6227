"""The summary sheet: ready or not and why, what to ask first, figures, planes and coils."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.drawing.account_text import account_parts
from coilwright.drawing.text import account_lines, coil_lines, plane_lines
from coilwright.plan.ask_first import ask_first
from coilwright.plan.result import CoilPlan, Plan, PlanePlan
from coilwright.sheets.loads import loads_part
from coilwright.sheets.names import asked_of, label
from coilwright.sheets.on_hand import on_hand_part
from coilwright.sheets.order import banner
from coilwright.sheets.plane_lists import (
    alike_planes,
    cut_length,
    edges_by_kind,
    panel_table,
    plane_edges,
)
from coilwright.sheets.proof_words import proof_line
from coilwright.sheets.slitting import slitting_part
from coilwright.sheets.still_open import by_person
from coilwright.sheets.trim import trim_blanks
from coilwright.sheets.writing import (
    bullets,
    drawing,
    figure_text,
    heading,
    joined,
    numbered,
    paragraph,
    safe,
    table,
)
from coilwright.units import Kind, System, show
from coilwright.values.finding import Finding
from coilwright.words import cautions

HEADLINES = (
    "roof.area", "roof.squares", "panels.count", "panels.longest", "panels.length",
    "panel.movement", "metal.sheet_mass", "strip.width", "strip.mass_per_length", "coil.longest",
    "coil.count", "coil.length_ordered", "coil.mass_ordered",
)  # fmt: skip
"""The figures a summary shows, in its order."""
WIDE, HIGH = 76, 20
"""Cells for a drawing on a sheet."""
_DRAWN = 12
"""Planes drawn on one summary; unlike ones beyond that are only listed."""


def summary_sheet(plan: Plan) -> str:
    """The summary as Markdown."""
    return joined([
        heading(1, f"Summary: {safe(plan.job.title)}"),
        paragraph(safe(plan.job.about)) if plan.job.about else "",
        banner(plan),
        _ask_first(plan),
        _findings(plan),
        heading(2, "Figures"),
        table(("figure", "value"), _figures(plan), right=(1,)),
        _planes(plan),
        edges_by_kind(plan),
        on_hand_part(plan),
        _coils(plan),
        trim_blanks(plan),
        slitting_part(plan),
        _account(plan),
        loads_part(plan),
        _questions(plan),
        heading(2, "Cautions"),
        bullets(safe(line) for line in cautions("summary")),
    ])


def _ask_first(plan: Plan) -> str:
    effects = ask_first(plan.job, plan)
    if not effects:
        return ""
    rows = [
        (str(number), safe(e.label), safe(e.tried) or e.standing.value, safe(e.words), safe(e.who))
        for number, e in enumerate(effects, 1)
    ]
    return joined([
        heading(2, "Ask first"),
        paragraph("What moves the order most, first."),
        table(("", "answer", "tried", "what moves", "who knows"), rows, right=(0,)),
    ])


def _findings(plan: Plan) -> str:
    if not plan.findings:
        return ""
    return joined([heading(2, "Findings"), bullets(_finding(f) for f in plan.findings)])


def _finding(finding: Finding) -> str:
    source = str(finding.source)
    return (
        f"**{finding.level.value.upper()}** {safe(finding.what)} {safe(finding.why)} "
        f"*{safe(finding.do)}*" + (f" Source: {safe(source)}." if source else "")
    )


def _figures(plan: Plan) -> Iterator[tuple[str, str]]:
    for key in HEADLINES:
        if key == "roof.squares" and plan.job.units is System.METRIC:
            continue  # It would say the roof's square metres once more.
        figure = plan.figures.get(key)
        if figure is not None:
            yield safe(figure.label), figure_text(figure, plan.job.units)
            continue
        lack = plan.lacks.get(key)
        if lack is not None:
            yield safe(lack.label), f"needs: {safe(needs(plan, key))}"


def needs(plan: Plan, key: str) -> str:
    """What a missing figure waits for, in words."""
    lack = plan.lacks[key]
    waits = ", ".join(label(plan.job, answer) for answer in lack.needs)
    return "; ".join(part for part in (waits, lack.because) if part) or "more answers"


def _planes(plan: Plan) -> str:
    if not plan.planes:
        return ""
    alike = alike_planes(plan)
    parts = [heading(2, "Planes and panels")]
    for drawn, same in enumerate(alike):
        parts.append(heading(3, safe(", ".join(plane.name for plane in same))))
        first = same[0]
        if drawn < _DRAWN:
            lines = plane_lines(first, WIDE, HIGH, plan.job.units)
            parts.append(drawing(first.key, lines))
        parts.append(_plane(plan, first, len(same)))
    if len(alike) > _DRAWN:
        parts.append(paragraph(f"Only the first {_DRAWN} unlike planes are drawn."))
    return joined(parts)


def _plane(plan: Plan, plane: PlanePlan, same: int) -> str:
    system = plan.job.units
    facts = [f"area {figure_text(plane.area, system)}" + (" each" if same > 1 else "")]
    if plane.pitch is not None:
        facts.append(f"pitch {safe(show(plane.pitch, Kind.PITCH, system))}")
    if plane.alike > 1:
        facts.append(f"{plane.alike} planes alike")
    said = paragraph(", ".join(facts) + ".")
    return joined([said, plane_edges(plan, plane),
                   panel_table(plan, plane, " on each" if same > 1 else "")])


def _coils(plan: Plan) -> str:
    if not plan.coils:
        return ""
    parts = [heading(2, "Coils")]
    if plan.governing is not None:
        longest = figure_text(plan.figures["coil.longest"], plan.job.units)
        governs = f"The longest coil is {longest}; what governs is {safe(plan.governing.words)}."
        parts.append(paragraph(governs))
    if (proven := proof_line(plan)):
        parts.append(paragraph(proven))
    parts.append(drawing("coil", coil_lines(plan, WIDE, 14)))
    parts += [_coil(plan, coil) for coil in plan.coils]
    return joined(parts)


def _coil(plan: Plan, coil: CoilPlan) -> str:
    system = plan.job.units
    said = ", ".join((
        figure_text(coil.length, system),
        figure_text(coil.mass, system),
        f"outside diameter {figure_text(coil.outside_diameter, system)}",
    ))
    rows = [
        (f"{cut.count:,}", cut_length(plan, cut.plane, cut.length), safe(cut.name))
        for cut in coil.cuts
    ]
    return joined([
        heading(3, f"Coil {coil.number}"),
        paragraph(f"{said}. Nobody under it while it is lifted; the rating plates decide."),
        table(("panels", "length", "for"), rows, right=(0, 1)),
    ])


def _account(plan: Plan) -> str:
    lines = account_lines(plan, WIDE)
    if not lines:
        return ""
    return joined([heading(2, "Where the metal goes"), drawing("account", lines),
                   _account_table(plan)])


def _account_table(plan: Plan) -> str:
    """Each part of the order by length of strip, weight and cost; the order is their sum."""
    parts = account_parts(plan)
    heads = ("part", "as strip", "weight", "cost")[: len(parts[0][1]) + 1]
    return table(heads, [
        (name, *(figure_text(figure, plan.job.units) for figure in row)) for name, row in parts
    ], right=range(1, len(heads)))


def _questions(plan: Plan) -> str:
    grouped = by_person(plan)
    if not grouped:
        return ""
    parts = [heading(2, "Questions, by whom to ask")]
    for person, questions in grouped.items():
        title = "For you to find out" if person == "you" else f"For {asked_of(person)}"
        parts.append(heading(3, title))
        parts.append(numbered(
            f"{safe(q.ask)} *({safe(q.label)}"
            + (f"; guessed {safe(q.value)})*" if q.value else ")*")
            for q in questions
        ))
    return joined(parts)
