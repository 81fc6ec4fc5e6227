"""Beside the coil: clips, fasteners, underlayment, closures and sealant, counted by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings

from coilwright.calc.roof.panels import seam_lengths
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.plan import plan
from coilwright.plan.accessories import Accessory, accessories, figures_of
from coilwright.plan.ledger import Lack, known
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.store import read_model, to_text
from coilwright.values.source import Grade
from coilwright.values.standing import Standing
from tests.cases import building, guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import partial_jobs
from tests.sheets.pages import read_tables
from tests.values.written import check


def listed(job: Job) -> dict[str, Accessory]:
    return {one.key: one for one in accessories(plan(job))}


def amounts(**answers: Any) -> dict[str, float | None]:
    keys = {key.replace("__", "."): value for key, value in answers.items()}
    found = listed(set_answers(small_gable(), keys)).values()
    return {one.key: amount.value if (amount := known(one.amount)) else None for one in found}


def test_the_gable_by_hand() -> None:
    """Two planes of 42 by 18 ft in 16 in panels: 504/16 = 31.5, so 32 panels and 31 seams each.

    Clips 24 in apart on 216 in: 9 + 1 = 10 a seam, 620 in all; 5 % more are 651. Two fasteners
    to a clip, 10 % more: 1,240 · 1.1 = 1,364. Area 2·504·216 in² and 15 % for laps. Closures on
    both sides of a ridge of 504 in and 5 %; two beads of sealant under them and 10 %.
    """
    assert amounts(panel__clip_spacing=24.0) == {
        "clips": 651,
        "screws": 1364,
        "underlayment": pytest.approx(2 * 504 * 216 * 1.15),
        "closures": pytest.approx(2 * 504 * 1.05),
        "sealant": pytest.approx(2 * 2 * 504 * 1.10),
    }


def test_allowances_and_numbers_are_answers() -> None:
    assert amounts(
        panel__clip_spacing=24.0, panel__clip_allowance=0.0, panel__clip_fasteners=3,
        panel__fastener_allowance=0.0, panel__underlayment_allowance=0.0,
        panel__closure_allowance=0.0, panel__sealant_beads=1, panel__sealant_allowance=0.0,
    ) == {"clips": 620, "screws": 1860, "underlayment": 2 * 504 * 216, "closures": 1008,
          "sealant": 1008}


def test_usual_allowances_say_where_they_come_from() -> None:
    for one in listed(small_gable()).values():
        assert one.allowance.source.grade is Grade.PRACTICE
    answered = listed(set_answers(small_gable(), {"panel.clip_allowance": 0.05}))["clips"]
    assert answered.allowance.source.grade is Grade.ANSWER


@pytest.mark.parametrize(("planned", "tested", "spaces"), [
    (24.0, None, 9), (None, 24.0, 9), (24.0, 12.0, 18), (12.0, 24.0, 18),
])
def test_of_two_spacings_the_wider_is_never_taken(
    planned: float | None, tested: float | None, spaces: int
) -> None:
    found = amounts(panel__clip_spacing=planned, panel__report_clip_spacing=tested,
                    panel__clip_allowance=0.0)
    assert found["clips"] == 62 * (spaces + 1)


def test_without_a_spacing_clips_are_asked_and_the_rest_is_there() -> None:
    found = listed(small_gable())
    clips = found["clips"].amount
    assert isinstance(clips, Lack)
    assert clips.needs == ("panel.clip_spacing",)
    assert known(found["underlayment"].amount) is not None
    text = render("accessories", plan(small_gable()), "text")
    assert "Clip spacing planned" in " ".join(text.split())


def test_hips_close_both_their_planes() -> None:
    done = plan(building(Building.HIP))
    one = next(a for a in accessories(done) if a.key == "closures")
    net = known(one.net)
    assert net is not None
    figures = done.figures
    assert net.value == pytest.approx(
        2 * (figures["edges.ridge"].value + figures["edges.hip"].value))


def test_it_is_never_on_the_coil_order_and_changes_nothing() -> None:
    job = set_answers(small_gable(), {"panel.clip_spacing": 24.0})
    assert "clips" not in render("order", plan(job), "text").casefold()
    more = set_answers(job, {"panel.clip_allowance": 0.5})
    assert plan(more).ready == plan(job).ready
    assert {k: f.value for k, f in plan(more).figures.items() if not k.startswith("trim.")} == {
        k: f.value for k, f in plan(job).figures.items()}


@pytest.mark.parametrize("kind", ["accessories", "summary"])
def test_the_sheets_say_that_it_is_counted(kind: str) -> None:
    done = plan(set_answers(small_gable(), {"panel.clip_spacing": 24.0}))
    text = render(kind, done, "md")
    table = next(t for t in read_tables(text) if t.rows and t.rows[0][0] == "Clips")
    assert [row[1] for row in table.rows[:2]] == ["651", "1,364"]
    assert "not engineered" in text
    assert "Only the test report and the designer say" in text


def test_the_json_has_it() -> None:
    data = summary_data(plan(set_answers(small_gable(), {"panel.clip_spacing": 24.0})))
    clips = data["accessories"][0]
    assert clips["amount"]["value"] == 651
    assert clips["needs"] == []
    assert data["figures"]["beside.clips"]["terms"]["N"] == "beside.clips.net"


def test_a_guess_marks_what_rests_on_it() -> None:
    job = guess(set_answers(small_gable(), {"panel.clip_spacing": 24.0}), "panel.clip_spacing")
    found = listed(job)
    clips, area = known(found["clips"].amount), known(found["underlayment"].amount)
    assert clips is not None
    assert area is not None
    assert (clips.standing, area.standing) == (Standing.GUESS, Standing.SURE)


def test_answers_are_kept_in_the_file() -> None:
    job = set_answers(small_gable(), {"panel.clip_allowance": 0.05, "panel.sealant_beads": 2})
    assert read_model(to_text(job), Job, "job") == job


def test_nothing_without_a_plane() -> None:
    assert accessories(plan(new_job())) == ()
    assert "Nothing to count yet" in render("accessories", plan(new_job()), "text")


@given(partial_jobs())
@settings(max_examples=draws(30), deadline=None)
def test_any_job_holds_its_equations(jobs: tuple[Job, Job]) -> None:
    done = plan(set_answers(jobs[1], {"panel.clip_spacing": 18.0}))
    for figure in figures_of(accessories(done)):
        if figure.formula is not None:
            check(figure)
    clips = next((a.net for a in accessories(done) if a.key == "clips"), None)
    if clips is None or isinstance(clips, Lack):
        return
    wanted = sum(
        plane.alike * (math.ceil(round(length, 6) / 18 - 1e-9) + 1)
        for plane in done.planes for length in seam_lengths(plane.panels)
    )
    assert clips.value == wanted
