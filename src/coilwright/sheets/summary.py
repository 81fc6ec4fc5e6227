"""The summary sheet: ready or not and why, what to ask first, figures, planes and coils."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.drawing.bars import account_lines, account_parts
from coilwright.drawing.coil import coil_lines
from coilwright.drawing.cost import landed_words
from coilwright.drawing.plane import plane_lines
from coilwright.drawing.plane_facts import runs
from coilwright.drawing.safe_text import one_line
from coilwright.drawing.svg import account_svg, coil_svg, plane_svg
from coilwright.plan.ask_first import ask_first
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import QuoteReport
from coilwright.plan.result import CoilPlan, Plan, PlanePlan
from coilwright.sheets.accessories import accessories_part
from coilwright.sheets.annex import all_workings
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Drawing,
    Sheet,
    Text,
    bullets,
    emphasis,
    heading,
    joined,
    line,
    numbered,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.building import building_drawing
from coilwright.sheets.buy import beside_cost, to_buy
from coilwright.sheets.lots_met import lots_words
from coilwright.sheets.names import LEGEND, asked_of, figure_text, label
from coilwright.sheets.parts import (
    alike_planes,
    cut_length,
    edges_by_kind,
    finding_line,
    loads_part,
    on_hand_part,
    panel_table,
    plane_edges,
    slitting_part,
)
from coilwright.sheets.proof_words import proof_line
from coilwright.sheets.reasons import by_person
from coilwright.sheets.state import hold_words, state_of
from coilwright.sheets.trim_blanks import trim_blanks
from coilwright.units import Kind, System, in_thousands, show
from coilwright.values.keys import Key
from coilwright.words import cautions
from coilwright.words.counting import capitalized

HEADLINES = (
    Key.ROOF_AREA, Key.ROOF_SQUARES, Key.PANELS_COUNT, Key.PANELS_LONGEST, Key.PANELS_LENGTH,
    Key.PANEL_MOVEMENT, Key.METAL_SHEET_MASS, Key.STRIP_WIDTH, Key.STRIP_MASS_PER_LENGTH,
    Key.COIL_LONGEST, Key.COIL_COUNT, Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED,
)  # fmt: skip
"""The figures a summary shows, in its order."""
COSTS: tuple[str, ...] = (Key.COIL_COST, Key.COIL_COST_AREA)
"""Those it shows where a price is known."""
WIDE, HIGH = 76, 20
"""Cells for a drawing on a sheet."""
_DRAWN = 12
"""Planes drawn on one summary; unlike ones beyond that are only listed."""


def summary_sheet(plan: Plan) -> Sheet:
    """The summary."""
    return Sheet(f"Summary: {plan.job.title}", stacked(
        paragraph(plan.job.about),
        banner(plan),
        _taken_on(plan),
        LEGEND,
        to_buy(plan),
        _ask_first(plan),
        _findings(plan),
        heading(2, "Figures"),
        table(("figure", "value"), _figures(plan), right=(1,)),
        _planes(plan),
        edges_by_kind(plan),
        on_hand_part(plan),
        _coils(plan),
        trim_blanks(plan),
        accessories_part(plan),
        slitting_part(plan),
        _account(plan),
        loads_part(plan),
        _questions(plan),
        heading(2, "Cautions"),
        bullets(cautions("summary", draft=not plan.ready)),
        all_workings(plan),
    ))


def banner(plan: Plan) -> Banner:
    """READY, or DRAFT and every reason why; before that, coils nobody has decided on, and planes
    where two lots meet."""
    said = tuple(paragraph(strong(words)) for words in (hold_words(plan), lots_words(plan))
                 if words)
    if plan.ready:
        why = "All the metal is on hand." if plan.readiness.nothing_to_buy else (
            "Every answer it rests on is sure.")
        return Banner((paragraph(line(strong(f"{state_of(plan)}."), f" {why}")),
                       *said), draft=False)
    reasons = plan.reasons
    return Banner(stacked(
        *([paragraph(strong(f"{state_of(plan)}."))] if plan.job.life.steps else []),
        *said,
        paragraph(strong("DRAFT, not an order."), f" Before it can be sent ({len(reasons)}):"),
        bullets(reason.text for reason in reasons),
    ), draft=True)


def coil_drawing(plan: Plan, width: int) -> Drawing:
    """The order's largest coil end-on, with its sizes."""
    return Drawing("coil", width, lambda room: coil_lines(plan, room, 14),
                   lambda: coil_svg(plan))


def _taken_on(plan: Plan) -> tuple[Block, ...]:
    """What was accepted by name and what was waived, each with its reason."""
    settled = plan.readiness.settled
    if not settled:
        return ()
    return (paragraph(strong("Taken on knowingly:")), bullets(one.text for one in settled))


def _ask_first(plan: Plan) -> tuple[Block, ...]:
    effects = ask_first(plan.job, plan)
    if not effects:
        return ()
    rows = [
        (str(number), e.label, e.tried or e.standing.value, e.words, e.who)
        for number, e in enumerate(effects, 1)
    ]
    return (
        heading(2, "Settle first"),
        paragraph("What moves the order most, first."),
        table(("", "answer", "tried", "what moves", "who knows"), rows, right=(0,)),
    )


def _findings(plan: Plan) -> tuple[Block, ...]:
    if not plan.findings:
        return ()
    return (heading(2, "Findings"), bullets(
        finding_line(finding, plan.job.units) for finding in plan.findings))


def _figures(plan: Plan) -> Iterator[tuple[str, Text]]:
    costs = COSTS
    if (report := _awarded(plan)) is not None:
        yield f"Lands at, from {one_line(report.supplier)}", line(landed_words(report))
        # By weight only where it is quoted so: a lump is for what was asked, whatever that weighs.
        costs = COSTS if report.is_by_weight(plan.figures.get(Key.COIL_COST)) else ()
    for key in (*HEADLINES, *costs):
        if key == Key.ROOF_SQUARES and plan.job.units is System.METRIC:
            continue  # It would say the roof's square meters once more.
        figure = plan.figures.get(key)
        if figure is not None:
            beside = f", {beside_cost(plan)}" if key == Key.COIL_COST else ""
            yield figure.label, line(*figure_text(figure, plan.job.units), beside)
            continue
        lack = plan.lacks.get(key)
        if lack is not None:
            yield lack.label, line(f"needs: {needs(plan, key)}")


def _awarded(plan: Plan) -> QuoteReport | None:
    """The quote the order was given on; None where there is none, or nothing of it adds up."""
    if plan.job.quotes.awarded is None:
        return None
    report = next(one for one in compare(plan).quotes if one.quote.awarded)
    return None if report.landed is None else report


def needs(plan: Plan, key: str) -> str:
    """What a missing figure waits for, in words."""
    lack = plan.lacks[key]
    waits = ", ".join(label(plan.job, answer) for answer in lack.needs)
    return "; ".join(part for part in (waits, lack.because) if part) or "more answers"


def _planes(plan: Plan) -> tuple[Block, ...]:
    if not plan.planes:
        return ()
    alike = alike_planes(plan)
    few = f"Only the first {_DRAWN} unlike planes are drawn." if len(alike) > _DRAWN else ""
    return stacked(
        heading(2, "Planes and panels"),
        *building_drawing(plan),
        *(_plane(plan, same, drawn < _DRAWN) for drawn, same in enumerate(alike)),
        paragraph(few),
    )


def _plane(plan: Plan, same: list[PlanePlan], drawn: bool) -> tuple[Block, ...]:
    plane, system = same[0], plan.job.units
    each = len(same) > 1
    said = line("area ", figure_text(plane.area, system), " each" if each else "")
    if plane.pitch is not None:
        said = line(said, f", pitch {show(plane.pitch, Kind.PITCH, system)}")
    if plane.alike > 1:
        said = line(said, f", {plane.alike} planes alike")
    return stacked(
        heading(3, ", ".join(one.name for one in same)),
        Drawing(plane.key, WIDE, lambda room: plane_lines(plane, room, HIGH, system),
                lambda: plane_svg(plane, system)) if drawn else (),
        paragraph(said, "."),
        plane_edges(plan, plane),
        panel_table(plan, plane, " on each" if each else ""),
    )


def _coils(plan: Plan) -> tuple[Block, ...]:
    if not plan.coils:
        return ()
    governs: Text = ()
    if plan.governing is not None:
        governs = line(
            f"{capitalized(plan.governing.words)} limits a coil to ",
            figure_text(plan.figures[Key.COIL_LONGEST], plan.job.units), ".",
        )
    return stacked(
        heading(2, "Coils"),
        paragraph(governs),
        paragraph(proof_line(plan)),
        coil_drawing(plan, WIDE),
        *(_alike_coils(plan, same) for same in alike_coils(plan)),
    )


def alike_coils(plan: Plan) -> list[list[CoilPlan]]:
    """The coils to order, those together that are the same in all but their numbers."""
    alike: dict[object, list[CoilPlan]] = {}
    for coil in plan.coils:
        kind = (coil.cuts, coil.length.value, coil.mass.value, coil.outside_diameter.value)
        alike.setdefault(kind, []).append(coil)
    return list(alike.values())


def _alike_coils(plan: Plan, same: list[CoilPlan]) -> tuple[Block, ...]:
    coil, system = same[0], plan.job.units
    name = f"Coil {coil.number}" if len(same) == 1 else (
        f"Coils {runs(one.number for one in same)}: {len(same)} alike, each")
    said = joined((
        figure_text(coil.length, system),
        figure_text(coil.mass, system),
        line("outside diameter ", figure_text(coil.outside_diameter, system)),
    ))
    rows = [(in_thousands(cut.count, system), cut_length(plan, cut.plane, cut.length), cut.name)
            for cut in coil.cuts]
    return (
        heading(3, name),
        paragraph(said, ". Nobody under it while it is lifted; the rating plates decide."),
        table(("panels", "length", "for"), rows, right=(0, 1)),
    )


def _account(plan: Plan) -> tuple[Block, ...]:
    if not account_lines(plan, WIDE):
        return ()
    return (
        heading(2, "Where the metal goes"),
        Drawing("account", WIDE, lambda room: account_lines(plan, room),
                lambda: account_svg(plan)),
        _account_table(plan),
    )


def _account_table(plan: Plan) -> Block:
    """Each part of the order by length of strip, weight and cost; the order is their sum."""
    parts = account_parts(plan)
    heads = ("part", "as strip", "weight", "cost")[: len(parts[0][1]) + 1]
    return table(heads, [
        (name, *(figure_text(figure, plan.job.units) for figure in row)) for name, row in parts
    ], right=range(1, len(heads)))


def _questions(plan: Plan) -> tuple[Block, ...]:
    grouped = by_person(plan)
    if not grouped:
        return ()
    parts: list[Block] = [heading(2, "Questions, by whom to ask")]
    for person, questions in grouped.items():
        title = "For you to find out" if person == "you" else f"For {asked_of(person)}"
        parts.append(heading(3, title))
        parts.append(numbered(
            line(f"{q.ask} ", emphasis(
                f"({q.label}; guessed {q.value})" if q.value else f"({q.label})"))
            for q in questions
        ))
    return tuple(parts)
