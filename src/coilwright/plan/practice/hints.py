"""Hints, one after the other: where it is, what is to be looked at, why. Each one is counted."""

from __future__ import annotations

import dataclasses
from collections import Counter

from coilwright.job.attempt import Response
from coilwright.plan.practice.solve import Solution

_MOST_TERMS = 6
"""Of more figures that go into a number, naming them helps nobody."""
_MOST_COUNTED = 99
NO_HINT = ("There is no hint for this one, and nothing was counted. Each number that it needs "
           "stands on one of the papers: ← → read them. On the job's steps F2 shows how a figure "
           "is worked out. What is not known may be left open: hand in with i.")
"""What to do where there is none."""
NO_MORE = ("Nothing more is told of this one. Go through the papers once more, line by line, and "
           "hold each number to what it has to fit: the machine, the report, the supplier.")
"""What to do where all of them are told."""


def general_hints(solution: Solution) -> tuple[str, ...]:
    """Those of the decision itself: its own, or of a number what it follows from."""
    if solution.decision.hints or solution.figure is None:
        return solution.decision.hints
    figure = solution.figure
    while not callable(figure.given) and len(figure.terms) == 1:
        figure = figure.terms[0]  # the sum of one is that one: named, it would say nothing
    if callable(figure.given) or not 0 < len(figure.terms) <= _MOST_TERMS:
        return ()
    labels = list(dict.fromkeys(term.label for term in figure.terms))
    named = f"{', '.join(labels[:-1])} and {labels[-1]}" if len(labels) > 1 else labels[0]
    return ("Where: what it needs stands on the papers.", f"What: it follows from {named}.")


def hints_told(solution: Solution, response: Response) -> tuple[str, ...]:
    """Those that were taken, in the order they were."""
    general = general_hints(solution)
    taken = max(0, response.hints - len(response.hinted))
    told, seen = list(general[:taken]), Counter[str]()
    for key in response.hinted:
        option = solution.decision.option(key)
        if option is not None and seen[key] < len(option.hints):
            told.append(option.hints[seen[key]])
            seen[key] += 1
    return tuple(told)


def has_hints(solution: Solution) -> bool:
    """Whether there is any, taken or not."""
    return bool(general_hints(solution)) or any(
        option.hints for option in solution.decision.options)


def take_hint(solution: Solution, response: Response) -> Response:
    """The response with one more hint: of the decision, then of what is right and not picked yet.

    It is counted even where nothing more is told: that too says how much there is to find.
    """
    if not has_hints(solution):
        return response
    count = min(response.hints + 1, _MOST_COUNTED)
    general = general_hints(solution)
    if response.hints - len(response.hinted) < len(general):
        return dataclasses.replace(response, hints=count)
    taken = Counter(response.hinted)
    for option in solution.decision.options:
        if (option.key in solution.right and option.key not in response.picks
                and taken[option.key] < len(option.hints)):
            return dataclasses.replace(
                response, hints=count, hinted=(*response.hinted, option.key))
    if all(option.key not in solution.right or not option.hints
           for option in solution.decision.options):
        return response  # the decision's own are told, and there never were others
    return dataclasses.replace(response, hints=count)


def next_hint(solution: Solution, response: Response) -> str:
    """What asking for one more brings, and that it counts; that there is none, where there is none.

    How many there are is said of those of the decision itself: of the others it would tell how
    many things there are to find.
    """
    if not has_hints(solution):
        return NO_HINT
    general = len(general_hints(solution))
    taken = response.hints - len(response.hinted)
    again = "h again" if response.hints else "h"
    if taken < general:
        return f"{again} takes the next hint ({taken + 1} of {general}); it counts."
    if take_hint(solution, response) == response:
        return NO_MORE
    return f"{again} takes the next hint; it counts, even where nothing more is told."
