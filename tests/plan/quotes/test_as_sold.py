"""What the awarded supplier sells holds the order: sizes, steps, heaviest, least and tolerance."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.quotes import Quote
from coilwright.plan import plan
from coilwright.plan.result import Plan
from coilwright.sheets import render
from coilwright.values.finding import Finding, Level
from tests.plan.quotes.five import all_in, barn, quote


def awarded(said: Quote, job: Job | None = None) -> Plan:
    """The barn, 1 coil of 2,250 lb, where its order goes by a quote and nothing else changed."""
    base = barn() if job is None else job
    received = (dataclasses.replace(said, awarded=True),)
    return plan(dataclasses.replace(base, quotes=dataclasses.replace(
        base.quotes, received=received)))


def not_as_sold(made: Plan) -> list[Finding]:
    """What is said of it."""
    return [one for one in made.findings if one.key == "quotes.not_as_sold"]


@pytest.mark.parametrize(("said", "words"), [
    ({"heaviest": 2000.0}, "its heaviest coil is 2,000 lb"),
    ({"increment": 500.0}, "it sells in steps of 500 lb"),
    ({"minimum": 3000.0}, "its least order is 3,000 lb"),
    ({"tolerance": 0.2}, "it may ship 20 % under, and the order counts on 10 %"),
])
def test_what_the_order_says_and_the_supplier_does_not_sell_holds_it(
    said: dict[str, Any], words: str
) -> None:
    made = awarded(all_in("Elk Fork (invented)", "2.62/lb", **said))
    (found,) = not_as_sold(made)
    assert (found.level, found.step) == (Level.STOP, "quotes")
    assert words in found.what
    assert found.accept
    assert not made.readiness.ready
    # What leaves the house says nothing of it.
    assert found.what not in render("order", made, "text")


@pytest.mark.parametrize("said", [
    {}, {"heaviest": 2250.4}, {"increment": 50.0}, {"minimum": 2250.0}, {"tolerance": 0.1},
])
def test_an_order_that_is_sold_as_it_stands_is_not_held(said: dict[str, Any]) -> None:
    made = awarded(all_in("Elk Fork (invented)", "2.62/lb", **said))
    assert not not_as_sold(made)
    assert made.readiness.ready


def test_a_minimum_that_its_answer_says_is_said_once() -> None:
    job = give(barn(), CoilsKey.MINIMUM_ORDER, 3000.0)
    made = awarded(quote("Elk Fork (invented)", price="2.62/lb", minimum=3000.0), job)
    assert not not_as_sold(made)
    assert [one.key for one in made.findings if one.level is Level.STOP] == ["coils.minimum"]


def test_a_quote_that_is_not_awarded_holds_nothing() -> None:
    assert not not_as_sold(plan(barn(all_in("Elk Fork (invented)", "2.62/lb", heaviest=900.0))))
