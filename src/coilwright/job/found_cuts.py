"""A cut plan that a longer search found, as a job keeps it. Nothing here is computed.

It is kept with the question it answers, so that it counts only while the question is the same.
"""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.job.fields import STRICT, Length, Offset


@dataclass(frozen=True, kw_only=True, slots=True)
class FoundPanels:
    """Panels to cut, of one length, for one plane (counted from 0; past the last is trim)."""

    __pydantic_config__ = STRICT

    plane: int
    length: Length
    count: int


@dataclass(frozen=True, kw_only=True, slots=True)
class FoundCoil:
    """What is cut from one coil: (place in the list of panels, how many).

    on_hand: which strip on hand it is, counted from 0; None for a new coil.
    """

    __pydantic_config__ = STRICT

    on_hand: int | None = None
    cuts: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class FoundCuts:
    """The question and what was found.

    usable: panels a new coil is good for; loss: what each new coil loses, as panels; keep: a
    shorter leftover is not kept; rooms: what each strip on hand is good for. All in inches.
    bound, proven, proven_coils: read, so that files that have them still open, and not used: a
    file can be edited, so what it says was proven is not believed. They are written no more.
    """

    __pydantic_config__ = STRICT

    usable: Offset
    loss: Offset
    keep: Offset
    rooms: tuple[Offset, ...] = ()
    panels: tuple[FoundPanels, ...] = ()
    coils: tuple[FoundCoil, ...] = ()
    bound: Offset = 0.0
    proven: bool = False
    proven_coils: bool = False
