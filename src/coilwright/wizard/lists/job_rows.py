"""A list whose rows live in the job: what all such lists do alike, and the form of one row."""

from __future__ import annotations

import dataclasses
from collections.abc import Hashable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from coilwright.job.edit import give_typed
from coilwright.job.job import Job
from coilwright.job.names import kept_unread
from coilwright.job.rows.place import RowPlace
from coilwright.values.standing import Standing
from coilwright.wizard.lists.form import (
    CLOSE,
    STANDINGS,
    EntryView,
    Line,
    Outcome,
    RowForm,
    Screens,
)
from coilwright.wizard.lists.measure import Asked
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.undoing import step_back

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork


class JobRows:
    """A declared list of a session's job, open."""

    def __init__(
        self, form: RowForm[Any], session: Session,
        screens: Screens | None = None,
    ) -> None:
        self.form = form
        self.session = session
        self.screens: Screens = screens or {}
        self.kept: dict[str, str] = {}
        """What a screen leaves for the next time it is opened, while the job is open."""
        self.as_opened: Any = None
        """The row whose form was opened last, as it was then."""
        self.doubted: int | None = None
        """The row whose measures have just been sure and are a guess by a key: the same key takes
        that back."""
        self.asked_about: tuple[Hashable, Job] | None = None
        """The line and the job of which a key has just asked whether it is meant: the same key
        does it then, while neither is another and nothing else was done in between."""
        self._done = ""

    @property
    def place(self) -> RowPlace[Any]:
        """Where the rows live."""
        assert self.form.place is not None
        return self.form.place

    def lines(self) -> Sequence[Line]:
        """The rows as they are now."""
        return self.form.lines(self)

    def line(self, index: int) -> Line | None:
        """The line of a row."""
        return next((line for line in self.lines() if line.index == index), None)

    def change(self, job: Job, label: str) -> bool:
        """Take a job as one change to undo. Returns whether anything changed."""
        self.doubted = None
        self.session.seal()
        changed = self.session.change(job, label)
        self.session.seal()
        return changed

    def draw(self, index: int) -> None:
        """Have a row drawn, where the declaration says what is drawn for it."""
        line = self.line(index)
        if line is not None and self.form.draws is not None:
            self.session.choose_plane(self.form.draws(line))

    # -- actions ---------------------------------------------------------------------------

    def do(self, name: str, line: Line | None) -> Outcome:
        """Do an action with the marked line, as it is now: what is shown may be behind."""
        return self.do_now(name, self.now(line))

    def now(self, line: Line | None) -> Line | None:
        """A line that was shown, as it is now; None where it has gone."""
        return None if line is None else next(
            (one for one in self.lines() if one.key == line.key), None)

    def do_now(self, name: str, line: Line | None) -> Outcome:
        """Do an action with a line that is known to be there."""
        if name != self._done:
            self.asked_about = None
        self._done = name
        action = self.form.action(name)
        if action is not None and action.do is not None:
            return action.do(self, line)
        if name == "add" or (name == "open" and line is None and not self.lines()):
            return self._add()
        if name == "undo":
            return undone(self.session)
        if line is None:
            return Outcome(say=self.form.no_row)
        if line.index is None:
            return Outcome(say=(name in STANDINGS and line.as_sure) or line.fixed)
        return self._change_line(name, line, line.index)

    def _add(self) -> Outcome:
        if self.form.new is None:  # Enter in an empty list that nothing is added to
            return Outcome(say=self.form.no_row)
        job = self.session.job
        if full := self.place.no_room(job):
            return Outcome(say=full)
        index = len(self.place.get(job))
        made = self.place.add(job, self.form.new(job))
        name = self.form.name(made, index) if self.form.name is not None else ""
        self.change(made, self.form.added.format(name=name, number=index + 1))
        return Outcome(changed=True, mark=index, entry=index, begun=True)

    def _change_line(self, name: str, line: Line, index: int) -> Outcome:
        job, place = self.session.job, self.place
        if name == "open":
            return Outcome(entry=index)
        if name == "copy":
            if full := place.no_room(job):
                return Outcome(say=full)
            self.change(place.duplicate(job, index), f"{line.name} copied")
            return Outcome(changed=True, mark=index + 1, entry=index + 1,
                           say=self.form.copied.format(name=escape_controls(line.name)))
        if name == "delete":
            if self.form.held is not None and (why := self.form.held(job, index)):
                return Outcome(mark=index, say=escape_controls(why))
            self.change(place.delete(job, index), f"{line.name} deleted")
            left = len(place.get(self.session.job))
            return Outcome(changed=True, mark=min(index, max(0, left - 1)),
                           say=self.form.deleted.format(name=escape_controls(line.name)))
        if name in ("up", "down"):
            to = min(max(0, index + (-1 if name == "up" else 1)), len(place.get(job)) - 1)
            changed = self.change(place.move(job, index, to), f"{line.name} moved")
            return Outcome(changed=changed, mark=to)
        if self.form.stands is not None and self.form.stands(self, line) is Standing.ASK:
            return Outcome(mark=index, say=f"{escape_controls(line.name)} still needs measures: "
                                           "Enter opens it.")
        return self.stand(name, index, line.name)

    def stand(self, name: str, index: int, called: str) -> Outcome:
        """Turn a row's measures sure or a guess, and say so. name: guess, sure, or turn.

        Whichever it is, what is so already is turned the other way round; but a guess is made sure
        by the key for guesses only where that key has just made it one, and filled nothing in.
        """
        job, place = self.session.job, self.place
        stood = place.standing(job, index)
        if name == "guess" and stood is Standing.GUESS and self.doubted != index:
            return Outcome(mark=index, say="These measures are a guess already; F4 makes them "
                                           "sure once somebody knows.")
        wanted = Standing.GUESS if stood is Standing.SURE else Standing.SURE
        if wanted is Standing.SURE and self.form.unreadable_is_guess and place.unreadable(
                job, index):
            return Outcome(mark=index,
                           say="Something here cannot be read yet, so it cannot be sure.")
        job, said = place.with_standing(job, index, wanted), ""
        if wanted is Standing.GUESS and self.form.guessed is not None:
            job, said = self.form.guessed(job, index)
        self.change(job, f"{called}: measures {wanted.value}")
        if wanted is Standing.GUESS and not said:
            self.doubted = index
            said = "All its measures are only a guess now; F3 or F4 makes them sure again."
        return Outcome(changed=True, mark=index,
                       say=said or "Its measures are sure now; F4 makes them a guess.")

    def entry(self, index: int) -> JobRowEntry:
        """The form of a row."""
        self.as_opened = next(iter(self.place.get(self.session.job)[index:]), None)
        return JobRowEntry(self, index)

    def closed(self, screen: str, result: Any) -> Outcome:
        """A screen was closed."""
        if screen and self.form.closed is not None:
            return self.form.closed(self, screen, result)
        return Outcome(changed=True)

    def close(self) -> None:
        """The next key begins a change of its own."""
        self.session.seal()


def undone(session: Session) -> Outcome:
    """Take the last change of a job back."""
    stepped = step_back(session)
    return Outcome(changed=stepped.done, say=stepped.said)


class JobRowEntry:
    """One row of a job while its form is open. Every change counts at once; undo takes it back."""

    done = (CLOSE, "Done")

    def __init__(self, rows: JobRows, index: int) -> None:
        self.rows = rows
        self.index = index
        self.asked: Sequence[Asked] = rows.form.asked(index)
        self._stood: Standing | None = None
        """How the row stood before something typed could not be read."""
        self._doubts: dict[int, str] = self._doubts_now()
        """What was there to say of each box as it was opened, or was said since."""

    @property
    def view(self) -> EntryView:
        """What stands around the boxes."""
        return self.rows.form.entry

    def job(self) -> Job:
        """The job itself: a row's measures lie in it."""
        return self.rows.session.job

    def there(self) -> bool:
        """Whether the list still has the row."""
        return self.index < len(self.rows.place.get(self.job()))

    def name(self) -> str:
        """What the row is called."""
        assert self.rows.form.name is not None
        return self.rows.form.name(self.job(), self.index)

    def title(self) -> str:
        """What stands on top."""
        return self.view.title(self.rows, self.index)

    def about(self, width: int) -> Sequence[str]:
        """What follows from the measures."""
        return () if self.view.about is None else self.view.about(self.rows, self.index, width)

    def picture(self, width: int, height: int, work: LineWork) -> list[str]:
        """The drawing beside the boxes."""
        if self.view.picture is None:
            return []
        return self.view.picture(self.rows, self.index, width, height, work)

    def buttons(self) -> Sequence[tuple[str, str]]:
        """Those of the declaration."""
        return [(name, words(self.rows, self.index)) for name, words in self.view.buttons]

    def take(self, at: int, text: str) -> bool:
        """Take a measure."""
        self.rows.doubted = None
        asked, before = self.asked[at], self.job()
        job, _error = give_typed(before, asked.answer, asked.empty, text)
        for name, part in self._split(at, text).items():
            other = self.asked[self._names.index(name)]
            job, _error = give_typed(job, other.answer, other.empty, part)
        if self.rows.form.taken is not None:
            job = self.rows.form.taken(self.rows, job, self.index)
        if self.rows.form.unreadable_is_guess:
            job = self._standing_kept(before, job)
        words = " ".join(text.split()) or "cleared"
        return self.rows.session.change(job, f"{self.name()}: {asked.answer.label} {words}",
                                        f"typing {asked.answer.key}")

    @property
    def _names(self) -> list[str]:
        return [measure.name for measure in self.rows.form.measures]

    def _split(self, at: int, text: str) -> Mapping[str, str]:
        """What the text for a box says of several boxes; nothing where it is for that one alone."""
        split = self.rows.form.split
        return {} if split is None else split(self._names[at], text)

    def _standing_kept(self, before: Job, job: Job) -> Job:
        """While something cannot be read the row is a guess; then it stands as it did before."""
        place = self.rows.place
        was, now = (place.unreadable(each, self.index) for each in (before, job))
        if now:
            if not was:
                self._stood = place.standing(before, self.index)
            return place.with_standing(job, self.index, Standing.GUESS)
        if was and self._stood is not None:
            job = place.with_standing(job, self.index, self._stood)
            self._stood = None
        return job

    def left(self, at: int) -> Outcome | None:
        """The next key begins a change of its own; what was typed and is hardly meant is said."""
        del at
        self.rows.doubted = None
        self.rows.session.seal()
        said = self._new_doubts()
        return Outcome(changed=True, say=said) if said else None

    def _new_doubts(self) -> str:
        """What there is to say of what was typed since it was said last."""
        before, self._doubts = self._doubts, self._doubts_now()
        return " ".join(said for at, said in self._doubts.items() if said != before.get(at))

    def _doubts_now(self) -> dict[int, str]:
        if not self.there():
            return {}
        row = self.rows.place.row(self.job(), self.index)
        return {at: escape_controls(said) for at, one in enumerate(self.rows.form.measures)
                if (said := one.doubt(one.value(row)))}

    def do(self, name: str) -> Outcome:
        """Take the last change back, do what a key of this form's own does, say how far the
        measures can be trusted, or open a screen."""
        rows = self.rows
        if name in rows.screens:
            rows.draw(self.index)
            return Outcome(screen=name)
        if name == "undo":
            outcome = undone(rows.session)
            return dataclasses.replace(outcome, gone=not self.there())
        own = next((one.do for one in self.view.keys if one.name == name), None)
        if own is not None:
            return own(rows, rows.line(self.index))
        return dataclasses.replace(rows.stand(name, self.index, self.name()), mark=None)

    def close(self) -> Outcome:
        """Close; all is kept, and what was not understood is said."""
        self.rows.session.seal()
        self.rows.draw(self.index)
        unread = kept_unread(self.job(), (asked.answer for asked in self.asked))
        said = (escape_controls(unread), self._new_doubts())
        return Outcome(gone=True, say=" ".join(filter(None, said)))
