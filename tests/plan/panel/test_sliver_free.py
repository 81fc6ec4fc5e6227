"""Starts without slivers: against a sweep over every 1/16 in, and the finding that names one."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.first_panel import end_widths
from coilwright.calc.roof.layout import total_extent
from coilwright.calc.roof.outline import OutlineError, bounds, clean
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.sliver_free import free_spans, least_metal_seam, nearest_free_seam
from coilwright.job.job import Job
from coilwright.job.roof import Plane, Shape
from coilwright.plan import plan
from coilwright.values.finding import Finding
from tests.cases import set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import corner_rings
from tests.rules import for_each

Ring = tuple[tuple[float, float], ...]
ALLOWANCE = 1.0


def box(width: float) -> Ring:
    return ((0.0, 0.0), (width, 0.0), (width, 100.0), (0.0, 100.0))


@for_each([
    (40.0, 16.0, 4.0, [(4.0, 4.0), (8.0, 16.0)]),  # 8 over: 4 + 16 + 16 + 4 is one place
    (32.0, 16.0, 4.0, [(4.0, 12.0), (16.0, 16.0)]),  # whole panels fit exactly
    (35.0, 16.0, 4.0, [(4.0, 15.0)]),
    (10.0, 16.0, 4.0, [(4.0, 6.0), (10.0, 16.0)]),  # one panel, or two
    (3.0, 16.0, 4.0, []),
    (20.0, 16.0, 9.0, [(9.0, 11.0)]),
    (27.0, 16.0, 12.0, [(12.0, 15.0)]),
    (34.0, 16.0, 10.0, []),
])
def test_spans_worked_by_hand(
    width: float, coverage: float, narrowest: float, spans: list[tuple[float, float]]
) -> None:
    """Plane geometry: the first seam and what is left over at the far end."""
    found = free_spans(box(width), coverage, narrowest)
    assert [pytest.approx(span) for span in spans] == list(found)


@given(st.integers(8, 4000), st.integers(4 * 16, 24 * 16), st.integers(0, 12 * 16))
def test_spans_hold_every_start_without_slivers(width: int, coverage: int, narrowest: int) -> None:
    ring, wide, least = box(width / 8), coverage / 16, narrowest / 16
    spans = free_spans(ring, wide, least)
    for step in range(1, coverage + 1):
        seam = step / 16
        free = min(end_widths(ring, wide, seam)) >= least - 1e-9
        inside = any(a - 1e-6 <= seam <= b + 1e-6 for a, b in spans)
        assert free == inside, seam
    for a, b in spans:
        for seam in (a, (a + b) / 2, b):
            assert min(end_widths(ring, wide, seam)) >= least - 1e-5


def swept(ring: Ring, coverage: float) -> list[tuple[float, float, float]]:
    """First seam, narrowest end and metal, for every 1/16 in."""
    left = bounds(ring)[0]
    found = []
    for step in range(1, math.floor(coverage * 16) + 1):
        seam = step / 16
        count, extents = total_extent(ring, (), coverage, left + seam)
        ends = end_widths(ring, coverage, left + seam)
        found.append((seam, min(ends), extents + count * ALLOWANCE))
    return found


@given(corner_rings(), st.sampled_from([12.0, 16.0, 19.5]), st.sampled_from([0.0, 2.0, 4.0, 6.0]))
@settings(max_examples=draws(40))
def test_no_start_without_slivers_takes_less_metal(
    corners: Ring, coverage: float, narrowest: float
) -> None:
    try:
        ring = clean(corners)
    except OutlineError:
        return
    seam = least_metal_seam(ring, (), coverage, narrowest, ALLOWANCE)
    free = [(s, metal) for s, ends, metal in swept(ring, coverage) if ends >= narrowest - 1e-9]
    if seam is None:
        assert not free
        return
    left = bounds(ring)[0]
    assert min(end_widths(ring, coverage, left + seam)) >= narrowest - 1e-5
    count, extents = total_extent(ring, (), coverage, left + seam)
    metal = extents + count * ALLOWANCE
    assert all(metal <= other + 1e-6 for _, other in free)


@given(st.integers(100, 4000), st.integers(0, 255))
def test_no_start_without_slivers_is_nearer(width: int, start: int) -> None:
    ring, at = box(width / 8), start / 16
    seam = nearest_free_seam(ring, 16.0, 4.0, at)
    if seam is None:
        return
    assert min(end_widths(ring, 16.0, seam)) >= 4.0 - 1e-5

    def apart(other: float) -> float:
        way = abs(other - at) % 16.0
        return min(way, 16.0 - way)

    for other, ends, _ in swept(ring, 16.0):
        if ends >= 4.0:
            assert apart(seam) <= apart(other) + 1e-6


def sliver(job: Job) -> Finding | None:
    return next((f for f in plan(job).findings if f.key == "panel.sliver"), None)


def roof(start: PanelStart, *planes: Plane, **panel: float) -> Job:
    job = set_answers(with_planes(small_gable(), *planes), {"panel.start": start})
    return set_answers(job, {f"panel.{k}": v for k, v in panel.items()})


def test_the_finding_names_the_plane_its_ends_and_a_better_start() -> None:
    """34 in: 16 + 16 + 2. A seam 14 in from the left leaves 14 + 16 + 4: no panel more."""
    found = sliver(roof(PanelStart.LEFT, Plane(name="Porch", eave=34, slope_length=90)))
    assert found is not None
    assert "The end panels of Porch are 16 in at the left and 2 in at the right" in found.what
    assert "nearest first seam that does is 14 in" in found.do
    assert "14 in at the left and 4 in at the right" in found.do
    assert "It takes no more panel." in found.do


def test_what_it_costs_is_counted_as_cut() -> None:
    """A triangle: the nearest start and the one chosen differ in metal, by the panels as cut."""
    plane = Plane(name="End", shape=Shape.TRIANGLE, eave=98, slope_length=120, alike=2)
    job = roof(PanelStart.LEFT, plane)
    found = sliver(job)
    assert found is not None
    seam = nearest_free_seam(plan(job).planes[0].outline, 16.0, 4.0, 0.0)
    assert seam is not None
    moved = plan(roof(PanelStart.OFFSET, plane, offset=seam))
    more = moved.figures["panels.length"].value - plan(job).figures["panels.length"].value
    assert more != 0
    text = "more" if more > 0 else "less"
    assert f" {text} of panel." in found.do
    assert sliver(roof(PanelStart.OFFSET, plane, offset=seam)) is None


def test_least_metal_offers_the_least_metal_without_slivers() -> None:
    plane = Plane(name="Gore", shape=Shape.CORNERS,
                  corners=((0, 0), (37, 0), (36, 120), (35, 220), (3, 180)))  # fmt: skip
    found = sliver(roof(PanelStart.LEAST_METAL, plane, narrowest_end=10.0))
    assert found is not None
    assert "takes the least metal" in found.do


def test_where_no_start_avoids_it_the_finding_says_so() -> None:
    found = sliver(roof(PanelStart.LEFT, Plane(name="Strip", eave=3, slope_length=90)))
    assert found is not None
    assert "No start leaves both ends of Strip 4 in or wider" in found.do


def test_the_narrowest_end_may_be_chosen() -> None:
    plane = Plane(eave=36.5, slope_length=90)  # 16 + 16 + 4 1/2
    assert sliver(roof(PanelStart.LEFT, plane)) is None
    assert sliver(roof(PanelStart.LEFT, plane, narrowest_end=5.0)) is not None
    assert sliver(roof(PanelStart.LEFT, plane, narrowest_end=0.0)) is None
