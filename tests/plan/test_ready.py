"""READY means it: thirty wrong jobs, each with what holds it, and the right one beside it."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable
from dataclasses import dataclass

import pytest

from coilwright.job.answers import ANSWERS
from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilOn
from coilwright.job.confirmations import carry_confirmations
from coilwright.job.copies import copied
from coilwright.job.edit import accept, confirm, do_not_know, give, give_text, head_value, withdraw
from coilwright.job.haul import HitchKind, LiftBy
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.job.metal import Finish, MetalName, ThicknessIs, Touching
from coilwright.job.requests import Request
from coilwright.job.roof import Plane
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import plan
from coilwright.plan.confirmed import why_lapsed
from coilwright.plan.questions import Status, reply, waive
from coilwright.plan.ready import ReasonKind, where_to
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.state import state_of
from coilwright.store import to_text
from coilwright.store.reader import read_model
from coilwright.store.shipped import demo_jobs
from coilwright.values.finding import Level
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers, small_gable, with_planes
from tests.plan.coils.stock import coil, with_coils
from tests.rules import for_each

STOP, ACCEPT, ASK, GUESS, QUESTION, HEAD, MISSING = ReasonKind
DAY = datetime.date
SIDE = Plane(name="Side", eave=42 * 12, slope_length=18 * 12, pitch=6.0, alike=2)


def having(**answers: object) -> Job:
    """The gable with answers given; a double underscore stands for the dot."""
    job = small_gable()
    for key, value in answers.items():
        job = give(job, key.replace("__", "."), value)  # type: ignore[arg-type]
    return job


def without(job: Job, key: str) -> Job:
    return dataclasses.replace(ANSWERS[key].put(job, None))


def marked(job: Job, key: str, standing: Standing) -> Job:
    return dataclasses.replace(job, standing={**job.standing, key: standing})


def typed(key: str, text: str) -> Job:
    job, error = give_text(small_gable(), key, text)
    assert error
    return job


def unasked(key: str) -> Job:
    """The gable with one question as if nobody had said anything to it."""
    job = small_gable()
    return dataclasses.replace(
        job, questions={k: v for k, v in job.questions.items() if k != key}
    )


def headed(**lines: str) -> Job:
    """The gable with lines at the head of its order."""
    job = small_gable()
    return dataclasses.replace(job, order=dataclasses.replace(job.order, **lines))  # type: ignore[arg-type]


def copper() -> Job:
    """The gable in 16 oz copper, three-quarter hard, its alloy not given."""
    job = unasked("supplier.grade")
    for key, value in {
        "metal.metal": MetalName.COPPER, "metal.coating": None, "metal.thickness_basis": None,
        "metal.thickness": 0.0216, "metal.temper": "H03", "metal.finish": Finish.BARE,
        "metal.color": None, "metal.color_confirmed": None, "metal.painted_side": None,
        "machine.thinnest": 0.0157, "machine.thickest": 0.0336,
    }.items():
        job = ANSWERS[key].put(job, value)
    return job


def taken_on(job: Job, key: str) -> Job:
    """The job with a finding accepted by name."""
    (found,) = (f for f in plan(job).findings if f.key == key)
    return accept(job, key, found.accept, "A. Demo (invented)", "we know the yard")


ENGINEERED: dict[str, object] = {
    "job__engineered": YesNo.YES, "panel__report": "DEMO-1 (invented)",
    "panel__report_widest": 16.0, "panel__report_thinnest": 0.0236,
    "panel__report_metal": small_gable().metal.metal,
}
TRAILER: dict[str, object] = {
    "machine__weight": 7400.0, "haul__rack_coils": 1, "haul__gear": 300.0,
    "haul__hitch": HitchKind.BALL, "haul__tongue_weight_rating": 1500.0,
    "haul__tongue_weight": 1400.0,
}

DECOILER: dict[str, object] = {
    "coils__coil_on": CoilOn.DECOILER, "machine__decoiler_load": 5000.0,
    "machine__decoiler_diameter": 40.0, "machine__decoiler_smallest_coil_id": 16.0,
    "machine__decoiler_largest_coil_id": 24.0,
}


@dataclass(frozen=True)
class Case:
    """A wrong job, the reason that holds it, and the right job beside it."""

    name: str
    wrong: Callable[[], Job]
    kind: ReasonKind
    key: str
    right: Callable[[], Job] = small_gable


CASES = (
    Case("coldest above hottest", lambda: having(job__coldest=160.0), STOP, "job.temperatures"),
    Case("coldest as hot as hottest", lambda: having(job__coldest=150.0), STOP,
         "job.temperatures", lambda: having(job__coldest=149.0)),
    Case("nobody asked for a permit", lambda: unasked("building_department.permit"), QUESTION,
         "building_department.permit"),
    Case("slitting not settled",
         lambda: reply(small_gable(), "supplier.slitting", "they think so", False)[0], QUESTION,
         "supplier.slitting", lambda: reply(small_gable(), "supplier.slitting", "yes")[0]),
    Case("lead time not asked", lambda: unasked("supplier.lead_time"), QUESTION,
         "supplier.lead_time",
         lambda: give(unasked("supplier.lead_time"), "coils.lead_time", 21)),
    Case("lead time a guess",
         lambda: give(unasked("supplier.lead_time"), "coils.lead_time", 21, Standing.GUESS),
         QUESTION, "supplier.lead_time",
         lambda: waive(give(unasked("supplier.lead_time"), "coils.lead_time", 21,
                            Standing.GUESS), "supplier.lead_time", "the coil is in stock")),
    Case("heaviest coil neither asked nor waived", lambda: unasked("supplier.heaviest_coil"),
         QUESTION, "supplier.heaviest_coil",
         lambda: give(unasked("supplier.heaviest_coil"), "coils.supplier_heaviest", 5000.0)),
    Case("slitting without a waiver", lambda: unasked("supplier.slitting"), QUESTION,
         "supplier.slitting",
         lambda: waive(unasked("supplier.slitting"), "supplier.slitting", "we slit it ourselves")),
    Case("slit edges are ordered and none is replied",
         lambda: reply(small_gable(), "supplier.slitting", "One edge is a mill edge")[0], QUESTION,
         "supplier.slitting",
         lambda: waive(reply(small_gable(), "supplier.slitting", "One edge is a mill edge")[0],
                       "supplier.slitting", "we slit it ourselves")),
    Case("a reply that is said to be against the order",
         lambda: reply(small_gable(), "supplier.slitting", "as it comes", agrees=YesNo.NO)[0],
         QUESTION, "supplier.slitting",
         lambda: reply(small_gable(), "supplier.slitting", "as it comes", agrees=YesNo.YES)[0]),
    Case("the designer never saw the profile",
         lambda: dataclasses.replace(having(**ENGINEERED), questions={
             k: v for k, v in small_gable().questions.items() if k != "designer.profile"}),
         QUESTION, "designer.profile", lambda: having(**ENGINEERED)),
    *(Case(f"{key} neither given nor left to the supplier", lambda key=key: unasked(key),  # type: ignore[misc]
           QUESTION, key) for key in (
        "supplier.grade", "supplier.thickness_is", "supplier.color_code", "supplier.back_coat",
        "supplier.film", "supplier.width_tolerance", "supplier.camber", "supplier.eye",
        "supplier.skid")),
    Case("a minimum without its tolerance", lambda: give(
        unasked("supplier.thickness_tolerance"), "metal.thickness_is", ThicknessIs.MINIMUM),
        QUESTION, "supplier.thickness_tolerance", lambda: give(give(
            unasked("supplier.thickness_tolerance"), "metal.thickness_is", ThicknessIs.MINIMUM),
            "metal.thickness_tolerance", 0.004)),
    Case("a grade given for another metal", lambda: give(give(
        unasked("supplier.grade"), "metal.grade", "50"), "metal.metal", MetalName.ALUMINUM),
        QUESTION, "supplier.grade",
        lambda: give(unasked("supplier.grade"), "metal.grade", "50")),
    Case("copper without its alloy", copper, QUESTION, "supplier.grade",
         lambda: give(copper(), "metal.grade", "C11000")),
    Case("nobody says who buys", lambda: headed(buyer=""), HEAD, "order.buyer"),
    Case("the date at the head cannot be read", lambda: dataclasses.replace(
        headed(), typed={"order.0.date": "next week"}), HEAD, "order.date"),
    Case("nobody says who carries it", lambda: headed(freight=""), HEAD, "order.freight"),
    Case("nowhere to ship it", lambda: headed(ship_to=""), HEAD, "order.ship_to",
         lambda: give(headed(ship_to=""), "job.site", "Demo Lane 3 (invented)")),
    Case("an answer stands on ask", lambda: marked(small_gable(), "coils.spare", Standing.ASK),
         ASK, "coils.spare"),
    Case("an answer nobody needs stands on ask",
         lambda: marked(having(coils__keep_length=60.0), "coils.keep_length", Standing.ASK), ASK,
         "coils.keep_length", lambda: having(coils__keep_length=60.0)),
    Case("a measured plane stands on ask",
         lambda: marked(small_gable(), "roof.planes.0", Standing.ASK), ASK, "roof.planes.0"),
    Case("a needed answer is not given", lambda: without(small_gable(), "panel.leg"), ASK,
         "panel.leg"),
    Case("an answer cannot be read", lambda: typed("panel.end_allowance", "a bit"), ASK,
         "panel.end_allowance"),
    Case("a guess that decides", lambda: guess(small_gable(), "panel.coverage"), GUESS,
         "panel.coverage", lambda: confirm(guess(small_gable(), "panel.coverage"),
                                           "panel.coverage")),
    Case("a plane without its pitch",
         lambda: with_planes(small_gable(), dataclasses.replace(SIDE, pitch=None)), STOP,
         "roof.pitch_unknown", lambda: with_planes(small_gable(), SIDE)),
    Case("one of two planes without its pitch",
         lambda: with_planes(small_gable(), SIDE, dataclasses.replace(SIDE, pitch=None)), STOP,
         "roof.pitch_unknown", lambda: with_planes(small_gable(), SIDE, SIDE)),
    Case("one of two planes without its slope",
         lambda: with_planes(small_gable(), SIDE, dataclasses.replace(SIDE, slope_length=None)),
         MISSING, "coil.mass_ordered", lambda: with_planes(small_gable(), SIDE, SIDE)),
    Case("no plane at all", lambda: with_planes(small_gable()), MISSING, "coil.mass_ordered"),
    Case("panels longer than anybody can turn", lambda: having(job__longest_handled=200.0), STOP,
         "job.panel_too_long", lambda: having(job__longest_handled=240.0)),
    Case("under the supplier's minimum", lambda: having(coils__minimum_order=4000.0), ACCEPT,
         "coils.minimum", lambda: taken_on(having(coils__minimum_order=4000.0), "coils.minimum")),
    Case("a minimum that was accepted for another order",
         lambda: give(taken_on(having(coils__minimum_order=4000.0), "coils.minimum"),
                      "coils.spare", 0.05),
         ACCEPT, "coils.minimum", lambda: having(coils__minimum_order=1000.0)),
    Case("the day needed is over", lambda: having(
        job__needed_by=DAY(2027, 5, 1), coils__order_date=DAY(2027, 5, 3)), ACCEPT, "coils.past",
        lambda: having(job__needed_by=DAY(2027, 6, 1), coils__order_date=DAY(2027, 5, 3))),
    Case("the day needed cannot be met", lambda: having(
        job__needed_by=DAY(2027, 6, 1), coils__order_date=DAY(2027, 5, 20), coils__lead_time=21),
        ACCEPT, "coils.late", lambda: taken_on(having(
            job__needed_by=DAY(2027, 6, 1), coils__order_date=DAY(2027, 5, 20),
            coils__lead_time=21), "coils.late")),
    Case("nobody knows what lifts it", lambda: without(small_gable(), "coils.site_lift"), ACCEPT,
         "coils.site_lift_unknown",
         lambda: taken_on(without(small_gable(), "coils.site_lift"), "coils.site_lift_unknown")),
    Case("a forklift whose plate nobody read",
         lambda: give(without(small_gable(), "coils.site_lift"), "haul.site_by", LiftBy.FORKLIFT),
         ACCEPT, "coils.site_lift_unknown", lambda: give(give(give(
             give(give(without(small_gable(), "coils.site_lift"), "haul.site_by",
                       LiftBy.FORKLIFT), "haul.site_fork_capacity", 6000.0),
             "haul.site_fork_center", 24.0), "haul.site_coil_center", 24.0),
             "haul.site_attachment", 0.0)),
    Case("the arbor's plate was not read",
         lambda: without(small_gable(), "machine.arbor_load"), ASK, "machine.arbor_load"),
    Case("the floor decoiler's plate is a guess",
         lambda: give(having(**DECOILER), "machine.decoiler_load", 5000.0, Standing.GUESS),
         GUESS, "machine.decoiler_load", lambda: having(**DECOILER)),
    Case("a color signed off before it changed",
         lambda: give(confirm(small_gable(), "metal.color_confirmed"), "metal.color", "red"),
         GUESS, "metal.color_confirmed",
         lambda: confirm(give(small_gable(), "metal.color", "red"), "metal.color_confirmed")),
    Case("a take-up measured on another leg", lambda: having(panel__leg=1.75), GUESS,
         "panel.take_up"),
    Case("a hitch weighed before the gear changed",
         lambda: give(having(**TRAILER), "haul.gear", 700.0), GUESS, "haul.tongue_weight",
         lambda: having(**TRAILER)),
    Case("a hitch weighed with lighter coils",
         lambda: give(having(**TRAILER), "coils.spare", 0.2), GUESS, "haul.tongue_weight",
         lambda: confirm(give(having(**TRAILER), "coils.spare", 0.2), "haul.tongue_weight")),
    Case("the client has not signed off", lambda: having(metal__color_confirmed=YesNo.NO), STOP,
         "metal.color_unconfirmed"),
    Case("copper above", lambda: having(metal__touching=Touching.COPPER), STOP, "metal.unlike"),
)


def test_there_are_thirty_at_the_least_and_each_is_one_of_its_own() -> None:
    assert len({case.name for case in CASES}) == len(CASES) >= 30


@for_each(CASES)
def test_a_wrong_job_is_held_by_its_reason_and_the_right_one_is_ready(case: Case) -> None:
    wrong, right = plan(case.wrong()), plan(case.right())
    assert (case.kind, case.key) in {(r.kind, r.key) for r in wrong.reasons}, wrong.reasons
    assert not wrong.ready
    assert state_of(wrong).startswith("DRAFT")
    assert right.reasons == ()
    assert (right.ready, state_of(right)) == (True, "READY")


@pytest.mark.slow
def test_each_reason_is_said_on_paper_and_in_the_data() -> None:
    for case in CASES:
        done = plan(case.wrong())
        data = summary_data(done)
        assert {"kind": str(case.kind), "key": case.key} in [
            {"kind": r["kind"], "key": r["key"]} for r in data["why_not"]
        ], case.name
        assert not data["ready"]
    text = render("summary", plan(unasked("supplier.slitting")), "md")
    assert "DRAFT, not an order" in text
    assert "how much burr" in text


def test_no_movement_is_worked_out_the_wrong_way_round() -> None:
    done = plan(having(job__coldest=160.0))
    assert "panel.movement" not in done.figures
    assert "not colder" in done.lacks["panel.movement"].because
    assert plan(small_gable()).figures["panel.movement"].value > 0


def test_what_is_accepted_says_by_whom_and_why_until_it_is_taken_back() -> None:
    job = taken_on(having(coils__minimum_order=4000.0), "coils.minimum")
    done = plan(job)
    (found,) = (f for f in done.findings if f.key == "coils.minimum")
    assert found.level is Level.CARE
    assert "Accepted by A. Demo (invented): we know the yard." in found.do
    (one,) = (s for s in done.readiness.settled if s.kind == "accepted")
    assert (one.key, one.by, one.reason) == (
        "coils.minimum", "A. Demo (invented)", "we know the yard")
    assert "A. Demo" in render("summary", done, "md")
    assert "A. Demo" not in render("order", done, "md"), "names inside the shop stay there"
    assert not plan(withdraw(job, "coils.minimum")).ready
    for by, reason in (("", "why"), ("who", " ")):
        with pytest.raises(ValueError, match="Give a"):
            accept(job, "coils.minimum", found.accept, by, reason)
    with pytest.raises(ValueError, match="put right"):
        accept(job, "metal.unlike", "", "who", "why")


def test_a_stop_that_cannot_be_accepted_stays_one() -> None:
    job = having(metal__touching=Touching.COPPER)
    forced = dataclasses.replace(job, accepted=taken_on(
        having(coils__minimum_order=4000.0), "coils.minimum").accepted)
    assert not plan(forced).ready


def test_a_waiver_stays_with_its_reason_and_no_reason_takes_it_back() -> None:
    job = waive(unasked("supplier.slitting"), "supplier.slitting", "we slit it ourselves")
    done = plan(job)
    (question,) = (q for q in done.questions if q.key == "supplier.slitting")
    assert question.status is Status.WAIVED
    for kind in ("summary", "questions"):
        assert "we slit it ourselves" in render(kind, done, "md")
    assert [q["waived"] for q in summary_data(done)["questions"]
            if q["key"] == "supplier.slitting"] == ["we slit it ourselves"]
    assert not plan(waive(job, "supplier.slitting", " ")).ready


def test_a_reply_lapses_when_what_its_condition_looks_at_changes() -> None:
    job = having(**ENGINEERED)
    job, _ = reply(job, "designer.profile", "seen and agreed")
    assert job.questions["designer.profile"].of == {"job.engineered": "yes"}
    changed = dataclasses.replace(job.questions["designer.profile"], of={"job.engineered": "no"})
    done = plan(dataclasses.replace(job, questions={**job.questions, "designer.profile": changed}))
    (reason,) = done.reasons
    assert (reason.kind, reason.key) == (QUESTION, "designer.profile")
    assert "changed" in reason.words


def test_metal_that_is_all_on_hand_is_nothing_to_buy_and_asks_no_supplier() -> None:
    job = with_coils(unasked("supplier.slitting"), coil("A7", 700, lot="L"),
                     coil("A8", 700, lot="L"))
    done = plan(job)
    assert not done.coils
    assert done.from_stock
    assert (done.ready, state_of(done)) == (True, "NOTHING TO BUY")
    assert summary_data(done)["nothing_to_buy"]
    assert "NOTHING TO BUY" in render("summary", done, "md")
    sheet = TrimPiece(name="Cap", flat_width=10.0, length=120.0, made_from=TrimFrom.FLAT_SHEET)
    trimmed = dataclasses.replace(
        job, trim=dataclasses.replace(job.trim, pieces=(sheet,)))
    assert state_of(plan(trimmed)) != "NOTHING TO BUY"


# -- confirmations -------------------------------------------------------------------------


def test_a_lapsed_sign_off_says_what_it_was_for() -> None:
    job = give(small_gable(), "metal.color", "red")
    assert job.confirmed["metal.color_confirmed"]["metal.color"] == "slate"
    done = plan(job)
    (found,) = (f for f in done.findings if f.key == "metal.color_confirmed.lapsed")
    assert found.level is Level.CARE
    assert "“slate”" in found.what
    assert "“red”" in found.what
    assert carry_confirmations(small_gable(), job) == job, "nor is that lost on the way"
    assert why_lapsed(job, "metal.color_confirmed") == (
        "“Color” was “slate” and is “red” now")
    again = confirm(job, "metal.color_confirmed")
    assert plan(again).ready
    assert carry_confirmations(job, again) == again
    assert not any(f.key.endswith(".lapsed") for f in plan(again).findings)


def test_a_sign_off_is_of_a_color_and_its_code() -> None:
    """Another code is another color, however it is called; one that is told later is no change."""
    named = give(confirm(small_gable(), "metal.color_confirmed"), "metal.color_code", "HS-41")
    assert plan(named).ready
    changed = give(named, "metal.color_code", "HS-44")
    assert plan(changed).guesses == ("metal.color_confirmed",)
    assert why_lapsed(changed, "metal.color_confirmed") == (
        "“Color code” was “HS-41” and is “HS-44” now")
    assert plan(confirm(changed, "metal.color_confirmed")).ready
    without = give(named, "metal.color_code", None)
    assert not plan(without).ready, "nor is one that is taken out the same"
    kept = {key: text for key, text in named.confirmed["metal.color_confirmed"].items()
            if key != "metal.color_code"}
    before = dataclasses.replace(named, confirmed={"metal.color_confirmed": kept})
    assert not plan(give(before, "metal.color_code", "HS-44")).ready, "a file from before"


def test_a_file_changed_by_hand_does_not_keep_a_sign_off() -> None:
    job = confirm(guess(small_gable(), "metal.color_confirmed"), "metal.color_confirmed")
    text = to_text(job)
    assert read_model(text, Job, "it") == job
    by_hand = read_model(text.replace('"color": "slate"', '"color": "red"'), Job, "it")
    assert by_hand.metal.color == "red"
    assert plan(by_hand).guesses == ("metal.color_confirmed",)


def test_a_file_from_before_counts_as_confirmed_for_what_it_says() -> None:
    job = read_model(to_text(small_gable()), Job, "it")
    assert job.confirmed == {}
    assert plan(job).ready
    assert not plan(give(job, "metal.color", "red")).ready


def test_a_measure_given_before_its_basis_takes_the_one_that_comes_first() -> None:
    job = give(without(small_gable(), "metal.thickness"), "panel.take_up", 4.5)
    job = give(job, "metal.thickness", 0.0236)
    assert plan(job).ready
    assert plan(give(job, "metal.thickness", 0.03)).guesses == ("panel.take_up",)


def test_a_guess_is_not_said_to_have_lapsed() -> None:
    job = do_not_know(small_gable(), "panel.take_up")
    job = give(job, "panel.leg", 1.75)
    assert not any(f.key.endswith(".lapsed") for f in plan(job).findings)


def test_a_copy_keeps_the_machine_and_loses_what_was_for_the_other_job() -> None:
    job = taken_on(having(**TRAILER, coils__minimum_order=4000.0,
                          job__needed_by=DAY(2027, 6, 1)), "coils.minimum")
    job = give(job, "haul.site_by", LiftBy.FORKLIFT)
    new = copied(job)
    assert new.machine == job.machine
    assert new.panel == job.panel
    assert (new.haul.tongue_weight_rating, new.haul.gear) == (1500.0, 300.0)
    assert (new.haul.tongue_weight, new.haul.site.by, new.coils.site_lift) == (None, None, None)
    assert (new.metal.color_confirmed, new.job.needed_by) == (None, None)
    assert (new.questions, new.accepted, new.on_hand, new.arrived) == ({}, {}, (), ())
    assert not plan(new).ready
    assert new.job.name == "Heron Lane barn (copy)"


def test_a_phone_that_is_another_suppliers_is_asked_about() -> None:
    asked = tuple(Request(supplier=name, number=f"R{number}", contact=person, phone=phone)
                  for number, (name, person, phone) in enumerate((
                      ("Tern Hill (invented)", "T. Hill", "555-0177"),
                      ("Slate Creek (invented)", "S. Creek", "555-0123")), 1))
    job = dataclasses.replace(demo_jobs()["heron-lane-barn"], requests=asked)

    def found(**head: str) -> list[str]:
        made = dataclasses.replace(job, order=dataclasses.replace(
            job.order, supplier="slate creek (invented)", attention="", **head))
        return [one.what for one in plan(made).findings if one.key.startswith("order.contact")]

    assert found(supplier_phone="555-0177") == [
        "“Supplier's phone” at the head of the order, 555-0177, is that of Tern Hill (invented) "
        "by its request or quote; the order goes to slate creek (invented)."]
    assert found(supplier_phone="555-0123") == found(supplier_phone="555-0199") == []


def test_a_guessed_site_is_no_place_to_send_coils_to() -> None:
    """An order of a copied job had gone to the yard of the other one, ready and without a word."""
    job = demo_jobs()["heron-lane-barn"]
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, ship_to=""))
    other = copied(job)
    assert (where_to(job), where_to(other)) == (job.job.site, "")
    assert "order.ship_to" in {reason.key for reason in plan(other).readiness.reasons}
    assert "order.to_site" not in {finding.key for finding in plan(other).findings}


@pytest.mark.parametrize(("gear", "says"), [
    ("forklift, 6,000 lb", True), ("forklift, 900 kg", False), ("forklift", False),
    ("forklift, 1,984 lb", False), ("2 men, 1,000 lb hoist", True),
    ("forklift, 1 984 lb", False), ("forklift, 1.984 lb", False), ("forklift, 5 000 lb", True),
    ("forklift 1.5 tonnes", True), ("forklift 0.9 tonnes", False), ("forklift 1 t", None),
])
def test_gear_at_the_head_of_the_order_that_haul_has_otherwise_is_pointed_out(
    gear: str, says: bool | None
) -> None:
    """900 kg are 1,984 lb. None: it does not say which ton."""
    job = give(demo_jobs()["heron-lane-barn"], "coils.site_lift", 1984.0)
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, unloading=gear))
    found = [one for one in plan(job).findings if one.key == "order.unloading"]
    assert bool(found) is (says is not False)
    for one in found:
        assert f"says “{gear}”" in one.what
        assert ("not which ton" if says is None else
                "“Site can lift” on Coils says 1,984 lb.") in one.what, "where it stands"
    if gear == "forklift, 5 000 lb":
        assert head_value(job, "coils.site_lift") == 5000.0
    elif says is None:
        assert head_value(job, "coils.site_lift") is None


@pytest.mark.parametrize(("gear", "says"), [("forklift, 5000 lb, ram", True),
                                            ("forklift, 4,000 lb", False), ("3,500 lb", False)])
def test_gear_at_the_head_is_held_to_its_plate_while_what_it_lifts_at_the_coil_is_not_known(
    gear: str, says: bool
) -> None:
    job = set_answers(demo_jobs()["heron-lane-barn"], {
        "coils.site_lift": None, "haul.site_by": LiftBy.FORKLIFT,
        "haul.site_fork_capacity": 4000.0})
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, unloading=gear))
    found = [one.what for one in plan(job).findings if one.key == "order.unloading"]
    assert found == ([f"The head of the order says “{gear}”, and by Haul the plate of what is "
                      "there says 4,000 lb."] if says else [])


def test_coils_that_go_to_the_site_as_nobody_named_a_place_are_said_to() -> None:
    """A second order had gone to its client's house, ready, where the first went to the yard."""
    job = demo_jobs()["heron-lane-barn"]
    assert job.order.ship_to
    bare = dataclasses.replace(job, order=dataclasses.replace(job.order, ship_to="", hours=""))

    def said(of: Job) -> list[str]:
        return [one.what for one in plan(of).findings if one.key == "order.to_site"]

    (what,) = said(give(bare, "job.site", "4 Birch Hill Rd"))
    assert what.startswith("The head of the order names no place, so its coils go to the site: "
                           "4 Birch Hill Rd. It says no receiving hours")
    assert said(give(job, "job.site", "4 Birch Hill Rd")) == []
    come = Life(steps=(LifeStep(state=OrderState.DELIVERED, date=DAY(2027, 6, 1)),))
    assert said(dataclasses.replace(bare, life=come)) == []
