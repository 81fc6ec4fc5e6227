"""How a supplier's master width is slit for the job's order, as a plan holds it."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.values.figure import Figure


@dataclass(frozen=True, slots=True)
class SlitLane:
    """One width that is needed, and the length of it to order.

    name: the panel strip, the pieces of trim that are cut from it, or another coil for trim.
    """

    name: str
    width: Figure
    length: Figure


@dataclass(frozen=True, slots=True)
class SlitSetUp:
    """The slitter set once: lanes side by side over a length of the master.

    across: (number of the lane from 0, how many). drop: width that becomes no lane, edge trim
    included.
    """

    across: tuple[tuple[int, int], ...]
    length: Figure
    drop: Figure


@dataclass(frozen=True, slots=True)
class SlitPlan:
    """One master width slit for all the job orders, with the least metal found.

    beside: the trim from the panel coil is slit to its girths beside the strip; otherwise it is
    cut from the strip, as the order counts it. strips: panel strips one master gives side by
    side. length, mass: of the master. drop: area that becomes no lane; width: the same on the
    average of the length; share: of the master; drop_mass and money: what it weighs and costs.
    least: no slitting of this master takes less of its length. left_out: other coils for trim
    that are too wide to be slit from the masters; they come as they are.
    """

    key: str
    master: Figure
    beside: bool
    lanes: tuple[SlitLane, ...]
    set_ups: tuple[SlitSetUp, ...]
    strips: Figure
    length: Figure
    mass: Figure
    drop: Figure
    width: Figure
    share: Figure
    drop_mass: Figure
    money: Figure | None
    least: Figure
    proven: bool
    left_out: tuple[str, ...] = ()
