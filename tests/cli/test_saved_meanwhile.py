"""What another window saves while a command works is not written over; the command says so."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from coilwright.job.shop import Buyer, Shop, share
from coilwright.job.stock import Stock
from coilwright.store import Store, to_text
from coilwright.store import shop as shops
from coilwright.store import stock as stocks
from tests.cases import small_gable
from tests.cli.commands import Command
from tests.plan.coils.stock import coil
from tests.store.test_shop import shop


def meanwhile(
    monkeypatch: pytest.MonkeyPatch, place: Any, name: str, other: Callable[[], object]
) -> None:
    """Have another window write just before a command does."""
    write = getattr(place, name)

    def both(*given: Any, **more: Any) -> Any:
        monkeypatch.setattr(place, name, write)
        other()
        return write(*given, **more)

    monkeypatch.setattr(place, name, both)


@pytest.mark.parametrize("command", [
    ("order", "JOB", "--set", "number=17"),
    ("settle", "JOB", "--waive", "client.payment", "--reason", "invented"),
    ("planes", "JOB", "--rows", "ROWS"),
], ids=lambda command: str(command[0]))
def test_a_job(
    run: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: tuple[str, ...]
) -> None:
    store = Store(run.home)
    path = store.create(small_gable())
    rows = tmp_path / "rows.csv"
    rows.write_text("a, 9 ft, 12 ft\n")
    theirs = dataclasses.replace(small_gable(), about="written by another window")
    meanwhile(monkeypatch, Store, "save", lambda: store.save(path, theirs, ""))
    names = {"JOB": str(path), "ROWS": str(rows)}
    said = run(*(names.get(word, word) for word in command)).refused()
    assert "another window" in said
    assert store.load(path) == theirs
    assert run(*(names.get(word, word) for word in command)).code == 0
    assert store.load(path) != theirs


def test_the_shop_and_the_coils_on_hand(
    run: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "partner.json"
    file.write_text(to_text(share(shop(), Stock(coils=(coil("A-1", 100),)))))
    theirs = Shop(buyer=Buyer(company="typed in another window"))
    meanwhile(monkeypatch, shops, "save_shop", lambda: shops.save_shop(run.home, theirs))
    assert "another window" in run("shop", "--import", str(file)).refused()
    assert shops.read_shop(run.home) == theirs
    coils = Stock(coils=(coil("B-2", 50),))
    meanwhile(monkeypatch, stocks, "save_stock", lambda: stocks.save_stock(run.home, coils))
    assert "another window" in run("shop", "--import", str(file)).refused()
    assert stocks.read_stock(run.home) == coils
    assert run("shop", "--import", str(file)).code == 0
    assert {one.tag for one in stocks.read_stock(run.home).coils} == {"A-1", "B-2"}
    assert shops.read_shop(run.home).buyer.company == theirs.buyer.company
