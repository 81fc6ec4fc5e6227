"""All questions of the job by whom to ask, the open ones first; and the sheet to take along."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.plan.ask_first import Effect
from coilwright.plan.questions import Question, Status, by_person, reply, waive
from coilwright.store import StoreError
from coilwright.wizard.context import say_redone, say_undone
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.question import QuestionScreen
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.columns import cells, fit, pad
from coilwright.wizard.widgets.rows import PagedList

_FIRST = 3
_SIGNS = {Status.OPEN: "☐", Status.GUESS: "~", Status.SETTLED: "☑", Status.WAIVED: "–"}
_TAIL = 20
"""The most room for the reply so far, at the end of a row."""


class QuestionsScreen(Modal[str]):
    """The list; Enter opens a question. It may return an answer to go to."""

    BINDINGS = [
        Binding("right", "person(1)", "Next person", tooltip="To whom to ask next",
                id="questions.next-person"),
        Binding("left", "person(-1)", "Person before", tooltip="To whom to ask before",
                id="questions.person-before"),
        Binding("f3", "mark(False)", "Open", tooltip="Not settled yet", id="questions.open"),
        Binding("f4", "mark(True)", "Settled", tooltip="This is settled", id="questions.settle"),
        Binding("w", "waive", "Waive", tooltip="The order may go out without an answer: say why",
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
        changed: Callable[[], None], open_at: str = "",
    ) -> None:
        super().__init__()
        self.session = session
        self.folder = folder
        self.effects = effects
        self._changed = changed
        self._open_at = open_at
        self._order: tuple[str, ...] = ()
        self._heads: list[int] = []

    def compose(self) -> ComposeResult:
        """Count, list, hints."""
        with Vertical(classes="box"):
            yield Static("", id="questions-title", classes="over-title", markup=False)
            yield PagedList(id="questions-list", compact=True)
            yield Static(
                "Enter opens · ← → person · F4 settled · F3 open · w waive · s saves · Esc",
                classes="over-hint", markup=False,
            )

    def on_mount(self) -> None:
        """Show the list, or the question that was asked for."""
        self.show()
        self.query_one(OptionList).focus()
        if self._open_at:
            self._open(self._open_at)

    # -- showing ---------------------------------------------------------------------------

    def show(self, at: str = "") -> None:
        """Show the questions as they are now; the row of one marked, else that marked before."""
        asked = self.session.plan.questions
        left = [q for q in asked if not q.status.is_done]
        urgent = sum(q.urgent for q in left)
        title = f"{len(left)} of {len(asked)} questions are not settled yet"
        if urgent:
            title += f"; {urgent} hold the order, marked HOLD"
        if not left:
            title = f"All {len(asked)} questions are settled"
        self.query_one("#questions-title", Static).update(plain(title))
        rows = self.query_one(OptionList)
        before = rows.highlighted_option
        at = at or (before.id or "" if before is not None else "")
        options = self._options(asked)
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(options)
            place = next((i for i, o in enumerate(options) if o.id == at), None)
            if place is None:
                rows.action_first()
            else:
                rows.highlighted = place

    def _options(self, asked: tuple[Question, ...]) -> list[Option]:
        width = max(30, min(self.app.size.width, 112) - 6)
        made: list[Option] = []
        firsts = self._firsts()
        if firsts:
            made.append(_heading("Ask these first: they move the order most"))
        for number, effect in enumerate(firsts, 1):
            filled_by = next((q.who for q in asked if q.words.answer == effect.key), effect.who)
            who = "you" if filled_by == "you" else f"the {filled_by}"
            made.append(Option(Content.assemble(
                f"{number}  ", (effect.label, "bold"), f", {who}: {escape_controls(effect.words)}",
            ), id=f"first:{effect.key}"))
        order: list[str] = []
        self._heads = []
        for person, mine in by_person(asked).items():
            left = sum(not q.status.is_done for q in mine)
            count = f"{left} open" if left else "all settled"
            made.append(_heading(f"For the {person}: {count}, {len(mine)} in all"))
            self._heads.append(len(made))
            for question in mine:
                order.append(question.key)
                made.append(Option(_row(question, width), id=question.key))
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
            self._open(key)

    def _open_first(self, answer: str) -> None:
        """The question that fills an answer; one nobody else can answer is gone to."""
        found = next((q.key for q in self.session.plan.questions
                      if q.words.answer == answer), None)
        if found is not None:
            self._open(found)
        else:
            self.dismiss(answer)

    def _open(self, key: str) -> None:
        def closed(go_on: str | None) -> None:
            self.show(go_on or key)
            if go_on in self._order:
                self._open(go_on or "")

        if key in self._order:
            screen = QuestionScreen(self.session, key, self._order, self._changed)
            self.app.push_screen(screen, closed)

    def action_mark(self, settled: bool) -> None:
        """Mark the question settled, or open again."""
        key = self._marked()
        question = next((q for q in self.session.plan.questions
                         if q.key == key), None)
        if question is None:
            return
        if question.words.answer and not question.said:
            self.say("There is no reply yet; Enter opens the question.")
            return
        self.session.seal()
        job, error = reply(self.session.job, key, question.said, settled)
        what = "settled" if settled else "open"
        if error:
            self.say(error, severity="warning")
        elif self.session.change(job, f"“{fit(question.words.ask, 40)}”: {what}"):
            self._changed()
        self.show(key)

    def action_waive(self) -> None:
        """Say why the order may go out without an answer; no reason takes that back."""
        key = self._marked()
        question = next((q for q in self.session.plan.questions
                         if q.key == key), None)
        if question is None:
            return

        def given(said: tuple[str, ...] | None) -> None:
            if said is None:
                return
            self.session.seal()
            job = waive(self.session.job, key, said[0])
            if self.session.change(job, f"“{fit(question.words.ask, 40)}”: waived"):
                self._changed()
            self.show(key)

        self.app.push_screen(LinesScreen(
            "Waive the question", f"“{question.words.ask}” {question.words.otherwise}",
            (Line("Reason", question.waived, "why the order may go out without an answer",
                  empty=True),),
        ), given)

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

    def action_undo(self) -> None:
        """Take the last change back."""
        if say_undone(self.say, self.session.undo()):
            self._changed()
            self.show()

    def action_redo(self) -> None:
        """Make the undone change again."""
        if say_redone(self.say, self.session.redo()):
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


def _row(question: Question, width: int) -> Content:
    """Sign, whether it holds the order, the question, the reply so far."""
    said = question.said if question.status is not Status.WAIVED else f"waived: {question.waived}"
    said = escape_controls(" ".join(said.split()))
    hold = "HOLD" if question.urgent else ""
    tail_width = min(_TAIL, cells(said) + 1) if said else 0
    room = width - 7 - tail_width
    ask = pad(question.words.ask, room) if said else fit(question.words.ask, room)
    tail = f" {fit(said, tail_width - 1)}" if said else ""
    return Content.assemble(
        (f"{_SIGNS[question.status]} {pad(hold, 4)} ", "bold"), ask, (tail, "bold"),
    )
