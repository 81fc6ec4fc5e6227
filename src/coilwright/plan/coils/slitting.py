"""The supplier's masters side by side where the supplier slits to width, and checks of slitting.

Where the supplier slits, the order is for strips and the drop is the supplier's: the masters are
only compared. An order in passes is in `passes.py`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coilwright.calc import price, slitting
from coilwright.job.answers.coils import MASTERS, CoilsKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.trim import TrimFrom
from coilwright.plan.coils.passes import given_masters
from coilwright.plan.ledger import Lacking, Ledger, require
from coilwright.plan.result import SlitPlan
from coilwright.plan.view import View, care, note, stop
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key, part_of, row_key

_LOOSE = 1e-6


def enter_slitting(ledger: Ledger) -> tuple[SlitPlan, ...]:
    """Enter what every master given leaves of the strips ordered; the least metal comes first.

    Empty while no master is given, while something is lacking, or where nothing is ordered.
    """
    masters = given_masters(ledger)
    if not masters:
        return ()
    terms = (
        ledger.answer(CoilsKey.EDGE_TRIM), ledger.got(Key.STRIP_WIDTH),
        ledger.got(Key.COIL_LENGTH_ORDERED, "no order yet"), ledger.got(Key.METAL_SHEET_MASS),
    )
    try:
        edge, strip, ordered, _ = require(*terms)
    except Lacking as lacking:
        ledger.lack(Key.SLIT_DROP_MASS, "Drop by slitting", lacking.needs, lacking.because)
        return ()
    if ordered.value <= 0:
        return ()
    made = [_slit(ledger, number, master, edge, strip, ordered) for number, master in masters
            if strip.value <= master.value - edge.value + _LOOSE]
    return tuple(sorted(made, key=lambda one: (round(one.mass.value, 6), one.master.value)))


def _slit(
    ledger: Ledger, number: int, master: Figure, edge: Figure, strip: Figure, ordered: Figure
) -> SlitPlan:
    key, put, sheet = row_key("slit", number), ledger.put, ledger.figures[Key.METAL_SHEET_MASS]
    name = f"Master {master.text(ledger.job.units)}"
    strips = put(part_of(key, "strips"), f"{name}: strips side by side", slitting.strips_across,
                 master, edge, strip)
    length = put(part_of(key, "length"), f"{name}: length", slitting.master_length, ordered,
                 strips)
    mass = put(part_of(key, "mass"), f"{name}: weight", slitting.master_mass, sheet, master, length)
    width = put(part_of(key, "width"), f"{name}: drop by width", slitting.slit_drop, master, strips,
                strip)
    weight = put(part_of(key, "drop_mass"), f"{name}: drop by weight", slitting.drop_mass, sheet,
                 width, length)
    share = put(part_of(key, "share"), f"{name}: drop as a share", slitting.drop_share, weight,
                mass)
    each, money = ledger.given(CoilsKey.PRICE), None
    if each is not None:
        money = put(part_of(key, "money"), f"{name}: cost of the drop", price.cost, weight, each)
    return SlitPlan(key=key, master=master, strips=strips, length=length, mass=mass, width=width,
                    share=share, drop_mass=weight, money=money)


def check_slitting(view: View) -> Iterator[Finding]:
    """All checks of the supplier's masters."""
    masters = [
        (number, key, view.figures[key]) for number, key in enumerate(MASTERS, 1)
        if key in view.figures
    ]
    if not masters:
        return
    yield from _narrow(view, masters)
    yield from _surplus(view)
    yield from _trim_beside(view)


def _narrow(view: View, masters: Sequence[tuple[int, str, Figure]]) -> Iterator[Finding]:
    strip, edge = view.value(Key.STRIP_WIDTH), view.value(CoilsKey.EDGE_TRIM) or 0.0
    if strip is None:
        return
    narrow = [m for m in masters if strip > m[2].value - edge + _LOOSE]
    say = note if len(narrow) < len(masters) else care
    if say is care and view.job.coils.in_passes:
        say = stop
    trimmed = f" less {view.text(CoilsKey.EDGE_TRIM)} of edge trim" if edge else ""
    for number, key, master in narrow:
        yield say(
            f"slit.narrow{number}",
            f"The strip, {view.text(Key.STRIP_WIDTH)}, is wider than the master, "
            f"{master.text(view.job.units)}{trimmed}.",
            "No strip of that width can be slit from it.",
            "Use a wider master, or a narrower coverage width.",
            slitting.SLIT, key, CoilsKey.EDGE_TRIM, PanelKey.COVERAGE,
        )


def _surplus(view: View) -> Iterator[Finding]:
    """Strands that a pass winds and no panel needs."""
    more = [coil for coil in view.coils if not coil.cuts]
    if not more:
        return
    names = ", ".join(f"coil {coil.number}" for coil in more)
    yield care(
        "slit.surplus", f"More is wound than is needed: {names}.",
        "All strands of a pass are as long as the pass, and the last one is not needed.",
        "Have it put to stock, compare another master, or let the supplier slit to width.",
        slitting.PASS, CoilsKey.SLITTING, CoilsKey.MASTER,
    )


def _trim_beside(view: View) -> Iterator[Finding]:
    """Trim cut from the strip that the drop of every pass is wide enough for."""
    if not view.job.coils.in_passes:
        return
    drops = [figure for key, figure in view.figures.items()
             if key.startswith("slit.") and ".pass" in key and key.endswith(".drop")]
    edge = view.value(CoilsKey.EDGE_TRIM) or 0.0
    if not drops:
        return
    least = min(drops, key=lambda figure: figure.value)
    fit = [piece.name for piece in view.job.trim.pieces
           if piece.made_from is TrimFrom.PANEL_COIL and piece.flat_width is not None
           and piece.flat_width <= least.value - edge + _LOOSE]
    if fit:
        yield note(
            "slit.beside",
            f"The drop of every pass, {least.text(view.job.units)} wide, is wide enough for: "
            f"{', '.join(fit)}.",
            "Trim cut from the strip takes strip; slit beside it, it takes what would be lost.",
            "To order so, set the pieces to come from another coil as wide as their flat width.",
            slitting.PASS, CoilsKey.SLITTING,
        )
