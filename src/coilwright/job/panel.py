"""The panel, and the tested assembly where one is specified."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from coilwright.calc.metal import MetalName
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.fields import STRICT, Length, Percent, Thickness, Width, between


class Seam(StrEnum):
    """How neighboring panels are joined."""

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


@dataclass(frozen=True, kw_only=True, slots=True)
class PanelSection:
    """The panel, and the tested assembly where one is specified.

    The last ones are for what goes on the roof beside the metal: allowances, fasteners to a clip,
    beads of sealant along a closure.
    """

    __pydantic_config__ = STRICT

    seam: Seam | None = None
    leg: Width | None = None
    coverage: Width | None = None
    take_up: Width | None = None
    pan: Pan | None = None
    start: PanelStart | None = None
    offset: Width | None = None
    narrowest_end: Width | None = None
    end_allowance: Width | None = None
    rounding: Width | None = None
    deck: Deck | None = None
    clip_travel: Width | None = None
    clip_spacing: Length | None = None
    report: str | None = None
    report_widest: Width | None = None
    report_thinnest: Thickness | None = None
    report_metal: MetalName | None = None
    report_deck: Deck | None = None
    report_clip_spacing: Length | None = None
    clip_allowance: Percent | None = None
    clip_fasteners: Annotated[int, between(1, 20)] | None = None
    fastener_allowance: Percent | None = None
    underlayment_allowance: Percent | None = None
    closure_allowance: Percent | None = None
    sealant_beads: Annotated[int, between(0, 10)] | None = None
    sealant_allowance: Percent | None = None
