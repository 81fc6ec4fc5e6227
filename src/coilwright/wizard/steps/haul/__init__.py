"""The Haul and lift step: loads on the road and in the air, against their plates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.job.answers.haul import HaulKey
from coilwright.values.keys import Key, LiftPart, LiftPlace, lift_key
from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.steps.haul.loads import LoadsBlock, LoadsCount
from coilwright.wizard.steps.haul.rigs import RigBlock

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.plan import Plan


def _bars(plan: Plan, width: int, height: int, _plane: int, work: LineWork) -> list[str]:
    from coilwright.drawing.bars import load_bars

    lines = load_bars(plan.loads, width)
    if not lines or height < 2:
        return []
    # The worst come first where there is not room for all.
    first = lines if len(lines) < height else sorted(lines, key=lambda line: "!? ".index(line[0]))
    drawn = ["Loads; │ is the rating as entered", *first[: height - 1]]
    return list(map(work.plain, drawn))


_GEAR: tuple[LiftPart, ...] = (
    "by", "fork_capacity", "operating_capacity", "tipping_load", "fork_center", "coil_center",
    "at_face", "face_to_axle", "legs", "legs_sharing", "sling_hitch", "choke_angle",
    "hitch_limit", "by_factors", "leg_rating", "angle", "sling_length", "sling_height",
    "attachment",
)


def _lift(place: LiftPlace) -> tuple[str, ...]:
    return tuple(lift_key(place, name) for name in _GEAR)


VIEW = StepView(
    "haul",
    groups=(
        Group("On the rack and aboard", (HaulKey.RACK_COILS, HaulKey.RACK_MASS, HaulKey.GEAR)),
        Group(
            "Trailer and axles",
            (
                HaulKey.TRAILER_GVWR,
                HaulKey.AXLES,
                HaulKey.AXLE_RATING,
                HaulKey.TRAILER_WEIGHED,
                HaulKey.AXLES_WEIGHED,
            ),
        ),
        Group(
            "Hitch and tow vehicle",
            (
                HaulKey.HITCH,
                HaulKey.HITCH_RATING,
                HaulKey.TONGUE_WEIGHT_RATING,
                HaulKey.TONGUE_WEIGHT,
                HaulKey.TOW_WEIGHT,
                HaulKey.TOW_GVWR,
                HaulKey.TOW_PULL,
                HaulKey.GCWR,
            ),
        ),
        Group(
            "Where things sit (optional)",
            (
                HaulKey.HITCH_TO_AXLES,
                HaulKey.EMPTY_TONGUE_WEIGHT,
                HaulKey.RACK_AT,
                HaulKey.GEAR_AT,
            ),
        ),
        Group(
            "Coils as cargo",
            (
                HaulKey.CARGO_COILS,
                HaulKey.CARGO_ON,
                HaulKey.CARGO_AT,
                HaulKey.GROUPED,
                HaulKey.EYE,
                HaulKey.TURNED_BY,
                HaulKey.BLOCKED,
                HaulKey.MATS,
                HaulKey.TIES_OVER,
                HaulKey.TIE_OVER_LIMIT,
                HaulKey.TIES_DIRECT,
                HaulKey.TIE_DIRECT_LIMIT,
            ),
            HaulKey.CARGO_COILS,
        ),
        Group("Lifting at the site", _lift("site")),
        Group("Lifting in the shop", _lift("shop")),
    ),
    headlines=(
        Headline(Key.HAUL_GROSS, "Loaded trailer"),
        Headline(Key.HAUL_HITCH_SHARE, "Hitch share"),
        Headline(Key.HAUL_AXLE_LOAD, "On the axles"),
        Headline(Key.COIL_HEAVIEST, "Heaviest by tolerance",
                 instead=(Key.COIL_CAME, "Heaviest that came")),
        Headline(Key.HAUL_COMBINATION_LOAD, "Vehicle and trailer"),
        Headline(Key.HAUL_TOW_LOADED, "Tow vehicle"),
    ),
    drawing=_bars,
    above=(LoadsCount, RigBlock),
    below=(LoadsBlock,),
)
