"""All questions of the job by whom to ask, the open ones first; and the sheet to take along."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.plan.ask_first import Effect
from coilwright.plan.questions import Question, Status, by_person
from coilwright.plan.ready import open_words
from coilwright.store import StoreError
from coilwright.units import System
from coilwright.wizard.asking import mark, waiver
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.question import QuestionScreen
from coilwright.wizard.screens.undoes import Undoes
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.ask_first import shorten
from coilwright.wizard.widgets.columns import cells, fit, hang, pad
from coilwright.wizard.widgets.rows import SHOWN_FIRST, MarkedList
from coilwright.words.in_units import with_units

_FIRST = 3
_SIGNS = {Status.OPEN: "☐", Status.GUESS: "~", Status.AGAINST: "≠",
          Status.SETTLED: "☑", Status.WAIVED: "–"}
_HOLD, _ALSO = "HOLD", "ANSWER"
"""Marks of questions: each HOLD is counted in the title line; an ANSWER is counted there as an
open answer or a guess."""
_TAIL = 20
"""Room for the reply so far at the end of a row, at the most; a third of a row that is longer."""
_LEAST = 12
"""The least room for what an answer moves."""
_INDENT = 10
"""Cells before a question."""


class QuestionsScreen(Undoes, Modal[str]):
    """The list; Enter opens a question. It may return an answer to go to."""

    BINDINGS = [
        Binding("right", "person(1)", "Next person", tooltip="To whom to ask next",
                id="questions.next-person"),
        Binding("left", "person(-1)", "Person before", tooltip="To whom to ask before",
                id="questions.person-before"),
        Binding("f3", "mark(False)", "Open", tooltip="Not settled yet", id="questions.open"),
        Binding("f4", "mark(True)", "Settled", id="questions.settle",
                tooltip="Its reply settles it; one question at a time"),
        Binding("w,f8", "waive", "Waive", tooltip="The order may go out without an answer: say why",
                id="questions.waive"),
        Binding("s", "save", "Save sheet", tooltip="Save the question sheet",
                id="questions.save"),
        Binding("ctrl+z", "undo", "Undo", tooltip="Take the last change back",
                id="questions.undo"),
        Binding("ctrl+y", "redo", "Redo", tooltip="Make the undone change again",
                id="questions.redo"),
        Binding("f5", "close", "Close", show=False, id="questions.close"),
    ]

    def __init__(
        self, session: Session, folder: Path, effects: tuple[Effect, ...],
        changed: Callable[[], None],
    ) -> None:
        super().__init__()
        self.session = session
        self.folder = folder
        self.effects = effects
        self._changed = changed
        self._order: tuple[str, ...] = ()
        self._heads: list[int] = []
        self._holding: frozenset[str] = frozenset()
        self._typed = False
        """Whether it was told that what is typed here does nothing, and nothing else was since."""

    def on_key(self, event: events.Key) -> None:
        """What is typed in the list is told, once: most likely it is the reply to the question."""
        typed = event.character or ""
        if not typed.isprintable() or not typed:
            self._typed = False
        elif typed.strip() and event.key not in self.active_bindings and not self._typed:
            self._typed = True
            self.say(f"“{escape_controls(typed)}” changes nothing in this list: Enter opens the "
                     "marked question, and its reply is typed there.")

    def compose(self) -> ComposeResult:
        """Count, list, hints."""
        with Vertical(classes="box"):
            yield Static("", id="questions-title", classes="over-title", markup=False)
            yield MarkedList(id="questions-list", compact=True)
            yield Static(
                "Enter opens · ← → person · F4 settled · F3 open · w waive · s saves · Esc",
                classes="over-hint", markup=False,
            )

    def on_mount(self) -> None:
        """Show the list."""
        self.show()
        self.query_one(OptionList).focus()

    # -- showing ---------------------------------------------------------------------------

    def show(self, at: str = "") -> None:
        """Show the questions as they are now; the row of one marked, else that marked before."""
        asked = self.session.plan.questions
        self._holding = self.session.plan.readiness.holding
        also = sum(_mark(q, self._holding) == _ALSO for q in asked)
        parts = []
        if held := open_words(self.session.plan.readiness):
            parts.append(f"{held}, marked {_HOLD}")
        if also:
            parts.append(f"{also} {'more ' if held else ''}for an open answer or a guess, marked "
                         f"{_ALSO}")
        left = sum(not q.status.is_done for q in asked)
        parts.append(f"{len(asked)} in all, {left or 'none'} open")
        title = "; ".join(parts)
        self.query_one("#questions-title", Static).update(plain(title))
        rows = self.query_one(MarkedList)
        options = self._options(asked)
        ids = [option.id for option in options if option.id]
        at = at or rows.mark_id
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_again(options, at if at in ids else ids[0] if ids else "")

    def _options(self, asked: tuple[Question, ...]) -> list[Option]:
        width = max(30, self.room - 2)
        made: list[Option] = []
        firsts = self._firsts()
        if firsts:
            made.append(_heading("Ask these first: they move the order most"))
        for number, effect in enumerate(firsts, 1):
            filled_by = next((q.who for q in asked if q.words.answer == effect.key), effect.who)
            who = "you" if filled_by == "you" else f"the {filled_by}"
            before = f", {who}: "
            room = width - 3 - cells(effect.label) - cells(before)
            made.append(Option(Content.assemble(
                f" {number} ", (effect.label, "bold"), before,
                shorten(effect.words, max(_LEAST, room)),
            ), id=f"first:{effect.key}"))
        order: list[str] = []
        self._heads = []

        def group(heading: str, mine: list[Question]) -> None:
            made.append(_heading(heading))
            self._heads.append(len(made))
            for question in mine:
                order.append(question.key)
                row = _row(question, _mark(question, self._holding), width, self.session.job.units)
                made.append(Option(row, id=question.key))

        for person, mine in by_person(asked).items():
            if held := [q for q in mine if q.key in self._holding]:
                group(f"Before ordering, ask the {person}: {len(held)}", held)
        for person, mine in by_person(asked).items():
            rest = [q for q in mine if q.key not in self._holding]
            left = sum(not q.status.is_done for q in rest)
            more = "more " if len(rest) < len(mine) else ""
            if rest:
                group(f"For the {person}: {f'{left} {more}open' if left else 'all settled'}, "
                      f"{len(mine)} in all", rest)
        self._order = tuple(order)
        return made

    def _firsts(self) -> tuple[Effect, ...]:
        """The unknowns that move the order most, of those that are still unknown."""
        plan = self.session.plan
        still = {*plan.open_answers, *plan.guesses}
        return tuple(e for e in self.effects if e.key in still)[:_FIRST]

    def _marked(self) -> str:
        option = self.query_one(OptionList).highlighted_option
        return option.id or "" if option is not None else ""

    # -- opening and marking ---------------------------------------------------------------

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        key = event.option_id or ""
        if key.startswith("first:"):
            self._open_first(key.removeprefix("first:"))
        elif key:
            self._open(key, self._order)

    def _open_first(self, answer: str) -> None:
        """The question that fills an answer; one nobody else can answer is gone to."""
        found = next((q.key for q in self.session.plan.questions
                      if q.words.answer == answer), None)
        if found is not None:
            self._open(found, self._order)
        else:
            self.dismiss(answer)

    def _open(self, key: str, order: tuple[str, ...]) -> None:
        """Open a question. order: as the list was when the first of them was opened."""
        was_done = self._is_done(key)

        def closed(go_on: str | None) -> None:
            # One that was settled there has gone far down: the next that is open is marked.
            self.show(go_on or (key if was_done else self._next_open(key, order)))
            if go_on in self._order:
                self._open(go_on or "", order)

        if key in self._order:
            screen = QuestionScreen(self.session, key, order, self._changed)
            self.app.push_screen(screen, closed)

    def action_mark(self, settled: bool) -> None:
        """Mark the question settled, or open again."""
        key, order = self._marked(), self._order
        if self.query_one(MarkedList).bring_mark():
            self.say(SHOWN_FIRST)
            return
        if not key or key.startswith("first:"):
            self.say("Enter opens what is marked; F4 is for the questions below." if key else
                     "No question is marked: ↓ marks the next one.")
            return
        if changed := mark(self.session, self.say, key, settled):
            self._changed()
        self.show(self._next_open(key, order) if settled else key)
        if changed and settled:
            # Held down, the key settles no other one.
            self.query_one(MarkedList).mark_between()

    def _is_done(self, key: str) -> bool:
        return any(q.key == key and q.status.is_done for q in self.session.plan.questions)

    def _next_open(self, key: str, order: tuple[str, ...]) -> str:
        """What is marked once a question is settled: the next open one, as the list was then; one
        that holds the order before any other, for those stand above."""
        still = {q.key for q in self.session.plan.questions if not q.status.is_done}
        if key in still or key not in order:
            return key
        at = order.index(key)
        after = [one for one in (*order[at:], *order[:at]) if one in still]
        holding = self.session.plan.readiness.holding if key in self._holding else ()
        return next((one for one in after if one in holding), next(iter(after), key))

    def action_waive(self) -> None:
        """Say why the order may go out without an answer; no reason takes that back."""
        key, order = self._marked(), self._order

        def done() -> None:
            self._changed()
            self.show(self._next_open(key, order))

        if (asked := waiver(self.session, self.say, key, done)) is not None:
            self.app.push_screen(*asked)
        elif not key:
            self.say("Mark a question first.")

    def action_person(self, by: int) -> None:
        """To the first question of another person."""
        rows = self.query_one(OptionList)
        at = rows.highlighted or 0
        after = [i for i in self._heads if i > at]
        before = [i for i in self._heads if i < at]
        if by > 0 and after:
            rows.highlighted = after[0]
        elif by < 0 and before:
            rows.highlighted = before[-1]

    def stepped(self) -> None:
        """Show the job as it is after undo or redo."""
        self._changed()
        self.show()

    # -- the sheet -------------------------------------------------------------------------

    def action_save(self) -> None:
        """Save the question sheet, to print from a browser or to read out."""
        from coilwright.sheets.saving import save_sheets

        try:
            saved = save_sheets(self.session.plan, self.folder, ("questions",))
        except StoreError as error:
            self.say(str(error), title="Not saved", severity="error", timeout=15)
            return
        names = " and ".join(path.name for path in saved)
        self.say(f"{names} in {self.folder}. Print the .html page from a browser.",
                    title="Question sheet saved", timeout=10)


def _heading(text: str) -> Option:
    return Option(Content.styled(text, "bold"), disabled=True)


def _mark(question: Question, holding: frozenset[str]) -> str:
    """Whether a question holds the order, or asks for what is counted as an answer already."""
    if question.key in holding:
        return _HOLD
    return _ALSO if question.urgent and question.words.answer else ""


def _row(question: Question, holds: str, width: int, system: System) -> Content:
    """Sign, whether it holds the order, the question, the reply so far."""
    said = question.said or "; ".join(map(str, question.quoted))
    if question.status is Status.WAIVED:
        said = f"waived: {question.waived}"
    said = escape_controls(" ".join(said.split()))
    tail_width = min(max(_TAIL, width // 3), cells(said) + 1) if said else 0
    room = width - tail_width
    lines = hang(((f" {_SIGNS[question.status]} {pad(holds, len(_ALSO))} ", "bold"),
                  (with_units(question.words.ask, system), "")), room, _INDENT).split("\n")
    first = lines[0]
    if said:
        first = Content.assemble(first.pad_right(room - first.cell_length),
                                 (f" {fit(said, tail_width - 1)}", "bold"))
    return Content("\n").join([first, *lines[1:]])
