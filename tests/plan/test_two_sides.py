"""How far under and how far over a coil may come: two answers, each where it counts.

The gable worked by hand: 64 panels of 18 ft 1 in, strip of 1.68484 lb/ft, spare 3 %, thread-up
and tail 10 ft. (1,157.33·1.03 + 10)/(1 − 0) = 1,202.05 ft, 2,025.3 lb; over 0.9 it is 1,335.61 ft,
2,250.3 lb.
"""

from __future__ import annotations

import pytest

from coilwright.plan import Plan, plan
from tests.cases import guess, set_answers, small_gable


def done(under: float, over: float | None, **more: float) -> Plan:
    changed = {"coils.tolerance": under, "coils.tolerance_over": over}
    changed |= {f"coils.{key}": value for key, value in more.items()}
    return plan(set_answers(small_gable(), changed))


def test_the_under_side_is_covered_by_the_order() -> None:
    for under, feet, mass in ((0.10, 1335.61, 2250.3), (0.0, 1202.05, 2025.3)):
        for over in (None, 0.0, 0.25):
            figures = done(under, over).figures
            assert figures["coil.length_ordered"].value / 12 == pytest.approx(feet, abs=0.005)
            assert figures["coil.mass_ordered"].value == pytest.approx(mass, abs=0.05)


def test_the_over_side_counts_where_a_coil_is_lifted() -> None:
    for over, heaviest in ((0.0, 2250.3), (0.10, 2475.3), (0.20, 2700.3)):
        figures = done(0.10, over).figures
        assert figures["coil.1.heaviest"].value == pytest.approx(heaviest, abs=0.1)
    # as far over as under while it is not given
    assert done(0.10, None).figures["coil.1.heaviest"].value == pytest.approx(2475.3, abs=0.1)


def test_a_coil_over_the_limit_at_its_over_side_says_so() -> None:
    def speaks(over: float) -> bool:
        found = done(0.10, over, site_lift=2400.0)
        return "coils.at_most_site" in {f.key for f in found.findings}

    # 2,400/2,250.3 is 6.65 % over
    assert speaks(0.067)
    assert not speaks(0.066)


def test_the_one_that_was_given_is_the_one_that_is_named() -> None:
    said = {f.key: f.answers for f in done(0.10, 0.10, site_lift=2400.0).findings}
    assert said["coils.at_most_site"] == ("coils.tolerance_over",)
    said = {f.key: f.answers for f in done(0.10, None, site_lift=2400.0).findings}
    assert said["coils.at_most_site"] == ("coils.tolerance",)


def test_a_guess_of_the_over_side_marks_the_heaviest_coil_alone() -> None:
    job = set_answers(small_gable(), {"coils.tolerance_over": 0.05})
    figures = plan(guess(job, "coils.tolerance_over")).figures
    assert figures["coil.1.heaviest"].mark == "~"
    assert figures["coil.1.mass"].mark == ""
