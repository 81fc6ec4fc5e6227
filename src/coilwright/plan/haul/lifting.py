"""Loads in the air: the heaviest coil on forklift or slings, at the site and in the shop."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import assert_never

from coilwright.job.haul import LiftBy, LiftGear
from coilwright.plan.haul.forks import fork_line
from coilwright.plan.haul.lift_place import Place, heaviest_lifted
from coilwright.plan.haul.slings import slings_line
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, LoadLine, StockCoil
from coilwright.values.figure import Figure, worst
from coilwright.values.keys import LIFT_PLACES, lift_key
from coilwright.values.standing import Standing


def enter_lifting(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...] = ()
) -> tuple[LoadLine, ...]:
    """Enter every load in the air and what its gear is rated for.

    The load is the heaviest coil, a new one at the heaviest it may come, with what holds it.
    """
    lines = []
    for place in LIFT_PLACES:
        gear: LiftGear = getattr(ledger.job.haul, place)
        match gear.by:
            case None:
                pass
            case LiftBy.FORKLIFT | LiftBy.SKID_STEER:
                lines.append(fork_line(Place(ledger, place, gear), coils, from_stock))
            case LiftBy.SLINGS:
                lines.append(slings_line(Place(ledger, place, gear), coils, from_stock))
            case LiftBy.OTHER:  # No line, yet those who lift are told what each coil weighs whole.
                heaviest_lifted(ledger, coils, from_stock)
            case _:
                assert_never(gear.by)
    return tuple(lines)


def gear_limit(figures: Mapping[str, Figure]) -> tuple[float, Standing] | None:
    """Heaviest coil to order [lb], in whole pounds, that the gear of both places takes.

    With how sure it is; None where no gear's limit is known.
    """
    limits = [figures[key] for place in LIFT_PLACES
              if (key := lift_key(place, "coil_limit")) in figures]
    if not limits:
        return None
    return float(math.floor(min(f.value for f in limits))), worst(tuple(limits))
