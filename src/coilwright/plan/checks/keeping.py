"""Checks of how coils are kept until they are run, and of the lots they are from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import sources
from coilwright.job.choices import YesNo
from coilwright.job.coils import Storage
from coilwright.plan.checks.view import View, care, note
from coilwright.values.finding import Finding

_NEW = "new coils"


def check_keeping(view: View) -> Iterator[Finding]:
    """Coils that get wet, film in the sun, and panels from more than one lot."""
    yield from _wet(view)
    yield from _film(view)
    yield from _lots(view)


def _wet(view: View) -> Iterator[Finding]:
    storage = view.job.coils.storage
    match storage:
        case None | Storage.ROOF:
            return
        case Storage.COVERED:
            open_air = False
        case Storage.OPEN:
            open_air = True
        case _:
            assert_never(storage)
    level = care if open_air else note
    yield level(
        "coils.wet_storage", f"Coils stand {storage}.",
        "Water creeps between the wraps and cannot dry. It stains the metal and lifts paint, and "
        "no warranty covers it." + ("" if open_air else " Under a tight cover it condenses."),
        "Stand them dry under a roof. Where that cannot be, off the ground, tilted to drain and "
        "covered so that air passes; open and look at a wet coil at once. Chock every coil.",
        sources.TRADE, "coils.storage",
    )


def _film(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    painted = metal.finish is not None and metal.finish.is_paint
    if painted and metal.film is YesNo.YES and view.job.coils.storage is Storage.OPEN:
        yield care(
            "metal.film_sun", "The coils have film on them and stand in the open.",
            "Film left in the sun bakes onto the paint and will not peel.",
            "Keep them out of the sun, ask the supplier how many days the film stands, and peel it "
            "before or as panels go on: on the roof it is slippery underfoot.",
            sources.TRADE, "metal.film", "coils.storage",
        )


def _lots(view: View) -> Iterator[Finding]:
    """Panels from coils on hand and new ones, or from coils on hand of different lots."""
    on_hand = view.job.on_hand
    of_plane: defaultdict[str, set[str]] = defaultdict(set)
    all_lots: dict[str, str] = {}
    for used in view.from_stock:
        own = on_hand[used.index]
        lot = own.lot.strip()
        # A coil whose lot nobody knows may be of any: it counts as one of its own.
        mark = lot.casefold() or f"\n{used.index}"
        all_lots[mark] = f"lot {lot}" if lot else f"coil {own.tag} (lot not known)"
        for cut in used.cuts:
            of_plane[cut.name].add(mark)
    if not all_lots:
        return
    for coil in view.coils:
        all_lots["\n"] = _NEW
        for cut in coil.cuts:
            of_plane[cut.name].add("\n")
    if len(all_lots) < 2:
        return
    mixed = [name for name, marks in of_plane.items() if len(marks) > 1]
    level = care if mixed else note
    met = f"; they meet on {_listed(mixed)}" if mixed else ", each plane from one of them"
    yield level(
        "coils.lots", f"The panels come from {len(all_lots)} lots: "
        f"{_listed(list(all_lots.values()))}{met}.",
        "Two production lots differ in shade or sheen, and it shows where they meet.",
        "Lay samples side by side in daylight first. Give each lot planes of its own that are "
        "not seen together, or take all of it new from one lot.",
        sources.TRADE, "metal.colour", step="coils",
    )


def _listed(names: list[str]) -> str:
    if len(names) > 4:
        return f"{', '.join(names[:3])} and {len(names) - 3} more"
    return ", ".join(names)
