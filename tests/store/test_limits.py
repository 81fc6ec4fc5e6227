"""How long lists and texts in a file may be: refused in a sentence, both ways."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path
from typing import Any

import pytest

from coilwright.job import limits
from coilwright.job.job import Job
from coilwright.job.receiving import Arrival
from coilwright.job.roof import Opening, Plane, Shape
from coilwright.job.rows.planes import PLANES
from coilwright.job.shop import SharedShop, Shop
from coilwright.job.stock import Stock
from coilwright.plan import plan
from coilwright.store import Store, StoreError, read_model, to_text
from coilwright.store.plane_rows import read_rows
from tests.cases import small_gable, with_planes
from tests.work import within

_SOON = 1_500_000
"""Calls of functions: a file is refused before anything is made of what it holds."""


def text_of(wanted: str, data: dict[str, Any]) -> str:
    return json.dumps({"format": wanted, "version": 2, **data})


TOO_LONG: dict[str, tuple[type[Any], str, str]] = {
    "a hundred thousand planes": (
        Job, text_of("coilwright-job", {"roof": {"planes": [{"eave": "9 ft"}] * 100_000}}),
        "roof.planes: 100,000 are more than any job has; 1,000 is the most",
    ),
    "the planes of an older file": (
        Job, json.dumps({"format": "coilwright-job", "version": 1,
                         "roof": {"planes": [{}] * 100_000}}),
        "roof.planes: 100,000 are more",
    ),
    "corners": (
        Job, text_of("coilwright-job", {"roof": {"planes": [
            {"shape": "corners", "corners": [["1 ft", "2 ft"]] * 5000}]}}),
        "roof.planes.0.corners: 5,000 are more than any job has; 100 is the most",
    ),
    "openings": (
        Job, text_of("coilwright-job", {"roof": {"planes": [{"openings": [{}] * 51}]}}),
        "roof.planes.0.openings: 51 are more",
    ),
    "pieces of trim": (
        Job, text_of("coilwright-job", {"trim": {"pieces": [{}] * 1001}}),
        "trim.pieces: 1,001 are more",
    ),
    "quotes": (
        Job, text_of("coilwright-job", {"quotes": {"received": [{}] * 101}}),
        "quotes.received: 101 are more",
    ),
    "arrivals": (
        Job, text_of("coilwright-job", {"arrived": [{}] * 501}), "arrived: 501 are more",
    ),
    "coils on hand of a job": (
        Job, text_of("coilwright-job", {"on_hand": [{}] * 201}), "on_hand: 201 are more",
    ),
    "marks": (
        Job, text_of("coilwright-job", {"standing": {f"roof.planes.{n}": "guess"
                                                     for n in range(10_001)}}),
        "standing: 10,001 names are more",
    ),
    "all together": (
        Job, text_of("coilwright-job", {"roof": {"planes": [
            {"shape": "corners", "corners": [["1 ft", "2 ft"]] * 100}] * 300}}),
        "entries are more than any job has; 60,000 is the most",
    ),
    "a text": (
        Job, text_of("coilwright-job", {"about": "x" * 20_001}),
        "about: a text of 20,001 signs is longer than any; 20,000 is the most",
    ),
    "coils in stock": (
        Stock, text_of("coilwright-stock", {"coils": [{}] * 2001}), "coils: 2,001 are more",
    ),
    "suppliers": (
        Shop, text_of("coilwright-shop", {"suppliers": [{}] * 1001}), "suppliers: 1,001 are more",
    ),
    "a partner's machines": (
        SharedShop, text_of("coilwright-shared-shop", {"shop": {"machines": [{}] * 1001}}),
        "shop.machines: 1,001 are more",
    ),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", TOO_LONG)
def test_what_is_longer_than_any_is_refused_before_it_is_read(name: str) -> None:
    model, text, said = TOO_LONG[name]
    with pytest.raises(StoreError) as refused:
        within(_SOON, lambda: read_model(text, model, "it"))
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.slow
def test_as_much_as_may_be_is_read_and_planned() -> None:
    planes = tuple(
        Plane(name=f"Plane {n}", eave=100.0 + n / 8, slope_length=200.0 + n / 4, pitch=6.0)
        for n in range(limits.MOST_ROWS)
    )
    text = to_text(with_planes(small_gable(), *planes))
    job = read_model(text, Job, "it")
    assert len(job.roof.planes) == limits.MOST_ROWS
    assert within(5_000_000, lambda: plan(job)).planes


@pytest.mark.parametrize(("job", "said"), [
    (with_planes(Job(), *[Plane()] * 1001), "roof.planes: 1,001 are more"),
    (dataclasses.replace(Job(), arrived=(Arrival(tag="c"),) * 501), "arrived: 501 are more"),
    (dataclasses.replace(Job(), about="x" * 20_001), "about: a text of 20,001 signs"),
])
def test_what_could_not_be_opened_is_not_written(tmp_path: Path, job: Job, said: str) -> None:
    store = Store(tmp_path)
    path = store.create(small_gable())
    before = path.read_bytes()
    with pytest.raises(StoreError, match="Nothing was written") as refused:
        store.save(path, job, "")
    assert said in str(refused.value)
    assert path.read_bytes() == before


def test_a_full_list_takes_no_more_rows() -> None:
    job = with_planes(Job(), *[Plane()] * 999)
    assert not PLANES.no_room(job)
    assert PLANES.no_room(job, 2) == (
        "This list is full: 1,001 are more than any job has; 1,000 is the most.")


@pytest.mark.slow
def test_a_table_of_more_planes_is_read_no_further() -> None:
    text = "name,eave,slope length,pitch\n" + "p,9 ft,12 ft,6:12\n" * 200_000
    rows = within(_SOON, lambda: read_rows(text))
    assert len(rows.good) == limits.MOST_ROWS
    (bad,) = rows.bad
    assert bad.number == 1002
    assert "1,000 planes at most" in bad.reason


def test_blank_lines_and_cells_without_end_make_no_rows() -> None:
    assert within(600_000, lambda: read_rows("\n" * 100_000)).good == ()
    (bad,) = within(_SOON, lambda: read_rows("a," * 1_000_000)).bad
    assert len(bad.text) <= 200


@pytest.mark.slow
@pytest.mark.parametrize("plane", [
    Plane(shape=Shape.CORNERS, pitch=6.0,
          corners=((0, 0), *((float(x), 90.0 + x % 2) for x in range(98, 0, -1)))),
    Plane(eave=200.0, slope_length=99.0, pitch=6.0, openings=tuple(
        Opening(left=3.0 * n, up=6, width=1, height=20) for n in range(25))),
])
def test_more_corners_than_any_roof_has_stop_the_plan(plane: Plane) -> None:
    job = with_planes(small_gable(), *[plane] * 110)
    done = within(200_000, lambda: plan(job))
    (stop,) = [f for f in done.stops if f.key == "roof.too_many_corners"]
    assert "corners in all" in stop.what
    assert "roof.area" in done.lacks
    assert within(3_000_000, lambda: plan(with_planes(small_gable(), *[plane] * 50))).planes
