"""Checks of lifting."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.figures import Finding
from coilwright.plan.checks.view import View


def check_lifting(view: View) -> Iterator[Finding]:
    """All checks of lifting."""
    del view
    yield from ()
