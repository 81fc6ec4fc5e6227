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

OLD = Path(__file__).parent / "version_1"
JOBS = {name.removesuffix(".job.json"): name for name in (p.name for p in OLD.glob("*.job.json"))}
MACHINES = {p.name.removesuffix(".machine.json"): p.name for p in OLD.glob("*.machine.json")}
BRITISH = ("colour", "aluminium", "centre", "galvanised")


def without_about(data: Any) -> Any:
    """The data without what was typed freely, which is kept as it was typed."""
    if isinstance(data, dict):
        free = ("about", "name", "color", "remark")
        return {k: without_about(v) for k, v in data.items() if k not in free}
    return [without_about(one) for one in data] if isinstance(data, list) else data


def same(old: str, new: str) -> None:
    """What was read from version 1 is what stands in version 2, but for words typed freely."""
    assert without_about(json.loads(old)) == without_about(json.loads(new))


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
    return {place: data}


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
