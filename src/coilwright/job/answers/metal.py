"""Step 3: the metal."""

from __future__ import annotations

from coilwright.calc.metal import METALS, is_coated
from coilwright.job.answers.spec import Answer, Form
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import (
    CoatingName,
    Finish,
    MetalName,
    PaintedSide,
    Shade,
    ThicknessBasis,
    Touching,
)
from coilwright.units import Kind


def _is_coated(job: Job) -> bool:
    return is_coated(job.metal.metal)


def _has_gauge(job: Job) -> bool:
    metal = job.metal.metal
    return metal is None or METALS[metal].ordered_by_gauge


def _painted(job: Job) -> bool:
    return job.metal.finish is not None and job.metal.finish.is_paint


METAL: tuple[Answer, ...] = (
    Answer("metal.metal", "Metal", Form.CHOICE, choices=tuple(MetalName)),
    Answer("metal.coating", "Metallic coating", Form.CHOICE, choices=tuple(CoatingName),
           asked=_is_coated),
    Answer("metal.gauge", "Gauge, or copper oz", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, low=1, high=99, asked=_has_gauge),
    Answer("metal.thickness", "Decimal thickness", Form.QUANTITY, Kind.THICKNESS,
           ("in", "mm"), low=0.005, high=0.25),
    Answer("metal.thickness_basis", "Thickness is", Form.CHOICE,
           choices=tuple(ThicknessBasis), asked=_is_coated),
    Answer("metal.finish", "Finish", Form.CHOICE, choices=tuple(Finish), moves=False),
    Answer("metal.colour", "Colour", Form.TEXT, moves=False, asked=_painted),
    Answer("metal.shade", "How dark it is", Form.CHOICE, choices=tuple(Shade), needed=False,
           moves=False, asked=_painted),
    Answer("metal.colour_confirmed", "Client confirmed it", Form.CHOICE,
           choices=tuple(YesNo), moves=False, asked=_painted,
           rests_on=("metal.colour", "metal.finish")),
    Answer("metal.custom_colour", "Custom colour", Form.CHOICE, choices=tuple(YesNo),
           needed=False, moves=False, asked=_painted),
    Answer("metal.painted_side", "Painted side", Form.CHOICE, choices=tuple(PaintedSide),
           asked=_painted),
    Answer("metal.film", "Protective film", Form.CHOICE, choices=tuple(YesNo), needed=False,
           moves=False, asked=_painted),
    Answer("metal.touching", "Touches or drains from", Form.CHOICE, choices=tuple(Touching),
           moves=False),
)
