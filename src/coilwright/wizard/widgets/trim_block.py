"""The pieces of trim, and how their blanks lie side by side on the metal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.rows import trim as edit_trim
from coilwright.job.trim import TYPED, TrimPiece
from coilwright.values.standing import Standing
from coilwright.wizard.literal import escape_controls as tame
from coilwright.wizard.session import Session
from coilwright.wizard.trim_lines import nest_lines, piece_row
from coilwright.wizard.widgets.blocks import Block, Passage
from coilwright.wizard.widgets.keyed_rows import KeyedRows, Word

if TYPE_CHECKING:
    from coilwright.plan import Plan
    from coilwright.wizard.screens.wizard import WizardScreen as JobScreen

_TALLEST = 9
"""Rows of the list shown at once; more of them scroll."""


class TrimRows(KeyedRows):
    """The pieces; keys change them."""

    BINDINGS = [
        Binding("a,insert", "add", "Add piece", tooltip="One more piece", id="trim.add",
                show=False),
        Binding("e", "edges", "For every edge", id="trim.edges", show=False,
                tooltip="A piece for each kind of edge that has none yet"),
        Binding("c", "copy", "Copy piece", tooltip="One more piece like this one",
                id="trim.copy", show=False),
        Binding("d,delete", "remove", "Delete piece", id="trim.delete", show=False,
                tooltip="Take the piece out; Ctrl+Z brings it back"),
        Binding("g", "turn", "Guess or sure", id="trim.turn", show=False,
                tooltip="Its measures are a guess, or sure again"),
        Binding("f3", "stand('guess')", "It is a guess", id="trim.stand-guess", show=False,
                tooltip="The piece's measures are a guess"),
        Binding("f4", "stand('sure')", "Confirm", id="trim.stand-sure", show=False,
                tooltip="The piece's measures are sure"),
    ]

    def _block(self) -> TrimBlock:
        parent = self.parent
        assert isinstance(parent, TrimBlock)
        return parent

    def action_add(self) -> None:
        """Add a piece."""
        self._block().add()

    def action_edges(self) -> None:
        """A piece for each kind of edge without one."""
        self._block().for_edges()

    def action_copy(self) -> None:
        """Double the marked piece."""
        self._block().copy()

    def action_remove(self) -> None:
        """Delete the marked piece."""
        self._block().delete()

    def action_turn(self) -> None:
        """Make the marked piece a guess, or sure again."""
        self._block().stand()

    def action_stand(self, standing: str) -> None:
        """Say how far the marked piece can be trusted."""
        self._block().stand(Standing(standing))


class TrimBlock(Block):
    """Pieces to add, edit, copy and delete; below, the blanks for whoever stands at the brake."""

    def __init__(self) -> None:
        super().__init__()
        self.session: Session | None = None
        self._shown: tuple[Plan | None, int] = (None, 0)

    def compose(self) -> ComposeResult:
        """Heading with words to press, rows, the blanks."""
        with Horizontal(classes="bars"):
            with Horizontal(classes="bar"):
                yield Static(Content.styled(" Pieces ", "bold"), classes="heading")
                for words, action in (("a add", "add"), ("e one for every edge", "edges")):
                    yield Word(words, "#trim-rows", action)
            with Horizontal(classes="bar"):
                for words, action in (("c copy", "copy"), ("d delete", "remove"),
                                      ("g guess", "turn")):
                    yield Word(words, "#trim-rows", action)
        yield TrimRows(id="trim-rows", compact=True)
        yield Static(Content.styled(" Blanks, row by row", "bold"), classes="heading",
                     id="trim-heading")
        yield Passage("", classes="lines", id="trim-nests", markup=False)

    @property
    def list(self) -> TrimRows:
        """The rows."""
        return self.query_one(TrimRows)

    # -- showing ---------------------------------------------------------------------------

    def show(self, session: Session) -> None:
        """Pieces with girth and count; by metal, how the rows are cut and what is left."""
        self.session = session
        plan = session.plan
        width = max(40, (self.size.width or self.screen.size.width) - 3)
        if (plan, width) == self._shown:
            return
        self._shown = (plan, width)
        count = len(session.job.trim.pieces)
        marked = self.list.highlighted or 0
        with self.prevent(OptionList.OptionHighlighted):
            self.list.set_options(
                [Option(Content(piece_row(plan, i, width))) for i in range(count)]
                or [Option(Content("    none yet: a adds a piece, e one for each kind of edge"))]
            )
            self.list.highlighted = min(marked, max(0, count - 1))
        tall = sum(str(option.prompt).count("\n") + 1 for option in self.list.options)
        self.list.styles.height = min(_TALLEST, max(1, tall))
        lines = [
            line for number, nest in enumerate(plan.nests)
            for line in (*([""] if number else []), *nest_lines(plan, nest, width))
        ]
        self.query_one("#trim-heading").display = bool(lines)
        nests = self.query_one("#trim-nests", Passage)
        nests.display = bool(lines)
        nests.update(Content("\n".join(f" {line}" for line in lines)))

    def on_resize(self) -> None:
        """Have the rows fit the new width."""
        if self.session is not None:
            self.show(self.session)

    def take_focus(self) -> bool:
        """Focus the rows."""
        self.list.focus()
        return True

    def focus_row(self, key: str) -> bool:
        """Focus the rows, on the piece that is meant."""
        number = key.removeprefix(TYPED)
        if number.isdecimal() and int(number) < self.list.option_count:
            self.list.highlighted = int(number)
        return self.take_focus()

    # -- changing --------------------------------------------------------------------------

    def _marked(self) -> int | None:
        assert self.session is not None
        at = self.list.highlighted
        if at is None or at >= len(self.session.job.trim.pieces):
            self.app.notify("There is no piece yet; a adds one.", markup=False)
            return None
        return at

    def add(self) -> None:
        """Add a piece and open its form."""
        assert self.session is not None
        index = len(self.session.job.trim.pieces)
        piece = TrimPiece(name=f"Trim {index + 1}")
        self._take(edit_trim.add(self.session.job, piece), f"{piece.name} added", index)
        self.open(index, begun=True)

    def for_edges(self) -> None:
        """A piece for each kind of edge that the roof has and no piece goes on."""
        assert self.session is not None
        job, figures = self.session.job, self.session.plan.figures
        lengths = {
            kind: figures[key].value for kind in EdgeKind
            if (key := f"edges.{kind.name.lower()}") in figures
        }
        kinds = edit_trim.missing_kinds(job, lengths)
        if not kinds:
            self.app.notify(
                "Every kind of edge has its piece." if lengths
                else "The roof has no edges yet; measure it first.", markup=False)
            return
        made = [TrimPiece(name=edit_trim.NAMES[kind], kind=kind) for kind in kinds]
        names = ", ".join(piece.name for piece in made)
        self._take(edit_trim.add(job, *made), f"Trim for every edge: {names}",
                   len(job.trim.pieces))
        self.app.notify(f"Added: {names}. Each still needs its girth.", markup=False)

    def copy(self) -> None:
        """Double the marked piece and open the double's form."""
        if (index := self._marked()) is not None and self.session is not None:
            name = self.session.job.trim.pieces[index].name
            self._take(edit_trim.duplicate(self.session.job, index), f"{name} copied", index + 1)
            self.open(index + 1)

    def delete(self) -> None:
        """Delete the marked piece."""
        if (index := self._marked()) is not None and self.session is not None:
            name = self.session.job.trim.pieces[index].name
            left = len(self.session.job.trim.pieces) - 1
            self._take(edit_trim.delete(self.session.job, index), f"{name} deleted",
                       min(index, max(0, left - 1)))
            self.app.notify(f"{tame(name)} deleted; Ctrl+Z brings it back", markup=False)

    def stand(self, wanted: Standing | None = None) -> None:
        """Say how far the marked piece can be trusted; without a word the other way round."""
        if (index := self._marked()) is None or self.session is None:
            return
        job = self.session.job
        if wanted is None:
            sure = edit_trim.standing_of(job, index) is Standing.SURE
            wanted = Standing.GUESS if sure else Standing.SURE
        name = job.trim.pieces[index].name
        self._take(edit_trim.with_standing(job, index, wanted),
                   f"{name}: measures {wanted.value}", index)

    def _take(self, job: Job, label: str, index: int) -> None:
        assert self.session is not None
        self.session.seal()
        self.session.change(job, label)
        self.session.seal()
        self._job_screen().changed()
        if index < self.list.option_count:
            self.list.highlighted = index

    def open(self, index: int, *, begun: bool = False) -> None:
        """Open the form of a piece."""
        from coilwright.wizard.screens.trim_piece import TrimPieceScreen

        assert self.session is not None

        def closed(_nothing: object) -> None:
            self._job_screen().changed()
            self.list.focus()

        self.app.push_screen(TrimPieceScreen(self.session, index, begun=begun), closed)

    def _job_screen(self) -> JobScreen:
        from coilwright.wizard.screens.wizard import WizardScreen as JobScreen

        screen = self.screen
        assert isinstance(screen, JobScreen)
        return screen

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        assert self.session is not None
        if not self.session.job.trim.pieces:
            self.add()
        elif not self.list.only_marked:
            self.open(event.option_index)
