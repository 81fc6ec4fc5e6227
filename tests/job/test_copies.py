"""A job like another: each answer comes along, is a guess or stays behind as it says itself."""

from __future__ import annotations

import dataclasses
from decimal import Decimal

import pytest

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.answers import ANSWERS, InCopy
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.choices import YesNo
from coilwright.job.copies import copied, copy_words
from coilwright.job.edit import (
    clear,
    confirm_step,
    do_not_know,
    give,
    give_by_quote,
    give_text,
    step_guesses,
)
from coilwright.job.from_shop import lacks_of_head, with_head_kept
from coilwright.job.job import Job
from coilwright.job.metal import Finish, MetalName
from coilwright.job.order import Order
from coilwright.job.quotes import Quote, QuoteSection
from coilwright.job.rates import Rate
from coilwright.job.requests import Request
from coilwright.job.roof import Opening, Plane, WingEnd
from coilwright.job.rows.planes import PLANES
from coilwright.job.shop import Buyer, Shop
from coilwright.job.trim import TrimPiece
from coilwright.plan import plan
from coilwright.store.shipped import demo_jobs
from coilwright.values.standing import Standing

OF_THE_BUILDING = (
    JobKey.CLIENT, JobKey.SITE, JobKey.BUILDING_USE, JobKey.ENGINEERED, JobKey.DESIGNER,
    JobKey.SALT_WATER, JobKey.COLDEST, JobKey.HOTTEST, JobKey.LONGEST_HANDLED, MetalKey.TOUCHING,
    MetalKey.COLOR, MetalKey.COLOR_CODE,
    RoofKey.PITCH, RoofKey.LENGTH, PanelKey.DECK, PanelKey.CLIP_SPACING, PanelKey.REPORT,
    PanelKey.REPORT_WIDEST, PanelKey.REPORT_THINNEST, PanelKey.REPORT_METAL, PanelKey.REPORT_DECK,
    PanelKey.REPORT_CLIP_SPACING,
)
OF_THE_SUPPLIER = (
    CoilsKey.SUPPLIER_HEAVIEST, CoilsKey.MINIMUM_ORDER, CoilsKey.MASTER, CoilsKey.MASTER_4,
    CoilsKey.MASTER_HEAVIEST, CoilsKey.EDGE_TRIM, CoilsKey.PRICE, CoilsKey.LEAD_TIME,
)
"""Of a supplier who is left behind."""
OF_THE_DAY = (
    JobKey.NEEDED_BY, CoilsKey.ORDER_DATE, CoilsKey.SITE_LIFT, MetalKey.COLOR_CONFIRMED,
    HaulKey.TRAILER_WEIGHED, HaulKey.AXLES_WEIGHED, HaulKey.TONGUE_WEIGHT, HaulKey.RACK_MASS,
)
OF_THINGS = (PanelKey.TAKE_UP, MetalKey.METAL, MetalKey.FINISH, HaulKey.TRAILER_GVWR,
             CoilsKey.SPARE, JobKey.TRIM_IN_HOUSE)
NO_SHOP = Shop()
A_RUN = TrimPiece(name="Fascia", length=480.0, flat_width=8.0)
ON_EDGES = TrimPiece(name="Eave", kind=EdgeKind.EAVE, flat_width=6.0)


def test_what_is_of_the_building_is_a_guess_and_what_is_of_the_day_is_gone() -> None:
    of = {what: {key for key, answer in ANSWERS.items() if answer.in_copy is what}
          for what in InCopy}
    assert {*OF_THE_BUILDING, *OF_THE_SUPPLIER} <= of[InCopy.GUESS]
    assert {*OF_THE_DAY} <= of[InCopy.DROPPED]
    assert {*OF_THINGS} <= of[InCopy.KEPT]
    # The machine is a thing: nothing of it changes with the job it is run for.
    assert all(key in of[InCopy.KEPT] for key in ANSWERS if key.startswith("machine."))


def test_what_an_awarded_quote_said_is_a_guess_where_its_supplier_is_left_behind() -> None:
    unasked = clear(demo_jobs()["heron-lane-barn"], CoilsKey.TOLERANCE)
    job = give_by_quote(unasked, CoilsKey.TOLERANCE, 0.05, "Tern Hill")
    new = copied(job)
    assert new.coils.tolerance == 0.05
    assert ANSWERS[CoilsKey.TOLERANCE].standing(new) is Standing.GUESS
    assert "Tolerance, under" in copy_words(job, new).partition("As it stood")[0]
    quoted = Quote(supplier="Tern Hill", awarded=True, price=Rate(Decimal("7400"), "lump"))
    lump = dataclasses.replace(give_by_quote(job, CoilsKey.PRICE, 3.02, "Tern Hill"),
                               quotes=QuoteSection(received=(quoted,)))
    assert copied(lump).coils.price is None, "a lump for other coils"
    assert ANSWERS[CoilsKey.TOLERANCE].standing(copied(demo_jobs()["heron-lane-barn"])) is (
        Standing.SURE), "one that the owner gave is theirs"


def test_what_an_award_worked_out_is_again_what_was_typed_before_it() -> None:
    job = give(demo_jobs()["heron-lane-barn"], CoilsKey.SUPPLIER_HEAVIEST, 2500.0)
    for key, value in ((CoilsKey.SUPPLIER_HEAVIEST, 582.12), (CoilsKey.PRICE, 2.422181)):
        job = give_by_quote(give(job, CoilsKey.PRICE, 2.4) if key == CoilsKey.PRICE else job,
                            key, value, "Tern Hill")
    new = copied(job)
    assert (new.coils.supplier_heaviest, new.coils.price) == (2500.0, 2.4)
    assert ANSWERS[CoilsKey.PRICE].standing(new) is Standing.GUESS
    bare = clear(clear(demo_jobs()["heron-lane-barn"], CoilsKey.PRICE), CoilsKey.SUPPLIER_HEAVIEST)
    for key, value in ((CoilsKey.SUPPLIER_HEAVIEST, 582.12), (CoilsKey.PRICE, 2.422181)):
        new = copied(give_by_quote(bare, key, value, "Tern Hill"))
        assert ANSWERS[key].value(new) is None, key
    # Nor does a heaviest coil that the quote states come along: the plan of another's roof would
    # go by it, and no quote there gives it.
    stated = Quote(supplier="Tern Hill", awarded=True, heaviest=2000.0)
    for own, before in ((2500.0, give(bare, CoilsKey.SUPPLIER_HEAVIEST, 2500.0)), (None, bare)):
        told = dataclasses.replace(
            give_by_quote(before, CoilsKey.SUPPLIER_HEAVIEST, 2000.0, "Tern Hill"),
            quotes=QuoteSection(received=(stated,)))
        assert copied(told).coils.supplier_heaviest == own
        assert ("Supplier's heaviest" in copy_words(told, copied(told))) is (own is not None)


def test_days_and_tolerances_of_an_award_are_again_what_was_asked_before_it() -> None:
    """The next order may go to another supplier; 5 % of one of them would plan its coils."""
    base = demo_jobs()["heron-lane-barn"]
    own, quoted = ({CoilsKey.LEAD_TIME: 21, CoilsKey.TOLERANCE: 0.1},
                   {CoilsKey.LEAD_TIME: 14, CoilsKey.TOLERANCE: 0.05,
                    CoilsKey.TOLERANCE_OVER: 0.02, CoilsKey.CAMBER: 0.25})
    asked = clear(clear(base, CoilsKey.TOLERANCE_OVER), CoilsKey.CAMBER)
    for key, value in own.items():
        asked = give(asked, key, value)
    job = asked
    for key, value in quoted.items():
        job = give_by_quote(job, key, value, "Tern Hill")
    new = copied(job)
    said = {key: ANSWERS[key].value(new) for key in quoted}
    # Nobody had said a camber; one over side is as the under side again.
    assert said == own | {CoilsKey.TOLERANCE_OVER: None, CoilsKey.CAMBER: 0.25}
    assert {ANSWERS[key].standing(new) for key, value in said.items() if value is not None} == {
        Standing.GUESS}
    unasked = clear(clear(asked, CoilsKey.LEAD_TIME), CoilsKey.TOLERANCE)
    for key, value in quoted.items():
        unasked = give_by_quote(unasked, key, value, "Tern Hill")
    assert {key: ANSWERS[key].value(copied(unasked)) for key in quoted} == quoted


def test_what_belongs_to_one_order_and_its_supplier_is_not_sure_in_a_copy() -> None:
    job = demo_jobs()["heron-lane-barn"]
    job = dataclasses.replace(job, typed={"order.date": "today", "requests.0.date": "soon"},
                              order=Order(reference="Fenwick", supplier="Tern Hill", buyer="Us"))
    said = give(job, MetalKey.THICKNESS_STANDARD, "Kay Fen, on the phone")
    assert ANSWERS[MetalKey.THICKNESS_STANDARD].standing(copied(said)) is Standing.GUESS
    new = copied(job)
    assert (new.order.reference, new.order.buyer, new.typed) == ("", "Us", {})
    for key in (CoilsKey.TOLERANCE, CoilsKey.WIDTH_TOLERANCE, CoilsKey.CAMBER,
                MetalKey.THICKNESS_IS, MetalKey.THICKNESS_TOLERANCE):
        assert ANSWERS[key].value(new) == ANSWERS[key].value(job) is not None, key
        assert ANSWERS[key].standing(new) is Standing.GUESS, key
        assert ANSWERS[key].standing(copied(demo_jobs()["heron-lane-barn"])) is Standing.SURE, key


@pytest.mark.parametrize("name", [*demo_jobs()])
def test_each_answer_of_a_copy_is_as_it_says(name: str) -> None:
    job = demo_jobs()[name]
    new = copied(job)
    for key, answer in ANSWERS.items():
        if key == JobKey.NAME or key.startswith("quotes."):
            continue
        value = answer.value(job)
        match answer.in_copy:
            case InCopy.KEPT:
                assert answer.value(new) == value, key
                assert answer.standing(new) is answer.standing(job), key
            case InCopy.GUESS:
                assert answer.value(new) == value, key
                assert answer.standing(new) is (Standing.ASK if value is None else Standing.GUESS)
            case InCopy.DROPPED:
                assert answer.value(new) is None, key


def measured() -> Job:
    """A job with rows that were measured, and a piece of trim that goes on whatever eave."""
    window = Opening(left=60.0, up=60.0, width=24.0, height=36.0)
    planes = (Plane(name="Front", eave=480.0, slope_length=216.0, pitch=6.0, openings=(window,)),
              Plane(name="Back", eave=480.0, slope_length=216.0, pitch=6.0))
    job = PLANES.add(Job(), *planes)
    return dataclasses.replace(job, trim=dataclasses.replace(job.trim, pieces=(A_RUN, ON_EDGES)))


def test_rows_that_were_measured_are_guesses_until_their_step_is_confirmed() -> None:
    job = measured()
    new = copied(job)
    assert new.roof.planes == job.roof.planes
    rows = ("roof.planes.0", "roof.planes.0.openings.0", "roof.planes.1")
    assert new.standing == dict.fromkeys(
        (*rows, "trim.pieces.0"), Standing.GUESS)
    assert step_guesses(new, "roof") == rows
    sure = confirm_step(new, "roof")
    assert {*sure.standing} == {"trim.pieces.0"}
    assert confirm_step(sure, "trim").standing == {}
    assert confirm_step(Job(), "roof") == Job()


def test_confirming_a_step_leaves_other_steps_and_rows_that_cannot_be_read() -> None:
    job = give(give(measured(), RoofKey.PITCH, 6.0), JobKey.SALT_WATER, YesNo.NO)
    new = copied(job)
    new = dataclasses.replace(new, typed={"roof.planes.1.eave": "forty"})
    new = do_not_know(new, CoilsKey.SPARE)
    sure = confirm_step(new, "roof")
    assert "roof.planes.0" not in sure.standing
    assert sure.standing["roof.planes.1"] is Standing.GUESS
    assert ANSWERS[JobKey.SALT_WATER].standing(sure) is Standing.GUESS
    assert ANSWERS[CoilsKey.SPARE].standing(sure) is Standing.GUESS


def test_it_says_what_is_a_guess_what_came_along_and_what_stayed() -> None:
    job = give(give(measured(), JobKey.NAME, "Old barn"), MetalKey.COLOR, "slate")
    job = give(give(job, MetalKey.METAL, MetalName.STEEL), MetalKey.FINISH, Finish.PVDF)
    job = give(give(job, JobKey.DESIGNER, "A. Demo"), MetalKey.COLOR_CONFIRMED, YesNo.YES)
    job = give(job, HaulKey.SITE_SLING_LENGTH, 120.0)
    job = dataclasses.replace(job, order=dataclasses.replace(job.order, number="7"))
    # What is not asked of its roof, which has no wing, is none of the guesses to settle.
    job = give(job, RoofKey.WING_END, WingEnd.RIGHT)
    assert copy_words(job, copied(job)) == (
        "Like “Old barn”.\n"
        "5 guesses now, of that job: Designer or engineer; Color; 2 planes; 1 opening; 1 piece of "
        "trim with its length.\n"
        "As it stood: the rest on Metal.\n"
        "Left behind: Color signed off; the gear at its site; number, reference, supplier, "
        "terms and freight of its order.")
    # And where it is settled: at the line that holds the order, on the summary and in `check`.
    new = give(copied(job), MetalKey.COLOR_CODE, "S-3")
    reasons = [reason.text for reason in plan(new).reasons]
    assert "“Color” is a guess: slate. Confirm it with the client." in reasons, "it is its client's"
    assert "“Color signed off” is not known for slate, S-3. Ask the client." in reasons
    assert copy_words(Job(), copied(Job())) == "Like “Unnamed job”."


def test_coils_go_again_to_a_place_of_the_buyer_and_never_to_the_old_site() -> None:
    def like(ship_to: str, site: str = "12 Weir Lane, Millford", shop: Shop = NO_SHOP) -> Job:
        old = give(give(Job(), JobKey.NAME, "Fenwick porch"), JobKey.SITE, site) if site else Job()
        old = dataclasses.replace(old, order=Order(
            ship_to=ship_to, hours="7 to 3", unloading="forklift"))
        new = copied(old, shop)
        came = bool(new.order.ship_to)
        assert (bool(new.order.hours), bool(new.order.unloading)) == (came, came)
        words = copy_words(old, new)
        assert (f"Coils go to “{ship_to}” as they did, with its hours and gear." in words) is came
        assert ("an empty Ship to means the new site" in words) is not came
        return new

    ours = Shop(buyer=Buyer(ship_to="Weir Lane 40, shop"))
    for place in ("4 Kiln Road, Millford", "Yard 4, Mill Lane, Ashby"):
        assert like(place).order.ship_to == place
    assert like("Weir Lane 40, shop", shop=ours).order.ship_to
    for place in ("12 Weir Lane,  millford", "Weir Lane 40, shop", "behind the Fenwick house",
                  "the yard"):
        assert not like(place).order.ship_to, place
    assert not like("12 Weir Lane", site="12 Weir Lane", shop=Shop(
        buyer=Buyer(ship_to="12 Weir Lane"))).order.ship_to, "the old site, whatever else it is"
    assert not like("4 Kiln Road", site="").order.ship_to, "nothing tells it from the old site"


def test_the_shop_keeps_what_it_lacks_of_a_jobs_papers_and_no_place_at_its_site() -> None:
    job = give(Job(), JobKey.SITE, "12 Weir Lane")
    order = Order(buyer="Gable & Seam", phone="555-0100", ship_to="4 Kiln Road", hours="7 to 3",
                  supplier="Tern Hill", attention="T. Hill")
    job = dataclasses.replace(job, order=order, requests=(Request(supplier="Elk Fork"),))
    mine = Shop(buyer=Buyer(company="Our shop"))
    kept = with_head_kept(mine, job)
    assert kept.buyer == Buyer(company="Our shop", phone="555-0100", ship_to="4 Kiln Road",
                               hours="7 to 3")
    assert [(one.name, one.contact) for one in kept.suppliers] == [
        ("Elk Fork", ""), ("Tern Hill", "T. Hill")]
    assert lacks_of_head(mine, job) == [
        "phone", "ship to", "receiving hours", "Elk Fork", "Tern Hill"]
    assert (with_head_kept(kept, job), lacks_of_head(kept, job)) == (kept, [])
    there = dataclasses.replace(job, order=dataclasses.replace(order, ship_to="12 Weir Lane"))
    assert (with_head_kept(mine, there).buyer.ship_to, with_head_kept(mine, there).buyer.hours) == (
        "", "")


def test_what_could_not_be_read_stays_as_it_was_typed() -> None:
    job, error = give_text(Job(), RoofKey.LENGTH, "forty or so")
    assert error
    assert copied(job).typed == {RoofKey.LENGTH: "forty or so"}
