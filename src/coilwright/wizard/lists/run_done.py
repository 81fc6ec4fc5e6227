"""After the run: what is left of each coil goes back to stock, measured where it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.binding import Binding
from textual.widgets import Button

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.job import Job
from coilwright.store import StoreError
from coilwright.units import Kind
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.stock_book import StockBook
from coilwright.wizard.literal import tame
from coilwright.wizard.run_back import change_lines, put_back, twice_lines
from coilwright.wizard.widgets.field import Field

if TYPE_CHECKING:
    from coilwright.plan import Plan
    from coilwright.plan.run import RunCoil

_KEY = "left."
_SHOWN = 6
"""Changes of the stock that are listed."""


def _nothing(_job: Job) -> None:
    """The texts lie in the job as typed; there is no answer below them."""
    return


def _asked(coil: RunCoil, plan: Plan) -> tuple[Answer, str]:
    answer = Answer(f"{_KEY}{coil.key}", tame(coil.name)[:24], Form.QUANTITY, Kind.LENGTH,
                    ("ft", "m"), needed=False, zero=True, high=240_000, getter=_nothing)
    left = coil.left.text(plan.job.units)
    if coil.on_hand is None:
        return answer, f"On paper {left} is left. A new coil goes to stock only as measured."
    return answer, f"On paper {left} is left, no spare used. Empty: the least that can be."


class RunDoneScreen(EntryScreen):
    """One box a coil for what was measured; one button puts all back."""

    BINDINGS = [
        Binding("ctrl+s", "put_back", "Put back", tooltip="Put what is left back to stock",
                id="run.put-back"),
        Binding("ctrl+z", "undo", "Undo", tooltip="Take the last change of the stock back",
                id="run.undo"),
    ]
    hint = "Ctrl+S puts back, Ctrl+Z takes that back; Escape closes"
    done_words = "Put what is left back to stock"

    def __init__(self, book: StockBook, plan: Plan) -> None:
        from coilwright.plan.run import run_of

        self.coils = run_of(plan).coils
        super().__init__([_asked(coil, plan) for coil in self.coils], label_width=26)
        self.book = book
        self.plan = plan
        self.texts: dict[str, str] = {}
        self.said = ""
        """What was put back, until something is typed or taken back."""

    def job(self) -> Job:
        """A job that holds the texts."""
        return Job(units=self.plan.job.units, typed={k: t for k, t in self.texts.items() if t})

    def title_text(self) -> str:
        """What it is about."""
        return f"After the run of {tame(self.plan.job.title)}: measured left on each coil"

    def take(self, field: Field, text: str) -> None:
        """Take a measured length."""
        self.texts[field.key] = text.strip()
        self.said = ""

    def measured(self) -> dict[str, float]:
        """Lengths left [in] by coil key, those that can be read."""
        found = {}
        for field in self.entries:
            text = self.texts.get(field.key, "")
            if text:
                try:
                    value = field.answer.read(text, self.plan.job.units)
                except UnreadableAnswer:
                    continue
                assert isinstance(value, float)
                found[field.key.removeprefix(_KEY)] = value
        return found

    def about(self) -> list[str]:
        """What the stock would be, or what was done."""
        if self.said:
            return [self.said]
        system = self.plan.job.units
        after, stays = put_back(self.plan, self.book.stock, self.measured())
        lines = change_lines(self.book.stock, after, system) or ["The stock would not change."]
        if len(lines) > _SHOWN:
            lines[_SHOWN - 1:] = [f"and {len(lines) - _SHOWN + 1} more"]
        lines += twice_lines(self.plan, self.book.stock, self.measured())
        if stays:
            lines.append(f"Not as this job took them, so they stay unless measured: "
                         f"{', '.join(map(tame, stays))}")
        return lines

    def action_put_back(self) -> None:
        """Put all back in one move."""
        unclear = [field for field in self.entries if self.error_of(field)]
        if unclear:
            for field in unclear:
                field.complains = True
            unclear[0].focus()
            self.show()
            return
        if self.said:
            self.notify("It is put back already; Ctrl+Z takes it back.", markup=False)
            return
        before = self.book.stock
        after, _stays = put_back(self.plan, before, self.measured())
        lines = change_lines(before, after, self.plan.job.units)
        if not lines:
            self.notify("Nothing to put back: the stock is so already.", markup=False)
            return
        try:
            self.book.change(after, f"run of {self.plan.job.title}")
        except StoreError as error:
            self.notify(str(error), title="Not saved", severity="error", timeout=12,
                        markup=False)
            self.show()
            return
        self.said = f"Put back: {'; '.join(lines)}. Ctrl+Z takes it back."
        self.show()

    def action_undo(self) -> None:
        """Take the last change of the stock back."""
        try:
            label = self.book.undo()
        except StoreError as error:
            self.notify(str(error), title="Not saved", severity="error", markup=False)
            return
        self.said = ""
        self.notify("Nothing to undo in the stock." if label is None
                    else f"Undid in the stock: {tame(label)}", markup=False)
        self.show()

    def on_button_pressed(self, event: Button.Pressed) -> None:
        """Put back; the form stays, so that it can be taken back."""
        event.stop()
        event.prevent_default()
        self.action_put_back()
