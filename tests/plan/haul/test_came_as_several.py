"""One ordered coil that came as two, on the road: the loads go by all that came until somebody says
again how many ride."""

from __future__ import annotations

from typing import Any

from coilwright.job.answers import Value
from coilwright.job.confirmations import carry_confirmations
from coilwright.job.edit import confirm
from coilwright.job.haul import CargoOn
from coilwright.job.job import Job
from coilwright.job.receiving import Decision
from coilwright.plan import plan
from coilwright.sheets import render
from coilwright.values.finding import Level
from coilwright.values.standing import Standing
from tests.cases import set_answers
from tests.plan.haul.cases import on_the_road
from tests.plan.receiving.arrivals import arrival, with_arrived

# One coil on the rack, by its weight: 7,400 lb of machine and 300 lb of gear under 12,000 lb.
RACK: dict[str, Value | None] = {"haul.rack_mass": None, "haul.rack_coils": 1,
                                 "haul.cargo_coils": None, "haul.cargo_on": None}
TWO: list[Any] = [arrival(tag="R-1", mass=2300.0, weighed=None),
                  arrival(tag="R-2", mass=1900.0, weighed=1950.0)]


def came(job: Job, *arrived: Any) -> Job:
    """The job once these came, as a change of the wizard keeps it."""
    return carry_confirmations(job, with_arrived(job, *arrived))


def said(job: Job, key: str) -> list[Any]:
    return [f for f in plan(job).findings if f.key == key]


def test_all_that_came_for_the_counted_coil_rides_until_somebody_says_again_how_many() -> None:
    """2,300 and 1,950 lb for one coil: 11,950 lb of trailer, held to its rating as that."""
    job = on_the_road(RACK)
    assert round(plan(job).figures["haul.gross"].value) == 7400 + 2475 + 300
    one = came(job, TWO[0])
    assert one.standing.get("haul.rack_coils") is None
    assert plan(one).figures["haul.rack"].value == plan(job).figures["haul.rack"].value
    two = came(one, *TWO)
    done = plan(two)
    assert two.standing["haul.rack_coils"] is Standing.GUESS
    assert done.figures["haul.rack"].value == 2300 + 1950
    assert done.figures["haul.gross"].value == 7400 + 2300 + 1950 + 300
    assert not [load for load in done.loads if load.key == "haul.trailer" and load.over]
    light = plan(set_answers(two, {"haul.trailer_gvwr": 11_900.0}))
    assert [load.key for load in light.loads if load.over and load.key == "haul.trailer"]
    (finding,) = said(two, "haul.came_as_several")
    assert finding.level is Level.CARE
    assert "Coil 1 of the order came as 2, of 2,300 lb and 1,950 lb" in finding.what
    assert said(two, "haul.rack_coils.lapsed") == []
    card = " ".join(render("haul", done, "text").split())
    assert "each of them all that came for one of the order" in card
    assert "left for another trip" not in card.split("This card is for")[1].split(". ")[0]


def test_said_again_the_heaviest_of_what_came_ride_and_the_others_are_for_another_trip() -> None:
    two = came(on_the_road(RACK), *TWO)
    again = carry_confirmations(two, confirm(two, "haul.rack_coils"))
    done = plan(again)
    assert done.figures["haul.rack"].value == 2300
    assert said(again, "haul.came_as_several") == []
    card = " ".join(render("haul", done, "text").split())
    assert "1 coil on the rack, the heaviest" in card
    assert "1 coil of this job left for another trip" in card
    both = set_answers(two, {"haul.rack_coils": 2})
    assert plan(both).figures["haul.rack"].value == 2300 + 1950
    assert said(both, "haul.came_as_several") == []
    # One of them that went back leaves one for one; a third is asked about anew.
    refused = came(again, TWO[0], arrival(tag="R-2", decision=Decision.REFUSED))
    assert round(plan(refused).figures["haul.rack"].value) == 2475
    three = came(again, *TWO, arrival(tag="R-3", mass=500.0, weighed=None))
    assert plan(three).figures["haul.rack"].value == 2300 + 1950 + 500
    assert said(three, "haul.came_as_several")


def test_a_job_whose_file_says_nothing_of_it_is_asked_and_one_with_no_coil_aboard_is_not() -> None:
    """A job of an earlier program, saved once both were there, kept nothing for its count."""
    old = with_arrived(on_the_road(RACK), *TWO)
    assert plan(old).figures["haul.rack"].value == 2300 + 1950
    assert said(old, "haul.came_as_several")
    touched = carry_confirmations(old, set_answers(old, {"haul.gear": 200.0}))
    assert said(touched, "haul.came_as_several")
    none = came(on_the_road({**RACK, "haul.rack_coils": 0}), *TWO)
    assert none.standing.get("haul.rack_coils") is None
    assert said(none, "haul.came_as_several") == []


def test_cargo_counted_before_is_both_and_each_is_tied_down() -> None:
    cargo = came(on_the_road({"haul.cargo_coils": 1, "haul.cargo_on": CargoOn.OTHER}), *TWO)
    done = plan(cargo)
    assert done.figures["haul.cargo"].value == 2300 + 1950
    one = plan(on_the_road()).figures["haul.ties_needed"].value
    assert done.figures["haul.ties_needed"].value > one
    # One without a weight: nothing is lighter than as ordered.
    half = came(on_the_road(RACK), TWO[0], arrival(tag="R-2", mass=None, weighed=None))
    assert round(plan(half).figures["haul.rack"].value) == 2475
    (finding,) = said(half, "haul.came_as_several")
    assert "not each has its weight" in finding.what
    more = came(half, *[arrival(tag=f"R-{n}", mass=mass, weighed=None)
                        for n, mass in enumerate((1500.0, 1600.0, None), 1)])
    assert plan(more).figures["haul.rack"].value == 1500 + 1600, "what is known of it is more"
    assert "at least 3,100 lb (came at 1,500 lb, 1,600 lb and 1 of no known weight)" in (
        render("haul", plan(more), "md")), "the card says of no coil less than its loads count"


def test_one_that_nobody_said_what_it_is_makes_nothing_lighter() -> None:
    """Beside one that is said to be another coil it is no second of the first; it hangs on the
    gear at what it weighs all the same."""
    said_other = arrival(tag="R-1", coil=2, mass=900.0, weighed=None)
    job = with_arrived(on_the_road(RACK), said_other,
                       arrival(tag="R-2", mass=2700.0, weighed=None),
                       arrival(tag="R-3", mass=1000.0, weighed=None))
    assert said(job, "haul.came_as_several") == []
    assert plan(job).figures["haul.rack"].value == 2700
    # Both put down as a coil that the order has not, or has no more, are in no load.
    (finding,) = said(came(on_the_road(RACK), *[arrival(tag=f"R-{n}", coil=2) for n in (1, 2)]),
                      "haul.came_as_several")
    assert "Coil 2 of the order came as 2, and this order has no such coil" in finding.what
