"""The form of one coil on hand."""

from __future__ import annotations

from coilwright.job.job import Job
from coilwright.job.stock import CoilOnHand
from coilwright.store import StoreError
from coilwright.units import System
from coilwright.wizard.coil_texts import ASKED, coil_of, job_of, name_of, texts_of, tidied
from coilwright.wizard.lists.coils_on_hand import length_text
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.stock_book import NEW, StockBook
from coilwright.wizard.literal import tame
from coilwright.wizard.widgets.field import Field


class CoilScreen(EntryScreen):
    """What is typed becomes the coil when the form is closed and it is complete.

    Until then it is kept as a draft, which the form begins with when it is opened again.
    """

    hint = "Escape or Done puts it in the list; what is not complete is kept aside"

    def __init__(self, book: StockBook, tag: str, job: Job | None, system: System) -> None:
        super().__init__(ASKED, label_width=23)
        self.book = book
        self.tag = tag
        self.for_job = job
        self.system = system
        old = book.stock.find(tag) if tag else None
        self._old = {} if old is None else texts_of(old, system)
        self.texts = dict(book.drafts.get(tag, self._old))
        self.closing = False

    def job(self) -> Job:
        """A job that holds the texts."""
        return job_of(self.texts, self.system)

    def title_text(self) -> str:
        """Its tag."""
        name = tame(self.texts.get("tag", "")) or "A coil on hand"
        return f"{name}  (kept from before)" if self.tag in self.book.drafts else name

    def take(self, field: Field, text: str) -> None:
        """Take what was typed."""
        self.texts[name_of(field.answer)] = text

    def left(self, field: Field) -> None:
        """Show how it was read."""
        self.texts = tidied(self.texts, name_of(field.answer), self.system)

    def about(self) -> list[str]:
        """Its length and whether it fits, or what is missing."""
        coil, error = self._coil()
        if coil is None:
            return [error]
        lines = [f"Length {length_text(coil, self.system)}."]
        if coil.length is None:
            lines = [f"By its diameters {length_text(coil, self.system)}; the least counts."]
        if self.for_job is not None:
            from coilwright.plan import fitting

            reasons = fitting(self.for_job, coil)
            lines.append(f"Does not fit this job: {' '.join(reasons)}" if reasons
                         else "Fits this job.")
        return lines

    def _coil(self) -> tuple[CoilOnHand | None, str]:
        coil, error = coil_of(self.texts, self.system)
        if coil is None:
            return None, error
        same = self.book.stock.find(coil.tag)
        if same is not None and same != (self.book.stock.find(self.tag) if self.tag else None):
            return None, f"There is a coil “{tame(coil.tag)}” already; give this one its own tag."
        return coil, ""

    def action_close(self) -> None:
        """Put the coil in the list, or its texts aside."""
        for field in self.entries:
            self.texts = tidied(self.texts, name_of(field.answer), self.system)
        coil, error = self._coil()
        typed = {name: text for name, text in self.texts.items() if text.strip()}
        try:
            if typed == self._old or not typed:
                self.book.keep_draft(self.tag, None)
            elif coil is None:
                self.book.keep_draft(self.tag, typed)
                if not self.closing:
                    self.closing = True
                    self.notify(f"{error} Escape once more leaves it aside.", markup=False)
                    self.show()
                    return
                again = "a" if self.tag == NEW else "Enter on it"
                self.notify(f"Kept aside; {again} brings it back.", markup=False)
            else:
                self._put(coil)
                self.book.keep_draft(self.tag, None)
        except StoreError as trouble:
            self.book.drafts[self.tag] = typed
            self.notify(str(trouble), title="Not saved", severity="error", timeout=12,
                        markup=False)
            return
        self.dismiss(None)

    def _put(self, coil: CoilOnHand) -> None:
        stock = self.book.stock
        if self.tag:
            self.book.change(stock.swap(self.tag, coil), f"{coil.tag} changed")
        else:
            self.book.change(stock.put(coil), f"{coil.tag} added")
