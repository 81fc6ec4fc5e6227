"""Panels shared out to coils on hand and new coils, and what is proven about it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from coilwright.calc import split
from coilwright.calc.cutting.cutplan import CannotCut, Demand, cut_plan
from coilwright.calc.split import Batch

Batches = tuple[Batch, ...]


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look for the least metal.

    seconds: the time allowed. clock: seconds that go up; None lets work alone decide, so that
    the same job gives the same plan. progress: called with the new metal of the best cut plan
    and the bound [in]. cancelled: asked often; once true the best so far is taken.
    """

    seconds: float
    clock: Callable[[], float] | None = None
    progress: Callable[[float, float], None] | None = None
    cancelled: Callable[[], bool] | None = None


_LOOSE = 1e-6
"""Metal that counts as none [in]."""
QUICK = Effort(0.0125)
"""What a keystroke can wait for."""


@dataclass(frozen=True, slots=True)
class Question:
    """What is to be shared out, as `share_out` takes it; all in inches."""

    batches: Batches
    usable: float
    loss: float
    rooms: tuple[float, ...]
    keep: float


@dataclass(frozen=True, slots=True)
class Shared:
    """Panels by coil.

    on_hand: (number of the strip, panels). new: panels of each new coil. metal: panels cut from
    new coils and the loss of each [in]; bound: no sharing needs less. proven: of the metal, then
    of the number of new coils too. coils_bound: no sharing has fewer new coils. kept: a longer
    search found it, and the job kept it; noted: that search wrote down that nothing needs less
    metal, which is no proof here.
    """

    on_hand: tuple[tuple[int, Batches], ...]
    new: tuple[Batches, ...]
    metal: float
    bound: float
    proven: bool
    proven_coils: bool
    coils_bound: int = 0
    kept: bool = False
    noted: bool = False


def share_out(
    batches: Batches, usable: float, loss: float, rooms: tuple[float, ...], keep: float,
    effort: Effort = QUICK, kept: Shared | None = None,
) -> Shared:
    """Share panels out with the least metal newly ordered, then the fewest new coils.

    usable: panels one new coil is good for; loss: what each new coil loses, as panels; rooms:
    what each strip on hand is good for; keep: a shorter leftover is a stub. All in inches.
    kept: a sharing found before for the same question, taken where the quick one is no better.
    Without coils on hand the plain sharing is taken where it meets its bound.
    Raises split.PanelTooLong where panels fit no coil.
    """
    plain = None
    if max(b.length for b in batches) <= usable or not rooms:
        plain = split.split(batches, usable)
        metal = sum(b.length * b.count for b in batches) + loss * len(plain.coils)
        if not rooms and len(plain.coils) == plain.fewest:
            return Shared((), plain.coils, metal, metal, True, True, plain.fewest)
    quick: Shared | None
    try:
        quick = _kept(batches, usable, loss, rooms, keep)
    except CannotCut:
        if effort is QUICK and kept is None:
            raise split.PanelTooLong from None
        quick = None
    quick = _better_of(quick, kept)
    found = quick or _searched(batches, usable, loss, rooms, keep, effort, None)
    if quick is not None and effort is not QUICK:
        if effort.progress is not None:
            effort.progress(quick.metal, quick.bound)
        if not (quick.proven and quick.proven_coils):
            found = _searched(batches, usable, loss, rooms, keep, effort, quick)
    # Where it is as good, the plain sharing reads better: it keeps planes together.
    same = not rooms and plain is not None and len(plain.coils) <= len(found.new)
    if plain is not None and (same or metal < found.metal):
        return replace(found, on_hand=(), new=plain.coils, metal=metal,
                       bound=min(found.bound, metal), kept=False, noted=False)
    return found


def _better_of(quick: Shared | None, kept: Shared | None) -> Shared | None:
    """The kept sharing where it is no worse than the quick one, proven by the quick one's bounds.

    What the job's file says was proven of it is not counted: anybody can write there.
    """
    if quick is None or kept is None:
        return quick or kept
    less = kept.metal < quick.metal - _LOOSE
    if kept.metal > quick.metal + _LOOSE or (not less and len(kept.new) > len(quick.new)):
        return quick
    bound = max(kept.bound, quick.bound)
    proven = bound >= kept.metal - _LOOSE
    fewest = len(kept.new) <= quick.coils_bound or (
        quick.proven_coils and not less and len(kept.new) == len(quick.new))
    return replace(kept, bound=kept.metal if proven else bound, proven=proven,
                   proven_coils=proven and fewest, coils_bound=quick.coils_bound,
                   noted=kept.noted and not proven)


def forget_cuts() -> None:
    """Drop the cut plans that are kept, so that a benchmark measures the work."""
    _kept.cache_clear()


def _searched(
    batches: Batches, usable: float, loss: float, rooms: tuple[float, ...], keep: float,
    effort: Effort, quick: Shared | None,
) -> Shared:
    """The longer search's sharing, or the quick one where that is no worse."""
    try:
        found = _cut(batches, usable, loss, rooms, keep, effort)
    except CannotCut:
        if quick is None:
            raise split.PanelTooLong from None
        return quick
    if quick is None or (found.metal, len(found.new)) <= (quick.metal, len(quick.new)):
        return found
    bound = min(quick.metal, max(quick.bound, found.bound))
    return replace(quick, bound=bound, proven=quick.proven or bound >= quick.metal)


@lru_cache(maxsize=64)
def _kept(
    batches: Batches, usable: float, loss: float, rooms: tuple[float, ...], keep: float
) -> Shared:
    return _cut(batches, usable, loss, rooms, keep, QUICK)


def _cut(
    batches: Batches, usable: float, loss: float, rooms: tuple[float, ...], keep: float,
    effort: Effort,
) -> Shared:
    cut = cut_plan(
        [Demand(b.length, b.count, b.plane) for b in batches], rooms, max(0.0, usable),
        loss_per_new=loss, keep=keep, even_within=max(b.length for b in batches),
        seconds=effort.seconds, progress=effort.progress, cancelled=effort.cancelled,
        clock=effort.clock,
    )
    made = [
        (coil.on_hand, tuple(Batch(batches[i].plane, batches[i].length, n) for i, n in coil.cuts))
        for coil in cut.coils
    ]
    return Shared(
        tuple((number, cuts) for number, cuts in made if number is not None),
        tuple(cuts for number, cuts in made if number is None),
        cut.new_metal, cut.new_metal_bound, cut.proven.metal, cut.proven.coils,
        cut.new_coils_bound,
    )
