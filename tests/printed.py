"""Numbers as a source prints them: what is printed is right to half a unit of its last digit."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest


def printed(text: str) -> Any:
    """Something that equals every number the source would have printed as `text`.

    "1,335.5" → within 0.05 of it. A trailing zero counts as a digit: "0.0250" is nearer than
    "0.025". "8.4e-6" may have an exponent.
    """
    number = Decimal(text.replace(",", ""))
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)
    half = 0.5 * 10.0**exponent
    return pytest.approx(float(number), rel=0, abs=half * (1 + 1e-9))
