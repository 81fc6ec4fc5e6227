"""What a quote was for: another color, metal or width since is none that it prices."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from coilwright.calc import sources
from coilwright.job.answers import ANSWERS, UnreadableAnswer
from coilwright.job.choices import YesNo
from coilwright.job.confirmations import Change, changes
from coilwright.job.edit import as_asked
from coilwright.job.job import Job
from coilwright.job.names import label, value_text
from coilwright.job.of_metal import confirmed_of
from coilwright.job.plain_name import plain_name
from coilwright.job.quotes import Quote
from coilwright.job.sending import sent_to
from coilwright.plan.view import View, care
from coilwright.units import System
from coilwright.values.finding import Finding


def changed_since(job: Job, quote: Quote) -> tuple[str, ...]:
    """What is asked otherwise than when a quote was given, in words; where nobody recorded that,
    than when one was awarded.

    What was not given then was no part of what was asked; and what the supplier wrote back on, of
    the metal as it is now, is said anew by that, whatever else a later revision changes.
    """
    is_theirs = plain_name(job.order.supplier) == plain_name(quote.supplier)
    if quote.awarded and is_theirs and any(
            confirmed_of(job, one) for one in sent_to(job, quote.supplier)):
        return ()
    now, then = (as_asked(job), quote.given_for) if quote.given_for else (
        job, job.quotes.awarded_for)
    return tuple(
        f"{label(now, one.key)} was {_then(now, one)}, and {value_text(now, one.key)} is ordered"
        for one in changes(now, then) if one.before and one.now
    )


def _then(job: Job, change: Change) -> str:
    """What stood there, in the reader's units."""
    answer = ANSWERS[change.key]
    with suppress(UnreadableAnswer):  # a file that was edited by hand
        return answer.shown(answer.read(change.before, System.US), job.units)
    return change.before


def check_awarded_for(view: View) -> Iterator[Finding]:
    """The quote that the order goes by was given for another metal than is ordered now."""
    quote = view.job.quotes.awarded
    if quote is None or view.job.life.state.has_come:
        return  # what came is there to be read, and nothing of it is awarded any more
    if not (changed := changed_since(view.job, quote)):
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
