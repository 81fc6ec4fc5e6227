"""Starts without slivers: against a sweep over every 1/16 in, and the finding that names one."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.first_panel import end_widths, start_for
from coilwright.calc.roof.layout import total_extent
from coilwright.calc.roof.outline import OutlineError, bounds, clean
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.sliver_free import free_spans, least_metal_seam, nearest_free_seam
from coilwright.job.job import Job
from coilwright.job.roof import Plane, Shape
from coilwright.plan import plan
from coilwright.plan.panel.starts import EndsOf, Laid, best_start
from coilwright.units import System
from coilwright.values.finding import Finding
from tests.cases import set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import corner_rings
from tests.rules import for_each

Ring = tuple[tuple[float, float], ...]
ALLOWANCE = 1.0
GORE = Plane(name="Gore", shape=Shape.CORNERS,
             corners=((0, 0), (37, 0), (36, 120), (35, 220), (3, 180)))  # fmt: skip


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
    """34 in: 16 + 16 + 2. A pan on the middle leaves 9 + 16 + 9: no panel more."""
    found = sliver(roof(PanelStart.LEFT, Plane(name="Porch", eave=34, slope_length=90)))
    assert found is not None
    assert found.what == ("End panels of Porch: 16 in left, 2 in right. None with start “centered "
                          "on a pan”.")
    assert found.do == ("Panel start “centered on a pan” leaves 9 in at the left and 9 in at the "
                        "right. It takes no more panel.")


def test_the_start_that_is_told_suits_all_planes_and_not_the_narrowest_alone() -> None:
    """A pan on the middle leaves 9 + 16 + 9 of 34 in, but of 49 in 1/2 + 16 + 16 + 16 + 1/2; a seam
    there 8 1/2 + 16 + 16 + 8 1/2, but of 34 in 1 + 16 + 16 + 1. Least metal takes each as it is
    best, with as many panels."""
    planes = (Plane(name="Porch", eave=34, slope_length=90),
              Plane(name="Barn", eave=49, slope_length=120))
    found = sliver(roof(PanelStart.LEFT, *planes))
    assert found is not None
    assert found.do == (
        "Panel start “least metal” leaves every end panel 4 in or wider: the narrowest are those "
        "of Barn, 8 1/2 in at the left and 8 1/2 in at the right. It takes no more panel.")
    for start in (PanelStart.PAN_CENTERED, PanelStart.SEAM_CENTERED):
        assert sliver(roof(start, *planes)) is not None
    assert sliver(roof(PanelStart.LEAST_METAL, *planes)) is None


@given(st.lists(st.integers(160, 800), min_size=1, max_size=3), st.sampled_from(
    [one for one in PanelStart if one is not PanelStart.OFFSET]), st.sampled_from([4.0, 6.5, 8.0]),
    st.sampled_from(System))
def test_what_is_told_of_a_start_is_so(
    eaves: list[int], chosen: PanelStart, least: float, system: System
) -> None:
    planes = tuple(EndsOf(at, box(eave / 8), (), 1, start_for(chosen, box(eave / 8), (), 16.0), 0.0)
                   for at, eave in enumerate(eaves, 1))
    best = best_start(planes, Laid(16.0, least, 1.0, 0.25), chosen, system)

    def ends(choice: PanelStart, offset: float = 0.0) -> list[tuple[float, float]]:
        return [end_widths(one.outline, 16.0, start_for(
            choice, one.outline, (), 16.0, 0.0, offset)) for one in planes]

    def narrow(choice: PanelStart, offset: float = 0.0) -> int:
        return sum(min(both) < least - 1e-6 for both in ends(choice, offset))

    assert len(best.narrow) == narrow(best.choice, best.offset)
    assert min(best.ends) == pytest.approx(min(map(min, ends(best.choice, best.offset))))
    offsets = [at / 64 for at in range(1, 16 * 64 + 1)]
    if best.narrow:
        assert all(narrow(PanelStart.OFFSET, at) for at in offsets)
        assert len(best.narrow) == min(map(narrow, [
            one for one in PanelStart if one is not PanelStart.OFFSET]))
    # As it is read, it can be typed.
    step = 1 / 16 if system is System.US else 1 / 25.4
    coarse = any(not narrow(PanelStart.OFFSET, at * step) for at in range(1, int(16 / step) + 1))
    if best.choice is PanelStart.OFFSET and coarse:
        assert best.offset / step == pytest.approx(round(best.offset / step))


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


def test_a_typed_offset_is_told_with_its_box_and_what_it_costs() -> None:
    job = roof(PanelStart.LEAST_METAL, GORE, narrowest_end=10.0)
    found = sliver(job)
    assert found is not None
    assert found.what.endswith(" None with start “typed offset”, “First seam from left” 10 in.")
    assert found.do == ("Panel start “typed offset” with “First seam from left” 10 in leaves 10 in "
                        "at the left and 11 in at the right. It takes 1 ft 1/2 in more of panel.")
    moved = plan(roof(PanelStart.OFFSET, GORE, narrowest_end=10.0, offset=10.0))
    more = moved.figures["panels.length"].value - plan(job).figures["panels.length"].value
    assert more == pytest.approx(12.5)


def test_where_no_start_suits_all_planes_the_one_with_fewest_slivers_is_told() -> None:
    """37 in asks for a seam 10 to 11 in from the left, 31 1/2 in for one 15 1/2 or 16 in from it. A
    pan on the middle leaves 7 3/4 in of that, the other starts 5 in and less of the gore."""
    planes = (GORE, *(Plane(name=f"Bay of {eave}", eave=eave, slope_length=90)
                      for eave in (31.5, 42)))
    found = sliver(roof(PanelStart.SEAM_CENTERED, *planes, narrowest_end=10.0))
    assert found is not None
    assert found.do == (
        "No one start leaves the ends of all planes 10 in or wider. Fewest are narrower by "
        "“centered on a pan”: on 1 plane, the narrowest on Bay of 31.5, 7 3/4 in at the left and "
        "7 3/4 in at the right. Where one stays, cover the end with a wider edge piece, choose "
        "another coverage width, or give a smaller “Narrowest end panel” if such an end is fine.")
    there = sliver(roof(PanelStart.PAN_CENTERED, *planes, narrowest_end=10.0))
    assert there is not None
    assert there.what.endswith(". No start avoids all.")
    assert "10 in or wider. Where one stays, cover" in there.do


def test_where_no_start_avoids_it_the_finding_says_so() -> None:
    found = sliver(roof(PanelStart.LEFT, Plane(name="Strip", eave=3, slope_length=90)))
    assert found is not None
    assert "No start leaves both ends of Strip 4 in or wider" in found.do


def test_the_narrowest_end_may_be_chosen() -> None:
    plane = Plane(eave=36.5, slope_length=90)  # 16 + 16 + 4 1/2
    assert sliver(roof(PanelStart.LEFT, plane)) is None
    assert sliver(roof(PanelStart.LEFT, plane, narrowest_end=5.0)) is not None
    assert sliver(roof(PanelStart.LEFT, plane, narrowest_end=0.0)) is None
