"""Jobs, planes and buildings made up by hypothesis: any that could be built, and partial ones."""

from __future__ import annotations

import dataclasses
import math
from functools import cache, lru_cache
from typing import TypeVar

import shapely
from hypothesis import strategies as st

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers import ANSWERS, Value
from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilOn
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, MetalName, ThicknessBasis
from coilwright.job.panel import Seam
from coilwright.job.roof import Building, Measured, Opening, Openings, Plane, Shape, WingEnd
from coilwright.values.standing import Standing
from tests.cases import SMALL_GABLE, set_answers, with_planes
from tests.outlines import flat_corners

_EIGHTH = 1 / 8
T = TypeVar("T")

# A strategy is made and looked through once, not for every job: that takes longer than to draw.


@lru_cache(maxsize=None, typed=True)
def one_of(*values: T) -> st.SearchStrategy[T]:
    """One of these values."""
    return st.sampled_from(values)


@cache
def sizes(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths [in] as a tape gives them, to 1/8 in, and now and then any float."""
    taped = st.integers(math.ceil(low / _EIGHTH), math.floor(high / _EIGHTH))
    return st.one_of(
        taped.map(lambda n: n * _EIGHTH), taped.map(lambda n: n * _EIGHTH), st.floats(low, high)
    )


@cache
def leans(most: float) -> st.SearchStrategy[float]:
    """How far a corner stands off to either side [in]: nothing, or enough to be measured."""
    return st.floats(-most, most).map(lambda x: 0.0 if abs(x) < 1 / 64 else x)


@cache
def maybe_leans(most: float) -> st.SearchStrategy[float | None]:
    """How far a corner stands off, or not measured."""
    return st.one_of(st.none(), leans(most))


PITCHES = st.one_of(st.sampled_from([0.25, 1.0, 3.0, 4.0, 6.0, 8.0, 12.0]), st.floats(0.25, 24))
_MAYBE_PITCH = st.one_of(st.none(), PITCHES)
THICKNESSES = st.sampled_from([0.0157, 0.0187, 0.0236, 0.0296, 0.032, 0.04])


@st.composite
def corner_rings(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """Corners of a simple polygon, seldom convex: at rising angles round a middle."""
    count = draw(st.integers(3, 8))
    middle = (draw(sizes(0, 200)), draw(sizes(0, 200)))
    ring = []
    for i in range(count):
        angle = 2 * math.pi * (i + draw(st.floats(0.1, 0.9))) / count
        radius = draw(st.floats(40, 300))
        x, y = middle[0] + radius * math.cos(angle), middle[1] + radius * math.sin(angle)
        ring.append((round(x * 4) / 4, round(y * 4) / 4))
    polygon = shapely.Polygon(ring)
    # A narrow ring may cross itself after rounding; its hull is then as good a plane.
    if not polygon.is_valid or polygon.area < 100:
        hull = shapely.MultiPoint(ring).convex_hull
        if isinstance(hull, shapely.Polygon):
            return tuple(hull.exterior.coords)[:-1]
        return ((0.0, 0.0), (200.0, 0.0), (100.0, 150.0))
    return tuple(ring)


_CORNERS = corner_rings()


@st.composite
def planes(draw: st.DrawFn, openings: bool = True) -> Plane:
    """A plane with all its measures, of any shape, measured either way."""
    shape = draw(one_of(*Shape))
    pitch = draw(_MAYBE_PITCH)
    measured = Measured.SLOPE if pitch is None else draw(one_of(*Measured))
    eave, up = draw(sizes(6, 720)), draw(sizes(6, 400))
    plane = Plane(
        name=draw(one_of("", "North", "Porch")),
        shape=shape,
        eave=eave,
        slope_length=up,
        pitch=pitch,
        measured=measured,
        alike=draw(one_of(1, 1, 1, 2, 4)),
    )
    if shape is Shape.TRIANGLE:
        offset = draw(maybe_leans(700))
        plane = dataclasses.replace(plane, offset=offset)
    elif shape is Shape.TRAPEZOID:
        offset = draw(maybe_leans(200))
        plane = dataclasses.replace(plane, top=draw(sizes(0, 720)), offset=offset)
    elif shape is Shape.PARALLELOGRAM:
        plane = dataclasses.replace(plane, offset=draw(leans(300)))
    elif shape is Shape.CORNERS:
        plane = dataclasses.replace(
            plane, corners=draw(_CORNERS), eave=None, slope_length=None
        )
    if openings and draw(st.booleans()):
        plane = dataclasses.replace(plane, openings=draw(openings_in(plane)))
    return plane


@st.composite
def openings_in(draw: st.DrawFn, plane: Plane) -> tuple[Opening, ...]:
    """One or two openings inside a plane, as measured, that do not meet."""
    outline = shapely.Polygon(flat_corners(plane))
    # Clear of the edges: a gap of a float's last digit is a strip of roof to shapely.
    clear = outline.buffer(-0.01)
    left, low, right, high = outline.bounds
    found: list[Opening] = []
    taken: list[shapely.Polygon] = []
    for _ in range(draw(st.integers(1, 2))):
        x = left + draw(st.floats(0, 0.9)) * (right - left)
        y = low + draw(st.floats(0, 0.9)) * (high - low)
        opening = Opening(
            left=round(x * 8) / 8,
            up=round(y * 8) / 8,
            width=draw(sizes(4, 60)),
            height=draw(sizes(4, 60)),
        )
        box = shapely.box(
            opening.left, opening.up, opening.left + opening.width, opening.up + opening.height
        )
        if clear.contains(box) and not any(box.intersects(other) for other in taken):
            found.append(opening)
            taken.append(box)
    # `left` is kept as a width to the right of the plane's origin: never negative
    return tuple(o for o in found if o.left >= 0 and o.up >= 0)


_NOT_ALWAYS = {key: st.one_of(st.none(), some) for key, some in (
    ("coils.supplier_heaviest", st.floats(2000, 10_000)),
    ("coils.site_lift", st.floats(2000, 10_000)),
    ("coils.minimum_order", st.floats(0, 5000)),
    ("panel.clip_travel", st.floats(0, 2)),
)}


@st.composite
def answers(draw: st.DrawFn) -> dict[str, Value]:
    """All answers an order needs, but the roof's; some of the rest."""
    metal = draw(one_of(*MetalName))
    on = draw(one_of(*CoilOn))
    inside = draw(one_of(16.0, 20.0, 24.0))
    given: dict[str, Value] = {
        **{k: v for k, v in SMALL_GABLE.items() if not k.startswith("roof.")},
        "coils.coil_on": on,
        "metal.metal": metal,
        "metal.coating": draw(one_of(*CoatingName)),
        "metal.thickness": draw(THICKNESSES),
        "metal.thickness_basis": draw(one_of(*ThicknessBasis)),
        "panel.seam": draw(one_of(*Seam)),
        "panel.leg": draw(one_of(1.0, 1.5, 2.0)),
        "panel.coverage": draw(sizes(8, 24)),
        "panel.take_up": draw(sizes(3, 7)),
        "panel.start": draw(one_of(*PanelStart)),
        "panel.offset": draw(sizes(0, 16)),
        "panel.end_allowance": draw(one_of(0.0, 0.5, 1.0, 2.0)),
        "panel.rounding": draw(one_of(1 / 16, 0.25, 1.0, 12.0)),
        "machine.thinnest": 0.015,
        "machine.thickest": 0.04,
        "machine.arbors": draw(one_of(1, 2, 3)),
        "machine.arbor_load": draw(st.floats(1500, 4000)),
        "machine.rack_load": draw(st.floats(3000, 8000)),
        "machine.rack_diameter": draw(sizes(28, 40)),
        "machine.decoiler_load": draw(st.floats(3000, 8000)),
        "machine.decoiler_diameter": draw(sizes(30, 48)),
        "machine.decoiler_smallest_coil_id": 16.0,
        "machine.decoiler_largest_coil_id": 24.0,
        "machine.thread_up": draw(sizes(0, 120)),
        "machine.tail": draw(sizes(0, 96)),
        "coils.inside_diameter": inside,
        "coils.spare": draw(one_of(0.0, 0.02, 0.03, 0.05)),
        "coils.tolerance": draw(one_of(0.0, 0.05, 0.10)),
        "coils.wrap_allowance": draw(one_of(0.0, 0.02, 0.04)),
        "job.coldest": draw(st.floats(-40, 40)),
        "job.hottest": draw(st.floats(100, 180)),
    }
    for key, maybe in _NOT_ALWAYS.items():
        value = draw(maybe)
        if value is not None:
            given[key] = value
    return given


_WING = st.one_of(st.just(1.0), st.floats(0.2, 1.05))
_MEASURED = [st.lists(planes(), min_size=least, max_size=3) for least in (0, 1)]


@st.composite
def roofs(draw: st.DrawFn) -> tuple[dict[str, Value], tuple[Plane, ...]]:
    """A building shape with its measures, planes measured one by one, or both."""
    shape = draw(one_of(*Building))
    given: dict[str, Value] = {
        "roof.building": shape,
        "roof.openings": draw(one_of(*Openings)),
    }
    if shape is not Building.PLANES:
        given |= {
            "roof.length": draw(sizes(60, 900)),
            "roof.width": draw(sizes(60, 700)),
            "roof.eave_overhang": draw(sizes(0, 36)),
            "roof.rake_overhang": draw(sizes(0, 36)),
            "roof.pitch": draw(PITCHES),
        }
        # Measures that make no such building are stopped, and as good a job as any here.
        length, width = float(given["roof.length"]), float(given["roof.width"])  # type: ignore[arg-type]
        if shape is Building.PORCH:
            given |= {"roof.porch_depth": draw(sizes(24, 200)), "roof.porch_pitch": draw(PITCHES)}
        elif shape is Building.GAMBREL:
            given |= {"roof.lower_run": draw(st.floats(0.1, 0.55)) * width,
                      "roof.lower_pitch": draw(PITCHES)}  # fmt: skip
        elif shape in (Building.ELL, Building.GABLED_ELL, Building.CROSS):
            wide = draw(_WING) * width
            given |= {"roof.wing_projection": draw(sizes(40, 400)), "roof.wing_width": wide}
            if shape is Building.CROSS:
                along = draw(st.floats(0, 1)) * max(0.0, length - wide)
                given["roof.wing_left"] = along
            else:
                given["roof.wing_end"] = WingEnd.RIGHT if length > width else WingEnd.LEFT
    least = 1 if shape is Building.PLANES else 0
    measured = draw(_MEASURED[least])
    return given, tuple(measured)


@lru_cache(maxsize=256)
def _some_of(keys: tuple[str, ...], most: int | None) -> st.SearchStrategy[set[str]]:
    return st.sets(one_of(*keys), max_size=most)


_ANSWERS, _ROOFS = answers(), roofs()


@st.composite
def whole_jobs(draw: st.DrawFn, guesses: bool = True) -> Job:
    """A job with every answer an order needs; some of them guesses."""
    given = draw(_ANSWERS)
    on_roof, measured = draw(_ROOFS)
    job = with_planes(set_answers(Job(), {**given, **on_roof}), *measured)
    if guesses:
        marks = draw(_some_of(tuple(sorted(given | on_roof)), 6))
        marks |= {f"roof.planes.{i}" for i in range(len(measured)) if draw(st.booleans())}
        job = dataclasses.replace(job, standing=dict.fromkeys(sorted(marks), Standing.GUESS))
    return job


_WHOLE = whole_jobs()


@st.composite
def partial_jobs(draw: st.DrawFn) -> tuple[Job, Job]:
    """A whole job, and the same with any answers and any measures of its planes left out."""
    whole = draw(_WHOLE)
    answered = [k for k, a in ANSWERS.items() if a.value(whole) is not None and k != "job.units"]
    out = draw(_some_of(tuple(answered), None))
    partial = whole
    for key in sorted(out):
        partial = ANSWERS[key].put(partial, None)
    measured = []
    for plane in partial.roof.planes:
        gone = draw(_some_of(("eave", "slope_length", "top", "offset", "pitch"), 2))
        update: dict[str, object] = dict.fromkeys(gone)
        if plane.shape is Shape.CORNERS and draw(st.booleans()):
            update["corners"] = plane.corners[:2]
        measured.append(dataclasses.replace(plane, **update))
    if draw(st.booleans()):
        partial = with_planes(partial, *measured)
    if draw(st.integers(0, 9)) == 0:
        partial = with_planes(partial)
    marks = {k: v for k, v in partial.standing.items() if k not in out}
    return whole, dataclasses.replace(partial, standing=marks)


ENGINEERED: dict[str, Value | None] = {
    "job.engineered": YesNo.YES,
    "panel.report": "T-1",
    "panel.report_widest": 18.0,
    "panel.report_thinnest": 0.0236,
    "panel.report_metal": MetalName.STEEL,
}
"""Answers of a job with a tested assembly that the hand-worked gable is inside of."""
