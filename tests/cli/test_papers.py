"""The head of an order, and what somebody takes on, on the command line."""

from __future__ import annotations

import dataclasses
import datetime

import pytest

from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.order import Order
from coilwright.plan.questions import reply
from coilwright.sheets.sending import send
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs
from coilwright.store.shop import save_shop
from tests.cases import HEAD
from tests.cli.commands import Command
from tests.store.test_shop import shop

BARN = "heron-lane-barn"


def saved(run: Command, job: Job | None = None) -> str:
    own = give(job or demo_jobs()[BARN], "job.name", "My barn")
    if job is None:
        own = dataclasses.replace(own, order=Order())
    return str(Store(run.home).create(own))


def test_lines_of_the_head_are_set_and_stand_on_the_order(run: Command) -> None:
    path = saved(run)
    save_shop(run.home, shop())
    shown = run("order", path, "--set", "number=1007", "--set", "date=2/3/2027", "--set",
                "Supplier=Birch (invented)", "--set", "bill-to=PO Box 9", "--from-shop")
    assert shown.code == 0, shown.err
    assert "number: 1007" in shown.out
    order = Store(run.home).load(Store(run.home).find("my-barn")).order
    assert (order.number, order.date) == ("1007", datetime.date(2027, 2, 3))
    assert (order.buyer, order.bill_to) == ("Gable & Seam (invented)", "PO Box 9")
    sheet = run("sheet", "order", path, "--as", "text").out
    for said in ("1007", "Birch (invented)", "PO Box 9", "A. Field", "7 to 3"):
        assert said in sheet
    assert run("order", path).out == shown.out
    # What was sent goes on to be called as it was: taking its number away is not silent.
    store = Store(run.home)
    found = store.find("my-barn")
    ready = dataclasses.replace(store.load(found), order=dataclasses.replace(
        HEAD, number="1007", supplier="Birch (invented)"))
    store.save(found, send(ready, datetime.date(2027, 2, 3)))
    told = run("order", path, "--set", "number=").err
    assert "The order was sent as 1007, revision A" in told
    assert "The next revision needs a number before it goes out." in told
    assert "sent as" not in run("order", path, "--set", "number=1007").err


@pytest.mark.parametrize(("text", "words"), [
    ("colour=red", "sets no line of the order"),
    ("number", "write NAME=TEXT"),
    ("date=soon", "is not a date"),
    ("terms=" + "x" * 201, "too many"),
])
def test_a_line_that_is_none_changes_nothing(run: Command, text: str, words: str) -> None:
    path = saved(run)
    before = Store(run.home).load(Store(run.home).find("my-barn"))
    assert words in run("order", path, "--set", "number=5", "--set", text).refused()
    assert Store(run.home).load(Store(run.home).find("my-barn")) == before


def test_a_demo_job_is_not_changed(run: Command) -> None:
    assert run("order", BARN).code == 0
    assert "A demo job" in run("order", BARN, "--set", "number=5").refused()
    assert "A demo job" in run("settle", BARN, "--waive", "supplier.lead_time", "--reason",
                               "x").refused()


def test_a_question_is_waived_with_a_reason_and_taken_back(run: Command) -> None:
    path = saved(run, give(demo_jobs()[BARN], "coils.lead_time", None))
    assert "question supplier.lead_time: " in run("settle", path).out
    assert "Give --reason" in run("settle", path, "--waive", "supplier.lead_time").refused()
    assert "No question has the key" in run(
        "settle", path, "--waive", "nobody.nothing", "--reason", "x").refused()
    told, _ = reply(give(demo_jobs()[BARN], "haul.rack_coils", 1),
                    "machine_maker.rack_on_the_road", "Not on the road")
    assert "No waiver lifts it" in run(
        "settle", saved(run, told), "--waive", "questions.against.machine_maker.rack_on_the_road",
        "--reason", "we go slowly").refused()
    shown = run("settle", path, "--waive", "supplier.lead_time", "--reason", "in stock next door")
    assert shown.code == 0
    assert "Waived: in stock next door" in shown.out
    assert run("check", path).code == 0
    assert run("settle", path, "--withdraw", "supplier.lead_time").code == 0
    assert run("check", path).code == 1
    assert "Nothing was taken on" in run(
        "settle", path, "--withdraw", "supplier.lead_time").refused()


def test_a_finding_is_taken_on_by_name_and_with_a_reason(run: Command) -> None:
    job = demo_jobs()[BARN]
    job = dataclasses.replace(job, haul=dataclasses.replace(
        job.haul, site=type(job.haul.site)()))
    path = saved(run, give(job, "coils.minimum_order", 90_000.0))
    keys = [line.split()[1].rstrip(":") for line in run("settle", path).out.splitlines()
            if line.startswith("accept ")]
    assert keys
    assert "Who takes it on" in run("settle", path, "--accept", keys[0]).refused()
    assert "there are: " in run("settle", path, "--accept", "nothing", "--by", "A. Field",
                                "--reason", "x").refused()
    shown = run("settle", path, "--accept", keys[0], "--by", "A. Field", "--reason", "as agreed")
    assert shown.code == 0
    assert f"accepted {keys[0]}: " in shown.out
    assert "by A. Field: as agreed" in shown.out
