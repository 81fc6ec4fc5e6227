"""Panels shared out to coils on hand and new coils, how good that is, and cuts kept with a job."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

from coilwright.calc import split
from coilwright.calc.cutting.cutplan import CannotCut, Demand, cut_plan
from coilwright.calc.cutting.evened import UNEVEN, even_coils
from coilwright.calc.split import Batch
from coilwright.job.found_cuts import FoundCoil, FoundCuts, FoundPanels
from coilwright.job.limits import MOST_SHARED_OUT

Batches = tuple[Batch, ...]
_LOOSE = 1e-6
"""Metal that counts as none, and slack of a coil's room [in]."""
_SAME = 1e-9
"""Relative slack of a length that was written down and read again."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look for the least metal.

    seconds: the time allowed. clock: seconds that go up; None lets work alone decide, so that
    the same job gives the same plan. progress: called with the new metal of the best cut plan
    and the bound [in]. canceled: asked often; once true the best so far is taken.
    """

    seconds: float
    clock: Callable[[], float] | None = None
    progress: Callable[[float, float], None] | None = None
    canceled: Callable[[], bool] | None = None


QUICK = Effort(0.0125)
"""What a keystroke can wait for."""


@dataclass(frozen=True, slots=True)
class Question:
    """What is to be shared out; all in inches.

    usable: panels one new coil is good for. loss: what each new coil loses, as panels. rooms:
    what each strip on hand is good for. keep: a shorter leftover is not worth keeping.
    """

    batches: Batches
    usable: float
    loss: float
    rooms: tuple[float, ...]
    keep: float


@dataclass(frozen=True, slots=True)
class Shared:
    """Panels by coil; lengths in inches.

    on_hand: (number of the strip, panels). new: panels of each new coil. metal: panels cut from
    new coils, and the loss of each. bound: no sharing needs less metal. fewest: no sharing that
    needs as little metal has fewer new coils.
    """

    on_hand: tuple[tuple[int, Batches], ...]
    new: tuple[Batches, ...]
    metal: float
    bound: float
    fewest: int

    @property
    def least(self) -> bool:
        """Whether no sharing needs less metal."""
        return self.bound >= self.metal - _LOOSE

    @property
    def proven(self) -> bool:
        """Whether no sharing needs less metal, or as little in fewer new coils."""
        return self.least and len(self.new) <= self.fewest


def share_out(
    question: Question, effort: Effort = QUICK, kept: FoundCuts | None = None
) -> tuple[Shared, FoundCuts | None]:
    """Share panels out with the least metal newly ordered, then the fewest new coils.

    kept: what the job keeps of an earlier search; it counts where it answers this question and
    the quick search finds nothing better. Returned with the sharing: what the job should keep,
    None where the quick search finds as much. A longer effort searches only while the sharing is
    not proven.
    Raises split.PanelTooLong where no way is found to cut the panels.
    """
    plain = _plain(question)
    if plain is not None and plain.proven and not question.rooms:
        # Without coils on hand, where it meets its bound: it reads best, planes together.
        return plain, None
    quick = _cut(question, QUICK, plain)
    best, found = _better(quick, kept_cuts(question, kept)), kept
    if effort.progress is not None and best is not None:
        effort.progress(best.metal, best.bound)
    settled = best is not None and best.proven
    if effort is not QUICK and not settled and len(question.batches) <= MOST_SHARED_OUT:
        searched = _better_searched(best, _cut(question, effort, plain))
        if searched is not None and best is not None and _same_coils(searched, best):
            best = searched
        elif searched is not None:
            best, found = searched, found_cuts(question, searched)
    if best is None:
        raise split.PanelTooLong
    if quick is not None and _same_coils(best, quick):
        found = None
    return best, found


def _plain(question: Question) -> Shared | None:
    """All panels from new coils, planes together where they can be; None where one is too long."""
    try:
        shared = split.split(question.batches, question.usable)
    except split.PanelTooLong:
        return None
    shared = replace(shared, coils=even_coils(shared.coils, question.usable, QUICK.seconds))
    whole = sum(b.length * b.count for b in question.batches)
    metal = whole + question.loss * len(shared.coils)
    if question.rooms:
        return Shared((), shared.coils, metal, min(metal, _metal_bound(question)), 0)
    bound = whole + question.loss * shared.fewest
    return Shared((), shared.coils, metal, bound, shared.fewest)


def _metal_bound(question: Question) -> float:
    """Metal still needed from new coils where every strip on hand is used to the last inch."""
    whole = math.fsum(b.length * b.count for b in question.batches)
    return max(0.0, whole - math.fsum(question.rooms))


def _cut(question: Question, effort: Effort, plain: Shared | None) -> Shared | None:
    """The search's sharing, or the plain one where that is as good; None where no way is found."""
    batches = question.batches
    try:
        cut = cut_plan(
            [Demand(b.length, b.count, b.plane) for b in batches], question.rooms,
            max(0.0, question.usable), loss_per_new=question.loss, keep=question.keep,
            even_within=UNEVEN * question.usable, seconds=effort.seconds,
            progress=effort.progress, canceled=effort.canceled, clock=effort.clock,
        )
    except CannotCut:
        return plain
    on_hand, new = _by_coil(batches, [(coil.on_hand, coil.cuts) for coil in cut.coils])
    # A search that was cut short leaves new coils as it packed them: one full, one nearly empty.
    new = even_coils(new, question.usable, QUICK.seconds)
    fewest = cut.new_coils if cut.proven.coils else cut.new_coils_bound
    found = Shared(on_hand, new, cut.new_metal, cut.new_metal_bound, fewest)
    if plain is None:
        return found
    # Where it is as good, the plain sharing reads better: it keeps planes together.
    same = not question.rooms and len(plain.new) <= len(found.new)
    if same or plain.metal < found.metal:
        return replace(plain, bound=min(found.bound, plain.metal), fewest=found.fewest)
    return found


def _better(quick: Shared | None, kept: Shared | None) -> Shared | None:
    """The kept sharing where it is no worse than the quick one, proven by the quick one's bounds.

    What a job's file says was proven of it is not counted: anybody can write there.
    """
    if quick is None or kept is None:
        return quick or kept
    less = kept.metal < quick.metal - _LOOSE
    if kept.metal > quick.metal + _LOOSE or (not less and len(kept.new) > len(quick.new)):
        return quick
    bound = min(kept.metal, max(kept.bound, quick.bound))
    return replace(kept, bound=bound, fewest=quick.fewest)


def _better_searched(best: Shared | None, searched: Shared | None) -> Shared | None:
    """What the longer search found, or the best so far where that is better, with both bounds."""
    if best is None or searched is None:
        return searched
    if (searched.metal, len(searched.new)) <= (best.metal, len(best.new)):
        return searched
    return replace(best, bound=min(best.metal, max(best.bound, searched.bound)))


def _same_coils(one: Shared, other: Shared) -> bool:
    return (one.on_hand, one.new) == (other.on_hand, other.new)


def _by_coil(
    batches: Batches, coils: list[tuple[int | None, tuple[tuple[int, int], ...]]]
) -> tuple[tuple[tuple[int, Batches], ...], tuple[Batches, ...]]:
    """(number of the strip or None, (place of the batch, panels)) → strips on hand, new coils."""
    made = [
        (number, tuple(Batch(batches[i].plane, batches[i].length, n) for i, n in cuts))
        for number, cuts in coils
    ]
    return (tuple((number, cuts) for number, cuts in made if number is not None),
            tuple(cuts for number, cuts in made if number is None))


# -- kept with a job -----------------------------------------------------------------------
def found_cuts(question: Question, shared: Shared) -> FoundCuts:
    """What to keep of a sharing, with the question it answers."""
    places = {(b.plane, b.length): i for i, b in enumerate(question.batches)}

    def coil(number: int | None, cuts: Batches) -> FoundCoil:
        return FoundCoil(on_hand=number,
                         cuts=tuple((places[b.plane, b.length], b.count) for b in cuts))

    return FoundCuts(
        usable=question.usable, loss=question.loss, keep=question.keep, rooms=question.rooms,
        panels=tuple(FoundPanels(plane=b.plane, length=b.length, count=b.count)
                     for b in question.batches),
        coils=(*(coil(number, cuts) for number, cuts in shared.on_hand),
               *(coil(None, cuts) for cuts in shared.new)),
    )


def kept_cuts(question: Question, found: FoundCuts | None) -> Shared | None:
    """The sharing that was kept, where it answers this very question; else None.

    The cuts are held to the job: every panel once, no coil overfilled, and the metal worked out
    anew, for a file can be edited. The bound is that of all strips on hand used up.
    """
    if found is None or not _same(question, found) or not _holds(question, found):
        return None
    on_hand, new = _by_coil(question.batches, [(c.on_hand, c.cuts) for c in found.coils])
    metal = math.fsum([*(b.length * b.count for cuts in new for b in cuts),
                       question.loss * len(new)])
    return Shared(on_hand, new, metal, min(metal, _metal_bound(question)), 0)


def _same(question: Question, found: FoundCuts) -> bool:
    numbers = (question.usable, question.loss, question.keep, *question.rooms,
               *(b.length for b in question.batches))
    others = (found.usable, found.loss, found.keep, *found.rooms,
              *(p.length for p in found.panels))
    return (
        len(question.rooms) == len(found.rooms)
        and [(b.plane, b.count) for b in question.batches] == [
            (p.plane, p.count) for p in found.panels]
        and all(math.isclose(a, b, rel_tol=_SAME, abs_tol=_SAME)
                for a, b in zip(numbers, others, strict=True))
    )


def _holds(question: Question, found: FoundCuts) -> bool:
    """Whether every panel is cut once, from strips that are there, none of them overfilled."""
    batches = question.batches
    cut: Counter[int] = Counter()
    strips = [coil.on_hand for coil in found.coils if coil.on_hand is not None]
    if len(set(strips)) < len(strips) or not all(0 <= s < len(question.rooms) for s in strips):
        return False
    for coil in found.coils:
        if not coil.cuts or not all(0 <= i < len(batches) and n > 0 for i, n in coil.cuts):
            return False
        room = question.usable if coil.on_hand is None else question.rooms[coil.on_hand]
        if math.fsum(batches[i].length * n for i, n in coil.cuts) > room + _LOOSE:
            return False
        for i, n in coil.cuts:
            cut[i] += n
    return all(cut[i] == batch.count for i, batch in enumerate(batches))
