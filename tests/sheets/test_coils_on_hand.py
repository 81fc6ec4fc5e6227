"""Coils on hand and trim on the sheets and in the summary's JSON."""

from __future__ import annotations

import dataclasses
import json
import re
from typing import Any

from hypothesis import given, settings

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.job.trim import TrimPiece, TrimSection
from coilwright.plan import plan
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.plan.order_limits import capped_coils
from coilwright.sheets import KINDS, render
from coilwright.sheets.data.schema import SCHEMA
from coilwright.sheets.data.summary import summary_json
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.units import System
from tests.cases import building, small_gable
from tests.draws import draws
from tests.plan.coils.stock import coil, jobs_with_coils, with_coils
from tests.rules import for_each
from tests.sheets.pages import Page, faults


def trimmed() -> Job:
    pieces = (
        TrimPiece(name="Eave <b>strip</b>", kind=EdgeKind.EAVE, flat_width=9.0),
        TrimPiece(name="Cap", kind=EdgeKind.RIDGE, flat_width=11.5),
    )
    section = TrimSection(lap=4.0, blank=120.0, pieces=pieces)
    return dataclasses.replace(building(Building.GABLE), trim=section)


def data(job: Job) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(summary_json(plan(job)))
    assert faults(found, SCHEMA, SCHEMA) == []
    return found


@given(jobs_with_coils())
@settings(max_examples=draws(15))
def test_every_sheet_and_the_json_of_any_job(job: Job) -> None:
    done = plan(job)
    for kind in KINDS:
        Page(render(kind, done, "html"))
    found = data(job)
    assert len(found["on_hand"]) == len(done.from_stock)
    for one, used in zip(found["on_hand"], done.from_stock, strict=True):
        assert one["leftover"]["value"] == used.left.value
        assert sum(cut["count"] for cut in one["cuts"]) == sum(cut.count for cut in used.cuts)


def weights(sheet: str, ordered: str, on_hand: str) -> list[list[tuple[str, str]]]:
    """Of new coils as ordered and at most, and of coils on hand at most, each in order."""
    return [sorted(re.findall(ordered, sheet, re.MULTILINE)),
            sorted(("", one) for one in re.findall(on_hand, sheet, re.MULTILINE))]


@given(jobs_with_coils())
@settings(max_examples=draws(15))
def test_a_coil_weighs_the_same_on_the_run_sheet_and_the_haul_card(job: Job) -> None:
    # Nothing is allowed over: what it weighs at most is what it weighs.
    for tolerance in (job.coils.tolerance_over, 0.0):
        for system in System:
            coils = dataclasses.replace(job.coils, tolerance_over=tolerance)
            done = plan(dataclasses.replace(job, coils=coils, units=system))
            weight = r"(?:~ )?(\S+ (?:lb|kg))"
            run = weights(render("run", done, "md"), rf"It weighs {weight} as ordered, {weight} ",
                          rf"It weighs {weight} at most")
            haul = weights(render("haul", done, "md"),
                           rf"^\| Coil \d+ of the order \| {weight} \| {weight} ",
                           rf"^\| On hand [^|]*\|  \| {weight}")
            # Where the order holds a coil to less than it could come at, each paper says which.
            if capped_coils(done):
                run[0], haul[0] = ([(one, "") for one, _ in part[0]] for part in (run, haul))
            assert run == haul


def test_the_summary_says_what_they_save() -> None:
    done = plan(with_fitting(demo_jobs()["heron-lane-barn"], demo_stock()))
    text = render("summary", done, "text")
    assert "Coils on hand" in text
    assert "They save 765 ft 9 in, 1,290 lb of the order." in text
    assert "from coils on hand" in text
    assert "Coils on hand" not in render("summary", plan(small_gable()), "text").split("Figures")[1]


def test_trim_can_be_followed_at_the_brake() -> None:
    """Two eaves of 5 blanks of 9 in, a ridge of 5 of 11½ in, on 21 in; the last of each is short.

    Side by side 20½ in: four whole rows and one short one; then two whole rows of two 9s, and a 9.
    """
    for kind in ("run", "summary"):
        html = render(kind, plan(trimmed()), "html")
        assert "b" not in Page(html).tags
        assert "1 × Eave <b>strip</b>, 1 × Cap" in Page(html).text
        assert "2 × Eave <b>strip</b>" in Page(html).text
    (nest,) = data(trimmed())["trim"]
    assert (nest["rows"]["value"], nest["proven"], nest["sheets"]) == (8, True, None)
    assert sum(p["times"] for p in nest["patterns"]) == 8
    assert data(small_gable())["trim"] == []


def test_lengths_and_money_of_the_account() -> None:
    lines = data(small_gable())["budget"]
    assert all(line["length"]["value"] > 0 or line["name"] == "ripped edges" for line in lines)
    assert all(line["money"] is None for line in lines)


@for_each(sorted(KINDS))
def test_an_order_of_nothing_still_has_its_sheets(kind: str) -> None:
    done = plan(with_coils(small_gable(), coil("A", 1300)))
    assert done.ready
    for form in ("md", "html", "text"):
        assert render(kind, done, form)
    if kind == "order":
        assert "Nothing to order: all panels come from coils on hand." in render(kind, done, "text")
