"""Drills: what is asked can be read off what is shown, and the answer is worked out anew."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from coilwright.job.drills import DRILLS, Drill, read_plate, read_quote, read_tag, read_tape
from coilwright.units import Kind, read
from tests.rules import for_each


@for_each(DRILLS.values(), lambda make: make.__name__)
def test_the_same_number_gives_the_same_and_the_answer_as_shown_is_right(
    make: Callable[[int], Drill]
) -> None:
    made = [make(seed) for seed in range(40)]
    assert made == [make(seed) for seed in range(40)]
    assert len({one.shown for one in made}) > 10
    for one in made:
        assert one.is_right(read(one.answer.replace(",", ""), one.kind))
        assert not one.is_right(one.value * 1.1 + 1)
        assert all(len(line) < 60 for line in one.shown)


def test_a_quote_is_price_and_freight_by_the_pound() -> None:
    for seed in range(20):
        one = read_quote(seed)
        pounds, price, freight = (
            float(found.replace(",", "")) for found in
            re.findall(r"([\d,]+) lb coil|\$([\d.]+)/lb|FREIGHT  \$(\d+)", " ".join(one.shown))
            for found in found if found
        )
        assert one.value == pytest.approx((price * pounds + freight) / pounds)
        assert one.kind is Kind.MONEY_PER_MASS


def test_an_arrow_stands_under_its_sixteenth() -> None:
    for seed in range(20):
        one = read_tape(seed)
        ends, _, arrow = one.shown
        assert one.value == int(ends.split()[0]) + arrow.index("▲") / 2 / 16


def test_a_weight_is_gross_less_tare_and_a_coil_no_more_than_its_share() -> None:
    def numbers(one: Drill) -> list[float]:
        text = " ".join(one.shown).replace(",", "")
        return [float(n) for n in re.findall(r"([\d.]+) lb", text)]

    tags = [read_tag(seed) for seed in range(60)]
    weights = [one for one in tags if one.ask.startswith("What does the metal")]
    assert weights
    for one in weights:
        gross, tare = numbers(one)
        assert one.value == gross - tare
    plates = [one for one in map(read_plate, range(60)) if "one coil weigh" in one.ask]
    assert plates
    for one in plates:
        _, _, arbor, rack = numbers(one)
        assert one.value == min(arbor, rack / 2)
