"""What comes with the program: invented machines and demo jobs, and what they are there for."""

from __future__ import annotations

from coilwright.plan import plan
from coilwright.sheets.state import state_of
from coilwright.store.shipped import demo_jobs, machines
from coilwright.units import Kind, System, show
from tests.rules import for_each


def test_the_machines_differ_in_what_they_hold() -> None:
    found = machines()
    assert len(found) >= 4
    assert all(m.invented and "invented" in m.name for m in found.values())
    assert {m.arbors for m in found.values()} == {0, 1, 2}
    assert any(m.decoiler_load for m in found.values())
    assert len({frozenset(m.forms) for m in found.values()}) >= 3
    # One has a plate in whole millimeters and kilograms, as it is sold where jobs are metric.
    metric = found["two-arbor-metric"]
    for size in (metric.narrowest_strip, metric.widest_strip, metric.rack_diameter,
                 *(p.widest for p in metric.profiles), *(p.take_up for p in metric.profiles)):
        assert size is not None
        assert show(size, Kind.WIDTH, System.METRIC).removesuffix(" mm").isdecimal()
    assert metric.arbor_load is not None
    assert show(metric.arbor_load, Kind.MASS, System.METRIC) == "1200 kg"


def test_the_demo_jobs_say_that_they_are_invented() -> None:
    assert len(demo_jobs()) >= 3
    assert all("invented" in job.about for job in demo_jobs().values())


def test_the_barn_is_ready_and_comes_from_one_coil() -> None:
    made = plan(demo_jobs()["heron-lane-barn"])
    assert made.ready
    assert state_of(made) == "READY"
    assert len(made.coils) == 1


def test_the_hip_is_governed_by_diameter() -> None:
    made = plan(demo_jobs()["quarry-house-hip"])
    assert made.governing is not None
    assert made.governing.key == "diameter"
    assert len(made.coils) > 1
    assert not made.ready
    assert len(made.guesses) >= 15


@for_each([
    "roof.under_profile", "metal.unlike", "metal.color_unconfirmed",
    "panel.outside_report_coverage", "panel.outside_report_thickness", "machine.take_up",
    "machine.strip", "machine.coverage", "machine.inside", "metal.gauge_differs",
    "metal.thin_coating", "metal.salt_air", "panel.oil_canning", "coils.minimum",
    "metal.custom_color", "roof.snap_lock_flat", "panel.outside_report_deck",
    "panel.outside_report_clip_spacing", "panel.open_framing", "panel.oil_canning_dark",
    "job.panel_too_long", "coils.late", "coils.wet_storage", "metal.film_sun",
])
def test_the_mistakes_are_caught(finding: str) -> None:
    made = plan(demo_jobs()["mill-row-mistakes"])
    assert finding in {f.key for f in made.findings}
