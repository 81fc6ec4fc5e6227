"""A figure's working: the numbers put in give the result, and what it rests on is named."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.plan.working import DRAWN, all_lines, lines, plain_words, rests_on
from coilwright.store import shipped
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.formula import number_text
from tests.cases import guess, small_gable
from tests.draws import draws
from tests.generated import whole_jobs


def gable(*guesses: str) -> dict[str, Figure]:
    return dict(plan(guess(small_gable(), *guesses)).figures)


def worked(text: str) -> float:
    """The value of an equation with numbers in it, read as a person with a calculator would."""
    up = "up("
    for sign, python in (
        ("²", "**2"), ("³", "**3"), ("·", "*"), ("−", "-"), ("π", "pi"), ("√(", "root("),
        ("⌈", up), ("⌉", ")"), ("⌊", "down("), ("⌋", ")"),
    ):  # fmt: skip
        text = text.replace(sign, python)
    text = re.sub(r"\|([^|]*)\|", r"abs(\1)", text)
    known = {
        "pi": math.pi, "root": math.sqrt, "abs": abs, "min": lambda *v: min(v),
        "max": lambda *v: max(v),
        "up": lambda x: math.ceil(x - 1e-6 * max(1, abs(x))),
        "down": lambda x: math.floor(x + 1e-6 * max(1, abs(x))),
    }  # fmt: skip
    assert re.fullmatch(r"(?:pi|root|abs|min|max|up|down|[\d.()*/+,\- ])*", text), text
    return float(eval(text, {"__builtins__": {}}, known))


def put_in(figure: Figure) -> str:
    assert figure.formula is not None
    return figure.formula.written_with([t.value for t in figure.terms])


def hold(figure: Figure) -> None:
    """The numbers put in give the figure, as closely as their seven digits allow."""
    text = put_in(figure)
    if "…" in text:
        assert len(figure.terms) > 6
        return
    assert math.isclose(worked(text), figure.value, rel_tol=1e-9, abs_tol=_slack(figure)), text


def _slack(figure: Figure) -> float:
    """How far the figure moves when each number put in is off in its seventh digit."""
    assert figure.formula is not None
    values = [t.value for t in figure.terms]
    moved = 0.0
    for place, value in enumerate(values):
        ends = [
            figure.formula(*values[:place], value * (1 + off), *values[place + 1 :])
            for off in (-1e-6, 1e-6)
        ]
        moved += max(abs(end - figure.value) for end in ends)
    return moved


@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_numbers_put_in_give_the_figure(name: str) -> None:
    computed = [f for f in plan(shipped.demo_jobs()[name]).figures.values() if f.formula]
    assert len(computed) > 20
    for figure in computed:
        if figure.terms:
            hold(figure)


@given(whole_jobs())
@settings(max_examples=draws(20))
def test_numbers_put_in_give_the_figure_on_any_job(job: Job) -> None:
    for figure in plan(job).figures.values():
        if figure.formula and figure.terms:
            hold(figure)


def test_the_sketched_working() -> None:
    """Hand-worked: π·(32² − 20²) / (4·0.0236) = 20,766 in, or 1,730 ft 6 in."""
    figure = gable("coils.inside_diameter")["limit.diameter"]
    shown = lines(figure)
    assert shown[0].split("  ")[0] == "Longest coil: outside diameter"
    assert shown[0].endswith("~ 1,730 ft 6 in")
    assert "  = π·(OD² − ID²) / (4·t)" in shown
    assert "  = π·(32² − 20²) / (4·0.0236)" in shown
    assert any(line.startswith("  = 20766.") and line.endswith("1,730 ft 6 in") for line in shown)
    assert any(re.match(r" +OD +Rack: largest coil +32 in +sure, ", line) for line in shown)
    assert any(re.match(r" +ID +Inside diameter +20 in +guess, ", line) for line in shown)
    assert "  source: wound-strip geometry: turns × mean circumference" in shown
    assert shown[-1] == "  rests on guesses: Inside diameter"


def test_a_term_whose_unit_differs_is_shown_in_both() -> None:
    shown = lines(gable()["coil.1.mass"])
    assert any("1,335 ft 8 in = 16027.38 in" in line for line in shown)


def test_a_metric_working_is_metric_all_through() -> None:
    shown = lines(gable()["strip.width"], System.METRIC)
    assert shown[0].endswith("533.4 mm")
    assert any(line.strip() == "= 406.4 + 127" for line in shown)
    assert not any(re.search(r"\d in\b", line) for line in shown)


def test_a_long_sum_shows_its_ends_and_how_many() -> None:
    figure = gable()["account.total"]
    assert len(figure.terms) == 7
    shown = lines(figure)
    assert any("+ … +" in line for line in shown)
    assert "    and 2 more like these" in shown


def test_what_is_put_in_has_no_equation() -> None:
    shown = lines(gable()["panel.take_up"])
    assert shown == ["Take-up" + " " * (78 - 7 - 4) + "5 in", "  source: your answer"]


class TestRestsOn:
    """The guesses at the bottom."""

    def test_none_for_what_is_sure(self) -> None:
        for figure in gable().values():
            assert rests_on(figure) == ()
            assert not any("guess" in line for line in lines(figure))

    def test_answers_by_name(self) -> None:
        figures = gable("panel.take_up", "coils.spare")
        assert set(rests_on(figures["coil.mass_ordered"])) == {"Take-up", "Spare", DRAWN}
        assert rests_on(figures["strip.width"]) == ("Take-up",)
        assert rests_on(figures["panels.length"]) == ()

    def test_what_decides_the_drawing_goes_by_one_name(self) -> None:
        assert rests_on(gable("panel.coverage")["panels.length"]) == (DRAWN,)

    def test_a_pick_is_told_by_the_figure_it_decides(self) -> None:
        assert rests_on(gable("metal.metal")["metal.sheet_mass"]) == ("Density",)
        stated = gable("metal.thickness_basis")["strip.mass_per_length"]
        assert rests_on(stated) == ("Weight of the sheet",)

    @given(whole_jobs())
    @settings(max_examples=draws(20))
    def test_exactly_the_marked_ones_rest_on_something(self, job: Job) -> None:
        for figure in plan(job).figures.values():
            assert bool(rests_on(figure)) == bool(figure.mark), figure.key


@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_all_workings_of_a_plan(name: str) -> None:
    done = plan(shipped.demo_jobs()[name])
    shown = all_lines(done)
    heads = [line for line in shown if line and not line.startswith(" ")]
    assert len(heads) == len(done.figures)
    for figure, head in zip(done.figures.values(), heads, strict=True):
        assert head.startswith(figure.label)
        assert head.endswith(figure.text(done.job.units))
    assert max(map(len, shown)) <= 78
    assert sum("source: " in line for line in shown) >= len(done.figures)


@pytest.mark.parametrize("width", [40, 60, 120])
def test_lines_are_broken_at_the_width(width: int) -> None:
    for figure in gable("panel.take_up").values():
        for line in lines(figure, width=width)[1:]:
            assert len(line) <= width or " " not in line.strip()


def test_plain_words_carry_no_symbols() -> None:
    for figure in gable().values():
        said = plain_words(figure)
        assert not set(said) & set("[]`·√=")
        if figure.formula is not None:
            assert len(said.split()) >= 2
        else:
            assert said == ""


class TestNumbersInEquations:
    """As they stand in an equation."""

    @pytest.mark.parametrize(
        ("value", "text"),
        [
            (16.0, "16"), (0.0236, "0.0236"), (6.7e-06, "0.0000067"), (1234567.0, "1234567"),
            (12345678.0, "12345680"), (-20.0, "−20"), (0.0, "0"), (1 / 3, "0.3333333"),
            (3e9, "3000000000"), (20766.08, "20766.08"),
        ],
    )  # fmt: skip
    def test_written_plainly(self, value: float, text: str) -> None:
        assert number_text(value) == text

    @given(st.floats(1e-9, 1e9) | st.floats(-1e9, -1e-9))
    def test_close_to_what_they_stand_for(self, value: float) -> None:
        text = number_text(value)
        assert "e" not in text
        assert math.isclose(float(text.replace("−", "-")), value, rel_tol=1e-6)

    def test_a_negative_one_stands_in_brackets(self) -> None:
        movement = gable()["panel.movement"]
        assert put_in(movement).endswith("(150 − (−20))")

    def test_as_many_as_there_are_symbols(self) -> None:
        figure = gable()["strip.width"]
        assert figure.formula is not None
        with pytest.raises(TypeError):
            figure.formula.written_with([1.0])

    def test_every_answer_that_is_a_number_can_stand_in_one(self) -> None:
        for key, figure in gable().items():
            if key in ANSWERS:
                assert worked(number_text(figure.value)) == pytest.approx(figure.value)
