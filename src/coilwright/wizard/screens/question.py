"""One question: how to ask it, why, a good answer, what goes wrong otherwise; and the reply."""

from __future__ import annotations

from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.said_with import said_with
from coilwright.job.choices import YesNo
from coilwright.job.names import answer_error, kept_unread
from coilwright.plan.questions import Question, Status, reply
from coilwright.wizard.asking import untold, waiver
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import MODAL_CSS, Modal
from coilwright.wizard.screens.pick import OpensPicks, PickScreen
from coilwright.wizard.screens.undoes import Undoes
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.box import Box
from coilwright.wizard.widgets.choice import ChoiceBox
from coilwright.wizard.widgets.columns import cells, fit
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.text import Text
from coilwright.words.in_units import with_units

STATUS_WORDS = {
    Status.OPEN: "open", Status.GUESS: "not settled yet",
    Status.AGAINST: "against the order", Status.SETTLED: "settled",
    Status.WAIVED: "waived",
}


class QuestionScreen(Undoes, OpensPicks, Modal[str]):
    """Ask, and write down what they say. It returns the question to go on with, if any.

    What is typed counts at once, as not settled yet; Enter settles it. Where picks stand in a list
    Enter opens that, as everywhere, and F4 settles what was picked. Going on to another question
    settles a pick, but none that was marked open again.
    """

    CSS_PATH = MODAL_CSS
    BINDINGS = [
        Binding("f1", "words", "Words", tooltip="The words of the trade in this question",
                id="question.words"),
        Binding("f3", "open", "Open", tooltip="Not settled yet", id="question.open"),
        Binding("f4", "settle", "Settled", tooltip="This is settled", id="question.settle"),
        Binding("f8", "waive", "Waive", tooltip="The order may go out without an answer: say why",
                id="question.waive"),
        Binding("ctrl+n", "turn(1)", "Next", tooltip="The next question", id="question.next"),
        Binding("ctrl+b", "turn(-1)", "Before", tooltip="The question before",
                id="question.before"),
        Binding("ctrl+z", "undo", "Undo", tooltip="Take the last change back",
                id="question.undo"),
        Binding("ctrl+y", "redo", "Redo", tooltip="Make the undone change again",
                id="question.redo"),
        Binding("down", "scroll(1)", "Down", show=False, id="question.down"),
        Binding("up", "scroll(-1)", "Up", show=False, id="question.up"),
        Binding("pagedown", "scroll(8)", "Page down", show=False, id="question.page-down"),
        Binding("pageup", "scroll(-8)", "Page up", show=False, id="question.page-up"),
    ]

    def __init__(
        self, session: Session, key: str, order: tuple[str, ...], changed: Callable[[], None],
        those: str = "",
    ) -> None:
        super().__init__()
        self.session = session
        self.key = key
        self.order = order
        """The keys of the questions, as the list shows them."""
        self._those = those
        """Which questions these are, where they are not all there are."""
        self._changed = changed
        self._guidance = self._question().words
        self._complains = False
        self._picked = False
        """Whether a pick was taken here since it was last settled or opened."""
        answer = self._guidance.answer
        self._field = Field(ANSWERS[answer], standing=False, label_width=27) if answer else None
        self._input = Box(placeholder="what they said, who, and when", compact=True,
                          max_length=1000, id="reply")

    def _question(self) -> Question:
        session = self.session
        found = {q.key: q for q in session.plan.questions}
        return found[self.key]

    def _asked(self) -> bool:
        """Whether the job still calls for it: a reply can make its own question pointless."""
        session = self.session
        return any(q.key == self.key for q in session.plan.questions)

    def compose(self) -> ComposeResult:
        """Question, its words, reply, error, hints."""
        guidance, system = self._guidance, self.session.job.units
        with Vertical(classes="box"):
            yield Static("", id="question-title", classes="over-title", markup=False)
            with VerticalScroll(can_focus=False, id="question-words"):
                yield Static(plain(f"“{with_units(guidance.ask, system)}”", "bold"), classes="part")
                if guidance.caution:
                    yield _part("▲ Caution", with_units(guidance.caution, system))
                yield _part("Why", with_units(guidance.why, system))
                yield _part("A good answer", f"“{with_units(guidance.good, system)}”")
                yield _part("Otherwise", with_units(guidance.otherwise, system))
                if quoted := self._question().quoted:
                    yield _part("Quoted", escape_controls("; ".join(map(str, quoted))))
            if self._field is not None:
                yield self._field
            else:
                with Horizontal(classes="bar"):
                    yield Static(Content(" Reply "), classes="heading")
                    yield self._input
            yield Static("", id="question-help", markup=False)
            yield Text("", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """Show the reply so far."""
        self._show()
        self.call_after_refresh(self._hint)
        (self._field or self._input).focus()
        # As any text that one comes to: what is typed replaces it, not a word in its middle.
        if self._field is None:
            self.call_after_refresh(self._input.select_all)

    # -- showing ---------------------------------------------------------------------------

    def _show(self, typing: bool = False) -> None:
        question = self._question() if self._asked() else None
        status = question.status if question is not None else Status.OPEN
        at = self.order.index(self.key) + 1 if self.key in self.order else 1
        urgent = "  BEFORE ORDERING" if question is not None and question.urgent else ""
        self.query_one("#question-title", Static).update(Content.assemble(
            f"{at} of {max(len(self.order), 1)}{self._those} · for the {self._guidance.who} · ",
            STATUS_WORDS[status], urgent,
        ))
        job = self.session.job
        if self._field is not None:
            self._field.show(job, typing=typing)
        elif not typing:
            # Quotes that differ stand above: which of them holds is to be written.
            text = question.reply if question is not None else ""
            if self._input.value != text:
                with self.prevent(Input.Changed):
                    self._input.value = text
        self._help(status)

    def on_resize(self) -> None:
        """Picks may stand side by side in another width."""
        self.call_after_refresh(self._hint)

    def _hint(self) -> None:
        """What the keys do."""
        box = None if self._field is None else self._field.box
        listed = isinstance(box, ChoiceBox) and box.opens
        line = self.query_one(".over-hint", Text)
        said = f"Enter {'opens list' if listed else 'settles'} · F4 settled · F3 open · F8 waive" \
            " · F1 words · ^N ^B · Esc"
        for less in (" · F1 words", " · ^N ^B"):
            said = said if cells(said) <= line.size.width else said.replace(less, "")
        line.update(said)

    def _help(self, status: Status) -> None:
        area = self.query_one("#question-help", Static)
        key = self._guidance.answer
        error = answer_error(self.session.job, key) if self._field is not None else ""
        shown = bool(error) and (self._complains or status is not Status.OPEN)
        area.set_class(shown, "-error")
        if shown:
            area.update(Content.assemble((" × ", "bold"), escape_controls(error)))
        elif self._field is not None:
            answer = ANSWERS[self._guidance.answer]
            read = answer.said(self.session.job)
            unread = ", not understood as it stands" if error else ""
            where = f"goes into “{answer.label}”{unread}"
            units = self.session.job.units
            also = said_with(key, self._text(), units) if read else ()
            more = escape_controls("".join(
                f"; “{ANSWERS[other].label}” is {ANSWERS[other].shown(said, units)}"
                for other, said in also))
            if self._asked() and (note := self._question().note):
                more += f"; kept with it: {escape_controls(note)}"
            area.update(plain(f"   {where}{f', read as {read}' if read else ''}{more}"))
        elif status is Status.AGAINST:
            area.set_class(True, "-error")
            area.update(plain(f" ≠ Settle one of the two: {self._guidance.order_says}."))
        else:
            area.update(plain("   kept with the job and on the question sheet"))

    # -- changing --------------------------------------------------------------------------

    @property
    def _group(self) -> str:
        """What is typed and settled in one go, for undo."""
        return f"reply {self.key}"

    def _text(self) -> str:
        return self._field.box.value if self._field is not None else self._input.value

    def _reply(
        self, text: str, settled: bool, group: str = "", agrees: YesNo | None = None
    ) -> str:
        """Take the reply in; the error if it could not be read."""
        asked = self.session.job.questions.get(self.key)
        if agrees is None and asked is not None and asked.text == text:
            agrees = asked.agrees  # the words are those of which it was said
        job, error = reply(self.session.job, self.key, text, settled, agrees)
        typed = bool(group) and (not settled or group == self.session.open_group)
        # What stood there before is not told as if it were written anew.
        what = " ".join(text.split()) if typed else ""
        what = what or ("settled" if settled else "no reply" if typed else "open again")
        label = f"“{fit(self._guidance.ask, 40)}”: {what}"
        if self.session.change(job, label, group):
            self._changed()
        return error

    @on(Field.Typed)
    def _typed(self, event: Field.Typed) -> None:
        event.stop()
        self._picked = isinstance(event.field.box, ChoiceBox) and bool(event.text)
        self._take(event.text)

    @on(Input.Changed, "#reply")
    def _typed_text(self, event: Input.Changed) -> None:
        event.stop()
        self._take(event.value)

    def _take(self, text: str) -> None:
        self._reply(text, False, self._group)
        self._show(typing=True)
        self._hint()

    @on(Field.Done)
    def _field_done(self, event: Field.Done) -> None:
        event.stop()
        self._done()

    @on(Input.Submitted, "#reply")
    def _text_done(self, event: Input.Submitted) -> None:
        event.stop()
        self._done()

    def _done(self) -> None:
        """Settle what is written, and go on; what cannot be read stays, with its sentence."""
        if not self._text().strip():
            if self._asked() and self._question().status is Status.OPEN:
                self.say("Left open: nothing is written.")
            self.action_turn(1)
        elif self._settle():
            self.action_turn(1)

    def _settle(self, agrees: YesNo | None = None) -> bool:
        """Whether that settled it. agrees: whether the reply agrees with the order, once asked."""
        self._picked = False
        text = self._text()
        if not text.strip() and self._asked():
            text = self._question().reply
        if agrees is None and (says := untold(self.session, self.key, text)):
            self._ask_agreement(says)
            return False
        # What was typed for it just now is one reply with it, and one step to undo.
        error = self._reply(text, True, self._group, agrees)
        self.session.seal()
        self._complains = bool(error)
        self._show(typing=bool(error))
        if error:
            return False
        if self._asked() and self._question().status is not Status.SETTLED:
            if not text.strip():
                self.say("There is no reply yet: write down what they said, or F8 waives the "
                         "question.")
            elif self._question().status is Status.AGAINST:
                ends = ". No waiver lifts it." if self._question().stands else (
                    ", or F8 waives the question, with a reason.")
                self.say(f"The reply is kept, and holds the order: {self._guidance.order_says}. "
                         f"Have it confirmed so{ends}")
                self._input.select_all()  # the next reply takes the place of this one
            else:
                needs = " or ".join(f"“{pick}”" for pick in self._guidance.settled_by)
                self.say(f"It stays open until the answer is {needs}.")
            return False
        return True

    def _ask_agreement(self, says: str) -> None:
        """Ask whether a reply agrees with the order, where its words do not tell."""
        answers = {"not known yet": None, "yes, it agrees": YesNo.YES, "no, it does not": YesNo.NO}

        def picked(words: str | None) -> None:
            if (agrees := answers[words or "not known yet"]) is None:
                self.say("Kept, and not settled: whether it agrees is still to be asked.")
            elif self._settle(agrees):
                self.action_turn(1)

        self.app.push_screen(PickScreen(
            f"Does the reply agree? For {says}.", tuple(answers), "not known yet", fresh=True,
        ), picked)

    def action_settle(self) -> None:
        """Mark it settled."""
        self._settle()

    def action_open(self) -> None:
        """Mark it open again; what is written stays."""
        self._picked = False
        self.session.seal()
        if self._text().strip() or self._field is None:
            self._reply(self._text(), False)
        self._show()

    def action_waive(self) -> None:
        """Say why the order may go out without an answer; no reason takes that back."""
        def done() -> None:
            self._changed()
            self._show()

        if (asked := waiver(self.session, self.say, self.key, done)) is not None:
            self.app.push_screen(*asked)

    def stepped(self) -> None:
        """Show the job as it is after undo or redo."""
        self._picked = False
        self._changed()
        self._show()

    # -- going on --------------------------------------------------------------------------

    def action_words(self) -> None:
        """The words of the trade in it."""
        from coilwright.wizard.screens.glossary import TermsScreen

        parts = self._guidance
        text = "\n".join((parts.ask, parts.why, parts.good, parts.otherwise, parts.caution))
        self.app.push_screen(TermsScreen("Words in this question", text))

    def action_scroll(self, lines: int) -> None:
        """Scroll the words."""
        self.query_one("#question-words", VerticalScroll).scroll_relative(y=lines, animate=False)

    def action_turn(self, by: int) -> None:
        """To another question; past the last one back to the list. What was picked is the reply."""
        if self._picked:
            self._settle()
        self._leave()
        at = self.order.index(self.key) + by if self.key in self.order else -1
        self.dismiss(self.order[at] if 0 <= at < len(self.order) else None)

    def action_close(self) -> None:
        """Back; all is kept."""
        if self._picked and self._asked() and self._question().status is Status.GUESS:
            self.say("The pick is kept, not settled yet: F4 settles it.")
        self._leave()
        self.dismiss(None)

    def _leave(self) -> None:
        """The next key begins a change of its own; what was not understood is said."""
        self.session.seal()
        if self._field is not None and (
                unread := kept_unread(self.session.job, (self._field.answer,))):
            self.say(escape_controls(unread))


def _part(heading: str, text: str) -> Static:
    shown = escape_controls(text.strip())
    return Static(Content.assemble((f"{heading}  ", "bold"), shown), classes="part")
