"""The keys of figures and answers, as names: a typo fails type checking, a rename is one change.

Figures that come once for each row (a coil, a plane, a piece of trim) have a function instead.
"""

from __future__ import annotations

from typing import Literal, NewType

FigureKey = NewType("FigureKey", str)
"""What a figure of the plan is known by, on screens, in JSON and in its working."""
AnswerKey = NewType("AnswerKey", FigureKey)
"""Section and field of an answer in the job; the figure of a numeric answer has the same key."""




def answer_key(key: str) -> AnswerKey:
    """The key of an answer, where it is declared."""
    return AnswerKey(FigureKey(key))


Rows = Literal["coil", "alone", "plane", "on_hand", "trim", "slit", "arrived"]
"""What there are rows of: coils to order, those it would take without any on hand, planes, coils
on hand, trim, masters, arrivals."""
Part = Literal[
    "across", "alike", "alone", "along", "area", "area_alike", "by_eye", "by_lot", "count", "cut",
    "drop", "drop_mass", "each", "edge", "extent", "flat_width", "halves", "heaviest", "height",
    "inside", "laid", "largest", "least", "left", "length", "longest", "margin", "mass", "minutes",
    "money", "net", "none", "openings", "openings_alike", "outside_diameter", "panels", "plain",
    "planes", "rows", "run", "run_left", "run_left_short", "said", "share", "sheet_mass", "sheets",
    "shortest", "slit", "strips", "taken", "tallest", "ties", "ties_general", "tight", "too_heavy",
    "too_large", "true_height", "unused", "usable", "wanted", "width", "wrap",
]
"""What is figured of a row, or of a figure."""


def row_key(rows: Rows, number: int, part: Part | None = None) -> FigureKey:
    """The key of a row by its number from 1, or of what is figured of it.

    >>> row_key("coil", 2, "heaviest")
    'coil.2.heaviest'
    """
    return FigureKey(f"{rows}.{number}" if part is None else f"{rows}.{number}.{part}")


def part_of(key: str, part: Part) -> FigureKey:
    """The key of what is figured of a row or of another figure.

    >>> part_of(row_key("plane", 1), "panels")
    'plane.1.panels'
    """
    return FigureKey(f"{key}.{part}")


LiftPlace = Literal["site", "shop"]
"""Where coils are lifted."""
LIFT_PLACES: tuple[LiftPlace, ...] = ("site", "shop")
LiftPart = Literal[
    "angle", "at_face", "attachment", "by", "by_factors", "choke_angle", "choke_factor",
    "choker_share", "coil_center", "coil_limit", "coil_limit_dense", "face_to_axle", "fork",
    "fork_at_most", "fork_capacity", "fork_carries", "fork_center", "held_rating", "hitch_limit",
    "leg_angle", "leg_rating", "legs", "legs_sharing", "limit_carries", "limit_middle", "load",
    "middle", "operating_capacity", "sharing", "sides", "sides_carry", "sling_height",
    "sling_hitch", "sling_length", "slings", "slings_carry", "stock_diameter", "straight",
    "tension", "tension_coil", "tipping_load", "tips_at", "two",
]
"""What is asked or figured of the gear that lifts at one place."""


def lift_key(place: LiftPlace, part: LiftPart) -> FigureKey:
    """The key of what is asked or figured of the gear of one place.

    >>> lift_key("site", "coil_limit")
    'haul.site_coil_limit'
    """
    return FigureKey(f"haul.{place}_{part}")


def hauled_key(key: str) -> FigureKey:
    """The key of what a coil weighs at most on the road and on the hook, of the densest metal.

    >>> hauled_key(row_key("coil", 1))
    'haul.coil.1.heaviest'
    """
    return part_of(f"haul.{key}", "heaviest")


def cargo_key(number: int) -> FigureKey:
    """The key of a coil hauled as cargo, by its number from 1.

    >>> cargo_key(2)
    'haul.cargo.2'
    """
    return FigureKey(f"haul.cargo.{number}")


def unslit_key(number: int, *, width: bool = False) -> FigureKey:
    """The key of what a coil on hand weighs before it is slit; width: how wide it is then.

    >>> unslit_key(2, width=True)
    'haul.on_hand_2_width'
    """
    return FigureKey(f"haul.on_hand_{number}{'_width' if width else ''}")


class Key:
    """Figures that a plan has once."""

    ACCOUNT_BESIDE = FigureKey("account.beside")
    ACCOUNT_DROP = FigureKey("account.drop")
    ACCOUNT_ENDS = FigureKey("account.ends")
    ACCOUNT_LONGER = FigureKey("account.longer")
    ACCOUNT_ON_HAND = FigureKey("account.on_hand")
    ACCOUNT_OPENINGS = FigureKey("account.openings")
    ACCOUNT_RIPPED = FigureKey("account.ripped")
    ACCOUNT_ROOF = FigureKey("account.roof")
    ACCOUNT_SPARE = FigureKey("account.spare")
    ACCOUNT_TAKE_UP = FigureKey("account.take_up")
    ACCOUNT_THREAD = FigureKey("account.thread")
    ACCOUNT_TOLERANCE = FigureKey("account.tolerance")
    ACCOUNT_TOTAL = FigureKey("account.total")
    ACCOUNT_TRIM = FigureKey("account.trim")
    ACCOUNT_USED = FigureKey("account.used")
    BESIDE_CLOSURES_NET = FigureKey("beside.closures.net")
    BESIDE_SCREWS_NET = FigureKey("beside.screws.net")
    BESIDE_SEALANT_NET = FigureKey("beside.sealant.net")
    BUILDING_AREA = FigureKey("building.area")
    COIL_CAME = FigureKey("coil.came")
    COIL_COST = FigureKey("coil.cost")
    COIL_COST_AREA = FigureKey("coil.cost_area")
    COIL_COST_UNIT = FigureKey("coil.cost_unit")
    COIL_COUNT = FigureKey("coil.count")
    COIL_CUT = FigureKey("coil.cut")
    COIL_FEWEST = FigureKey("coil.fewest")
    COIL_FROM_NEW = FigureKey("coil.from_new")
    COIL_GAP = FigureKey("coil.gap")
    COIL_GAP_MASS = FigureKey("coil.gap_mass")
    COIL_HEAVIEST = FigureKey("coil.heaviest")
    COIL_LEAST_METAL = FigureKey("coil.least_metal")
    COIL_LEAST_ORDERED = FigureKey("coil.least_ordered")
    COIL_LENGTH_ORDERED = FigureKey("coil.length_ordered")
    COIL_LONGEST = FigureKey("coil.longest")
    COIL_LONGER = FigureKey("coil.longer")
    COIL_MASS_ORDERED = FigureKey("coil.mass_ordered")
    COIL_RACK_TOGETHER = FigureKey("coil.rack_together")
    COIL_RUN_COUNT = FigureKey("coil.run_count")
    COIL_STRAND_LONGEST = FigureKey("coil.strand_longest")
    COIL_THREADED = FigureKey("coil.threaded")
    COIL_USABLE = FigureKey("coil.usable")
    COIL_WANTED_LENGTH = FigureKey("coil.wanted_length")
    COIL_WRAP = FigureKey("coil.wrap")
    COILS_DAYS = FigureKey("coils.days")
    COILS_DAYS_SPARE = FigureKey("coils.days_spare")
    COMPARE_SEAMS = FigureKey("compare.seams")
    COMPARE_TAKES = FigureKey("compare.takes")
    AROUND_CHIMNEYS = FigureKey("around.chimneys")
    AROUND_OTHERS = FigureKey("around.others")
    AROUND_SKYLIGHTS = FigureKey("around.skylights")
    AROUND_VENTS = FigureKey("around.vents")
    EDGES_BREAK = FigureKey("edges.break")
    EDGES_EAVE = FigureKey("edges.eave")
    EDGES_HIP = FigureKey("edges.hip")
    EDGES_RAKE = FigureKey("edges.rake")
    EDGES_RIDGE = FigureKey("edges.ridge")
    EDGES_VALLEY = FigureKey("edges.valley")
    EDGES_WALL = FigureKey("edges.wall")
    HAUL_AXLE_KNOWN = FigureKey("haul.axle_known")
    HAUL_AXLE_LOAD = FigureKey("haul.axle_load")
    HAUL_AXLES_RATING = FigureKey("haul.axles_rating")
    HAUL_CARGO = FigureKey("haul.cargo")
    HAUL_CARGO_ALONG = FigureKey("haul.cargo.along")
    HAUL_CARGO_COUNT = FigureKey("haul.cargo.count")
    HAUL_CARGO_ABOARD = FigureKey("haul.cargo_aboard")
    HAUL_COILS = FigureKey("haul.coils")
    HAUL_ON_HAND = FigureKey("haul.on_hand")
    HAUL_COMBINATION_KNOWN = FigureKey("haul.combination_known")
    HAUL_COMBINATION_LOAD = FigureKey("haul.combination_load")
    HAUL_DENSEST = FigureKey("haul.densest")
    HAUL_GROSS = FigureKey("haul.gross")
    HAUL_GROSS_KNOWN = FigureKey("haul.gross_known")
    HAUL_GROSS_WORKED = FigureKey("haul.gross_worked")
    HAUL_HELD = FigureKey("haul.held")
    HAUL_HELD_DIRECT = FigureKey("haul.held_direct")
    HAUL_HELD_OVER = FigureKey("haul.held_over")
    HAUL_HITCH_LEAST = FigureKey("haul.hitch_least")
    HAUL_HITCH_MOMENTS = FigureKey("haul.hitch_moments")
    HAUL_HITCH_SHARE = FigureKey("haul.hitch_share")
    HAUL_HITCH_SHARE_WORKED = FigureKey("haul.hitch_share_worked")
    HAUL_HITCH_WORSE = FigureKey("haul.hitch_worse")
    HAUL_MUST_HOLD = FigureKey("haul.must_hold")
    HAUL_RACK = FigureKey("haul.rack")
    HAUL_RATINGS_TOGETHER = FigureKey("haul.ratings_together")
    HAUL_SHARE_LEAST = FigureKey("haul.share_least")
    HAUL_SHARE_MOST = FigureKey("haul.share_most")
    HAUL_TIE_EACH = FigureKey("haul.tie_each")
    HAUL_TIE_LIGHT = FigureKey("haul.tie_light")
    HAUL_TIE_SHORT = FigureKey("haul.tie_short")
    HAUL_TIES_GENERAL = FigureKey("haul.ties_general")
    HAUL_TIES_NEEDED = FigureKey("haul.ties_needed")
    HAUL_TIES_THERE = FigureKey("haul.ties_there")
    HAUL_TOW_LOADED = FigureKey("haul.tow_loaded")
    LIMIT_DIAMETER = FigureKey("limit.diameter")
    LIMIT_RACK = FigureKey("limit.rack")
    LIMIT_RACK_MASS = FigureKey("limit.rack.mass")
    METAL_COATING_MASS = FigureKey("metal.coating_mass")
    METAL_COATING_THICKNESS = FigureKey("metal.coating_thickness")
    METAL_DENSITY = FigureKey("metal.density")
    METAL_EXPANSION = FigureKey("metal.expansion")
    METAL_SHEET_MASS = FigureKey("metal.sheet_mass")
    ON_HAND_COUNT = FigureKey("on_hand.count")
    ON_HAND_PANELS = FigureKey("on_hand.panels")
    ON_HAND_TAKEN = FigureKey("on_hand.taken")
    PANEL_MOVEMENT = FigureKey("panel.movement")
    PANELS_COUNT = FigureKey("panels.count")
    PANELS_COVERED = FigureKey("panels.covered")
    PANELS_EXTENT = FigureKey("panels.extent")
    PANELS_LAID = FigureKey("panels.laid")
    PANELS_LENGTH = FigureKey("panels.length")
    PANELS_LONGEST = FigureKey("panels.longest")
    PLANE_ORIGIN = FigureKey("plane.origin")
    ROOF_AREA = FigureKey("roof.area")
    ROOF_EAVE = FigureKey("roof.eave")
    ROOF_END_EAVE = FigureKey("roof.end_eave")
    ROOF_FRONT_EAVE = FigureKey("roof.front_eave")
    ROOF_FRONT_LEFT_EAVE = FigureKey("roof.front_left_eave")
    ROOF_FRONT_RIGHT_EAVE = FigureKey("roof.front_right_eave")
    ROOF_FRONT_TOP = FigureKey("roof.front_top")
    ROOF_HIP = FigureKey("roof.hip")
    ROOF_HIP_FACTOR = FigureKey("roof.hip_factor")
    ROOF_LOWER_FACTOR = FigureKey("roof.lower_factor")
    ROOF_LOWER_SLOPE_LENGTH = FigureKey("roof.lower_slope_length")
    ROOF_MAIN_LENGTH = FigureKey("roof.main_length")
    ROOF_MAIN_RUN = FigureKey("roof.main_run")
    ROOF_MAIN_WIDTH = FigureKey("roof.main_width")
    ROOF_OPENINGS_AREA = FigureKey("roof.openings_area")
    ROOF_OUTER_STEP = FigureKey("roof.outer_step")
    ROOF_OUTER_STEP_UP = FigureKey("roof.outer_step_up")
    ROOF_OUTER_EAVE = FigureKey("roof.outer_eave")
    ROOF_OUTER_KNEE = FigureKey("roof.outer_knee")
    ROOF_PORCH_FACTOR = FigureKey("roof.porch_factor")
    ROOF_PORCH_SLOPE_LENGTH = FigureKey("roof.porch_slope_length")
    ROOF_RIDGE = FigureKey("roof.ridge")
    ROOF_SLOPE_FACTOR = FigureKey("roof.slope_factor")
    ROOF_SLOPE_LENGTH = FigureKey("roof.slope_length")
    ROOF_SQUARES = FigureKey("roof.squares")
    ROOF_OUTER_VALLEY_UP = FigureKey("roof.outer_valley_up")
    ROOF_VALLEY_BACK = FigureKey("roof.valley_back")
    ROOF_VALLEY_TOP = FigureKey("roof.valley_top")
    ROOF_WING_EAVE = FigureKey("roof.wing_eave")
    ROOF_WING_RIDGE = FigureKey("roof.wing_ridge")
    ROOF_WING_RIGHT_END = FigureKey("roof.wing_right_end")
    ROOF_WING_RUN = FigureKey("roof.wing_run")
    ROOF_WING_SLOPE_LENGTH = FigureKey("roof.wing_slope_length")
    ROOF_WING_WIDTH_OUT = FigureKey("roof.wing_width_out")
    RUN_MINUTES = FigureKey("run.minutes")
    RUN_NO_SPARE = FigureKey("run.no_spare")
    SAVE_COUNT = FigureKey("save.count")
    SAVE_MONEY = FigureKey("save.money")
    SAVE_WITHOUT = FigureKey("save.without")
    SAVE_WITHOUT_MASS = FigureKey("save.without_mass")
    SLIT_DROP_MASS = FigureKey("slit.drop_mass")
    STRIP_MASS_PER_LENGTH = FigureKey("strip.mass_per_length")
    STRIP_WIDTH = FigureKey("strip.width")
    TRIM_FROM_COIL = FigureKey("trim.from_coil")
