"""What screens share: how they take a terminal's size, open over others, and say something."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, TypeVar, cast

from textual import events, on
from textual.await_complete import AwaitComplete
from textual.binding import Binding
from textual.css.query import NoMatches
from textual.geometry import Offset, Size
from textual.renderables.background_screen import BackgroundScreen
from textual.screen import ModalScreen, Screen
from textual.widget import Widget
from textual.widgets import Input, Static

from coilwright.wizard.context import Say, Severity
from coilwright.wizard.widgets.rows import Rows
from coilwright.wizard.widgets.text import press_key_at

SMALLEST = (60, 18)
WIDE = 100
"""From this many columns on, form and results stand side by side."""
RAILED = 120
"""From this many columns on, the steps stand in a column of their own beside them."""

LOW = 23
"""Under this many rows the results give up some of theirs to the form."""

TALL = 38
"""From this many rows on, headings have air above them."""

MODAL_CSS = Path(__file__).with_name("over.tcss")
"""The style of all screens that open over another, wherever their code stands."""

Result = TypeVar("Result")


def say_on(widget: Widget) -> Say:
    """Notices of a widget, their text as it is: never markup."""

    def say(
        message: str, *, title: str = "", severity: Severity = "information",
        timeout: float | None = None,
    ) -> None:
        widget.notify(message, title=title, severity=severity, timeout=timeout, markup=False)

    return say


if TYPE_CHECKING:
    from rich.console import RenderableType

    _AnyScreen = Screen[Any]
else:
    # No screen itself: the screen library takes a screen's style from its first base that is one.
    _AnyScreen = object


class ClosedOnce(_AnyScreen):
    """For screens: closed once, and nothing is shown where it is closed before it was there."""

    def dismiss(self, result: Any = None) -> AwaitComplete:
        """Close this screen with a result, whatever has opened over it; once."""
        if self not in self.app.screen_stack:
            # A key typed ahead, or a second click, reached it after it was closed: the screen
            # library would close whatever lies on top now.
            return cast("AwaitComplete", AwaitComplete.nothing())  # type: ignore[no-untyped-call]
        while self.app.screen is not self:
            self.app.pop_screen()
        return super().dismiss(result)

    def moved_on(self) -> None:
        """What was said before goes: somebody went on to another answer or step."""
        if (moved_on := getattr(self.app, "moved_on", None)) is not None:
            moved_on()

    def get_widget_and_offset_at(self, x: int, y: int) -> tuple[Widget | None, Offset | None]:
        """Where text begins to be marked by the mouse; nowhere on what was just taken away."""
        widget, offset = super().get_widget_and_offset_at(x, y)
        return (None, None) if widget is not None and widget.parent is None else (widget, offset)

    async def on_event(self, event: events.Event) -> None:
        """Handle an event; closed before or meanwhile, it has nothing to show it in."""
        if self._pruning and isinstance(event, events.Mount):
            return
        try:
            await super().on_event(event)
        except NoMatches:
            if self.is_attached and not self._pruning:
                raise


_BOX, _STRIPS, _FRAME = 112, 24, 4
"""Cells of the widest box; beside it, both sides together, of too little to be seen; of its edge
and the space beside that."""


class Modal(ClosedOnce, ModalScreen[Result], Generic[Result]):
    """A screen over another one; Escape closes it without an answer."""

    CSS_PATH = MODAL_CSS
    BINDINGS = [
        Binding("escape", "close", "Close", tooltip="Back to where you were", id="over.close"),
        Binding("f1", "app.keys", "Help", show=False, tooltip="The keys that work here",
                id="over.keys"),
        # The screen library asks no app for its keys while a dialog is open.
        Binding("f12", "app.notices", "Notices", show=False, id="over.notices",
                tooltip="What was said here last, to read again"),
    ]

    def render(self) -> RenderableType:
        """What lies behind: the screen below this one.

        The screen library counts them down as they are painted anew; where one between was painted
        before, those below took each other for what lies behind, and painted for ever.
        """
        stack, background = self.app.screen_stack, self.styles.background
        at = stack.index(self) if self in stack else 0
        return BackgroundScreen(stack[at - 1], background) if at and background.a < 1 else (
            super().render())

    @property
    def say(self) -> Say:
        """Shows a notice, its text as it is."""
        return say_on(self)

    @property
    def room(self) -> int:
        """Cells of a line in the box, a scrollbar included."""
        width = self.app.size.width
        return (width if width < _BOX + _STRIPS else _BOX) - _FRAME

    @on(events.Mount)
    @on(events.Resize)
    def _widen_box(self) -> None:
        """Cover all where only a strip of the screen below would be left beside the box; leave no
        lines empty on a low terminal."""
        self.set_class(_BOX < self.app.size.width < _BOX + _STRIPS, "-nearly")
        self.set_class(self.app.size.height < LOW, "-low")

    def action_close(self) -> None:
        """Close without an answer."""
        self.dismiss(None)

    def on_click(self, event: events.Click) -> None:
        """A click beside the box is as Escape; one on the line of keys is as the key it hits."""
        clicked = event.widget
        if clicked is self:
            self.action_close()
        elif isinstance(clicked, Static) and clicked.has_class("over-hint"):
            press_key_at(clicked, event)


class SizedScreen(ClosedOnce, Screen[Any]):
    """A screen that says so when the terminal is too small for it.

    It sets the classes -wide, -railed or -narrow by itself: Textual's breakpoints come only after
    the first layout.
    """

    wide = False
    """Whether there is room for form and results side by side."""
    railed = False
    """Whether there is room for the column of steps too."""
    _last_size: Size | None = None
    _last_focused: Widget | None = None
    """What had the focus before the terminal became too small: what is hidden loses it."""

    def small_notice(self) -> Static:
        """The line; to be yielded first by compose, so that all is laid out once."""
        self._apply_size(self.app.size, update=False)
        return Static(_too_small(self.app.size), id="too-small", markup=False)

    @property
    def say(self) -> Say:
        """Shows a notice, its text as it is."""
        return say_on(self)

    def set_focus(self, widget: Widget | None, scroll_visible: bool = True,
                  from_app_focus: bool = False) -> None:
        """Focus a widget. A list that may be higher than its form says what of it is to be seen."""
        itself = isinstance(widget, Rows) and scroll_visible
        super().set_focus(widget, scroll_visible and not itself, from_app_focus)
        if itself and widget is not None:
            widget.call_after_refresh(widget.scroll_visible)

    def redraw(self) -> None:
        """Draw anew: how drawings look was changed."""

    def flush(self) -> bool:
        """Write what is not written yet. False where that did not work."""
        return True

    def leave(self, then: Callable[[], object]) -> None:
        """Call `then` once all is written, or is to be left as it is."""
        if self.flush():
            then()

    def on_resize(self, event: events.Resize) -> None:
        """Show the line, or the screen."""
        if event.size != self._last_size:
            if self.focused is not None:
                self._last_focused = self.focused
            self._apply_size(event.size)
            self.query_one("#too-small", Static).update(_too_small(event.size))
            self.resized()
            if not self.has_class("-too-small"):
                self.call_after_refresh(self._restore_focus)

    def _restore_focus(self) -> None:
        before = self._last_focused
        if self.focused is not None or before is None or not before.is_attached:
            return
        kept = before.selection if isinstance(before, Input) else None
        self.set_focus(before)
        if isinstance(before, Input):
            # A box that gets the focus marks all its text; the next key would wipe it out. The box
            # itself puts it back: that message lies behind the one that brings it the focus.
            before.call_later(setattr, before, "selection", kept)

    def _apply_size(self, size: Size, *, update: bool = True) -> None:
        self._last_size = size
        width, height = size
        self.wide, self.railed = width >= WIDE, width >= RAILED
        small = width < SMALLEST[0] or height < SMALLEST[1]
        before = self.classes
        for name, here in (
            ("-wide", self.wide), ("-narrow", not self.wide), ("-railed", self.railed),
            ("-low", height < LOW), ("-tall", height >= TALL), ("-too-small", small),
        ):
            self.set_class(here, name, update=False)
        # Once for all of them: each would have every widget on the screen styled anew.
        if update and self.classes != before:
            self.update_node_styles(animate=False)

    def resized(self) -> None:
        """Draw again for the new size."""


def _too_small(size: Size) -> str:
    return (
        f"Too small: needs {SMALLEST[0]} × {SMALLEST[1]}, now {size.width} × {size.height}."
    )
