"""Every load on the road worked by hand."""

from __future__ import annotations

from typing import Any

import pytest

from coilwright.job.answers import Value
from coilwright.job.haul import CargoOn
from coilwright.plan import Plan, plan
from coilwright.store.shipped import demo_jobs
from tests.cases import set_answers
from tests.plan.haul.cases import on_the_road, with_one_on_hand

HEAVIEST = 2475.3296
"""The hand-worked gable's one coil: 2,250.30 lb and 10 % over [lb]."""


def loads(done: Plan) -> dict[str, tuple[float, float, float]]:
    """Load, rating and margin of every load on the road."""
    found = {}
    for line in (one for one in done.loads if one.place not in ("site", "shop")):
        assert line.load is not None
        assert line.rating is not None
        assert line.margin is not None
        found[line.key] = (line.load.value, line.rating.value, line.margin.value)
    return found


def near(value: float) -> Any:
    """Within a hundredth of a pound."""
    return pytest.approx(value, abs=0.01)


def test_the_job_on_the_road() -> None:
    assert loads(plan(on_the_road())) == {
        # 7,400 + 2,500 + 300 = 10,200
        "haul.trailer": (10_200, 12_000, 1800),
        # 10,200 − 1,300 = 8,900; 2 × 6,000 = 12,000
        "haul.axles": (8900, 12_000, 3100),
        "haul.hitch": (10_200, 14_000, 3800),
        # weighed at 1,300, from where things sit 900 + 250 + 210 = 1,360: the worse is held
        "haul.tongue_weight": (1360, 1400, 40),
        "haul.tow": (10_200, 12_000, 1800),
        # 7,000 + 1,360 = 8,360
        "haul.tow_vehicle": (8360, 10_000, 1640),
        # 7,000 + 10,200 = 17,200
        "haul.combination": (17_200, 22_000, 4800),
        # 30.5 in across, so up to 5 ft, and over 1,100 lb: 2
        "haul.tie_count": (2, 2, 0),
        # 2,475.33 / 2; 1 × 1,000 + 1 × 600 / 2 = 1,300
        "haul.ties": (pytest.approx(1237.6648), 1300, pytest.approx(62.3352)),
    }


def test_the_share_and_the_balance() -> None:
    figures = plan(on_the_road()).figures
    # 1,300 / 10,200 = 12.745 %
    assert figures["haul.hitch_share"].value == pytest.approx(0.1274510)
    # 900 + 2,500·(1 − 180/200) + 300·(1 − 60/200) = 900 + 250 + 210 = 1,360
    assert figures["haul.hitch_moments"].value == pytest.approx(1360)


def test_without_a_scale_the_balance_stands_for_the_hitch() -> None:
    done = loads(plan(on_the_road({"haul.tongue_weight": None})))
    # 1,360 on the hitch; 10,200 − 1,360 = 8,840; 7,000 + 1,360 = 8,360
    assert done["haul.tongue_weight"] == (pytest.approx(1360), 1400, pytest.approx(40))
    assert done["haul.axles"] == (pytest.approx(8840), 12_000, pytest.approx(3160))
    assert done["haul.tow_vehicle"] == (pytest.approx(8360), 10_000, pytest.approx(1640))


def test_without_either_the_axles_carry_all_of_it() -> None:
    unknown: dict[str, Value | None] = {
        "haul.tongue_weight": None, "haul.empty_tongue_weight": None, "haul.hitch_to_axles": None,
    }
    done = plan(on_the_road(unknown))
    axles = next(line for line in done.loads if line.key == "haul.axles")
    assert axles.load is not None
    assert axles.load.value == 10_200
    assert "whole trailer is counted" in axles.load.note
    hitch = next(line for line in done.loads if line.key == "haul.tongue_weight")
    assert hitch.load is None
    assert not hitch.known


def test_the_axles_get_the_doubt_and_say_how_to_settle_it() -> None:
    unknown: dict[str, Value | None] = {
        "haul.tongue_weight": None, "haul.empty_tongue_weight": None, "haul.hitch_to_axles": None,
        "haul.axle_rating": 5000.0,
    }
    # 10,200 > 2 × 5,000, though with 1,300 on the hitch it would be 8,900
    (finding,) = (f for f in plan(on_the_road(unknown)).findings if f.key == "haul.axles")
    assert "Weigh the tongue or pin weight" in finding.do
    assert plan(on_the_road({"haul.axle_rating": 5000.0})).ready


def test_coils_on_the_rack_are_the_heaviest_there_are() -> None:
    by_coil: dict[str, Value | None] = {
        "haul.rack_mass": None, "haul.rack_coils": 1, "haul.cargo_coils": 0}
    figures = plan(on_the_road(by_coil)).figures
    # 7,400 + 2,475.33 + 300
    assert figures["haul.gross"].value == pytest.approx(7700 + HEAVIEST)
    # one on hand of 337 lb, 200 ft of it, beside a new one: the heavier rides, then both
    two = with_one_on_hand(on_the_road(by_coil))
    done = plan(two)
    new, on_hand = (done.figures[k].value for k in ("coil.1.heaviest", "on_hand.1.heaviest"))
    assert new > on_hand > 0
    assert done.figures["haul.rack"].value == pytest.approx(new)
    both = plan(set_answers(two, {"haul.rack_coils": 2}))
    assert both.figures["haul.rack"].value == pytest.approx(new + on_hand)


def test_cargo_on_the_trailer_counts_there_and_no_coil_twice() -> None:
    change: dict[str, Value | None] = {
        "haul.rack_mass": None, "haul.rack_coils": 1, "haul.cargo_coils": 1,
        "haul.cargo_on": CargoOn.TRAILER, "haul.cargo_at": 200.0,
    }
    done = plan(with_one_on_hand(on_the_road(change)))
    first, second = (done.figures[k].value for k in ("coil.1.heaviest", "on_hand.1.heaviest"))
    assert first > second
    assert done.figures["haul.gross"].value == pytest.approx(7700 + first + second)
    # tie-downs must hold the heaviest coil it could be
    assert done.figures["haul.must_hold"].value == pytest.approx(first / 2)
    # over the axles it adds nothing to the hitch: 900 + first·0.1 + 210
    assert done.figures["haul.hitch_moments"].value == pytest.approx(1110 + first * 0.1)
    other = plan(with_one_on_hand(on_the_road({**change, "haul.cargo_on": CargoOn.OTHER})))
    assert other.figures["haul.gross"].value == pytest.approx(7700 + first)


def test_a_weighed_rack_leaves_any_coil_for_the_cargo() -> None:
    done = plan(on_the_road({"machine.arbor_load": 1500.0, "haul.cargo_on": CargoOn.TRAILER}))
    heaviest = max(done.figures[f"coil.{n}.heaviest"].value for n in (1, 2))
    assert done.figures["haul.gross"].value == pytest.approx(10_200 + heaviest)


def test_the_barn_on_its_invented_trailer() -> None:
    done = plan(demo_jobs()["heron-lane-barn"])
    heaviest = done.figures["coil.1.heaviest"].value
    assert heaviest == pytest.approx(HEAVIEST, abs=0.01)
    held = loads(done)
    # 7,400 + 2,475.33 + 400 = 10,275.33; on the hitch 1,450 weighed, 1,473.57 worked out:
    # the axles get what the lighter leaves, 8,825.33; 7,200 + 1,473.57 = 8,673.57
    assert held == {
        "haul.trailer": (near(10_275.33), 12_000, near(1724.67)),
        "haul.axles": (near(8825.33), 12_000, near(3174.67)),
        "haul.hitch": (near(10_275.33), 14_000, near(3724.67)),
        "haul.tongue_weight": (near(1473.57), 1500, near(26.43)),
        "haul.tow": (near(10_275.33), 13_000, near(2724.67)),
        "haul.tow_vehicle": (near(8673.57), 10_000, near(1326.43)),
        "haul.combination": (near(17_475.33), 21_000, near(3524.67)),
    }
    # 1,450 / 10,275.33 = 14.11 %
    assert done.figures["haul.hitch_share"].value == pytest.approx(0.14111, abs=1e-5)
    # 900 + 2,475.33·(1 − 180/204) + 400·(1 − 60/204) = 900 + 291.22 + 282.35
    assert done.figures["haul.hitch_moments"].value == pytest.approx(1473.57, abs=0.01)
    assert done.ready
