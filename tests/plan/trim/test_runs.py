"""Blanks run by run: each edge has its own laps and its own last piece."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.roof import (
    Building,
    Measured,
    MeasuredTo,
    Opening,
    OpeningWhat,
    Plane,
)
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import Plan, plan
from coilwright.plan.trim_short import without_slivers
from coilwright.store import StoreError, read_model, to_text
from tests.cases import building, set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import whole_jobs
from tests.plan.trim.test_trim import SHEET, gable, piece, with_trim
from tests.values.written import check


def laid(run: float, lap: float, blank: float) -> list[float]:
    """Blanks laid one after the other along a run until it is covered, the last cut short."""
    pieces, covered = [min(run, blank)], min(run, blank)
    while covered < run - 1e-6:
        size = min(blank, run - covered + lap)
        pieces.append(size)
        covered += size - lap
    return pieces


def sizes(done: Plan, number: int = 0) -> list[float]:
    return sorted((size for size, n in done.trim[number].sizes for _ in range(n)), reverse=True)


def test_eight_rakes_are_eight_runs() -> None:
    """161 in each: one of 120 in and one of 45. In one line they would be 12 pieces, not 16."""
    done = gable(piece("Rake", 9.0, length=8 * 161.0, runs=8))
    (row,) = done.trim
    assert row.count.value == 16
    assert sizes(done) == [120.0] * 8 + [45.0] * 8
    assert row.cut.value == 8 * (161 + 4)
    assert row.area.value == 8 * 165 * 9
    (nest,) = done.nests
    assert nest.length.value == 4 * 120 + 4 * 45, "two side by side on the strip of 21 in"
    assert gable(piece("Rake", 9.0, length=8 * 161.0)).trim[0].count.value == 12


def test_a_run_no_longer_than_a_blank_is_one_piece_of_its_length() -> None:
    done = gable(piece("Sill", 6.0, length=3 * 80.0, runs=3))
    assert sizes(done) == [80.0] * 3


def test_rakes_of_a_gable_are_four_runs() -> None:
    """24 ft and two overhangs of 12 in, 6:12: each slope 13 ft · √1.25 = 174.41 in."""
    done = gable(piece("Rake", 6.0, kind=EdgeKind.RAKE))
    run = done.figures["edges.rake"].value / 4
    assert run == pytest.approx(174.41, abs=0.01)
    assert sizes(done) == pytest.approx([120.0] * 4 + [run - 116] * 4)


def test_a_ridge_two_planes_share_is_one_run_and_hips_are_counted_once() -> None:
    done = plan(with_trim(building(Building.HIP), piece("Hip cap", 12.0, kind=EdgeKind.HIP),
                          piece("Ridge cap", 12.0, kind=EdgeKind.RIDGE)))
    hips = done.figures["edges.hip"].value
    each = laid(hips / 4, 4.0, 120.0)
    assert sizes(done) == pytest.approx(sorted(each * 4, reverse=True))
    ridge = laid(done.figures["edges.ridge"].value, 4.0, 120.0)
    assert sizes(done, 1) == pytest.approx(sorted(ridge, reverse=True))


def test_sheets_take_short_rows_where_they_fit() -> None:
    """Sixteen blanks 24 in wide on 48 in sheets of 10 ft: 4 rows of 120 in, 4 of 45."""
    done = gable(piece("Rake", 24.0, length=8 * 161.0, runs=8, **SHEET))
    (nest,) = done.nests
    assert (nest.rows.value, nest.length.value) == (8, 660)
    assert nest.sheets is not None
    assert nest.sheets.value == 6


def test_planes_alike_beyond_those_paired_still_count() -> None:
    """Twenty planes alike of 16 ft, ridges of two by two: ten runs."""
    plane = dataclasses.replace(small_gable().roof.planes[0], alike=20)
    job = dataclasses.replace(
        small_gable(), roof=dataclasses.replace(small_gable().roof, planes=(plane,)))
    done = plan(with_trim(job, piece("Cap", 12.0, kind=EdgeKind.RIDGE),
                          piece("Eave", 6.0, kind=EdgeKind.EAVE)))
    assert done.figures["trim.1.run1.count"].value == 10
    assert done.figures["trim.2.run1.count"].value == 20


def test_runs_are_kept_in_the_file_and_old_files_have_one() -> None:
    job = with_trim(small_gable(), piece("Rake", 9.0, length=800.0, runs=8))
    assert read_model(to_text(job), Job, "job") == job
    assert '"runs"' not in to_text(with_trim(small_gable(), piece("Rake", 9.0, length=800.0)))
    with pytest.raises(StoreError, match="runs"):
        read_model(to_text(job).replace('"runs": 8', '"runs": 0'), Job, "job")


@given(whole_jobs(), st.sampled_from(list(EdgeKind)), st.floats(0, 12), st.floats(60, 240),
       st.sampled_from(list(TrimFrom)))
@settings(max_examples=draws(60), deadline=None)
def test_any_roof_run_by_run(
    job: Job, kind: EdgeKind, lap: float, blank: float, metal: TrimFrom
) -> None:
    """The runs add up to the edges of that kind; blanks cover each; the figures hold."""
    one = TrimPiece(name="P", flat_width=4.0, kind=kind, made_from=metal, width=20.0)
    done = plan(with_trim(job, one, lap=lap, blank=blank, sheet_length=240.0))
    if not done.trim:
        return
    runs, number = [], 1
    while f"trim.1.run{number}.length" in done.figures:
        runs += [done.figures[f"trim.1.run{number}.length"].value] * int(
            done.figures[f"trim.1.run{number}.count"].value)
        number += 1
    edges = done.figures[f"edges.{kind.name.lower()}"].value
    # An edge under 6 in gets no piece, and that is said.
    if any(finding.key == "trim.1.sliver" for finding in done.findings):
        assert sum(runs) < edges
        assert min(runs) >= 6.0 - 1e-6
    else:
        assert sum(runs) == pytest.approx(edges, rel=1e-6)
    wanted = [size for run in runs for size in laid(run, lap, blank)]
    assert sizes(done) == pytest.approx(sorted(wanted, reverse=True), abs=1e-4)
    for figure in done.figures.values():
        if figure.formula is not None and figure.key.startswith("trim."):
            check(figure)


def test_a_sliver_of_an_edge_at_a_flush_corner_gets_no_piece() -> None:
    """Overhangs of 16 and 12 in differ by 4 in at the wing: 4 5/8 in up the slope of 7:12."""
    job = building(Building.GABLED_ELL, length=528.0, width=312.0, pitch=7.0, eave_overhang=16.0,
                   rake_overhang=12.0, wing_width=216.0, wing_projection=120.0)
    done = plan(with_trim(job, piece("Rake", 9.0, kind=EdgeKind.RAKE)))
    sliver = 4 * math.hypot(12, 7) / 12
    assert min(sizes(done)) > 12.0
    made = [done.figures[f"trim.1.run{n}.length"].value * done.figures[f"trim.1.run{n}.count"].value
            for n in range(1, 10) if f"trim.1.run{n}.length" in done.figures]
    assert done.figures["edges.rake"].value - sum(made) == pytest.approx(sliver)
    (said,) = [one for one in done.findings if one.key == "trim.1.sliver"]
    assert said.what == "“Rake” is not made for 1 edge of 4 5/8 in."
    alone = ((5.0, 2),)
    assert without_slivers(piece("Rake", kind=EdgeKind.RAKE), alone) == alone, "it has no neighbor"
    # Overhangs that differ by more make an edge that is worth a piece.
    wide = plan(with_trim(set_answers(job, {"roof.eave_overhang": 18.0}),
                          piece("Rake", 9.0, kind=EdgeKind.RAKE)))
    assert not [one for one in wide.findings if one.key == "trim.1.sliver"]
    assert min(sizes(wide)) == pytest.approx(6 * math.hypot(12, 7) / 12, abs=1e-5)


@pytest.mark.parametrize(("run", "says"), [
    (236.0, ""), (240.0, "8 in long; 2 blanks of 10 ft nearly reach"), (248.0, ""),
])
def test_a_run_a_little_longer_than_whole_blanks_is_said(run: float, says: str) -> None:
    """Two blanks of 120 in reach 236 in with a lap of 4; for 240 in a third is 8 in, lap and all.
    Two of 122 in reach too, and so do 120, 64 and 64 in."""
    done = gable(piece("Eave", 6.0, length=run))
    said = [one for one in done.findings if one.key == "trim.1.short_last"]
    assert bool(said) is bool(says)
    if not says:
        return
    assert min(sizes(done)) == run - 2 * 116
    assert f"the last piece of a run is {says}" in said[0].what
    assert "Blanks of 10 ft 2 in spare that piece" in said[0].do
    assert "the last two alike, 5 ft 4 in each" in said[0].do
    assert 2 * 122 - 4 == 120 + 64 + 64 - 2 * 4 == run


def test_a_plane_of_its_own_keeps_its_lone_ridge() -> None:
    job = dataclasses.replace(
        small_gable(), roof=dataclasses.replace(
            small_gable().roof, planes=(dataclasses.replace(small_gable().roof.planes[0],
                                                            alike=1),)))
    assert isinstance(job.roof.planes[0], Plane)
    done = plan(with_trim(job, piece("Cap", 12.0, kind=EdgeKind.RIDGE)))
    assert done.figures["trim.1.run1.count"].value == 1


def test_flashing_goes_around_each_opening_of_its_kind() -> None:
    """A chimney of 3 by 2 ft is 3 + 3 + 2 + 2 = 10 ft around; two skylights are 12 ft each. Up
    the slope is true in a building's faces; in a plane measured in plan it is drawn longer."""
    chimney = Opening(what=OpeningWhat.CHIMNEY, left=60.0, up=60.0, width=36.0, height=24.0,
                      on="Side 1", to=MeasuredTo.MIDDLE)
    skylights = Opening(what=OpeningWhat.SKYLIGHT, left=120.0, up=40.0, width=24.0, height=48.0,
                        count=2, apart=60.0, on="Side 2")
    job = building(Building.GABLE)
    job = dataclasses.replace(
        job, roof=dataclasses.replace(job.roof, building_openings=(chimney, skylights)))
    done = plan(with_trim(job, piece("Chimney", 16.0, around=OpeningWhat.CHIMNEY),
                          piece("Skylights", 16.0, around=OpeningWhat.SKYLIGHT),
                          piece("Vents", 12.0, around=OpeningWhat.VENT)))
    # Each side laps the next by 4 in at its corner, as each piece of a long side does.
    assert [(row.number, row.cut.value) for row in done.trim] == [(1, 136.0), (2, 2 * 160.0)]
    assert (done.figures["around.chimneys"].value, done.figures["around.skylights"].value) == (
        120.0, 288.0)
    assert sizes(done, 0) == [40.0, 40.0, 28.0, 28.0]
    assert any(f.what == "“Vents” is not needed: the roof has no vent." for f in done.findings)
    level = Plane(eave=400.0, slope_length=200.0, pitch=9.0, measured=Measured.PLAN,
                  openings=(Opening(left=50.0, up=50.0, width=30.0, height=40.0),))
    flat = plan(with_planes(small_gable(), level)).figures["around.others"]
    assert flat.value == pytest.approx(2 * (30 + 40 * 1.25))
