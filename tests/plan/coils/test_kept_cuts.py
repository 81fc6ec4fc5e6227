"""Cuts of a longer search kept with the job: the same order again, held to the job each time."""

from __future__ import annotations

import dataclasses
import datetime
import math
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.split import Batch
from coilwright.job.edit import give, keep_found
from coilwright.job.found_cuts import FoundCoil, FoundCuts, FoundPanels
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.plan import Plan, plan, replan
from coilwright.plan.coils.cuts import (
    QUICK,
    Effort,
    Question,
    Shared,
    found_cuts,
    kept_cuts,
    share_out,
)
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.proof_words import is_proven, proof_line
from coilwright.store import read_model, to_text
from tests.draws import draws
from tests.wizard.test_least_metal import unproven

LONGER = Effort(0.3)


def found_for(job: Job) -> Plan:
    done = replan(job, 1.0)
    assert done.found is not None, "the case must leave something to search for"
    return done


def again(job: Job) -> Plan:
    """The plan of the job as its file gives it."""
    return plan(read_model(to_text(job), Job, "job"))


def order(done: Plan) -> list[object]:
    """What is ordered and what is cut from where, in numbers."""
    return [*((c.number, c.length.value, c.mass.value, c.cuts) for c in done.coils),
            *((c.key, c.taken.value, c.left.value, c.cuts) for c in done.from_stock)]


class TestTheSameOrder:
    def test_from_the_file_figures_sheets_and_json_are_the_same(self) -> None:
        quick, found = plan(unproven()), found_for(unproven())
        assert found.figures["coil.length_ordered"].value < quick.figures[
            "coil.length_ordered"].value
        done = again(keep_found(found.job, found.found))
        assert order(done) == order(found)
        assert {k: f.value for k, f in done.figures.items()} == {
            k: f.value for k, f in found.figures.items()}
        assert done.found == found.found

    def test_a_job_without_it_writes_none(self) -> None:
        assert "found_cuts" not in to_text(unproven())
        assert plan(unproven()).found is None

    def test_a_change_of_the_job_leaves_them_out_until_it_is_undone(self) -> None:
        found = found_for(unproven())
        kept = keep_found(found.job, found.found)
        changed = give(kept, "coils.spare", 0.07)
        done, plain = plan(changed), plan(give(unproven(), "coils.spare", 0.07))
        assert order(done) == order(plain)
        assert done.found is None
        assert order(plan(give(changed, "coils.spare", kept.coils.spare))) == order(found)
        assert order(plan(give(kept, "job.name", "Another name"))) == order(found)

    def test_searching_again_keeps_what_was_found(self) -> None:
        found = found_for(unproven())
        kept = keep_found(found.job, found.found)
        stopped = replan(kept, 5.0, canceled=lambda: True)
        assert order(stopped) == order(found)
        assert stopped.found == found.found


@st.composite
def questions(draw: st.DrawFn) -> Question:
    """Panels on eighths of an inch, strips on hand, new coils that take the longest panel."""
    lengths = draw(st.lists(st.integers(300, 3000), min_size=1, max_size=7, unique=True))
    batches = tuple(Batch(i % 2, n / 8, draw(st.integers(1, 9))) for i, n in enumerate(lengths))
    rooms = tuple(n / 8 for n in draw(st.lists(st.integers(200, 9000), max_size=5)))
    usable = draw(st.integers(3000, 16000)) / 8
    return Question(batches, usable, draw(st.sampled_from([0.0, 36.0, 71.5])), rooms,
                    draw(st.sampled_from([60.0, 120.0])))


def holds(question: Question, shared: Shared) -> None:
    """Every panel once, no coil overfilled, the metal what the new coils take."""
    cut: Counter[tuple[int, float]] = Counter()
    for room, cuts in [*((question.rooms[n], cuts) for n, cuts in shared.on_hand),
                       *((question.usable, cuts) for cuts in shared.new)]:
        assert math.fsum(b.length * b.count for b in cuts) <= room + 1e-6
        for b in cuts:
            cut[b.plane, b.length] += b.count
    assert cut == {(b.plane, b.length): b.count for b in question.batches}
    metal = math.fsum(b.length * b.count for cuts in shared.new for b in cuts)
    assert shared.metal == pytest.approx(metal + question.loss * len(shared.new))


class TestHeldToTheJob:
    @given(questions())
    @settings(max_examples=draws(60), deadline=None)
    def test_through_the_file_it_is_the_same_and_never_worse(self, question: Question) -> None:
        longer, _ = share_out(question, LONGER)
        found = read_model(to_text(keep_found(Job(), found_cuts(question, longer))), Job,
                           "job").found_cuts
        kept, more = share_out(question, QUICK, found)
        quick, none = share_out(question)
        assert none is None
        holds(question, kept)
        assert (kept.on_hand, kept.new) == (longer.on_hand, longer.new)
        assert more == (None if (quick.on_hand, quick.new) == (kept.on_hand, kept.new) else found)
        assert kept.metal == pytest.approx(longer.metal)
        # Only what the quick bounds prove is claimed.
        assert kept.bound == pytest.approx(min(kept.metal, quick.bound))
        assert longer.proven or not kept.proven
        assert kept.metal <= quick.metal + 1e-6
        assert kept.bound >= quick.bound - 1e-6

    @given(questions(), st.data())
    @settings(max_examples=draws(80), deadline=None)
    def test_whatever_a_file_says_the_plan_holds(
        self, question: Question, data: st.DataObject
    ) -> None:
        """Cuts moved about at random, and claims made up: demand met, nothing overfilled."""
        longer, _ = share_out(question, LONGER)
        true = found_cuts(question, longer)
        places = st.integers(-1, len(question.batches))
        coils = st.lists(st.builds(
            FoundCoil, on_hand=st.none() | st.integers(-1, 5),
            cuts=st.lists(st.tuples(places, st.integers(-1, 9)), max_size=4).map(tuple),
        ), max_size=5).map(tuple)
        false = dataclasses.replace(
            true,
            coils=data.draw(coils | st.permutations(true.coils).map(tuple)),
            bound=data.draw(st.floats(-1e4, 1e5)),
            proven=data.draw(st.booleans()),
            proven_coils=data.draw(st.booleans()),
        )
        shared, _ = share_out(question, QUICK, false)
        quick = share_out(question)[0]
        holds(question, shared)
        assert shared.metal <= quick.metal + 1e-6
        assert shared.bound <= min(shared.metal, longer.metal) + 1e-6
        assert not shared.least or shared.metal <= longer.metal + 1e-6
        if shared.proven and shared.metal >= longer.metal - 1e-6:
            assert len(shared.new) <= len(longer.new)

    @pytest.mark.slow
    def test_a_file_that_claims_a_proof_is_not_believed(self) -> None:
        """The quick cuts, which are not the best there are, written down as proven."""
        longer = found_for(unproven())
        assert longer.found is not None
        kept = longer.found
        question = Question(
            tuple(Batch(p.plane, p.length, p.count) for p in kept.panels), kept.usable,
            kept.loss, kept.rooms, kept.keep)
        quick = share_out(question)[0]
        false = dataclasses.replace(
            found_cuts(question, quick), bound=quick.metal, proven=True, proven_coils=True
        )
        done = again(keep_found(unproven(), false))
        assert done.proof is not None
        assert not done.proof.proven
        assert done.proof.gap.value == pytest.approx(plan(unproven()).figures["coil.gap"].value)
        assert done.figures["coil.gap"].value > 0
        assert done.figures["coil.least_metal"].note == "more may be needed"
        assert not is_proven(done)
        gap = done.proof.gap.text(done.job.units)
        assert proof_line(done).startswith(f"Within {gap} (")
        (said,) = [f.what for f in done.findings if f.key == "coils.unproven"]
        assert f"within {gap} (" in said
        came = dataclasses.replace(done.job, life=Life(steps=(
            LifeStep(state=OrderState.DELIVERED, date=datetime.date(2027, 3, 4)),)))
        assert "coils.unproven" not in {f.key for f in plan(came).findings}, "too late to search"
        # What no figure shows is no gap to search in: "within 0 in (0 lb)" had been one.
        sixteenth = dataclasses.replace(done.proof.gap, value=1 / 16)
        tape = dataclasses.replace(done.proof.gap, value=1 / 64)
        assert not dataclasses.replace(done.proof, gap=sixteenth).is_least
        least = dataclasses.replace(done, proof=dataclasses.replace(done.proof, gap=tape))
        assert "Within" not in proof_line(least)
        # Searching again finds the better cuts, and proves them by the bounds.
        truly = replan(done.job, 1.0)
        assert order(truly) == order(longer)
        assert truly.proof is not None
        assert truly.proof.proven

    def test_a_panel_just_as_long_as_a_new_coil_is_never_refused(self) -> None:
        """Three such panels and a strip on hand that takes one of another length."""
        odd = 100 * math.sqrt(2)
        for rooms in ((), (71.0,), (odd,)):
            question = Question((Batch(0, odd, 3), Batch(1, 70.3, 1)), odd, 10.0, rooms, 60.0)
            shared, _ = share_out(question)
            holds(question, shared)
            assert len(shared.new) + len(shared.on_hand) == 4

    def test_another_question_is_not_answered(self) -> None:
        question = Question((Batch(0, 100.0, 4), Batch(1, 70.0, 3)), 250.0, 10.0, (150.0,), 60.0)
        found = found_cuts(question, share_out(question)[0])
        assert kept_cuts(question, found) is not None
        others = (
            {"usable": 251.0}, {"loss": 11.0}, {"keep": 61.0}, {"rooms": (150.0, 80.0)},
            {"rooms": ()}, {"batches": (Batch(0, 100.0, 4),)},
            {"batches": (Batch(0, 100.0, 5), Batch(1, 70.0, 3))},
            {"batches": (Batch(0, 100.0, 4), Batch(2, 70.0, 3))},
        )
        for other in others:
            fields = {k: getattr(question, k) for k in question.__slots__}
            assert kept_cuts(Question(**{**fields, **other}), found) is None, other

    def test_by_hand_what_does_not_hold_is_not_used(self) -> None:
        """Four panels of 100 in; new coils take 250 in, one strip on hand 150 in."""
        question = Question((Batch(0, 100.0, 4),), 250.0, 10.0, (150.0,), 60.0)

        def kept(*coils: tuple[int | None, int]) -> Shared | None:
            return kept_cuts(question, FoundCuts(
                usable=250.0, loss=10.0, keep=60.0, rooms=(150.0,),
                panels=(FoundPanels(plane=0, length=100.0, count=4),),
                coils=tuple(FoundCoil(on_hand=n, cuts=((0, c),)) for n, c in coils)))

        good = kept((0, 1), (None, 2), (None, 1))
        assert good is not None
        assert good.metal == 320.0
        assert not good.proven
        for bad in (((0, 2), (None, 2)), ((0, 1), (None, 3)), ((0, 1), (None, 2)),
                    ((0, 1), (0, 1), (None, 2)), ((1, 1), (None, 2), (None, 1)),
                    ((0, 1), (None, 2), (None, 2)), ((0, 1), (None, 2), (None, 1), (None, 0))):
            assert kept(*bad) is None, bad


@pytest.mark.slow
def test_summary_and_sheets_of_the_file_give_the_same_order() -> None:
    found = found_for(unproven())
    done = again(keep_found(found.job, found.found))
    assert summary_data(done)["figures"] == summary_data(found)["figures"]
    for kind in ("order", "run", "summary"):
        assert render(kind, done, "md") == render(kind, found, "md")
