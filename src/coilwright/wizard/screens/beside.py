"""Papers that are read: page by page with the same keys, in their own box or above another."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from textual import events
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.screen import Screen

READS = "PgUp PgDn read"
"""At the foot of every box with papers; the wheel does it too."""
READS_ABOVE = f"{READS} above"
PAGE_KEYS = (
    # Before the list that has the focus: there they would go to its last row, past the papers.
    Binding("pageup", "page(-1)", "A page back", tooltip="Read a page back; so does the wheel",
            id="papers.back", key_display="PgUp", priority=True),
    Binding("pagedown", "page(1)", "A page on", tooltip="Read a page on; so does the wheel",
            id="papers.on", key_display="PgDn", priority=True),
)
READ_KEYS = (
    *PAGE_KEYS,
    Binding("space", "page(1)", "A page on", show=False, id="papers.space"),
)
"""Where no box is typed in and Space picks nothing, it reads on as well."""
_OVERLAP = 2
"""Lines of the page before that stay to be seen."""
_WHEEL = 3
"""Lines a turn of the wheel moves."""

if TYPE_CHECKING:
    _AnyScreen = Screen[Any]
else:
    _AnyScreen = object


class ReadsPapers(_AnyScreen):
    """For dialogs with papers in their scrolled part."""

    def action_page(self, pages: int) -> None:
        """Read on or back by what is to be seen of them."""
        self.read_pages(pages, self.size.height)

    def read_pages(self, pages: int, covered_from: int) -> None:
        """The same where a box covers the screen from a row on: no line is jumped past."""
        paper = self.query_one(VerticalScroll)
        seen = min(paper.region.bottom, covered_from) - paper.region.y
        self.action_scroll(pages * max(1, seen - _OVERLAP))

    def action_scroll(self, lines: int) -> None:
        """Read on or back by lines."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)

    def on_mouse_scroll_down(self) -> None:
        """Read on, wherever in the box the wheel is turned and nothing else takes it."""
        self.action_scroll(_WHEEL)

    def on_mouse_scroll_up(self) -> None:
        """Read back."""
        self.action_scroll(-_WHEEL)


class ReadsBelow(_AnyScreen):
    """For dialogs that open beside what is read: with the class -beside it is not dimmed."""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing is read below a box that opens over all."""
        if action == "page":
            return self._below is not None
        return super().check_action(action, parameters)

    @property
    def _below(self) -> ReadsPapers | None:
        """The screen with the papers that are read above this box, if it is beside some."""
        below = self.app.screen_stack[-2] if self.has_class("-beside") else None
        return below if isinstance(below, ReadsPapers) else None

    def action_page(self, pages: int) -> None:
        """Read on or back by what is to be seen of the papers above the box."""
        if self._below is not None:
            self._below.read_pages(pages, self.query_one(".box").region.y)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The papers are read by the wheel as without the box."""
        if self._below is not None:
            event.stop()
            self._below.on_mouse_scroll_down()

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """The same, back."""
        if self._below is not None:
            event.stop()
            self._below.on_mouse_scroll_up()
