"""What slings carry by their hitch, by sling makers' pages; each value as printed there.

Basket, a sling maker's page (flag: published, read in a copy): sides at 90°, 60°, 45° and 30°
from level, 2.0, 1.7, 1.4 and 1.0 of one vertical leg.
Choker, sling makers' pages (copy): about 75 % of one vertical leg at an angle of choke of 120°
or more; a sling maker's manual (copy): above 120° 1.00, 90 to 120° 0.87, 60 to 89° 0.74, 30 to
59° 0.62, under 30° 0.49 of the choker's rating.
Three and four legs (copy): three 1.5 times two at that angle where the load is shared; four only
where all are known to share.
The tag's own rating for the hitch comes before all of them.
"""

from __future__ import annotations

import math

import pytest

from coilwright.job.answers import Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import ChokeAngle, SlingHitch
from coilwright.plan import plan
from coilwright.values.finding import Level
from coilwright.values.source import Grade
from tests.plan.haul.gear import SLINGS, lifted, line, said, stops
from tests.printed import printed
from tests.rules import for_each

ONE: dict[str, Value | None] = {
    **SLINGS, "legs": 1, "leg_rating": 2000.0, "by_factors": YesNo.YES, "attachment": 0.0,
}
BASKET = {**ONE, "sling_hitch": SlingHitch.BASKET}
CHOKER = {**ONE, "sling_hitch": SlingHitch.CHOKER, "choke_angle": ChokeAngle.OVER_120,
          "angle": None}  # fmt: skip


def carries(gear: dict[str, Value | None]) -> float:
    """What the slings carry together [lb]."""
    return plan(lifted("site", gear)).figures["haul.site_slings_carry"].value


@pytest.mark.parametrize(
    ("angle", "factor"), [(90.0, "2.0"), (60.0, "1.7"), (45.0, "1.4"), (30.0, "1.0")])
def test_a_basket_by_the_angle_of_its_sides(angle: float, factor: str) -> None:
    assert carries({**BASKET, "angle": angle}) / 2000 == printed(factor)


def test_the_pull_in_a_side_of_the_basket_by_hand() -> None:
    # 2,475.33 lb on two sides at 60°: 2,475.33 / (2 · 0.86603) = 1,429.1 lb, rated 2,000 each
    one = line(plan(lifted("site", BASKET)), "site")
    assert one.load is not None
    assert one.rating is not None
    assert one.load.value == pytest.approx(1429.13, abs=0.01)
    assert one.rating.value == 2000


def test_the_tags_basket_rating_comes_before_the_factor() -> None:
    tagged = {**BASKET, "hitch_limit": 3600.0}
    # sides straight up 3,600 lb, so 1,800 each; at 60° 3,600 · 0.86603 = 3,117.7 lb
    assert carries(tagged) == pytest.approx(3117.69, abs=0.01)
    assert carries({**tagged, "leg_rating": None, "by_factors": None}) == carries(tagged)


@pytest.mark.parametrize(("angle", "factor"), [
    (ChokeAngle.OVER_120, 1.00), (ChokeAngle.FROM_90, 0.87), (ChokeAngle.FROM_60, 0.74),
    (ChokeAngle.FROM_30, 0.62), (ChokeAngle.UNDER_30, 0.49),
])  # fmt: skip
def test_a_choker_by_its_angle_of_choke(angle: ChokeAngle, factor: float) -> None:
    # 75 % of 2,000 lb is 1,500 lb
    assert carries({**CHOKER, "choke_angle": angle}) == pytest.approx(1500 * factor)
    # and by a tag that gives 1,600 lb as a choker
    tagged = {**CHOKER, "hitch_limit": 1600.0, "by_factors": None, "choke_angle": angle}
    assert carries(tagged) == pytest.approx(1600 * factor)


@pytest.mark.parametrize("angle", [30.0, 45.0, 60.0, 90.0])
def test_three_legs_carry_one_and_a_half_times_two_where_they_share(angle: float) -> None:
    two = {**SLINGS, "angle": angle}
    three, four = {**two, "legs": 3}, {**two, "legs": 4}
    assert carries({**three, "legs_sharing": 3}) == pytest.approx(1.5 * carries(two))
    assert carries({**four, "legs_sharing": 4}) == pytest.approx(2 * carries(two))
    # not known to share
    assert carries(three) == carries(four) == pytest.approx(carries(two))


@for_each([
    ({**SLINGS, "sling_hitch": None}, "sling_hitch"),
    # the vertical rating alone says nothing of a basket or choker, until the user says so
    ({**BASKET, "by_factors": None}, "hitch_limit"),
    ({**BASKET, "by_factors": YesNo.NO}, "hitch_limit"),
    ({**CHOKER, "by_factors": None}, "hitch_limit"),
    ({**CHOKER, "choke_angle": None}, "choke_angle"),
    ({**CHOKER, "hitch_limit": 1600.0, "choke_angle": None}, "choke_angle"),
    ({**BASKET, "leg_rating": None}, "leg_rating"),
    # the sides of one basket stand at an angle; nobody takes them for upright
    ({**BASKET, "angle": None}, "angle"),
])  # fmt: skip
def test_what_the_tag_was_not_read_for_is_not_known(
    gear: dict[str, Value | None], needs: str
) -> None:
    job = lifted("site", gear)
    one = line(plan(job), "site")
    assert not one.known
    assert f"haul.site_{needs}" in one.needs
    (finding,) = said(job, "haul.site_ratings_missing")
    on_tag = needs not in ("sling_hitch", "angle", "choke_angle")
    assert finding.what.endswith(
        "not known: read it off the plate." if on_tag else "not known, and on no plate.")
    # the weight is known all the same, and said: 2,475.33 lb and the attachment
    whole = 2475.33 + float(gear["attachment"] or 0)
    assert f"with {whole:,.0f} lb to lift" in finding.what


@pytest.mark.parametrize("hitch", list(SlingHitch))
def test_nothing_is_worked_out_under_30_degrees(hitch: SlingHitch) -> None:
    gear = {**CHOKER, "sling_hitch": hitch, "angle": 29.9, "leg_rating": 90_000.0}
    done = plan(lifted("site", gear))
    assert [f.key for f in done.stops] == ["haul.site_sling_flat"]
    assert "haul.site_slings_carry" not in done.figures


def test_a_choker_over_its_rating_stops() -> None:
    # 2,475.33 lb; 0.75 · 0.87 = 0.6525, so 3,793.6 lb vertical are enough
    gear = {**CHOKER, "choke_angle": ChokeAngle.FROM_90}
    assert stops(lifted("site", {**gear, "leg_rating": 3793.0})) == ["haul.site_slings"]
    assert stops(lifted("site", {**gear, "leg_rating": 3794.0})) == []


@pytest.mark.parametrize("gear", [BASKET, CHOKER])
def test_a_factor_says_that_the_tag_decides(gear: dict[str, Value | None]) -> None:
    (finding,) = said(lifted("site", gear), "haul.site_sling_factors")
    assert finding.level is Level.CARE
    assert finding.source.grade is Grade.COPY
    assert "tag's own rating for the hitch decides" in finding.why
    assert said(lifted("site", {**gear, "hitch_limit": 3000.0}), "haul.site_sling_factors") == []


def test_one_leg_hangs_straight_and_a_choker_too() -> None:
    assert carries({**ONE, "angle": None}) == pytest.approx(2000)
    assert carries(CHOKER) == pytest.approx(1500)
    assert math.isclose(carries({**CHOKER, "legs": 2, "angle": 45.0}), 3000 * math.sqrt(0.5))
