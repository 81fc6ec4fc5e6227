"""The run sheet: coil by coil in loading order, what to cut for which plane, what is left."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.run import LONG_PANEL
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.plan.coils.run import Run, RunCoil, run_of
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Inline,
    Rows,
    Sheet,
    Text,
    bullets,
    heading,
    joined,
    line,
    marked,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.names import LEGEND, figure_text
from coilwright.sheets.parts import caution_line, cut_length, trim_blanks, workings
from coilwright.units import Kind, System, show
from coilwright.values.keys import Key, part_of
from coilwright.words import words
from coilwright.words.counting import noun


def run_sheet(plan: Plan) -> Sheet:
    """The run, coil by coil."""
    run = run_of(plan)
    return Sheet(f"Run sheet: {plan.job.title}", stacked(
        _state(plan),
        LEGEND,
        _totals(plan, run),
        heading(2, "Before the first panel"),
        bullets(_before(plan)),
        *(_coil(plan, coil) for coil in run.coils),
        trim_blanks(plan),
        _carrying(plan, run),
        _workings(plan, run),
    ))


def _state(plan: Plan) -> Banner:
    said = line(strong(f"{plan.state}."), " Every answer it rests on is sure." if plan.ready
                else " Do not run from this sheet before it is settled.")
    return Banner((paragraph(said),), draft=not plan.ready)


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


def _before(plan: Plan) -> Iterator[Inline]:
    yield caution_line(
        "Guards on, hands and sleeves away from rolls and shear. Power off and locked before "
        "clearing a jam: a jammed strip is under force."
    )
    yield caution_line(
        "Coils are lifted with rated gear only; the rating plates decide. Nobody under a coil, "
        "ever."
    )
    if caution := words(CoilsKey.CARRY).caution:
        yield caution_line(caution)
    yield "Read each coil's tag against this sheet: metal, thickness, width, color, painted side."
    strip = plan.figures.get(Key.STRIP_WIDTH)
    if strip is not None:
        yield line(
            "Measure the strip: ", figure_text(strip, plan.job.units), ". Run one panel, measure "
            "its coverage width, legs and length, and put the machine right before going on.",
        )


def _coil(plan: Plan, coil: RunCoil) -> tuple[Block, ...]:
    system = plan.job.units
    rests_on = (plan.figures.get(key) for key in (MachineKey.THREAD_UP, Key.PANELS_LENGTH))
    used = "~" if any(figure is not None and figure.mark for figure in rests_on) else ""
    return (
        heading(2, f"{coil.number}. {coil.name}"),
        paragraph(joined(_facts(plan, coil), ". "), "."),
        table(
            ("panels", "length", "for", "one weighs", "run so far", "left on it"),
            [
                (
                    f"{b.cut.count:,}", cut_length(plan, b.cut.plane, b.cut.length), b.cut.name,
                    figure_text(b.mass, system),
                    marked(used, show(b.so_far, Kind.LENGTH, system)),
                    marked(coil.left.mark, show(b.left, Kind.LENGTH, system)),
                )
                for b in coil.batches
            ],
            right=(0, 1, 3, 4, 5),
        ),
        _end(plan, coil),
    )


def _facts(plan: Plan, coil: RunCoil) -> Iterator[Inline]:
    system = plan.job.units
    own = coil.on_hand
    if own is None:
        yield line("A new coil: ", figure_text(coil.length, system), " as ordered, ",
                   figure_text(coil.shortest, system), " at the shortest")
        yield line("It weighs ", figure_text(coil.mass, system), " as ordered, and may come at ",
                   figure_text(plan.figures[part_of(coil.key, "heaviest")], system))
    else:
        yield line("On hand: ", figure_text(coil.length, system), " at least")
        where = ", ".join(
            f"{name} {text}" for name, text in (("lot", own.lot), ("stands at", own.where)) if text
        )
        if where:
            yield where[0].upper() + where[1:]
        strip = plan.figures[Key.STRIP_WIDTH]
        if own.width > strip.value + 1e-6:
            yield line("Slit to ", figure_text(strip, system), " before it is run")
        yield line("It weighs ", figure_text(coil.mass, system), " at most")
    thread = plan.figures[MachineKey.THREAD_UP]
    yield line("Threading up takes ", figure_text(thread, system))
    if coil.minutes is not None:
        yield line("Machine time ", figure_text(coil.minutes, system))


def _end(plan: Plan, coil: RunCoil) -> Block:
    system = plan.job.units
    tail = figure_text(plan.figures[MachineKey.TAIL], system)
    short: Text = ()
    if coil.left_short is not None:
        short = line(" If it came at the shortest, ", figure_text(coil.left_short, system), ".")
    return paragraph("Past the last panel and a tail of ", tail, ", ",
                     figure_text(coil.left, system), " is left over where no spare was used.",
                     short,
                     " Measure the leftover, tag it, and put it back in stock.")


def _carrying(plan: Plan, run: Run) -> tuple[Block, ...]:
    """Panels by length: what each weighs, and who carries it."""
    if not run.coils:
        return ()
    counts: dict[float, int] = {}
    for coil in run.coils:
        for batch in coil.batches:
            counts[batch.cut.length] = counts.get(batch.cut.length, 0) + batch.cut.count
    by_length = {b.cut.length: b for coil in run.coils for b in coil.batches}
    system = plan.job.units
    rows: list[tuple[Inline, ...]] = []
    for length in sorted(counts, reverse=True):
        batch = by_length[length]
        rows.append((
            cut_length(plan, batch.cut.plane, length), f"{counts[length]:,}",
            figure_text(batch.mass, system),
            strong(f"{batch.people} people") if batch.people > 1 else "one",
        ))
    return (
        heading(2, "Who carries a panel"),
        table(("length", "panels", "one weighs", "carried by"), rows, right=(0, 1, 2)),
        paragraph(
            "One person carries ", figure_text(run.carry, system), " at most, and no panel longer "
            f"than {show(LONG_PANEL, Kind.LENGTH, system)} alone, whatever it weighs (common "
            "practice, no source; your own rules and the wind may ask for more people).",
        ),
    )


def _workings(plan: Plan, run: Run) -> tuple[Block, ...]:
    figures = [f for coil in run.coils for f in (coil.left, coil.minutes) if f is not None]
    heaviest = max((b.mass for c in run.coils for b in c.batches), key=lambda f: f.value,
                   default=None)
    shown = [*([heaviest] if heaviest else []), *figures[:8]]
    return workings(shown, plan.job.units, tuple(f"{coil.key}." for coil in run.coils))


def run_rows(plan: Plan) -> Rows:
    """The run for a spreadsheet: one row for each batch, in the order they are run.

    Sizes are numbers in the units their column names.
    """
    us = plan.job.units is System.US
    length, mass = ("in", "lb") if us else ("mm", "kg")
    header = (
        "order", "coil", "on hand", "lot", "plane", "panels", f"length ({length})",
        f"one weighs ({mass})", f"run so far ({length})", f"left on it ({length})", "carried by",
        "machine minutes, whole coil",
    )
    per_inch, per_pound = (1.0, 1.0) if us else (25.4, 0.45359237)
    return Rows(header, tuple(
        (
            coil.number, coil.name, "no" if coil.on_hand is None else "yes",
            coil.on_hand.lot if coil.on_hand else "", batch.cut.name, batch.cut.count,
            batch.cut.length * per_inch, batch.mass.value * per_pound,
            batch.so_far * per_inch, batch.left * per_inch,
            batch.people, "" if coil.minutes is None else coil.minutes.value,
        )
        for coil in run_of(plan).coils for batch in coil.batches
    ))
