"""My shop on the command line."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path

import pytest

from coilwright.job.edit import new_job
from coilwright.job.shop import Shop
from coilwright.job.stock import Stock
from coilwright.store import Store
from coilwright.store.shop import load_shop, save_shop, shop_path
from coilwright.store.stock import load_stock, save_stock
from tests.cli.commands import Command
from tests.plan.coils.stock import coil
from tests.store.test_shop import shop


def test_an_empty_shop_says_how_it_is_filled(run: Command) -> None:
    shown = run("shop")
    assert (shown.code, shown.out) == (0, "")
    assert "My shop" in shown.err


def test_the_shop_is_printed(run: Command) -> None:
    save_shop(run.home, shop())
    shown = run("shop")
    assert shown.code == 0
    assert "company: Gable & Seam (invented)" in shown.out
    assert "machine: Old blue" in shown.out
    assert "rig: Gray trailer" in shown.out
    assert "supplier: Birch & Daughters (invented), b@example.com, steel coil, slit" in shown.out
    assert json.loads(run("shop", "--json").out)["buyer"]["hours"] == "7 to 3"


def test_shop_and_stock_go_to_a_partner_in_one_file(run: Command, tmp_path: Path) -> None:
    save_shop(run.home, shop())
    save_stock(run.home, Stock(coils=(coil("A-1", 100),)))
    file = tmp_path / "for-a-partner.json"
    assert run("shop", "--export", str(file)).code == 0
    text = file.read_text("utf-8")
    assert "half typed" not in text
    assert "next_order" not in text
    assert "there already" in run("shop", "--export", str(file)).refused()
    assert run("shop", "--export", str(file), "--force").code == 0
    for path in (shop_path(run.home), run.home / "stock.json"):
        path.unlink()
    shown = run("shop", "--import", str(file))
    assert shown.code == 0
    assert "added machines: Old blue" in shown.out
    assert "added coils on hand: A-1" in shown.out
    assert load_shop(run.home)[0].suppliers == shop().suppliers
    assert load_stock(run.home)[0].coils == (coil("A-1", 100),)
    assert "there already" in run("shop", "--import", str(file)).err


@pytest.mark.parametrize(("text", "words"), [
    ("nonsense", "damaged or half written"),
    ('{"format": "coilwright-job", "version": 2}', "is a job, not a shop to be shared."),
    ('{"format": "coilwright-shared-shop", "version": 2, "shop": {"spy": 1}}', "shop.spy"),
    ('{"format": "coilwright-shared-shop", "version": 2, "stock": {"coils": [{"tag": "A"}]}}',
     "stock.coils.0"),
])
def test_a_file_that_is_none_changes_nothing(
    run: Command, tmp_path: Path, text: str, words: str
) -> None:
    save_shop(run.home, shop())
    file = tmp_path / "theirs.json"
    file.write_text(text, "utf-8")
    assert words in run("shop", "--import", str(file)).refused()
    assert load_shop(run.home)[0] == shop()


def test_bad_ways_to_ask_are_refused(run: Command, tmp_path: Path) -> None:
    assert "--replace goes with --import" in run("shop", "--replace").refused()
    assert "--force goes with --export" in run("shop", "--force").refused()
    assert "could not be read" in run("shop", "--import", str(tmp_path / "none")).refused()


@pytest.mark.parametrize("name", ["~nobody-at-all/x", "x" * 5000, "a\0b", "/", ""])
def test_a_name_that_no_file_has_is_one_sentence(run: Command, name: str) -> None:
    assert run("shop", "--import", name).refused()


@pytest.mark.parametrize("what", ["shop", "shared-shop", "stock"])
def test_each_kind_of_file_has_a_schema(run: Command, what: str) -> None:
    found = json.loads(run("schema", what).out)
    assert found["additionalProperties"] is False
    assert "version" in found["properties"]
    assert Shop().version == 2


def test_jobs_says_which_coil_two_jobs_claim(run: Command) -> None:
    save_stock(run.home, Stock(coils=(coil("A-1", 100),)))
    for title in ("Barn", "Shed"):
        Store(run.home).create(dataclasses.replace(new_job(title), on_hand=(coil("A-1", 100),)))
    shown = run("jobs")
    assert shown.code == 0
    assert "Coil A-1 is claimed by" in shown.err
    assert "“Barn”" in shown.err
    assert "“Shed”" in shown.err


def test_machines_lists_mine_before_the_examples(run: Command) -> None:
    examples = run("machines").out
    save_shop(run.home, shop())
    shown = run("machines")
    assert shown.out.startswith("mine:Old blue: Old blue\n")
    assert shown.out.endswith(examples)
    assert json.loads(run("machines", "--json").out)[0]["key"] == "mine:Old blue"
