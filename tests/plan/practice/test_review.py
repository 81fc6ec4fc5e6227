"""An attempt reviewed: every mistake planted is found, and nothing else is."""

from __future__ import annotations

import dataclasses
import re

import pytest

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.attempt import Attempt, Response
from coilwright.job.places import place_text, put_place
from coilwright.job.practice import Damage, Practice, changes_made, to_work_on
from coilwright.plan import plan
from coilwright.plan.practice.class_cost import class_sum, cost_of
from coilwright.plan.practice.class_table import (
    class_table,
    common_mistakes,
    common_words,
    handed_in_again,
    in_order,
    latest,
    left_out,
)
from coilwright.plan.practice.propose import faults, propose
from coilwright.plan.practice.review import (
    Review,
    Slip,
    doubts,
    review,
)
from coilwright.plan.practice.review_lines import false_alarm, review_lines
from coilwright.plan.practice.solve import Solved, solve
from coilwright.sheets import render_as
from coilwright.sheets.practice_class import class_sheet
from coilwright.sheets.practice_review import review_sheet, review_sheets
from coilwright.sheets.practice_rows import class_rows
from coilwright.store.practice import shipped_practices
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
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
    # It forms no seam: lost is the coil as it was ordered, too narrow.
    assert metal.value == pytest.approx(mass.value * (strip.value - 4) / strip.value)
    assert money.value == pytest.approx(metal.as_read() * 1.35)  # the price of the invented list
    assert days.value == 21  # and its lead time
    assert metal.equation == "M·a / b"
    attempt = right_attempt(solved).respond("strip", Response(text=f"{strip.value + 1} in"))
    (mark, *_) = review(solved, attempt).marks
    wide = next(loss.figure for loss in mark.losses if loss.damage is Damage.METAL)
    assert wide is not None
    assert wide.value == pytest.approx(mass.value / strip.value)
    assert wide.equation == "M·(max(a, b) − min(a, b)) / b"


def test_no_length_but_a_strips_is_weighed_as_strip() -> None:
    solved = solve(shipped_practices()["valley-from-plan"], 0)
    found = {}
    for key, text in (("valley", "1 ft"), ("longest", "5 ft")):
        marks = review(solved, right_attempt(solved).respond(key, Response(text=text))).marks
        (mark,) = (one for one in marks if one.decision.key == key)
        found[key] = {loss.damage: loss.figure for loss in mark.losses}
    assert found["valley"][Damage.METAL] is None
    # Of a strip of no width nothing is ordered; the days pass all the same.
    (mark, *_) = review(solve(shipped_practices()["strip-and-coverage"], 0), right_attempt(
        solved).respond("strip", Response(text="0"))).marks
    assert {loss.damage: loss.figure is None for loss in mark.losses} == {
        Damage.METAL: True, Damage.MONEY: True, Damage.DAYS: False}
    # Panels that are too short are scrap, all of them.
    assert found["longest"][Damage.METAL] == solved.key.figures[Key.COIL_MASS_ORDERED]


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


@for_each([one for one in shipped_practices().values()
           if any(decision.options for decision in one.decisions)])
def test_whoever_picks_everything_has_found_nothing_and_a_false_alarm_costs_a_look(
    one: Practice
) -> None:
    solved = solve(one, 1)
    right = right_attempt(solved, "A")
    assert review(solved, right).score == review(solved, right).to_find
    for at, solution in enumerate(solved.solutions):
        decision, picks = solution.decision, right.response(solution.decision.key).picks
        wrong = [o.key for o in decision.options if o.key not in picks and not o.accepted]
        if not wrong:
            continue
        one_more = review(solved, right.respond(
            decision.key, Response(picks=(*picks, wrong[0])))).marks[at]
        assert one_more.score == one_more.to_find - 1
        everything = right.respond(decision.key, Response(
            picks=tuple(option.key for option in decision.options)))
        made = review(solved, everything)
        mark = made.marks[at]
        assert (mark.score == 0) == (len(wrong) >= mark.to_find)
        assert made.score == made.to_find - mark.to_find + mark.score
        assert f"{made.score} of {made.to_find}" in render_as(class_sheet([made]), "text", 200)
        (row,) = class_rows([made]).rows
        assert row[3:6] == (made.score, made.to_find, len(wrong))
        # What was picked is told apart, whatever stands in the words of an option.
        cells = dict(zip(class_rows([made]).header, row, strict=True))
        assert cells[f"question {at + 1}"] == decision.ask
        assert str(cells[f"answer {at + 1}"]).split(" | ") == [
            option.words.rstrip(".") for option in decision.options]
        assert (cells["variant"] != "") == solved.practice.varies
        # Nobody is hurt by a false alarm, and no metal is lost; what is wrong is said once.
        said = render_as(review_sheet(made), "text", 10_000)
        assert "takes one away" in said
        if decision.judged.picks_one:
            assert said.count(decision.ask) == 1
        else:
            assert mark.losses == ()
            told = [line for line in said.splitlines() if line.startswith("- False alarm: ")]
            assert len(told) == len(wrong)
            assert all(false_alarm(decision) in line for line in told)
            assert not any("hurt" in line or "cost" in line for line in told)


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


def test_of_each_person_the_last_attempt_counts_and_of_one_variant_the_first() -> None:
    solved = solve(shipped_practices()["strip-and-coverage"], 0)

    def handed(name: str, hour: int, strip: str = "") -> Review:
        attempt = dataclasses.replace(right_attempt(solved, name), handed_in=None)
        if strip:
            attempt = attempt.respond("strip", Response(text=strip))
        return review(solved, attempt.hand_in(WHEN.replace(hour=hour)) if hour else attempt)

    # Bob put it right the third time, with the review of the first before him: that first one
    # counts. What was not handed in is before all that was.
    reviews = [handed("Bob", 10, "12 in"), handed("bob ", 12), handed("Bob", 11, "12 in"),
               handed("Cy", 9, "12 in"), handed("Cy", 0), handed("", 9, "12 in"),
               handed("", 10, "12 in")]
    assert [reviews.index(one) for one in latest(reviews)] == [0, 3, 5, 6]
    # Nobody's hints and minutes were counted: no column stands empty, and the mark is whole.
    long = review(solved, dataclasses.replace(right_attempt(solved, "Bob " * 18), begun=None))
    for width in range(60, 81):
        text = render_as(class_sheet([long]), "text", width)
        assert text.count("(typed)") == 2
        assert next(line for line in text.splitlines() if line.startswith("name ")).split() == [
            "name", "1", "2", "3", "right", "variant"]
    (common,) = common_mistakes(reviews)
    assert common.names == ("Bob", "Cy", "no name", "no name")
    text = " ".join(render_as(class_sheet(reviews), "text", 160).split())
    assert "4 of 4" in text
    # Those of one person stand together, in the order of time; who had handed in this variant
    # before may have read its key by then, and that is said.
    assert [reviews.index(one) for one in in_order(reviews)] == [0, 2, 1, 4, 3, 5, 6]
    assert {reviews.index(one) for one in reviews if id(one) in handed_in_again(reviews)} == {1, 2}
    assert text.count("(earlier)") == 2  # one of Cy's, and in the sentence about it
    assert text.index("Bob ") < text.index("Bob (again)") < text.index("bob (again)")
    assert "its review, which says what is right, was there to be read" in text
    sheets = [render_as(one, "text", 200) for one in review_sheets(reviews)]
    assert ["Handed in again: " in one for one in sheets] == [False, True, True, *[False] * 4]
    rows, at = class_rows(reviews), class_rows(reviews).header.index("warning")
    assert {str(row[0]).strip(): "again" in str(row[at]) for row in rows.rows if row[0]} == {
        "Bob": True, "Cy": False}
    # Where the key was opened in the data folder of an attempt, the table, its review and the row
    # for a spreadsheet say so; to take that out by hand is an edit that shows.
    spied = dataclasses.replace(right_attempt(solved, "Di"), handed_in=None, key_opened=WHEN)
    reviews = [reviews[0], review(solved, spied.hand_in(WHEN))]
    text = " ".join(render_as(class_sheet(reviews), "text", 160).split())
    assert ("Bob (key)" in text, "Di (key)" in text, "(key): the key, or" in text) == (
        False, True, True)
    # Whoever reads the sums knows how many of those marked they count.
    assert "The sums of this table count 2, of whom 1 is so marked." in text
    sheets = [render_as(one, "text", 200) for one in review_sheets(reviews)]
    assert ["Opened on Mar 1, 2027 at" in one for one in sheets] == [False, True]
    assert ["key opened" in str(row[at]) for row in class_rows(reviews).rows] == [False, True]
    assert doubts(reviews[1].attempt) == ""
    assert doubts(dataclasses.replace(reviews[1].attempt, key_opened=None)) != ""
    other = review(solve(shipped_practices()["strip-and-coverage"], 4), right_attempt(
        solve(shipped_practices()["strip-and-coverage"], 4), "Bob"))
    assert not handed_in_again([reviews[0], other])  # another variant has other numbers
    assert latest([reviews[0], other]) == (other,)


def test_a_class_is_people_by_mistakes_with_sums_and_what_most_missed() -> None:
    solved = solve(shipped_practices()["tongue-weight"], 0)
    decision, right = solved.practice.decisions[0], solved.solution("over").right
    assert len(right) == 2
    false = next(one.key for one in decision.options if one.key not in right)
    picks = {"A": right, "B": (right[0],), "C": (right[0], false), "D": (false,)}
    reviews = [review(solved, right_attempt(solved, name).respond("over", Response(picks=picked)))
               for name, picked in picks.items()]
    reviews.append(review(solved, right_attempt(solved, "E").respond("tongue", Response())))
    sums = class_table(reviews)
    wrong = {one.option or one.decision.key: (count, missed) for one, count, missed in zip(
        sums.columns, sums.wrong, sums.missed, strict=True)}
    assert wrong == {right[0]: (1, 1), right[1]: (3, 3), false: (2, 0), "tongue": (1, 1),
                     "gross": (0, 0)}
    assert [one.option for one in sums.most_missed] == [right[1]]
    text = render_as(class_sheet(reviews), "text", 72)
    words = decision.option(right[1])
    assert words is not None
    most = f"Most missed: {sums.most_missed[0].name} {words.words} (3 of 5, false alarms aside)"
    assert most in " ".join(text.split())
    rows = {line.split()[0]: line for line in text.splitlines()
            if line[:2] in ("A ", "B ", "C ") and " of 4" in line}
    assert [rows[name].count("✓") for name in "ABC"] == [4, 3, 3]
    assert [rows[name].count("–") for name in "ABC"] == [0, 1, 1]
    assert [rows[name].count("!") for name in "ABC"] == [0, 0, 1]
    assert ["3 of 4" in rows["B"], "2 of 4" in rows["C"]] == [True, True]
    assert max(map(len, text.splitlines())) <= 72
    assert class_table([reviews[0]]).most_missed == ()
    # The letters of the handout; where neighbors have others for one thing, numbers.
    assert {one.name for one in sums.columns if one.option} <= {f"1{x}" for x in "abcdefg"}
    neighbor = solve(shipped_practices()["tongue-weight"], 1)
    other = right_attempt(neighbor, "F").respond("over", Response(picks=(right[0], false)))
    mixed = [*reviews, review(neighbor, other)]
    names = [one.name for one in class_table(mixed).columns if one.option]
    assert names == [f"1.{number}" for number in range(1, len(names) + 1)]
    assert {one.number for one in common_mistakes(mixed)} <= {*names, "1", "2"}
    told = " ".join(render_as(class_sheet(mixed), "text", 200).split())
    assert "Options have other letters in each variant" in told
    # Nor are those that nobody picked told by a letter then.
    others = left_out(mixed, class_table(mixed).columns)
    assert others
    assert all(re.fullmatch(r"1 “.{8,}”", one, re.DOTALL) for one in others), others
    assert f"rightly: {'; '.join(others)}." in told


def test_a_mistake_in_what_is_bought_costs_all_that_is_ordered() -> None:
    made = plan(demo_jobs()["heron-lane-barn"])
    one = propose(made, "barn", "Found", "A barn.", mistakes=3, subjects=("machine",))
    solved = solve(one, 0)
    right = solved.solution("wrong").right
    (bought, *_) = (key for key in right if (o := one.decisions[0].option(key)) is not None
                    and o.if_wrong.of_order)
    left = tuple(key for key in right if key != bought)
    attempt = right_attempt(solved).respond("wrong", Response(picks=left, why="By its plate"))
    (mark,) = review(solved, attempt).marks
    cost = {loss.damage: loss.figure for loss in mark.losses}
    mass = solved.key.figures[Key.COIL_MASS_ORDERED]
    assert (lost := cost[Damage.METAL]) is not None
    assert lost.value == mass.value
    assert [one.reason for one in review_lines(review(solved, attempt))] == [
        *("" for _ in left), "By its plate"]
    (line, *right_lines) = review_lines(review(solved, attempt))
    assert (line.result, line.what) == ("missed", solved.solution("wrong").because[bought].what)
    assert [one.result for one in right_lines] == ["found"] * len(left)
    text = " ".join(render_as(review_sheet(review(solved, attempt)), "text", 80).split())
    assert f"It would have cost {mass.text()} of metal" in text
    # Its details say of what was found, too, why it is a mistake.
    text = " ".join(render_as(review_sheet(review(solved, attempt), True), "text", 80).split())
    assert left
    for finding in (solved.solution("wrong").because[key] for key in left):
        assert f"Found: {finding.what.rstrip('.')}. {finding.why}" in text
    assert text.count("Reason given: By its plate") == 2  # there, and below all that is right


def test_the_wrong_quote_costs_by_how_much_more_it_lands() -> None:
    """By hand, of the papers of variant 1: 178.00 × 29.9157 squares = 5,324.99; 1.78 × 2,880.18 lb
    + 320 freight = 5,446.72; one that leaves its freight out costs what nobody knows."""
    solved = solve(shipped_practices()["quotes-on-one-footing"], 1)
    cost = {}
    for option in solved.solution("best").decision.options:
        picked = right_attempt(solved).respond("best", Response(picks=(option.key,)))
        (cost[option.key],) = ([loss.figure for loss in mark.losses if loss.damage is Damage.MONEY]
                               for mark in review(solved, picked).marks[:1])
    (birch,) = (figure for figure in cost["quotes.1"] if figure is not None)
    assert birch.value == pytest.approx(5_446.72 - 5_324.99)
    assert (cost["quotes.2"], cost["quotes.3"]) == ([], [None])


def test_the_wrong_metal_costs_all_the_metal_that_is_ordered() -> None:
    solved = solve(shipped_practices()["wrong-gauge"], 2)
    missed = review(solved, right_attempt(solved).respond("wrong", Response())).marks[0]
    cost = {loss.damage: loss.figure for loss in missed.losses}
    # Lost is the coil as it was ordered, wrong: thinner metal, and less of it by the pound.
    lost, key = cost[Damage.METAL], solved.key.figures[Key.COIL_MASS_ORDERED]
    assert lost == solved.over.figures[Key.COIL_MASS_ORDERED]
    assert lost is not None
    assert lost.value < key.value
    assert cost[Damage.MONEY] is not None
    # Who types a thickness that is too thin orders that coil; with one too thick, what it is more.
    thick = solved.key.figures[MetalKey.THICKNESS].value
    for factor, share in ((0.8, 0.8), (1.2, 0.2)):
        mark = review(solved, right_attempt(solved).respond(
            "thickness", Response(text=f"{thick * factor:.6f} in"))).marks[1]
        (metal,) = [loss.figure for loss in mark.losses if loss.damage is Damage.METAL]
        assert metal is not None
        assert metal.value == pytest.approx(key.value * share, rel=0.02)


def test_mistakes_of_one_order_cost_it_once_and_a_class_is_summed() -> None:
    solved = solve(shipped_practices()["wrong-gauge"], 2)
    right, lost = right_attempt(solved, "A"), solved.over.figures[Key.COIL_MASS_ORDERED]
    thin = right.respond("thickness", Response(text="0.015 in"))
    both = review(solved, dataclasses.replace(thin, name="B").respond("wrong", Response()))
    one = review(solved, dataclasses.replace(right, name="C").respond("wrong", Response()))
    cost = cost_of(both)
    assert (cost.of, cost.hurts, cost.figures[Damage.METAL]) == (2, True, lost)
    # Thin metal hurts whoever ordered it, by the gauge that was left wrong as by a number typed.
    assert (cost_of(one).of, cost_of(one).hurts) == (1, True)
    assert not cost_of(review(solved, right)).is_any
    # As it is read: whoever multiplies the pounds that stand there gets the money beside them.
    found = class_sum(map(cost_of, (both, one)), System.US)
    pounds = lost.as_read()
    assert lost.value != pounds == round(pounds)
    assert found[Damage.METAL].value == 2 * pounds
    assert found[Damage.MONEY].value == 2 * round(pounds * 1.35)
    # Without cents, which would be others by the pounds as they are worked out: what might have
    # been, the summary of the job and the sum of a class then say the same.
    assert round(lost.value * 1.35) == round(pounds * 1.35)
    assert f", ${round(pounds * 1.35):,}, " in render_as(review_sheet(both), "text", 300)
    assert found[Damage.DAYS].value == 21
    short = review(solved, right.respond("weight", Response(text="1000 lb")))
    assert (cost_of(short).is_any, cost_of(short).hurts) == (True, False)
    # Who answered nothing is not left out as if it had cost the least.
    nothing = review(solved, Attempt(practice=solved.practice.name, seed=2, name="D",
                                     fingerprint=right.fingerprint).hand_in(WHEN))
    told = " ".join(render_as(class_sheet([both, one, nothing]), "text", 80).split())
    assert "D (answered nothing)" in told
    assert "costs nothing here: nothing was ordered by it" in told
    assert "Days of the class are the most of one person's" in told
    text = render_as(class_sheet([review(solved, right), both, one]), "text", 80)
    assert "Not in the table, for nobody picked them, and rightly: 1a; " in " ".join(text.split())
    rows = [line.split() for line in text.splitlines() if " lb " in line]
    assert [row[0] for row in rows] == ["B", "C", "the"]
    assert [row[1:3] == lost.text().split() for row in rows[:2]] == [True, True]
    assert [row[-2:] for row in rows[:2]] == [["21", "yes"]] * 2
    assert rows[2][-2:] == ["21", "yes"]  # days pass for all of a class at once
    assert "the costliest mistake is counted" in " ".join(text.split())
    said = render_as(review_sheet(both), "text", 200)
    assert f"In all: {lost.text()} of metal, " in said
    assert "In all" not in render_as(review_sheet(one), "text", 200)
    # A row of the spreadsheet has the same, and what was typed stands on a line that is right.
    (row,) = class_rows([both]).rows
    at = class_rows([both]).header.index("metal (lb)")
    assert f"{row[at]:,.0f} lb" == lost.text()  # the same digits as in the class's table
    money = row[class_rows([both]).header.index("money (USD)")]
    assert money == round(float(row[at]) * solved.key.figures[CoilsKey.PRICE].value)
    # What was typed and the key are numbers in one unit, without it: a spreadsheet compares them.
    typed = right.respond("weight", Response(text="2,440 lbs"))
    header, (row,) = (made := class_rows([review(solved, typed)])).header, made.rows
    cells = dict(zip(header, row, strict=True))
    assert (cells["answer 3"], cells["key 3"], cells["unit 3"]) == (
        2440.0, float(f"{key_of(solved):.0f}"), "lb")
    unread = class_rows([review(solved, right.respond("weight", Response(text="a lot")))])
    assert dict(zip(header, unread.rows[0], strict=True))["answer 3"] == "a lot"
    krona = dataclasses.replace(solved.key.job, job=dataclasses.replace(
        solved.key.job.job, currency="SEK"))
    in_krona = dataclasses.replace(both, solved=dataclasses.replace(
        solved, key=dataclasses.replace(solved.key, job=krona)))
    assert "money (SEK)" in class_rows([in_krona]).header
    assert "money" in class_rows([in_krona, both]).header  # of several, none is said
    same = right.respond("weight", Response(text=f"{key_of(solved):.0f}"))
    assert (f"Right: 3. {solved.practice.decisions[2].ask} {solved.solution('weight').text}."
            ) in render_as(review_sheet(review(solved, same)), "text", 400)
    near = right.respond("weight", Response(text=f"{key_of(solved) * 1.01:.0f}"))
    assert (f"Right: 3. {solved.practice.decisions[2].ask} {key_of(solved) * 1.01:.0f}, within "
            f"2 % of the key's {solved.solution('weight').text}.") in render_as(
        review_sheet(review(solved, near)), "text", 400)


def key_of(solved: Solved) -> float:
    """What is ordered by the key [lb]."""
    return solved.key.figures[Key.COIL_MASS_ORDERED].value


def test_a_class_with_several_variants_is_told_in_words_that_hold_for_all() -> None:
    solved = [solve(shipped_practices()["wrong-gauge"], seed) for seed in (0, 1, 2, 3, 4, 5)]
    asked = {one.practice.decisions[1].ask for one in solved}
    assert len(asked) > 1
    text = " ".join(render_as(class_sheet(
        [review(one, right_attempt(one, f"P{one.seed}")) for one in solved]), "text", 200).split())
    assert "The roof needs … gauge coated steel as a minimum." in text
    assert common_words(["one two three", "one two"]) == "one two …"


def test_a_metric_job_is_asked_answered_and_reviewed_in_metric_units() -> None:
    job = dataclasses.replace(demo_jobs()["heron-lane-barn"], units=System.METRIC)
    solved = solve(propose(plan(job), "barn", "The barn", "A barn, invented."), 0)
    assert not faults(solved.practice)
    right = right_attempt(solved)
    assert review(solved, right).right == len(solved.solutions)
    strip = solved.solution("strip")
    assert strip.figure is not None
    assert strip.text == f"{strip.figure.value * 25.4:g} mm"
    bare = right.respond("strip", Response(text=strip.text.removesuffix(" mm")))
    assert review(solved, bare).right == len(solved.solutions)
    for solution in solved.solutions:
        for mistake, response in mistakes(solution):
            made = review(solved, right.respond(solution.decision.key, response))
            assert made.mistakes == (mistake,)
            said = render_as(review_sheet(made, details=True), "text", 200)
            said = re.sub(r"ASTM.*?\(published\)", "", said)  # as the source has it
            assert not re.search(r"\d (lb|in|ft|sq ft|lb/ft)\b", said), said


def test_what_was_changed_in_the_job_is_put_right_or_newly_made() -> None:
    one = propose(plan(demo_jobs()["heron-lane-barn"]), "barn", "Found", "A barn.", mistakes=2,
                  subjects=("machine",))
    solved = solve(one, 0)
    attempt = right_attempt(solved)
    begun = to_work_on(solved.practice, attempt)
    assert changes_made(begun, begun) == {}
    assert (review(solved, attempt).put_right, review(solved, attempt).broken) == ((), ())
    # What was put in is put right, and the gauge is spoiled; a name is nobody's business.
    job, good = begun, plan(demo_jobs()["heron-lane-barn"]).job
    for key in solved.solution("wrong").because["machine.strip"].answers:
        job = put_place(job, key, place_text(good, key))
    job = put_place(put_place(job, MetalKey.GAUGE, "20"), MetalKey.COLOR, "sky blue")
    changes = changes_made(begun, job)
    assert MetalKey.GAUGE in changes
    assert MetalKey.COLOR not in changes
    done = dataclasses.replace(attempt, changes=changes).hand_in(WHEN)
    assert done.is_as_handed_in
    made = review(solved, done)
    assert [finding.key for finding in made.put_right] == ["machine.strip"]
    assert [finding.key for finding in made.broken] == ["metal.gauge_differs"]
    text = render_as(review_sheet(made), "text", 200)
    assert f"- New mistake: {made.broken[0].what}" in text
    assert f"- Put right: {made.put_right[0].what}" in text
    assert "1 new mistake" in text
    assert "new: mistakes made in the job" in render_as(class_sheet([made]), "text", 80)
    # What comes in a file is not trusted: what cannot be read there is left out.
    odd = dataclasses.replace(attempt, changes={"metal.gauge": "\x1b many", "no.such": "1"})
    assert review(solved, odd).broken == ()
