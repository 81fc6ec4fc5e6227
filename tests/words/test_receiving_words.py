"""The words for coils on arrival: one for every measure and fault, and what is wrong is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from coilwright.job.arrival_words import FILE, MEASURES, read_receiving, receiving_words
from coilwright.job.receiving import Fault
from coilwright.plan.receiving.report import reasons
from coilwright.values.finding import Level
from coilwright.wizard.lists.arrivals import ARRIVALS
from coilwright.words import GuidanceError
from coilwright.words.glossary import terms_in
from tests.plan.receiving.arrivals import report
from tests.rules import for_each

TEXT = (Path(__file__).parents[2] / "src/coilwright/words" / FILE).read_text("utf-8")


def test_every_measure_and_fault_has_words_that_fit_under_a_field() -> None:
    words = receiving_words()
    assert set(words.faults) == set(Fault)
    assert set(words.measures) == set(MEASURES)
    lines = [w.look for w in words.faults.values()] + [w.help for w in words.measures.values()]
    for line in lines:
        assert len(line) <= 74, line
        assert "\n" not in line
    for fault in words.faults.values():
        for said in (fault.why, fault.do):
            assert said.endswith(".")
    for listed in words.lists.values():
        assert len(listed) >= 4
        assert all(line.endswith(".") for line in listed)


def test_every_measure_with_words_is_asked() -> None:
    asked = {m.answer.key.rpartition(".")[2] for m in ARRIVALS.asked(0)}
    assert asked == {*MEASURES, *(f"fault_{fault.name.lower()}" for fault in Fault)}


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("[fault.dent]", "[fault.bump]", "fault: dent is missing"),
        ("[measure.width]", "[measure.breadth]", "measure: width is missing"),
        ("[lists]", "[listed]", "listed"),
        ("before_signing = [", "at_the_end = [", "lists: before_signing is missing"),
        ('look = "Flats', 'looks = "Flats', "fault.dent: unknown “looks”"),
        ('do = "Hold it. Photograph', 'do = ""\n#', "fault.rust: do is missing"),
        ('help = "The weight the tag says."', "help = 7", "measure.mass: help is not a text"),
        ('help = "The weight the tag says."', "", "measure.mass: help is missing"),
    ],
)
def test_what_does_not_fit_is_named(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert TEXT.count(old) == 1
    (tmp_path / FILE).write_text(TEXT.replace(old, new), "utf-8")
    with pytest.raises(GuidanceError, match=said):
        read_receiving(tmp_path)


@for_each(list(Fault))
def test_a_fault_gives_its_reason_in_full_words(fault: Fault) -> None:
    found = next(f for f in reasons(report(faults=(fault,))) if "fault_" in f.key)
    words = receiving_words().faults[fault]
    assert fault.value in found.what
    assert words.why in found.why
    assert words.caution in found.why
    assert found.do == words.do
    assert (found.level is Level.CARE) is (fault is Fault.NO_FILM)


def test_the_words_a_newcomer_will_not_know_are_explained() -> None:
    said = "Camber, edge wave, white rust; a telescoped coil goes on the bill of lading by its tag."
    assert {t.name for t in terms_in(said)} >= {
        "camber", "edge wave", "white rust", "telescoped", "bill of lading", "tag"}
