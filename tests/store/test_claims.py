"""Two jobs that claim the same coil on hand are told, without planning any."""

from __future__ import annotations

import dataclasses
import datetime
from pathlib import Path

import pytest

import coilwright.plan
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.store import Store
from coilwright.store.claims import claim_words, claimed_of, claims, claims_by_job
from coilwright.store.jobs import read_state
from coilwright.store.stock import save_stock
from coilwright.wizard.session import Session
from tests.plan.coils.stock import coil


def job(title: str, *coils: CoilOnHand) -> Job:
    return dataclasses.replace(new_job(title), on_hand=coils)


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path)


def test_jobs_that_claim_one_coil_are_found_and_nothing_is_planned(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    save_stock(store.folder, Stock(coils=(coil("A-1", 100), coil("B-2", 50))))
    barn = store.create(job("Barn", coil("A-1", 100), coil("B-2", 50)), "DRAFT")
    shed = store.create(job("Shed", coil("A-1", 100)), "DRAFT")
    store.create(job("Hall"), "DRAFT")

    def never(_job: Job) -> object:
        raise AssertionError("planned")

    monkeypatch.setattr(coilwright.plan, "plan", never)
    shared = store.shared_coils(store.jobs())
    assert {tag: {c.path for c in found} for tag, found in shared.items()} == {
        "A-1": {barn, shed}}
    by_job = claims_by_job(shared)
    assert claim_words(by_job, barn) == "coil A-1 is claimed by “Shed” too"
    assert claim_words(by_job, shed) == "coil A-1 is claimed by “Barn” too"
    assert claim_words(by_job, Path("hall")) == ""
    # The list of coils says it too, of one job or of several; the one in hand is passed over.
    stock = Stock(coils=(coil("A-1", 100), coil("B-2", 50), coil("C-3", 20)))
    assert claimed_of(stock, store.claimants(None)) == {
        "A-1": "“Barn” and “Shed”", "B-2": "“Barn”"}
    assert claimed_of(stock, store.claimants(barn)) == {"A-1": "“Shed”"}
    ran = job("Ran", coil("A-1", 100), coil("C-3", 20))
    step = LifeStep(state=OrderState.RUN, date=datetime.date(2027, 3, 4))
    ran = dataclasses.replace(ran, life=Life(steps=(step,)))
    assert {*claims(ran)} == {"A-1", "C-3"}, "cut, and in the list as it was"
    assert claims(dataclasses.replace(ran, put_back_on=step.date)) == {}, "what it left is free"
    cut = Stock(coils=(coil("A-1", 40),))
    assert claimed_of(cut, store.claimants(None)) == {}, "what is left after a run is nobody's"


def test_a_coil_that_many_claim_names_three_of_them(store: Store) -> None:
    save_stock(store.folder, Stock(coils=(coil("A-1", 100),)))
    first = store.create(job("Job 0", coil("A-1", 100)), "DRAFT")
    for number in range(1, 7):
        store.create(job(f"Job {number}", coil("A-1", 100)), "DRAFT")
    words = claim_words(claims_by_job(store.shared_coils(store.jobs())), first)
    assert words.count("“Job ") == 3
    assert words.endswith(" and 3 more too")


def test_a_coil_that_is_another_now_or_gone_is_claimed_by_nobody(store: Store) -> None:
    """After a run what is left bears the old tag: the job that ran claims it no longer."""
    store.create(job("Barn", coil("A-1", 100)), "DRAFT")
    store.create(job("Shed", coil("A-1", 100)), "DRAFT")
    assert store.shared_coils(store.jobs()) == {}
    save_stock(store.folder, Stock(coils=(coil("A-1", 40),)))
    assert store.shared_coils(store.jobs()) == {}
    store.create(job("Hall", coil("A-1", 40)), "DRAFT")
    assert store.shared_coils(store.jobs()) == {}
    save_stock(store.folder, Stock(coils=(coil("A-1", 100),)))
    assert list(store.shared_coils(store.jobs())) == ["A-1"]


def test_a_damaged_stock_stays_where_it_is(store: Store) -> None:
    (store.folder / "stock.json").write_text("{ half", "utf-8")
    store.create(job("Barn", coil("A-1", 100)), "DRAFT")
    store.create(job("Shed", coil("A-1", 100)), "DRAFT")
    assert store.shared_coils(store.jobs()) == {}
    assert (store.folder / "stock.json").read_text("utf-8") == "{ half"


def test_a_job_that_is_worked_on_is_told_of_others(store: Store) -> None:
    save_stock(store.folder, Stock(coils=(coil("A-1", 100),)))
    store.create(job("Shed", coil("A-1", 100)), "DRAFT")
    session = Session(store, new_job("Barn"))
    assert session.claimed_too == ""
    session.change(job("Barn", coil("A-1", 100)), "took it")
    assert session.claimed_too == "coil A-1 is claimed by “Shed” too"
    session.save()
    assert session.path is not None
    session.seal()
    assert session.claimed_too == "coil A-1 is claimed by “Shed” too"
    session.undo()
    assert session.claimed_too == ""


@pytest.mark.parametrize("claims", ['["A-1"]', '{"A-1": 3}', '"A-1"', "null"])
def test_a_state_line_with_other_claims_is_not_believed(store: Store, claims: str) -> None:
    path = store.create(job("Barn", coil("A-1", 100)), "DRAFT")
    text = path.read_text("utf-8")
    state = read_state(text)
    assert state is not None
    line = text.split("\n")[2]
    begin, end = line.index('"claims": ') + 10, line.index(', "checksum"')
    assert read_state(text.replace(line, line[:begin] + claims + line[end:])) is None
