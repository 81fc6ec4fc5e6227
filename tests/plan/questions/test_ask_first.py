"""What to ask first, held to brute force: every unknown over a grid of its usual range."""

from __future__ import annotations

import dataclasses
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS, Form, Value
from coilwright.job.answers.roof import RoofKey
from coilwright.job.choices import YesNo
from coilwright.job.edit import clear, do_not_know, give, give_text, new_job
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName
from coilwright.job.roof import Building
from coilwright.plan import Plan, plan
from coilwright.plan.ask_first import Effect, _as_read, ask_first
from coilwright.store import shipped
from coilwright.units import Kind, System, show
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.words import words
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import whole_jobs
from tests.plan.coils.stock import coil, with_coils

STEPS = 9
TRIED = sorted(
    key
    for key, answer in ANSWERS.items()
    if answer.form in (Form.QUANTITY, Form.COUNT, Form.CHOICE) and key != "job.units"
)


def grid(job: Job, key: str) -> list[Value]:
    """The answer's own value and its usual range, finely; for a pick the usual picks, or all."""
    answer, said = ANSWERS[key], words(key)
    own = answer.value(job)
    values = [] if own is None else [own]
    if answer.form is Form.CHOICE:
        usual = [answer.read(text) for text in (said.usual, *said.others) if text]
        return values + (usual or list(answer.choices))
    if said.low is None or said.high is None:
        values += [answer.read(said.usual)] if said.usual else []
        if answer.form is Form.QUANTITY and isinstance(own, float):
            # no usual range: a tenth either way
            values += [own * (0.9 + 0.2 * step / (STEPS - 1)) for step in range(STEPS)]
        return values
    low, high = answer.read(said.low), answer.read(said.high)
    assert isinstance(low, int | float)
    assert isinstance(high, int | float)
    if answer.form is Form.COUNT:
        return values + list(range(int(low), int(high) + 1))
    return values + [low + (high - low) * step / (STEPS - 1) for step in range(STEPS)]


def brute_force(job: Job, base: Plan, key: str) -> tuple[int, float]:
    """Stops that come or go, and how far the ordered weight moves, over the grid."""
    now = {f.key for f in base.stops}
    stops: set[str] = set()
    masses = []
    used = {(c.index, c.strip) for c in base.from_stock}
    for value in grid(job, key):
        done = plan(give(job, key, value))
        there = {f.key for f in done.stops}
        stops |= there - now
        none_ordered = "coil.mass_ordered" in base.figures and (
            "coil.mass_ordered" not in done.figures)
        if used <= {(c.index, c.strip) for c in done.from_stock} and not none_ordered:
            stops |= now - there
        if "coil.mass_ordered" in done.figures:
            masses.append(done.figures["coil.mass_ordered"].value)
    return len(stops), max(masses) - min(masses) if len(masses) > 1 else 0.0


def rank(effect: Effect) -> tuple[int, float]:
    return effect.stops, effect.mass or 0.0


UNKNOWN = st.sets(st.sampled_from(TRIED), min_size=2, max_size=6)


@given(whole_jobs(guesses=False), UNKNOWN, st.data())
@settings(max_examples=draws(60))
def test_the_first_place_is_brute_forces(job: Job, keys: set[str], data: st.DataObject) -> None:
    known = [key for key in sorted(keys) if ANSWERS[key].value(job) is not None]
    if known and data.draw(st.booleans()):
        job = set_answers(job, {data.draw(st.sampled_from(known)): None})
    job = guess(job, *(key for key in known if ANSWERS[key].value(job) is not None))
    base = plan(job)
    effects = ask_first(job, base)
    assert {e.key for e in effects} == {
        k for k in (*base.open_answers, *base.guesses) if k in ANSWERS
    }
    if not effects:
        return
    found = {effect.key: brute_force(job, base, effect.key) for effect in effects}
    first, best = found[effects[0].key], max(found.values())
    assert first[0] == best[0]
    assert math.isclose(first[1], best[1], rel_tol=1e-9, abs_tol=1e-9)
    for effect in effects:
        stops, moved = found[effect.key]
        assert effect.stops <= stops, "it tries nothing outside the usual range"
        assert (effect.mass or 0.0) <= moved + 1e-9


@pytest.mark.slow
@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_the_first_place_on_the_demo_jobs(name: str) -> None:
    job = shipped.demo_jobs()[name]
    base = plan(job)
    effects = ask_first(job, base)
    if not effects:
        # A list that is empty, such as that of trim, has no range to try.
        assert not ANSWERS.keys() & {*base.open_answers, *base.guesses}
        return
    found = {effect.key: brute_force(job, base, effect.key) for effect in effects}
    assert found[effects[0].key] == max(found.values())


@given(whole_jobs())
@settings(max_examples=draws(15))
def test_the_list_is_ranked(job: Job) -> None:
    ranks = [rank(effect) for effect in ask_first(job)]
    assert ranks == sorted(ranks, reverse=True)


def test_it_is_quiet_when_all_is_sure() -> None:
    assert ask_first(small_gable()) == ()


def test_the_sketched_take_up() -> None:
    """Hand-worked on the small gable: strips of 20 and 22 in, orders of 2,143 and 2,357 lb."""
    (effect,) = ask_first(guess(small_gable(), "panel.take_up"))
    assert effect.words == "strip 20 to 22 in; order 2,143 to 2,357 lb"
    assert effect.mass == pytest.approx(2357.45 - 2143.13, abs=0.1)
    assert (effect.who, effect.standing) == ("machine maker", Standing.GUESS)


def test_what_changes_nothing_says_so() -> None:
    (effect,) = ask_first(set_answers(small_gable(), {"job.salt_water": None}))
    same = "does not change the amount, but nothing can be ordered without it. "
    assert effect.words == same + "Salt air eats steel coatings and cut edges first"
    assert (effect.mass, effect.stops) == (0.0, 0)
    job = set_answers(small_gable(), {"metal.color": None})
    (effect,) = ask_first(job)
    assert effect.words == (
        "nothing can be ordered without it. One color name means different shades at different "
        "suppliers"
    )
    (effect,) = ask_first(guess(small_gable(), "coils.wrap_allowance"))
    assert effect.words.startswith("does not change the amount over its usual range. ")


def test_what_can_stop_the_order_comes_before_what_moves_it() -> None:
    """An arbor nobody has read the plate of can rule the coil out; take-up only moves it."""
    heavy = set_answers(small_gable(), {"coils.tolerance": 0.1, "machine.arbor_load": 3000.0})
    job = guess(heavy, "panel.take_up", "job.engineered")
    effects = ask_first(job)
    assert effects[0].key == "job.engineered"
    assert effects[0].stops > 0
    assert effects[1].key == "panel.take_up"


def test_with_only_a_sketch_what_most_figures_wait_for_comes_first() -> None:
    """Nothing can be weighed yet, so what opens the most comes before what opens nothing."""
    job = new_job("Cold")
    base = plan(job)
    effects = [e for e in ask_first(job, base) if not e.stops]
    waits = [sum(e.key in lack.needs for lack in base.lacks.values()) for e in effects]
    assert waits == sorted(waits, reverse=True)
    assert {e.key for e in effects[:3]} == {"roof.building", "panel.coverage", "metal.thickness"}
    more = waits[0] - 2
    assert effects[0].words == (
        f"nothing can be ordered without it: roof area, panels and {more} more wait for it"
    )
    salt = next(e for e in effects if e.key == "job.salt_water")
    assert salt.words.startswith("does not change the amount, but nothing can be ordered")


@pytest.mark.parametrize("name", [*shipped.demo_jobs(), "cold"])
def test_every_line_says_something_of_its_own(name: str) -> None:
    job = new_job("Cold") if name == "cold" else shipped.demo_jobs()[name]
    effects = ask_first(job)
    assert len({(e.label, e.words) for e in effects}) == len(effects)
    for effect in effects:
        assert not effect.words.endswith(".")
        own = effect.words.split(" wait")[0].split(". ")[-1]
        assert own not in ("nothing can be ordered without it", "no usual range to try"), effect
        for text in (effect.tried, effect.words):
            assert not re.search(r"\b(\w+) \1\b", text), text


def test_the_usual_range_is_said_once_and_without_doubled_units() -> None:
    said = {e.key: e.tried for e in ask_first(guess(
        small_gable(), "panel.take_up", "coils.spare", "coils.coil_on", "coils.tolerance",
        "panel.coverage", "metal.thickness",
    ))}
    assert said == {
        "panel.take_up": "guess 5 in, usual 4 to 6 in",
        "coils.spare": "guess 3 %, usual 2 to 5 %",
        "coils.coil_on": "guess overhead rack, or floor decoiler",
        "coils.tolerance": "guess 10 %, usual 0 to 10 %",
        "panel.coverage": "guess 16 in, usual 12 to 20 in",
        "metal.thickness": "guess 0.0236 in, a tenth either way",
    }


def test_it_can_be_given_up_between_two_answers() -> None:
    job = guess(small_gable(), "panel.take_up", "coils.spare", "coils.tolerance")
    asked: list[bool] = []

    def canceled() -> bool:
        asked.append(len(asked) == 1)
        return asked[-1]

    assert ask_first(job, canceled=canceled) == ()
    assert asked == [False, True]


def test_what_nothing_can_be_ordered_without_comes_first() -> None:
    job = clear(do_not_know(small_gable(), "panel.take_up"), "metal.thickness")
    effects = ask_first(job)
    assert effects[0].key == "metal.thickness"
    assert [e.blocks for e in effects] == sorted((e.blocks for e in effects), reverse=True)


def test_the_ends_are_the_weights_the_order_would_have() -> None:
    job = do_not_know(small_gable(), "panel.take_up")
    effect = next(e for e in ask_first(job) if e.key == "panel.take_up")
    weights = [
        plan(give_text(job, "panel.take_up", text)[0]).figures["coil.mass_ordered"]
        for text in ("4 in", "6 in")
    ]
    assert effect.ends == pytest.approx(tuple(one.as_read() for one in weights))
    assert effect.mass == pytest.approx(weights[1].value - weights[0].value)


@pytest.mark.parametrize("system", System)
def test_the_ends_read_as_the_words_of_the_list_do(system: System) -> None:
    """The chart over the list says both ends of its scale: by the order's rounding, as the list."""
    job = dataclasses.replace(shipped.demo_jobs()["quarry-house-hip"], units=system)
    said = 0
    for effect in ask_first(job):
        found = re.search(r"order ([\d,.]+(?: \w+)?) to ([\d,.]+ \w+)", effect.words)
        if found is None:
            continue
        assert effect.ends is not None
        low, high = (show(end, Kind.MASS, system) for end in effect.ends)
        assert (found[1].split()[0], found[2]) == (low.split()[0], high)
        said += 1
    assert said > 5


def test_what_cannot_be_changed_once_the_coil_has_come_is_settled_before_the_rest() -> None:
    job = do_not_know(do_not_know(small_gable(), "metal.painted_side"), "machine.arbors")
    keys = [e.key for e in ask_first(job) if not e.stops and not e.mass]
    assert keys.index("metal.painted_side") < keys.index("machine.arbors")


def test_a_coil_that_no_longer_fits_clears_no_stop() -> None:
    """With another coating the coil on hand is left out, so no two lots meet; it is no cure."""
    job = with_coils(guess(small_gable(), "metal.coating"), coil("A", 400, lot="L-1"))
    base = plan(job)
    assert [f.key for f in base.stops] == ["coils.lots"]
    other = plan(give(job, "metal.coating", CoatingName.AZ55))
    assert other.stops == ()
    assert other.from_stock == ()
    (effect,) = ask_first(job, base)
    assert (effect.stop, effect.stops) == ("", 0)
    assert "clear" not in effect.words


def test_what_makes_that_nothing_can_be_ordered_clears_no_stop() -> None:
    """A shape that lacks a measure has no coil, so nothing says that its lift is not known."""
    job = guess(set_answers(shipped.demo_jobs()["quarry-house-hip"], {"coils.site_lift": None}),
                "roof.building")
    base = plan(job)
    (unknown,) = [f for f in base.stops if f.key == "coils.site_lift_unknown"]
    porch = plan(give(job, "roof.building", Building.PORCH))
    assert unknown not in porch.stops
    assert Key.COIL_MASS_ORDERED not in porch.figures
    effect = next(e for e in ask_first(job, base) if e.key == "roof.building")
    assert "clear" not in effect.words + effect.stop


def test_what_a_cleared_stop_costs_is_said() -> None:
    """A tenth thicker, by hand 225 lb more than the 2,250 lb of the hand-worked gable."""
    thin = set_answers(small_gable(), {
        "job.engineered": YesNo.YES, "panel.report": "T-1 (invented)",
        "panel.report_thinnest": 0.025,
    })
    job = guess(thin, "metal.thickness")
    assert plan(job).stops
    effect = next(e for e in ask_first(job) if e.key == "metal.thickness")
    assert effect.stop.startswith("0.0260 in clears a stop, for 225 lb more to buy: ")
    assert not effect.would_stop


def test_a_stop_that_would_come_is_not_said_as_one_that_is_there() -> None:
    """A tenth thinner than the tested 0.0236 in stops the order; the order itself has no stop."""
    job = guess(set_answers(small_gable(), {
        "job.engineered": YesNo.YES, "panel.report": "T-1 (invented)",
        "panel.report_thinnest": 0.0236,
    }), "metal.thickness")
    assert plan(job).stops == ()
    effect = next(e for e in ask_first(job) if e.key == "metal.thickness")
    assert effect.would_stop
    assert effect.stop.startswith("would stop at 0.0212 in: ")
    assert effect.stop.rstrip(".") in effect.words


def test_a_length_that_is_tried_is_read_as_its_box_has_it() -> None:
    """A tenth more than 12 ft came as 158.4 in beside a box in feet."""
    width = ANSWERS[RoofKey.WIDTH]
    assert width.shown(144.0 * 1.1, System.US) == "158.4 in"
    assert _as_read(width, 144.0 * 1.1, System.US) == "13 ft 2 3/8 in"
    assert _as_read(width, 144.0, System.US) == width.shown(144.0, System.US) == "12 ft"


def test_what_cannot_be_read_says_so_and_an_optional_one_stands_below_what_holds() -> None:
    job, error = give_text(clear(small_gable(), "metal.thickness"), "haul.axles", "1250")
    assert error
    effects = ask_first(job)
    assert effects[0].key == "metal.thickness"
    axles = next(e for e in effects if e.key == "haul.axles")
    assert axles.words == axles.unread == "1,250 is too much to be real: type it again"
    for text, told in (
        ("-40", "“-40” is below zero"), ("long", "“long” has no number in it"),
        ("9", "“9” is more than half an inch, which cannot be right for a thickness"),
    ):
        typed, _ = give_text(small_gable(), "metal.thickness", text)
        (said,) = [e.unread for e in ask_first(typed) if e.key == "metal.thickness"]
        assert said == f"{told}: type it again"
        # What holds the order says it too, on every paper.
        assert f"“Decimal thickness”: {told}. Type it again, or ask the supplier." in [
            one.text for one in plan(typed).reasons]
    assert not axles.blocks
    typed, _ = give_text(small_gable(), "metal.thickness", "2,5 ga")
    thickness = next(e for e in ask_first(typed) if e.key == "metal.thickness")
    assert thickness.blocks
    assert thickness.words.startswith("“2,5 ga” has a comma where no")
