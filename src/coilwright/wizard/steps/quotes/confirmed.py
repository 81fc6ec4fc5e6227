"""What the supplier writes back on the order: asked for and recorded, for the life of the order."""

from __future__ import annotations

import datetime
from collections.abc import Callable

from coilwright.job.confirming import with_confirmation
from coilwright.job.job import Job
from coilwright.job.life import Confirmed
from coilwright.job.sending import CannotStep
from coilwright.units import System, UnreadableQuantity, date_example, read_date, show_date
from coilwright.wizard.context import Context
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.today import today


def not_yet_words(day: datetime.date, system: System) -> str:
    """That a day which something is recorded for has not come yet, and what to do."""
    return (f"{show_date(day, system)} has not come yet. Enter again records it; or write the day "
            "it was.")


def _no_earlier(job: Job) -> datetime.date:
    """Today, or the day the order was sent where that was written down ahead: nobody writes back
    before it."""
    last = job.life.latest
    return today() if last is None else max(today(), last.date)


def ask_confirmation(context: Context, record: Callable[[Job, str], None]) -> None:
    """Ask what the supplier wrote back, and record it; what cannot be taken is there to be mended.

    record: takes the job, and what was done to it.
    """
    last = context.session.job.life.latest
    known = None if last is None else last.confirmed
    if known is None:
        known = Confirmed(date=_no_earlier(context.session.job))
    system = context.session.job.units
    _ask(context, record, (show_date(known.date, system), known.number,
                           show_date(known.ships, system) if known.ships else ""), "")


def _ask(
    context: Context, record: Callable[[Job, str], None], texts: tuple[str, ...], wrong: str,
    *, ahead: datetime.date | None = None,
) -> None:
    """Ask for it; ahead: the day that has not come yet and was asked about."""
    def closed(typed: tuple[str, ...] | None) -> None:
        if typed is None:
            return
        job = context.session.job
        day, number, ships = (text.strip() for text in typed)
        try:
            confirmed = Confirmed(
                date=read_date(day, job.units, today()), number=number[:200],
                ships=read_date(ships, job.units, today()) if ships else None)
            if confirmed.date > _no_earlier(job) and confirmed.date != ahead:
                _ask(context, record, typed, not_yet_words(confirmed.date, job.units),
                     ahead=confirmed.date)
                return
            record(with_confirmation(job, confirmed),
                   f"Order confirmed on {job.day(confirmed.date)}")
        except (CannotStep, UnreadableQuantity) as error:
            _ask(context, record, typed, str(error), ahead=ahead)

    day, number, ships = texts
    like = date_example(context.session.job.units)
    context.open(LinesScreen(
        "Confirmed by the supplier",
        "What they wrote back on the order. Hold price, thickness and lots to your quote and the "
        "order before you file it. Ctrl+Z takes it back.",
        (Line("Day it came", day, like),
         Line("Their order number", number, "as on their paper", empty=True),
         Line("Ship date they promise", ships, like, empty=True)), wrong=wrong), closed)
