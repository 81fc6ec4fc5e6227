"""A job as somebody types it who has never seen an inch: every text of it is in metric."""

from __future__ import annotations

import dataclasses
from functools import cache

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.choices import YesNo
from coilwright.job.edit import confirm, give_text, new_job
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, MetalName
from coilwright.job.receiving import Arrival
from coilwright.job.roof import Opening, OpeningWhat
from coilwright.job.stock import CoilOnHand
from coilwright.job.trim import TrimPiece
from coilwright.store.shipped import machines
from tests.cases import HEAD, REPLIES

MM = 1 / 25.4
M = 1000 * MM
KG = 1 / 0.45359237

_TYPED: dict[str, str] = {
    "job.units": "metric", "job.currency": "EUR", "job.name": "Polder house (invented)",
    "job.engineered": "no", "job.salt_water": "no", "job.coldest": "-20", "job.hottest": "80",
    "job.trim_in_house": "yes", "job.needed_by": "8 Feb 2027",
    "roof.building": "L with a valley", "roof.length": "12", "roof.width": "8",
    "roof.eave_overhang": "500", "roof.rake_overhang": "300", "roof.pitch": "30",
    "roof.wing_projection": "4", "roof.wing_width": "6", "roof.wing_left": "1",
    "roof.wing_end": "left",
    "roof.openings": "run through",
    "metal.metal": "steel", "metal.coating": "AZ150", "metal.thickness": "0.6",
    "metal.thickness_basis": "coating included", "metal.thickness_is": "nominal",
    "metal.thickness_tolerance": "0.05 EN 10143", "metal.grade": "S280GD",
    "metal.finish": "PVDF 70 %", "metal.color": "slate (invented)", "metal.shade": "dark",
    "metal.color_confirmed": "yes", "metal.color_code": "S-3", "metal.back_coat": "wash coat",
    "metal.film": "no", "metal.painted_side": "outside of the coil",
    "metal.touching": "nothing unlike it",
    "panel.seam": "double-lock", "panel.leg": "38", "panel.coverage": "500",
    "panel.take_up": "100", "panel.start": "least metal", "panel.end_allowance": "25",
    "panel.rounding": "5",
    "coils.coil_on": "overhead rack", "coils.inside_diameter": "508", "coils.spare": "3",
    "coils.tolerance": "5", "coils.wrap_allowance": "4", "coils.site_lift": "1500",
    "coils.width_tolerance": "1.5", "coils.price": "2.90",
    "trim.lap": "100", "trim.blank": "3",
    "haul.rack_coils": "1", "haul.gear": "300", "haul.trailer_gvwr": "5000", "haul.axles": "2",
    "haul.axle_rating": "2700", "haul.hitch": "ball", "haul.hitch_rating": "5000",
    "haul.tongue_weight_rating": "500", "haul.tow_weight": "3000", "haul.tow_gvwr": "3500",
    "haul.tow_pull": "5000", "haul.gcwr": "9000", "haul.tongue_weight": "450",
}


@cache
def metric_job() -> Job:
    """An invented house of steel with a chimney, trim from its coil, a leftover measured across,
    a machine with a metric plate, and a coil that came."""
    job = dataclasses.replace(new_job(), questions=dict(REPLIES), order=HEAD)
    for key, text in _TYPED.items():
        job, error = give_text(job, key, text)
        assert not error, (key, error)
        job = confirm(job, key)
    chimney = Opening(left=4.0 * M, up=1.5 * M, width=0.55 * M, height=0.55 * M,
                      what=OpeningWhat.CHIMNEY, on="Front")
    return dataclasses.replace(
        job, machine=machines()["two-arbor-metric"],
        roof=dataclasses.replace(job.roof, building_openings=(chimney,)),
        trim=dataclasses.replace(job.trim, pieces=(
            TrimPiece(name="Eave drip", kind=EdgeKind.EAVE, flat_width=150 * MM),
            TrimPiece(name="Ridge cap", kind=EdgeKind.RIDGE, flat_width=300 * MM),
            TrimPiece(name="Valley", kind=EdgeKind.VALLEY, flat_width=500 * MM))),
        on_hand=(CoilOnHand(
            tag="L-1", metal=MetalName.STEEL, coating=CoatingName.AZ150, thickness=0.6 * MM,
            width=600 * MM, color="slate (invented)", lot="B2", outside=620 * MM,
            inside=508 * MM),),
        arrived=(Arrival(
            tag="R-1", lot="L-7", color="slate (invented)", mass=500 * KG, weighed=498 * KG,
            thickness=(0.63 * MM, 0.64 * MM, 0.63 * MM), width=600 * MM, outside=700 * MM,
            inside=505 * MM, camber=3 * MM, camber_over=2 * M, looked=YesNo.YES),))
