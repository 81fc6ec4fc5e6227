"""Answers about the panel."""

from __future__ import annotations

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.spec import Answer, Form, InCopy
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import MetalName
from coilwright.job.panel import Deck, Pan, Seam
from coilwright.units import Kind
from coilwright.values.keys import answer_key


class PanelKey:
    """The answers of this step by name."""

    SEAM = answer_key("panel.seam")
    LEG = answer_key("panel.leg")
    COVERAGE = answer_key("panel.coverage")
    TAKE_UP = answer_key("panel.take_up")
    PAN = answer_key("panel.pan")
    START = answer_key("panel.start")
    OFFSET = answer_key("panel.offset")
    NARROWEST_END = answer_key("panel.narrowest_end")
    END_ALLOWANCE = answer_key("panel.end_allowance")
    ROUNDING = answer_key("panel.rounding")
    DECK = answer_key("panel.deck")
    CLIP_TRAVEL = answer_key("panel.clip_travel")
    CLIP_SPACING = answer_key("panel.clip_spacing")
    REPORT = answer_key("panel.report")
    REPORT_WIDEST = answer_key("panel.report_widest")
    REPORT_THINNEST = answer_key("panel.report_thinnest")
    REPORT_METAL = answer_key("panel.report_metal")
    REPORT_DECK = answer_key("panel.report_deck")
    REPORT_CLIP_SPACING = answer_key("panel.report_clip_spacing")
    CLIP_ALLOWANCE = answer_key("panel.clip_allowance")
    CLIP_FASTENERS = answer_key("panel.clip_fasteners")
    FASTENER_ALLOWANCE = answer_key("panel.fastener_allowance")
    UNDERLAYMENT_ALLOWANCE = answer_key("panel.underlayment_allowance")
    CLOSURE_ALLOWANCE = answer_key("panel.closure_allowance")
    SEALANT_BEADS = answer_key("panel.sealant_beads")
    SEALANT_ALLOWANCE = answer_key("panel.sealant_allowance")


_INCHES = ("in", "mm")
_SPACED = ("24 in", "600 mm")


def _engineered(job: Job) -> bool:
    return job.job.engineered is YesNo.YES


def _offset_typed(job: Job) -> bool:
    return job.panel.start is PanelStart.OFFSET


def _allowance(of: str, label: str) -> Answer:
    return Answer(f"panel.{of}_allowance", label, Form.QUANTITY, Kind.PERCENT, needed=False,
                  moves=False, zero=True, high=1)


PANEL: tuple[Answer, ...] = (
    Answer(PanelKey.SEAM, "Seam", Form.CHOICE, choices=tuple(Seam)),
    Answer(PanelKey.LEG, "Leg height", Form.QUANTITY, Kind.WIDTH, _INCHES, low=0.25, high=6,
           examples=("1 1/2 in", "38 mm")),
    Answer(PanelKey.COVERAGE, "Coverage width", Form.QUANTITY, Kind.WIDTH, _INCHES, low=4,
           high=60),
    Answer(PanelKey.TAKE_UP, "Take-up", Form.QUANTITY, Kind.WIDTH, _INCHES, low=0.5, high=20,
           rests_on=(PanelKey.SEAM, PanelKey.LEG, MetalKey.METAL, MetalKey.THICKNESS),
           examples=("4 5/8 in", "117 mm")),
    Answer(PanelKey.PAN, "Pan", Form.CHOICE, choices=tuple(Pan), needed=False, moves=False),
    Answer(PanelKey.START, "Panel start", Form.CHOICE, choices=tuple(PanelStart)),
    Answer(PanelKey.OFFSET, "First seam from left", Form.QUANTITY, Kind.WIDTH, _INCHES,
           zero=True, high=60, asked=_offset_typed, in_copy=InCopy.GUESS),
    Answer(PanelKey.NARROWEST_END, "Narrowest end panel", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, zero=True, high=60),
    Answer(PanelKey.END_ALLOWANCE, "End allowance", Form.QUANTITY, Kind.WIDTH, _INCHES,
           zero=True, high=48),
    Answer(PanelKey.ROUNDING, "Round lengths up to", Form.QUANTITY, Kind.WIDTH, _INCHES,
           low=1 / 64, high=24),
    Answer(PanelKey.DECK, "Deck under clips", Form.CHOICE, choices=tuple(Deck), needed=False,
           in_copy=InCopy.GUESS),
    Answer(PanelKey.CLIP_TRAVEL, "Clip travel", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, zero=True, high=6, examples=("1/2 in", "13 mm")),
    Answer(PanelKey.CLIP_SPACING, "Clip spacing planned", Form.QUANTITY, Kind.LENGTH,
           _INCHES, needed=False, low=1, high=120, examples=_SPACED, in_copy=InCopy.GUESS),
    Answer(PanelKey.REPORT, "Test report", Form.TEXT, asked=_engineered, in_copy=InCopy.GUESS),
    Answer(PanelKey.REPORT_WIDEST, "Report: widest panel", Form.QUANTITY, Kind.WIDTH, _INCHES,
           low=4, high=60, asked=_engineered, in_copy=InCopy.GUESS),
    Answer(PanelKey.REPORT_THINNEST, "Report: thinnest", Form.QUANTITY, Kind.THICKNESS,
           _INCHES, low=0.005, high=0.25, asked=_engineered, in_copy=InCopy.GUESS),
    Answer(PanelKey.REPORT_METAL, "Report: metal", Form.CHOICE, choices=tuple(MetalName),
           asked=_engineered, in_copy=InCopy.GUESS),
    Answer(PanelKey.REPORT_DECK, "Report: fixed to", Form.CHOICE, choices=tuple(Deck),
           needed=False, asked=_engineered, in_copy=InCopy.GUESS),
    Answer(PanelKey.REPORT_CLIP_SPACING, "Report: clip spacing", Form.QUANTITY, Kind.LENGTH,
           _INCHES, needed=False, low=1, high=120, asked=_engineered, examples=_SPACED,
           in_copy=InCopy.GUESS),
    _allowance("clip", "Clips: allowance"),
    Answer(PanelKey.CLIP_FASTENERS, "Fasteners to a clip", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, low=1, high=20),
    _allowance("fastener", "Fasteners: allowance"),
    _allowance("underlayment", "Underlayment: allowance"),
    _allowance("closure", "Closures: allowance"),
    Answer(PanelKey.SEALANT_BEADS, "Sealant: beads", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, zero=True, high=10),
    _allowance("sealant", "Sealant: allowance"),
)
