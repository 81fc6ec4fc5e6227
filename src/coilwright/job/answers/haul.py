"""Step 8: hauling and lifting. A rating that is not given clears nothing."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

from coilwright.job.answers.spec import Answer, Form
from coilwright.job.choices import YesNo
from coilwright.job.haul import CargoOn, CoilEye, HitchKind, LiftBy
from coilwright.job.job import Job
from coilwright.units import Kind
from coilwright.values.keys import AnswerKey, answer_key


class HaulKey:
    """The answers of this step by name."""

    RACK_COILS = answer_key("haul.rack_coils")
    RACK_MASS = answer_key("haul.rack_mass")
    GEAR = answer_key("haul.gear")
    TRAILER_RATING = answer_key("haul.trailer_rating")
    AXLES = answer_key("haul.axles")
    AXLE_RATING = answer_key("haul.axle_rating")
    HITCH = answer_key("haul.hitch")
    HITCH_RATING = answer_key("haul.hitch_rating")
    HITCH_LOAD_RATING = answer_key("haul.hitch_load_rating")
    HITCH_LOAD = answer_key("haul.hitch_load")
    TOW_WEIGHT = answer_key("haul.tow_weight")
    TOW_RATING = answer_key("haul.tow_rating")
    TOW_PULL = answer_key("haul.tow_pull")
    COMBINATION_RATING = answer_key("haul.combination_rating")
    HITCH_TO_AXLES = answer_key("haul.hitch_to_axles")
    EMPTY_HITCH_LOAD = answer_key("haul.empty_hitch_load")
    RACK_AT = answer_key("haul.rack_at")
    GEAR_AT = answer_key("haul.gear_at")
    CARGO_COILS = answer_key("haul.cargo_coils")
    CARGO_ON = answer_key("haul.cargo_on")
    CARGO_AT = answer_key("haul.cargo_at")
    EYE = answer_key("haul.eye")
    BLOCKED = answer_key("haul.blocked")
    TIES_OVER = answer_key("haul.ties_over")
    TIE_OVER_LIMIT = answer_key("haul.tie_over_limit")
    TIES_DIRECT = answer_key("haul.ties_direct")
    TIE_DIRECT_LIMIT = answer_key("haul.tie_direct_limit")
    SITE_BY = answer_key("haul.site_by")
    SITE_FORK_CAPACITY = answer_key("haul.site_fork_capacity")
    SITE_FORK_CENTER = answer_key("haul.site_fork_center")
    SITE_COIL_CENTER = answer_key("haul.site_coil_center")
    SITE_FACE_TO_AXLE = answer_key("haul.site_face_to_axle")
    SITE_ATTACHMENT = answer_key("haul.site_attachment")
    SITE_LEGS = answer_key("haul.site_legs")
    SITE_LEG_RATING = answer_key("haul.site_leg_rating")
    SITE_ANGLE = answer_key("haul.site_angle")
    SITE_SLING_LENGTH = answer_key("haul.site_sling_length")
    SITE_SLING_HEIGHT = answer_key("haul.site_sling_height")
    SHOP_BY = answer_key("haul.shop_by")
    SHOP_FORK_CAPACITY = answer_key("haul.shop_fork_capacity")
    SHOP_FORK_CENTER = answer_key("haul.shop_fork_center")
    SHOP_COIL_CENTER = answer_key("haul.shop_coil_center")
    SHOP_FACE_TO_AXLE = answer_key("haul.shop_face_to_axle")
    SHOP_ATTACHMENT = answer_key("haul.shop_attachment")
    SHOP_LEGS = answer_key("haul.shop_legs")
    SHOP_LEG_RATING = answer_key("haul.shop_leg_rating")
    SHOP_ANGLE = answer_key("haul.shop_angle")
    SHOP_SLING_LENGTH = answer_key("haul.shop_sling_length")
    SHOP_SLING_HEIGHT = answer_key("haul.shop_sling_height")


_POUNDS = ("lb", "kg")
_FEET = ("ft", "m")
_INCHES = ("in", "mm")


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


def _mass(
    key: AnswerKey, label: str, asked: Callable[[Job], bool] | None = None, *, zero: bool = False,
    high: float = 120_000,
) -> Answer:
    return Answer(key, label, Form.QUANTITY, Kind.MASS, _POUNDS, needed=False,
                  zero=zero, high=high, **_when(asked))


def _distance(key: AnswerKey, label: str, asked: Callable[[Job], bool] | None = None) -> Answer:
    return Answer(key, label, Form.QUANTITY, Kind.LENGTH, _FEET, needed=False,
                  zero=True, high=1200, **_when(asked))


def _count(
    key: AnswerKey, label: str, most: int, asked: Callable[[Job], bool] | None = None, *,
    least: int = 0,
) -> Answer:
    return Answer(key, label, Form.COUNT, Kind.COUNT, needed=False, zero=least == 0,
                  low=least or None, high=most, **_when(asked))


def _pick(key: AnswerKey, label: str, choices: tuple[Any, ...],
          asked: Callable[[Job], bool] | None = None) -> Answer:
    return Answer(key, label, Form.CHOICE, choices=choices, needed=False,
                  **_when(asked))


def _when(asked: Callable[[Job], bool] | None) -> dict[str, Any]:
    return {} if asked is None else {"asked": asked}


def _lift(place: str, name: str, label: str, form: Form, kind: Kind | None = None,
          by: LiftBy | None = None, **more: Any) -> Answer:
    """An answer about the lifting gear of one place: site or shop."""

    def get(job: Job) -> Any:
        return getattr(getattr(job.haul, place), name)

    def put(job: Job, value: Any) -> Job:
        gear = dataclasses.replace(getattr(job.haul, place), **{name: value})
        return dataclasses.replace(job, haul=dataclasses.replace(job.haul, **{place: gear}))

    def wanted(job: Job) -> bool:
        have = getattr(job.haul, place).by
        return have is by if by is not None else have is not None and have.has_plates

    if name != "by":
        more["asked"] = wanted
    return Answer(f"haul.{place}_{name}", f"{place.capitalize()}: {label}", form, kind,
                  needed=False, getter=get, setter=put, **more)


def _gear(place: str) -> tuple[Answer, ...]:
    fork, slings = LiftBy.FORKLIFT, LiftBy.SLINGS
    quantity = Form.QUANTITY
    return (
        _lift(place, "by", "coils lifted by", Form.CHOICE, choices=tuple(LiftBy)),
        _lift(place, "fork_capacity", "forklift's rating", quantity, Kind.MASS, fork,
              bare=_POUNDS, low=50, high=120_000),
        _lift(place, "fork_center", "rated load center", quantity, Kind.WIDTH, fork,
              bare=_INCHES, low=6, high=60),
        _lift(place, "coil_center", "face to coil middle", quantity, Kind.WIDTH, fork,
              bare=_INCHES, low=2, high=240),
        _lift(place, "face_to_axle", "axle to fork face", quantity, Kind.WIDTH, fork,
              bare=_INCHES, low=2, high=120),
        _lift(place, "attachment", "attachment's weight", quantity, Kind.MASS,
              bare=_POUNDS, zero=True, high=20_000),
        _lift(place, "legs", "legs that carry", Form.COUNT, Kind.COUNT, slings,
              low=1, high=4),
        _lift(place, "leg_rating", "rating of one leg", quantity, Kind.MASS, slings,
              bare=_POUNDS, low=50, high=120_000),
        _lift(place, "angle", "angle from level", quantity, Kind.ANGLE, slings,
              bare=("°", "°"), low=1, high=90),
        _lift(place, "sling_length", "sling length", quantity, Kind.LENGTH, slings,
              bare=_FEET, high=1200),
        _lift(place, "sling_height", "hook above load", quantity, Kind.LENGTH, slings,
              bare=_FEET, high=1200),
    )


HAUL: tuple[Answer, ...] = (
    _count(HaulKey.RACK_COILS, "Coils riding on the rack", 9),
    _mass(HaulKey.RACK_MASS, "Coils' weight on the rack", zero=True),
    _mass(HaulKey.GEAR, "Gear aboard", zero=True),
    _mass(HaulKey.TRAILER_RATING, "Trailer's rating, loaded"),
    _count(HaulKey.AXLES, "Trailer axles", 9, least=1),
    _mass(HaulKey.AXLE_RATING, "Rating of one axle"),
    _pick(HaulKey.HITCH, "Hitch", tuple(HitchKind)),
    _mass(HaulKey.HITCH_RATING, "Trailer hitch may pull", _towed),
    _mass(HaulKey.HITCH_LOAD_RATING, "Load the hitch may carry", _towed),
    _mass(HaulKey.HITCH_LOAD, "Hitch load, weighed", _towed, zero=True),
    _mass(HaulKey.TOW_WEIGHT, "Towing vehicle, loaded", _towed),
    _mass(HaulKey.TOW_RATING, "Towing vehicle's rating", _towed),
    _mass(HaulKey.TOW_PULL, "Trailer vehicle may tow", _towed),
    _mass(HaulKey.COMBINATION_RATING, "Rating of both together", _towed),
    Answer(HaulKey.HITCH_TO_AXLES, "Hitch to middle of axles", Form.QUANTITY, Kind.LENGTH, _FEET,
           needed=False, low=24, high=1200),
    _mass(HaulKey.EMPTY_HITCH_LOAD, "Hitch load, trailer empty", zero=True),
    _distance(HaulKey.RACK_AT, "Hitch to middle of rack"),
    _distance(HaulKey.GEAR_AT, "Hitch to middle of gear"),
    _count(HaulKey.CARGO_COILS, "Coils hauled as cargo", 99),
    _pick(HaulKey.CARGO_ON, "Cargo carried by", tuple(CargoOn), _cargo),
    _distance(HaulKey.CARGO_AT, "Hitch to middle of cargo", _cargo_on_trailer),
    _pick(HaulKey.EYE, "Coil's eye points", tuple(CoilEye), _cargo),
    _pick(HaulKey.BLOCKED, "Blocked to the front", tuple(YesNo), _cargo),
    _count(HaulKey.TIES_OVER, "Tie-downs side to side", 99, _cargo),
    _mass(HaulKey.TIE_OVER_LIMIT, "Limit each, side to side", _over),
    _count(HaulKey.TIES_DIRECT, "Tie-downs to one side", 99, _cargo),
    _mass(HaulKey.TIE_DIRECT_LIMIT, "Limit each, direct", _direct),
    *_gear("site"),
    *_gear("shop"),
)
