"""All there is to say about one answer, or about a step, and the words of the trade in it."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static

from coilwright.job.answers import Answer
from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.wizard.keys import WIZARD_KEYS
from coilwright.wizard.literal import plain, tame
from coilwright.wizard.screens.glossary import TermScreen, term_options
from coilwright.wizard.screens.over import Over
from coilwright.words import cautions, words
from coilwright.words.glossary import terms_in
from coilwright.words.in_units import said_in


class TermList(OptionList):
    """The terms in a text; up from the first one goes back to the text."""

    def action_cursor_up(self) -> None:
        """Up, or back to the text."""
        if self.highlighted == 0:
            self.screen.set_focus(None)
        else:
            super().action_cursor_up()


class TextOver(Over[None]):
    """A text to read; it scrolls. The terms found in it stand below and open."""

    BINDINGS = [
        Binding("f1,enter", "close", "Close", show=False, id="text.close"),
        Binding("down", "scroll(1)", "Down", show=False, id="text.down"),
        Binding("up", "scroll(-1)", "Up", show=False, id="text.up"),
        Binding("pagedown", "scroll(10)", "Page down", show=False, id="text.page-down"),
        Binding("pageup", "scroll(-10)", "Page up", show=False, id="text.page-up"),
    ]
    AUTO_FOCUS = ""

    def title_text(self) -> str:
        """What stands on top."""
        raise NotImplementedError

    def parts(self) -> list[tuple[str, str]]:
        """Heading and text of each part."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        """Title, parts, terms."""
        parts = self.parts()
        terms = terms_in("\n".join((self.title_text(), *(text for _, text in parts))))
        with Vertical(classes="box"):
            yield Static(plain(self.title_text()), classes="over-title")
            with VerticalScroll(can_focus=False):
                for heading, text in parts:
                    yield Static(
                        Content.assemble((f"{heading}\n", "bold"), tame(text.strip())),
                        classes="part",
                    )
            if terms:
                yield Static(Content.styled("Words in it", "bold"), classes="terms-heading")
                yield TermList(*term_options(terms, min(self.app.size.width, 112) - 6),
                               compact=True, classes="terms")
            hint = "Tab or ↓ to the words, Enter opens one; Escape closes"
            yield Static(hint if terms else "Escape closes", classes="over-hint")

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


class WordsScreen(TextOver):
    """Why an answer is asked, what is usual, who knows, the question, the caution."""

    def __init__(self, answer: Answer, job: Job) -> None:
        super().__init__()
        self.answer = answer
        self.job = job

    def title_text(self) -> str:
        """The answer's name."""
        return self.answer.label

    def parts(self) -> list[tuple[str, str]]:
        """The words of the answer."""
        said, answer, system = words(self.answer.key), self.answer, self.job.units

        def shown(text: str | None) -> str:
            return "" if text is None else answer.shown(answer.read(text), system)

        made = [("In short", said_in(said.help, system)),
                ("Why it is asked", said_in(said.why, system))]
        if said.caution:
            made.insert(1, ("▲ Caution", said_in(said.caution, system)))
        if said.usual or said.low or said.others:
            usual = shown(said.usual)
            if said.low and said.high:
                usual = f"{usual + '; ' if usual else ''}{shown(said.low)} to {shown(said.high)}"
            if said.others:
                usual = f"{usual + '; ' if usual else ''}also {', '.join(said.others)}"
            made.append(("What is usual", f"{usual}\nSource: {said.source}"))
        if answer.choices:
            made.append(("Picks", ", ".join(c.value for c in answer.choices)))
        if said.who == "you":
            made.append(("Who knows", "You: measure it, or decide it."))
        else:
            made.append(("Who knows", f"The {said.who}. Ask: “{said_in(said.ask, system)}”"))
        made.append(("If nobody knows yet", "F3 lets the usual value stand in, as a guess. F4 says "
                     "an answer is sure. A guess keeps the order a draft where it matters."))
        return made


class StepWords(TextOver):
    """What a step settles, its cautions, and the keys."""

    def __init__(self, step: str) -> None:
        super().__init__()
        self.step = next(s for s in STEPS if s.key == step)

    def title_text(self) -> str:
        """The step's name."""
        return self.step.title

    def parts(self) -> list[tuple[str, str]]:
        """About, cautions, keys."""
        keys = "\n".join(
            f"{_key(b.key):<8}{b.description:<14}{b.tooltip}" for b in WIZARD_KEYS
        )
        marks = ("✓ done   ~ rests on a guess   ? something to ask   ! something stops the order")
        return [
            ("This step", self.step.about),
            ("▲ Cautions", "\n".join(cautions(self.step.key))),
            ("Marks", marks),
            ("Keys", keys + "\nTab, arrows and Enter move between fields; the mouse does all "
             "of it too. Ctrl+P lists every command, Ctrl+Q leaves; all is saved by itself."),
        ]


def _key(key: str) -> str:
    return key.replace("ctrl+", "Ctrl+").replace("escape", "Esc").replace("f", "F", 1) \
        if key.startswith("f") and key[1:].isdigit() else \
        key.replace("ctrl+", "Ctrl+").replace("escape", "Esc").capitalize()
