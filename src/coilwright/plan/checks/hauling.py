"""Checks of hauling."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.figures import Finding
from coilwright.plan.checks.view import View


def check_hauling(view: View) -> Iterator[Finding]:
    """All checks of hauling."""
    del view
    yield from ()
