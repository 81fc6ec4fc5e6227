"""The brief of a practice job: its papers, what to decide, hints, and handing it in."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from pathlib import Path

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.attempt import Attempt, Response
from coilwright.job.practice import Decision
from coilwright.plan.practice.hints import take_hint
from coilwright.plan.practice.review import (
    decided_words,
    number_error,
    open_words,
    opened_when,
)
from coilwright.plan.practice.solve import Solved, listed
from coilwright.sheets.blocks import Sheet, paragraph
from coilwright.sheets.practice import brief_papers
from coilwright.store import StoreError
from coilwright.store.opened_keys import key_opened, review_opened
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.beside import READ_KEYS, READS, ReadsPapers
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.practice.hints import HintsScreen
from coilwright.wizard.screens.practice.paper import sheet_text
from coilwright.wizard.screens.practice.picks import PicksScreen
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.columns import cells, fit, hang
from coilwright.wizard.widgets.rows import MarkedList
from coilwright.words.counting import counted

_HOW = """\
↑ ↓ mark a question, Enter decides it, and the mark goes on to the next that is open; Enter on \
one that is decided changes it. A number or an option's letter typed on it opens it as well. \
PgUp PgDn or the wheel read the papers above, in every box.
Escape goes to the job's steps, where numbers are worked out as they are typed; Ctrl+R comes back.
A hint counts; to read one again does not. i hands in, once, and then what was kept back shows."""
_BEGINS = "0123456789.-"
"""What a number begins with."""
_WHY = "for whoever reviews it; may stay empty"


class BriefScreen(ReadsPapers, Modal[Path]):
    """The brief and the decisions. The key is never shown here.

    Returns where it was handed in, once it was. folder: the one that is proposed. hand_in: writes
    it, by a name and a folder; where it raises StoreError, both are asked again.
    """

    BINDINGS = [
        Binding("h", "hint", "Hints", id="brief.hint",
                tooltip="Hints on the marked decision: those taken, and the next, which counts"),
        Binding("i", "hand_in", "Hand in", tooltip="Hand it in: what was kept back shows then",
                id="brief.hand-in"),
        *READ_KEYS,
    ]

    help_parts = (("How it goes", _HOW),)

    def __init__(
        self, session: Session, solved: Solved, folder: Path, hand_in: Callable[[str, str], Path]
    ) -> None:
        super().__init__()
        self._hand_in = hand_in
        self._stray = ""
        """What was typed on a question of picks, most likely meant for one of a number."""
        self.session = session
        self.folder = folder
        self.solved = solved

    @property
    def attempt(self) -> Attempt:
        """The attempt as it is now."""
        attempt = self.session.job.practice
        assert attempt is not None
        return attempt

    def compose(self) -> ComposeResult:
        """Title, papers, decisions, keys."""
        practice = self.solved.practice
        with Vertical(classes="box"):
            variant = f" (variant {self.solved.seed})" if practice.varies else ""
            yield Static(plain(f"Practice: {practice.title}{variant}"), classes="over-title")
            with VerticalScroll(classes="paper", can_focus=False):
                yield Static("", classes="paper-text")
            yield Static("Decide", classes="heading")
            yield MarkedList(compact=True, id="brief-decisions")
            yield Static(f"Enter decides · h hints · i hand in · {READS} · Esc to the steps",
                         classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """The decisions have the focus, and the first that is open the mark."""
        self.show()
        rows = self.query_one(OptionList)
        rows.focus()
        rows.highlighted = next(
            (at for at, one in enumerate(self.solved.practice.decisions)
             if not self.attempt.response(one.key).is_given), 0)

    def on_key(self, event: events.Key) -> None:
        """What is typed on a question opens its box, and stands in it; a letter goes to its option.

        One that means something else here, as h, is that.
        """
        decision, typed = self._marked(), event.character or ""
        if decision is None:
            return
        if self._is_stray(event, decision):
            event.stop()
            return
        if event.key in self.active_bindings:
            return
        if decision.judged.is_typed and typed and typed in _BEGINS:
            event.stop()
            self._type(decision, typed)
        elif any(typed == decision.letter(option.key) for option in decision.options):
            event.stop()
            self._pick(decision, typed)

    def _is_stray(self, event: events.Key, decision: Decision) -> bool:
        """Whether a key is of a number that was begun on a question of picks: none of its letters
        means anything then, until another key ends it."""
        typed = event.character or ""
        if event.key == "enter" and self._stray:
            self.say(f"“{escape_controls(self._stray)}” is none of its picks, so nothing was "
                     "opened; Enter again does.")
            self._stray = ""
            return True
        begins = bool(typed) and typed in _BEGINS and not decision.judged.is_typed and not any(
            typed == decision.letter(option.key) for option in decision.options)
        if begins and not self._stray:
            self.say("This question is picked, no number is typed on it: Enter opens its options.")
        if not (begins or self._stray) or not typed.isprintable() or not typed:
            self._stray = ""
            return False
        self._stray += typed
        return True

    def on_resize(self, _event: events.Resize) -> None:
        """Set the papers for the width there is, once it is laid out."""
        self.call_after_refresh(self._set_papers)

    def _set_papers(self) -> None:
        story = paragraph(self.solved.practice.story)
        sheet = Sheet("What it is about", (story, *brief_papers(self.solved)))
        self.query_one(".paper-text", Static).update(
            plain(sheet_text(sheet, self.room)))
        self.show()

    def show(self) -> None:
        """Show the decisions as they are now."""
        rows = self.query_one(OptionList)
        at = rows.highlighted or 0
        width = max(40, self.room - 4)
        rows.set_options([
            Option(self._row(number, one, width), id=one.key)
            for number, one in enumerate(self.solved.practice.decisions, 1)
        ])
        rows.highlighted = at

    def _row(self, number: int, decision: Decision, width: int) -> Content:
        response = self.attempt.response(decision.key)
        said = response.text or listed(decision, response.picks)
        if letters := sorted(
            decision.letter(key) for key in response.picks if decision.option(key)
        ):
            # All of them by their letters: their words run out of the line.
            said = f"{', '.join(letters)}: {said}"
        after = ("   ! cannot be read" if number_error(
            response.text, self.solved.solution(decision.key)) else "")
        after += f"  ({counted(response.hints, 'hint')})" if response.hints else ""
        said = escape_controls(f"    {said or 'not decided yet'}")
        said = f"{fit(said, width - cells(after))}{after}"
        # Why, below it where there is no room beside: long words of picks would push it out.
        why = escape_controls(f"why: {response.why}") if response.why else ""
        apart = "   " if cells(said) + 3 + cells(why) <= width else "\n    "
        return Content.assemble(
            # Whole: a question that is cut is not asked. Its first cell is free for the row's mark.
            hang(((f" {number}. {escape_controls(decision.ask)}", "bold"),), width, 4),
            "\n", said, f"{apart}{fit(why, width - 4)}" if why else "")

    # -- deciding --------------------------------------------------------------------------

    def _marked(self) -> Decision | None:
        option = self.query_one(OptionList).highlighted_option
        return None if option is None else self.solved.practice.decision(option.id or "")

    def _respond(self, decision: Decision, response: Response) -> None:
        self.session.take_beside(dataclasses.replace(
            self.session.job, practice=self.attempt.respond(decision.key, response)))
        self.show()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        decision = self.solved.practice.decision(event.option_id or "")
        if decision is None:
            return
        if decision.judged.is_typed:
            self._type(decision)
        else:
            self._pick(decision)

    def _type(self, decision: Decision, begun: str = "") -> None:
        old = self.attempt.response(decision.key)
        lines = [Line("Answer", old.text, "a number with its unit", empty=True)]
        if decision.reason:
            lines.append(Line("Why", old.why, _WHY, empty=True))

        def typed(texts: tuple[str, ...] | None) -> None:
            if texts is None:
                return
            why = texts[1] if decision.reason else old.why
            self._respond(decision, dataclasses.replace(old, text=texts[0], why=why))
            self._go_on(decision, old)
            error = number_error(texts[0], self.solved.solution(decision.key))
            if error:
                self.say(error, severity="warning")

        self.app.push_screen(LinesScreen("Decide", decision.ask, tuple(lines), begun=begun,
                                         beside=True), typed)

    def _pick(self, decision: Decision, letter: str = "") -> None:
        old = self.attempt.response(decision.key)

        def picked(picks: tuple[str, ...] | None) -> None:
            if picks is None:
                return
            new = dataclasses.replace(old, picks=picks)
            self._respond(decision, new)
            if not (decision.reason and picks):
                self._go_on(decision, old)
                return

            def told(said: tuple[str, ...] | None) -> None:
                if said is not None:
                    self._respond(decision, dataclasses.replace(new, why=said[0]))
                self._go_on(decision, old)

            self.app.push_screen(LinesScreen(
                "Why?", decision.ask, (Line("Why", old.why, _WHY, empty=True),), beside=True), told)

        self.app.push_screen(PicksScreen(decision, old.picks, letter), picked)

    def _go_on(self, decision: Decision, before: Response) -> None:
        """Mark the next question that is open, once one was decided that was open before and can be
        read."""
        response, decisions = self.attempt.response(decision.key), self.solved.practice.decisions
        if before.is_given or not response.is_given or number_error(
                response.text, self.solved.solution(decision.key)):
            return
        at = decisions.index(decision)
        later = (n for n, one in enumerate(decisions)
                 if n > at and not self.attempt.response(one.key).is_given)
        self.query_one(OptionList).highlighted = next(later, at)

    def action_hint(self) -> None:
        """The hints taken for the marked decision, to read again; from there the next, counted."""
        if (decision := self._marked()) is not None:
            self._hints(decision, asked=False)

    def _hints(self, decision: Decision, *, asked: bool) -> None:
        """asked: one more was asked for just now."""
        solution = self.solved.solution(decision.key)
        before = self.attempt.response(decision.key)
        response = take_hint(solution, before) if asked else before
        if response != before:
            self._respond(decision, response)

        def closed(more: bool | None) -> None:
            if more:
                self._hints(decision, asked=True)

        self.app.push_screen(HintsScreen(solution, response, before), closed)

    def action_hand_in(self) -> None:
        """Ask who hands it in and where, over the brief: Escape comes back to it."""
        self._ask_hand_in(self.attempt.name, str(self.folder))

    def _ask_hand_in(
        self, name: str, place: str, wrong: str = "", *, open_told: bool = False
    ) -> None:
        """wrong: why it could not be written there; the folder is asked again. open_told: what is
        open was said, and it is to be handed in all the same."""
        told = decided_words(self.solved, self.attempt)
        opened = key_opened(self.session.store.folder, self.attempt.practice)
        if opened is not None:
            told += f" It says that the key was opened here {opened_when(opened)}."
        elif (read := review_opened(self.session.store.folder, self.attempt)) is not None:
            told += (" It says that somebody else's review of this variant was opened here "
                     f"{opened_when(read)}.")

        def given(texts: tuple[str, ...] | None) -> None:
            if texts is None:
                self.say("Not handed in yet: i hands it in.")
                return
            if not open_told and (left := open_words(self.solved, self.attempt)):
                self._ask_hand_in(
                    texts[0], texts[1], f"Not handed in yet: {left}. Enter once more hands it in "
                    "so; Escape goes back to them.", open_told=True)
                return
            try:
                path = self._hand_in(*texts)
            except StoreError as error:
                self._ask_hand_in(texts[0], texts[1], f"Not handed in: {error}",
                                  open_told=open_told)
                return
            self.dismiss(path)

        self.app.push_screen(LinesScreen(
            "Hand in",
            f"{told} Enter below the folder hands it in: what you decided stays as it is then, "
            "and what was kept back shows.",
            (Line("Name", name, "who you are"),
             Line("Folder", place, "the class's; made if it is not there; Enter hands it in")),
            1 if wrong else 0, wrong), given)
