"""Cuts that a longer search found, kept with the job: written down, and held to the job again."""

from __future__ import annotations

import math
from collections import Counter

from coilwright.calc.split import Batch, PanelTooLong
from coilwright.job.found_cuts import FoundCoil, FoundCuts, FoundPanels
from coilwright.plan.coils.cuts import QUICK, Batches, Effort, Question, Shared, share_out

_LOOSE = 1e-6
"""Slack of a coil's room [in]."""
_SAME = 1e-9
"""Relative slack of a length that was written down and read again."""


def share_with_kept(
    question: Question, before: FoundCuts | None, effort: Effort
) -> tuple[Shared, FoundCuts | None]:
    """The sharing, and what the job should keep of it where the quick search falls short of it.

    before: what the job kept of an earlier search. Raises split.PanelTooLong.
    """
    asked = (question.batches, question.usable, question.loss, question.rooms, question.keep)
    shared = share_out(*asked, effort, kept_cuts(question, before))
    if effort is QUICK:
        return shared, None
    try:
        quick: Shared | None = share_out(*asked)
    except PanelTooLong:
        quick = None
    if shared == quick:
        return shared, None
    # Cuts that were kept already keep what was noted of them, until something is proven anew.
    return shared, before if shared.kept and not shared.proven else found_cuts(question, shared)


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
        bound=shared.bound, proven=shared.proven, proven_coils=shared.proven_coils,
    )


def kept_cuts(question: Question, found: FoundCuts | None) -> Shared | None:
    """The sharing that was kept, where it answers this very question; else None.

    The cuts are held to the job: every panel once, no coil overfilled, and the metal worked out
    anew. The bound is that of all strips on hand used up; the one that was written down, and that
    something was proven, could have been edited, so it is passed on as a note only.
    """
    if found is None or not _same(question, found) or not _holds(question, found):
        return None
    batches = question.batches
    made = [
        (coil.on_hand, tuple(Batch(batches[i].plane, batches[i].length, n) for i, n in coil.cuts))
        for coil in found.coils
    ]
    new = tuple(cuts for number, cuts in made if number is None)
    metal = math.fsum([*(b.length * b.count for cuts in new for b in cuts),
                       question.loss * len(new)])
    whole = math.fsum(b.length * b.count for b in batches)
    bound = min(metal, max(0.0, whole - math.fsum(question.rooms)))
    proven = bound >= metal - _LOOSE
    return Shared(tuple((number, cuts) for number, cuts in made if number is not None), new,
                  metal, bound, proven, proven and not new, kept=True,
                  noted=found.proven and not proven)


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
