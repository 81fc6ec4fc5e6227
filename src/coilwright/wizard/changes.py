"""What was done to a job, change after change, back and forth. No screens here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from coilwright.job.job import Job
from coilwright.store.history import History, KeptStep, apply, difference

MAX_UNDO = 500
"""How many changes can be undone."""
BESIDE = ("practice", "put_in_stock", "put_back_on")
"""What of a job stays as it is at each step: decided in practice, or put in stock. The stock is
taken back where it lies, not in the job."""


@dataclass(frozen=True, slots=True)
class Change:
    """One undoable change: the job on its far side, what it was, and which changes it runs on with.

    made_at: where it was made, see `undoing`; empty where that is not known.
    """

    before: Job
    label: str
    group: str
    made_at: str = ""


def stepped(job: Job, far: Job) -> Job:
    """The job on the far side of a change, with what is no step of undo as it is now."""
    return replace(far, **{name: getattr(job, name) for name in BESIDE})


class Changes:
    """The changes of one job. What is kept from before it was opened is made one when it is next.
    """

    def __init__(self) -> None:
        self._undo: list[Change] = []
        self._redo: list[Change] = []
        self.kept = History()
        """Steps beyond those, from before the job was opened."""
        self._known: dict[int, tuple[Job, Change, KeptStep]] = {}
        """What is kept of each change, by its identity, with the job on its near side."""
        self._put: tuple[str, Change | None] = "", None
        """What of the job was put in stock last, and the change it came after."""

    def __len__(self) -> int:
        return len(self._undo)

    @property
    def last(self) -> Change | None:
        """The change that was made last since the job was opened."""
        return self._undo[-1] if self._undo else None

    def note_put(self, label: str) -> None:
        """Note what of the job was put in stock, after the change made last; empty: nothing is
        there any more, or it was named."""
        self._put = label, self.last

    @property
    def put_last(self) -> str:
        """What was put in stock, where nothing of the job was changed since; else empty."""
        return self._put[0] if self._put[1] is self.last else ""

    def add(self, change: Change, *, goes_on: bool) -> None:
        """Take a change; goes_on: in the place of the last, which it runs on with."""
        if goes_on:
            self._undo[-1] = change
        else:
            self._undo.append(change)
            del self._undo[:-MAX_UNDO]
        self._redo.clear()
        self.kept.redo.clear()

    def names(self) -> Iterator[str]:
        """What the job was called before changes of its name, as far as they are kept."""
        for step in self.kept.undo:
            for where, *there in step.difference:
                if where == ["job", "name"] and there:
                    yield str(there[0])
        for change in self._undo:
            yield change.before.job.name or ""

    def next(self, job: Job, *, back: bool) -> Change | None:
        """The change that undo would take back from a job, or redo make again; None for none."""
        take, kept = (self._undo, self.kept.undo) if back else (self._redo, self.kept.redo)
        if not take and kept:
            step = kept.pop()
            before = apply(job, step.difference)
            if before is None:
                kept.clear()
            else:
                take.append(Change(before, step.label, "", step.made_at))
        return take[-1] if take else None

    def step(self, job: Job, *, back: bool) -> Change | None:
        """Take that change from its side to the other; None where there is none."""
        change = self.next(job, back=back)
        if change is not None:
            take, give = (self._undo, self._redo) if back else (self._redo, self._undo)
            take.pop()
            give.append(Change(job, change.label, change.group, change.made_at))
        return change

    def history(self, job: Job) -> History:
        """All of it, to be kept beside the job."""
        known: dict[int, tuple[Job, Change, KeptStep]] = {}

        def steps(changes: list[Change]) -> list[KeptStep]:
            made = []
            nearer = [*(change.before for change in changes[1:]), job]
            for near, change in zip(nearer, changes, strict=False):  # none: no change
                there = self._known.get(id(change))
                if there is None or there[0] is not near or there[1] is not change:
                    there = near, change, KeptStep(
                        change.label, difference(near, change.before), change.made_at)
                known[id(change)] = there
                made.append(there[2])
            return made

        found = History([*self.kept.undo, *steps(self._undo)][-MAX_UNDO:],
                        [*self.kept.redo, *steps(self._redo)])
        self._known = known
        return found
