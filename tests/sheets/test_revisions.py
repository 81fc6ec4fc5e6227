"""What was sent stays as it was sent; what changed since is said, and a revision lists it."""

from __future__ import annotations

import dataclasses
import datetime
import enum
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS
from coilwright.job.canceling import with_cancellation
from coilwright.job.confirming import confirmation_words, with_confirmation
from coilwright.job.edit import clear, confirm, do_not_know, give
from coilwright.job.job import Acceptance, Job
from coilwright.job.life import MOST_PAGE, Canceled, Confirmed, OrderState, pack
from coilwright.job.life_lines import life_lines
from coilwright.job.sending import (
    CannotStep,
    next_revision,
    stepped,
    stepped_back,
    still_out_words,
    to_send,
)
from coilwright.job.sent_names import sent_called, sent_names, step_notes
from coilwright.plan import plan
from coilwright.plan.life import answer_changes
from coilwright.plan.quotes.award import award, award_sent, withdrawn
from coilwright.plan.result import Plan
from coilwright.sheets import render
from coilwright.sheets.baseline import baseline_words
from coilwright.sheets.blocks import Sheet
from coilwright.sheets.changes import changes_sheet
from coilwright.sheets.coil_changes import coil_changes
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.file_names import file_stem
from coilwright.sheets.order import order_sheet
from coilwright.sheets.order_body import order_body
from coilwright.sheets.render.text import to_text as to_plain
from coilwright.sheets.revision import job_sent
from coilwright.sheets.saving import remove_unsent, save_sent, save_sheets, saved_words
from coilwright.sheets.sending import changes_since, last_changed, send
from coilwright.sheets.state import state_of
from coilwright.sheets.told import awaits_revision, is_as_sent, tells_otherwise
from coilwright.store.files import StoreError
from coilwright.store.reader import read_model, to_text
from coilwright.units import System
from coilwright.values.finding import Level
from tests.draws import draws
from tests.plan.quotes.five import all_in, barn

DAY = datetime.date(2027, 3, 4)
LATER = datetime.date(2027, 3, 8)


def test_what_was_sent_is_the_order_and_the_job_of_that_day() -> None:
    job = send(barn(), DAY)
    (one,) = job.life.sent
    assert (one.revision, one.date) == ("A", DAY)
    assert "Revision" in one.sheet
    assert "Mar 4, 2027" in one.sheet
    assert one.page == PAGE
    assert len(one.packed) < len(PAGE) / 2
    before = job_sent(one)
    assert before == dataclasses.replace(job, life=before.life)
    assert before.life.sent == ()
    assert state_of(plan(job)) == "ORDERED Mar 4, 2027, revision A"


def test_a_draft_is_not_sent() -> None:
    with pytest.raises(CannotStep, match="a draft yet: 1 to settle"):
        send(do_not_know(barn(), "coils.spare"), DAY)


@pytest.mark.parametrize(("head", "lacks"), [
    ({"number": ""}, "no number: put it in"),
    ({"supplier": " "}, "no supplier: put it in"),
    ({"number": "", "supplier": ""}, "no number and no supplier: put them in"),
])
def test_an_order_that_nobody_can_refer_to_or_that_goes_to_nobody_is_not_sent(
    head: dict[str, str], lacks: str
) -> None:
    job = barn()
    bare = dataclasses.replace(job, order=dataclasses.replace(job.order, **head))
    with pytest.raises(CannotStep, match=f"^The order has {lacks} at the head of the order, on "
                       r"the Suppliers step\. Nothing was sent\.$"):
        send(bare, DAY)


def flat(text: str) -> str:
    """A text with its lines run together."""
    return " ".join(text.split())


def test_an_order_that_went_a_step_back_claims_no_revision_and_says_whom_to_tell() -> None:
    job = send(barn(), DAY)
    (one,) = job.life.sent
    assert file_stem(plan(job), "order").endswith("-a")
    assert not [f for f in plan(job).findings if f.key == "order.still_out"]
    back = stepped_back(job, LATER, "they cannot ship")
    made = plan(back)
    assert made.ready
    assert state_of(made) == "READY, revision A does not stand"
    (said,) = [f for f in made.findings if f.key == "order.still_out"]
    assert said.what == (f"Nothing stands as sent, and {one.supplier} still has revision A of "
                         "Mar 4, 2027.")
    noted = ("Noted at the step back: “they cannot ship”. Unless that says that they know, tell "
             "them that {} does not stand")
    assert noted.format("revision A") in said.do
    assert still_out_words(back).endswith(f"{noted.format('it')}.")
    assert still_out_words(stepped_back(job, LATER)).endswith(
        "Tell them that it does not stand, if nobody has.")
    order = flat(render("order", made, "text"))
    assert "revision B" in order
    assert "Replaces revision A of Mar 4, 2027. Nothing on it changed." in order
    assert order.count("Mar 4, 2027") == 1
    assert file_stem(plan(back), "order").endswith("-draft")
    assert "revision A, which does not stand any more" in flat(render("run", made, "text"))
    changes = flat(to_plain(changes_sheet(made), 80))
    assert f"Nothing stands as sent: {one.supplier} still has revision A of Mar 4, 2027." in changes
    assert "back to not sent" in changes
    out = plan(stepped(back, OrderState.OUT, LATER))
    assert state_of(out).startswith("READY, revision A does not stand, OUT FOR")
    again = plan(send(back, LATER))
    assert state_of(again) == "ORDERED Mar 8, 2027, revision B"
    assert not [f for f in again.findings if f.key == "order.still_out"]
    assert "does not stand" not in render("run", again, "text")


def test_what_a_revision_changed_of_the_one_before_is_said_after_it_was_sent() -> None:
    job = send(barn(), DAY)
    assert last_changed(plan(job)) is None
    again = send(give(job, "metal.back_coat", "white"), LATER)
    text = flat(to_plain(changes_sheet(plan(again)), 80))
    assert (text.index("Since revision B, sent Mar 8, 2027") < text.index("Nothing changed.")
            < text.index("What revision B changed"))
    made = last_changed(plan(again))
    assert made is not None
    assert [(one.label, one.now) for one in made.for_supplier] == [("Back coat", "white")]
    assert "What revision B changed of revision A, sent Mar 4, 2027" in text
    # Whatever has changed since stands apart from it.
    third = plan(give(again, "metal.back_coat", "gray"))
    text = flat(to_plain(changes_sheet(third), 80))
    assert text.index("white") < text.index("gray") < text.index("What revision B changed")


PAGE = render("order", plan(to_send(barn(), DAY)), "html")
"""The page that is printed on that day."""
KEYS = st.sampled_from(sorted(key for key, one in ANSWERS.items() if one.needed))


@settings(max_examples=draws(15))
@given(st.lists(KEYS, min_size=1, max_size=4))
def test_it_opens_byte_for_byte_the_same_after_any_change(keys: list[str]) -> None:
    job = send(barn(), DAY)
    (one,) = job.life.sent
    for key in keys:
        job = clear(job, key)
        job = read_model(to_text(job), Job, "here")
        plan(job)
    assert job.life.sent == (one,)
    assert job.life.sent[0].sheet.encode() == one.sheet.encode()
    assert job.life.sent[0].page.encode() == PAGE.encode()
    assert to_text(job_sent(job.life.sent[0])) == one.job


def test_changes_answer_by_answer_and_figure_by_figure() -> None:
    job = send(barn(), DAY)
    found = changes_since(plan(job))
    assert found is not None
    assert found.is_empty
    job = give(job, "coils.spare", 0.05)
    planes = dataclasses.replace(job.roof.planes[0], eave=510.0), *job.roof.planes[1:]
    job = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))
    # The weight that somebody weighed was of other coils.
    first = "CHANGED, 1 to settle before revision B: ORDERED Mar 4, 2027, revision A"
    assert state_of(plan(job)) == first
    assert first in flat(render("summary", plan(job), "text"))
    # The supplier has revision A: what came is not held to a change that nobody sent.
    warning = "Held to revision A, sent Mar 4, 2027; changes since are not with the supplier."
    assert warning in render("receiving", plan(job), "text", 200)
    assert warning not in render("receiving", plan(send(barn(), DAY)), "text", 200)
    came = plan(stepped(job, OrderState.DELIVERED, LATER))
    assert state_of(came) == "changed since revision A: DELIVERED Mar 8, 2027"
    # After the run it is said as well: what the record says was run is not what is ordered here.
    coded = give(send(barn(), DAY), "metal.color_code", "PB-9 (invented)")
    for made, says in ((coded, "changed since revision A: "), (send(barn(), DAY), "")):
        run = stepped(stepped(made, OrderState.DELIVERED, LATER), OrderState.RUN, LATER)
        assert state_of(plan(run)) == f"{says}RUN Mar 8, 2027"
    found = changes_since(plan(job))
    assert found is not None
    assert [(c.label, c.before, c.now) for c in found.answers] == [
        ("Spare", "3 %", "5 %"), ("North side: eave", "42 ft", "42 ft 6 in")]
    (coil,) = found.coils
    assert (coil.label, coil.before) == (
        "Coil 1", "1 × 1,335 ft 8 in, 2,250 lb, min 1,202 ft 1 in, max 2,475 lb, max OD 32 in")
    assert coil.now != coil.before
    assert found.figures[0].key.startswith("coil."), "what is bought stands first"
    sizes = [(c.before, c.now) for c in found.figures if " sq ft" in c.now]
    assert len(sizes) == len(set(sizes)), "one size under several names is said once"
    figures = {c.key: (c.before, c.now) for c in found.figures}
    assert figures["coil.mass_ordered"][0] == "2,250 lb"
    # As the order itself reads it: rounded up.
    assert figures["coil.length_ordered"][0] == "1,335 ft 8 in"
    assert ("1,512 sq ft", "1,521 sq ft") in figures.values()
    assert "roof.slope_length" not in figures
    text = render("changes", plan(job), "text")
    at = [text.index(words) for words in (
        "for the supplier", "1 × 1,335 ft 8 in", "Behind it, on our side", "North side: eave",
        "42 ft 6 in", "Length to order")]
    assert at == sorted(at)


def test_what_the_order_says_itself_is_said_once_and_first() -> None:
    job = give(send(barn(), DAY), "metal.back_coat", "wash coat, white (invented)")
    found = changes_since(plan(job))
    assert found is not None
    assert [(c.label, c.before, c.now) for c in found.for_supplier] == [
        ("Back coat", "wash coat, light gray (invented)", "wash coat, white (invented)")]
    assert found.behind == ""
    assert "on our side" not in render("changes", plan(job), "text")
    # What no paper for a supplier bears is no change for one.
    job = give(send(barn(), DAY), "job.client", "Somebody Else (invented)")
    found = changes_since(plan(job))
    assert found is not None
    assert (found.for_supplier, found.behind) == ((), "1 answer")
    assert "The order tells the supplier what it told." in render("changes", plan(job), "text")


def other_than(value: object) -> object:
    """A value of the same kind that is not this one; None where no other is at hand."""
    if isinstance(value, enum.Enum):
        return next((one for one in type(value) if one is not value), None)
    if isinstance(value, datetime.date):
        return value + datetime.timedelta(days=3)
    if isinstance(value, str):
        return f"{value} and more"
    return value + 1 if isinstance(value, int) else value * 1.02 if isinstance(value, float) else (
        None)


def test_an_order_is_changed_exactly_where_it_tells_its_supplier_something_else() -> None:
    """Each answer by itself, and the head: what is printed decides, and all say the same."""
    job = send(barn(), DAY)
    made = plan(job)
    heads = [dataclasses.replace(job, order=dataclasses.replace(job.order, **{name: "Z-7"}))
             for name in ("number", "supplier", "terms", "hours", "freight", "reference")]
    answers = [give(job, key, new) for key, one in ANSWERS.items() if key != "job.units"
               and one.value(job) is not None and (new := other_than(one.value(job))) is not None]
    seen = {True: 0, False: 0}
    for changed in (*heads, *answers):
        now = plan(changed)
        otherwise = printed(now) != printed(made)
        if changed.order.supplier == "Z-7":
            continue  # no change for anybody, but another's order: see below
        found = changes_since(now)
        assert found is not None
        state = state_of(now)
        assert state.startswith("CHANGED, ") is otherwise, found
        assert bool(found.for_supplier) is otherwise
        assert (awaits_revision(now), is_as_sent(now)) == (
            otherwise, not otherwise and now.ready)
        assert state.endswith("ORDERED Mar 4, 2027, revision A")
        assert ("revision B" in order_sheet(now).title) is otherwise
        if not otherwise and now.ready:
            assert render("order", now, "html") == PAGE
        seen[otherwise] += 1
    assert min(seen.values()) > 20, seen


def printed(made: Plan) -> str:
    """All that an order says."""
    return to_plain(Sheet("", order_body(made)), 80)


def test_a_change_that_reaches_no_line_of_the_order_sends_nobody_a_revision() -> None:
    """A new price, and a supplier who ships lighter coils than these are not: 2,250 lb."""
    job = send(barn(), DAY)
    for key, value in (("coils.supplier_heaviest", 2600.0), ("coils.price", 2.4)):
        # The weight that was weighed is that of the same coils yet.
        now = plan(confirm(give(job, key, value), "haul.tongue_weight"))
        found = changes_since(now)
        assert found is not None
        assert found.answers
        assert found.for_supplier == ()
        assert state_of(now) == "ORDERED Mar 4, 2027, revision A"
        assert "CHANGED" not in "".join(render(kind, now, "text") for kind in (
            "summary", "changes", "run", "haul", "order"))
        assert file_stem(now, "order").endswith("-a")
        assert "changes since are not with the supplier" not in baseline_words(now)
        assert summary_data(now)["life"]["changed_since_sent"] is False


def test_what_the_supplier_writes_back_is_of_the_revision_and_waited_for() -> None:
    job = send(barn(), DAY)
    assert confirmation_words(barn()) == ""
    waits = "Not confirmed yet: revision A, by Birch (invented)."
    assert waits in flat(to_plain(changes_sheet(plan(job)), 80))
    back = Confirmed(date=LATER, number="T-88", ships=datetime.date(2027, 4, 1))
    said = with_confirmation(give(job, "job.needed_by", datetime.date(2027, 3, 30)), back)
    assert confirmation_words(said) == (
        "Revision A confirmed Mar 8, 2027, their number T-88, ships Apr 1, 2027. CARE: that is "
        "after the day it is needed, Mar 30, 2027.")
    assert read_model(to_text(said), Job, "here") == said
    assert summary_data(plan(said))["life"]["sent"][0]["confirmed"] == {
        "date": "2027-03-08", "number": "T-88", "ships": "2027-04-01"}
    assert state_of(plan(with_confirmation(job, back))) == state_of(plan(job))
    # Of one day it was confirmed before it came.
    came = stepped(said, OrderState.DELIVERED, LATER)
    assert [what for _, what, _ in life_lines(came)] == ["ordered", "confirmed", "delivered"]
    # Nor is one confirmed that went a step back.
    assert [what for _, what, _ in life_lines(stepped_back(said, LATER))] == [
        "ordered", "confirmed", "back to not sent"]
    # Another revision is another paper to be written back on.
    assert confirmation_words(send(said, LATER)).startswith("Not confirmed yet")
    came = stepped(job, OrderState.DELIVERED, LATER)
    assert confirmation_words(came) == ""
    for wrong, words in ((came, "no order"), (barn(), "no order")):
        with pytest.raises(CannotStep, match=words):
            with_confirmation(wrong, back)
    with pytest.raises(CannotStep, match="It ships on Mar 1, 2027, which is before it was sent"):
        with_confirmation(job, dataclasses.replace(back, ships=datetime.date(2027, 3, 1)))


def test_a_revision_that_cannot_be_sent_yet_says_what_to_settle_first() -> None:
    job = give(send(barn(), DAY), "coils.spare", 0.05)
    assert state_of(plan(job)) == (
        "CHANGED, 1 to settle before revision B: ORDERED Mar 4, 2027, revision A")
    assert state_of(plan(give(job, "metal.thickness", 0.04))) == (
        "CHANGED, 2 stops, 2 to settle before revision B: ORDERED Mar 4, 2027, revision A")
    assert state_of(plan(confirm(job, "haul.tongue_weight"))) == (
        "CHANGED, send revision B: ORDERED Mar 4, 2027, revision A")


def test_of_each_coil_a_revision_says_what_it_is_by_the_number_on_its_tag() -> None:
    def said(before: dict[int, str], now: dict[int, str]) -> list[tuple[str, str, str]]:
        return [(c.label, c.before, c.now) for c in coil_changes(before, now)]

    short = {1: "600 ft", 2: "900 ft", 3: "900 ft"}
    assert not said(short, short)
    # The same coils: who has one of them on a skid knows that its tag changes.
    assert said(short, {1: "900 ft", 2: "900 ft", 3: "600 ft"}) == [
        ("Tag number of 1 × 600 ft", "1", "3"), ("Tag number of 2 × 900 ft", "2–3", "1–2")]
    assert said(short, {**short, 4: "300 ft"}) == [("Coil 4", "not ordered", "1 × 300 ft")]
    assert said(short, {2: "900 ft", 3: "900 ft"}) == [
        ("Coil 1", "1 × 600 ft", "not ordered any more")]
    # One became three, three became four, four became two: of equal and of other lengths.
    three = {1: "445 ft", 2: "466 ft", 3: "445 ft"}
    assert said({1: "1,335 ft"}, three) == [
        ("Coil 1", "1 × 1,335 ft", "1 × 445 ft"), ("Coil 2", "not ordered", "1 × 466 ft"),
        ("Coil 3", "not ordered", "1 × 445 ft")]
    four = dict.fromkeys(range(1, 5), "342 ft")
    assert said(three, four) == [
        ("Coils 1, 3", "2 × 445 ft", "2 × 342 ft"), ("Coil 2", "1 × 466 ft", "1 × 342 ft"),
        ("Coil 4", "not ordered", "1 × 342 ft")]
    assert said(four, dict.fromkeys((1, 2), "673 ft")) == [
        ("Coils 1–2", "2 × 342 ft", "2 × 673 ft"),
        ("Coils 3–4", "2 × 342 ft", "not ordered any more")]
    # Of four alike two are longer now.
    assert said(four, {**four, 2: "700 ft", 4: "700 ft"}) == [
        ("Coils 2, 4", "2 × 342 ft", "2 × 700 ft")]


def test_a_row_that_was_moved_is_not_one_that_was_changed() -> None:
    job = send(barn(), DAY)
    first, second = job.roof.planes
    moved = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=(second, first)))
    found = changes_since(plan(moved))
    assert found is not None
    assert (found.coils, found.figures) == ((), ())
    assert [(c.label, c.now) for c in found.answers] == [("Planes", "in another order")]
    longer = dataclasses.replace(second, eave=510.0)
    moved = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=(longer, first)))
    assert [(c.label, c.before, c.now) for c in answer_changes(job, moved)] == [
        (f"{second.name}: eave", "42 ft", "42 ft 6 in")]
    gone = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=(second,)))
    assert [(c.label, c.now) for c in answer_changes(job, gone)] == [(first.name, "taken out")]


def test_a_revision_of_more_coils_says_what_stands_in_the_place_of_what() -> None:
    """Coil 1 had read as canceled, and others as added."""
    job = give(send(barn(), DAY), "coils.supplier_heaviest", 900.0)
    sheet = flat(render("order", plan(job), "text", 100))
    assert re.search(r"Changed: - coil 1: 1 × 1,335 ft 8 in, 2,250 lb, min [^→]* → "
                     r"1 × 445 ft 9 in, 751 lb, [^→]* - coil 2: not ordered → 1 × 466 ft 5 in, "
                     r"[^→]* - coil 3: not ordered → 1 × 445 ft 9 in, [^→]* - Total [^-]*"
                     r"The coils to make are those listed below, and no others. METAL", sheet)
    # A size that is not worked out any more is not one of nothing.
    found = changes_since(plan(give(job, "coils.spare", 0.05)))
    assert found is not None
    assert "none" not in [text for one in found.figures for text in (one.before, one.now)]


def test_revision_b_lists_what_changed_and_nothing_private() -> None:
    job = give(send(barn(), DAY), "metal.back_coat", "wash coat, white (invented)")
    unsent = render("order", plan(job), "text", 100)
    assert "Replaces revision A of Mar 4, 2027. Changed:" in flat(unsent)
    job = send(give(job, "job.client", "someone else"), LATER)
    sheet = job.life.sent[1].sheet
    assert [one.revision for one in job.life.sent] == ["A", "B"]
    assert "Replaces revision A of Mar 4, 2027. Changed:" in flat(sheet)
    assert "wash coat, light gray (invented) → wash coat, white (invented)" in " ".join(
        sheet.split())
    assert "someone else" not in sheet
    # What changed is one line, and nothing else.
    assert sheet.count("→") == 1
    assert "Replaces" not in job.life.sent[0].sheet
    assert state_of(plan(job)) == "ORDERED Mar 8, 2027, revision B"


def test_what_is_printed_otherwise_does_not_bear_the_name_of_what_was_sent() -> None:
    sent = send(barn(), DAY)
    name = file_stem(plan(sent), "order")
    assert name.endswith("-a")
    other = dataclasses.replace(
        sent, order=dataclasses.replace(sent.order, supplier="Tern Hill (invented)"))
    metric = dataclasses.replace(sent, units=System.METRIC)
    # The order is the same in other units; its day is written as it is there.
    assert state_of(plan(sent)) == "ORDERED Mar 4, 2027, revision A"
    assert state_of(plan(metric)) == "ORDERED 4 Mar 2027, revision A"
    for job in (other, metric):
        assert file_stem(plan(job), "order").endswith("-draft")
    renumbered = dataclasses.replace(
        sent, order=dataclasses.replace(sent.order, number="D-1042"))
    said = flat(render("order", plan(renumbered), "text", 100))
    assert ("Replaces order D-1041, revision A of Mar 4, 2027. Changed: - Order number: D-1041 → "
            "D-1042") in said


def test_what_is_kept_of_a_first_order_elsewhere_on_the_same_day_is_the_page_that_went() -> None:
    """Both are an A of one day: what was kept had room to write the date in, the page had it."""
    job = send(barn(all_in("Tern Hill (invented)", "190/cwt")), DAY)
    moved = dataclasses.replace(
        award(plan(job), 1), questions=job.questions, standing=job.standing)
    moved = with_cancellation(moved, Canceled(date=DAY))
    moved = dataclasses.replace(
        moved, order=dataclasses.replace(moved.order, number="D-1050"))
    assert "Date:" not in flat(render("order", plan(moved), "text")), "it did not go out yet"
    again = send(moved, DAY)
    sent = again.life.sent[-1]
    assert (sent.revision, sent.supplier) == ("A", "Tern Hill (invented)")
    assert "Date Mar 4, 2027" in flat(sent.sheet)
    assert sent.page == render("order", plan(again), "html")
    # Where no supplier is named all that was sent is of one order: two of one letter, told apart.
    nobody = dataclasses.replace(again, order=dataclasses.replace(again.order, supplier=""))
    assert ("What revision A of order D-1050 changed of revision A of order D-1041, sent Mar 4, "
            "2027") in flat(to_plain(changes_sheet(plan(nobody)), 100))


@pytest.mark.parametrize("step_back", [False, True])
def test_an_order_that_moves_to_another_supplier_is_canceled_first_and_a_first_order_there(
    step_back: bool
) -> None:
    job = send(send(barn(all_in("Tern Hill (invented)", "190/cwt")), DAY), LATER)
    bought = dataclasses.replace(job, quotes=dataclasses.replace(job.quotes, received=(
        *job.quotes.received, all_in("Birch (invented)", "180/cwt", awarded=True))))
    if step_back:
        job = stepped_back(job, LATER)
    moved = award(plan(job), 1)
    made = plan(moved)
    words = ("Revision B of order D-1041 stands with Birch (invented): cancel it there in writing "
             "before this goes to Tern Hill (invented).")
    (said,) = [one for one in made.findings if one.key.startswith("order.")]
    assert (said.what, said.level) == (words, Level.STOP)
    stands = "revision B stands with Birch (invented)"
    # What the first supplier's word made sure is a guess of the second.
    assert re.match(
        rf"DRAFT, 1 stop, \d+ to settle, {re.escape(stands)}" if step_back else
        rf"MOVED, {re.escape(stands)}, 1 stop, \d+ to settle: ORDERED Mar 8", state_of(made))
    assert withdrawn(moved).questions == job.questions, "with the first again they are settled"
    moved = dataclasses.replace(  # it was asked, and says the same
        moved, questions=job.questions, standing=job.standing)
    made = plan(moved)
    assert moved.order.number == ""
    assert words in flat(render("changes", made, "text"))
    assert changes_since(made) is None
    assert "revision A" in order_sheet(made).title
    if not step_back:
        assert award_sent(moved) == "", "nothing went to the one it is awarded to now"
        assert "by the quote of Birch (invented) the order went out" in award_sent(bought)
    with pytest.raises(CannotStep, match="no number"):
        send(moved, LATER)
    told = dataclasses.replace(moved, accepted={said.key: Acceptance(
        by="Ann", reason="canceled, and they wrote back", of=said.accept)})
    kept = dataclasses.replace(told, order=dataclasses.replace(told.order, number="D-1041"))
    with pytest.raises(CannotStep, match=r"D-1041 is the number of the order that Birch"):
        send(kept, LATER)
    told = dataclasses.replace(told, order=dataclasses.replace(told.order, number="D-1050"))
    with pytest.raises(CannotStep, match="1 stop"):
        send(dataclasses.replace(told, accepted={}), LATER)
    held = plan(dataclasses.replace(told, order=dataclasses.replace(told.order, buyer="")))
    assert state_of(held) == (
        "DRAFT, 1 to settle, AWARDED to Tern Hill (invented)" if step_back else
        "MOVED, 1 to settle before revision A to Tern Hill (invented): ORDERED Mar 8, 2027, "
        "revision B")
    for made in (held, plan(told)):
        assert "cancel it" not in flat(render("changes", made, "text"))
        assert "stands with" not in state_of(made)
    # Recorded in its life, with the day, it is canceled as well as where somebody says so.
    with pytest.raises(CannotStep, match=r"Mar 5, 2027, which is before it was sent, on Mar 8"):
        with_cancellation(moved, Canceled(date=datetime.date(2027, 3, 5)))
    off = with_cancellation(moved, Canceled(date=LATER, note="by e-mail"))
    off = read_model(to_text(off), Job, "there")
    assert not [one for one in plan(off).findings if one.key.startswith("order.")]
    with pytest.raises(CannotStep, match="No order stands"):
        with_cancellation(off, Canceled(date=LATER))
    assert summary_data(plan(off))["life"]["sent"][-1]["canceled"] == {
        "date": "2027-03-08", "note": "by e-mail"}
    listed = flat(render("changes", plan(off), "text", 100))
    assert "Mar 8, 2027 canceled revision B with Birch (invented): by e-mail" in listed
    assert "cancel it" not in listed
    assert tells_otherwise(plan(dataclasses.replace(off, order=job.order))), (
        "what is canceled is sent anew")
    anew = dataclasses.replace(off, order=dataclasses.replace(job.order, revision="C"))
    assert "Ordered anew: revision B of Mar 8, 2027 was canceled on Mar 8, 2027" in flat(
        render("order", plan(anew), "text", 100))
    if not step_back:
        assert state_of(plan(told)).startswith("MOVED, send revision A to Tern Hill (invented): OR")
    again = send(told, LATER)
    assert state_of(plan(again)) == "ORDERED Mar 8, 2027, revision A"
    assert last_changed(plan(again)) is None
    # What another supplier had is not theirs to read, nor that there was one.
    sheet = again.life.sent[-1].sheet
    assert not [word for word in ("Birch", "D-1041", "Replaces", "cancel", "Ann") if word in sheet]
    # Both have a revision A: it is the latest, and by its number any one.
    assert sent_names(again) == ("D-1041-A", "D-1041-B", "D-1050-A")
    for name, at in (("a", 2), ("D-1041-A", 0), ("d-1041  a", 0), ("D-1050 A", 2), ("B", 1)):
        assert sent_called(again, name) is again.life.sent[at]
    assert sent_called(again, "D-1050-B") is None
    assert baseline_words(plan(again)) == (
        "Held to revision A of order D-1050, sent Mar 8, 2027.")
    listed = flat(render("changes", plan(again), "text", 100))
    for line in ("revision A of order D-1041 to Birch (invented)", "revision A of order D-1050 to "
                 "Tern Hill (invented)", "Since revision A of order D-1050, sent Mar 8, 2027"):
        assert line in listed
    assert step_notes(moved)[-2] == moved.life.steps[-2].note, "one number needs no telling apart"
    # Back again it is the old order, with its number and the next of its revisions.
    back = award(plan(dataclasses.replace(again, quotes=dataclasses.replace(
        again.quotes, received=(*again.quotes.received, all_in("Birch (invented)", "180/cwt")),
    ))), 2)
    assert (back.order.number, next_revision(back)) == ("D-1041", "C")
    assert "Replaces revision B of Mar 8, 2027." in flat(render("order", plan(back), "text"))


def test_of_a_coil_that_changed_a_revision_says_what_changed() -> None:
    """Panels of 13,888 in: (13,888 × 1.05 + 120) ÷ 0.9 = 16,336 in; with 3 %, 16,027 in."""
    sheet = render("order", plan(give(send(barn(), DAY), "coils.spare", 0.05)), "text", 100)
    line, total = [row for row in " ".join(sheet.split()).split("- ") if "→" in row]
    assert total.startswith("Total of these coils: 1 coil, 1,335 ft 8 in, 2,250 lb → 1 coil, 1,361 "
                            "ft 4 in, ")
    assert line.startswith("coil 1: length of each 1,335 ft 8 in → 1,361 ft 4 in, weight ")
    assert "count" not in line


def test_the_whole_story_is_in_the_file() -> None:
    job = stepped(barn(), OrderState.OUT, datetime.date(2027, 3, 1))
    job = send(job, DAY)
    job = send(give(job, "metal.back_coat", "wash coat, white (invented)"), LATER)
    job = stepped(job, OrderState.DELIVERED, datetime.date(2027, 4, 2), "1 coil, held")
    job = stepped(job, OrderState.RUN, datetime.date(2027, 4, 9))
    again = read_model(to_text(job), Job, "here")
    assert again == job
    text = render("changes", plan(again), "text")
    at = [text.index(words) for words in (
        "RUN Apr 9, 2027", "out for quotes", "revision A", "revision B", "1 coil, held")]
    assert at == sorted(at)


def test_what_was_spoiled_by_hand_is_said_and_stops_nothing() -> None:
    job = send(barn(), DAY)
    bad = dataclasses.replace(job.life.sent[0], job="{}")
    job = dataclasses.replace(job, life=dataclasses.replace(job.life, sent=(bad,)))
    assert "as it was sent" in render("changes", plan(job), "text")
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, revision="B"))
    assert "as it was sent" in render("order", plan(job), "text")


@pytest.mark.parametrize("packed", [
    "no page at all", "\x00", pack(PAGE)[:-9], pack("x" * (MOST_PAGE + 1)),
])
def test_a_page_that_was_spoiled_or_is_too_large_is_refused(packed: str) -> None:
    one = dataclasses.replace(send(barn(), DAY).life.sent[0], packed=packed)
    with pytest.raises(ValueError, match="spoiled in the file"):
        _ = one.page


def test_an_order_says_draft_by_its_files_name_until_it_can_go_out_or_is_sent_again() -> None:
    def name(job: Job) -> str:
        return file_stem(plan(job), "order")

    sent = send(barn(), DAY)
    assert plan(barn()).ready
    assert name(barn()) == "order-d-1041"
    assert name(do_not_know(barn(), "metal.thickness")) == "order-d-1041-draft"
    assert name(sent) == "order-d-1041-a"
    changed = give(sent, "metal.back_coat", "white")
    assert name(changed) == "order-d-1041-draft", "not the name of what was sent"
    assert name(send(changed, DAY)) == "order-d-1041-b"


def test_of_an_order_that_is_not_sent_one_page_lies_there_and_none_once_it_is(
    tmp_path: Path
) -> None:
    bare = dataclasses.replace(barn(), order=dataclasses.replace(barn().order, number=""))
    other = dataclasses.replace(barn(), order=dataclasses.replace(barn().order, number="D-7"))
    (mine := tmp_path / "order-d-1041-draft-mine.html").write_text("notes")

    def saved(job: Job) -> tuple[set[str], str]:
        """The stems of all orders that lie there then, and what is said."""
        made = plan(job)
        paths = save_sheets(made, tmp_path, ("order",))
        said = saved_words(paths, tmp_path, made, remove_unsent(made, tmp_path))
        assert remove_unsent(made, tmp_path) == ()
        assert {*paths} <= {*tmp_path.iterdir()}
        return {path.stem for path in tmp_path.iterdir() if path != mine}, said

    stems, said = saved(do_not_know(bare, "metal.thickness"))
    assert [re.fullmatch("order-[0-9a-f]{4}-draft", stem) is not None for stem in stems] == [True]
    assert said.endswith("The order's files say draft until it is ready.")
    stems, said = saved(barn())
    assert stems == {"order-d-1041"}
    assert said.endswith("The order is ready, so its earlier files are gone.")
    stems, said = saved(do_not_know(barn(), "metal.thickness"))
    assert stems == {"order-d-1041-draft"}
    assert said.endswith("The order is a draft, so its earlier files are gone.")
    assert saved(other)[0] == {"order-d-1041-draft", "order-d-7"}, "that is another order"
    saved(barn())
    by_hand = dataclasses.replace(barn(), order=dataclasses.replace(barn().order, revision="2"))
    assert saved(by_hand)[0] == {"order-d-1041", "order-d-1041-2", "order-d-7"}, "one may be out"
    for page in tmp_path.glob("order-d-1041-2.*"):
        page.unlink()
    stems, said = saved(send(barn(), DAY))
    assert stems == {"order-d-1041-a", "order-d-7"}
    assert said.endswith("The order is sent, so its earlier files are gone.")
    # Changed since, it is a draft beside what was sent, which stays; so with each revision.
    changed = give(send(barn(), DAY), "metal.back_coat", "white")
    stems, said = saved(changed)
    assert stems == {"order-d-1041-a", "order-d-1041-draft", "order-d-7"}
    assert said.endswith("The order's files say draft until it is sent.")
    assert saved(send(changed, DAY))[0] == {"order-d-1041-a", "order-d-1041-b", "order-d-7"}
    assert mine.read_text() == "notes"


def test_what_was_sent_is_written_as_files_byte_for_byte_and_over_nothing(tmp_path: Path) -> None:
    job = send(barn(), DAY)
    (one,) = job.life.sent
    saved = save_sent(one, job, tmp_path)
    assert [path.name for path in saved] == [
        f"order-d-1041-a-as-sent.{end}" for end in ("txt", "html")], "its job names the client"
    assert [path.read_bytes() for path in saved] == [
        text.encode() for text in (one.sheet, PAGE)]
    assert save_sent(one, job, tmp_path) == saved
    saved[0].write_text("mine", "utf-8")
    with pytest.raises(StoreError, match="says something else"):
        save_sent(one, job, tmp_path)
    assert saved[0].read_text("utf-8") == "mine"
