"""A coil on hand is not planned down to the last inch without a word on how its length is known."""

from __future__ import annotations

import pytest

from coilwright.plan import plan
from coilwright.plan.result import Plan
from coilwright.values.finding import Level
from tests.cases import small_gable
from tests.plan.coils.stock import coil, with_coils

TEN = 10 * 217 * 1.03 + 72 + 48
"""Ten panels of 18 ft 1 in with 3 % spare, thread-up and tail: 2,355.1 in."""


def with_one(inches: float | None, **other: float) -> Plan:
    return plan(with_coils(small_gable(), coil("A", inches and inches / 12, **other)))


def said(done: Plan) -> list[str]:
    return [f.what for f in done.findings if f.key.endswith(".tight")]


def test_a_said_length_used_to_the_last_inch_is_said() -> None:
    done = with_one(TEN + 1)
    assert done.from_stock[0].left.value == pytest.approx(1)
    (what,) = said(done)
    assert "planned down to 1 in" in what
    (finding,) = [f for f in done.findings if f.key.endswith(".tight")]
    assert finding.level is Level.CARE
    assert "common practice, no source" in str(finding.source)


@pytest.mark.parametrize(("over", "spoken"), [(20.0, 1), (30.0, 0), (100.0, 0)])
def test_one_in_a_hundred_left_is_enough(over: float, spoken: int) -> None:
    """1 % of about 2,380 in are 23.8 in."""
    assert len(said(with_one(TEN + over))) == spoken


def test_a_measured_coil_is_planned_by_its_least_length() -> None:
    done = with_one(None, outside=24.0, inside=20.0)
    assert done.from_stock
    assert said(done) == []
