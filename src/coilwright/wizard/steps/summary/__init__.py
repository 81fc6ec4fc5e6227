"""The last step: ready or not, and why; what to ask first; what to send."""

from __future__ import annotations

from dataclasses import dataclass

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.message import Message
from textual.widgets import Button, OptionList
from textual.widgets.option_list import Option

from coilwright.plan.ask_first import Effect
from coilwright.plan.result import Plan
from coilwright.values.keys import Key
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Headline, StepView
from coilwright.wizard.steps.summary.controller import BY_CLICK, row_keys
from coilwright.wizard.steps.summary.lines import Lines
from coilwright.wizard.steps.summary.papers import PapersBar, SheetsBlock
from coilwright.wizard.widgets.blocks import Block, button_keys
from coilwright.wizard.widgets.columns import cells
from coilwright.wizard.widgets.rows import Rows
from coilwright.wizard.widgets.standing_word import TurnsStanding
from coilwright.wizard.widgets.text import KeysLine, Text

_BETWEEN, _ON = "↓ marks the next line", " · Tab: to the buttons"
_TO_SETTLE = ("stop:", "go:", "head:", "question:")
"""What the ids of lines begin with at which there is something to settle."""


class SummaryRows(TurnsStanding, Rows):
    """A list of the summary. Home and End go to the ends of the page, not of the list; a click on
    a guess is as F4 on its row."""

    BINDINGS = [
        Binding("home", "screen.page_end(-1)", "First line", show=False, id="summary.first-line"),
        Binding("end", "screen.page_end(1)", "Last button", show=False, id="summary.last-button"),
    ]

    async def on_turns_standing_turned(self, event: TurnsStanding.Turned) -> None:
        """The guess of the marked row is sure."""
        event.stop()
        await self.screen.run_action("confirm")


class SummaryBlock(Block):
    """What to buy, and a list of all else: every line can be opened.

    What to buy stands still while the list scrolls.
    """

    @dataclass
    class Open(Message):
        """Open a line: what it is (go, stop, head, finding, figure, figures, question, questions,
        take), and its key.

        The key is that of an answer, figure or question, or a finding's place in the plan.
        """

        what: str
        key: str

    def __init__(self) -> None:
        super().__init__()
        self._effects: tuple[Effect, ...] = ()
        self._fresh = False
        self._of: Plan | None = None
        """The plan that was ranked."""
        self._session: Session | None = None
        self._width = 0
        self._moved = False
        """Whether somebody marked a row, or a key meant the marked one."""
        self._ranked = False
        """Whether what is to be settled was ranked since somebody came here."""
        self._kept_back = False
        """Whether what is shown is of practice, and keeps back what there is to be found."""

    def compose(self) -> ComposeResult:
        """What to buy, the list, what the keys do on its marked row."""
        yield SummaryRows(id="summary-top")
        yield SummaryRows(id="summary-rows")
        yield KeysLine("", id="summary-keys", markup=False)

    def show(self, session: Session) -> None:
        """Show the plan; what to ask first is ranked apart, see `ranked`."""
        # Shown again for another reason, such as coils in stock that were looked for meanwhile,
        # what was ranked of this plan is ranked still: nobody ranks it again.
        self._fresh = self._fresh and self._of is session.plan
        self._draw(session)

    def ranked(self, session: Session, effects: tuple[Effect, ...], fresh: bool) -> None:
        """Show the ranking; fresh: it is that of the job as it is now."""
        self._effects, self._fresh, self._of = effects, fresh, session.plan
        self._draw(session)

    def on_resize(self) -> None:
        """Have the lines fit the new width."""
        if self._session is not None and self._room != self._width:
            self._draw(self._session)

    def _draw(self, session: Session) -> None:
        if self._kept_back and not session.plan.concealed:
            self._moved = self._ranked = False  # what was kept back is what is to be seen first
        self._session, self._width = session, self._room
        self._kept_back = session.plan.concealed
        if not self._width and getattr(self.screen, "railed", False):
            return  # how wide a line is, is known once it is laid out, and then it is drawn
        top = self._top_rows
        lines = Lines(session, self._effects, self._fresh, self._width, self.app.size)
        with self.prevent(OptionList.OptionHighlighted):
            marked = top.highlighted
            top.set_options(lines.top())
            # From the list below one comes to its last line.
            top.highlighted = top.option_count - 1 if marked is None else min(
                marked, top.option_count - 1)
            if not top.has_focus:
                self.call_after_refresh(top.scroll_home, animate=False)
            self._show_rows(lines.rows())
        self._say_keys()

    def _show_rows(self, options: list[Option]) -> None:
        """Show the list; its mark stays on its row, and the row in its line of the screen.

        Where that row went the one after it is marked. Where the first row to settle is one that
        is still to be ranked, none is marked until it is: it would change under the hand.
        """
        rows = self._rows
        ids = [option.id or "" for option in options]
        if self._moved or self._ranked:
            before = [option.id or "" for option in rows.options]
            after = before[before.index(rows.mark_id):] if rows.mark_id in before else []
            mark = next((one for one in after if one and one in ids), "")
            between = rows.highlighted is None
            rows.set_again(options, mark)
            if between:
                rows.mark_between()
        else:
            first = next((one for one in ids if one.startswith(_TO_SETTLE)), "")
            ranked = self._fresh or not first.startswith("go:")
            rows.set_again(options, first if ranked else "")
            self._ranked = self._fresh
            if not first:
                rows.action_first()

    @on(OptionList.OptionHighlighted)
    def _marked(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._moved = self._moved or event.option_list is self._rows
        self._say_keys()

    def on_key(self) -> None:
        """A key in the list means its marked row, which stays marked from then on."""
        if self._rows.has_focus and self._rows.highlighted is not None:
            self._moved = True

    def on_mount(self) -> None:
        """The keys mean what has the focus, wherever on the page that is."""
        self.watch(self.screen, "focused", self._say_keys, init=False)

    def _say_keys(self) -> None:
        """Say what the keys do on the marked row, or on what has the focus."""
        here = self.screen.focused
        page = self.parent
        beside = here is not None and page in here.ancestors and self not in here.ancestors
        said = ""
        if beside:
            said = button_keys(here) if isinstance(here, Button) else "Enter: save all sheets there"
        elif self._session is not None:
            rows = self._top_rows if here is self._top_rows else self._rows
            option = rows.highlighted_option
            said = _BETWEEN if option is None else row_keys(self._session.plan, option.id or "")
            if cells(said) >= self._room:
                said = said.replace(BY_CLICK, "")
            if here is self._rows and cells(f"{said}{_ON}") < self._room:
                said += _ON
        self.query_one("#summary-keys", Text).update(escape_controls(f" {said}"))

    def bring_mark(self) -> bool:
        """Have the marked line in sight before a key does anything to it; whether it was not."""
        return self._rows.has_focus and self._rows.bring_mark()

    def mark_between(self) -> None:
        """F4 did what it does to the marked row: held down, it does nothing to the next."""
        self._rows.mark_between()
        self._say_keys()

    def to_end(self, by: int) -> None:
        """To the first line of the page, or to its last button."""
        with self.prevent(OptionList.OptionHighlighted):
            if by < 0:
                self._top_rows.action_first()
                self._top_rows.focus()
                self._rows.action_first()  # else its mark stays where nobody sees it
                self._rows.scroll_home(animate=False)
            else:
                self._rows.scroll_end(animate=False)
                for button in self.screen.query("#save-sheets"):
                    button.focus()

    @property
    def _room(self) -> int:
        """Cells of a line of the list; 0 before it is laid out."""
        return self._rows.scrollable_content_region.width

    @property
    def _rows(self) -> Rows:
        return self.query_one("#summary-rows", Rows)

    @property
    def _top_rows(self) -> Rows:
        return self.query_one("#summary-top", Rows)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        kind, _, key = (event.option_id or "").partition(":")
        if kind:
            self.post_message(self.Open(kind, key.partition("#")[0]))

    def take_focus(self) -> bool:
        """Focus the list."""
        self._ranked = False
        self._rows.focus()
        return True


VIEW = StepView(
    "summary",
    headlines=(
        Headline(Key.COIL_COUNT, "Coils"),
        Headline(Key.COIL_LENGTH_ORDERED, "Order"),
        Headline(Key.COIL_MASS_ORDERED, "Weight"),
        Headline(Key.STRIP_WIDTH, "Strip width"),
        Headline(Key.PANELS_COUNT, "Panels"),
        Headline(Key.ROOF_AREA, "Roof"),
        Headline(Key.PANELS_LONGEST, "Longest panel"),
        Headline("coil.1.outside_diameter", "Coil 1 OD"),
        Headline(Key.PANEL_MOVEMENT, "Movement"),
    ),
    above=(SummaryBlock, PapersBar, SheetsBlock),
)
