"""Quotes on the command line, several jobs in one run, lists as JSON, a new job like another."""

from __future__ import annotations

import csv
import dataclasses
import datetime
import io
import json
from pathlib import Path

import pytest

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import give
from coilwright.job.life import OrderState
from coilwright.job.receiving import Decision, Fault
from coilwright.job.sending import stepped
from coilwright.plan import plan
from coilwright.plan.quotes.compare import compare
from coilwright.sheets.data.quotes import FORMAT
from coilwright.sheets.data.summary import summary_json
from coilwright.sheets.sending import send
from coilwright.store import Store
from coilwright.store.reader import to_text
from coilwright.store.shipped import demo_stock, machines
from coilwright.store.stock import save_stock
from coilwright.values.standing import Standing
from tests.cli.commands import Command
from tests.plan.quotes.five import FIVE, barn, quote
from tests.plan.receiving.arrivals import arrival, with_arrived

JOB = barn(*FIVE, quote("Tern Hill (invented)", price="$1.62/lb"))


def saved(folder: Path) -> str:
    """The file of a job with quotes."""
    place = folder / "quoted.job.json"
    place.write_text(to_text(JOB), "utf-8")
    return str(place)


def test_ranked_for_people_with_what_is_missing(run: Command, tmp_path: Path) -> None:
    shown = run("quotes", saved(tmp_path))
    assert (shown.code, shown.err) == (0, "")
    ranked = shown.out.index("Complete\n")  # before it stands who would ship otherwise
    at = [shown.out.index(name, ranked) for name in (
        "Alder", "Birch", "Slate Creek", "Fern", "Elk Fork", "Tern Hill")]
    assert at == sorted(at)
    assert "at least $3,645.49" in shown.out
    assert "Not complete, so not ranked" in shown.out


def test_as_json_and_the_same_in_the_summary(run: Command, tmp_path: Path) -> None:
    job = saved(tmp_path)
    data = json.loads(run("quotes", job, "--json").out)
    assert (data["format"], data["currency"], data["counted_from"]) == (FORMAT, "USD", "2027-03-01")
    assert [one["rank"] for one in data["quotes"]] == [1, 2, 3, 4, 5, None]
    ranked = compare(plan(JOB)).ranked
    assert [one["landed"]["value"] for one in data["quotes"][:5]] == [
        float(one.landed or 0) for one in ranked]
    assert json.loads(run("summary", job, "--json").out)["quotes"] == data["quotes"]


def test_as_rows(run: Command, tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(run("quotes", saved(tmp_path), "--csv").out)))
    assert [row["rank"] for row in rows] == [*["complete"] * 5, "not complete"]
    assert rows[0]["lands at"] == "4148.95"
    assert rows[-1]["missing"] == "slitting; film; skid; freight; lead time"


def test_a_job_without_quotes_says_so(run: Command) -> None:
    shown = run("quotes", "heron-lane-barn")
    assert shown.code == 0
    assert "No quotes yet." in shown.out


def test_several_jobs_are_checked_and_the_worst_decides(run: Command) -> None:
    ready, draft = "heron-lane-barn", "quarry-house-hip"
    alone = [run("check", name) for name in (ready, draft)]
    both = run("check", ready, draft)
    assert [one.code for one in alone] == [0, 1]
    assert both.code == 1
    assert both.out == f"{alone[0].out}\n{alone[1].out}"


def test_a_name_that_is_no_job_is_refused_before_anything_is_printed(run: Command) -> None:
    assert "no job" in run("check", "heron-lane-barn", "nowhere").refused()


@pytest.mark.slow
def test_several_summaries(run: Command) -> None:
    names = ("heron-lane-barn", "quarry-house-hip")
    together = run("summary", *names).out
    assert together == "\n".join(run("summary", name).out for name in names)
    data = json.loads(run("summary", "--json", *names).out)
    assert [one["job"]["name"] for one in data] == ["Heron Lane barn", "Quarry House"]


def test_lists_as_json(run: Command) -> None:
    assert json.loads(run("jobs", "--json").out) == []
    path = Store(run.home).create(JOB)
    (one,) = json.loads(run("jobs", "--json").out)
    assert (one["job"], one["file"], one["damaged"]) == ("Heron Lane barn", str(path), False)
    listed = json.loads(run("machines", "--json").out)
    assert [one["key"] for one in listed] == list(machines())
    save_stock(run.home, demo_stock())
    coils = json.loads(run("stock", "--json").out)
    assert [one["tag"] for one in coils] == [coil.tag for coil in demo_stock().coils]
    assert all(one["length_least"]["value"] <= one["length_most"]["value"] for one in coils)
    listed = json.loads(run("stock", "--json", "demo:heron-lane-barn").out)
    fits = {one["tag"]: one for one in listed}
    assert fits["S-101"]["fits"]
    assert "It is copper; the job takes steel." in fits["C-20"]["reasons"]


def test_a_new_job_like_another_keeps_its_measures_and_none_of_its_quotes(run: Command) -> None:
    like = Store(run.home).create(JOB)
    made = run("new", "Second barn", "--like", str(like))
    assert made.code == 0
    # What is of the other building is said, and the file alone goes to a pipe.
    assert "guesses now, of that job: Client; Site" in made.err
    assert made.err.count("\n") == 4, "a line each"
    job = Store(run.home).load(Path(made.out.strip()))
    assert job.title == "Second barn"
    assert ANSWERS["job.designer"].standing(job) is Standing.GUESS
    assert job.roof == JOB.roof
    assert job.machine == JOB.machine
    assert job.quotes.received == ()
    assert job.coils.order_date is None
    empty = run("new")
    assert Store(run.home).load(Path(empty.out.strip())).job.name is None
    assert "no job" in run("new", "--like", "nowhere").refused()


def test_what_was_sent_and_what_changed_since(run: Command) -> None:
    job = send(barn(), datetime.date(2027, 3, 4))
    path = str(Store(run.home).create(give(job, "metal.back_coat", "white")))
    said = run("changes", path)
    assert (said.code, said.err) == (0, "")
    assert "CHANGED, send revision B" in said.out
    assert "Back coat" in said.out
    (sent,) = job.life.sent
    assert run("changes", path, "--sent", "a").out == sent.sheet
    assert run("changes", path, "--sent", "A", "--file").out == sent.job
    assert run("changes", path, "--sent", "A", "--page").out == sent.page
    written = run("changes", path, "--sent", "A", "--to", str(Path(run.home) / "out"))
    assert [Path(one).read_text("utf-8") for one in written.out.splitlines()] == [
        sent.sheet, sent.page], "the job's file names the client: it lies beside no page"
    as_sent, papers = str(Store(run.home).create(job)), Path(run.home) / "papers"
    papers.mkdir()
    (papers / "order-d-1041-draft.html").write_text("a draft")
    assert "order-d-1041-draft.html" in run("sheet", "all", as_sent, "--to", str(papers)).err
    assert sorted(path.name for path in papers.glob("order*.html")) == ["order-d-1041-a.html"]
    assert "--page goes with --sent" in run("changes", path, "--page").refused()
    assert "sent were: A." in run("changes", path, "--sent", "B").refused()
    assert "goes with --sent" in run("changes", path, "--file").refused()
    one = dataclasses.replace(sent, number="D-1050", sheet="to another")
    two = dataclasses.replace(job, life=dataclasses.replace(job.life, sent=(sent, one)))
    both = str(Store(run.home).create(two))
    assert run("changes", both, "--sent", "a").out == "to another"
    assert run("changes", both, "--sent", "d-1041 a").out == sent.sheet
    assert "sent were: D-1041-A, D-1050-A." in run("changes", both, "--sent", "B").refused()
    assert "ORDERED Mar 4, 2027" in run("jobs").out
    # A price is on no order: no revision, whether the file says how far the job is or not.
    Store(run.home).save(Path(as_sent), give(job, "coils.price", 2.4), "")
    assert "CHANGED" not in run("jobs").out.replace("CHANGED, send revision B", "", 1)
    assert run("check", as_sent).out.splitlines()[0].endswith(": ORDERED Mar 4, 2027, revision A")
    assert run("check", as_sent).code == 0
    assert run("check", path).code == 1
    # A coil that came and that nobody has decided on is nothing sound.
    held = with_arrived(job, arrival(coil=1, faults=(Fault.WET,)))
    said = run("check", str(Store(run.home).create(held)))
    assert said.code == 1
    assert [(data["ready"], data["sound"]) for data in (
        json.loads(summary_json(plan(one))) for one in (job, held))] == [
        (True, True), (True, False)], "it can go out, and something is to be decided"
    assert said.out.splitlines()[:2] == [
        "Heron Lane barn: 1 coil on HOLD: ORDERED Mar 4, 2027, revision A",
        "HOLD  Receiving: coil 1 of the order, tag R-1, lot L-7 (Seen on it: wet or stained). "
        "Say there whether each is refused, sent back or taken knowingly."]
    # While it is under way a coil that has not come is no fault; once it is delivered it is one.
    back = with_arrived(job, arrival(coil=1, decision=Decision.SENT_BACK, decided_by="Ann",
                                     reason="wet"))
    codes = [run("check", str(Store(run.home).create(one))).code for one in (
        back, stepped(back, OrderState.DELIVERED, datetime.date(2027, 3, 8)))]
    assert codes == [0, 1]
    # Where another came for it the state names it no more: a line below does.
    again = str(Store(run.home).create(stepped(with_arrived(
        job, back.arrived[0], arrival(coil=1, tag="R-2", thickness=(0.0252,) * 3)),
        OrderState.DELIVERED, datetime.date(2027, 3, 9))))
    come = "Coils, today: 1 coil accepted, 1 coil sent back."
    assert run("check", again).out.splitlines()[:2] == [
        "Heron Lane barn: DELIVERED Mar 9, 2027", f"NOTE  {come}"]
    assert come in run("changes", again).out
    assert "Coils, today" not in run("check", path).out
    # Nor is it kept back that two lots meet on a plane, whatever was decided on them.
    two = with_arrived(job, arrival(coil=1), arrival(coil=1, tag="R-2", lot="L-8"))
    (met,) = [line for line in run("check", str(Store(run.home).create(two))).out.splitlines()
              if line.startswith("CARE  Lots meet on ")]
    assert "tag R-1, lot L-7" in met
    assert "lot L-8. Colors of two lots can differ" in met
    assert json.loads(run("summary", path, "--json").out)["life"]["sent"][0]["revision"] == "A"
