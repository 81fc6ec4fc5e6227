"""What may come by the tolerances agreed on the order: order, plan and receiving count with it."""

from __future__ import annotations

from coilwright.units import Kind
from coilwright.values.formula import formula
from coilwright.values.source import Grade, Source

AGREED = Source("the tolerance on the order", Grade.ANSWER)
REPORT = Source("the test report, as entered", Grade.ANSWER)
THICKNESS_READ = 0.00005
"""Half of the last digit that a thickness is written with [in]: 0.813 mm and 0.0320 in are one.
Common practice, no source."""


@formula(Kind.WIDTH, AGREED, "W w")
def narrowest_agreed(width: float, off: float) -> float:
    """Narrowest strip by the tolerance agreed with the supplier: W − w [in].

    Terms: width [in], off [in].

    >>> round(narrowest_agreed(width=21, off=0.0625), 2)
    20.94
    """
    return width - off


@formula(Kind.WIDTH, AGREED, "W w")
def widest_agreed(width: float, off: float) -> float:
    """Widest strip by the tolerance agreed with the supplier: W + w [in].

    Terms: width [in], off [in].

    >>> round(widest_agreed(width=21, off=0.0625), 2)
    21.06
    """
    return width + off


@formula(Kind.THICKNESS, AGREED, "t m")
def thinnest_agreed(thickness: float, off: float) -> float:
    """Thinnest sheet that may come by the tolerance agreed: t − m [in].

    Terms: thickness [in], off [in].

    >>> round(thinnest_agreed(thickness=0.0236, off=0.002), 6)
    0.0216
    """
    return thickness - off


@formula(Kind.THICKNESS, AGREED, "t m")
def thickest_agreed(thickness: float, off: float) -> float:
    """Thickest sheet that may come by the tolerance agreed: t + m [in].

    Terms: thickness [in], off [in].

    >>> round(thickest_agreed(thickness=0.0236, off=0.002), 6)
    0.0256
    """
    return thickness + off
