"""A job on the road, worked by hand, and where each finding about it must speak."""

from __future__ import annotations

from collections.abc import Mapping

from coilwright.job.answers import Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import CargoOn, CoilEye, HitchKind, LiftBy
from coilwright.job.job import Job
from coilwright.values.finding import Level
from tests.cases import set_answers, small_gable
from tests.plan.coils.stock import coil, with_coils

ON_THE_ROAD: dict[str, Value | None] = {
    "machine.weight": 7400.0,
    "haul.rack_mass": 2500.0,
    "haul.gear": 300.0,
    "haul.trailer_gvwr": 12_000.0,
    "haul.axles": 2,
    "haul.axle_rating": 6000.0,
    "haul.hitch": HitchKind.BALL,
    "haul.hitch_rating": 14_000.0,
    "haul.tongue_weight_rating": 1400.0,
    "haul.tongue_weight": 1300.0,
    "haul.tow_weight": 7000.0,
    "haul.tow_gvwr": 10_000.0,
    "haul.tow_pull": 12_000.0,
    "haul.gcwr": 22_000.0,
    "haul.hitch_to_axles": 200.0,
    "haul.empty_tongue_weight": 900.0,
    "haul.rack_at": 180.0,
    "haul.gear_at": 60.0,
    "haul.cargo_coils": 1,
    "haul.cargo_on": CargoOn.OTHER,
    "haul.eye": CoilEye.UP,
    "haul.blocked": YesNo.NO,
    "haul.ties_over": 1,
    "haul.tie_over_limit": 1000.0,
    "haul.ties_direct": 1,
    "haul.tie_direct_limit": 600.0,
}
"""The hand-worked gable's one coil, 2,475 lb at the heaviest it may come, goes on another vehicle;
coils of other jobs, weighed at 2,500 lb, ride on the rack. Everything is inside its rating."""


def on_the_road(changes: Mapping[str, Value | None] | None = None) -> Job:
    """The hand-worked gable on the road, with answers changed."""
    return set_answers(small_gable(), {**ON_THE_ROAD, **(changes or {})})


def with_one_on_hand(job: Job) -> Job:
    """The job with 200 ft of its metal on hand, which it uses first."""
    return with_coils(job, coil("A7", 200))


ROAD = ON_THE_ROAD
HEAVY: dict[str, Value | None] = {
    "@eave": 1200.0, "machine.arbor_load": 9000.0, "machine.rack_load": 18_000.0,
    "machine.rack_diameter": 60.0, "haul.cargo_coils": 1,
}
"""100 ft of eave twice, all from one coil of more than 5,000 lb."""

# (finding, its level, answers that make it speak, the same on the safe side of the limit)
HAUL_CASES: list[tuple[str, Level, Mapping[str, Value | None], Mapping[str, Value | None]]] = [
    # 7,400 + 2,500 + 300 = 10,200 lb
    ("haul.trailer", Level.STOP, {**ROAD, "haul.trailer_gvwr": 10_199.0},
     {**ROAD, "haul.trailer_gvwr": 10_200.0}),
    # 10,200 − 1,300 = 8,900 lb on two axles
    ("haul.axles", Level.STOP, {**ROAD, "haul.axle_rating": 4449.0},
     {**ROAD, "haul.axle_rating": 4450.0}),
    ("haul.hitch", Level.STOP, {**ROAD, "haul.hitch_rating": 10_199.0},
     {**ROAD, "haul.hitch_rating": 10_200.0}),
    # weighed at 1,300 lb, from where things sit 1,360 lb
    ("haul.tongue_weight", Level.STOP, {**ROAD, "haul.tongue_weight_rating": 1359.0},
     {**ROAD, "haul.tongue_weight_rating": 1360.1}),
    ("haul.tow", Level.STOP, {**ROAD, "haul.tow_pull": 10_199.0},
     {**ROAD, "haul.tow_pull": 10_200.0}),
    # 7,000 + 1,360 = 8,360 lb
    ("haul.tow_vehicle", Level.STOP, {**ROAD, "haul.tow_gvwr": 8359.0},
     {**ROAD, "haul.tow_gvwr": 8360.1}),
    # 7,000 + 10,200 = 17,200 lb
    ("haul.combination", Level.STOP, {**ROAD, "haul.gcwr": 17_199.0},
     {**ROAD, "haul.gcwr": 17_200.0}),
    ("haul.rack_arbors", Level.STOP, {**ROAD, "haul.rack_coils": 3},
     {**ROAD, "haul.rack_coils": 2}),
    ("haul.rack_over", Level.STOP, {**ROAD, "machine.rack_load": 2499.0},
     {**ROAD, "machine.rack_load": 2500.0}),
    ("haul.rack_over", Level.STOP,
     {**ROAD, "machine.arbors": 1, "machine.arbor_load": 2499.0},
     {**ROAD, "machine.arbors": 1, "machine.arbor_load": 2500.0}),
    # one coil: 2,250.3 lb, 2,475.4 lb at the heaviest, and a hundredth above that 2,500.1 lb
    ("haul.rack_outdated", Level.CARE,
     {**ROAD, "haul.cargo_coils": 0, "haul.rack_coils": 1, "haul.rack_mass": 2501.0},
     {**ROAD, "haul.cargo_coils": 0, "haul.rack_coils": 1, "haul.rack_mass": 2500.0}),
    ("haul.more_coils", Level.CARE, {**ROAD, "haul.rack_coils": 1}, ROAD),
    ("haul.more_coils", Level.CARE, {**ROAD, "haul.cargo_coils": 2},
     {**ROAD, "haul.cargo_coils": 0, "haul.rack_coils": 1}),
    ("haul.tail_heavy", Level.STOP, {**ROAD, "haul.tongue_weight": 0.0},
     {**ROAD, "haul.tongue_weight": 1.0}),
    # 900 + 2,500·(1 − 280/200) + 300·(1 − 60/200) = 900 − 1,000 + 210 = 110 lb; at 290 in −15 lb
    ("haul.tail_heavy", Level.STOP,
     {**ROAD, "haul.tongue_weight": None, "haul.rack_at": 290.0},
     {**ROAD, "haul.tongue_weight": None, "haul.rack_at": 280.0}),
    ("haul.hitch_impossible", Level.STOP,
     {**ROAD, "haul.tongue_weight": 10_200.0}, {**ROAD, "haul.tongue_weight": 10_199.0}),
    # 10 % of 10,200 lb is 1,020 lb, 15 % is 1,530 lb, 25 % is 2,550 lb
    ("haul.hitch_share", Level.CARE, {**ROAD, "haul.tongue_weight": 1019.0},
     {**ROAD, "haul.tongue_weight": 1020.0}),
    ("haul.hitch_share", Level.CARE, {**ROAD, "haul.tongue_weight": 1531.0},
     {**ROAD, "haul.tongue_weight": 1530.0}),
    ("haul.hitch_share", Level.CARE,
     {**ROAD, "haul.hitch": HitchKind.GOOSENECK, "haul.tongue_weight": 1529.0},
     {**ROAD, "haul.hitch": HitchKind.GOOSENECK, "haul.tongue_weight": 2550.0,
      "haul.hitch_to_axles": None, "haul.empty_tongue_weight": None}),
    # 1,529 lb where things sit, by an empty trailer of 1,069 lb on the hitch: as on the gooseneck
    ("haul.hitch_share", Level.CARE,
     {**ROAD, "haul.hitch": HitchKind.FIFTH_WHEEL, "haul.tongue_weight": 1600.0,
      "haul.empty_tongue_weight": 1069.0},
     {**ROAD, "haul.hitch": HitchKind.FIFTH_WHEEL, "haul.tongue_weight": 1600.0,
      "haul.empty_tongue_weight": 1071.0}),
    # from where things sit: 900 + 2,500·0.1 + 300·0.7 = 1,360 lb; less 10 % is 1,224 lb
    ("haul.hitch_disagree", Level.CARE, {**ROAD, "haul.tongue_weight": 1223.0},
     {**ROAD, "haul.tongue_weight": 1224.0}),
    ("haul.ratings_missing", Level.CARE, {**ROAD, "haul.trailer_gvwr": None}, ROAD),
    ("haul.ratings_missing", Level.CARE, {**ROAD, "haul.hitch": None}, ROAD),
    ("haul.ratings_missing", Level.CARE, {**ROAD, "haul.tie_direct_limit": None}, ROAD),
    ("haul.ratings_missing", Level.CARE, {"machine.weight": 7400.0}, {}),
    ("haul.loads_missing", Level.CARE, {**ROAD, "haul.gear": None}, ROAD),
    # a digit too few, a digit too many: such hitches say 1,000 to 60,000 lb
    ("haul.implausible", Level.CARE, {**ROAD, "haul.hitch_rating": 999.0},
     {**ROAD, "haul.hitch_rating": 1000.0}),
    ("haul.implausible", Level.CARE, {**ROAD, "haul.tow_gvwr": 100_000.0}, ROAD),
    ("haul.implausible", Level.CARE, {"haul.shop_by": LiftBy.FORKLIFT,
                                      "haul.shop_fork_capacity": 80_000.0},
     {"haul.shop_by": LiftBy.FORKLIFT, "haul.shop_fork_capacity": 8000.0}),
    ("haul.loads_missing", Level.CARE,
     {**ROAD, "haul.ties_over": None, "haul.ties_direct": None}, ROAD),
    # 14,000 + 12,001 = 26,001 lb
    ("haul.license", Level.NOTE,
     {**ROAD, "haul.tow_gvwr": 14_000.0, "haul.trailer_gvwr": 12_001.0},
     {**ROAD, "haul.tow_gvwr": 14_000.0, "haul.trailer_gvwr": 12_000.0}),
    # however heavy together, the trailer must be above 10,000 lb; the truck alone from 26,001 lb
    ("haul.license", Level.NOTE, {**ROAD, "haul.tow_gvwr": 26_001.0},
     {**ROAD, "haul.tow_gvwr": 26_000.0, "haul.trailer_gvwr": 10_000.0,
      "haul.rack_mass": 2300.0}),
    ("haul.commercial", Level.NOTE,
     {**ROAD, "haul.hitch": None, "haul.rack_mass": 0.0, "haul.trailer_gvwr": 10_001.0},
     {**ROAD, "haul.hitch": None, "haul.rack_mass": 0.0, "haul.trailer_gvwr": 10_000.0}),
    # half of 2,475.33 lb is 1,237.66 lb; 1,000 + 475.4/2 = 1,237.7 lb
    ("haul.ties", Level.STOP, {**ROAD, "haul.tie_direct_limit": 475.0},
     {**ROAD, "haul.tie_direct_limit": 475.4}),
    ("haul.ties", Level.STOP,
     {**ROAD, "haul.ties_over": 0, "haul.ties_direct": 2, "haul.tie_direct_limit": 1237.0},
     {**ROAD, "haul.ties_over": 0, "haul.ties_direct": 2, "haul.tie_direct_limit": 1238.0}),
    ("haul.tie_count", Level.STOP,
     {**ROAD, "haul.ties_direct": 0, "haul.tie_over_limit": 2000.0}, ROAD),
    ("haul.tie_count", Level.STOP,
     {**ROAD, "haul.ties_direct": 0, "haul.tie_over_limit": 2000.0},
     {**ROAD, "haul.ties_direct": 0, "haul.tie_over_limit": 2000.0, "haul.blocked": YesNo.YES}),
    ("haul.metal_coil", Level.CARE, HEAVY, {**HEAVY, "@eave": 1000.0}),
    ("haul.turning", Level.CARE, {"haul.cargo_coils": 1, "haul.eye": CoilEye.UP},
     {"haul.cargo_coils": 1, "haul.eye": CoilEye.LENGTHWISE}),
    ("haul.coil_rolls", Level.NOTE, {"haul.cargo_coils": 1}, HEAVY),
    ("haul.coil_rolls", Level.NOTE, {"haul.cargo_coils": 1}, {"haul.cargo_coils": 0}),
]  # fmt: skip
