"""An order in passes: strands as long as their pass, held to limits, all that is needed there."""

from __future__ import annotations

import dataclasses
import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import Value
from coilwright.job.coils import Slitting
from coilwright.job.job import Job
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import Plan, plan
from coilwright.plan.coils import passes
from coilwright.plan.coils.run import run_of
from coilwright.plan.purchases import BuyWhat
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.values.finding import Level
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers
from tests.draws import draws
from tests.plan.coils.slit_jobs import CAP, DRIP, RAKE, slit_job

PASSES = {"coils.slitting": Slitting.PASSES}


def quarry(*masters: float, **more: Value | None) -> Job:
    """Quarry House ordered in passes of these masters."""
    keys = ("coils.master", "coils.master_2", "coils.master_3", "coils.master_4")
    return set_answers(demo_jobs()["quarry-house-hip"], {
        **dict(zip(keys, masters, strict=False)), "coils.edge_trim": 0.5, **PASSES,
        **{name.replace("__", "."): value for name, value in more.items()}})


def hold(done: Plan) -> None:
    """What must hold of any order in passes, by the plan's figures alone."""
    slit = done.ordered_slit
    assert slit is not None
    figures, job = done.figures, done.job
    edge, over = figures["coils.edge_trim"].value, (
        job.coils.tolerance if job.coils.tolerance_over is None else job.coils.tolerance_over)
    assert over is not None
    lengths = {coil.number: coil.length.value for coil in done.coils}
    seen: list[int] = []
    for one in slit.passes:
        for strand in one.strands:
            if strand.coil is not None:
                seen.append(strand.coil)
                assert lengths[strand.coil] == one.length.value, "as long as the pass"
        wide = sum(strand.width.value for strand in one.strands)
        assert wide <= slit.master.value - edge + 1e-6
        assert one.drop.value == pytest.approx(slit.master.value - wide)
        if job.coils.master_heaviest is not None:
            assert one.mass.value <= job.coils.master_heaviest * (1 + 1e-6)
    assert sorted(seen) == sorted(lengths), "each coil is one strand"
    for coil in done.coils:
        assert coil.length.value * (1 + over) <= figures["coil.longest"].value * (1 + 1e-6)
        losses = figures["machine.thread_up"].value + figures["machine.tail"].value
        if coil.cuts:
            need = sum(c.length * c.count for c in coil.cuts) * (1 + figures["coils.spare"].value)
            short = coil.length.value * (1 - figures["coils.tolerance"].value)
            assert short >= (need + losses) * (1 - 1e-9), "the short end covers it"
    wanted = {(g.length, p.number): g.count for p in done.planes for g in p.groups}
    cut: dict[tuple[float, int], int] = {}
    for one_coil in (*done.from_stock, *done.coils):
        for c in one_coil.cuts:
            if c.plane:
                cut[c.length, c.plane] = cut.get((c.length, c.plane), 0) + c.count
    assert cut == wanted, "every panel is cut once"
    for nest in done.nests:
        if nest.made_from is TrimFrom.OTHER_COIL and nest.thickness is None and not slit.left_out:
            given = sum(one.length.value for one in slit.passes for strand in one.strands
                        if strand.coil is None and strand.width.value == nest.width.value)
            assert given * (1 - figures["coils.tolerance"].value) >= nest.length.value * (
                1 + figures["coils.spare"].value) * (1 - 1e-9)
    sheet = figures["metal.sheet_mass"].value
    area = slit.master.value * sum(one.length.value for one in slit.passes)
    assert figures["coil.mass_ordered"].value == pytest.approx(area * sheet)
    assert not done.from_stock
    parts = sum(line.mass.value for line in done.account)
    assert parts == pytest.approx(area * sheet), "the account adds up to the master"


def test_quarry_house_from_a_master_of_43_in() -> None:
    """Three coils two across would wind a fourth: four even ones take two passes of 800 ft."""
    done = plan(quarry(43.0))
    hold(done)
    slit = done.ordered_slit
    assert slit is not None
    assert [[s.coil is not None for s in one.strands] for one in slit.passes] == [[True, True]] * 2
    assert len(done.coils) == 4
    assert all(coil.cuts for coil in done.coils)
    longest = done.figures["coil.strand_longest"].value
    assert longest == pytest.approx(done.figures["coil.longest"].value / 1.1)
    # 43 in less twice 20 5/8 in, of every pass; and no other order of strips takes 1 % less.
    assert {one.drop.value for one in slit.passes} == {1.75}
    assert done.proof is not None
    assert done.proof.least.value < slit.length.value < done.proof.least.value * 1.01
    parts = {line.name: line.mass.value for line in done.account}
    assert parts["drop by slitting"] == pytest.approx(
        1.75 * slit.length.value * done.figures["metal.sheet_mass"].value)


@pytest.mark.slow
def test_no_length_stands_on_the_sheets_that_no_coil_has() -> None:
    """The order's passes and coils are one set of lengths, on every sheet and in the JSON."""
    done = plan(quarry(43.0))
    order = render("order", done, "text")
    assert "1,579" not in order
    assert "1,578" not in order
    for coil in done.coils:
        assert coil.length.text(done.job.units) in order
    assert "these passes" not in order
    assert "43 in masters" in order
    data = json.loads(json.dumps(summary_data(done)))
    by_number = {c["number"]: c["length"]["value"] for c in data["coils"]}
    (ordered,) = [s for s in data["slitting"] if s["ordered"]]
    assert {strand["coil"]: one["length"]["value"] for one in ordered["passes"]
            for strand in one["strands"]} == by_number
    slit_to_width = plan(set_answers(quarry(43.0), {"coils.slitting": Slitting.SUPPLIER}))
    for kind in ("order", "summary"):
        text = render(kind, slit_to_width, "text")
        assert "1,578" not in text
        assert "1,579" not in text
    assert "master" not in render("order", slit_to_width, "text").casefold()


def test_trim_rides_beside_the_strip() -> None:
    """A 4 in coil for trim lies in what two 21 in strips leave of 48 in: no master more."""
    narrow = TrimPiece(name="Drip", kind=DRIP.kind, flat_width=4.0, made_from=TrimFrom.OTHER_COIL,
                       width=4.0)
    bare, done = (plan(slit_job(48.0, trim=trim, coils__slitting=Slitting.PASSES))
                  for trim in ((), (narrow,)))
    hold(done)
    assert bare.ordered_slit is not None
    slit = done.ordered_slit
    assert slit is not None
    assert slit.length.value == pytest.approx(bare.ordered_slit.length.value)
    assert slit.drop_mass.value < bare.ordered_slit.drop_mass.value
    (bought,) = [line for line in done.buy if line.what is BuyWhat.TRIM_COIL]
    assert bought.length.value in {one.length.value for one in slit.passes}
    parts = {line.name: line.mass.value for line in done.account}
    assert parts["trim beside the strip"] == pytest.approx(bought.mass.value)
    assert sum(parts.values()) == pytest.approx(done.figures["coil.mass_ordered"].value)


def test_quarry_house_with_trim_beside() -> None:
    job = quarry(48.0)
    piece = TrimPiece(name="Hip cover", flat_width=6.0, length=2400.0, width=6.0,
                      made_from=TrimFrom.OTHER_COIL)
    job = set_answers(dataclasses.replace(job, trim=dataclasses.replace(job.trim, pieces=(piece,))),
                      {"trim.blank": 120.0, "trim.lap": 4.0, "job.trim_in_house": "yes"})
    done = plan(job)
    hold(done)
    assert done.ordered_slit is not None
    assert any(strand.coil is None for one in done.ordered_slit.passes for strand in one.strands)


def test_trim_of_another_thickness_comes_as_it_is() -> None:
    thick = dataclasses.replace(CAP, thickness=0.04)
    done = plan(slit_job(60.0, trim=(thick,), coils__slitting=Slitting.PASSES))
    assert done.ordered_slit is not None
    assert done.ordered_slit.left_out == ("coil for trim 16 in",)


def test_one_strip_across_is_one_coil_a_pass() -> None:
    done = plan(slit_job(36.0, coils__slitting=Slitting.PASSES))
    hold(done)
    slit = done.ordered_slit
    assert slit is not None
    assert [len(one.strands) for one in slit.passes] == [1] * len(done.coils)


def test_the_master_with_the_least_metal_is_ordered() -> None:
    done = plan(quarry(36.0, 48.0, 43.0))
    hold(done)
    assert done.slits[0].master.value == 43
    assert [bool(slit.passes) for slit in done.slits] == [True, False, False]
    masses = [slit.mass.value for slit in done.slits]
    assert masses == sorted(masses)


def test_a_light_master_makes_shorter_passes() -> None:
    heavy, light = plan(quarry(43.0)), plan(quarry(43.0, coils__master_heaviest=900.0))
    hold(light)
    assert light.ordered_slit is not None
    assert heavy.ordered_slit is not None
    assert len(light.ordered_slit.passes) > len(heavy.ordered_slit.passes)
    stopped = plan(quarry(43.0, coils__master_heaviest=50.0))
    assert [f.level for f in stopped.findings if f.key == "slit.none"] == [Level.STOP]
    assert stopped.coils == ()


def test_a_master_too_narrow_stops_an_order_in_passes() -> None:
    done = plan(slit_job(20.0, coils__slitting=Slitting.PASSES))
    assert {f.key for f in done.stops} >= {"slit.narrow1", "slit.none"}
    assert not done.ready


def test_edge_trim_and_masters_hold_an_order_in_passes() -> None:
    job = slit_job(48.0, coils__slitting=Slitting.PASSES)
    assert "coils.edge_trim" in plan(set_answers(job, {"coils.edge_trim": None})).open_answers
    marked = plan(guess(job, "coils.master"))
    assert "coils.master" in marked.guesses
    assert {coil.length.standing for coil in marked.coils} == {Standing.GUESS}


def test_a_strand_too_many_is_said_and_not_run(monkeypatch: pytest.MonkeyPatch) -> None:
    """With no sharing but the first, three coils two across wind a fourth."""
    monkeypatch.setattr(passes, "_sharings", lambda shared, *_: [shared])
    done = plan(quarry(43.0))
    hold(done)
    assert [bool(coil.cuts) for coil in done.coils] == [True, True, True, False]
    assert "slit.surplus" in {f.key for f in done.findings}
    assert len(run_of(done).coils) == 3
    assert sum(line.mass.value for line in done.account) == pytest.approx(
        done.figures["coil.mass_ordered"].value)
    for kind in ("order", "run", "receiving", "haul", "summary"):
        assert render(kind, done, "text")


def test_a_drop_wide_enough_for_trim_is_said() -> None:
    done = plan(slit_job(48.0, trim=(DRIP,), coils__slitting=Slitting.PASSES))
    (finding,) = [f for f in done.findings if f.key == "slit.beside"]
    assert "Eave drip" in finding.what


@settings(max_examples=draws(40), deadline=None)
@given(
    coverage=st.integers(24, 40), masters=st.lists(st.integers(60, 130), min_size=1, max_size=3),
    flat_widths=st.lists(st.integers(8, 30), max_size=2, unique=True),
    edge=st.sampled_from([0.0, 0.5]),
    heaviest=st.sampled_from([None, 1500.0, 6000.0]), arbor=st.sampled_from([700.0, 2500.0]),
)
def test_any_order_in_passes_holds(
    coverage: int, masters: list[int], flat_widths: list[int], edge: float, heaviest: float | None,
    arbor: float,
) -> None:
    trim = tuple(
        TrimPiece(name=f"Piece {g}", flat_width=g / 2, length=900.0 * (n + 1),
                  made_from=TrimFrom.OTHER_COIL, width=g / 2)
        for n, g in enumerate(flat_widths)
    )
    done = plan(slit_job(
        *(m / 2 for m in masters), edge=edge, trim=trim, panel__coverage=coverage / 2,
        machine__narrowest_strip=8.0, machine__arbor_load=arbor,
        coils__master_heaviest=heaviest, coils__slitting=Slitting.PASSES))
    if done.coils:
        hold(done)
    else:
        assert done.stops


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("master", [43.0, 48.0, 60.0])
def test_coils_trim_and_drop_add_up_to_the_master_on_the_page(
    master: float, system: System
) -> None:
    """What a supplier adds up: two coils of 1,135 lb and a drop of 54 lb are 2,324 lb of master."""
    for trim in ((), (DRIP, RAKE, CAP)):
        job = slit_job(master, trim=trim, coils__slitting=Slitting.PASSES)
        text = render("order", plan(dataclasses.replace(job, units=system)), "text", 400)

        def pounds(pattern: str, text: str = text) -> float:
            return sum(float(one.replace(",", "")) for one in re.findall(pattern, text))

        number, unit = r"([\d,.]+)", "lb" if system is System.US else "kg"
        parts = (pounds(rf"Total of these coils: .*?, {number} {unit}\.")
                 + pounds(rf"coil for trim; .* weight each {number} {unit}")
                 + pounds(rf"The drop, {number} {unit}"))
        assert parts == pytest.approx(pounds(rf"{number} {unit} of master in all"), abs=0.51)
        assert trim or parts == pounds(rf"{number} {unit} of master in all")
