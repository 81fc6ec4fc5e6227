"""The run sheet: coil by coil in loading order, what to cut for which plane, what is left."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator

from coilwright.calc.run import LONG_PANEL
from coilwright.drawing.one_line import one_line
from coilwright.plan.coils.run import Run, RunCoil, run_of
from coilwright.plan.result import Plan
from coilwright.sheets.plane_lists import cut_length
from coilwright.sheets.trim import trim_blanks
from coilwright.sheets.workings import workings
from coilwright.sheets.writing import (
    bullets,
    figure_text,
    heading,
    joined,
    paragraph,
    quote,
    safe,
    table,
)
from coilwright.units import Kind, System, show
from coilwright.words import words
from coilwright.words.counting import noun

_FORMULA = re.compile(r"[=+\-@\t\r]")


def run_sheet(plan: Plan) -> str:
    """The run as Markdown."""
    run = run_of(plan)
    return joined([
        heading(1, f"Run sheet: {safe(plan.job.title)}"),
        _state(plan),
        paragraph("`~` marks a number that rests on a guess."),
        _totals(plan, run),
        heading(2, "Before the first panel"),
        bullets(_before(plan)),
        *(_coil(plan, coil) for coil in run.coils),
        trim_blanks(plan),
        _carrying(plan, run),
        _workings(plan, run),
    ])


def _state(plan: Plan) -> str:
    if plan.ready:
        return quote("**READY.** Every answer it rests on is sure.")
    return quote(f"**{safe(plan.state)}.** Do not run from this sheet before it is settled.")


def _totals(plan: Plan, run: Run) -> str:
    if not run.coils:
        return paragraph("There is nothing to run yet: the plan has no coils.")
    said = [f"{len(run.coils)} coils to load, in this order" if len(run.coils) > 1
            else "One coil to load"]
    count = plan.figures["panels.count"]
    said.append(f"{figure_text(count, plan.job.units)} {noun(count.value, 'panel')}")
    if run.minutes is not None:
        said.append(
            f"machine time {figure_text(run.minutes, plan.job.units)}, without loading, stops and "
            "stacking"
        )
    return paragraph("; ".join(said) + ".")


def _before(plan: Plan) -> Iterator[str]:
    yield (
        "**Caution.** Guards on, hands and sleeves away from rolls and shear. Power off and locked "
        "before clearing a jam: a jammed strip is under force."
    )
    yield (
        "**Caution.** Coils are lifted with rated gear only; the rating plates decide. Nobody "
        "under a coil, ever."
    )
    if caution := words("coils.carry").caution:
        yield f"**Caution.** {safe(caution)}"
    yield "Read each coil's tag against this sheet: metal, thickness, width, colour, painted side."
    strip = plan.figures.get("strip.width")
    if strip is not None:
        yield (
            f"Measure the strip: {figure_text(strip, plan.job.units)}. Run one panel, measure its "
            "coverage width, legs and length, and put the machine right before going on."
        )


def _coil(plan: Plan, coil: RunCoil) -> str:
    system = plan.job.units
    rests_on = (plan.figures.get(key) for key in ("machine.thread_up", "panels.length"))
    used = "~ " if any(figure is not None and figure.mark for figure in rests_on) else ""
    left = f"{coil.left.mark} " if coil.left.mark else ""
    return joined([
        heading(2, f"{coil.number}. {safe(coil.name)}"),
        paragraph(". ".join(_facts(plan, coil)) + "."),
        table(
            ("panels", "length", "for", "one weighs", "run so far", "left on it"),
            [
                (
                    f"{b.cut.count:,}", cut_length(plan, b.cut.plane, b.cut.length),
                    safe(b.cut.name), figure_text(b.mass, system),
                    used + safe(show(b.so_far, Kind.LENGTH, system)),
                    left + safe(show(b.left, Kind.LENGTH, system)),
                )
                for b in coil.batches
            ],
            right=(0, 1, 3, 4, 5),
        ),
        paragraph(_end(plan, coil)),
    ])


def _facts(plan: Plan, coil: RunCoil) -> Iterator[str]:
    system = plan.job.units
    own = coil.on_hand
    if own is None:
        assert coil.shortest is not None
        yield (
            f"A new coil: {figure_text(coil.length, system)} as ordered, "
            f"{figure_text(coil.shortest, system)} at the short end"
        )
        most = plan.figures[f"{coil.key}.heaviest"]
        yield (
            f"It weighs {figure_text(coil.mass, system)} as ordered, and may come at "
            f"{figure_text(most, system)}"
        )
    else:
        yield f"On hand: {figure_text(coil.length, system)} at least"
        where = ", ".join(
            f"{name} {safe(text)}" for name, text in (("lot", own.lot), ("stands at", own.where))
            if text
        )
        if where:
            yield where[0].upper() + where[1:]
        strip = plan.figures["strip.width"]
        if own.width > strip.value + 1e-6:
            yield f"Slit to {figure_text(strip, system)} before it is run"
        yield f"It weighs {figure_text(coil.mass, system)} at most"
    thread = plan.figures["machine.thread_up"]
    yield f"Threading up takes {figure_text(thread, system)}"
    if coil.minutes is not None:
        yield f"Machine time {figure_text(coil.minutes, system)}"


def _end(plan: Plan, coil: RunCoil) -> str:
    system = plan.job.units
    tail = figure_text(plan.figures["machine.tail"], system)
    left = figure_text(coil.left, system)
    said = f"Past the last panel and a tail of {tail}, {left} is left where no spare was used."
    if coil.left_short is not None:
        said += f" If it came at the short end, {figure_text(coil.left_short, system)}."
    return said + " Measure what is left, tag it, and put it back in stock."


def _carrying(plan: Plan, run: Run) -> str:
    """Panels by length: what each weighs, and who carries it."""
    if not run.coils:
        return ""
    counts: dict[float, int] = {}
    for coil in run.coils:
        for batch in coil.batches:
            counts[batch.cut.length] = counts.get(batch.cut.length, 0) + batch.cut.count
    by_length = {b.cut.length: b for coil in run.coils for b in coil.batches}
    system = plan.job.units
    rows = []
    for length in sorted(counts, reverse=True):
        batch = by_length[length]
        rows.append((
            cut_length(plan, batch.cut.plane, length), f"{counts[length]:,}",
            figure_text(batch.mass, system),
            f"**{batch.people} people**" if batch.people > 1 else "one",
        ))
    carry, long = figure_text(run.carry, system), safe(show(LONG_PANEL, Kind.LENGTH, system))
    return joined([
        heading(2, "Who carries a panel"),
        table(("length", "panels", "one weighs", "carried by"), rows, right=(0, 1, 2)),
        paragraph(
            f"One person carries {carry} at most, and no panel longer than {long} alone, whatever "
            "it weighs (common practice, no source; your own rules and the wind may ask for more "
            "people)."
        ),
    ])


def _workings(plan: Plan, run: Run) -> str:
    figures = [f for coil in run.coils for f in (coil.left, coil.minutes) if f is not None]
    heaviest = max((b.mass for c in run.coils for b in c.batches), key=lambda f: f.value,
                   default=None)
    shown = [*([heaviest] if heaviest else []), *figures[:8]]
    made = workings(shown, plan.job.units, tuple(f"{coil.key}." for coil in run.coils))
    return joined([heading(2, "How these numbers were made"), made]) if made else ""


def run_rows(plan: Plan) -> str:
    """The run as CSV: one row for each batch, in the order they are run.

    Sizes are numbers in the units their column names. Text that a spreadsheet would run as a
    formula gets an apostrophe in front.
    """
    us = plan.job.units is System.US
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    length, mass = ("in", "lb") if us else ("mm", "kg")
    writer.writerow([
        "order", "coil", "on hand", "lot", "plane", "panels", f"length ({length})",
        f"one weighs ({mass})", f"run so far ({length})", f"left on it ({length})", "carried by",
        "machine minutes, whole coil",
    ])
    for coil in run_of(plan).coils:
        lot = coil.on_hand.lot if coil.on_hand else ""
        for batch in coil.batches:
            writer.writerow([
                coil.number, _cell(coil.name), "no" if coil.on_hand is None else "yes",
                _cell(lot), _cell(batch.cut.name), batch.cut.count,
                *(_number(v, Kind.WIDTH, us) for v in (batch.cut.length,)),
                _number(batch.mass.value, Kind.MASS, us),
                *(_number(v, Kind.WIDTH, us) for v in (batch.so_far, batch.left)),
                batch.people, "" if coil.minutes is None else _plain(coil.minutes.value),
            ])
    return text.getvalue()


def _number(value: float, kind: Kind, us: bool) -> str:
    if not us:
        value *= 25.4 if kind is Kind.WIDTH else 0.45359237
    return _plain(value)


def _plain(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _cell(text: str) -> str:
    plain = one_line(text)
    return f"'{plain}" if _FORMULA.match(plain) else plain
