"""Every equation on a screen, worked out from its text with units, gives the figure beside it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator

import pytest
from hypothesis import given, settings

from coilwright.calc.roof import shapes
from coilwright.job.job import Job
from coilwright.plan import plan, working
from coilwright.store import shipped
from coilwright.units import Kind, System, registry
from coilwright.values.figure import Figure, compute
from coilwright.values.formula import Expr, formula
from coilwright.values.source import ARITHMETIC
from coilwright.values.standing import Standing
from tests.cases import small_gable
from tests.draws import draws
from tests.generated import whole_jobs
from tests.values.written import WrongEquation, check, check_printed, worked_out

MANY = 40
"""A sum of more terms is not worked out from its print: moving each of them takes too long."""


def all_below(figures: Iterable[Figure]) -> Iterator[Figure]:
    """These figures and all they rest on, those that are made only when asked for too."""
    seen: dict[int, Figure] = {}
    waiting = list(figures)
    while waiting:
        figure = waiting.pop()
        if id(figure) in seen:
            continue
        seen[id(figure)] = figure
        yield figure
        waiting.extend(figure.terms)


def computed(figures: Iterable[Figure]) -> list[Figure]:
    """Those with an equation."""
    return [f for f in all_below(figures) if f.formula is not None]


@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_demo_jobs(name: str) -> None:
    found = computed(plan(shipped.demo_jobs()[name]).figures.values())
    assert len(found) > 20
    for figure in found:
        check(figure)


@given(whole_jobs())
@settings(max_examples=draws(40))
def test_generated_jobs(job: Job) -> None:
    for figure in computed(plan(job).figures.values()):
        check(figure)


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_printed_workings_of_demo_jobs(name: str, system: System) -> None:
    for figure in computed(plan(shipped.demo_jobs()[name]).figures.values()):
        if len(figure.terms) <= MANY:
            check_printed(figure, system)


@given(whole_jobs())
@settings(max_examples=draws(20))
def test_printed_workings_of_generated_jobs(job: Job) -> None:
    for figure in computed(plan(job).figures.values()):
        if len(figure.terms) <= MANY:
            check_printed(figure, System.METRIC)


def test_lazily_made_terms_are_reached() -> None:
    keys = {f.key for f in computed(plan(small_gable()).figures.values())}
    assert {"plane.1.batch1", "plane.1.batch1.length", "coil.1.batch1"} <= keys


def test_a_figure_without_an_equation_is_put_in_not_computed() -> None:
    for figure in all_below(plan(small_gable()).figures.values()):
        if figure.formula is None:
            assert figure.equation == ""
            assert figure.terms == ()


def _figure(key: str, value: float, kind: Kind) -> Figure:
    return Figure(key, key, value, kind, ARITHMETIC, Standing.SURE)


@formula(Kind.LENGTH, ARITHMETIC, "a b")
def shown_wrongly(a: float, b: float) -> float:
    """Computes the sum of two lengths and shows their difference."""
    return a - b if isinstance(a, Expr) else a + b


@formula(Kind.AREA, ARITHMETIC, "a b")
def wrong_dimension(a: float, b: float) -> float:
    """Calls the sum of two lengths an area."""
    return a + b


@formula(Kind.LENGTH, ARITHMETIC, "a b")
def mixed_dimensions(a: float, b: float) -> float:
    """Adds a weight to a length."""
    return a + b


@formula(Kind.LENGTH, ARITHMETIC, "a r")
def rounded_with_a_unit(a: float, r: float) -> float:
    """Rounds up inches, which depends on the unit: never right."""
    from coilwright.values.formula import up

    return up(a) * r


class TestItCanFail:
    """What would go wrong is caught."""

    def test_a_wrong_value(self) -> None:
        wrong = compute("x", "x", shown_wrongly, _figure("a", 5, Kind.LENGTH),
                        _figure("b", 3, Kind.LENGTH))  # fmt: skip
        with pytest.raises(WrongEquation, match="a − b gives 2, shown is 8"):
            check(wrong)

    def test_a_wrong_dimension(self) -> None:
        wrong = compute("x", "x", wrong_dimension, _figure("a", 5, Kind.LENGTH),
                        _figure("b", 3, Kind.LENGTH))  # fmt: skip
        with pytest.raises(WrongEquation, match="Cannot convert"):
            check(wrong)

    def test_mixed_dimensions(self) -> None:
        wrong = compute("x", "x", mixed_dimensions, _figure("a", 5, Kind.LENGTH),
                        _figure("b", 3, Kind.MASS))  # fmt: skip
        with pytest.raises(WrongEquation, match="Cannot convert"):
            check(wrong)

    def test_rounding_what_has_a_unit(self) -> None:
        wrong = compute("x", "x", rounded_with_a_unit, _figure("a", 5, Kind.LENGTH),
                        _figure("r", 1, Kind.RATIO))  # fmt: skip
        with pytest.raises(WrongEquation, match="Cannot convert"):
            check(wrong)

    def test_a_value_off_by_a_millionth(self) -> None:
        right = compute("x", "x", shapes.rectangle_area, _figure("a", 5, Kind.LENGTH),
                        _figure("b", 3, Kind.LENGTH))  # fmt: skip
        check(right)
        wrong = Figure("x", "x", 15 * (1 + 1e-6), Kind.AREA, ARITHMETIC, Standing.SURE,
                       right.formula, right.given)  # fmt: skip
        with pytest.raises(WrongEquation, match="gives 15"):
            check(wrong)

    def test_a_printed_result_that_is_not_what_was_put_in_gives(self) -> None:
        length = compute("x", "x", shown_wrongly, _figure("a", 500, Kind.LENGTH),
                         _figure("b", 3, Kind.LENGTH))  # fmt: skip
        for system in System:
            with pytest.raises(WrongEquation, match="printed is 1"):
                check_printed(dataclasses.replace(length, value=1 / 0.0254
                                                  if system is System.METRIC else 1), system)

    def test_a_factor_left_to_the_reader(self, monkeypatch: pytest.MonkeyPatch) -> None:
        """Meters put in and millimeters shown: right, but not by pencil."""
        area = compute("x", "x", shapes.rectangle_area, _figure("a", 500, Kind.WIDTH),
                       _figure("b", 300, Kind.WIDTH))  # fmt: skip
        check_printed(area, System.METRIC)
        monkeypatch.setattr(working, "in_millimeters", lambda _: True)
        with pytest.raises(WrongEquation, match="is in millimeter"):
            check_printed(area, System.METRIC)

    def test_terms_that_are_not_the_ones_put_in(self) -> None:
        right = compute("x", "x", shapes.summed_length,
                        *(_figure(f"l{i}", i, Kind.LENGTH) for i in range(1, 11)))  # fmt: skip
        assert right.equation == "Σ(L)"
        check(right)
        wrong = Figure("x", "x", right.value, Kind.LENGTH, ARITHMETIC, Standing.SURE,
                       right.formula, right.terms[:-1])  # fmt: skip
        with pytest.raises(WrongEquation, match="gives 45"):
            check(wrong)

    def test_a_whole_plan_with_one_figure_tampered_with(self) -> None:
        from dataclasses import replace

        good = plan(small_gable()).figures["coil.1.mass"]
        check(good)
        with pytest.raises(WrongEquation):
            check(replace(good, value=good.value + 0.1))


class TestTheReader:
    """The reader of equations, held to sums one can do in one's head."""

    @pytest.mark.parametrize(
        ("equation", "value"),
        [
            ("1 + 2·3", 7), ("(1 + 2)·3", 9), ("8 / 4 / 2", 1), ("8 / (4 / 2)", 4),
            ("8 − 4 − 2", 2), ("8 − (4 − 2)", 6), ("2·3²", 18), ("(2·3)²", 36), ("2³", 8),
            ("√(9 + 16)", 5), ("⌈7 / 2⌉·2", 8), ("⌊7 / 2⌋", 3), ("|3 − 5|", 2),
            ("1e-06·1000000", 1), ("⌈3 + 1e-10⌉", 3), ("⌊3 − 1e-10⌋", 3),
            ("10·sin(arcsin(3 / 5))", 6),
        ],
    )  # fmt: skip
    def test_values(self, equation: str, value: float) -> None:
        assert worked_out(equation, {}) == pytest.approx(value)

    def test_an_angle_has_a_unit(self) -> None:
        terms = {"h": registry().Quantity(30.0, "degree"), "x": registry().Quantity(30.0)}
        assert worked_out("2·sin(h)", terms) == pytest.approx(1)
        assert worked_out("arcsin(1 / 2)", {}).to("degree").magnitude == pytest.approx(30)
        for wrong in ("sin(x)", "sin(1)", "arcsin(h)", "⌈h⌉", "arcsin(3 / 2)"):
            with pytest.raises(WrongEquation):
                worked_out(wrong, terms)

    @pytest.mark.parametrize("equation", ["", "1 +", "(1", "a", "1 2", "2 ^ 3", "1)", "§"])
    def test_nonsense_is_refused(self, equation: str) -> None:
        with pytest.raises(WrongEquation):
            worked_out(equation, {})
