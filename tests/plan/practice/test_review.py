"""An attempt reviewed: every mistake planted is found, and nothing else is."""

from __future__ import annotations

import dataclasses

import pytest

from coilwright.job.attempt import Attempt, Response
from coilwright.job.practice import Damage, Practice
from coilwright.plan.practice.review import Review, Slip, common_mistakes, latest, review
from coilwright.plan.practice.solve import solve
from coilwright.sheets import render_as
from coilwright.sheets.practice import class_sheet
from coilwright.store.practice import shipped_practices
from coilwright.values.keys import Key
from tests.attempts import WHEN, mistakes, right_attempt
from tests.rules import for_each


@for_each(shipped_practices().values())
def test_every_planted_mistake_is_found_and_nothing_else(one: Practice) -> None:
    solved = solve(one, 5)
    right = right_attempt(solved)
    assert review(solved, right).mistakes == ()
    tried = 0
    for solution in solved.solutions:
        for mistake, response in mistakes(solution):
            made = review(solved, right.respond(solution.decision.key, response))
            assert made.mistakes == (mistake,)
            tried += 1
    assert tried >= 4


@for_each(shipped_practices().values())
def test_mistakes_in_all_decisions_at_once_are_told_apart(one: Practice) -> None:
    solved = solve(one, 2)
    attempt, planted = right_attempt(solved), []
    for solution in solved.solutions:
        mistake, response = list(mistakes(solution))[-1]
        attempt = attempt.respond(solution.decision.key, response)
        planted.append(mistake)
    made = review(solved, attempt)
    assert list(made.mistakes) == planted
    assert made.right == 0


def test_a_narrow_strip_costs_metal_money_and_days_worked_by_hand() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)
    strip, mass = solved.key.figures[Key.STRIP_WIDTH], solved.key.figures[Key.COIL_MASS_ORDERED]
    attempt = right_attempt(solved).respond("strip", Response(text=f"{strip.value - 4} in"))
    (mark, *_) = review(solved, attempt).marks
    cost = {loss.damage: loss.figure for loss in mark.losses}
    metal, money, days = (cost[d] for d in (Damage.METAL, Damage.MONEY, Damage.DAYS))
    assert metal is not None
    assert money is not None
    assert days is not None
    assert metal.value == pytest.approx(mass.value * 4 / strip.value)
    assert money.value == pytest.approx(metal.value * 1.35)  # the price of the invented list
    assert days.value == 21  # and its lead time
    assert metal.equation == "M·(max(a, b) − min(a, b)) / b"


def test_what_is_within_the_tolerance_is_right_and_what_is_beyond_it_is_not() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)
    strip = solved.key.figures[Key.STRIP_WIDTH].value
    for text, slips in ((f"{strip + 1 / 32} in", []), (f"{strip - 1 / 32} in", []),
                        (f"{strip + 1 / 16} in", [Slip.MORE]), (f"{strip}", [])):
        attempt = right_attempt(solved).respond("strip", Response(text=text))
        assert [one.slip for one in review(solved, attempt).mistakes] == slips


def test_an_accepted_option_is_neither_found_nor_a_false_alarm() -> None:
    solved = solve(shipped_practices()["report-limits"], 0)
    right = right_attempt(solved)
    picks = right.response("outside").picks
    assert "panel.oil_canning" not in picks
    more = right.respond("outside", Response(picks=(*picks, "panel.oil_canning")))
    assert review(solved, more).mistakes == ()


def test_what_nobody_offered_counts_for_nothing() -> None:
    solved = solve(shipped_practices()["report-limits"], 0)
    odd = right_attempt(solved).respond("outside", Response(picks=("no such", "\n")))
    assert [one.slip for one in review(solved, odd).mistakes] == [Slip.BLANK]
    other = dataclasses.replace(right_attempt(solved), responses={"else": Response(text="1")})
    assert {one.slip for one in review(solved, other).mistakes} == {Slip.BLANK}


def test_a_class_shows_its_commonest_mistakes_first() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)
    good = right_attempt(solved, "A")

    def wrong(name: str, **texts: str) -> Attempt:
        made = dataclasses.replace(good, name=name)
        for key, text in texts.items():
            made = made.respond(key, Response(text=text))
        return made

    reviews = [review(solved, one) for one in (
        good, wrong("B", strip="12 in"), wrong("C", strip="12 in", panels="1"), wrong("D"),
    )]
    found = common_mistakes(reviews)
    assert [(c.decision.key, c.mistake.slip, c.names) for c in found] == [
        ("strip", Slip.LESS, ("B", "C")), ("panels", Slip.LESS, ("C",)),
    ]


def test_of_each_person_the_attempt_handed_in_last_is_counted() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)

    def handed(name: str, hour: int, strip: str = "") -> Review:
        attempt = dataclasses.replace(right_attempt(solved, name), handed_in=None)
        if strip:
            attempt = attempt.respond("strip", Response(text=strip))
        return review(solved, attempt.hand_in(WHEN.replace(hour=hour)) if hour else attempt)

    # The first Bob put it right the third time; what was not handed in is before all that was.
    reviews = [handed("Bob", 10, "12 in"), handed("bob ", 12), handed("Bob", 11, "12 in"),
               handed("Cy", 9, "12 in"), handed("Cy", 0), handed("", 9, "12 in"),
               handed("", 10, "12 in")]
    assert [reviews.index(one) for one in latest(reviews)] == [1, 3, 5, 6]
    (common,) = common_mistakes(reviews)
    assert common.names == ("Cy", "no name", "no name")
    text = " ".join(render_as(class_sheet(reviews), "text", 160).split())
    assert "3 of 4" in text
    assert text.count("Bob (earlier)") == 2
    assert text.count("(earlier)") == 4  # those, one of Cy's, and in the sentence about them
