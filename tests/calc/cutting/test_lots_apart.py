"""Whole planes by lot, held to all ways there are."""

from __future__ import annotations

import itertools

from hypothesis import example, given, settings
from hypothesis import strategies as st

from coilwright.calc.cutting.lots_apart import LotCoil, LotPlane, Shares, keep_lots_apart
from tests.draws import draws

_lengths = st.lists(st.tuples(st.integers(2, 9), st.integers(1, 3)), min_size=1, max_size=2,
                    unique_by=lambda part: part[0])
_planes = st.lists(st.tuples(_lengths, st.sampled_from([True, True, True, False])), min_size=1,
                   max_size=3)
_coils = st.lists(st.tuples(st.integers(4, 30), st.integers(0, 1)), min_size=2, max_size=3)


def lots_by_plane(shares: Shares, coils: list[LotCoil]) -> dict[int, set[int]]:
    found: dict[int, set[int]] = {}
    for coil, cuts in zip(coils, shares, strict=True):
        for number, _, _ in cuts:
            found.setdefault(number, set()).add(coil.lot)
    return found


def least_mixed(planes: list[LotPlane], coils: list[LotCoil]) -> int | None:
    """The fewest planes of two lots of all ways to put each panel into a coil."""
    lots = sorted({coil.lot for coil in coils})
    states: dict[tuple[tuple[int, ...], int], None] = {
        (tuple(int(coil.room) for coil in coils), 0): None}
    for plane in planes:
        sticks = [int(length) for length, count in plane.panels for _ in range(count)]
        after: dict[tuple[tuple[int, ...], int], None] = {}
        for (rooms, mixed) in states:
            partial: set[tuple[tuple[int, ...], frozenset[int]]] = {(rooms, frozenset())}
            for stick in sticks:
                partial = {
                    ((*room[:at], room[at] - stick, *room[at + 1:]), seen | {coils[at].lot})
                    for room, seen in partial for at in range(len(coils)) if room[at] >= stick}
            for room, seen in partial:
                after[room, mixed + (plane.disturbs and len(seen) > 1)] = None
        states = after
    assert len(lots) <= 2
    return min((mixed for _, mixed in states), default=None)


@settings(max_examples=draws(300), deadline=None)
@given(_planes, _coils)
@example([([(4, 5)], True), ([(3, 6)], True)], [(20, 0), (19, 1)])
@example([([(6, 3)], True), ([(5, 3)], True)], [(16, 0), (18, 1)])  # one must be of both
def test_no_way_has_fewer_planes_of_two_lots(
    drawn: list[tuple[list[tuple[int, int]], bool]], rooms: list[tuple[int, int]]
) -> None:
    planes = [LotPlane(tuple((float(w), n) for w, n in parts), seen) for parts, seen in drawn]
    coils = [LotCoil(float(room), lot) for room, lot in rooms]
    least, found = least_mixed(planes, coils), keep_lots_apart(planes, coils)
    assert (found is None) == (least is None)
    if found is None:
        return
    for coil, cuts in zip(coils, found, strict=True):
        assert sum(length * count for _, length, count in cuts) <= coil.room
    for number, plane in enumerate(planes):
        for length, count in plane.panels:
            assert count == sum(n for cuts in found for p, w, n in cuts
                                if (p, w) == (number, length))
    lots = lots_by_plane(found, coils)
    assert sum(planes[n].disturbs and len(own) > 1 for n, own in lots.items()) == least


def test_what_has_a_lot_already_takes_the_same_and_a_lot_may_be_held_to_less() -> None:
    planes = [LotPlane(((5.0, 2),), before=frozenset({1})), LotPlane(((5.0, 2),))]
    for most, wanted in ((None, {0: {1}, 1: {0}}), ({1: 9.0}, None)):
        found = keep_lots_apart(planes, [LotCoil(10.0, 0), LotCoil(10.0, 1)], most)
        assert (None if found is None else lots_by_plane(
            found, [LotCoil(10.0, 0), LotCoil(10.0, 1)])) == wanted


def test_of_as_few_the_way_that_changes_least_and_many_planes_in_bounded_work() -> None:
    coils = [LotCoil(40.0, 0), LotCoil(40.0, 1)]
    planes = [LotPlane(((4.0, 4),), now={1: 16.0}), LotPlane(((4.0, 4),), now={0: 8.0, 1: 8.0}),
              LotPlane(((4.0, 4),), now={0: 16.0})]
    found = keep_lots_apart(planes, coils)
    assert found is not None
    lots = lots_by_plane(found, coils)
    assert (lots[0], lots[2]) == ({1}, {0})
    many = [LotPlane(((100.0 + n, 3), (90.0 + n, 2))) for n in range(40)]
    whole = sum(plane.length for plane in many)
    wide = [LotCoil(whole / 4 + 200, lot) for lot in (0, 1, 2, 0)]
    shares = keep_lots_apart(many, wide)
    assert shares is not None
    assert sum(len(own) > 1 for own in lots_by_plane(shares, wide).values()) <= 2
    assert len(list(itertools.chain(*shares))) >= 80
    # As many planes as a job may have, and more than calls go deep.
    most = [LotPlane(((10.0 + n % 9, 1),)) for n in range(1_100)]
    shares = keep_lots_apart(most, [LotCoil(9_000.0, 0), LotCoil(9_000.0, 1)])
    assert shares is not None
    assert sorted(p for p, _, _ in itertools.chain(*shares)) == list(range(1_100))
