"""A job: what was answered, and how sure each answer is. Nothing here is computed."""

from __future__ import annotations

import datetime
from dataclasses import field
from typing import Annotated, Literal

from coilwright.calc.edges import EdgeKind
from coilwright.calc.panel_start import PanelStart
from coilwright.choices import (
    Building,
    CoatingName,
    CoilOn,
    Deck,
    Finish,
    Measured,
    MetalName,
    Openings,
    PaintedSide,
    Pan,
    Seam,
    Shade,
    Shape,
    Storage,
    ThicknessBasis,
    Touching,
    YesNo,
)
from coilwright.figures import Standing
from coilwright.found_cuts import FoundCuts
from coilwright.haul import HaulSection
from coilwright.machine import Machine
from coilwright.models import Frozen, between
from coilwright.quantities import (
    Length,
    Mass,
    Offset,
    Percent,
    Pitch,
    Price,
    Temperature,
    Thickness,
    Width,
)
from coilwright.receiving import Arrival
from coilwright.stock import CoilOnHand
from coilwright.trim import TrimSection
from coilwright.units import System


class JobSection(Frozen):
    """Step 1: who, what, by when."""

    name: str | None = None
    client: str | None = None
    site: str | None = None
    building_use: str | None = None
    needed_by: datetime.date | None = None
    designer: str | None = None
    engineered: YesNo | None = None
    trim_in_house: YesNo | None = None
    salt_water: YesNo | None = None
    coldest: Temperature | None = None
    hottest: Temperature | None = None
    longest_handled: Length | None = None


class Opening(Frozen):
    """A hole in a plane: its lower left corner, width along the eave, height up the slope."""

    left: Offset
    up: Offset
    width: Length
    height: Length


class Plane(Frozen):
    """One roof plane as measured; `alike` counts how many there are of it.

    pitch_rise or pitch_slope, with pitch_run: two measured lengths that stand in for a pitch
    nobody has read. edges: edges whose kind was set by hand, by the number of the corner they
    start at, counted from 1 counter-clockwise round the outline as it is drawn.
    """

    name: str = ""
    shape: Shape = Shape.RECTANGLE
    eave: Length | None = None
    top: Length | None = None
    slope_length: Length | None = None
    offset: Offset | None = None
    corners: tuple[tuple[Offset, Offset], ...] = ()
    pitch: Pitch | None = None
    pitch_rise: Length | None = None
    pitch_run: Length | None = None
    pitch_slope: Length | None = None
    measured: Measured = Measured.SLOPE
    alike: Annotated[int, between(1, 999)] = 1
    openings: tuple[Opening, ...] = ()
    edges: dict[int, EdgeKind] = field(default_factory=dict)


class RoofSection(Frozen):
    """Step 2: a building shape that makes planes, and planes measured one by one.

    pitch: for a gambrel that of the upper slopes; wings have the pitch of the main part.
    pitch_rise or pitch_slope, with pitch_run: two measured lengths that stand in for it.
    """

    building: Building | None = None
    length: Length | None = None
    width: Length | None = None
    eave_overhang: Length | None = None
    rake_overhang: Length | None = None
    pitch: Pitch | None = None
    pitch_rise: Length | None = None
    pitch_run: Length | None = None
    pitch_slope: Length | None = None
    porch_depth: Length | None = None
    porch_pitch: Pitch | None = None
    wing_projection: Length | None = None
    wing_width: Length | None = None
    wing_left: Length | None = None
    lower_run: Length | None = None
    lower_pitch: Pitch | None = None
    openings: Openings | None = None
    planes: tuple[Plane, ...] = ()


class MetalSection(Frozen):
    """Step 3: the metal and its finish."""

    metal: MetalName | None = None
    coating: CoatingName | None = None
    gauge: Annotated[int, between(1, 99)] | None = None
    thickness: Thickness | None = None
    thickness_basis: ThicknessBasis | None = None
    finish: Finish | None = None
    colour: str | None = None
    shade: Shade | None = None
    colour_confirmed: YesNo | None = None
    custom_colour: YesNo | None = None
    painted_side: PaintedSide | None = None
    film: YesNo | None = None
    touching: Touching | None = None


class PanelSection(Frozen):
    """Step 4: the panel, and the tested assembly where one is specified."""

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


class CoilSection(Frozen):
    """Step 7: what the supplier ships and the site can lift.

    keep_length: a shorter leftover is a stub. price: by weight, before freight. carry: what one
    person carries. master, master_2 …: widths of the supplier's coils before slitting. edge_trim:
    what slitting takes off both edges of one together. lead_time: calendar days from
    the order to the coils on site.
    """

    coil_on: CoilOn | None = None
    spare: Percent | None = None
    inside_diameter: Width | None = None
    tolerance: Percent | None = None
    wrap_allowance: Percent | None = None
    supplier_heaviest: Mass | None = None
    site_lift: Mass | None = None
    minimum_order: Mass | None = None
    keep_length: Length | None = None
    price: Price | None = None
    carry: Mass | None = None
    master: Width | None = None
    master_2: Width | None = None
    master_3: Width | None = None
    master_4: Width | None = None
    edge_trim: Width | None = None
    lead_time: Annotated[int, between(0, 730)] | None = None
    order_date: datetime.date | None = None
    storage: Storage | None = None


class Asked(Frozen):
    """The reply to a question that fills no answer: what was said, and whether that settles it."""

    text: str = ""
    settled: bool = False


class Job(Frozen):
    """One job, one order: one metal, one profile, one machine.

    standing: by answer key, for answers that are not sure. typed: by answer key, what was
    typed last and could not be read yet, kept so that nothing typed is lost. questions: replies
    by question key, for questions that fill no answer. on_hand: the coils on hand this job may
    use, as they were when it took them. found_cuts: what a longer search for the least metal
    found, used while it fits the job. arrived: the coils of the order as they came.
    """

    format: Literal["coilwright-job"] = "coilwright-job"
    version: Literal[1] = 1
    units: System = System.US
    job: JobSection = JobSection()
    roof: RoofSection = RoofSection()
    metal: MetalSection = MetalSection()
    panel: PanelSection = PanelSection()
    machine: Machine = Machine()
    trim: TrimSection = TrimSection()
    coils: CoilSection = CoilSection()
    haul: HaulSection = HaulSection()
    on_hand: tuple[CoilOnHand, ...] = ()
    found_cuts: FoundCuts | None = None
    arrived: tuple[Arrival, ...] = ()
    standing: dict[str, Standing] = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    questions: dict[str, Asked] = field(default_factory=dict)
    about: str = ""

    @property
    def title(self) -> str:
        """The job's name, or words that stand in for it."""
        return self.job.name or "Unnamed job"
