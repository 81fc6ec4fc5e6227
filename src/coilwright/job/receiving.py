"""A coil as it arrived: its tag and what was measured on it. Nothing here is computed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, NamedTuple

from coilwright.job.choices import YesNo
from coilwright.job.fields import STRICT, Length, Mass, Thickness, Width, between, text_between
from coilwright.job.metal import MetalSection
from coilwright.job.plain_name import plain_name

TYPED = "arrived."
"""What was typed for a coil and could not be read lies in the job under `arrived.0.width`."""
READINGS = 3
"""Readings of the thickness that are wanted: near both edges and between (common practice, no
source)."""
MOST_READINGS = 24
LOT = "lot"
"""Ends the key of the finding that its lot is not that of the others."""


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
    COLOR = "color differs from the sample"
    NO_FILM = "film missing"


class Decision(StrEnum):
    """What somebody decided on a coil, whatever its measures say."""

    REFUSED = "refused"
    SENT_BACK = "sent back"
    TAKEN = "taken knowingly"


class Bounds(NamedTuple):
    """The least and the most that anything real has, in canonical units."""

    low: float
    high: float


REAL: dict[str, Bounds] = {
    "length": Bounds(1, 240_000), "mass": Bounds(1, 100_000), "weighed": Bounds(1, 100_000),
    "thickness": Bounds(0.004, 0.25), "width": Bounds(1, 100), "outside": Bounds(1, 120),
    "inside": Bounds(1, 120), "camber": Bounds(0, 120), "camber_over": Bounds(12, 2_400),
}
"""By field [in, lb]; beyond them a number has slipped, or its unit has."""


_STAND_IN = re.compile(r"(coil|arrival) \d+", re.IGNORECASE)
"""A tag that the list of arrivals gave a coil until its own is typed."""


def stand_in_tag(number: int) -> str:
    """The tag of a coil whose own was not read yet, by its number in the list of arrivals."""
    return f"Arrival {number}"


def coil_name(number: int | None, *arrivals: Arrival) -> str:
    """What a coil is called on every screen and paper: which of the order it is, tag and lot.

    number: of the ordered coil, None while nobody said which it is. arrivals: what came for it.

    >>> coil_name(2, Arrival(tag="R-7", lot="L-4"))
    'coil 2 of the order, tag R-7, lot L-4'
    >>> coil_name(2)
    'coil 2 of the order'
    >>> coil_name(None, Arrival(tag="Arrival 3", lot="L-4"))
    'Arrival 3, lot L-4'
    """
    own = "; ".join(filter(None, (", ".join([
        *([f"tag {one.tag}"] if one.is_tagged else [one.tag] if number is None else []),
        *([f"lot {one.lot.strip()}"] if one.lot.strip() else [])]) for one in arrivals)))
    return ", ".join(filter(None, ("" if number is None else f"coil {number} of the order", own)))


def faults_of(metal: MetalSection) -> tuple[Fault, ...]:
    """What can be wrong with a coil of this metal: bare metal has no paint to look for, and no film
    is missing where none was ordered."""
    gone: tuple[Fault, ...] = () if metal.may_be_painted else (Fault.WRONG_SIDE, Fault.COLOR)
    if not metal.may_be_painted or metal.film is not YesNo.YES:
        gone += (Fault.NO_FILM,)
    return tuple(fault for fault in Fault if fault not in gone)


@dataclass(frozen=True, kw_only=True, slots=True)
class Arrival:
    """One coil as it arrived.

    tag: what it is known by. coil: which coil of the order it is meant to be, from 1. length and
    mass: as its tag says; lot and color too. weighed: on a scale. thickness: measured, at several
    places. camber: bow of an edge beside a straight line camber_over long. faults, clear: what was
    seen on it, and what was looked for one by one and is not there. looked: whether all of it was
    looked over, and no fault is there but those. decision: by whom (decided_by), and why (reason).
    lots: whether it is on lots that came together, and so on every coil of them. stood: what held
    it when it was taken, by the last parts of its findings' keys, None where that was not kept;
    stood_lots: the lots that lay there then; stood_at: what was measured then, by those last parts;
    stood_said: what it was said to be then, its color and which coil of the order.
    """

    __pydantic_config__ = STRICT

    tag: Annotated[str, text_between(1, 60)]
    coil: Annotated[int, between(1, 999)] | None = None
    lot: str = ""
    color: str = ""
    length: Length | None = None
    mass: Mass | None = None
    weighed: Mass | None = None
    thickness: tuple[Thickness, ...] = ()
    width: Width | None = None
    outside: Width | None = None
    inside: Width | None = None
    camber: Width | None = None
    camber_over: Length | None = None
    looked: YesNo | None = None
    faults: tuple[Fault, ...] = ()
    clear: tuple[Fault, ...] = ()
    remark: str = ""
    decision: Decision | None = None
    decided_by: str = ""
    reason: str = ""
    lots: YesNo | None = None
    stood: tuple[str, ...] | None = None
    stood_lots: tuple[str, ...] = ()
    stood_at: tuple[tuple[str, float], ...] = ()
    stood_said: tuple[tuple[str, str], ...] = ()

    @property
    def is_tagged(self) -> bool:
        """Whether its own tag was read; else it has the word that stands in for one."""
        return not _STAND_IN.fullmatch(self.tag.strip())

    @property
    def is_gone(self) -> bool:
        """Whether it was refused or sent back: it counts no more."""
        return self.decision in (Decision.REFUSED, Decision.SENT_BACK)

    @property
    def is_taken(self) -> bool:
        """Whether somebody took it knowingly, by name and with a reason."""
        return self.decision is Decision.TAKEN and bool(self.decided_by and self.reason)

    def was_taken_for(self, part: str) -> bool:
        """Whether what a finding says stood against it when it was taken.

        Of one taken before that was kept, all that is there now.
        """
        return self.is_taken and (self.stood is None or part in self.stood)

    def was_taken_among(self, *lots: str) -> bool:
        """Whether all these lots lay there when it was taken."""
        there = {plain_name(lot) for lot in self.stood_lots}
        return self.is_taken and (
            self.stood is None or there.issuperset(plain_name(lot) for lot in lots))

    def decides_on_lots(self, *lots: str) -> bool:
        """Whether it was taken for these lots, which lay there then, or for nothing but its lot.

        One taken for something else as well has to say that it is for the lots too.
        """
        return self.on_lots is YesNo.YES and self.was_taken_among(*lots)

    @property
    def on_lots(self) -> YesNo | None:
        """What its decision is taken to say on the lots: yes where it was taken for its lot alone
        and nobody said anything of them."""
        return YesNo.YES if self.lots is None and self.stood == (LOT,) else self.lots

    def __post_init__(self) -> None:
        if not self.tag.strip():
            raise ValueError("a coil that arrived needs a tag, so that it can be told apart")
        if len(self.thickness) > MOST_READINGS:
            raise ValueError(f"“{self.tag}”: {MOST_READINGS} readings of the thickness are enough")
        for name, (low, high) in REAL.items():
            found = getattr(self, name)
            values = found if isinstance(found, tuple) else () if found is None else (found,)
            if not all(low <= value <= high for value in values):
                raise ValueError(
                    f"“{self.tag}”: its {name.replace('_', ' ')} must be from {low:g} to {high:g} "
                    f"{'lb' if name in ('mass', 'weighed') else 'in'}"
                )


def came_for(arrived: Sequence[Arrival]) -> dict[int, tuple[int, ...]]:
    """What came for each coil of the order and is there, by its number: numbers in the list, from
    1. One of which nobody said what it is, is the first, unless others are said to be more.

    >>> came_for((Arrival(tag="A", coil=2), Arrival(tag="B", coil=2), Arrival(tag="C")))
    {2: (1, 2)}
    >>> came_for((Arrival(tag="A"), Arrival(tag="B", coil=1)))
    {1: (1, 2)}
    """
    unsaid = 1 if all(one.coil in (None, 1) for one in arrived) else None
    found: dict[int, tuple[int, ...]] = {}
    for number, one in enumerate(arrived, 1):
        coil = unsaid if one.coil is None else one.coil
        if coil is not None and not one.is_gone:
            found[coil] = (*found.get(coil, ()), number)
    return dict(sorted(found.items()))
