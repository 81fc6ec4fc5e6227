"""A drill of a minute: read one thing after the other until the time is over."""

from __future__ import annotations

from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Input, Static

from coilwright.job.drills import Drill
from coilwright.units import UnreadableQuantity, read
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.words.counting import counted

MINUTE = 60
"""How long a drill lasts [s]."""
_RUNS = "Enter answers; over after a minute; Escape ends, and says how many were right"
_OVER = "Over; a again; Escape closes"


class DrillScreen(Modal[None]):
    """Asks, says whether it was right and how it is read, and asks again."""

    BINDINGS = [Binding("a", "again", "Again", tooltip="Another minute of the same",
                        id="drill.again")]

    def __init__(self, make: Callable[[int], Drill], seed: int) -> None:
        super().__init__()
        self._make = make
        self._seed = seed
        self.drill = make(seed)
        self.asked = self.right = 0
        self.over = False
        self.left = MINUTE
        self._clock: Timer | None = None

    def compose(self) -> ComposeResult:
        """What is shown, what is asked, a box."""
        with Vertical(classes="box narrow-box"):
            yield Static("", id="drill-title", classes="over-title")
            yield Static("", id="drill-shown", classes="part")
            yield Static("", id="drill-ask")
            yield Input(compact=True, id="drill-answer", max_length=60)
            yield Static("", id="drill-said", classes="part")
            yield Static(_RUNS, id="drill-keys", classes="over-hint")

    def on_mount(self) -> None:
        """Begin; the minute runs."""
        self._begin()

    def _begin(self) -> None:
        self.left = MINUTE
        self.show()
        self.query_one(Input).focus()
        self._clock = self.set_interval(1.0, self._tick)

    def _tick(self) -> None:
        self.left -= 1
        self._show_title()
        if self.left <= 0:
            self.finish()

    def action_again(self) -> None:
        """Another minute, once one is over."""
        if not self.over:
            return
        self.over, self.asked, self.right = False, 0, 0
        box = self.query_one(Input)
        box.value, box.disabled = "", False
        self.query_one("#drill-said", Static).update("")
        self.query_one("#drill-keys", Static).update(_RUNS)
        self._begin()

    def action_close(self) -> None:
        """End the minute early, and say what it came to; close where nothing was answered, or it is
        over."""
        if self.over or not self.asked:
            self.dismiss(None)
        else:
            self.finish("Ended")

    def show(self) -> None:
        """Show what is to be read now."""
        self._show_title()
        self.query_one("#drill-shown", Static).update(plain("\n".join(self.drill.shown)))
        self.query_one("#drill-ask", Static).update(plain(self.drill.ask, "bold"))

    def _show_title(self) -> None:
        self.query_one("#drill-title", Static).update(
            plain(f"{self.drill.title}, number {self.asked + 1}: "
                  f"{self.right} of {self.asked} right · {self.left} s left"))

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        text = event.value.strip()
        if self.over or not text:
            return
        said = self.query_one("#drill-said", Static)
        try:
            value = read(text, self.drill.kind)
        except UnreadableQuantity as error:
            said.update(plain(str(error)))
            return
        self.asked += 1
        right = self.drill.is_right(value)
        self.right += right
        answer = f"{self.drill.answer}. {self.drill.says}"
        verdict = f"Right: {answer}" if right else f"No. {self.drill.ask} {answer}"
        # The next thing to read stands above: what this was about is shown with what is said of it,
        # set off by a line at its side, so that nobody takes it for what is asked now.
        about = "" if right else "\n│ ".join(("", *self.drill.shown))
        said.update(Content.assemble(escape_controls(verdict), (escape_controls(about), "dim")))
        before = (self.drill.ask, self.drill.answer)
        while (self.drill.ask, self.drill.answer) == before:  # the same once more teaches nothing
            self._seed += 1
            self.drill = self._make(self._seed)
        event.input.value = ""
        self.show()

    def finish(self, how: str = "The minute is over") -> None:
        """It is over. how: by what."""
        self.over = True
        if self._clock is not None:
            self._clock.stop()
        self.query_one(Input).disabled = True
        over = f"{how}: {self.right} of {counted(self.asked, 'answer')} right."
        # What was left open is solved too: it stands above, and nobody would learn it.
        last = f"\nThe last one: {self.drill.answer}. {self.drill.says}"
        self.query_one("#drill-said", Static).update(
            Content.assemble((over, "bold"), escape_controls(last)))
        self.query_one("#drill-keys", Static).update(_OVER)
