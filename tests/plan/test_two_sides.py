"""How far under and how far over a coil may come: two answers, each where it counts.

The gable worked by hand: 64 panels of 18 ft 1 in, strip of 1.68484 lb/ft, spare 3 %, thread-up
and tail 10 ft. (1,157.33·1.03 + 10)/(1 − 0) = 1,202.05 ft, 2,025.3 lb; over 0.9 it is 1,335.61 ft,
2,250.3 lb.
"""

from __future__ import annotations

import dataclasses
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.job import Job
from coilwright.plan import Plan, plan
from coilwright.plan.order_limits import heaviest_coil, largest_coil
from coilwright.sheets.order_body import ordered_coils
from coilwright.units import Kind, System, show
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import whole_jobs


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


def test_max_weight_is_no_more_than_the_supplier_ships() -> None:
    """2,250.3 lb come at 2,475.3 lb by 10 % over; 2,025.3 lb, with none over, are read as 2,025."""
    for under, over, heaviest, said in (
        (0.10, 0.10, 2400.0, "2,400 lb"), (0.10, 0.10, 2475.5, "2,475 lb"),
        (0.0, 0.0, 2025.6, "2,025 lb"), (0.0, 0.0, 2400.0, "2,025 lb"),
    ):
        made = done(under, over, supplier_heaviest=heaviest)
        assert f", max {said}, max OD" in ordered_coils(made)[1]


_LIMITS = ("coils.supplier_heaviest", "coils.site_lift", "machine.arbor_load", "machine.rack_load",
           "machine.decoiler_load", "machine.rack_diameter", "machine.decoiler_diameter")


def _at_a_limit(job: Job, key: str, about: float) -> Job:
    """The job with one limit so near what its first coil is that rounding could bring it over."""
    made = plan(job)
    if not made.coils or made.coils[0].mass.value < 300:  # a limit of less nothing real has
        return job
    coil = made.coils[0]
    limit = (coil.outside_diameter if key.endswith("diameter") else coil.mass).value * about
    return set_answers(job, {
        key: limit * (job.machine.arbors or 1) if key == "machine.rack_load" else limit})


@given(whole_jobs(guesses=False), st.sampled_from(System), st.sampled_from(_LIMITS),
       st.sampled_from((1.0, 1.00005, 1.03)), st.sampled_from((0.0, 0.1)))
@settings(max_examples=draws(40))
def test_no_coil_is_ordered_over_what_holds_it(
    job: Job, system: System, key: str, about: float, over: float
) -> None:
    """As the order prints it: after all rounding, with the over side of its tolerance."""
    job = dataclasses.replace(set_answers(job, {"coils.tolerance_over": over}), units=system)
    made = plan(_at_a_limit(job, key, about))
    on, machine = made.job.coils.coil_on, made.job.machine
    rack = on is None or on.is_rack
    loads = [made.job.coils.supplier_heaviest, made.job.coils.site_lift,
             machine.arbor_load if rack else machine.decoiler_load]
    if rack and machine.arbors != 1:
        loads.append(machine.rack_load / machine.arbors)  # type: ignore[operator]
    place = machine.rack_diameter if rack else machine.decoiler_diameter
    for coil in made.coils:
        most, across = heaviest_coil(made, coil), largest_coil(made, coil)
        assert most.as_read(system) <= min(one for one in loads if one is not None) * (1 + 1e-9)
        assert across.as_read(system) <= place * (1 + 1e-9)  # type: ignore[operator]
        assert coil.mass.as_read(system) <= most.as_read(system) * (1 + 1e-9)
        assert coil.outside_diameter.as_read(system) <= across.as_read(system) * (1 + 1e-9)
        assert re.search(rf", max {re.escape(show(most.as_read(system), Kind.MASS, system))}, ",
                         ordered_coils(made)[coil.number])
