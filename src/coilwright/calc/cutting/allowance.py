"""How long a search may go on: an allowance of work, with the clock behind it.

Work is counted in units of roughly a microsecond, so the same question gets the same answer
on any machine fast enough; the clock only steps in where a machine is not.
"""

from __future__ import annotations

from collections.abc import Callable

_RATE = 600_000
"""Units of work granted for each second allowed: about half of what a plain machine manages."""
_EARLY = 0.97
"""Share of the time after which the clock steps in: what is under way still has to end."""
_LOOK = 300
"""Units of work between two looks at the clock and at the caller's wish to stop."""


class Allowance:
    """Work left for a search; `spend` says whether to go on.

    clock: seconds that go up. Without one the work alone decides, so the same question always
    gets the same answer.
    """

    def __init__(
        self, seconds: float, canceled: Callable[[], bool] | None = None,
        clock: Callable[[], float] | None = None,
    ) -> None:
        self._canceled = canceled
        self._clock = clock
        self._until = clock() + _EARLY * seconds if clock else 0.0
        self._work = seconds * _RATE
        self._unlooked = 0.0
        self.cut_short = False
        """The clock or the caller ended the search, so a repeat may end elsewhere."""

    @property
    def left(self) -> float:
        """Units of work left; none once cut short."""
        return 0.0 if self.cut_short else max(0.0, self._work)

    def spend(self, units: float) -> bool:
        """Take `units` of work off; True while there is any left."""
        if self.cut_short:
            return False
        self._work -= units
        self._unlooked += units
        if self._unlooked >= _LOOK:
            self._unlooked = 0.0
            late = self._clock is not None and self._clock() >= self._until
            if late or (self._canceled and self._canceled()):
                self.cut_short = True
        return self._work > 0 and not self.cut_short

    def share(self, units: float) -> Share:
        """A part of this allowance, ended with it at the latest."""
        return Share(self, min(units, self.left))


class Share:
    """A part of an allowance for one attempt."""

    def __init__(self, whole: Allowance | Share, units: float) -> None:
        self._whole = whole
        self._units = units

    @property
    def left(self) -> float:
        """Units of work left in this part."""
        return min(self._units, self._whole.left)

    def spend(self, units: float) -> bool:
        """Take `units` of work off the part and the whole; True while both have some left."""
        self._units -= units
        return self._whole.spend(units) and self._units > 0

    def share(self, units: float) -> Share:
        """A part of this part."""
        return Share(self, min(units, self.left))


Budget = Allowance | Share
