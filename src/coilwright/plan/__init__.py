"""From a job to a plan: all figures, panels, coils and findings. No clock, no files."""

from __future__ import annotations

from collections.abc import Callable

from coilwright.job.answers import Answer, asked
from coilwright.job.job import Job
from coilwright.plan.account import enter_account
from coilwright.plan.checks import CHECKS, View
from coilwright.plan.coils import enter_coils
from coilwright.plan.cuts import QUICK, Effort
from coilwright.plan.dates import enter_dates
from coilwright.plan.edges import enter_edges
from coilwright.plan.faults import unreal_answers
from coilwright.plan.fits import enter_fits
from coilwright.plan.hauling import enter_hauling
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.lifting import enter_lifting
from coilwright.plan.limits import enter_limits
from coilwright.plan.metal import enter_metal, enter_movement
from coilwright.plan.panels import lay_panels
from coilwright.plan.planes import draw_planes
from coilwright.plan.price import enter_cost
from coilwright.plan.result import (
    AccountLine,
    CoilPlan,
    Cut,
    Fit,
    Limit,
    LoadLine,
    PanelGroup,
    PanelRow,
    Plan,
    PlanePlan,
    Proof,
    StockCoil,
    TrimNest,
    TrimPattern,
    TrimRow,
)
from coilwright.plan.slit_plan import SlitLane, SlitPlan, SlitSetUp
from coilwright.plan.slitting import enter_slitting
from coilwright.plan.stock import coil_lengths, enter_stock, fitting
from coilwright.plan.trim import enter_trim
from coilwright.values.finding import worst_first
from coilwright.values.standing import Standing

__all__ = [
    "AccountLine",
    "CoilPlan",
    "Cut",
    "Fit",
    "Lack",
    "Limit",
    "LoadLine",
    "PanelGroup",
    "PanelRow",
    "Plan",
    "PlanePlan",
    "Proof",
    "SlitLane",
    "SlitPlan",
    "SlitSetUp",
    "StockCoil",
    "TrimNest",
    "TrimPattern",
    "TrimRow",
    "coil_lengths",
    "fitting",
    "plan",
    "replan",
]


def plan(job: Job) -> Plan:
    """All that follows from a job; each part is there or says what it lacks.

    Never raises for a job that could be built: bad measures become findings.
    """
    return _plan(job, QUICK)


def replan(
    job: Job,
    seconds: float,
    clock: Callable[[], float] | None = None,
    progress: Callable[[float, float], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Plan:
    """As `plan`, with a longer search for the least metal.

    seconds: the time allowed. clock: seconds that go up, such as time.monotonic; without one
    the time is counted as work alone. progress: called with the new metal of the best cut plan
    so far and the bound [in, panels and losses]. cancelled: asked often; once true the best so
    far is taken. The plan never orders more than that of `plan`.
    """
    return _plan(job, Effort(seconds, clock, progress, cancelled))


def _plan(job: Job, effort: Effort) -> Plan:
    ledger = Ledger(job)
    drawn, findings = draw_planes(ledger)
    wanted = asked(job)
    findings += unreal_answers(job, wanted)
    planes, crowded = lay_panels(ledger, drawn)
    findings += crowded
    findings += enter_edges(ledger, planes)
    enter_metal(ledger)
    enter_movement(ledger)
    trim, nests, faulty = enter_trim(ledger)
    limits, governing = enter_limits(ledger)
    lanes, unfit = enter_stock(ledger)
    coils, more = enter_coils(ledger, planes, nests, governing, lanes, effort)
    account = enter_account(ledger, planes)
    enter_cost(ledger)
    slits = enter_slitting(ledger, trim, nests, bool(coils.from_stock))
    enter_dates(ledger)
    fits = enter_fits(ledger, coils.new)
    loads = (*enter_hauling(ledger, coils.new, coils.from_stock),
             *enter_lifting(ledger, coils.new, coils.from_stock))
    view = View(job, ledger.figures, planes, limits, governing, coils.new, fits, loads,
                coils.from_stock)
    findings += more + unfit + faulty
    for check in CHECKS:
        findings.extend(check(view))
    return Plan(
        job=job,
        figures=ledger.figures,
        lacks=ledger.lacks,
        planes=planes,
        limits=limits,
        governing=governing,
        coils=coils.new,
        fewest_coils=coils.fewest,
        fits=fits,
        account=account,
        findings=tuple(worst_first(findings)),
        open_answers=_open(job, wanted),
        guesses=_guesses(job, wanted),
        from_stock=coils.from_stock,
        proof=coils.proof,
        trim=trim,
        nests=nests,
        found=coils.found,
        slits=slits,
        loads=loads,
    )


def _open(job: Job, wanted: tuple[Answer, ...]) -> tuple[str, ...]:
    """Answers to ask: needed and not given, or typed so that they cannot be read."""
    keys = [
        answer.key
        for answer in wanted
        if (answer.needed and answer.value(job) is None and not answer.stood_in(job))
        or answer.key in job.typed
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
    rows = [
        key
        for name, count in (("roof.planes", len(job.roof.planes)),
                            ("trim.pieces", len(job.trim.pieces)))
        for index in range(count)
        if job.standing.get(key := f"{name}.{index}") is Standing.GUESS
    ]
    return (*keys, *rows)
