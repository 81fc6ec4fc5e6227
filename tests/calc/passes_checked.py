"""Questions for passes, and what every answer to them must hold."""

from __future__ import annotations

import math
from collections import Counter

from hypothesis import strategies as st

from coilwright.calc.passes import Passes, Wanted

NEAR = 1e-5

Question = tuple[float, float, list[Wanted], float]


def check(
    master: float, edge_trim: float, wanted: list[Wanted], longest: float, found: Passes
) -> None:
    """All that is wanted is had; what is reported adds up; no strand is too long."""
    had: Counter[tuple[int, int]] = Counter()
    totals = [0.0] * len(wanted)
    for one in found.passes:
        used = sum(wanted[strand.wanted].width for strand in one.strands)
        assert used <= master - edge_trim + NEAR
        assert abs(master - used - one.drop) <= NEAR
        assert sum(n for _, n in one.across) == len(one.strands)
        assert 0 < one.length <= longest + NEAR
        assert not all(strand.surplus for strand in one.strands)
        for strand in one.strands:
            assert one.length <= wanted[strand.wanted].longest + NEAR
            if strand.surplus:
                assert strand.wanted == 0
                assert strand.coil is None
            elif strand.coil is not None:
                had[strand.wanted, strand.coil] += 1
                assert one.length >= wanted[strand.wanted].coils[strand.coil] - NEAR
            else:
                totals[strand.wanted] += one.length
    assert had == Counter({(i, c): 1 for i, w in enumerate(wanted) for c in range(len(w.coils))})
    for one_wanted, length in zip(wanted, totals, strict=True):
        assert length >= one_wanted.total - NEAR
    assert found.bound <= found.length * (1 + 1e-9)
    assert found.fewest <= len(found.passes)
    assert math.isclose(found.area, master * sum(one.length for one in found.passes))
    assert sum(often for _, often in found.alike()) == len(found.passes)


@st.composite
def questions(draw: st.DrawFn, most_coils: int, most_totals: int) -> Question:
    """A master with one to three widths in coils and some in lengths, some of them limited."""
    master, longest = draw(st.sampled_from([36.0, 43.0, 48.0])), math.inf
    if draw(st.booleans()):
        longest = draw(st.sampled_from([60.0, 75.0, 100.0]))
    wanted = []
    left = draw(st.integers(0 if most_totals else 1, most_coils))
    while left:
        many = draw(st.integers(1, left))
        left -= many
        coils = tuple(float(draw(st.integers(5, 60))) for _ in range(many))
        width = draw(st.sampled_from([6.0, 9.5, 14.0, 15.75, 20.625, 23.0]))
        wanted.append(Wanted(width, coils=coils, longest=_limit(draw, max(coils))))
    for _ in range(draw(st.integers(0 if wanted else 1, most_totals))):
        width = draw(st.sampled_from([4.0, 5.5, 9.0, 11.25, 16.0]))
        total = float(draw(st.integers(5, 150)))
        wanted.append(Wanted(width, total=total, longest=_limit(draw, 20.0)))
    return master, 0.5, wanted, longest


def _limit(draw: st.DrawFn, least: float) -> float:
    return draw(st.sampled_from([math.inf, least, least + 10]))
