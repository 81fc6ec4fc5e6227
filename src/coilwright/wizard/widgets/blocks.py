"""What stands on a step beside its answers: blocks of lines, of buttons, of a drawing."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.geometry import Size
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Button, Static

from coilwright.values.figure import Figure
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.session import Session
from coilwright.wizard.settings import line_work
from coilwright.wizard.widgets.columns import cells
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.rows import with_sign
from coilwright.wizard.widgets.text import Hanging, Text
from coilwright.words import cautions
from coilwright.words.in_units import with_units

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.plan import Plan

Lines = Callable[[Session, int], "list[str]"]
"""Lines for the job as it is now, none wider than a width in cells."""

Drawing = Callable[["Plan", int, int, int, "LineWork"], "list[str]"]
"""Draws for a plan: width and height in cells, the number of the chosen plane, what lines are."""

_DRAWING_HEIGHT = 14


class AnswerWanted(Message):
    """Go to an answer, by its key."""

    def __init__(self, key: str) -> None:
        super().__init__()
        self.key = key


class WorkingWanted(Message):
    """Show how a figure was made."""

    def __init__(self, figure: Figure) -> None:
        super().__init__()
        self.figure = figure


class Block(Vertical):
    """Something on a step that is not a plain answer."""

    def show(self, session: Session) -> None:
        """Show the job as it is now."""

    def begins(self, session: Session) -> bool:
        """Whether the step begins here rather than at its first answer."""
        del session
        return False

    def take_focus(self) -> bool:
        """Take the focus if there is something to focus. Returns whether it did."""
        return False

    def take_key(self, key: str) -> bool:
        """Do what a key does here, where it was pressed beside it. Returns whether it did."""
        del key
        return False


BUTTON_KEYS = "Enter does it; ← → to the button beside it"
"""What is said of a button that has the focus, where there are others in its row."""


def button_keys(button: Button) -> str:
    """What is said of a button that has the focus."""
    row = button.parent
    there = () if row is None else row.query(Button)
    return BUTTON_KEYS if sum(one.display for one in there) > 1 else BUTTON_KEYS.partition(";")[0]


class BarButton(Button):
    """A button of one row. ▸ stands before it while it has the focus.

    letter: the key that does the same, which stands before its words.
    """

    BINDINGS = [
        Binding("left", "along(-1)", "Button before", show=False, id="act.left"),
        Binding("right", "along(1)", "Button after", show=False, id="act.right"),
    ]

    def __init__(self, words: str, letter: str = "", **more: Any) -> None:
        self.words = words
        self._letter = letter
        super().__init__(self._content(False), compact=True, **more)
        self.styles.line_pad = 0  # its words bring their own space, one of which takes the sign

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """As wide as its words with a cell on either side [cells]."""
        del container, viewport
        return cells(f"{self._letter} {self.words}".lstrip()) + 2

    def say(self, words: str) -> None:
        """Bear other words, in as much room as they take."""
        if words != self.words:
            self.words = words
            self._mark(self.has_focus)
            self.refresh(layout=True)

    def _content(self, here: bool) -> Content:
        letter = ((self._letter, "bold $accent"), " ") if self._letter else ()
        return Content.assemble("▸" if here else " ", *letter, self.words, " ")

    def _mark(self, here: bool) -> None:
        self.label = self._content(here)

    def on_focus(self) -> None:
        """Show the sign."""
        self._mark(True)

    def on_blur(self) -> None:
        """Take it away."""
        self._mark(False)

    def on_key(self, event: events.Key) -> None:
        """The keys of a list of rows on the step work from its buttons too."""
        step = next((node for node in self.ancestors if node.has_class("step")), None)
        if step is not None and event.is_printable and any(
                block.display and block.take_key(event.key)
                for block in step.query(".rows-block").results(Block)):
            event.stop()

    def action_along(self, by: int) -> None:
        """To the button before or after on this row."""
        row = self.parent
        if row is None:
            return
        buttons = [b for b in row.children if isinstance(b, BarButton) and b.display]
        at = buttons.index(self) + by
        if 0 <= at < len(buttons):
            buttons[at].focus()


class DialogButton(Button):
    """A button of a dialog: ▸ stands before it while it has the focus, for not all see colors."""

    def render_line(self, y: int) -> Strip:
        """The line; the sign takes a cell before its words."""
        line = super().render_line(y)
        room = len(line.text) - len(line.text.lstrip())
        if not self.has_focus or not line.text.strip() or not room:
            return line
        at = max(0, room - 2)
        return Strip.join([line.crop(0, at), with_sign(line.crop(at))])


class ButtonBar(Bar):
    """A row of buttons; up and down pass it as one, at its first button."""

    def __init__(self, *buttons: BarButton) -> None:
        super().__init__(*buttons)


class Focusable(Widget):
    """Lines that take the focus: ▸ stands before the first of them while they have it."""

    def render_line(self, y: int) -> Strip:
        """The line; the sign takes the cell it leaves free."""
        line = super().render_line(y)
        signed = not y and self.has_focus and line.text.startswith(" ")
        return with_sign(line) if signed else line

    def on_focus(self) -> None:
        """Lines that are more than there is room for show their first, with the sign."""
        around = self.parent
        while isinstance(around, Widget) and not around.is_scrollable:
            around = around.parent
        if isinstance(around, Widget) and self.size.height > around.size.height:
            self.call_after_refresh(self.scroll_visible, animate=False, top=True)


class Passage(Focusable, Text, can_focus=True):
    """Lines that take the focus, so that the keyboard can bring them into view."""


class HangingPassage(Focusable, Hanging, can_focus=True):
    """The same of paragraphs that go on under their own words."""


class TextBlock(Block):
    """A heading and lines; hidden while there is nothing to say.

    lines: makes them of the job as it is now, none wider than a width in cells.
    """

    def __init__(self, title: str, lines: Lines) -> None:
        super().__init__()
        self._title = title
        self._lines = lines
        self._session: Session | None = None
        self._width = 0
        self.add_class("-empty")

    def compose(self) -> ComposeResult:
        """Heading, lines."""
        if self._title:
            yield Static(Content.styled(f" {self._title}", "bold"), classes="heading")
        yield Passage("", classes="lines", markup=False)

    def show(self, session: Session) -> None:
        """Show the lines."""
        self._session = session
        self._width = self.size.width or (self.parent_width() - 2)
        lines = self._lines(session, max(30, self._width - 2))
        self.set_class(not lines, "-empty")
        self.query_one(".lines", Static).update(
            Content("\n".join(f" {escape_controls(line)}" for line in lines))
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
        self._all = HangingPassage("", classes="lines wide-only", markup=False)

    def compose(self) -> ComposeResult:
        """The line, and all of them."""
        yield self._line
        yield self._all

    def show(self, session: Session) -> None:
        """Show them."""
        found = cautions(self._step)
        many = f"{len(found)} cautions" if len(found) > 1 else "A caution"
        self._line.update(plain(f" ▲ {many} for this step: Enter here shows all"))
        self._all.say(*(((" ▲ ", ""), (escape_controls(with_units(caution, session.job.units)), ""))
                        for caution in found))


class DrawingBlock(TextBlock):
    """The step's drawing inside the form, where there is no room beside it."""

    def __init__(self, drawing: Drawing) -> None:
        def lines(session: Session, width: int) -> list[str]:
            return drawing(session.plan, width, _DRAWING_HEIGHT, session.chosen_plane,
                           line_work(self))

        super().__init__("To scale", lines)
        self.add_class("narrow-only")
