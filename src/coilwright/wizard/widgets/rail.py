"""The steps with their marks: a column beside the form, or one line above it."""

from __future__ import annotations

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from coilwright.plan import Plan
from coilwright.steps import STEPS, Step
from coilwright.wizard.marks import step_mark


class Press(Static):
    """A few words that act like a button, on one row."""

    def __init__(self, text: str, action: str, press_id: str | None = None) -> None:
        super().__init__(Content(text), id=press_id, classes="press")
        self.action = action

    async def on_click(self) -> None:
        """Do it."""
        await self.screen.run_action(self.action)


class RailStep(Static):
    """One step of the rail."""

    def __init__(self, number: int, step: Step) -> None:
        super().__init__(id=f"rail-{step.key}")
        self.number = number
        self.step = step

    def show(self, plan: Plan, current: bool, wide: bool) -> None:
        """Show the step's mark."""
        mark = step_mark(plan, self.step.key)
        self.set_class(current, "-current")
        for name in ("stop", "ask", "guess", "done"):
            self.set_class(mark.word == name, f"-{name}")
        if wide:
            pointer = "▸" if current else " "
            text = f"{pointer}{self.number} {self.step.title:<8} {mark.sign} {mark.word}"
        elif current:
            text = f"‹{self.number} {self.step.title} {mark.sign} {mark.word}›"
        else:
            text = f" {self.number}{mark.sign} "
        self.update(Content(text))

    def on_click(self) -> None:
        """Go to the step."""
        self.post_message(Rail.Go(self.step.key))


class Rail(Container):
    """All steps, and Back and Next for the mouse."""

    @dataclass
    class Go(Message):
        """Go to a step."""

        step: str

    def compose(self) -> ComposeResult:
        """Back, the steps, Next."""
        yield Press("‹ Back", "back", "rail-back")
        for number, step in enumerate(STEPS, 1):
            yield RailStep(number, step)
        yield Press("Next ›", "next", "rail-next")

    def show(self, plan: Plan, current: str, wide: bool) -> None:
        """Show all marks."""
        for child in self.query(RailStep):
            child.show(plan, child.step.key == current, wide)
