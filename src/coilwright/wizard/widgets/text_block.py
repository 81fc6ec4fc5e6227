"""A block of lines that follow from the plan."""

from __future__ import annotations

import textwrap

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from coilwright.guidance import cautions
from coilwright.wizard.literal import tame
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block, Drawing


class Passage(Static, can_focus=True):
    """Lines that take the focus, so that the keyboard can bring them into view."""


class TextBlock(Block):
    """A heading and lines; hidden while there is nothing to say."""

    title = ""

    def __init__(self) -> None:
        super().__init__()
        self._session: Session | None = None
        self._width = 0

    def compose(self) -> ComposeResult:
        """Heading, lines."""
        if self.title:
            yield Static(Content.styled(f" {self.title}", "bold"), classes="heading")
        yield Passage("", classes="lines", markup=False)

    def lines(self, session: Session, width: int) -> list[str]:
        """The lines, none wider than `width`."""
        raise NotImplementedError

    def show(self, session: Session) -> None:
        """Show the lines."""
        self._session = session
        self._width = self.size.width or (self.parent_width() - 2)
        lines = self.lines(session, max(30, self._width - 2))
        self.set_class(not lines, "-empty")
        self.query_one(".lines", Static).update(
            Content("\n".join(f" {tame(line)}" for line in lines))
        )

    def parent_width(self) -> int:
        """The width of what the block stands in, while it has none of its own."""
        return self.parent.size.width if isinstance(self.parent, Widget) else 78

    def on_resize(self) -> None:
        """Have the lines fit the new width."""
        if self._session is not None and self.size.width != self._width:
            self.show(self._session)


class CautionBlock(TextBlock):
    """All cautions of the step, at the end of its form."""

    def __init__(self, step: str) -> None:
        super().__init__()
        self._cautions = cautions(step)
        self.add_class("form-caution")

    def lines(self, session: Session, width: int) -> list[str]:
        """Each caution, wrapped under its sign."""
        del session
        return [
            line
            for caution in self._cautions
            for line in textwrap.wrap(caution, width - 2, initial_indent="▲ ",
                                      subsequent_indent="  ")
        ]


class DrawingBlock(TextBlock):
    """The step's drawing inside the form, where there is no room beside it."""

    title = "To scale"
    _HEIGHT = 14

    def __init__(self, drawing: Drawing) -> None:
        super().__init__()
        self.drawing = drawing
        self.add_class("narrow-only")

    def lines(self, session: Session, width: int) -> list[str]:
        """The drawing."""
        return self.drawing(session.plan, width, self._HEIGHT, session.chosen_plane)
