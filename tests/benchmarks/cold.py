"""Planning with nothing kept from before, so that a benchmark measures the work."""

from __future__ import annotations

from coilwright.plan.panel.layout import edges_on, lay_on
from coilwright.plan.panel.starts import best_start


def cool_down() -> None:
    """Drop what is kept of planes laid out before."""
    for kept in (lay_on, edges_on, best_start):
        kept.cache_clear()
