"""The one pint registry of the project, built when first asked for.

Start-up never needs it: reading, showing and storing use the exact table in `kinds`. It stands
where equations are worked out with their units, and where somebody types a unit that table lacks.
"""

from __future__ import annotations

from fractions import Fraction
from threading import Lock
from typing import TYPE_CHECKING

from coilwright.units.kinds import Kind

if TYPE_CHECKING:
    import pint

_lock = Lock()
_built: list[pint.UnitRegistry[float]] = []


def registry() -> pint.UnitRegistry[float]:
    """Return the one registry; quantities of two registries cannot be mixed.

    It adds to pint's own units `square` (100 sq ft, a roofing square) and `USD`. Beware: pint's
    `mil` is an angle; a thousandth of an inch is `thou`. Text that a person typed is never given
    to it but as the name of a unit: `size_by_name`.
    """
    with _lock:
        if not _built:
            import pint

            units: pint.UnitRegistry[float] = pint.UnitRegistry()
            units.define("square = 100 * foot ** 2 = _ = squares")
            units.define("USD = [currency] = _ = dollar = US_dollar")
            _built.append(units)
        return _built[0]


_IN_PINT = {"in²": "in**2", "in³": "in**3", "lb/in²": "lb/in**2", "lb/in³": "lb/in**3"}


def size_by_name(name: str, kind: Kind) -> Fraction | None:
    """Return the size of one unit, or of one a slash another, in the canonical unit of a kind.

    0 where it measures something else, None where pint has no such name. Names are looked up, not
    evaluated.

    >>> size_by_name("stone", Kind.MASS), size_by_name("kN", Kind.MASS)
    (Fraction(14, 1), Fraction(0, 1))
    """
    units = registry()
    size = units.Quantity(1.0)
    for place, word in enumerate(name.split("/")):
        found = units.parse_unit_name(word.strip()) or units.parse_unit_name(word.strip().lower())
        if not found:
            return None
        unit = units.Unit(f"{found[0][0]}{found[0][1]}")
        size = size / unit if place else size * unit
    try:
        wanted = size.to(_IN_PINT.get(kind.unit, kind.unit)).magnitude
    except units_errors():
        return Fraction(0)
    return Fraction(f"{wanted:.12g}")


def units_errors() -> tuple[type[Exception], ...]:
    """The errors of pint for a unit that does not fit, loaded with it."""
    import pint

    return (pint.DimensionalityError, pint.OffsetUnitCalculusError)
