"""What is typed moves no row of any form; a pick brings rows below itself alone.

The promise is one about all answers and all forms, so it is tried on all of them: on each job
each answer that is asked is given every pick, or texts of many kinds.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache

import pytest

from coilwright.calc.metal import MetalName, name_metals
from coilwright.job.answers import ANSWERS, Answer, Form
from coilwright.job.answers.spec import never
from coilwright.job.edit import clear, give_text, give_typed, new_job
from coilwright.job.job import Job
from coilwright.job.roof import Building, Opening
from coilwright.job.steps import STEPS
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.arrivals import ARRIVALS
from coilwright.wizard.lists.coil_draft import ASKED as COIL
from coilwright.wizard.lists.form import RowForm
from coilwright.wizard.lists.opening_rows import OPENINGS
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.lists.quotes import QUOTES
from coilwright.wizard.lists.shop import MY_MACHINES, MY_RIGS
from coilwright.wizard.lists.trim import TRIM
from coilwright.wizard.shop_session import ShopDraft
from coilwright.wizard.step_view import load_view
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.shown_rows import ShownRows
from coilwright.words import words
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, wizard

pytestmark = pytest.mark.slow
TEXTS = ("", "2", "0", "40", "1.78/lb", "4.10/mile", "cannot be read")
_DRAWN = 8
"""Jobs, and rows, with answers here and there: each answer meets all its neighbors in them."""
Give = Callable[[Job, Answer, str], Job]


def _texts(answer: Answer) -> Sequence[str]:
    return ("", *map(str, answer.choices)) if answer.form is Form.CHOICE else TEXTS


@cache
def _jobs() -> tuple[Job, ...]:
    """A new job, one that is ready, and many with answers here and there."""
    jobs = [new_job(), job_of(READY)]
    draw = random.Random(7)
    for _ in range(_DRAWN):
        job = Job()
        for key in draw.sample(sorted(ANSWERS), draw.randint(5, len(ANSWERS))):
            made, error = give_text(job, key, draw.choice(_texts(ANSWERS[key])))
            job = job if error else made
        jobs.append(job)
    return tuple(jobs)


def _given(job: Job, answer: Answer, text: str) -> Job:
    return give_text(job, answer.key, text)[0]


def _broken(job: Job, answers: Sequence[Answer], give: Give) -> Iterator[str]:
    """Each answer of a form that breaks the promise, in words."""
    opened = ShownRows(answers)
    opened.open(job)
    before = [a.key for a in answers if opened.has(a.key)]
    for at, answer in enumerate(answers):
        if not answer.asked(job):
            continue
        after = [give(job, answer, text) for text in _texts(answer)]
        hangs: set[str] | None = None
        for text, then in zip(_texts(answer), after, strict=True):
            rows = ShownRows(answers)
            rows.open(job)
            rows.take(then, answer)
            shown = [a.key for a in answers if rows.has(a.key)]
            lost = [a.key for a in answers if a.asked(then) and not rows.has(a.key)]
            if lost:
                yield f"{answer.key} “{text}”: {lost} asked, without a row"
            if gone := [key for key in before if key not in shown]:
                yield f"{answer.key} “{text}”: {gone} taken away"
            new = [i for i, a in enumerate(answers) if a.key in shown and a.key not in before]
            if new and answer.form is not Form.CHOICE:
                yield f"{answer.key} “{text}”: typed, and brings {new}"
            if not new:
                continue
            if min(new) < at:
                yield f"{answer.key} “{text}”: rows above it"
            if min(new) > max(i for i, a in enumerate(answers) if a.key in before):
                continue  # below all that stood there, it moves nothing
            between = [a.key for a in answers[at + 1 : max(new)] if rows.has(a.key)]
            if hangs is None:
                hangs = {a.key for a in answers
                         if len({(a.asked(each), a.has_row(each)) for each in (job, *after)}) > 1}
            if not set(between) <= hangs:
                yield f"{answer.key} “{text}”: rows not directly below it, past {between}"


@pytest.mark.parametrize("step", [step.key for step in STEPS if step.key != "summary"])
def test_what_is_said_on_a_step_moves_nothing_but_what_a_pick_brings(step: str) -> None:
    answers = [ANSWERS[key] for key in load_view(step).keys]
    assert [line for job in _jobs() for line in _broken(job, answers, _given)] == []



FORMS = (PLANES, OPENINGS, TRIM, QUOTES, ARRIVALS, MY_MACHINES, MY_RIGS)


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.key)
def test_what_is_said_in_the_form_of_a_row_moves_nothing_but_what_a_pick_brings(
    form: RowForm[object]
) -> None:
    start = ShopDraft() if form in (MY_MACHINES, MY_RIGS) else job_of(READY)
    if form is OPENINGS:
        start = replace(start, roof=replace(start.roof, building=Building.GABLE))
    place = form.place
    assert place is not None
    row = Opening(on="front") if form.new is None else form.new(start)
    asked = form.asked(0)
    answers = [one.answer for one in asked]
    empty = {one.answer.key: one.empty for one in asked}

    def give(job: Job, answer: Answer, text: str) -> Job:
        return give_typed(job, answer, empty[answer.key], text)[0]

    draw = random.Random(7)
    job = place.add(start, row)
    broken = list(_broken(job, answers, give))
    for _ in range(_DRAWN):
        made = job
        for answer in draw.sample(answers, draw.randint(1, len(answers))):
            if answer.asked(made):
                made = give(made, answer, draw.choice(_texts(answer)))
        broken += _broken(made, answers, give)
    assert broken == []


def test_what_is_said_of_a_coil_on_hand_moves_nothing() -> None:
    answers = [asked.answer for asked in COIL]

    def give(job: Job, answer: Answer, text: str) -> Job:
        return replace(job, typed={**job.typed, answer.key: text})

    draw, broken = random.Random(7), []
    for _ in range(_DRAWN):
        job = Job()
        for answer in draw.sample(answers, draw.randint(0, len(answers))):
            job = give(job, answer, draw.choice(_texts(answer)))
        broken += _broken(job, answers, give)
    assert broken == []


def test_every_row_that_can_be_dim_says_why() -> None:
    assert [a.key for a in ANSWERS.values()
            if a.offered is not never and ";" not in words(a.key).unasked] == []
    assert [f"{form.key}.{m.name}" for form in FORMS if form not in (MY_MACHINES, MY_RIGS)
            for m in form.measures if m.offered is not None and ";" not in m.unasked] == []
    assert [one.answer.key for one in COIL
            if one.answer.offered(Job()) and ";" not in one.unasked] == []
    # Metals stand in it by what their records say, never by hand.
    metals = [metal.value for metal in MetalName]
    assert [a.key for a in ANSWERS.values()
            for said in [words(a.key).unasked] if any(metal in said for metal in metals)] == []
    assert "{" not in "".join(name_metals(words(a.key).unasked) for a in ANSWERS.values())


class TestShownRows:
    """The rule itself, on the Metal step."""

    ROWS = tuple(ANSWERS[key] for key in load_view("metal").keys)

    def opened(self, job: Job) -> ShownRows:
        rows = ShownRows(self.ROWS)
        rows.open(job)
        return rows

    def test_a_pick_says_what_it_brings_until_the_cursor_moves_on(self) -> None:
        job = job_of({"metal.metal": "aluminum", "metal.finish": "bare, not painted"})
        rows = self.opened(job)
        rows.move("metal.finish")
        assert not rows.has("metal.color")
        rows.take(_given(job, ANSWERS["metal.finish"], "PVDF 70 %"), ANSWERS["metal.finish"])
        assert rows.is_new("metal.color")
        assert rows.asked_now(79)[1][0].startswith("Asked now, below: Color, Color code")
        rows.move("metal.color")
        assert not rows.is_new("metal.color")
        assert rows.asked_now(79) == ()

    def test_a_pick_that_is_only_passed_leaves_nothing_behind(self) -> None:
        finish = ANSWERS["metal.finish"]
        job = job_of({"metal.metal": "aluminum", "metal.finish": "bare, not painted"})
        rows = self.opened(job)
        rows.take(_given(job, finish, "PVDF 70 %"), finish)
        rows.take(job, finish)
        assert not rows.has("metal.color")

    def test_what_is_asked_no_more_stays_and_says_why_until_the_step_is_opened_again(self) -> None:
        finish, job = ANSWERS["metal.finish"], job_of(READY)
        rows = self.opened(job)
        bare = _given(job, finish, "bare, not painted")
        rows.take(bare, finish)
        assert rows.has("metal.color")
        assert not rows.is_asked("metal.color")
        assert rows.why("metal.color") == "Finish is “bare, not painted”"
        rows.open(bare)
        assert not rows.has("metal.color")

    def test_undo_brings_back_what_is_asked_again(self) -> None:
        job = job_of(READY)
        bare = _given(job, ANSWERS["metal.finish"], "bare, not painted")
        rows = self.opened(bare)
        rows.renew(job)
        assert rows.is_asked("metal.color")


async def test_a_row_that_is_not_asked_keeps_its_place_and_takes_nothing(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    job = clear(job_of(READY), "metal.metal")
    app = app_on(job, "metal", "metal.metal")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        before = [field.key for field in screen.query(Field) if field.display]
        await pilot.press("down")
        await pilot.paste("24")
        await settle(pilot)
        assert screen.session.job == job, "no metal, so no grade is asked: nothing is taken"
        assert "Not asked now: no metal yet; asked once the metal is picked." in screen_text(app)
        await pilot.press("f3")
        await settle(pilot)
        assert screen.session.job == job
        await pilot.press("down", "down", "2")
        await settle(pilot)
        assert "“2” changed nothing at Metallic coating. Not asked now" in " ".join(
            one.message for one in app.notices), "picks that are not asked say so too"
        await pilot.press("up", "up", "up", "right")
        await settle(pilot)
        assert "+Grade, alloy or type" in screen_text(app)
        assert "Asked now, below: Grade, alloy or type, Metallic coating" in screen_text(app)
        assert [f.key for f in screen.query(Field) if f.display] == before, "no row has moved"
        await pilot.press("down")
        await pilot.paste("24")
        await pilot.press("enter")
        await settle(pilot)
        assert screen.session.job.metal.grade is None
        said = " ".join(screen_text(app).split())
        assert "“24” says how thick the metal is, which is asked below" in said
        assert "▸Grade, alloy or type" in screen_text(app), "the cursor's sign stays beside ×"
