"""Which panels each coil makes: every one once, those of one lot side by side where they can be."""

from __future__ import annotations

import dataclasses
from collections import Counter, deque
from itertools import pairwise

from hypothesis import given, settings

from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.plan import Plan, plan
from coilwright.plan.coils.run import run_of
from coilwright.plan.coils.run_panels import panel_key, panels_by_coil
from coilwright.plan.result import Cut
from tests.cases import building
from tests.draws import draws
from tests.plan.coils.stock import coil, jobs_with_coils, with_coils


def numbers(done: Plan) -> dict[str, dict[tuple[int, int], list[int]]]:
    """By coil and by plane (with which of those alike) the numbers of its panels."""
    found: dict[str, dict[tuple[int, int], list[int]]] = {}
    for one in run_of(done).coils:
        for batch in one.batches:
            for piece in (piece for row in batch.rows for piece in row.pieces):
                found.setdefault(one.name, {}).setdefault(
                    (batch.cut.plane, piece.copy), []).extend(piece.numbers)
    return found


def meets(owners: list[str]) -> int:
    return sum(one != other for one, other in pairwise(owners))


def from_the_left(done: Plan, lots: dict[str, str]) -> int:
    """How often two lots meet where every coil takes its panels from the left."""
    coils = [(one.name, one.cuts) for one in done.from_stock]
    coils += [(f"Coil {one.number}", one.cuts) for one in done.coils]
    count = 0
    for plane in done.planes:
        row = sorted((n, round(r.length, 6)) for r in plane.panel_list for n in r.numbers)
        places: dict[float, deque[tuple[int, int]]] = {}
        for copy in range(plane.alike):
            for at, (_, length) in enumerate(row):
                places.setdefault(length, deque()).append((copy, at))
        owners = [["" for _ in row] for _ in range(plane.alike)]
        for name, cuts in coils:
            for cut in cuts:
                for _ in range(cut.count if cut.plane == plane.number else 0):
                    copy, at = places[round(cut.length, 6)].popleft()
                    owners[copy][at] = lots[name]
        count += sum(map(meets, owners))
    return count


@settings(max_examples=draws(40))
@given(jobs_with_coils())
def test_each_panel_once_and_lots_meet_no_oftener_than_from_the_left(job: Job) -> None:
    done = plan(job)
    if not (done.coils or done.from_stock):
        return
    lots = {one.name: done.job.on_hand[one.index].lot for one in done.from_stock}
    lots |= {f"Coil {one.number}": "new" for one in done.coils}
    made = numbers(done)
    count = 0
    for plane in done.planes:
        for copy in range(1, plane.alike + 1):
            owner = {n: name for name, planes in made.items()
                     for n in planes.get((plane.number, copy), [])}
            drawn = sorted(n for row in plane.panel_list for n in row.numbers)
            assert sorted(owner) == drawn
            count += meets([lots[owner[n]] for n in drawn])
    assert count <= from_the_left(done, lots)
    cuts = {**{one.name: one.cuts for one in done.from_stock},
            **{f"Coil {one.number}": one.cuts for one in done.coils}}
    for name, own in cuts.items():
        wanted, got = Counter[int](), Counter[int]()
        for cut in own:
            wanted[cut.plane] += cut.count if cut.plane else 0
        for (number, _), panels in made.get(name, {}).items():
            got[number] += len(panels)
        assert +wanted == got


def test_a_leftover_makes_neighbors_at_one_end_of_a_plane() -> None:
    """On the front of an L the long panels stand left of the valley, one, and right of it, many:
    from the left a leftover for three of them made numbers 1, 14 and 15."""
    job = building(Building.GABLED_ELL, length=480.0, width=336.0, pitch=8.0, rake_overhang=12.0,
                   wing_width=192.0, wing_projection=144.0)
    whole = plan(job)
    (front,) = [one for one in whole.planes if one.name == "Front"]
    longest = max(row.length for row in front.panel_list)
    long = sorted(n for row in front.panel_list if row.length == longest for n in row.numbers)
    assert long[1] - long[0] > 1, "they do not all stand side by side"
    done = plan(with_coils(job, coil("SH-01", 80.0, lot="L-77")))
    three = Cut(front.number, "Front", longest, 3)
    rest = tuple(Cut(front.number, "Front", one.length, one.count - 3 * (one.length == longest))
                 for one in front.groups)
    leftover, new = panels_by_coil(done, (
        dataclasses.replace(done.from_stock[0], cuts=(three,)),
        dataclasses.replace(done.coils[0], cuts=rest)))
    made = [one.number for one in leftover[panel_key(front.number, longest)]]
    assert made == long[-3:]
    assert [one.number for one in new[panel_key(front.number, longest)]] == long[:-3]
