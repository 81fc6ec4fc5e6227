"""Edges of the whole roof by kind, and edges that two planes measure differently."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from typing import assert_never

from coilwright.calc import sources
from coilwright.calc.roof import shapes
from coilwright.calc.roof.edges import SHARED, Edge, EdgeKind
from coilwright.calc.roof.shared_edges import Half, Pairing, half_of, pair_up
from coilwright.job.answers.roof import RoofKey
from coilwright.job.roof import Building
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import PlanePlan
from coilwright.units import Kind, show
from coilwright.values.figure import Figure, compute
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import FigureKey, Key, part_of
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing

Counted = tuple[PlanePlan, Edge, int]
"""An edge of a plane, and on how many planes alike it counts."""
_MOST_COPIES = 8
_DIGITS = 6
"""Digits of an inch to which the lengths of two runs are the same."""
_SIDES = tuple(kind for kind in SHARED if kind is not EdgeKind.RIDGE)


Runs = dict[EdgeKind, tuple[tuple[float, int], ...]]
"""Edges one by one, each shared edge once: by kind their lengths [in] and how many, longest first.
"""


def edge_key(kind: EdgeKind) -> FigureKey:
    """The key of the length of all edges of a kind."""
    match kind:
        case EdgeKind.EAVE:
            return Key.EDGES_EAVE
        case EdgeKind.RAKE:
            return Key.EDGES_RAKE
        case EdgeKind.RIDGE:
            return Key.EDGES_RIDGE
        case EdgeKind.HIP:
            return Key.EDGES_HIP
        case EdgeKind.VALLEY:
            return Key.EDGES_VALLEY
        case EdgeKind.WALL:
            return Key.EDGES_WALL
        case EdgeKind.BREAK:
            return Key.EDGES_BREAK
        case _:
            assert_never(kind)


def enter_edges(
    ledger: Ledger, planes: tuple[PlanePlan, ...]
) -> tuple[Runs, list[Finding]]:
    """Enter `edges.eave` and so on, and say which shared edges do not agree; the edges one by one.

    A ridge, hip, valley or pitch break that two planes share counts half on each; one whose
    other plane is not in the job counts whole. The runs of a kind add up to its figure.
    """
    waits = [lack for key, lack in ledger.lacks.items()
             if key in (Key.ROOF_AREA, Key.BUILDING_AREA)
             or (key.startswith("plane.") and key.endswith(".area"))]
    if waits or not planes:
        for kind in EdgeKind:
            ledger.put(edge_key(kind), _label(kind), shapes.summed_length, *waits)
        return {}, []
    pairings = _pairings(planes)
    # Another shape has other edges, and what one plane measures decides what another is paired
    # with.
    shaped = ledger.guessed(RoofKey.BUILDING)
    unsure = shaped or any(p.area.standing is not Standing.SURE for p in planes)
    by_kind: dict[EdgeKind, list[tuple[PlanePlan, Edge]]] = {kind: [] for kind in EdgeKind}
    for plane in planes:
        for edge in plane.edges:
            by_kind[edge.kind].append((plane, edge))
    for kind, edges in by_kind.items():
        key, label = edge_key(kind), _label(kind)
        if kind not in SHARED:
            _enter_sum(ledger, key, label, [(p, e, p.alike) for p, e in edges], shaped)
        elif not edges:
            _enter_sum(ledger, key, label, [], unsure)
        else:
            guessed = unsure or (kind is EdgeKind.HIP and bool(_by_length_alone(ledger, edges)))
            _enter_shared(ledger, key, label, edges, pairings[kind], guessed)
    names = {p.number: p.name for p in planes}
    runs = {kind: _runs(edges, pairings.get(kind)) for kind, edges in by_kind.items()}
    return runs, [*_unlike(ledger, pairings, names), *_unpaired(ledger, pairings, names),
                  *_gone(planes), *_guessed_hips(ledger, by_kind[EdgeKind.HIP], names)]


def _by_length_alone(ledger: Ledger, edges: list[tuple[PlanePlan, Edge]]) -> list[int]:
    """Planes alike whose edges only their length pairs, as no shape of building does."""
    if ledger.job.roof.building not in (None, Building.PLANES):
        return []
    return sorted({plane.number for plane, _ in edges if plane.alike > 1})


def _guessed_hips(
    ledger: Ledger, edges: list[tuple[PlanePlan, Edge]], names: dict[int, str]
) -> Iterator[Finding]:
    alike = _by_length_alone(ledger, edges)
    if alike:
        yield Finding(
            Level.NOTE, "roof.hips_by_length",
            f"The hips of {names[alike[0]]} are paired by their length alone; their length in all "
            "is a guess.",
            "Planes that are alike do not say which of them meet at which hip, so a hip can be "
            "counted for two or two for one.",
            "Count the hips on the roof against the list. Give each plane once with its own name, "
            "or give the trim's length where it decides what is bought.",
            sources.PLANE_GEOMETRY, "roof", ("roof.planes",),
        )


def _runs(
    edges: list[tuple[PlanePlan, Edge]], pairing: Pairing | None
) -> tuple[tuple[float, int], ...]:
    """The edges of one kind, each once: lengths and how many.

    An edge two planes measure is as long as the mean of the two; one that meets several on the
    other side is one run.
    """
    found: Counter[float] = Counter()
    if pairing is None:
        for plane, edge in edges:
            found[round(edge.length, _DIGITS)] += plane.alike
    else:
        alone = Counter((half.plane, half.number) for half in pairing.alone)
        both = [(a.length + b.length) / 2 for a, b in pairing.pairs]
        both += [math.fsum((a.length, *(h.length for h in rest))) / 2
                 for a, rest in pairing.sums]
        for length in both:
            found[round(length, _DIGITS)] += 1
        for half in pairing.alone:
            found[round(half.length, _DIGITS)] += 1
        for plane, edge in edges:
            # Of the copies left out, an even number, two make one edge unless all are alone.
            more = plane.alike - _copies(plane)
            lone = alone[plane.number, edge.number] == _copies(plane)
            found[round(edge.length, _DIGITS)] += more if lone else more // 2
    return tuple(sorted(((length, n) for length, n in found.items() if n), reverse=True))


def _copies(plane: PlanePlan) -> int:
    """How many of the planes alike are paired: enough to show who belongs to whom."""
    return min(plane.alike, _MOST_COPIES + plane.alike % 2)


def _enter_shared(
    ledger: Ledger,
    key: str,
    label: str,
    edges: list[tuple[PlanePlan, Edge]],
    pairing: Pairing,
    unsure: bool,
) -> None:
    alone: dict[tuple[int, int], int] = {}
    for half in pairing.alone:
        alone[half.plane, half.number] = alone.get((half.plane, half.number), 0) + 1
    here = []
    for plane, edge in edges:
        lone = alone.get((plane.number, edge.number), 0)
        # The copies left out are an even number: paired as the others are, or alone as they are.
        left_out = plane.alike - _copies(plane)
        here.append((plane, edge, lone + left_out if lone == _copies(plane) else lone))
    both = _enter_sum(ledger, part_of(key, "halves"), f"{label}: measured on both planes",
                      [(p, e, p.alike - n) for p, e, n in here if p.alike > n], unsure)
    one = _enter_sum(ledger, part_of(key, "alone"), f"{label}: on one plane only",
                     [(p, e, n) for p, e, n in here if n], unsure)
    ledger.put(key, label, shapes.shared_length, both, one)


def _label(kind: EdgeKind) -> str:
    return f"{kind.value.capitalize()} in all"


def _enter_sum(
    ledger: Ledger, key: str, label: str, edges: list[Counted], unsure: bool
) -> Figure:
    guess = unsure or any(p.area.standing is not Standing.SURE for p, _, _ in edges)
    standing = Standing.GUESS if guess else Standing.SURE
    if not edges:
        return ledger.drawn(key, label, 0.0, Kind.LENGTH, standing, "the roof has none")
    value = math.fsum(edge.length * count for _, edge, count in edges)
    return ledger.add(Figure(key, label, value, Kind.LENGTH, shapes.summed_length.source,
                             standing, shapes.summed_length, _terms(key, edges)))


def _terms(key: str, edges: list[Counted]) -> Callable[[], tuple[Figure, ...]]:
    """The figures of the edges in a sum, made only when somebody opens it."""

    def make() -> tuple[Figure, ...]:
        return tuple(_term(key, *edge) for edge in edges)

    return make


def _term(key: str, plane: PlanePlan, edge: Edge, count: int) -> Figure:
    own, name = f"{plane.key}.edge{edge.number}", f"{plane.name}: {edge.kind} {edge.number}"
    standing = plane.area.standing
    length = Figure(own, name, edge.length, Kind.LENGTH, LAYOUT, standing,
                    note="corner to corner, true length")
    many = Figure(f"{own}.count", f"{name}, how many", float(count), Kind.COUNT, LAYOUT, standing)
    return compute(f"{key}.{plane.number}.{edge.number}", f"{name}, all", shapes.alike_length,
                   length, many)


def _pairings(planes: Iterable[PlanePlan]) -> dict[EdgeKind, Pairing]:
    halves: dict[EdgeKind, list[Half]] = {kind: [] for kind in SHARED}
    for plane in planes:
        for edge in plane.edges:
            if edge.kind in halves:
                for copy in range(_copies(plane)):
                    halves[edge.kind].append(half_of(edge, plane.number, copy))
    ridges, others = pair_up(halves[EdgeKind.RIDGE], [halves[kind] for kind in _SIDES])
    return {EdgeKind.RIDGE: ridges, **dict(zip(_SIDES, others, strict=True))}


def _unlike(
    ledger: Ledger, pairings: dict[EdgeKind, Pairing], names: dict[int, str]
) -> Iterator[Finding]:
    def said(value: float) -> str:
        return show(value, Kind.LENGTH, ledger.job.units)

    for kind, pairing in pairings.items():
        unlike = sorted(pairing.unlike, key=lambda p: abs(p[0].length - p[1].length))
        if not unlike:
            continue
        one, other = unlike[-1]
        more = len(unlike) - 1
        yield Finding(
            Level.CARE, f"roof.{kind.name.lower()}_unlike",
            f"A {kind} is {said(one.length)} on {names[one.plane]} and {said(other.length)} on "
            f"{names[other.plane]}"
            + (f", and {more} more {'does' if more == 1 else 'do'} not agree." if more else "."),
            "Two planes meet there in one line, so one of the two is a measuring mistake, and "
            "that plane's panels come out too long or too short.",
            f"Measure the {kind}, the eaves and the pitch of both planes again.",
            sources.PLANE_GEOMETRY, "roof", ("roof.planes",),
        )


def _unpaired(
    ledger: Ledger, pairings: dict[EdgeKind, Pairing], names: dict[int, str]
) -> Iterator[Finding]:
    for kind, pairing in pairings.items():
        if not pairing.alone:
            continue
        longest = max(pairing.alone, key=lambda h: h.length)
        more = len(pairing.alone) - 1
        yield Finding(
            Level.NOTE, f"roof.{kind.name.lower()}_alone",
            f"A {kind} of {show(longest.length, Kind.LENGTH, ledger.job.units)} on "
            f"{names[longest.plane]} has no partner on another plane"
            + (f", and {more} more {'has' if more == 1 else 'have'} none." if more else "."),
            "It is where two planes meet, so the other plane is missing, has another length "
            "there, or the edge is of another kind.",
            "If it meets a wall, say so on that edge. If a plane is missing, add it. If it is "
            "the top of a shed, or the other plane is not in this order, leave it.",
            sources.PLANE_GEOMETRY, "roof", ("roof.planes",),
        )


def _gone(planes: tuple[PlanePlan, ...]) -> Iterator[Finding]:
    """Edges whose kind was set and that the plane no longer has."""
    for plane in planes:
        gone = [n for n, _ in plane.said if not 1 <= n <= len(plane.edges)]
        if gone:
            yield Finding(
                Level.NOTE, f"{plane.key}.edge_gone",
                f"{plane.name}: the kind of edge {gone[0]} was set; the plane has "
                f"{len(plane.edges)} edges now.",
                "The plane has changed since, so what was said of that edge is not used.",
                "Look at the kinds of this plane's edges, and set them again where they are "
                "wrong.",
                sources.PLANE_GEOMETRY, "roof", ("roof.planes",),
            )
