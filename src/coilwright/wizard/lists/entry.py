"""The form of one row over the wizard: boxes, help on the focused one, and what follows."""

from __future__ import annotations

from collections.abc import Callable

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Button, Input, Static

from coilwright.wizard.lists.about_line import AboutLine
from coilwright.wizard.lists.form import CLOSE, Entry, Opened
from coilwright.wizard.lists.lines_field import LinesField, row_field
from coilwright.wizard.lists.row_list import with_keys
from coilwright.wizard.lists.say_outcome import say
from coilwright.wizard.lists.weighed_line import weighed_line
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import MODAL_CSS, Modal
from coilwright.wizard.screens.pick import OpensPicks
from coilwright.wizard.settings import line_work
from coilwright.wizard.widgets.blocks import DialogButton, button_keys
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.help_area import BoxHelp
from coilwright.wizard.widgets.meant import error_of, refuse_or_take
from coilwright.wizard.widgets.moving import focus_next_asked, scroll_with_focus
from coilwright.wizard.widgets.shown_rows import ShownRows
from coilwright.words.in_units import with_units

_LINES_FOR_BOTH = 2
_REST = 1.0
"""Seconds without a key after which a change is written."""


class EntryFields(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The fields; the arrows go from field to field instead of scrolling."""


class EntryScreen(OpensPicks, Modal[None]):
    """The form of one row; what it asks, says and does is the entry's.

    changed: called when the keys rest after a change, so that it is written while the form is open.
    opens_at: the measure whose box is in hand first; empty: the first.
    """

    CSS_PATH = [MODAL_CSS, "lists.tcss"]  # type: ignore[assignment]  # a list will do
    BINDINGS = [
        Binding("f1", "words", "Help", tooltip="What this box asks, and the keys that work here",
                id="entry.words"),
        Binding("up", "move(-1)", "Field above", show=False, id="entry.up"),
        Binding("down", "move(1)", "Field below", show=False, id="entry.down"),
        Binding("pageup", "page(-1)", "Page up", show=False, id="entry.page-up"),
        Binding("pagedown", "page(1)", "Page down", show=False, id="entry.page-down"),
        Binding("home,ctrl+home", "page_end(-1)", "First field", show=False, id="entry.first"),
        Binding("end,ctrl+end", "page_end(1)", "Last field", show=False, id="entry.last"),
        Binding("left", "along(-1)", "Button before", show=False, id="entry.left"),
        Binding("right", "along(1)", "Button after", show=False, id="entry.right"),
    ]

    def __init__(
        self, entry: Entry, rows: Opened | None = None, changed: Callable[[], None] | None = None,
        opens_at: str = "",
    ) -> None:
        super().__init__()
        self._opens_at = opens_at
        self.entry = entry
        self.entries = [row_field(asked, entry.view.label_width) for asked in entry.asked]
        self._rows = rows
        self._shown = ShownRows(asked.answer for asked in entry.asked)
        self._changed = changed
        self._timer: Timer | None = None
        if rows is not None:
            self.add_class(f"-{rows.form.key}")

    # -- showing ---------------------------------------------------------------------------

    @property
    def _says_more(self) -> bool:
        """Whether what follows from the boxes is said in words; a picture says most of it."""
        view = self.entry.view
        return view.picture is None or view.about is not None

    def compose(self) -> ComposeResult:
        """Title, fields, drawing, help, what follows, buttons."""
        view = self.entry.view
        fields = EntryFields(*self.entries, id="entry-fields",
                             classes="-half" if view.scrolls else None)
        with Vertical(classes="box"):
            yield Static("", id="entry-title", classes="over-title", markup=False)
            if view.picture is None:
                yield fields
            else:
                yield Horizontal(fields, Static("", id="entry-picture", markup=False),
                                 id="entry-pictured")
            yield BoxHelp("", id="entry-help", markup=False)
            if self._says_more:
                about = Static("", id="entry-about", markup=False)
                yield AboutLine(about, id="entry-room") if view.scrolls else about
            with Bar(classes="buttons"):
                name, words = self.entry.done
                yield DialogButton(
                    words, id="entry-done", name=name, variant="primary", compact=True)
                for name, words in self.entry.buttons() if self.entry.there() else ():
                    yield DialogButton(words, id=f"entry-{name}", name=name, compact=True)
            yield Static(view.hint, classes="over-hint")

    def on_mount(self) -> None:
        """Show it; what could not be read the last time is marked at once."""
        if not self.entry.there():
            self.dismiss(None)  # a key typed ahead took it back before it was shown
            return
        self._shown.open(self.entry.job())
        for field in self.entries:
            field.complains = bool(self.error(field))
        self.show()
        shown = [field for field in self.entries if field.display] or self.entries
        # One that could not be read comes first: whoever opens it again wants to mend it.
        first = next((field for field in shown if field.complains), None) or self._field(
            self._opens_at) or shown[0]
        first.focus()
        if isinstance(box := first.box, Input):
            box.select_all()  # what is typed first replaces what stands there

    def show(self, typing: Field | None = None) -> None:
        """Show what there is; the field that is typed in is left alone."""
        if not self.entry.there():
            self.dismiss(None)
            return
        job = self.entry.job()
        self._shown.renew(job)
        instead = self.entry.view.instead
        stands = {} if instead is None else instead(job)
        for field in self.entries:
            if (name := field.key.rpartition(".")[2]) in stands:
                field.example = stands[name]
            field.place(self._shown)
            if field.display:
                field.show(job, typing=field is typing)
        self.query_one("#entry-title", Static).update(plain(self.entry.title()))
        for name, words in self.entry.buttons():
            self.query_one(f"#entry-{name}", Button).label = Content(words)
        self.show_help()
        self._draw()

    def _draw(self) -> None:
        if self._says_more:
            width = max(40, self.room)
            about = Content("\n").join(map(weighed_line, self.entry.about(width)))
            self.query_one("#entry-about", Static).update(about)
        if self.entry.view.picture is not None:
            picture = self.query_one("#entry-picture", Static)
            lines = self.entry.picture(picture.size.width, picture.size.height,
                                       line_work(self))
            picture.update(Content("\n".join(escape_controls(line) for line in lines)))

    def on_resize(self, _event: events.Resize) -> None:
        """Say and draw it for the new size."""
        self.call_after_refresh(self._draw)

    def error(self, field: Field) -> str:
        """Why the text in a field cannot be read; empty where it can."""
        return error_of(field, self.entry.job())

    def show_help(self) -> None:
        """Help on the focused field; what cannot be read comes first."""
        here = self.here()
        area = self.query_one("#entry-help", Static)
        words = self._help(here, area.size.width) if here is not None else (
            f"   {button_keys(self.focused)}" if isinstance(self.focused, Button) else "")
        help_line = Content(words)
        if asked_now := self._shown.asked_now(area.size.width):
            # Where there is one line alone, what came is said first.
            now = Content.assemble(*asked_now)
            help_line = now if area.size.height < _LINES_FOR_BOTH else Content.assemble(
                help_line, "\n", now)
        for field in sorted(self.entries, key=lambda f: f is not here):
            if field.complains and field.display and (error := self.error(field)):
                name = "" if field is here else f"{field.answer.label}: "
                line = Content.assemble(
                    (f" × {name}", "bold"), escape_controls(error.removeprefix(name))
                )
                if name and line.cell_length <= area.size.width:
                    # Another field's error leaves room for the help on this one.
                    line = Content.assemble(help_line, "\n", line)
                area.update(line)
                area.set_class(True, "-error")
                return
        area.set_class(False, "-error")
        area.update(help_line)

    def _help(self, field: Field, width: int) -> str:
        said = with_units(field.help_line, self.entry.job().units)
        if field.unasked_line:
            return f"   {field.unasked_line}"
        whole = field.whole(max(20, width - 4)) if isinstance(field, LinesField) else ""
        return f"   {said}{whole}"

    def action_words(self) -> None:
        """What there is to say about the box one stands in, and the keys."""
        from coilwright.wizard.screens.help import BoxHelpScreen, keys_of

        here = self.here()
        if here is None:
            self.app.action_keys()  # type: ignore[attr-defined]
            return
        asked = self.entry.asked[self.entries.index(here)]
        self.app.push_screen(BoxHelpScreen(
            asked.answer, here.help_line, asked.more, self.entry.job().units, keys_of(self)))

    def action_move(self, by: int) -> None:
        """To the row above or below that is asked: what is typed on another one is not kept. The
        buttons are one, below the last and above the first."""
        fields = [field for field in self.entries if field.display and not field.idle]
        if isinstance(self.focused, Button) and fields:
            fields[0 if by > 0 else -1].focus()
        elif by < 0 and self.here() in fields[:1]:
            self.query(".buttons Button").first(Button).focus()
        else:
            focus_next_asked(self, by)

    def action_page(self, by: int) -> None:
        """A page of the fields on or back, the focus with it."""
        scroll_with_focus(self.query_one(EntryFields), by)

    def action_page_end(self, by: int) -> None:
        """To the first field that is asked, or to the last."""
        fields = [field for field in self.entries if field.display and not field.idle]
        if fields:
            fields[0 if by < 0 else -1].focus()

    def on_key(self, event: events.Key) -> None:
        """What is typed on a button was meant for a box: it is told."""
        if isinstance(self.focused, Button) and (event.character or "").strip() and (
                event.is_printable):
            self.say(f"“{event.character}” changed nothing: this is a button. "
                     "↑ ↓ go to the boxes.", severity="warning")

    def action_along(self, by: int) -> None:
        """To the button beside the one that has the focus."""
        buttons = list(self.query(".buttons Button").results(Button))
        at = buttons.index(self.focused) + by if self.focused in buttons else -1
        if 0 <= at < len(buttons):
            buttons[at].focus()

    def here(self) -> Field | None:
        """The field the focus is in."""
        box = self.focused
        return box.parent if box is not None and isinstance(box.parent, Field) else None

    # -- changing --------------------------------------------------------------------------

    @on(Field.Typed)
    def _typed(self, event: Field.Typed) -> None:
        event.stop()
        self.moved_on()
        if self.entry.there():
            if self.entry.take(self.entries.index(event.field), event.text):
                self._write_soon()
            self._shown.take(self.entry.job(), event.field.answer)
        self.show(event.field)

    def _write_soon(self) -> None:
        """Have it written once the keys rest; at every key it would hold them up."""
        if self._timer is not None:
            self._timer.stop()
        if self._changed is not None:
            self._timer = self.set_timer(_REST, self._changed)

    @on(Field.Done)
    def _done(self, event: Field.Done) -> None:
        event.stop()
        if self.error(event.field):
            refuse_or_take(event.field, self.entry.job())
            self.show(event.field)
        else:
            focus_next_asked(self)

    def on_descendant_focus(self, _event: events.DescendantFocus) -> None:
        """Help follows the focus; what was said of the box before goes, and what a pick brought is
        new until the cursor leaves the pick."""
        self.moved_on()
        here = self.here()
        self._shown.move("" if here is None else here.answer.key)
        for field in self.entries:
            field.place(self._shown)
        self.show_help()

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """A field that is left shows how its text was read, or that it was not."""
        field = event.widget.parent
        if isinstance(field, Field) and field.is_attached:
            outcome = self.entry.left(self.entries.index(field))
            field.complains = bool(self.error(field))
            field.show(self.entry.job())
            if outcome is not None and outcome.changed:
                say(self, outcome)
                self._write_soon()
                self.show()

    def action_do(self, name: str) -> None:
        """Do what a key or a button says."""
        if not self.entry.there():
            self.dismiss(None)
            return
        outcome = self.entry.do(name)
        say(self, outcome)
        if outcome.changed:
            self._write_soon()
        if outcome.screen:
            assert self._rows is not None
            self.app.push_screen(self._rows.screens[outcome.screen](self._rows, outcome.subject),
                                 lambda _result: self.show())
        elif outcome.gone:
            self.dismiss(None)
        elif outcome.unclear:
            self._show_unclear()
        elif field := self._field(outcome.box):
            field.focus()
        else:
            self.show()

    def _field(self, name: str) -> Field | None:
        """The box of a measure, where it is shown."""
        return next((field for field in self.entries if field.display
                     and field.key.rpartition(".")[2] == name), None)

    def _show_unclear(self) -> None:
        """Show every field that cannot be read, the first of them with the focus."""
        unclear = [field for field in self.entries if self.error(field)]
        for field in unclear:
            field.complains = True
        if unclear:
            unclear[0].focus()
        self.show()

    def action_close(self) -> None:
        """Close, if the entry can be; all is kept."""
        outcome = self.entry.close()
        say(self, outcome)
        if not outcome.gone:
            self.show()
            return
        if self._timer is not None:
            self._timer.stop()
        self.dismiss(None)

    def on_button_pressed(self, event: Button.Pressed) -> None:
        """Done, or what else the button says."""
        event.stop()
        name = event.button.name or CLOSE
        if name == CLOSE:
            self.action_close()
        else:
            self.action_do(name)


def entry_screen(
    entry: Entry, rows: Opened | None = None, changed: Callable[[], None] | None = None,
    opens_at: str = "",
) -> EntryScreen:
    """The form of a row, with the keys that its entry has; opens_at: the box in hand first."""
    of = "entry" if rows is None else rows.form.key
    return with_keys(EntryScreen, f"{of}.entry", entry.view.keys, footer=True)(
        entry, rows, changed, opens_at)
