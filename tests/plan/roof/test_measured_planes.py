"""Planes measured one by one: any outline, either direction, and pitches from two lengths."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.edit import accept, give_text
from coilwright.job.job import Job
from coilwright.job.roof import Building, Measured, Opening, Plane, Shape
from coilwright.plan import Plan, plan
from coilwright.store import read_model, to_text
from coilwright.values.finding import Finding
from coilwright.values.standing import Standing
from tests.cases import building, set_answers, small_gable, with_planes
from tests.generated import corner_rings

Ring = tuple[tuple[float, float], ...]
L_RING: Ring = ((0, 0), (300, 0), (300, 100), (120, 100), (120, 240), (0, 240))


def drawn(*corners: tuple[float, float], **more: object) -> Plan:
    plane = dataclasses.replace(Plane(name="Odd", shape=Shape.CORNERS, corners=corners), **more)
    return plan(with_planes(small_gable(), plane))


def fault(done: Plan) -> str:
    (stop,) = [f for f in done.stops if f.key.endswith(".outline")]
    assert not done.planes
    return stop.what


@given(corner_rings(), st.integers(0, 7), st.booleans())
def test_either_direction_and_any_first_corner_is_the_same_plane(
    ring: Ring, first: int, turned: bool
) -> None:
    at = first % len(ring)
    other = (*ring[at:], *ring[:at])
    if turned:
        other = tuple(reversed(other))
    one, two = drawn(*ring), drawn(*other)
    assert two.figures["roof.area"].value == pytest.approx(one.figures["roof.area"].value)
    assert [tuple(p) for p in two.planes[0].panels] == [
        pytest.approx(tuple(p)) for p in one.planes[0].panels
    ]
    for kind in EdgeKind:
        key = f"edges.{kind.name.lower()}"
        assert two.figures[key].value == pytest.approx(one.figures[key].value)


@given(corner_rings(), st.integers(0, 7), st.floats(0.1, 0.9))
def test_repeated_and_needless_corners_change_nothing(
    ring: Ring, place: int, share: float
) -> None:
    i = place % len(ring)
    (ax, ay), (bx, by) = ring[i - 1], ring[i]
    between = (ax + share * (bx - ax), ay + share * (by - ay))
    more = (*ring[:i], between, ring[i], ring[i], *ring[i + 1 :]) if i else (*ring, between)
    one, two = drawn(*ring), drawn(*more)
    assert two.figures["roof.area"].value == pytest.approx(one.figures["roof.area"].value)
    assert len(two.planes[0].panels) == len(one.planes[0].panels)


@given(corner_rings(), st.floats(-5000, 5000), st.floats(-5000, 5000))
def test_corners_left_of_and_below_the_eaves_end_are_as_good(
    ring: Ring, dx: float, dy: float
) -> None:
    one, two = drawn(*ring), drawn(*[(x + dx, y + dy) for x, y in ring])
    assert two.figures["roof.area"].value == pytest.approx(one.figures["roof.area"].value)
    assert two.figures["panels.extent"].value == pytest.approx(
        one.figures["panels.extent"].value
    )


@pytest.mark.parametrize(
    ("corners", "words"),
    [
        (((0, 0), (100, 100), (100, 0), (0, 100)), "edge from corner 1 to corner 2 crosses"),
        (((0, 0), (100, 0), (50, 0), (20, 0)), "one line"),
        (((0, 0), (100, 0), (100, 90), (100, 30), (0, 90)), "corner 3"),
        (((0, 0), (0, 0), (0, 0)), "three different corners"),
    ],
)
def test_what_is_no_outline_is_refused_with_its_corner(corners: Ring, words: str) -> None:
    assert words in fault(drawn(*corners))


@pytest.mark.parametrize(
    ("openings", "words"),
    [
        ((Opening(left=150, up=120, width=20, height=20),),
         "the lower left corner lies outside the plane"),
        ((Opening(left=100, up=80, width=100, height=40),),
         "the upper right corner lies outside"),
        ((Opening(left=10, up=10, width=0, height=20),), "Opening 1"),
        (
            (Opening(left=10, up=10, width=40, height=40),
             Opening(left=30, up=30, width=40, height=40)),
            "Openings 1 and 2 overlap",
        ),
    ],
)  # fmt: skip
def test_openings_that_cannot_be_are_refused_by_name(
    openings: tuple[Opening, ...], words: str
) -> None:
    assert words in fault(drawn(*L_RING, openings=openings))


def test_an_opening_left_of_the_eaves_end_is_kept_in_the_file() -> None:
    moved = tuple((x - 200, y - 50) for x, y in L_RING)
    plane = Plane(name="Odd", shape=Shape.CORNERS, corners=moved,
                  openings=(Opening(left=-190, up=-40, width=40, height=30),))  # fmt: skip
    job = with_planes(small_gable(), plane)
    assert plan(job).planes[0].area.value == 300 * 100 + 120 * 140 - 40 * 30
    assert read_model(to_text(job), Job, "test") == job


def test_kinds_of_edges_are_kept_in_the_file() -> None:
    plane = Plane(eave=300, slope_length=120, edges={3: EdgeKind.WALL, 2: EdgeKind.VALLEY})
    job = with_planes(small_gable(), plane)
    assert read_model(to_text(job), Job, "test") == job
    assert [e.kind for e in plan(job).planes[0].edges] == ["eave", "valley", "wall", "rake"]


# -- the pitch from two measured lengths ---------------------------------------------------------


def test_pitch_from_rise_and_run() -> None:
    """A right triangle: 8 ft up in 16 ft is 6 in 12."""
    done = plan(with_planes(small_gable(), Plane(eave=300, slope_length=192, pitch_rise=96,
                                                 pitch_run=192, measured=Measured.PLAN)))
    figure = done.figures["plane.1.pitch"]
    assert figure.value == 6
    assert figure.equation == "12·h / R"
    assert done.planes[0].pitch == 6
    assert done.planes[0].area.value == pytest.approx(300 * 192 * math.sqrt(1.25))


def test_pitch_from_the_slope_and_its_run() -> None:
    """3-4-5: 20 ft up the slope over 16 ft is 9 in 12."""
    done = plan(with_planes(small_gable(), Plane(eave=300, slope_length=240, pitch_slope=240,
                                                 pitch_run=192)))
    assert done.figures["plane.1.pitch"].value == pytest.approx(9)
    assert done.figures["plane.1.pitch"].equation == "12·√((S / R)² − 1)"
    assert done.planes[0].area.value == 300 * 240


def test_a_pitch_given_stands_before_lengths_measured_for_it() -> None:
    plane = Plane(eave=300, slope_length=240, pitch=4, pitch_rise=96, pitch_run=192)
    assert plan(with_planes(small_gable(), plane)).planes[0].pitch == 4


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"pitch_slope": 190.0, "pitch_run": 192.0}, "less than its level run"),
        ({"pitch_rise": 96.0, "pitch_run": 0.0}, "more than nothing"),
        # 12 ft over 6 in, where 6 ft was meant, is 288:12.
        ({"pitch_rise": 144.0, "pitch_run": 6.0}, "No roof is so steep"),
        ({"pitch_slope": 144.0, "pitch_run": 6.0}, "No roof is so steep"),
        ({"pitch": 241.0}, "No roof is so steep"),
    ],
)
def test_lengths_that_give_no_pitch_are_refused(more: dict[str, float], words: str) -> None:
    plane = dataclasses.replace(Plane(eave=300, slope_length=240), **more)
    assert words in fault(plan(with_planes(small_gable(), plane)))


def test_half_a_pitch_is_no_pitch() -> None:
    plane = Plane(eave=300, slope_length=240, pitch_run=192, measured=Measured.PLAN)
    done = plan(with_planes(small_gable(), plane))
    assert "pitch" in done.lacks["plane.1.area"].because


def test_corners_measured_in_plan_show_how_they_are_stretched() -> None:
    done = plan(with_planes(small_gable(), Plane(
        shape=Shape.CORNERS, corners=((0, 0), (120, 0), (60, 96)), pitch=9,
        measured=Measured.PLAN)))  # fmt: skip
    outline = done.figures["plane.1.outline"]
    y3 = outline.terms[5]
    assert y3.value == 120
    assert [t.value for t in y3.terms] == [96, 1.25]
    assert outline.value == 60 * 120


# -- the typed start -----------------------------------------------------------------------------


def typed(text: str) -> tuple[Job, str]:
    job = with_planes(small_gable(), Plane(eave=100, slope_length=90))
    job = set_answers(job, {"panel.start": PanelStart.OFFSET})
    return give_text(job, "panel.offset", text)


def test_the_first_seam_stands_where_it_was_typed() -> None:
    job, error = typed("6 1/2")
    assert error == ""
    (plane,) = plan(job).planes
    assert [round(p.x1, 3) for p in plane.panels][:2] == [6.5, 22.5]
    assert plane.end_widths == (6.5, pytest.approx(100 - 6.5 - 5 * 16))


def test_a_typed_start_is_asked_for_and_its_guess_is_marked() -> None:
    job, _ = typed("")
    done = plan(job)
    assert "panel.offset" in done.open_answers
    assert done.lacks["panels.count"].needs == ("panel.offset",)
    given, _ = typed("5")
    unsure = dataclasses.replace(given, standing={"panel.offset": Standing.GUESS})
    assert plan(unsure).figures["panels.extent"].mark == "~"
    assert "panel.offset" in plan(unsure).guesses


@given(st.integers(0, 60 * 16))
def test_a_seam_a_panel_further_in_is_the_same_layout(sixteenths: int) -> None:
    offset = sixteenths / 16
    plane = Plane(eave=100, slope_length=90)
    jobs = [
        set_answers(with_planes(small_gable(), plane),
                    {"panel.start": PanelStart.OFFSET, "panel.offset": at})
        for at in (offset, offset % 16.0)
    ]
    one, two = (plan(job).planes[0].panels for job in jobs)
    assert one == two


# -- symmetry ------------------------------------------------------------------------------------


@given(corner_rings(), st.sampled_from([1.0, 2.0, 0.5]))
def test_a_plane_scaled_has_panels_scaled(ring: Ring, scale: float) -> None:
    job = set_answers(with_planes(small_gable(), Plane(shape=Shape.CORNERS, corners=ring)),
                      {"panel.coverage": 16.0 * scale})
    big = tuple((x * scale, y * scale) for x, y in ring)
    one = drawn(*ring)
    two = plan(set_answers(
        with_planes(job, Plane(shape=Shape.CORNERS, corners=big)), {}))  # fmt: skip
    if len(one.planes[0].panels) == len(two.planes[0].panels):  # 1/16 in does not scale
        assert two.figures["panels.extent"].value == pytest.approx(
            one.figures["panels.extent"].value * scale
        )
    assert two.figures["roof.area"].value == pytest.approx(
        one.figures["roof.area"].value * scale**2
    )


@given(st.integers(2, 6), st.integers(1, 5), st.integers(40, 200))
def test_a_plane_split_along_a_seam_has_the_same_panels(
    left: int, right: int, up: int
) -> None:
    """A trapezoid with a sloping top, split at a strip edge."""
    a, b, c = left * 16.0, (left + right) * 16.0, float(up)
    middle = c + 60 * a / b
    whole = drawn((0, 0), (b, 0), (b, c + 60), (0, c))
    first, second = (
        drawn((0, 0), (a, 0), (a, middle), (0, c)),
        drawn((a, 0), (b, 0), (b, c + 60), (a, middle)),
    )
    assert whole.figures["panels.length"].value == pytest.approx(
        first.figures["panels.length"].value + second.figures["panels.length"].value
    )
    assert whole.figures["panels.count"].value == left + right


def beside(shaped: Job, *planes: Plane) -> list[Finding]:
    """The stop about a roof that is there twice, where there is one."""
    job = dataclasses.replace(shaped, roof=dataclasses.replace(shaped.roof, planes=planes))
    return [f for f in plan(job).stops if f.key == "roof.twice"]


GABLE = building(Building.GABLE, length=480.0, width=360.0)


@pytest.mark.parametrize(("slope_length", "twice"), [(60.0, False), (220.0, True)])
def test_a_roof_measured_beside_its_shape_holds_the_order(
    slope_length: float, twice: bool
) -> None:
    """A porch beside a building is let be; the building's own planes are asked about."""
    front = Plane(name="Front", eave=480.0, slope_length=slope_length, pitch=6.0, alike=2)
    found = beside(GABLE, front)
    assert bool(found) is twice
    if found:
        assert "Front" in found[0].what
        job = dataclasses.replace(GABLE, roof=dataclasses.replace(GABLE.roof, planes=(front,)))
        taken_on = accept(job, "roof.twice", found[0].accept, "A. Tester", "the barn behind it")
        assert not [f for f in plan(taken_on).stops if f.key == "roof.twice"]


SHAPES = {shape: building(shape, **sizes) for shape, sizes in {
    Building.SHED: {}, Building.GABLE: {}, Building.HIP: {},
    Building.PORCH: {"porch_depth": 96.0, "porch_pitch": 3.0},
    Building.ELL: {"wing_projection": 144.0, "wing_width": 192.0},
    Building.GABLED_ELL: {"wing_projection": 144.0, "wing_width": 192.0},
    Building.CROSS: {"wing_projection": 144.0, "wing_width": 192.0, "wing_left": 100.0},
    Building.GAMBREL: {"lower_run": 60.0, "lower_pitch": 18.0},
}.items()}


@pytest.mark.parametrize("shape", SHAPES)
def test_each_plane_left_of_a_roof_that_a_shape_draws_holds_the_order(shape: Building) -> None:
    """All faces measured one by one, a few inches off, and deleted one after the other."""
    faces = plan(SHAPES[shape]).planes
    assert faces, "all its measures are given"
    left = [Plane(name=f"Old {face.name}", shape=Shape.CORNERS, pitch=face.pitch,
                  corners=tuple((x * 0.98, y * 0.97) for x, y in face.outline))
            for face in faces]
    while left:
        (found,) = beside(SHAPES[shape], *left)
        assert left[0].name in found.what
        left.pop()
    assert not beside(SHAPES[shape])


@given(st.sampled_from(list(SHAPES)),
       st.lists(st.tuples(st.floats(0.2, 1.5), st.floats(0.1, 0.7)), min_size=1, max_size=4))
def test_porches_and_dormers_measured_beside_a_shape_are_let_be(
    shape: Building, sizes: list[tuple[float, float]]
) -> None:
    """Any length along the eave, also all round the house, but not as deep as a face of it."""
    job = SHAPES[shape]
    shortest = min(max(y for _, y in face.outline) for face in plan(job).planes)
    assert not beside(job, *(
        Plane(name=f"Porch {number}", eave=480 * along, slope_length=shortest * deep)
        for number, (along, deep) in enumerate(sizes, 1)))


def test_a_roof_cut_up_another_way_is_seen_while_most_of_it_is_there() -> None:
    quarters = [Plane(name=f"Part {n}", eave=246.0, slope_length=201.0) for n in range(1, 5)]
    assert beside(GABLE, *quarters)
    assert beside(GABLE, *quarters[:3])
    assert not beside(GABLE, quarters[0]), "one part of it may as well be a wing"


def test_a_wing_as_deep_as_the_house_is_let_be() -> None:
    """Of the same span, so as long up the slope, and shorter along the eave."""
    assert not beside(GABLE, Plane(name="Wing", eave=200.0, slope_length=214.7, alike=2))
