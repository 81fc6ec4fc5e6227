"""Attempts at practice jobs: one that is right, and any mistake planted in it."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Iterator

from coilwright.job.attempt import Attempt, Response
from coilwright.job.practice import fingerprint
from coilwright.plan.practice.review import Mistake, Slip
from coilwright.plan.practice.solve import Solution, Solved
from coilwright.units import Kind, show

WHEN = datetime.datetime(2027, 3, 1, 16, 30, tzinfo=datetime.UTC)


def right_attempt(solved: Solved, name: str = "P. Demo") -> Attempt:
    """What the key says, as somebody would hand it in."""
    return Attempt(
        practice=solved.practice.name, seed=solved.seed, name=name, begun=WHEN,
        fingerprint=fingerprint(solved.practice),
        responses={one.decision.key: right_response(one) for one in solved.solutions},
    ).hand_in(WHEN)


def right_response(solution: Solution) -> Response:
    """The key's answer to one decision."""
    if solution.figure is not None:
        return Response(text=solution.text)
    return Response(picks=tuple(k for k in solution.right if solution.decision.option(k)))


def mistakes(solution: Solution) -> Iterator[tuple[Mistake, Response]]:
    """Every mistake that can be made alone in a decision, and what was handed in then."""
    key, right = solution.decision.key, right_response(solution)
    if solution.figure is not None:
        figure = solution.figure
        step = 1.0 if figure.kind is Kind.COUNT else figure.value / 2
        for slip, value in ((Slip.LESS, figure.value - step), (Slip.MORE, figure.value + step)):
            yield Mistake(key, slip), Response(
                text=show(value, figure.kind, solution.units))
        yield Mistake(key, Slip.BLANK), Response(text="  ")
        yield Mistake(key, Slip.UNREADABLE), Response(text="about enough")
        return
    if right.picks:
        yield Mistake(key, Slip.BLANK), Response()
    for option in solution.decision.options:
        if option.accepted:
            continue
        if option.key in right.picks:
            if len(right.picks) > 1:
                left = tuple(k for k in right.picks if k != option.key)
                yield (Mistake(key, Slip.MISSED, option.words),
                       dataclasses.replace(right, picks=left))
        else:
            picks = () if solution.decision.judged.picks_one else right.picks
            one = solution.decision.judged.picks_one
            yield (Mistake(key, Slip.WRONG_PICK if one else Slip.FALSE_ALARM, option.words),
                   dataclasses.replace(right, picks=(*picks, option.key)))
