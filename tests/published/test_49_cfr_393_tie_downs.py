"""49 CFR 393.106(d), 393.108, 393.110 and 393.120: tie-downs of cargo.

Flag: published, read in copies (393.110 on the regulator's page of rules; 393.106(d) in copies
and, for the half of the weight, in 59 FR of 6 July 1994; 393.120 in a state's manual for drivers
of metal coils). The counts are worked out from the rule as copied.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.tie_down import (
    EACH,
    EYE_CROSSWISE,
    EYE_LENGTHWISE,
    EYE_UP,
    LIGHT,
    METAL_COIL_FROM,
    SHORT,
    held_direct,
    held_over,
    held_together,
    must_hold,
    tie_downs,
    tie_downs_blocked,
    tie_downs_by_eye,
    tie_downs_of_row,
)
from tests.printed import printed
from tests.rules import for_each

FOOT = 12.0

# length [ft], weight [lb], tie-downs: 393.110(b), nothing in front of it
NOT_BLOCKED = [
    (4, 1100, 1), (4, 1101, 2), (5, 1100, 1), (5.001, 1100, 2), (8, 500, 2), (10, 500, 2),
    (10, 40_000, 2), (12, 500, 3), (12, 20_000, 3), (20, 500, 3), (20, 20_000, 3),
    (20.1, 500, 4), (30, 500, 4), (30.1, 500, 5),
]  # fmt: skip
# length [ft], tie-downs: 393.110(c), blocked from moving forward
BLOCKED = [(1, 1), (10, 1), (10.1, 2), (12, 2), (20, 2), (20.1, 3)]

WEBBING = {"1 3/4 in": 1750, "2 in": 2000, "3 in": 3000, "4 in": 4000}
"""393.108, working load limits of webbing [lb]."""


@for_each(NOT_BLOCKED)
def test_how_many_with_nothing_in_front(feet: float, pounds: float, count: int) -> None:
    assert tie_downs(feet * FOOT, pounds, EACH, SHORT, LIGHT) == count


@pytest.mark.parametrize(("feet", "count"), BLOCKED)
def test_how_many_blocked(feet: float, count: int) -> None:
    assert tie_downs_blocked(feet * FOOT, EACH) == count


def by_the_rule(inches: float, pounds: float) -> int:
    """The rule as it is written, case by case."""
    if inches <= 5 * FOOT:
        return 1 if pounds <= 1100 else 2
    if inches <= 10 * FOOT:
        return 2
    return 2 + math.ceil((inches - 10 * FOOT) / (10 * FOOT))


@given(st.integers(1, 900), st.integers(1, 50_000))
def test_our_one_line_is_the_rule_case_by_case(inches: int, pounds: int) -> None:
    assert tie_downs(inches, pounds, EACH, SHORT, LIGHT) == by_the_rule(inches, pounds)


@given(st.integers(1, 900), st.integers(1, 50_000))
def test_blocked_never_needs_more(inches: int, pounds: int) -> None:
    assert tie_downs_blocked(inches, EACH) <= tie_downs(inches, pounds, EACH, SHORT, LIGHT)


def test_half_the_weight_must_be_held() -> None:
    # 393.106(d): cargo of 30,000 lb, 15,000 lb
    assert must_hold(30_000) == printed("15000")


def test_two_straps_over_a_coil_of_5000_lb_are_enough() -> None:
    assert held_over(2, WEBBING["2 in"]) == 4000 >= must_hold(5000)


def test_the_same_two_straight_to_the_coil_are_not() -> None:
    assert held_direct(2, WEBBING["2 in"]) == 2000 < must_hold(5000)


def test_both_kinds_add_up() -> None:
    assert held_together(held_over(1, 2000), held_direct(1, 2000)) == 3000


def test_the_metal_coil_rule_begins_at_5000_lb() -> None:
    # 393.120, and 2268 kg in the manual
    assert printed("5000") == METAL_COIL_FROM
    assert printed("2268") == METAL_COIL_FROM * 0.45359237


# 393.120(b)-(d), by a state's manual for drivers of metal coils (copy). Eye up: one diagonally
# over the eye each way and one straight across; crosswise: one forward and one rearward through
# the eye; lengthwise: of three ways the one of two over the coil (that one read in the copy).
@pytest.mark.parametrize(("least", "count"), [(EYE_UP, 3), (EYE_CROSSWISE, 2), (EYE_LENGTHWISE, 2)])
def test_fewest_tie_downs_of_one_metal_coil(least: float, count: int) -> None:
    # up to 10 ft and blocked takes one by 393.110; long cargo takes more by it than by the eye
    assert tie_downs_by_eye(1, least) == count
    assert tie_downs_by_eye(5, least) == 5


@pytest.mark.parametrize(("coils", "count"), [(2, 4), (3, 5), (5, 7)])
def test_a_row_of_coils_eye_up(coils: int, count: int) -> None:
    # one in front, one in the rear, and one over each coil or each pair side by side (copy);
    # counted over each coil, the more of the two
    assert tie_downs_of_row(2, coils) == count
