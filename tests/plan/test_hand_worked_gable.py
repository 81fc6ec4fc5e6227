"""The gable worked by hand: two planes 42 ft by 18 ft, 16 in coverage, 5 in take-up, steel.

Every number below was worked out on paper from the measures and is printed in the program's
design; all of them agree with one another.
"""

from __future__ import annotations

import pytest

from coilwright.plan import plan
from coilwright.plan.ask_first import ask_first
from coilwright.plan.order_limits import heaviest_coil, largest_coil
from coilwright.sheets.state import state_of
from coilwright.units import Kind, show
from coilwright.values.figure import Figure
from coilwright.values.keys import Key
from tests.cases import set_answers, small_gable
from tests.printed import printed


@pytest.fixture(scope="module")
def figures() -> dict[str, Figure]:
    return dict(plan(small_gable()).figures)


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("strip.width", "21 in"),
        ("panels.count", "64"),
        ("panels.longest", "18 ft 1 in"),
        ("roof.area", "1,512 sq ft"),
        ("roof.squares", "15.12 squares"),
        ("panels.laid", "1,512 sq ft"),
        ("coil.length_ordered", "1,335 ft 8 in"),
        ("coil.mass_ordered", "2,250 lb"),
        ("coil.count", "1"),
        ("coil.longest", "1,730 ft 6 in"),
        ("limit.diameter", "1,730 ft 6 in"),
        ("limit.arbor", "1,780 ft 7 in"),
        ("metal.density", "0.2833 lb/in³"),
        ("panels.length", "1,157 ft 4 in"),
    ],
)
def test_shown(figures: dict[str, Figure], key: str, text: str) -> None:
    assert figures[key].text() == text


@pytest.mark.parametrize(
    ("key", "scale", "number"),
    [
        ("coil.mass_ordered", 1, "2250.3"),
        ("limit.diameter", 1, "20766"),
        ("coil.length_ordered", 1 / 12, "1335.6"),
    ],
)
def test_value(figures: dict[str, Figure], key: str, scale: float, number: str) -> None:
    assert figures[key].value * scale == printed(number)


ACCOUNT = [
    ("roof covered", "1455.7", "64.7"),
    ("seam take-up", "462.1", "20.5"),
    ("tolerance", "225.0", "10.0"),
    ("spare", "58.5", "2.6"),
    ("ripped edges", "23.1", "1.0"),
    ("thread and tail", "16.8", "0.7"),
    ("end allowance", "9.0", "0.4"),
]


@pytest.mark.parametrize(("name", "pounds", "share"), ACCOUNT)
def test_where_the_metal_goes(name: str, pounds: str, share: str) -> None:
    (line,) = [line for line in plan(small_gable()).account if line.name == name]
    assert line.mass.value == printed(pounds)
    # 0.747 % is printed 0.7
    assert line.share.value * 100 == printed(share)


def test_the_account_is_complete() -> None:
    account = plan(small_gable()).account
    assert {line.name for line in account} == {name for name, _, _ in ACCOUNT}
    assert sum(line.mass.value for line in account) == printed("2250.3")


def test_which_limit_governs() -> None:
    done = plan(small_gable())
    assert done.governing is not None
    assert done.governing.key == "diameter"
    assert {limit.key for limit in done.limits} == {"arbor", "rack", "diameter", "site"}


def test_the_working_opens() -> None:
    longest = plan(small_gable()).figures["limit.diameter"]
    assert longest.equation == "π·(OD² − ID²) / (4·t)"
    assert longest.symbols == ("OD", "ID", "t")
    assert [t.text() for t in longest.terms] == ["32 in", "20 in", "0.0236 in"]
    assert longest.source.text == "wound-strip geometry: turns × mean circumference"


@pytest.mark.parametrize(("take_up", "pounds", "strip"), [(4, "2143", "20 in"),
                                                          (6, "2357", "22 in")])  # fmt: skip
def test_take_up_moves_the_order(take_up: float, pounds: str, strip: str) -> None:
    figures = plan(set_answers(small_gable(), {"panel.take_up": take_up})).figures
    assert figures["coil.mass_ordered"].value == printed(pounds)
    assert figures["strip.width"].text() == strip


def test_it_is_ready_and_stops_for_nothing() -> None:
    done = plan(small_gable())
    assert done.ready
    assert state_of(done) == "READY"
    assert done.stops == ()


def test_the_same_numbers_from_a_gable_shape() -> None:
    """42 ft along the eave; half of the width, brought up the slope, is the same 18 ft."""
    from coilwright.calc.roof.slope import slope_factor
    from coilwright.job.roof import Building
    from tests.cases import building

    width = 2 * 216 / slope_factor(6)
    job = building(
        Building.GABLE, length=504, width=width, eave_overhang=0, rake_overhang=0, pitch=6
    )
    done = plan(job)
    assert done.figures["coil.mass_ordered"].value == printed("2250.3")
    assert done.figures["panels.count"].value == 64
    assert show(done.figures["roof.slope_length"].value, Kind.LENGTH) == "18 ft"


def test_take_up_comes_first_to_ask() -> None:
    from tests.cases import guess

    first = ask_first(guess(small_gable(), "panel.take_up"))[0]
    assert first.key == "panel.take_up"
    assert "2,143" in first.words
    assert "2,357" in first.words


def test_the_longest_coil_is_as_ordered_and_the_order_holds_what_is_shipped() -> None:
    """Worked by hand: pi (32² - 20²)/(4 · 0.0236 in · 1.04) = 19,968 in, 1,664 ft; at the short
    side of 10 %, less 10 ft of ends, with a spare of 3 %: (1,664 · 0.9 - 10)/1.03 = 1,444.3 ft.
    """
    made = plan(set_answers(small_gable(), {
        "metal.thickness": 0.0236, "coils.inside_diameter": 20.0, "machine.rack_diameter": 32.0,
        "machine.arbor_load": 3000.0, "coils.wrap_allowance": 0.04, "coils.spare": 0.03,
        "coils.tolerance": 0.1, "coils.tolerance_over": 0.1, "machine.thread_up": 72.0,
        "machine.tail": 48.0,
    }))
    longest, usable = made.figures[Key.COIL_LONGEST], made.figures[Key.COIL_USABLE]
    assert longest.value / 12 == pytest.approx(1664.0, abs=0.1)
    assert usable.value / 12 == pytest.approx(1444.3, abs=0.1)
    # Over by 10 % it would wind to more than 32 in: max OD and max weight of the order forbid it.
    assert all(largest_coil(made, coil).value <= 32.0 for coil in made.coils)
    assert all(heaviest_coil(made, coil).value <= 3000.0 for coil in made.coils)
    assert "held by the order's max weight and max OD" in longest.note
    (governs,) = [f for f in made.findings if f.key == "coils.governs"]
    assert "hold as shipped" in governs.do
