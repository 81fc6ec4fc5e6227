"""The words of the questions: complete, plain, tied to real answers, and every one reachable."""

from __future__ import annotations

import re

from coilwright.job.answers import ANSWERS, Form
from coilwright.job.coils import Slitting
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.questions import (
    NOT_KNOWN,
    PERSONS,
    QuestionWords,
    all_questions,
    question_words,
)
from coilwright.plan import plan
from coilwright.plan.questions import Status, called_for, reply
from coilwright.words import all_words, words
from tests.cases import set_answers, small_gable
from tests.generated import ENGINEERED
from tests.plan.questions.held import unsettled
from tests.rules import BRITISH, for_each

QUESTIONS = all_questions()
ENTRIES = list(QUESTIONS.values())

SUBJECTS = {
    "client": ["color", "color_confirmed", "finish", "budget", "needed_by", "start_date"],
    "designer": ["tested_assembly", "profile", "coverage", "substrate", "clips", "report",
                 "clip_spacing", "report_widest", "report_thinnest", "report_metal"],
    "building_department": ["permit", "code_edition", "wind_zone", "inspections"],
    "machine_maker": ["narrowest_strip", "widest_strip", "thinnest", "thickest", "take_up",
                      "arbor_load", "rack_load", "rack_diameter", "smallest_coil_id", "thread_up",
                      "settings", "painted_side"],
    "supplier": ["thickness", "thickness_basis", "mill", "finish_system", "finish_warranty",
                 "metal_warranty", "weathertight_warranty", "one_lot", "slitting",
                 "inside_diameter", "heaviest_coil", "minimum_order", "custom_color",
                 "custom_length", "lead_time", "price_basis", "price_holds", "price_moves",
                 "payment", "freight", "nearest_stock", "technical_support", "tested_profiles"],
}  # fmt: skip
"""What a practitioner settles before ordering (common practice, no source)."""

HOLD = {
    "client.color_confirmed", "designer.profile", "designer.report", "machine_maker.painted_side",
    "supplier.slitting", "supplier.inside_diameter", "supplier.heaviest_coil", "supplier.one_lot",
    "supplier.thickness", "supplier.tested_profiles", "machine_maker.take_up",
    "machine_maker.arbor_load", "building_department.permit",
}  # fmt: skip
"""What an order cannot be undone for (common practice, no source)."""


def sentences(text: str) -> list[str]:
    """The sentences of a text; a decimal point ends none."""
    return [s for s in re.split(r"(?<=[.?!])\s+", text.strip()) if s]


def said(entry: QuestionWords) -> list[str]:
    """All that an entry says."""
    return [entry.ask, entry.why, entry.good, entry.otherwise]


def calling_for(entry: QuestionWords) -> Job:
    """A job that meets the entry's conditions, or else the conditions of the answer it fills."""
    job = set_answers(small_gable(), ENGINEERED)
    if entry.answer.startswith("machine.decoiler"):
        on_decoiler = ANSWERS["coils.coil_on"].read("floor decoiler")
        job = ANSWERS["coils.coil_on"].put(job, on_decoiler)
    if entry.answer in ("coils.slitting", "coils.master_heaviest"):
        job = set_answers(job, {"coils.master": 48.0, "coils.edge_trim": 0.5,
                                "coils.slitting": Slitting.PASSES})
    for key, picks in entry.when.items():
        value = None if picks[0] == NOT_KNOWN else ANSWERS[key].read(picks[0])
        job = ANSWERS[key].put(job, value)
    return job


@for_each(PERSONS)
def test_every_subject_is_asked(person: str) -> None:
    section = person.replace(" ", "_")
    missing = [s for s in SUBJECTS[section] if f"{section}.{s}" not in QUESTIONS]
    assert missing == []


@for_each(ENTRIES)
def test_every_question_has_all_words(entry: QuestionWords) -> None:
    for text in said(entry):
        assert text.strip()
        assert text == " ".join(text.split())
        assert text[-1] in ".?", text
    assert entry.ask.endswith("?")
    assert entry.who in PERSONS


@for_each(ENTRIES)
def test_sentences_are_short(entry: QuestionWords) -> None:
    lengths = [len(s.split()) for text in (*said(entry), entry.caution) for s in sentences(text)]
    assert max(lengths) <= 30
    assert sum(lengths) / len(lengths) <= 16


@for_each(ENTRIES)
def test_spelling_is_american(entry: QuestionWords) -> None:
    british = BRITISH.findall(" ".join(said(entry)).casefold())
    assert british == []


@for_each(ENTRIES)
def test_no_question_says_the_same_twice(entry: QuestionWords) -> None:
    assert len({text.casefold() for text in said(entry)}) == 4


def test_no_two_people_hear_one_question() -> None:
    """But the one about a tested assembly, each in their own words."""
    asks = [entry.ask for entry in QUESTIONS.values()]
    assert len(set(asks)) == len(asks)


@for_each(ENTRIES)
def test_an_answer_is_a_real_one(entry: QuestionWords) -> None:
    if entry.answer:
        assert entry.answer in ANSWERS
    for pick in entry.settled_by:
        assert pick in [choice.value for choice in ANSWERS[entry.answer].choices]


@for_each(ENTRIES)
def test_conditions_name_real_answers_and_values(entry: QuestionWords) -> None:
    for condition in (entry.when, entry.unless):
        for key, picks in condition.items():
            assert ANSWERS[key].form is Form.CHOICE
            known = {choice.value for choice in ANSWERS[key].choices} | {NOT_KNOWN}
            assert set(picks) <= known


@for_each(ENTRIES)
def test_no_question_is_unreachable(entry: QuestionWords) -> None:
    job = calling_for(entry)
    assert entry.key in [q.key for q in plan(job).questions]


@for_each(ENTRIES)
def test_every_question_can_be_replied_to(entry: QuestionWords) -> None:
    job = unsettled(calling_for(entry))
    text = "said on the phone"
    if entry.answer:
        value = ANSWERS[entry.answer].value(job)
        if entry.settled_by:
            text = entry.settled_by[0]
        elif value is not None:
            text = ANSWERS[entry.answer].text(value)
        else:
            text = _some_text(entry.answer)
        job = ANSWERS[entry.answer].put(job, None)
    before = {q.key: q for q in called_for(job, ())}
    assert before[entry.key].status is Status.OPEN
    done, error = reply(job, entry.key, text)
    assert error == ""
    after = {q.key: q for q in called_for(done, ())}
    assert after[entry.key].status is Status.SETTLED
    assert after[entry.key].said


def _some_text(key: str) -> str:
    """Something an answer can be, where the gable has none."""
    answer = ANSWERS[key]
    if answer.choices:
        return answer.choices[0].value
    usual = words(key).usual
    by_kind = {"mass": "3000 lb", "width": "20 in", "length": "24 in", "thickness": "0.0236 in",
               "pitch": "3:12", "speed": "60 ft/min", "count": "24"}  # fmt: skip
    if usual is not None or answer.kind is None:
        return usual or ("2027-05-31" if answer.form is Form.DATE else "Somebody")
    small = {"panel.clip_travel": "1 in", "metal.thickness_tolerance": "0.004 in"}
    return small.get(key) or by_kind[answer.kind.value]


@for_each(key for key, entry in all_words().items() if entry.who != "you")
def test_what_someone_else_knows_is_asked_of_them(key: str) -> None:
    """An answer that somebody else has is reached by a question to that person."""
    assert words(key).who in [e.who for e in QUESTIONS.values() if e.answer == key]


@for_each(sorted(HOLD))
def test_what_holds_the_order(key: str) -> None:
    assert question_words(key).holds


def test_others_only_nag() -> None:
    nagging = [key for key, entry in QUESTIONS.items() if not entry.holds]
    assert {"supplier.price_moves", "supplier.nearest_stock", "client.waves",
            "machine_maker.settings", "supplier.technical_support"} <= set(nagging)  # fmt: skip


@for_each(ENTRIES)
def test_a_question_about_a_load_or_a_report_carries_a_caution(entry: QuestionWords) -> None:
    talk = entry.ask.casefold()
    if re.search(r"carry|lift|unload|wind speed|profile was tested|reports\?", talk):
        assert entry.caution


def test_words_left_out_are_those_of_the_answer() -> None:
    entry = question_words("supplier.tolerance")
    assert (entry.ask, entry.why) == (words("coils.tolerance").ask, words("coils.tolerance").why)


def test_a_new_job_is_asked_much_and_by_everybody() -> None:
    """A roof sketch and nothing else: the sheet has something for each of the five."""
    job = new_job("Cold")
    asked = plan(job).questions
    assert {q.who for q in asked} == set(PERSONS)
    assert len(asked) >= 60
