"""Coils on hand and rows of sheets on the command line."""

from __future__ import annotations

import csv
import dataclasses
import io
import json
from pathlib import Path

import pytest

from coilwright.job.edit import new_job
from coilwright.job.stock import Stock
from coilwright.plan import plan
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.store.stock import save_stock, stock_path
from coilwright.units import System
from tests.cli.commands import Command
from tests.plan.coils.stock import coil

BARN = "heron-lane-barn"


def test_no_coils_is_said_on_standard_error(run: Command) -> None:
    shown = run("stock")
    assert (shown.code, shown.out) == (0, "")
    assert "No coils on hand" in shown.err


def test_each_coil_on_a_line_with_its_length_or_its_range(run: Command) -> None:
    save_stock(run.home, demo_stock())
    shown = run("stock")
    assert (shown.code, shown.err) == (0, "")
    lines = shown.out.splitlines()
    assert [line.split()[0] for line in lines[1:]] == [c.tag for c in demo_stock().coils]
    assert "310 ft" in lines[1]
    assert " to " in next(line for line in lines if line.startswith("S-107"))
    Store(run.home).create(dataclasses.replace(new_job("Lindenweg"), units=System.METRIC))
    assert "94.488 m" in run("stock").out, "in the units of the job that was changed last"


def test_a_job_says_which_fit_and_why_others_do_not_and_what_they_save(run: Command) -> None:
    save_stock(run.home, demo_stock())
    shown = run("stock", f"demo:{BARN}")
    rows = {line.split()[0]: line for line in shown.out.splitlines()}
    assert rows["S-101"].endswith("fits")
    assert "It is copper; the job takes steel." in rows["C-20"]
    saved = plan(with_fitting(demo_jobs()[BARN], demo_stock())).figures
    for key in ("save.length", "save.mass", "coil.length_ordered"):
        assert saved[key].text() in rows["Using"]


def test_nothing_fits_is_said(run: Command) -> None:
    save_stock(run.home, Stock(coils=(coil("T", 50, width=9.0),)))
    shown = run("stock", f"demo:{BARN}")
    assert "None of them fits this job." in shown.out
    assert "9 in wide; the strip is 21 in" in shown.out


@pytest.mark.parametrize(("content", "words"), [
    ('{"format": "coilwright-stock", "coils": [{', "damaged or half written"),
    ('{"format": "coilwright-stock", "version": 9}', "newer"),
])
def test_a_stock_that_cannot_be_used_is_one_sentence_and_stays(
    run: Command, content: str, words: str
) -> None:
    run.home.mkdir(parents=True)
    stock_path(run.home).write_text(content, "utf-8")
    assert words in run("stock").refused()
    assert stock_path(run.home).read_text("utf-8") == content
    assert [p.name for p in run.home.iterdir()] == ["stock.json"]


def test_the_run_sheet_as_csv(run: Command, tmp_path: Path) -> None:
    shown = run("sheet", "run", f"demo:{BARN}", "--as", "csv")
    rows = list(csv.DictReader(io.StringIO(shown.out)))
    panels = plan(demo_jobs()[BARN]).figures["panels.count"].value
    assert sum(int(row["pieces"]) for row in rows) == panels
    by_name = run("sheet", "run", f"demo:{BARN}", "--to", str(tmp_path / "run.csv"))
    assert by_name.code == 0
    assert (tmp_path / "run.csv").read_text("utf-8") == shown.out


def test_a_sheet_without_rows_says_which_have_some(run: Command) -> None:
    refused = run("sheet", "request", f"demo:{BARN}", "--as", "csv").refused()
    assert "sheets that do: order, run" in refused


def test_a_stock_file_of_another_kind_is_named(run: Command) -> None:
    run.home.mkdir(parents=True)
    stock_path(run.home).write_text(json.dumps({"format": "coilwright-job"}), "utf-8")
    assert "is a job, not a list of coils on hand." in run("stock").refused()
