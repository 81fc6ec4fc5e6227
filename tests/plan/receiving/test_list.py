"""The list of coils that arrived: what can be one, changes to it, and its file."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.choices import YesNo
from coilwright.job.edit import give_typed
from coilwright.job.job import Job
from coilwright.job.metal import MetalSection
from coilwright.job.receiving import MOST_READINGS, REAL, Arrival, Fault
from coilwright.job.rows import arrivals as edit_arrivals
from coilwright.store import StoreError, read_model, to_text
from coilwright.units import System
from coilwright.wizard.lists.arrivals import ARRIVALS, MEASURES
from tests.draws import draws
from tests.plan.receiving.arrivals import GOOD, arrival, with_arrived


def tags(job: Job) -> list[str]:
    return [a.tag for a in job.arrived]


class TestOne:
    @pytest.mark.parametrize("name", [n for n in REAL if n != "thickness"])
    def test_sizes_nothing_real_has_are_refused(self, name: str) -> None:
        low, high = REAL[name]
        for value in (low, high):
            assert getattr(arrival(**{name: value}), name) == value
        for value in (-1.0, high * 1.01, *([low * 0.99] if low else [])):
            with pytest.raises(ValueError, match=f"R-1.*{name.replace('_', ' ')} must be from"):
                arrival(**{name: value})

    def test_readings_and_tag(self) -> None:
        with pytest.raises(ValueError, match="thickness must be from"):
            arrival(thickness=(0.024, 0.3))
        with pytest.raises(ValueError, match="readings"):
            arrival(thickness=(0.024,) * (MOST_READINGS + 1))
        with pytest.raises(ValueError, match="tag"):
            arrival(tag="   ")

    def test_diameters_that_do_not_go_together_are_no_error_but_a_finding(self) -> None:
        assert arrival(outside=18.0).outside == 18.0


class TestChanges:
    def test_add_replace_delete(self) -> None:
        job = edit_arrivals.add(Job(), arrival(tag="A"), arrival(tag="B"))
        job = edit_arrivals.replace(job, 1, arrival(tag="C"))
        assert tags(job) == ["A", "C"]
        assert tags(edit_arrivals.delete(job, 0)) == ["C"]
        assert tags(Job()) == []

    @pytest.mark.parametrize("index", [-1, 1, 5])
    def test_none_there(self, index: int) -> None:
        job = with_arrived(Job(), arrival())
        with pytest.raises(IndexError):
            edit_arrivals.replace(job, index, arrival())
        with pytest.raises(IndexError):
            edit_arrivals.delete(job, index)

    def test_what_was_typed_follows_its_coil(self) -> None:
        job = with_arrived(Job(), arrival(tag="A"), arrival(tag="B"), arrival(tag="C"))
        job = dataclasses.replace(
            job,
            typed={
            "arrived.0.width": "a", "arrived.2.width": "c", "trim.pieces.0.flat_width": "t",
            "panel.leg": "x"},
        )
        less = edit_arrivals.delete(job, 1)
        assert less.typed == {"arrived.0.width": "a", "arrived.1.width": "c",
                              "trim.pieces.0.flat_width": "t", "panel.leg": "x"}
        assert edit_arrivals.delete(less, 1).typed == {
            "arrived.0.width": "a", "trim.pieces.0.flat_width": "t", "panel.leg": "x"}

    def test_a_new_one_has_a_tag_of_its_own_and_the_next_place(self) -> None:
        job = Job()
        for _ in range(3):
            job = edit_arrivals.add(job, edit_arrivals.new_arrival(job))
        assert tags(job) == ["Arrival 1", "Arrival 2", "Arrival 3"]
        assert not any(a.is_tagged for a in job.arrived)
        assert [a.coil for a in job.arrived] == [1, 2, 3]
        job = edit_arrivals.delete(job, 1)
        again = edit_arrivals.new_arrival(job)
        assert (again.tag, again.coil) == ("Arrival 4", 2)
        assert edit_arrivals.new_arrival(job, 3).coil == 2
        assert edit_arrivals.new_arrival(job, 1).coil is None, "one is ordered, and is there"


class TestFile:
    def test_saved_and_opened_the_same(self) -> None:
        job = with_arrived(Job(), arrival(faults=(Fault.WET, Fault.EDGE), remark="“odd” <b>"),
                           Arrival(tag="bare"))
        job = dataclasses.replace(job, typed={"arrived.1.thickness": "thin"})
        assert read_model(to_text(job), Job, "x") == job

    def test_a_job_without_any_says_nothing_of_them(self) -> None:
        assert "arrived" not in to_text(Job())

    @pytest.mark.parametrize(
        ("old", "new", "said"),
        [('"21 in"', '"-21 in"', "width"), ('"21 in"', '"900 in"', "width must be from"),
         ('"L-7"', "7", "lot"), ('"yes"', '"maybe"', "looked"), ('"R-1"', '" "', "tag")],
    )
    def test_a_file_that_cannot_be_is_refused_in_words(
        self, old: str, new: str, said: str
    ) -> None:
        text = to_text(with_arrived(Job(), arrival()))
        assert old in text
        with pytest.raises(StoreError, match=said):
            read_model(text.replace(old, new), Job, "x")

    @given(st.dictionaries(st.sampled_from([n for n in GOOD if n != "tag"]), st.just(None)))
    @settings(max_examples=draws(30))
    def test_any_part_of_it(self, without: dict[str, Any]) -> None:
        empty = {"lot": "", "color": "", "thickness": ()}
        job = with_arrived(Job(), arrival(**{n: empty.get(n) for n in without}))
        assert read_model(to_text(job), Job, "x") == job


def typed(job: Job, name: str, text: str) -> tuple[Job, str]:
    measure = next(m for m in ARRIVALS.asked(0) if m.answer.key == f"arrived.0.{name}")
    return give_typed(job, measure.answer, measure.empty, text)


class TestTyped:
    @pytest.mark.parametrize("system", list(System))
    def test_what_is_shown_can_be_typed_again(self, system: System) -> None:
        job = with_arrived(Job(units=system), arrival(coil=2, faults=(Fault.WET,), remark="x"))
        empty = with_arrived(Job(units=system), Arrival(tag="new"))
        for measure in ARRIVALS.asked(0):
            text = measure.answer.text(measure.answer.value(job), system)
            empty, error = give_typed(empty, measure.answer, measure.empty, text)
            assert not error, (measure.answer.key, error)
        made, wanted = empty.arrived[0], job.arrived[0]
        for name in (field.name for field in dataclasses.fields(wanted)):
            value, want = getattr(made, name), getattr(wanted, name)
            if name == "clear":
                # What the yes for all of it shows as no was typed here one by one.
                assert value == tuple(one for one in Fault if one is not Fault.WET)
            elif isinstance(want, (float, tuple)) and name != "faults":
                assert value == pytest.approx(want, rel=1e-4), name
            else:
                assert value == want, name

    @pytest.mark.parametrize(
        ("name", "text", "said"),
        [
            ("width", "-21", "-21"), ("width", "900", "too much to be real"),
            ("outside", "x", "x"), ("weighed", "2250 ft", "2250 ft"), ("mass", "0", "nothing"),
            ("thickness", "24 ga", "gauge"), ("thickness", "0.0248; ; 0.025", "semicolons"),
            ("thickness", "0.3; 0.025", "too much"), ("camber_over", "2 in", "too little"),
            ("coil", "0", "nothing"), ("coil", "1.5", "not whole"), ("looked", "maybe", "maybe"),
            ("tag", "x" * 61, "61 characters"), ("fault_wet", "perhaps", "perhaps"),
        ],
    )
    def test_what_cannot_be_read_is_said_and_kept(self, name: str, text: str, said: str) -> None:
        job = with_arrived(Job(), arrival(coil=1))
        after, error = typed(job, name, text)
        assert said in error
        assert error.endswith(".")
        assert after.typed[f"arrived.0.{name}"] == text
        better, error = typed(after, name, "")
        assert not error
        assert better.typed == {}

    @pytest.mark.parametrize(
        "text", ["0.0248; 0.025; 0.0249", "0.0248, 0.025, 0.0249", "0.0248 0.025 0.0249",
                 "0.0248 in; 0.025 in; 0.0249 in;"],
    )
    def test_readings_on_one_line(self, text: str) -> None:
        job, error = typed(with_arrived(Job(), arrival(thickness=())), "thickness", text)
        assert not error
        assert job.arrived[0].thickness == (0.0248, 0.025, 0.0249)

    @pytest.mark.parametrize("text", ["0.63; 0.64 mm", "0,63 0,64", "0.63 0,64"])
    def test_metric_readings(self, text: str) -> None:
        job = with_arrived(Job(units=System.METRIC), arrival(thickness=()))
        job, error = typed(job, "thickness", text)
        assert not error
        assert job.arrived[0].thickness == pytest.approx((0.63 / 25.4, 0.64 / 25.4))

    def test_faults_one_by_one(self) -> None:
        job = with_arrived(Job(), arrival())
        job, _ = typed(job, "fault_rust", "yes")
        job, _ = typed(job, "fault_dent", "yes")
        assert job.arrived[0].faults == (Fault.DENT, Fault.RUST)
        job, _ = typed(job, "fault_rust", "no")
        assert job.arrived[0].faults == (Fault.DENT,)

    def test_a_fault_nobody_looked_for_is_neither_yes_nor_no(self) -> None:
        """Yes at looking it over had stood first, and set each fault to no with no word."""
        measures = {one.name: one for one in MEASURES}
        names = [*measures]
        wet, looked = measures["fault_wet"], measures["looked"]
        assert names.index("looked") == max(
            at for at, name in enumerate(names) if name.startswith("fault_")) + 1
        first = measures["fault_dent"].help
        assert first.endswith("No to all: F4, y."), "who answers each one sees it before the first"
        assert len(first) <= 73, "in one line at 80 cells"
        coil = Arrival(tag="x")
        assert wet.value(coil) is None
        for said in (YesNo.NO, YesNo.YES, None):
            assert wet.value(wet.changed(coil, said)) is said
        assert wet.value(wet.changed(wet.changed(coil, YesNo.YES), YesNo.NO)) is YesNo.NO
        signed = looked.changed(coil, YesNo.YES)
        assert wet.value(signed) is YesNo.NO
        assert wet.value(wet.changed(signed, YesNo.YES)) is YesNo.YES
        rust = measures["fault_rust"]
        assert rust.value(wet.changed(coil, YesNo.NO)) is None

    def test_faults_are_asked_as_the_metal_can_have_them(self) -> None:
        def asked(job: Job) -> int:
            return sum(m.answer.asked(job) for m in ARRIVALS.asked(0)
                       if "fault_" in m.answer.key)

        assert asked(with_arrived(Job(), Arrival(tag="x"))) == len(Fault) - 1
        # Film is missing only where it was ordered, and paint where it is none.
        ordered = dataclasses.replace(Job(), metal=MetalSection(film=YesNo.YES))
        assert asked(with_arrived(ordered, arrival())) == len(Fault)
        assert asked(with_arrived(ordered, Arrival(tag="x", faults=(Fault.WET,)))) == len(Fault)
        assert asked(with_arrived(Job(), arrival())) == len(Fault) - 1
        # What was said of a coil can be taken back all the same.
        seen = with_arrived(Job(), arrival(faults=(Fault.NO_FILM,)))
        assert asked(seen) == len(Fault)
