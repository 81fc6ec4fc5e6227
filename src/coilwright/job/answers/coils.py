"""Spans of calendar days, typed as days or weeks."""

from __future__ import annotations

import math
import re

from coilwright.job.answers.job import JobKey
from coilwright.job.answers.money import PriceAnswer
from coilwright.job.answers.round_length import RoundLength
from coilwright.job.answers.sides import EitherWayAnswer, SideAnswer
from coilwright.job.answers.spec import Answer, Form, InCopy, UnreadableAnswer, Value, always
from coilwright.job.camber import put_camber, put_camber_over
from coilwright.job.choices import YesNo
from coilwright.job.coils import Attitude, CoilOn, Slitting, Storage
from coilwright.job.job import Job
from coilwright.units import Kind, System
from coilwright.values.keys import answer_key


class CoilsKey:
    """The answers of this step by name."""

    COIL_ON = answer_key("coils.coil_on")
    INSIDE_DIAMETER = answer_key("coils.inside_diameter")
    SPARE = answer_key("coils.spare")
    TOLERANCE = answer_key("coils.tolerance")
    TOLERANCE_OVER = answer_key("coils.tolerance_over")
    WIDTH_TOLERANCE = answer_key("coils.width_tolerance")
    CAMBER = answer_key("coils.camber")
    CAMBER_OVER = answer_key("coils.camber_over")
    WRAP_ALLOWANCE = answer_key("coils.wrap_allowance")
    SUPPLIER_HEAVIEST = answer_key("coils.supplier_heaviest")
    SITE_LIFT = answer_key("coils.site_lift")
    MINIMUM_ORDER = answer_key("coils.minimum_order")
    EYE = answer_key("coils.eye")
    SKID = answer_key("coils.skid")
    KEEP_LENGTH = answer_key("coils.keep_length")
    PRICE = answer_key("coils.price")
    CARRY = answer_key("coils.carry")
    MASTER = answer_key("coils.master")
    MASTER_2 = answer_key("coils.master_2")
    MASTER_3 = answer_key("coils.master_3")
    MASTER_4 = answer_key("coils.master_4")
    MASTER_HEAVIEST = answer_key("coils.master_heaviest")
    EDGE_TRIM = answer_key("coils.edge_trim")
    SLITTING = answer_key("coils.slitting")
    LEAD_TIME = answer_key("coils.lead_time")
    ORDER_DATE = answer_key("coils.order_date")
    STORAGE = answer_key("coils.storage")


_SPAN = re.compile(r"(\d{1,6})\s*(?:calendar\s+)?(days?|d|weeks?|wks?|w)", re.IGNORECASE)
_WORKING = re.compile(r"(\d{1,6})\s*(?:working|business|work)\s*days?", re.IGNORECASE)
_WEEK, _WORK_WEEK = 7, 5


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
        return super().read(text, system)


MASTERS = (CoilsKey.MASTER, CoilsKey.MASTER_2, CoilsKey.MASTER_3, CoilsKey.MASTER_4)
"""The master widths a supplier offers, in the order they are asked for."""
_INCHES = ("in", "mm")


def _given(job: Job, key: str) -> bool:
    """Whether there is such an answer, or text that waits to be read as one."""
    return key in job.typed or getattr(job.coils, key.split(".")[1]) is not None


def _camber_over(job: Job) -> bool:
    # In US units it is 8 ft, and nobody is asked; what was said once stays in sight.
    return job.units is System.METRIC or job.coils.camber_over is not None


def _in_passes(job: Job) -> bool:
    return job.coils.in_passes


def _has_master(job: Job) -> bool:
    return any(_given(job, key) for key in MASTERS)


def _further(number: int) -> Answer:
    """A further master width, asked for once the one before is there."""
    before, key = MASTERS[number - 2 : number]
    return Answer(
        key, f"Master width {number}", Form.QUANTITY, Kind.WIDTH, _INCHES, needed=False,
        low=6, high=100, bears=_in_passes,
        asked=lambda job: _given(job, key) or _given(job, before), offered=always,
        in_copy=InCopy.GUESS,
    )


_POUNDS = ("lb", "kg")
SLITTING: tuple[Answer, ...] = (
    Answer(CoilsKey.MASTER, "Supplier's master width", Form.QUANTITY, Kind.WIDTH, _INCHES,
           needed=False, low=6, high=100, bears=_in_passes, in_copy=InCopy.GUESS),
    *(_further(number) for number in range(2, len(MASTERS) + 1)),
    Answer(CoilsKey.SLITTING, "The order is for coils", Form.CHOICE, choices=tuple(Slitting),
           needed=False, asked=_has_master, offered=always),
    Answer(CoilsKey.EDGE_TRIM, "Edge trim, both edges", Form.QUANTITY, Kind.WIDTH, _INCHES,
           zero=True, high=12, bears=_in_passes, examples=("1/2 in", "12 mm"),
           in_copy=InCopy.GUESS),
    Answer(CoilsKey.MASTER_HEAVIEST, "Heaviest master", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, low=50, high=60_000, asked=_in_passes,
           offered=always, in_copy=InCopy.GUESS),
)
COILS: tuple[Answer, ...] = (
    Answer(CoilsKey.COIL_ON, "Run coil from", Form.CHOICE, choices=tuple(CoilOn)),
    Answer(CoilsKey.INSIDE_DIAMETER, "Inside diameter", Form.QUANTITY, Kind.WIDTH,
           ("in", "mm"), low=2, high=60),
    Answer(CoilsKey.SPARE, "Spare", Form.QUANTITY, Kind.PERCENT, zero=True, high=1),
    SideAnswer(CoilsKey.TOLERANCE, "Tolerance, under", Form.QUANTITY, Kind.PERCENT, zero=True,
           high=0.5),
    SideAnswer(CoilsKey.TOLERANCE_OVER, "Tolerance, over", Form.QUANTITY, Kind.PERCENT,
           needed=False, zero=True, high=0.5),
    EitherWayAnswer(CoilsKey.WIDTH_TOLERANCE, "Width tolerance, ±", Form.QUANTITY, Kind.WIDTH,
           _INCHES, needed=False, moves=False, zero=True, high=1, examples=("1/16 in", "1.5 mm")),
    Answer(CoilsKey.CAMBER, "Camber, at most", Form.QUANTITY, Kind.WIDTH, _INCHES, needed=False,
           moves=False, high=4, examples=("1/4 in", "6 mm"), setter=put_camber),
    RoundLength(CoilsKey.CAMBER_OVER, "… over a length of", Form.QUANTITY, Kind.LENGTH, ("ft", "m"),
           needed=False, moves=False, low=12, high=2_400, examples=("8 ft", "2 m"),
           asked=_camber_over, setter=put_camber_over),
    Answer(CoilsKey.WRAP_ALLOWANCE, "Wrap allowance", Form.QUANTITY, Kind.PERCENT, zero=True,
           high=0.5),
    Answer(CoilsKey.SUPPLIER_HEAVIEST, "Supplier's heaviest", Form.QUANTITY, Kind.MASS,
           _POUNDS, needed=False, low=50, high=60_000, in_copy=InCopy.GUESS),
    Answer(CoilsKey.SITE_LIFT, "Site can lift", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, low=50, high=60_000, in_copy=InCopy.DROPPED),
    Answer(CoilsKey.MINIMUM_ORDER, "Supplier's minimum", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, zero=True, high=120_000, in_copy=InCopy.GUESS),
    Answer(CoilsKey.EYE, "Coils come", Form.CHOICE, choices=tuple(Attitude), needed=False,
           moves=False),
    Answer(CoilsKey.SKID, "On a skid", Form.CHOICE, choices=tuple(YesNo), needed=False,
           moves=False),
    RoundLength(CoilsKey.KEEP_LENGTH, "Leftover worth keeping", Form.QUANTITY, Kind.LENGTH,
           ("ft", "m"), needed=False, moves=False, zero=True, high=12_000),
    PriceAnswer(CoilsKey.PRICE, "Price of the coil", Form.QUANTITY, Kind.MONEY_PER_MASS,
           ("USD/lb", "USD/kg"), needed=False, moves=False, zero=True, high=1000,
           rests_on=(JobKey.CURRENCY,), in_copy=InCopy.GUESS),
    Answer(CoilsKey.CARRY, "One person carries", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, moves=False, low=5, high=200, examples=("50 lb", "23 kg")),
    *SLITTING,
    Days(CoilsKey.LEAD_TIME, "Lead time, days", Form.COUNT, Kind.COUNT, needed=False, moves=False,
         zero=True, high=730, in_copy=InCopy.GUESS),
    Answer(CoilsKey.ORDER_DATE, "Order date", Form.DATE, needed=False, moves=False,
           in_copy=InCopy.DROPPED),
    Answer(CoilsKey.STORAGE, "Coil storage", Form.CHOICE, choices=tuple(Storage), needed=False,
           moves=False),
)
