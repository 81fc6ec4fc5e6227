"""On the Panel step: the panels of every plane, the widths at its ends, and slivers."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.wizard.lists.plane_text import ends_lines, sliver_lines
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import Block
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.row_words import RowKeys
from coilwright.wizard.widgets.rows import Rows
from coilwright.wizard.widgets.text import Text

_TALLEST = 8


class EndsBlock(Block):
    """Planes with their panels and ends. Hidden while no panels are laid."""

    class Opened(Message):
        """The chosen plane is to be drawn large."""

    def __init__(self) -> None:
        super().__init__()
        self.session: Session | None = None
        self._shown: tuple[list[str], int] = ([], 0)
        self._numbers: list[int] = []
        self.styles.margin = (1, 0, 0, 0)

    def compose(self) -> ComposeResult:
        """Heading, rows, what is said of slivers."""
        with Bar():
            yield Static(Content.styled(" Planes: panels, and width of the end panels  ", "bold"),
                         classes="heading")
            yield RowKeys("Enter draws large; there l lists", classes="none-yet")
        yield Rows(compact=True)
        yield Text("", classes="slivers", markup=False)

    def on_mount(self) -> None:
        """What is said of slivers is as high as it needs."""
        self.query_one(".slivers", Static).styles.height = "auto"

    def show(self, session: Session) -> None:
        """Show the planes, the chosen one marked."""
        self.session = session
        width = max(40, (self.size.width or self.screen.size.width) - 3)
        lines = ends_lines(session.plan, width)
        self.display = bool(lines)
        rows = self.query_one(Rows)
        self._numbers = [p.number for p in session.plan.planes if p.end_widths is not None]
        if (lines, width) != self._shown:
            self._shown = (lines, width)
            with self.prevent(OptionList.OptionHighlighted):
                rows.set_options(Option(Content(escape_controls(line))) for line in lines)
            rows.take_height(_TALLEST)
        if session.chosen_plane in self._numbers:
            with self.prevent(OptionList.OptionHighlighted):
                rows.highlighted = self._numbers.index(session.chosen_plane)
        slivers = sliver_lines(session.plan, width)
        self.query_one(".slivers", Static).update(
            Content(escape_controls("\n".join(f" {line}" for line in slivers)))
        )

    def on_resize(self) -> None:
        """Have the rows fit the new width."""
        if self.session is not None:
            self.show(self.session)

    def take_focus(self) -> bool:
        """Focus the rows."""
        if self.display:
            self.query_one(Rows).focus()
        return bool(self.display)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        if self.session is not None and event.option_index < len(self._numbers):
            self.session.chosen_plane = self._numbers[event.option_index]

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.session is not None and event.option_index < len(self._numbers):
            self.session.chosen_plane = self._numbers[event.option_index]
            self.post_message(self.Opened())
