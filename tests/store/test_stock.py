"""Coils on hand: what one is, the list of them, and the file they are kept in."""

from __future__ import annotations

import dataclasses
import math
import os
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, Finish, MetalName, ThicknessBasis
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.plan.coils.stock import coil_lengths, fitting
from coilwright.store import StoreError, read_model, to_text
from coilwright.store.stock import load_stock, read_stock, save_stock, stock_path
from coilwright.units import System
from tests.cases import set_answers, small_gable
from tests.draws import draws
from tests.plan.coils.stock import coil
from tests.rules import for_each
from tests.values.written import check


@for_each([
    ({}, "has no length"),
    ({"outside": 28.0}, "has no length"),
    ({"feet": 100.0, "outside": 28.0, "inside": 20.0}, "one or the other"),
    ({"outside": 20.0, "inside": 20.0}, "above the inside one"),
    ({"outside": 20.25, "inside": 20.0}, "above the inside one"),
    ({"feet": 0.0}, "above 0"),
    ({"feet": -3.0}, "above 0"),
    ({"feet": 1.0, "width": 0.0}, "above 0"),
    ({"feet": 1.0, "thickness": -0.02}, "above 0"),
    ({"feet": 1.0, "tag": "  "}, "needs a tag"),
])
def test_a_coil_that_cannot_be_is_refused_in_words(measures: dict[str, Any], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        coil(**{"tag": "A-1", **measures})


def test_two_coils_with_one_tag_are_refused() -> None:
    with pytest.raises(ValueError, match="two coils have the tag “a-1”"):
        Stock(coils=(coil("A-1", 10), coil("a-1", 20)))


def test_putting_and_taking_coils() -> None:
    stock = Stock().put(coil("A-1", 10)).put(coil("B-2", 20)).put(coil("a-1", 30))
    assert [(c.tag, c.length) for c in stock.coils] == [("a-1", 360), ("B-2", 240)]
    found = stock.find(" A-1 ")
    assert found is not None
    assert found.length == 360
    assert stock.take("A-1").coils == (coil("B-2", 20),)
    assert stock.take("C-3") == stock
    assert stock.free_tag("B-2") == "B-2-2"
    assert stock.free_tag("C-3") == "C-3"


class TestLength:
    def test_by_diameters_worked_by_hand(self) -> None:
        """28 in over 20 in, 0.0236 in: π·(27.875² − 20.125²)/(4·0.025016) and its counterpart.

        27.875² − 20.125² = 48·7.75 = 372; 28.125² − 19.875² = 48·8.25 = 396.
        """
        least, most = coil_lengths(coil("A-1", outside=28.0, inside=20.0), System.US)
        assert least.value == pytest.approx(math.pi * 372 / (4 * 0.0236 * 1.06))
        assert most.value == pytest.approx(math.pi * 396 / (4 * 0.0236))
        check(least)
        check(most)

    def test_a_coating_that_may_come_on_top_makes_the_least_less(self) -> None:
        over = coil("A", outside=28.0, inside=20.0)
        unknown = coil("A", outside=28.0, inside=20.0, thickness_basis=None)
        bare = coil("A", outside=28.0, inside=20.0, thickness_basis=ThicknessBasis.BARE)
        assert coil_lengths(unknown, System.US)[0].value < coil_lengths(over, System.US)[0].value
        assert coil_lengths(bare, System.US)[0].value == coil_lengths(unknown, System.US)[0].value
        check(coil_lengths(bare, System.US)[0])

    def test_a_length_on_the_tag_is_both_ends(self) -> None:
        least, most = coil_lengths(coil("A-1", 100), System.US)
        assert least == most
        assert least.value == 1200

    @given(st.floats(100, 20_000), st.floats(14, 24), st.floats(-0.125, 0.125),
           st.floats(-0.125, 0.125), st.floats(0, 0.06))
    def test_the_true_length_is_between(
        self, length: float, inside: float, out: float, into: float, loose: float
    ) -> None:
        """Any winding and any reading within what we allow for."""
        thickness = 0.0236
        true = math.sqrt(inside**2 + 4 * length * thickness * (1 + loose) / math.pi)
        if true + out < inside + into + 0.5:
            return
        least, most = coil_lengths(coil("A", outside=true + out, inside=inside + into), System.US)
        assert least.value <= length * (1 + 1e-9)
        assert most.value >= length * (1 - 1e-9)


class TestFitting:
    def test_a_coil_that_fits(self) -> None:
        assert fitting(small_gable(), coil("A-1", 100)) == ()
        assert fitting(small_gable(), coil("A-1", 100, width=48.0, thickness=0.0241)) == ()

    @pytest.mark.parametrize(
        ("other", "words"),
        [
            ({"metal": MetalName.COPPER}, "It is copper; the job takes steel."),
            ({"coating": CoatingName.G90}, "Its coating is G90; the job takes AZ50."),
            ({"coating": None}, "Its metallic coating is not known; the job takes AZ50."),
            ({"thickness": 0.0242}, "It is 0.0242 in thick; the job takes 0.0236 in."),
            ({"width": 20.9}, "It is 20.9 in wide; the strip is 21 in."),
            ({"color": "moss"}, "Its color is moss; the job takes slate."),
            ({"color": ""}, "It has no color written on it; the job takes slate."),
            ({"thickness_basis": ThicknessBasis.BARE},
             "Its thickness is stated bare, before coating; the job's coating included."),
        ],
    )  # fmt: skip
    def test_why_not(self, other: dict[str, Any], words: str) -> None:
        assert fitting(small_gable(), coil("A-1", 100, **other)) == (words,)

    def test_bare_metal_wants_bare_metal(self) -> None:
        bare = set_answers(small_gable(), {"metal.finish": Finish.BARE})
        assert fitting(bare, coil("A-1", 100, color="")) == ()
        painted = ("It is painted Slate; the job takes bare metal.",)
        assert fitting(bare, coil("A-1", 100)) == painted

    def test_an_empty_job_says_what_it_does_not_know(self) -> None:
        said = fitting(Job(), coil("A-1", 100))
        assert len(said) == 4
        assert all("not known yet" in sentence for sentence in said)


class TestFile:
    @given(st.lists(st.tuples(st.text(min_size=1, max_size=8), st.floats(1, 5000)), max_size=4,
                    unique_by=lambda pair: " ".join(pair[0].split()).casefold()))
    @settings(max_examples=draws(40))
    def test_what_is_written_reads_back(self, pairs: list[tuple[str, float]]) -> None:
        stock = Stock(coils=tuple(coil(tag, feet) for tag, feet in pairs if tag.strip()))
        assert read_model(to_text(stock), Stock, "stock") == stock

    def test_no_file_is_an_empty_stock(self, tmp_path: Path) -> None:
        assert load_stock(tmp_path) == (Stock(), "")

    def test_saved_and_loaded_with_a_backup(self, tmp_path: Path) -> None:
        one = Stock().put(coil("A-1", 123.5, lot="L 7", where="north wall"))
        two = one.put(coil("B-2", outside=28.0, inside=20.0))
        save_stock(tmp_path, one)
        save_stock(tmp_path, two)
        assert load_stock(tmp_path) == (two, "")
        assert "123 ft 6 in" in stock_path(tmp_path).read_text("utf-8")
        backup = tmp_path / "stock.json.bak"
        assert read_model(backup.read_text("utf-8"), Stock, "b") == one

    @pytest.mark.parametrize(
        "damage",
        [b"", b"\xff\xfe", b"{", b"[]", b'{"format": "coilwright-job", "version": 1}',
         b'{"format": "coilwright-stock", "version": 1, "coils": [{"tag": "A"}]}'],
    )  # fmt: skip
    def test_a_damaged_file_is_set_aside_as_it_is(self, tmp_path: Path, damage: bytes) -> None:
        stock_path(tmp_path).write_bytes(damage)
        stock, words = load_stock(tmp_path)
        assert stock == Stock()
        kept = tmp_path / "stock.damaged-1.json"
        assert str(kept) in words
        assert kept.read_bytes() == damage
        save_stock(tmp_path, Stock().put(coil("A-1", 10)))
        stock_path(tmp_path).write_bytes(damage)
        load_stock(tmp_path)
        assert (tmp_path / "stock.damaged-2.json").read_bytes() == damage
        assert kept.read_bytes() == damage

    def test_what_cannot_be_judged_is_left_where_it_is(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        place = stock_path(tmp_path)
        place.write_text('{"format": "coilwright-stock", "version": 9}')
        with pytest.raises(StoreError, match="newer"):
            load_stock(tmp_path)
        place.write_text(to_text(Stock().put(coil("A-1", 10))))

        def failing(*_: object) -> int:
            raise OSError(5, "Input/output error")

        with monkeypatch.context() as patch:
            patch.setattr(os, "open", failing)
            with pytest.raises(StoreError, match="input/output"):
                load_stock(tmp_path)
        assert [p.name for p in tmp_path.iterdir()] == ["stock.json"]
        assert len(load_stock(tmp_path)[0].coils) == 1

    def test_reading_moves_nothing(self, tmp_path: Path) -> None:
        stock_path(tmp_path).write_text("{")
        with pytest.raises(StoreError):
            read_stock(tmp_path)
        assert [p.name for p in tmp_path.iterdir()] == ["stock.json"]

    def test_an_old_job_file_has_no_coils_on_hand(self) -> None:
        job = small_gable()
        assert "on_hand" not in to_text(job)
        with_one = dataclasses.replace(job, on_hand=(coil("A-1", 10),))
        assert read_model(to_text(with_one), Job, "job") == with_one
        assert isinstance(with_one.on_hand[0], CoilOnHand)
