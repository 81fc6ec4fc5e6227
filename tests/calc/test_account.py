"""The parts of an order as formulas: they make up the whole whatever the numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc import account
from coilwright.calc.coil import ordered_length

MEASURES = st.floats(1, 1e5)


@given(
    extents=MEASURES, coverage=st.floats(4, 60), take_up=st.floats(0.5, 20),
    flat=st.floats(0.1, 1), extra=st.floats(0, 1e3), sheet=st.floats(1e-3, 1e-1),
    coils=st.integers(1, 30), lost=st.floats(0, 600), spare=st.floats(0, 1),
    short=st.floats(0, 0.5),
)  # fmt: skip
def test_parts_make_up_the_whole(
    extents: float, coverage: float, take_up: float, flat: float, extra: float, sheet: float,
    coils: int, lost: float, spare: float, short: float,
) -> None:  # fmt: skip
    laid = extents * coverage * flat
    net = extents + extra
    per_length = sheet * (coverage + take_up)
    # as if all were one coil that loses its ends `coils` times
    ordered = ordered_length(net, spare, coils * lost, 0, short)
    parts = (
        account.area_mass(laid, sheet),
        account.take_up_mass(extents, take_up, sheet),
        account.ripped_mass(extents, coverage, laid, sheet),
        account.ends_mass(net, extents, per_length),
        account.thread_mass(coils, lost, 0, per_length),
        account.spare_mass(net, spare, per_length),
        account.tolerance_mass(ordered, short, per_length),
    )
    whole = ordered * per_length
    assert account.accounted(*parts) == pytest.approx(whole, rel=1e-9)
    assert math.fsum(account.share_of_order(p, whole) for p in parts) == pytest.approx(1)


def test_by_hand() -> None:
    assert account.area_mass(144, 0.01) == pytest.approx(1.44)
    assert account.take_up_mass(100, 5, 0.01) == pytest.approx(5)
    assert account.ripped_mass(100, 16, 1500, 0.01) == pytest.approx(1)
    assert account.ends_mass(101, 100, 0.2) == pytest.approx(0.2)
    assert account.thread_mass(2, 72, 48, 0.1) == pytest.approx(24)
    assert account.spare_mass(1000, 0.03, 0.1) == pytest.approx(3)
    assert account.tolerance_mass(1000, 0.1, 0.1) == pytest.approx(10)
    assert account.share_of_order(25, 100) == 0.25
