"""Keys of figures and answers are names: no second spelling of one stands in the code."""

from __future__ import annotations

import ast
from pathlib import Path

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.answers.quotes import QuotesKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.answers.trim import TrimKey
from coilwright.values.keys import Key
from tests.house.source import FILES, name, nodes

STEPS = (JobKey, RoofKey, MetalKey, PanelKey, MachineKey, TrimKey, CoilsKey, HaulKey,
         QuotesKey)


def constants(group: type) -> dict[str, str]:
    """The keys of a group by their names."""
    return {n: v for n, v in vars(group).items() if n.isupper()}


def test_every_answer_has_a_name_and_every_name_an_answer() -> None:
    named = [key for step in STEPS for key in constants(step).values()]
    assert sorted(named) == sorted(ANSWERS)


def test_a_name_says_its_key() -> None:
    for step in STEPS:
        for constant, key in constants(step).items():
            assert key.partition(".")[2].replace(".", "_").upper() == constant
    for constant, key in constants(Key).items():
        assert key.replace(".", "_").upper() == constant


def test_no_key_is_spelled_out_where_it_has_a_name() -> None:
    known = {*ANSWERS, *constants(Key).values()}

    def spelled(file: Path) -> list[str]:
        # What a finding is known by is its own; it may be called as the answer that it is about.
        own = {
            id(call.args[place])
            for call in nodes(file) if isinstance(call, ast.Call)
            for place, called in ((0, ("stop", "care", "note", "answer_key", "FigureKey")),
                                  (1, ("Finding",)))
            if getattr(call.func, "id", "") in called and len(call.args) > place
        }
        return [
            f"{name(file)}:{node.lineno} {node.value}"
            for node in nodes(file)
            if isinstance(node, ast.Constant) and node.value in known and id(node) not in own
        ]

    assert [one for file in FILES for one in spelled(file)] == []


def test_no_key_of_hauling_is_composed_where_a_typo_in_it_would_pass() -> None:
    """`lift_key`, `row_key` and their kin compose them of words that the type checker knows."""
    def composed(file: Path) -> list[str]:
        # What a finding is known by is its own, and a beginning of keys is none.
        own = {id(call.args[0]) for call in nodes(file)
               if isinstance(call, ast.Call) and call.args and (
                   getattr(call.func, "id", "") in ("stop", "care", "note", "acceptable")
                   or getattr(call.func, "attr", "") == "startswith")}
        return [f"{name(file)}:{node.lineno}"
                for node in nodes(file)
                if isinstance(node, ast.JoinedStr) and id(node) not in own
                and isinstance(first := node.values[0], ast.Constant)
                and str(first.value).startswith("haul.")]

    found = [one for file in FILES for one in composed(file)]
    assert [one for one in found if "values/keys.py" not in one] == []
    assert found
