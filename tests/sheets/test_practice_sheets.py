"""Papers for a class: each sets in every form, and the glossary holds one page."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator

import pytest

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import give_text
from coilwright.job.job import Job
from coilwright.job.practice import Judged, Practice
from coilwright.job.roof import Plane
from coilwright.plan import plan
from coilwright.plan.practice.propose import propose
from coilwright.plan.practice.review import review
from coilwright.plan.practice.solve import Solved, solve
from coilwright.sheets import FORMS, render_as
from coilwright.sheets.practice import (
    TERMS,
    glossary_sheet,
    handout,
    key_sheet,
)
from coilwright.sheets.practice_class import class_sheet
from coilwright.sheets.practice_review import review_sheet
from coilwright.store.practice import shipped_practices
from coilwright.store.shipped import demo_jobs
from coilwright.units import Kind, read
from coilwright.values.figure import Figure
from coilwright.values.keys import Key
from coilwright.values.source import Grade
from coilwright.words.glossary import glossary
from tests.attempts import mistakes, right_attempt
from tests.rules import BRITISH, for_each
from tests.sheets.pages import Page


def test_a_sum_on_the_key_reads_as_one_where_its_parts_are_rounded() -> None:
    said = " ".join(render_as(key_sheet(solve(shipped_practices()["wrong-gauge"], 1)), "text",
                              1_000).split())
    # 539 ft 5 in, twice, is 1,078 ft 10 in: as they were added up they make what stands there.
    assert said.count("(539 ft 5 in = 6472.5 in)") == 2
    assert "together 12945 in = 1,078 ft 9 in" in said


@pytest.mark.slow
@for_each(shipped_practices().values())
def test_every_paper_sets_in_every_form(one: Practice) -> None:
    solved = solve(one, 6)
    wrong = right_attempt(solved)
    for solution in solved.solutions:
        wrong = wrong.respond(solution.decision.key, next(iter(mistakes(solution)))[1])
    made = review(solved, wrong)
    details = review_sheet(made, details=True)
    said = " ".join(render_as(key_sheet(solved), "text", 1_000).split())
    # Where an equation is one symbol alone, it would tell nobody anything.
    assert not re.search(r"[;:] [A-Za-z]1[.;,]", said)
    for sheet in (handout(solved), key_sheet(solved), review_sheet(made), class_sheet([made]),
                  details):
        for form in FORMS:
            text = render_as(sheet, form)
            assert one.title in text or "&" in text
            assert not BRITISH.search(text)
        Page(render_as(sheet, "html"))


def made_practice() -> Practice:
    """A practice job made of the demo job that is ready."""
    return propose(plan(demo_jobs()["heron-lane-barn"]), "barn", "The barn", "A barn, invented.")


def put_in(figure: Figure, said: str) -> Iterator[Figure]:
    """What a figure rests on at last, or as far as the handout says it outright."""
    if figure.key == Key.HAUL_RACK and figure.text() in said:
        return
    if figure.formula is None:
        yield figure
    for term in figure.terms:
        yield from put_in(term, said)


def said_on_paper(solved: Solved) -> str:
    """The handout's text on one line."""
    return " ".join(render_as(handout(solved), "text", 200).split())


@pytest.mark.slow
@for_each((*shipped_practices().values(), made_practice(), propose(
    plan(shipped_practices()["report-limits"].key), "coated", "Coated", "Thickness without it.")))
def test_the_handout_says_all_that_its_key_rests_on(one: Practice) -> None:
    solved = solve(one, 3)
    said = said_on_paper(solved)
    assert "{" not in said
    for solution in solved.solutions:
        for figure in solution.working:
            for term in put_in(figure, said):
                # What is measured on the drawing follows from its edges, and how many are alike.
                if term is not figure and term.source.grade is not Grade.LAYOUT:
                    assert term.text() in said, (solution.decision.key, term.label)
    # How many coils there are, and so what of them is not panels, hangs on these.
    for decision in solved.practice.decisions:
        if decision.judged is Judged.FIGURE and "coil." in decision.of:
            over = solved.over if decision.of.startswith("given.") else solved.key
            for limit in over.limits:
                for term in put_in(limit.length, said):
                    if term is not limit.length and term.source.grade is not Grade.LAYOUT:
                        assert term.text() in said, (decision.key, limit.key, term.label)
    own = one.name not in shipped_practices()
    assert ("no machine, supplier or report is real" in said) is not own
    assert ("Changed for practice" in said) is own
    if one.drawing:
        count = sum(plane.alike for plane in solved.key.planes)
        assert f"{count} alike" in said


def test_the_key_of_a_made_practice_job_is_reached_from_its_papers_alone() -> None:
    solved = solve(made_practice(), 0)
    job, planes = Job(), []
    for paper in solved.practice.papers:
        for label, text in paper.lines:
            key = next((key for key, one in ANSWERS.items() if one.label == label), None)
            if key is not None:
                job, error = give_text(job, key, text)
                assert not error, (label, text)
            elif " along the eave, " in text:
                eave, rest = text.split(" along the eave, ")
                slope, pitch = rest.split(" up the slope, pitch ")
                planes.append(Plane(name=label, eave=read(eave, Kind.LENGTH),
                                    slope_length=read(slope, Kind.LENGTH),
                                    pitch=read(pitch, Kind.PITCH)))
    made = plan(dataclasses.replace(
        job, roof=dataclasses.replace(job.roof, planes=tuple(planes))))
    for solution in solved.solutions:
        if solution.figure is not None:
            assert made.figures[solution.figure.key].text() == solution.text
    assert made.governing is not None
    assert solved.solution("limit").right == (made.governing.key,)
    # Nobody is sent to a variant that there is not.
    assert "Variant" not in said_on_paper(solved)
    assert "one variant only" in render_as(key_sheet(solve(made_practice(), 2)), "text", 200)


def test_a_review_says_what_it_costs_and_how_that_was_worked_out() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)
    attempt = right_attempt(solved)
    (mistake, response), *_ = mistakes(solved.solution("strip"))
    made = review(solved, attempt.respond("strip", response))
    short = render_as(review_sheet(made), "text", 200)
    (told,) = [line for line in short.splitlines() if line.startswith("- Too small: 1. ")]
    assert "It would have cost" in told
    assert "lb of metal, $" in told
    assert "21 days" in told
    assert "less the smaller" not in short
    text = render_as(review_sheet(made, details=True), "text", 200)
    assert mistake.slip.capitalize() in text
    assert told in text
    # How numbers are made is on the key, for the trainer, each equation once and in words.
    assert "How these numbers were made" not in text
    text = render_as(key_sheet(solved), "text", 200)
    assert "max(" not in text
    flat = " ".join(text.split())
    assert flat.count("c + u, with c = Coverage width (16 in), u = Take-up (4 5/8 in)") == 1


def test_the_words_fit_one_page() -> None:
    assert set(TERMS) <= set(glossary().terms)
    text = render_as(glossary_sheet(), "text", 110)
    assert 30 <= len(text.splitlines()) <= 66
