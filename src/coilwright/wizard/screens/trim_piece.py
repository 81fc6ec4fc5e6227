"""One piece of trim: where it goes, its girth, from what metal, and what follows."""

from __future__ import annotations

from textual.binding import Binding

from coilwright.job.edit import give_typed
from coilwright.job.job import Job
from coilwright.job.rows.trim import standing_of, with_standing
from coilwright.values.standing import Standing
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.trim import piece_measures
from coilwright.wizard.literal import tame
from coilwright.wizard.session import Session
from coilwright.wizard.trim_lines import about_piece
from coilwright.wizard.widgets.field import Field


class TrimPieceScreen(EntryScreen):
    """Every change counts at once; undo takes it back."""

    BINDINGS = [
        Binding("f3", "stand('guess')", "It is a guess", tooltip="These measures are a guess",
                id="trim.guess"),
        Binding("f4", "stand('sure')", "Confirm", tooltip="These measures are sure",
                id="trim.confirm"),
        Binding("ctrl+z", "undo", "Undo", tooltip="Take the last change back", id="trim.undo"),
    ]
    hint = "All counts as you type; F3 a guess, F4 sure; Ctrl+Z undoes; Escape closes"

    def __init__(self, session: Session, index: int, *, begun: bool = False) -> None:
        self.measures = piece_measures(index)
        super().__init__([(m.answer, m.help) for m in self.measures])
        self.session = session
        self.index = index
        self.begun = begun

    def job(self) -> Job:
        """The job itself: a piece's measures lie in it."""
        return self.session.job

    def title_text(self) -> str:
        """The piece's name, and how far it can be trusted."""
        return f"{self._called()}  ({standing_of(self.session.job, self.index).value})"

    def _called(self) -> str:
        return tame(self.session.job.trim.pieces[self.index].name)

    def about(self) -> list[str]:
        """How many pieces and blanks, or what is wrong."""
        return about_piece(self.session.plan, self.index)

    def take(self, field: Field, text: str) -> None:
        """Take a measure."""
        measure = self.measures[self.entries.index(field)]
        job, _error = give_typed(self.session.job, measure.answer, measure.empty, text)
        words = " ".join(text.split()) or "cleared"
        self.session.change(job, f"{self._called()}: {field.answer.label} {words}",
                            f"typing {field.key}")

    def left(self, field: Field) -> None:
        """The next key begins a change of its own."""
        del field
        self.session.seal()

    def action_stand(self, standing: str) -> None:
        """Say how far the measures can be trusted."""
        wanted = Standing(standing)
        self.session.seal()
        self.session.change(with_standing(self.session.job, self.index, wanted),
                            f"{self._called()}: measures {standing}")
        self.show()

    def action_undo(self) -> None:
        """Take the last change back; with the piece itself the form goes too."""
        label = self.session.undo()
        self.notify("Nothing to undo." if label is None else f"Undid: {tame(label)}",
                    markup=False)
        if self.index >= len(self.session.job.trim.pieces):
            self.dismiss(None)
        else:
            self.show()

    def action_close(self) -> None:
        """Close; all is kept."""
        self.session.seal()
        self.dismiss(None)
