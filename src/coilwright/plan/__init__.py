"""From a job to a plan: all figures, panels, coils and findings. No clock, no files."""

from __future__ import annotations

from coilwright.answers import Answer, asked
from coilwright.figures import Finding, Level, Standing
from coilwright.job import Job
from coilwright.plan.account import enter_account
from coilwright.plan.checks import CHECKS, View
from coilwright.plan.coils import enter_coils
from coilwright.plan.edges import enter_edges
from coilwright.plan.faults import unreal_answers
from coilwright.plan.fits import enter_fits
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.limits import enter_limits
from coilwright.plan.metal import enter_metal, enter_movement
from coilwright.plan.panels import forget_layouts, lay_panels
from coilwright.plan.planes import draw_planes
from coilwright.plan.result import (
    AccountLine,
    CoilPlan,
    Cut,
    Fit,
    Limit,
    PanelGroup,
    PanelRow,
    Plan,
    PlanePlan,
)

__all__ = [
    "AccountLine",
    "CoilPlan",
    "Cut",
    "Fit",
    "Lack",
    "Limit",
    "PanelGroup",
    "PanelRow",
    "Plan",
    "PlanePlan",
    "forget_layouts",
    "plan",
]

_WEIGHT = {Level.STOP: 0, Level.CARE: 1, Level.NOTE: 2}


def plan(job: Job) -> Plan:
    """All that follows from a job; each part is there or says what it lacks.

    Never raises for a job that could be built: bad measures become findings.
    """
    ledger = Ledger(job)
    drawn, findings = draw_planes(ledger)
    wanted = asked(job)
    findings += unreal_answers(job, wanted)
    planes, crowded = lay_panels(ledger, drawn)
    findings += crowded
    findings += enter_edges(ledger, planes)
    enter_metal(ledger)
    enter_movement(ledger)
    limits, governing = enter_limits(ledger)
    coils, fewest, more = enter_coils(ledger, planes, governing)
    account = enter_account(ledger, planes)
    fits = enter_fits(ledger, coils)
    view = View(job, ledger.figures, planes, limits, governing, coils, fits)
    findings += more
    for check in CHECKS:
        findings.extend(check(view))
    return Plan(
        job=job,
        figures=ledger.figures,
        lacks=ledger.lacks,
        planes=planes,
        limits=limits,
        governing=governing,
        coils=coils,
        fewest_coils=fewest,
        fits=fits,
        account=account,
        findings=_by_weight(findings),
        open_answers=_open(job, wanted),
        guesses=_guesses(job, wanted),
    )


def _by_weight(findings: list[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda f: _WEIGHT[f.level]))


def _open(job: Job, wanted: tuple[Answer, ...]) -> tuple[str, ...]:
    """Answers to ask: needed and not given, or typed so that they cannot be read."""
    keys = [
        answer.key
        for answer in wanted
        if (answer.needed and answer.value(job) is None) or answer.key in job.typed
    ]
    if job.roof.planes and "roof.building" in keys:
        keys.remove("roof.building")
    return tuple(keys)


def _guesses(job: Job, wanted: tuple[Answer, ...]) -> tuple[str, ...]:
    """Answers that are guesses and that the order waits for."""
    keys = [
        answer.key
        for answer in wanted
        if answer.key in job.standing
        and (answer.needed or answer.moves)
        and answer.standing(job) is Standing.GUESS
    ]
    planes = [
        key
        for index in range(len(job.roof.planes))
        if job.standing.get(key := f"roof.planes.{index}") is Standing.GUESS
    ]
    return (*keys, *planes)
