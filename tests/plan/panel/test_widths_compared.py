"""Coverage widths compared: each row is the plan of that width, nothing else."""

from __future__ import annotations

import dataclasses

import pytest

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.metal import MetalName, Shade
from coilwright.job.panel import Pan
from coilwright.job.quotes import Quote, QuoteSection
from coilwright.job.roof import Building
from coilwright.plan import plan
from coilwright.plan.panel.compare import compare, compared, seam_length, widths
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.wizard.steps.panel.widths import about_row
from tests.cases import building, set_answers, small_gable
from tests.generated import ENGINEERED
from tests.plan.coils.stock import coil, with_coils
from tests.work import within


def test_every_inch_of_the_profile_within_the_strip_limits() -> None:
    """Profile 12 to 24 in; strips 15 to 30 in less 5 in take-up: up to 24 in."""
    assert widths(small_gable()) == tuple(float(n) for n in range(12, 25))
    narrow = set_answers(small_gable(), {"machine.widest_strip": 24.0})
    assert widths(narrow)[-1] == 19


def test_half_inches_both_ends_and_the_jobs_own() -> None:
    job = set_answers(small_gable(), {
        "machine.profile_narrowest": 14.25, "machine.profile_widest": 16.75,
        "panel.coverage": 15.625})  # fmt: skip
    assert widths(job) == (14.25, 14.5, 15, 15.5, 15.625, 16, 16.5, 16.75)


def test_the_report_is_a_limit() -> None:
    job = set_answers(small_gable(), ENGINEERED)
    assert widths(job)[-1] == 18


def test_metric_widths_go_by_round_millimeters() -> None:
    job = dataclasses.replace(small_gable(), units=System.METRIC)
    inner = [w for w in widths(job) if w not in (12, 16, 24)]
    assert inner
    assert all(abs(w * 25.4 / 20 - round(w * 25.4 / 20)) < 1e-9 for w in inner)


def test_without_a_range_there_is_nothing_to_compare() -> None:
    assert compare(new_job()) == ()
    assert compare(set_answers(small_gable(), {"machine.profile_widest": None})) == ()


@pytest.mark.parametrize("job", [small_gable(), building(Building.HIP),
                                 demo_jobs()["quarry-house-hip"]])  # fmt: skip
def test_a_row_is_the_plan_of_that_width(job: Job) -> None:
    rows = compare(job)
    assert sum(row.chosen for row in rows) == 1
    for row in rows:
        done = plan(set_answers(job, {"panel.coverage": row.coverage}))
        for figure, key in ((row.mass, "coil.mass_ordered"), (row.panels, "panels.count"),
                            (row.strip, "strip.width"), (row.length, "coil.length_ordered")):
            assert figure is not None
            assert figure.value == done.figures[key].value


def test_seams_by_hand() -> None:
    """504 in at 16 in: 32 panels, 31 seams of 216 in a side; at 24 in: 21 panels, 20 seams."""
    rows = {row.coverage: row for row in compare(small_gable())}
    assert rows[16].seams is not None
    assert rows[24].seams is not None
    assert rows[16].seams.value == 2 * 31 * 216
    assert rows[24].seams.value == 2 * 20 * 216
    assert not any("more seam" in said for said in rows[24].against)
    # 2·216·(31 − 20) = 4752 in = 396 ft
    assert any(said.startswith("396 ft more seam") for said in rows[16].against)
    # In metric the total beside it is read in hundredths of a meter, and so is this.
    metric = {row.coverage: row for row in compare(
        dataclasses.replace(small_gable(), units=System.METRIC))}
    assert metric[16].seams is not None
    assert metric[16].seams.text(System.METRIC) == "340.16 m"
    assert any(said.startswith("120.70 m more seam") for said in metric[16].against)
    read = [said.partition(" m more seam")[0] for row in metric.values() for said in row.against
            if "more seam" in said]
    assert min(map(float, read)) < 100
    assert all(number[-3] == "." for number in read)
    # Of planes whose pitch nobody knows no seam is known: that is not none of them.
    steep = set_answers(building(Building.HIP), {"roof.pitch": None})
    assert [row.seams for row in compare(steep)] == [None] * len(rows)


def test_seams_on_a_triangle() -> None:
    """A hip end 288 in wide: a seam at x is min(x, 288 − x)·(height/144) long."""
    done = plan(set_answers(building(Building.HIP), {"panel.coverage": 16.0}))
    end = next(p for p in done.planes if len(p.outline) == 3)
    wide = max(x for x, _ in end.outline)
    high = max(y for _, y in end.outline)
    edges = sorted({panel.x0 for panel in end.panels})[1:]
    true = sum(min(x, wide - x) * high / (wide / 2) for x in edges)
    assert seam_length(end.panels) == pytest.approx(true)


def test_slit_drop_by_hand() -> None:
    """48 in gives two 21 in strips, 6 in over: 3 in for each, times length, times 0.2833·0.0236."""
    rows = compare(set_answers(small_gable(), {"coils.master": 48.0, "coils.edge_trim": 0.0}))
    row = next(r for r in rows if r.coverage == 16)
    assert row.slit_drop is not None
    assert row.length is not None
    assert row.slit_drop.value == pytest.approx(3 * row.length.value * 0.2833 * 0.0236)
    narrow = compare(set_answers(small_gable(), {"coils.master": 20.0}))
    row = next(r for r in narrow if r.coverage == 16)
    assert row.slit_drop is None
    assert any("wider than the master" in said for said in row.against)


def test_what_argues_against_a_wide_flat_pan() -> None:
    thin = set_answers(small_gable(), {"metal.thickness": 0.0187})
    rows = {row.coverage: row for row in compare(thin)}
    assert any("flat pan" in said for said in rows[24].against)
    assert not any("flat pan" in said for said in rows[12].against)
    # A note comes with the width too: the table says it before the width is taken.
    dark = set_answers(small_gable(), {"metal.shade": Shade.DARK, "panel.pan": Pan.FLAT})
    rows = {row.coverage: row for row in compare(dark)}
    assert any("in a dark color shows its waves" in said for said in rows[20].against)
    assert not any("dark color" in said for said in rows[12].against)
    for row in rows.values():
        taken = plan(set_answers(dark, {"panel.coverage": row.coverage}))
        assert {f.what for f in taken.findings if "panel.coverage" in f.answers} <= {*row.against}


def test_a_coil_on_hand_argues_only_where_another_width_could_use_it() -> None:
    coils = (coil("A", 310), coil("C", 310, metal=MetalName.ZINC), coil("N", 310, width=16.0))
    rows = {row.coverage: row for row in compare(with_coils(small_gable(), *coils))}
    assert [said for said in rows[16].against if "on hand" in said] == []
    (said,) = [said for said in rows[17].against if "on hand" in said]
    assert said == "Coil “A” on hand is not used: it is 21 in wide; the strip is 22 in."


def test_a_tested_assembly_without_a_known_width_is_no_clearance() -> None:
    known = set_answers(small_gable(), ENGINEERED)
    for lacking in ("panel.report_widest", "panel.report"):
        for row in compare(set_answers(known, {lacking: None})):
            assert any("no tested width is known" in said for said in row.against)
    for job in (known, small_gable()):
        assert not any("no tested width" in said for row in compare(job) for said in row.against)


def test_cost_where_the_price_is_known() -> None:
    assert all(row.cost is None for row in compare(small_gable()))
    priced = compare(set_answers(small_gable(), {"coils.price": 1.5}))
    assert all(row.cost and row.mass and row.cost.value == pytest.approx(row.mass.value * 1.5)
               for row in priced)  # fmt: skip


def test_kept_for_the_same_job_and_stopped_when_asked() -> None:
    job = small_gable()
    assert compare(job) is compare(small_gable())
    assert compare(set_answers(job, {"coils.spare": 0.05})) is not compare(job)
    assert list(compared(job, canceled=lambda: True)) == []


def test_a_comparison_is_soon_there() -> None:
    assert len(within(200_000, lambda: list(compared(small_gable())))) == 13


def test_where_sizes_are_bought_it_says_what_each_width_takes_before() -> None:
    """Every width had cost the same two coils, and nothing told which takes less metal."""
    sized = Quote(supplier="Tern Hill (invented)", awarded=True, coil_masses=(2500.0,))
    job = dataclasses.replace(small_gable(), quotes=QuoteSection(received=(sized,)))
    rows = {row.coverage: row for row in compare(job)}
    free = {row.coverage: row for row in compare(small_gable())}
    alike = [row for row in rows.values() if row.mass and round(row.mass.value) == 2500]
    assert len(alike) > 5
    assert all(row.takes is None for row in free.values())
    for width, row in rows.items():
        alone = free[width].mass
        assert row.takes is not None
        assert alone is not None
        assert row.takes.value == pytest.approx(alone.value, abs=1.0)
    assert len({round(row.takes.value) for row in alike if row.takes is not None}) > 5
    # Two coils of 1,201 lb or one of 2,347 lb are none of 2,500 lb: what is not sold has no cost.
    unsold = [row for row in rows.values() if row.mass is None]
    assert [row.coverage for row in unsold] == [12, 13]
    for row in unsold:
        assert (row.length, row.cost, row.slit_drop) == (None, None, None)
        assert row.against[0].startswith("The size sold does not fit this width: ")
        assert "would be ordered, and it sells coils of 2,500 lb and no others" in row.against[0]
        assert not any(line.startswith("Ordered are") for line in about_row(row, System.US))
