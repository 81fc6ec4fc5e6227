"""One measured plane: its shape and measures, drawn as they are typed."""

from __future__ import annotations

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Static

from coilwright.edit_planes import standing_of
from coilwright.figures import Standing
from coilwright.job import Job
from coilwright.wizard import planes
from coilwright.wizard.literal import plain, tame
from coilwright.wizard.screens.over import Over
from coilwright.wizard.session import Session, reading_error
from coilwright.wizard.step_view import plane_drawing
from coilwright.wizard.widgets.field import Field


class PlaneForm(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The fields; the arrows go from field to field instead of scrolling."""


class PlaneScreen(Over[None]):
    """The form of one plane. Every change counts at once; undo takes it back."""

    BINDINGS = [
        Binding("f3", "stand('guess')", "It is a guess", tooltip="These measures are a guess",
                id="plane.guess"),
        Binding("f4", "stand('sure')", "Confirm", tooltip="These measures are sure",
                id="plane.confirm"),
        Binding("up", "app.focus_previous", "Field above", show=False, id="plane.up"),
        Binding("down", "app.focus_next", "Field below", show=False, id="plane.down"),
    ]

    def __init__(self, session: Session, index: int) -> None:
        super().__init__()
        self.session = session
        self.index = index
        self.measures = planes.measures(index)
        self._fields = [
            Field(m.answer, m.help, standing=False, label_width=18) for m in self.measures
        ]

    def compose(self) -> ComposeResult:
        """Fields, help, drawing, Done."""
        with Vertical(classes="box"):
            yield Static("", id="plane-title", classes="over-title", markup=False)
            with Horizontal():
                with PlaneForm(id="plane-form"):
                    yield from self._fields
                yield Static("", id="plane-picture", markup=False)
            yield Static("", id="plane-help", markup=False)
            with Horizontal(classes="buttons"):
                yield Button("Done", id="plane-done", variant="primary", compact=True)
                yield Button("Mark as a guess", id="plane-standing", compact=True)
            yield Static("All is kept as you type; Escape closes", classes="over-hint")

    def on_mount(self) -> None:
        """Show the plane."""
        self._show()
        self._fields[0].focus()

    # -- showing ---------------------------------------------------------------------------

    def _show(self, typing: Field | None = None) -> None:
        job = self.session.job
        for field in self._fields:
            field.display = field.answer.asked(job)
            if field.display:
                field.show(job, typing=field is typing)
        standing = standing_of(job, self.index)
        row = next((r for r in planes.rows(job, self.session.plan) if r.index == self.index), None)
        if row is not None:
            self.session.chosen_plane = row.number
            self.query_one("#plane-title", Static).update(
                plain(f"{row.name}: {row.about}  ({row.standing.value})")
            )
        self.query_one("#plane-standing", Button).label = Content(
            "Mark as sure" if standing is Standing.GUESS else "Mark as a guess"
        )
        self._help()
        self._draw()

    def _draw(self) -> None:
        picture = self.query_one("#plane-picture", Static)
        plan = self.session.plan
        drawn = any(p.number == self.session.chosen_plane for p in plan.planes)
        lines = plane_drawing(plan, picture.size.width, picture.size.height,
                              self.session.chosen_plane) if drawn else []
        picture.update(Content("\n".join(tame(line) for line in lines)))

    def on_resize(self, _event: events.Resize) -> None:
        """Draw for the new size."""
        self.call_after_refresh(self._draw)

    def _help(self) -> None:
        job, focused = self.session.job, self._focused()
        area = self.query_one("#plane-help", Static)
        for field in sorted(self._fields, key=lambda f: f is not focused):
            text = job.typed.get(field.key)
            if field.complains and text is not None:
                error = reading_error(field.answer.read, text, job)
                area.update(Content.assemble((" × ", "bold"), tame(error)))
                area.set_class(True, "-error")
                return
        area.set_class(False, "-error")
        area.update(Content(f"   {focused.help_line}" if focused is not None else ""))

    def _focused(self) -> Field | None:
        box = self.focused
        return box.parent if box is not None and isinstance(box.parent, Field) else None

    # -- changing --------------------------------------------------------------------------

    @on(Field.Typed)
    def _typed(self, event: Field.Typed) -> None:
        event.stop()
        field = event.field
        measure = self.measures[self._fields.index(field)]
        job, _error = planes.give_measure(self.session.job, self.index, measure, event.text)
        text = " ".join(event.text.split()) or "cleared"
        self._change(job, f"{field.answer.label} {text}", f"typing {field.key}")
        self._show(field)

    def _change(self, job: Job, label: str, group: str = "") -> None:
        name = self.session.job.roof.planes[self.index].name or "Plane"
        self.session.change(job, f"{name}: {label}", group)

    @on(Field.Done)
    def _done(self, event: Field.Done) -> None:
        event.stop()
        if event.field.key in self.session.job.typed:
            event.field.complains = True
            self._show(event.field)
        else:
            self.session.seal()
            self.focus_next()

    def on_descendant_focus(self, _event: events.DescendantFocus) -> None:
        """Help follows the focus."""
        self._help()

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """A field that is left shows how its text was read, or that it was not."""
        field = event.widget.parent
        if isinstance(field, Field) and field.is_attached:
            self.session.seal()
            field.complains = field.key in self.session.job.typed
            field.show(self.session.job)

    def action_stand(self, standing: str) -> None:
        """Say how far the measures can be trusted."""
        wanted = Standing(standing)
        if wanted is Standing.SURE and planes.unreadable(self.session.job, self.index):
            self.notify("Something here cannot be read yet, so it cannot be sure.", markup=False)
            return
        self.session.seal()
        self._change(planes.with_standing(self.session.job, self.index, wanted),
                     f"measures {standing}")
        self._show()

    @on(Button.Pressed, "#plane-done")
    def _pressed_done(self, event: Button.Pressed) -> None:
        event.stop()
        self.action_close()

    @on(Button.Pressed, "#plane-standing")
    def _pressed_standing(self, event: Button.Pressed) -> None:
        event.stop()
        now = standing_of(self.session.job, self.index)
        self.action_stand("sure" if now is Standing.GUESS else "guess")

    def action_close(self) -> None:
        """Close; all is kept."""
        self.session.seal()
        self.dismiss(None)


