"""A coil as it arrived: its tag and what was measured on it. Nothing here is computed."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from coilwright.models import Frozen, Must, between
from coilwright.quantities import Length, Mass, Thickness, Width


class Fault(StrEnum):
    """What can be seen on a coil before it is unwound, or on its first feet."""

    DENT = "dented or crushed"
    WET = "wet or stained"
    RUST = "rust or white rust"
    EDGE = "damaged edge"
    EDGE_WAVE = "wavy edge"
    SCRATCH = "scratched"
    LOOSE = "loose or telescoped"
    WRONG_SIDE = "wrong side painted"
    COLOUR = "colour differs from the sample"
    NO_FILM = "film missing"


class Arrival(Frozen):
    """One coil as it arrived.

    tag: what it is known by. coil: which coil of the order it is meant to be, from 1. length and
    mass: as its tag says; lot and colour too. weighed: on a scale. thickness: measured, at several
    places. camber: bow of an edge beside a straight line camber_over long.
    """

    tag: Annotated[str, Must(lambda v: 1 <= len(v) <= 60, "it must have 1 to 60 characters")]
    coil: Annotated[int, between(1, 999)] | None = None
    lot: str = ""
    colour: str = ""
    length: Length | None = None
    mass: Mass | None = None
    weighed: Mass | None = None
    thickness: tuple[Thickness, ...] = ()
    width: Width | None = None
    outside: Width | None = None
    inside: Width | None = None
    camber: Width | None = None
    camber_over: Length | None = None
    faults: tuple[Fault, ...] = ()
    remark: str = ""
