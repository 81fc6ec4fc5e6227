"""A block of lines that follow from the plan."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from coilwright.wizard.literal import plain, tame
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block, Drawing
from coilwright.words import cautions


class Passage(Static, can_focus=True):
    """Lines that take the focus, so that the keyboard can bring them into view."""


class TextBlock(Block):
    """A heading and lines; hidden while there is nothing to say."""

    title = ""

    def __init__(self) -> None:
        super().__init__()
        self._session: Session | None = None
        self._width = 0
        self.add_class("-empty")

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


class CautionLine(Passage):
    """One line that opens all cautions of the step."""

    BINDINGS = [
        Binding("enter,space", "screen.step_words", "Read all", show=False, id="cautions.open")
    ]

    async def on_click(self) -> None:
        """Open them."""
        await self.screen.run_action("step_words")


class CautionBlock(Block):
    """All cautions of the step, at the end of its form.

    Where the form is one column they are one line that opens them: one of them stands below
    the results all the time.
    """

    def __init__(self, step: str) -> None:
        super().__init__(classes="form-caution")
        self._step = step
        self._line = CautionLine("", classes="narrow-only", markup=False)
        self._all = Passage("", classes="lines wide-only", markup=False)

    def compose(self) -> ComposeResult:
        """The line, and all of them."""
        yield self._line
        yield self._all

    def show(self, session: Session) -> None:
        """Show them."""
        del session
        found = cautions(self._step)
        many = f"{len(found)} cautions" if len(found) > 1 else "A caution"
        self._line.update(plain(f" ▲ {many} for this step: Enter shows all"))
        self._all.update(plain("\n".join(f" ▲ {caution}" for caution in found)))


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
