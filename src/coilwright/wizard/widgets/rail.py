"""Where one is: the title line, and the steps with their marks beside or above the form."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from coilwright.job.steps import STEPS, step_number
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.progress import Mark, left_on, step_mark
from coilwright.wizard.widgets.columns import Column, cells, fit, set_row
from coilwright.wizard.widgets.text import Text

if TYPE_CHECKING:
    from coilwright.plan import Plan

_STYLES = {
    Mark.STOP: "$error", Mark.ASK: "$warning", Mark.GUESS: "$warning", Mark.DONE: "$success",
    Mark.NONE: "$secondary",
}
_TITLE = 9
"""Cells of a title in the column: a longer one would break its row in two."""
_STEP_COLUMNS = (Column(2, right=True), Column(_TITLE), Column(4, right=True))
_BACK, _NEXT = " ‹ Back ", " Next › "
_BACK_SIGN, _NEXT_SIGN = " ‹ ", " › "
_SHORTEST = 3
_LEAST_NAME = 8
"""Cells of a job's name that are always there."""


def _short(title: str) -> str:
    """A title that leaves room for its mark: its first word where it is long."""
    return title if cells(title) <= _TITLE else title.split()[0]


class Press(Static):
    """A few words that act like a button, on one row."""

    def __init__(self, text: str, action: str, press_id: str | None = None) -> None:
        super().__init__(Content(text), id=press_id, classes="press")
        self.action = action

    async def on_click(self) -> None:
        """Do it."""
        await self.screen.run_action(self.action)


@dataclass(frozen=True, slots=True)
class _Piece:
    text: str
    style: str
    target: str


class Rail(Widget):
    """All steps, and Back and Next for the mouse. One widget: it is there at every start."""

    class Go(Message):
        """Go to a step."""

        def __init__(self, step: str) -> None:
            super().__init__()
            self.step = step

    def __init__(self) -> None:
        super().__init__(id="rail")
        self._marks: list[tuple[Mark, int]] = []
        self._current = ""
        self._wide = False

    def show(self, plan: Plan, current: str, wide: bool) -> None:
        """Show all marks."""
        marks = [(step_mark(plan, s.key), left_on(plan, s.key)) for s in STEPS]
        if (marks, current, wide) == (self._marks, self._current, self._wide):
            return
        self._marks, self._current, self._wide = marks, current, wide
        self.refresh()

    def _pieces(self) -> list[_Piece]:
        if self._wide:
            return self._column()
        for short in range(_SHORTEST + 1):
            steps = self._steps(short)
            room = self.size.width - sum(cells(p.text) for p in steps)
            if room >= len(_BACK_SIGN) + len(_NEXT_SIGN):
                break
        named = room >= len(_BACK) + len(_NEXT)
        back = _Piece(_BACK if named else _BACK_SIGN, "$primary underline", "back")
        onward = _Piece(_NEXT if named else _NEXT_SIGN, "$primary underline", "next")
        gap = _Piece(" " * max(0, room - cells(back.text) - cells(onward.text)), "", "")
        return [back, *steps, gap, onward]

    def _column(self) -> list[_Piece]:
        signs = (_Piece(f"   {m.sign} {m.word}", "$secondary", "") for m in Mark)
        space = _Piece("", "", "")
        return [*self._steps(0), space, _Piece(_BACK, "$primary underline", "back"),
                _Piece(_NEXT, "$primary underline", "next"), space, *signs]

    def _steps(self, short: int) -> list[_Piece]:
        """The steps in the column or on the line; short: 0 says most, 3 least."""
        steps = []
        for number, (step, (mark, count)) in enumerate(
            zip(STEPS, self._marks, strict=False), 1
        ):
            here = step.key == self._current
            style = _STYLES[mark] + (" bold reverse" if here else "")
            many = f" {count}" if count else ""
            says = f"{mark.sign} {mark.word}{many}"
            if self._wide:
                row = set_row((str(number), _short(step.title), f"{mark.sign}{many}"),
                              _STEP_COLUMNS)
                text = f"{'▸' if here else ' '}{row}"
            elif here:
                title = _short(step.title) if short else step.title
                text = f"‹{number} {title} {f'{mark.sign}{many}' if short > 2 else says}›"
            else:
                text = f"{number}{mark.sign} " if short > 1 else f" {number}{mark.sign} "
            steps.append(_Piece(text, style, step.key))
        return steps

    def render(self) -> Content:
        """The column or the line."""
        between = "\n" if self._wide else ""
        return Content(between).join(
            Content.styled(p.text, p.style) if p.style else Content(p.text)
            for p in self._pieces()
        )

    def place(self, target: str) -> tuple[int, int]:
        """Where a step, `back` or `next` stands, in cells from the upper left."""
        x = 0
        for row, piece in enumerate(self._pieces()):
            if piece.target == target:
                return (1, row) if self._wide else (x + 1, 0)
            x += cells(piece.text)
        raise KeyError(target)

    async def on_click(self, event: events.Click) -> None:
        """Go where the click hits."""
        target, at = "", 0
        place = event.get_content_offset(self)
        if place is None:
            return
        for row, piece in enumerate(self._pieces()):
            if (row == place.y) if self._wide else (at <= place.x < at + cells(piece.text)):
                target = piece.target
            at += cells(piece.text)
        if target in ("back", "next"):
            await self.screen.run_action(target)
        elif target:
            self.post_message(self.Go(target))


class TitleLine(Text):
    """The job's name, the step, and the state of the order, on one line."""

    def show(self, name: str, step: str, state: str, width: int) -> None:
        """Show them in a width in cells."""
        number = step_number(step)
        middle = f"{number} of {len(STEPS)} · {STEPS[number - 1].title}"
        while cells(state) + cells(middle) + _LEAST_NAME + 4 > width and ", " in state:
            state = state.rpartition(", ")[0]  # all of it stands on the summary
        room = width - cells(state) - cells(middle) - 8
        name = fit(escape_controls(name), max(_LEAST_NAME, room))
        gap = max(2, (width - cells(middle)) // 2 - cells(name) - 1)
        line = f" {name}{' ' * gap}{middle}"
        room = width - cells(line) - cells(state) - 1
        if room < 2:
            line = f" {name}  {middle}"
            room = max(2, width - cells(line) - cells(state) - 1)
        self.update(
            Content.assemble((f" {name}", "bold"), line[len(name) + 1:], " " * room,
                             (state, "bold"))
        )
