"""The life of the order: how far it is, what changed since it was sent, and the next step."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from coilwright.job.confirming import confirmation_words, is_unconfirmed, may_be_confirmed
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.sending import (
    CannotStep,
    date_words,
    dated_ahead,
    latest_to,
    next_revision,
    next_states,
    state_before,
    stepped,
    stepped_back,
    still_out,
    still_out_words,
)
from coilwright.job.sent_names import sent_words, step_notes
from coilwright.plan.life import Change
from coilwright.plan.result import Plan
from coilwright.sheets.saving import save_sent
from coilwright.sheets.sending import (
    BEHIND,
    NOT_THEIRS,
    changes_since,
    check_sendable,
    last_changed,
    last_changed_words,
    send,
)
from coilwright.sheets.state import hold_words, state_of
from coilwright.sheets.told import tells_otherwise
from coilwright.store import StoreError
from coilwright.units import UnreadableQuantity, date_example, read_date, show_date
from coilwright.wizard.context import Context
from coilwright.wizard.lists.papers import today
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.steps.quotes.arrived import arrived_so_far, arrived_words
from coilwright.wizard.steps.quotes.confirmed import CONFIRMED, ask_confirmation, not_yet_words
from coilwright.wizard.widgets.columns import hang, left
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.rail import Press

_WAY = f"{' → '.join(OrderState)}\n\nWhat is sent is kept as it was; what changes is said here."
_LONGEST_NAME = 34
"""Cells of the names of what changed, at most; a longer one is parted from what follows it."""


class LifeScreen(Modal[str]):
    """All steps, and what is not as it was sent. Returns what is wanted next: next or back."""

    BINDINGS = [
        Binding("n", "want('next')", "Next step", tooltip="Record the next step, with its day",
                id="life.next"),
        Binding("s", "sent", "As sent", tooltip="The order as it was sent, the last revision first",
                id="life.sent"),
        Binding("w", "write", "Write as sent", tooltip="Text and page as they were sent, as files, "
                "byte for byte", id="life.write"),
        Binding("m", "more", "More", tooltip="Answers and figures that changed and are on no paper "
                "for the supplier", id="life.more"),
        Binding("b", "want('back')", "Step back", tooltip="Go a step back; it is recorded",
                id="life.back"),
    ]

    def __init__(self, plan: Plan, folder: Path) -> None:
        super().__init__()
        self._plan = plan
        self._folder = folder
        self._shown = 0
        """Which revision is shown as it was sent, from the last; 0 shows the steps."""
        self._more = False
        """Whether what is behind the changes of the order is shown too."""
        self._unread = ""
        """Why what changed cannot be said."""
        try:
            self._found, self._by_last = changes_since(plan), last_changed(plan)
        except StoreError as error:
            self._found, self._by_last, self._unread = None, None, str(error)

    def compose(self) -> ComposeResult:
        """The steps and the changes, and what can be done."""
        with Vertical(classes="box"):
            yield Static(plain(f"The order of {escape_controls(self._plan.job.title)}"),
                         classes="over-title")
            with VerticalScroll(classes="rows-text"):
                yield Static(self._changes(), id="life-text")
            with Bar():
                yield Press("n next step", "want('next')")
                yield Press("b step back", "want('back')")
                if self._found is not None and self._found.behind:
                    yield Press("m more", "more")
                if self._plan.job.life.sent:
                    yield Press("s as sent", "sent")
                    yield Press("w write as sent", "write")
                yield Press("Esc close", "close")

    def on_mount(self) -> None:
        """What is said can be read by keys."""
        self.query_one(VerticalScroll).focus()

    def action_sent(self) -> None:
        """Show the order as it was sent, the revision before each time; then the steps again."""
        sent = self._plan.job.life.sent
        if not sent:
            self.say("Nothing was sent yet.")
            return
        self._shown = (self._shown + 1) % (len(sent) + 1)
        text = plain(sent[-self._shown].sheet) if self._shown else self._changes()
        self.query_one("#life-text", Static).update(text)
        self.query_one(VerticalScroll).scroll_home(animate=False)

    def action_more(self) -> None:
        """Show what is behind the changes of the order, or fold it again."""
        self._more, self._shown = not self._more, 0
        self.query_one("#life-text", Static).update(self._changes())

    def action_write(self) -> None:
        """Write what was sent as files: the revision that is shown, else the last."""
        sent = self._plan.job.life.sent
        if not sent:
            self.say("Nothing was sent yet.")
            return
        try:
            saved = save_sent(sent[-(self._shown or 1)], self._plan.job, self._folder)
        except StoreError as error:
            self.say(escape_controls(str(error)), severity="error", timeout=15)
            return
        names = ", ".join(path.name for path in saved)
        self.say(escape_controls(f"As sent, in {self._folder}: {names}"), timeout=15)

    def _changes(self) -> Content:
        """How far it is, step by step, and what is not as it was sent."""
        plan, width = self._plan, max(40, self.room - 4)
        parts = [hang((("State  ", "bold"), (state_of(plan), "")), width, 7)]
        if answer := confirmation_words(plan.job):
            parts[0] = Content("\n").join((parts[0], plain(escape_controls(answer))))
        if come := arrived_so_far(plan):
            parts[0] = Content("\n").join((parts[0], plain(f"Coils, today: {come}.")))
        if gone := still_out_words(plan.job):
            parts.append(Content.styled(escape_controls(gone), "bold"))

        def rows(head: str, said: Sequence[tuple[str, str]]) -> None:
            name_room = min(_LONGEST_NAME, max(len(name) for name, _ in said))
            lines = [Content.styled(head, "bold"), *(
                hang((("  ", ""), (f"{left(escape_controls(name), name_room)}  ", ""),
                      (escape_controls(words), "")), width, name_room + 4)
                for name, words in said)]
            parts.append(Content("\n").join(lines))

        if plan.job.life.steps:
            rows("Step by step", [
                (show_date(one.date), f"{'back to ' if one.back else ''}{one.state}"
                 + (f": {note}" if note else ""))
                for one, note in zip(plan.job.life.steps, step_notes(plan.job), strict=True)])
        else:
            parts.append(Content(_WAY))
        if self._unread:
            parts.append(plain(self._unread))
        found = self._found
        if found is not None:
            since = (f"since {sent_words(plan.job, found.against)}, sent "
                     f"{show_date(found.against.date)}")
            if found.is_empty:
                parts.append(plain(f"Nothing changed {since}."))
            elif found.for_supplier:
                rows(f"For the supplier, {since}", _said(found.for_supplier))
            else:
                parts.append(plain(f"{since[:1].upper()}{since[1:]}: {NOT_THEIRS}"))
            if found.behind and not self._more:
                parts.append(plain(f"{BEHIND}: {found.behind}. m shows them"))
            elif found.behind:
                rows(BEHIND, _said((*found.own_answers, *found.figures)))
        last, made = latest_to(plan.job), self._by_last
        if made is not None and last is not None:
            head = last_changed_words(made.against, last)
            if made.for_supplier:
                rows(head, _said(made.for_supplier, "then"))
            else:
                parts.append(plain(f"{head}: {NOT_THEIRS}"))
        return Content("\n\n").join(parts)

    def action_want(self, what: str) -> None:
        """Close, and say what is wanted."""
        self.dismiss(what)


def _said(changes: Iterable[Change], then: str = "now") -> list[tuple[str, str]]:
    """Each change with what it was, and what it is now, or was then."""
    return [(one.label, f"{one.before}, {then} {one.now}") for one in changes]


def _words(plan: Plan, state: OrderState) -> str:
    job = plan.job
    if state is OrderState.ORDERED:
        last = job.life.latest
        same = "" if last is None or tells_otherwise(plan) else (
            f", which changes nothing of {last.revision}")
        return f"ordered: revision {next_revision(job)} is sent{same}"
    return state.value


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

    @property
    def _from_stock(self) -> bool:
        return self._context.session.plan.readiness.nothing_to_buy

    def show(self) -> None:
        """How far the order is, and what changed since it was sent."""
        context = self._context
        context.session.seal()
        context.open(LifeScreen(context.session.plan, context.session.store.sheets_folder),
                     self._wanted)

    def _wanted(self, what: str | None) -> None:
        if what == "back":
            self._back()
        elif what == "next":
            self._next()

    def _next(self) -> None:
        plan = self._context.session.plan
        found: list[tuple[str, OrderState | None]] = [
            (_words(plan, state), state)
            for state in next_states(plan.job, from_stock=self._from_stock,
                                     otherwise=tells_otherwise(plan))]
        if may_be_confirmed(plan.job):
            # What was sent is confirmed before it comes; what is to be sent again comes first.
            awaited = is_unconfirmed(plan.job) and not tells_otherwise(plan)
            found.insert(0 if awaited else 1, (CONFIRMED, None))
        states = dict(found)
        if not states:
            self._context.say("The order has run; there is no step after it. A new job like this "
                              "one starts from the list of jobs.")
            return

        def picked(words: str | None) -> None:
            if words is None:
                return
            if (state := states[words]) is None:
                ask_confirmation(self._context, self._record)
            else:
                self._ask_state(state)

        self._context.open(PickScreen("The order is next", tuple(states), ""), picked)

    def _back(self) -> None:
        """Ask for the day of a step back: from what to what, and what went to stock."""
        job = self._context.session.job
        try:
            before = state_before(job)
        except CannotStep as error:
            self._context.say(escape_controls(str(error)), severity="warning", timeout=12)
            return
        last = job.life.latest
        about = self._in_stock() if job.life.state is OrderState.RUN else ""
        if job.life.state is OrderState.ORDERED and last is not None:
            about = (f"{escape_controls(last.supplier) or 'The supplier'} has revision "
                     f"{last.revision}: tell them, and write down who was told. ")
        self._ask_day(f"A step back: from {job.life.state} to {before}", about, _today(), "",
                      self._step_back)

    def _ask_state(self, state: OrderState) -> None:
        note = ""
        about: str | Callable[[datetime.date], str] = ""
        if state is OrderState.ORDERED:
            try:
                # Before anything is typed for a step that cannot be taken.
                job = self._context.session.job
                check_sendable(job, job.coils.order_date or today())
            except CannotStep as error:
                self._context.say(escape_controls(str(error)), severity="warning", timeout=12)
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
                self._record(send(job, day, said), f"Order sent on {show_date(day)}")
                sent = self._context.session.job.life.latest
                assert sent is not None
                ahead = dated_ahead(job, day)
                self._context.say(
                    f"Revision {sent.revision} is kept as it is sent, page and job; s on the "
                    f"Summary saves its page.{f' CARE: {ahead}' if ahead else ''}",
                    severity="warning" if ahead else "information")
                return
            self._record(stepped(job, state, day, said, from_stock=self._from_stock),
                         f"Order {state} on {show_date(day)}")
            if state is OrderState.RUN:
                self._run_done()

        self._ask_day(_words(self._context.session.plan, state), about, _today(), note, take)

    def _step_back(self, day: datetime.date, note: str) -> None:
        job = stepped_back(self._context.session.job, day, note)
        self._record(job, f"A step back on {show_date(day)}")
        if still_out(job) is not None:
            self._context.say(escape_controls(still_out_words(job)), severity="warning")

    def _record(self, job: Job, label: str) -> None:
        context = self._context
        context.session.seal()
        context.session.change(job, label)
        context.session.seal()
        context.changed()

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
                if on > today() and on != ahead:
                    self._ask_day(
                        what, about, texts[0], texts[1], take, ahead=on,
                        wrong=not_yet_words(on))
                    return
                take(on, texts[1].strip())
            except (CannotStep, UnreadableQuantity) as error:
                self._ask_day(what, about, texts[0], texts[1], take, ahead=ahead, wrong=str(error))

        context.open(LinesScreen(
            what[:1].upper() + what[1:],
            said,
            (Line("Day", day, date_example()),
             Line("Note", note, "who, what, how many", empty=True)), wrong=wrong), closed)


def _sent_on(job: Job, day: datetime.date) -> str:
    """What is to be known of the dates of an order that is sent on a day, in sentences."""
    if words := dated_ahead(job, day):
        return f"CARE: {words} Days are counted from the day it is sent. "
    if words := date_words(job, day):
        on = "today" if day == today() else f"on {show_date(day)}"
        return f"Sent {on}: {words}; days are counted from the day it is sent. "
    return ""


def _today() -> str:
    return show_date(today())
