"""A list to pick one of."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.wizard.literal import plain, tame
from coilwright.wizard.screens.over import Over


class PickScreen(Over[str]):
    """Pick one of a few words; None where nothing is picked."""

    def __init__(self, title: str, choices: tuple[str, ...], value: str) -> None:
        super().__init__()
        self._title = title
        self.choices = choices
        self.value = value

    def compose(self) -> ComposeResult:
        """Title, list."""
        with Vertical(classes="box narrow-box"):
            yield Static(plain(self._title), classes="over-title")
            yield OptionList(*(Option(Content(tame(c))) for c in self.choices), compact=True)
            yield Static("Enter picks, Escape leaves it as it is", classes="over-hint")

    def on_mount(self) -> None:
        """Start at what is picked now."""
        rows = self.query_one(OptionList)
        rows.highlighted = self.choices.index(self.value) if self.value in self.choices else 0
        rows.focus()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(self.choices[event.option_index])
