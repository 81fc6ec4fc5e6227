"""The request for a quote: what is wanted without a price, what is to be answered, no more."""

from __future__ import annotations

import dataclasses
import datetime
import re
from pathlib import Path

import pytest

from coilwright.drawing.bars import account_columns
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.job import JobKey
from coilwright.job.choices import YesNo
from coilwright.job.edit import clear, give, new_job
from coilwright.job.haul import LiftBy
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.job.questions import all_questions
from coilwright.job.quotes import Quote
from coilwright.job.requests import Request
from coilwright.job.sending import awaited, request_to, with_requests
from coilwright.job.shop import Supplier
from coilwright.plan import plan
from coilwright.sheets import ending, render, sheet_files
from coilwright.sheets.asked import (
    asked_before_words,
    asked_otherwise,
    numbers_of_others,
    perhaps_unsent,
)
from coilwright.sheets.file_names import file_stem
from coilwright.sheets.request import makes_draft
from coilwright.sheets.saving import save_sheets, saved_words
from coilwright.store import Store, slug
from coilwright.store.shipped import demo_jobs
from coilwright.units import System, show
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.wizard.steps.summary.buying import to_buy
from tests.cases import set_answers

BARN = "heron-lane-barn"
FORMS = ("md", "html", "text")


def asked_job() -> Job:
    job = demo_jobs()[BARN]
    return dataclasses.replace(
        job, order=dataclasses.replace(
            job.order, buyer="Gable & Seam (invented)", contact="A. Field", phone="555-0100"),
        requests=(
            Request(supplier="Birch & Daughters (invented)", number="R7", contact="B. Birch",
                    email="b@example.com", date=datetime.date(2027, 2, 3), by="C. Lath"),
            Request(supplier="Tern Hill (invented)", number="R7"),
        ))


def test_it_is_addressed_numbered_and_says_who_asks() -> None:
    text = render("request", plan(asked_job()), "text", to="birch & daughters (invented)")
    assert text.startswith("Request for quote R7\n")
    assert "Date: Feb 3, 2027" in text
    assert "To: Birch & Daughters (invented), B. Birch, b@example.com" in text
    assert "From: Gable & Seam (invented), C. Lath, 555-0100" in text
    job = asked_job()
    for contact, by in (("A. Field", "A. Field"), ("", "C. Lath")):
        one = dataclasses.replace(job, order=dataclasses.replace(job.order, contact=contact))
        assert request_to(one, Supplier(name="Elk Fork (invented)"), "R8").by == by
    # A day to answer by is said where one is named, and stays for whoever is asked next.
    assert "Answer by" not in text
    soon = dataclasses.replace(job, requests=(dataclasses.replace(
        job.requests[0], answer_by=datetime.date(2027, 2, 10)),))
    assert "Answer by: Feb 10, 2027" in render("request", plan(soon), "text", to="birch & daughters"
                                               " (invented)")
    assert request_to(soon, Supplier(name="Elk Fork (invented)"), "R8").answer_by == (
        datetime.date(2027, 2, 10))
    # Whom to call while the driver waits is known of whoever was asked out of the shop.
    elk = Supplier(name="Elk Fork (invented)", contact="E. Fork", phone="555-0177")
    ordered = with_requests(dataclasses.replace(job, order=dataclasses.replace(
        job.order, supplier="elk fork (invented)")), request_to(job, elk, "R8"))
    assert "555-0177" in render("receiving", plan(ordered), "text")


def test_it_says_all_of_the_metal_and_the_coils() -> None:
    found = plan(asked_job())
    text = render("request", found, "text")
    for said in ("steel, aluminum-zinc-coated", "0.0236 in minimum", "PVDF 70 %",
                 "Slit width: 21 in ± 1/16 in", "Inside diameter, ID: 20 in", "max OD 32 in"):
        assert said in text


@pytest.mark.parametrize("system", System)
def test_its_weights_are_those_of_the_order(system: System) -> None:
    """Each supplier reads what the order will say, and what stands in every warning."""
    found = plan(dataclasses.replace(asked_job(), units=system))
    request, order = (" ".join(render(kind, found, "text").split())
                      for kind in ("request", "order"))
    for key in (Key.COIL_MASS_ORDERED, Key.COIL_LENGTH_ORDERED, "coil.1.mass", "coil.1.heaviest"):
        said = found.figures[key].text(system)
        assert said in request, key
        assert said in order, key


@pytest.mark.parametrize("form", FORMS)
def test_it_asks_what_each_supplier_must_answer(form: str) -> None:
    text = render("request", plan(give(asked_job(), "metal.custom_color", YesNo.YES)), form)
    for word in ("warranty", "what ends it", "least you sell", "on site, counted", "custom run",
                 "paid", "tested", "reports", "nearest stock", "camber", "edge wave", "cracks",
                 "price hold", "when it will not run right"):
        assert word in text, word
    stocked = render("request", plan(give(asked_job(), "metal.custom_color", YesNo.NO)), form)
    assert "Do you stock this color?" in stocked
    assert "custom run" not in stocked, "it is said to be none"


@pytest.mark.parametrize("form", FORMS)
def test_nothing_private_is_on_it(form: str) -> None:
    job = give(asked_job(), "job.client", "Private Client")
    job = give(job, "coils.price", 1.23)
    job = give(job, "metal.color", "slate gray (invented sample 3)", Standing.GUESS)
    text = render("request", plan(job), form)
    for word in ("Private Client", "1.23", "~", "guess", "STOP", "Heron Lane barn", "Coilwright"):
        assert word not in text, word


def test_only_what_no_supplier_can_settle_makes_it_a_draft() -> None:
    job = asked_job()
    assert "DRAFT" not in render("request", plan(job), "text")
    open_lead = give(job, "coils.lead_time", None)
    assert not plan(open_lead).ready
    assert "DRAFT" not in render("request", plan(open_lead), "text")
    guessed = give(job, "panel.coverage", job.panel.coverage, Standing.GUESS)
    assert render("request", plan(guessed), "text").startswith("DRAFT\n")


def test_how_the_coils_ride_home_makes_no_draft_of_it_and_what_lifts_them_does() -> None:
    job = give(asked_job(), "haul.tongue_weight", 900.0, Standing.GUESS)
    assert "haul.tongue_weight" in plan(job).guesses
    assert not plan(job).ready
    assert makes_draft(plan(job)) == ()
    lifts = give(give(job, "haul.site_by", LiftBy.FORKLIFT),
                 "haul.site_fork_capacity", 5000.0, Standing.GUESS)
    assert "haul.site_fork_capacity" in [reason.key for reason in makes_draft(plan(lifts))]


@pytest.mark.parametrize("kind", ["request", "order"])
def test_draft_stands_across_a_page_and_in_the_first_line_of_a_text(kind: str) -> None:
    job = asked_job()
    ready, draft = plan(job), plan(give(job, "panel.coverage", job.panel.coverage, Standing.GUESS))
    assert ready.ready
    html = render(kind, draft, "html")
    assert '<p class="across">DRAFT</p>' in html
    assert html.count("DRAFT") == 1
    assert render(kind, draft, "md").startswith("**DRAFT**\n")
    assert render(kind, draft, "text").startswith("DRAFT\n")
    for form in FORMS:
        assert "DRAFT" not in render(kind, ready, form)


def test_a_request_to_nobody_by_name_bears_no_supplier_s_own_number() -> None:
    job = asked_job()
    first, second = job.requests
    own = dataclasses.replace(job, requests=(first, dataclasses.replace(second, number="R8")))
    assert "Request for quote R7" in render("request", plan(job), "text")
    assert "R8" in render("request", plan(own), "text", to=second.supplier)
    nobody = render("request", plan(own), "text")
    assert "R7" not in nobody
    assert "R8" not in nobody


def test_every_sheet_is_a_file_and_a_request_one_for_each_supplier() -> None:
    names = [name for name, _ in sheet_files(plan(asked_job()))]
    for supplier in ("birch-daughters-invented", "tern-hill-invented"):
        for end in ("md", "html", "txt"):
            assert f"request-r7-{supplier}.{end}" in names
    assert {f"{BARN}-run.csv", f"{BARN}-summary.html"} <= {*names}
    assert len(names) == len({*names})
    alone = [name for name, _ in sheet_files(plan(demo_jobs()[BARN]), ("request",))]
    assert [Path(name).suffix for name in alone] == [".md", ".html", ".txt"]
    # With all sheets none is made for nobody.
    assert not any("request" in name for name, _ in sheet_files(plan(demo_jobs()[BARN])))
    order = [name for name, _ in sheet_files(plan(demo_jobs()[BARN]), ("order",))]
    assert {Path(name).suffix for name in order} == {".md", ".html", ".csv", ".txt"}


def test_the_file_of_a_paper_that_leaves_the_house_does_not_name_the_job() -> None:
    job = asked_job()
    assert job.job.name
    own = {*re.findall(r"\w+", slug(job.job.name))}

    def saved(job: Job) -> set[str]:
        return {Path(name).stem for name, _ in sheet_files(plan(job), ("order", "request"))}

    day = datetime.date(2027, 3, 4)
    dated = dataclasses.replace(job.order, date=day)
    numbered = dataclasses.replace(dated, number="D-1041", revision="B")
    for order, requests in ((job.order, ()), (dated, job.requests), (numbered, job.requests)):
        stems = saved(dataclasses.replace(job, order=order, requests=requests))
        assert own.isdisjoint(word for stem in stems for word in stem.split("-"))
    assert "order-d-1041-b" in stems
    assert any(stem.startswith("order-2027-03-04-") for stem in saved(
        dataclasses.replace(job, order=dated)))
    # Two jobs without numbers share no name, so that neither's paper is written over the other's.
    bare = dataclasses.replace(job, requests=())
    assert saved(bare).isdisjoint(saved(give(bare, "job.name", "Another barn")))


def test_a_mail_has_no_room_to_write_in_and_no_broken_lines() -> None:
    text = render("request", plan(asked_job()), "text")
    assert "___" not in text
    assert any(len(line) > 100 for line in text.splitlines())
    assert "|" not in text
    # What a supplier is to confirm is asked for all the same: its heading had stood alone.
    order = render("order", plan(asked_job()), "text")
    assert "\nTHE SUPPLIER CONFIRMS, IN WRITING\nYour order number: \nShip date: \n" in order
    assert "___" not in order


def test_half_a_character_in_a_jobs_name_stands_in_no_way() -> None:
    """Text pasted in halves; the file of a paper without a number bears a mark of the name."""
    stem = file_stem(plan(new_job("Barn \ud83d")), "order")
    assert re.fullmatch(r"order-[0-9a-f]{4}-draft", stem)
    assert stem != file_stem(plan(new_job("Barn")), "order")


def test_who_adds_the_coils_up_finds_the_total_and_it_is_the_same_on_every_screen() -> None:
    """Each coil is rounded on its own: of what is said of them, the total is the sum."""
    job = set_answers(asked_job(), {"coils.supplier_heaviest": 1000.0})
    found = plan(job)
    assert len(found.coils) > 1
    text = render("request", found, "text")
    rows = re.findall(r"- coils (\d+); .*weight of each about ([\d,]+) lb", text)
    assert len(rows) == 2
    summed = sum(int(many) * int(each.replace(",", "")) for many, each in rows)
    (total,) = re.findall(r"Total of these coils: .*?about ([\d,]+) lb", " ".join(text.split()))
    assert int(total.replace(",", "")) == summed
    ordered = found.figures[Key.COIL_MASS_ORDERED]
    read = ordered.text(found.job.units)
    assert read == f"{sum(round(c.mass.value) for c in found.coils):,} lb"
    assert any(read in words for _, _, words in to_buy(found))
    assert read in render("summary", found, "text")
    assert read in render("order", found, "text")
    length = found.figures[Key.COIL_LENGTH_ORDERED]
    apart = length.text(found.job.units)
    exact = show(length.value, length.kind, found.job.units)
    assert apart != exact  # else nothing below would tell them apart
    for said in (render("order", found, "text"), render("questions", found, "text"),
                 "\n".join(account_columns(found, 80))):
        assert apart in said
        assert exact not in said


_SAID = {"metal.thickness_tolerance": 0.002, "metal.grade": "33", "metal.color_code": "S-1",
         "metal.back_coat": "wash coat", "coils.camber": 0.25, "coils.width_tolerance": 0.0625}


@pytest.mark.parametrize("name", sorted(demo_jobs()))
def test_whatever_a_supplier_holds_the_order_with_is_asked_or_has_a_line_of_its_own(
    name: str,
) -> None:
    """Told by the paper itself: the words of the question, or a line that the answer changes."""
    demo = demo_jobs()[name]
    bare = dataclasses.replace(demo, questions={}, quotes=type(demo.quotes)())
    theirs = [one for one in all_questions().values() if one.who == "supplier"]
    for one in theirs:  # what the demo leaves open is said, to see whether it is read anywhere
        if one.answer and (answer := ANSWERS[one.answer]).value(bare) is None:
            said = answer.choices[0] if answer.choices else _SAID.get(one.answer)
            bare = bare if said is None else give(bare, one.answer, said)
    seen, whole = 0, plan(bare)
    for one in theirs:
        value = ANSWERS[one.answer].value(bare) if one.answer else None
        job = clear(bare, one.answer) if one.answer else bare
        found = plan(job)
        if one.key not in {question.key for question in found.questions if question.urgent}:
            continue
        seen += 1
        open_, said = (render("request", each, "text").split("Please answer")
                       for each in (found, whole))
        asked = one.ask in " ".join(open_[1].split())
        lines = value is not None and set(said[0].splitlines()) - set(open_[0].splitlines())
        assert asked or lines, one.key
        # No figure hangs on it, so that a changed line would not be its own.
        if one.answer in ("", "coils.supplier_heaviest", "coils.lead_time"):
            assert asked, one.key
    assert seen > 12


def test_a_metric_job_asks_for_no_gauge() -> None:
    job = asked_job()
    metric = dataclasses.replace(job, units=System.METRIC)
    for shown, word in ((job, "another gauge"), (metric, "another thickness")):
        text = " ".join(render("request", plan(shown), "text").split())
        assert f"Where you offer {word}, width" in text
    asked = [{one.key for one in plan(each).questions} for each in (job, metric)]
    assert ["supplier.gauge" in keys for keys in asked] == [True, False]


def test_a_request_that_was_saved_stays_as_it_was_asked_and_is_asked_anew(tmp_path: Path) -> None:
    job = asked_job()
    before = save_sheets(plan(job), tmp_path, ("request",))
    texts = {path: path.read_text() for path in before}
    otherwise = give(job, "metal.color", "barn red (invented sample 5)")
    changed = plan(otherwise)
    # What was saved without a day was asked of nobody yet: it is as the job is now.
    saved = save_sheets(changed, tmp_path, ("request",))
    assert {path.stem for path in saved} == {"request-r7-tern-hill-invented"}
    for path, text in texts.items():
        assert (path.read_text() == text) is (path not in saved), path
    (asked,) = asked_otherwise(changed, tmp_path)
    assert asked == job.requests[0]
    said = saved_words(saved, tmp_path, changed)
    assert ("R7 not sent yet? s in Requests, pressed twice, writes it anew. Sent? n asks anew, "
            "under a number of its own: it is saved otherwise than the job is now.") in said
    # Whoever quoted, or whose order went out, has it in hand: it is asked anew alone.
    quoted = dataclasses.replace(otherwise, quotes=dataclasses.replace(
        otherwise.quotes, received=(Quote(supplier=asked.supplier),)))
    ordered = dataclasses.replace(otherwise, life=Life(steps=(
        LifeStep(state=OrderState.ORDERED, date=asked.date),)))
    for one in (quoted, ordered):
        assert asked_before_words(one, (asked,)).startswith(
            "R7 of Feb 3, 2027 was asked before the job changed, and its files stay as they are: n")
        assert perhaps_unsent(one, (asked,)) == ()
    # A number that was typed may be that of a request of another job of ours.
    store = Store(tmp_path / "home")
    own = store.create(otherwise)
    assert numbers_of_others(store, own, (asked,)) == {}
    store.create(give(job, JobKey.NAME, "Lindenhof"))
    others = numbers_of_others(store, own, (asked,))
    assert [*others.values()] == ["Lindenhof"]
    theirs = ("R7 is the number of a request of “Lindenhof”, whose files stay as they are: n in "
              "Requests asks here under a number of its own.")
    assert asked_before_words(otherwise, (asked,), others) == theirs
    assert perhaps_unsent(otherwise, (asked,), others) == ()
    # One of that number to another supplier is none of it.
    ours = dataclasses.replace(asked, supplier="Fern Hollow (invented)")
    assert asked_before_words(with_requests(otherwise, ours), (ours, asked), others).startswith(
        f"{theirs} R7 not sent yet? s in Requests")
    # Back as it was, there is nothing to say, and nothing to write otherwise.
    assert asked_otherwise(plan(job), tmp_path) == ()
    anew = with_requests(otherwise, dataclasses.replace(asked, number="R9"))
    assert asked_otherwise(plan(anew), tmp_path) == ()
    assert [one.number for one in awaited(anew)] == ["R9", "R7"], "each is waited for once"
    names = {path.stem for path in save_sheets(plan(anew), tmp_path, ("request",))}
    assert names == {"request-r9-birch-daughters-invented", "request-r7-tern-hill-invented"}
    assert "barn red" in (tmp_path / "request-r9-birch-daughters-invented.txt").read_text()
    assert all(path.read_text() == text for path, text in texts.items() if path not in saved)
    # Its sender says that it did not go out: it is as the job is now, under its own number.
    assert perhaps_unsent(otherwise, (asked,)) == (asked,)
    save_sheets(changed, tmp_path, ("request",), (asked,))
    assert asked_otherwise(changed, tmp_path) == ()
    assert all("barn red" in path.read_text() for path in texts)


@pytest.mark.parametrize("left", FORMS)
def test_a_request_that_was_saved_as_a_draft_is_saved_as_it_is_now(
    tmp_path: Path, left: str
) -> None:
    job = asked_job()
    guessed = give(job, "panel.coverage", job.panel.coverage, Standing.GUESS)
    for path in save_sheets(plan(guessed), tmp_path, ("request",)):
        if path.suffix != f".{ending(left)}":
            path.unlink()
    assert asked_otherwise(plan(job), tmp_path) == ()
    save_sheets(plan(job), tmp_path, ("request",))
    assert all("DRAFT" not in path.read_text() for path in tmp_path.iterdir())
