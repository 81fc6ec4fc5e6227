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
    ThicknessIs,
    Touching,
)
from coilwright.units import Kind


def _is_coated(job: Job) -> bool:
    return is_coated(job.metal.metal)


def _has_gauge(job: Job) -> bool:
    metal = job.metal.metal
    return metal is None or METALS[metal].ordered_by_gauge


def _graded(job: Job) -> bool:
    metal = job.metal.metal
    return metal is not None and bool(METALS[metal].grades)


def _tempered(job: Job) -> bool:
    metal = job.metal.metal
    return metal is not None and bool(METALS[metal].tempers)


def _finished(job: Job) -> bool:
    # What a file says of paint is shown, so that it can be taken back.
    metal = job.metal.metal
    return metal is None or METALS[metal].comes_painted or job.metal.is_painted


def _painted(job: Job) -> bool:
    return job.metal.is_painted


def _toleranced(job: Job) -> bool:
    metal = job.metal
    return metal.thickness_is is not None or metal.thickness_tolerance is not None


METAL: tuple[Answer, ...] = (
    Answer("metal.metal", "Metal", Form.CHOICE, choices=tuple(MetalName)),
    Answer("metal.grade", "Grade, alloy or type", Form.TEXT, needed=False, moves=False,
           asked=_graded),
    Answer("metal.temper", "Temper", Form.TEXT, needed=False, moves=False, asked=_tempered),
    Answer("metal.coating", "Metallic coating", Form.CHOICE, choices=tuple(CoatingName),
           asked=_is_coated),
    Answer("metal.gauge", "Gauge, or copper oz", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, low=1, high=99, asked=_has_gauge),
    Answer("metal.thickness", "Decimal thickness", Form.QUANTITY, Kind.THICKNESS,
           ("in", "mm"), low=0.005, high=0.25),
    Answer("metal.thickness_basis", "Thickness is", Form.CHOICE,
           choices=tuple(ThicknessBasis), asked=_is_coated),
    Answer("metal.thickness_is", "Minimum or nominal", Form.CHOICE, choices=tuple(ThicknessIs),
           needed=False),
    Answer("metal.thickness_tolerance", "Thickness tolerance", Form.QUANTITY, Kind.THICKNESS,
           ("in", "mm"), needed=False, zero=True, high=0.02, asked=_toleranced),
    Answer("metal.finish", "Finish", Form.CHOICE, choices=tuple(Finish), moves=False,
           asked=_finished),
    Answer("metal.colour", "Colour", Form.TEXT, moves=False, asked=_painted),
    Answer("metal.color_code", "Color code", Form.TEXT, needed=False, moves=False,
           asked=_painted),
    Answer("metal.back_coat", "Back coat", Form.TEXT, needed=False, moves=False, asked=_painted),
    Answer("metal.shade", "How dark it is", Form.CHOICE, choices=tuple(Shade), needed=False,
           moves=False, asked=_painted),
    Answer("metal.colour_confirmed", "Client confirmed it", Form.CHOICE,
           choices=tuple(YesNo), moves=False, asked=_painted),
    Answer("metal.custom_colour", "Custom colour", Form.CHOICE, choices=tuple(YesNo),
           needed=False, moves=False, asked=_painted),
    Answer("metal.painted_side", "Painted side", Form.CHOICE, choices=tuple(PaintedSide),
           asked=_painted),
    Answer("metal.film", "Protective film", Form.CHOICE, choices=tuple(YesNo), needed=False,
           moves=False, asked=_painted),
    Answer("metal.touching", "Touches or drains from", Form.CHOICE, choices=tuple(Touching),
           moves=False),
)
