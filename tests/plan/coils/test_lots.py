"""Production lots: where panels of one roof come from more than one of them."""

from __future__ import annotations

import dataclasses
import datetime
import re

import pytest

from coilwright.job.answers.job import JobKey
from coilwright.job.choices import YesNo
from coilwright.job.copies import copied
from coilwright.job.edit import accept, give
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.job.roof import Plane
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import plan
from coilwright.plan.coils.leftovers import offer_leftovers, taken
from coilwright.plan.coils.run import run_of
from coilwright.sheets import render
from coilwright.sheets.state import state_of
from coilwright.store import to_text
from coilwright.store.reader import read_model
from coilwright.units import System
from coilwright.values.finding import Finding, Level
from coilwright.wizard.lists.coil_blocks import offer_line, take_words
from tests.cases import small_gable, with_planes
from tests.plan.coils.stock import coil, with_coils
from tests.plan.receiving.arrivals import arrival, with_arrived


def told(job: Job, *coils: CoilOnHand) -> list[Finding]:
    return [f for f in plan(with_coils(job, *coils)).findings if f.key == "coils.lots"]


def test_new_coils_alone_are_one_lot() -> None:
    assert told(small_gable()) == []


def test_on_hand_and_new_meet_on_one_plane() -> None:
    (finding,) = told(small_gable(), coil("A", 400, lot="L-1"))
    assert finding.level is Level.STOP
    assert "lot L-1, new coils" in finding.what
    assert "they meet on Side" in finding.what


@pytest.mark.parametrize(
    ("first", "second", "speaks"),
    [
        ("L-1", "L-2", True),
        ("L-1", "l-1 ", False),
        ("L-1", "", True),
        # two coils of which nobody knows the lot may be of two
        ("", "", True),
    ],
)
def test_two_coils_on_hand_that_do_the_whole_roof(first: str, second: str, speaks: bool) -> None:
    done = plan(with_coils(small_gable(), coil("A", 700, lot=first), coil("B", 700, lot=second)))
    assert done.coils == ()
    assert {c.tag for c in done.from_stock} == {"A", "B"}
    assert any(f.key == "coils.lots" for f in done.findings) is speaks


def test_strips_of_one_coil_are_one_lot() -> None:
    done = plan(with_coils(small_gable(), coil("A", 700, width=42.0)))
    assert done.coils == ()
    assert len(done.from_stock) == 2
    assert not [f for f in done.findings if f.key == "coils.lots"]


def test_a_lot_that_is_not_used_says_nothing() -> None:
    assert told(small_gable(), coil("A", 1500, lot="L-1"), coil("B", 11, lot="L-2")) == []


def test_lots_that_do_not_meet_on_a_plane_are_only_noted() -> None:
    """A plane of long panels from one coil on hand; the other, of short ones, from another."""
    job = with_planes(
        small_gable(),
        Plane(name="Long", eave=160.0, slope_length=300.0, pitch=6.0),
        Plane(name="Short", eave=32.0, slope_length=100.0, pitch=6.0),
    )
    lots = coil("A", 270, lot="L-1"), coil("B", 27.5, lot="L-2")
    done = plan(with_coils(job, *lots))
    cut = {c.tag: {cut.name for cut in c.cuts} for c in done.from_stock}
    assert cut == {"A": {"Long"}, "B": {"Short"}}
    (finding,) = told(job, *lots)
    assert finding.level is Level.NOTE
    assert "each plane from one of them" in finding.what


# -- planes of their own -------------------------------------------------------------------

NORTH = Plane(name="North", eave=42 * 12, slope_length=18 * 12, pitch=6.0)
SOUTH = Plane(name="South", eave=42 * 12, slope_length=18 * 12, pitch=6.0)
WHOLE = 32 * 217 * 1.03 + 72 + 48
"""One plane: 32 panels of 18 ft 1 in with 3 % spare, thread-up and tail: 7,272.3 in."""


def kept(*coils: CoilOnHand, **planes: tuple[str, ...]) -> Job:
    job = with_coils(with_planes(small_gable(), NORTH, SOUTH), *coils)
    return dataclasses.replace(job, on_hand_planes=planes)


def by_coil(job: Job) -> dict[str, dict[str, int]]:
    """Panels by coil and plane."""
    done = plan(job)
    found: dict[str, dict[str, int]] = {}
    for name, cuts in [*((c.tag, c.cuts) for c in done.from_stock),
                       *(("new", c.cuts) for c in done.coils)]:
        for cut in cuts:
            found.setdefault(name, {}).setdefault(cut.name, 0)
            found[name][cut.name] += cut.count
    return found


def test_a_coil_that_holds_a_plane_is_kept_to_it() -> None:
    """Without being told the 700 ft coil is used to the last panel, and the lots meet."""
    free = kept(coil("A", 700, lot="L-1"))
    mixed = by_coil(free)
    assert set(mixed["A"]) == {"North", "South"}
    assert not plan(free).ready
    own = kept(coil("A", 700, lot="L-1"), A=("North",))
    assert by_coil(own) == {"A": {"North": 32}, "new": {"South": 32}}
    done = plan(own)
    assert done.ready
    (finding,) = [f for f in done.findings if f.key == "coils.lots"]
    assert finding.level is Level.NOTE
    assert done.proof is not None
    assert done.proof.proven
    # Once the new coils came their tags tell of how many lots it is.
    for tags, said in ((("41", "42"), "3 lots: lot L-1, new coils of lots 41 and 42"),
                       (("41",), "2 lots: lot L-1, new coils of lot 41"), (("l-1",), "")):
        came = [arrival(tag=f"R-{number}", coil=number, lot=lot)
                for number, lot in enumerate(tags, 1)]
        whats = [f.what for f in plan(with_arrived(own, *came)).findings if f.key == "coils.lots"]
        each = "new coils or from one lot on hand" if len(tags) > 1 else "one of them"
        assert whats == ([f"The panels come from {said}, each plane from {each}."]
                         if said else [])
    # One coil that came of the lot on hand says nothing of another that did not come yet.
    several = give(free, "coils.supplier_heaviest", 700.0)
    assert len(plan(several).coils) > 1
    one = plan(with_arrived(several, arrival(tag="R-1", coil=1, lot="L-1")))
    (finding,) = [f for f in one.findings if f.key == "coils.lots"]
    assert finding.level is Level.STOP


def test_lots_that_were_accepted_and_meet_on_other_planes_say_so_first() -> None:
    free = kept(coil("A", 700, lot="L-1"))
    (stop,) = (f for f in plan(free).stops if f.key == "coils.lots")
    taken = accept(free, stop.key, stop.accept, "Ann", "both shades are one", stop.what)
    assert plan(taken).ready
    north, south = taken.roof.planes
    other = dataclasses.replace(taken, roof=dataclasses.replace(
        taken.roof, planes=(north, dataclasses.replace(south, name="Porch"))))
    (again,) = (f for f in plan(other).stops if f.key == "coils.lots")
    assert "Porch" in again.what
    first, then, _ = re.split(r"(?<=[.”]) (?=[A-Z])", again.do, maxsplit=2)
    assert first == ("It was accepted for something else than this, by Ann: both shades are one.")
    assert then.startswith("It read then: “The panels come from 2 lots")
    assert "South" in again.do
    assert "Lay samples side by side in daylight first." in again.do
    assert "coils.lots" not in {one.key for one in plan(other).readiness.settled}


@pytest.mark.parametrize(("inches", "fits"), [(WHOLE + 1, True), (WHOLE - 1, False)])
def test_it_is_not_kept_to_more_than_it_holds(inches: float, fits: bool) -> None:
    done = plan(kept(coil("A", inches / 12), A=("North",)))
    assert bool(done.from_stock) is fits
    said = [f for f in done.findings if f.key == "on_hand.1.planes"]
    assert bool(said) is not fits
    if not fits:
        assert said[0].level is Level.CARE
        assert "cannot be kept to North" in said[0].what
        assert by_coil(done.job) == {"new": {"North": 32, "South": 32}}


def test_two_coils_of_one_lot_share_a_plane() -> None:
    job = kept(coil("A", 310, lot="L"), coil("B", 320, lot="L"), A=("South",), B=("South",))
    cut = by_coil(job)
    assert cut["A"]["South"] + cut["B"]["South"] == 32
    assert cut["new"] == {"North": 32}


def test_planes_that_hold_everything_leave_nothing_to_buy() -> None:
    done = plan(kept(coil("A", 700, lot="1"), coil("B", 700, lot="2"), A=("North",), B=("South",)))
    assert done.coils == ()
    assert state_of(done) == "NOTHING TO BUY"
    assert by_coil(done.job) == {"A": {"North": 32}, "B": {"South": 32}}


def test_a_plane_kept_to_coils_with_other_planes_too_is_said() -> None:
    job = kept(coil("A", 700), coil("B", 1400), A=("North",), B=("North", "South"))
    assert by_coil(job) == {"A": {"North": 32}, "new": {"South": 32}}
    (said,) = [f for f in plan(job).findings if f.key == "on_hand.2.planes"]
    assert said.what == "Coil “B” cannot be kept to North and South, and is not used."
    assert said.why == ("North is kept to coil “A” too, and coil “A” has not the same planes in "
                        "all.")
    assert said.do == ("In the list of coils on hand, take North off one of them, or give all of "
                       "them the same planes.")


def test_a_plane_that_is_gone_is_said_and_a_copy_forgets_it() -> None:
    job = kept(coil("A", 700), A=("Nort",))
    (said,) = [f for f in plan(job).findings if f.key == "on_hand.1.planes_unknown"]
    assert "Nort, which the roof does not have" in said.what
    assert copied(job).on_hand_planes == {}
    assert read_model(to_text(job), Job, "it") == job


# -- kept to trim --------------------------------------------------------------------------

RAKE = TrimPiece(name="Rake", length=1200.0, flat_width=10.0, made_from=TrimFrom.PANEL_COIL)
"""Ten blanks of 10 ft, two across the strip of 21 in: five rows of 120 in."""


def with_trim(feet: float) -> Job:
    job = kept(coil("A", feet, lot="L-1"), A=("Trim",))
    return dataclasses.replace(job, trim=dataclasses.replace(
        job.trim, lap=0.0, blank=120.0, pieces=(RAKE,)))


@pytest.mark.parametrize(("feet", "rows"), [(70, 5), (45, 3), (18, 0)])
def test_a_coil_kept_to_trim_makes_as_much_of_it_as_it_holds(feet: float, rows: int) -> None:
    """By hand: 45 ft less 10 ft of thread-up and tail, with 3 % spare, is good for 33 ft 11 in."""
    job = with_trim(feet)
    done, cut = plan(job), by_coil(job)
    assert cut.get("A", {}) == ({"Trim": rows} if rows else {})
    assert cut["new"] == {"North": 32, "South": 32, **({"Trim": 5 - rows} if rows < 5 else {})}
    # Trim of another lot lies on no plane: nothing holds the order.
    lots = [f for f in done.findings if f.key == "coils.lots"]
    assert [f.level for f in lots] == ([Level.NOTE] if rows else [])
    # No panel comes from it, and none is said to, once all of the trim does.
    # One chimney's pieces are not cut of two lots, where some of the trim does.
    both = " and new coils" if rows < 5 else ""
    assert [f.what for f in lots] == ([
        f"Trim comes from lot L-1{both}, the panels from new coils."] if rows else [])
    assert [f.do.endswith(" of one edge, from one lot.") for f in lots] == (
        [bool(both)] if rows else [])
    came = plan(with_arrived(job, *(
        arrival(tag=f"R-{one.number}", coil=one.number, lot="41") for one in done.coils)))
    assert ("Trim comes of two lots or more: " in render("run", came, "text")) is (0 < rows < 5)
    # Once they came, new coils are of the lot on their tags, here as on the run sheet.
    assert [f.what for f in came.findings if f.key == "coils.lots"] == [
        one.what.replace("new coils", "new coils of lot 41") for one in lots]
    said = [f for f in done.findings if f.key == "on_hand.1.planes"]
    assert bool(said) is not bool(rows)
    if said:
        assert "cannot be kept to Trim, and is not used" in said[0].what
        assert "The shortest row of its blanks is 10 ft" in said[0].why
    assert sum(n for one in cut.values() for n in one.values()) == 69


def test_pieces_of_one_chimney_come_of_one_lot_where_a_coil_holds_them() -> None:
    """By hand: each coil of 45 ft is good for 33 ft 11 in. Four rows of 10 ft for the rake are more
    than one of them; six of 3 ft 4 in for the chimney, 20 ft, go beside one of 10 ft."""
    job = kept(coil("A", 45, lot="Q7"), coil("B", 45, lot="R2"), A=("Trim",), B=("Trim",))
    chimney = TrimPiece(name="Chimney", length=240.0, flat_width=18.0, blank=40.0)
    job = dataclasses.replace(job, trim=dataclasses.replace(
        job.trim, lap=0.0, blank=120.0,
        pieces=(dataclasses.replace(RAKE, length=480.0, flat_width=18.0), chimney)))
    done = plan(job)
    came = plan(with_arrived(job, *(
        arrival(tag=f"R-{one.number}", coil=one.number, lot="R2") for one in done.coils)))
    run = run_of(came)
    rows = {(coil.name, batch.cut.length, row.count, row.blanks.across)
            for coil in run.coils[:2] for batch in coil.batches for row in batch.rows if row.blanks}
    assert rows == {("A", 120.0, 3, ((1, 1),)), ("B", 120.0, 1, ((1, 1),)),
                    ("B", 40.0, 6, ((2, 1),))}
    text = " ".join(render("run", came, "text").split())
    assert "Rake 3 × 10 ft from A and 1 × 10 ft from B." in text
    assert "Chimney 6" not in text
    assert "for trim: flat, not formed: 1 × Chimney" in render("run", came, "csv")
    # Nothing more is cut or ordered for it.
    assert sum(cut.count for one in done.from_stock for cut in one.cuts) == 10
    assert not any(cut.plane == 0 for one in done.coils for cut in one.cuts)


def test_kept_to_trim_where_none_is_cut_from_the_panels_coil_is_said() -> None:
    job = with_trim(70)
    (said,) = [f for f in plan(dataclasses.replace(
        job, trim=dataclasses.replace(job.trim, pieces=()))).findings
        if f.key == "on_hand.1.planes_unknown"]
    assert said.why == "No trim is cut from the panels' coil."


def test_a_coil_that_would_stop_the_order_is_offered_for_trim_alone() -> None:
    """One key took two leftovers for panels and landed in a stop that nothing had spoken of."""
    bare = dataclasses.replace(with_trim(70), on_hand=(), on_hand_planes={})
    stock = Stock(coils=(coil("A", 70, lot="L-1"),))
    offer = offer_leftovers(plan(bare), stock)
    assert offer is not None
    assert offer.trim_only
    assert "they meet on" in offer.mixes
    line = offer_line(offer, System.US)
    assert "of new metal, for trim alone. Panels of it too would stop the order: the panels come " \
        "from 2 lots" in line
    job = taken(bare, offer)
    assert job.on_hand_planes == {"A": ("Trim",)}
    assert take_words(offer, System.US, 40).startswith("Take A from stock: saves ")
    assert take_words(offer, System.US, 20) == "Take A from stock"
    assert not [f for f in plan(job).stops if f.key == "coils.lots"]
    # Where no trim is cut from coils, it is offered as it is, and said to stop the order.
    panels = dataclasses.replace(bare, trim=dataclasses.replace(bare.trim, pieces=()))
    other = offer_leftovers(plan(panels), Stock(coils=(coil("A", 700, lot="L-1"),)))
    assert other is not None
    assert not other.trim_only
    assert "Taking it would stop the order: the panels come from 2 lots" in offer_line(
        other, System.US)
    # So does the key that takes it, before what it saves, at any width.
    assert take_words(other, System.US, 60).startswith("Take A: STOP, lots would meet; saves ")
    assert all("STOP" in take_words(other, System.US, room) for room in range(60))


def test_a_coil_alone_is_one_lot_and_trim_from_stock_is_not_ordered() -> None:
    def asked(job: Job) -> bool:
        bare = dataclasses.replace(job, questions={})
        listed = "supplier.one_lot" in {q.key for q in plan(bare).questions}
        assert listed is ("supplier.one_lot" in plan(bare).readiness.holding)
        return listed

    one = with_trim(70)
    assert sum(bought.count.value for bought in plan(one).buy) == 1
    assert not asked(one)
    two = dataclasses.replace(one, coils=dataclasses.replace(one.coils, supplier_heaviest=900.0))
    assert len(plan(two).coils) > 1
    assert asked(two)
    inside = give(one, JobKey.TRIM_IN_HOUSE, YesNo.YES)
    assert "metal.one_lot" not in {f.key for f in plan(inside).findings}
    ordered = dataclasses.replace(inside, on_hand=(), on_hand_planes={})
    assert "metal.one_lot" in {f.key for f in plan(ordered).findings}
    step = LifeStep(state=OrderState.DELIVERED, date=datetime.date(2027, 3, 1))
    sent = dataclasses.replace(ordered, life=Life(steps=(step,)))
    assert "metal.one_lot" not in {f.key for f in plan(sent).findings}
