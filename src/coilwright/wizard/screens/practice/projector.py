"""The projector view: one thing at a time, the answer with the reveal key."""

from __future__ import annotations

import textwrap
from collections.abc import Callable

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.practice.slides import Part, Slide, pages
from coilwright.wizard.widgets.text import KeysLine

_WIDEST, _MARGIN = 78, 7
_ONE_TURN = 0.2
"""What a wheel says within that time is one turn [s]."""
_AROUND = 7
"""Lines that are not the slide's: above and below, after the title, and the keys."""


class ProjectorScreen(Modal[None]):
    """Steps through slides, page by page where one does not fit; what is revealed hides again with
    the next one.

    make: the slides, for lines so wide and pages of so many. revealed: called when an answer is
    revealed, the first time.
    """

    BINDINGS = [
        Binding("right,space,pagedown", "step(1)", "Next", tooltip="The next thing",
                id="projector.next"),
        Binding("left,pageup", "step(-1)", "Before", tooltip="The thing before",
                id="projector.before"),
        Binding("enter,r", "reveal", "Reveal", tooltip="Show the answer, or hide it",
                id="projector.reveal", key_display="Enter, r"),
        Binding("w", "working", "Working", tooltip="How it was worked out", id="projector.working"),
        Binding("down", "scroll(2)", "Read on", show=False, id="projector.on"),
        Binding("up", "scroll(-2)", "Read back", show=False, id="projector.back"),
    ]
    AUTO_FOCUS = ""

    def __init__(
        self, make: Callable[[int, int], tuple[Slide, ...]],
        revealed: Callable[[], None] | None = None,
    ) -> None:
        super().__init__()
        self._make = make
        self._tell_revealed = revealed
        self.slides: tuple[Slide, ...] = ()
        self.at = self.page = 0
        self.revealed = self.worked = False
        self._turned = 0.0
        """When the wheel turned a page last."""

    def compose(self) -> ComposeResult:
        """The slide, and where one is."""
        with Vertical(classes="projector"):
            yield Static("", id="projector-title")
            with VerticalScroll(can_focus=False):
                yield Static("", id="projector-text")
            yield KeysLine("", id="projector-hint")

    def on_resize(self, _event: events.Resize) -> None:
        """Set the slides for the room there is."""
        self.slides = self._make(self._width(), self._height(1))
        self.call_after_refresh(self.show)

    def _width(self) -> int:
        return max(1, min(_WIDEST, self.app.size.width - 2 * _MARGIN))

    def _height(self, title: int) -> int:
        """Lines of a page, below a title of so many."""
        return max(1, self.app.size.height - _AROUND - title)

    @property
    def pages(self) -> tuple[tuple[Part, ...], ...]:
        """The pages of the slide as it is now."""
        slide = self.slides[self.at]
        title = len(textwrap.wrap(slide.title, self._width())) or 1
        return pages(slide, self._width(), self._height(title), revealed=self.revealed,
                     worked=self.worked)

    def show(self) -> None:
        """Show the page of the slide as it is now."""
        slide, made = self.slides[self.at], self.pages
        self.page = min(self.page, len(made) - 1)
        self.query_one("#projector-title", Static).update(plain(slide.title, "bold"))
        self.query_one("#projector-text", Static).update(Content("\n\n").join(
            plain("\n".join(part.lines), "bold" if part.bold else "")
            for part in made[self.page]))
        page = f", page {self.page + 1} of {len(made)}" if len(made) > 1 else ""
        more = " · Enter reveals" if slide.revealed and not self.revealed else ""
        work = " · w working" if self.revealed and slide.working and not self.worked else ""
        at = f"{self.at + 1} of {len(self.slides)}{page}"
        ends = "Esc hides the working" if self.worked else "Esc ends"
        # First and as wide on each slide: who clicks twice in one place goes on twice. Words are
        # hit by a mouse more easily than an arrow of one cell.
        keys = f"← before · → next · {at}{more}{work} · {ends}"
        self.query_one("#projector-hint", Static).update(
            keys if len(keys) <= self._width() else f"← → · {at}{more}{work} · {ends}")

    def action_step(self, by: int) -> None:
        """To another page, or another slide, its answer hidden."""
        self.moved_on()
        if 0 <= self.page + by < len(self.pages):
            self.page += by
            self.show()
            return
        to = self.at + by
        if 0 <= to < len(self.slides):
            self.at, self.revealed, self.worked = to, False, False
            self.page = 0 if by > 0 else len(self.pages) - 1
            self.show()
            self.query_one(VerticalScroll).scroll_home(animate=False)
        elif by > 0:
            self.say("This is the last slide: ← goes back, Esc ends.")

    def _goes_on(self) -> str:
        """What the next key does, in words."""
        last = self.at + 1 == len(self.slides) and self.page + 1 == len(self.pages)
        return "it is the last, Esc ends." if last else "→ goes on."

    def action_reveal(self) -> None:
        """Show the answer, or hide it again."""
        if not self.slides[self.at].revealed:
            self.say(f"Nothing is asked on this slide: {self._goes_on()}")
            return
        self.moved_on()
        self.revealed = not self.revealed
        if self._tell_revealed is not None:
            self._tell_revealed()
            self._tell_revealed = None
        # What is ticked shows at once; an answer that has a page of its own is turned to.
        answers = (at for at, page in enumerate(self.pages) if any(part.bold for part in page))
        self.page = 0 if self.slides[self.at].ticked else next(answers, 0)
        self.show()

    def action_working(self) -> None:
        """Show the working of what is revealed, or hide it."""
        if not self.slides[self.at].working:
            self.say(f"Nothing was worked out on this slide: {self._goes_on()}")
        elif not self.revealed:
            self.say("Enter reveals the answer first; then w shows how it was worked out.")
        else:
            before = len(self.pages)
            self.worked = not self.worked
            # Where it does not fit below the answer, it begins the page after.
            self.page = before if self.worked and len(self.pages) > before else before - 1
            self.show()

    def action_close(self) -> None:
        """Close the working where it is open, else the projector: what is open closes first."""
        if self.worked:
            self.action_working()
        else:
            self.dismiss(None)

    def on_click(self, event: events.Click) -> None:
        """A click on the slide goes on; it reveals no answer, for a hand may slip in front of a
        class: Enter does, and a click on its name."""
        if event.widget is self.query_one("#projector-hint"):
            return
        slide = self.slides[self.at]
        last = self.page + 1 == len(self.pages)
        if last and slide.revealed and not self.revealed:
            self.say("Enter, or a click on “Enter reveals”, shows the answer.")
        else:
            self.action_step(1)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The next page of the slide, where it has another."""
        self._wheel(1, event.time)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """The page before."""
        self._wheel(-1, event.time)

    def _wheel(self, by: int, when: float) -> None:
        """Turn a page of the slide, and never to another slide: what is revealed would be gone.
        Some wheels say one turn several times."""
        if 0 <= self.page + by < len(self.pages) and when - self._turned > _ONE_TURN:
            self.moved_on()
            self._turned = when
            self.page += by
            self.show()

    def action_scroll(self, lines: int) -> None:
        """Scroll a page that is longer than the screen, as where a terminal is very low."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)
