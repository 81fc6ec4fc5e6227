"""Step 6: the trim. The pieces are edited apart, as rows; they alone call for the answers."""

from __future__ import annotations

from coilwright.job.answers.spec import Answer, Form
from coilwright.job.job import Job
from coilwright.job.trim import TrimFrom
from coilwright.units import Kind

_FEET = ("ft", "m")
_INCHES = ("in", "mm")


def _some(job: Job) -> bool:
    return bool(job.trim.pieces)


def _from_sheets(job: Job) -> bool:
    return any(p.made_from is TrimFrom.FLAT_SHEET for p in job.trim.pieces)


def _allowance(of: str, label: str) -> Answer:
    return Answer(f"trim.{of}_allowance", label, Form.QUANTITY, Kind.PERCENT, needed=False,
                  moves=False, zero=True, high=1)


TRIM: tuple[Answer, ...] = (
    Answer("trim.lap", "Trim laps by", Form.QUANTITY, Kind.WIDTH, _INCHES, zero=True, high=24,
           asked=_some),
    Answer("trim.blank", "Blank length", Form.QUANTITY, Kind.LENGTH, _FEET, low=12, high=600,
           asked=_some),
    Answer("trim.sheet_width", "Flat sheet: width", Form.QUANTITY, Kind.WIDTH, _INCHES, low=6,
           high=100, asked=_from_sheets),
    Answer("trim.sheet_length", "Flat sheet: length", Form.QUANTITY, Kind.LENGTH, _FEET, low=12,
           high=600, asked=_from_sheets),
    _allowance("clip", "Clips: allowance"),
    Answer("trim.clip_fasteners", "Fasteners to a clip", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, low=1, high=20),
    _allowance("fastener", "Fasteners: allowance"),
    _allowance("underlayment", "Underlayment: allowance"),
    _allowance("closure", "Closures: allowance"),
    Answer("trim.sealant_beads", "Sealant: beads", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, zero=True, high=10),
    _allowance("sealant", "Sealant: allowance"),
)
