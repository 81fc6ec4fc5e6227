"""The checks: each looks at a plan's figures and says what must be known, and what to do."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from coilwright.plan.checks.coils import check_coils
from coilwright.plan.checks.dates import check_dates
from coilwright.plan.checks.flatness import check_flatness
from coilwright.plan.checks.hauling import check_hauling
from coilwright.plan.checks.keeping import check_keeping
from coilwright.plan.checks.lifting import check_lifting
from coilwright.plan.checks.machine import check_machine
from coilwright.plan.checks.metal import check_metal
from coilwright.plan.checks.panel import check_panel
from coilwright.plan.checks.report import check_report
from coilwright.plan.checks.roof import check_roof
from coilwright.plan.checks.slitting import check_slitting
from coilwright.plan.checks.view import View
from coilwright.values.finding import Finding

CHECKS: tuple[Callable[[View], Iterator[Finding]], ...] = (
    check_roof,
    check_metal,
    check_report,
    check_flatness,
    check_panel,
    check_machine,
    check_coils,
    check_slitting,
    check_dates,
    check_keeping,
    check_hauling,
    check_lifting,
)

__all__ = ["CHECKS", "View"]
