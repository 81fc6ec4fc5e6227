"""Text that costs nothing while it stays the same; words to press; words that hang."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from textual import events
from textual.app import App
from textual.content import Content
from textual.visual import VisualType
from textual.widget import Widget
from textual.widgets import Static

from coilwright.wizard.widgets.columns import cells, hang

BROKEN = 12
"""Cells of the last rows of a text that breaking between words may leave empty."""


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
        if not (width and height) and not all(
                node.display for node in self.ancestors_with_self if isinstance(node, Widget)):
            return False  # hidden, as what only a narrow screen has: shown, it is laid out then
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


_PARTS = re.compile(r" · |; |[.?] |\n *|, (?=Enter|Esc|Backspace|F\d|[a-z] )")
"""What stands between what one key does and the next."""
_NAMES = {"enter": "enter", "escape": "escape", "esc": "escape", "space": "space", "tab": "tab",
          "backspace": "backspace", "←": "left",
          "→": "right", "↑": "up", "↓": "down", "pgup": "pageup", "pgdn": "pagedown"}
_PAIRED = ("←", "→", "↑", "↓", "PgUp", "PgDn")
_KEY = re.compile(r"f\d{1,2}|(?:ctrl\+|\^)?[a-z]")
FUNCTION_KEY = re.compile(r"f\d{1,2}")
"""A key that is none of a text's words."""


def key_at(line: str, at: int) -> str:
    """The key of what stands at a place of a line such as `Enter opens · s saves; Escape closes`.

    at: cells from where the line begins. Of two arrows, or PgUp and PgDn, it is the one that goes
    on. Empty where no key is named: the names are those of the screen library.

    >>> line = "Enter opens · ← → person · ^N next; Esc"
    >>> [key_at(line, at) for at in (0, 12, 14, 29, 37, 60)]
    ['enter', '', 'right', 'ctrl+n', 'escape', '']
    >>> line = "s sorts, r turns, F4 sure. Escape closes"
    >>> [key_at(line, at) for at in (0, 9, 18, 27)]
    ['s', 'r', 'f4', 'escape']
    >>> key_at("Enter decides · PgUp PgDn read · Esc", 20)
    'pagedown'
    >>> key_at("600 m is too much. 600 mm? Enter takes it.", 30)
    'enter'
    >>> [key_at("F1 words · ^N ^B · Esc", at) for at in (11, 14)]
    ['ctrl+n', 'ctrl+b']
    """
    begins = 0
    for between in (*_PARTS.finditer(line), None):
        ends = len(line) if between is None else between.start()
        if cells(line[:begins]) <= at < cells(line[:ends]):
            words = list(re.finditer(r"\S+", line[begins:ends]))
            named = [_key_named(word[0]) for word in words]
            if all(named) and len(named) > 1:  # keys alone: the one that is hit
                return [name for name, word in zip(named, words, strict=True)
                        if cells(line[:begins + word.start()]) <= at][-1]
            paired = len(words) > 1 and words[0][0] in _PAIRED and words[1][0] in _PAIRED
            return named[paired] if named else ""
        begins = ends if between is None else between.end()
    return ""


def _key_named(word: str) -> str:
    word = word.strip(":").casefold()
    if _KEY.fullmatch(word):
        return word.replace("^", "ctrl+")
    return _NAMES.get(word, "")


def key_under(line: Static, click: events.Click) -> str:
    """The key of what a click hits in a line, which may go on in further rows; empty for none."""
    said, at = str(line.content), click.screen_offset - line.region.offset
    return key_at(said, cells_before(said, at.y, line.size.width) + at.x)


def cells_before(line: str, row: int, width: int) -> int:
    """How much of a line stands in the rows above one of its own, where it is set in a width.

    >>> line = "Enter picks; letters jump; Escape leaves it as it is"
    >>> [cells_before(line, row, 30) for row in (0, 1)], key_at(line, cells_before(line, 1, 30))
    ([0, 27], 'escape')
    """
    begins = 0
    for above in Content(line).wrap(max(1, width))[:row]:
        ends = line.index(above.plain.strip(), begins) + len(above.plain.strip())
        begins = ends + len(line[ends:]) - len(line[ends:].lstrip())
    return cells(line[:begins])


def press_key_at(line: Static, click: events.Click) -> None:
    """As if the key were pressed that a line names where a click hits it."""
    press_key(line.app, key_under(line, click))


def press_key(app: App[Any], key: str) -> None:
    """As if a key were pressed; nothing where it is empty."""
    if key:
        event = events.Key(key, None)
        # As from the terminal: a key that a widget sends does not come up beyond that widget.
        event.set_sender(app)
        app.post_message(event)


class KeysLine(Text):
    """A line that says what keys do; a click is as the key it hits."""

    def on_click(self, event: events.Click) -> None:
        """Press it."""
        press_key_at(self, event)
