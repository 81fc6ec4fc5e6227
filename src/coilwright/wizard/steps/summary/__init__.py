"""The last step: ready or not, and why; what to ask first; what to send."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from coilwright.drawing.bars import account_lines
from coilwright.drawing.rounding import ordered_text
from coilwright.job.answers import ANSWERS
from coilwright.plan.ask_first import Effect
from coilwright.plan.ready import ReasonKind, open_words
from coilwright.sheets.names import label, standing, who
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.wizard.lists.coil_blocks import offer_line
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.base import TALL
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Headline, StepView
from coilwright.wizard.steps.summary.buying import roof_words, to_buy
from coilwright.wizard.steps.summary.chart import Chart, Part
from coilwright.wizard.steps.summary.controller import row_keys
from coilwright.wizard.steps.summary.papers import PapersBar, SheetsBlock
from coilwright.wizard.widgets.blocks import Block
from coilwright.wizard.widgets.columns import cells, hang, left, right
from coilwright.wizard.widgets.results import LEVELS
from coilwright.wizard.widgets.rows import Rows
from coilwright.wizard.widgets.text import KeysLine, Text
from coilwright.words import cautions
from coilwright.words.counting import counted
from coilwright.words.in_units import with_units

if TYPE_CHECKING:
    from coilwright.plan import Plan

FIGURES = (
    Key.ROOF_AREA,
    Key.PANELS_COUNT,
    Key.PANELS_LONGEST,
    Key.STRIP_WIDTH,
    Key.STRIP_MASS_PER_LENGTH,
    Key.COIL_COUNT,
    Key.COIL_LENGTH_ORDERED,
    Key.COIL_MASS_ORDERED,
    Key.COIL_LONGEST,
    Key.PANEL_MOVEMENT,
)


_TO_SETTLE = ("stop:", "go:", "head:", "question:")
"""What the ids of lines begin with at which there is something to settle."""


class SummaryRows(Rows):
    """All but what to buy; one key saves the sheets, asks for quotes, opens the order."""

    BINDINGS = [
        Binding("s", "screen.save_sheets", "Sheets", tooltip="Save all sheets",
                id="summary.sheets"),
        Binding("r", "screen.requests", "Request", tooltip="Ask suppliers for a quote",
                id="summary.request"),
        Binding("o", "screen.order_head", "Order", tooltip="Number, date, supplier, terms",
                id="summary.order"),
        Binding("w", "screen.waive", "Waive", show=False, id="summary.waive",
                tooltip="The order may go out without an answer to a question: say why"),
    ]


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
        self._session: Session | None = None
        self._width = 0
        self._moved = False
        """Whether somebody marked a row: until then the first one to settle is marked."""

    def compose(self) -> ComposeResult:
        """What to buy, the list, what the keys do on its marked row."""
        yield Rows(id="summary-top")
        yield SummaryRows(id="summary-rows")
        yield KeysLine("", id="summary-keys", markup=False)

    def show(self, session: Session) -> None:
        """Show the plan; what to ask first is ranked apart, see `ranked`."""
        self._fresh = False
        self._draw(session)

    def ranked(self, session: Session, effects: tuple[Effect, ...], fresh: bool) -> None:
        """Show the ranking; fresh: it is that of the job as it is now."""
        self._effects, self._fresh = effects, fresh
        self._draw(session)

    def on_resize(self) -> None:
        """Have the lines fit the new width."""
        if self._session is not None and self._room != self._width:
            self._draw(self._session)

    def _draw(self, session: Session) -> None:
        self._session, self._width = session, self._room
        if not self._width and getattr(self.screen, "railed", False):
            return  # how wide a line is, is known once it is laid out, and then it is drawn
        rows, top = self._rows, self.query_one("#summary-top", Rows)
        at = rows.highlighted
        marked_row = rows.highlighted_option.id if rows.highlighted_option is not None else None
        with self.prevent(OptionList.OptionHighlighted):
            marked = top.highlighted
            top.set_options(self._top(session))
            # From the list below one comes to its last line.
            top.highlighted = top.option_count - 1 if marked is None else min(
                marked, top.option_count - 1)
            if not top.has_focus:
                self.call_after_refresh(top.scroll_home, animate=False)
            rows.set_options(self._options(session))
            ids = [option.id for option in rows.options]
            if self._moved and marked_row is not None and marked_row in ids:
                # The mark goes with its row when the rows are ranked anew.
                rows.highlighted = ids.index(marked_row)
            elif at is not None and rows.option_count:
                rows.highlighted = min(at, rows.option_count - 1)
            else:
                rows.action_first()
                # Where there is something to settle, Enter goes there.
                rows.highlighted = next(
                    (i for i, option in enumerate(rows.options)
                     if (option.id or "").startswith(_TO_SETTLE)), rows.highlighted)

        self._say_keys()

    @on(OptionList.OptionHighlighted)
    def _marked(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._moved = self._moved or event.option_list is self._rows
        self._say_keys()

    def on_descendant_focus(self) -> None:
        """The keys mean the list that has the focus."""
        self._say_keys()

    def _say_keys(self) -> None:
        """Say what Enter, F4 and w do on the marked row."""
        top = self.query_one("#summary-top", Rows)
        option = (top if top.has_focus else self._rows).highlighted_option
        said = "" if self._session is None or option is None else row_keys(
            self._session.plan, option.id or "")
        self.query_one("#summary-keys", Text).update(escape_controls(f" {said}"))

    @property
    def _room(self) -> int:
        """Cells of a line of the list; 0 before it is laid out."""
        return self._rows.scrollable_content_region.width

    @property
    def _rows(self) -> Rows:
        return self.query_one("#summary-rows", Rows)

    def _top(self, session: Session) -> list[Option]:
        """What to buy, for which roof, and what holds the order."""
        plan = session.plan
        width = max(_NARROWEST, (self._width or self.app.size.width) - 2)

        def under(name: str, words: str, style: str = "") -> Content:
            return hang(((left(name, _NAME), "dim"), (words, style)), width, _NAME + 1)

        made = [_line("figure", key, under(name, words, "bold"))
                for name, key, words in to_buy(plan)]
        if roof := roof_words(plan):
            made.append(_line("figure", f"{Key.ROOF_AREA}#roof", under("Roof", roof)))
        made.append(_line("held", "", under("State" if plan.ready else "Held by",
                                            _state_words(plan))))
        return made

    def _options(self, session: Session) -> list[Option]:
        plan = session.plan
        made: list[Option] = []
        airy = self.app.size.height >= TALL

        def head(text: str) -> None:
            above = "\n" if made and airy else ""
            made.append(Option(Content.styled(f"{above} {text}", "bold"), disabled=True))

        def line(kind: str, key: str, *parts: Part) -> None:
            made.append(_line(kind, key, *parts))

        def sentence(kind: str, key: str, sign: tuple[str, str], *parts: tuple[str, str]) -> None:
            # A long one goes on below its own beginning, not below its sign.
            made.append(_line(kind, key, hang((sign, *parts), width, cells(sign[0]) + 1)))

        width = max(_NARROWEST, (self._width or self.app.size.width) - 2)
        places = {id(f): str(i) for i, f in enumerate(plan.findings)}
        if plan.stops:
            head("Stops (Enter says why, and takes on what may be taken on)")
            for finding in plan.stops:
                sentence("stop", places[id(finding)], ("STOP  ", "bold $error"),
                         (escape_controls(finding.what), "bold"),
                         (f" {escape_controls(_first_sentence(finding.do))}", ""))
        for reason in plan.reasons:
            if reason.kind is ReasonKind.MISSING:
                sentence("go", "roof.planes", _OPEN, (escape_controls(reason.text), ""))
        if session.offer is not None:
            sentence("take", "", ("FITS  ", "bold"),
                     (f"{offer_line(session.offer, plan.job.units)} Enter takes "
                      f"{'it' if len(session.offer.coils) == 1 else 'them'}.", ""))
        chart = Chart(plan, self._effects, self._width or width)
        if plan.open_answers or plan.guesses:
            head(chart.heading.lstrip() if self._fresh else "Settle first (ranking them …)")
            for number, (key, parts) in enumerate(self._asks(session, chart), 1):
                line("go", key, f"{right(str(number), 2)} ", *parts)
        self._questions(session, head, line, sentence, width, chart.ask_at)
        for reason in plan.reasons:
            if reason.kind is ReasonKind.HEAD:
                sentence("head", reason.key, _OPEN, (escape_controls(reason.text), ""))
        if settled := plan.readiness.settled:
            head("Taken on knowingly")
            keys = {f.key: places[id(f)] for f in plan.findings}
            for one in settled:
                kind, key = ("finding", keys[one.key]) if one.key in keys else ("question", one.key)
                sentence(kind, key, ("", ""), (escape_controls(one.text), ""))
        accepted = {s.key for s in plan.readiness.settled}
        others = [f for f in plan.findings
                  if f.level is not Level.STOP and f.key not in accepted]
        if others:
            head("Warnings and notes")
            for finding in others:
                sentence("finding", places[id(finding)],
                         (f"{left(finding.level.value.upper(), 5)} ",
                          f"bold {LEVELS[finding.level]}"),
                         (escape_controls(finding.what), ""))
        head("Figures")
        for key in FIGURES:
            figure = plan.figures.get(key)
            if figure is not None:
                line("figure", key, f"{left(figure.label, 32)} {figure.mark or ' '} ",
                     (ordered_text(plan, figure), "bold"))
            elif (lack := plan.lacks.get(key)) is not None:
                needs = ", ".join(ANSWERS[k].label for k in lack.needs[:3] if k in ANSWERS)
                go = next((k for k in lack.needs if k in ANSWERS), "")
                line("go", f"{go or key}#{key}", f"{left(lack.label, 32)}   ",
                     (f"needs {needs}" if needs else escape_controls(lack.because), "dim"))
        line("figures", "", f"Every figure, to be found by name ({len(plan.figures)})  F6")
        if account := account_lines(plan, min(width, _WIDEST)):
            head("Where the metal goes")
            for text in account:
                line("figure", f"{Key.COIL_MASS_ORDERED}#account{len(made)}", text)
        for caution in cautions("summary"):
            head(hang((("▲ ", ""), (with_units(caution, plan.job.units), "")), width, 3).plain)
        return made

    def _questions(
        self, session: Session, head: Callable[[str], None], line: Callable[..., None],
        sentence: Callable[..., None], width: int, ask_at: int,
    ) -> None:
        """The questions that hold the order, but those that are asked above already."""
        asked = session.plan.questions
        unsettled = [q for q in asked if not q.status.is_done]
        holding = {r.key for r in session.plan.reasons if r.kind is ReasonKind.QUESTION}
        # Whom to ask stands in the column that it has in the chart, where that leaves room.
        longest = max((cells(q.who) for q in unsettled if q.key in holding), default=0)
        ask_at = min(max(ask_at, width // 2), width - longest - 2)
        head(f"{left('Questions', ask_at - 1)}ask")
        if held := open_words(session.plan.readiness):
            sentence("questions", "", ("HOLD  ", "bold"),
                     (f"{held}: an answer settles one, or a waiver with a reason", ""))
        for question in unsettled:
            if question.key in holding:
                ask = with_units(question.words.ask, session.job.units)
                first, *rest = hang((("? ", "bold"), (ask, "")), ask_at - 3, 3).split("\n")
                line("question", question.key, first.pad_right(ask_at - 1 - first.cell_length),
                     question.who, *(Content.assemble("\n", one) for one in rest))
        every = f"All {len(asked)} questions, {len(unsettled)} not settled yet; the question sheet"
        sentence("questions", "#all", ("", ""), (f"{every} is saved from there  F5", ""))

    def _asks(
        self, session: Session, chart: Chart
    ) -> list[tuple[str, list[Part]]]:
        plan = session.plan
        made: list[tuple[str, list[Part]]] = []
        seen: set[str] = set()
        still = dict.fromkeys((*plan.open_answers, *plan.guesses))
        for effect in self._effects:
            if effect.key not in still:
                continue
            seen.add(effect.key)
            made.append((effect.key, chart.row(effect)))
        for key in still:
            if key in seen:
                continue
            made.append((key, [
                (escape_controls(label(session.job, key)), "bold"),
                f"  {standing(session.job, key).value}", f"  · {_ask_words(who(key))}",
            ]))
        return made

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        kind, _, key = (event.option_id or "").partition(":")
        if kind:
            self.post_message(self.Open(kind, key.partition("#")[0]))

    def take_focus(self) -> bool:
        """Focus the list."""
        self._rows.focus()
        return True


def _line(kind: str, key: str, *parts: Part) -> Option:
    """A line that opens something; it begins with a space for the sign of the marked one."""
    return Option(Content.assemble(" ", *parts), id=f"{kind}:{key}")


_NAME = 9
"""Cells of what stands before a line on top."""


_OPEN = ("OPEN  ", "bold")
_NARROWEST, _WIDEST = 24, 76
"""Least and most cells of the account of the metal."""


def _ask_words(who: str) -> str:
    return "you can settle it" if who == "you" else f"ask the {who}"


def _first_sentence(text: str) -> str:
    """What stands in a list; the whole of it opens with Enter."""
    first, stop, _ = text.partition(". ")
    return first + stop.rstrip()


def _state_words(plan: Plan) -> str:
    if plan.ready:
        if plan.readiness.nothing_to_buy:
            return "NOTHING TO BUY: nothing stops the job"
        return "READY: nothing that holds the order is open or guessed, and nothing stops it"
    if plan.concealed:
        return "PRACTICE: what there is to find shows once it is handed in (Ctrl+R: the brief)"
    said = [counted(len(plan.stops), "stop")] if plan.stops else []
    said += plan.readiness.parts  # their sum stands in the title
    return " · ".join(said) or "no coils can be worked out yet"


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
