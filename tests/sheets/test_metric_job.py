"""Who works in metric sees no trace of another system, on any paper or in any step."""

from __future__ import annotations

import re
from collections.abc import Iterator

from coilwright.job.answers import ANSWERS, asked
from coilwright.job.edit import usual_range, usual_value, words_in
from coilwright.job.questions import all_questions
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.plan.working import all_lines
from coilwright.sheets import KINDS, render
from coilwright.units import Kind, System
from coilwright.values.keys import Key
from coilwright.words import cautions
from coilwright.words.in_units import source_in, with_units
from tests.metric_job import metric_job

TRACE = re.compile(
    r"\d (?:in|ft|lb|oz|ga)\b|/(?:lb|ft)\b|°F|\d:12\b|\$"
    r"|in 12 of run|special wind region|exposure letter"
    r"|[Bb]ill of lading|\b(?:CFR|USC|IBC|IRC|ASTM|AISI|GVWR|GCWR)\b"
    r"|\b(?:inch|inches|pounds?|foot|feet|miles?|mils?|gauge|ounces?)\b"
    # Inch rules turned: 1/16, 1/8, 3/16, 1/4 in; 16, 20 1/4 in; 1 and 3 ft; 150 and -20 °F.
    r"|\b(?:1\.5[89]|3\.1[78]|4\.76|6\.35|406\.4|514\.4|501\.7|0\.305|0\.914) |66 °C|-29 °C")
MAY_STAND = {
    "US rule": "a rule of the US that no other source of the program has, and it says so",
    "US source": "where a number is published: the same, of a table or a standard",
    "US shows feet": "the pick of the units",
    "else ASTM's": "what the order names where the program knows no European standard",
    "their feet": "those one stands on",
    "keep feet from": "the same",
    "the metal meets the report": "",
    "AZ50 is AZ150": "for who was quoted by the other name, which the help tells apart",
}
"""What may stand in a metric job, and why."""


def traces(texts: Iterator[str]) -> list[str]:
    """The texts that a metric reader would stumble over."""
    return [text for text in texts
            if TRACE.search(text) and not any(said in text for said in MAY_STAND)]


def test_no_paper_of_a_metric_job_has_a_trace_of_another_system() -> None:
    made = plan(metric_job())
    for kind, sheet in KINDS.items():
        # All forms are set of the same blocks; that of the browser has the drawings' words too.
        for form in ("html", *(("csv",) if sheet.rows else ())):
            text = render(kind, made, form)
            assert traces(iter(re.split(r"\n|<[^>]*>", text))) == [], (kind, form)
    # A trace would be found.
    assert traces(iter(["as 501.7 mm", "max 3 lb", "US rule 29 CFR 1926.251"])) == [
        "as 501.7 mm", "max 3 lb"]


def _said_in_steps() -> Iterator[str]:
    """All that steps, their questions, findings and workings say of the metric job."""
    job, metric = metric_job(), System.METRIC
    for answer in asked(job):
        key, words = answer.key, words_in(job, answer.key)
        yield answer.label
        if answer.kind is not None and answer.kind not in (Kind.MONEY, Kind.MONEY_PER_MASS):
            yield answer.example(metric)
        yield from (words.help_in(metric), with_units(words.why, metric),
                    with_units(words.ask, metric), with_units(words.caution, metric))
        yield from usual_range(key, metric) or ()
        if words.usual is not None and (usual := usual_value(key, metric)) is not None:
            yield answer.shown(usual, metric)
    for step in STEPS:
        yield from (with_units(said, metric) for said in cautions(step.key))
    for q in all_questions().values():
        if q.answer and not ANSWERS[q.answer].asked(job):
            continue
        yield from (with_units(text, metric)
                    for text in (q.ask, q.why, q.good, q.otherwise, q.caution))
    made = plan(job)
    for one in made.findings:
        yield from (one.what, one.why, one.do, source_in(one.source, metric))
    yield from all_lines(made, 400)


def test_no_step_of_a_metric_job_says_a_trace_of_another_system() -> None:
    assert traces(_said_in_steps()) == []


def test_why_steel_is_not_7850_is_said_with_its_density() -> None:
    density = plan(metric_job()).figures[Key.METAL_DENSITY]
    assert density.text(System.METRIC) == "7842 kg/m³"
    assert "7850 kg/m³, from memory: 0.1 % more" in density.note
