"""The order sheet: what is ordered, on one page, and what a revision changes of the one before."""

from __future__ import annotations

from coilwright.drawing.safe_text import one_line
from coilwright.job.answers.metal import MetalKey
from coilwright.plan.order_limits import heaviest_coil, largest_coil
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Rows, Sheet
from coilwright.sheets.order_body import order_body
from coilwright.sheets.revision import revision_part
from coilwright.sheets.spreadsheet import column_units, figure_in_column
from coilwright.sheets.told import next_headed
from coilwright.units import System, show_number
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, row_key


def order_sheet(plan: Plan) -> Sheet:
    """The order; one that is not ready is a draft, and says no more of it than that.

    A revision lists what it changes. It is headed by the revision that comes next, and undated,
    where what was sent is not it.
    """
    return order_as_headed(next_headed(plan))


def order_as_headed(plan: Plan) -> Sheet:
    """The order by the head it has: as it is sent, its revision and its date are in that already.
    """
    head, *rest = order_body(plan)
    order = plan.job.order
    revision = f", revision {one_line(order.revision)}" if order.revision else ""
    return Sheet(f"Coil order {one_line(order.number)}".rstrip() + revision,
                 (head, *revision_part(plan, (head, *rest)), *rest),
                 compact=True, draft=not plan.ready)


def order_rows(plan: Plan) -> Rows:
    """All that is ordered, for a spreadsheet: a row for each coil, and each line of trim metal.

    Sizes are numbers in the units their column names, as the page says them.
    """
    system = plan.job.units
    length, mass = column_units(system)
    header = ("count", "what", f"width ({length})", f"thickness ({length})",
              f"length each ({length})", f"weight each ({mass})", f"min length ({length})",
              f"max weight ({mass})", f"max OD ({length})")
    rows: list[tuple[str | int | float, ...]] = []
    for coil in plan.coils:
        least = plan.figures[row_key("coil", coil.number, "shortest")]
        sizes = (coil.length, coil.mass, least, heaviest_coil(plan, coil),
                 largest_coil(plan, coil))
        rows.append((1, f"coil {coil.number}", *_strip(
            plan.figures[Key.STRIP_WIDTH], plan.figures[MetalKey.THICKNESS], system),
            *(figure_in_column(size, system) for size in sizes)))
    rows += [
        (int(bought.count.value), bought.what.value,
         *_strip(bought.width, bought.thickness, system),
         *(figure_in_column(size, system) for size in (bought.length, bought.each)), "", "", "")
        for bought in plan.buy if bought.what is not BuyWhat.COIL
    ]
    return Rows(header, tuple(rows))


def _strip(width: Figure, thickness: Figure, system: System) -> tuple[float, str]:
    """Width and thickness; the thickness as text, which keeps the zeros it is printed with."""
    return figure_in_column(width, system), show_number(thickness.value, thickness.kind, system)[0]
