"""A few lines to type, such as a name and a reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.widgets import Button, Input, Static
from textual.widgets.button import ButtonVariant

from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.beside import PAGE_KEYS, READS_ABOVE, ReadsBelow
from coilwright.wizard.widgets.blocks import DialogButton
from coilwright.wizard.widgets.box import Box
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.text import key_under

LONGEST = 300
"""Characters that fit on one line."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line: its name, what stands in it, what belongs there. empty: it may stay empty."""

    name: str
    text: str = ""
    hint: str = ""
    empty: bool = False


class LinesScreen(ReadsBelow, Modal[tuple[str, ...]]):
    """Returns the texts, one a line, or None where it is left. Enter goes on to the next line, and
    from the last one back with what was typed. at: the line that has the focus first. wrong: what
    cannot be taken of what was typed before, in a sentence; it stands above that line, and Enter
    on any line takes all of them, as they were gone through once, but goes on before the line
    `through`, where that is wrong as well. begun: what was typed to open it;
    it replaces the first text, and typing goes on behind it. beside: what lies below stays to be
    read, above the box. about: words, or what makes them of the texts as they stand."""

    BINDINGS = [
        Binding("up", "app.focus_previous", "Line above", show=False, id="lines.up"),
        Binding("down", "app.focus_next", "Line below", show=False, id="lines.down"),
        *PAGE_KEYS,
    ]

    def __init__(
        self, heading: str, about: str | Callable[[tuple[str, ...]], str],
        lines: tuple[Line, ...], at: int = 0, wrong: str = "",
        *, begun: str = "", beside: bool = False, through: int = 0,
    ) -> None:
        super().__init__(classes="-beside" if beside else None)
        self._begun = begun
        self._wrong = wrong
        self._at = at
        self._through = through
        self._heading = heading
        self._about = about
        self._lines = lines

    def compose(self) -> ComposeResult:
        """What it is about, a box a line."""
        with Vertical(classes="box narrow-box"):
            yield Static(plain(self._heading), classes="over-title")
            texts = tuple(line.text for line in self._lines)
            yield Static(plain(self._said(texts)), classes="part", id="lines-about")
            for number, line in enumerate(self._lines):
                if self._wrong and number == self._at:
                    yield Static(plain(f"× {self._wrong}"), classes="wrong")
                yield Static(plain(f" {line.name}", "bold"), id=f"name-{number}")
                text = (number == 0 and self._begun) or line.text
                yield Box(text, placeholder=line.hint, max_length=LONGEST,
                          compact=True, id=f"line-{number}")
            with Bar(classes="buttons"):
                # For the mouse alone: Tab goes from line to line, and the keys say Enter, Escape.
                yield _word_button("Done", "lines-done", "primary")
                yield _word_button("Change nothing", "lines-leave", "default")
            read = f"; {READS_ABOVE}" if self.has_class("-beside") else ""
            yield Static(f"{self._enter()}; Escape changes nothing{read}", classes="over-hint",
                         markup=False)

    def _enter(self) -> str:
        """What Enter does, in words."""
        if len(self._lines) == 1:
            return "Enter takes it"
        if self._wrong and not self._through:
            return "Enter takes all"
        return "Enter goes on, and on the last line takes all"

    def _said(self, texts: tuple[str, ...]) -> str:
        return self._about if isinstance(self._about, str) else self._about(texts)

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        if not isinstance(self._about, str):
            self.query_one("#lines-about", Static).update(
                plain(self._said(tuple(box.value for box in self.query(Input)))))

    def on_mount(self) -> None:
        """The line that one begins at has the focus."""
        box = self.query_one(f"#line-{self._at}", Input)
        if self._begun:
            box.select_on_focus = False  # the next letter goes on, and replaces nothing
            box.cursor_position = len(box.value)
        box.focus()

    def on_descendant_focus(self) -> None:
        """▸ before the name of the line that has the keys: not all see a color."""
        for number, line in enumerate(self._lines):
            here = self.query_one(f"#line-{number}").has_focus
            self.query_one(f"#name-{number}", Static).update(
                plain(f"{'▸' if here else ' '}{line.name}", "bold"), layout=False)

    def on_click(self, event: events.Click) -> None:
        """A click on what Enter does takes all lines as they stand: it comes from none of them."""
        hint = event.widget
        if isinstance(hint, Static) and hint.has_class("over-hint") and (
                key_under(hint, event) == "enter"):
            event.prevent_default()
            self._take(self.query(Input).last())

    @on(Button.Pressed)
    def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        if event.button.id == "lines-done":
            self._take(self.query(Input).last())
        else:
            self.action_close()

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self._take(event.input)

    def _take(self, from_box: Input) -> None:
        """Go on from a line: to one that is missing, to the next, or back with all of them."""
        boxes = list(self.query(Input))
        for box, line in zip(boxes, self._lines, strict=True):
            if not box.value.strip() and not line.empty:
                if box is from_box or box.has_focus:
                    self.say(f"{line.name} is missing.", severity="warning")
                box.focus()
                return
        here = boxes.index(from_box)
        if here < (self._through if self._wrong else len(boxes) - 1):
            boxes[here + 1].focus()
            return
        self.dismiss(tuple(box.value for box in boxes))


def _word_button(words: str, key: str, variant: ButtonVariant) -> DialogButton:
    button = DialogButton(words, id=key, variant=variant, compact=True)
    button.can_focus = False
    return button
