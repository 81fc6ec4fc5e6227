"""Text that costs nothing while it stays the same; words to press; words that hang."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.content import Content
from textual.visual import VisualType
from textual.widgets import Static

from coilwright.wizard.widgets.columns import cells, hang


class KeyWords(Static):
    """A key and what it does, to be pressed by mouse as well."""

    def __init__(self, text: str) -> None:
        key, _, words = text.partition(" ")
        super().__init__(Content.assemble((key, "bold $accent"), f" {words}"), classes="press")


class Text(Static):
    """A Static that is painted anew only where its text changed, and laid out only for a new size.

    Textual lays the whole screen out at every update. At every key most lines stay as they were,
    and most of the others stay as high.
    """

    _shown: Content | None = None

    def update(self, content: VisualType = "", *, layout: bool = True) -> None:
        """Show a text as it is, never as markup; layout: whether its size may change."""
        new = Content(content) if isinstance(content, str) else content
        if not isinstance(new, Content):
            self._shown = None
            super().update(content, layout=layout)
            return
        if self._shown is not None and self._shown.is_same(new):
            return
        self._shown = new
        super().update(new, layout=False)
        if layout and self._another_size():
            self.refresh(layout=True)

    def _another_size(self) -> bool:
        """Whether the text now wants another size than it has."""
        width, height = self.content_size
        styles = self.styles
        if not width or not height or (styles.width is not None and styles.width.is_auto):
            return True
        if styles.height is not None and not styles.height.is_auto:
            return False
        # As Textual does itself: styles are the rules, whatever their type says.
        return self.visual.get_height(styles, width) != height  # type: ignore[arg-type]


Piece = tuple[str, str]
"""Some words, and their style."""


class Hanging(Text):
    """Paragraphs that go on under their own words, not under the sign that stands before them."""

    _paragraphs: tuple[Sequence[Piece], ...] = ()
    _set_for = 0

    def say(self, *paragraphs: Sequence[Piece], width: int = 0) -> None:
        """Show paragraphs; the first piece of each is its sign.

        width: that is to be expected where it has none yet [cells].
        """
        self._paragraphs = paragraphs
        self._set(self.content_size.width or width)

    def on_resize(self, _event: events.Resize) -> None:
        """Have the lines fit the new width."""
        if self._paragraphs and self.content_size.width != self._set_for:
            # While a layout is under way the screen library keeps the height that it found.
            self.call_after_refresh(self._set_anew)

    def _set_anew(self) -> None:
        if self._paragraphs:
            self._set(self.content_size.width)

    def _set(self, width: int) -> None:
        self._set_for = width
        self.update(Content("\n").join(
            hang(parts, width or _ANY_WIDTH, cells(parts[0][0])) for parts in self._paragraphs))


_ANY_WIDTH = 10_000
"""Cells of a line that is not laid out yet."""
