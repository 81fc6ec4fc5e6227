"""The glossary: complete, plain, and its terms found in any text as a reader would."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.job.questions import all_questions
from coilwright.units import System
from coilwright.words import GuidanceError, all_words
from coilwright.words.glossary import Glossary, Term, glossary, read_glossary, term, terms_in
from coilwright.words.in_units import with_units
from tests.rules import BRITISH, for_each

TERMS = glossary().terms
ENTRIES = list(TERMS.values())

WANTED = [
    "arbor", "take-up", "coverage", "pan", "leg", "oil canning", "camber", "edge wave", "PVDF",
    "SMP", "AZ50", "G90", "gauge", "slit edge", "mill edge", "thread-up", "tail", "decoiler",
    "substrate", "clip", "square", "hip", "valley", "rake", "eave", "ridge", "seam", "coil",
    "strip", "burr", "flat width", "hem", "trim", "production lot", "pitch", "plane", "rolls",
]  # fmt: skip
JARGON = [
    "arbor", "camber", "burr", "oil canning", "decoiler", "thread-up", "take-up", "hem", "curb",
    "underlayment", "substrate", "notching unit", "mandrel", "shear", "chalk", "skid", "deck",
    "PVDF", "AZ50", "G90", "mill certificate", "rating plate", "sling", "freight", "deposit",
]  # fmt: skip


def sentences(text: str) -> list[str]:
    """The sentences of a text; a decimal point ends none."""
    return [s for s in re.split(r"(?<=[.?!])\s+", text.strip()) if s]


def names(text: str) -> list[str]:
    return [t.name for t in terms_in(text)]


def test_there_are_fifty_and_the_wanted_ones() -> None:
    assert len(TERMS) >= 50
    assert [name for name in WANTED if name not in TERMS] == []


@for_each(ENTRIES)
def test_an_entry_is_one_to_three_short_sentences(entry: Term) -> None:
    said = sentences(entry.says)
    assert 1 <= len(said) <= 3
    assert max(len(s.split()) for s in said) <= 22
    assert entry.says.endswith(".")
    assert entry.says == " ".join(entry.says.split())


@for_each(ENTRIES)
def test_spelling_is_american(entry: Term) -> None:
    assert not BRITISH.findall(entry.says)


@for_each(ENTRIES)
def test_a_number_names_its_source(entry: Term) -> None:
    """But for what is so by definition: 12 of run, a hundred square feet."""
    if re.search(r"\d", entry.says) and entry.name != "pitch":
        assert entry.source


@for_each(ENTRIES)
def test_every_form_finds_its_own_term(entry: Term) -> None:
    for form in (entry.name, *entry.also):
        assert names(f"Ask about the {form} first.") == [entry.name]


@for_each(JARGON)
def test_what_the_guidance_says_is_explained(word: str) -> None:
    """Jargon that the words for answers or questions use can be looked up."""
    used = " ".join(
        text
        for entry in (*all_words().values(), *all_questions().values())
        for text in (entry.ask, entry.why, entry.caution)
    )
    used += " ".join(entry.help for entry in all_words().values())
    used += " ".join(f"{q.good} {q.otherwise}" for q in all_questions().values())
    assert re.search(rf"\b{word}", used, re.IGNORECASE), f"nobody says {word} any more"
    assert names(word), word


@for_each([
    ("The arbor bends.", ["arbor"]),
    ("ARBORS and Valleys", ["arbor", "valley"]),
    ("Two arbors, one arbor.", ["arbor"]),
    ("edge wave, then camber", ["edge wave", "camber"]),
    ("a slit edge", ["slit edge"]),
    ("slit  \n edges", ["slit edge"]),
    ("the decoiler's plate", ["decoiler", "rating plate"]),
    ("taken aback by a panelled company", []),
    ("ounces per square foot, and a lot of it", []),
    ("two squares of roof", ["square"]),
    ("the roll former's rolls", ["roll former", "rolls"]),
    ("AZ50 or g90", ["AZ50", "G90"]),
    ("double-lock seam", ["double lock", "seam"]),
    ("(take-up)", ["take-up"]),
    ("", []),
])
def test_terms_are_found_as_a_reader_would(text: str, found: list[str]) -> None:
    assert names(text) == found


@given(st.lists(st.sampled_from(sorted(TERMS)), max_size=5), st.sampled_from([" ", ", ", "; "]))
def test_only_whole_words_and_each_once(chosen: list[str], between: str) -> None:
    text = between.join(f"x {name} x" for name in chosen)
    assert names(text) == list(dict.fromkeys(chosen))
    assert names(text.replace(" ", "x")) == []


@given(st.text(max_size=200))
def test_any_text_can_be_looked_through(text: str) -> None:
    assert len(names(text)) == len(set(names(text)))


def test_the_longer_counts() -> None:
    both = Glossary({
        "edge": Term("edge", "An edge."), "edge wave": Term("edge wave", "Ripples."),
    })  # fmt: skip
    assert [t.name for t in both.terms_in("edge waves")] == ["edge wave"]
    assert [t.name for t in both.terms_in("waves at the edge")] == ["edge"]


def test_a_term_by_name() -> None:
    assert term("arbor").says.startswith("The shaft")
    with pytest.raises(KeyError):
        term("weather")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[arbor]\n", "arbor: says is missing"),
        ('[arbor]\nsays = " "', "arbor: says is missing"),
        ("[arbor]\nsays = 5", "arbor: says is not a text"),
        ('[arbor]\nsays = "A shaft."\nmeans = "x"', "arbor: unknown “means”"),
        ('[arbor]\nsays = "A shaft."\nalso = "spindle"', "arbor: also is not a list"),
        ('[arbor]\nsays = "A shaft."\n[shaft]\nsays = "A."\nalso = ["Arbor"]',
         "shaft: “arbor” is explained under arbor already"),
        ('arbor = "A shaft."', "arbor: it is not an entry"),
        ("[arbor\n", "_glossary.toml: "),
        ("", "_glossary.toml: it is empty"),
    ],
)  # fmt: skip
def test_an_entry_that_does_not_fit_is_named(tmp_path: Path, text: str, says: str) -> None:
    (tmp_path / "_glossary.toml").write_text(text, "utf-8")
    with pytest.raises(GuidanceError) as caught:
        read_glossary(tmp_path)
    assert says in str(caught.value)
    assert str(caught.value).startswith("_glossary.toml")


def test_in_metric_no_term_is_told_in_inches_and_a_rule_of_thumb_is_round() -> None:
    """The terms of a help are read where its job is metric; a square is US, and says of what."""
    said = {one.name: with_units(one.says, System.METRIC) for one in TERMS.values()}
    assert [name for name, text in said.items()
            if re.search(r"\d (in|ft|lb)\b|\binch|\bfeet\b", text)] == ["square"]
    assert said["take-up"].endswith("Most profiles take 100 to 150 mm.")
