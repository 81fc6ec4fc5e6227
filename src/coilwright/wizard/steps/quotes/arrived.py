"""What of the order has come, in a few words: the note on the step that marks it delivered."""

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
    """What of the order has come, in a few words."""
    plan = baseline(plan)
    reports = receive(plan)
    found = [f"{counted(sum(r.verdict is verdict for r in reports), 'coil')} "
             f"{_counted_as(verdict)}"
             for verdict in Verdict if any(r.verdict is verdict for r in reports)]
    if waits := awaited(plan):
        found.append(f"{counted(len(waits), 'coil')} awaited")
    return ", ".join(found)
