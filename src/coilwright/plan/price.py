"""What the order costs, where the price by weight is known."""

from __future__ import annotations

from coilwright.calc import price
from coilwright.plan.ledger import Ledger


def enter_cost(ledger: Ledger) -> None:
    """Enter the order's cost before freight and slitting; nothing while the price is not known."""
    each, mass = ledger.given("coils.price"), ledger.figures.get("coil.mass_ordered")
    if each is not None and mass is not None:
        ledger.put("coil.cost", "Cost of the order", price.cost, mass, each,
                   note="by weight alone: freight, slitting and minimums come on top")
