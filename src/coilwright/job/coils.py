"""What the supplier ships and the site can lift."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, assert_never

from coilwright.calc.coating import CoatingName as CoatingName
from coilwright.calc.metal import MetalName as MetalName
from coilwright.job.choices import YesNo
from coilwright.job.fields import (
    STRICT,
    Length,
    Mass,
    Percent,
    Price,
    Width,
    between,
)


class Storage(StrEnum):
    """Where coils stand until they are run."""

    ROOF = "under a roof, dry"
    COVERED = "outdoors, covered"
    OPEN = "outdoors, not covered"


class Attitude(StrEnum):
    """Which way the eye of a coil points as it is delivered."""

    EYE_UP = "eye up"
    EYE_TO_SIDE = "eye to the side"


class Slitting(StrEnum):
    """Who chooses what the strips are slit from, and whose the drop is."""

    SUPPLIER = "slit to width by the supplier"
    PASSES = "these masters, these passes"


class CoilOn(StrEnum):
    """Where the coil sits while it runs."""

    RACK = "overhead rack"
    DECOILER = "floor decoiler"

    @property
    def is_rack(self) -> bool:
        """Whether the rack's limits count, or else the decoiler's."""
        match self:
            case CoilOn.RACK:
                return True
            case CoilOn.DECOILER:
                return False
            case _:
                assert_never(self)


@dataclass(frozen=True, kw_only=True, slots=True)
class CoilSection:
    """What the supplier ships and the site can lift.

    tolerance: how far under the ordered weight the supplier may ship; tolerance_over: how far over,
    the same while it is not given. width_tolerance: of the slit strip, either way. camber: bow of
    an edge allowed over camber_over; None: over 8 ft. eye, skid: how coils are to come.
    keep_length: a shorter leftover is not worth keeping. price: by weight, before freight.
    carry: what one person carries. slitting: whether the order says what the strips are slit
    from. master, master_2 …: widths of the supplier's coils before slitting. master_heaviest:
    the heaviest of them. edge_trim: what slitting takes off both edges of one together.
    lead_time: calendar days from the order to the coils on site.
    """

    __pydantic_config__ = STRICT

    coil_on: CoilOn | None = None
    spare: Percent | None = None
    inside_diameter: Width | None = None
    tolerance: Percent | None = None
    tolerance_over: Percent | None = None
    width_tolerance: Width | None = None
    camber: Width | None = None
    camber_over: Length | None = None
    eye: Attitude | None = None
    skid: YesNo | None = None
    wrap_allowance: Percent | None = None
    supplier_heaviest: Mass | None = None
    site_lift: Mass | None = None
    minimum_order: Mass | None = None
    keep_length: Length | None = None
    price: Price | None = None
    carry: Mass | None = None
    master: Width | None = None
    master_2: Width | None = None
    master_3: Width | None = None
    master_4: Width | None = None
    master_heaviest: Mass | None = None
    edge_trim: Width | None = None
    slitting: Slitting | None = None
    lead_time: Annotated[int, between(0, 730)] | None = None
    order_date: datetime.date | None = None
    storage: Storage | None = None

    @property
    def masters(self) -> tuple[float, ...]:
        """The widths given of the supplier's masters [in]."""
        given = (self.master, self.master_2, self.master_3, self.master_4)
        return tuple(width for width in given if width is not None)

    @property
    def in_passes(self) -> bool:
        """Whether the order is masters and passes, its drop paid with it."""
        return self.slitting is Slitting.PASSES and bool(self.masters)
