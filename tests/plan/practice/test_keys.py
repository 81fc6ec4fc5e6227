"""The shipped practice jobs: their keys are ready, and say what a plan says."""

from __future__ import annotations

import dataclasses
import math
import re
from itertools import pairwise

import pytest

from coilwright.job.answers import ANSWERS, UnreadableAnswer
from coilwright.job.attempt import Attempt
from coilwright.job.practice import Judged, Practice, handed_over, to_work_on, vary
from coilwright.job.variant_draw import MOST_VARIANTS, draw
from coilwright.plan import plan
from coilwright.plan.practice.propose import faults, propose
from coilwright.plan.practice.review import number_error, read_number
from coilwright.plan.practice.solve import solve
from coilwright.sheets import render_as
from coilwright.sheets.practice import key_sheet
from coilwright.store import read_model, to_text
from coilwright.store.practice import shipped_practices
from coilwright.store.shipped import demo_jobs
from coilwright.units import Kind, System, read
from coilwright.values.keys import Key
from coilwright.words import words
from tests.rules import for_each

SAMPLE = (0, 101)
"""A few variants; `python -m tests.variants` tries two hundred of each."""
QUICK = [one for one in shipped_practices().values()
         if all(d.judged is not Judged.ASK_FIRST for d in one.decisions)]


def test_there_are_ten_or_more_from_easy_to_hard_and_each_teaches_its_own() -> None:
    found = shipped_practices().values()
    assert len(found) >= 10
    assert {one.level for one in found} == {1, 2, 3}
    assert len({one.teaches for one in found}) == len(found)
    assert all("invented" in one.story for one in found)


@pytest.mark.slow
@for_each([(one, seed) for one in QUICK for seed in SAMPLE], lambda one: one.name)
def test_every_variant_has_a_key_that_is_ready(one: Practice, seed: int) -> None:
    assert faults(one, seed) == ()
    assert plan(vary(one, seed).key).ready


def test_a_valley_is_as_long_as_its_lesson_says() -> None:
    one = shipped_practices()["valley-from-plan"]
    assert "half the wing's width, overhangs included, by √2" in one.decisions[1].why
    for seed in SAMPLE:
        solved = solve(one, seed)
        roof, found = solved.key.job.roof, solved.solution("valley").figure
        assert roof.wing_width is not None
        assert roof.eave_overhang is not None
        assert roof.pitch is not None
        assert found is not None
        half = (roof.wing_width + 2 * roof.eave_overhang) / 2
        assert found.value == pytest.approx(math.hypot(half * math.sqrt(2), half * roof.pitch / 12))
        # All that the area hangs on stands on the paper of the plan, the gables' overhang too.
        said = dict(solved.practice.papers[0].lines)
        eave, rake, length, width, out, wing = (
            float(read(said[row], Kind.LENGTH)) for row in (
                "Overhang at the eaves", "Overhang at the gables",
                "Main part, length along the ridge", "Main part, width", "Wing sticks out",
                "Wing, width"))
        flat = ((length + eave + rake) * (width + 2 * eave)
                + (out + rake - eave) * (wing + 2 * eave))
        area = solved.solution("area").figure
        assert area is not None
        assert area.value == pytest.approx(flat * math.hypot(1, roof.pitch / 12))


def test_what_to_ask_first_is_told_apart() -> None:
    one = shipped_practices()["ask-first"]
    assert faults(one, 3) == ()
    # Each by how much it moves the order, in the order they are ranked: a trainer can defend it.
    solution = solve(one, 3).solution("first")
    assert set(solution.ranked) == {option.key for option in solution.decision.options}
    moved = [int(found[1].replace(",", "")) if (found := re.search(r"by ([\d,]+) lb", words)) else 0
             for words in solution.ranked.values()]
    assert moved == sorted(moved, reverse=True)
    assert moved[0] > 100
    assert tuple(solution.ranked)[:3] == solution.right
    text = " ".join(render_as(key_sheet(solve(one, 3)), "text", 1_000).split())
    assert all(words in text for words in solution.ranked.values())
    assert len({option.if_wrong.why for option in solution.decision.options}) == 8


@pytest.mark.slow
@for_each(shipped_practices().values())
def test_variants_differ_and_a_number_always_gives_the_same(one: Practice) -> None:
    made = [vary(one, seed) for seed in range(12)]
    assert vary(one, 3) == made[3]
    assert len({to_text(variant) for variant in made}) > 4
    for variant in made:
        titles = [paper.title for paper in variant.papers]
        texts = (variant.story, variant.lesson, *titles, *(
            text for paper in variant.papers for one in paper.lines for text in one
        ))
        assert not any("{" in text.replace("{figure.", "") for text in texts)
        assert all(text.strip() for text in texts)


@for_each(shipped_practices().values())
def test_a_practice_job_is_written_and_read_whole(one: Practice) -> None:
    assert read_model(to_text(one), Practice, "there") == one


def test_the_strip_is_coverage_and_take_up_worked_by_hand() -> None:
    for seed in range(5):
        solved = solve(shipped_practices()["strip-and-coverage"], seed)
        panel = solved.practice.key.panel
        assert panel.coverage is not None
        assert panel.take_up is not None
        figure = solved.solution("strip").figure
        assert figure is not None
        assert figure.value == pytest.approx(panel.coverage + panel.take_up)


def test_the_mistakes_are_those_of_the_job_as_it_is_handed_over() -> None:
    one = vary(shipped_practices()["wrong-gauge"], 0)
    own, over = plan(one.key), plan(handed_over(one))
    assert own.ready
    assert {f.key for f in over.stops} == {"metal.gauge_differs"}


def test_what_quotes_land_at_is_in_the_currency_of_the_job() -> None:
    one = shipped_practices()["quotes-on-one-footing"]
    received = tuple(dataclasses.replace(quote, currency="EUR")
                     for quote in one.key.quotes.received)
    key = dataclasses.replace(
        one.key, job=dataclasses.replace(one.key.job, currency="EUR"),
        quotes=dataclasses.replace(one.key.quotes, received=received))
    quote, landed = solve(dataclasses.replace(one, key=key), 1).solutions
    assert landed.figure is not None
    assert landed.text.endswith(" EUR")
    assert read_number(f"€{landed.figure.value:,.2f}", landed.figure) == landed.figure.value
    assert "in EUR, and this one says $" in number_error(f"${landed.figure.value:,.2f}", landed)
    assert not any("$" in note for note in quote.notes)


def test_a_place_that_is_none_is_told() -> None:
    one = dataclasses.replace(shipped_practices()["wrong-gauge"], given={"arrived.3.width": "2 in"})
    assert "no such place" in faults(one)[0]
    # Nor does one that was changed by hand end the program where it is begun.
    one = dataclasses.replace(shipped_practices()["quotes-on-one-footing"], variations=())
    for place, text, told in (
        ("quotes.received.0.price.amount", "much", "“much” is no number"),
        ("quotes.received.0.price.amount", "", "it cannot be left out"),
    ):
        wrong = dataclasses.replace(one, given={place: text})
        assert any(told in fault for fault in faults(wrong)), (place, faults(wrong))
    with pytest.raises(ValueError, match="no such answer and no such list"):
        dataclasses.replace(one, stripped=("figure.nope",))


def test_any_ready_job_becomes_a_practice_job() -> None:
    made = plan(demo_jobs()["heron-lane-barn"])
    one = propose(made, "barn", "The barn", "A barn roof, invented.")
    assert faults(one) == ()
    assert "A. Demo" not in to_text(one)
    assert "Heron" not in to_text(one)
    # Nor an example machine, which is found by its name with what its plate really says.
    assert made.job.machine.name
    assert made.job.machine.name not in to_text(one)
    strip = solve(one, 0).solution("strip").figure
    assert strip is not None
    assert strip.value == made.figures[Key.STRIP_WIDTH].value


def test_what_stops_a_job_is_what_there_is_to_find_in_a_practice_job_of_it() -> None:
    made = plan(demo_jobs()["mill-row-mistakes"])
    one = propose(made, "row", "The row", "A porch, invented.")
    assert faults(one) == ()
    assert not any(sign.isdigit() for sign in one.teaches)  # how many is not told
    solution = solve(one, 0).solution("wrong")
    assert set(solution.right) == {f.key for f in made.stops if not f.accept}
    assert "metal.gauge_differs" in solution.right
    # The job is handed over as it is filled in, and among the options some are not so.
    given_out = to_work_on(one, Attempt(practice="row"))
    assert given_out.metal == made.job.metal
    options = {option.key for option in solution.decision.options}
    assert options - set(solution.right)
    assert not (options - set(solution.right)) & {f.key for f in made.findings}


def test_what_a_made_practice_job_teaches_is_what_it_asks() -> None:
    one = propose(plan(demo_jobs()["heron-lane-barn"]), "barn", "The barn", "A barn, invented.")
    # Flat sheets on the line of what to buy are no coils: the question is of those alone.
    (weight,) = (each for each in one.decisions if each.of == Key.COIL_MASS_ORDERED)
    assert "all coils" in weight.ask
    assert one.teaches == (
        "From the papers: the strip, the coils, what they weigh and what limits a coil.")


def test_a_draft_becomes_none() -> None:
    with pytest.raises(ValueError, match="not ready"):
        propose(plan(demo_jobs()["quarry-house-hip"]), "hip", "The hip", "Invented.")
    with pytest.raises(ValueError, match="makes a mistake"):
        propose(plan(demo_jobs()["quarry-house-hip"]), "hip", "The hip", "Invented.",
                mistakes=2, subjects=())


def test_no_help_or_example_gives_what_is_to_be_found() -> None:
    tried = 0
    for one in shipped_practices().values():
        for decision in (made for made in one.decisions if made.of in ANSWERS):
            answer = ANSWERS[decision.of]
            said = repr(words(decision.of))
            with pytest.raises(UnreadableAnswer) as told:
                answer.read("no idea", System.US)
            for seed in range(12) if decision.judged is Judged.FIGURE else ():
                text = solve(one, seed).solution(decision.key).text
                tried += 1
                assert text not in f"{said} {told.value}", (one.name, decision.key)
    assert tried


def test_the_tag_of_a_coil_on_hand_says_all_that_it_is_held_to() -> None:
    key = vary(shipped_practices()["leftover-coils"], 1).key
    made = propose(plan(key), "left", "Left", "Leftovers, invented.")
    tags = [paper for paper in made.papers if paper.title.startswith("Tag on the coil")]
    assert len(tags) == len(key.on_hand) > 0
    for at, (coil, paper) in enumerate(zip(key.on_hand, tags, strict=True)):
        said = {text for _, text in paper.lines}
        for field in ("metal", "coating", "thickness", "thickness_basis", "width", "length",
                      "length_by", "color", "color_code", "lot"):
            assert (f"{{on_hand.{at}.{field}}}" in said) == bool(getattr(coil, field)), field


@for_each(shipped_practices().values(), lambda one: one.name)
def test_no_two_of_a_class_have_the_same_sizes(one: Practice) -> None:
    drawn = [draw(one.name, [len(each.choices) for each in one.variations], seed)
             for seed in range(1, MOST_VARIANTS + 1)]
    many = math.prod(len(each.choices) for each in one.variations)
    assert len(set(drawn[:many])) == min(many, MOST_VARIANTS)
    # Where there are no more, they come round again, and neighbors are still told apart.
    assert all(a != b for a, b in pairwise(drawn))
