"""Masters compared where the supplier slits to width: by hand, and with what is not known."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.coils import Slitting
from coilwright.job.job import Job
from coilwright.job.metal import MetalName
from coilwright.job.stock import CoilOnHand
from coilwright.plan import plan
from coilwright.store.reader import from_data, to_data
from coilwright.values.finding import Level
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import partial_jobs
from tests.plan.coils.slit_jobs import CAP, DRIP, slit_job
from tests.values.written import check

SHEET = 0.2833 * 0.0236
"""Weight of the gable's sheet [lb/in²]: steel's density by its thickness."""


def test_nothing_is_worked_out_without_a_master() -> None:
    done = plan(small_gable())
    assert done.slits == ()
    assert not any(key.startswith("slit") for key in (*done.figures, *done.lacks))
    assert plan(slit_job()).slits == ()


def test_two_strips_across_by_hand() -> None:
    """48 − 1/2 holds two 21 in strips: half the order's length of master, 6 in of it lost."""
    done = plan(slit_job(48.0, coils__price=1.4))
    (one,) = done.slits
    ordered = done.figures["coil.length_ordered"].value
    assert one.strips.value == 2
    assert one.mass.value == pytest.approx(48 * ordered / 2 * SHEET)
    assert one.width.value == pytest.approx(6)
    assert one.share.value == pytest.approx(6 / 48)
    assert one.drop_mass.value == pytest.approx(6 * ordered / 2 * SHEET)
    assert one.money is not None
    assert one.money.value == pytest.approx(1.4 * 6 * ordered / 2 * SHEET)


@pytest.mark.parametrize("answer", [None, Slitting.SUPPLIER])
def test_slit_to_width_the_order_is_strips_and_the_drop_is_not_in_it(
    answer: Slitting | None
) -> None:
    """Masters change nothing of the order: no passes, no drop, the same coils and weight."""
    bare, done = plan(slit_job()), plan(slit_job(48.0, coils__slitting=answer))
    assert [(c.length.value, c.mass.value, c.cuts) for c in done.coils] == [
        (c.length.value, c.mass.value, c.cuts) for c in bare.coils]
    assert done.ordered_slit is None
    assert done.slits
    assert [line.name for line in done.account] == [line.name for line in bare.account]
    assert done.figures["coil.mass_ordered"].value == bare.figures["coil.mass_ordered"].value


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
    assert len(plan(slit_job(43.0, 43.0, 48.0)).slits) == 2


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


def test_masters_and_edge_trim_hold_no_order_back_that_is_slit_to_width() -> None:
    assert plan(slit_job(48.0, edge=None)).ready
    assert plan(guess(slit_job(48.0), "coils.master", "coils.edge_trim")).ready


@pytest.mark.parametrize(
    ("key", "marked"),
    [("coils.master", {48.0}), ("coils.master_2", {43.0}), ("coils.edge_trim", {48.0, 43.0}),
     ("panel.take_up", {48.0, 43.0})],
)
def test_a_guess_marks_what_rests_on_it(key: str, marked: set[float]) -> None:
    for one in plan(guess(slit_job(48.0, 43.0, trim=(DRIP,)), key)).slits:
        told = {f.standing for f in (one.mass, one.drop_mass)}
        assert told == {Standing.GUESS if one.master.value in marked else Standing.SURE}


def test_coils_on_hand_leave_only_what_is_ordered() -> None:
    job = slit_job(48.0, trim=(DRIP,))
    coil = CoilOnHand(tag="A", metal=MetalName.STEEL, coating=job.metal.coating, thickness=0.0236,
                      thickness_basis=job.metal.thickness_basis, width=21.0, color="slate",
                      length=4000.0)  # fmt: skip
    done = plan(dataclasses.replace(job, on_hand=(coil,)))
    assert done.from_stock
    (one,) = done.slits
    assert one.length.value == pytest.approx(done.figures["coil.length_ordered"].value / 2)
    enough = dataclasses.replace(coil, length=240_000.0)
    done = plan(dataclasses.replace(job, on_hand=(enough,)))
    assert done.from_stock
    assert done.slits == ()


def test_every_figure_agrees_with_the_equation_beside_it() -> None:
    for answer in Slitting:
        done = plan(slit_job(48.0, 43.0, 36.0, trim=(DRIP, CAP), coils__price=1.4,
                             coils__slitting=answer))
        told = [f for key, f in done.figures.items() if key.startswith(("slit.", "coil."))]
        assert len([f for f in told if f.formula]) > 25
        for figure in told:
            if figure.formula:
                check(figure)


def test_masters_are_kept_with_the_job() -> None:
    job = slit_job(48.0, 43.0, 36.5, 60.0, coils__slitting=Slitting.PASSES,
                   coils__master_heaviest=12_000.0)
    data = to_data(job)
    assert [data["coils"][k] for k in ("master", "master_2", "master_3", "edge_trim")] == [
        "48 in", "43 in", "36 1/2 in", "1/2 in"]
    assert data["coils"]["slitting"] == "these masters, these passes"
    assert from_data(data, Job) == job


@settings(max_examples=draws(40), deadline=None)
@given(
    partial_jobs(), st.lists(st.one_of(st.none(), st.floats(6, 100)), min_size=4, max_size=4),
    st.one_of(st.none(), st.floats(0, 12)), st.sampled_from([None, *Slitting]),
)
def test_any_job_can_have_masters(
    jobs: tuple[Job, Job], masters: list[float | None], edge: float | None,
    slitting: Slitting | None,
) -> None:
    keys = ("coils.master", "coils.master_2", "coils.master_3", "coils.master_4")
    for job in jobs:
        asked = set_answers(job, {**dict(zip(keys, masters, strict=True)),
                                  "coils.edge_trim": edge, "coils.slitting": slitting})
        done = plan(asked)
        if slitting is Slitting.PASSES:
            continue
        bare = plan(set_answers(asked, dict.fromkeys((*keys, "coils.edge_trim"))))
        assert {k: f for k, f in done.figures.items()
                if not k.startswith(("slit.", "coils.master", "coils.edge_trim"))}.keys() \
            == bare.figures.keys()
        assert done.guesses == bare.guesses
