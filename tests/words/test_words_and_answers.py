"""The words and the answers keep step: every answer has words, and the words can be used."""

from __future__ import annotations

import re
from enum import Enum
from importlib.resources import files

import pytest

from coilwright.job.answers import ANSWERS, Form
from coilwright.job.coils import CoilOn
from coilwright.job.edit import do_not_know, give, new_job, usual_in
from coilwright.job.metal import Shade
from coilwright.job.steps import STEPS
from coilwright.plan.panel.checks import DARK_HOT
from coilwright.units import Kind, System
from coilwright.values.standing import Standing
from coilwright.words import (
    WHO,
    Words,
    all_words,
    cautions,
    read_words,
    starts_from,
    words,
)
from tests.rules import BRITISH, for_each

WORDS = all_words()
HELP_WIDTH = 74
"""A line under a field on a terminal of 80 columns, less its margins."""

STARTS_AS_A_GUESS = {
    "roof.openings", "roof.wing_end", "metal.thickness_basis", "panel.start", "panel.end_allowance",
    "panel.rounding", "machine.thread_up", "machine.tail", "coils.coil_on", "coils.spare",
    "coils.tolerance", "coils.wrap_allowance",
}


def sentences(text: str) -> list[str]:
    """The sentences of a text; a decimal point ends none."""
    return [s for s in re.split(r"(?<=[.?!])\s+", text.strip()) if s]


def prose(entry: Words) -> list[str]:
    """Every sentence an entry says."""
    return [s for text in (entry.why, entry.ask, entry.caution) for s in sentences(text)]


def test_every_answer_has_words() -> None:
    assert set(ANSWERS) - set(WORDS) == set()


def test_every_entry_has_an_answer() -> None:
    assert set(WORDS) - set(ANSWERS) == set()


def test_words_of_an_answer_nobody_asks_are_refused() -> None:
    with pytest.raises(KeyError):
        words("panel.weather")


@for_each(WORDS.items())
def test_help_is_one_line_that_fits_under_a_field(key: str, entry: Words) -> None:
    assert entry.help == entry.help.strip()
    assert "\n" not in entry.help
    assert 0 < len(entry.help) <= HELP_WIDTH, f"{key}: {len(entry.help)} characters"


@for_each(WORDS.items())
def test_why_is_two_to_four_sentences(key: str, entry: Words) -> None:
    assert 2 <= len(sentences(entry.why)) <= 4, key


@for_each(WORDS.items())
def test_someone_is_named_who_knows_and_what_to_ask_them(key: str, entry: Words) -> None:
    assert entry.who in WHO
    if entry.who != "you":
        assert entry.ask.endswith("?"), f"{key}: a question ends in a question mark"


def test_each_of_those_who_can_know_is_asked_something() -> None:
    assert {entry.who for entry in WORDS.values()} == set(WHO)


@for_each(WORDS.items())
def test_texts_hold_no_line_breaks_or_runs_of_blanks(key: str, entry: Words) -> None:
    for text in (entry.why, entry.ask, entry.caution, entry.source):
        assert text == " ".join(text.split()), f"{key}: {text}"


@for_each(WORDS.items())
def test_sentences_are_short_and_whole(key: str, entry: Words) -> None:
    lengths = [len(s.split()) for s in prose(entry)]
    assert max(lengths) <= 30, key
    assert sum(lengths) / len(lengths) <= 16, key
    for text in filter(None, (entry.why, entry.ask, entry.caution)):
        assert text[-1] in ".?", f"{key}: it ends without a full stop: {text}"


@for_each(WORDS.items())
def test_spelling_is_american(key: str, entry: Words) -> None:
    said = " ".join([entry.help, entry.why, entry.ask, entry.caution])
    british = BRITISH.findall(said.casefold())
    assert british == [], key


@for_each((key, entry, system) for key, entry in WORDS.items() for system in System)
def test_usual_values_read_as_the_answer_in_either_system(
    key: str, entry: Words, system: System
) -> None:
    """A usual value without its unit would mean another size to a metric user."""
    for text in (entry.usual, entry.low, entry.high, *entry.others):
        if text is not None:
            assert ANSWERS[key].read(text, system) == ANSWERS[key].read(text, System.US)


@for_each(WORDS.items())
def test_a_usual_range_holds_its_usual_value(key: str, entry: Words) -> None:
    assert (entry.low is None) == (entry.high is None), f"{key}: half a range"
    if entry.low is None or entry.high is None:
        return
    low, high = (ANSWERS[key].read(text) for text in (entry.low, entry.high))
    assert isinstance(low, float | int)
    assert isinstance(high, float | int)
    assert low < high, key
    assert entry.usual is not None, f"{key}: a range without a usual value"
    usual = ANSWERS[key].read(entry.usual)
    assert isinstance(usual, float | int)
    assert low <= usual <= high, key


@for_each(WORDS.items())
def test_other_picks_are_for_choices_and_differ_from_the_usual_one(key: str, entry: Words) -> None:
    if not entry.others:
        return
    assert ANSWERS[key].form is Form.CHOICE
    assert entry.usual is not None
    picks = [ANSWERS[key].read(text) for text in (entry.usual, *entry.others)]
    assert len(set(picks)) == len(picks), key


@for_each(WORDS.items())
def test_picks_are_spelt_out_as_the_list_has_them(key: str, entry: Words) -> None:
    for text in (entry.usual, *entry.others):
        if text is not None and ANSWERS[key].form is Form.CHOICE:
            picked = ANSWERS[key].read(text)
            assert isinstance(picked, Enum)
            assert picked.value == text


@for_each(WORDS.items())
def test_a_usual_value_says_where_it_comes_from(key: str, entry: Words) -> None:
    if entry.usual is not None:
        assert entry.source == "common practice, no source" or len(entry.source.split()) >= 4, key
    else:
        assert entry.source == "", f"{key}: a source for nothing"


def test_few_answers_start_from_their_usual_value() -> None:
    """Only where a wrong start is cheap: sizes of the roof and loads are never filled in."""
    assert set(starts_from(System.US)) == set(starts_from(System.METRIC)) == STARTS_AS_A_GUESS


@pytest.mark.parametrize("system", System)
def test_a_new_job_starts_from_them_as_guesses_and_from_nothing_else(system: System) -> None:
    job = new_job(units=system)
    for key in STARTS_AS_A_GUESS:
        assert ANSWERS[key].value(job) == usual_in(job, key), key
    guesses = {key for key in ANSWERS if ANSWERS[key].standing(job) is Standing.GUESS}
    assert guesses == STARTS_AS_A_GUESS
    given = {key for key in ANSWERS if ANSWERS[key].value(job) not in (None, "")}
    assert given == {*STARTS_AS_A_GUESS, "job.units"}
    assert job.coils.coil_on is CoilOn.RACK


@pytest.mark.parametrize(
    ("key", "usual", "low", "high"),
    [
        ("panel.take_up", 5, 4, 6),
        ("coils.inside_diameter", 20, 16, 24),
        ("machine.arbor_load", 3000, 2700, 3000),
        ("machine.rack_load", 6000, None, None),
        ("machine.rack_diameter", 32, None, None),
        ("machine.decoiler_diameter", 45, None, None),
        ("coils.tolerance", 0.10, 0.0, 0.10),
    ],
)
def test_the_trades_rules_of_thumb(
    key: str, usual: float, low: float | None, high: float | None
) -> None:
    """common practice, no source."""
    entry = WORDS[key]
    said = [
        None if text is None else ANSWERS[key].read(text)
        for text in (entry.usual, entry.low, entry.high)
    ]
    assert said == [usual, low, high]
    assert entry.source == "common practice, no source"


def test_the_usual_temperatures_are_the_published_ones() -> None:
    """A 1920s copper flashing manual, worked example: roof surface −20 to 150 °F, 170 apart."""
    coldest, hottest = (WORDS[key].usual for key in ("job.coldest", "job.hottest"))
    assert coldest is not None
    assert hottest is not None
    cold, hot = ANSWERS["job.coldest"].read(coldest), ANSWERS["job.hottest"].read(hottest)
    assert (cold, hot) == (-20, 150)


def test_what_is_usual_where_another_answer_is_so_is_what_its_check_asks_for() -> None:
    """180 °F, and in metric 80 °C, for a dark roof (design practice, from memory)."""
    dark = give(new_job(), "metal.shade", Shade.DARK)
    assert usual_in(new_job(), "job.hottest") == usual_in(
        give(dark, "metal.shade", Shade.LIGHT), "job.hottest") == 150
    assert usual_in(dark, "job.hottest") == do_not_know(dark, "job.hottest").job.hottest == DARK_HOT
    metric = give(dark, "job.units", System.METRIC)
    assert usual_in(metric, "job.hottest") == pytest.approx(176)
    for key, entry in WORDS.items():
        if where := entry.usual_where:
            picks = [pick.value for pick in ANSWERS[where["answer"]].choices]
            assert where["is"] in picks, key
            assert len(where["source"].split()) >= 4, key
            assert ANSWERS[key].read(where["usual"]) is not None


LOADS = [
    key for key, answer in ANSWERS.items()
    if answer.kind is Kind.MASS and key != "coils.minimum_order"
]


@for_each(LOADS)
def test_a_load_carries_a_caution(key: str) -> None:
    assert re.search(r"plate|weight to be marked", WORDS[key].caution), key


@for_each(key for key in ANSWERS if "report" in key)
def test_the_designer_decides_about_a_test_report(key: str) -> None:
    assert WORDS[key].who == "designer"
    assert "designer" in WORDS[key].caution


@for_each(step.key for step in STEPS)
def test_every_step_has_cautions_in_short_sentences(step: str) -> None:
    lines = cautions(step)
    assert lines
    for line in lines:
        assert line.endswith(".")
        assert max(len(s.split()) for s in sentences(line)) <= 30


@pytest.mark.parametrize(
    ("step", "must_say"),
    [
        ("job", "Local code and the designer"),
        ("roof", "fall protection"),
        ("metal", "cut edges"),
        ("panel", "Local code and the designer"),
        ("machine", "Guards stay on"),
        ("coils", "Nobody under a lifted coil"),
    ],
)
def test_the_step_where_it_can_hurt_says_so(step: str, must_say: str) -> None:
    assert any(must_say in line for line in cautions(step))


def test_cautions_of_an_unknown_step_are_refused() -> None:
    with pytest.raises(KeyError):
        cautions("weather")


def test_the_words_of_a_section_lie_in_files_named_after_it() -> None:
    """So that they are read without all the others."""
    every = all_words()
    for section in {key.partition(".")[0] for key in every}:
        own = {key: said for key, said in every.items() if key.startswith(f"{section}.")}
        assert read_words(files("coilwright.words"), section) == own
