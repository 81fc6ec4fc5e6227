"""Loads on the road: trailer, axles, hitch, tow vehicle and cargo against their ratings."""

from __future__ import annotations

from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, LoadLine, StockCoil


def enter_hauling(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> tuple[LoadLine, ...]:
    """Enter every load on the road and its rating."""
    del ledger, coils, from_stock
    return ()
