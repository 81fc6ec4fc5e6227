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
from coilwright.values.keys import answer_key


class MetalKey:
    """The answers of this step by name."""

    METAL = answer_key("metal.metal")
    GRADE = answer_key("metal.grade")
    TEMPER = answer_key("metal.temper")
    COATING = answer_key("metal.coating")
    GAUGE = answer_key("metal.gauge")
    THICKNESS = answer_key("metal.thickness")
    THICKNESS_BASIS = answer_key("metal.thickness_basis")
    THICKNESS_IS = answer_key("metal.thickness_is")
    THICKNESS_TOLERANCE = answer_key("metal.thickness_tolerance")
    FINISH = answer_key("metal.finish")
    COLOR = answer_key("metal.color")
    COLOR_CODE = answer_key("metal.color_code")
    BACK_COAT = answer_key("metal.back_coat")
    SHADE = answer_key("metal.shade")
    COLOR_CONFIRMED = answer_key("metal.color_confirmed")
    CUSTOM_COLOR = answer_key("metal.custom_color")
    PAINTED_SIDE = answer_key("metal.painted_side")
    FILM = answer_key("metal.film")
    TOUCHING = answer_key("metal.touching")



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
    Answer(MetalKey.METAL, "Metal", Form.CHOICE, choices=tuple(MetalName)),
    Answer(MetalKey.GRADE, "Grade, alloy or type", Form.TEXT, needed=False, moves=False,
           asked=_graded, rests_on=(MetalKey.METAL,)),
    Answer(MetalKey.TEMPER, "Temper", Form.TEXT, needed=False, moves=False, asked=_tempered,
           rests_on=(MetalKey.METAL,)),
    Answer(MetalKey.COATING, "Metallic coating", Form.CHOICE, choices=tuple(CoatingName),
           asked=_is_coated),
    Answer(MetalKey.GAUGE, "Gauge, or copper oz", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, low=1, high=99, asked=_has_gauge,
           counted=("ga", "gauge", "gage", "oz", "ounce", "ounces")),
    Answer(MetalKey.THICKNESS, "Decimal thickness", Form.QUANTITY, Kind.THICKNESS,
           ("in", "mm"), low=0.005, high=0.25),
    Answer(MetalKey.THICKNESS_BASIS, "Thickness includes", Form.CHOICE,
           choices=tuple(ThicknessBasis), asked=_is_coated),
    Answer(MetalKey.THICKNESS_IS, "Minimum or nominal", Form.CHOICE, choices=tuple(ThicknessIs),
           needed=False),
    Answer(MetalKey.THICKNESS_TOLERANCE, "Thickness tolerance", Form.QUANTITY, Kind.THICKNESS,
           ("in", "mm"), needed=False, zero=True, high=0.02, asked=_toleranced),
    Answer(MetalKey.FINISH, "Finish", Form.CHOICE, choices=tuple(Finish), moves=False,
           asked=_finished),
    Answer(MetalKey.COLOR, "Color", Form.TEXT, moves=False, asked=_painted),
    Answer(MetalKey.COLOR_CODE, "Color code", Form.TEXT, needed=False, moves=False,
           asked=_painted, rests_on=(MetalKey.COLOR,)),
    Answer(MetalKey.BACK_COAT, "Back coat", Form.TEXT, needed=False, moves=False, asked=_painted),
    Answer(MetalKey.SHADE, "Shade", Form.CHOICE, choices=tuple(Shade), needed=False,
           moves=False, asked=_painted),
    Answer(MetalKey.COLOR_CONFIRMED, "Color signed off", Form.CHOICE,
           choices=tuple(YesNo), moves=False, asked=_painted,
           rests_on=(MetalKey.COLOR, MetalKey.FINISH)),
    Answer(MetalKey.CUSTOM_COLOR, "Custom color", Form.CHOICE, choices=tuple(YesNo),
           needed=False, moves=False, asked=_painted),
    Answer(MetalKey.PAINTED_SIDE, "Painted side", Form.CHOICE, choices=tuple(PaintedSide),
           asked=_painted),
    Answer(MetalKey.FILM, "Protective film", Form.CHOICE, choices=tuple(YesNo), needed=False,
           moves=False, asked=_painted),
    Answer(MetalKey.TOUCHING, "Touches or drains from", Form.CHOICE, choices=tuple(Touching),
           moves=False),
)
