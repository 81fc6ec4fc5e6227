"""Step 4: the panel."""

from __future__ import annotations

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers.spec import Answer, Form
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import MetalName
from coilwright.job.panel import Deck, Pan, Seam
from coilwright.units import Kind

_INCHES = ("in", "mm")


def _engineered(job: Job) -> bool:
    return job.job.engineered is YesNo.YES


def _offset_typed(job: Job) -> bool:
    return job.panel.start is PanelStart.OFFSET


PANEL: tuple[Answer, ...] = (
    Answer("panel.seam", "Seam", Form.CHOICE, choices=tuple(Seam)),
    Answer("panel.leg", "Leg height", Form.QUANTITY, Kind.WIDTH, _INCHES, low=0.25, high=6),
    Answer("panel.coverage", "Coverage width", Form.QUANTITY, Kind.WIDTH, _INCHES, low=4,
           high=60),
    Answer("panel.take_up", "Take-up", Form.QUANTITY, Kind.WIDTH, _INCHES, low=0.5, high=20,
           rests_on=("panel.seam", "panel.leg", "metal.metal", "metal.thickness")),
    Answer("panel.pan", "Pan", Form.CHOICE, choices=tuple(Pan), needed=False, moves=False),
    Answer("panel.start", "Panel start", Form.CHOICE, choices=tuple(PanelStart)),
    Answer("panel.offset", "First seam from left", Form.QUANTITY, Kind.WIDTH, _INCHES,
           zero=True, high=60, asked=_offset_typed),
    Answer("panel.narrowest_end", "Narrowest end panel", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, zero=True, high=60),
    Answer("panel.end_allowance", "End allowance", Form.QUANTITY, Kind.WIDTH, _INCHES,
           zero=True, high=48),
    Answer("panel.rounding", "Round lengths up to", Form.QUANTITY, Kind.WIDTH, _INCHES,
           low=1 / 64, high=24),
    Answer("panel.deck", "Fixed to", Form.CHOICE, choices=tuple(Deck), needed=False),
    Answer("panel.clip_travel", "Clip travel", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, zero=True, high=6),
    Answer("panel.clip_spacing", "Clip spacing planned", Form.QUANTITY, Kind.LENGTH,
           _INCHES, needed=False, low=1, high=120, asked=_engineered),
    Answer("panel.report", "Test report", Form.TEXT, asked=_engineered),
    Answer("panel.report_widest", "Report: widest panel", Form.QUANTITY, Kind.WIDTH, _INCHES,
           low=4, high=60, asked=_engineered),
    Answer("panel.report_thinnest", "Report: thinnest", Form.QUANTITY, Kind.THICKNESS,
           _INCHES, low=0.005, high=0.25, asked=_engineered),
    Answer("panel.report_metal", "Report: metal", Form.CHOICE, choices=tuple(MetalName),
           asked=_engineered),
    Answer("panel.report_deck", "Report: fixed to", Form.CHOICE, choices=tuple(Deck),
           needed=False, asked=_engineered),
    Answer("panel.report_clip_spacing", "Report: clip spacing", Form.QUANTITY, Kind.LENGTH,
           _INCHES, needed=False, low=1, high=120, asked=_engineered),
)
