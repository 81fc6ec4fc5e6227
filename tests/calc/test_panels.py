"""Panels as ordered: allowances, rounding up, batches."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.roof.layout import Panel
from coilwright.calc.roof.panels import (
    batch_length,
    lengths,
    longest_panel,
    panel_length,
    summed_count,
)

STEPS = st.sampled_from([1 / 64, 1 / 16, 1 / 8, 0.25, 0.5, 1.0, 12.0, 1 / 25.4, 5 / 25.4])


@pytest.mark.parametrize(
    ("extent", "allowance", "rounding", "length"),
    [
        (216, 1, 0.25, 217),
        (216, 0, 0.25, 216),
        (216.01, 1, 0.25, 217.25),
        (216.0000000001, 1, 0.25, 217),  # a float's last digits are no quarter of an inch
        (100, 0.5, 1, 101),
        (100, 2, 12, 108),
        (0.3, 0, 0.1, 0.3),
    ],
)
def test_length(extent: float, allowance: float, rounding: float, length: float) -> None:
    assert panel_length(extent, allowance, rounding) == pytest.approx(length, rel=1e-12)


@given(st.floats(0.1, 5000), st.floats(0, 24), STEPS)
def test_never_short_and_never_a_step_too_long(
    extent: float, allowance: float, step: float
) -> None:
    length = panel_length(extent, allowance, step)
    need = extent + allowance
    assert length >= need * (1 - 2e-9)
    assert length < (need + step) * (1 + 2e-9)
    assert length / step == pytest.approx(round(length / step), abs=1e-6)


@given(st.lists(st.floats(1, 2000), max_size=40), st.floats(0, 3), STEPS)
def test_batches_hold_every_panel(reach: list[float], allowance: float, step: float) -> None:
    panels = [Panel(0, 16, 0, extent, i, 16 * extent) for i, extent in enumerate(reach)]
    found = lengths([p.extent for p in panels], allowance, step)
    assert sum(found.values()) == len(panels)
    assert list(found) == sorted(found, reverse=True)
    singly = sorted(panel_length(extent, allowance, step) for extent in reach)
    assert sorted(
        length for length, count in found.items() for _ in range(count)
    ) == pytest.approx(singly, rel=1e-12)


def test_sums() -> None:
    assert batch_length(217, 64) == 217 * 64
    assert longest_panel(3, 9, 4) == 9
    assert summed_count(3, 4) == 7
