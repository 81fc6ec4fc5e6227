"""A practice job to the class's machines and back, in a file of its own, sealed; and its title and
story."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from textual.screen import Screen

from coilwright.job.anonymous import said_of
from coilwright.job.practice import Practice
from coilwright.store import StoreError
from coilwright.store.files import named_path
from coilwright.store.practice import (
    export_practice,
    rename_practice,
    take_in_practice,
)
from coilwright.store.practice_names import NamesSomebody, names_to_see
from coilwright.wizard.context import Say
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.practice.name_leaves import NameLeavesScreen
from coilwright.wizard.settings import remember_export, remembered_export

_SEALED = ("Sealed: its key is not read at a glance. On the other machine it is taken in at the "
           "end of this list.")
_TAKEN = "It joins this list. e on a practice job, on another machine, writes such a file."


_RENAMED = ("Attempts begun under the old title or story are reviewed under those alone: review "
            "them before. Its file and its name follow the title, and its options stand in another "
            "order: print its handouts again.")


class PracticeSharing:
    """Asks for the file, and writes or reads it; a place that will not do is asked again.

    That a name of the job it was made of leaves the house is asked by itself, at each title and at
    each file.
    """

    def __init__(
        self, home: Path, open_screen: Callable[[Screen[Any], Callable[[Any], None]], object],
        say: Say,
    ) -> None:
        self._home = home
        self._open = open_screen
        self._say = say

    def begin_export(self, practice: Practice, usual: Path) -> None:
        """Ask where a practice job goes: the folder used last, or the usual one."""
        self.export(practice, str(remembered_export(self._home) or usual))

    def export(self, practice: Practice, place: str, wrong: str = "") -> None:
        """Ask where a practice job goes, and write it there."""
        def given(texts: tuple[str, ...] | None) -> None:
            if texts is not None:
                self._write(practice, texts[0])

        self._open(LinesScreen(
            f"To a file: {escape_controls(practice.title)}", _SEALED,
            (Line("Folder", place, "made if it is not there; or a file in .json"),), wrong=wrong),
            given)

    def _write(self, practice: Practice, place: str, *, names_kept: bool = False) -> None:
        try:
            path = export_practice(self._home, practice, named_path(place), names_kept=names_kept)
        except NamesSomebody as error:
            instead = ("nothing is written; on the command line --export FILE --open lets it be "
                       "taken out by hand" if error.by_hand else
                       "nothing is written; r gives it another title and story")
            self._open(NameLeavesScreen(str(error), instead),
                       lambda kept: self._write(practice, place, names_kept=True) if kept
                       else self._say("Not written."))
            return
        except StoreError as error:
            self.export(practice, place, f"Not written: {error}")
            return
        with contextlib.suppress(StoreError):  # it is written, whether that is kept or not
            remember_export(self._home, path.parent)
        self._say(f"{escape_controls(str(path))}: sealed, for the class's machines.",
                  title="Practice job written", timeout=10)

    def rename(
        self, practice: Practice, done: Callable[[Practice], None], texts: tuple[str, str],
        wrong: str = "", at: int = 0,
    ) -> None:
        """Ask for another title and story of a practice job of the trainer's own. done: called
        with it as it is then; texts: title and story to begin with; at: the first line that is
        wrong: from a title Enter goes on to the story, which may be changed with it."""
        def take(texts: tuple[str, str], *, names_kept: bool = False) -> None:
            try:
                made = rename_practice(self._home, practice, *texts, names_kept=names_kept)
                done(made)
                self._say(_renamed_words(practice, made), timeout=10)
            except NamesSomebody as error:
                told = str(error)
                names = names_to_see(self._home, practice.name)
                wrong = [line for line, text in enumerate(texts) if said_of(names, text)]
                self._open(NameLeavesScreen(told), lambda kept: take(texts, names_kept=True)
                           if kept else self.rename(
                               practice, done, texts,
                               f"Not renamed yet: {told} Write another.", wrong[0]))
            except StoreError as error:
                self.rename(practice, done, texts, str(error))

        title, story = texts
        self._open(LinesScreen(
            "Rename", _RENAMED,
            (Line("Title", title, "as the list shows it"),
             Line("Story", story, "what it is about, in a sentence or two")),
            at, wrong, through=1),
            lambda typed: None if typed is None else take((typed[0], typed[1])))

    def take_in(
        self, taken: Callable[[Practice], None], place: str = "", wrong: str = ""
    ) -> None:
        """Ask for a file with a practice job, and keep what is in it. taken: called with that."""
        def given(texts: tuple[str, ...] | None) -> None:
            if texts is None:
                return
            try:
                made = take_in_practice(self._home, named_path(texts[0]))
            except StoreError as error:
                self.take_in(taken, texts[0], f"Not taken in: {error}")
                return
            taken(made)
            self._say(f"“{escape_controls(made.title)}” is in the list.")

        self._open(LinesScreen(
            "Take in a practice job", _TAKEN,
            (Line("File", place, "its path; it ends in .practice.json"),), wrong=wrong), given)


def _renamed_words(before: Practice, now: Practice) -> str:
    """What a renamed practice job has anew."""
    title = f"“{escape_controls(now.title)}”"
    if now == before:
        return f"{title} is as it was."
    if (now.title, now.story) == (before.title, before.story):
        return f"{title} is called so in its key too now."
    if now.title == before.title:
        return f"{title} has another story."
    return f"“{escape_controls(before.title)}” is called {title} now."
