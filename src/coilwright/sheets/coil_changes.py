"""What became of the coils that were ordered: which replaces what, as the supplier knows them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coilwright.plan.life import Change, pair_changed

NOTHING = "nothing"
"""What stands for a line that is not there."""

_Ordered = Sequence[tuple[str, str, str]]


def coil_changes(before: _Ordered, now: _Ordered) -> Iterator[Change]:
    """The lines of coils that differ, each known by what its coils are, then by its place.

    Coils have the numbers they were sent with, which the supplier knows them by. Where of some
    alike a part is another size now, or others are of their size, that part is a line of its own,
    so that it is read what replaces what.
    """
    old, new = ([(count, each) for _, count, each in lines] for lines in (before, now))
    pairs = pair_changed(old, new, lambda line: line[1])
    # How many more of one size there are, by the places of its lines.
    more = {(was, place): _number(new[place][0]) - _number(old[was][0]) for was, place in pairs
            if was is not None and place is not None and old[was][1] == new[place][1]}
    alone, taken = [pair for pair in pairs if None in pair], dict.fromkeys(more, 0)
    if alone and len(alone) < len(pairs) and not more:
        # All of another size, and not one for one: whatever became of each, no pair says it.
        yield _in_place(before, now, pairs)
        return
    for was, place in pairs:
        if was is None or place is None or (was, place) not in more:
            continue
        for pair in [*alone]:
            gone, come = pair
            count = old[gone][0] if gone is not None else new[come or 0][0]
            if _number(count) > abs(more[was, place]) or (gone is None) == (more[was, place] > 0):
                continue
            alone.remove(pair)
            taken[was, place] += _number(count)
            more[was, place] += _number(count) if gone is None else -_number(count)
            if gone is None:
                numbers = now[come or 0][0]
                yield Change(f"coil.{numbers}", f"{count} of coils {before[was][0]}, now {numbers}",
                             f"{count} × {old[was][1]}", " × ".join(new[come or 0]))
            else:
                numbers = before[gone][0]
                yield Change(f"coil.{numbers}", _coils_named(numbers), " × ".join(old[gone]),
                             f"{count} × {new[place][1]}")
    for was, place in pairs:
        if None in (was, place) and (was, place) not in alone:
            continue
        if was is not None and place is not None and more.get((was, place), 1) == 0:
            continue
        numbers = (now[place or 0] if was is None else before[was])[0]
        name = _coils_named(numbers)
        if was is None:
            name = f"Added, now {name[:1].lower()}{name[1:]}"
        lines = [NOTHING if at is None else " × ".join(side[at])
                 for side, at in ((old, was), (new, place))]
        if was is not None and place is not None and (gone_by := taken.get((was, place), 0)):
            # What is said above already is not said here once more.
            fewer = more[was, place] < 0
            name = f"Others of coils {numbers}" if fewer else name
            at, (count, each) = (0, old[was]) if fewer else (1, new[place])
            lines[at] = f"{_number(count) - gone_by} × {each}"
        yield Change(f"coil.{numbers}", name, *lines)


def _in_place(
    before: _Ordered, now: _Ordered, pairs: Sequence[tuple[int | None, int | None]]
) -> Change:
    """These lines of coils with what is ordered in their place, in one."""
    were = [before[was] for was, _ in pairs if was is not None]
    are = [now[place] for _, place in pairs if place is not None]
    numbers = ", ".join(line[0] for line in were)
    return Change(f"coil.{numbers}", _coils_named(numbers), *(
        "; ".join(" × ".join(line[1:]) for line in lines) for lines in (were, are)))


def _coils_named(numbers: str) -> str:
    return f"Coil{'' if numbers.isdecimal() else 's'} {numbers}"


def _number(count: str) -> int:
    return int(count.replace(",", ""))
