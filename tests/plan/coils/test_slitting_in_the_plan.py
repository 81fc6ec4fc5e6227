"""Slitting as a plan has it: by hand, against a linear program, and with what is not known."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from coilwright.calc.slitting import slit
from coilwright.job.job import Job
from coilwright.job.metal import MetalName
from coilwright.job.stock import CoilOnHand
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import Plan, SlitPlan, plan
from coilwright.plan.coils import slitting
from coilwright.store.reader import from_data, to_data
from coilwright.values.figure import Figure
from coilwright.values.finding import Level
from coilwright.values.standing import Standing
from tests.calc.cutting.references import all_patterns
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import partial_jobs
from tests.plan.coils.slit_jobs import CAP, DRIP, RAKE, slit_job
from tests.values.written import check

SHEET = 0.2833 * 0.0236
"""Weight of the gable's sheet [lb/in²]: steel's density by its thickness."""


def alone(done: Plan) -> list[SlitPlan]:
    return [s for s in done.slits if not s.beside]


def test_nothing_is_worked_out_without_a_master() -> None:
    done = plan(small_gable())
    assert done.slits == ()
    assert not any(key.startswith("slit") for key in (*done.figures, *done.lacks))
    assert plan(slit_job()).slits == ()


def test_a_strip_alone_by_hand() -> None:
    """48 − 1/2 holds two 21 in strips: half the order's length of master, 6 in of it lost."""
    done = plan(slit_job(48.0, coils__price=1.4))
    (one,) = done.slits
    ordered = done.figures["coil.length_ordered"].value
    assert one.strips.value == 2
    assert one.length.value == pytest.approx(ordered / 2)
    assert one.mass.value == pytest.approx(48 * ordered / 2 * SHEET)
    assert one.width.value == pytest.approx(6)
    assert one.share.value == pytest.approx(6 / 48)
    assert one.drop_mass.value == pytest.approx(6 * ordered / 2 * SHEET)
    assert one.money is not None
    assert one.money.value == pytest.approx(1.4 * 6 * ordered / 2 * SHEET)
    (set_up,) = one.set_ups
    assert set_up.across == ((0, 2),)
    assert set_up.drop.value == pytest.approx(6)
    assert one.proven


def test_no_price_no_money() -> None:
    assert [s.money for s in plan(slit_job(48.0)).slits] == [None]


def test_edge_trim_decides_whether_half_the_master_fits() -> None:
    """Two strips of 24 in fill 48 in exactly: with half an inch off the edges only one fits."""
    wide = {"panel__coverage": 19.0}
    assert plan(slit_job(48.0, edge=0.0, **wide)).slits[0].strips.value == 2
    one = plan(slit_job(48.0, edge=0.5, **wide)).slits[0]
    assert one.strips.value == 1
    assert one.width.value == pytest.approx(24)


def test_the_least_metal_comes_first_and_a_width_twice_counts_once() -> None:
    """Two strips of 21 leave 1 in of 43, 6 in of 48, 18 in of 60; of 36 one strip leaves 15."""
    done = plan(slit_job(36.0, 48.0, 43.0, 60.0))
    assert [s.master.value for s in done.slits] == [43, 48, 60, 36]
    masses = [s.mass.value for s in done.slits]
    assert masses == sorted(masses)
    drops = [s.drop_mass.value for s in done.slits]
    assert drops == sorted(drops), "the same strip from all, so the least metal is the least drop"
    assert len(plan(slit_job(43.0, 43.0, 48.0)).slits) == 2


def test_trim_from_the_strip_and_beside_it_by_hand() -> None:
    """Two eaves of 42 ft, each 4 pieces of 10 ft and one of 40 in, lap 4 in.

    Three drips of 5 1/2 in lie on a 21 in strip: eight whole ones take 3 rows, with room for one
    of the two short ones; the other takes a row of 40 in. 400 in of strip.

    Beside the strip of a 48 in master, 5 1/2 in fills what 42 in leave of 47 1/2: no metal more.
    """
    done = plan(slit_job(48.0, trim=(DRIP,)))
    beside = next(s for s in done.slits if s.beside)
    (strip_only,) = alone(done)
    bare = plan(slit_job(48.0)).figures["coil.length_ordered"].value
    # 3 rows of 120 in and one of 40, 3 % spare, 10 % short
    grossed = 1.03 / 0.9
    ordered = done.figures["coil.length_ordered"].value
    assert ordered == pytest.approx(bare + 400 * grossed)
    assert strip_only.length.value == pytest.approx(ordered / 2)
    strip, drip = beside.strands
    assert strip.length.value == pytest.approx(bare)
    assert drip.length.value == pytest.approx(2 * (504 + 4 * 4) * grossed)
    assert beside.length.value == pytest.approx(bare / 2), "the drip costs no metal"
    assert done.slits[0] is beside
    saved = done.figures["slit.1.beside.saves"]
    assert saved.value == pytest.approx(400 * grossed / 2 * 48 * SHEET)
    (finding,) = [f for f in done.findings if f.key == "slit.beside"]
    assert finding.level is Level.NOTE
    assert saved.text() in finding.what


def test_beside_the_strip_is_said_only_where_it_saves() -> None:
    """A flat width of 21 in is a strip: slit beside it, it takes as much of the master."""
    wide = dataclasses.replace(DRIP, flat_width=21.0)
    assert not any(f.key == "slit.beside" for f in plan(slit_job(48.0, trim=(wide,))).findings)


def test_flat_widths_alike_are_one_strand() -> None:
    twin = dataclasses.replace(RAKE, name="Wall", flat_width=5.5)
    beside = next(s for s in plan(slit_job(48.0, trim=(DRIP, twin))).slits if s.beside)
    assert [strand.width.value for strand in beside.strands] == [21, 5.5]
    # Two eaves of 504 in with 4 laps each, four rakes of 216 in with one.
    assert beside.strands[1].length.value == pytest.approx((2 * 520 + 4 * 220) * 1.03 / 0.9)
    assert beside.strands[1].name == "Eave drip, Wall"


def test_another_coil_for_trim_is_a_strand_as_wide_as_it_is() -> None:
    (one,) = plan(slit_job(48.0, trim=(CAP,))).slits
    # A ridge of 42 ft takes 4 caps of 10 ft and one of 40 in, one to a row of a 16 in coil.
    assert [strand.width.value for strand in one.strands] == [21, 16]
    assert one.strands[1].length.value == pytest.approx(520 * 1.03 / 0.9)
    assert one.left_out == ()


def test_another_coil_too_wide_for_the_masters_comes_as_it_is() -> None:
    wide = dataclasses.replace(CAP, width=47.75)
    (one,) = plan(slit_job(48.0, trim=(wide,))).slits
    assert len(one.strands) == 1
    assert one.left_out == ("other coil for trim 47 3/4 in",)
    # Each master must give the same, or their metal could not be compared.
    both = plan(slit_job(48.0, 60.0, trim=(wide,))).slits
    assert {len(s.strands) for s in both} == {1}


def test_flat_sheets_are_not_slit() -> None:
    flat = dataclasses.replace(CAP, made_from=TrimFrom.FLAT_SHEET, width=None)
    done = plan(slit_job(48.0, trim=(flat,), trim__sheet_width=48.0, trim__sheet_length=120.0))
    assert [len(s.strands) for s in done.slits] == [1]


def test_a_master_too_narrow_is_said() -> None:
    done = plan(slit_job(20.0, 21.4))
    assert done.slits == ()
    told = {f.key: f for f in done.findings if f.key.startswith("slit.")}
    assert {f.level for f in told.values()} == {Level.CARE}
    assert set(told) == {"slit.narrow1", "slit.narrow2"}
    assert "21.4 in less 1/2 in of edge trim" in told["slit.narrow2"].what
    one_fits = plan(slit_job(20.0, 21.5))
    assert [s.master.value for s in one_fits.slits] == [21.5]
    (note,) = [f for f in one_fits.findings if f.key.startswith("slit.")]
    assert (note.key, note.level) == ("slit.narrow1", Level.NOTE)


def test_what_it_waits_for_is_named() -> None:
    """No edge trim stands in without a word: it can decide how many strips there are."""
    done = plan(slit_job(48.0, edge=None))
    assert done.slits == ()
    assert done.lacks["slit.drop_mass"].needs == ("coils.edge_trim",)
    done = plan(slit_job(48.0, edge=None, panel__take_up=None))
    assert set(done.lacks["slit.drop_mass"].needs) >= {"coils.edge_trim", "panel.take_up"}


def test_masters_and_edge_trim_hold_no_order_back() -> None:
    assert plan(slit_job(48.0, edge=None)).ready
    assert plan(guess(slit_job(48.0), "coils.master", "coils.edge_trim")).ready


@pytest.mark.parametrize(
    ("key", "marked"),
    [("coils.master", {48.0}), ("coils.master_2", {43.0}), ("coils.edge_trim", {48.0, 43.0}),
     ("panel.take_up", {48.0, 43.0})],
)
def test_a_guess_marks_what_rests_on_it(key: str, marked: set[float]) -> None:
    for one in plan(guess(slit_job(48.0, 43.0, trim=(DRIP,)), key)).slits:
        told = {f.standing for f in (one.length, one.mass, one.width, one.drop_mass, one.least,
                                     one.set_ups[0].length, one.set_ups[0].drop)}  # fmt: skip
        assert told == {Standing.GUESS if one.master.value in marked else Standing.SURE}


def test_coils_on_hand_leave_only_what_is_ordered() -> None:
    job = slit_job(48.0, trim=(DRIP,))
    coil = CoilOnHand(tag="A", metal=MetalName.STEEL, coating=job.metal.coating, thickness=0.0236,
                      thickness_basis=job.metal.thickness_basis, width=21.0, color="slate",
                      length=4000.0)  # fmt: skip
    done = plan(dataclasses.replace(job, on_hand=(coil,)))
    assert done.from_stock
    (one,) = done.slits
    assert not one.beside
    assert one.length.value == pytest.approx(done.figures["coil.length_ordered"].value / 2)
    enough = dataclasses.replace(coil, length=240_000.0)
    done = plan(dataclasses.replace(job, on_hand=(enough,)))
    assert done.from_stock
    assert done.slits == ()


def test_every_figure_agrees_with_the_equation_beside_it() -> None:
    done = plan(slit_job(48.0, 43.0, 36.0, trim=(DRIP, RAKE, CAP), coils__price=1.4))
    told = [f for key, f in done.figures.items() if key.startswith("slit.")]
    assert len([f for f in told if f.formula]) > 40
    for figure in told:
        if figure.formula:
            check(figure)


def test_the_same_job_gives_the_same_slitting() -> None:
    job = slit_job(48.0, 43.0, trim=(DRIP, RAKE, CAP))

    def said() -> list[object]:
        slitting._found.cache_clear()
        return [
            (s.key, s.length.value, s.proven, [(u.across, u.length.value) for u in s.set_ups])
            for s in plan(job).slits
        ]

    assert said() == said()


def test_masters_are_kept_with_the_job() -> None:
    job = slit_job(48.0, 43.0, 36.5, 60.0)
    data = to_data(job)
    assert [data["coils"][k] for k in ("master", "master_2", "master_3", "edge_trim")] == [
        "48 in", "43 in", "36 1/2 in", "1/2 in"]
    assert from_data(data, Job) == job


def strands_hold(one: SlitPlan, edge: float) -> None:
    """No set-up is wider than the master between its edges, and every strand is long enough."""
    got = [0.0] * len(one.strands)
    for set_up in one.set_ups:
        wide = sum(one.strands[i].width.value * n for i, n in set_up.across)
        assert wide <= one.master.value - edge + 1e-6
        assert set_up.drop.value == pytest.approx(one.master.value - wide, abs=1e-9)
        for index, count in set_up.across:
            got[index] += set_up.length.value * count
    for length, strand in zip(got, one.strands, strict=True):
        assert length >= strand.length.value * (1 - 1e-9)
    needed = sum(strand.width.value * strand.length.value for strand in one.strands)
    area = one.master.value * one.length.value
    assert one.drop.value == pytest.approx(area - needed, abs=area * 1e-9)


@settings(max_examples=draws(40), deadline=None)
@given(
    coverage=st.integers(24, 40), masters=st.lists(st.integers(72, 120), min_size=1, max_size=3),
    edge=st.sampled_from([0, 1, 2]),
    flat_widths=st.lists(st.integers(5, 30), max_size=3, unique=True),
)
def test_it_is_the_least_a_linear_program_finds(
    coverage: int, masters: list[int], edge: int, flat_widths: list[int]
) -> None:
    """Widths in halves of an inch; HiGHS is given every pattern of strands."""
    trim = tuple(
        TrimPiece(name=f"Piece {g}", flat_width=g / 2, length=300.0 * (n + 1))
        for n, g in enumerate(flat_widths) if g <= coverage + 10
    )
    job = slit_job(*(m / 2 for m in masters), edge=edge / 2, trim=trim,
                   panel__coverage=coverage / 2, machine__narrowest_strip=8.0)
    done = plan(job)
    assert {s.master.value for s in done.slits} == {
        m / 2 for m in masters if m - edge >= coverage + 10}
    for one in done.slits:
        strands_hold(one, edge / 2)
        room = round(2 * one.master.value) - edge
        widths = [round(2 * strand.width.value) for strand in one.strands]
        patterns = all_patterns(widths, [room] * len(widths), room)
        needed = [strand.length.value for strand in one.strands]
        least = linprog(np.ones(len(patterns)), A_ub=-np.array(patterns, dtype=float).T,
                        b_ub=[-n for n in needed])
        assert one.proven
        assert one.length.value == pytest.approx(least.fun, rel=1e-6)


@settings(max_examples=draws(30), deadline=None)
@given(
    st.floats(30, 60), st.floats(0, 2),
    st.lists(st.tuples(st.floats(2, 24), st.floats(10, 20_000)), min_size=1, max_size=3),
)
def test_widths_on_no_step_are_near_the_least_and_the_bound_is_under_it(
    master: float, edge: float, widths: list[tuple[float, float]]
) -> None:
    """Any floats at all, as strands from a metric drawing: patterns are counted to a millionth."""
    found = slit(master, edge, widths)
    assert found is not None
    tiny = 1e-6
    steps = [round(w / tiny) for w, _ in widths]
    room = int((master - edge) / tiny)
    patterns = all_patterns(steps, [1000] * len(steps), room)
    least = linprog(np.ones(len(patterns)), A_ub=-np.array(patterns, dtype=float).T,
                    b_ub=[-n for _, n in widths])
    assert found.bound <= least.fun * master * (1 + 1e-6)
    assert found.ordered >= least.fun * master * (1 - 1e-6)
    if found.proven:
        assert found.ordered == pytest.approx(least.fun * master, rel=1e-5)


def test_a_strip_in_millimeters_is_proven_too() -> None:
    """533 mm from a 1220 mm master, 10 mm of edges: two across, 154 mm left."""
    done = plan(slit_job(1220 / 25.4, edge=10 / 25.4, panel__coverage=406 / 25.4,
                         panel__take_up=127 / 25.4))
    (one,) = done.slits
    assert one.proven
    assert one.strips.value == 2
    assert one.width.value == pytest.approx(154 / 25.4)


@settings(max_examples=draws(40), deadline=None)
@given(
    partial_jobs(), st.lists(st.one_of(st.none(), st.floats(6, 100)), min_size=4, max_size=4),
    st.one_of(st.none(), st.floats(0, 12)),
)
def test_any_job_can_have_masters(
    jobs: tuple[Job, Job], masters: list[float | None], edge: float | None
) -> None:
    keys = ("coils.master", "coils.master_2", "coils.master_3", "coils.master_4")
    for job in jobs:
        asked = set_answers(job, {**dict(zip(keys, masters, strict=True)),
                                  "coils.edge_trim": edge})
        done = plan(asked)
        bare = plan(set_answers(asked, dict.fromkeys((*keys, "coils.edge_trim"))))
        assert {k: f for k, f in done.figures.items()
                if not k.startswith(("slit.", "coils.master", "coils.edge_trim"))}.keys() \
            == bare.figures.keys()
        assert done.guesses == bare.guesses
        if edge is None or not any(masters):
            assert done.slits == ()
        for one in done.slits:
            assert edge is not None
            strands_hold(one, edge)
            for field in dataclasses.fields(one):
                value = getattr(one, field.name)
                if isinstance(value, Figure):
                    assert value.value >= -1e-3
