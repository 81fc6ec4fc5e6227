"""The question sheet: by person, what holds the order first, room to write, text kept as text."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.choices import YesNo
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.questions import all_questions
from coilwright.plan import plan
from coilwright.plan.ask_first import ask_first
from coilwright.plan.questions import Status, reply
from coilwright.sheets import render_as
from coilwright.sheets.blocks import Heading, Quote, Sheet, plain
from coilwright.sheets.questions import question_sheet
from coilwright.store import shipped
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import partial_jobs
from tests.plan.questions.held import holding, unsettled

COLD = new_job("Cold")


_BUILT: dict[int, tuple[Job, Sheet]] = {}
"""By the identity of their jobs, which are kept with them."""


def built(job: Job) -> Sheet:
    if id(job) not in _BUILT:
        _BUILT[id(job)] = job, question_sheet(plan(job))
    return _BUILT[id(job)][1]


def sheet(job: Job, form: str = "md") -> str:
    return render_as(built(job), form)


def one_line(text: str) -> str:
    return " ".join(text.split())


def cards(job: Job) -> list[Quote]:
    """The boxed questions."""
    return [b for b in built(job).blocks if isinstance(b, Quote)]


def left(job: Job) -> int:
    return sum(not q.status.is_done for q in plan(job).questions)


@pytest.mark.parametrize("job", [COLD, small_gable(), *shipped.demo_jobs().values()])
def test_every_open_question_has_a_card(job: Job) -> None:
    assert len(cards(job)) == left(job)
    text = one_line(sheet(job, "text").replace("│", " "))
    for question in plan(job).questions:
        if not question.status.is_done:
            for part in (question.words.why, question.words.good, question.words.otherwise):
                assert part in text
            assert question.words.caution in text


def test_the_persons_follow_one_another() -> None:
    heads = [plain(b.text) for b in built(COLD).blocks
             if isinstance(b, Heading) and b.level == 2]
    assert heads == [
        "Ask these first", "For the client", "For the designer", "For the building department",
        "For the machine maker", "For the supplier", "For you to find out",
    ]  # fmt: skip


def test_what_holds_the_order_comes_first_and_says_so() -> None:
    text = sheet(unsettled(small_gable()), "text")
    supplier = text.split("For the supplier")[1]
    marks = ["BEFORE ORDERING" in one_line(card.replace("│", " "))
             for card in supplier.split("☐")[1:]]
    assert marks[0]
    assert marks == sorted(marks, reverse=True)
    assert "BEFORE ORDERING" not in text.split("For the designer")[1].split("For the building")[0]


def test_settled_ones_are_ticked_below() -> None:
    job, _ = reply(small_gable(), "supplier.price_holds", "until 12 June")
    supplier = sheet(job, "text").split("For the supplier")[1]
    below = supplier.split("Settled")[1]
    assert "until 12 June" in below
    assert "☑" in below
    assert "☐" not in below


def test_a_settled_yes_says_what_it_is_a_yes_to() -> None:
    """The question is how far the water is; its answer in the job is yes or no."""
    job = set_answers(small_gable(), {"job.salt_water": YesNo.YES})
    assert "Near salt water: yes" in sheet(job, "text")
    job = set_answers(small_gable(), {"job.salt_water": YesNo.NO})
    assert "Near salt water: no" in sheet(job, "text")


def test_a_guess_is_marked() -> None:
    page = sheet(guess(small_gable(), "panel.take_up"), "text")
    assert "Answer: ~ 5 in" in page
    job, _ = reply(small_gable(), "supplier.price_holds", "two weeks, he thinks", settled=False)
    assert "Answer: ~ two weeks, he thinks" in sheet(job, "text")


def test_what_was_typed_and_cannot_be_read_is_still_there() -> None:
    job, _ = reply(small_gable(), "machine_maker.take_up", "about five")
    assert "Answer: so far about five" in sheet(job, "text")


def test_the_three_to_ask_first_stand_on_top() -> None:
    job = shipped.demo_jobs()["quarry-house-hip"]
    top = sheet(job, "text").split("For the client")[0]
    first = ask_first(job)
    assert len(first) > 3
    for number, effect in enumerate(first[:3], 1):
        assert f" {number}. {effect.label}, " in top
    assert f"{first[3].label}, " not in top


def test_what_will_be_asked_back_is_at_hand() -> None:
    supplier = one_line(sheet(small_gable(), "text").split("For the supplier")[1])
    assert "metal: steel" in supplier
    assert "strip width: 21 in" in supplier
    assert "weight to order: 2,250 lb" in supplier


def test_there_is_room_to_write() -> None:
    text = sheet(COLD, "text")
    assert len(re.findall(r"_{40,}", text)) == left(COLD)


def test_the_count_on_top_is_right() -> None:
    job = unsettled(small_gable())
    asked = plan(job).questions
    top = one_line(sheet(job, "text").replace("│", " "))
    assert f"{left(job)} of {len(asked)} questions are not settled yet" in top
    assert f"before {len(holding(plan(job)))} of them are" in top


def test_all_settled_says_so() -> None:
    job = unsettled(small_gable())
    for question in plan(job).questions:
        entry = question.words
        if question.status is not Status.SETTLED and not entry.answer:
            job, _ = reply(job, question.key, "settled")
    open_still = {q.key for q in plan(job).questions if q.status is not Status.SETTLED}
    assert open_still <= {key for key, entry in all_questions().items() if entry.answer}
    assert len(cards(job)) == len(open_still)


class _Page(HTMLParser):
    """Reads a page; an element left open is an error."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: set[str] = set()
        self.pieces: list[str] = []
        self.feed(text)
        self.close()
        assert not self.open

    def handle_starttag(self, tag: str, _attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        if tag not in ("meta", "wbr", "br"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.pieces.append(data)


def test_html_has_tick_boxes_and_breaks_no_card_in_print() -> None:
    text = sheet(COLD, "html")
    page = _Page(text)
    said = "".join(page.pieces)
    assert said.count("☐") == left(COLD) + sheet(COLD).split("For you to find out")[1].count("☐")
    assert text.count("<blockquote>") == left(COLD)
    assert text.count('<blockquote class="banner draft">') == 1
    assert re.search(r"blockquote[^{]*\{[^}]*break-inside: avoid", text)


@given(st.text(min_size=1, max_size=60), st.booleans())
@settings(max_examples=draws(30))
def test_typed_text_is_text(typed: str, settled: bool) -> None:
    assert _Page(sheet(_typed(typed, settled), "html")).tags == (
        _Page(sheet(_typed("x", settled), "html")).tags
    )
    assert len(cards(_typed(typed, settled))) == left(_typed(typed, settled))


def _typed(text: str, settled: bool) -> Job:
    job, _ = reply(small_gable(), "supplier.mill", text, settled)
    return reply(job, "machine_maker.take_up", f"{text} or so")[0]


@pytest.mark.parametrize(
    "typed", ["<script>alert(1)</script>", "# big", "**loud**", "| a | b |", "`code`", "![x](y)"]
)
def test_markup_shows_as_typed(typed: str) -> None:
    job, _ = reply(small_gable(), "supplier.mill", typed)
    html = sheet(job, "html")
    assert typed in "".join(_Page(html).pieces)
    assert "<script" not in html
    assert typed in one_line(sheet(job, "text"))


@given(partial_jobs())
@settings(max_examples=draws(15))
def test_any_job_has_a_sheet(jobs: tuple[Job, Job]) -> None:
    for form in ("md", "html", "text"):
        assert sheet(jobs[1], form)
    assert len(cards(jobs[1])) == left(jobs[1])
