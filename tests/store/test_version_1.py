"""Files of version 1 are read, and written as version 2; newer ones are refused."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from coilwright.job.job import Job
from coilwright.job.machine import Machine
from coilwright.job.stock import Stock
from coilwright.store import StoreError
from coilwright.store.files import read_text
from coilwright.store.reader import read_model, to_text
from coilwright.store.shipped import demo_stock, machines
from coilwright.units import Kind, read
from coilwright.values.standing import Standing

OLD = Path(__file__).parent / "version_1"
JOBS = {name.removesuffix(".job.json"): name for name in (p.name for p in OLD.glob("*.job.json"))}
MACHINES = {p.name.removesuffix(".machine.json"): p.name for p in OLD.glob("*.machine.json")}
BRITISH = ("colour", "aluminium", "centre", "galvanised")


def without_about(data: Any) -> Any:
    """The data without what was typed freely, which is kept as it was typed, and without what
    nobody could say then: how a length is known."""
    if isinstance(data, dict):
        free = ("about", "name", "color", "remark", "length_by")
        return {k: without_about(v) for k, v in data.items() if k not in free}
    return [without_about(one) for one in data] if isinstance(data, list) else data


def same(old: str, new: str) -> None:
    """What was read from version 1 is what stands in version 2, but for words typed freely."""
    assert without_about(json.loads(old)) == without_about(json.loads(new))


NEW_NAMES = {
    "girth": "flat_width", "smallest_inside": "smallest_coil_id",
    "largest_inside": "largest_coil_id", "empty_hitch_load": "empty_tongue_weight",
    "hitch_load": "tongue_weight", "trailer_rating": "trailer_gvwr", "tow_rating": "tow_gvwr",
    "combination_rating": "gcwr",
}
"""What a field of version 1 is called today."""


def test_there_is_a_file_of_each_kind() -> None:
    assert len(JOBS) == 3
    assert len(MACHINES) == 4
    assert (OLD / "shop.stock.json").is_file()
    assert all(json.loads((OLD / n).read_text("utf-8"))["version"] == 1 for n in JOBS.values())


def leaves(data: Any, place: str = "") -> dict[str, Any]:
    """Every value by its place, both spelled as version 2 spells."""
    if isinstance(data, dict | list):
        parts = data.items() if isinstance(data, dict) else enumerate(data)
        return {k: v for key, one in parts for k, v in leaves(one, f"{place}.{key}").items()}
    for old, new in (("colour", "color"), ("centre", "center"), ("aluminium", "aluminum"),
                     ("galvanised", "galvanized"), ("grey", "gray")):
        place = place.replace(old, new)
        data = data.replace(old, new) if isinstance(data, str) else data
    for old, new in NEW_NAMES.items():
        place = place.replace(old, new)
    return {place: data}


def test_every_field_that_has_a_new_name_is_read_by_its_old_one() -> None:
    haul = {"trailer_rating": "12000 lb", "hitch_load": "1450 lb", "hitch_load_rating": "1500 lb",
            "empty_hitch_load": "900 lb", "tow_rating": "9000 lb", "combination_rating": "20000 lb"}
    machine = {"decoiler_smallest_inside": "16 in", "decoiler_largest_inside": "20 in",
               "smallest_inside": "17 in", "largest_inside": "21 in"}
    old = json.loads(read_text(OLD / JOBS["heron-lane-barn"]))
    old["haul"].update(haul)
    old["machine"].update(machine)
    old["trim"] = {"pieces": [{"name": "Drip", "girth": "7 in"}]}
    old["standing"] = {"haul.hitch_load": "guess"}
    old["typed"] = {"trim.pieces.0.girth": "seven"}
    job = read_model(json.dumps(old), Job, "old")
    assert (job.haul.trailer_gvwr, job.haul.tow_gvwr, job.haul.gcwr) == (12_000, 9000, 20_000)
    assert (job.haul.tongue_weight, job.haul.tongue_weight_rating) == (1450, 1500)
    assert job.haul.empty_tongue_weight == 900
    assert (job.machine.smallest_coil_id, job.machine.largest_coil_id) == (17, 21)
    assert job.machine.decoiler_smallest_coil_id == 16
    assert job.machine.decoiler_largest_coil_id == 20
    assert job.trim.pieces[0].flat_width == 7
    assert job.standing["haul.tongue_weight"] is Standing.GUESS
    assert job.typed == {"trim.pieces.0.flat_width": "seven"}


@pytest.mark.parametrize("name", JOBS)
def test_a_job_of_version_1_keeps_every_value(name: str) -> None:
    old = read_text(OLD / JOBS[name])
    job = read_model(old, Job, name)
    assert job.version == 2
    text = to_text(job)
    assert not any(f'"{word}' in text for word in BRITISH)
    assert read_model(text, Job, name) == job
    was, now = leaves(json.loads(old)), leaves(json.loads(text))
    assert was.pop(".version") == 1
    assert now.pop(".version") == 2
    assert set(now) == set(was)
    for place, value in was.items():
        # A length may be written in feet and inches where it stood in inches.
        assert now[place] == value or read(now[place], Kind.LENGTH) == read(value, Kind.LENGTH)


@pytest.mark.parametrize("name", MACHINES)
def test_a_machine_of_version_1_is_the_machine_that_ships_today(name: str) -> None:
    machine = read_model(read_text(OLD / MACHINES[name]), Machine, name)
    same(to_text(machine), to_text(machines()[name]))


def test_a_stock_of_version_1_is_the_stock_that_ships_today() -> None:
    stock = read_model(read_text(OLD / "shop.stock.json"), Stock, "stock")
    same(to_text(stock), to_text(demo_stock()))


def test_marks_typed_texts_and_picks_are_carried_over() -> None:
    old = {
        "format": "coilwright-job", "version": 1,
        "metal": {"metal": "aluminium", "colour": "slate grey", "colour_confirmed": "yes",
                  "touching": "galvanised or coated steel"},
        "panel": {"start": "centred on a pan", "report_metal": "aluminium"},
        "haul": {"site": {"by": "forklift", "fork_centre": "24 in", "coil_centre": "30 in"}},
        "machine": {"forms": {"aluminium": {"thinnest": "0.027 in", "thickest": "0.04 in"}}},
        "on_hand": [{"tag": "A", "metal": "aluminium", "thickness": "0.032 in", "width": "20 in",
                     "length": "100 ft", "colour": "grey"}],
        "arrived": [{"tag": "B", "colour": "grey", "faults": ["colour differs from the sample"]}],
        "standing": {"metal.colour": "guess", "haul.site_fork_centre": "guess"},
        "typed": {"metal.custom_colour": "aluminium?"},
    }
    job = read_model(json.dumps(old), Job, "old")
    data = json.loads(to_text(job))
    assert data["version"] == 2
    assert data["metal"] == {
        "metal": "aluminum", "color": "slate grey", "color_confirmed": "yes",
        "touching": "galvanized or coated steel",
    }
    assert data["panel"] == {"start": "centered on a pan", "report_metal": "aluminum"}
    assert data["haul"]["site"]["fork_center"] == "24 in"
    assert list(data["machine"]["forms"]) == ["aluminum"]
    assert data["on_hand"][0]["metal"] == "aluminum"
    assert data["on_hand"][0]["color"] == "grey"
    assert data["arrived"][0]["faults"] == ["color differs from the sample"]
    assert data["standing"] == {"metal.color": "guess", "haul.site_fork_center": "guess"}
    assert data["typed"] == {"metal.custom_color": "aluminium?"}


def test_a_newer_version_is_refused() -> None:
    with pytest.raises(StoreError, match="newer Coilwright"):
        read_model('{"format": "coilwright-job", "version": 3}', Job, "new")


def test_a_field_of_version_2_that_is_no_more_is_passed_over() -> None:
    data = json.loads(to_text(machines()["two-arbor-notching"]))
    data["notching_unit"] = True
    job = {"format": "coilwright-job", "version": 2, "machine": {"notching_unit": True}}
    made = read_model(json.dumps(data), Machine, "here")
    assert made == machines()["two-arbor-notching"]
    assert read_model(json.dumps(job), Job, "here") == Job()
