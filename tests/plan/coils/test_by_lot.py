"""Coils that came of different lots: whole planes of one lot where the coils allow."""

from __future__ import annotations

import dataclasses
import itertools
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.job import Job
from coilwright.job.receiving import Arrival
from coilwright.job.roof import Building
from coilwright.job.stock import Stock
from coilwright.job.trim import TrimPiece
from coilwright.plan import Plan, plan
from coilwright.plan.coils.after_run import (
    coils_to_measure,
    exceeded_length,
    is_too_much,
    run_through,
)
from coilwright.plan.coils.run import Run, run_of
from coilwright.plan.receiving.receive import receive, receive_one
from coilwright.sheets import render
from coilwright.values.finding import Level
from coilwright.wizard.lists.run_words import twice_lines
from tests.cases import building, set_answers
from tests.draws import draws
from tests.plan.coils.stock import coil as on_hand
from tests.plan.coils.stock import with_coils
from tests.plan.receiving.arrivals import with_arrived


def came(job: Job, *lots: str, off: float = 0.0) -> Job:
    """The job with its coils arrived as long as ordered, or by a share shorter; '': not there."""
    made = plan(job)
    return with_arrived(job, *(
        Arrival(tag=f"T-{n}", lot=lot, coil=n, length=made.coils[n - 1].length.value * (1 - off))
        for n, lot in enumerate(lots, 1) if lot))


def mixed(run: Run) -> set[str]:
    """Planes of two lots, with which of those alike."""
    found: dict[str, set[str]] = {}
    for coil in run.coils:
        for batch in coil.batches:
            for piece in (piece for row in batch.rows for piece in row.pieces):
                found.setdefault(f"{batch.cut.name} {piece.copy}", set()).update(coil.lots)
    return {name for name, lots in found.items() if len(lots) > 1}


def run(made: Plan) -> Run:
    return run_of(made, receive(made))


def ell(lift: float) -> Job:
    job = building(Building.GABLED_ELL, length=504.0, width=312.0, pitch=8.0, eave_overhang=16.0,
                   rake_overhang=12.0, wing_width=192.0, wing_projection=168.0)
    return set_answers(job, {"coils.site_lift": lift, "coils.tolerance": 0.10})


def test_pieces_of_trim_are_of_one_lot_where_what_came_holds_them() -> None:
    """Rakes of 200 ft in rows of 10 ft, and 20 ft around a chimney in rows of 3 ft 4 in: planes of
    one lot alone leave both in two; either coil holds both, beside its planes."""
    job = ell(2000.0)
    job = dataclasses.replace(job, trim=dataclasses.replace(
        job.trim, lap=0.0, blank=120.0, pieces=(
            TrimPiece(name="Rake", length=2400.0, flat_width=15.0),
            TrimPiece(name="Chimney", length=240.0, flat_width=15.0, blank=40.0))))
    made = plan(came(job, "P-1", "P-2"))
    apart = run(made)
    rows = [{(batch.cut.length, row.count) for batch in coil.batches for row in batch.rows
             if row.blanks} for coil in apart.coils]
    assert sorted(rows, key=len) == [set(), {(120.0, 20), (40.0, 6)}]
    assert apart.by_lot
    assert mixed(apart) == set()
    assert all(coil.left_short is not None and coil.left_short.value >= 0 for coil in apart.coils)
    assert "Trim comes of two lots" not in render("run", made, "text")


def test_whole_planes_by_lot_with_spare_and_the_same_panels() -> None:
    job = ell(2000.0)
    assert len(plan(job).coils) == 2
    one_lot, two = plan(came(job, "P-1", "P-1")), plan(came(job, "P-1", "P-2"))
    as_ordered, apart = run(one_lot), run(two)
    assert not as_ordered.by_lot
    assert mixed(run_of(two)) == set()  # nothing is known to be of two lots before they come
    assert apart.by_lot
    assert mixed(apart) == set()
    planes = [{batch.cut.name for batch in coil.batches} for coil in apart.coils]
    assert not planes[0] & planes[1]
    panels = [Counter({(b.cut.name, b.cut.length): b.cut.count for b in coil.batches})
              for coil in (*as_ordered.coils, *apart.coils)]
    assert panels[0] + panels[1] == panels[2] + panels[3]
    for coil in apart.coils:
        net = sum(b.cut.length * b.cut.count for b in coil.batches)
        assert coil.shortest is not None
        assert net * 1.03 + 72 + 48 <= coil.shortest.value + 1e-6
        assert coil.left.value == pytest.approx(coil.length.value - net - 72 - 48)
    # What a coil is held to is the list that it is run by.
    for n, (report, coil) in enumerate(zip(receive(two), apart.coils, strict=True), 1):
        assert report.need is not None
        assert report.need.value == pytest.approx((coil.used.value - 120) * 1.03 + 120)
        again = receive_one(two, n).need
        assert again is not None
        assert again.value == report.need.value
    said = " ".join(render("run", two, "text").split())
    assert "Lots meet on" not in said
    assert "The coils came of different lots: the lists are made so" in said


def test_coils_on_hand_of_two_lots_take_whole_planes_where_that_orders_no_more() -> None:
    job = with_coils(ell(2000.0), on_hand("T-1", 1060.0, lot="a"), on_hand("T-2", 1000.0, lot="b"))
    made = plan(job)
    assert made.coils == ()
    by_coil = [{cut.name for cut in one.cuts if cut.plane} for one in made.from_stock]
    assert len(by_coil) == 2
    assert not by_coil[0] & by_coil[1]
    assert [f.level for f in made.findings if f.key == "coils.lots"] == [Level.NOTE]
    for one in made.from_stock:
        assert sum(cut.length * cut.count for cut in one.cuts) <= one.usable.value + 1e-6


def test_lists_stay_where_coils_are_too_short_for_whole_planes() -> None:
    job = set_answers(ell(2000.0), {"coils.tolerance": 0.0})
    short = plan(came(job, "P-1", "P-2", off=0.01))
    found = run(short)
    assert not found.by_lot
    assert [c.cuts for c in short.coils] == [tuple(b.cut for b in c.batches) for c in found.coils]
    assert "Lots meet on" in render("run", short, "text")
    assert found.without_spare is None, "they are too short even with no spare kept"
    # What a spare of 5 % keeps would take whole planes: that is said, and the lists keep it.
    kept = plan(came(set_answers(job, {"coils.spare": 0.05}), "P-1", "P-2"))
    assert (len(mixed(run(kept))), run(kept).without_spare) == (1, 0)
    said = " ".join(render("run", kept, "text").split())
    assert "Without the spare whole planes of one lot would fit." in said


@settings(max_examples=draws(30), deadline=None)
@given(st.sampled_from([900.0, 1300.0, 2000.0]), st.floats(300.0, 700.0), st.floats(200.0, 400.0),
       st.lists(st.sampled_from(["P-1", "P-2", ""]), min_size=8, max_size=8),
       st.sampled_from([0.0, 0.03, 0.08]))
def test_no_assignment_of_whole_planes_has_fewer_of_two_lots(
    lift: float, length: float, width: float, lots: list[str], off: float
) -> None:
    job = set_answers(building(Building.GABLE, length=length, width=width, pitch=6.0),
                      {"coils.site_lift": lift, "coils.tolerance": 0.10})
    ordered = plan(job)
    made = plan(came(job, *lots[:len(ordered.coils)], off=off))
    found, planned = run(made), run(dataclasses.replace(made, job=job))
    before = Counter[tuple[str, float]]()
    after = Counter[tuple[str, float]]()
    for counted, coils in ((before, ordered.coils), (after, found.coils)):
        for coil in coils:
            cuts = coil.cuts if hasattr(coil, "cuts") else [b.cut for b in coil.batches]
            for cut in cuts:
                counted[cut.name, cut.length] += cut.count
    assert before == after
    assert not planned.by_lot
    there = [n for n, lot in enumerate(lots[:len(ordered.coils)], 1) if lot]
    if len(there) < len(ordered.coils) or len({lots[n - 1] for n in there}) < 2:
        return
    room = Counter[str]()
    for report in receive(made):
        assert report.counted is not None
        room[report.arrival.lot] += int(
            ((report.counted.least.value - 120) / 1.03 + 1e-6)
            // ordered.planes[0].groups[0].length)
    # Both sides are of one length: can each be of one lot, whole panels only?
    sides = [sum(group.count for group in side.groups) for side in ordered.planes]
    whole = any(all(sum(n for n, of in zip(sides, owner, strict=True) if of == lot) <= room[lot]
                    for lot in set(owner))
                for owner in itertools.product(room, repeat=len(sides)))
    if whole:
        assert mixed(found) == set()


def came_as_two(first: float, second: float, *lots: str) -> Plan:
    """One coil ordered, and two that came for it, each a share of its length."""
    job = ell(4000.0)
    (coil,) = plan(job).coils
    return plan(with_arrived(job, *(
        Arrival(tag=f"T-{n}", lot=lot, coil=1, length=coil.length.value * share)
        for n, (share, lot) in enumerate(zip((first, second), lots, strict=True), 1))))


@pytest.mark.parametrize("lots", [("P-2", "P-3"), ("P-2", "P-2")])
def test_an_ordered_coil_that_came_as_two_is_run_as_two(lots: tuple[str, str]) -> None:
    made = came_as_two(0.56, 0.54, *lots)
    (ordered,) = made.coils
    found = run(made)
    assert [(c.order_number, c.is_part, c.lots) for c in found.coils] == [
        (1, True, (lots[0],)), (1, True, (lots[1],))]
    assert len({coil.key for coil in found.coils}) == 2
    whole, shared = Counter[tuple[str, float]](), Counter[tuple[str, float]]()
    for cut in ordered.cuts:
        whole[cut.name, cut.length] += cut.count
    for coil, share in zip(found.coils, (0.56, 0.54), strict=True):
        assert coil.length.value == pytest.approx(ordered.length.value * share)
        assert coil.left_short is not None
        assert coil.left_short.value >= 0
        for batch in coil.batches:
            shared[batch.cut.name, batch.cut.length] += batch.cut.count
    assert whole == shared
    assert lots[0] == lots[1] or len(mixed(found)) <= 1
    for report, coil in zip(receive(made), found.coils, strict=True):
        assert report.need is not None
        assert report.need.value == pytest.approx((coil.used.value - 120) * 1.03 + 120)
    said = " ".join(render("run", made, "text").split())
    assert "Coil 1 of the order came as several coils: 2 loads of it below" in said
    assert f"Load 2: coil 1 of the order, tag T-2, lot {lots[1]}" in said
    assert "STOP" not in said
    # What is left of each goes back with its own tag and lot.
    stock, tags = run_through(made, Stock(), {c.key: 240.0 + c.number for c in found.coils})
    assert [(one.tag, one.lot, one.length) for one in stock.coils] == [
        ("T-1", lots[0], 241.0), ("T-2", lots[1], 242.0)]
    assert tags == {"arrived.1": "T-1", "arrived.2": "T-2"}
    # What a stock has of that tag from elsewhere is said; what this job put there itself is not.
    assert [twice_lines(made, stock, {key: 240.0}, put=put) for key, put in (
        ("arrived.2", None), ("arrived.2", tags), ("coil.1", None))] == [
        ["In stock already, this would be one more: T-2"], [], []]


def test_a_list_that_two_cannot_hold_says_what_is_short() -> None:
    short = came_as_two(0.4, 0.3, "P-2", "P-3")
    (one,) = run(short).unshared
    assert one.short is not None
    (ordered,) = short.coils
    assert one.short == pytest.approx(
        sum(c.length * c.count for c in ordered.cuts) + 2 * (72 + 48)
        - 0.99 * 0.7 * ordered.length.value), "a tag's length may be off by 1 %"
    said = " ".join(render("run", short, "text").split())
    assert "STOP: coil 1 of the order came as 2 coils, tag T-1, lot P-2 and tag T-2, lot P-3. " \
           "Together they are" in said
    # What is left is of each all the same, by no list.
    each = list(coils_to_measure(short, receive(short), short))
    assert [(c.key, c.lots, c.batches) for c in each] == [
        ("arrived.1", ("P-2",), ()), ("arrived.2", ("P-3",), ())]
    # By no list nothing is too much, whatever was measured of what came.
    bare = dataclasses.replace(each[0].came[0], ways=())
    assert [is_too_much(short, each[0], came, 9e9) for came in (None, bare, each[0].came[0])] == [
        False] * 3
    part = run(came_as_two(0.56, 0.54, "P-2", "P-3")).coils[0]
    assert [is_too_much(short, part, None, off) for off in (0.0, 9e9)] == [False, True]
    whole = each[0].length.value
    assert exceeded_length(short, each[0], each[0].came[0], whole) is not None
    assert exceeded_length(short, each[0], each[0].came[0], 0.4 * whole) is None
    # Before that the spare is given up, and it is said.
    (ordered,) = short.coils
    net = sum(c.length * c.count for c in ordered.cuts)
    tight = (net * 1.01 + 2 * (72 + 48)) / 0.99 / 2 / ordered.length.value
    bare = came_as_two(tight, tight, "P-2", "P-2")
    found = run(bare)
    assert (found.bare, found.unshared, len(found.coils)) == ({1}, (), 2)
    assert all(one.left_short is not None and one.left_short.value >= 0 for one in found.coils)
    assert "only where no spare is kept" in " ".join(render("run", bare, "text").split())
    assert run(came_as_two(0.56, 0.54, "P-2", "P-2")).bare == set()
    # Where one of them holds the list alone, either may be run: it is one coil and one list.
    either = run(came_as_two(1.0, 1.0, "P-2", "P-2"))
    assert (len(either.coils), either.unshared) == (1, ())
