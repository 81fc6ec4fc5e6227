"""Step 7: the coils."""

from __future__ import annotations

from coilwright.answers.days import Days
from coilwright.answers.masters import SLITTING
from coilwright.answers.spec import Answer, Form
from coilwright.choices import CoilOn, Storage
from coilwright.units import Kind

_POUNDS = ("lb", "kg")

COILS: tuple[Answer, ...] = (
    Answer("coils.coil_on", "Coil sits on", Form.CHOICE, choices=tuple(CoilOn)),
    Answer("coils.inside_diameter", "Inside diameter", Form.QUANTITY, Kind.WIDTH,
           ("in", "mm"), low=2, high=60),
    Answer("coils.spare", "Spare", Form.QUANTITY, Kind.PERCENT, zero=True, high=1),
    Answer("coils.tolerance", "Weight tolerance", Form.QUANTITY, Kind.PERCENT, zero=True,
           high=0.5),
    Answer("coils.wrap_allowance", "Wrap allowance", Form.QUANTITY, Kind.PERCENT, zero=True,
           high=0.5),
    Answer("coils.supplier_heaviest", "Supplier's heaviest", Form.QUANTITY, Kind.MASS,
           _POUNDS, needed=False, low=50, high=60_000),
    Answer("coils.site_lift", "Site can lift", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, low=50, high=60_000),
    Answer("coils.minimum_order", "Supplier's minimum", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, zero=True, high=120_000),
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
