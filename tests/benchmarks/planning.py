"""A whole plan against shapely only laying out the panels of the same planes.

The plan does all of it: planes, panels, coils, the account, every figure and check. Shapely only
cuts strips, with their lengths and areas. Where the start is the one of least metal, finding it
is part of laying a plane out: shapely then tries the starts at which a corner meets a strip edge
and keeps the least (fewer than the plan has to try, which must also look beside them). For the
record it is timed with the start given to it as well, and nothing is claimed of those rows. The
layouts that the plan keeps are dropped before every run; within one run it may use one twice, as
it always does.
"""

from __future__ import annotations

import dataclasses
import math
import random
from collections.abc import Callable, Iterator

import numpy as np
import shapely

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.job import Job
from coilwright.job.roof import Openings, Plane, Shape
from coilwright.plan import plan
from coilwright.store import shipped
from tests.benchmarks.cold import cool_down
from tests.benchmarks.table import Row, turn_about
from tests.cases import set_answers, small_gable, with_planes

_CLAIM = 0.5
Region = tuple[shapely.Geometry, float, float, tuple[float, ...], float]
"""A plane, its left and right end, the starts to try and the coverage width."""


def large_job(start: PanelStart) -> Job:
    """200 different planes of five shapes, 10,000 panels in all."""
    dice = random.Random(7)
    planes = []
    for number in range(200):
        shape = list(Shape)[number % 5]
        # 50 panels of 16 in from the left; a lean or an odd width adds one now and then
        wide, up = 800.0, 100.0 + dice.randrange(1600) / 8
        plane = Plane(name=f"P{number}", shape=shape, eave=wide, slope_length=up, pitch=6)
        if shape is Shape.TRAPEZOID:
            plane = dataclasses.replace(plane, top=200.0 + dice.randrange(3200) / 8)
        elif shape is Shape.PARALLELOGRAM:
            plane = dataclasses.replace(plane, eave=wide - 160, offset=160.0)
        elif shape is Shape.CORNERS:
            corners = ((0, 0), (wide, 0), (wide, up * 0.6), (wide * 0.7, up), (wide * 0.4, up / 2),
                       (0, up * 0.8))  # fmt: skip
            plane = dataclasses.replace(plane, corners=corners, eave=None, slope_length=None)
        planes.append(plane)
    return set_answers(with_planes(small_gable(), *planes), {"panel.start": start})


def regions(job: Job, search: bool) -> list[Region]:
    """What shapely has to cut: the planes of the job's plan, planes alike once.

    search: it has to find the start itself, from those where a corner meets a strip edge.
    """
    done = plan(job)
    coverage = done.figures["panel.coverage"].value
    deducted = job.roof.openings is Openings.DEDUCT
    found: list[Region] = []
    for one in done.planes:
        holes = one.openings if deducted else ()
        assert one.start is not None
        region: shapely.Geometry = shapely.Polygon(one.outline)
        for hole in holes:
            region = region.difference(shapely.Polygon(hole))
        left, _, right, _ = region.bounds
        corners = {round((x - left) % coverage, 9) + left for x, _ in one.outline}
        starts = tuple(sorted(corners)) if search else (one.start,)
        found.append((region, left, right, starts, coverage))
    return found


def one_by_one(wanted: list[Region]) -> int:
    """Cut strip by strip; how many panels."""
    count = 0
    for region, left, right, starts, coverage in wanted:
        tried = [_strip_by_strip(region, left, right, start, coverage) for start in starts]
        count += min(tried)[1]
    return count


def _strip_by_strip(
    region: shapely.Geometry, left: float, right: float, start: float, coverage: float
) -> tuple[float, int]:
    """Length of all panels from one start, and how many."""
    _, low, _, high = region.bounds
    total, count = 0.0, 0
    x = start + math.floor((left - start) / coverage) * coverage
    while x < right:
        piece = region.intersection(shapely.box(x, low - 1, x + coverage, high + 1))
        parts = piece.geoms if hasattr(piece, "geoms") else (piece,)
        for part in parts:
            if part.is_empty:
                continue
            x0, y0, x1, y1 = part.bounds
            if x1 - x0 >= 1 / 16 and y1 - y0 + part.area > 0:
                total += y1 - y0
                count += 1
        x += coverage
    return total, count


def all_at_once(wanted: list[Region]) -> int:
    """Cut all strips of a plane in one vectorized intersection; how many panels."""
    count = 0
    for region, left, right, starts, coverage in wanted:
        count += min(_vectorized(region, left, right, start, coverage) for start in starts)[1]
    return count


def _vectorized(
    region: shapely.Geometry, left: float, right: float, start: float, coverage: float
) -> tuple[float, int]:
    """Length of all panels from one start, and how many."""
    _, low, _, high = region.bounds
    first = start + math.floor((left - start) / coverage) * coverage
    xs = np.arange(first, right, coverage)
    boxes = shapely.box(xs, low - 1, xs + coverage, high + 1)
    parts = shapely.get_parts(shapely.intersection(region, boxes))
    bounds, areas = shapely.bounds(parts), shapely.area(parts)
    panels = bounds[:, 2] - bounds[:, 0] >= 1 / 16
    lengths = bounds[panels, 3] - bounds[panels, 1]
    return float(lengths.sum()), int(np.count_nonzero(lengths + areas[panels] > 0))


def rows() -> Iterator[Row]:
    """The demo hip job, and the large job from the left and with the least metal."""
    hip = next(job for key, job in shipped.demo_jobs().items() if "hip" in key)
    least = large_job(PanelStart.LEAST_METAL)
    cases: list[tuple[str, Job, int, bool, float | None]] = [
        ("plan, demo hip roof, start found", hip, 31, True, _CLAIM),
        ("plan, demo hip roof, start given", hip, 31, False, None),
        ("plan, 200 planes, from the left", large_job(PanelStart.LEFT), 7, False, _CLAIM),
        ("plan, 200 planes, start found", least, 5, True, None),
        ("plan, 200 planes, start given", least, 5, False, None),
    ]
    for words, job, runs, search, claim in cases:
        wanted = regions(job, search)
        panels = int(sum(len(p.panels) for p in plan(job).planes))

        def ours(job: Job = job) -> None:
            cool_down()
            plan(job)

        yardsticks: list[tuple[str, Callable[[list[Region]], int]]] = [
            ("shapely, strip by strip", one_by_one),
            ("shapely, vectorized", all_at_once),
        ]
        runners: list[Callable[[], None]] = [ours]
        for _, cut in yardsticks:
            cut_here = cut
            runners.append(lambda cut=cut_here, wanted=wanted: cut(wanted))  # type: ignore[misc]
        mine, *theirs = turn_about(runners, runs)
        for (name, _), seconds in zip(yardsticks, theirs, strict=True):
            yield Row(f"{words} ({panels:,} panels)", mine, name, seconds, claim, runs)
