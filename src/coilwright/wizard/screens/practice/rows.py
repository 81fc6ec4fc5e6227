"""The rows of the list of practice: a click marks one, as in all lists whose rows have keys."""

from __future__ import annotations

from collections.abc import Mapping

from textual import events
from textual.content import Content
from textual.widgets.option_list import Option

from coilwright.job.practice import Practice
from coilwright.sheets.practice import level_word, task_words
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.widgets.columns import hang, pad
from coilwright.wizard.widgets.rows import MarkedList

_DRILLS = {
    "tag": "read a tag", "plate": "read a data plate", "tape": "read a tape",
    "quote": "read a quote",
}


class PracticeRows(MarkedList):
    """A click marks a row; a click on the row whose mark is seen opens it, as Enter does."""

    def on_mouse_down(self, event: events.MouseDown) -> None:
        """See whether the click hits the row whose mark is seen."""
        self.only_marked = self.is_elsewhere(event) or not self.has_focus

    def on_key(self, _event: events.Key) -> None:
        """A key means the marked row."""
        self.only_marked = False


def practice_rows(practices: Mapping[str, Practice], room: int) -> list[Option]:
    """The rows of practice jobs, drills and what is the trainer's, broken for so many cells."""
    made = [_heading("Practice jobs: what is to be done in each")]
    made += [
        Option(hang((
            (f" {pad(level_word(one.level), 9)}{escape_controls(one.title)}: ", ""),
            (task_words(one), "dim")), max(40, room - 2), 10), id=f"practice:{one.name}")
        for one in practices.values()
    ]
    made.append(_heading("Drills of a minute"))
    made += [Option(plain(f" {words}"), id=f"drill:{key}") for key, words in _DRILLS.items()]
    made.append(_heading("For the trainer"))
    made.append(Option(plain(" Make a practice job of one of yours, or of a demo job"), id="make:"))
    made.append(Option(plain(" Take in a practice job from a file"), id="take:"))
    made.append(Option(plain(" Review attempts: a class in one table"), id="class:"))
    return made


def _heading(text: str) -> Option:
    return Option(Content.styled(text, "bold"), disabled=True)
