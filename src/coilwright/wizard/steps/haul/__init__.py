"""Step 8: loads on the road and in the air, against their plates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.steps.haul.loads import LoadsBlock, LoadsCount

if TYPE_CHECKING:
    from coilwright.plan import Plan


def _bars(plan: Plan, width: int, height: int, _plane: int) -> list[str]:
    from coilwright.drawing.bars import load_bars

    lines = load_bars(plan.loads, width)
    if not lines or height < 2:
        return []
    # The worst come first where there is not room for all.
    first = lines if len(lines) < height else sorted(lines, key=lambda line: "!? ".index(line[0]))
    return ["Loads; │ is the rating as entered", *first[: height - 1]]


def _lift(place: str) -> tuple[str, ...]:
    return tuple(f"haul.{place}_{name}" for name in (
        "by", "fork_capacity", "operating_capacity", "tipping_load", "fork_centre", "coil_centre",
        "at_face", "face_to_axle", "attachment", "sling_hitch", "legs", "legs_sharing",
        "hitch_limit", "by_factors", "leg_rating", "choke_angle", "angle", "sling_length",
        "sling_height",
    ))


VIEW = StepView(
    "haul",
    groups=(
        Group("On the rack and aboard", ("haul.rack_coils", "haul.rack_mass", "haul.gear")),
        Group("Trailer and axles", (
            "haul.trailer_rating", "haul.axles", "haul.axle_rating", "haul.trailer_weighed",
            "haul.axles_weighed",
        )),
        Group("Hitch and towing vehicle", (
            "haul.hitch", "haul.hitch_rating", "haul.hitch_load_rating", "haul.hitch_load",
            "haul.tow_weight", "haul.tow_rating", "haul.tow_pull", "haul.combination_rating",
        )),
        Group("Where things sit (optional)", (
            "haul.hitch_to_axles", "haul.empty_hitch_load", "haul.rack_at", "haul.gear_at",
        )),
        Group("Coils as cargo", (
            "haul.cargo_coils", "haul.cargo_on", "haul.cargo_at", "haul.grouped", "haul.eye",
            "haul.turned_by", "haul.blocked", "haul.mats",
            "haul.ties_over", "haul.tie_over_limit", "haul.ties_direct", "haul.tie_direct_limit",
        )),
        Group("Lifting at the site", _lift("site")),
        Group("Lifting in the shop", _lift("shop")),
    ),
    headlines=(
        Headline("haul.gross", "Loaded trailer"),
        Headline("haul.hitch_share", "Hitch share"),
        Headline("haul.axle_load", "On the axles"),
        Headline("coil.heaviest", "Heaviest coil"),
        Headline("haul.combination_load", "Vehicle and trailer"),
        Headline("haul.tow_loaded", "Towing vehicle"),
    ),
    drawing=_bars,
    above=(LoadsCount,),
    below=(LoadsBlock,),
)
