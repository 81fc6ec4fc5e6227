"""Where panels of two production lots meet on one plane, by what came: the crew cuts from them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coilwright.plan.coils.checks import TRIM_OF_ONE_LOT
from coilwright.plan.coils.lots_met import (
    CoilOfLot,
    TrimMet,
    lots_met,
    lots_open,
    trim_lots,
    trim_met,
)
from coilwright.plan.coils.run import Run, run_of
from coilwright.plan.receiving.receive import receive
from coilwright.plan.result import Plan
from coilwright.sheets.baseline import baseline
from coilwright.sheets.blocks import Block, paragraph, strong
from coilwright.units import Kind, in_thousands, show
from coilwright.words.counting import capitalized, counted


def lots_part(plan: Plan, run: Run) -> tuple[Block, ...]:
    """A paragraph for each plane that is cut from coils of two lots or more, by their tags; and
    for one where that may be, by a coil that comes in place of another."""
    on_hand = (" A coil on hand can be kept to planes of its own, or to trim, in the list of coils "
               "on hand." if any(coil.on_hand is not None for coil in run.coils) else "")
    return (*_anew(run), *(
        paragraph(strong(f"Lots meet on {met.plane}: {_coils_words(met.coils)}."),
                  " Colors of two lots can differ: lay samples side by side in daylight before the "
                  f"first panel.{on_hand}")
        for met in lots_met(run)), *_trim_met(plan, run), *_without_spare(run), *_may_meet(run))


def _trim_met(plan: Plan, run: Run) -> tuple[Block, ...]:
    """That blanks for trim are cut from coils of several lots, and which pieces are of which."""
    coils = trim_lots(run)
    if len(coils) < 2:
        return ()
    said = strong(f"Trim comes of two lots or more: {_coils_words(coils)}.")
    met = trim_met(run)
    if not met:
        return (paragraph(said, " All blanks of one piece are of one lot: cut each from the list "
                          "that it stands in."),)
    return (paragraph(said, f" {TRIM_OF_ONE_LOT} These lists cannot hold every piece to one: ",
                      "; ".join(_piece_words(plan, one) for one in met), ". Where one chimney or "
                      "edge is split, cut all of it from the coil that has the metal left, and "
                      "cross it off the other list."),)


def _piece_words(plan: Plan, met: TrimMet) -> str:
    """A piece, and its blanks from each coil."""
    system = plan.job.units
    return f"{plan.job.trim.pieces[met.piece - 1].name} " + " and ".join(
        ", ".join(f"{in_thousands(count, system)} × {show(length, Kind.LENGTH, system)}"
                  for length, count in blanks) + f" from {coil.title}"
        for coil, blanks in met.coils)


def _without_spare(run: Run) -> tuple[Block, ...]:
    """That whole planes would fit if no spare was kept on the coils: whoever decides weighs it."""
    if run.without_spare is None:
        return ()
    fewer = ("whole planes of one lot would fit" if run.without_spare == 0 else
             f"{counted(run.without_spare, 'plane')} would still have panels of two lots")
    return (paragraph(
        strong(f"Without the spare {fewer}."), " These lists keep it on each coil. With none, a "
        "spoiled panel has no metal to be made from again: weigh that against the shade of two "
        "lots. Spare at 0 in a copy of the job makes those lists."),)


def _may_meet(run: Run) -> Iterator[Block]:
    """Planes that share a coil which was not kept, while the lot of what comes for it is not
    known."""
    for one in lots_open(run):
        yield paragraph(
            strong(f"Lots may meet on {', '.join(one.planes)}:"),
            f" {one.coil.title} was not kept, and the lot of what comes in its place is not known "
            f"yet. Have it of lot {' or '.join(one.lots)}; if it is not, lay samples side by side "
            "in daylight before its first panel.")


def lots_words(plan: Plan) -> str:
    """On which planes the lots of coils that came meet, in a sentence or two; empty where on none,
    while none came, and in practice."""
    if plan.job.practicing or not any(
            one.lot.strip() and not one.is_gone for one in plan.job.arrived):
        return ""
    sent = baseline(plan)
    met = lots_met(run_of(plan, receive(sent), sent))
    if not met:
        return ""
    by_coils: dict[str, list[str]] = {}
    for one in met:
        by_coils.setdefault(_coils_words(one.coils), []).append(one.plane)
    planes = "; ".join(f"{', '.join(names)}: {coils}" for coils, names in by_coils.items())
    return (f"Lots meet on {planes}. Colors of two lots can differ: lay samples side by side in "
            "daylight before the first panel.")


def _coils_words(coils: Iterable[CoilOfLot]) -> str:
    """Coils, each with its lot."""
    return " and ".join(dict.fromkeys(
        coil.title if lot in coil.title else f"{coil.title}, lot {lot}" for coil, lot in coils))


def _anew(run: Run) -> tuple[Block, ...]:
    """That lists are not those that the coils were ordered by, and which coil is in none."""
    if not run.by_lot:
        return ()
    idle = [f"{capitalized(name)} is in no list: it stays whole, for stock." for name in run.idle]
    return (paragraph(
        "The coils came of different lots: the lists are made so that as few planes as can be "
        "have panels of two, and as few pieces of trim, each within what its coil came at. Cut by "
        "no earlier list. ",
        " ".join(idle)),)
