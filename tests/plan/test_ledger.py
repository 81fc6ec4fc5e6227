"""The ledger: figures from figures, and what a missing term waits for passed on."""

from __future__ import annotations

import ast
import dataclasses
from pathlib import Path

import pytest

import coilwright
from coilwright.calc.roof import shapes
from coilwright.job.job import Job
from coilwright.plan.ledger import Lack, Lacking, Ledger, known, missing, require
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.source import ANSWER
from coilwright.values.standing import Standing
from tests.cases import set_answers
from tests.house.source import nodes


def length(key: str, value: float, standing: Standing = Standing.SURE) -> Figure:
    return Figure(key, key, value, Kind.LENGTH, ANSWER, standing)


ONE, TWO = length("one", 1.0), length("two", 2.0)
NO_TAIL = Lack("tail", "Tail", ("machine.tail",))
NO_ROOF = Lack("roof", "Roof", ("roof.length", "machine.tail"), "the roof cannot be drawn")


def test_figures_give_a_figure_with_its_terms() -> None:
    ledger = Ledger(Job())
    made = ledger.put("sum", "Sum", shapes.summed_length, ONE, TWO)
    assert made.value == 3.0
    assert made.terms == (ONE, TWO)
    assert ledger.figures["sum"] is made
    assert ledger.lacks == {}


def test_a_missing_term_passes_on_what_it_waits_for() -> None:
    ledger = Ledger(Job())
    made = ledger.put("sum", "Sum", shapes.summed_length, ONE, NO_TAIL, NO_ROOF)
    wanted = Lack("sum", "Sum", ("roof.length", "machine.tail"), "the roof cannot be drawn")
    assert made == wanted
    assert ledger.lacks == {"sum": wanted}
    assert ledger.figures == {}
    again = ledger.put("more", "More", shapes.summed_length, TWO, made)
    assert missing([again])[0].needs == wanted.needs


def test_nothing_is_summed_without_a_term_that_says_nothing_of_itself() -> None:
    ledger = Ledger(Job())
    made = ledger.put("sum", "Sum", shapes.summed_length, ONE, ledger.got("nowhere"))
    assert known(made) is None
    assert "sum" in ledger.lacks


def test_require_gives_all_or_says_what_all_wait_for() -> None:
    assert require(ONE, TWO) == (ONE, TWO)
    with pytest.raises(Lacking) as caught:
        require(NO_TAIL, ONE, NO_ROOF)
    assert caught.value.lacks == (NO_TAIL, NO_ROOF)
    assert caught.value.needs == ("machine.tail", "roof.length")
    assert caught.value.because == "the roof cannot be drawn"


def test_totals_lack_what_the_terms_lack() -> None:
    ledger = Ledger(Job())
    ledger.lack_all([("count", "Count"), ("mass", "Mass")], Lacking((NO_TAIL,)))
    assert ledger.lacks == {
        "count": Lack("count", "Count", ("machine.tail",)),
        "mass": Lack("mass", "Mass", ("machine.tail",)),
    }


def test_an_answer_is_given_or_waits_for_itself() -> None:
    ledger = Ledger(set_answers(Job(), {"machine.tail": 48.0}))
    assert ledger.given("machine.tail") is ledger.figures["machine.tail"]
    assert ledger.given("machine.thread_up") is None
    assert missing([ledger.answer("machine.thread_up")])[0].needs == ("machine.thread_up",)


def test_an_answer_that_is_no_number_is_refused() -> None:
    with pytest.raises(TypeError, match=r"metal\.metal is not answered by a number"):
        Ledger(set_answers(Job(), {"metal.metal": "steel"})).answer("metal.metal")


def test_a_guess_that_only_decides_makes_a_guess() -> None:
    job = set_answers(Job(), {"panel.start": "left"})
    job = dataclasses.replace(job, standing={"panel.start": Standing.GUESS})
    made = Ledger(job).put("sum", "Sum", shapes.summed_length, ONE, picks=("panel.start",))
    assert made.standing is Standing.GUESS


def test_only_the_ledger_asks_which_of_the_two_a_term_is() -> None:
    source = Path(coilwright.__file__).parent
    asking = set[str]()
    for path in source.rglob("*.py"):
        for node in nodes(path):
            if (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
                    and node.func.id == "isinstance"
                    and {"Figure", "Lack"} & {n.id for n in ast.walk(node.args[1])
                                              if isinstance(n, ast.Name)}):
                asking.add(path.relative_to(source).as_posix())
    assert asking == {"plan/ledger.py"}
