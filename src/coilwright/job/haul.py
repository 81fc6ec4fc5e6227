"""Hauling and lifting: what the plates of trailer, hitch, truck and lifting gear say."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, assert_never

from coilwright.job.choices import YesNo
from coilwright.job.fields import STRICT, Angle, Length, Mass, Width, between


class HitchKind(StrEnum):
    """How the trailer hangs on the vehicle that tows it."""

    BALL = "ball hitch"
    GOOSENECK = "gooseneck or fifth wheel"


class CargoOn(StrEnum):
    """What carries the coils that are hauled as cargo."""

    TRAILER = "the machine's trailer"
    OTHER = "another vehicle"


class CoilEye(StrEnum):
    """Which way the eye of a coil points while it is hauled."""

    UP = "eye up"
    CROSSWISE = "eye crosswise"
    LENGTHWISE = "eye lengthwise"


class LiftBy(StrEnum):
    """What lifts a coil."""

    FORKLIFT = "forklift"
    SLINGS = "slings on a crane or hoist"
    OTHER = "somebody else's gear"

    @property
    def has_plates(self) -> bool:
        """Whether its plates and tags are asked for, which is not so of somebody else's."""
        match self:
            case LiftBy.FORKLIFT | LiftBy.SLINGS:
                return True
            case LiftBy.OTHER:
                return False
            case _:
                assert_never(self)


@dataclass(frozen=True, kw_only=True, slots=True)
class LiftGear:
    """What lifts coils at one place, by its plates and tags.

    fork_capacity at fork_center: as the plate rates it, the center measured from the fork face.
    coil_center: from the fork face to the middle of the coil. face_to_axle: from the middle of
    the front axle to the fork face. attachment: boom, ram, lifter or hook block, hung below the
    rating. legs: sling legs that carry. leg_rating: of one leg, straight up. angle: of the legs
    from level; or it is worked out from sling_length and sling_height, hook above the lift
    points.
    """

    __pydantic_config__ = STRICT

    by: LiftBy | None = None
    fork_capacity: Mass | None = None
    fork_center: Width | None = None
    coil_center: Width | None = None
    face_to_axle: Width | None = None
    attachment: Mass | None = None
    legs: Annotated[int, between(1, 4)] | None = None
    leg_rating: Mass | None = None
    angle: Angle | None = None
    sling_length: Length | None = None
    sling_height: Length | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class HaulSection:
    """Step 8: the trailer with machine and coils, coils hauled as cargo, and what lifts them.

    gear: tools and trim aboard. rack_coils: coils of this order that ride on the rack; rack_mass:
    what the coils on the rack weigh, where it is known better. trailer_rating: of the loaded
    trailer. axle_rating: of one axle. hitch_rating: loaded trailer the hitch may pull;
    hitch_load_rating: load on the hitch; hitch_load: as weighed, all loaded. tow_weight: the
    towing vehicle with people and load, without trailer; tow_rating: its own rating loaded;
    tow_pull: heaviest trailer it may tow; combination_rating: both together.

    Where things sit, all from the hitch: empty_hitch_load is what the empty trailer puts on the
    hitch; the rest are distances back to the middle of the axles, the rack, the gear, the cargo.

    ties_over: tie-downs from one side over or through the coil to the other side; ties_direct:
    from the vehicle to the coil, or back to the same side; each with the working load limit of
    its weakest part. blocked: kept from moving forward.
    """

    __pydantic_config__ = STRICT

    gear: Mass | None = None
    rack_coils: Annotated[int, between(0, 9)] | None = None
    rack_mass: Mass | None = None
    trailer_rating: Mass | None = None
    axles: Annotated[int, between(1, 9)] | None = None
    axle_rating: Mass | None = None
    hitch: HitchKind | None = None
    hitch_rating: Mass | None = None
    hitch_load_rating: Mass | None = None
    hitch_load: Mass | None = None
    tow_weight: Mass | None = None
    tow_rating: Mass | None = None
    tow_pull: Mass | None = None
    combination_rating: Mass | None = None
    empty_hitch_load: Mass | None = None
    hitch_to_axles: Length | None = None
    rack_at: Length | None = None
    gear_at: Length | None = None
    cargo_at: Length | None = None
    cargo_coils: Annotated[int, between(0, 99)] | None = None
    cargo_on: CargoOn | None = None
    eye: CoilEye | None = None
    blocked: YesNo | None = None
    ties_over: Annotated[int, between(0, 99)] | None = None
    tie_over_limit: Mass | None = None
    ties_direct: Annotated[int, between(0, 99)] | None = None
    tie_direct_limit: Mass | None = None
    site: LiftGear = LiftGear()
    shop: LiftGear = LiftGear()
