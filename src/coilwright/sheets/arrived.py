"""What of the order has come, in a few words: noted on the step that marks it delivered, and said
of today where its life is shown, on the screen, on paper and by the command line."""

from __future__ import annotations

from typing import assert_never

from coilwright.plan.receiving.receive import awaited, receive
from coilwright.plan.receiving.report import Verdict
from coilwright.plan.result import Plan
from coilwright.sheets.baseline import baseline
from coilwright.words.counting import counted


def _counted_as(verdict: Verdict) -> str:
    """What coils of a verdict are called where they are counted."""
    match verdict:
        case Verdict.ACCEPT:
            return "accepted"
        case Verdict.HOLD:
            return "held"
        case Verdict.OPEN:
            return "not finished"
        case Verdict.REFUSED:
            return "refused"
        case Verdict.SENT_BACK:
            return "sent back"
        case Verdict.TAKEN:
            return "taken knowingly"
        case _:
            assert_never(verdict)


def arrived_words(plan: Plan) -> str:
    """What of the order has come, in a few words; what is awaited is of no day but today's."""
    return ", ".join(_come(baseline(plan)))


def arrived_so_far(plan: Plan) -> str:
    """What of the order has come until now and what is awaited; empty where it is not due yet, and
    in practice."""
    if plan.job.practicing or not plan.job.life.state.has_come:
        return ""
    plan = baseline(plan)
    found = _come(plan)
    if waits := awaited(plan):
        found.append(f"{counted(len(waits), 'coil')} awaited")
    return ", ".join(found)


def _come(plan: Plan) -> list[str]:
    reports = receive(plan)
    return [f"{counted(sum(r.verdict is verdict for r in reports), 'coil')} "
            f"{_counted_as(verdict)}"
            for verdict in Verdict if any(r.verdict is verdict for r in reports)]
