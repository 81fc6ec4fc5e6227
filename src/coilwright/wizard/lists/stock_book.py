"""The list of coils on hand while it is worked on: undo, the file, half-typed coils.

No screens here. One book serves all screens of a run of the program.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.job.stock import Stock
from coilwright.store import Stamp, Store, StoreError, read_text, write_whole
from coilwright.store.files import ChangedElsewhere, Seen
from coilwright.store.stock import load_stock, save_stock, stock_path

if TYPE_CHECKING:
    from coilwright.wizard.session import Session

_DRAFTS = "stock.drafts.json"
NEW = ""
"""The tag under which the texts of a coil that is not in the list yet are kept."""


@dataclass(frozen=True, slots=True)
class RunPut:
    """The run of a job, as it went to stock: what of the job was there before, and after.

    session: that of the job; before, after: as `Job.put_in_stock`.
    """

    session: Session | None
    before: dict[str, str]
    after: dict[str, str]

    def is_of(self, session: Session | None) -> bool:
        """Whether it is of the job of a session, opened again or not."""
        mine, its = session, self.session
        return mine is its or (mine is not None and its is not None
                               and mine.path is not None and mine.path == its.path)


@dataclass(frozen=True, slots=True)
class StockStep:
    """One change of the list: the stock on its far side, and the run that made it; None for one
    that was made in the list itself."""

    label: str
    stock: Stock
    run: RunPut | None = None


class StockBook:
    """The stock of one data folder. trouble: what was wrong with its file; empty if nothing.

    drafts: texts typed for a coil, by its tag, that do not make a coil yet.
    """

    def __init__(self, store: Store) -> None:
        self.store = store
        self.stock = Stock()
        self.trouble = ""
        self.drafts = _read_drafts(store.folder / _DRAFTS)
        self._stamp: Stamp | None = None
        self._undo: list[StockStep] = []
        self._redo: list[StockStep] = []

    def read(self) -> None:
        """Read the file again if it changed. Raises StoreError where it cannot be set aside."""
        stamp = self.store.stamp(stock_path(self.store.folder))
        if stamp is not None and stamp == self._stamp:
            return
        stock, trouble = load_stock(self.store.folder)
        if stock != self.stock:
            self._forget()
        self.stock, self.trouble = stock, trouble or self.trouble
        # As it was before it was read: what another window wrote meanwhile is seen as a change.
        self._stamp = None if trouble else stamp

    def keep_draft(self, tag: str, texts: dict[str, str] | None) -> None:
        """Keep the texts of a coil that is not complete, or drop them. Raises StoreError."""
        before = dict(self.drafts)
        if texts:
            self.drafts[tag] = texts
        else:
            self.drafts.pop(tag, None)
        if self.drafts != before:
            made = json.dumps(self.drafts, ensure_ascii=False, indent=1) + "\n"
            write_whole(self.store.folder / _DRAFTS, made)

    def change(self, stock: Stock, label: str, run: RunPut | None = None) -> None:
        """Take a new stock and write it. Raises StoreError; the stock is then as it was.

        run: where it is what a run left.

        Where another window wrote the file meanwhile, nothing is written over: its list is
        read, and the sentence of the error says so.
        """
        if stock == self.stock:
            return
        self._write(stock)
        self._undo.append(StockStep(label, self.stock, run))
        self._redo.clear()
        self.stock = stock
        self._note_put(run)

    def next(self, *, back: bool) -> StockStep | None:
        """The change that undo would take back, or redo make again; None where there is none."""
        steps = self._undo if back else self._redo
        return steps[-1] if steps else None

    def undo(self) -> str | None:
        """Take the last change back; what it was, or None where there is none.

        Raises StoreError.
        """
        return self._step(self._undo, self._redo)

    def redo(self) -> str | None:
        """Make the change again that was taken back last; the same. Raises StoreError."""
        return self._step(self._redo, self._undo)

    def _step(self, steps: list[StockStep], back: list[StockStep]) -> str | None:
        if not steps:
            return None
        step = steps[-1]
        self._write(step.stock)
        steps.pop()
        back.append(StockStep(step.label, self.stock, step.run))
        self.stock = step.stock
        self._note_put(step.run)
        return step.label

    def _note_put(self, run: RunPut | None) -> None:
        """Tell the job of a run whether what was done last in stock is of it, for its own undo."""
        if run is not None and run.session is not None:
            last = self.next(back=True)
            ours = last is not None and last.run is not None and last.run.is_of(run.session)
            run.session.changes.note_put(last.label if last is not None and ours else "")

    def _forget(self) -> None:
        """What was done goes with the list it was done to."""
        self._undo.clear()
        self._redo.clear()

    def _write(self, stock: Stock) -> None:
        try:
            self._stamp = save_stock(self.store.folder, stock, Seen(self._stamp))
        except ChangedElsewhere:
            self._stamp = None
            self.read()
            self._forget()
            raise StoreError(
                "Another window changed the coils on hand meanwhile; its list is shown now. "
                "Make your change once more."
            ) from None


def _read_drafts(path: Path) -> dict[str, dict[str, str]]:
    """What was typed and makes no coil yet; empty where the file is none of ours."""
    try:
        data = json.loads(read_text(path)) if path.is_file() else {}
    except (StoreError, ValueError, RecursionError):
        return {}
    if not isinstance(data, dict):
        return {}
    return {
        tag: {name: text for name, text in texts.items() if isinstance(text, str)}
        for tag, texts in data.items() if isinstance(texts, dict)
    }


_books: dict[Path, StockBook] = {}


def book_of(store: Store) -> StockBook:
    """The book of a data folder, its file read if it changed. Raises StoreError."""
    book = _books.setdefault(store.folder, StockBook(store))
    book.read()
    return book
