"""What is only said to be wrong, to be told from what is, in a job with mistakes to find."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from coilwright.job.answers.metal import MetalKey
from coilwright.job.steps import MISTAKEN_IN
from coilwright.plan.practice.plant import Planted, mistakes_in
from coilwright.plan.result import Plan

_LEAST, _MOST, _LEAST_APART = 4, 8, 2
_OF_THE_STRIP, _OF_THE_METAL = ("panel", "machine", "coils"), ("metal",)
"""Steps that say what the strip is, and what it runs through."""


def only_said(
    over: Plan, mix: str, subjects: Collection[str], count: int, *, hidden: bool
) -> Iterator[Planted]:
    """Beside so many mistakes, what is only said to be wrong: such as could have been put in.

    They are of the same steps: whoever knows which those are rules out all others. Only where
    these give too few, also with such as could not be put in unseen, are they of steps near those:
    each tells the same strip by another of its numbers, the metal last: more of it than its
    thickness is not of the strip. What is far from them, as a load on the road beside a panel,
    comes where even so there is hardly one.
    """
    strip = _OF_THE_STRIP if set(subjects) & {*_OF_THE_STRIP, *_OF_THE_METAL} else ()
    metal = _OF_THE_METAL if strip else ()
    apart = [one for one in MISTAKEN_IN if one not in {*subjects, *strip, *metal}]
    most = max(_LEAST, min(_MOST, count))
    told = set[str]()
    for steps, unseen, enough in (
        (subjects, hidden, most), (subjects, False, _LEAST), (strip, hidden, _LEAST),
        (strip, False, _LEAST), (metal, hidden, _LEAST), (metal, False, _LEAST),
        (apart, hidden, _LEAST_APART),
    ):
        for one in mistakes_in(over, mix, steps, hidden=unseen):
            if len(told) >= enough:
                break
            if one.finding.key not in told and not _is_of_another_metal(one, subjects):
                told.add(one.finding.key)
                yield one


def _is_of_another_metal(one: Planted, subjects: Collection[str]) -> bool:
    """Whether a metal is named that is in no other line of the job: it is seen to be none at a
    glance. What the roof meets is asked about with the metal, and with nothing else."""
    return one.answer.key == MetalKey.METAL or (
        one.answer.key == MetalKey.TOUCHING and "metal" not in subjects)
