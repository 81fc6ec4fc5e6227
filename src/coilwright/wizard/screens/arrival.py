"""One coil as it arrived: its tag, what was measured, what was seen, and what follows."""

from __future__ import annotations

from collections.abc import Callable

from textual.binding import Binding
from textual.timer import Timer

from coilwright.job.edit import give_typed
from coilwright.job.job import Job
from coilwright.plan.receiving import receive_one
from coilwright.wizard.arrival_lines import about_short
from coilwright.wizard.lists.arrivals import arrival_measures
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.literal import tame
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.field import Field

_REST = 1.0
"""Seconds without a key after which a change is written."""


class ArrivalScreen(EntryScreen):
    """Every change counts at once and is written soon; undo takes it back.

    changed: called when the keys rest after a change, so that the job is written while the form
    is open.
    """

    CSS_PATH = ["over.tcss", "entry.tcss", "receiving.tcss"]
    BINDINGS = [
        Binding("ctrl+z", "undo", "Undo", tooltip="Take the last change back", id="arrival.undo"),
    ]
    hint = "All counts as you type; Ctrl+Z undoes; Escape closes"

    def __init__(
        self, session: Session, index: int, changed: Callable[[], None], *, begun: bool = False
    ) -> None:
        self.measures = arrival_measures(index, session.job)
        super().__init__([(m.answer, m.help) for m in self.measures], label_width=32)
        self.session = session
        self.index = index
        self.begun = begun
        self.changed = changed
        self._timer: Timer | None = None

    def job(self) -> Job:
        """The job itself: a coil's measures lie in it."""
        return self.session.job

    def title_text(self) -> str:
        """Its tag."""
        return f"{tame(self.session.job.arrived[self.index].tag)}, as it arrived"

    def about(self) -> list[str]:
        """The verdict so far, what stands first against it, what is still to do."""
        report = receive_one(self.session.plan, self.index + 1)
        width = max(40, min(self.app.size.width, 112) - 4)
        return about_short(report, self.session.job.units, width)

    def take(self, field: Field, text: str) -> None:
        """Take a measure."""
        measure = self.measures[self.entries.index(field)]
        job, _error = give_typed(self.session.job, measure.answer, measure.empty, text)
        words = " ".join(text.split()) or "cleared"
        tag = self.session.job.arrived[self.index].tag
        if self.session.change(job, f"{tag}: {field.answer.label} {words}",
                               f"typing {field.key}"):
            self._write_soon()

    def _write_soon(self) -> None:
        """Have the job written once the keys rest; at every key it would hold them up."""
        if self._timer is not None:
            self._timer.stop()
        self._timer = self.set_timer(_REST, self.changed)

    def left(self, field: Field) -> None:
        """The next key begins a change of its own."""
        del field
        self.session.seal()

    def action_undo(self) -> None:
        """Take the last change back; with the coil itself the form goes too."""
        label = self.session.undo()
        self._write_soon()
        self.notify("Nothing to undo." if label is None else f"Undid: {tame(label)}",
                    markup=False)
        if self.index >= len(self.session.job.arrived):
            self.dismiss(None)
        else:
            self.show()

    def action_close(self) -> None:
        """Close; all is kept."""
        if self._timer is not None:
            self._timer.stop()
        self.changed()
        self.session.seal()
        self.dismiss(None)
