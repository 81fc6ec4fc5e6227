"""What a quote says of the job's answers, and what the order took in otherwise by now.

What hangs on the coils that it would ship as well, its price by weight and the size taken of those
it sells, is said where they are worked out (`award`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coilwright.job.answers import ANSWERS, Value
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.quotes import Quote
from coilwright.plan.quotes.arriving import lead_time_of
from coilwright.plan.quotes.charged import arrival_called, arrival_moved, said_otherwise
from coilwright.plan.quotes.replies import PRICE, SOLD, film_comes, skids_come
from coilwright.values.keys import AnswerKey

_NEAR = 1e-3
"""As a share: a price by weight is worked out anew from coils that are rounded to be read. Common
practice, no source."""


def quoted_answers(job: Job, quote: Quote) -> Iterator[tuple[AnswerKey, Value]]:
    """What the quote itself says of the job's answers; only what it says."""
    # Coils that are wanted bare stay so, whatever a skid or film would cost.
    skid = skids_come(quote) and job.coils.skid is not YesNo.NO
    film = film_comes(quote) and job.metal.may_be_painted and job.metal.film is not YesNo.NO
    back = quote.back_coat if quote.back_coat and job.metal.may_be_painted else None
    sizes = quote.coil_masses or quote.coil_lengths
    said: tuple[tuple[AnswerKey, Value | None], ...] = (
        (CoilsKey.LEAD_TIME, lead_time_of(job, quote)), (CoilsKey.TOLERANCE, quote.tolerance),
        (CoilsKey.TOLERANCE_OVER, quote.tolerance_over),
        (CoilsKey.SUPPLIER_HEAVIEST, None if sizes else quote.heaviest),
        (CoilsKey.MINIMUM_ORDER, quote.minimum),
        (CoilsKey.INSIDE_DIAMETER, quote.inside_diameter),
        (CoilsKey.SKID, YesNo.YES if skid else None),
        (MetalKey.FILM, YesNo.YES if film else None),
        (MetalKey.COATING, quote.coating), (MetalKey.THICKNESS, quote.thickness),
        (MetalKey.THICKNESS_IS, quote.thickness_is), (MetalKey.FINISH, quote.finish),
        (MetalKey.THICKNESS_TOLERANCE, quote.thickness_tolerance),
        (CoilsKey.WIDTH_TOLERANCE, quote.width_tolerance), (CoilsKey.CAMBER, quote.camber),
        (MetalKey.BACK_COAT, back), (PanelKey.COVERAGE, _coverage(job, quote)),
    )
    for key, value in said:
        if value is not None:
            yield key, value


def _coverage(job: Job, quote: Quote) -> float | None:
    coverage, take_up = job.panel.coverage, job.panel.take_up
    if quote.width is None or coverage is None or take_up is None or (
            quote.width == coverage + take_up):
        return None
    return quote.width - take_up


def is_taken(job: Job, key: AnswerKey, said: Value) -> bool:
    """Whether the order has what a quote says, or somebody's own, which is theirs."""
    value = ANSWERS[key].value(job)
    return _same(value, said) or not (key in job.by_quote or value is None)


def _same(taken: Value | None, said: Value) -> bool:
    if isinstance(taken, int | float) and isinstance(said, int | float):
        return abs(taken - said) <= _NEAR * abs(said)
    return taken == said


def told_in(said: Sequence[str]) -> frozenset[AnswerKey]:
    """The answers of which what is said otherwise (`said_otherwise`) says it already, with
    what stood in the order: a price, and sizes that are sold."""
    return frozenset(key for name, key in (
        (SOLD, CoilsKey.SUPPLIER_HEAVIEST), (PRICE, CoilsKey.PRICE))
        if any(one.startswith(f"{name} (") for one in said))


def says_otherwise(job: Job, quote: Quote) -> tuple[str, ...]:
    """What the awarded quote itself says otherwise than the order took it in, by what that is
    called."""
    said = [*said_otherwise(job, quote)]
    told = told_in(said)
    return (*filter(None, (answer_otherwise(job, quote, key, value) for key, value
                           in quoted_answers(job, quote)
                           if key not in told and not is_taken(job, key, value))), *said)


def answer_otherwise(
    job: Job, quote: Quote, key: AnswerKey, value: Value, name: str = ""
) -> str:
    """What an answer that the awarded quote says otherwise by now is called, with what the order
    has and what the quote says; empty where it is not the quote that says otherwise
    (`moved_since`).

    name: what it is called where that is not its label.
    """
    answer = ANSWERS[key].in_job(job)
    called = name or answer.label
    if key == CoilsKey.LEAD_TIME and (arrival := arrival_called(job, quote)) != called:
        return arrival  # its days say it
    return f"{called} (then “{answer.said(job)}”, now “{answer.shown(value, job.units)}”)"


def moved_since(job: Job, quote: Quote) -> str:
    """That the awarded quote names the day of arrival it was awarded with, and the day of the order
    moved, in a part of a sentence; empty where it did not."""
    return next((arrival_moved(job, quote, value) for key, value in quoted_answers(job, quote)
                 if key == CoilsKey.LEAD_TIME and isinstance(value, int | float)
                 and not is_taken(job, key, value) and not arrival_called(job, quote)), "")
