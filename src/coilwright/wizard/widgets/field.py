"""One answer on one row: label, box, unit, and its standing as a word."""

from __future__ import annotations

import re

from textual import events, on
from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input
from textual.widgets.input import Selection

from coilwright.calc.metal import name_metals
from coilwright.job.answers import Answer, Form
from coilwright.job.job import Job
from coilwright.units import Kind, System, bare_unit, date_order
from coilwright.values.standing import Standing
from coilwright.wizard.widgets.box import Box
from coilwright.wizard.widgets.choice import ChoiceBox
from coilwright.wizard.widgets.columns import cells, pad
from coilwright.wizard.widgets.shown_rows import ShownRows
from coilwright.wizard.widgets.standing_beside import STANDING_WIDTH, StandingBeside
from coilwright.words import words
from coilwright.words.in_units import with_units

_DO_NOT_KNOW = "don't know"
"""What an empty box says once somebody said so, where nothing is usual."""
_UNIT_WIDTH = 7
"""`ft/min` and a space; answers without a unit give the room to their box."""
_INDENT = 3
"""Cells before a box on a row of its own."""
_NUMBER = 16
"""Cells of the box of a number: its unit stands close to it. One that needs more has the row."""
_BARE = re.compile(r"[\d\s.,/+\-\u2212½¼¾⅛⅜⅝⅞]*")
"""A number alone, or nothing: the unit beside the box is then the one that is meant."""


class FieldMessage(Message):
    """Something happened in a field."""

    def __init__(self, field: Field) -> None:
        super().__init__()
        self.field = field

    @property
    def control(self) -> Field:
        """The field it comes from."""
        return self.field


class Field(StandingBeside):
    """One answer. It shows what a job says and reports what is typed; it knows no rules.

    Label and standing are drawn by the field itself, beside its one child, the box: a form of
    twenty answers is on the screen sooner that way.
    """

    class Typed(FieldMessage):
        """Something was typed or picked; again: what stands there, over itself."""

        def __init__(self, field: Field, text: str, *, again: bool = False) -> None:
            super().__init__(field)
            self.text, self.again = text, again

    class Toggled(FieldMessage):
        """The standing was clicked."""

    class Done(FieldMessage):
        """Enter was pressed in the box."""

    def __init__(
        self, answer: Answer, help_line: str | None = None, *, standing: bool = True,
        label_width: int = 27, unasked: str | None = None,
    ) -> None:
        super().__init__(id="field-" + answer.key.replace(".", "-"))
        self.answer = answer
        self._help_line = help_line
        self._unasked = unasked
        self._new, self._since = False, ""
        self.with_standing = standing
        self.label_width = label_width
        self.unit_width = _UNIT_WIDTH if _has_unit(answer) else 0
        self.tail_width = 1 + self.unit_width + (STANDING_WIDTH if standing else 0)
        self.box: Box | ChoiceBox
        if answer.form is Form.CHOICE:
            self.box = ChoiceBox(tuple(c.value for c in answer.choices), answer.label,
                                 type(answer.choices[0]) if answer.choices else None)
        else:
            # Without a border by the style sheet: `compact` would style every box twice.
            self.box = Box(placeholder="", max_length=1000, validate_on=())
        self.box.styles.margin = self._beside
        self._most: int | None = None
        self._fit_short(0)
        self.tall = False
        """Whether the box stands on a row of its own, since it is too narrow beside its label."""
        self.complains = False
        """Whether text that cannot be read was left, so that the error is shown."""
        self._holds = self._quiet = self._unknown = False
        self.example = ""
        """What an empty box says: what is wanted, or what stands for it."""
        self._word = self._unit = ""

    @property
    def key(self) -> str:
        """The answer's key."""
        return self.answer.key

    @property
    def help_line(self) -> str:
        """One line of help: what was given, else the guidance's, read when it is needed."""
        if self._help_line is None:
            self._help_line = words(self.key).help
        return self._help_line

    def help_in(self, system: System) -> str:
        """That line in the reader's units."""
        if self._help_line is None or self._help_line == words(self.key).help:
            return words(self.key).help_in(system)
        return with_units(self._help_line, system)

    @property
    def unasked_line(self) -> str:
        """Why it is not asked now, and what would have it asked; empty where it is."""
        if not self.idle:
            return ""
        why = self._why_not
        return f"Not asked now: {why}." if why else "Not asked now."

    @property
    def reason(self) -> str:
        """In a few words, why it is not asked now; empty where it is, or nothing is known of it."""
        return self._why_not.partition(";")[0] if self.idle else ""

    def be_quiet(self, quiet: bool) -> None:
        """Have a row that is not asked say nothing, since the one above says it for both."""
        if quiet != self._quiet:
            self._quiet = quiet
            self._say_idle()
            self.refresh()

    def _fit_short(self, needs: int) -> None:
        """Make the box as wide as a number, or as its row where more cells stand in it."""
        short = self.answer.form in (Form.QUANTITY, Form.COUNT, Form.DATE) and not self.idle
        most = _NUMBER if short and needs <= _NUMBER else None
        if most != self._most:
            self._most = most
            self.box.styles.max_width = most

    @property
    def _why_not(self) -> str:
        if self._unasked is None:
            self._unasked = name_metals(words(self.key).unasked)
        return self._unasked or self._since

    def place(self, rows: ShownRows) -> None:
        """Show whether it has a row, is asked, and is new."""
        has = rows.has(self.key)
        if self.display != has:
            self.display = has
        new, idle, since = rows.is_new(self.key), not rows.is_asked(self.key), rows.why(self.key)
        if (new, idle, since) == (self._new, self.idle, self._since):
            return
        self._new, self._since = new, since
        if idle != self.idle:
            self.idle = self.box.idle = idle
            self._fit_short(cells(self.box.value) + 1)
            self.set_class(idle, "-idle")
            if idle:
                self.complains = False
            if self.unit_width and not self.tall:
                self.box.styles.margin = self._beside
            self._say_idle()
        self.refresh()

    @property
    def _beside(self) -> tuple[int, int, int, int]:
        """Around a box beside its label; one that is not asked has no unit, and room for why."""
        unit = self.unit_width if self.idle else 0
        return (0, self.tail_width - unit, 0, self.label_width)

    def _say_idle(self) -> None:
        """In the empty box of a row that is not asked: why, as far as there is room."""
        said = ""
        if self.idle and not self._quiet:
            short, (_, after, _, before) = self.reason, self.box.styles.margin
            room = max(self.size.width - before - after - 1, 0)
            # Beside a standing that is a stroke the box says only why, as far as there is room.
            whole = f"not asked: {short}" if short and not self.with_standing else short
            said = next((s for s in (whole, short, "not asked")
                         if s and (not room or cells(s) <= room)), "")
        if self._unknown and not self.idle:
            said = _DO_NOT_KNOW
        if isinstance(self.box, Input):
            self.box.placeholder = said or self.example
        else:
            self.box.instead = said
            self.box.refresh()

    def compose(self) -> ComposeResult:
        """The box."""
        yield self.box

    def render(self) -> Content:
        """The row beside the box."""
        here, unclear = self.box.has_focus, self.has_class("-unclear")
        sign = "▸" if here else "×" if unclear else "+" if self._new else " "
        label = pad(f"{sign}{self.answer.label}", self.label_width)
        if here and unclear:  # two signs: where one is, and that it cannot be read
            label = f"{pad(label.rstrip(), self.label_width - 2)}× "
        room = max(0, self.size.width - self.label_width - self.tail_width)
        boxed = room if self._most is None or self.tall else min(room, self._most)
        style = ("$primary bold" if here else "dim" if self.idle
                 else "$accent" if self._new else "")
        return Content.assemble(
            (label, style), " " * boxed,
            (f" {pad(self._unit, self.unit_width)}", "$secondary"), " " * (room - boxed),
            (self._word, self.standing_style(self._word)),
        )

    def refuse(self) -> None:
        """Say that the text cannot be read; all of it is selected, as any other text one comes to:
        what is typed replaces it."""
        self.complains = True
        if isinstance(self.box, Input):
            self.box.select_all()

    def focus(self, scroll_visible: bool = True) -> Field:
        """Put the focus into the box."""
        self.box.focus(scroll_visible)
        return self

    def _make_room(self, *, typing: bool = False) -> None:
        """Give the box a row of its own where it would be too narrow beside its label.

        While it is typed in it may get one, but loses none.
        """
        box, width = self.box, self.size.width
        if not width:
            return
        self._say_idle()
        # A row that is not asked grows by nothing that it says.
        needs = box.needs if isinstance(box, ChoiceBox) else max(
            cells(box.value) + 1, cells(self.example))
        if not (typing and self._most is None):
            self._fit_short(needs)
        tall = needs > width - self.label_width - self.tail_width
        if tall == self.tall or (typing and self.tall):
            return
        self.tall = tall
        self.set_class(tall, "-tall")
        box.styles.margin = (1, 0, 0, _INDENT) if tall else self._beside

    def on_resize(self) -> None:
        """Have the box fit the new width."""
        self._make_room(typing=self.box.has_focus)

    def on_descendant_focus(self) -> None:
        """Mark the row; a text longer than its box shows its beginning, all of it selected."""
        box = self.box
        # A box that is not laid out yet has no width, and nothing in it is too long for that.
        if isinstance(box, Input) and 0 < box.size.width <= cells(box.value):
            box.selection = Selection(len(box.value), 0)
        self.refresh()

    def on_descendant_blur(self) -> None:
        """Take the mark away."""
        self.refresh()

    def on_click(self, event: events.Click) -> None:
        """A click on the standing changes it; one on the label is one on the box."""
        event.stop()
        if self.on_standing(event):
            self.post_message(self.Toggled(self))
        else:
            self.focus()

    @property
    def _focus_sort_key(self) -> tuple[int, int]:
        """Where it stands for Tab: one that has only just come stands behind the one above it.

        Textual goes by places on the screen; it has none before it is painted, and a key typed
        ahead would pass it over.
        """
        above = self._above()
        if self.virtual_region.area or above is None:
            return super()._focus_sort_key
        return above._focus_sort_key

    def _above(self) -> Widget | None:
        shown = self.parent.displayed_children if self.parent is not None else []
        at = shown.index(self) if self in shown else 0
        return shown[at - 1] if at > 0 else None

    def show(self, job: Job, *, typing: bool = False, holds: bool | None = None,
             unknown: bool | None = None) -> None:
        """Show what the job says. While it is typed in, the box is left alone.

        holds: whether the order waits for this answer, optional or not; None: as it was. unknown:
        whether somebody said that it is not known; None: as it was.
        """
        if holds is not None:
            self._holds = holds
        if self.answer.form is Form.DATE and self.example != (said := date_order(job.units)):
            self.example = said
            self._say_idle()
        if unknown is not None and unknown is not self._unknown:
            self._unknown = unknown
            self._say_idle()
        typed = job.typed.get(self.key)
        if isinstance(self.box, ChoiceBox):
            self.box.offer(tuple(pick.value for pick in self.answer.picks(job)))
        if not typing:
            text = self.answer.said(job) if typed is None else typed
            if self.box.value != text:
                with self.prevent(Input.Changed, ChoiceBox.Changed):
                    self.box.value = text
                    if isinstance(self.box, Input):
                        if self.box.has_focus:
                            self.box.select_all()  # what is typed next replaces what came
                        else:
                            self.box.cursor_position = 0
        if typed is None:
            self.complains = False
        unclear = typed is not None and self.complains and not self.idle
        if unclear != self.has_class("-unclear"):
            self.set_class(unclear, "-unclear")
            self.refresh()
        # What is half typed is no text yet that cannot be read: 4 and 45 of 450 may be too few.
        begun = typing and typed is not None and not self.complains
        word = "" if begun or not self.with_standing else self.standing_word(job)
        unit = self._bare_unit(job) if self._wants_unit() else ""
        if (word, unit) != (self._word, self._unit):
            self._word, self._unit = word, unit
            self.refresh()
        self._make_room(typing=typing)

    def standing_word(self, job: Job) -> str:
        """The standing as the row says it; what the order waits for is not called optional."""
        if self.idle:
            return "–"
        word = self.answer.standing_word(job)
        return Standing.ASK.value if word == "optional" and self._holds else word

    def _wants_unit(self) -> bool:
        """Whether the box is empty or holds a number alone, and is asked."""
        if self.idle:
            return False
        text = self.box.value
        if self.answer.kind is Kind.PITCH and "/" in text:
            return False
        return _BARE.fullmatch(text) is not None

    def _bare_unit(self, job: Job) -> str:
        """The unit a bare number means."""
        answer = self.answer
        if answer.kind is None or not _has_unit(answer):
            return ""
        if answer.kind is Kind.PITCH:
            return "in 12" if bare_unit(answer.kind, job.units) != "°" else "°"
        return answer.in_job(job).bare_unit(job.units) or bare_unit(answer.kind, job.units)

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self.post_message(self.Typed(self, event.value))

    @on(Box.TypedAgain)
    def _typed_again(self, event: Box.TypedAgain) -> None:
        event.stop()
        self.post_message(self.Typed(self, self.box.value, again=True))

    @on(ChoiceBox.Changed)
    def _picked(self, event: ChoiceBox.Changed) -> None:
        event.stop()
        self.post_message(self.Typed(self, event.value))

    @on(Input.Submitted)
    @on(ChoiceBox.Done)
    def _done(self, event: Input.Submitted | ChoiceBox.Done) -> None:
        event.stop()
        self.post_message(self.Done(self))


def _has_unit(answer: Answer) -> bool:
    return answer.kind is not None and answer.form is Form.QUANTITY


def field_around(widget: Widget | None) -> Field | None:
    """The field a widget stands in, such as its box."""
    around = () if widget is None else widget.ancestors_with_self
    return next((node for node in around if isinstance(node, Field)), None)
