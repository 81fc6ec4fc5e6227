"""The coils on hand on the command line: the list, and which of them fit a job."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from coilwright.drawing.safe_text import one_line
from coilwright.units import Kind, System, show
from coilwright.values.keys import Key

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.job.stock import CoilOnHand, Stock


def stock(given: argparse.Namespace) -> int:
    """List the coils on hand; with a job, which fit it and why the others do not."""
    from coilwright.cli.finding import find_job
    from coilwright.cli.kept import kept
    from coilwright.store import home
    from coilwright.store.claims import claimed_of
    from coilwright.store.stock import read_stock, stock_path

    found = find_job(given.job) if given.job else None
    job = found.job if found is not None else None
    coils = read_stock(home())
    system = kept().usual_units() if job is None else job.units
    if given.json:
        from coilwright.cli.commands import print_json

        print_json(_data(coils, job, system))
    elif not coils.coils:
        print(f"No coils on hand are listed in {stock_path(home())}; the wizard's screen "
              "“Coils on hand” adds them.", file=sys.stderr)
    else:
        print(_listed(coils, system) if job is None else _held_to(coils, job), end="")
        besides = found.path if found is not None else None
        for tag, titles in claimed_of(coils, kept().claimants(besides)).items():
            print(f"Coil {one_line(tag)} is claimed by {one_line(titles)}; it can be cut once.",
                  file=sys.stderr)
    return 0


def _cells(coil: CoilOnHand, system: System) -> tuple[str, ...]:
    from coilwright.plan import coil_lengths

    least, most = coil_lengths(coil, system)
    long = show(coil.length, Kind.LENGTH, system) if coil.length is not None else (
        f"{show(max(0.0, least.value), Kind.LENGTH, system)} to {most.text(system)}")
    metal = f"{coil.metal.value} {coil.coating.value}" if coil.coating else coil.metal.value
    return (coil.tag, metal, show(coil.thickness, Kind.THICKNESS, system),
            show(coil.width, Kind.WIDTH, system), long, coil.color_words or "bare")


def _data(coils: Stock, job: Job | None, system: System) -> list[dict[str, object]]:
    """Each coil as its file has it, with the length it can be; with a job, whether it fits."""
    from coilwright.plan import coil_lengths, fitting
    from coilwright.sheets.data.quantities import quantity
    from coilwright.store.reader import to_data

    rows: list[dict[str, object]] = []
    for coil in coils.coils:
        lengths = zip(("length_least", "length_most"), coil_lengths(coil, system),
                      strict=True)
        row: dict[str, object] = {**to_data(coil), **{
            name: quantity(max(0.0, one.value), Kind.LENGTH, system) for name, one in lengths}}
        if job is not None:
            reasons = list(fitting(job, coil))
            row |= {"fits": not reasons, "reasons": reasons,
                    "used": coil.tag in {one.tag for one in job.on_hand}}
        rows.append(row)
    return rows


_HEADS = ("tag", "metal", "thickness", "width", "length", "color")


def _listed(coils: Stock, system: System) -> str:
    from coilwright.cli.lists import columns

    rows = [(*_cells(coil, system), coil.lot, coil.where) for coil in coils.coils]
    return columns((*_HEADS, "lot", "where"), rows)


def _held_to(coils: Stock, job: Job) -> str:
    """Each coil with what the job makes of it; below, what using all that fit would save."""
    from coilwright.cli.lists import columns
    from coilwright.plan import fitting, plan
    from coilwright.plan.coils.leftovers import with_fitting

    taken = {coil.tag for coil in job.on_hand}
    rows = []
    for coil in coils.coils:
        reasons = fitting(job, coil)
        use = " ".join(reasons) or ("fits, used" if coil.tag in taken else "fits")
        rows.append((*_cells(coil, job.units), use))
    text = columns((*_HEADS, one_line(job.title)), rows)
    using = with_fitting(job, coils)
    if not using.on_hand:
        return f"{text}None of them fits this job.\n"
    made, system = plan(using), job.units
    figures = made.figures
    saved = [figures[key].text(system) for key in ("save.length", "save.mass", Key.SAVE_MONEY)
             if key in figures]
    order = figures.get(Key.COIL_LENGTH_ORDERED)
    if not saved or order is None:
        return text
    return (f"{text}Using all that fit saves {', '.join(saved)}; {order.text(system)} to "
            "order.\n")
