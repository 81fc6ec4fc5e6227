"""What follows from the answers: headline figures, findings, a drawing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual import events
from textual.binding import Binding
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.message import Message

from coilwright.job.answers import step_of
from coilwright.units import System
from coilwright.values.finding import Finding, Level, worst_first
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.progress import Wait, waits_for
from coilwright.wizard.session import Session
from coilwright.wizard.settings import line_work
from coilwright.wizard.step_view import Headline, StepView
from coilwright.wizard.widgets.ask_first import AskFirst
from coilwright.wizard.widgets.columns import cells, fit, left
from coilwright.wizard.widgets.text import BROKEN, Hanging, Piece, Text
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.plan import Plan

_SHOWN, _SHOWN_LOW = 6, 3
_SHOWN_WITH_DRAWING, _SHOWN_LOW_WITH_DRAWING = 2, 1
"""How many findings the pane holds, all of each; the rest stand in the summary."""
_LOW = 48
"""Rows of a terminal under which a drawing, or what to settle first, takes room from findings."""
_FIGURES = 10
_NARROW_FIGURES = 6
_LEAST_REASON = 10
_WAITS = tuple(f"{why.value} " for why in Wait)
"""How the words begin of a figure that waits for an answer."""
_NOT_YET = "not yet"
"""What is said where there is no room for what a figure waits for; Enter says it."""
LEVELS = {Level.STOP: "$error", Level.CARE: "$warning", Level.NOTE: "$secondary"}
"""The colors of what a finding weighs."""
_MARKS = 3
"""Cells before a figure's label: focused or not, on a guess or not, a space."""


class FigureLine(Text, can_focus=True):
    """One figure; Enter or a click shows its working. ▸ stands before it while it is focused."""

    BINDINGS = [Binding("enter", "open", "Working", show=False, id="figure.open")]

    class Opened(Message):
        """Show the working of a figure."""

        def __init__(self, key: str) -> None:
            super().__init__()
            self.key = key

    def __init__(self) -> None:
        super().__init__(classes="figure")
        self.key = ""
        self._row = Content("")

    def show(
        self, headline: Headline, plan: Plan, width: int, wide: bool, above: str = ""
    ) -> str:
        """Show the figure, or what it waits for, and return the latter; the figure is never cut.

        wide: nor is its label, which then stands above it where both have no room on one row.
        above: what the figure above waits for; the same is not said in another row of its own.
        """
        self.key = headline.key
        figure = plan.figures.get(headline.key)
        room = width - _MARKS - 1
        value, style, mark = waits_for(plan, headline.key), "dim", " "
        if figure is not None:
            value, style, mark = figure.text(plan.job.units), "", figure.mark or " "
        waits_for_it = "" if figure is not None else value
        if figure is None and value == above and cells(headline.label) + 1 + cells(value) > room:
            value = _NOT_YET
        two = wide and cells(headline.label) + 1 + cells(value) > room
        if figure is None and not two and cells(headline.label) + 1 + cells(value) > room:
            waits = value.startswith(_WAITS) or value.endswith(" yet")
            value = _NOT_YET if waits else fit(
                value, max(_LEAST_REASON, room - cells(headline.label) - 1))
        label = headline.label if two else fit(headline.label, max(0, room - cells(value) - 1))
        taken = 0 if two else cells(label)
        gap = " " * max(1, room - taken - cells(value))
        self._row = Content.assemble(
            (f"{mark} ", "bold"), label, f"\n{' ' * _MARKS}" if two else "", gap,
            (escape_controls(value), style))
        self._draw(self.has_focus)
        return waits_for_it

    def _draw(self, here: bool) -> None:
        self.update(Content.assemble(("▸" if here else " ", "bold"), self._row))

    def on_focus(self) -> None:
        """Show the sign."""
        self._draw(True)

    def on_blur(self) -> None:
        """Take it away."""
        self._draw(False)

    def action_open(self) -> None:
        """Show the working."""
        self.post_message(self.Opened(self.key))

    def on_click(self) -> None:
        """Show the working."""
        self.action_open()


def counted_findings(findings: Sequence[Finding]) -> str:
    """How many there are, as the summary heads them: of what, where none of them stands above."""
    stops = sum(one.level is Level.STOP for one in findings)
    levels = {one.level for one in findings} - {Level.STOP}
    other = ("warning" if levels == {Level.CARE} else "note" if levels == {Level.NOTE} else "")
    rest = len(findings) - stops
    said = [counted(stops, "stop")] if stops else []
    if rest:
        said.append(counted(rest, other) if other else f"{rest} warnings and notes")
    return " and ".join(said)


class FindingLine(Hanging, can_focus=True):
    """One finding; Enter or a click shows all of it."""

    BINDINGS = [Binding("enter", "open", "Open", show=False, id="finding.open")]

    class Opened(Message):
        """Show a finding whole."""

        def __init__(self, finding: Finding) -> None:
            super().__init__()
            self.finding = finding

    def __init__(self) -> None:
        super().__init__(classes="finding")
        self.finding: Finding | None = None
        self._pieces: tuple[Piece, ...] = (("", ""),)
        self._width = 0

    def show(self, finding: Finding, more: int, wide: bool, width: int, rows: int) -> None:
        """Show the finding: its weight as a word, and what it is; narrow on so many rows."""
        self.finding, self._width = finding, width - 1
        word = finding.level.value.upper()
        tail = f"  (+{more}\u00a0more:\u00a0F9)" if more and not wide else ""
        what = finding.what
        if not wide:
            broken = BROKEN if rows > 1 else 0
            what = what.replace("\n", " ")
            room = max(10, rows * (width - 8) - len(tail) - broken)
            if cells(what) > room:  # between words: half a number is another number
                cut = fit(what, room)
                what = f"{whole} …" if (whole := cut.rpartition(" ")[0]) else cut
        self._pieces = ((left(word, 5), f"bold {LEVELS[finding.level]}"),
                        (escape_controls(what), ""), (tail, "dim"))
        self._draw(self.has_focus)

    def _draw(self, here: bool) -> None:
        (word, style), *rest = self._pieces
        self.say((((f"{'▸' if here else ' '}{word}"), style), *rest), width=self._width)

    def on_focus(self) -> None:
        """Show the sign."""
        self._draw(True)

    def on_blur(self) -> None:
        """Take it away."""
        self._draw(False)

    def action_open(self) -> None:
        """Show it whole."""
        if self.finding is not None:
            self.post_message(self.Opened(self.finding))

    def on_click(self) -> None:
        """Show it whole."""
        self.action_open()


class Picture(Text, can_focus=True):
    """A drawing, as large as its place; Enter or a click draws the next plane."""

    BINDINGS = [
        Binding("enter", "screen.next_plane", "Next plane", show=False, id="picture.next")
    ]

    class Resized(Message):
        """The place is another size now."""

    def on_resize(self, _event: events.Resize) -> None:
        """Have it drawn again."""
        self.post_message(self.Resized())

    async def on_click(self) -> None:
        """Draw the next plane."""
        await self.screen.run_action("next_plane")


class Results(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The pane beside or below the form. Lines are mounted when they are first needed."""

    def __init__(self) -> None:
        super().__init__(id="results")
        self._figure_box = Container(id="figures")
        self._finding_box = Container(id="findings")
        self._figures: list[FigureLine] = []
        self._findings: list[FindingLine] = []
        self._shown: tuple[StepView, Plan, bool, str] | None = None
        self._width = 0
        self.ask_first = AskFirst()
        self._more = Text("", id="more-findings", markup=False)
        self._caution = Hanging("", id="caution", markup=False)
        self._picture = Picture("", id="picture", markup=False)

    def show(self, view: StepView, plan: Plan, wide: bool, caution: str) -> None:
        """Show what a step has to say about a plan."""
        if not self._figure_box.is_attached:
            # Only now: the first form is painted before there is anything to say here.
            self.mount(self._figure_box, self._finding_box, self._more, self._caution,
                       self.ask_first, self._picture)
        if not self._figure_box.is_attached:
            return  # the job is being left, and nothing can be mounted any more
        width = self.scrollable_content_region.width or (40 if wide else self.app.size.width)
        self._shown, self._width = (view, plan, wide, caution), width
        fitting = [h for h in view.heads(plan) if plan.job.units is System.US or not h.us_only]
        heads = fitting[: _FIGURES if wide else _NARROW_FIGURES]
        across = width if wide else width // 2
        while len(self._figures) < len(heads):
            self._figures.append(FigureLine())
            self._figure_box.mount(self._figures[-1])
        said = ""
        for at, line in enumerate(self._figures):
            line.display = at < len(heads)
            if at < len(heads):
                said = line.show(heads[at], plan, across, wide, said)
        findings = findings_on(plan, view.key)
        low = self.app.size.height < _LOW
        room = (_SHOWN_LOW if low else _SHOWN) if view.drawing is None else (
            _SHOWN_LOW_WITH_DRAWING if low else _SHOWN_WITH_DRAWING)
        shown = findings[: room if wide else 1]
        while len(self._findings) < len(shown):
            self._findings.append(FindingLine())
            self._finding_box.mount(self._findings[-1])
        rest = len(plan.findings) - len(shown)
        for at, row in enumerate(self._findings):
            row.display = at < len(shown)
            if at < len(shown):
                row.show(shown[at], rest, wide, width, 1 if self.screen.has_class("-low") else 2)
        self._more.display = wide and rest > 0 and view.key != "summary"
        more = f"and {rest} more" if shown else counted_findings(plan.findings)
        self._more.update(f"{more}, on the summary")
        self.caution(caution)

    def on_resize(self) -> None:
        """Have the lines fit the new width, where they do not."""
        if self._shown is not None and self.scrollable_content_region.width != self._width:
            self.show(*self._shown)

    def caution(self, text: str) -> None:
        """Show one caution."""
        if self._shown is not None:
            self._shown = (*self._shown[:3], text)
        self._caution.display = bool(text)
        if text:
            self._caution.say(((" ▲ ", ""), (escape_controls(text), "")), width=self._width - 1)

    def draw_step(self, view: StepView, session: Session, wide: bool) -> None:
        """Show the step's drawing, where it has one and there is room."""
        picture = self._picture
        picture.display = view.drawing is not None and wide
        width, height = picture.size
        if view.drawing is None or not wide or not width or not height:
            return
        lines = view.drawing(session.plan, width, height, session.chosen_plane, line_work(self))
        picture.update(Content("\n".join(map(escape_controls, lines))))


def findings_on(plan: Plan, step: str) -> list[Finding]:
    """What a step says, in order of weight; what is of the step first among equals.

    A stop stands on every step. What is to be weighed or known stands where its answers are, and
    on the summary.
    """
    there = (f for f in plan.findings if step == "summary" or f.level is Level.STOP
             or step in {f.step, *map(step_of, f.answers)})
    return worst_first(sorted(there, key=lambda f: f.step != step))
