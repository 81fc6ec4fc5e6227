"""Choices over the kinds of a thing name every kind: a new one is refused, never taken for another.

The type checker proves a `match` total where it ends in `assert_never`; here each one does, and
each is asked for every kind.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterable, Iterator
from enum import StrEnum
from pathlib import Path
from typing import Any

import pytest

import coilwright
from coilwright.calc.coating import COATINGS, CoatingName
from coilwright.calc.gauges import GAUGES, GaugeScale, gauge_meanings
from coilwright.calc.metal import METALS, MetalName
from coilwright.calc.roof.edges import SHARED, Edge, EdgeKind
from coilwright.calc.roof.first_panel import start_for
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.shared_edges import half_of
from coilwright.job.answers import ANSWERS
from coilwright.job.coils import CoilOn
from coilwright.job.haul import LiftBy
from coilwright.job.metal import Finish, Touching
from coilwright.job.roof import Building, Openings, OpeningWhat, Shape
from coilwright.job.rows.trim import FLASHINGS, NAMES
from coilwright.plan.metal import unlike_at
from coilwright.plan.roof.around import around_key
from coilwright.plan.roof.planes import NEEDS
from coilwright.wizard.lists.trim import GoesOn
from tests.house.source import nodes
from tests.rules import for_each

SOURCE = Path(coilwright.__file__).parent


def _matches(files: Iterable[Path]) -> Iterator[tuple[str, ast.Match]]:
    for file in files:
        for node in nodes(file):
            if isinstance(node, ast.Match):
                yield f"{file.relative_to(SOURCE)}:{node.lineno}", node


def _over_kinds(node: ast.Match) -> bool:
    return any(isinstance(part, ast.MatchValue) and isinstance(part.value, ast.Attribute)
               for case in node.cases for part in ast.walk(case.pattern))


def test_every_match_over_kinds_refuses_a_new_one() -> None:
    found = [(where, node) for where, node in _matches(sorted(SOURCE.rglob("*.py")))
             if _over_kinds(node)]
    assert len(found) >= 20
    for where, node in found:
        last = node.cases[-1]
        assert isinstance(last.pattern, ast.MatchAs), where
        assert last.pattern.pattern is None, where
        assert ast.unparse(last.body[0]).startswith("assert_never("), where


TOTAL: tuple[tuple[type[StrEnum], Callable[[Any], Any]], ...] = (
    (MetalName, METALS.__getitem__),
    (CoatingName, COATINGS.__getitem__),
    (GaugeScale, lambda scale: gauge_meanings(24, scale)),
    (Touching, lambda touching: unlike_at(METALS[MetalName.STEEL].contact, touching)),
    (EdgeKind, NAMES.__getitem__),
    (EdgeKind, lambda kind: kind.is_shared),
    (EdgeKind, lambda kind: GoesOn(kind.value)),
    (Shape, NEEDS.__getitem__),
    (Building, lambda shape: shape.faces),
    (OpeningWhat, FLASHINGS.__getitem__),
    (OpeningWhat, around_key),
    (OpeningWhat, lambda what: GoesOn(what.noun)),
    (CoilOn, lambda on: on.is_rack),
    (Finish, lambda finish: finish.is_paint),
    (Openings, lambda openings: openings.deducts),
    (LiftBy, lambda by: by.has_plates),
    (PanelStart, lambda start: start_for(
        start, ((0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)), (), 16.0)),
)


@for_each(TOTAL)
def test_every_kind_has_its_own_answer(kinds: type[StrEnum], ask: Callable[[Any], Any]) -> None:
    for kind in kinds:
        ask(kind)


@pytest.mark.parametrize("kind", EdgeKind)
def test_only_shared_edges_have_halves(kind: EdgeKind) -> None:
    edge = Edge((0.0, 0.0), (30.0, 40.0), kind, 50.0, 1)
    if kind in SHARED:
        assert half_of(edge, 1, 0).length == 50.0
    else:
        with pytest.raises(ValueError, match=kind.value):
            half_of(edge, 1, 0)


def test_gauge_scales_are_told_apart() -> None:
    """No two scales but the empty one agree on every number: none stands in for another."""
    said = {scale: tuple(gauge_meanings(number, scale) for number in GAUGES)
            for scale in GaugeScale}
    assert len(set(said.values())) == len(GaugeScale)


@pytest.mark.parametrize("key", ["metal.metal", "metal.coating", "metal.finish", "roof.building"])
def test_every_kind_can_be_picked(key: str) -> None:
    choices = ANSWERS[key].choices
    assert set(choices) == set(type(choices[0]))
