"""From a job to a plan: all figures, panels, coils and findings. No clock, no files."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from coilwright.job.answers import Answer, asked
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.confirmations import lapsed
from coilwright.job.job import Job
from coilwright.job.trim import TrimFrom
from coilwright.plan.against import check_against
from coilwright.plan.buy import enter_buy
from coilwright.plan.coils.account import enter_account, enter_cost
from coilwright.plan.coils.checks import check_coils, check_keeping
from coilwright.plan.coils.cuts import QUICK, Effort
from coilwright.plan.coils.dates import check_dates, enter_dates
from coilwright.plan.coils.limits import enter_limits
from coilwright.plan.coils.order import enter_coils
from coilwright.plan.coils.packing import check_packing
from coilwright.plan.coils.slitting import check_slitting, enter_slitting
from coilwright.plan.coils.stock import enter_stock
from coilwright.plan.conceal import conceal
from coilwright.plan.confirmed import check_confirmed
from coilwright.plan.currency import check_currency
from coilwright.plan.delivery import check_delivery
from coilwright.plan.haul.lifting import enter_lifting
from coilwright.plan.haul.lifting_checks import check_lifting
from coilwright.plan.haul.plausible import check_plausible
from coilwright.plan.haul.road import enter_hauling
from coilwright.plan.haul.road_checks import check_hauling
from coilwright.plan.ledger import Ledger
from coilwright.plan.machine import check_machine, enter_fits
from coilwright.plan.metal import check_metal, enter_metal, enter_movement
from coilwright.plan.order_contact import check_order_contact
from coilwright.plan.panel.checks import check_flatness, check_panel, check_report
from coilwright.plan.panel.layout import lay_panels
from coilwright.plan.purchases import idle_questions
from coilwright.plan.quotes.as_sold import check_as_sold
from coilwright.plan.quotes.awarded_for import check_awarded_for
from coilwright.plan.quotes.checks import check_award, check_sent
from coilwright.plan.quotes.other_size import check_other_size
from coilwright.plan.quotes.unquoted import check_unquoted
from coilwright.plan.ready import guesses, judge, open_answers, weighed
from coilwright.plan.result import Plan, TrimNest
from coilwright.plan.roof.around import enter_around
from coilwright.plan.roof.checks import check_roof
from coilwright.plan.roof.edges import enter_edges
from coilwright.plan.roof.planes import draw_planes
from coilwright.plan.trim import enter_trim
from coilwright.plan.view import View
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key
from coilwright.values.source import ANSWER

CHECKS: tuple[Callable[[View], Iterator[Finding]], ...] = (
    check_roof,
    check_metal,
    check_report,
    check_flatness,
    check_panel,
    check_machine,
    check_coils,
    check_packing,
    check_slitting,
    check_dates,
    check_keeping,
    check_hauling,
    check_plausible,
    check_lifting,
    check_confirmed,
    check_award,
    check_unquoted,
    check_awarded_for,
    check_as_sold,
    check_other_size,
    check_delivery,
    check_order_contact,
    check_sent,
    check_against,
    check_currency,
)
"""Each looks at the figures and says what must be known, and what to do; in this order."""


def plan(job: Job) -> Plan:
    """All that follows from a job; each part is there or says what it lacks.

    Never raises for a job that could be built: bad measures become findings.
    """
    return conceal(_plan(job, QUICK)) if job.practicing else _plan(job, QUICK)


def replan(
    job: Job,
    seconds: float,
    clock: Callable[[], float] | None = None,
    progress: Callable[[float, float], None] | None = None,
    canceled: Callable[[], bool] | None = None,
) -> Plan:
    """As `plan`, with a longer search for the least metal.

    seconds: the time allowed. clock: seconds that go up, such as time.monotonic; without one
    the time is counted as work alone. progress: called with the new metal of the best cut plan
    so far and the bound [in, panels and losses]. canceled: asked often; once true the best so
    far is taken. The plan never orders more than that of `plan`.
    """
    made = _plan(job, Effort(seconds, clock, progress, canceled))
    return conceal(made) if job.practicing else made


def _plan(job: Job, effort: Effort) -> Plan:
    job = lapsed(job)
    ledger = Ledger(job)
    drawn, findings = draw_planes(ledger)
    wanted = asked(job)
    findings += _unreal_answers(job, wanted)
    planes, crowded = lay_panels(ledger, drawn)
    findings += crowded
    runs, unlike = enter_edges(ledger, planes)
    findings += unlike
    enter_metal(ledger)
    enter_movement(ledger)
    trim, nests, faulty = enter_trim(ledger, runs, enter_around(ledger, drawn))
    limits, governing = enter_limits(ledger)
    strands, unfit = enter_stock(ledger)
    coils, more = enter_coils(ledger, planes, nests, governing, strands, effort)
    account = enter_account(ledger, planes, coils.slits)
    enter_cost(ledger)
    slits = coils.slits or enter_slitting(ledger)
    buy = enter_buy(ledger, coils.new, nests, coils.trim)
    enter_dates(ledger)
    fits = enter_fits(ledger, coils.new)
    loads = (*enter_hauling(ledger, coils.new, coils.from_stock),
             *enter_lifting(ledger, coils.new, coils.from_stock))
    view = View(job, ledger.figures, planes, limits, governing, coils.new, fits, loads,
                coils.from_stock, buy)
    findings += more + unfit + faulty
    for check in CHECKS:
        findings.extend(check(view))
    told = weighed(job, findings)
    unknown, guessed = open_answers(job, wanted), guesses(job, wanted)
    lack = ledger.lacks.get(Key.COIL_MASS_ORDERED)
    readiness = judge(
        job, told, unknown, guessed,
        # What the gear of the site lifts by its plates says what can be lifted there.
        stood_in=(CoilsKey.SITE_LIFT,) if "haul.site_coil_limit" in ledger.figures else (),
        idle=idle_questions(buy), buys=bool(coils.new) or _buys_trim(nests),
        uses_stock=bool(coils.from_stock), lack=lack.because if lack is not None else "",
        no_coils=not (coils.new or coils.from_stock),
    )
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
        findings=told,
        open_answers=unknown,
        guesses=guessed,
        from_stock=coils.from_stock,
        proof=coils.proof,
        trim=trim,
        nests=nests,
        found=coils.found,
        slits=slits,
        loads=loads,
        buy=buy,
        readiness=readiness,
    )


def _buys_trim(nests: tuple[TrimNest, ...]) -> bool:
    """Whether trim takes metal that is bought beside the panel coil."""
    return any(nest.made_from is not TrimFrom.PANEL_COIL for nest in nests)


def _unreal_answers(job: Job, wanted: tuple[Answer, ...]) -> list[Finding]:
    """A stop for each answer whose number nothing real has; the plan takes it as not given.

    Typing refuses such numbers; a file written elsewhere may still bring one.
    """
    findings = []
    for answer in wanted:
        if answer.kind is None:
            continue
        value = answer.value(job)
        if not isinstance(value, (int, float)):
            continue
        fault = answer.fault(value, job.units)
        if fault:
            findings.append(
                Finding(
                    Level.STOP, f"{answer.key}.unreal", fault,
                    "What follows from a number that cannot be is left out rather than wrong.",
                    "Put the right number in.", ANSWER, answer.step, (answer.key,),
                )
            )
    return findings
