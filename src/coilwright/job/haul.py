"""Hauling and lifting: what the plates of trailer, hitch, tow vehicle and lifting gear say."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, assert_never

from coilwright.job.choices import YesNo
from coilwright.job.fields import STRICT, Angle, Length, Mass, Width, between


class HitchKind(StrEnum):
    """How the trailer hangs on the vehicle that tows it: three couplings, none fits another."""

    BALL = "ball hitch"
    GOOSENECK = "gooseneck"
    FIFTH_WHEEL = "fifth wheel"

    @classmethod
    def _missing_(cls, value: object) -> HitchKind | None:
        # Files of version 1 had one word for two couplings; both share one band and one weight.
        return cls.GOOSENECK if value == "gooseneck or fifth wheel" else None

    @property
    def load_name(self) -> str:
        """What its trade calls the weight that the loaded trailer puts on it."""
        match self:
            case HitchKind.BALL:
                return "tongue weight"
            case HitchKind.GOOSENECK | HitchKind.FIFTH_WHEEL:
                return "pin weight"
            case _:
                assert_never(self)


class CargoOn(StrEnum):
    """What carries the coils that are hauled as cargo."""

    TRAILER = "the machine's trailer"
    OTHER = "another vehicle"


class CoilEye(StrEnum):
    """Which way the eye of a coil points while it is hauled."""

    UP = "eye up"
    CROSSWISE = "eye crosswise"
    LENGTHWISE = "eye lengthwise"


class TurnedBy(StrEnum):
    """Who turns a coil that comes eye up on to its side."""

    SUPPLIER = "the supplier, before it ships"
    TURNER = "us, with a rated coil turner"
    RIGGER = "a rigger with gear of their own"
    NOBODY = "nobody: it is run eye up"


class LiftBy(StrEnum):
    """What lifts a coil."""

    FORKLIFT = "forklift"
    SKID_STEER = "skid steer"
    SLINGS = "slings on a crane or hoist"
    OTHER = "somebody else's gear"

    @property
    def has_plates(self) -> bool:
        """Whether its plates and tags are asked for, which is not so of somebody else's."""
        match self:
            case LiftBy.FORKLIFT | LiftBy.SKID_STEER | LiftBy.SLINGS:
                return True
            case LiftBy.OTHER:
                return False
            case _:
                assert_never(self)

    @property
    def has_forks(self) -> bool:
        """Whether it carries the coil on forks, in front of its wheels."""
        match self:
            case LiftBy.FORKLIFT | LiftBy.SKID_STEER:
                return True
            case LiftBy.SLINGS | LiftBy.OTHER:
                return False
            case _:
                assert_never(self)


class SlingHitch(StrEnum):
    """How a sling holds what it lifts."""

    VERTICAL = "vertical"
    BASKET = "basket"
    CHOKER = "choker"

    @property
    def sides(self) -> int:
        """How many sides of one sling carry: a basket has two, a vertical leg or choker one."""
        match self:
            case SlingHitch.BASKET:
                return 2
            case SlingHitch.VERTICAL | SlingHitch.CHOKER:
                return 1
            case _:
                assert_never(self)


class ChokeAngle(StrEnum):
    """The angle a choker makes where it runs through its own eye or hook."""

    OVER_120 = "over 120°"
    FROM_90 = "90° to 120°"
    FROM_60 = "60° to 90°"
    FROM_30 = "30° to 60°"
    UNDER_30 = "under 30°"

    @property
    def least(self) -> int:
        """Where its band begins [°]."""
        match self:
            case ChokeAngle.OVER_120:
                return 120
            case ChokeAngle.FROM_90:
                return 90
            case ChokeAngle.FROM_60:
                return 60
            case ChokeAngle.FROM_30:
                return 30
            case ChokeAngle.UNDER_30:
                return 0
            case _:
                assert_never(self)


@dataclass(frozen=True, kw_only=True, slots=True)
class LiftGear:
    """What lifts coils at one place, by its plates and tags.

    fork_capacity at fork_center: as the plate rates it, the center measured from the fork face;
    operating_capacity: a skid steer's, at the same center; tipping_load: at which it tips.
    coil_center: from the fork face to the middle of the coil. at_face: the coil touches the fork
    face, so that its middle is half its diameter out. face_to_axle: from the middle of the front
    axle to the fork face. attachment: boom, ram, lifter or hook block, hung below the rating.

    sling_hitch: how the slings hold. legs: slings, a basket counted as one; legs_sharing: of more
    than two, how many are known to share the load. leg_rating: of one, vertical. hitch_limit: by
    the tag, of one sling in this basket (its sides straight up) or choker. by_factors: where the
    tag does not say it, it is worked out from the vertical rating. choke_angle: of a choker.
    angle: of the legs from level; or it is worked out from sling_length and sling_height, hook
    above the lift points.
    """

    __pydantic_config__ = STRICT

    by: LiftBy | None = None
    fork_capacity: Mass | None = None
    operating_capacity: Mass | None = None
    tipping_load: Mass | None = None
    fork_center: Width | None = None
    at_face: YesNo | None = None
    coil_center: Width | None = None
    face_to_axle: Width | None = None
    attachment: Mass | None = None
    sling_hitch: SlingHitch | None = None
    legs: Annotated[int, between(1, 4)] | None = None
    legs_sharing: Annotated[int, between(2, 4)] | None = None
    leg_rating: Mass | None = None
    hitch_limit: Mass | None = None
    by_factors: YesNo | None = None
    choke_angle: ChokeAngle | None = None
    angle: Angle | None = None
    sling_length: Length | None = None
    sling_height: Length | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class HaulSection:
    """The trailer with machine and coils, coils hauled as cargo, and what lifts them.

    gear: tools and trim aboard. rack_coils: coils of this order that ride on the rack; rack_mass:
    what the coils on the rack weigh, by scale or tags. trailer_weighed, axles_weighed: the loaded
    trailer and what rests on its axles, by a scale. trailer_gvwr: of the loaded trailer.
    axle_rating: of one axle. hitch_rating: loaded trailer the hitch may pull; tongue_weight_rating:
    tongue or pin weight; tongue_weight: as weighed, all loaded. tow_weight: the tow vehicle with
    people and load, without trailer; tow_gvwr: its own rating loaded; tow_pull: heaviest trailer
    it may tow; gcwr: both together.

    Where things sit, all from the hitch: empty_tongue_weight is what the empty trailer puts on the
    hitch; the rest are distances back to the middle of the axles, the rack, the gear, the cargo.

    ties_over: tie-downs from one side over or through the coil to the other side; ties_direct:
    from the vehicle to the coil, or back to the same side; each with the working load limit of
    its weakest part. blocked: kept from moving forward. grouped: the coils of the cargo are banded
    or contained together, and count as one. mats: friction mats under them. turned_by: who turns
    coils that come eye up.
    """

    __pydantic_config__ = STRICT

    gear: Mass | None = None
    rack_coils: Annotated[int, between(0, 9)] | None = None
    rack_mass: Mass | None = None
    trailer_weighed: Mass | None = None
    axles_weighed: Mass | None = None
    trailer_gvwr: Mass | None = None
    axles: Annotated[int, between(1, 9)] | None = None
    axle_rating: Mass | None = None
    hitch: HitchKind | None = None
    hitch_rating: Mass | None = None
    tongue_weight_rating: Mass | None = None
    tongue_weight: Mass | None = None
    tow_weight: Mass | None = None
    tow_gvwr: Mass | None = None
    tow_pull: Mass | None = None
    gcwr: Mass | None = None
    empty_tongue_weight: Mass | None = None
    hitch_to_axles: Length | None = None
    rack_at: Length | None = None
    gear_at: Length | None = None
    cargo_at: Length | None = None
    cargo_coils: Annotated[int, between(0, 99)] | None = None
    cargo_on: CargoOn | None = None
    eye: CoilEye | None = None
    grouped: YesNo | None = None
    turned_by: TurnedBy | None = None
    blocked: YesNo | None = None
    mats: YesNo | None = None
    ties_over: Annotated[int, between(0, 99)] | None = None
    tie_over_limit: Mass | None = None
    ties_direct: Annotated[int, between(0, 99)] | None = None
    tie_direct_limit: Mass | None = None
    site: LiftGear = LiftGear()
    shop: LiftGear = LiftGear()

    @property
    def weighed_on_rack(self) -> float | None:
        """What the coils on the rack weigh by scale or tags; None also where none rides there, and
        a weight is left of when one did."""
        return None if self.rack_coils == 0 else self.rack_mass
