"""A form over the wizard: fields, help on the focused one, and what follows from them."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Input, Static

from coilwright.job.answers import Answer
from coilwright.job.job import Job
from coilwright.wizard.literal import plain, tame
from coilwright.wizard.screens.over import Over
from coilwright.wizard.session import reading_error
from coilwright.wizard.widgets.field import Field
from coilwright.words.in_units import said_in


class EntryFields(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The fields; the arrows go from field to field instead of scrolling."""


class EntryScreen(Over[None]):
    """The form of one thing in a list. What it says about it is for the screens to fill in."""

    CSS_PATH = ["../screens/over.tcss", "../screens/entry.tcss"]  # type: ignore[assignment]  # Textual takes a list
    BINDINGS = [
        Binding("up", "app.focus_previous", "Field above", show=False, id="entry.up"),
        Binding("down", "app.focus_next", "Field below", show=False, id="entry.down"),
    ]
    hint = "All is kept as you type; Escape closes"
    done_words = "Done"
    begun = False
    """Whether it is new: what is typed first then replaces the name it was given."""

    def __init__(self, asked: Sequence[tuple[Answer, str]], label_width: int = 20) -> None:
        super().__init__()
        self.entries = [
            Field(answer, help_line, standing=False, label_width=label_width)
            for answer, help_line in asked
        ]

    # -- for each form to fill in ----------------------------------------------------------

    def job(self) -> Job:
        """The job whose answers, and whose typed texts, the fields show."""
        raise NotImplementedError

    def take(self, field: Field, text: str) -> None:
        """Take what was typed."""
        raise NotImplementedError

    def left(self, field: Field) -> None:
        """A field was left."""

    def title_text(self) -> str:
        """What stands on top."""
        raise NotImplementedError

    def about(self) -> list[str]:
        """What follows from the fields, a line each."""
        return []

    # -- showing ---------------------------------------------------------------------------

    def compose(self) -> ComposeResult:
        """Title, fields, help, what follows, Done."""
        with Vertical(classes="box"):
            yield Static("", id="entry-title", classes="over-title", markup=False)
            with EntryFields(id="entry-fields"):
                yield from self.entries
            yield Static("", id="entry-help", markup=False)
            yield Static("", id="entry-about", markup=False)
            with Horizontal(classes="buttons"):
                yield Button(self.done_words, id="entry-done", variant="primary", compact=True)
            yield Static(self.hint, classes="over-hint")

    def on_mount(self) -> None:
        """Show it; what could not be read the last time is marked at once."""
        for field in self.entries:
            field.complains = bool(self.error_of(field))
        self.show()
        self.entries[0].focus()
        if self.begun and isinstance(box := self.entries[0].box, Input):
            box.select_all()

    def show(self, typing: Field | None = None) -> None:
        """Show what there is; the field that is typed in is left alone."""
        job = self.job()
        for field in self.entries:
            field.display = field.answer.asked(job)
            if field.display:
                field.show(job, typing=field is typing)
        self.query_one("#entry-title", Static).update(plain(self.title_text()))
        self.query_one("#entry-about", Static).update(plain("\n".join(self.about())))
        self.show_help()

    def error_of(self, field: Field) -> str:
        """Why the text in a field cannot be read; empty where it can."""
        job = self.job()
        text = job.typed.get(field.key, "")
        return reading_error(field.answer.read, text, job) if text.strip() else ""

    def show_help(self) -> None:
        """Help on the focused field; what cannot be read comes first."""
        here = self.here()
        area = self.query_one("#entry-help", Static)
        help_line = Content(
            f"   {said_in(here.help_line, self.job().units)}" if here is not None else "")
        for field in sorted(self.entries, key=lambda f: f is not here):
            if field.complains and field.display and (error := self.error_of(field)):
                name = "" if field is here else f"{field.answer.label}: "
                line = Content.assemble(
                    (f" × {name}", "bold"), tame(error.removeprefix(name))
                )
                if name and line.cell_length <= area.size.width:
                    # Another field's error leaves room for the help on this one.
                    line = Content.assemble(help_line, "\n", line)
                area.update(line)
                area.set_class(True, "-error")
                return
        area.set_class(False, "-error")
        area.update(help_line)

    def here(self) -> Field | None:
        """The field the focus is in."""
        box = self.focused
        return box.parent if box is not None and isinstance(box.parent, Field) else None

    # -- changing --------------------------------------------------------------------------

    @on(Field.Typed)
    def _typed(self, event: Field.Typed) -> None:
        event.stop()
        self.take(event.field, event.text)
        self.show(event.field)

    @on(Field.Done)
    def _done(self, event: Field.Done) -> None:
        event.stop()
        if self.error_of(event.field):
            event.field.complains = True
            self.show(event.field)
        else:
            self.focus_next()

    def on_descendant_focus(self, _event: events.DescendantFocus) -> None:
        """Help follows the focus."""
        self.show_help()

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """A field that is left shows how its text was read, or that it was not."""
        field = event.widget.parent
        if isinstance(field, Field) and field.is_attached:
            self.left(field)
            field.complains = bool(self.error_of(field))
            field.show(self.job())

    def on_button_pressed(self, event: Button.Pressed) -> None:
        """Done."""
        event.stop()
        self.action_close()
