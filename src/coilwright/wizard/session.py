"""One job being worked on: the job, its plan, undo, and autosave. No screens here."""

from __future__ import annotations

import time
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.job import edit
from coilwright.job.answers import ANSWERS
from coilwright.job.confirmations import carry_confirmations, carry_from_start, lapsed
from coilwright.job.job import Job
from coilwright.job.stock import CoilOnHand
from coilwright.store import Stamp, Store, StoreError
from coilwright.store.claims import claim_words, claims_by_job
from coilwright.store.files import ChangedElsewhere, Seen
from coilwright.store.history import keep_history, read_history
from coilwright.store.naming import awaits_name
from coilwright.values.standing import Standing
from coilwright.wizard.changes import Change, Changes, stepped
from coilwright.wizard.progress import state_on
from coilwright.wizard.today import day_for_word, today

if TYPE_CHECKING:
    from coilwright.plan import Plan
    from coilwright.plan.coils.leftovers import StockOffer

SEARCH_SECONDS = 10.0
"""How long the search for less metal goes on that starts by itself."""
_SLOW = 0.15
"""A plan that takes longer than this [s] is not worked out on every key."""


class Session:
    """Holds a job while it is worked on.

    path is None until the job is first written. Nothing is written before something changed,
    so looking at a demo or opening a new job and leaving it leaves no file behind.
    """

    def __init__(
        self, store: Store, job: Job, path: Path | None = None,
        search_seconds: float = SEARCH_SECONDS,
    ) -> None:
        self.store = store
        # As every plan takes it: a file edited by hand may hold what was confirmed for another job.
        self.job = lapsed(job)
        self.path = path
        self.dirty = False
        self.conflict = False
        self.saving = False
        """Whether the file is being written: what interrupts that may not write it as well."""
        self._stamp: Stamp | None = store.stamp(path) if path else None
        self._unstated = False
        """Whether the file does not say how far the job is: there was no time to plan it."""
        self.news = ""
        """What is to be said once, when the job is shown first: how it began."""
        self.is_copy = False
        """Whether it began, saved, as a copy of another job."""
        self._naming = False
        """Whether the file has no name yet, or it is still typed: it is named again as it grows."""
        self._title_there = job.title
        """What the job was called last in its file, which may be named after it."""
        self.changes = Changes()
        self.here = ""
        """What is worked on: a step, or what lies over it; see `undoing`."""
        self.told: tuple[str, str] | None = None
        """Where undo or redo has just named a change, and where that was made."""
        self.unknown: set[str] = set()
        """Answers that somebody said not to know, where nothing stands in: no verdict."""
        self.doubted = ""
        """What bears the standing of the answer that has just been sure and is a guess by a key:
        the same key takes that back."""
        self.open_group = ""
        self._plan: Plan | None = None
        self._claimed: tuple[tuple[CoilOnHand, ...], str] | None = None
        self.slow = False
        self.search_seconds = search_seconds
        """How long a search for less metal goes on that starts by itself; 0: none starts."""
        self.offer: StockOffer | None = None
        """What coils in stock would save, where a step that says so was shown."""
        self.chosen_plane = 1
        """The number of the plane that is drawn."""
        self.meant_plane: int | None = None
        """That of the plane somebody chose last, and did not only pass in a list."""

    @classmethod
    def open(cls, store: Store, path: Path) -> Session:
        """A session on a saved job. Raises StoreError."""
        stamp = store.stamp(path)
        session = cls(store, store.load(path), path)
        session._stamp = stamp
        session.changes.kept = read_history(store.folder, path, session.job)
        return session

    @property
    def planned(self) -> bool:
        """Whether the plan of the job as it is now is worked out already."""
        return self._plan is not None

    @property
    def plan(self) -> Plan:
        """The plan of the job as it is now."""
        if self._plan is None:
            # Imported here so that the first form is on the screen before it is needed.
            from coilwright.plan import plan

            begun = time.perf_counter()
            self._plan = plan(self.job)
            self.slow = time.perf_counter() - begun > _SLOW
        return self._plan

    def take_plan(self, plan: Plan) -> bool:
        """Take what a longer search found. False where the job changed meanwhile.

        The cuts are kept with the job, so that opening it again, its sheets and the command line
        give the same order. Nobody typed them, so they are no step of undo.
        """
        if plan.job != self.job:
            return False
        if plan.found is not None and plan.found != self.job.found_cuts:
            self.job = edit.keep_found(self.job, plan.found)
            self.dirty = self.dirty or self.path is not None or bool(self.changes)
        self._plan = replace(plan, job=self.job)
        return True

    @property
    def claimed_too(self) -> str:
        """Which coils on hand of this job other saved jobs claim too; empty for none.

        Looked up anew when the coils change or another field is gone to.
        """
        coils = self.job.on_hand
        if self._claimed is None or self._claimed[0] != coils:
            shared = self.store.claimed_too(self.job, self.path)
            self._claimed = (coils, claim_words(claims_by_job(shared), self.path or Path()))
        return self._claimed[1]

    # -- changes ---------------------------------------------------------------------------

    def change(self, job: Job, label: str, group: str = "", at: str = "") -> bool:
        """Take a new job, undoable under a label. Returns whether anything changed.

        Changes of one group that follow each other, such as the keys typed into one box, are
        one change to undo. What was confirmed for something else than the new job says is a guess.
        at: where it is made, if that is not what is worked on.
        """
        self.doubted, self.told = "", None
        last = self.changes.last if group and group == self.open_group else None
        if last is not None:
            job = carry_from_start(last.before, job)
        else:
            job = carry_confirmations(self.job, job)
        if job == self.job:
            return False
        before = self.job if last is None else last.before
        self.changes.add(Change(before, label, group, at or self.here), goes_on=last is not None)
        self.open_group = group
        self._set_job(job)
        return True

    def change_along(self, job: Job, label: str, group: str) -> bool:
        """Take a job as part of the last change, where that is of a group; else as one of its own.
        Returns whether it is part of that: undo takes back both."""
        self.seal()
        last = self.changes.last
        along = last is not None and last.group == group
        self.open_group = group if along else ""
        self.change(job, label, group if along else "")
        self.seal()
        return along

    def take_beside(self, job: Job) -> None:
        """Take a job with what is no step of undo: decided in practice, or put in stock."""
        self._set_job(job)

    def keep_put(self, tags: dict[str, str]) -> None:
        """Keep with the job which tags its coils have in stock after the run, and since when: put
        back again, none is one more."""
        self.take_beside(replace(
            self.job, put_in_stock=tags, put_back_on=today() if tags else None))

    def choose_plane(self, number: int) -> None:
        """Draw a plane that somebody chose: an opening that is added next may lie in it."""
        self.chosen_plane = self.meant_plane = number

    def seal(self) -> None:
        """End the running group: what is typed next is a change of its own."""
        if self._naming and self.path is not None:
            self.path = self.store.rename(self.path, self.job)
        self._naming = False
        self.open_group = self.doubted = ""
        self._claimed = self.told = None

    def _set_job(self, job: Job) -> None:
        self.job = job
        self._plan = None
        self.dirty = True

    def type_text(self, key: str, text: str, *, again: bool = False) -> str:
        """Take what was typed as an answer, again: over itself; the error if it was not read."""
        self.unknown.discard(key)
        answer = ANSWERS[key]
        job, error = edit.give_text(self.job, key, day_for_word(answer, text), again=again)
        shown = ("" if error else answer.said(job)) or " ".join(text.split()) or "cleared"
        self.change(job, f"{answer.label} {shown}", f"typing {key}")
        return error

    def do_not_know(self, key: str) -> bool:
        """Put the usual value in as a guess; one that was sure till just now is sure again.

        False where nothing is usual and nothing given, or it is a guess already.
        """
        answer = ANSWERS[key]
        if self.doubted and self.doubted == answer.mark(self.job):
            return self.confirm(key)
        sure = answer.standing(self.job) is Standing.SURE and answer.value(self.job) is not None
        done = self._mark(edit.do_not_know(self.job, key), key, "don't know")
        if answer.value(self.job) is None and key not in self.job.typed:
            self.unknown.add(key)
        if done and sure:
            self.doubted = answer.mark(self.job)
        return done

    def confirm(self, key: str) -> bool:
        """Make an answer sure. False where there is nothing to confirm."""
        return self._mark(edit.confirm(self.job, key), key, "confirmed")

    def doubt(self, key: str) -> bool:
        """Keep an answer's value, as a guess."""
        if ANSWERS[key].value(self.job) is None:
            return self.do_not_know(key)
        done = self._mark(edit.do_not_know(self.job, key), key, "a guess")
        if done:
            self.doubted = ANSWERS[key].mark(self.job)
        return done

    def _mark(self, job: Job, key: str, words: str) -> bool:
        self.seal()
        return self.change(job, f"{ANSWERS[key].label}: {words}")

    # -- undo ------------------------------------------------------------------------------

    def undo(self) -> str | None:
        """Take the last change back; what it was, or None where there is none."""
        return self._step(back=True)

    def put_back(self, key: str) -> str | None:
        """Put back what stood in an answer's box before text that cannot be read was typed.

        Returns what stands there now; None where nothing was put back: the text can be read, or it
        was there before this box was typed in. Redo brings the text again.
        """
        last = self.changes.last
        if key not in self.job.typed or last is None:
            return None
        if last.group != f"typing {key}" or key in last.before.typed:
            return None
        self.undo()
        return ANSWERS[key].said(self.job)

    def redo(self) -> str | None:
        """Make the last undone change again; what it was, or None where there is none."""
        return self._step(back=False)

    def _step(self, *, back: bool) -> str | None:
        change, told = self.changes.step(self.job, back=back), self.told
        if change is None:
            return None
        self.seal()
        self.told = told
        self._set_job(stepped(self.job, change.before))
        return change.label

    # -- the file --------------------------------------------------------------------------

    @property
    def unwritten(self) -> bool:
        """Whether the file is to be written."""
        return self.dirty or (self._unstated and self.planned)

    def save(self, *, at_once: bool = False) -> bool:
        """Write the job if it changed. False where another window changed the file.

        at_once: the job is not planned for it, however far it is then left unsaid. Raises
        StoreError where it cannot be written; the job stays in memory and dirty.
        """
        if not self.unwritten or self.conflict:
            return not self.conflict
        job, state = self.job, self._state(at_once)
        self.saving = True
        try:
            if self.path is None:
                self.path, self._stamp = self.store.create_stamped(job, state)
                self._naming = self.open_group == "typing job.name"
            else:
                self._naming = self._naming or awaits_name(
                    self.store, self.path, job, self._title_there, self.changes.names())
                self.path = self.store.rename(self.path, job) if self._naming else self.path
                self._stamp = self.store.save(self.path, job, state, Seen(self._stamp))
        except ChangedElsewhere:
            self.conflict = not self._same_there()
            if self.conflict:
                return False
        finally:
            self.saving = False
        self._written(job, state)
        self._keep_history()
        return True

    def _keep_history(self) -> None:
        """Keep undo and redo beside the job; where that cannot be, they last until it is left."""
        if self.path is None or self.dirty:
            return
        with suppress(StoreError):
            keep_history(self.store.folder, self.path, self.job, self.changes.history(self.job))

    def _state(self, at_once: bool = False) -> str:
        """How far the job is, as its file says it; empty where it is not to be planned now."""
        return "" if not self.planned and (at_once or self.slow) else state_on(self.plan, "summary")

    def _written(self, job: Job, state: str) -> None:
        self.dirty, self._unstated = self.job is not job, not state  # it may have changed since
        if job.job.name:  # emptied, it is still named after what it was called
            self._title_there = job.title

    def save_to(self, path: Path) -> None:
        """Go on in a new file, where the old one cannot be written. Raises StoreError."""
        job, state = self.job, self._state(at_once=True)
        self._stamp = self.store.save_copy(path, job, state)
        self.path, self.conflict, self._naming = path, False, False
        self._written(job, state)

    def discard(self) -> None:
        """What is not written is not wanted any more."""
        self.dirty = self._unstated = self.conflict = False

    def changed_elsewhere(self) -> bool:
        """Whether another window wrote the file since it was last read or written here.

        A file that is gone is no conflict: the next save writes it again.
        """
        if self.path is None:
            return False
        now = self.store.stamp(self.path)
        if now is not None and self._stamp is not None and now != self._stamp:
            self.conflict = not self._same_there()
        return self.conflict

    def _same_there(self) -> bool:
        """Whether the file, written elsewhere, holds the job as it is here: then nobody is asked.
        """
        assert self.path is not None
        stamp = self.store.stamp(self.path)
        try:
            same = self.store.load(self.path) == self.job
        except StoreError:
            return False
        if same:
            self._stamp = stamp
        return same

    def take_theirs(self) -> None:
        """Take what the other window wrote; undo brings this window's job back."""
        assert self.path is not None
        stamp = self.store.stamp(self.path)
        theirs = self.store.load(self.path)
        self.change(theirs, "took the other window's version")
        self.seal()
        self._stamp = stamp
        self.conflict = self.dirty = self._unstated = False

    def keep_mine(self, *, at_once: bool = False) -> Path:
        """Go on with this window's job as a copy of its own; its path. Raises StoreError.

        The copy says that it is one; undo gives it its old name and order number again. at_once: as
        for `save`.
        """
        from coilwright.job.copies import kept_apart  # costs start-up: a new job is none

        self.seal()
        self.change(kept_apart(self.job), "kept as a copy")
        self.seal()
        job, state = self.job, self._state(at_once)
        self.path, self._stamp = self.store.create_stamped(job, state)
        self.conflict = False
        self._written(job, state)
        return self.path
