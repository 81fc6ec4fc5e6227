"""What an awarded quote was for: another color, metal or width since is none that it prices."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from coilwright.calc import sources
from coilwright.job.answers import ANSWERS, UnreadableAnswer
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.confirmations import Change, changes
from coilwright.job.job import Job
from coilwright.job.names import label, value_text
from coilwright.plan.view import View, care
from coilwright.units import System
from coilwright.values.finding import Finding

OF_THE_METAL = (
    MetalKey.METAL, MetalKey.COATING, MetalKey.THICKNESS, MetalKey.THICKNESS_IS, MetalKey.FINISH,
    MetalKey.COLOR, PanelKey.COVERAGE, PanelKey.TAKE_UP,
)
"""What a price, a production lot and “has the color” are said of."""


def changed_since(job: Job) -> tuple[str, ...]:
    """What the order says otherwise than when its quote was awarded, in words.

    What was not given then was no part of what was asked.
    """
    return tuple(
        f"{label(job, one.key)} was {_then(job, one)}, and {value_text(job, one.key)} is ordered"
        for one in changes(job, job.quotes.awarded_for) if one.before and one.now
    )


def _then(job: Job, change: Change) -> str:
    """What stood there, in the reader's units."""
    answer = ANSWERS[change.key]
    with suppress(UnreadableAnswer):  # a file that was edited by hand
        return answer.shown(answer.read(change.before, System.US), job.units)
    return change.before


def check_awarded_for(view: View) -> Iterator[Finding]:
    """The quote that the order goes by was given for another metal than is ordered now."""
    quote, changed = view.job.quotes.awarded, changed_since(view.job)
    if quote is None or not changed:
        return
    supplier = " ".join(quote.supplier.split())
    said = ["its price"]
    if quote.color is YesNo.YES:
        said.append("that it has the color")
    if quote.one_lot is YesNo.YES:
        said.append("one production lot")
    yield care(
        "quotes.for_another",
        f"The quote of {supplier} was given for another order: {'; '.join(changed)}.",
        f"It says {', '.join(said)}, and all of that of what was asked then: of what is ordered "
        "now nobody has said it.",
        f"Ask {supplier} anew, put what they say into the quote on Suppliers, and award it once "
        "more.",
        sources.TRADE, step="quotes",
    )
