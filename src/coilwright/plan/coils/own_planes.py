"""Coils on hand that are kept to planes of their own, or to trim, so that two lots never meet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.calc import sources
from coilwright.calc.cutting.cutplan import CannotCut, Demand, cut_plan
from coilwright.calc.split import Batch
from coilwright.job.answers.coils import CoilsKey
from coilwright.plan.coils.cut_lists import TRIM
from coilwright.plan.coils.cuts import QUICK, Batches
from coilwright.plan.coils.stock import Strand
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import PlanePlan
from coilwright.units import Kind, show
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import part_of
from coilwright.words.counting import capitalized, in_series


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
    do not fit, none is cut from the coils that were kept to them, and a finding says so. Coils kept
    to trim alone make as much of it as they hold: trim of two lots meets on no plane.
    """
    cut: list[tuple[int, Batches]] = []
    findings: list[Finding] = []
    closed: set[int] = set()
    gone: dict[Batch, tuple[str, ...]] = {}
    remains: list[Batch] = []
    for kept in _kept(ledger, planes, strands, batches):
        closed.update(kept.strips)
        rooms = [strands[number].usable.value for number in kept.strips]
        shared = sorted(gone.keys() & kept.batches, key=lambda batch: batch.plane)
        if shared:
            twice, others = _name(planes, shared[0]), gone[shared[0]]
            findings.append(_finding(
                strands[kept.strips[0]], kept,
                f"{twice} is kept to {_coils(others)} too, and {_coils(others)} "
                f"{'have' if len(others) > 1 else 'has'} not the same planes in all.",
                f"In the list of coils on hand, take {twice} off one of them, or give all of them "
                "the same planes."))
            continue
        # What a new coil of any length would make of trim is what the coils do not hold of it.
        other = sum(b.length * b.count for b in kept.batches) if kept.names == (TRIM,) else 0.0
        try:
            made = cut_plan([Demand(b.length, b.count, b.plane) for b in kept.batches], rooms,
                            other, keep=keep, seconds=QUICK.seconds)
        except CannotCut:
            findings.append(_finding(
                strands[kept.strips[0]], kept, _too_much(ledger, kept, sum(rooms)),
                "Keep it to fewer planes, to others or to trim; they are cut from other coils "
                "now."))
            continue
        if all(coil.on_hand is None for coil in made.coils):
            findings.append(_finding(
                strands[kept.strips[0]], kept, _too_long(ledger, kept, max(rooms)),
                "Keep it for another job, or make the blanks shorter."))
            continue
        gone.update(dict.fromkeys(kept.batches, kept.tags))
        for coil in made.coils:
            of_it = tuple(Batch(kept.batches[i].plane, kept.batches[i].length, n)
                          for i, n in coil.cuts)
            if coil.on_hand is None:
                remains.extend(of_it)
            else:
                cut.append((kept.strips[coil.on_hand], of_it))
    return OwnPlanes(tuple(cut), (*(b for b in batches if b not in gone), *remains),
                     frozenset(closed), (*findings, *_unknown(ledger, planes, batches)))


def _name(planes: tuple[PlanePlan, ...], batch: Batch) -> str:
    """What panels are for; rows of blanks for trim are those past the last plane."""
    return planes[batch.plane].name if batch.plane < len(planes) else TRIM


def _names(planes: tuple[PlanePlan, ...], batches: Batches) -> dict[str, None]:
    """All that coils can be kept to, in order, each once."""
    trim = any(batch.plane >= len(planes) for batch in batches)
    return dict.fromkeys((*(plane.name for plane in planes), *([TRIM] if trim else [])))


def _kept(
    ledger: Ledger, planes: tuple[PlanePlan, ...], strands: tuple[Strand, ...], batches: Batches
) -> Iterator[_Kept]:
    """The coils by the planes they are kept to; those with the same planes together."""
    groups: dict[frozenset[str], list[int]] = {}
    known = _names(planes, batches)
    for number, strand in enumerate(strands):
        own_names = known.keys() & set(ledger.job.on_hand_planes.get(strand.coil.tag, ()))
        if own_names:
            groups.setdefault(frozenset(own_names), []).append(number)
    for names, strips in groups.items():
        own = tuple(b for b in batches if _name(planes, b) in names)
        tags = tuple(dict.fromkeys(strands[number].coil.tag for number in strips))
        in_order = tuple(name for name in known if name in names)
        yield _Kept(tags, in_order, tuple(strips), own)


def _too_much(ledger: Ledger, kept: _Kept, room: float) -> str:
    system = ledger.job.units
    need = sum(b.length * b.count for b in kept.batches)
    return (f"Its panels are {show(need, Kind.LENGTH, system)} end to end, and it is good for "
            f"{show(room, Kind.LENGTH, system)}, whole panels only.")


def _too_long(ledger: Ledger, kept: _Kept, room: float) -> str:
    system, least = ledger.job.units, min(b.length for b in kept.batches)
    return (f"The shortest row of its blanks is {show(least, Kind.LENGTH, system)}, and it is good "
            f"for {show(room, Kind.LENGTH, system)}.")


def _finding(strand: Strand, kept: _Kept, why: str, do: str) -> Finding:
    many = len(kept.tags) > 1
    return Finding(
        Level.CARE, part_of(strand.key, "planes"),
        f"{capitalized(_coils(kept.tags))} cannot be kept to {in_series(kept.names)}, and "
        f"{'are' if many else 'is'} not used.", why, do, sources.TRADE, "coils",
        (CoilsKey.KEEP_LENGTH,),
    )


def _coils(tags: tuple[str, ...]) -> str:
    return f"coil{'s' if len(tags) > 1 else ''} " + in_series(
        [f"“{tag}”" for tag in tags])


def _unknown(
    ledger: Ledger, planes: tuple[PlanePlan, ...], batches: Batches
) -> Iterator[Finding]:
    """Planes that a coil is kept to and the roof does not have; trim, where none is cut so."""
    known = _names(planes, batches)
    for number, coil in enumerate(ledger.job.on_hand, 1):
        strange = [n for n in ledger.job.on_hand_planes.get(coil.tag, ()) if n not in known]
        if strange and planes:
            yield Finding(
                Level.CARE, f"on_hand.{number}.planes_unknown",
                f"Coil “{coil.tag}” is kept to {in_series(strange)}, which the roof does not "
                "have.",
                "No trim is cut from the panels' coil." if strange == [TRIM]
                else "A plane was renamed or taken away since.",
                "Pick its planes again in the list of coils on hand.", sources.TRADE, "coils",
                (CoilsKey.KEEP_LENGTH,),
            )
