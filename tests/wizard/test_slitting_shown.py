"""Slitting as it is read: in lines, on the Coils step by keys, on the sheets and in JSON."""

from __future__ import annotations

import dataclasses
import json
from functools import partial
from pathlib import Path

import pytest
from textual.widgets import Static

from coilwright.cli import main
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import MASTERS
from coilwright.job.coils import Slitting
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.plan.panel.compare import compare
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.session import Session
from coilwright.wizard.steps.coils.slitting import SlitBlock, slit_lines
from coilwright.wizard.widgets.field import Field
from tests.cases import guess, set_answers
from tests.plan.coils.slit_jobs import CAP, DRIP, RAKE, slit_job
from tests.wizard.pilot import driven, until
from tests.wizard.wizard_driving import screen_text, settle, type_text, wizard

PASSES = slit_job(48.0, 43.0, trim=(DRIP, RAKE, CAP), coils__price=1.4,
                  coils__slitting=Slitting.PASSES)
FULL = slit_job(48.0, 43.0, trim=(DRIP, RAKE, CAP), coils__price=1.4)


class TestAnswers:
    """The master widths are asked for one after the other."""

    def test_the_next_width_is_asked_once_the_one_before_is_there(self) -> None:
        job = set_answers(slit_job(edge=None), {})
        asked = [key for key in (*MASTERS, "coils.edge_trim") if ANSWERS[key].asked(job)]
        assert asked == ["coils.master", "coils.edge_trim"]
        asked = [key for key in (*MASTERS, "coils.edge_trim")
                 if ANSWERS[key].asked(slit_job(48.0, 43.0))]  # fmt: skip
        assert asked == [*MASTERS[:3], "coils.edge_trim"]

    def test_who_slits_is_asked_with_a_master_and_its_weight_in_passes(self) -> None:
        keys = ("coils.slitting", "coils.master_heaviest")
        for job, expected in ((slit_job(edge=None), []), (slit_job(48.0), keys[:1]),
                              (PASSES, keys)):
            assert [k for k in keys if ANSWERS[k].asked(job)] == list(expected)

    def test_a_width_stays_on_the_form_when_the_one_before_goes(self) -> None:
        job = set_answers(slit_job(48.0, 43.0), {"coils.master": None})
        assert ANSWERS["coils.master_2"].asked(job)
        assert [s.master.value for s in plan(job).slits] == [43]

    def test_text_that_cannot_be_read_stays_on_the_form(self) -> None:
        job = dataclasses.replace(slit_job(edge=None), typed={"coils.master_3": "wide"})
        assert ANSWERS["coils.master_3"].asked(job)
        assert ANSWERS["coils.master_4"].asked(job)


class TestLines:
    """Lines for a terminal."""

    @pytest.mark.parametrize("width", [30, 40, 56, 76, 120])
    def test_no_line_is_too_long_and_every_master_has_one(self, width: int) -> None:
        done = plan(FULL)
        lines = slit_lines(done, width)
        assert all(len(line) <= width for line in lines)
        rows = lines[1 : 1 + len(done.slits)]
        for row, one in zip(rows, done.slits, strict=True):
            assert row.startswith(one.master.text())
            assert one.drop_mass.text() in row or width < 56

    def test_at_eighty_columns_weight_and_money_of_the_drop_are_there(self) -> None:
        done = plan(FULL)
        text = slit_lines(done, 76)
        for row, one in zip(text[1:], done.slits, strict=False):
            assert one.money is not None
            assert row.split("  ")[-1].strip() == one.money.text()
            assert one.drop_mass.text() in row

    @pytest.mark.parametrize("width", [30, 56, 76])
    def test_every_pass_of_the_order_is_there(self, width: int) -> None:
        done = plan(PASSES)
        lines = slit_lines(done, width)
        assert all(len(line) <= width for line in lines)
        best = done.ordered_slit
        assert best is not None
        text = " ".join(" ".join(lines).split())
        for one, many in best.alike():
            assert f"{many} × {one.length.text()}" in text
            assert f"{one.drop.text()} drop" in text

    def test_slit_to_width_there_is_no_length_but_the_coils(self) -> None:
        lines = slit_lines(plan(FULL), 120)
        assert "length" not in lines[0].split()
        assert lines[-1] == "slit to width: the drop is the supplier's"

    def test_a_guess_is_marked(self) -> None:
        lines = slit_lines(plan(guess(slit_job(48.0), "coils.edge_trim")), 76)
        assert "~" in lines[1]
        assert not any("~" in line for line in slit_lines(plan(slit_job(48.0)), 76))

    def test_what_it_waits_for(self) -> None:
        (line,) = slit_lines(plan(slit_job(48.0, edge=None)), 76)
        assert line == "Slitting still needs: “Edge trim, both edges”."
        assert slit_lines(plan(slit_job(edge=None)), 76) == []
        assert slit_lines(plan(slit_job(20.0)), 76) == ["no master is wide enough for the strip"]


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty data folder."""
    return Store(tmp_path / "data")


def app_on(store: Store, job: Job) -> CoilwrightApp:
    return CoilwrightApp(store, Session(store, job), "coils", None)


def box(app: CoilwrightApp, key: str) -> Field:
    field = wizard(app).form.field(key)
    assert field is not None, key
    return field


def lines_of(block: SlitBlock) -> str:
    """What the block says, below the fold too; line ends as blanks."""
    return " ".join(str(block.query_one(".lines", Static).content).split())


def shown(app: CoilwrightApp, key: str) -> bool:
    """Whether the form asks an answer now."""
    field = wizard(app).form.field(key)
    return field is not None and field.display


async def test_masters_by_keys(store: Store) -> None:
    app = app_on(store, slit_job(edge=None, trim=(DRIP,)))
    async with driven(app, size=(120, 40), notifications=True) as pilot:
        await settle(pilot)
        session = wizard(app).session
        block = wizard(app).query_one(SlitBlock)
        assert not block.display or block.has_class("-empty")
        assert wizard(app).form.field("coils.master_2") is None
        box(app, "coils.master").focus()
        await settle(pilot)
        for text, asked in (("48", "coils.master_2"), ("43 in", "coils.master_3")):
            row = wizard(app).query_one(f"#field-{asked.replace('.', '-')}", Field)
            assert row.display, "its row is there"
            assert row.idle, "and not asked yet"
            await type_text(pilot, text)
            await until(pilot, partial(shown, app, asked))
            await pilot.press("enter")
            await settle(pilot)
            assert box(app, asked).has_focus_within
        # The third is left empty, the fourth is not asked and passed; then the usual edge trim is
        # a guess.
        await pilot.press("enter")
        await settle(pilot)
        focused = wizard(app).focused_field()
        assert focused is not None
        assert focused.key == "coils.slitting"
        box(app, "coils.edge_trim").focus()
        await settle(pilot)
        await pilot.press("f3")
        await settle(pilot)
        assert session.job.coils.edge_trim == 0.5
        assert [s.master.value for s in session.plan.slits] == [43, 48]
        block.query_one(".lines").focus()
        await settle(pilot)
        text = screen_text(app)
        best = session.plan.slits[0]
        assert "least metal first" in text
        assert f"~{best.drop_mass.text()}" in text
        assert "the drop is the supplier's" in lines_of(block)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert session.plan.slits == ()


def test_the_order_is_for_coils_slit_to_width_and_says_nothing_of_masters() -> None:
    text = render("order", plan(FULL), "md")
    assert "master" not in text.casefold()
    assert "Slit width" in text


def test_the_summary_has_the_masters_with_money_and_the_passes() -> None:
    for job in (FULL, PASSES):
        done = plan(job)
        text = render("summary", done, "md")
        part = text[text.index("## Slitting"):text.index("## Where the metal goes")]
        for one in done.slits:
            assert one.money is not None
            assert one.money.text().replace("$", "\\$") in part
            assert f"| {one.master.text()} |" in part
            for run in one.passes:
                assert f"| {run.length.text()} |" in part
    assert "drop by slitting" in text
    assert "drop, cost" not in render("summary", plan(slit_job(48.0)), "md")


async def test_the_passes_are_on_the_coils_step(store: Store) -> None:
    app = app_on(store, PASSES)
    async with driven(app, size=(120, 50), notifications=True) as pilot:
        await settle(pilot)
        block = wizard(app).query_one(SlitBlock)
        block.query_one(".lines").focus()
        await settle(pilot)
        best = wizard(app).session.plan.ordered_slit
        assert best is not None
        assert block.display
        assert f"× {best.passes[0].length.text()}" in lines_of(block)
        assert "in drop" in lines_of(block)


def test_the_order_says_master_passes_and_drop() -> None:
    done = plan(PASSES)
    slit = done.ordered_slit
    assert slit is not None
    text = render("order", done, "md")
    assert f"from {slit.master.text()} masters" in text
    assert "is ours and counted in the order" in text
    assert text.count("panel strip") == len(slit.alike())


def test_a_name_cannot_become_markdown() -> None:
    trim = (dataclasses.replace(DRIP, name="<b>*drip*|</b>"),)
    for kind in ("order", "summary"):
        page = render(kind, plan(slit_job(48.0, trim=trim)), "html")
        assert "<b>*drip" not in page


def test_json_holds_what_the_plan_holds() -> None:
    done = plan(FULL)
    data = json.loads(json.dumps(summary_data(done)))
    assert [one["key"] for one in data["slitting"]] == [s.key for s in done.slits]
    first, best = data["slitting"][0], done.slits[0]
    assert first["master"]["value"] == best.master.value
    assert first["drop"]["mass"]["value"] == best.drop_mass.value
    assert best.money is not None
    assert first["drop"]["money"]["value"] == best.money.value
    assert first["proven"] is True
    assert first["passes"] == []
    ordered = plan(PASSES)
    (said,) = [s for s in summary_data(ordered)["slitting"] if s["ordered"]]
    slit = ordered.ordered_slit
    assert slit is not None
    assert [[s["coil"] for s in one["strands"]] for one in said["passes"]] == [
        [s.coil for s in one.strands] for one in slit.passes]
    assert summary_data(plan(slit_job()))["slitting"] == []


def test_the_command_line_says_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COILWRIGHT_HOME", str(tmp_path))
    path = Store(tmp_path).create(FULL)
    assert main(["summary", str(path)]) == 0
    out = capsys.readouterr().out
    assert "Slitting" in out
    assert "43 in" in out
    assert main(["sheet", "summary", str(path)]) == 0
    assert "## Slitting" in capsys.readouterr().out


def test_the_comparison_of_widths_takes_the_best_master_as_ordered() -> None:
    rows = {row.coverage: row for row in compare(FULL)}
    best = plan(FULL).slits[0]
    drop = rows[16.0].slit_drop
    assert drop is not None
    assert drop.value == pytest.approx(best.drop_mass.value)
    # 18 + 5 = 23 in: no two fit on 43, two on 48 leave 2 in; the wider master is then the better.
    at_18 = plan(ANSWERS["panel.coverage"].put(FULL, 18.0))
    drop = rows[18.0].slit_drop
    assert drop is not None
    assert at_18.slits[0].master.value == 48
    assert drop.value == pytest.approx(
        at_18.slits[0].drop_mass.value)
