"""The run sheet: coil by coil in loading order, what to cut for which plane, room to write."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.roof.end_cuts import EndCut
from coilwright.drawing.plane import plane_lines
from coilwright.drawing.plane_facts import runs
from coilwright.drawing.svg import plane_svg, width_to_read
from coilwright.drawing.svg_parts import ACROSS
from coilwright.job.answers.machine import MachineKey
from coilwright.job.receiving import coil_name
from coilwright.job.stock import CoilOnHand, LengthBy
from coilwright.plan.coils.as_cut import RowAsCut, rows_as_cut
from coilwright.plan.coils.run import Run, RunCoil, RunPieces, RunRow, run_of
from coilwright.plan.order_limits import heaviest_coil
from coilwright.plan.receiving.receive import receive
from coilwright.plan.result import Plan, PlanePlan
from coilwright.sheets.baseline import baseline
from coilwright.sheets.before_run import (
    LENGTH,
    WIDE,
    before_run,
    carrying,
    how_to_read,
    planes_cut,
    run_cautions,
)
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Drawing,
    Inline,
    Kept,
    Rows,
    Sheet,
    Signature,
    Text,
    Tick,
    Ticks,
    bullets,
    facts,
    heading,
    joined,
    line,
    marked,
    paragraph,
    room,
    stacked,
    strong,
    table,
    ticks,
)
from coilwright.sheets.building import building_drawing
from coilwright.sheets.came import as_it_came, decided_words, several_words
from coilwright.sheets.designations import metal_words
from coilwright.sheets.lots_met import lots_part
from coilwright.sheets.machine import machine_text
from coilwright.sheets.names import LEGEND, figure_text
from coilwright.sheets.parts import (
    caution_line,
    cut_length,
    order_facts,
    short_side,
    site_text,
)
from coilwright.sheets.short_panels import by_hand
from coilwright.sheets.since_sent import lists_since_sent
from coilwright.sheets.spreadsheet import column_units, figure_in_column, in_column
from coilwright.sheets.state import state_of
from coilwright.sheets.trim_blanks import side_by_side, trim_blanks
from coilwright.units import Kind, System, in_thousands, show
from coilwright.values.keys import Key, row_key
from coilwright.words.counting import noun

_DRAWN = (76, 20)
"""Characters across and down for a drawing."""


def run_sheet(plan: Plan) -> Sheet:
    """The run, coil by coil."""
    sent = baseline(plan)
    run = run_of(plan, receive(sent), sent)
    return Sheet(f"Run sheet: {plan.job.title}", stacked(
        _state(plan, run, lists_since_sent(plan, sent, run)),
        *several_words(run, plan.job.units),
        facts("run", _head(plan)),
        _totals(plan, run),
        lots_part(plan, run),
        heading(2, "Before the first panel"),
        ticks(before_run(plan)),
        bullets(map(caution_line, run_cautions())),
        carrying(plan, run),
        how_to_read(plan, run),
        *(block for coil in run.coils for block in _coil(plan, sent, coil)),
        _drawings(plan, run),
        trim_blanks(plan),
        Signature(("Run by", "Checked by"), ("name", "signature", "date")) if run.coils else (),
    ), compact=True)


def _state(plan: Plan, run: Run, changed: Text) -> tuple[Block, ...]:
    if plan.ready:
        came = any(coil.came or coil.gone for coil in run.coils)
        settled = (" Coils that came stand here as they came; the others as ordered." if came
                   else " The order is settled; no coil of it is entered as it came.")
        return (Banner((paragraph(strong(f"{state_of(plan)}."), settled, changed),), draft=False),)
    held = plan.readiness.reasons
    first = f": {held[0].words.rstrip('.')}" if held else ""
    more = f" (1 of {len(held)}; the summary names all)" if len(held) > 1 else ""
    said = line(strong(f"{state_of(plan)}."),
                f" Do not run from this sheet before it is settled{first}{more}.", changed)
    return (Banner((paragraph(said), LEGEND), draft=True),)


def _head(plan: Plan) -> Iterator[tuple[str, Inline]]:
    job = plan.job
    yield from order_facts(plan)
    yield "Site", site_text(plan) or line(room(WIDE))
    yield "Machine", machine_text(job) or line(room(WIDE))
    if job.metal.metal is not None:
        yield "Metal", metal_words(job.metal)
    if job.metal.color and job.metal.may_be_painted:
        # The tag may bear the code alone, and another code is another color.
        yield "Color", ", ".join(filter(None, (job.metal.color, job.metal.color_code)))
    yield "Date", line(room(WIDE))
    yield "Crew lead", line(room(WIDE))


def _totals(plan: Plan, run: Run) -> Block:
    if not run.coils:
        return paragraph("There is nothing to run yet: the plan has no coils.")
    system = plan.job.units
    coils = (f"{len(run.coils)} coils to load, in this order" if len(run.coils) > 1
             else "One coil to load")
    count = plan.figures[Key.PANELS_COUNT]
    minutes = () if run.minutes is None else line(
        "; machine time ", figure_text(run.minutes, system), ", without loading, stops and "
        "stacking")
    return paragraph(f"{coils}; ", figure_text(count, system), f" {noun(count.value, 'panel')}",
                     minutes, ".")


# ---------------------------------------------------------------- one coil


def _coil(plan: Plan, sent: Plan, coil: RunCoil) -> tuple[Block, ...]:
    blanks = any(not row.pieces for batch in coil.batches for row in batch.rows)
    painted = ", color, painted side" if plan.job.metal.may_be_painted else ""
    return stacked(Kept(stacked(
        heading(2, f"Load {coil.number}: {coil.title}"),
        paragraph(joined(_facts(plan, sent, coil), ". "), "."),
        Ticks(tuple(Tick(line(text)) for text in (
            f"tag read: metal, thickness, width{painted}", "chocked until loaded",
            "first panel of this coil measured",
        )), in_line=True),
        *_on_tag(coil),
    )),
        table(
            ("✓", "pieces" if blanks else "panels", "length", "short side", "ends", "numbers",
             "left on it", "made", "scrap", "measured left"),
            [_row(plan, coil, one) for one in rows_as_cut(coil, plan.job.units)],
            right=(1, 2, 3, 6), write=(7, 8, 9), title=f"Load {coil.number}: {coil.title}",
        ),
        _end(plan, coil),
        Ticks((Tick(line("measured left ", room(LENGTH))), Tick(line("tagged")),
               Tick(line("back in stock")), Tick(line("used up"))), in_line=True),
    )


def _on_tag(coil: RunCoil) -> tuple[Block, ...]:
    """Room for who runs a coil and when, and for what is read on the tag of one whose length
    nobody entered."""
    run_by = ("Run by ", room(LENGTH), ", from ", room(5), " to ", room(5))
    if coil.on_hand is not None or coil.counted is not None:
        return (paragraph(*run_by),)
    return (paragraph("Length on its tag ", room(LENGTH), ", more or less than ordered by ",
                      room(LENGTH), ": so much more or less is left on it, row by row. ", *run_by),)


def _to_cut(length: float, system: System) -> str:
    """A length as fine as it is cut, long as it may be: to 1 mm in metric."""
    if system is System.US or abs(length) < _LONG:
        return show(length, Kind.LENGTH, system)
    return f"{in_thousands(length * 0.0254, system, 3)} m"


_LONG = 100 / 0.0254
"""From here on a length is told to 10 mm elsewhere [in]."""


def _row(plan: Plan, coil: RunCoil, one: RowAsCut) -> tuple[Inline, ...]:
    system, cut, row = plan.job.units, one.batch.cut, one.row
    whole = cut_length(plan, cut.plane, cut.length)
    side = short_side(row.short, cut.length, system)
    short: Inline = "—" if side is None else cut_length(plan, cut.plane, side)
    return (
        Tick(()).box, in_thousands(row.count, system),
        whole, short,
        _ends(row), _numbers(plan, cut.plane, row, cut.name) + by_hand(plan, row, cut.length),
        marked(coil.left.mark, _to_cut(one.left, system)), "", "", "",
    )


_SAME = 1e-6
"""Sides nearer than this [in] are of one length."""


def _ends(row: RunRow) -> str:
    """The cuts of both ends without their direction: `upper 50.2°`."""
    if not row.pieces:
        return "square"
    said = [f"{name} {_angle(end)}"
            for name, end in (("lower", row.pieces[0].low), ("upper", row.pieces[0].high))
            if end.angle != 0.0]
    return ", ".join(said) or "square"


def _angle(end: EndCut) -> str:
    return "shaped" if end.angle is None else f"{abs(end.angle):.1f}°"


_FLAT = "for trim: flat, not formed"
"""What stands where panels have numbers, beside blanks for trim."""


def _numbers(plan: Plan, number: int, row: RunRow, name: str = "") -> str:
    """Which panels they are, by plane where there are planes alike and by direction of the cut."""
    if not row.pieces:
        return _FLAT + ("" if row.blanks is None else f": {side_by_side(plan, row.blanks)}")
    alike = next((p.alike for p in plan.planes if p.number == number), 1)
    by_copy: dict[int, list[str]] = {}
    for piece in row.pieces:
        by_copy.setdefault(piece.copy, []).append(
            " ".join(filter(None, (runs(piece.numbers), _lean(piece)))))
    copies: dict[str, list[int]] = {}
    for copy, pieces in by_copy.items():
        copies.setdefault(", ".join(pieces), []).append(copy)
    parts = []
    for said, these in copies.items():
        which = "" if alike == 1 else (
            f"each of {alike}" if len(these) == alike else f"({runs(these)} of {alike})")
        parts.append(": ".join(filter(None, (" ".join(filter(None, (name, which))), said))))
    return "; ".join(parts)


def _lean(piece: RunPieces) -> str:
    """Which way the ends that are not square go, from left to right: `rising`."""
    angled = [(name, "rising" if end.angle > 0 else "falling")
              for name, end in (("lower", piece.low), ("upper", piece.high)) if end.angle]
    if len(angled) == 2 and angled[0][1] != angled[1][1]:
        return " and ".join(f"{name} {way}" for name, way in angled)
    return angled[0][1] if angled else ""


def _facts(plan: Plan, sent: Plan, coil: RunCoil) -> Iterator[Inline]:
    system = plan.job.units
    own = coil.on_hand
    yield from decided_words(coil)
    if coil.counted is not None:
        yield from as_it_came(coil, system)
    elif own is None:
        assert coil.shortest is not None
        # As on the order, and weights as on the haul card: all papers say the same.
        by = sent if coil.is_sent else plan
        ordered = next(one for one in by.coils if one.number == coil.order_number)
        heaviest = heaviest_coil(by, ordered)
        held = heaviest.key != row_key("coil", ordered.number, "heaviest")
        if plan.job.arrived and coil.is_sent and not coil.came and not coil.gone:
            yield strong("Awaited: it has not come, so there is nothing to run yet")
        if not coil.is_sent:
            yield strong("NOT ORDERED: it stands here as it would be ordered now")
        in_place = coil.gone and not coil.came
        yield line("To come in its place: " if in_place else "A new coil: ",
                   figure_text(coil.length, system), " as ordered, ",
                   figure_text(coil.shortest, system), " at the shortest it may come")
        yield line("It weighs ", figure_text(coil.mass, system),
                   " as ordered, ", figure_text(heaviest, system),
                   " at most by the order" if held else " at the heaviest it may come",
                   ", skid not counted")
    else:
        yield line("On hand: ", figure_text(coil.length, system),
                   " at least", *_held_back(plan, own))
        where = ", ".join(
            f"{name} {text}" for name, text in (("lot", own.lot), ("stands at", own.where)) if text
        )
        if where:
            yield where[0].upper() + where[1:]
        if remark := own.remark.strip().rstrip("."):
            yield f"Remark: {remark}"
        strip = plan.figures[Key.STRIP_WIDTH]
        if own.width > strip.value + _SAME:
            yield line("Slit to ", figure_text(strip, system), " before it is run")
        yield line("It weighs ", figure_text(coil.mass, system), " at most")
    thread = plan.figures[MachineKey.THREAD_UP]
    yield line("Threading up takes ", figure_text(thread, system))
    if coil.minutes is not None:
        yield line("Machine time ", figure_text(coil.minutes, system))


def _held_back(plan: Plan, coil: CoilOnHand) -> Iterator[str]:
    """What is held back of a length that nobody measured; that nothing is of a measured one."""
    if coil.length is not None and coil.length_by is not LengthBy.MEASURED:
        said = show(coil.length, Kind.LENGTH, plan.job.units)
        yield (f"; said to be {said}, and not measured: measure it as it is unwound, and cut "
               "nothing that is planned beyond its end")
    elif coil.length is not None:
        yield ("; as it was measured, with nothing held back for how it was: check what is left on "
               "it before the last panels are cut")


def _end(plan: Plan, coil: RunCoil) -> Block:
    system = plan.job.units
    tail = figure_text(plan.figures[MachineKey.TAIL], system)
    short: Text = ()
    if coil.left.value < -_SAME:
        missing = show(-coil.left.value, Kind.LENGTH, system)
        return paragraph(strong(f"It is {missing} short of this list."), " Cut the longest panels "
                         "first, and ask before the last ones: what is missing is to be ordered.")
    if coil.left_short is not None:
        short = line(" If it is as short as it may be by that measure, "
                     if coil.counted is not None else " If it came at its shortest, ",
                     figure_text(coil.left_short, system), ".")
    return paragraph("Past the last panel and a tail of ", tail, ", ",
                     figure_text(coil.left, system),
                     " is left over where no spare was used.",
                     short, _again(plan, coil))


def _again(plan: Plan, coil: RunCoil) -> Text:
    """How many of its longest panels a coil can make again, as short as it may come."""
    longest = coil.longest
    if longest is None:
        return ()
    again = strong(f"{coil.again:,} again" if coil.again else "none again")
    return line(" That makes ", again, " of its longest, ",
                cut_length(plan, longest.plane, longest.length), ".")


def _drawings(plan: Plan, run: Run) -> tuple[Block, ...]:
    """The building; each plane the coils are cut for, its panels numbered; planes alike once."""
    used = {batch.cut.plane for coil in run.coils for batch in coil.batches}
    whole = building_drawing(plan, _SMALL)
    above = (Kept((heading(2, "The roof from above"), *whole)),) if whole and used else ()
    return above + tuple(_drawing(plan, same) for same in planes_cut(plan, run))


_SMALL = 0.5
"""Of the page's width: the building, of which only the places of planes are read."""


def _drawing(plan: Plan, same: list[PlanePlan]) -> Block:
    plane, system = same[0], plan.job.units
    across, down = _DRAWN
    wide = width_to_read(plane)
    return Kept((
        heading(2, ", ".join(one.name for one in same)),
        Drawing(plane.key, across, lambda wide: plane_lines(plane, wide, down, system),
                lambda: plane_svg(plane, system, wide), wide / ACROSS),
    ))


def run_rows(plan: Plan) -> Rows:
    """The run for a spreadsheet: a row for pieces alike, in the order they are run.

    Sizes are numbers in the units their column names, as the page says them; the last columns are
    left to fill in.
    """
    system, sent = plan.job.units, baseline(plan)
    length, mass = column_units(system)
    header = (
        "order", "coil", "on hand", "lot", "plane", "pieces", f"length ({length})",
        f"short side ({length})", "ends", "numbers",
        f"one weighs ({mass})", f"run so far ({length})", f"left on it ({length})", "carried by",
        "machine minutes, whole coil", "made", "scrap", f"measured left ({length})",
    )
    return Rows(header, tuple(
        _cells(plan, coil, one)
        for coil in run_of(plan, receive(sent), sent).coils for one in rows_as_cut(coil, system)))


def _cells(plan: Plan, coil: RunCoil, one: RowAsCut) -> tuple[str | int | float, ...]:
    """A row of a run for a spreadsheet."""
    batch, row, system = one.batch, one.row, plan.job.units
    side = short_side(row.short, batch.cut.length, system)
    return (
        coil.number, coil.name if coil.on_hand else coil_name(coil.order_number),
        "no" if coil.on_hand is None else "yes", "; ".join(coil.lots), batch.cut.name, row.count,
        in_column(batch.cut.length, Kind.LENGTH, system),
        "" if side is None else in_column(side, Kind.LENGTH, system),
        _ends(row), _numbers(plan, batch.cut.plane, row), figure_in_column(batch.mass, system),
        *(in_column(length, Kind.LENGTH, system) for length in (one.so_far, one.left)),
        batch.people, "" if coil.minutes is None else coil.minutes.as_read(system), "", "", "",
    )
