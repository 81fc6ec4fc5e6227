"""How hard sling legs pull at an angle, against charts and worked examples of the trade.

Factors by angle: a sling maker's chart (read; ashleysling). The chart prints 1.104, 1.555 and
1.742 at 65°, 40° and 35°, where 1/sin is 1.1034, 1.5557 and 1.7434 (computed): it is held to one
in its last digit there. S1: a rigging manual's page (read; kwrs; its 30° computed). S2, S3: the
sling maker's page (read).
"""

from __future__ import annotations

import pytest

from coilwright.calc.lifting import (
    ADVISED,
    FLATTEST,
    leg_angle,
    leg_tension,
    leg_tension_by_lengths,
    slings_carry_by_lengths,
)
from tests.printed import printed
from tests.rules import for_each

FACTORS = [
    (90, "1.000"), (85, "1.004"), (80, "1.015"), (75, "1.035"), (70, "1.064"), (60, "1.155"),
    (55, "1.221"), (50, "1.305"), (45, "1.414"), (30, "2.000"),
]  # fmt: skip
ROUNDED_OTHERWISE = [(65, "1.104", "1.103"), (40, "1.555", "1.556"), (35, "1.742", "1.743")]


@for_each(FACTORS)
def test_factor_by_angle(angle: float, factor: str) -> None:
    assert leg_tension(1, 1, angle) == printed(factor)


@pytest.mark.parametrize(("angle", "factor", "exact"), ROUNDED_OTHERWISE)
def test_factor_where_the_chart_rounds_otherwise(angle: float, factor: str, exact: str) -> None:
    assert leg_tension(1, 1, angle) == printed(exact)
    assert leg_tension(1, 1, angle) == pytest.approx(float(factor), abs=0.0015)


@pytest.mark.parametrize(("angle", "pounds"), [(60, "577"), (45, "707"), (30, "1000")])
def test_s1_a_thousand_pounds_on_two_legs(angle: float, pounds: str) -> None:
    assert leg_tension(1000, 2, angle) == printed(pounds)


def test_s2_by_lengths() -> None:
    # 120 in of sling, 96 in high: 1.25; 1,200 lb a sling becomes 1,500 lb
    assert leg_tension_by_lengths(1, 1, 120, 96) == printed("1.25")
    assert leg_tension_by_lengths(1200, 1, 120, 96) == printed("1500")
    assert leg_tension_by_lengths(2400, 2, 120, 96) == printed("1500")
    assert leg_tension(2400, 2, leg_angle(96, 120)) == printed("1500")


def test_s3_what_is_left_of_a_rating() -> None:
    # rated 8,000 lb, 84 in high, 96 in of sling: .875 of it, 7,000 lb
    assert slings_carry_by_lengths(1, 1, 84, 96) == printed(".875")
    assert slings_carry_by_lengths(1, 8000, 84, 96) == printed("7000")


def test_angles_that_are_refused_and_advised() -> None:
    # under 30° not recommended: ASME B30.9 (memory), a rigging firm's page (copy);
    # above 45° advised: a state mine-safety plan, Colorado DRMS document 885622 p. 71 (read)
    assert (FLATTEST, ADVISED) == (30, 45)
