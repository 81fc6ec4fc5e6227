"""Where the metal goes as a table on the summary sheet: length, weight and cost of each part."""

from __future__ import annotations

import math
import re

import pytest

from coilwright.plan import Plan, plan
from coilwright.sheets import render
from coilwright.store.shipped import demo_jobs
from coilwright.wizard.steps.summary.buying import to_buy
from tests.cases import guess, set_answers, small_gable
from tests.plan.coils.stock import coil, with_coils


def rows(done: Plan) -> list[list[str]]:
    text = re.sub(r"\\([^\w])", r"\1", render("summary", done, "md"))
    part = text[text.index("| part |"):]
    lines = part[:part.index("\n\n")].splitlines()
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def test_every_part_and_the_order_in_length_weight_and_money() -> None:
    done = plan(with_coils(set_answers(small_gable(), {"coils.price": 1.5}), coil("A", 310)))
    head, _, *parts, last = rows(done)
    assert head == ["part", "as strip", "weight", "cost"]
    by_name = {line.name: line for line in done.account if abs(line.mass.value) > 1e-6}
    assert {row[0] for row in parts} == set(by_name)
    assert "from coils on hand" in by_name
    for name, *cells in parts:
        line = by_name[name]
        assert line.money is not None
        assert cells == [line.length.text(), line.mass.text(), line.money.text()]
    keys = ("coil.length_ordered", "coil.mass_ordered", "coil.cost")
    assert last == ["ordered", *(done.figures[key].text() for key in keys)]
    assert math.fsum(line.length.value for line in by_name.values()) == pytest.approx(
        done.figures["coil.length_ordered"].value)
    assert math.fsum(line.money.value for line in by_name.values() if line.money) == (
        pytest.approx(done.figures["coil.cost"].value))


def test_no_cost_without_a_price_and_guesses_marked() -> None:
    head, _, *parts = rows(plan(guess(small_gable(), "coils.spare")))
    assert head == ["part", "as strip", "weight"]
    assert all(len(row) == 3 for row in parts)
    assert next(row for row in parts if row[0] == "spare")[1].startswith("~ ")


def test_the_cost_says_what_of_the_metal_bought_is_not_in_it() -> None:
    """By weight alone of coils: eight sheets of 48 in x 10 ft x 0.032 in aluminum, at
    0.098 lb/in³, are 8 x 18.06 lb."""
    sheets = plan(set_answers(demo_jobs()["quarry-house-hip"], {"coils.price": 2.5}))
    bare = plan(set_answers(small_gable(), {"coils.price": 1.5}))
    for done, said in ((sheets, "without 145 lb for trim"), (bare, "coils alone")):
        cost = done.figures["coil.cost"].text()
        (row,) = (words for name, _, words in to_buy(done) if name == "Cost")
        (on_paper,) = (one for one in render("summary", done, "text").splitlines()
                       if one.startswith("Cost of the coils"))
        for line in (row, on_paper):
            assert cost in line
            assert line.endswith(f", {said}")
