"""Coils on hand that are kept to planes of their own, so that two lots never meet on one plane."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.calc import sources
from coilwright.calc.cutting.cutplan import CannotCut, Demand, cut_plan
from coilwright.calc.split import Batch
from coilwright.job.answers.coils import CoilsKey
from coilwright.plan.coils.cuts import QUICK, Batches
from coilwright.plan.coils.stock import Strand
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import PlanePlan
from coilwright.units import Kind, show
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import part_of
from coilwright.words.counting import capitalized


@dataclass(frozen=True, slots=True)
class OwnPlanes:
    """What is cut from coils with planes of their own, and what is left for all others.

    cut: (number of the strip, panels). rest: panels of the other planes. closed: strips that no
    other plane is cut from.
    """

    cut: tuple[tuple[int, Batches], ...]
    rest: Batches
    closed: frozenset[int]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class _Kept:
    """Coils that have the same planes of their own: tags, names, strips and panels."""

    tags: tuple[str, ...]
    names: tuple[str, ...]
    strips: tuple[int, ...]
    batches: Batches


def cut_own_planes(
    ledger: Ledger, planes: tuple[PlanePlan, ...], strands: tuple[Strand, ...], batches: Batches,
    keep: float,
) -> OwnPlanes:
    """Cut each plane that coils are kept to from those coils alone, and nothing else from them.

    keep: a shorter leftover is not worth keeping, as panels [in]. Where the panels of such planes
    do not fit, none is cut from the coils that were kept to them, and a finding says so.
    """
    cut: list[tuple[int, Batches]] = []
    findings: list[Finding] = []
    closed: set[int] = set()
    gone: dict[Batch, tuple[str, ...]] = {}
    for kept in _kept(ledger, planes, strands, batches):
        closed.update(kept.strips)
        rooms = [strands[number].usable.value for number in kept.strips]
        shared = sorted(gone.keys() & kept.batches, key=lambda batch: batch.plane)
        if shared:
            twice, others = planes[shared[0].plane].name, gone[shared[0]]
            findings.append(_finding(
                strands[kept.strips[0]], kept,
                f"{twice} is kept to {_coils(others)} too, and {_coils(others)} "
                f"{'have' if len(others) > 1 else 'has'} not the same planes in all.",
                f"In the list of coils on hand, take {twice} off one of them, or give all of them "
                "the same planes."))
            continue
        try:
            made = cut_plan([Demand(b.length, b.count, b.plane) for b in kept.batches], rooms, 0.0,
                            keep=keep, seconds=QUICK.seconds)
        except CannotCut:
            findings.append(_finding(
                strands[kept.strips[0]], kept, _too_much(ledger, kept, sum(rooms)),
                "Keep it to fewer planes, or to others; they are cut from other coils now."))
            continue
        gone.update(dict.fromkeys(kept.batches, kept.tags))
        for coil in made.coils:
            assert coil.on_hand is not None
            cut.append((kept.strips[coil.on_hand], tuple(
                Batch(kept.batches[i].plane, kept.batches[i].length, n) for i, n in coil.cuts)))
    return OwnPlanes(tuple(cut), tuple(b for b in batches if b not in gone), frozenset(closed),
                     (*findings, *_unknown(ledger, planes)))


def _kept(
    ledger: Ledger, planes: tuple[PlanePlan, ...], strands: tuple[Strand, ...], batches: Batches
) -> Iterator[_Kept]:
    """The coils by the planes they are kept to; those with the same planes together."""
    groups: dict[frozenset[str], list[int]] = {}
    known = {plane.name for plane in planes}
    for number, strand in enumerate(strands):
        own_names = known.intersection(ledger.job.on_hand_planes.get(strand.coil.tag, ()))
        if own_names:
            groups.setdefault(frozenset(own_names), []).append(number)
    for names, strips in groups.items():
        own = tuple(b for b in batches if b.plane < len(planes) and planes[b.plane].name in names)
        tags = tuple(dict.fromkeys(strands[number].coil.tag for number in strips))
        in_order = tuple(dict.fromkeys(plane.name for plane in planes if plane.name in names))
        yield _Kept(tags, in_order, tuple(strips), own)


def _too_much(ledger: Ledger, kept: _Kept, room: float) -> str:
    system = ledger.job.units
    need = sum(b.length * b.count for b in kept.batches)
    return (f"Its panels are {show(need, Kind.LENGTH, system)} end to end, and it is good for "
            f"{show(room, Kind.LENGTH, system)}, whole panels only.")


def _finding(strand: Strand, kept: _Kept, why: str, do: str) -> Finding:
    many = len(kept.tags) > 1
    return Finding(
        Level.CARE, part_of(strand.key, "planes"),
        f"{capitalized(_coils(kept.tags))} cannot be kept to {' and '.join(kept.names)}, and "
        f"{'are' if many else 'is'} not used.", why, do, sources.TRADE, "coils",
        (CoilsKey.KEEP_LENGTH,),
    )


def _coils(tags: tuple[str, ...]) -> str:
    return f"coil{'s' if len(tags) > 1 else ''} " + " and ".join(f"“{tag}”" for tag in tags)


def _unknown(ledger: Ledger, planes: tuple[PlanePlan, ...]) -> Iterator[Finding]:
    """Planes that a coil is kept to and the roof does not have."""
    known = {plane.name for plane in planes}
    for number, coil in enumerate(ledger.job.on_hand, 1):
        strange = [n for n in ledger.job.on_hand_planes.get(coil.tag, ()) if n not in known]
        if strange and planes:
            yield Finding(
                Level.CARE, f"on_hand.{number}.planes_unknown",
                f"Coil “{coil.tag}” is kept to {' and '.join(strange)}, which the roof does not "
                "have.", "A plane was renamed or taken away since.",
                "Pick its planes again in the list of coils on hand.", sources.TRADE, "coils",
                (CoilsKey.KEEP_LENGTH,),
            )
