"""How far a saved job is stands in its file: lists read it and plan nothing, `check` plans."""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest
from hypothesis import given, settings

import coilwright.plan
import coilwright.store.reader
from coilwright import __version__
from coilwright.cli import main
from coilwright.job.edit import give, new_job
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.sheets.state import state_of
from coilwright.store import Store, to_text
from coilwright.store.jobs import JobState, read_state, with_state
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.wizard.session import Session
from tests.draws import draws
from tests.generated import partial_jobs
from tests.house.source import FILES, name, nodes
from tests.rules import for_each


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "data")


@pytest.fixture
def _nothing_is_planned(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(_job: Job) -> object:
        raise AssertionError("planned")

    monkeypatch.setattr(coilwright.plan, "plan", never)
    monkeypatch.setattr(coilwright.store.reader, "_adapter", never)


@pytest.mark.parametrize("key", sorted(demo_jobs()))
def test_a_saved_job_says_what_its_plan_says(store: Store, key: str) -> None:
    job = demo_jobs()[key]
    path = store.create(job)
    assert store.entry(path).state == state_of(plan(job))
    assert store.load(path) == job
    store.save(path, give(job, "metal.metal", None))
    assert store.entry(path).state == state_of(plan(store.load(path))) != state_of(plan(job))


def test_what_the_wizard_saves_says_so_too(store: Store) -> None:
    session = Session(store, new_job("Barn"))
    session.type_text("panel.coverage", "16 in")
    session.save()
    assert session.path is not None
    assert store.entry(session.path).state == state_of(session.plan)
    session.type_text("roof.length", "40 ft")
    session.save()
    assert store.entry(session.path).state == state_of(session.plan)


@pytest.mark.usefixtures("_nothing_is_planned")
def test_a_list_of_jobs_plans_nothing_and_makes_no_job(store: Store) -> None:
    path = store.jobs_folder / "barn.job.json"
    path.parent.mkdir(parents=True)
    state = JobState("Barn", "DRAFT, 3 to ask")
    path.write_text(with_state('{\n "format": "coilwright-job",\n "version": 1\n}\n', state))
    (entry,) = store.jobs()
    assert (entry.title, entry.state, entry.damaged) == ("Barn", "DRAFT, 3 to ask", False)


def test_a_file_without_its_state_is_planned(store: Store) -> None:
    job = demo_jobs()["heron-lane-barn"]
    path = store.create(job)
    path.write_text(to_text(job), "utf-8")
    assert store.entry(path).state == "READY"
    assert store.entry(path).title == job.title
    assert store.entry(path).units is System.US
    metric = store.create(give(job, "job.units", System.METRIC))
    assert store.entry(metric).units is System.METRIC, "whether its state names a day or not"


def test_a_file_changed_by_hand_is_planned(store: Store) -> None:
    path = store.create(demo_jobs()["heron-lane-barn"])
    assert store.entry(path).state == "READY"
    path.write_text(path.read_text("utf-8").replace('"engineered": "no"', '"engineered": "yes"'))
    job = store.load(path)
    assert str(job.job.engineered) == "yes"
    assert store.entry(path).state == state_of(plan(job)) != "READY"


def test_a_file_cut_short_is_damaged_whatever_it_says(store: Store) -> None:
    path = store.create(demo_jobs()["heron-lane-barn"])
    path.write_text(path.read_text("utf-8")[:-20], "utf-8")
    assert store.entry(path).damaged


def test_a_state_made_up_by_hand_makes_no_order_ready(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COILWRIGHT_HOME", str(tmp_path))
    path = tmp_path / "jobs" / "barn.job.json"
    path.parent.mkdir()
    path.write_text(with_state(to_text(new_job("Barn")), JobState("Barn", "READY")), "utf-8")
    assert main(["check", "barn"]) == 1
    assert "Barn: DRAFT" in capsys.readouterr().out
    assert main(["summary", "--json", "barn"]) == 0
    assert json.loads(capsys.readouterr().out)["state"].startswith("DRAFT")


@for_each([
    "", "1", '"READY"', "[]", "{}", '{"title": "Barn"}', "{half", "[" * 5000,
    '{"title": 1, "text": "READY", "program": "0.1.0", "checksum": "00000000"}',
    '{"title": "Barn", "text": "READY", "program": "0.1.0", "checksum": null}',
    '{"title": "Barn", "text": "READY", "program": "0.1.0", "checksum": "00000000", "x": 1}',
])
def test_a_state_that_is_none_is_not_believed(state: str) -> None:
    opening, form, rest = to_text(new_job("Barn")).split("\n", 2)
    assert read_state(f'{opening}\n{form}\n "state": {state},\n{rest}') is None


def test_another_version_is_named(store: Store) -> None:
    path = store.create(new_job("Barn"))
    path.write_text(with_state(to_text(new_job("Barn")), JobState("Barn", "READY", "0.0.9")))
    assert store.entry(path).state == "READY (by 0.0.9)"
    path.write_text(with_state(to_text(new_job("Barn")), JobState("Barn", "READY", __version__)))
    assert store.entry(path).state == "READY"


@given(partial_jobs())
@settings(max_examples=draws(30))
def test_the_state_is_no_part_of_the_job(pair: tuple[Job, Job]) -> None:
    for job in pair:
        text = to_text(job)
        marked = with_state(text, JobState("Łąka “5”\n\ud800", "DRAFT"))
        assert read_state(marked) == JobState("Łąka “5”\n\ud800", "DRAFT")
        assert coilwright.store.read_model(marked, Job, "it") == job
        assert marked.count("\n") == text.count("\n") + 1
        marked.encode("utf-8")


def test_every_store_of_the_program_says_how_far_a_job_is_as_its_screens_do() -> None:
    """By its answers alone an order would have changed where its paper has not."""
    bare = {name(path): node for path in FILES for node in nodes(path)
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
            and node.func.id == "Store" and len(node.args) + len(node.keywords) < 2}
    assert bare == {}
