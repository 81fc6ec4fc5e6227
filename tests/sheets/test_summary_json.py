"""The summary's JSON: valid, of the promised shape, and it adds up."""

from __future__ import annotations

import copy
import json
import math
from typing import Any

import pytest
from hypothesis import given, settings

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.sheets import render
from coilwright.sheets.data.schema import SCHEMA
from coilwright.sheets.data.summary import summary_data, summary_json
from coilwright.store.practice import shipped_practices
from tests.cases import guess, small_gable
from tests.draws import draws
from tests.generated import partial_jobs, whole_jobs
from tests.sheets.pages import faults

PROMISED = (
    "roof.area", "panels.count", "panels.length", "strip.width", "strip.mass_per_length",
    "coil.length_ordered", "coil.mass_ordered", "coil.count",
)  # fmt: skip


def strictly(text: str) -> Any:
    """JSON read without the extras Python allows: no NaN, no infinity, no key twice."""

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        assert len({key for key, _ in pairs}) == len(pairs)
        return dict(pairs)

    def refuse(word: str) -> None:
        raise AssertionError(word)

    return json.loads(text, parse_constant=refuse, object_pairs_hook=once)


def check(job: Job) -> dict[str, Any]:
    found = plan(job)
    data = strictly(summary_json(found))
    assert faults(data, SCHEMA, SCHEMA) == []
    figures = data["figures"]
    for key, figure in figures.items():
        for symbol, term in figure["terms"].items():
            assert term in figures, f"{key}: {symbol} is {term}, which is not there"
        assert figure["equation"] or not figure["terms"], key
    assert data["ready"] == found.ready == (not data["why_not"])
    for lack in data["missing"].values():
        assert lack["needs"] or lack["because"]
    ordered = figures.get("coil.mass_ordered")
    if ordered and data["budget"]:
        parts = math.fsum(line["mass"]["value"] for line in data["budget"])
        assert parts == pytest.approx(ordered["value"], rel=1e-9)
        coils = math.fsum(coil["mass"]["value"] for coil in data["coils"])
        assert coils == pytest.approx(ordered["value"], rel=1e-9)
        panels = sum(g["count"] for plane in data["planes"] for g in plane["panels"])
        cuts = sum(cut["count"] for coil in data["coils"] for cut in coil["cuts"])
        assert panels == cuts == figures["panels.count"]["value"]
    return dict(data)


@settings(max_examples=draws(25))
@given(whole_jobs())
def test_whole_jobs(job: Job) -> None:
    check(job)


@settings(max_examples=draws(25))
@given(partial_jobs())
def test_partial_jobs(pair: tuple[Job, Job]) -> None:
    check(pair[1])


@pytest.mark.parametrize("name", ["quotes-on-one-footing", "not-as-ordered", "tongue-weight"])
def test_quotes_what_came_and_loads_are_of_the_promised_shape(name: str) -> None:
    data = strictly(summary_json(plan(shipped_practices()[name].key)))
    assert faults(data, SCHEMA, SCHEMA) == []
    # What the order sets is a number as the order says it, in what a quote would ship too.
    for quote in data["quotes"]:
        assert quote["ships"]["mass"]["as_ordered"] == round(quote["ships"]["mass"]["as_ordered"])


def test_the_hand_worked_gable() -> None:
    """The gable worked by hand: 1,335 ft 7 in, 2,250.3 lb, 64 panels."""
    data = check(small_gable())
    assert data["ready"] is True
    assert data["state"] == "READY"
    figures = data["figures"]
    for key in PROMISED:
        assert {"value", "unit", "text", "standing", "equation", "source"} <= set(figures[key])
    assert figures["coil.mass_ordered"]["value"] == pytest.approx(2250.3, abs=0.05)
    assert figures["coil.mass_ordered"]["unit"] == "lb"
    assert figures["coil.length_ordered"]["value"] == pytest.approx(16027, abs=0.5)
    assert figures["coil.length_ordered"]["unit"] == "in"
    assert figures["roof.area"]["value"] == 2 * 504 * 216
    assert figures["panels.count"]["value"] == 64
    assert data["planes"][0]["panels"] == [
        {"length": {"value": 217.0, "unit": "in", "text": "18 ft 1 in"}, "count": 64}
    ]
    assert data["coils"][0]["governing_limit"] == "diameter"
    assert [limit["key"] for limit in data["limits"] if limit["governs"]] == ["diameter"]


def test_an_empty_job_says_what_everything_needs() -> None:
    data = check(new_job())
    assert data["ready"] is False
    assert set(PROMISED) <= set(data["missing"])
    assert data["coils"] == []


def test_a_guess_is_a_guess_in_what_rests_on_it() -> None:
    data = check(guess(small_gable(), "panel.take_up"))
    assert data["figures"]["strip.width"]["standing"] == "guess"
    assert data["figures"]["roof.area"]["standing"] == "sure"
    assert [q["answer"] for q in data["questions"] if q["status"] == "guess"] == [
        "panel.take_up"
    ]
    assert data["ask_first"][0]["answer"] == "panel.take_up"
    assert data["why_not"][0]["kind"] == "guess"


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("figures", "strip.width", "value"), "21"),
        (("figures", "strip.width", "standing"), "certain"),
        (("coils", 0, "kind"), "old"),
        (("ready",), 1),
        (("version",), 2),
        (("planes", 0, "alike"), -1),
        (("planes", 0, "area"), None),
    ],
)
def test_the_schema_catches_what_does_not_fit(path: tuple[Any, ...], value: Any) -> None:
    data = copy.deepcopy(summary_data(plan(small_gable())))
    place = data
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = value
    assert faults(json.loads(json.dumps(data)), SCHEMA, SCHEMA)
    del place[path[-1]]
    assert faults(json.loads(json.dumps(data)), SCHEMA, SCHEMA)


def test_what_is_proven_of_the_cuts_is_told() -> None:
    done = plan(small_gable())
    assert done.proof is not None
    told = summary_data(done)["cut_plan"]
    assert told["proven"] is done.proof.proven is True
    assert told["gap"]["value"] == done.proof.gap.value == 0
    assert told["gap_mass"]["value"] == 0
    ordered = done.figures["coil.length_ordered"].value
    assert told["least"]["value"] == pytest.approx(ordered, rel=1e-12)
    assert "Proven: no other way to cut the panels" in render("summary", done, "md")
    assert summary_data(plan(new_job()))["cut_plan"] is None
