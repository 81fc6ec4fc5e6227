"""A step's form: its fields, under headings, with what else the step needs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Button, ContentSwitcher, Static

from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.values.finding import Finding
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Group, StepView, load_view
from coilwright.wizard.widgets.blocks import Block, CautionBlock, DrawingBlock, button_keys
from coilwright.wizard.widgets.columns import whole_sentences
from coilwright.wizard.widgets.field import Field, field_around
from coilwright.wizard.widgets.help_area import HelpArea
from coilwright.wizard.widgets.meant import error_of, refuse_or_take
from coilwright.wizard.widgets.moving import focus_next_asked
from coilwright.wizard.widgets.rows import KeyedRows
from coilwright.wizard.widgets.shown_rows import ShownRows, said_above
from coilwright.words import cautions, words
from coilwright.words.in_units import with_units


class StepForm(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The form of one step. The screen tells it when the job changed.

    Scrolling keys are not inherited: the arrows go from field to field.
    """

    class ErrorShown(Message):
        """A field has begun to say why its text cannot be read."""

    def __init__(self, view: StepView, session: Session, *, whole: bool = True) -> None:
        super().__init__(id=f"step-{view.key}", classes="step")
        self.view = view
        self.session = session
        self._whole = whole
        self._fields = {key: Field(ANSWERS[key]) for key in view.keys}
        self.rows = ShownRows(ANSWERS[key] for key in view.keys)
        self.rows.open(session.job)
        self._groups = view.complete()
        self._headings: list[tuple[Static, Group]] = []
        self.blocks: list[Block] = []
        # Before they are mounted, so that they are styled and laid out once. The first form is on
        # the screen before there is a plan, which says what the order waits for.
        self._show_fields(None, session.plan.stops if session.planned else ())

    def compose(self) -> ComposeResult:
        """Blocks above, fields, blocks below, cautions."""
        for make in self.view.above:
            block = make()
            self.blocks.append(block)
            yield block
        for group in self._groups:
            if group.title:
                heading = Static(Content.styled(f" {group.title}", "bold"), classes="heading")
                self._headings.append((heading, group))
                yield heading
            for key in group.keys:
                yield self._fields[key]
        if self._whole:
            yield from self._below()

    def _below(self) -> list[Block]:
        """The blocks under the fields, made."""
        made = [make() for make in self.view.below]
        if self.view.drawing is not None:
            made.append(DrawingBlock(self.view.drawing))
        made.append(CautionBlock(self.view.key))
        self.blocks += made
        return made

    @property
    def is_complete(self) -> bool:
        """Whether what stands below the fields is there too."""
        return self._whole

    @property
    def _unseen_cautions(self) -> slice:
        """Which of the step's cautions are to stand elsewhere too, where the form has them all:
        none while all are in sight, the last while some are."""
        block = next((one for one in self.blocks if isinstance(one, CautionBlock)), None)
        if block is None or not block.size.height or not self.size.height:
            return slice(None)
        seen, at = round(self.scroll_y) + self.size.height, block.virtual_region
        return slice(0) if at.bottom <= seen else slice(-1, None) if at.y < seen else slice(None)

    def on_resize(self) -> None:
        """What has the focus stays in sight."""
        if not self.is_attached:  # the job was left meanwhile
            return
        here = self.screen.focused
        if here is not None and self in here.ancestors:
            here.scroll_visible(animate=False)

    async def complete(self) -> None:
        """Mount what stands below the fields, where that was left for later."""
        if not self._whole:
            self._whole = True
            await self.mount(*self._below())

    def show(self, typing: Field | None = None) -> None:
        """Show what the job says; the field that is typed in is left alone."""
        self._show_fields(typing, self.session.plan.stops)
        for block in self.blocks:
            if block.is_mounted:  # what is still being mounted is shown once that is done
                block.show(self.session)

    def _show_fields(self, typing: Field | None, stops: Iterable[Finding]) -> None:
        job = self.session.job
        waited_for = {key for stop in stops for key in stop.answers}
        self.rows.renew(job)
        self._place_rows()
        for field in self._fields.values():
            if field.display:
                field.show(job, typing=field is typing, holds=field.key in waited_for,
                           unknown=field.key in self.session.unknown)

    def _place_rows(self) -> None:
        for field in self._fields.values():
            field.place(self.rows)
        for heading, group in self._headings:
            heading.display = any(map(self.rows.has, group.keys))
        for group in self._groups:
            shown = [self._fields[key] for key in group.keys if self.rows.has(key)]
            alike = bool(group.lead) and ANSWERS[group.lead].value(self.session.job) is None
            why = [field.reason if field.idle else None for field in shown]
            for field, quiet in zip(shown, said_above(why, alike=alike), strict=True):
                field.be_quiet(quiet)

    def open(self) -> None:
        """The step is gone to: rows that are not asked are gone, but those that always stand."""
        self.rows.open(self.session.job)
        self._place_rows()

    def take(self, field: Field) -> None:
        """Something was typed or picked in a field, and the job is as it is now."""
        self.rows.take(self.session.job, field.answer)
        self._place_rows()
        if field.complains:
            # At once, and not with the plan: what is read now is no longer called unclear.
            field.show(self.session.job, typing=True)

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """What a pick brought is new no more once the cursor has left the pick."""
        field = event.widget.parent
        self.rows.move(field.key if isinstance(field, Field) else "")
        self._place_rows()

    def fields(self) -> Iterator[Field]:
        """The fields that are asked, in order."""
        return (f for f in self._fields.values() if f.answer.asked(self.session.job))

    def field(self, key: str) -> Field | None:
        """The field of an answer, if this job is asked it."""
        found = self._fields.get(key)
        if found is None or not found.answer.asked(self.session.job):
            return None
        if not self.rows.has(key):
            self.open()
        return found

    def first(self) -> None:
        """Put the focus where the step begins."""
        for block in self.blocks:
            if block.begins(self.session) and block.take_focus():
                return
        for field in self.fields():
            field.focus()
            return
        for block in self.blocks:
            if block.take_focus():
                return

    def caution(self, key: str, *, wide: bool, draft: bool, room: int) -> str:
        """The caution of the focused answer, or one of the step's, another as one moves on.

        key: the focused answer's, empty where none has the focus. wide: the form has all cautions
        of the step, and those in sight are not said twice. draft: see `cautions`. room: cells of
        each of its two lines; 0: as many as it takes.
        """
        units = self.session.job.units
        if key in ANSWERS and (own := words(key).caution):
            return _in_room(with_units(own, units), room, "… F1 says more")
        lines = cautions(self.view.key, draft=draft)
        if wide:
            lines = lines[self._unseen_cautions]
        keys = list(self.view.keys)
        at = keys.index(key) if key in keys else 0
        return _in_room(with_units(lines[at % len(lines)], units), room, "…") if lines else ""

    def unclear(self) -> list[Field]:
        """Fields whose text cannot be read, all made to say so."""
        job = self.session.job
        found = [f for f in self.fields() if f.key in job.typed]
        for field in found:
            field.complains = True
            field.show(job, typing=True)
        return found

    @on(Field.Done)
    def _done(self, event: Field.Done) -> None:
        """On to the next field; a text that cannot be read is said first."""
        event.stop()
        field = event.field
        if field.key in self.session.job.typed:
            refuse_or_take(field, self.session.job)
            field.show(self.session.job, typing=True)
            self.post_message(self.ErrorShown())
        else:
            self.session.seal()
            focus_next_asked(self.screen)

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """A field that is left shows how its text was read, or that it was not."""
        field = event.widget.parent
        if isinstance(field, Field) and field.is_attached:
            self.session.seal()
            if field.key in self.session.job.typed:
                field.complains = True
            field.show(self.session.job)

    def errors(self) -> Iterator[tuple[Field, str]]:
        """Fields that complain, each with its sentence."""
        for field in self.fields():
            if field.complains and (error := error_of(field, self.session.job)):
                yield field, error


class StepsPane(Vertical):
    """The forms of the steps that were visited, one of them shown, and the help below it."""

    def __init__(self) -> None:
        super().__init__(id="middle")
        self._forms: dict[str, StepForm] = {}
        # Held here: while the screen is being closed, they are found there no more.
        self._switcher = ContentSwitcher(id="steps")
        self._help = HelpArea("", id="help", markup=False)

    def compose(self) -> ComposeResult:
        """Forms, help."""
        yield self._switcher
        yield self._help

    def form(self, step: str) -> StepForm:
        """The form of a step that was visited."""
        return self._forms[step]

    def shows(self, step: str) -> bool:
        """Whether a step was visited, and its form is there to be shown."""
        return step in self._forms and self._forms[step].is_attached

    def block(self, step: str, kind: str) -> Block | None:
        """A block of a step by the name of its class; None where the step was not visited."""
        blocks = self._forms[step].blocks if self.shows(step) else ()
        return next((block for block in blocks if type(block).__name__ == kind), None)

    async def show_step(self, step: str, session: Session, *, whole: bool) -> bool:
        """Show the form of a step; whole: also what stands below its fields.

        Whether it is shown: not where the screen is being closed.
        """
        self._help.set_class(step == "summary", "-at-summary")
        self.styles.column_span = 2 if step == "summary" else 1  # nothing lies beside it there
        if self._switcher.is_attached and step not in self._forms:
            form = self._forms[step] = StepForm(load_view(step), session, whole=whole)
            await self._switcher.add_content(form, set_current=True)
        elif self.shows(step):
            if self._switcher.current != f"step-{step}":
                self._forms[step].open()
            self._switcher.current = f"step-{step}"
        return self.shows(step)

    def focus_on(self, step: str, key: str | None) -> None:
        """Put the focus on an answer, on a row of a list, or where the step begins."""
        key, form = key or "", self.form(step)
        field = form.field(key)
        rows = next((block for block in form.query(RowsBlock) if block.holds(key)), None)
        if field is not None:
            field.focus()
        elif rows is not None:
            rows.focus_row(key)
        elif not key or key in ANSWERS or form.is_complete:
            # A list comes after the first paint; a row of one is gone to then.
            form.first()
        self.call_after_refresh(self._bring_to_sight, form)

    def _bring_to_sight(self, form: StepForm) -> None:
        """Scroll to what has the focus: a form shown again stands where it was left."""
        if not self.is_attached:  # the job was left meanwhile
            return
        here = self.screen.focused
        if here is not None and form in here.ancestors:
            here.scroll_visible(animate=False)

    def show_help(self, step: str, job: Job, focused: Widget | None) -> None:
        """Show the help on what has the focus, and what is wrong on the form."""
        if focused is not None and focused in self._switcher.query("*") and (
                self.form(step) not in focused.ancestors):
            focused = None  # it is of the step that was left
        self._help.show(
            job, field_around(focused), list(self.form(step).errors()),
            focused.help_line if isinstance(focused, KeyedRows) else
            button_keys(focused) if isinstance(focused, Button) else "",
            self.form(step).rows,
        )


def _in_room(caution: str, room: int, more: str) -> str:
    """A caution in two lines of so many cells, never cut within a sentence without a sign."""
    return whole_sentences(caution, room, 2, more) if room > 0 else caution
