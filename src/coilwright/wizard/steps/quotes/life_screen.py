"""What the life of the order shows: how far it is, what is next, and what is not as it was sent."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from coilwright.job.confirming import confirmation_words
from coilwright.job.life import OrderState
from coilwright.job.life_lines import life_lines
from coilwright.job.sending import latest_to, still_out_words
from coilwright.job.sent_names import sent_words
from coilwright.plan.life import Change
from coilwright.plan.result import Plan
from coilwright.sheets.arrived import arrived_so_far
from coilwright.sheets.saving import save_sent
from coilwright.sheets.sending import (
    BEHIND,
    NOT_THEIRS,
    changes_since,
    last_changed,
    last_changed_words,
)
from coilwright.sheets.state import state_of
from coilwright.store import StoreError
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.steps.quotes.next_steps import press_words
from coilwright.wizard.widgets.columns import hang, left
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.rail import Press

_WAY = f"{' → '.join(OrderState)}\n\nWhat is sent is kept as it was; what changes is said here."
_LONGEST_NAME = 34
"""Cells of the names of what changed, at most; a longer one is parted from what follows it."""


class LifeScreen(Modal[None]):
    """All steps, and what is not as it was sent.

    wanted: called with what is: next, back or undo. What that asks lies over the steps.
    """

    BINDINGS = [
        Binding("n", "want('next')", "Next step", tooltip="Record the next step, with its day",
                id="life.next"),
        Binding("s", "sent", "As sent", tooltip="The order as it was sent, the last revision first",
                id="life.sent"),
        Binding("w", "write", "Write as sent", tooltip="Text and page as they were sent, as files, "
                "byte for byte", id="life.write"),
        Binding("m", "more", "More", tooltip="Answers and figures that changed and are on no paper "
                "for the supplier", id="life.more"),
        Binding("ctrl+z", "want('undo')", "Undo", tooltip="Take the last change back",
                id="life.undo"),
        Binding("b", "want('back')", "Step back", tooltip="Go a step back; it is recorded",
                id="life.back"),
    ]

    def __init__(self, plan: Plan, folder: Path, wanted: Callable[[str], None]) -> None:
        super().__init__()
        self._wanted = wanted
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
                # What is likeliest next, as the list of steps has it first.
                if words := press_words(self._plan):
                    yield Press(f"n next: {words}", "want('next')")
                yield Press("b step back", "want('back')")
                if self._found is not None and self._found.behind:
                    yield Press("m more", "more")
                if self._plan.job.life.sent:
                    yield Press("s as sent", "sent")
                    yield Press("w as files", "write")
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

        if happened := life_lines(plan.job):
            rows("Step by step", [
                (plan.job.day(day), f"{what}{f': {note}' if note else ''}")
                for day, what, note in happened])
        else:
            parts.append(Content(_WAY))
        if self._unread:
            parts.append(plain(self._unread))
        found = self._found
        if found is not None:
            since = (f"since {sent_words(plan.job, found.against)}, sent "
                     f"{plan.job.day(found.against.date)}")
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
            head = last_changed_words(made.against, last, plan.job.units)
            if made.for_supplier:
                rows(head, _said(made.for_supplier, "then"))
            else:
                parts.append(plain(f"{head}: {NOT_THEIRS}"))
        return Content("\n\n").join(parts)

    def action_want(self, what: str) -> None:
        """Say what is wanted."""
        self._wanted(what)


def _said(changes: Iterable[Change], then: str = "now") -> list[tuple[str, str]]:
    """Each change with what it was, and what it is now, or was then."""
    return [(one.label, f"{one.before}, {then} {one.now}") for one in changes]
