"""Where one is: the title line, and the steps with their marks beside or above the form."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from coilwright.job.steps import STEPS, step_number
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.progress import Mark, left_on, step_mark
from coilwright.wizard.widgets.columns import Column, cells, fit, right, set_row
from coilwright.wizard.widgets.text import KeyWords, Text

if TYPE_CHECKING:
    from coilwright.plan import Plan

_STYLES = {
    Mark.STOP: "$error", Mark.ASK: "$warning", Mark.GUESS: "$warning", Mark.DONE: "$success",
    Mark.NONE: "$secondary",
}
_TITLE = 9
"""Cells of a title in the column: a longer one would break its row in two."""
_STEP_COLUMNS = (Column(2, right=True), Column(_TITLE))
_MARK = 5
"""Cells of a step's mark in the column, with a space before it."""
_HERE = "bold $foreground on $primary 30%"
"""The step that is shown, beside its sign."""
_ENDS = ((" ‹ ^b Back ", " ^n Next › "), (" ‹ Back ", " Next › "), (" ‹ ", " › "))
"""What stands around the steps, the fullest first. With their keys the foot need not name them."""
_SHORTEST = 3
_SHORTENED = 2
"""How far the steps are shortened for the keys of Back and Next: the title line says all of it."""
_LEAST_NAME, _GOOD_NAME = 8, 24
"""Cells of a job's name that are always there, and those that come before a long state's end."""


def _short(title: str) -> str:
    """A title that leaves room for its mark: its first word where it is long."""
    return title if cells(title) <= _TITLE else title.split()[0]


class Press(KeyWords):
    """A key and what it does on the screen around."""

    def __init__(self, text: str, action: str) -> None:
        super().__init__(text)
        self.action = action

    async def on_click(self) -> None:
        """Do it."""
        await self.screen.run_action(self.action)


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of the line or the column: what is shown, and where a click on it goes."""

    content: Content
    target: str = ""

    @property
    def text(self) -> str:
        return self.content.plain


def _press(words: str, target: str) -> _Piece:
    """Words to press, underlined as far as they go."""
    bare = words.strip()
    before, _, after = words.partition(bare)
    return _Piece(Content.assemble(before, (bare, "$primary underline"), after), target)


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
            fits = [pair for pair in _ENDS if room >= cells("".join(pair))]
            if fits and (fits[0] is _ENDS[0] or short >= _SHORTENED):
                break
        back, onward = (fits or _ENDS[-1:])[0]
        gap = _Piece(Content(" " * max(0, room - cells(back) - cells(onward))))
        return [_press(back, "back"), *steps, gap, _press(onward, "next")]

    def _column(self) -> list[_Piece]:
        signs = (_Piece(Content.styled(f"  {m.sign} {m.word}", "$secondary")) for m in Mark)
        space = _Piece(Content(""))
        back, onward = _ENDS[0]
        return [*self._steps(0), space, _press(f" {back}", "back"), _press(f" {onward}", "next"),
                space, *signs]

    def _steps(self, short: int) -> list[_Piece]:
        """The steps in the column or on the line; short: 0 says most, 3 least."""
        steps = []
        for number, (step, (mark, count)) in enumerate(
            zip(STEPS, self._marks, strict=False), 1
        ):
            here = step.key == self._current
            style = _STYLES[mark]
            many = f" {count}" if count else ""
            said = f"{mark.sign}{many}" if self._wide or short > 2 else (
                f"{mark.sign} {mark.word}{many}")
            says: tuple[str | tuple[str, str], ...]
            if self._wide:
                row = set_row((str(number), _short(step.title)), _STEP_COLUMNS)
                says = (f"{'▸' if here else ' '}{row}", (right(said, _MARK), style), " ")
            elif here:
                title = _short(step.title) if short else step.title
                # Where the others have lost the space before them, the next one keeps its own.
                says = (f"‹{number} {title} ", (said, style), "› " if short > 1 else "›")
            else:
                says = ("" if short > 1 else " ", f"{number}", (mark.sign, style), " ")
            content = Content.assemble(*says)
            steps.append(_Piece(content.stylize_before(_HERE) if here else content, step.key))
        return steps

    def render(self) -> Content:
        """The column or the line."""
        between = "\n" if self._wide else ""
        return Content(between).join(
            p.content for p in self._pieces())

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


_DAY = re.compile(r"(?<=DELIVERED) ([A-Z]\w+ \d+, \d+|\d+ [A-Z]\w+ \d+)")
_NAMED = re.compile(r", coil \d+( and coil \d+)* awaited")


def _shorter(state: str) -> str:
    """A state with a part of it less: a day and which coils before what is to be done, which came
    of them, or changed; then its end. All of it stands on the summary.

    >>> _shorter("1 of 2 coils came, coil 2 awaited: DELIVERED Mar 8, 2027, changed")
    '1 of 2 coils came, coil 2 awaited: DELIVERED, changed'
    >>> _shorter("1 of 2 coils came, coil 2 awaited: DELIVERED, changed")
    '1 of 2 coils came: DELIVERED, changed'
    """
    for part in (_DAY, _NAMED):
        if part.search(state):
            return part.sub("", state, count=1)
    return state.rpartition(", ")[0]


class TitleLine(Text):
    """The job's name, the step, and the state of the order, on one line."""

    def show(self, name: str, step: str, state: str, width: int) -> None:
        """Show them in a width in cells."""
        number = step_number(step)
        middle = f"{number} of {len(STEPS)} · {STEPS[number - 1].title}"
        wanted = min(cells(escape_controls(name)), _GOOD_NAME)
        while (cells(state) + cells(middle) + _LEAST_NAME + 7 > width and ", " in state) or (
            cells(state) + cells(middle) + wanted + 7 > width and state.count(", ") > 2
        ):
            state = _shorter(state)
        # The longest of them decides, so that it stands in the same place on every step.
        counted = len(f"{len(STEPS)} of {len(STEPS)}")
        longest = max(len(step.title) for step in STEPS) + counted + len(" · ")
        if width - cells(state) - longest - 6 < wanted:
            # The steps below or beside say the title of the one that is shown.
            middle, longest = middle.partition(" · ")[0], counted
        room = width - cells(state) - longest - 6
        name = fit(escape_controls(name), max(_LEAST_NAME, room))
        gap = (width - longest) // 2 - cells(name) - 1
        if gap < 2 or (width + longest) // 2 + cells(state) + 3 > width:
            gap = max(2, min(3, width - cells(state) - longest - cells(name) - 4))
        line = f" {name}{' ' * gap}{middle}"
        room = max(2, width - cells(line) - cells(state) - 1)
        self.update(
            Content.assemble((f" {name}", "bold"), line[len(name) + 1:], " " * room,
                             (state, "bold"))
        )
