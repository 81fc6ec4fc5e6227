"""Loads on the road and in the air, each against the rating that carries it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.wizard.literal import plain
from coilwright.wizard.load_lines import count_line, leads_to, load_heading, load_text
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.act import Act
from coilwright.wizard.widgets.rows import KeyedRows, Word

if TYPE_CHECKING:
    from coilwright.plan import LoadLine
    from coilwright.wizard.screens.job_screen import JobScreen


class LoadRows(KeyedRows):
    """The loads; Enter opens how one was made."""

    help_line = "Enter its working · l lighter coils · g its answer"
    BINDINGS = [
        Binding("l", "screen.lighter_coils", "Lighter coils", id="loads.lighter", show=False,
                tooltip="Order no coil heavier than what lifts it takes; Ctrl+Z takes it back"),
        Binding("g", "go", "Go to its answer", id="loads.go", show=False,
                tooltip="To the answer this load waits for, or that would change it"),
    ]

    async def action_go(self) -> None:
        """To the answer of the marked load."""
        block = self.parent
        assert isinstance(block, LoadsBlock)
        await block.go()


class LoadsCount(Block):
    """Above the form: how many loads are over, not known, inside; Enter goes to them."""

    DEFAULT_CSS = """
    LoadsCount > Act { width: 1fr; text-align: left; content-align: left middle; }
    """

    def compose(self) -> ComposeResult:
        """One line that takes the focus."""
        yield Act("", id="loads-count", action="screen.loads")

    def show(self, session: Session) -> None:
        """Count them."""
        self.query_one(Act).say(count_line(session.plan))


class LoadsBlock(Block):
    """One row a load: name, load, rating, margin, and whether it is inside, over or not known."""

    DEFAULT_CSS = """
    LoadsBlock { margin-top: 1; }
    LoadRows { height: auto; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.session: Session | None = None
        self.loads: tuple[LoadLine, ...] = ()
        self._shown: tuple[object, int] = (None, 0)

    def compose(self) -> ComposeResult:
        """Heading with words to press, columns, rows."""
        with Horizontal(classes="bar"):
            yield Static(Content.styled(" Loads ", "bold"), classes="heading")
            yield Word("l lighter coils", "#load-rows", "screen.lighter_coils")
            yield Word("g its answer", "#load-rows", "go")
        yield Static("", id="load-heading", markup=False)
        yield LoadRows(id="load-rows", compact=True)
        yield Static("", classes="none-yet", markup=False)

    @property
    def list(self) -> LoadRows:
        """The rows."""
        return self.query_one(LoadRows)

    def show(self, session: Session) -> None:
        """Show the loads of the plan."""
        self.session = session
        plan, system = session.plan, session.job.units
        width = max(40, (self.size.width or self.screen.size.width) - 2)
        if (plan, width) == self._shown:
            return
        self._shown = (plan, width)
        self.loads = plan.loads
        rows = self.list
        rows.display = bool(self.loads)
        heading = self.query_one("#load-heading", Static)
        heading.update(plain(load_heading(width)))
        heading.display = bool(self.loads) and bool(load_heading(width))
        self.query_one(".none-yet", Static).update(
            "   Enter shows how a load was made" if self.loads else f"   {count_line(plan)}")
        marked = rows.highlighted or 0
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(
                Option(Content.styled(load_text(line, system, width), "bold" if line.over else ""))
                for line in self.loads
            )
            if self.loads:
                rows.highlighted = min(marked, len(self.loads) - 1)

    def on_resize(self) -> None:
        """Have the rows fit the new width."""
        if self.session is not None:
            self.show(self.session)

    def take_focus(self) -> bool:
        """Focus the rows, where there are any."""
        if not self.loads:
            return False
        self.list.focus()
        return True

    def _marked(self) -> LoadLine | None:
        at = self.list.highlighted
        return self.loads[at] if at is not None and at < len(self.loads) else None

    async def go(self) -> None:
        """To the answer the marked load waits for, or that would change it."""
        line = self._marked()
        if line is not None and (key := leads_to(line)):
            await self._job_screen().go_to_key(key)

    def _job_screen(self) -> JobScreen:
        from coilwright.wizard.screens.job_screen import JobScreen

        screen = self.screen
        assert isinstance(screen, JobScreen)
        return screen

    @on(OptionList.OptionSelected)
    async def _selected(self, event: OptionList.OptionSelected) -> None:
        """Show how the load was made; one that is not known leads to what it waits for."""
        event.stop()
        line = self._marked()
        if line is None or self.list.only_marked:
            return
        if line.load is not None:
            self._job_screen().open_figure(line.load)
        else:
            await self.go()
