"""Coils as cargo: how many tie-downs each needs, what they must hold, what is told of them."""

from __future__ import annotations

import pytest

from coilwright.calc.tie_down import METAL_COIL_FROM
from coilwright.job.answers import Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import CoilEye
from coilwright.job.roof import Plane
from coilwright.plan import Plan, plan
from tests.cases import set_answers, small_gable, with_planes
from tests.plan.coils.stock import coil, with_coils
from tests.plan.haul.cases import HEAVY, on_the_road, with_one_on_hand


def heavy(changes: dict[str, Value | None]) -> Plan:
    """One coil of more than 5,000 lb as cargo."""
    answers = {k: v for k, v in HEAVY.items() if not k.startswith("@")}
    job = with_planes(small_gable(), Plane(eave=1200, slope_length=216, pitch=6.0, alike=2))
    return plan(set_answers(job, {**answers, **changes}))


def told(done: Plan, key: str) -> str:
    (finding,) = (f for f in done.findings if f.key == key)
    return f"{finding.what} {finding.do}"


@pytest.mark.parametrize(
    ("eye", "along"),
    [
        (CoilEye.UP, 30.4919), (CoilEye.CROSSWISE, 30.4919),
        (CoilEye.LENGTHWISE, 21.0),
        # not known: the longer of the two
        (None, 30.4919),
    ],
)  # fmt: skip
def test_the_eye_says_how_long_the_coil_is(eye: CoilEye | None, along: float) -> None:
    done = plan(on_the_road({"haul.eye": eye}))
    term = done.figures["haul.cargo.1.ties"].terms[0]
    assert term.value == pytest.approx(along, abs=1e-4)


def test_a_strip_wider_than_the_coil_is_across() -> None:
    # 24 in of strip on a coil of few wraps: unknown, the strip is the longer way
    job = on_the_road({
        "haul.eye": None, "panel.coverage": 23.5, "machine.arbor_load": 400.0,
    })  # fmt: skip
    done = plan(job)
    across, along = done.figures["coil.1.largest"].value, done.figures["haul.cargo.1.along"].value
    assert across < along == done.figures["strip.width"].value


def test_each_coil_counts_by_its_own_weight() -> None:
    # 2,092 lb needs 2, 337 lb needs 1
    job = set_answers(with_one_on_hand(on_the_road()), {"haul.cargo_coils": 2})
    figures = plan(job).figures
    assert [figures[f"haul.cargo.{n}.ties"].value for n in (1, 2)] == [2, 1]
    assert figures["haul.ties_needed"].value == 3
    blocked = plan(set_answers(job, {"haul.blocked": YesNo.YES})).figures
    assert blocked["haul.ties_needed"].value == 2
    unknown = plan(set_answers(job, {"haul.blocked": None})).figures
    assert unknown["haul.ties_needed"].value == 3


def test_a_coil_on_hand_is_across_what_the_tape_says() -> None:
    measured = coil("M1", None, outside=22.0, inside=16.0)
    job = set_answers(with_coils(on_the_road(), measured), {"haul.cargo_coils": 2})
    assert plan(job).figures["haul.cargo.2.ties"].terms[0].value == 22.0


@pytest.mark.parametrize(
    ("over", "direct", "held"),
    [
        # whole for each side to side, half for each direct one
        ((2, 1000.0), (None, None), 2000),
        ((None, None), (2, 1000.0), 1000),
        ((2, 1500.0), (3, 800.0), 4200),
        ((0, None), (2, 1000.0), 1000),
        ((0, None), (0, None), 0),
    ],
)
def test_what_tie_downs_count_for(
    over: tuple[int | None, float | None], direct: tuple[int | None, float | None], held: float
) -> None:
    done = plan(on_the_road({
        "haul.ties_over": over[0], "haul.tie_over_limit": over[1],
        "haul.ties_direct": direct[0], "haul.tie_direct_limit": direct[1],
    }))  # fmt: skip
    assert done.figures["haul.held"].value == held


def test_no_tie_downs_at_all_stops_both_ways() -> None:
    done = plan(on_the_road({"haul.ties_over": 0, "haul.ties_direct": 0}))
    assert [f.key for f in done.stops] == ["haul.tie_count", "haul.ties"]


def test_a_limit_that_is_not_known_holds_nothing() -> None:
    done = plan(on_the_road({"haul.tie_direct_limit": None}))
    line = next(line for line in done.loads if line.key == "haul.ties")
    assert line.rating is None
    assert not line.known
    assert line.needs == ("haul.tie_direct_limit",)
    assert "working load limit of tie-downs to the coil" in told(done, "haul.ratings_missing")


def test_without_cargo_there_is_nothing_to_tie() -> None:
    done = plan(on_the_road({"haul.cargo_coils": 0}))
    assert {line.place for line in done.loads} == {"trailer", "hitch", "tow"}


@pytest.mark.parametrize(
    ("eye", "words"),
    [
        (CoilEye.UP, "diagonally across the eye each way"),
        (CoilEye.CROSSWISE, "do not cross in an X"),
        (CoilEye.LENGTHWISE, "two tie-downs through the eye"),
        (None, "Say which way its eye points"),
    ],
)
def test_the_metal_coil_rule_by_the_eye(eye: CoilEye | None, words: str) -> None:
    done = heavy({"haul.eye": eye})
    assert done.figures["haul.cargo"].value > METAL_COIL_FROM
    assert words in told(done, "haul.metal_coil")
    assert "endorsement" in told(done, "haul.metal_coil")


def test_light_coils_bound_together_are_told_of() -> None:
    # two coils of less than 5,000 lb, more than that together
    done = heavy({"machine.arbor_load": 4000.0, "haul.cargo_coils": 2})
    assert len(done.coils) == 2
    assert max(done.figures[f"coil.{n}.heaviest"].value for n in (1, 2)) < METAL_COIL_FROM
    assert "grouped together they fall under the rule" in told(done, "haul.metal_coil")
    assert "hold them by it all the same" in told(done, "haul.metal_coil")
    grouped = heavy({"machine.arbor_load": 4000.0, "haul.cargo_coils": 2,
                     "haul.grouped": YesNo.YES})
    assert "hold them by it all the same" not in told(grouped, "haul.metal_coil")
    one = heavy({"machine.arbor_load": 4000.0, "haul.cargo_coils": 1})
    assert "is under the 5,000 lb" in told(one, "haul.coil_rolls")


def test_the_count_is_said_in_words_that_fit_it() -> None:
    for ties, blocked, said in (
        (0, YesNo.YES, "need 1 tie-down at the least; there are none."),
        (1, YesNo.NO, "need 2 tie-downs at the least; there is 1."),
    ):
        done = plan(on_the_road({
            "haul.blocked": blocked, "haul.ties_over": ties, "haul.ties_direct": 0,
        }))
        assert said in told(done, "haul.tie_count")
