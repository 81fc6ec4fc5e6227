"""When what follows from a letter is shown: after it, and in calm where that takes long."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.screen import Screen

if TYPE_CHECKING:
    from textual.timer import Timer

    from coilwright.wizard.widgets.field import Field

_CALM = 0.15
"""Seconds to wait for more keys where a plan takes long."""


class TypedSoon:
    """The letter is painted first; letters that come meanwhile are worked out together.

    show: shows what follows; it is given the field that is typed in, which is left alone.
    """

    def __init__(self, screen: Screen[object], show: Callable[[Field], None]) -> None:
        self._screen = screen
        self._show = show
        self._field: Field | None = None
        self._timer: Timer | None = None

    def typed(self, field: Field, slow: bool) -> None:
        """Something was typed; slow: whether what follows takes long to work out."""
        waits, self._field = self._field is not None, field
        if slow:
            if self._timer is not None:
                self._timer.stop()
            self._timer = self._screen.set_timer(_CALM, self._now)
        elif not waits:
            self._screen.call_after_refresh(self._now)

    def shown(self) -> None:
        """All is shown as it is."""
        self._field = None

    def _now(self) -> None:
        field, self._field = self._field, None
        if field is not None:
            self._show(field)
