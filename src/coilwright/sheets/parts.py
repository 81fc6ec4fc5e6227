"""Parts that several sheets share: panels, edges, coils on hand, trim, slitting, loads, workings.

Each gives its blocks, and none where the plan has nothing of the kind.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from coilwright.calc.roof.layout import THINNEST_PANEL
from coilwright.drawing.plane_facts import (
    edge_totals,
    end_texts,
    grouped,
    length_mark,
    runs,
)
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.sending import still_out
from coilwright.plan.panel.ends import bare_ends
from coilwright.plan.result import (
    LoadLine,
    Plan,
    PlanePlan,
    SlitPass,
    SlitPlan,
    SlitStrand,
)
from coilwright.sheets.blocks import (
    Annex,
    Block,
    Inline,
    Text,
    emphasis,
    heading,
    joined,
    line,
    marked,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.names import answer_text, figure_text
from coilwright.units import Kind, System, in_thousands, show
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.words.in_units import source_in

_TERMS_SHOWN = 6
"""Terms written out for a sum; of more, their number is given."""
PLATES_DECIDE = (
    "“Inside its rating, as entered” clears nothing: plates, local rules and qualified people "
    "decide."
)


# ---------------------------------------------------------------- which order, and where


def order_facts(plan: Plan) -> Iterator[tuple[str, str]]:
    """The order a sheet of the house belongs to, as its coils' tags have it; none without one."""
    order = plan.job.order
    if order.number:
        revision = f", revision {order.revision}" if order.revision else ""
        gone = ", which does not stand any more" if revision and still_out(plan.job) else ""
        yield "Order", f"{order.number}{revision}{gone}"
    if order.supplier:
        yield "Supplier", ", ".join(filter(None, (order.supplier, order.attention)))


def site_text(plan: Plan) -> Text:
    """Where the job is, or else where the coils go; empty where neither is said."""
    job = plan.job
    return answer_text(job, JobKey.SITE) if job.job.site else line(job.order.ship_to)


# ---------------------------------------------------------------- panels and edges


def cut_length(plan: Plan, number: int, length: float) -> Text:
    """A panel's length [in] on the plane of that number, marked where it rests on a guess."""
    return marked(length_mark(plan, number).strip(), show(length, Kind.LENGTH, plan.job.units))


def short_side(short: float | None, length: float, system: System) -> float | None:
    """A panel's short side [in]; None where it is cut as long as the other: in metric a length is
    told to a millimeter, and differs from what it is by less."""
    if short is None or short >= length:
        return None
    shown, whole = (show(one, Kind.LENGTH, system) for one in (short, length))
    return None if shown == whole else short


def both_ends(plan: Plan, plane: PlanePlan) -> Text:
    """The widths of the panels at both ends of a plane, each with its mark where it is a guess."""
    mark = length_mark(plan, plane.number).strip()
    return joined((marked(mark, text) for text in end_texts(plane, plan.job.units)), ", ")


def bare_ends_words(plane: PlanePlan) -> str:
    """Which ends of a plane its panels leave bare; empty where none, as is usual."""
    match bare_ends(plane):
        case (True, True):
            return "both ends"
        case (left, right):
            return "left end" if left else "right end" if right else ""


def bare_words(plan: Plan) -> str:
    """How much is left bare at most, and what covers it."""
    us = plan.job.units is System.US
    most = f"up to {show(THINNEST_PANEL, Kind.WIDTH)}" if us else "less than 2 mm"
    return (f"{most} stays bare, too little for "
            "one more panel: the edge metal there must cover it")


def panel_table(plan: Plan, plane: PlanePlan, each: str = "") -> tuple[Block, ...]:
    """The panels of one plane: count, length, both ends, and their numbers in its drawing."""
    rows = [
        (in_thousands(row.count, plan.job.units), cut_length(plan, plane.number, row.length),
         row.low.words, row.high.words, runs(row.numbers))
        for row in plane.panel_list
    ]
    if not rows:
        return ()
    head = (f"panels{each}", "length", "eave end", "ridge end", "numbers in the drawing")
    bare = bare_ends_words(plane)
    return (
        paragraph("End panels: ", both_ends(plan, plane), ".",
                  f" At its {bare} {bare_words(plan)}." if bare else ""),
        table(head, rows, right=(0, 1)),
    )


def plane_edges(plan: Plan, plane: PlanePlan) -> Block:
    """The edges of one plane in a line: `eave 42 ft; 2 rakes, 18 ft each`."""
    said = "; ".join(grouped(plane.edges, plan.job.units))
    return paragraph("Edges: ", marked(plane.area.mark, said), ".")


def alike_planes(plan: Plan) -> list[list[PlanePlan]]:
    """The planes, those together that are the same in all but name and number."""
    alike: dict[tuple[object, ...], list[PlanePlan]] = {}
    for plane in plan.planes:
        kind = (plane.outline, plane.openings, plane.groups, plane.alike, plane.said)
        alike.setdefault(kind, []).append(plane)
    return list(alike.values())


def edges_by_kind(plan: Plan) -> tuple[Block, ...]:
    """All edges of the roof by kind, true lengths. Empty while they are not known."""
    totals = edge_totals(plan)
    if not totals:
        return ()
    return (
        heading(2, "Edges"),
        table(("edge", "length in all"),
              [(kind.value, _marked(length)) for kind, length in totals], right=(1,)),
        paragraph("Ridges, hips, valleys and pitch breaks that two planes share count once."),
    )


def _marked(text: str) -> Text:
    """A length whose mark, if it has one, stays a mark."""
    return marked("~", text[2:]) if text.startswith("~ ") else line(text)


# ---------------------------------------------------------------- coils on hand, trim


def on_hand_part(plan: Plan) -> tuple[Block, ...]:
    """The coils on hand that are used: what is cut from each, what is left, what they save."""
    if not plan.from_stock:
        return ()
    system = plan.job.units
    rows = [
        (
            coil.name,
            ", ".join(f"{in_thousands(cut.count, system)} × "
                      f"{show(cut.length, Kind.LENGTH, system)} {cut.name}" for cut in coil.cuts),
            figure_text(coil.length, system),
            line(figure_text(coil.left, system), " (too short to keep)" if coil.too_short else ""),
        )
        for coil in plan.from_stock
    ]
    keys = ("save.length", "save.mass", Key.SAVE_MONEY)
    saved = [figure_text(plan.figures[key], system) for key in keys if key in plan.figures]
    return stacked(
        heading(2, "Coils on hand"),
        table(("coil", "panels", "at least", "leftover, past the spare"), rows, right=(2, 3)),
        paragraph("They save ", joined(saved), " of the order.") if saved else (),
    )


# ---------------------------------------------------------------- slitting


def slitting_part(plan: Plan) -> tuple[Block, ...]:
    """The masters, the least metal first, and the passes of the order; empty without masters."""
    slits = plan.slits
    if not slits:
        return ()
    system = plan.job.units
    ordered = plan.ordered_slit
    columns: list[tuple[str, Callable[[SlitPlan], Figure | None]]] = [
        ("master", lambda s: s.master), ("strips across", lambda s: s.strips),
        ("length", lambda s: s.length), ("weight", lambda s: s.mass),
        ("drop, width", lambda s: s.width), ("drop, share", lambda s: s.share),
        ("drop, weight", lambda s: s.drop_mass), ("drop, cost", lambda s: s.money),
    ]
    if ordered is None:
        # Its length is no length of the order: the supplier slits from what there is.
        del columns[2]
    columns = [column for column in columns if column[1](slits[0]) is not None]
    rows = [[figure_text(get(slit), system) for _, get in columns] for slit in slits]
    edge = figure_text(plan.figures[CoilsKey.EDGE_TRIM], system)
    said = (
        "Ordered in passes of the first; the drop is in the order's weight and cost."
        if ordered else "The order is for coils slit to width: the drop is the supplier's, and is "
        "not in the order. A quote shows whose it is in truth."
    )
    return (
        heading(2, "Slitting"),
        paragraph("The masters given, the least metal first. Edge trim: ", edge,
                  f", both edges together, counted in the drop. {said}"),
        table([head for head, _ in columns], rows, right=range(1, len(columns))),
        *(() if ordered is None else (
            heading(3, "Passes of the ", figure_text(ordered.master, system), " master"),
            passes_table(plan, ordered), passes_proof(plan, ordered))),
    )


def passes_table(plan: Plan, slit: SlitPlan) -> Block:
    """The passes of an order, alike ones together; coils by their numbers."""
    system = plan.job.units
    rows = [
        (f"{many:,}", figure_text(one.length, system), strands_text(plan, one),
         figure_text(one.drop, system))
        for one, many in slit.alike()
    ]
    return table(("passes", "length of each", "strands side by side", "drop"), rows,
                 right=(0, 1, 3))


def passes_proof(plan: Plan, slit: SlitPlan) -> Block:
    """How good the passes are, in words, and what does not ride in them."""
    proof, system = plan.proof, plan.job.units
    assert proof is not None
    these = "No passes for these coils take less of this master. " if slit.proven else ""
    whole = (
        line(f"{these}Proven: no order in passes of it takes less.") if proof.proven else
        line(f"{these}Within ", figure_text(proof.gap, system), " (",
             figure_text(proof.gap_mass, system), ") of the least there could be of it.")
    )
    return paragraph(whole, *(f" Not slit from these masters: {name}." for name in slit.left_out))


def strands_text(plan: Plan, one: SlitPass, marks: bool = True) -> Text:
    """The strands of a pass, alike ones together. marks: guesses are marked."""
    def width(figure: Figure) -> Inline:
        system = plan.job.units
        return figure_text(figure, system) if marks else figure.text(system)

    counts: dict[tuple[str, float], list[SlitStrand]] = {}
    for strand in one.strands:
        counts.setdefault((strand.name, strand.width.value), []).append(strand)
    return joined(
        line(f"{len(same)} × ", width(same[0].width), f" {same[0].name}")
        for same in counts.values()
    )


# ---------------------------------------------------------------- loads, findings


def load_table(plan: Plan, loads: Iterable[LoadLine]) -> tuple[Block, ...]:
    """One row a load: what it comes to, its rating, the margin, and a word."""
    system = plan.job.units
    rows = [
        (load.name, load_amount(load, system), figure_text(load.rating, system),
         figure_text(load.margin, system), load_word(load))
        for load in loads
    ]
    header = ("load", "comes to", "rating", "margin", "")
    return (table(header, rows, right=(1, 2, 3)),) if rows else ()


def load_amount(load: LoadLine, system: System) -> Text:
    """The load; where it is not known, what is known of the weight."""
    if load.weight is None:
        return figure_text(load.load, system)
    weight = figure_text(load.weight, system)
    lifted = load.place in ("site", "shop")
    return line(weight, " to lift") if lifted else line("at least ", weight)


def loads_part(plan: Plan) -> tuple[Block, ...]:
    """All loads, under a heading."""
    if not plan.loads:
        return ()
    return (heading(2, "Haul and lift"), *load_table(plan, plan.loads), paragraph(PLATES_DECIDE))


def load_word(load: LoadLine) -> Inline:
    """Over, not known, or inside its rating as entered."""
    if load.over or not load.known:
        return strong(load.word)
    said = "inside its rating" if load.word == "inside" else "no fewer than needed"
    return f"{said}, as entered"


def caution_line(caution: str) -> Text:
    """A caution, said to be one."""
    return line(strong("Caution."), f" {caution}")


def finding_line(finding: Finding, system: System) -> Text:
    """A finding with its level, what to do and its source."""
    source = source_in(finding.source, system)
    return line(strong(finding.level.value.upper()), f" {finding.what} {finding.why} ",
                emphasis(finding.do), f" Source: {source}." if source else "")


# ---------------------------------------------------------------- workings


def workings(
    figures: Iterable[Figure], system: System, stop_at: tuple[str, ...] = (), note: str = ""
) -> tuple[Block, ...]:
    """How the figures and all they rest on were made, each once.

    stop_at: beginnings of keys whose terms are not opened; there may be hundreds.
    """
    rows = [_working(figure, system) for figure in _opened(figures, stop_at)]
    if not rows:
        return ()
    head = ("figure", "value", "equation", "put in", "source")
    title = line("How these numbers were made")
    return (Annex(title, stacked(paragraph(note), table(head, rows))),)


def _opened(figures: Iterable[Figure], stop_at: tuple[str, ...]) -> Iterator[Figure]:
    seen: set[str] = set()
    waiting = list(figures)[::-1]
    while waiting:
        figure = waiting.pop()
        if figure.key in seen:
            continue
        seen.add(figure.key)
        yield figure
        if not figure.key.startswith(stop_at):
            waiting.extend(reversed(figure.terms))


def _working(figure: Figure, system: System) -> tuple[Inline, ...]:
    terms = figure.terms
    put_in = line(f"{len(terms)} terms") if len(terms) > _TERMS_SHOWN else joined(
        line(f"{symbol} ", figure_text(term, system))
        for symbol, term in zip(figure.symbols, terms, strict=True)
    )
    note = f"; {figure.note}" if figure.note else ""
    return (figure.label, figure_text(figure, system), figure.equation, put_in,
            f"{source_in(figure.source, system)}{note}")
