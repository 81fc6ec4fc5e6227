"""After the run, back and forth: what was typed in its form, and what of this job went to stock.

Of the stock it takes back what this job put there and nothing else, whether that was done in this
form or before it was opened again: it is here all the same. No screens here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coilwright.wizard.lists.stock_book import RunPut, StockBook
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session


@dataclass(frozen=True, slots=True)
class _Typed:
    """What stood in all boxes on the far side of what was typed in one of them."""

    key: str
    name: str
    texts: dict[str, str]


@dataclass(frozen=True, slots=True)
class StepTaken:
    """What came of one step. texts: what stands in the boxes now; put: what of the job is in stock
    now; None where that is as it was. elsewhere: it was not made in this form."""

    said: str
    texts: dict[str, str] | None = None
    put: dict[str, str] | None = None
    elsewhere: bool = False


class RunSteps:
    """What was done in one form of After the run, the latest last."""

    def __init__(self, book: StockBook, session: Session | None) -> None:
        self._book = book
        self._session = session
        self._done: list[_Typed | None] = []
        """None: it went to stock."""
        self._undone: list[_Typed | None] = []

    def typed(self, key: str, name: str, texts: Mapping[str, str]) -> None:
        """Something is typed in a box; texts: what stood in all of them before."""
        last = self._done[-1] if self._done else None
        if last is None or last.key != key or self._undone:
            self._done.append(_Typed(key, name, dict(texts)))
        self._undone.clear()

    def made(self, before: dict[str, str], after: dict[str, str]) -> RunPut:
        """The note of a run that goes to stock, for the book."""
        return RunPut(self._session, before, after)

    def went(self) -> None:
        """It went to stock."""
        self._done.append(None)
        self._undone.clear()

    def step(self, texts: Mapping[str, str], *, back: bool) -> StepTaken:
        """Take the last step back, or make the one again that was taken back last.

        Raises StoreError.
        """
        steps, others = (self._done, self._undone) if back else (self._undone, self._done)
        does = "Undid" if back else "Redid"
        if steps and (last := steps[-1]) is not None:
            steps.pop()
            others.append(_Typed(last.key, last.name, dict(texts)))
            return StepTaken(f"{does}: {last.name}", texts=last.texts)
        here = bool(steps)
        change = self._book.next(back=back)
        if change is None:
            steps.clear()
            return StepTaken(f"Nothing to {'undo' if back else 'redo'} here.")
        label = escape_controls(change.label)
        if change.run is None or not change.run.is_of(self._session):
            return StepTaken(
                f"Nothing of this job to {'undo' if back else 'redo'} here. The last change of the "
                f"stock {'was' if back else 'taken back was'}: {label}. The list of coils on hand "
                f"{'takes it back' if back else 'makes it again'}.")
        if back:
            self._book.undo()
        else:
            self._book.redo()
        del steps[-1:]
        others.append(None)
        return StepTaken(f"{does} in the stock: {label}", elsewhere=not here,
                         put=change.run.before if back else change.run.after)
