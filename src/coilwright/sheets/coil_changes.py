"""What became of the coils that were ordered, in words: by the numbers on their tags, so that who
slits them knows of each what it is now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coilwright.drawing.plane_facts import runs
from coilwright.plan.coils.changed import changed_coils, renumbered_coils
from coilwright.plan.life import Change

NOTHING = "nothing"
"""What stands for a line that is not there."""
_NOT_YET, _NO_MORE = "not ordered", "not ordered any more"


def coil_changes(before: Mapping[int, str], now: Mapping[int, str]) -> Iterator[Change]:
    """The coils that are not as they were, those that changed alike together.

    before, now: what each coil is, by its number (`ordered_coils`). Where all of them are the coils
    they were and only the numbers moved, that is said.
    """
    moved = renumbered_coils(before, now)
    for one in moved:
        what = f"{len(one.now)} × {one.each}"
        yield Change(f"coil.{runs(one.before)}", f"Tag number of {what}", runs(one.before),
                     runs(one.now))
    for changed in () if moved else changed_coils(before, now):
        numbers, count = runs(changed.numbers), len(changed.numbers)
        was, new = (None if each is None else f"{count:,} × {each}"
                    for each in (changed.before, changed.now))
        yield Change(f"coil.{numbers}", f"Coil{'s' if count > 1 else ''} {numbers}",
                     was or _NOT_YET, new or _NO_MORE)
