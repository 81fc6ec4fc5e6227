"""Go to an answer by its name."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.answers import Answer, asked
from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.wizard.literal import fit, pad, tame
from coilwright.wizard.screens.over import Over


class GoToScreen(Over[str]):
    """Type part of a name; Enter goes there."""

    BINDINGS = [
        Binding("down", "cursor(1)", "Down", show=False, id="goto.down"),
        Binding("up", "cursor(-1)", "Up", show=False, id="goto.up"),
    ]

    def __init__(self, job: Job) -> None:
        super().__init__()
        self.job = job
        self.titles = {step.key: step.title for step in STEPS}

    def compose(self) -> ComposeResult:
        """Search, list."""
        with Vertical(classes="box"):
            yield Static("Go to an answer", classes="over-title")
            yield Input(placeholder="part of its name", compact=True, id="goto-search")
            yield OptionList(compact=True)
            yield Static("Enter goes there, Escape closes", classes="over-hint")

    def on_mount(self) -> None:
        """All of them to begin with."""
        self.query_one(OptionList).can_focus = False
        self._show("")
        self.query_one(Input).focus()

    def _found(self, text: str) -> list[Answer]:
        wanted = text.casefold().split()
        return [
            a for a in asked(self.job)
            if all(w in f"{a.label} {a.key} {self.titles[a.step]}".casefold() for w in wanted)
        ]

    def _show(self, text: str) -> None:
        rows = self.query_one(OptionList)
        rows.set_options(
            Option(Content.assemble(
                f"{pad(a.label, 27)} ", (pad(self.titles[a.step], 13), "dim"),
                f" {pad(a.standing_word(self.job), 8)} ",
                (fit(tame(self.job.typed.get(a.key) or a.shown(a.value(self.job), self.job.units)),
                     22), "dim"),
            ), id=a.key)
            for a in self._found(text)
        )
        if rows.option_count:
            rows.highlighted = 0

    def action_cursor(self, by: int) -> None:
        """Move in the list while the search keeps the focus."""
        rows = self.query_one(OptionList)
        if by > 0:
            rows.action_cursor_down()
        else:
            rows.action_cursor_up()

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        self._show(event.value)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.query_one(OptionList).action_select()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(event.option_id)
