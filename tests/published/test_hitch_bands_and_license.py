"""What rests on a hitch, by owner's manuals, and the weights a license goes by.

Hitch bands: a vehicle owner's manual, 10 to 15 % on a ball hitch, 15 to 25 % on a pin (gooseneck,
fifth wheel); flag: published, read in a copy. A trailer maker: 20 to 25 % on a gooseneck, so that
12,000 lb puts 2,400 to 3,000 lb on it; flag: read. Other makers say less (9 to 11 % on one), so
the band is a care and never a stop.
Weights: 49 CFR 383.5 and 49 USC 31301(4) (license), 49 USC 31132 (commercial vehicles); read.
Axle and hitch by statics: a load W at x from the hitch, axles at a, puts W·x/a on the axles and
W·(1 − x/a) on the hitch; worked out.
"""

from __future__ import annotations

import pytest

from coilwright.calc.haul import (
    BALL_BAND,
    COMMERCIAL_FROM,
    FIFTH_WHEEL_BAND,
    GOOSENECK_BAND,
    LICENSE_TOGETHER,
    LICENSE_TRAILER,
    axle_load,
    hitch_share,
    tongue_weight,
)
from coilwright.job.answers.job import JobKey
from coilwright.job.edit import give
from coilwright.job.haul import HitchKind
from coilwright.plan import plan
from coilwright.units import System
from coilwright.values.finding import Level
from coilwright.words import cautions
from coilwright.words.in_units import with_units
from tests.plan.haul.cases import on_the_road
from tests.printed import printed


def test_the_bands() -> None:
    assert BALL_BAND == (0.10, 0.15)
    assert GOOSENECK_BAND == FIFTH_WHEEL_BAND == (0.15, 0.25)


@pytest.mark.parametrize(("share", "pounds"), [(0.20, "2400"), (0.25, "3000")])
def test_a_gooseneck_of_12000_lb(share: float, pounds: str) -> None:
    assert hitch_share(float(pounds), 12_000) == pytest.approx(share)
    assert GOOSENECK_BAND[0] <= share <= GOOSENECK_BAND[1]
    assert share * 12_000 == printed(pounds)


@pytest.mark.parametrize("share", [0.09, 0.095])
def test_outside_the_band_is_a_care_as_makers_differ(share: float) -> None:
    job = on_the_road({"haul.hitch": HitchKind.BALL, "haul.tongue_weight": share * 10_200})
    (finding,) = (f for f in plan(job).findings if f.key == "haul.hitch_share")
    assert finding.level is Level.CARE
    # The band is one country's practice: who works in metric is told so, and whose word governs.
    assert "US practice" not in finding.why
    (metric,) = (f for f in plan(give(job, JobKey.UNITS, System.METRIC)).findings
                 if f.key == "haul.hitch_share")
    assert "; in the US usual on a ball hitch is 10 % to 15 %." in metric.what
    assert "in the US" not in finding.what
    # Nobody is sent forward past what the hitch may carry, nor by a practice of elsewhere.
    assert "inside what the hitch may carry" in finding.do
    assert metric.do.startswith("See what the plates and manuals")
    assert "That share is US practice" in metric.why
    assert "the plates of trailer, hitch and vehicle say" in metric.why


@pytest.mark.parametrize(("load", "at", "axles"), [(2500, 180, 200), (400, 60, 204), (900, 0, 96)])
def test_shares_by_statics(load: float, at: float, axles: float) -> None:
    hitch = tongue_weight(axles, 0, load, at)
    assert hitch == pytest.approx(load * (1 - at / axles))
    assert axle_load(load, hitch) == pytest.approx(load * at / axles)


def test_the_weights_a_license_goes_by() -> None:
    assert printed("26001") == LICENSE_TOGETHER
    assert printed("10000") == LICENSE_TRAILER
    assert printed("10001") == COMMERCIAL_FROM


@pytest.mark.parametrize("key", ["haul.license", "haul.commercial"])
def test_they_are_questions_and_rule_on_nothing(key: str) -> None:
    job = on_the_road({"haul.tow_gvwr": 14_001.0, "haul.trailer_gvwr": 12_000.0})
    (finding,) = (f for f in plan(job).findings if f.key == key)
    assert finding.level is Level.NOTE
    assert finding.what.startswith("Ask whether")
    assert "does not rule" in finding.do


def test_a_metric_job_is_asked_whatever_it_weighs_and_no_state_is_named() -> None:
    light = {"haul.hitch": None, "haul.rack_mass": 0.0, "haul.trailer_gvwr": 3000.0}
    found = {f.key: f for f in plan(give(on_the_road(light), JobKey.UNITS, System.METRIC)).findings}
    assert "haul.commercial" not in found
    asked = found["haul.license"]
    assert asked.level is Level.NOTE
    assert "each country" in asked.why.lower()
    assert "US rules" in asked.why
    assert "state" not in f"{asked.what} {asked.why} {asked.do}"
    assert not any(f.key.startswith(("haul.license", "haul.commercial"))
                   for f in plan(on_the_road(light)).findings)
    (caution,) = (with_units(said, System.METRIC) for said in cautions("roof") if "fall" in said)
    # No rule of another country stands there as if it were the place's.
    assert "by the rules of the place, from about 2 m up" in caution
    assert "common practice, no source" in caution
    assert "CFR" not in caution
