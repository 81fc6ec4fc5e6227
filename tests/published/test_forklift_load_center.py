"""A forklift's rating farther out than its load center.

From memory, as forklift handbooks have it (not read): capacity·(center + A)/(farther + A), A from
the front axle to the fork face; the usual load center is 24 in. The values are computed.
"""

from __future__ import annotations

import pytest

from coilwright.calc.lifting import DERATED, fork_carries
from coilwright.values.source import Grade


@pytest.mark.parametrize(
    ("capacity", "center", "farther", "axle", "left"),
    [(4000, 24, 36, 12, 3000), (5000, 24, 48, 0, 2500), (5000, 24, 30, 18, 4375),
     (3000, 24, 24, 15, 3000), (3000, 24, 12, 15, 3000)],
)  # fmt: skip
def test_moments_about_the_front_axle(
    capacity: float, center: float, farther: float, axle: float, left: float
) -> None:
    assert fork_carries(capacity, center, farther, axle) == pytest.approx(left, rel=1e-12)


def test_it_says_that_it_is_from_memory() -> None:
    assert DERATED.grade is Grade.MEMORY
    assert "from memory" in str(DERATED)
