"""The trainers' words for a reader who works in metric."""

from __future__ import annotations

import re

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import usual_range, usual_value
from coilwright.job.questions import all_questions
from coilwright.job.steps import STEPS
from coilwright.units import Kind, System
from coilwright.words import all_words, cautions, words
from coilwright.words.in_units import with_units
from tests.rules import for_each

_US = re.compile(r"\d (?:in|ft|lb)\b(?! (?:\d|of run))|°F")


@for_each([
    # 16, 20 and 24 in are 406.4, 508.0 and 609.6 mm
    ("16, 20 and 24 in are usual.", "406, 508 and 610 mm are usual."),
    ("Usual 4 to 6 in; the sheet says.", "Usual 102 to 152 mm; the sheet says."),
    ("1/4 in is usual.", "6 mm is usual."),
    ("to 1/32 in.", "to 0.79 mm."),
    ("0.0236 in, not a gauge.", "0.60 mm, not a gauge."),
    ("2,700 to 3,000 lb is usual.", "1220 to 1360 kg is usual."),
    ("50 lb is usual, in wind less.", "23 kg is usual, in wind less."),
    ("3 to 10 ft is usual.", "0.9 to 3.0 m is usual."),
    ("-20 °F is a usual figure.", "-29 °C is a usual figure."),
])
def test_sizes_are_turned_and_rounded(said: str, wanted: str) -> None:
    assert with_units(said, System.METRIC) == wanted
    assert with_units(said, System.US) == said


@for_each([
    "one coil in two", "pulls people off their feet", "keep feet from under the tongue",
    "29 CFR 1926.501", "28 to 22 ga", "2 to 5 %",
    "in 1 lot", "20 oz",
])
def test_what_is_no_size_stays(said: str) -> None:
    assert with_units(said, System.METRIC) == said


@for_each([
    ("Rise in 12 of run: 6/12, or an angle, 26.6°.",
     "An angle, such as 30°, or a grade, such as 58 %."),
    ("A pitch, such as 3 in 12, with it.", "A pitch, such as 14°, with it."),
    ("such as $1.20/lb; empty", "such as $2.65/kg; empty"),  # 1.20 / 0.45359237
    ("How many feet of each coil are lost?", "How many meters of each coil are lost?"),
    ("An inch in from both edges.", "25 mm in from both edges."),
    ("the pound, the foot, the square or the coil", "the kilogram, the meter, the square meter "
     "or the coil"),
    ("after the first miles", "after the first kilometers"),
    ("Write it on the bill of lading.", "Write it on the freight papers."),
    # Sold by the millimeter: no gauge and no ounces. Temperatures as they are said.
    ("Usual are steel of 28 to 22 ga, aluminum of 0.027 to 0.040 in and three-quarter-hard copper "
     "of 16 to 20 oz.", "Usual are steel of 0.4 to 0.8 mm, aluminum of 0.7 to 1.0 mm and "
     "three-quarter-hard copper of 0.55 to 0.7 mm."),
    ("dark colors: often 180 °F.", "dark colors: often 80 °C."),
    ("European standards tell it over 2 m, American ones over 8 ft.",
     "European standards tell it over 2 m, American ones over 2.44 m."),
    # As a metric order prints it, not 2.4.
    ("How much may the edge of the strip bow in 8 ft?",
     "How much may the edge of the strip bow in 2 m?"),
])
def test_units_by_name_are_turned(said: str, wanted: str) -> None:
    assert with_units(said, System.METRIC) == wanted
    assert with_units(said, System.US) == said


_NAMED = re.compile(
    r"\b(?:inch(?:es)?|foot|feet|pounds?|miles?|sixteenths?|thousandths?)\b|/lb|\d/12\b")
_KEPT = ("off their feet", "keep feet from", "rise in 12 of run", "ounces", "metric")
"""Feet of people, pitches after an angle, names of coatings and copper, and what names both."""


def test_no_us_unit_is_left_by_name() -> None:
    texts = [text for said in all_words().values()
             for text in (said.help_in(System.METRIC), said.why, said.ask, said.caution)]
    texts += [text for q in all_questions().values()
              for text in (q.ask, q.why, q.good, q.otherwise, q.caution)]
    texts += [one for step in STEPS for one in cautions(step.key)]
    left = [turned for text in texts if _NAMED.search(turned := with_units(text, System.METRIC))
            and not any(kept in turned for kept in _KEPT)]
    assert left == []


def test_help_says_the_usual_value_that_a_metric_job_gets() -> None:
    """5 mm, where 1/4 in turned would be 6; and the box then holds it."""
    for key in ("panel.rounding", "trim.lap", "coils.keep_length", "coils.edge_trim"):
        usual = words(key).usual_in_metric
        assert usual is not None
        assert f"{usual} is usual" in words(key).help_in(System.METRIC)
        assert words(key).help_in(System.US) == words(key).help


_ROUND = re.compile(r"\d{1,2}(?:\.\d)? (?:mm|m)|\d+[05] mm|\d+[05]0 kg|\d[05] kg|-?\d+[05] °C")
_SIZED = (Kind.LENGTH, Kind.WIDTH, Kind.MASS)
_THEIRS = ("coils.inside_diameter",)
"""Sizes of coils that are made by the inch everywhere."""


def test_what_is_usual_in_metric_is_a_round_number_there() -> None:
    said = {key: one for key, one in all_words().items() if key not in _THEIRS and one.low}
    ends = {key: usual_range(key, System.METRIC) for key in said
            if ANSWERS[key].kind in _SIZED}
    odd = {key: both for key, both in ends.items()
           if both is not None and not all(_ROUND.fullmatch(end) for end in both)}
    assert odd == {}
    texts = {key: one.usual_texts(System.METRIC) for key, one in all_words().items()
             if ANSWERS[key].kind in (*_SIZED, Kind.TEMPERATURE) and key not in _THEIRS}
    assert {key: said for key, said in texts.items()
            if not all(_ROUND.fullmatch(text) for text in said)} == {}
    # What the help says is usual is what F3 puts in, and both ends are read.
    for key in ("coils.master", "trim.sheet_width", "machine.rack_diameter"):
        usual = words(key).usual_in_metric
        assert usual is not None
        assert f"{usual} is usual" in words(key).help_in(System.METRIC)
        assert ANSWERS[key].shown(usual_value(key, System.METRIC), System.METRIC) == usual
    for key, both in ends.items():
        low, high = (ANSWERS[key].read(end, System.METRIC) for end in both or ("1 mm", "2 mm"))
        assert low < high, key


def test_no_us_size_is_left_in_any_words() -> None:
    texts = [text for said in all_words().values()
             for text in (said.help, said.why, said.ask, said.caution)]
    texts += [text for q in all_questions().values()
              for text in (q.ask, q.why, q.good, q.otherwise, q.caution)]
    left = [turned for text in texts
            if _US.search(turned := with_units(text, System.METRIC))]
    assert left == []
    assert any(_US.search(text) for text in texts)
