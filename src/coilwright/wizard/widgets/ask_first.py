"""What to settle first: the unknowns that move the order most, a line each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget

from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.blocks import AnswerWanted
from coilwright.wizard.widgets.columns import cells, fit
from coilwright.wizard.widgets.text import BROKEN, Hanging, Text

if TYPE_CHECKING:
    from coilwright.plan import Plan
    from coilwright.plan.ask_first import Effect

_ASKED = 3
"""How many unknowns are named to ask first."""
_ASK_ROWS = 3
_INDENT = 3
"""Cells before what it moves: as many as before a figure's label."""
_LEAST_PANE = 36
SETTLE = "settle first: "
_HOLDS = "holds the order"
"""What is said of an answer without which nothing can be ordered."""
_BRIEFLY = {"nothing can be ordered without it": _HOLDS,
            "does not change the amount": "same amount"}
"""What stands for words of an effect where there is no room for them."""
SO_FAR = "not settled"
"""What stands for a reason that has no room."""


class AskLine(Hanging, can_focus=True):
    """One unknown; Enter or a click goes to it."""

    BINDINGS = [Binding("enter", "open", "Go to it", show=False, id="ask.open")]

    def __init__(self) -> None:
        super().__init__("", classes="ask-line", markup=False)
        self.key = ""

    def action_open(self) -> None:
        """Go to it."""
        if self.key:
            self.post_message(AnswerWanted(self.key))

    def on_click(self) -> None:
        """Go to it."""
        self.action_open()


class AskFirst(Vertical):
    """Up to three lines wide, one narrow where it fits; hidden while nothing is worth asking."""

    def __init__(self) -> None:
        super().__init__(id="ask-first")
        self._heading = Text("", classes="heading", markup=False)
        self._lines = [AskLine() for _ in range(_ASKED)]
        self.add_class("-empty")

    def compose(self) -> ComposeResult:
        """Heading, lines."""
        yield self._heading
        yield from self._lines

    def show(self, plan: Plan, effects: tuple[Effect, ...], fresh: bool, wide: bool) -> None:
        """Show the first of the list that are still unknown; one that is old is dimmed."""
        still = {*plan.open_answers, *plan.guesses}
        left = [e for e in effects if e.key in still][: _ASKED if wide else 1]
        self.set_class(not left, "-empty")
        self._heading.display = wide
        self._heading.update(Content.styled(" Settle first", "bold"))
        self.set_class(not fresh, "-old")
        width = self.app.size.width - 2
        for line, effect in zip(self._lines, [*left, *[None] * _ASKED], strict=False):
            line.display = effect is not None
            if effect is None:
                continue
            line.key = effect.key
            moves = _HOLDS if effect.blocks and not effect.unread else escape_controls(
                effect.words)
            if wide:
                room = (_ASK_ROWS - 1) * (self.size.width or _LEAST_PANE) - BROKEN
                line.say(((" ", ""), (effect.label, "bold"), (f" · {effect.who}", "$secondary")),
                         ((" " * _INDENT, ""), (shorten(moves, room), "")))
            else:
                room = width - cells(SETTLE) - cells(effect.label) - 2
                line.say(((f" {SETTLE}", "bold"),
                          (f"{effect.label}, {shorten(moves, room, SO_FAR)}", "")))
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        """Narrow, the one line is there only where the cautions leave room for it."""
        pane = self.parent
        if not self.is_attached or not isinstance(pane, Widget):
            return
        taken = sum(child.outer_size.height for child in pane.children
                    if child.display and child is not self)
        narrow, most = not self._heading.display, pane.styles.max_height
        rows = pane.size.height if most is None else int(most.value)
        self.set_class(narrow and taken + 1 > rows, "-no-room")


def shorten(words: str, room: int, otherwise: str = "") -> str:
    """As many whole parts of what an answer moves as there is room for, without their reasons.

    Where not even the first has room, what weighs most in it: not that the amount stays. Where that
    has none, `otherwise`; without it the words are cut.

    >>> words = "does not change the amount, but nothing can be ordered without it. Coils differ"
    >>> [shorten(words, room) for room in (70, 40, 20)]  # doctest: +NORMALIZE_WHITESPACE
    ['does not change the amount, but nothing can be ordered without it',
     'nothing can be ordered without it', 'holds the order']
    """
    parts = escape_controls(words).replace("\n", " ").split("; ")
    sentence = parts[0].partition(". ")[0]
    grave = sentence.partition(": ")[0].rpartition(", but ")[2]
    brief = next((said for begins, said in _BRIEFLY.items() if grave.startswith(begins)), "")
    shorter = ("; ".join(parts[:many]) for many in range(len(parts), 0, -1))
    fitting = (said for said in (*shorter, sentence, sentence.partition(": ")[0], grave, brief,
                                 otherwise) if said and cells(said) <= room)
    return next(fitting, fit(otherwise or grave, room))
