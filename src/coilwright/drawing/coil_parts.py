"""The sizes a drawing of a coil shows: the largest coil of the order, its hole and its room."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.plan.result import Plan
from coilwright.values.figure import Figure


@dataclass(frozen=True, slots=True)
class CoilSizes:
    """Diameters as figures; None where one is not known yet."""

    name: str
    inside: Figure | None
    outside: Figure | None
    largest: Figure | None
    """The outside diameter at the long end of the supplier's tolerance."""
    room: Figure | None
    """The largest coil the rack or the decoiler takes."""
    place: str

    @property
    def widest(self) -> float:
        """The largest of the diameters to draw [in]; 0 while none is known."""
        return max((f.value for f in (self.inside, self.outside, self.room) if f), default=0.0)


def coil_sizes(plan: Plan) -> CoilSizes:
    """The sizes of the order's largest coil."""
    coil = max(plan.coils, key=lambda c: c.outside_diameter.value, default=None)
    on = plan.job.coils.coil_on
    rack = on is None or on.is_rack
    figures = plan.figures
    return CoilSizes(
        name="" if coil is None else f"Coil {coil.number}" if len(plan.coils) > 1 else "Coil",
        inside=figures.get("coils.inside_diameter"),
        outside=None if coil is None else coil.outside_diameter,
        largest=None if coil is None else figures.get(f"coil.{coil.number}.largest"),
        room=figures.get("machine.rack_diameter" if rack else "machine.decoiler_diameter"),
        place="Rack" if rack else "Decoiler",
    )


def coil_words(plan: Plan, sizes: CoilSizes, width: int) -> list[str]:
    """The sizes in words, one to a line of at most `width` characters.

    Names are shortened where it is narrow; a number that does not fit whole is left out.
    """
    system = plan.job.units
    rows = [
        (long, short, f"{figure.mark:1} {figure.text(system)}")
        for long, short, figure in (
            (f"{sizes.place} takes", sizes.place.lower(), sizes.room),
            (f"{sizes.name} across", "OD", sizes.outside),
            ("at the long end", "OD max", sizes.largest),
            ("inside", "ID", sizes.inside),
        )
        if figure is not None
    ]
    for names in ([row[0] for row in rows], [row[1] for row in rows]):
        wide = max(map(len, names), default=0)
        lines = [f"{name:<{wide}}  {row[2]}" for name, row in zip(names, rows, strict=True)]
        if all(len(line) <= width for line in lines):
            return lines
    return [line for line in lines if len(line) <= width]
