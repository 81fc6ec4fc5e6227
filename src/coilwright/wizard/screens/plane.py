"""One measured plane: its shape and measures, drawn as they are typed."""

from __future__ import annotations

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Input, Static

from coilwright.job.answers import Answer
from coilwright.job.job import Job
from coilwright.job.rows.planes import standing_of
from coilwright.values.standing import Standing
from coilwright.wizard import planes
from coilwright.wizard.lists import planes as plane_measures
from coilwright.wizard.lists.planes import CornersAnswer, OpeningsAnswer
from coilwright.wizard.literal import cells, fit, plain, tame
from coilwright.wizard.screens.over import Over
from coilwright.wizard.session import Session, reading_error
from coilwright.wizard.step_view import plane_drawing
from coilwright.wizard.widgets.field import Field


class PlaneForm(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The fields; the arrows go from field to field instead of scrolling."""


class LinesInput(Input):
    """A box for several rows on one line: pasted lines are joined instead of cut off."""

    def on_paste(self, event: events.Paste) -> None:
        """Join what is pasted by semicolons."""
        lines = [line.strip() for line in event.text.splitlines() if line.strip()]
        event.stop()
        event.prevent_default()
        self.replace("; ".join(line.replace("\t", ", ") for line in lines), *self.selection)


class LinesField(Field):
    """A field whose rows may come from a table."""

    def __init__(self, answer: Answer, help_line: str, *, standing: bool, label_width: int) -> None:
        super().__init__(answer, help_line, standing=standing, label_width=label_width)
        margin = self.box.styles.margin
        self.box = LinesInput(compact=True, max_length=20_000)
        self.box.styles.margin = margin

    @property
    def text(self) -> str:
        """What stands in the box."""
        return str(self.box.value)


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
        self._stood: Standing | None = None
        """How the plane stood before something typed could not be read."""
        self.measures = plane_measures.measures(index)
        self._fields = [
            (LinesField if isinstance(m.answer, CornersAnswer | OpeningsAnswer) else Field)(
                m.answer, m.help, standing=False, label_width=18
            )
            for m in self.measures
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
                yield Button("Draw large", id="plane-zoom", compact=True)
                yield Button("Edges", id="plane-edges", compact=True)
            yield Static("All is kept as you type; Escape closes", classes="over-hint")

    def on_mount(self) -> None:
        """Show the plane."""
        self._show()
        self._fields[0].focus()
        name = self._fields[0].box
        if isinstance(name, Input):
            # What is typed next stands in for the name, as in every other box.
            self.call_after_refresh(name.select_all)

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
                name = "" if field is focused else f"{field.answer.label}: "
                area.update(Content.assemble(
                    (f" × {name}", "bold"), tame(error.removeprefix(name))
                ))
                area.set_class(True, "-error")
                return
        area.set_class(False, "-error")
        help_line = f"   {focused.help_line}" if focused is not None else ""
        whole = ""
        if isinstance(focused, LinesField) and cells(focused.text) > focused.box.size.width:
            # Its box cannot show all of it.
            whole = f"\n   {fit(tame(focused.text), max(20, area.size.width - 4))}"
        area.update(Content(help_line + whole))

    def _focused(self) -> Field | None:
        box = self.focused
        return box.parent if box is not None and isinstance(box.parent, Field) else None

    # -- changing --------------------------------------------------------------------------

    @on(Field.Typed)
    def _typed(self, event: Field.Typed) -> None:
        event.stop()
        field = event.field
        measure = self.measures[self._fields.index(field)]
        before = self.session.job
        job, _error = plane_measures.give_measure(before, self.index, measure, event.text)
        job = self._standing_kept(before, job)
        text = " ".join(event.text.split()) or "cleared"
        self._change(job, f"{field.answer.label} {text}", f"typing {field.key}")
        self._show(field)

    def _standing_kept(self, before: Job, job: Job) -> Job:
        """While something cannot be read the plane is a guess; then it stands as it did before."""
        was, now = (planes.unreadable(each, self.index) for each in (before, job))
        if now and not was:
            self._stood = standing_of(before, self.index)
        elif was and not now and self._stood is not None:
            job = planes.with_standing(job, self.index, self._stood)
            self._stood = None
        return job

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

    @on(Button.Pressed, "#plane-zoom")
    def _pressed_zoom(self, event: Button.Pressed) -> None:
        from coilwright.wizard.lists.plane_screens import PlaneZoom

        event.stop()
        self.app.push_screen(PlaneZoom(self.session), self._back)

    @on(Button.Pressed, "#plane-edges")
    def _pressed_edges(self, event: Button.Pressed) -> None:
        from coilwright.wizard.screens.plane_edges import PlaneEdges

        event.stop()
        self.app.push_screen(PlaneEdges(self.session), self._back)

    def _back(self, _nothing: object) -> None:
        self._show()

    def action_close(self) -> None:
        """Close; all is kept."""
        self.session.seal()
        self.dismiss(None)


