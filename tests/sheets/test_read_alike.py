"""A figure that an order sets reads the same wherever it stands: findings, rows, sheets, workings.

What else its value could be read as (not rounded, or rounded another way) is looked for in all that
is said, and found nowhere; but where it is what another figure reads.
"""

from __future__ import annotations

import csv
import dataclasses
import io
import re
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.drawing.bars import account_columns
from coilwright.job.coils import Slitting
from coilwright.job.job import Job
from coilwright.job.receiving import Arrival, coil_name
from coilwright.plan import Plan, plan
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.plan.coils.run import run_of
from coilwright.plan.order_limits import heaviest_coil, largest_coil
from coilwright.plan.quotes.compare import compare
from coilwright.plan.receiving.receive import receive
from coilwright.plan.working import lines
from coilwright.sheets import KINDS, render
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.order_body import ordered_coils
from coilwright.sheets.quotes import order_words, quote_facts
from coilwright.sheets.receiving import receiving_rows
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.values.rounding import Rounding, step_down, step_near, step_up
from coilwright.wizard.lists.coil_blocks import coil_rows
from coilwright.wizard.steps.summary.buying import to_buy
from tests.draws import draws
from tests.plan.coils.slit_jobs import slit_job
from tests.plan.coils.stock import jobs_with_coils
from tests.sheets.trial_jobs import trial_jobs


def read_otherwise(figure: Figure, system: System) -> set[str]:
    """What its value reads as, if it is not read as the figure says."""
    steps = (step_up, step_down, step_near)
    ways = {figure.value, *(step(figure.value, figure.kind, system) for step in steps)}
    return {show(way, figure.kind, system) for way in ways} - {figure.text(system)}


def is_telling(figure: Figure) -> bool:
    """Whether it is so large that hardly another number reads as it might."""
    return figure.kind is Kind.WIDTH or figure.value >= (
        1200 if figure.kind is Kind.LENGTH else 151)


def numbers(text: str) -> set[str]:
    """Every number in a text with its unit, whole: of `1,335 ft 8 in` no part."""
    return set(re.findall(
        r"(?<![\w.,/])\d[\d,.\u202f]*(?: \d+/\d+)?(?: ft (?:\d+ )?(?:\d+/)?\d+ in|"
        r" (?:ft|in|lb|kg|mm|m))(?![\w/²³])", text))


def said_of(made: Plan, *, sheets: bool) -> Iterator[tuple[str, str]]:
    """All that is said of a plan, with where."""
    system = made.job.units
    for finding in made.findings:
        yield finding.key, f"{finding.what} {finding.why} {finding.do}"
    for figure in made.figures.values():
        if figure.rounding is not None or any(term.rounding for term in figure.terms):
            yield figure.key, "\n".join(line for line in lines(figure, system)
                                        if not line.startswith("  ="))
    yield "buy", "\n".join(words for *_, words in to_buy(made))
    yield "coils", "\n".join(f"{row.about} {row.use}" for row in coil_rows(made.job, made))
    yield "account", "\n".join(account_columns(made, 100))
    yield "quotes", order_words(made)
    for report in compare(made).quotes:
        yield "quote", "\n".join(words for _, words in quote_facts(report, system))
    if sheets:
        for kind in KINDS:
            yield kind, render(kind, made, "text", 400)


def hold(made: Plan, *, sheets: bool) -> int:
    """Hold all that is said to the figures; how many of them read otherwise than their value."""
    system = made.job.units
    run = run_of(made).coils
    figures = [*made.figures.values(), *(
        figure for coil in run for figure in (coil.left, coil.left_short, coil.shortest)
        if figure is not None)]
    for figure in figures:
        if figure.rounding in (Rounding.UP, Rounding.DOWN, Rounding.NEAREST, Rounding.MOST):
            # No rounding takes a figure further from its value than a step.
            off = abs(figure.as_read(system) - figure.value)
            assert off <= step_up(1e-3, figure.kind, system) * (1 + 1e-6), figure.key
    right = {one.text(system) for figure in figures for one in (figure, *figure.terms)}
    right |= {limit(made, coil).text(system) for coil in made.coils
              for limit in (heaviest_coil, largest_coil)}
    wrong = {text: figure.key for figure in figures
             if figure.rounding is not None and is_telling(figure)
             for text in read_otherwise(figure, system) if text not in right}
    for place, text in said_of(made, sheets=sheets):
        # A term stands in a working as it is read and as it is put in.
        found = numbers(re.sub(r" = [\d.]+ \w+", "", text)) & set(wrong)
        assert not found, (place, {text: wrong[text] for text in found})
    return len(wrong)


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("name", demo_jobs())
def test_demo_jobs(name: str, system: System) -> None:
    job = dataclasses.replace(demo_jobs()[name], units=system)
    assert hold(plan(job), sheets=True)
    assert hold(plan(with_fitting(job, demo_stock())), sheets=True)


def order_says(made: Plan) -> dict[int, tuple[str, ...]]:
    """Length, weight, min length, max weight and max OD of each coil, as the order page says."""
    found = {}
    for number, said in ordered_coils(made).items():
        found[number] = tuple(re.fullmatch(
            r"(.+), (.+), min (.+), max (.+), max OD (.+)", said).groups())  # type: ignore[union-attr]
    return found


def over(made: Plan, system: System) -> Job:
    """The job with each coil of its order come, by a little more than the order allows."""
    return dataclasses.replace(made.job, arrived=tuple(Arrival(
        tag=f"R-{coil.number}", coil=coil.number,
        mass=heaviest_coil(made, coil).as_read(system) + 2.0,
        outside=largest_coil(made, coil).as_read(system) + 0.01) for coil in made.coils))


JOBS = {**trial_jobs(), "in-passes": slit_job(48.0, coils__slitting=Slitting.PASSES)}


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("name", JOBS)
def test_every_paper_says_of_a_coil_what_the_order_says(name: str, system: System) -> None:
    """What the supplier read is what a coil is held to, lifted by and run by."""
    made = plan(dataclasses.replace(JOBS[name], units=system))
    said = order_says(made)
    assert [*said] == [coil.number for coil in made.coils]
    text = {kind: render(kind, made, "text", 400).replace("~ ", "")
            for kind in ("request", "haul", "run")}
    blank, came = receiving_cells(made), receiving_cells(plan(over(made, system)))
    reports = receive(plan(over(made, system)))
    data = summary_data(made)["coils"]
    rows = list(csv.DictReader(io.StringIO(render("order", made, "csv"))))
    for coil, report in zip(made.coils, reports, strict=True):
        length, mass, least, heaviest, largest = said[coil.number]
        assert (f"length of each {length}; weight of each about {mass}; min length {least}; "
                f"max weight {heaviest}; max OD {largest}") in text["request"]
        assert re.search(rf"Coil {coil.number} of the order +{mass} .* {largest} ", text["haul"])
        if coil.cuts:
            assert (f"A new coil: {length} as ordered, {least} at the shortest it may come. It "
                    f"weighs {mass} as ordered, {heaviest} at") in text["run"]
        own = blank[coil_name(coil.number)]
        assert own["Length on the tag"] == (length, f"{least} or more")
        assert own["Weight, tag or scale"][0] == mass
        for cells, name_of_mass in ((own, "Weight, tag or scale"), (came[report.name], "Weight")):
            assert cells["Outside diameter"][1] == f"{largest} or less"
            assert cells[name_of_mass][1].endswith(f" to {heaviest}")
        over_it = " ".join(finding.what for finding in report.findings)
        assert (f"the order says {largest} at most" in over_it
                or f"takes {largest}" in over_it), over_it
        assert (f"{mass} was ordered, and the order says {heaviest} at most" in over_it
                or re.search("carries|lifts is", over_it)), over_it
        one = data[coil.number - 1]
        assert (one["length"]["text"], one["mass"]["text"]) == (length, mass)
        row, us = rows[coil.number - 1], system is System.US
        inch, pound = (1.0, 1.0) if us else (1 / 25.4, 1 / 0.45359237)
        unit, weight = ("in", "lb") if us else ("mm", "kg")
        assert [show(float(row[f"{what} ({unit})"]) * inch, kind, system) for what, kind in (
            ("length each", Kind.LENGTH), ("min length", Kind.LENGTH), ("max OD", Kind.WIDTH),
        )] == [length, least, largest]
        assert [show(float(row[f"{what} ({weight})"]) * pound, Kind.MASS, system)
                for what in ("weight each", "max weight")] == [mass, heaviest]


def receiving_cells(made: Plan) -> dict[str, dict[str, tuple[str, str]]]:
    """What the receiving sheet says of each coil: by measure, what was ordered and is allowed."""
    found: dict[str, dict[str, tuple[str, str]]] = {}
    for name, what, ordered, allowed, _ in receiving_rows(made).rows:
        found.setdefault(str(name), {})[str(what)] = (
            str(ordered).replace("~ ", ""), str(allowed).replace("~ ", ""))
    return found


@given(jobs_with_coils(), st.sampled_from(System))
@settings(max_examples=draws(120))
def test_generated_jobs(job: Job, system: System) -> None:
    hold(plan(dataclasses.replace(job, units=system)), sheets=False)
