"""Text that costs nothing while it stays the same."""

from __future__ import annotations

from textual.content import Content
from textual.visual import VisualType
from textual.widgets import Static


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
