"""Drawings as SVG: well-formed, self-contained, every panel in them, nothing unescaped."""

from __future__ import annotations

import dataclasses
import re
from itertools import pairwise
from xml.etree import ElementTree as Xml

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.drawing.above_svg import above_svg
from coilwright.drawing.svg import account_svg, coil_svg, cost_svg, plane_svg, width_to_read
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import Building, Plane
from coilwright.plan import plan
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import Part
from coilwright.plan.roof.above import seen_from_above
from coilwright.values.keys import Key
from tests.cases import building, small_gable, with_planes
from tests.generated import planes, whole_jobs
from tests.plan.quotes.five import FIVE, barn, quote, rate

_SPACE = "{http://www.w3.org/2000/svg}"


def texts(svg: str, name: str) -> list[str]:
    root = Xml.fromstring(svg)
    return [e.text or "" for e in root.iter(f"{_SPACE}text") if e.get("class") == name]


def numbers(svg: str) -> list[float]:
    return [float(n) for n in re.findall(r'(?:x|y|cx|cy|r|width)="(-?[\d.]+)"', svg)]


@given(planes())
def test_a_plane_is_well_formed_and_inside_its_page(plane: Plane) -> None:
    for one in plan(with_planes(small_gable(), plane)).planes:
        svg = plane_svg(one)
        root = Xml.fromstring(svg)
        _, _, width, height = map(float, root.attrib["viewBox"].split())
        for polygon in root.iter(f"{_SPACE}polygon"):
            for point in polygon.attrib["points"].split():
                x, y = map(float, point.split(","))
                assert -0.1 <= x <= width + 0.1
                assert -0.1 <= y <= height + 0.1
        assert len(list(root.iter(f"{_SPACE}polygon"))) == 1 + len(one.openings)


def test_every_panel_is_numbered_and_every_seam_drawn() -> None:
    one = plan(small_gable()).planes[0]
    svg = plane_svg(one)
    # The last panel is half a strip: its number is smaller.
    assert texts(svg, "number") == [str(n) for n in range(1, 33)]
    assert len(re.findall('<path class="seam"', svg)) == 31
    assert texts(svg, "edge") == ["eave 42 ft", "rake 18 ft", "ridge 42 ft", "rake 18 ft"]


def test_numbers_of_a_plane_are_of_one_size_that_reads_and_stand_clear_of_its_hips() -> None:
    """6 pt on a page: 640 across are 186 mm of Letter, less its margins."""
    job = building(Building.HIP, length=64 * 12, width=40 * 12, pitch=8.0)
    for plane in plan(job).planes:
        across = width_to_read(plane)
        root = Xml.fromstring(plane_svg(plane, across=across))
        height = float(root.attrib["viewBox"].split()[3])
        sizes = {float(e.attrib["font-size"]) for e in root.iter(f"{_SPACE}text")
                 if e.get("class") == "number"}
        assert min(sizes) * 186 / 640 / 25.4 * 72 >= 6
        # One size inside; what stands below the eave has its own.
        assert len(sizes) <= 2
        assert 0 < across <= 640
        assert height > 0


@given(st.text(max_size=40))
def test_a_name_is_text_and_nothing_else(name: str) -> None:
    named = Plane(name=name, eave=200, slope_length=100)
    svg = plane_svg(plan(with_planes(small_gable(), named)).planes[0])
    plain = plane_svg(plan(with_planes(small_gable(), dataclasses.replace(
        named, name="x"
    ))).planes[0])
    assert [e.tag for e in Xml.fromstring(svg).iter()] == [
        e.tag for e in Xml.fromstring(plain).iter()
    ]


@given(whole_jobs())
def test_coil_and_bars_are_well_formed(job: Job) -> None:
    found = plan(job)
    Xml.fromstring(coil_svg(found))
    if found.account:
        svg = account_svg(found)
        bars = re.findall(r'class="bar".*? width="([\d.]+)"', svg)
        assert len(bars) == len([row for row in found.account if row.mass.value > 1e-6])
        assert found.figures[Key.COIL_MASS_ORDERED].text(found.job.units) in svg


def test_the_coil_is_to_scale() -> None:
    found = plan(small_gable())
    radii = {
        name: float(r)
        for name, r in re.findall(r'<circle class="(\w+)".*? r="([\d.]+)"', coil_svg(found))
    }
    assert radii["room"] / radii["hole"] == 32 / 20
    outside = found.coils[0].outside_diameter.value
    assert abs(radii["coil"] / radii["room"] - outside / 32) < 1e-3


def test_nothing_to_draw_is_no_picture() -> None:
    assert account_svg(plan(new_job())) == ""
    assert coil_svg(plan(Job())) == ""


def test_pictures_fetch_nothing() -> None:
    found = plan(small_gable())
    for svg in (plane_svg(found.planes[0]), coil_svg(found), account_svg(found)):
        assert "href" not in svg
        assert svg.count("http") == 1  # the name of the SVG language itself


def test_quotes_stand_stacked_by_part_to_one_scale() -> None:
    trim = dataclasses.replace(FIVE[0], supplier="Birch & <Daughters>",
                               trim_metal=rate("2.05/lb", "trim_metal"))
    found = compare(plan(barn(trim, *FIVE[1:], quote("Tern", price="1.62/lb"), trim=None)))
    picture = Xml.fromstring(cost_svg(found))
    bars = [r for r in picture.iter(f"{_SPACE}rect") if float(r.attrib["height"]) == 14.0
            and float(r.attrib["width"]) != 14.0]
    rows: dict[float, list[tuple[str, float, float]]] = {}
    for bar in bars:
        one = (bar.attrib["class"].removeprefix("part "), float(bar.attrib["x"]),
               float(bar.attrib["width"]))
        rows.setdefault(float(bar.attrib["y"]), []).append(one)
    costs = [one.cost for one in found.sorted() if one.cost is not None]
    assert len(rows) == len(costs) == 6
    longest = max(costs, key=lambda cost: cost.landed)
    scale = sum(wide for _, _, wide in [*rows.values()][costs.index(longest)]) / float(
        longest.landed)
    for cost, parts in zip(costs, rows.values(), strict=True):
        wanted = [(part.name.lower(), float(cost.part(part))) for part in Part if cost.part(part)]
        assert [name for name, _, _ in parts] == [name for name, _ in wanted]
        for (_, x, wide), after in pairwise([*parts, ("", parts[-1][1] + parts[-1][2], 0.0)]):
            assert x + wide == pytest.approx(after[1], abs=0.3)
        assert [wide / scale for _, _, wide in parts] == pytest.approx(
            [amount for _, amount in wanted], abs=0.2 / scale)
    words = "".join(picture.itertext())
    assert "Birch & <Daughters>" in words
    assert "at least $" in words
    assert all(part.value in words for part in Part)
    across = float(picture.attrib["viewBox"].split()[2])
    texts = [*picture.iter(f"{_SPACE}text")]
    assert max(float(t.attrib["x"]) + 5.2 * len(t.text or "") for t in texts) <= across


def test_a_building_from_above_names_each_edge_once() -> None:
    above = seen_from_above(plan(building(Building.HIP)))
    assert above is not None
    svg = above_svg(above)
    Xml.fromstring(svg)
    # 40 ft by 24 ft with 1 ft of overhang at 6:12: ridge 40 − 24 = 16 ft, hips 13 ft × 1.5.
    assert svg.count(">hip 19 ft 6 in<") == 4
    assert svg.count(">ridge 16 ft<") == 1
    assert all(f">{words}<" in svg for words in ("Side 1", "End 2", "eave 42 ft", "eave 26 ft"))
