"""Which lengths can be made from a stock of panels: reachable sums as the bits of a number.

Bit s is set where some choice of panels adds up to s. Lengths are held longest first, and
layer j covers lengths j and shorter, so a sum is taken apart longest length first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from random import Random

Counts = tuple[int, ...]


def extend(bits: int, length: int, count: int, limit: int) -> int:
    """The sums reached with up to `count` more panels of `length`, none above `limit`."""
    count = min(count, limit // length)
    batch = 1
    while count > 0:
        take = min(batch, count)
        bits |= bits << (length * take)
        count -= take
        batch *= 2
    # Cut off once at the end, and only where there is something to cut off: every step over the
    # bits of a long coil costs.
    return bits & _up_to(limit) if bits.bit_length() > limit + 1 else bits


@lru_cache(maxsize=64)
def _up_to(limit: int) -> int:
    """All bits up to `limit` set. Kept: a plan of 400 panels takes a twelfth less time with it."""
    return (1 << (limit + 1)) - 1


def layers(lengths: Sequence[int], counts: Sequence[int], limit: int) -> list[int]:
    """Reachable sums up to `limit`: entry j from lengths j onwards, the last from none."""
    found = [1]
    bits = 1
    for length, count in zip(reversed(lengths), reversed(counts), strict=True):
        if count:
            bits = extend(bits, length, count, limit)
        found.append(bits)
    found.reverse()
    return found


def work(counts: Sequence[int], limit: int) -> float:
    """What working out the layers costs, in units of an allowance."""
    passes = sum(count.bit_length() for count in counts)
    return 3 + passes * (0.6 + limit / 14_000)


def top(bits: int, limit: int) -> int:
    """The largest reachable sum not above `limit` (0 when nothing fits)."""
    return (bits & _up_to(limit)).bit_length() - 1


def sums_down(bits: int, limit: int, least: int = 0) -> Iterator[int]:
    """Reachable sums from `limit` down to `least`."""
    bits &= _up_to(limit)
    while bits:
        high = bits.bit_length() - 1
        if high < least:
            return
        yield high
        bits ^= 1 << high


def choices(
    above: list[int], lengths: Sequence[int], counts: Sequence[int], whole: int
) -> Iterator[Counts]:
    """Every choice of panels that adds up to `whole`, most of the longest first.

    above: the layers of the same lengths and counts. No branch is a dead end.
    """
    taken = [0] * len(lengths)

    def first(j: int, left: int) -> int:
        while j < len(lengths) and (not counts[j] or lengths[j] > left):
            j += 1
        return j

    def takes(j: int, left: int) -> Iterator[int]:
        rest, length = above[j + 1], lengths[j]
        return (take for take in range(min(counts[j], left // length), -1, -1)
                if rest >> (left - take * length) & 1)

    # Not one call within the other: a large roof has more lengths than calls may go deep.
    j = first(0, whole)
    if j == len(lengths):
        if whole == 0:
            yield tuple(taken)
        return
    ways = [(j, whole, takes(j, whole))]
    while ways:
        j, left, more = ways[-1]
        take = next(more, None)
        if take is None:
            taken[j] = 0
            ways.pop()
            continue
        taken[j] = take
        left -= take * lengths[j]
        after = first(j + 1, left)
        if after < len(lengths):
            ways.append((after, left, takes(after, left)))
        elif left == 0:
            yield tuple(taken)


def choose(
    above: list[int], lengths: Sequence[int], counts: Sequence[int], whole: int,
    chance: Random | None = None,
) -> Counts:
    """One choice of panels that adds up to `whole`: most of the longest, or by chance."""
    taken = []
    left = whole
    for j, (length, count) in enumerate(zip(lengths, counts, strict=True)):
        most = min(count, left // length)
        rest = above[j + 1]
        if not most:
            taken.append(0)
            continue
        if chance is None:
            take = next(t for t in range(most, -1, -1) if rest >> (left - t * length) & 1)
        else:
            take = chance.choice(
                [t for t in range(most + 1) if rest >> (left - t * length) & 1]
            )
        taken.append(take)
        left -= take * length
    return tuple(taken)


def minus(counts: Sequence[int], taken: Sequence[int], times: int = 1) -> Counts:
    """Counts with a choice taken out, `times` over."""
    return tuple(c - times * t for c, t in zip(counts, taken, strict=True))


def plus(counts: Sequence[int], added: Sequence[int]) -> Counts:
    """Counts with a choice put back."""
    return tuple(c + a for c, a in zip(counts, added, strict=True))


def whole_length(lengths: Sequence[int], counts: Sequence[int]) -> int:
    """All panels end to end."""
    return sum(length * count for length, count in zip(lengths, counts, strict=True))
