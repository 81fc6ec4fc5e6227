"""Texts to read: all there is to say about an answer, a step or a finding; the terms in it open."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, Generic

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import OptionList, Static

from coilwright.job.answers import ANSWERS, Answer, Form, step_of
from coilwright.job.edit import usual_in, usual_range, words_in
from coilwright.job.job import Job
from coilwright.job.steps import STEPS, step_number
from coilwright.units import System, bare_unit, date_example, show
from coilwright.units.rules import RULES
from coilwright.values.finding import Finding, Level
from coilwright.wizard.keys import SUMMARY_KEYS, WIZARD_KEYS
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.notices import Notice
from coilwright.wizard.screens.base import Modal, Result
from coilwright.wizard.screens.glossary import TermScreen, system_below, term_options
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.widgets.blocks import AnswerWanted
from coilwright.wizard.widgets.columns import Column, cells, hang_columns, set_row
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.rows import PagedList
from coilwright.wizard.widgets.text import KeysLine, KeyWords
from coilwright.words import cautions
from coilwright.words.glossary import terms_in
from coilwright.words.in_units import source_in, with_units

LOOKS_KEY = "Ctrl+T looks; "
_EVERYWHERE = frozenset({"app.focus_next", "app.focus_previous", "screen.copy_text"})
"""What is said of all screens together, or needs no saying."""
_ELSEWHERE = (
    "Ctrl+G goes to any answer by its name, F9 to the summary and back. Ctrl+B and Ctrl+N go a "
    "step back and on, F10 to the list of jobs. Ctrl+P lists every command, step and answer."
)
_LEVELS = {
    Level.STOP: "STOP: settle this before ordering", Level.CARE: "CARE: weigh this",
    Level.NOTE: "NOTE",
}


class TermList(PagedList):
    """The terms in a text; up from the first one goes back to the text."""

    def action_cursor_up(self) -> None:
        """Up, or back to the text."""
        if self.highlighted == 0:
            self.screen.set_focus(None)
        else:
            super().action_cursor_up()


class TextModal(Modal[Result], Generic[Result]):
    """A text to read; it scrolls. The terms found in it stand below and open.

    parts: heading and text of each.
    """

    BINDINGS = [
        Binding("f1,enter", "close", "Close", show=False, id="text.close"),
        Binding("ctrl+t", "app.looks", "Looks", show=False, id="text.looks"),
        Binding("down", "scroll(1)", "Down", show=False, id="text.down"),
        Binding("up", "scroll(-1)", "Up", show=False, id="text.up"),
        Binding("pagedown", "scroll(10)", "Page down", show=False, id="text.page-down"),
        Binding("pageup", "scroll(-10)", "Page up", show=False, id="text.page-up"),
    ]
    AUTO_FOCUS = ""
    more_keys = ""
    """What its line of keys says besides."""
    keyed = ""
    """The heading of a part that says what a key does."""

    def __init__(self, heading: str, parts: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self.heading = heading
        self.parts = parts

    def compose(self) -> ComposeResult:
        """Title, parts, terms."""
        terms = terms_in("\n".join((self.heading, *(text for _, text in self.parts))))
        with Vertical(classes="box"):
            yield Static(plain(self.heading), classes="over-title")
            with VerticalScroll(can_focus=False):
                width = self.room - 2
                for heading, text in self.parts:
                    said = hang_columns(escape_controls(text.strip()), width)
                    part = KeysLine if heading == self.keyed else Static
                    yield part(Content.assemble((f"{heading}\n", "bold"), said), classes="part")
                yield from self.ways_on()
            if terms:
                yield Static(Content.styled("Words in it", "bold"), classes="terms-heading")
                yield TermList(*term_options(terms, self.room - 2, system_below(self.app)),
                               compact=True, classes="terms")
            hint = "↑ ↓ read on, then to the words; Enter opens one" if terms else "↑ ↓ read on"
            yield Static(f"{hint}; {self.more_keys}Escape closes", classes="over-hint")

    def ways_on(self) -> Iterable[Widget]:
        """What stands below the parts, to be pressed."""
        return ()

    def action_scroll(self, lines: int) -> None:
        """Scroll the text; from its end on to the terms."""
        text = self.query_one(VerticalScroll)
        if lines > 0 and text.scroll_offset.y >= text.max_scroll_y:
            for rows in self.query(TermList).results(TermList):
                rows.highlighted = 0
                rows.focus()
            return
        text.scroll_relative(y=lines, animate=False)

    @on(OptionList.OptionSelected)
    def _term(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.app.push_screen(TermScreen(event.option_id or ""))


class AnswerHelpScreen(TextModal[None]):
    """Why an answer is asked, what is usual, who knows, the question, the caution."""

    more_keys = LOOKS_KEY

    def __init__(self, answer: Answer, job: Job) -> None:
        super().__init__(answer.label, _answer_parts(answer.in_job(job), job))


def _answer_parts(answer: Answer, job: Job) -> list[tuple[str, str]]:
    """What there is to say about an answer."""
    system = job.units
    guidance = words_in(job, answer.key)

    made = [("In short", guidance.help_in(system)),
            ("Why it is asked", with_units(guidance.why, system))]
    if guidance.caution:
        made.insert(1, ("▲ Caution", with_units(guidance.caution, system)))
    if guidance.usual or guidance.low or guidance.others:
        usual = answer.shown(usual_in(job, answer.key), system) if guidance.usual else ""
        if (ends := usual_range(answer.key, system)) is not None:
            both = " to ".join(ends)
            usual = f"{usual + '; ' if usual else ''}{both}"
        if guidance.others:
            usual = f"{usual + '; ' if usual else ''}also {', '.join(guidance.others)}"
        made.append(("What is usual", f"{usual}\nSource: {source_in(guidance.source, system)}"))
    if answer.choices:
        made.append(("Picks", ", ".join(c.value for c in answer.picks(job))))
    if guidance.who == "you":
        made.append(("Who knows", "You: measure it, or decide it."))
    else:
        ask = with_units(guidance.ask, system)
        made.append(("Who knows", f"The {guidance.who}. Ask: “{ask}”"))
    stands_in = ("F3 lets the usual value stand in, as a guess." if guidance.usual is not None
                 else "Nothing is usual: give the best you have, and F3 marks it as a guess.")
    made.append(("If nobody knows yet", f"{stands_in} F4 says an answer is sure. A guess keeps the "
                 "order a draft where it matters."))
    return made


class StepHelpScreen(TextModal[None]):
    """What a step settles, its cautions, and the keys."""

    more_keys = LOOKS_KEY

    def __init__(self, key: str, system: System) -> None:
        step = next(s for s in STEPS if s.key == key)
        keys = _in_columns([
            (_key(b.key), b.description, b.tooltip)
            for b in (*(SUMMARY_KEYS if key == "summary" else ()), *WIZARD_KEYS)
        ])
        super().__init__(step.title, [
            ("This step", step.about),
            ("To anywhere else", _ELSEWHERE),
            ("▲ Cautions", with_units("\n".join(cautions(step.key, draft=True)), system)),
            ("Marks", "✓ done\n~ rests on a guess\n? something to ask\n"
             "! something stops the order\n- not done, and the order does not wait for it"),
            ("Keys", keys + "\nTab, arrows and Enter move between fields; the mouse does all "
             "of it too. Ctrl+Q leaves; all is saved by itself."),
        ])


Keys = Sequence[tuple[Binding, str]]
"""Keys with what is said about each."""
Parts = Sequence[tuple[str, str]]
"""Headings, and the text of each."""


class BoxHelpScreen(TextModal[None]):
    """What a box of a row's form asks: in short, how it is measured, what may stand in it; keys."""

    def __init__(
        self, answer: Answer, help_line: str, more: str, system: System, keys: Keys
    ) -> None:
        made = [("In short", with_units(help_line, system))]
        if more:
            made.append(("How it is measured", with_units(more, system)))
        if answer.choices:
            made.append(("Picks", ", ".join(c.value for c in answer.choices)))
        elif answer.kind is not None and answer.form is Form.QUANTITY:
            made.append(("What may stand in it", _range(answer, system)))
        if answer.form is Form.DATE:
            made.append(("What may stand in it", f"A day, such as {date_example(system)}."))
        made.append(("Keys here", _key_table(keys)))
        super().__init__(answer.label, made)


def _range(answer: Answer, system: System) -> str:
    """Which sizes a box takes, how one is written, and what a number alone means."""
    assert answer.kind is not None
    like = answer.example(system)
    unit = answer.bare_unit(system) or bare_unit(answer.kind, system)
    said = f"{RULES[answer.kind].wanted.capitalize()}, such as {like}."
    if unit:
        said += f" A number alone, such as 12, is read as 12 {unit}."
    ends = [show(end, answer.kind, system) for end in answer.limits(system)
            if end is not None]
    if answer.low is not None and answer.high is not None:
        said += f" From {ends[0]} to {ends[1]}."
    return said


class KeysHelpScreen(TextModal[None]):
    """What the keys do where somebody is, after what there is to say of the screen."""

    more_keys = LOOKS_KEY

    def __init__(self, keys: Keys, first: Parts = ()) -> None:
        super().__init__("Help", [
            *first,
            ("Keys here", _key_table(keys)),
            ("And", "Tab and Shift+Tab move on and back; the mouse does all of it too. "
             "All that is typed is kept by itself."),
        ])


def _key_table(keys: Keys) -> str:
    """Keys as lines, in columns that hold them."""
    by_action: dict[str, tuple[str, str, str]] = {}
    for binding, tooltip in keys:
        if binding.action in _EVERYWHERE:
            continue
        before = by_action.get(binding.action)
        named = binding.key_display or _key(binding.key)
        key = named if before is None or named in before[0] else f"{before[0]}, {named}"
        by_action[binding.action] = (key, binding.description, tooltip)
    return _in_columns([(key, what, why if why != what else "")
                        for key, what, why in by_action.values()])


def _in_columns(rows: Sequence[tuple[str, str, str]]) -> str:
    """Keys, what they do and why, as lines; two cells between them."""
    wide = (*(Column(max((cells(row[at]) for row in rows), default=0) + 2) for at in (0, 1)),
            Column(0))
    return "\n".join(set_row(row, wide, gap="") for row in rows)


class NoticesScreen(TextModal[None]):
    """What was said in passing, the newest first. job: the title of the one that is open."""

    def __init__(self, notices: Sequence[Notice], job: str = "") -> None:
        said = "\n\n".join(notice.read_in(job) for notice in notices)
        super().__init__("Notices", [("The newest first", said or "Nothing was said yet.")])


def _key(key: str) -> str:
    """A key as sentences name it: `n`, `F1`, `Ctrl+N`, `Esc`, `Page Down`."""
    if len(key) == 1:
        return key
    return "+".join(_SPELLED.get(part) or part.capitalize() for part in key.split("+"))


_SPELLED = {"escape": "Esc", "pagedown": "Page Down", "pageup": "Page Up",
            "plus": "+", "minus": "-", "equals_sign": "=", "slash": "/"}
"""Keys that are called otherwise than the screen library does: with a capital, or by their sign."""


class AnswerWord(KeyWords):
    """The name of an answer; a click goes there."""

    def __init__(self, key: str) -> None:
        super().__init__(f"› {ANSWERS[key].label}")
        self._key = key

    def on_click(self) -> None:
        """Say which answer is wanted."""
        self.post_message(AnswerWanted(self._key))


class FindingScreen(TextModal[str]):
    """One finding, whole: what, why, what to do, and where that comes from.

    Enter goes to the answer that would change it. go: its key, where it is not the first. settle:
    takes it on, by name and with a reason, or takes that back where both are empty.
    """

    BINDINGS = [
        Binding("enter", "go", "Go to the answer", id="finding.go"),
        Binding("a", "accept", "Accept", tooltip="Take it on by name, or take that back",
                id="finding.accept"),
    ]

    keyed = "Who takes it on"

    def __init__(
        self, finding: Finding, system: System,
        settle: Callable[[str, str], None] | None = None, go: str = "",
    ) -> None:
        parts = [("What", finding.what), ("Why", finding.why), ("What to do", finding.do),
                 ("Source", source_in(finding.source, system))]
        self._settle = settle if finding.accept else None
        self._go = go or (finding.answers[0] if finding.answers else finding.step)
        if self._settle is not None:
            # Where it is read without scrolling: it is a way on.
            parts.insert(1, (
                self.keyed,
                "a: somebody takes it on, by name and with a reason."
                if finding.level is Level.STOP else "It is accepted. a: that is taken back.",
            ))
        super().__init__(_LEVELS[finding.level], parts)
        self.finding = finding

    def ways_on(self) -> Iterable[Widget]:
        """The answers that would change it, and the one that Enter goes to."""
        keys = [key for key in self.finding.answers if key in ANSWERS]
        if keys:
            yield Static(Content.styled("Answers that change it", "bold"))
            yield Bar(*(AnswerWord(key) for key in keys))
            name = f"“{ANSWERS[self._go].label}”" if self._go in ANSWERS else "the first"
            yield KeysLine(f"Enter goes to {name}.", markup=False, classes="part")
        elif (on := step_of(self._go)) in (titles := {step.key: step.title for step in STEPS}):
            row = "" if on == self._go else ", to what it is about"
            yield KeysLine(f"Enter goes to step {step_number(on)}, {titles[on]}{row}.",
                           markup=False, classes="part")

    @on(AnswerWanted)
    def _answer_wanted(self, event: AnswerWanted) -> None:
        event.stop()
        self.dismiss(event.key)

    def action_accept(self) -> None:
        """Take it on by name and with a reason; what was accepted is taken back."""
        settle = self._settle
        if settle is None:
            self.say("This cannot be accepted; it has to be put right.")
            return
        if self.finding.level is not Level.STOP:
            settle("", "")
            self.dismiss(None)
            return

        def given(said: tuple[str, ...] | None) -> None:
            if said is not None:
                settle(*said)
                self.dismiss(None)

        self.app.push_screen(LinesScreen(
            "Take it on knowingly", self.finding.what,
            (Line("Name", hint="who takes it on"), Line("Reason", hint="why it is acceptable")),
        ), given)

    def action_go(self) -> None:
        """Go to the answer that would change it, or to its step."""
        self.dismiss(self._go)


def keys_of(screen: Screen[Any]) -> Keys:
    """The keys of a screen that work now."""
    return [(active.binding, active.tooltip) for active in screen.active_bindings.values()
            if active.node is screen and active.enabled]


def open_keys(screen: Screen[Any]) -> None:
    """List what the keys of a screen do, after its own `help_parts` where it has such."""
    screen.app.push_screen(KeysHelpScreen(keys_of(screen), getattr(screen, "help_parts", ())))
