"""Answers about hauling and lifting. A rating that is not given clears nothing."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.spec import ARRIVED_AS, ORDER, Answer, Form, InCopy, always
from coilwright.job.choices import YesNo
from coilwright.job.haul import (
    CargoOn,
    ChokeAngle,
    CoilEye,
    HitchKind,
    LiftBy,
    LiftGear,
    SlingHitch,
    TurnedBy,
)
from coilwright.job.job import Job
from coilwright.units import Kind
from coilwright.values.keys import AnswerKey, LiftPart, LiftPlace, answer_key, lift_key


class HaulKey:
    """The answers of this step by name."""

    RACK_COILS = answer_key("haul.rack_coils")
    RACK_MASS = answer_key("haul.rack_mass")
    GEAR = answer_key("haul.gear")
    TRAILER_GVWR = answer_key("haul.trailer_gvwr")
    AXLES = answer_key("haul.axles")
    AXLE_RATING = answer_key("haul.axle_rating")
    TRAILER_WEIGHED = answer_key("haul.trailer_weighed")
    AXLES_WEIGHED = answer_key("haul.axles_weighed")
    HITCH = answer_key("haul.hitch")
    HITCH_RATING = answer_key("haul.hitch_rating")
    TONGUE_WEIGHT_RATING = answer_key("haul.tongue_weight_rating")
    TONGUE_WEIGHT = answer_key("haul.tongue_weight")
    TOW_WEIGHT = answer_key("haul.tow_weight")
    TOW_GVWR = answer_key("haul.tow_gvwr")
    TOW_PULL = answer_key("haul.tow_pull")
    GCWR = answer_key("haul.gcwr")
    HITCH_TO_AXLES = answer_key("haul.hitch_to_axles")
    EMPTY_TONGUE_WEIGHT = answer_key("haul.empty_tongue_weight")
    RACK_AT = answer_key("haul.rack_at")
    GEAR_AT = answer_key("haul.gear_at")
    CARGO_COILS = answer_key("haul.cargo_coils")
    CARGO_ON = answer_key("haul.cargo_on")
    CARGO_AT = answer_key("haul.cargo_at")
    GROUPED = answer_key("haul.grouped")
    EYE = answer_key("haul.eye")
    TURNED_BY = answer_key("haul.turned_by")
    BLOCKED = answer_key("haul.blocked")
    MATS = answer_key("haul.mats")
    TIES_OVER = answer_key("haul.ties_over")
    TIE_OVER_LIMIT = answer_key("haul.tie_over_limit")
    TIES_DIRECT = answer_key("haul.ties_direct")
    TIE_DIRECT_LIMIT = answer_key("haul.tie_direct_limit")
    SITE_BY = answer_key("haul.site_by")
    SITE_FORK_CAPACITY = answer_key("haul.site_fork_capacity")
    SITE_OPERATING_CAPACITY = answer_key("haul.site_operating_capacity")
    SITE_TIPPING_LOAD = answer_key("haul.site_tipping_load")
    SITE_FORK_CENTER = answer_key("haul.site_fork_center")
    SITE_COIL_CENTER = answer_key("haul.site_coil_center")
    SITE_AT_FACE = answer_key("haul.site_at_face")
    SITE_FACE_TO_AXLE = answer_key("haul.site_face_to_axle")
    SITE_ATTACHMENT = answer_key("haul.site_attachment")
    SITE_SLING_HITCH = answer_key("haul.site_sling_hitch")
    SITE_LEGS = answer_key("haul.site_legs")
    SITE_LEGS_SHARING = answer_key("haul.site_legs_sharing")
    SITE_HITCH_LIMIT = answer_key("haul.site_hitch_limit")
    SITE_BY_FACTORS = answer_key("haul.site_by_factors")
    SITE_LEG_RATING = answer_key("haul.site_leg_rating")
    SITE_CHOKE_ANGLE = answer_key("haul.site_choke_angle")
    SITE_ANGLE = answer_key("haul.site_angle")
    SITE_SLING_LENGTH = answer_key("haul.site_sling_length")
    SITE_SLING_HEIGHT = answer_key("haul.site_sling_height")
    SHOP_BY = answer_key("haul.shop_by")
    SHOP_FORK_CAPACITY = answer_key("haul.shop_fork_capacity")
    SHOP_OPERATING_CAPACITY = answer_key("haul.shop_operating_capacity")
    SHOP_TIPPING_LOAD = answer_key("haul.shop_tipping_load")
    SHOP_FORK_CENTER = answer_key("haul.shop_fork_center")
    SHOP_COIL_CENTER = answer_key("haul.shop_coil_center")
    SHOP_AT_FACE = answer_key("haul.shop_at_face")
    SHOP_FACE_TO_AXLE = answer_key("haul.shop_face_to_axle")
    SHOP_ATTACHMENT = answer_key("haul.shop_attachment")
    SHOP_SLING_HITCH = answer_key("haul.shop_sling_hitch")
    SHOP_LEGS = answer_key("haul.shop_legs")
    SHOP_LEGS_SHARING = answer_key("haul.shop_legs_sharing")
    SHOP_HITCH_LIMIT = answer_key("haul.shop_hitch_limit")
    SHOP_BY_FACTORS = answer_key("haul.shop_by_factors")
    SHOP_LEG_RATING = answer_key("haul.shop_leg_rating")
    SHOP_CHOKE_ANGLE = answer_key("haul.shop_choke_angle")
    SHOP_ANGLE = answer_key("haul.shop_angle")
    SHOP_SLING_LENGTH = answer_key("haul.shop_sling_length")
    SHOP_SLING_HEIGHT = answer_key("haul.shop_sling_height")


_POUNDS = ("lb", "kg")
_FEET = ("ft", "m")
_INCHES = ("in", "mm")


def _on_rack(job: Job) -> bool:
    return job.haul.rack_coils != 0


def _towed(job: Job) -> bool:
    return job.haul.hitch is not None


def _cargo(job: Job) -> bool:
    return bool(job.haul.cargo_coils)


def _cargo_on_trailer(job: Job) -> bool:
    return _cargo(job) and job.haul.cargo_on is CargoOn.TRAILER


def _over(job: Job) -> bool:
    return _cargo(job) and bool(job.haul.ties_over)


def _direct(job: Job) -> bool:
    return _cargo(job) and bool(job.haul.ties_direct)


def _several(job: Job) -> bool:
    return (job.haul.cargo_coils or 0) > 1


def _stands_up(job: Job) -> bool:
    """Whether coils come eye up and are hauled or lifted by somebody named."""
    haul = job.haul
    return haul.eye is CoilEye.UP and _eye_matters(job)


def _eye_matters(job: Job) -> bool:
    return _cargo(job) or job.haul.site.by is not None or job.haul.shop.by is not None


def _mass(
    key: AnswerKey, label: str, asked: Callable[[Job], bool] | None = None, *, zero: bool = False,
    high: float = 120_000, rests_on: tuple[str, ...] = (), in_copy: InCopy = InCopy.KEPT,
) -> Answer:
    return Answer(key, label, Form.QUANTITY, Kind.MASS, _POUNDS, needed=False, zero=zero,
                  high=high, rests_on=rests_on, in_copy=in_copy, **_when(asked))


def _distance(key: AnswerKey, label: str, asked: Callable[[Job], bool] | None = None) -> Answer:
    return Answer(key, label, Form.QUANTITY, Kind.LENGTH, _FEET, needed=False,
                  zero=True, high=1200, **_when(asked))


def _count(
    key: AnswerKey, label: str, most: int, asked: Callable[[Job], bool] | None = None, *,
    least: int = 0, rests_on: tuple[str, ...] = (),
) -> Answer:
    return Answer(key, label, Form.COUNT, Kind.COUNT, needed=False, zero=least == 0,
                  low=least or None, high=most, rests_on=rests_on, **_when(asked))


def _pick(key: AnswerKey, label: str, choices: tuple[Any, ...],
          asked: Callable[[Job], bool] | None = None) -> Answer:
    return Answer(key, label, Form.CHOICE, choices=choices, needed=False,
                  **_when(asked))


def _when(asked: Callable[[Job], bool] | None) -> dict[str, Any]:
    """Asked by what is picked and typed. What hangs on typed text keeps its row without it."""
    if asked is None:
        return {}
    return {"asked": asked} if asked is _towed else {"asked": asked, "offered": always}


def _lift(place: LiftPlace, name: LiftPart, label: str, form: Form, kind: Kind | None = None,
          when: Callable[[LiftGear], bool] | None = None,
          row: Callable[[LiftGear], bool] | None = None, **more: Any) -> Answer:
    """An answer about the lifting gear of one place: site or shop.

    when: whether it is asked of the gear. row: whether it keeps its row where it is not.
    """

    def get(job: Job) -> Any:
        return getattr(getattr(job.haul, place), name)

    def put(job: Job, value: Any) -> Job:
        gear = dataclasses.replace(getattr(job.haul, place), **{name: value})
        return dataclasses.replace(job, haul=dataclasses.replace(job.haul, **{place: gear}))

    def on(holds: Callable[[LiftGear], bool] | None) -> Callable[[Job], bool]:
        def wanted(job: Job) -> bool:
            gear: LiftGear = getattr(job.haul, place)
            return gear.by is not None and gear.by.has_plates and (holds is None or holds(gear))

        return wanted

    if place == "site":
        more["in_copy"] = InCopy.DROPPED  # another site has other gear
    if name != "by":
        more["asked"] = on(when)
    if row is not None:
        more["offered"] = on(row)
    return Answer(AnswerKey(lift_key(place, name)), f"{place.capitalize()}: {label}", form, kind,
                  needed=False, getter=get, setter=put, **more)


def _fork(gear: LiftGear) -> bool:
    return gear.by is LiftBy.FORKLIFT


def _skid_steer(gear: LiftGear) -> bool:
    return gear.by is LiftBy.SKID_STEER


def _forks(gear: LiftGear) -> bool:
    return gear.by is not None and gear.by.has_forks


def _out_unknown(gear: LiftGear) -> bool:
    return _forks(gear) and gear.coil_center is None


def _slings(gear: LiftGear) -> bool:
    return gear.by is LiftBy.SLINGS


def _not_vertical(gear: LiftGear) -> bool:
    """Whether the slings hold so that the vertical rating alone says nothing."""
    return _slings(gear) and gear.sling_hitch in (SlingHitch.BASKET, SlingHitch.CHOKER)


def _not_on_tag(gear: LiftGear) -> bool:
    return _not_vertical(gear) and gear.hitch_limit is None


def _vertical(gear: LiftGear) -> bool:
    return _slings(gear) and (
        not _not_vertical(gear) or (_not_on_tag(gear) and gear.by_factors is YesNo.YES)
    )


def _choker(gear: LiftGear) -> bool:
    return _slings(gear) and gear.sling_hitch is SlingHitch.CHOKER


def _many_legs(gear: LiftGear) -> bool:
    return _slings(gear) and (gear.legs or 0) > 2


def _gear(place: LiftPlace) -> tuple[Answer, ...]:
    quantity = Form.QUANTITY
    return (
        _lift(place, "by", "coils lifted by", Form.CHOICE, choices=tuple(LiftBy)),
        _lift(place, "fork_capacity", "forklift's rating", quantity, Kind.MASS, _fork,
              bare=_POUNDS, low=50, high=120_000),
        _lift(place, "operating_capacity", "operating capacity", quantity, Kind.MASS,
              _skid_steer, bare=_POUNDS, low=50, high=20_000),
        _lift(place, "tipping_load", "tipping load", quantity, Kind.MASS, _skid_steer,
              bare=_POUNDS, low=50, high=40_000),
        _lift(place, "fork_center", "rated load center", quantity, Kind.WIDTH, _forks,
              bare=_INCHES, low=6, high=60),
        _lift(place, "coil_center", "face to coil middle", quantity, Kind.WIDTH, _forks,
              bare=_INCHES, low=2, high=240),
        _lift(place, "at_face", "coil at fork face", Form.CHOICE, None, _out_unknown, _forks,
              choices=tuple(YesNo)),
        _lift(place, "face_to_axle", "axle to fork face", quantity, Kind.WIDTH, _forks,
              bare=_INCHES, low=2, high=120),
        _lift(place, "attachment", "attachment's weight", quantity, Kind.MASS,
              bare=_POUNDS, zero=True, high=20_000),
        _lift(place, "sling_hitch", "slings hold by", Form.CHOICE, None, _slings,
              choices=tuple(SlingHitch)),
        _lift(place, "legs", "slings or legs", Form.COUNT, Kind.COUNT, _slings,
              low=1, high=4),
        _lift(place, "legs_sharing", "legs known to share", Form.COUNT, Kind.COUNT, _many_legs,
              _slings, low=2, high=4),
        _lift(place, "hitch_limit", "tag for this hitch", quantity, Kind.MASS, _not_vertical,
              bare=_POUNDS, low=50, high=120_000),
        _lift(place, "by_factors", "by usual factors", Form.CHOICE, None, _not_on_tag,
              _not_vertical, choices=tuple(YesNo)),
        _lift(place, "leg_rating", "vertical rating", quantity, Kind.MASS, _vertical, _slings,
              bare=_POUNDS, low=50, high=120_000),
        _lift(place, "choke_angle", "angle of choke", Form.CHOICE, None, _choker,
              choices=tuple(ChokeAngle)),
        _lift(place, "angle", "angle from level", quantity, Kind.ANGLE, _slings,
              bare=("°", "°"), low=1, high=90),
        _lift(place, "sling_length", "sling length", quantity, Kind.LENGTH, _slings,
              bare=_FEET, high=1200),
        _lift(place, "sling_height", "hook above load", quantity, Kind.LENGTH, _slings,
              bare=_FEET, high=1200),
    )


HAUL: tuple[Answer, ...] = (
    _count(HaulKey.RACK_COILS, "Coils riding on the rack", 9, rests_on=(ARRIVED_AS,)),
    _mass(HaulKey.RACK_MASS, "Coils' weight on the rack", _on_rack, zero=True,
          rests_on=(HaulKey.RACK_COILS, ORDER), in_copy=InCopy.DROPPED),
    _mass(HaulKey.GEAR, "Gear aboard", zero=True),
    _mass(HaulKey.TRAILER_GVWR, "Trailer: gross rating"),
    _count(HaulKey.AXLES, "Trailer axles", 9, least=1),
    _mass(HaulKey.AXLE_RATING, "Rating of one axle"),
    _mass(HaulKey.TRAILER_WEIGHED, "Loaded trailer, weighed", in_copy=InCopy.DROPPED),
    _mass(HaulKey.AXLES_WEIGHED, "Load on axles, weighed", in_copy=InCopy.DROPPED),
    _pick(HaulKey.HITCH, "Hitch", tuple(HitchKind)),
    _mass(HaulKey.HITCH_RATING, "Hitch: max trailer", _towed),
    _mass(HaulKey.TONGUE_WEIGHT_RATING, "Hitch: max tongue weight", _towed),
    _mass(HaulKey.TONGUE_WEIGHT, "Tongue or pin, weighed", _towed, zero=True, rests_on=(
        HaulKey.RACK_COILS, HaulKey.RACK_MASS, HaulKey.GEAR, HaulKey.GEAR_AT, HaulKey.CARGO_COILS,
        HaulKey.CARGO_ON, HaulKey.CARGO_AT, MachineKey.WEIGHT, ORDER,
    ), in_copy=InCopy.DROPPED),
    _mass(HaulKey.TOW_WEIGHT, "Vehicle: loaded weight", _towed),
    _mass(HaulKey.TOW_GVWR, "Vehicle: gross rating", _towed),
    _mass(HaulKey.TOW_PULL, "Vehicle: max trailer", _towed),
    _mass(HaulKey.GCWR, "Both: gross rating", _towed),
    Answer(HaulKey.HITCH_TO_AXLES, "Hitch to middle of axles", Form.QUANTITY, Kind.LENGTH, _FEET,
           needed=False, low=24, high=1200),
    _mass(HaulKey.EMPTY_TONGUE_WEIGHT, "Tongue or pin, empty", zero=True),
    _distance(HaulKey.RACK_AT, "Hitch to middle of rack"),
    _distance(HaulKey.GEAR_AT, "Hitch to middle of gear"),
    _count(HaulKey.CARGO_COILS, "Coils hauled as cargo", 99, rests_on=(ARRIVED_AS,)),
    _pick(HaulKey.CARGO_ON, "Cargo carried by", tuple(CargoOn), _cargo),
    _distance(HaulKey.CARGO_AT, "Hitch to middle of cargo", _cargo_on_trailer),
    _pick(HaulKey.GROUPED, "Coils grouped as one", tuple(YesNo), _several),
    _pick(HaulKey.EYE, "Coil's eye points", tuple(CoilEye), _eye_matters),
    _pick(HaulKey.TURNED_BY, "Eye-up coils turned by", tuple(TurnedBy), _stands_up),
    _pick(HaulKey.BLOCKED, "Blocked to the front", tuple(YesNo), _cargo),
    _pick(HaulKey.MATS, "Friction mats under coils", tuple(YesNo), _cargo),
    _count(HaulKey.TIES_OVER, "Tie-downs side to side", 99, _cargo),
    _mass(HaulKey.TIE_OVER_LIMIT, "Tie limit, side to side", _over),
    _count(HaulKey.TIES_DIRECT, "Tie-downs to one side", 99, _cargo),
    _mass(HaulKey.TIE_DIRECT_LIMIT, "Tie limit, to one side", _direct),
    *_gear("site"),
    *_gear("shop"),
)
