"""Every sheet of any job, whole or partial: written, parsed, balanced, and always the same."""

from __future__ import annotations

import dataclasses
import itertools
import re
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.drawing.safe_text import one_line
from coilwright.job.edit import give, new_job
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, Finish, MetalName
from coilwright.job.roof import Plane
from coilwright.plan import plan
from coilwright.sheets import KINDS, render
from coilwright.sheets.blocks import (
    DRAFT,
    Annex,
    Banner,
    Block,
    Facts,
    Heading,
    Kept,
    Quote,
    Table,
    line,
)
from coilwright.sheets.blocks import plain as plain_text
from coilwright.sheets.data.summary import summary_json
from coilwright.sheets.reasons import by_person, still_open
from coilwright.sheets.summary import HEADLINES
from coilwright.store.shipped import demo_jobs
from coilwright.units import System, show
from coilwright.values.keys import Key
from tests.cases import guess, set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import partial_jobs, whole_jobs
from tests.sheets.pages import Page

KIND = pytest.mark.parametrize("kind", sorted(KINDS))
DRAWN = pytest.mark.parametrize("kind", ["summary"])
"""The kinds with drawings."""


@settings(max_examples=draws(15))
@given(whole_jobs())
def test_a_whole_job(job: Job) -> None:
    found = plan(job)
    for kind in sorted(KINDS):
        Page(render(kind, found, "html"))
        text = render(kind, found, "text", 80)
        if kind in ("order", "summary"):
            assert ("READY" in text) == (found.ready and kind == "summary"), kind
            assert ("DRAFT" in text) == (not found.ready), kind


@settings(max_examples=draws(15))
@given(partial_jobs())
def test_a_partial_job(pair: tuple[Job, Job]) -> None:
    found = plan(pair[1])
    for kind in sorted(KINDS):
        Page(render(kind, found, "html"))
        if kind in ("order", "summary"):
            assert ("DRAFT" in render(kind, found, "md")) == (not found.ready), kind


@settings(max_examples=draws(20))
@given(st.text(min_size=1, max_size=60))
def test_typed_text_is_text_on_every_sheet(typed: str) -> None:
    job = with_planes(small_gable(), Plane(name=typed, eave=200, slope_length=100))
    said = dataclasses.replace(job.job, name=typed, client=typed, site=typed)
    metal = dataclasses.replace(job.metal, color=typed)
    job = dataclasses.replace(job, job=said, metal=metal)
    found = plan(job)
    known = plan(dataclasses.replace(
        job,
        job=dataclasses.replace(said, name="x", client="x", site="x"),
        metal=dataclasses.replace(metal, color="x"),
        roof=dataclasses.replace(
            job.roof, planes=(dataclasses.replace(job.roof.planes[0], name="x"),)
        ),
    ))
    for kind in sorted(KINDS):
        page = Page(render(kind, found, "html"))
        assert not page.tags & {"script", "a", "img", "b", "i"}, kind
        if one_line(typed):
            assert one_line(typed) in page.text, kind
        plain = Page(render(kind, known, "html"))
        assert page.tags - {"wbr"} == plain.tags - {"wbr"}, kind


@KIND
def test_the_same_plan_gives_the_same_sheet(kind: str) -> None:
    for form in ("md", "html", "text"):
        assert render(kind, plan(small_gable()), form) == render(kind, plan(small_gable()), form)


@DRAWN
def test_pages_hold_their_pictures_and_fetch_nothing(kind: str) -> None:
    html = render(kind, plan(small_gable()), "html")
    page = Page(html)
    assert "svg" in page.tags
    assert not page.attributes & {"src", "href", "onload"}
    assert "@media print" in html
    assert "█" not in html


@KIND
def test_plain_text_fits_a_terminal(kind: str) -> None:
    for width in (60, 80, 100):
        text = render(kind, plan(small_gable()), "text", width)
        if KINDS[kind].mailed:
            # For an e-mail: its lines are left to the mail program, at any width.
            assert text == render(kind, plan(small_gable()), "text", 20)
            continue
        assert max(map(len, text.splitlines())) <= max(width, 76)


def bare_heads(blocks: tuple[Block, ...]) -> Iterator[str]:
    """The headings of blocks that nothing stands under, and parts without a row."""
    for block, following in itertools.zip_longest(blocks, blocks[1:]):
        match block:
            case Heading(level, text):
                if following is None or (
                        isinstance(following, Heading) and following.level <= level):
                    yield plain_text(text)
            case Facts(text, rows):
                if not rows:
                    yield plain_text(text)
            case Table(header, rows):
                if not rows:
                    yield plain_text(line(*header))
            case Quote(inner) | Banner(inner) | Kept(inner):
                yield from bare_heads(inner)
            case Annex(text, inner):
                yield from bare_heads((Heading(2, text), *inner))
            case _:
                pass


def test_no_heading_stands_over_nothing_on_any_paper_in_any_form() -> None:
    """Pages and text are made of the same blocks row by row; an e-mail leaves room to write out,
    and no part whole."""
    for name, job in demo_jobs().items():
        found = plan(job)
        for kind, sheet in KINDS.items():
            assert not [*bare_heads(sheet.make(found).blocks)], (name, kind)
            if not sheet.mailed:
                continue
            parts = render(kind, found, "text").strip("\n").split("\n\n")
            alone = [part for part in parts if part.isupper() and "\n" not in part]
            assert alone in ([], [DRAFT]), (name, kind)


def test_an_unknown_kind_or_form_is_refused() -> None:
    with pytest.raises(KeyError):
        render("nothing", plan(new_job()), "md")
    with pytest.raises(ValueError, match="“pdf” is not a form"):
        render("order", plan(new_job()), "pdf")


def test_the_summary_shows_every_headline_or_what_it_needs() -> None:
    for job in (small_gable(), new_job()):
        found = plan(job)
        text = render("summary", found, "md")
        for key in HEADLINES:
            shown = found.figures.get(key) or found.lacks.get(key)
            assert shown is not None, key
            assert f"| {shown.label} |" in text, key


def test_the_summary_lists_panels_coils_and_findings() -> None:
    found = plan(small_gable())
    text = render("summary", found, "text")
    assert "64  18 ft 1 in" in text
    assert "ordered   2,250 lb" in text
    assert "Coil 1" in text
    flat = " ".join(text.split())
    for finding in found.findings:
        assert finding.what in flat
        assert finding.do in flat


def test_questions_are_grouped_by_whom_to_ask() -> None:
    found = plan(guess(small_gable(), "panel.take_up", "coils.tolerance", "coils.spare"))
    assert {who: [q.key for q in asked] for who, asked in by_person(found).items()} == {
        "machine maker": ["panel.take_up"],
        "supplier": ["coils.tolerance"],
        "you": ["coils.spare"],
    }
    done = plan(new_job())
    assert len(still_open(done)) == len(done.open_answers) + len(done.guesses)
    text = render("summary", found, "md")
    assert text.index("### For the machine maker") < text.index("### For the supplier")


def test_a_guessed_plane_is_named() -> None:
    found = plan(guess(small_gable(), "roof.planes.0"))
    assert "Side is a guess. Check it." in render("summary", found, "md")
    assert any(q.label == "Side" for q in still_open(found))


def test_what_was_answered_before_the_metal_was_another_is_on_no_paper() -> None:
    """Steel, coated and painted, that became bare aluminum: its color and coating are no fact of
    it, whoever is told."""
    steel = give(give(small_gable(), "metal.color", "Zlate"), "metal.color_code", "Z-9")
    bare = set_answers(steel, {
        "metal.metal": MetalName.ALUMINUM, "metal.thickness": 0.032, "metal.finish": Finish.BARE})
    made = plan(bare)
    assert made.job.metal.coating is CoatingName.AZ50
    papers = {kind: render(kind, made, "text", 200) for kind in KINDS} | {
        "JSON": summary_json(made)}
    for kind, text in papers.items():
        assert not re.search("Zlate|Z-9|AZ50|coating is counted", text), kind


def test_ask_first_stands_on_the_summary() -> None:
    found = plan(guess(small_gable(), "panel.take_up"))
    text = render("summary", found, "md")
    assert "## Settle first" in text
    assert "order 2,143 to 2,357 lb" in text
    assert "## Settle first" not in render("summary", plan(small_gable()), "md")


def test_the_whole_order_reads_the_same_on_every_sheet() -> None:
    """Three coils in metric: each is rounded before they are added, and the sum of their exact
    sizes reads otherwise. Nowhere is that shown, but as what it comes to for another answer.
    """
    job = dataclasses.replace(demo_jobs()["quarry-house-hip"], units=System.METRIC)
    found = plan(job)
    shown = set()
    for key in (Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED):
        figure = found.figures[key]
        exact = show(figure.value, figure.kind, System.METRIC)
        read = figure.text(System.METRIC)
        assert exact != read, "else nothing could be told from it"
        for kind, sheet in KINDS.items():
            for form in sheet.forms:
                lines = [line for line in render(kind, found, form, 400).splitlines()
                         if not re.search(r"order [\d,]+ to ", line)]
                assert not [line for line in lines if exact in line], (kind, form, exact)
                shown |= {(kind, form) for line in lines if read in line}
    assert {("order", "md"), ("summary", "html"), ("request", "text")} <= shown
