"""Where panels of two production lots meet on one plane, by what came: the crew cuts from them."""

from __future__ import annotations

from coilwright.job.shop import plain_name
from coilwright.plan.coils.run import Run
from coilwright.sheets.blocks import Block, paragraph, strong


def lots_met(run: Run) -> tuple[Block, ...]:
    """A paragraph for each plane that is cut from coils of two lots or more, by their tags."""
    met: dict[tuple[str, int], dict[str, str]] = {}  # by plane, and which of those alike
    for coil in run.coils:
        titles = {plain_name(lot): coil.title if lot in coil.title else f"{coil.title}, lot {lot}"
                  for lot in coil.lots}
        for batch in coil.batches:
            for piece in (piece for row in batch.rows for piece in row.pieces):
                lots = met.setdefault((batch.cut.name, piece.copy), {})
                lots |= {lot: title for lot, title in titles.items() if lot not in lots}
    planes = {name: lots for (name, _copy), lots in met.items() if len(lots) > 1}
    return tuple(
        paragraph(strong(f"Lots meet on {name}: {' and '.join(lots.values())}."),
                  " Colors of two lots can differ: lay samples side by side in daylight before the "
                  "first panel. Planes are cut in the order they have on Roof: moved up or down "
                  "there, each may get one lot.")
        for name, lots in planes.items())
