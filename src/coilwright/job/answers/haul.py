"""Step 8: hauling and lifting. A rating that is not given clears nothing."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

from coilwright.job.answers.spec import ORDER, Answer, Form
from coilwright.job.choices import YesNo
from coilwright.job.haul import CargoOn, CoilEye, HitchKind, LiftBy
from coilwright.job.job import Job
from coilwright.units import Kind

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
    name: str, label: str, asked: Callable[[Job], bool] | None = None, *, zero: bool = False,
    high: float = 120_000, rests_on: tuple[str, ...] = (),
) -> Answer:
    return Answer(f"haul.{name}", label, Form.QUANTITY, Kind.MASS, _POUNDS, needed=False,
                  zero=zero, high=high, rests_on=rests_on, **_when(asked))


def _distance(name: str, label: str, asked: Callable[[Job], bool] | None = None) -> Answer:
    return Answer(f"haul.{name}", label, Form.QUANTITY, Kind.LENGTH, _FEET, needed=False,
                  zero=True, high=1200, **_when(asked))


def _count(
    name: str, label: str, most: int, asked: Callable[[Job], bool] | None = None, *, least: int = 0
) -> Answer:
    return Answer(f"haul.{name}", label, Form.COUNT, Kind.COUNT, needed=False, zero=least == 0,
                  low=least or None, high=most, **_when(asked))


def _pick(name: str, label: str, choices: tuple[Any, ...],
          asked: Callable[[Job], bool] | None = None) -> Answer:
    return Answer(f"haul.{name}", label, Form.CHOICE, choices=choices, needed=False,
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
        _lift(place, "fork_centre", "rated load centre", quantity, Kind.WIDTH, fork,
              bare=_INCHES, low=6, high=60),
        _lift(place, "coil_centre", "face to coil middle", quantity, Kind.WIDTH, fork,
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
    _count("rack_coils", "Coils riding on the rack", 9),
    _mass("rack_mass", "Coils' weight on the rack", zero=True,
          rests_on=("haul.rack_coils", ORDER)),
    _mass("gear", "Gear aboard", zero=True),
    _mass("trailer_rating", "Trailer's rating, loaded"),
    _count("axles", "Trailer axles", 9, least=1),
    _mass("axle_rating", "Rating of one axle"),
    _pick("hitch", "Hitch", tuple(HitchKind)),
    _mass("hitch_rating", "Trailer hitch may pull", _towed),
    _mass("hitch_load_rating", "Load the hitch may carry", _towed),
    _mass("hitch_load", "Hitch load, weighed", _towed, zero=True, rests_on=(
        "haul.rack_coils", "haul.rack_mass", "haul.gear", "haul.gear_at", "haul.cargo_coils",
        "haul.cargo_on", "haul.cargo_at", "machine.weight", ORDER,
    )),
    _mass("tow_weight", "Towing vehicle, loaded", _towed),
    _mass("tow_rating", "Towing vehicle's rating", _towed),
    _mass("tow_pull", "Trailer vehicle may tow", _towed),
    _mass("combination_rating", "Rating of both together", _towed),
    Answer("haul.hitch_to_axles", "Hitch to middle of axles", Form.QUANTITY, Kind.LENGTH, _FEET,
           needed=False, low=24, high=1200),
    _mass("empty_hitch_load", "Hitch load, trailer empty", zero=True),
    _distance("rack_at", "Hitch to middle of rack"),
    _distance("gear_at", "Hitch to middle of gear"),
    _count("cargo_coils", "Coils hauled as cargo", 99),
    _pick("cargo_on", "Cargo carried by", tuple(CargoOn), _cargo),
    _distance("cargo_at", "Hitch to middle of cargo", _cargo_on_trailer),
    _pick("eye", "Coil's eye points", tuple(CoilEye), _cargo),
    _pick("blocked", "Blocked to the front", tuple(YesNo), _cargo),
    _count("ties_over", "Tie-downs side to side", 99, _cargo),
    _mass("tie_over_limit", "Limit each, side to side", _over),
    _count("ties_direct", "Tie-downs to one side", 99, _cargo),
    _mass("tie_direct_limit", "Limit each, direct", _direct),
    *_gear("site"),
    *_gear("shop"),
)
