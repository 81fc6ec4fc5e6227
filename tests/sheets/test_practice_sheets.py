"""Papers for a class: each sets in every form, and the glossary holds one page."""

from __future__ import annotations

import pytest

from coilwright.job.practice import Practice
from coilwright.plan.practice.review import review
from coilwright.plan.practice.solve import solve
from coilwright.sheets import FORMS, set_as
from coilwright.sheets.practice import (
    TERMS,
    class_sheet,
    glossary_sheet,
    handout,
    key_sheet,
    review_sheet,
)
from coilwright.store.practice import shipped_practices
from coilwright.words.glossary import glossary
from tests.attempts import mistakes, right_attempt
from tests.rules import BRITISH, for_each
from tests.sheets.pages import Page


@pytest.mark.slow
@for_each(shipped_practices().values())
def test_every_paper_sets_in_every_form(one: Practice) -> None:
    solved = solve(one, 6)
    wrong = right_attempt(solved)
    for solution in solved.solutions:
        wrong = wrong.respond(solution.decision.key, next(iter(mistakes(solution)))[1])
    made = review(solved, wrong)
    for sheet in (handout(solved), key_sheet(solved), review_sheet(made), class_sheet([made])):
        for form in FORMS:
            text = set_as(sheet, form)
            assert one.title in text or "&" in text
            assert not BRITISH.search(text)
        Page(set_as(sheet, "html"))


def test_a_review_says_what_it_costs_and_how_that_was_worked_out() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)
    attempt = right_attempt(solved)
    (mistake, response), *_ = mistakes(solved.solution("strip"))
    text = set_as(review_sheet(review(solved, attempt.respond("strip", response))), "text", 200)
    assert mistake.slip.capitalize() in text
    assert "It costs metal (" in text
    assert "days (21)" in text
    assert "M·(max(a, b) − min(a, b)) / b" in text


def test_the_words_fit_one_page() -> None:
    assert set(TERMS) <= set(glossary().terms)
    text = set_as(glossary_sheet(), "text", 110)
    assert 30 <= len(text.splitlines()) <= 66
