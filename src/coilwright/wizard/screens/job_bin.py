"""A job is deleted on the first screen, and comes back from the bin, at once or another day."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

from textual.screen import Screen

from coilwright.job.sending import kept_of_order
from coilwright.store import Entry, Store, StoreError
from coilwright.store.bin import LEADS_NOWHERE, leads_nowhere
from coilwright.units import show_date
from coilwright.wizard.context import Say
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.widgets.columns import fit, pad
from coilwright.wizard.widgets.rows import MarkedList

_EMPTY = "No job is in the bin; practice jobs have one in their own list."
_NAME, _STATE = 26, 46
"""Cells of a job's name in the bin, and of how far it was."""


class JobBin:
    """Moves jobs to the bin and brings them back, and says which.

    gone: called once a job went, with what is said of it; back: with the file of one that came.
    """

    def __init__(
        self, store: Store, open_screen: Callable[[Screen[Any], Callable[[Any], None]], object],
        say: Say, gone: Callable[[str], None], back: Callable[[Path], None],
    ) -> None:
        self._store = store
        self._open = open_screen
        self._say = say
        self._gone = gone
        self._came_back = back
        self._here: set[Path] = set()
        """What lies in the bin since the list of jobs was opened."""
        self._back = ""
        """The title of the job brought back last."""
        self._stay: set[Path] = set()
        """What could not be brought back, which was said."""
        self._offered: Path | None = None
        """One of another day, of which was said that it would be brought back next."""

    def delete(self, entry: Entry, rows: MarkedList) -> None:
        """Move the marked job to the bin; one whose order went out only when asked twice."""
        title = escape_controls(entry.title)
        if said := rows.just_came():
            self._say(said)
            return
        held = "" if rows.struck_twice(str(entry.path)) else self._holds(entry)
        if held:
            # The key first: a row of a narrow terminal holds no more.
            self._say(f"d again moves {title} to the bin: it holds {escape_controls(held)}.",
                      severity="warning", timeout=15)
            return
        try:
            self._here.add(self._store.delete(entry.path))
        except StoreError as error:
            self._say(str(error), severity="error")
            return
        self._gone(f"{title} is in the bin; u brings it back.")
        self._say(f"{title} is in the bin; u brings it back, b lists the bin.", timeout=10)

    def _holds(self, entry: Entry) -> str:
        """What a job keeps of an order that went out; empty for none, and for a damaged file."""
        try:
            return kept_of_order(self._store.load(entry.path))
        except StoreError:
            return ""

    def bring_back_last(self) -> None:
        """Bring back the job that was deleted last, here or another day.

        Struck once more than anything was deleted here, the key says first what it would bring.
        """
        last = self._store.last_binned(self._stay)
        if last is None and any(os.path.lexists(one) for one in self._stay):
            self._say("Nothing more in the bin can be brought back; b lists it.")
        elif last is None:
            self._say(f"{self._back} is back; nothing more is in the bin." if self._back else
                      _EMPTY)
        elif self._back and last.path not in {*self._here, self._offered}:
            self._offered = last.path
            self._say(f"{self._back} is back. u again brings {escape_controls(last.title)} back, "
                      f"deleted {_when(last)}.")
        else:
            self._bring_back(last)

    def _bring_back(self, entry: Entry) -> None:
        try:
            path = self._store.restore(entry.path)
        except StoreError as error:
            self._stay.add(entry.path)
            self._say(escape_controls(str(error)), severity="error")
            return
        self._stay.discard(entry.path)
        day = "" if entry.path in self._here else f"; it was deleted {_when(entry)}"
        self._here.discard(entry.path)
        self._back = escape_controls(entry.title)
        self._came_back(path)
        self._say(f"{self._back} is back{day}.")

    def show(self) -> None:
        """List what lies in the bin; the one that is picked comes back."""
        lying = self._store.binned()
        if not lying:
            self._say(_EMPTY)
            return
        lines = tuple(f"{number:2}  {pad(escape_controls(one.title), _NAME)}  {_when(one)}"
                      for number, one in enumerate(lying, 1))
        states = {line: fit(escape_controls(
            LEADS_NOWHERE if leads_nowhere(one.path) else one.state), _STATE)
                  for line, one in zip(lines, lying, strict=True)}

        def picked(line: str | None) -> None:
            if line is not None:
                self._bring_back(lying[lines.index(line)])

        self._open(PickScreen(
            f"Bring a job back from {self._store.bin_folder}, by when it was deleted", lines, "",
            about=states), picked)


def _when(entry: Entry) -> str:
    return f"{show_date(entry.changed.date(), entry.units)} {entry.changed:%H:%M}"
