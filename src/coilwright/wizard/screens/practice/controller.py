"""What a practice job's keys do: the brief, handing in, the review; and making one of a job."""

from __future__ import annotations

import contextlib
import dataclasses
import os
from functools import lru_cache, partial
from pathlib import Path

from coilwright.job.attempt import Attempt
from coilwright.job.practice import changes_made, to_work_on
from coilwright.plan.practice.review import misfit, review
from coilwright.plan.practice.solve import Solved, solve
from coilwright.store import StoreError
from coilwright.store.clock import now
from coilwright.store.files import named_path
from coilwright.store.opened_keys import note_opened_reviews, with_opened_key
from coilwright.store.practice import (
    ATTEMPTS_FOLDER,
    attempts_folder,
    hand_in,
    names_file,
    not_here,
    practices,
)
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.practice.brief import BriefScreen
from coilwright.wizard.screens.practice.make import PracticeMaker
from coilwright.wizard.screens.practice.paper import review_screen
from coilwright.wizard.screens.practice.projector import ProjectorScreen
from coilwright.wizard.screens.practice.slides import job_slides
from coilwright.wizard.settings import remember_hand_in, remembered_hand_in


@lru_cache(maxsize=8)
def _solved(practice: str, seed: int, home: Path) -> Solved:
    return solve(practices(home)[0][practice], seed)


def solved_variant(home: Path, practice: str, seed: int) -> Solved:
    """A variant with its key. Raises StoreError where there is no such practice job here."""
    try:
        return _solved(practice, seed, home)
    except KeyError:
        told = not_here(practice)
        raise StoreError(f"{told[:1].upper()}{told[1:]}.") from None
    except ValueError as error:
        raise StoreError(f"The practice job “{practice}” cannot be used: {error}.") from None


def hand_in_folder(home: Path) -> Path:
    """The folder that is proposed: the class's where one is set, else the one used last here."""
    last = None if os.environ.get(ATTEMPTS_FOLDER) else remembered_hand_in(home)
    return last or attempts_folder(home)


_CHANGED = ("This practice job was changed since you began: what you hand in is not held to it. "
            "Begin it anew: F10, then p in the list of jobs.")


def forget_variants() -> None:
    """A practice job was renamed or deleted: what was solved under its name is another's now."""
    _solved.cache_clear()


def once_more(solved: Solved, attempt: Attempt) -> str:
    """How somebody who has handed in tries once more, and which attempt counts in a class."""
    counts = ("of one variant the first attempt counts in a class, of several the one handed in "
              "last." if solved.practice.varies else "the first attempt counts in a class.")
    variant = "variant" if solved.practice.varies else "practice job"
    before = (f"This is attempt {attempt.before + 1} at this {variant} by this name: where one "
              "before it was handed in, that one counts. " if attempt.before else "")
    return f"{before}To try once more: F10, then p in the list of jobs; {counts}"


class PracticeController:
    """Opens the brief while somebody practices, and the review once it is handed in."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def open(self) -> None:
        """The brief, or the review of what was handed in."""
        attempt = self._context.session.job.practice
        if attempt is None:
            self._context.say("This job is no practice; the list of jobs has some.")
            return
        solved = self._solve(attempt)
        if solved is None:
            return
        wrong = misfit(solved, attempt)
        if attempt.handed_in is not None and wrong:
            self._context.say(f"It cannot be reviewed here: {wrong}", severity="warning")
        elif attempt.handed_in is not None:
            with contextlib.suppress(StoreError):  # it is read, whether that is kept or not
                note_opened_reviews(self._context.session.store.folder, (attempt,))
            self._review(solved, attempt)
        else:
            if wrong:
                self._context.say(_CHANGED, severity="warning", timeout=15)
            self._context.open(BriefScreen(
                self._context.session, solved, hand_in_folder(self._context.session.store.folder),
                partial(self._hand_in, solved)), partial(self._closed, solved))

    def _solve(self, attempt: Attempt) -> Solved | None:
        try:
            return solved_variant(self._context.session.store.folder, attempt.practice,
                                  attempt.seed)
        except StoreError as error:
            self._context.say(str(error), severity="error")
            return None

    async def _closed(self, solved: Solved, path: Path | None) -> None:
        self._context.changed()
        attempt = self._context.session.job.practice
        if path is None or attempt is None:
            self._context.say("Not handed in yet. Ctrl+R opens the brief again.")
            return
        # Below the review, what was kept back; a key too many types nothing into the job there.
        await self._context.go("summary")
        self._context.say(f"Handed in as {escape_controls(str(path))}", timeout=10)
        self._review(solved, attempt)

    def _hand_in(self, solved: Solved, name: str, place: str) -> Path:
        """Write the attempt into a folder; its path. Raises StoreError where it is not written."""
        session = self._context.session
        attempt = session.job.practice
        assert attempt is not None
        folder = named_path(place)
        if names_file(folder):
            # All of a class name the same place: as a file it would take the first one alone.
            raise StoreError(f"“{folder.name}” is the name of a file; name a folder.")
        done = dataclasses.replace(
            attempt, name=name.strip()[:80],
            changes=changes_made(to_work_on(solved.practice, attempt), session.job))
        done = with_opened_key(done, session.store.folder).hand_in(now())
        path = hand_in(done, folder, solved.practice.title)
        session.take_beside(dataclasses.replace(session.job, practice=done))
        with contextlib.suppress(StoreError):  # it is handed in, whether that is kept or not
            remember_hand_in(session.store.folder, folder)
            # The review comes next, and whoever sits down here after its reader has seen it too.
            note_opened_reviews(session.store.folder, (done,))
        return path

    def _review(self, solved: Solved, attempt: Attempt) -> None:
        self._context.open(review_screen(review(solved, attempt), once_more(solved, attempt)))

    def project(self) -> None:
        """Step through this job on a projector, one thing at a time."""
        self._context.open(ProjectorScreen(partial(job_slides, self._context.session.plan)))

    def make(self) -> None:
        """Make a practice job of this job."""
        context = self._context
        PracticeMaker(context.session.store.folder, context.open, context.say,
                      lambda _: None).ask(context.session.job)
