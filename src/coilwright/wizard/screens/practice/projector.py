"""The projector view: one thing at a time, the answer with the reveal key."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterable

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.practice.slides import Slide

_WIDEST, _MARGIN = 78, 7


class ProjectorScreen(Modal[None]):
    """Steps through slides; what is revealed hides again with the next one.

    make: the slides, for lines so wide.
    """

    BINDINGS = [
        Binding("right,space,pagedown", "step(1)", "Next", tooltip="The next thing",
                id="projector.next"),
        Binding("left,pageup", "step(-1)", "Before", tooltip="The thing before",
                id="projector.before"),
        Binding("enter,r", "reveal", "Reveal", tooltip="Show the answer, or hide it",
                id="projector.reveal"),
        Binding("w", "working", "Working", tooltip="How it was worked out", id="projector.working"),
        Binding("down", "scroll(2)", "Read on", show=False, id="projector.on"),
        Binding("up", "scroll(-2)", "Read back", show=False, id="projector.back"),
    ]
    AUTO_FOCUS = ""

    def __init__(self, make: Callable[[int], tuple[Slide, ...]]) -> None:
        super().__init__()
        self._make = make
        self.slides: tuple[Slide, ...] = ()
        self.at = 0
        self.revealed = self.worked = False

    def compose(self) -> ComposeResult:
        """The slide, and where one is."""
        with Vertical(classes="projector"):
            yield Static("", id="projector-title")
            with VerticalScroll(can_focus=False):
                yield Static("", id="projector-text")
            yield Static("", id="projector-hint")

    def on_resize(self, _event: events.Resize) -> None:
        """Set the slides for the width there is."""
        self.slides = self._make(self._width())
        self.call_after_refresh(self.show)

    def _width(self) -> int:
        return max(1, min(_WIDEST, self.app.size.width - 2 * _MARGIN))

    def show(self) -> None:
        """Show the slide as it is now."""
        slide = self.slides[self.at]
        self.query_one("#projector-title", Static).update(plain(slide.title, "bold"))
        shown = slide.ticked if self.revealed and slide.ticked else slide.shown
        parts = [plain("\n".join(slide.drawing) if slide.drawing else self._set_lines(shown))]
        if self.revealed and slide.revealed:
            parts.append(plain(self._set_lines(slide.revealed), "bold"))
        if self.revealed and self.worked:
            parts.append(plain("\n".join(slide.working)))
        self.query_one("#projector-text", Static).update(Content("\n\n").join(parts))
        more = "  Enter reveals" if slide.revealed and not self.revealed else ""
        work = "  w working" if self.revealed and slide.working and not self.worked else ""
        self.query_one("#projector-hint", Static).update(
            f"{self.at + 1} of {len(self.slides)}  ← →{more}{work}  Esc ends")

    def _set_lines(self, lines: Iterable[str]) -> str:
        """Lines set for the width; what an option goes on with stands below its words."""
        return "\n".join(
            "\n".join(textwrap.wrap(escape_controls(line), self._width(),
                                    subsequent_indent=" " * 5 if line[:1] in "☐☑" else "")
                      or [""])
            for line in lines
        )

    def action_step(self, by: int) -> None:
        """To another slide, its answer hidden."""
        to = self.at + by
        if 0 <= to < len(self.slides):
            self.at, self.revealed, self.worked = to, False, False
            self.show()
            self.query_one(VerticalScroll).scroll_home(animate=False)

    def action_reveal(self) -> None:
        """Show the answer, or hide it again."""
        self.revealed = not self.revealed
        self.show()

    def action_working(self) -> None:
        """Show the working of what is revealed, or hide it."""
        if self.revealed:
            self.worked = not self.worked
            self.show()

    def action_scroll(self, lines: int) -> None:
        """Scroll a slide that is long."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)
