"""A plan as somebody sees it who practices: without what there is to be found.

Screens, sheets, the command line and the JSON all show a plan, so what is kept back here is
nowhere: findings, marks, the ranking, the limits and which of them governs, and what is over.
"""

from __future__ import annotations

import dataclasses

from coilwright.plan.ready import Readiness, Reason, ReasonKind
from coilwright.plan.result import Plan
from coilwright.values.figure import Figure
from coilwright.values.keys import Key

_LIMITS, _MARGIN = "limit.", ".margin"
HIDDEN = frozenset((Key.COIL_LONGEST, Key.COIL_RACK_TOGETHER))
"""Figures that say which limit governs, beside the limits themselves."""


def conceal(plan: Plan) -> Plan:
    """The plan without what there is to be found in practice.

    Figures that rest on a limit keep their numbers and lose their working. The job itself bears no
    marks but those that its reader made (`job.practice.to_work_on`), and those made by a change,
    as of a take-up once the thickness is another: they are shown, or nothing would say what the `~`
    of a weight is about.
    """
    shown: dict[int, Figure] = {}
    return dataclasses.replace(
        plan,
        figures={
            key: _plain(figure, shown) for key, figure in plan.figures.items()
            if not is_hidden(key)
        },
        lacks={key: lack for key, lack in plan.lacks.items() if not is_hidden(key)},
        limits=(), governing=None, fits=(), loads=(), findings=(),
        readiness=Readiness(
            (Reason(ReasonKind.MISSING, "practice", "This is practice.",
                    "What there is to find shows once it is handed in."),),
            concealed=True,
        ),
    )


def is_hidden(key: str) -> bool:
    """Whether a figure is kept back: a limit, what is left to it, or which of them governs."""
    return key.startswith(_LIMITS) or key.endswith(_MARGIN) or key in HIDDEN


def _plain(figure: Figure, shown: dict[int, Figure]) -> Figure:
    """The figure, without working where that would name a limit."""
    made = shown.get(id(figure))
    if made is not None:
        return made
    # Thousands of terms, made when asked for, are panels and cuts: none of them is a limit.
    made = figure
    if not callable(figure.given) and any(is_hidden(one.key) for one in figure.below()):
        made = dataclasses.replace(figure, formula=None, given=(), note="")
    shown[id(figure)] = made
    return made
