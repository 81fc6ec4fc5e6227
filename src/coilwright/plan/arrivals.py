"""Why a coil that arrived is held, in full words: what its measures say, and its faults."""

from __future__ import annotations

from coilwright.job.arrival_words import receiving_words
from coilwright.plan.receiving.report import CARE_ONLY, ArrivalReport
from coilwright.values.finding import Finding, Level, worst_first
from coilwright.values.source import PRACTICE


def reasons(report: ArrivalReport) -> tuple[Finding, ...]:
    """All that speaks against a coil: a finding for each fault beside those of its measures."""
    return tuple(worst_first((*_faults(report), *report.findings)))


def _faults(report: ArrivalReport) -> list[Finding]:
    found = []
    for fault in dict.fromkeys(report.faults):
        words = receiving_words().faults[fault]
        why = f"{words.why} {words.caution}".strip()
        found.append(Finding(
            Level.CARE if fault in CARE_ONLY else Level.STOP,
            f"{report.key}.fault_{fault.name.lower()}", f"Seen on it: {fault}.", why, words.do,
            PRACTICE, "coils",
        ))
    return found
