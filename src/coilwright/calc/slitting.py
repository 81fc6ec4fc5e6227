"""Slitting: panel strips and flat widths of trim side by side on a supplier's master width."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.cutting.column_generation import relax
from coilwright.calc.cutting.lattice import COARSE, lattice_for
from coilwright.calc.sources import SHARE
from coilwright.units import Kind
from coilwright.values.formula import down, formula, total
from coilwright.values.source import Grade, Source

SLIT = Source("whole strips side by side on the width left between the edges", Grade.GEOMETRY)
_LOOSE = 1e-6
_LENGTH_STEPS = 1_000_000_000


@formula(Kind.COUNT, SLIT, "M e s")
def strips_across(master: float, edge_trim: float, strip: float) -> float:
    """Strips a master width gives: ⌊(M − e)/s⌋.

    master: width of the master coil; edge_trim: taken off both edges together; strip: width
    of one strip. All in inches.

    Terms: master [in], edge_trim [in], strip [in].
    """
    return down((master - edge_trim) / strip)


@formula(Kind.WIDTH, SLIT, "M n s")
def slit_drop(master: float, count: float, strip: float) -> float:
    """Width of a coil that becomes no strip, edge trim included: M − n·s [in].

    Terms: master [in], count [1], strip [in].
    """
    return master - count * strip


@formula(Kind.LENGTH, SHARE, "s d L")
def strand_length(spare: float, short: float, *lengths: float) -> float:
    """Length of a strand to order: ΣL·(1 + s)/(1 − d) [in].

    lengths: of what is cut from it [in]; spare: share of them; short: how far the supplier may
    fall short, a share of the order.

    Terms: spare [1], short [1], lengths [in].
    """
    return total(*lengths) * (1 + spare) / (1 - short)


@formula(Kind.LENGTH, SHARE, "L s d T")
def strip_less_trim(ordered: float, spare: float, short: float, *trim: float) -> float:
    """Strip to order where the trim is slit beside it: L − ΣT·(1 + s)/(1 − d) [in].

    ordered: with the trim cut from the strip, in as many coils; trim: strip that it takes there.
    Both in inches; spare and short are shares.

    Terms: ordered [in], spare [1], short [1], trim [in].
    """
    return ordered - total(*trim) * (1 + spare) / (1 - short)


@formula(Kind.WIDTH, SLIT, "n w")
def strands_width(count: float, width: float) -> float:
    """Width of equal strands side by side: n·w [in].

    Terms: count [1], width [in].
    """
    return count * width


@formula(Kind.WIDTH, SLIT, "M w")
def width_left(master: float, *strands: float) -> float:
    """Width of a master that becomes no strand, edge trim included: M − Σw [in].

    Terms: master [in], strands [in].
    """
    return master - total(*strands)


@formula(Kind.AREA, SLIT, "w L")
def strand_area(width: float, length: float) -> float:
    """Area of a strand, or of a whole master: w·L [in²]. Both in inches.

    Terms: width [in], length [in].
    """
    return width * length


@formula(Kind.AREA, SLIT, "A a")
def drop_area(area: float, *strands: float) -> float:
    """Area of a master that is not needed: A − Σa [in²].

    strands: what is needed of each width [in²].

    Terms: area [in²], strands [in²].
    """
    return area - total(*strands)


@formula(Kind.WIDTH, SLIT, "D L")
def mean_drop(drop: float, length: float) -> float:
    """Width lost on the average of a master: D/L [in]. drop [in²], length [in].

    Terms: drop [in²], length [in].
    """
    return drop / length


@formula(Kind.PERCENT, SLIT, "D A")
def drop_share(drop: float, area: float) -> float:
    """Share of a master that is lost: D/A. Both in in².

    Terms: drop [in²], area [in²].
    """
    return drop / area


@formula(Kind.MASS, SLIT, "m A")
def drop_mass(sheet_mass: float, area: float) -> float:
    """Weight of the drop: m·A [lb]. sheet_mass [lb/in²], area [in²].

    Terms: sheet_mass [lb/in²], area [in²].
    """
    return sheet_mass * area


@formula(Kind.MASS, SLIT, "W w")
def mass_saved(mass: float, other: float) -> float:
    """What one slitting takes less than another: W − w [lb].

    Terms: mass [lb], other [lb].
    """
    return mass - other


@dataclass(frozen=True, slots=True)
class Strands:
    """One set-up of the slitter: strands of each width asked for, over a length of master [in].

    across: (number of the width, strands). drop: width left between the strands and both edges,
    edge trim included [in].
    """

    across: tuple[tuple[int, int], ...]
    length: float
    drop: float


@dataclass(frozen=True, slots=True)
class Slitting:
    """How one master width is slit for all that is needed.

    ordered and needed: areas [in²]. bound: no slitting of this master takes less [in²].
    """

    master: float
    strands: tuple[Strands, ...]
    ordered: float
    needed: float
    bound: float

    @property
    def drop(self) -> float:
        """Area ordered that is not needed [in²]."""
        return self.ordered - self.needed

    @property
    def proven(self) -> bool:
        """No slitting of this master takes less metal, to a millionth."""
        return self.ordered <= self.bound * (1 + 1e-6)


def slit(
    master: float, edge_trim: float, widths: Sequence[tuple[float, float]], seconds: float = 1.0
) -> Slitting | None:
    """Slit a master [in] into widths (width [in], length needed [in]) with the least metal.

    The first width is usually the panel strip, the others flat widths of trim. Set-ups may change
    along the master, so this is a mix of patterns weighted by length. seconds: the work allowed,
    as time on a plain machine; no clock is read, so the same question always gets the same
    answer. None where a width does not fit between the edges. Raises ValueError for sizes that
    make no sense.
    """
    for number, (width, length) in enumerate(widths, 1):
        if not (width > 0 and math.isfinite(width)):
            raise ValueError(f"Width {number} must be above 0, not {width}.")
        if not (length >= 0 and math.isfinite(length)):
            raise ValueError(f"Length {number} must be 0 or more, not {length}.")
    room_width = master - edge_trim
    needed = math.fsum(width * length for width, length in widths)
    wanted = [(i, w, n) for i, (w, n) in enumerate(widths) if n > 0]
    if any(width > room_width + _LOOSE for _, width, _ in wanted):
        return None
    if not wanted:
        return Slitting(master, (), 0.0, 0.0, 0.0)
    lattice = lattice_for([width for _, width, _ in wanted], room_width, COARSE)
    room = lattice.room(room_width)
    # Lengths become counts of one small unit, so that a fraction of a pattern is a length.
    unit = max(length for _, _, length in wanted) / _LENGTH_STEPS
    counts = [math.ceil(length / unit - _LOOSE) for _, _, length in wanted]
    steps = [min(room, lattice.length(width)) for _, width, _ in wanted]
    order = sorted(range(len(wanted)), key=lambda k: -steps[k])
    allowance = Allowance(seconds, clock=None)
    mix = relax([steps[k] for k in order], [counts[k] for k in order], room, allowance)
    strands = []
    for pattern, share in mix.patterns:
        across = tuple(sorted(
            (wanted[k][0], n) for k, n in zip(order, pattern, strict=True) if n
        ))
        taken = math.fsum(widths[i][0] * n for i, n in across)
        strands.append(Strands(across, share * unit, master - taken))
    strands.sort(key=lambda strand: (-strand.length, strand.across))
    ordered = master * math.fsum(strand.length for strand in strands)
    units = mix.bound
    if not lattice.exact:
        # Widths rounded down in a room rounded up: what fits in truth fits there too.
        loose = [lattice.length_at_least(wanted[k][1]) for k in order]
        units = relax(loose, [counts[k] for k in order], lattice.room_at_most(room_width),
                         allowance, [pattern for pattern, _ in mix.patterns]).bound
    # Rounding lengths up may have cost a unit each, so as much is taken off again.
    bound = max(needed * master / room_width, master * (units - len(wanted)) * unit)
    bound = min(ordered, bound)
    return Slitting(master, tuple(strands), ordered, needed, bound)
