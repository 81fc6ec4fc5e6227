"""The answers that are picked from a list, in the trade's words."""

from __future__ import annotations

from enum import StrEnum


class YesNo(StrEnum):
    """Yes or no."""

    YES = "yes"
    NO = "no"


class Building(StrEnum):
    """Building shapes that make planes by themselves."""

    SHED = "shed"
    GABLE = "gable"
    HIP = "hip"
    PORCH = "gable with a lower porch"
    ELL = "L with a valley"
    CROSS = "cross gable"
    GAMBREL = "gambrel"
    PLANES = "planes only"


class Shape(StrEnum):
    """Shapes of one roof plane."""

    RECTANGLE = "rectangle"
    TRIANGLE = "triangle"
    TRAPEZOID = "trapezoid"
    PARALLELOGRAM = "parallelogram"
    CORNERS = "corners"


class Measured(StrEnum):
    """How lengths up a plane were measured."""

    SLOPE = "on the slope"
    PLAN = "in plan"


class Openings(StrEnum):
    """What panels do at an opening."""

    RUN_THROUGH = "run through"
    DEDUCT = "deduct"


class MetalName(StrEnum):
    """Roofing metals. Steel is coated or painted steel."""

    STEEL = "steel"
    ALUMINIUM = "aluminium"
    COPPER = "copper"
    STAINLESS = "stainless steel"
    ZINC = "zinc"


class CoatingName(StrEnum):
    """Metallic coatings by their standards' designations."""

    AZ50 = "AZ50"
    AZ55 = "AZ55"
    AZ60 = "AZ60"
    G60 = "G60"
    G90 = "G90"
    NONE = "none"


class ThicknessBasis(StrEnum):
    """What a stated thickness includes."""

    OVER_COATING = "coating included"
    BARE = "bare, before coating"


class Finish(StrEnum):
    """Finish systems, by their resins."""

    PVDF = "PVDF 70 %"
    PVDF_50 = "PVDF 50 %"
    SMP = "silicone-modified polyester"
    POLYESTER = "polyester"
    BARE = "bare, not painted"


class Shade(StrEnum):
    """How dark a colour is, which decides how hot the metal gets and how plainly waves show."""

    LIGHT = "light"
    MEDIUM = "medium"
    DARK = "dark"


class PaintedSide(StrEnum):
    """Which side of the strip is the weather side as it comes off the coil."""

    OUTSIDE = "outside of the coil"
    INSIDE = "inside of the coil"
    BOTH = "both sides"
    NONE = "not painted"


class Touching(StrEnum):
    """Other materials the roof touches or drains from."""

    NOTHING = "nothing unlike it"
    COPPER = "copper, or drains from copper"
    ALUMINIUM = "aluminium"
    STEEL = "galvanised or coated steel"
    TREATED_WOOD = "treated wood"
    MASONRY = "concrete or masonry"


class Seam(StrEnum):
    """How neighbouring panels are joined."""

    DOUBLE_LOCK = "double-lock"
    SINGLE_LOCK = "single-lock"
    SNAP_LOCK = "snap-lock"


class Pan(StrEnum):
    """What is rolled into the flat between two seams."""

    FLAT = "flat"
    STRIATIONS = "striations"
    RIBS = "stiffening ribs"


class Deck(StrEnum):
    """What the clips are fixed to."""

    PLYWOOD = "plywood"
    STRAND_BOARD = "oriented strand board"
    BOARDS = "wood boards"
    STEEL_DECK = "steel deck"
    INSULATION = "rigid insulation over a deck"
    CONCRETE = "concrete"
    OPEN = "open framing"


class Storage(StrEnum):
    """Where coils stand until they are run."""

    ROOF = "under a roof, dry"
    COVERED = "outdoors, covered"
    OPEN = "outdoors, not covered"


class CoilOn(StrEnum):
    """Where the coil sits while it runs."""

    RACK = "overhead rack"
    DECOILER = "floor decoiler"
