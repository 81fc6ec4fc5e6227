"""What follows from the answers: headline figures, findings, a drawing, a caution."""

from __future__ import annotations

from dataclasses import dataclass

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from coilwright.answers import ANSWERS
from coilwright.figures import Finding, Level
from coilwright.plan import Plan
from coilwright.wizard.literal import cells, fit, plain, tame
from coilwright.wizard.step_view import Headline, StepView

_WEIGHT = {Level.STOP: 0, Level.CARE: 1, Level.NOTE: 2}
_SHOWN = 6
"""How many findings the pane holds; the rest stand in the summary."""
_FIGURES = 9


class FigureLine(Static, can_focus=True):
    """One figure; Enter or a click shows its working."""

    BINDINGS = [Binding("enter", "open", "Working", show=False, id="figure.open")]

    @dataclass
    class Opened(Message):
        """Show the working of a figure."""

        key: str

    def __init__(self) -> None:
        super().__init__(classes="figure")
        self.key = ""

    def show(self, headline: Headline, plan: Plan, wide: bool, width: int) -> None:
        """Show the figure, or what it waits for."""
        self.key = headline.key
        figure = plan.figures.get(headline.key)
        if figure is None:
            lack = plan.lacks.get(headline.key)
            needs = [ANSWERS[k].label for k in (lack.needs if lack else ()) if k in ANSWERS]
            value = f"needs {needs[0]}" if needs and wide else "—"
            mark = " "
        else:
            value, mark = figure.text(plan.job.units), figure.mark or " "
        label = headline.label
        room = width - 3
        if wide:
            gap = max(1, room - cells(label) - cells(value))
            if gap == 1 and cells(label) + cells(value) + 1 > room:
                label = fit(label, max(6, room - cells(value) - 1))
            text = f"{label}{' ' * gap}{value}"
        else:
            text = f"{label} {value}"
        self.update(Content.assemble((f"{mark} ", "bold"), Content(fit(text, room + 1))))

    def action_open(self) -> None:
        """Show the working."""
        self.post_message(self.Opened(self.key))

    def on_click(self) -> None:
        """Show the working."""
        self.action_open()


class FindingLine(Static, can_focus=True):
    """One finding; Enter or a click shows all of it."""

    BINDINGS = [Binding("enter", "open", "Open", show=False, id="finding.open")]

    @dataclass
    class Opened(Message):
        """Show a finding whole."""

        finding: Finding

    def __init__(self) -> None:
        super().__init__(classes="finding")
        self.finding: Finding | None = None

    def show(self, finding: Finding, more: int, wide: bool, width: int) -> None:
        """Show the finding: its weight as a word, and what it is."""
        self.finding = finding
        for level in Level:
            self.set_class(finding.level is level, f"-{level.value}")
        word = finding.level.value.upper()
        tail = f"  (+{more} more)" if more and not wide else ""
        what = finding.what
        if not wide:
            what = fit(what.replace("\n", " "), max(10, width - 8 - len(tail)))
        self.update(Content.assemble((f"{word:<5} ", "bold"), Content(tame(what)), (tail, "dim")))

    def action_open(self) -> None:
        """Show it whole."""
        if self.finding is not None:
            self.post_message(self.Opened(self.finding))

    def on_click(self) -> None:
        """Show it whole."""
        self.action_open()


class Picture(Static, can_focus=True):
    """A drawing, as large as its place; Enter or a click draws the next plane."""

    BINDINGS = [
        Binding("enter", "screen.next_plane", "Next plane", show=False, id="picture.next")
    ]

    @dataclass
    class Resized(Message):
        """The place is another size now."""

    def on_resize(self, _event: events.Resize) -> None:
        """Have it drawn again."""
        self.post_message(self.Resized())

    async def on_click(self) -> None:
        """Draw the next plane."""
        await self.screen.run_action("next_plane")


class Results(VerticalScroll, can_focus=False):
    """The pane beside or below the form."""

    def compose(self) -> ComposeResult:
        """Figures, findings, drawing, caution."""
        with Container(id="figures"):
            for _ in range(_FIGURES):
                yield FigureLine()
        with Container(id="findings"):
            for _ in range(_SHOWN):
                yield FindingLine()
            yield Static("", id="more-findings", markup=False)
        yield Static("", id="caution", markup=False)
        yield Picture("", id="picture", markup=False)

    def show(self, view: StepView, plan: Plan, wide: bool, caution: str) -> None:
        """Show what a step has to say about a plan."""
        width = max(20, self.content_size.width)
        heads = view.headlines[:_FIGURES] if wide else view.headlines[:6]
        across = width if wide else width // 3
        for line, headline in zip(
            self.query(FigureLine), (*heads, *[None] * _FIGURES), strict=False
        ):
            line.display = headline is not None
            if headline is not None:
                line.show(headline, plan, wide, across)
        findings = ordered(plan, view.key)
        shown = findings[: _SHOWN if wide else 1]
        for row, finding in zip(
            self.query(FindingLine), (*shown, *[None] * _SHOWN), strict=False
        ):
            row.display = finding is not None
            if finding is not None:
                row.show(finding, len(findings) - len(shown), wide, width)
        rest = len(findings) - len(shown)
        more = self.query_one("#more-findings", Static)
        more.display = wide and rest > 0
        more.update(f"      and {rest} more, on the summary")
        self.query_one("#caution", Static).update(plain(f"▲ {caution}") if caution else "")

    def picture_size(self) -> tuple[int, int]:
        """Room for a drawing: width and height in cells."""
        size = self.query_one("#picture", Picture).size
        return size.width, size.height

    def draw(self, lines: list[str]) -> None:
        """Show a drawing."""
        self.query_one("#picture", Picture).update(Content("\n".join(tame(i) for i in lines)))


def ordered(plan: Plan, step: str) -> list[Finding]:
    """The findings in order of weight; those of the step first among equals."""
    return sorted(plan.findings, key=lambda f: (_WEIGHT[f.level], f.step != step))
