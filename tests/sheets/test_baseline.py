"""Coils that arrive are held to the order as it was sent last, not to what was changed since."""

from __future__ import annotations

import dataclasses
import datetime

import pytest

from coilwright.job.answers import Value
from coilwright.job.edit import confirm, give
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.receiving import Arrival, Decision, Fault
from coilwright.job.sending import stepped
from coilwright.plan import plan
from coilwright.plan.coils.after_run import lists_cut
from coilwright.plan.coils.run import run_of
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import ArrivalReport, Verdict
from coilwright.plan.result import Plan
from coilwright.sheets import render
from coilwright.sheets.baseline import baseline, baseline_words
from coilwright.sheets.blocks import Banner
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.haul import haul_sheet
from coilwright.sheets.sending import send
from coilwright.sheets.state import hold_words, state_of, unwritten_words
from coilwright.units import System
from tests.cases import set_answers
from tests.plan.quotes.five import barn
from tests.plan.receiving.arrivals import arrival, with_arrived

DAY, LATER = datetime.date(2027, 3, 4), datetime.date(2027, 3, 8)


def sent(*arrived: Arrival) -> Job:
    """The barn's order sent, with these coils arrived."""
    return with_arrived(send(barn(), DAY), *arrived)


def flat(text: str) -> str:
    """The words without the bar beside them and without line ends."""
    return " ".join(text.replace("│", " ").split())


def said(found: ArrivalReport) -> tuple[object, ...]:
    """All that a report says: verdict, what speaks against it, sizes with their limits."""
    return (found.verdict, found.missing, [(f.level, f.what) for f in found.findings],
            [(s.key, s.words, s.least and s.least.value, s.most and s.most.value)
             for s in found.sizes],
            [(w.key, w.enough, w.best.value) for w in found.ways], found.need and found.need.value)


def report(job: Job) -> ArrivalReport:
    (found,) = receive(baseline(plan(job)))
    return found


GOOD = arrival(coil=1, color=barn().metal.color or "", thickness=(0.0253, 0.0254, 0.0253))
"""As ordered, measured all over."""


@pytest.mark.parametrize(("key", "value"), [
    ("metal.thickness", 0.0336), ("metal.color", "Barn Red"), ("panel.coverage", 12.0),
    ("coils.spare", 0.3), ("coils.inside_diameter", 16.0), ("coils.width_tolerance", 0.01),
    ("machine.thread_up", 200.0),
])
def test_what_is_changed_after_sending_changes_no_verdict(key: str, value: Value) -> None:
    job = sent(GOOD)
    changed = give(job, key, value)
    assert changed != job
    assert said(report(job))[0] is Verdict.ACCEPT
    assert said(report(changed)) == said(report(job))


def longer(job: Job) -> Job:
    """The job with longer eaves: more panels, and more metal."""
    planes = tuple(dataclasses.replace(one, eave=600.0) for one in job.roof.planes)
    return dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))


def test_a_larger_roof_makes_no_coil_short() -> None:
    job = sent(GOOD)
    assert said(report(longer(job))) == said(report(job))
    (found,) = receive(plan(longer(job)))
    assert found.verdict is Verdict.HOLD, "held to the larger roof it is too short"


def test_it_would_be_held_to_the_changed_order() -> None:
    """The test above can fail: held to the present answers the same coil is another."""
    changed = give(sent(GOOD), "metal.color", "Barn Red")
    (found,) = receive(plan(changed))
    assert found.verdict is Verdict.HOLD


def test_a_revision_that_is_sent_is_what_coils_are_held_to() -> None:
    changed = give(sent(dataclasses.replace(GOOD, width=20.95)), "coils.width_tolerance", 0.01)
    again = send(changed, LATER)
    assert report(changed).verdict is Verdict.ACCEPT
    assert report(again).verdict is Verdict.HOLD
    assert baseline_words(plan(changed)) == (
        "Held to revision A, sent Mar 4, 2027; changes since are not with the supplier.")
    assert baseline_words(plan(again)) == "Held to revision B, sent Mar 8, 2027."


def test_what_carries_a_coil_is_as_it_is_now() -> None:
    """A plate that was read wrong holds a coil, whatever was ordered."""
    job = sent(GOOD)
    assert report(job).verdict is Verdict.ACCEPT
    found = report(give(job, "machine.arbor_load", 900.0))
    assert found.verdict is Verdict.HOLD
    assert any("one arbor carries 900 lb" in f.what for f in found.findings)


def test_a_coil_over_what_the_order_says_is_looked_at_though_a_larger_rack_takes_it() -> None:
    job = sent(dataclasses.replace(GOOD, outside=40.0))
    assert report(job).verdict is Verdict.HOLD
    larger = report(give(job, "machine.rack_diameter", 48.0))
    assert larger.verdict is Verdict.ACCEPT
    assert "It is 40 in outside; the order says" in next(
        f.what for f in larger.findings if f.key.endswith(".outside"))


def test_a_coil_on_hold_stands_first_in_the_state_and_on_the_summary() -> None:
    wet = dataclasses.replace(GOOD, faults=(Fault.WET,))
    job = sent(wet)
    assert state_of(plan(job)) == "1 coil on HOLD: ORDERED Mar 4, 2027, revision A"
    came = plan(stepped(job, OrderState.DELIVERED, LATER))
    assert state_of(came) == "1 coil on HOLD: DELIVERED Mar 8, 2027"
    summary = flat(render("summary", came, "text"))
    assert summary.index("On HOLD in Receiving: ") < summary.index("To buy")
    assert "lot L-7 (Seen on it: wet or stained). Say there" in hold_words(came)
    # Coils are told as the order numbers them, whichever came first.
    other = dataclasses.replace(wet, tag="R-2", coil=2)
    said = hold_words(plan(dataclasses.replace(job, arrived=(other, wet))))
    assert 0 < said.index("coil 1 of the order, tag R-1") < said.index("tag R-2")
    # One that was sent back is awaited, and the state says so wherever it stands.
    back = dataclasses.replace(wet, decision=Decision.SENT_BACK, decided_by="Ann", reason="wet")
    assert state_of(plan(stepped(sent(back), OrderState.DELIVERED, LATER))) == (
        "1 coil sent back, 0 of 1 coil stay: DELIVERED Mar 8, 2027")
    both = dataclasses.replace(job, arrived=(back, dataclasses.replace(wet, tag="R-2")))
    assert state_of(plan(both)).startswith("1 coil on HOLD, 1 coil sent back: ORDERED ")
    nobody = plan(sent(dataclasses.replace(back, decision=Decision.REFUSED, decided_by="")))
    assert state_of(nobody).startswith("1 coil refused, who and why to write, 0 of 1 coil stay: ")
    assert unwritten_words(nobody).endswith("lot L-7: who decided it (refused).")
    assert summary_data(came)["state"] == state_of(came)
    # Where another came in its place, both are said: it is on the supplier's bill.
    instead = plan(dataclasses.replace(job, arrived=(back, dataclasses.replace(GOOD, tag="R-2"))))
    assert state_of(instead) == (
        "1 coil sent back, the coil ordered came, next delivered: ORDERED Mar 4, 2027, revision A")
    taken = dataclasses.replace(wet, decision=Decision.TAKEN, decided_by="Ann", reason="dried")
    assert state_of(plan(sent(taken))) == (
        "the coil came, next delivered: ORDERED Mar 4, 2027, revision A")
    assert "HOLD" not in flat(render("summary", plan(sent(taken)), "text"))
    dented = dataclasses.replace(taken, faults=(Fault.WET, Fault.DENT), stood=("fault_wet",))
    assert "lot L-7 (found since it was taken: Seen on it: dented or crushed). Say there" in (
        hold_words(plan(sent(dented))))


def test_the_run_reckons_with_what_was_sent() -> None:
    job = sent(GOOD)
    changed = longer(job)

    def lengths(made: Plan) -> list[tuple[str, float, float]]:
        return [(coil.key, coil.length.value, coil.used.value) for coil in run_of(made).coils]

    assert lengths(baseline(plan(changed))) == lengths(plan(job)) != lengths(plan(changed))
    # What is left after the run is reckoned by the lists of the run sheet, where its coils come.
    held, now = baseline(plan(changed)), plan(changed)
    assert lists_cut(held) is held.current
    assert [coil.left.value for coil in run_of(lists_cut(held), receive(held), held).coils] == [
        coil.left.value for coil in run_of(now, receive(held), held).coils]
    other = baseline(plan(give(sent_in_two(), "machine.arbor_load", 3000.0)))
    assert lists_cut(other) is other
    assert lists_cut(plan(job)).job == job


def test_the_run_sheet_says_which_roof_it_cuts_and_what_does_not_fit_the_coils_sent() -> None:
    """25 more panels' worth of eave: 76 panels of 217 in, 72 and 48 in are 16,612 in; the coil that
    was sent is 16,027.4 in long."""
    job = sent()
    as_sent = flat(render("run", plan(job), "text"))
    assert "Changed since" not in as_sent
    text = flat(render("run", plan(longer(job)), "text", 400))
    assert ("the lists below cut the roof as it is now, from the coils of revision A. Coil 1 is "
            "48 ft 8 5/8 in short of its list.") in text
    assert "A new coil: 1,335 ft 8 in as ordered, 1,202 ft 1 in at the shortest" in text
    assert "It weighs 2,250 lb as ordered" in text
    assert "It is 48 ft 8 5/8 in short of this list" in text
    narrow = flat(render("run", plan(give(job, "panel.coverage", 12.0)), "text", 400))
    assert ("The coils were ordered 21 in wide and the lists take 17 in: do not run them; coil 2 "
            "was not ordered: nothing comes for its list.") in narrow
    assert narrow.count("NOT ORDERED") == 1
    one_coil = give(sent_in_two(), "machine.arbor_load", 3000.0)
    fewer = flat(render("run", plan(one_coil), "text", 400))
    assert "coil 2 of the order: in no list." in fewer
    fits = flat(render("run", plan(give(job, "coils.spare", 0.02)), "text", 400))
    assert "Each list fits its coil, where that comes as long as it was ordered." in fits


def test_the_haul_card_says_which_coils_come_where_its_loads_are_of_others() -> None:
    """A smaller roof makes lighter coils on the card, while those of the order come."""
    job = sent()
    planes = tuple(dataclasses.replace(one, eave=200.0) for one in job.roof.planes)
    smaller = dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))
    lighter = plan(confirm(give(job, "coils.spare", 0.02), "haul.tongue_weight"))
    assert lighter.ready
    for made, is_draft in ((lighter, True), (plan(job), False)):
        (banner,) = (one for one in haul_sheet(made).blocks if isinstance(one, Banner))
        assert banner.draft is is_draft
    said = flat(render("haul", plan(smaller), "text", 400))
    assert ("Changed since revision A was sent: the loads are of the changed job. The coils that "
            "come are of revision A: 1 coil, max weight 2,475 lb, max OD 32 in. Hold those to the "
            "plates, and drive by nothing else.") in said
    assert "Changed since" not in flat(render("haul", plan(job), "text", 400))
    # What changes no coil of it changes nothing that is lifted.
    recolored = give(job, "metal.color", "Barn Red")
    assert "Changed since" not in flat(render("haul", plan(recolored), "text", 400))


def sent_in_two() -> Job:
    """The barn's order sent in two coils, for an arbor that carries less."""
    job = set_answers(barn(), {"machine.arbor_load": 1800.0, "haul.tongue_weight": 1450.0})
    return send(job, DAY)


def test_before_anything_is_sent_the_present_plan_is_meant() -> None:
    made = plan(with_arrived(barn(), GOOD))
    assert baseline(made) is made
    assert baseline_words(made) == ""
    assert "held_to" in summary_data(made)
    assert summary_data(made)["held_to"] is None


def test_what_is_not_on_file_is_said_and_the_present_order_stands_in() -> None:
    job = sent(GOOD)
    (one,) = job.life.sent
    bare = dataclasses.replace(job, life=dataclasses.replace(
        job.life, sent=(dataclasses.replace(one, job=""),)))
    made = plan(give(bare, "metal.color", "Barn Red"))
    assert baseline(made) is made
    assert receive(baseline(made))[0].verdict is Verdict.HOLD
    words = "Revision A as it was sent is not on file: held to the order as it is now."
    assert baseline_words(made) == words
    assert words in flat(render("receiving", made, "text"))
    assert summary_data(made)["held_to"]["on_file"] is False


def test_sheet_and_json_say_what_they_are_held_to() -> None:
    made = plan(give(sent(GOOD), "metal.color", "Barn Red"))
    words = "Held to revision A, sent Mar 4, 2027; changes since are not with the supplier."
    sheet = flat(render("receiving", made, "text"))
    assert words in sheet
    assert "1 to accept" in sheet
    assert "Barn Red" not in sheet
    data = summary_data(made)
    assert data["arrived"][0]["verdict"] == "accept"
    assert data["held_to"] == {
        "revision": "A", "sent": "2027-03-04", "on_file": True, "words": words}


def test_units_are_those_of_today() -> None:
    job = dataclasses.replace(sent(GOOD), units=System.METRIC)
    made = baseline(plan(job))
    assert made.job.units is System.METRIC
    assert report(job).verdict is Verdict.ACCEPT
