"""Spans of calendar days, typed as days or weeks."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from coilwright.job.answers.spec import Answer, Form, UnreadableAnswer, Value
from coilwright.job.choices import YesNo
from coilwright.job.coils import Attitude, CoilOn, Storage
from coilwright.job.job import Job
from coilwright.units import Kind, System

_SPAN = re.compile(r"(\d{1,6})\s*(?:calendar\s+)?(days?|d|weeks?|wks?|w)", re.IGNORECASE)
_WORKING = re.compile(r"(\d{1,6})\s*(?:working|business|work)\s*days?", re.IGNORECASE)
_WEEK, _WORK_WEEK = 7, 5


@dataclass(frozen=True, slots=True)
class Days(Answer):
    """A whole number of calendar days: `21`, `21 days` or `3 weeks`."""

    def read(self, text: str, system: System = System.US) -> Value:
        """What was typed, in days. Raises UnreadableAnswer with a sentence for the user.

        Working days are refused, with the most calendar days they can be: which it is depends
        on the weekday and on holidays.
        """
        words = " ".join(text.split())
        if working := _WORKING.fullmatch(words):
            count = int(working[1])
            most = count + (_WEEK - _WORK_WEEK) * math.ceil(count / _WORK_WEEK)
            raise UnreadableAnswer(
                f"{self.label}: {count} working days are up to {most} calendar days, holidays "
                f"aside; give calendar days, such as {most}."
            )
        if span := _SPAN.fullmatch(words):
            weeks = span[2][0].casefold() == "w"
            text = str(int(span[1]) * (_WEEK if weeks else 1))
        # slots=True makes a new class, in which super() without arguments finds no home.
        return Answer.read(self, text, system)


MASTERS = ("coils.master", "coils.master_2", "coils.master_3", "coils.master_4")
"""The master widths a supplier offers, in the order they are asked for."""
_INCHES = ("in", "mm")


def _given(job: Job, key: str) -> bool:
    """Whether there is such an answer, or text that waits to be read as one."""
    return key in job.typed or getattr(job.coils, key.split(".")[1]) is not None


def _further(number: int) -> Answer:
    """A further master width, asked for once the one before is there."""
    before, key = MASTERS[number - 2 : number]
    return Answer(
        key, f"Master width {number}", Form.QUANTITY, Kind.WIDTH, _INCHES, needed=False,
        moves=False, low=6, high=100, asked=lambda job: _given(job, key) or _given(job, before),
    )


SLITTING: tuple[Answer, ...] = (
    Answer("coils.master", "Supplier's master width", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, low=6, high=100),
    *(_further(number) for number in range(2, len(MASTERS) + 1)),
    Answer("coils.edge_trim", "Edge trim, both edges", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, zero=True, high=12),
)
_POUNDS = ("lb", "kg")
COILS: tuple[Answer, ...] = (
    Answer("coils.coil_on", "Coil sits on", Form.CHOICE, choices=tuple(CoilOn)),
    Answer("coils.inside_diameter", "Inside diameter", Form.QUANTITY, Kind.WIDTH,
           ("in", "mm"), low=2, high=60),
    Answer("coils.spare", "Spare", Form.QUANTITY, Kind.PERCENT, zero=True, high=1),
    Answer("coils.tolerance", "Tolerance, under", Form.QUANTITY, Kind.PERCENT, zero=True,
           high=0.5),
    Answer("coils.tolerance_over", "Tolerance, over", Form.QUANTITY, Kind.PERCENT, needed=False,
           zero=True, high=0.5),
    Answer("coils.width_tolerance", "Width tolerance, ±", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, moves=False, zero=True, high=1),
    Answer("coils.camber", "Camber in 8 ft", Form.QUANTITY, Kind.WIDTH, _INCHES, needed=False,
           moves=False, high=4),
    Answer("coils.wrap_allowance", "Wrap allowance", Form.QUANTITY, Kind.PERCENT, zero=True,
           high=0.5),
    Answer("coils.supplier_heaviest", "Supplier's heaviest", Form.QUANTITY, Kind.MASS,
           _POUNDS, needed=False, low=50, high=60_000),
    Answer("coils.site_lift", "Site can lift", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, low=50, high=60_000),
    Answer("coils.minimum_order", "Supplier's minimum", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, zero=True, high=120_000),
    Answer("coils.eye", "Coils come", Form.CHOICE, choices=tuple(Attitude), needed=False,
           moves=False),
    Answer("coils.skid", "On a skid", Form.CHOICE, choices=tuple(YesNo), needed=False,
           moves=False),
    Answer("coils.keep_length", "Leftover worth keeping", Form.QUANTITY, Kind.LENGTH,
           ("ft", "m"), needed=False, moves=False, zero=True, high=12_000),
    Answer("coils.price", "Price of the coil", Form.QUANTITY, Kind.MONEY_PER_MASS,
           ("USD/lb", "USD/kg"), needed=False, moves=False, zero=True, high=1000),
    Answer("coils.carry", "One person carries", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, moves=False, low=5, high=200),
    *SLITTING,
    Days("coils.lead_time", "Lead time, days", Form.COUNT, Kind.COUNT, needed=False, moves=False,
         zero=True, high=730),
    Answer("coils.order_date", "Day of the order", Form.DATE, needed=False, moves=False),
    Answer("coils.storage", "Coils stand", Form.CHOICE, choices=tuple(Storage), needed=False,
           moves=False),
)
