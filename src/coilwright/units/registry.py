"""The one pint registry of the project, built when first asked for.

Start-up never needs it: reading, showing and storing use the exact table in `factors`. It stands
where equations are worked out with their units.
"""

from __future__ import annotations

from threading import Lock
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

_lock = Lock()
_built: list[pint.UnitRegistry[float]] = []


def registry() -> pint.UnitRegistry[float]:
    """Return the one registry; quantities of two registries cannot be mixed.

    It adds to pint's own units `square` (100 sq ft, a roofing square) and `USD`. Beware: pint's
    `mil` is an angle; a thousandth of an inch is `thou`. Text that a person typed is never given
    to it: `read` is for that.
    """
    with _lock:
        if not _built:
            import pint

            units: pint.UnitRegistry[float] = pint.UnitRegistry()
            units.define("square = 100 * foot ** 2 = _ = squares")
            units.define("USD = [currency] = _ = dollar = US_dollar")
            _built.append(units)
        return _built[0]
