"""Where panels of two production lots meet on one plane, by what came: the crew cuts from them."""

from __future__ import annotations

from coilwright.plan.coils.run import Run, RunCoil
from coilwright.sheets.blocks import Block, paragraph, strong


def lots_met(run: Run) -> tuple[Block, ...]:
    """A paragraph for each plane that is cut from coils of two lots or more, by their tags."""
    met: dict[tuple[str, int], dict[str, str]] = {}
    for coil in run.coils:
        for batch in coil.batches:
            for piece in (piece for row in batch.rows for piece in row.pieces):
                for lot in _lots(coil):
                    met.setdefault((batch.cut.name, piece.copy), {}).setdefault(lot, coil.title)
    planes: dict[str, dict[str, str]] = {}
    for (name, _copy), lots in met.items():
        if len(lots) > 1:
            planes[name] = lots
    return tuple(
        paragraph(strong(f"Lots meet on {name}: " + " and ".join(
            title if lot in title else f"{title}, lot {lot}" for lot, title in lots.items()) + "."),
            " Colors of two lots can differ: lay samples side by side in daylight before the first "
            "panel. Planes are cut in the order they have on Roof: moved up or down there, each "
            "may get one lot.")
        for name, lots in planes.items())


def _lots(coil: RunCoil) -> tuple[str, ...]:
    """The lots on its tags, those that are known."""
    tags = ((coil.on_hand.lot,) if coil.on_hand is not None
            else tuple(one.arrival.lot for one in coil.came))
    return tuple(dict.fromkeys(tag.strip() for tag in tags if tag.strip()))
