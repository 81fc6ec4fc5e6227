"""Answers about trim. The pieces are edited apart, as rows; they alone call for the answers."""

from __future__ import annotations

from coilwright.job.answers.round_length import RoundLength
from coilwright.job.answers.spec import Answer, Form
from coilwright.job.job import Job
from coilwright.job.trim import TrimFrom
from coilwright.units import Kind
from coilwright.values.keys import answer_key


class TrimKey:
    """The answers of this step by name."""

    LAP = answer_key("trim.lap")
    BLANK = answer_key("trim.blank")
    SHEET_WIDTH = answer_key("trim.sheet_width")
    SHEET_LENGTH = answer_key("trim.sheet_length")


_FEET = ("ft", "m")
_INCHES = ("in", "mm")


def _some(job: Job) -> bool:
    return bool(job.trim.pieces)


def _from_sheets(job: Job) -> bool:
    return any(p.made_from is TrimFrom.FLAT_SHEET for p in job.trim.pieces)


TRIM: tuple[Answer, ...] = (
    Answer(TrimKey.LAP, "Trim laps by", Form.QUANTITY, Kind.WIDTH, _INCHES, zero=True, high=24,
           asked=_some),
    RoundLength(TrimKey.BLANK, "Blank length", Form.QUANTITY, Kind.LENGTH, _FEET, low=12, high=600,
           asked=_some),
    Answer(TrimKey.SHEET_WIDTH, "Flat sheet: width", Form.QUANTITY, Kind.WIDTH, _INCHES, low=6,
           high=100, asked=_from_sheets),
    RoundLength(TrimKey.SHEET_LENGTH, "Flat sheet: length", Form.QUANTITY, Kind.LENGTH, _FEET,
           low=12, high=600, asked=_from_sheets),
)
