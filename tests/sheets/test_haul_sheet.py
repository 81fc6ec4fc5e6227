"""The haul and lift sheet: over, not known, room to write; and that it clears nothing."""

from __future__ import annotations

import dataclasses
import json
import re
from dataclasses import replace

import pytest

from coilwright.job.answers import ANSWERS, answers_of
from coilwright.job.coils import Attitude
from coilwright.job.edit import new_job
from coilwright.job.haul import CargoOn, CoilEye, HitchKind, LiftBy
from coilwright.job.job import Job
from coilwright.job.receiving import Decision
from coilwright.plan import LoadLine, Plan, plan
from coilwright.sheets import KINDS, render
from coilwright.sheets.data.schema import SCHEMA
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.haul_ticks import BEFORE_LIFTING, BEFORE_WHEELS
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.values.keys import LIFT_PLACES, lift_key
from coilwright.words import cautions, words
from coilwright.words.in_units import with_units
from tests.cases import set_answers, small_gable
from tests.plan.coils.stock import coil, with_coils
from tests.plan.haul.made_loads import ALL, INSIDE, NOT_READ, OVER, load
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.sheets.pages import Page, faults

CLEARING = re.compile(r"\b(safe|safely|ok|okay|approved|good to go|all clear)\b", re.IGNORECASE)
PLATES = "clears nothing: plates, local rules and qualified people decide"


def with_loads(*loads: LoadLine, job: Job | None = None) -> Plan:
    """A plan that holds exactly these loads."""
    return replace(plan(job or small_gable()), loads=loads)


def flat(text: str) -> str:
    """The sheet in one line, escapes and line breaks gone."""
    return " ".join(text.replace("\\", "").split())


def hauled() -> Job:
    """The small gable with everything about hauling and lifting chosen, no plate read."""
    return set_answers(small_gable(), {
        "haul.rack_coils": 1, "haul.hitch": HitchKind.BALL, "haul.cargo_coils": 1,
        "haul.cargo_on": CargoOn.TRAILER, "haul.eye": CoilEye.UP, "haul.ties_over": 2,
        "haul.site_by": LiftBy.FORKLIFT, "haul.shop_by": LiftBy.SLINGS,
    })


def test_it_is_a_kind_of_sheet() -> None:
    assert KINDS["haul"].title == "Haul and lift card"
    rows = render("haul", with_loads(*ALL), "csv").splitlines()
    assert rows[0] == "load,comes to,rating,margin,word"
    assert len(rows) == 1 + len(ALL)
    assert any(row.startswith('Trailer loaded,"9,000 lb","10,000 lb","1,000 lb"') for row in rows)


def test_loads_with_rating_margin_and_a_word() -> None:
    text = flat(render("haul", with_loads(*ALL), "md"))
    assert ("| Trailer loaded | 9,000 lb | 10,000 lb | 1,000 lb | inside its rating, as entered |"
            in text)
    assert "| Tongue or pin weight | ~ 1,600 lb | 1,500 lb | ~ -100 lb | **OVER** |" in text
    room = "_" * 10
    assert f"| Axles | 8,000 lb | {room} | | **not known: read it off the plate** |" in text
    assert "**OVER: Tongue or pin weight.** Do not haul or lift like this." in text
    assert "**Not known: Axles; Vehicle loaded; Lifting in the shop.**" in text
    assert PLATES in text


def test_every_row_that_is_not_known_is_counted_at_the_top() -> None:
    """Two lifts without a plate are rows of their own, beside the loads."""
    loads = (INSIDE, OVER, *(replace(NOT_READ, name=f"Load {n}") for n in range(6)))
    made = with_loads(*loads,
                      job=set_answers(small_gable(), {"coils.site_lift": None}))
    text = flat(render("haul", made, "md"))
    told = re.search(r"Not known: (\d+) of (\d+) loads", text)
    assert told is not None
    rows = [line for line in render("haul", made, "md").splitlines()
            if line.startswith("|") and "**not known" in line]
    assert int(told[1]) == len(rows)
    assert int(told[2]) == len(made.loads) + 2


@pytest.mark.parametrize(("name", "said"), [
    ("Two-arbor trailer (invented)", True), ("Our own", False)])
def test_an_example_machine_says_that_it_is_nobodys(name: str, said: bool) -> None:
    made = with_loads(*ALL, job=set_answers(small_gable(), {"machine.name": name}))
    assert ("only an example, read your own plates" in render("haul", made, "md")) is said


def test_what_is_not_known_has_room_to_write() -> None:
    page = Page(render("haul", with_loads(*ALL), "html"))
    for key in (*NOT_READ.needs, "haul.tow_weight"):
        at = page.cells.index(ANSWERS[key].label)
        assert page.cells[at + 1] == "_" * 14, key
    assert "| not known: read it off" in render("haul", with_loads(*ALL), "md")
    assert "| not known: read it off" not in render("haul", with_loads(INSIDE), "md")


def test_by_what_coils_are_lifted_is_room_to_write_where_nobody_said() -> None:
    """The shop was “not known” at the head of the card, and stood in no list of what is to read."""
    job = set_answers(small_gable(), {"haul.site_by": LiftBy.FORKLIFT})
    for told, asked in ((job, True), (set_answers(job, {"haul.shop_by": LiftBy.OTHER}), False)):
        text = render("haul", plan(told), "md")
        assert ("nobody said by what coils are lifted" in text) is asked
        site, shop = (f"| {ANSWERS[lift_key(place, 'by')].label} | \\_" for place in LIFT_PLACES)
        assert (shop in text) is asked
        assert site not in text


def test_the_coils_with_ordered_and_heaviest() -> None:
    """2,250.3 lb as ordered; 10 % over that is 2,475.3 lb at the long end."""
    text = flat(render("haul", plan(small_gable()), "md"))
    assert "| Coil 1 of the order | 2,250 lb | 2,475 lb |" in text
    # Once it has come it is called as on the other papers: by what stands on its tag.
    came = render("haul", plan(with_arrived(small_gable(), arrival(tag="R-7"))), "md")
    assert ("| Coil 1 of the order, tag R-7, lot L-7 | 2,250 lb | 2,475 lb (came at 2,250 lb) |"
            ) in came
    sent_back = arrival(tag="R-7", decision=Decision.SENT_BACK, decided_by="Ed", reason="wet")
    gone = render("haul", plan(with_arrived(small_gable(), sent_back)), "md")
    assert "| Coil 1 of the order (sent back) | 2,250 lb |" in gone
    two = set_answers(small_gable(), {"machine.arbor_load": 1300.0})
    some = render("haul", plan(with_arrived(two, arrival(coil=1, mass=1100.0, weighed=None))), "md")
    assert "| Coil 2 of the order (awaited) | " in some


@pytest.mark.parametrize("system", list(System))
@pytest.mark.parametrize("job", [Job(), new_job(), small_gable(), hauled(),
                                 *demo_jobs().values()])
def test_no_word_of_clearance_and_always_who_decides(job: Job, system: System) -> None:
    job = dataclasses.replace(job, units=system)
    for loads in (plan(job).loads, ALL, (INSIDE,)):
        text = flat(render("haul", with_loads(*loads, job=job), "md"))
        assert not CLEARING.search(text), CLEARING.search(text)
        assert PLATES in text
        for line in (*BEFORE_WHEELS, *BEFORE_LIFTING):
            assert f"☐ {with_units(line, system)}" in text
        for who in ("Person in charge", "Driver", "Lifting at the site", "Lifting in the shop"):
            assert f"| {who} | | | |" in text
        for caution in cautions("haul"):
            assert with_units(caution, system) in text


def test_nothing_entered_is_said_not_passed_over() -> None:
    job = set_answers(small_gable(), {"coils.site_lift": None})
    text = flat(render("haul", with_loads(job=job), "md"))
    assert "**No load is worked out yet.**" in text
    assert ("No plate is entered for the road, coils as cargo, lifting at the site, lifting in the "
            "shop, so nothing there is held to a rating.") in text
    assert "for the road" not in flat(render("haul", with_loads(*ALL), "md"))


def test_without_a_hitch_its_ratings_are_still_there_to_fill_in() -> None:
    text = render("haul", plan(demo_jobs()["quarry-house-hip"]), "md")
    start = text.index("| not known: read it off the plate")
    to_read = text[start:text.index("##", start + 2)]
    for name in ("Hitch |", "Hitch: max trailer", "Hitch: max tongue weight",
                 "Vehicle: loaded weight", "Vehicle: gross rating", "Vehicle: max trailer",
                 "Both: gross rating"):
        assert to_read.count(f"| {name}") == 1, name


def test_what_the_site_lifts_by_the_coils_step_is_not_denied() -> None:
    text = flat(render("haul", plan(demo_jobs()["heron-lane-barn"]), "md"))
    assert ("| Lifting at the site | 2,475 lb + skid | 4,000 lb | | by what was answered: read the "
            "plate |") in text
    over = set_answers(small_gable(), {"coils.site_lift": 2400.0})
    card = flat(render("haul", plan(over), "md"))
    assert ("| 2,475 lb + skid | 2,400 lb | | **OVER, by what was answered**; the order lets none "
            "come over it: refuse a gross tag that is |") in card
    assert "The order's max weight is 2,400 lb: refuse what is over." in card


@pytest.mark.parametrize("lift", [2475.0, 2520.0])
def test_a_lift_is_held_to_what_the_order_holds_its_package_to(lift: float) -> None:
    """The coil may come at 2,475 lb of metal: up to 2,574 lb the order holds what is lifted, skid
    and packing included (100 lb: common practice, no source), until a coil is there."""
    job = set_answers(small_gable(), {"coils.site_lift": lift})
    card = flat(render("haul", plan(job), "md"))
    assert (f"| Lifting at the site | {lift:,.0f} lb gross, by the order | {lift:,.0f} lb | | by "
            "what was answered: refuse a gross tag over it, read the plate |") in card
    assert "OVER" not in card
    came = flat(render("haul", plan(with_arrived(job, arrival(mass=lift - 95.0))), "md"))
    assert "by the order" not in came
    # A coil that is there came as it is; 95 lb are left for skid and packing.
    assert (f"| Lifting at the site | 2,475 lb + skid | {lift:,.0f} lb | | **OVER, by what was "
            "answered, with 100 lb of skid and packing**: weigh it with them |") in came


def test_it_says_which_coils_its_loads_are_for() -> None:
    """Three coils; two of them on the rack."""
    job = set_answers(demo_jobs()["quarry-house-hip"], {"haul.rack_coils": 2})
    text = flat(render("haul", plan(job), "md"))
    assert ("**This card is for 2 coils on the rack, the heaviest, and none as cargo; for any "
            "other load make it again. 1 coil of this job left for another trip.**") in text
    assert "How many coils ride on the rack is not said" in flat(
        render("haul", plan(demo_jobs()["quarry-house-hip"]), "md"))


@pytest.mark.parametrize(("answers", "feet", "said"), [
    ({}, 400, "1 coil on hand, {mass} at most, is in no load of the road: plan how it gets to the "
              "site."),
    ({"haul.rack_coils": 1}, 400, "1 coil on hand, {mass} at most, is among the 2 coils of this "
                                  "job; the loads of the road are for the 1 heaviest of them."),
    ({"haul.rack_coils": 2}, 400, "1 coil on hand, {mass} at most, is counted in the loads of the "
                                  "road."),
    ({"haul.rack_mass": 900.0}, 400, "1 coil on hand, {mass} at most, is in these loads only if on "
                                     "the rack when it was weighed."),
])
def test_it_says_whether_coils_on_hand_are_in_its_loads(
    answers: dict[str, float], feet: float, said: str
) -> None:
    found = plan(with_coils(set_answers(small_gable(), answers), coil("A", feet, lot="L")))
    (used,) = found.from_stock
    assert said.format(mass=used.heaviest.text(System.US)) in flat(render("haul", found, "md"))
    assert "on hand" not in flat(render("haul", plan(small_gable()), "md"))


def test_a_small_margin_and_a_coil_that_comes_eye_up_stand_out() -> None:
    barn = demo_jobs()["heron-lane-barn"]
    text = flat(render("haul", plan(barn), "md"))
    # 1,474 of 1,500 lb; 10,275 of 12,000 lb.
    assert "| 26.4 lb | inside its rating, as entered; **little left** |" in text
    assert text.count("little left") == 1
    assert "turned by" not in text
    up = flat(render("haul", plan(set_answers(barn, {"coils.eye": Attitude.EYE_UP})), "md"))
    assert "| Coils come eye up; turned by | ____" in up


def test_it_is_set_as_a_card_for_one_page() -> None:
    """Looked at as printed: one page of Letter and of A4 with everything chosen and no plate read.

    No page is made here: what stands for it is how many lines its text takes 150 letters wide.
    """
    for job in (hauled(), *demo_jobs().values()):
        html = render("haul", plan(job), "html")
        assert '<body class="compact card' in html
        assert len(render("haul", plan(job), "text", 150).splitlines()) <= 130
    many = plan(set_answers(small_gable(), {"machine.arbor_load": 250.0}))
    assert len(many.coils) > 8
    text = flat(render("haul", many, "md"))
    assert text.count("| Coil ") == 6
    assert f"{len(many.coils) - 6} coils more, none heavier" in text
    assert "How these numbers were made" not in text


def test_each_caution_is_said_once_and_each_load_names_its_own_by_number() -> None:
    text = render("haul", plan(hauled()), "md")
    listed = text[text.index("## Cautions"):].splitlines()
    by_number = {row.split(". ", 1)[0]: row.split(". ", 1)[1] for row in listed
                 if row[:1].isdigit()}
    assert len(set(by_number.values())) == len(by_number) > 10
    rows = {cells[1].strip(): cells[6].strip() for line in text.splitlines()
            if len(cells := line.split("|")) == 8 and "not known: read" in line}
    assert {"Site: forklift", "Shop: one sling leg", "Hold of the tie-downs"} <= set(rows)
    fork = [by_number[number] for number in rows["Site: forklift"].split(", ")]
    assert any("forklift with no plate" in said for said in fork)
    assert not any("choker" in said for said in fork)
    sling = [by_number[number] for number in rows["Shop: one sling leg"].split(", ")]
    assert any("A choker slips" in said for said in sling)


def test_no_two_cautions_say_the_same() -> None:
    text = render("haul", plan(demo_jobs()["heron-lane-barn"]), "md")
    assert text.count("Hold it with tag lines, not with hands.") == 1


def test_ties_and_gear_as_entered() -> None:
    text = flat(render("haul", plan(hauled()), "md"))
    assert "| Coils hauled as cargo | 1 |" in text
    assert "| Coil's eye points | eye up |" in text
    assert "| Tie-downs side to side | 2 |" in text
    assert "| Site: coils lifted by | forklift |" in text
    assert "| Shop: coils lifted by | slings on a crane or hoist |" in text


def test_every_missing_rating_of_a_real_job_is_on_the_sheet_to_fill_in() -> None:
    done = plan(hauled())
    assert done.loads
    page = Page(render("haul", done, "html"))
    for line in done.loads:
        assert line.name in page.text
        for key in line.needs:
            assert ANSWERS[key].label in page.cells
    unread = [line for line in done.loads if line.rating is None]
    assert unread
    assert page.text.count("not known: read it off the plate") >= len(unread)


def test_cautions_of_coils_ties_and_lifts_are_on_it() -> None:
    text = flat(render("haul", plan(hauled()), "md"))
    for key in ("haul.rack_coils", "haul.eye", "haul.ties_over", "haul.site_fork_capacity",
                "haul.shop_leg_rating"):
        caution = words(key).caution
        assert not caution or " ".join(caution.split()) in text, key
    assert words("haul.site_fork_capacity").caution
    bare = flat(render("haul", plan(small_gable()), "md"))
    assert " ".join(words("haul.shop_leg_rating").caution.split()) not in bare


def test_no_two_answers_of_the_step_are_called_the_same() -> None:
    labels = [answer.label for answer in answers_of("haul")]
    assert len(set(labels)) == len(labels)
    assert max(map(len, labels)) <= 26, "a longer one is cut on the form"


def test_typed_names_stay_text() -> None:
    line = load("<b>x</b> | *y*", 5, 4)
    page = Page(render("haul", with_loads(line), "html"))
    assert "b" not in page.tags
    assert "<b>x</b> | *y*" in page.cells


def test_the_summary_shows_loads_only_where_there_are_any() -> None:
    assert "## Haul and lift" not in render("summary", with_loads(), "md")
    text = flat(render("summary", with_loads(*ALL), "md"))
    assert "## Haul and lift" in text
    assert "| Axles | 8,000 lb | | | **not known: read it off the plate** |" in text
    assert PLATES in text


def test_loads_in_the_json() -> None:
    data = json.loads(json.dumps(summary_data(with_loads(*ALL))))
    assert faults(data, SCHEMA, SCHEMA) == []
    inside, over, unread, unweighed = data["loads"]
    assert inside["margin"] == {
        "value": 1000, "unit": "lb", "text": "1,000 lb", "standing": "sure"}
    assert (inside["known"], inside["over"]) == (True, False)
    assert (over["known"], over["over"], over["load"]["standing"]) == (True, True, "guess")
    assert (unread["known"], unread["over"], unread["rating"]) == (False, None, None)
    assert unread["word"] == "not known: read it off the plate"
    assert unread["needs"] == list(NOT_READ.needs)
    assert (unweighed["load"], unweighed["over"]) == (None, None)
    assert OVER.key == over["key"]
    for line in data["loads"]:
        del line["over"]
    assert len(faults(data, SCHEMA, SCHEMA)) == 4


def test_what_a_reader_adds_up_is_what_the_card_says() -> None:
    """10.02 % over 2,250.30 lb is 2,475.78 lb, and the order's max weight 2,475 lb: loads, and what
    is left of the ratings, are read by that, worked by hand."""
    job = set_answers(small_gable(), {
        "coils.tolerance_over": 0.1002, "machine.arbor_load": 3000.0, "machine.weight": 5000.0,
        "haul.rack_coils": 1, "haul.gear": 200.0, "haul.cargo_coils": 0,
        "haul.trailer_gvwr": 9000.0, "haul.site_by": LiftBy.FORKLIFT,
        "haul.site_attachment": 120.0, "haul.site_fork_capacity": 6000.0,
        "haul.site_fork_center": 24.0, "haul.site_coil_center": 24.0,
        "haul.site_face_to_axle": 15.0})
    made = plan(job)
    assert made.figures["coil.1.heaviest"].value == pytest.approx(2475.78, abs=0.01)
    text = flat(render("haul", made, "md"))
    assert "| Coil 1 of the order | 2,250 lb | 2,475 lb |" in text
    # 5,000 + 2,475 + 200 lb of 9,000; 2,475 + 120 lb of 6,000
    assert "| Loaded trailer | 7,675 lb | 9,000 lb | 1,325 lb |" in text
    assert "| Site: forklift | 2,595 lb | 6,000 lb | 3,405 lb |" in text
