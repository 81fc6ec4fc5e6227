"""What became of the coils of an order, number by number: each has its number on its tag."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CoilsChanged:
    """Coils that were one thing and are another by now.

    numbers: theirs, in order. before, now: what each was and is; None where it was not ordered, or
    is not any more.
    """

    numbers: tuple[int, ...]
    before: str | None
    now: str | None


@dataclass(frozen=True, slots=True)
class CoilsRenumbered:
    """Coils that are what they were and have other numbers; each: what they are."""

    each: str
    before: tuple[int, ...]
    now: tuple[int, ...]


def changed_coils(before: Mapping[int, str], now: Mapping[int, str]) -> tuple[CoilsChanged, ...]:
    """The coils that are not what they were, those that changed alike together.

    before, now: what each coil is, by its number.

    >>> changed_coils({1: "600 ft", 2: "600 ft"}, {1: "400 ft", 2: "400 ft", 3: "400 ft"})[0]
    CoilsChanged(numbers=(1, 2), before='600 ft', now='400 ft')
    """
    alike: dict[tuple[str | None, str | None], list[int]] = {}
    for number in sorted({*before, *now}):
        if (what := (before.get(number), now.get(number)))[0] != what[1]:
            alike.setdefault(what, []).append(number)
    return tuple(CoilsChanged(tuple(numbers), *what) for what, numbers in alike.items())


def renumbered_coils(
    before: Mapping[int, str], now: Mapping[int, str]
) -> tuple[CoilsRenumbered, ...]:
    """The coils that only have other numbers; none where any is another coil.

    >>> renumbered_coils({1: "600 ft", 2: "900 ft"}, {1: "900 ft", 2: "600 ft"})[0]
    CoilsRenumbered(each='600 ft', before=(1,), now=(2,))
    """
    if Counter(before.values()) != Counter(now.values()):
        return ()
    numbers = {each: [tuple(n for n in sorted(side) if side[n] == each) for side in (before, now)]
               for each in dict.fromkeys(before.values())}
    return tuple(CoilsRenumbered(each, was, new) for each, (was, new) in numbers.items()
                 if was != new)
