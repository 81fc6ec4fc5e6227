"""Every figure of the plan in one list, to be found by name and opened."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.plan.result import Plan
from coilwright.values.figure import Figure
from coilwright.wizard.literal import fit, pad, tame
from coilwright.wizard.screens.over import Over
from coilwright.wizard.screens.working import WorkingScreen


class FiguresScreen(Over[str]):
    """Type part of a name; Enter shows how the figure was made. It may return an answer."""

    BINDINGS = [
        Binding("down", "cursor(1)", "Down", show=False, id="figures.down"),
        Binding("up", "cursor(-1)", "Up", show=False, id="figures.up"),
        Binding("pagedown", "cursor(10)", "Page down", show=False, id="figures.page-down"),
        Binding("pageup", "cursor(-10)", "Page up", show=False, id="figures.page-up"),
        Binding("f2", "open", "Working", show=False, id="figures.open"),
        Binding("f6", "close", "Close", show=False, id="figures.close"),
    ]

    def __init__(self, plan: Plan) -> None:
        super().__init__()
        self.plan = plan

    def compose(self) -> ComposeResult:
        """Search, list."""
        with Vertical(classes="box"):
            yield Static("Every figure, and how it was made", classes="over-title")
            yield Input(placeholder="part of its name", compact=True, id="figures-search")
            yield OptionList(compact=True, id="figures-list")
            yield Static("Enter shows the working; ~ rests on a guess; Escape closes",
                         classes="over-hint")

    def on_mount(self) -> None:
        """Show all of them."""
        self._show("")
        self.query_one(Input).focus()

    def found(self, text: str) -> list[tuple[str, Figure]]:
        """The figures whose name, key or value holds every word typed."""
        wanted = text.casefold().split()
        return [
            (key, figure) for key, figure in self.plan.figures.items()
            if all(w in f"{figure.label} {key} {figure.text(self.plan.job.units)}".casefold()
                   for w in wanted)
        ]

    def _show(self, text: str) -> None:
        system = self.plan.job.units
        name = max(24, min(self.app.size.width, 112) - 36)
        rows = self.query_one(OptionList)
        rows.set_options(
            Option(Content.assemble(
                f"{pad(tame(figure.label), name)} {figure.mark or ' '} ",
                (fit(figure.text(system), 26), "bold"),
            ), id=key)
            for key, figure in self.found(text)
        )
        if rows.option_count:
            rows.highlighted = 0
        else:
            nothing = (
                f"No figure is called “{tame(text)}”." if self.plan.figures
                else "There is no figure yet; more answers are needed."
            )
            rows.add_option(Option(Content(nothing), disabled=True))

    def action_cursor(self, by: int) -> None:
        """Move in the list while the search keeps the focus."""
        rows = self.query_one(OptionList)
        if rows.highlighted is not None:
            rows.highlighted = min(max(rows.highlighted + by, 0), rows.option_count - 1)

    def action_open(self) -> None:
        """Show the working of the marked figure."""
        self.query_one(OptionList).action_select()

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        self._show(event.value)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.action_open()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        figure = self.plan.figures.get(event.option_id or "")
        if figure is not None:
            self.app.push_screen(WorkingScreen(figure, self.plan.job.units), self._go_if)

    def _go_if(self, key: str | None) -> None:
        if key:
            self.dismiss(key)
