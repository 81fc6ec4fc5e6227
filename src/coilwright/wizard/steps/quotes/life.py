"""Recording the steps of the order, one after the other, from the screen of its life."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from typing import assert_never

from coilwright.job.canceling import canceled_step, may_be_canceled, with_cancellation
from coilwright.job.job import Job
from coilwright.job.life import Canceled, OrderState
from coilwright.job.sending import (
    CannotStep,
    date_words,
    dated_ahead,
    state_before,
    stepped,
    stepped_back,
    still_out,
    still_out_words,
)
from coilwright.sheets.arrived import arrived_words
from coilwright.sheets.sending import (
    check_sendable,
    send,
)
from coilwright.sheets.state import all_came, hold_words
from coilwright.units import System, UnreadableQuantity, date_example, read_date, show_date
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.steps.quotes.confirmed import ask_confirmation, not_yet_words
from coilwright.wizard.steps.quotes.life_screen import LifeScreen
from coilwright.wizard.steps.quotes.next_steps import Wrote, next_steps, step_words
from coilwright.wizard.today import today
from coilwright.wizard.undoing import LIFE, step_back


class LifeController:
    """Records steps of the order.

    run_done: has what is left after the run put back to stock, where it is not. in_stock: what of
    it is there, in words for the user.
    """

    def __init__(
        self, context: Context, run_done: Callable[[], None], in_stock: Callable[[], str]
    ) -> None:
        self._context = context
        self._run_done = run_done
        self._in_stock = in_stock
        self._screen: LifeScreen | None = None

    @property
    def _from_stock(self) -> bool:
        return self._context.session.plan.readiness.nothing_to_buy

    @property
    def _system(self) -> System:
        return self._context.session.job.units

    def _no_earlier(self) -> datetime.date:
        """Today, or the day of the last step where that was written down ahead: no step goes
        before it."""
        return max(today(), self._context.session.job.life.day or today())

    def show(self) -> None:
        """How far the order is, and what changed since it was sent; step after step.

        What was shown of it before goes.
        """
        context = self._context
        context.session.seal()
        if self._screen is not None and self._screen.is_attached:
            self._screen.dismiss(None)
        self._screen = LifeScreen(context.session.plan, context.session.store.sheets_folder,
                                  self._wanted)
        context.open(self._screen)

    def _wanted(self, what: str) -> None:
        if what == "back":
            self._back()
        elif what == "next":
            self._next()
        elif what == "undo":
            stepped = step_back(self._context.session, LIFE)
            if stepped.done:
                self._context.changed()
                self.show()
            self._context.say(stepped.said)

    def _next(self) -> None:
        states = next_steps(self._context.session.plan)
        if not states:
            self._refuse("The order has run; there is no step after it. A new job like this one "
                         "starts from the list of jobs.")
            return

        def picked(words: str | None) -> None:
            if words is None:
                return
            step = states[words]
            if isinstance(step, OrderState):
                self._ask_state(step)
                return
            match step:
                case Wrote.CONFIRMED:
                    ask_confirmation(self._context, self._record)
                case Wrote.CANCELED:
                    self._ask_canceled()
                case _:
                    assert_never(step)

        self._context.open(
            PickScreen("Life of the order: what comes next", tuple(states), ""), picked)

    def _refuse(self, words: str) -> None:
        """Say why a step cannot be taken, over the steps."""
        self._context.say(escape_controls(words), severity="warning", timeout=12)

    def _back(self) -> None:
        """Ask for the day of a step back: from what to what, and what went to stock."""
        job = self._context.session.job
        try:
            before = state_before(job)
        except CannotStep as error:
            self._refuse(str(error))
            return
        last = job.life.latest
        about = self._in_stock() if job.life.state is OrderState.RUN else ""
        if job.life.state is OrderState.ORDERED and last is not None:
            about = (f"{escape_controls(last.supplier) or 'The supplier'} has revision "
                     f"{last.revision}: tell them, and write down who was told. ")
        self._ask_day(f"A step back: from {job.life.state} to {before}", about,
                      show_date(self._no_earlier(), self._system), "", self._step_back)

    def _ask_canceled(self) -> None:
        """Ask for the day on which a supplier wrote back that the order is canceled."""
        one = may_be_canceled(self._context.session.job)
        assert one is not None

        def take(day: datetime.date, said: str) -> None:
            self._record(with_cancellation(self._context.session.job,
                                           Canceled(date=day, note=said)),
                         f"Order canceled on {show_date(day, self._system)}")

        self._ask_day(escape_controls(canceled_step(one)),
                      "The day they wrote back that it is: until they did, they may make it. ",
                      show_date(max(today(), one.date), self._system), "", take)

    def _ask_state(self, state: OrderState) -> None:
        note = ""
        about: str | Callable[[datetime.date], str] = ""
        if state is OrderState.ORDERED:
            try:
                # Before anything is typed for a step that cannot be taken.
                job = self._context.session.job
                check_sendable(job, job.coils.order_date or today())
            except CannotStep as error:
                self._refuse(str(error))
                return
            about = lambda day: _sent_on(job, day)  # noqa: E731
        elif state is OrderState.RUN:
            about = f"{hold_words(self._context.session.plan)} ".lstrip()
        if state is OrderState.DELIVERED:
            note = arrived_words(self._context.session.plan)
        elif state is OrderState.OUT:
            note = ", ".join(one.supplier for one in self._context.session.job.requests)[:200]

        def take(day: datetime.date, said: str) -> None:
            job = self._context.session.job
            if state is OrderState.ORDERED:
                self._record(send(job, day, said), f"Order sent on {job.day(day)}")
                sent = self._context.session.job.life.latest
                assert sent is not None
                ahead = dated_ahead(job, day)
                self._context.say(
                    f"Revision {sent.revision} is kept as it is sent, page and job; Save "
                    "sheets (s) on the Summary saves its page."
                    f"{f' CARE: {ahead}' if ahead else ''}",
                    severity="warning" if ahead else "information")
                return
            if state is OrderState.RUN and all_came(self._context.session.plan):
                # Whatever is run was delivered: nobody marks it twice.
                came = arrived_words(self._context.session.plan)
                job = stepped(job, OrderState.DELIVERED, day, f"{came}; marked with the run")
            self._record(stepped(job, state, day, said, from_stock=self._from_stock),
                         f"Order {state} on {job.day(day)}")
            if state is OrderState.RUN:
                self._run_done()

        self._ask_day(step_words(self._context.session.plan, state), about,
                      show_date(self._no_earlier(), self._system), note, take)

    def _step_back(self, day: datetime.date, note: str) -> None:
        job = stepped_back(self._context.session.job, day, note)
        self._record(job, f"A step back on {job.day(day)}")
        if still_out(job) is not None:
            self._context.say(escape_controls(still_out_words(job)), severity="warning")

    def _record(self, job: Job, label: str) -> None:
        context = self._context
        context.session.seal()
        context.session.change(job, label, at=LIFE)
        context.session.seal()
        context.changed()
        self.show()

    def _ask_day(
        self, what: str, about: str | Callable[[datetime.date], str], day: str, note: str,
        take: Callable[[datetime.date, str], None], *, ahead: datetime.date | None = None,
        wrong: str = "",
    ) -> None:
        """The day of a step, and a note on it. What cannot be taken is there to be mended; a day
        that has not come yet is asked about. ahead: the one that was. about: words, or what makes
        them of the day as it is typed."""
        context = self._context

        def said(texts: tuple[str, ...]) -> str:
            before = about
            if not isinstance(before, str):
                try:
                    on = read_date(texts[0], context.session.job.units, today())
                except UnreadableQuantity:
                    on = today()
                before = before(on)
            return f"{before}Which day, and what belongs to it. Ctrl+Z takes it back."

        def closed(texts: tuple[str, ...] | None) -> None:
            if texts is None:
                return
            try:
                on = read_date(texts[0], context.session.job.units, today())
                if on > self._no_earlier() and on != ahead:
                    self._ask_day(
                        what, about, texts[0], texts[1], take, ahead=on,
                        wrong=not_yet_words(on, self._system))
                    return
                take(on, texts[1].strip())
            except (CannotStep, UnreadableQuantity) as error:
                self._ask_day(what, about, texts[0], texts[1], take, ahead=ahead, wrong=str(error))

        context.open(LinesScreen(
            what[:1].upper() + what[1:],
            said,
            (Line("Day", day, date_example(context.session.job.units)),
             Line("Note", note, "who, what, how many", empty=True)), wrong=wrong), closed)


def _sent_on(job: Job, day: datetime.date) -> str:
    """What is to be known of the dates of an order that is sent on a day, in sentences."""
    if words := dated_ahead(job, day):
        return f"CARE: {words} Days are counted from the day it is sent. "
    if words := date_words(job, day):
        on = "today" if day == today() else f"on {job.day(day)}"
        return f"Sent {on}: {words}; days are counted from the day it is sent. "
    return ""
