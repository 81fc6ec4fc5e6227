"""What drawings are made of: each way shown as it would look here, so that one sees what works."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.drawing.line_work import LineWork
from coilwright.drawing.shapes import shape_lines
from coilwright.job.roof import Building
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.widgets.columns import pad
from coilwright.wizard.widgets.rows import MarkedList

_ABOUT = {
    LineWork.BRAILLE: ("Fine dots. Most fonts have them.",),
    LineWork.OCTANTS: ("As fine, and solid. Only the", "newest fonts have them."),
    LineWork.BLOCKS: ("Lines and slanted strokes.", "Every Unicode font has them."),
    LineWork.ASCII: ("Letters and signs of any terminal;", "read well by screen readers."),
}
_WIDE = 19


class LineWorkScreen(Modal[LineWork]):
    """Pick what lines are drawn with."""

    def __init__(self, now: LineWork) -> None:
        super().__init__()
        self.now = now

    def compose(self) -> ComposeResult:
        """What to look for, a sample of each."""
        with Vertical(classes="box narrow-box"):
            yield Static("Lines of drawings. Empty boxes or ? mean that your font lacks them.",
                         classes="over-title")
            yield MarkedList(*(Option(self._row(work)) for work in LineWork), compact=True)
            yield Static("Enter picks; the finest whose lines join is best; Escape closes",
                         classes="over-hint")

    def _row(self, work: LineWork) -> Content:
        picture = shape_lines(Building.HIP, _WIDE - 4, 4, work)
        beside = (f"{work.value}{'  (now)' if work is self.now else ''}", *_ABOUT[work], "", "")
        return Content("\n").join([
            Content.assemble(" ", pad(line, _WIDE), (words, "dim" if at else "bold"))
            for at, (line, words) in enumerate(zip(picture, beside, strict=False))
        ])

    def on_mount(self) -> None:
        """Start at what is drawn now."""
        rows = self.query_one(MarkedList)
        rows.highlighted = list(LineWork).index(self.now)
        rows.focus()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(list(LineWork)[event.option_index])
