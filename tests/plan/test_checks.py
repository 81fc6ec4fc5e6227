"""Every check, once where it must speak and once where it must not."""

from __future__ import annotations

import ast
import dataclasses
import datetime
from collections.abc import Mapping
from pathlib import Path

import pytest

from coilwright import plan as plan_package
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers import ANSWERS, Value
from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilOn, Storage
from coilwright.job.edit import new_job
from coilwright.job.haul import LiftBy
from coilwright.job.job import Job
from coilwright.job.machine import Forming, Profile
from coilwright.job.metal import (
    CoatingName,
    Finish,
    MetalName,
    Shade,
    ThicknessBasis,
    ThicknessIs,
    Touching,
)
from coilwright.job.panel import Deck, Pan, Seam
from coilwright.job.receiving import Decision
from coilwright.job.roof import Building, Opening, OpeningWhat, Plane
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.sheets import render
from coilwright.sheets.state import state_of
from coilwright.units import System
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key
from coilwright.values.source import ANSWER, PLATE, STAND_IN
from coilwright.values.standing import Standing
from tests.cases import building, set_answers, small_gable, with_planes
from tests.generated import ENGINEERED
from tests.house.source import nodes
from tests.plan.haul.cases import HAUL_CASES
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.rules import for_each

Changes = Mapping[str, Value | None]

DECOILER: dict[str, Value | None] = {
    "coils.coil_on": CoilOn.DECOILER, "machine.decoiler_load": 3000.0,
    "machine.decoiler_diameter": 40.0, "machine.decoiler_smallest_coil_id": 16.0,
    "machine.decoiler_largest_coil_id": 24.0,
}  # fmt: skip
FORKLIFT: dict[str, Value | None] = {
    "coils.site_lift": None, "haul.site_by": LiftBy.FORKLIFT, "haul.site_fork_center": 24.0,
    "haul.site_coil_center": 24.0, "haul.site_attachment": 0.0,
}
ALUMINUM: dict[str, Value | None] = {"metal.metal": MetalName.ALUMINUM, "metal.thickness": 0.032}
REPORT = {**ENGINEERED}
NOMINAL: dict[str, Value | None] = {
    "metal.thickness": 0.0276, "metal.thickness_is": ThicknessIs.NOMINAL,
}
NEEDED, ORDERED = datetime.date(2027, 6, 1), datetime.date(2027, 5, 11)
"""Twenty-one days apart."""
DATES: dict[str, Value | None] = {
    "job.needed_by": NEEDED, "coils.lead_time": 21, "coils.order_date": ORDERED,
}

# (finding, its level, answers that make it speak, the same on the safe side of the limit)
CASES: list[tuple[str, Level, Changes, Changes]] = [
    # the machine's limits, each way
    ("machine.thickness", Level.STOP, {"machine.thinnest": 0.024}, {"machine.thinnest": 0.0236}),
    ("machine.thickness", Level.STOP, {"machine.thickest": 0.0235}, {"machine.thickest": 0.0236}),
    ("machine.strip", Level.STOP, {"machine.narrowest_strip": 21.1},
     {"machine.narrowest_strip": 21.0}),
    ("machine.strip", Level.STOP, {"machine.widest_strip": 20.9}, {"machine.widest_strip": 21.0}),
    ("machine.coverage", Level.STOP, {"machine.profile_narrowest": 16.1},
     {"machine.profile_narrowest": 16.0}),
    ("machine.coverage", Level.STOP, {"machine.profile_widest": 15.9},
     {"machine.profile_widest": 16.0}),
    ("machine.inside", Level.STOP, {"coils.inside_diameter": 15.0},
     {"coils.inside_diameter": 16.0}),
    ("machine.inside", Level.STOP, {"coils.inside_diameter": 25.0},
     {"coils.inside_diameter": 24.0}),
    ("machine.inside", Level.STOP,
     {**DECOILER, "machine.decoiler_smallest_coil_id": 21.0}, {**DECOILER}),
    ("machine.take_up", Level.STOP, {"machine.profile_take_up": 4.5},
     {"machine.profile_take_up": 5.0}),
    ("machine.no_rack", Level.STOP, {"machine.arbors": 0}, {"machine.arbors": 1}),
    ("machine.no_decoiler", Level.STOP,
     {"coils.coil_on": CoilOn.DECOILER, "machine.name": "X"}, {**DECOILER, "machine.name": "X"}),
    # the roof
    ("roof.snap_lock_flat", Level.CARE, {"panel.seam": Seam.SNAP_LOCK, "@pitch": 2.5},
     {"panel.seam": Seam.SNAP_LOCK, "@pitch": 3.0}),
    ("roof.single_lock_flat", Level.CARE, {"panel.seam": Seam.SINGLE_LOCK, "@pitch": 2.9},
     {"panel.seam": Seam.SINGLE_LOCK, "@pitch": 3.0}),
    ("roof.double_lock_flat", Level.CARE, {"@pitch": 0.4}, {"@pitch": 0.5}),
    # under the code's least the stop alone speaks
    ("roof.double_lock_flat", Level.CARE, {"@pitch": 0.25}, {"@pitch": 0.2}),
    ("roof.too_flat", Level.STOP, {"@pitch": 0.2}, {"@pitch": 0.25}),
    ("roof.under_profile", Level.STOP, {"machine.profile_lowest_pitch": 7.0},
     {"machine.profile_lowest_pitch": 6.0}),
    ("roof.short_eave_overhang", Level.NOTE,
     {"roof.building": Building.GABLE, "roof.eave_overhang": 1.0},
     {"roof.building": Building.GABLE, "roof.eave_overhang": 2.0}),
    ("roof.short_rake_overhang", Level.NOTE,
     {"roof.building": Building.GABLE, "roof.rake_overhang": 1.0},
     {"roof.building": Building.GABLE, "roof.rake_overhang": 0.0}),
    ("roof.pitch_unknown", Level.STOP, {"@pitch": None}, {"@pitch": 6.0}),
    ("roof.gambrel_flat", Level.CARE,
     {"roof.building": Building.GAMBREL, "roof.pitch": 8.0, "roof.lower_pitch": 8.0},
     {"roof.building": Building.GAMBREL, "roof.pitch": 8.0, "roof.lower_pitch": 8.5}),
    # panels of the gable are 217 in long: 18 ft 1 in
    ("panel.short", Level.CARE, {"machine.shortest_panel": 218.0},
     {"machine.shortest_panel": 217.0}),
    ("panel.short", Level.NOTE, {"@up": 30.0}, {"@up": 40.0}),
    # the metal
    ("metal.gauge_only", Level.STOP, {"metal.gauge": 24, "metal.thickness": None},
     {"metal.gauge": 24}),
    ("metal.gauge_only", Level.STOP,
     {"metal.gauge": 24, "metal.thickness": None, "metal.metal": None},
     {"metal.gauge": None, "metal.thickness": None, "metal.metal": None}),
    ("metal.gauge_differs", Level.STOP, {"metal.gauge": 26}, {"metal.gauge": 24}),
    ("metal.gauge_differs", Level.STOP, {"metal.gauge": 22}, {"metal.gauge": None}),
    # Aluminum is asked for none: one that was typed for steel is not to be seen nor taken away.
    ("metal.gauge_differs", Level.STOP, {"metal.gauge": 22},
     {"metal.gauge": 22, "metal.metal": MetalName.ALUMINUM}),
    # 24 ga coated is 0.0236 to 0.0276 in (SMACNA table); 0.0187 in is 28 ga or the least of 26
    ("metal.gauge_differs", Level.STOP, {"metal.gauge": 24, "metal.thickness": 0.0187},
     {"metal.gauge": 28, "metal.thickness": 0.0187}),
    ("metal.under_code", Level.CARE, {**ALUMINUM, "metal.thickness": 0.0235},
     {**ALUMINUM, "metal.thickness": 0.024}),
    ("metal.thin_coating", Level.CARE, {"metal.coating": CoatingName.G60},
     {"metal.coating": CoatingName.G90}),
    ("metal.thin_coating", Level.CARE, {"metal.coating": CoatingName.NONE},
     {**ALUMINUM, "metal.coating": CoatingName.NONE}),
    ("metal.bare_az50", Level.CARE, {"metal.finish": Finish.BARE},
     {"metal.finish": Finish.BARE, "metal.coating": CoatingName.AZ55}),
    ("metal.salt_air", Level.CARE, {"job.salt_water": YesNo.YES}, {"job.salt_water": YesNo.NO}),
    ("metal.salt_air", Level.NOTE, {**ALUMINUM, "job.salt_water": YesNo.YES}, ALUMINUM),
    ("metal.unlike", Level.STOP, {"metal.touching": Touching.COPPER},
     {"metal.touching": Touching.NOTHING}),
    ("metal.unlike", Level.CARE, {"metal.touching": Touching.TREATED_WOOD},
     {"metal.touching": Touching.STEEL}),
    ("metal.color_unconfirmed", Level.STOP, {"metal.color_confirmed": YesNo.NO},
     {"metal.color_confirmed": YesNo.YES}),
    ("metal.color_unconfirmed", Level.STOP, {"metal.color_confirmed": YesNo.NO},
     {"metal.color_confirmed": YesNo.NO, "metal.finish": Finish.BARE}),
    ("metal.custom_color", Level.CARE, {"metal.custom_color": YesNo.YES},
     {"metal.custom_color": YesNo.NO}),
    ("metal.one_lot", Level.NOTE, {"job.trim_in_house": YesNo.YES},
     {"job.trim_in_house": YesNo.NO}),
    # the panel and the tested assembly
    ("panel.no_report", Level.STOP, {"job.engineered": YesNo.YES}, REPORT),
    ("panel.no_report", Level.STOP, {**REPORT, "panel.report": None},
     {"job.engineered": YesNo.NO}),
    ("panel.outside_report_coverage", Level.STOP, {**REPORT, "panel.report_widest": 15.9},
     {**REPORT, "panel.report_widest": 16.0}),
    ("panel.outside_report_thickness", Level.STOP,
     {**REPORT, "panel.report_thinnest": 0.0237}, {**REPORT, "panel.report_thinnest": 0.0236}),
    # AZ50 is 0.0016 in of the 0.0236 in: bare it is 0.0220 in
    # a nominal 0.0276 ± 0.004 in may come at 0.0236 in (SMACNA table), 0.0001 in more not
    ("panel.outside_report_thickness_tolerance", Level.STOP,
     {**REPORT, **NOMINAL, "metal.thickness_tolerance": 0.0041},
     {**REPORT, **NOMINAL, "metal.thickness_tolerance": 0.0040}),
    ("panel.outside_report_thickness_tolerance", Level.STOP,
     {**REPORT, **NOMINAL, "metal.thickness_tolerance": 0.0041},
     {**REPORT, **NOMINAL, "metal.thickness_is": ThicknessIs.MINIMUM,
      "metal.thickness_tolerance": 0.0041}),
    ("panel.report_nominal", Level.STOP, {**REPORT, **NOMINAL},
     {**REPORT, **NOMINAL, "metal.thickness_tolerance": 0.0040}),
    ("panel.report_nominal", Level.NOTE, REPORT,
     {**REPORT, "metal.thickness_is": ThicknessIs.MINIMUM}),
    ("panel.report_basis", Level.CARE, {**REPORT, "panel.report_thinnest": 0.0221},
     {**REPORT, "panel.report_thinnest": 0.0219}),
    ("panel.report_basis", Level.CARE, {**REPORT, "panel.report_thinnest": 0.0236},
     {**REPORT, "panel.report_thinnest": 0.0236,
      "metal.thickness_basis": ThicknessBasis.BARE}),
    ("panel.outside_report_metal", Level.STOP,
     {**REPORT, "panel.report_metal": MetalName.ALUMINUM}, REPORT),
    ("panel.oil_canning", Level.CARE, {"panel.coverage": 16.1, "metal.thickness": 0.0235},
     {"panel.coverage": 16.0, "metal.thickness": 0.0235}),
    ("panel.oil_canning", Level.CARE, {"panel.coverage": 18.0, "metal.thickness": 0.0187},
     {"panel.coverage": 18.0, "metal.thickness": 0.0236}),
    ("panel.outside_report_deck", Level.STOP,
     {**REPORT, "panel.deck": Deck.OPEN, "panel.report_deck": Deck.PLYWOOD},
     {**REPORT, "panel.deck": Deck.PLYWOOD, "panel.report_deck": Deck.PLYWOOD}),
    ("panel.outside_report_deck", Level.STOP,
     {**REPORT, "panel.deck": Deck.BOARDS, "panel.report_deck": Deck.STEEL_DECK},
     {"panel.deck": Deck.BOARDS, "panel.report_deck": Deck.STEEL_DECK}),
    ("panel.outside_report_clip_spacing", Level.STOP,
     {**REPORT, "panel.clip_spacing": 18.1, "panel.report_clip_spacing": 18.0},
     {**REPORT, "panel.clip_spacing": 18.0, "panel.report_clip_spacing": 18.0}),
    ("panel.report_not_compared", Level.NOTE, {**REPORT, "panel.deck": Deck.PLYWOOD},
     {**REPORT, "panel.deck": Deck.PLYWOOD, "panel.report_deck": Deck.PLYWOOD,
      "panel.clip_spacing": 12.0, "panel.report_clip_spacing": 18.0}),
    ("panel.report_not_compared", Level.NOTE, REPORT, {**REPORT, "panel.report": None}),
    ("panel.open_framing", Level.CARE,
     {"panel.deck": Deck.OPEN, "panel.seam": Seam.SNAP_LOCK},
     {"panel.deck": Deck.OPEN, "panel.seam": Seam.DOUBLE_LOCK}),
    ("panel.open_framing", Level.CARE,
     {"panel.deck": Deck.OPEN, "panel.seam": Seam.SNAP_LOCK},
     {"panel.deck": Deck.PLYWOOD, "panel.seam": Seam.SNAP_LOCK}),
    # ribs break waves up
    ("panel.oil_canning", Level.CARE,
     {"panel.coverage": 18.0, "metal.thickness": 0.0187, "panel.pan": Pan.FLAT},
     {"panel.coverage": 18.0, "metal.thickness": 0.0187, "panel.pan": Pan.RIBS}),
    ("panel.oil_canning_long", Level.CARE, {"@up": 360.0}, {"@up": 350.0}),
    ("panel.oil_canning_long", Level.CARE, {"@up": 500.0},
     {"@up": 500.0, "panel.coverage": 15.9}),
    ("panel.oil_canning_long", Level.CARE, {"@up": 500.0, "panel.pan": Pan.FLAT},
     {"@up": 500.0, "panel.pan": Pan.STRIATIONS}),
    ("panel.oil_canning_dark", Level.NOTE, {"metal.shade": Shade.DARK},
     {"metal.shade": Shade.MEDIUM}),
    ("panel.oil_canning_dark", Level.NOTE, {"metal.shade": Shade.DARK},
     {"metal.shade": Shade.DARK, "panel.pan": Pan.STRIATIONS}),
    ("panel.oil_canning_dark", Level.NOTE, {"metal.shade": Shade.DARK},
     {"metal.shade": Shade.DARK, "metal.finish": Finish.BARE}),
    # a range of 200 °F from -20 °F (design practice, from memory)
    ("job.dark_heat", Level.CARE, {"metal.shade": Shade.DARK, "job.hottest": 175.0},
     {"metal.shade": Shade.DARK, "job.hottest": 180.0}),
    # in metric 80 °C is taken, which is 176 °F; 79 °C is 174.2 °F
    ("job.dark_heat", Level.CARE, {"metal.shade": Shade.DARK, "job.hottest": 174.2},
     {"metal.shade": Shade.DARK, "job.hottest": 176.0}),
    ("job.dark_heat", Level.CARE, {"metal.shade": Shade.DARK, "job.hottest": 120.0},
     {"metal.shade": Shade.LIGHT, "job.hottest": 120.0}),
    ("job.dark_heat", Level.CARE, {"metal.shade": Shade.DARK, "job.hottest": 120.0},
     {"metal.shade": Shade.DARK, "job.hottest": 120.0, "metal.finish": Finish.BARE}),
    # 217 in of steel, α 6.7e-6/°F, -20 to 180 °F: 0.291 in
    ("job.dark_heat", Level.CARE,
     {"metal.shade": Shade.DARK, "job.hottest": 150.0, "panel.clip_travel": 0.28},
     {"metal.shade": Shade.DARK, "job.hottest": 150.0, "panel.clip_travel": 0.3}),
    # 18 ft 1 in, end allowance and all
    ("job.panel_too_long", Level.STOP, {"job.longest_handled": 216.0},
     {"job.longest_handled": 217.0}),
    ("panel.clip_travel", Level.STOP, {"panel.clip_travel": 0.2}, {"panel.clip_travel": 0.25}),
    ("panel.long", Level.CARE, {"@up": 360.0}, {"@up": 350.0}),
    ("panel.long", Level.CARE, {"@up": 500.0}, {"@up": 500.0, "panel.clip_travel": 1.0}),
    # a long panel speaks also while nobody knows how hot the metal gets
    ("panel.long", Level.CARE, {"@up": 500.0, "job.hottest": None},
     {"@up": 500.0, "job.hottest": None, "panel.clip_travel": 1.0}),
    ("panel.sliver", Level.NOTE, {"@eave": 40 * 12 + 3.0}, {"@eave": 40 * 12 + 4.0}),
    ("panel.sliver", Level.NOTE, {"@eave": 40 * 12 + 5.0, "panel.narrowest_end": 6.0},
     {"@eave": 40 * 12 + 5.0, "panel.narrowest_end": 5.0}),
    ("panel.offset_wide", Level.NOTE,
     {"panel.start": PanelStart.OFFSET, "panel.offset": 16.5},
     {"panel.start": PanelStart.OFFSET, "panel.offset": 16.0}),
    # the coils
    ("coils.minimum", Level.STOP, {"coils.minimum_order": 2251.0},
     {"coils.minimum_order": 2250.0}),
    ("coils.site_lift_unknown", Level.STOP, {"coils.site_lift": None},
     {"coils.site_lift": 5000.0}),
    # 2,475.3 lb at the heaviest, which the order says as 2,475 lb
    ("coils.at_most_heaviest", Level.CARE, {"machine.arbor_load": 2400.0},
     {"machine.arbor_load": 2475.0}),
    ("coils.at_most_heaviest", Level.CARE, {**DECOILER, "machine.decoiler_load": 2400.0},
     {**DECOILER, "machine.decoiler_load": 2500.0}),
    # half of what the rack carries: 2,475 lb at the heaviest it may come
    ("coils.at_most_heaviest", Level.CARE, {"machine.arbors": 2, "machine.rack_load": 4900.0},
     {"machine.arbors": 2, "machine.rack_load": 5000.0}),
    ("coils.at_most_site", Level.CARE, {"coils.site_lift": 2400.0},
     {"coils.site_lift": 2475.0}),
    # 2,475 lb of metal, and 100 lb of skid and packing (common practice, no source)
    ("coils.packing", Level.CARE, {"coils.site_lift": 2574.0}, {"coils.site_lift": 2575.0}),
    # The same of gear that Haul knows by its plate.
    ("coils.packing", Level.CARE, {**FORKLIFT, "haul.site_fork_capacity": 2574.0},
     {**FORKLIFT, "haul.site_fork_capacity": 2575.0}),
    # 1.1/0.9 of 0.0236 in is 0.02884 in
    ("coils.thick_metal", Level.CARE,
     {"metal.thickness_is": ThicknessIs.MINIMUM, "metal.thickness_tolerance": 0.0053},
     {"metal.thickness_is": ThicknessIs.MINIMUM, "metal.thickness_tolerance": 0.0052}),
    # Where the site lifts 2,475 lb, 100 lb of them skid and packing: 2375/2025 of it is 0.02768 in
    ("coils.thick_metal", Level.CARE,
     {"metal.thickness_is": ThicknessIs.MINIMUM, "metal.thickness_tolerance": 0.0041,
      "coils.site_lift": 2475.0},
     {"metal.thickness_is": ThicknessIs.MINIMUM, "metal.thickness_tolerance": 0.0040,
      "coils.site_lift": 2475.0}),
    # 0.0236 in and its tolerance, against the thickest the machine forms
    ("machine.may_be_thick", Level.CARE,
     {"metal.thickness_is": ThicknessIs.MINIMUM, "metal.thickness_tolerance": 0.0030,
      "machine.thickest": 0.026},
     {"metal.thickness_is": ThicknessIs.MINIMUM, "metal.thickness_tolerance": 0.0024,
      "machine.thickest": 0.026}),
    ("coils.at_most_largest", Level.CARE, {"machine.rack_diameter": 30.0},
     {"machine.rack_diameter": 30.5}),
    ("coils.lifting", Level.CARE, {}, {"metal.thickness": None}),
    ("coils.governs", Level.NOTE, {}, {"coils.inside_diameter": None}),
    # a supplier's masters; those of an order in passes are in tests/plan/coils
    ("slit.narrow1", Level.CARE, {"coils.master": 21.25, "coils.edge_trim": 0.5},
     {"coils.master": 21.5, "coils.edge_trim": 0.5}),
    ("slit.narrow2", Level.NOTE, {"coils.master": 48.0, "coils.master_2": 20.0},
     {"coils.master": 48.0, "coils.master_2": 21.0}),
    ("coil.panel_too_long", Level.STOP, {"@up": 20_000.0}, {}),
    *HAUL_CASES,
    # the dates
    ("coils.late", Level.STOP, {**DATES, "coils.lead_time": 22}, DATES),
    ("coils.late", Level.STOP, {**DATES, "coils.order_date": datetime.date(2027, 6, 2)},
     {**DATES, "coils.order_date": None}),
    ("coils.past", Level.STOP,
     {**DATES, "coils.lead_time": None, "coils.order_date": datetime.date(2027, 7, 2)},
     {**DATES, "coils.lead_time": None}),
    ("job.temperatures", Level.STOP, {"job.coldest": 150.0}, {"job.coldest": 149.0}),
    ("coils.order_by", Level.NOTE, DATES, {**DATES, "coils.lead_time": 22}),
    ("coils.order_by", Level.NOTE, {**DATES, "coils.order_date": None},
     {**DATES, "coils.order_date": None, "job.needed_by": None}),
    ("coils.order_by", Level.NOTE, {**DATES, "coils.lead_time": 0},
     {**DATES, "coils.lead_time": None}),
    # money is not read as dollars by silence where it may well be another
    ("job.currency", Level.CARE, {"job.units": System.METRIC, "coils.price": 1.4},
     {"job.units": System.METRIC, "coils.price": 1.4, "job.currency": "EUR"}),
    ("job.currency", Level.CARE, {"job.units": System.METRIC, "coils.price": 1.4},
     {"job.units": System.US, "coils.price": 1.4}),
    # how coils are kept
    ("coils.wet_storage", Level.CARE, {"coils.storage": Storage.OPEN},
     {"coils.storage": Storage.ROOF}),
    ("coils.wet_storage", Level.NOTE, {"coils.storage": Storage.COVERED},
     {"coils.storage": None}),
    ("metal.film_sun", Level.CARE,
     {"metal.film": YesNo.YES, "coils.storage": Storage.OPEN},
     {"metal.film": YesNo.YES, "coils.storage": Storage.COVERED}),
    ("metal.film_sun", Level.CARE,
     {"metal.film": YesNo.YES, "coils.storage": Storage.OPEN},
     {"metal.film": YesNo.NO, "coils.storage": Storage.OPEN}),
]  # fmt: skip


def changed(changes: Changes, start: Job | None = None) -> Job:
    """The hand-worked gable with answers changed; `@pitch`, `@up`, `@eave` change its plane.

    start: another job, whose answers are changed.
    """
    if start is not None:
        return set_answers(start, changes)
    answers = {k: v for k, v in changes.items() if not k.startswith("@")}
    plane = {"eave": 504.0, "slope_length": 216.0, "pitch": 6.0, "alike": 2}
    names = {"@pitch": "pitch", "@up": "slope_length", "@eave": "eave"}
    plane |= {names[k]: v for k, v in changes.items() if k.startswith("@")}
    return set_answers(with_planes(small_gable(), Plane(name="Side", **plane)), answers)


def found(job: Job, key: str) -> list[Finding]:
    return [f for f in plan(job).findings if f.key == key]


@for_each((key, level, speaks) for key, level, speaks, _ in CASES)
def test_it_speaks(key: str, level: Level, speaks: Changes) -> None:
    (finding,) = found(changed(speaks), key)
    assert finding.level is level


@for_each((key, silent) for key, _, _, silent in CASES)
def test_it_is_silent(key: str, silent: Changes) -> None:
    assert found(changed(silent), key) == []


def with_machine(job: Job, **update: object) -> Job:
    return dataclasses.replace(job, machine=dataclasses.replace(job.machine, **update))


def test_the_head_of_the_order_says_when_it_goes_out() -> None:
    """Where no order date is given; a head that is dated later than that is said, and holds
    nothing."""
    job = changed({**DATES, "coils.order_date": None})
    dated = dataclasses.replace(job, order=dataclasses.replace(job.order, date=ORDERED))
    assert plan(job).lacks["coils.days_spare"].needs == ("coils.order_date",)
    assert plan(dated).figures["coils.days_spare"].value == 0
    later = changed({**DATES, "coils.lead_time": 20,
                     "coils.order_date": ORDERED - datetime.timedelta(1)}, dated)
    (said,) = found(later, "coils.dated_ahead")
    assert (said.level, said.what) == (Level.CARE, (
        "The order is dated May 11, 2027, and goes out before that, on May 10, 2027."))
    assert plan(later).ready == plan(dated).ready
    assert not found(changed({"coils.order_date": ORDERED}, dated), "coils.dated_ahead")


def test_a_figure_waits_first_for_what_is_asked_first() -> None:
    job = set_answers(new_job(), {"roof.building": Building.GABLE})
    roof = plan(job).lacks["roof.squares"].needs
    assert roof == ("roof.length", "roof.width", "roof.eave_overhang", "roof.rake_overhang",
                    "roof.pitch")
    for lack in plan(job).lacks.values():
        places = [list(ANSWERS).index(key) for key in lack.needs if key in ANSWERS]
        assert places == sorted(places)


def test_a_metal_the_machine_does_not_form() -> None:
    forms = {MetalName.ALUMINUM: Forming(thinnest=0.027, thickest=0.04)}
    assert found(with_machine(small_gable(), forms=forms), "machine.metal")
    assert not found(small_gable(), "machine.metal")
    # nothing known yet is no stop
    assert not found(with_machine(small_gable(), forms={}), "machine.metal")


def test_a_profile_the_machine_has_no_tooling_for() -> None:
    profiles = (Profile(seam=Seam.SNAP_LOCK, leg=1.5),)
    assert found(with_machine(small_gable(), profiles=profiles), "machine.profile")
    assert not found(small_gable(), "machine.profile")
    assert not found(with_machine(small_gable(), profiles=()), "machine.profile")


def test_load_and_diameter_stop_only_where_a_limit_was_not_kept() -> None:
    """Coils are sized inside the limits, so these speak for no job the program sizes itself."""
    for job in (small_gable(), changed({"machine.arbor_load": 1000.0})):
        assert not found(job, "machine.load")
        assert not found(job, "machine.diameter")


def test_a_limit_that_is_a_guess_is_not_called_the_plates() -> None:
    job = changed({"machine.widest_strip": 20.9})
    (told,) = found(job, "machine.strip")
    assert told.source is PLATE
    guessed = dataclasses.replace(job, standing={"machine.widest_strip": Standing.GUESS})
    (told,) = found(guessed, "machine.strip")
    assert told.source is STAND_IN


def test_what_is_measured_on_the_machine_is_not_called_the_plates() -> None:
    figures = plan(small_gable()).figures
    assert figures["machine.thread_up"].source is ANSWER
    assert figures["machine.tail"].source is ANSWER
    assert figures["machine.arbor_load"].source is PLATE


def test_hip_turned() -> None:
    assert found(building(Building.HIP, length=200, width=300), "roof.turned")
    assert not found(building(Building.HIP, length=300, width=300), "roof.turned")


def test_a_wide_chimney_asks_for_a_cricket() -> None:
    """Wider than 30 in across the slope: IRC R1003.20, from memory."""
    def told(**other: object) -> list[Finding]:
        opening = Opening(left=60.0, up=60.0, width=36.0, height=24.0, on="Side 1")
        job = building(Building.GABLE)
        roof = dataclasses.replace(job.roof, building_openings=(
            dataclasses.replace(opening, **{"what": OpeningWhat.CHIMNEY, **other}),))
        return found(dataclasses.replace(job, roof=roof), "roof.building_openings.0.cricket")

    assert told()
    assert not told(width=30.0)
    assert not told(what=OpeningWhat.SKYLIGHT)


def test_an_opening_that_cannot_be() -> None:
    outside = Plane(eave=100, slope_length=100,
                    openings=(Opening(left=90, up=10, width=20, height=20),))  # fmt: skip
    (finding,) = found(with_planes(small_gable(), outside), "plane.1.outline")
    assert "Opening 1" in finding.what


def test_findings_come_heaviest_first() -> None:
    rank = [Level.STOP, Level.CARE, Level.NOTE]
    worst = changed({
        "metal.touching": Touching.COPPER, "job.salt_water": YesNo.YES,
        "job.trim_in_house": YesNo.YES, "@pitch": 0.1, "@eave": 483.0,
    })  # fmt: skip
    levels = [rank.index(f.level) for f in plan(worst).findings]
    assert levels == sorted(levels)
    assert set(levels) == {0, 1, 2}


@for_each(speaks for _, _, speaks, _ in CASES)
def test_each_finding_says_what_why_and_what_to_do(speaks: Changes) -> None:
    steps = {step.key for step in STEPS}
    for finding in plan(changed(speaks)).findings:
        for words in (finding.what, finding.why, finding.do):
            assert words[0].isupper() or words[0].isdigit()
            assert words.endswith(".")
        assert finding.step in steps
        # A list without a row is no answer: who reads of it goes to its step.
        assert finding.answers or finding.key in ("trim.no_pieces", "coils.lots")
        for key in finding.answers:
            assert key in ANSWERS or key.startswith("roof.planes")
        assert str(finding.source)


def test_a_stop_keeps_the_order_from_being_ready() -> None:
    done = plan(changed({"metal.touching": Touching.COPPER}))
    assert done.coils
    assert not done.ready
    assert state_of(done) == "DRAFT, 1 stop"


def test_no_check_is_left_out_here() -> None:
    """Every finding's key in the program's checks is in the table above or has its own test."""
    tested = {key for key, *_ in CASES} | {
        "machine.metal", "machine.profile", "roof.turned", "plane.1.outline", "coils.lots",
        "slit.beside", "slit.surplus", "roof.twice", "quotes.incomplete",
            "quotes.not_as_sold", "quotes.lump", "quotes.other_size", "coils.alike",
            "quotes.otherwise", "quotes.day_moved", "quotes.freight_otherwise",
            "quotes.after_order",
            "coils.dated_ahead", "order.still_out", "order.to_site", "order.unloading",
            "order.stands_elsewhere",
            "quotes.for_another", "quotes.none", "machine.example", "haul.came_as_several",
            "roof.openings_left",
    }  # fmt: skip
    written: set[str] = set()
    folder = Path(plan_package.__file__).parent
    for file in folder.rglob("*.py"):
        for node in nodes(file):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                first = node.args[0] if node.args else None
                if (
                    node.func.id in ("stop", "care", "note", "acceptable", "words", "level")
                    and isinstance(first, ast.Constant)
                    and isinstance(first.value, str)
                ):
                    written.add(first.value)
    assert len(written) > 20
    assert sorted(written - tested) == []


def test_the_gear_at_the_head_of_the_order_is_offered_where_it_is_asked() -> None:
    job = set_answers(small_gable(), {"coils.site_lift": None})
    job = dataclasses.replace(job, order=dataclasses.replace(
        job.order, unloading="forklift 8000 lb"))
    [said] = [f.do for f in plan(job).findings if f.key == "coils.site_lift_unknown"]
    assert said.startswith("The head of the order says 8,000 lb: F3 in “Site can lift” takes that")


def test_what_lifts_at_the_site_is_not_asked_again_where_haul_has_it() -> None:
    job = set_answers(small_gable(), {
        "coils.site_lift": None, "haul.site_by": LiftBy.FORKLIFT,
        "haul.site_fork_capacity": 5000.0, "haul.site_fork_center": 24.0})
    [said] = [f.do for f in plan(job).findings if f.key == "coils.site_lift_unknown"]
    assert said.startswith("Haul has the forklift there, but not yet all that its plate says")
    whole = set_answers(job, {"haul.site_coil_center": 24.0, "haul.site_attachment": 0.0})
    assert not any(f.key == "coils.site_lift_unknown" for f in plan(whole).findings)


@pytest.mark.parametrize(("most", "inside", "is_stop"), [
    (24.0, 610 / 25.4, False), (24.0, 615 / 25.4, True), (24.0, 24.25, True),
    (20.0, 510 / 25.4, False), (510 / 25.4, 20.0, False),
])
def test_an_inside_diameter_written_in_metric_is_the_same_size(
    most: float, inside: float, is_stop: bool
) -> None:
    job = set_answers(small_gable(), {
        "coils.inside_diameter": inside, "machine.smallest_coil_id": 16.0,
        "machine.largest_coil_id": most,
    })
    assert bool(found(job, "machine.inside")) is is_stop


def test_the_least_inside_diameter_written_in_metric_is_the_same_size() -> None:
    for inside, is_stop in ((20.0, False), (500 / 25.4, True)):
        job = set_answers(small_gable(), {
            "coils.inside_diameter": inside, "machine.smallest_coil_id": 510 / 25.4,
            "machine.largest_coil_id": 24.0,
        })
        assert bool(found(job, "machine.inside")) is is_stop


def test_what_a_coil_may_come_at_and_what_the_order_allows_are_told_apart() -> None:
    """2,475 lb by the tolerance, where the arbor carries 2,400 lb: the request says the latter."""
    made = plan(set_answers(small_gable(), {"machine.arbor_load": 2400.0}))
    said = {f.key: f.what for f in made.findings}
    assert said["coils.lifting"] == (
        "The heaviest coil is ordered at 2,250 lb; the heaviest it may come is 2,475 lb by the "
        "tolerance, and max weight on the order 2,400 lb. Nobody under it, ever.")
    assert said["coils.at_most_heaviest"] == (
        "By the supplier's tolerance coil 1 may come at 2,475 lb; the machine takes 2,400 lb, "
        "which is max weight on the order.")
    assert "| 2,400 lb |" in render("request", made, "md")
    free = plan(small_gable())
    [word] = [f.what for f in free.findings if f.key == "coils.lifting"]
    assert "heaviest it may come is 2,475 lb. Nobody" in word
    assert "| 2,475 lb |" in render("request", free, "md")


def test_once_a_coil_came_over_what_it_may_its_weight_is_what_is_said() -> None:
    """2,250 lb ordered, 2,475 lb at most, 2,510 lb came; the site lifts 2,600 lb."""
    job = set_answers(small_gable(), {"coils.site_lift": 2600.0})
    said = {f.key: f.what for f in plan(with_arrived(job, arrival(
        mass=2510.0, weighed=None))).findings}
    assert said["coils.lifting"] == (
        "Coil 1 came at 2,510 lb: ordered at 2,250 lb, the heaviest it might come was 2,475 lb. "
        "Nobody under it, ever.")
    assert said["coils.packing"].startswith(
        "Coil 1 came at 2,510 lb of metal, and the site's gear lifts 2,600 lb: 90 lb are left")
    # Where the site is what limits it, two weights of one coil say by what each is.
    at_site = {f.key: f.what for f in plan(set_answers(
        small_gable(), {"coils.site_lift": 2400.0})).findings}
    assert "may come at 2,475 lb; the site's gear lifts 2,400 lb, which is max weight" in (
        at_site["coils.at_most_site"])
    assert at_site["coils.packing"].startswith("Coil 1 may come at 2,400 lb by the order, and the")
    for came in (arrival(), arrival(mass=2510.0, decision=Decision.REFUSED)):
        made = plan(with_arrived(job, came))
        assert "coils.packing" not in {f.key for f in made.findings}
        assert Key.COIL_CAME not in made.figures
        [word] = [f.what for f in made.findings if f.key == "coils.lifting"]
        assert word == ("The heaviest coil is ordered at 2,250 lb; the heaviest it may come is "
                        "2,475 lb. Nobody under it, ever.")


def test_a_movement_and_a_travel_that_a_sixteenth_does_not_tell_apart_are_said_finer() -> None:
    """216 in of steel: α·L·ΔT is 0.19 in; a stop had said that it moves 3/16 in, and 3/16 allowed.
    """
    still = plan(small_gable()).figures
    per_degree = still["metal.expansion"].value * still["panels.longest"].value
    job = set_answers(small_gable(), {"job.coldest": 0.0, "job.hottest": 0.19 / per_degree,
                                      "panel.clip_travel": 3 / 16})
    [what] = [f.what for f in plan(job).stops if f.key == "panel.clip_travel"]
    assert what == "The longest panel moves 0.19 in; its clips allow 3/16 in."
    wider = set_answers(job, {"panel.clip_travel": 1 / 8})
    [what] = [f.what for f in plan(wider).stops if f.key == "panel.clip_travel"]
    assert what == "The longest panel moves 3/16 in; its clips allow 1/8 in."
