"""Models to JSON and back: what is read is written the same, what is refused is said well."""

from __future__ import annotations

import copy
import dataclasses
import json
import re
import typing
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.job import Job
from coilwright.job.machine import Machine
from coilwright.job.stock import Stock
from coilwright.store import StoreError, read_model, to_text
from coilwright.store.reader import FaultyData, from_data, json_schema, to_data
from coilwright.store.shipped import demo_jobs, folder, machines
from tests.draws import draws
from tests.generated import partial_jobs, whole_jobs
from tests.rules import for_each

SHIPPED: dict[str, type[object]] = {
    ".job.json": Job, ".machine.json": Machine, ".stock.json": Stock,
}
FILES = sorted(p for name in ("demo", "machines") for p in folder(name).glob("*.json"))


@given(st.one_of(whole_jobs(), partial_jobs().map(lambda pair: pair[1])))
@settings(max_examples=draws(60))
def test_a_job_comes_back_the_same_and_is_written_the_same(job: Job) -> None:
    text = to_text(job)
    back = read_model(text, Job, "it")
    assert back == job
    assert to_text(back) == text


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_only_what_is_set_is_written(path: Path) -> None:
    """The shipped files were written by hand and hold nothing that goes without saying."""
    model = next(model for suffix, model in SHIPPED.items() if path.name.endswith(suffix))
    by_hand = path.read_text("utf-8")
    written = to_text(read_model(by_hand, model, "it"))
    assert names(json.loads(written)) == names(json.loads(by_hand))


def names(data: object) -> object:
    """The names in some data without the values, which may be written in another unit."""
    if isinstance(data, dict):
        return {name: names(part) for name, part in data.items()}
    return [names(part) for part in data] if isinstance(data, list) else None


@pytest.mark.parametrize("key", sorted(machines()))
def test_machines_too(key: str) -> None:
    machine = machines()[key]
    assert from_data(to_data(machine), Machine) == machine


def models(kind: object, seen: set[object]) -> Iterator[type]:
    """The model classes in a type, each once."""
    for part in typing.get_args(kind):
        yield from models(part, seen)
    if isinstance(kind, type) and dataclasses.is_dataclass(kind) and kind not in seen:
        seen.add(kind)
        yield kind
        for hint in typing.get_type_hints(kind, include_extras=True).values():
            yield from models(hint, seen)


@for_each([
    m for seen in [set[object]()] for top in (Job, Machine, Stock) for m in models(top, seen)
], lambda model: model.__name__)
def test_every_model_refuses_a_field_it_does_not_know(model: type) -> None:
    assert json_schema(model)["additionalProperties"] is False
    with pytest.raises(FaultyData) as caught:
        from_data({"surprise": 1}, model)
    assert re.search(r"there is no such field|and \d more fault", str(caught.value))
    assert "__slots__" in vars(model), "a slip in a name would be kept as an attribute"


JUNK = st.one_of(
    st.none(), st.booleans(), st.integers(-5, 2000), st.floats(allow_nan=False),
    st.text(max_size=8), st.just([]), st.just({}), st.just([1]),
    st.sampled_from(["yes", "16 in", "hip", "2026-05-01"]),
)


@given(st.sampled_from(sorted(demo_jobs())), st.data())
@settings(max_examples=draws(300), deadline=None)
def test_a_spoilt_job_is_read_or_refused_in_one_sentence(key: str, pick: st.DataObject) -> None:
    data = copy.deepcopy(to_data(demo_jobs()[key]))
    place, path = data, list[str]()
    for _ in range(pick.draw(st.integers(1, 3))):
        if not isinstance(place, dict) or not place:
            break
        name = pick.draw(st.sampled_from(sorted(place)))
        path.append(name)
        if isinstance(place[name], dict) and pick.draw(st.booleans()):
            place = place[name]
            continue
        place[name] = pick.draw(JUNK)
        break
    try:
        read = from_data(data, Job)
    except FaultyData as error:
        fault = str(error)
    else:
        assert from_data(to_data(read), Job) == read
        return
    assert "\n" not in fault
    assert fault.startswith(".".join(path))


@pytest.mark.parametrize(("inside", "words"), [
    ('"roof": {"length": "42 ft", "length": "24 ft"}', "roof.length: it stands there twice"),
    ('"roof": {}, "roof": {}', "it: roof: it stands there twice"),
    ('"roof": {"planes": [{"eave": "1 ft"}, {"eave": "1 ft", "eave": "2 ft"}]}',
     "roof.planes.1.eave: it stands there twice"),
    ('"about": ' + "[" * 60 + "]" * 60, "nested more than 40 deep"),
])
def test_what_pydantic_cannot_see_is_found_in_the_text(inside: str, words: str) -> None:
    with pytest.raises(StoreError) as caught:
        read_model('{"format": "coilwright-job", "version": 1, ' + inside + "}", Job, "it")
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_fault_names_its_place() -> None:
    with pytest.raises(FaultyData, match=r"^roof\.planes\.0\.alike: it must be from 1 to 999"):
        from_data({"roof": {"planes": [{"alike": 0}]}}, Job)
    with pytest.raises(FaultyData, match=r"and 1 more fault"):
        from_data({"roof": {"length": "wide"}, "metal": {"metal": "tin"}}, Job)


@for_each([
    ({"color": 1}, "color: there is no such field"),
    ({"roof": []}, "roof: an object in { } is wanted"),
    ({"roof": {"planes": {}}}, r"planes: a list in \[ \] is wanted"),
    ({"metal": {"metal": "tin"}}, "one of: steel, aluminum, copper"),
    ({"panel": {"coverage": True}}, "coverage: a size with its unit is wanted"),
    ({"panel": {"coverage": 10**400}}, "coverage: a size with its unit is wanted"),
    ({"panel": {"coverage": "wide"}}, "coverage: “wide” has no number"),
    ({"job": {"needed_by": "soon"}}, "needed_by: a date is wanted"),
    ({"roof": {"planes": [{"alike": 2.5}]}}, "alike: a whole number is wanted"),
    ({"machine": {"invented": "maybe"}}, "true or false is wanted"),
])
def test_a_fault_says_what_would_be_right(data: object, words: str) -> None:
    with pytest.raises(FaultyData, match=words):
        from_data(data, Job)


def test_a_coil_without_a_length_is_refused_with_its_words() -> None:
    coil = {"tag": "A-1", "metal": "steel", "thickness": "0.0236 in", "width": "21 in"}
    with pytest.raises(FaultyData, match="“A-1” has no length"):
        from_data({"coils": [coil]}, Stock)


def test_a_key_that_is_none_is_named_once() -> None:
    with pytest.raises(FaultyData, match=r"^machine\.forms\.tin: it must be one of: steel"):
        from_data({"machine": {"forms": {"tin": {}}}}, Job)


def test_the_schema_knows_what_a_file_may_hold() -> None:
    schema = json_schema(Job)
    assert schema["properties"]["version"]["const"] == 2
    assert schema["additionalProperties"] is False
    assert {f.name for f in dataclasses.fields(Job)} | {"state"} == set(schema["properties"])
    assert "42 ft 6 in" in json.dumps(schema)


def test_a_word_with_an_apostrophe_is_offered_as_it_must_be_written() -> None:
    for where, offered in (
        ({"cargo_on": "a mule"}, "the machine's trailer or another vehicle"),
        ({"site": {"by": "crane"}}, "or somebody else's gear"),
    ):
        with pytest.raises(FaultyData, match="must be one of") as caught:
            from_data({"haul": where}, Job)
        assert offered in str(caught.value)
        assert '"' not in str(caught.value)


@for_each([
    {"haul": {"gear": -5}}, {"haul": {"gear": 1e308}}, {"haul": {"gear": -1e308}},
    {"haul": {"site": {"angle": 91}}}, {"roof": {"length": 1e12}},
    {"arrived": [{"tag": "R-1", "mass": -1}]}, {"arrived": [{"tag": "R-1", "mass": 1e308}]},
    {"on_hand": [{"tag": "A", "metal": "zinc", "width": 21, "length": 100, "thickness": 3}]},
    {"job": {"coldest": -1e9}},
])
def test_a_bare_number_that_could_not_be_saved_again_is_refused(where: dict[str, object]) -> None:
    with pytest.raises(FaultyData, match="cannot be right: write it with its unit, such as"):
        from_data(where, Job)


@given(st.sampled_from(sorted(demo_jobs())), st.data())
@settings(max_examples=draws(200))
def test_whatever_is_read_is_saved_and_read_again_the_same(key: str, data: st.DataObject) -> None:
    """Bare numbers, too: a file by hand must outlive the first save."""
    job = to_data(demo_jobs()[key])
    haul = {"gear": "1 lb", "hitch_to_axles": "20 ft", "site": {"angle": "60°"}}
    arrived = {"tag": "R-1", "mass": "1 lb", "thickness": ["0.02 in"], "width": "21 in"}
    job["haul"], job["arrived"] = haul, [arrived]
    part = data.draw(st.sampled_from([haul, haul["site"], arrived, job["roof"], job["coils"]]))
    assert isinstance(part, dict)
    part[data.draw(st.sampled_from(sorted(part)))] = data.draw(st.one_of(
        st.integers(-5, 2000), st.floats(allow_nan=False),
        st.sampled_from([0.0, -0.0, 1e-12, 1e8, 1e8 + 1, 90, 90.1]),
    ))
    try:
        read = from_data(job, Job)
    except FaultyData:
        return
    assert from_data(json.loads(json.dumps(to_data(read))), Job) == read


@pytest.mark.parametrize("text", [
    '"roof": {"a\\nb\\u0085c": 1}', '"a\\u001b\\nb": 1', '"standing": {"a\\nb\\u202e": "guess"}',
    '"roof": {"a\\nb": 1, "a\\nb": 2}',
])
def test_a_name_with_line_breaks_leaves_the_refusal_one_line(text: str) -> None:
    with pytest.raises(StoreError) as refused:
        read_model(f'{{"format": "coilwright-job", "version": 2, {text}}}', Job, "it")
    assert str(refused.value).isprintable()
