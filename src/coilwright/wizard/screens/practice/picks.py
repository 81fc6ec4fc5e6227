"""Options to pick from: one, or as many as are right."""

from __future__ import annotations

from collections.abc import Iterable

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.practice import Decision
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.beside import PAGE_KEYS, READS_ABOVE, ReadsBelow
from coilwright.wizard.widgets.columns import hang
from coilwright.wizard.widgets.rows import MarkedList

_OFF, _ON = "☐", "☑"
_WIDEST = 92
"""Cells of the box at most: an option is a sentence."""


class PicksScreen(ReadsBelow, Modal[tuple[str, ...]]):
    """Returns the keys that are picked; None where it is left, which changes nothing.

    letter: what was typed to open it, which does here what it would do typed again.
    """

    BINDINGS = [
        Binding("space", "turn", "Pick", tooltip="Pick it, or take that back", id="picks.turn"),
        Binding("enter", "done", "Done", tooltip="Back with what is picked", id="picks.done",
                priority=True),
        *PAGE_KEYS,
    ]

    def __init__(self, decision: Decision, picks: Iterable[str], letter: str = "") -> None:
        super().__init__(classes="-beside")
        self._letter = letter
        self.decision = decision
        self.picks = [key for key in picks if decision.option(key)]
        self._before = tuple(self.picks)
        self._told = False

    def compose(self) -> ComposeResult:
        """The question, the options."""
        one = self.decision.judged.picks_one
        count = self.decision.count
        with Vertical(classes="box picks-box"):
            yield Static(plain(self.decision.ask), classes="over-title")
            yield MarkedList(*self._options(), compact=True, id="picks-list")
            many = f"Space or its letter picks {count}" if count else (
                "Space or its letter picks each that is so")
            hint = "Its letter goes to it · Enter picks" if one else f"{many} · Enter is done"
            yield Static(f"{hint} · {READS_ABOVE} · Escape changes nothing",
                         classes="over-hint")

    def on_mount(self) -> None:
        """The list has the focus."""
        self.query_one(OptionList).focus()
        self._to_letter(self._letter)

    def _options(self) -> list[Option]:
        room = max(24, min(self.app.size.width, _WIDEST) - 8)
        return [
            Option(hang(((f" {_ON if one.key in self.picks else _OFF} "
                          f"{self.decision.letter(one.key)}. "
                          f"{escape_controls(one.words)}", ""),), room, 6), id=one.key)
            for one in self.decision.options
        ]

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self._turn(event.option_id or "")

    def action_turn(self) -> None:
        """Pick what is marked, or take that back."""
        option = self.query_one(OptionList).highlighted_option
        if option is not None:
            self._turn(option.id or "")

    def on_key(self, event: events.Key) -> None:
        """The letter of an option goes to it; where many are picked it is picked too."""
        if self._to_letter(event.character or ""):
            event.stop()

    def _to_letter(self, letter: str) -> bool:
        """Go to the option of a letter, and pick it where many are; whether there is one."""
        for at, option in enumerate(self.decision.options):
            if letter == self.decision.letter(option.key):
                self.query_one(OptionList).highlighted = at
                if not self.decision.judged.picks_one:
                    self._turn(option.key)
                return True
        return False

    def action_close(self) -> None:
        """Leave it as it was; what was picked meanwhile is not dropped unasked."""
        if tuple(self.picks) != self._before and not self._told:
            self._told = True
            self.say("Not kept yet: Enter keeps what you picked, Escape again drops it.",
                     severity="warning")
            return
        self.dismiss(None)

    def _turn(self, key: str) -> None:
        if self.decision.judged.picks_one:
            self.dismiss((key,))
            return
        self._told = False
        if key in self.picks:
            self.picks.remove(key)
        elif self.decision.count is not None and len(self.picks) >= self.decision.count:
            are = "is" if self.decision.count == 1 else "are"
            self.say(f"{self.decision.count} {are} picked already; take one back first.")
            return
        else:
            self.picks.append(key)
        rows = self.query_one(OptionList)
        at = rows.highlighted
        rows.set_options(self._options())
        rows.highlighted = at

    def action_done(self) -> None:
        """Back with what is picked; the marked one, where one is to be picked."""
        if self.decision.judged.picks_one:
            self.action_turn()
        elif self.picks or self._before:
            self.dismiss(tuple(self.picks))
        else:
            self.say("Nothing is picked yet: Space picks, Escape leaves it open.")
