"""What to ask first, beside the form: the few unknowns that move the order most."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from coilwright.wizard.literal import fit, tame

if TYPE_CHECKING:
    from coilwright.plan import Plan
    from coilwright.plan.ask_first import Effect

_SHOWN = 3
_WIDE_CELLS = 72
"""Two rows of the pane, less what breaking between words may leave empty."""


class AskLine(Static, can_focus=True):
    """One unknown; Enter or a click goes to it."""

    BINDINGS = [Binding("enter", "open", "Go to it", show=False, id="ask.open")]

    class Opened(Message):
        """Go to an answer."""

        def __init__(self, key: str) -> None:
            super().__init__()
            self.key = key

    def __init__(self) -> None:
        super().__init__("", classes="ask-line", markup=False)
        self.key = ""

    def action_open(self) -> None:
        """Go to it."""
        if self.key:
            self.post_message(self.Opened(self.key))

    def on_click(self) -> None:
        """Go to it."""
        self.action_open()


class AskFirst(Vertical):
    """Up to three lines wide, one narrow where it fits; hidden while nothing is worth asking."""

    def __init__(self) -> None:
        super().__init__(id="ask-first")
        self._heading = Static("", classes="heading", markup=False)
        self._lines = [AskLine() for _ in range(_SHOWN)]
        self.add_class("-empty")

    def compose(self) -> ComposeResult:
        """Heading, lines."""
        yield self._heading
        yield from self._lines

    def show(self, plan: Plan, effects: tuple[Effect, ...], fresh: bool, wide: bool) -> None:
        """Show the first of the list that are still unknown; one that is old is dimmed."""
        still = {*plan.open_answers, *plan.guesses}
        left = [e for e in effects if e.key in still][: _SHOWN if wide else 1]
        self.set_class(not left, "-empty")
        self._heading.display = wide
        self._heading.update(Content.styled("Ask first", "bold"))
        self.set_class(not fresh, "-old")
        width = self.app.size.width - 2
        for line, effect in zip(self._lines, [*left, *[None] * _SHOWN], strict=False):
            line.display = effect is not None
            if effect is None:
                continue
            line.key = effect.key
            who = "you" if effect.who == "you" else f"the {effect.who}"
            if wide:
                room = _WIDE_CELLS - len(effect.label)
                text = fit(f", {who}: {tame(effect.words)}", room)
                line.update(Content.assemble((effect.label, "bold"), text))
            else:
                text = fit(f"{effect.label}, {tame(effect.words)}", width - 12)
                line.update(Content.assemble(("ask first: ", "bold"), text))
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        """Narrow, the one line is there only where the cautions leave room for it."""
        pane = self.parent
        if not self.is_attached or not isinstance(pane, Widget):
            return
        taken = sum(child.outer_size.height for child in pane.children
                    if child.display and child is not self)
        narrow = not self._heading.display
        self.set_class(narrow and taken + 1 > pane.size.height, "-no-room")
