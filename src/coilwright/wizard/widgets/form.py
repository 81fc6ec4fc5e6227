"""A step's form: its fields, under headings, with what else the step needs."""

from __future__ import annotations

from collections.abc import Iterator

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from coilwright.job.answers import ANSWERS
from coilwright.wizard.session import Session, error_of
from coilwright.wizard.step_view import Block, Group, StepView
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.text_block import CautionBlock, DrawingBlock


class StepForm(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The form of one step. The screen tells it when the job changed.

    Scrolling keys are not inherited: the arrows go from field to field.
    """

    def __init__(self, view: StepView, session: Session, *, whole: bool = True) -> None:
        super().__init__(id=f"step-{view.key}", classes="step")
        self.view = view
        self.session = session
        self._whole = whole
        self._fields = {key: Field(ANSWERS[key]) for key in view.keys}
        self._headings: list[tuple[Static, Group]] = []
        self.blocks: list[Block] = []
        # Before they are mounted, so that they are styled and laid out once.
        self._show_fields(None)

    def compose(self) -> ComposeResult:
        """Blocks above, fields, blocks below, cautions."""
        for make in self.view.above:
            block = make()
            self.blocks.append(block)
            yield block
        for group in self.view.complete():
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

    async def complete(self) -> None:
        """Mount what stands below the fields, where that was left for later."""
        if not self._whole:
            self._whole = True
            await self.mount(*self._below())

    def show(self, typing: Field | None = None) -> None:
        """Show what the job says; the field that is typed in is left alone."""
        self._show_fields(typing)
        for block in self.blocks:
            block.show(self.session)

    def _show_fields(self, typing: Field | None) -> None:
        job = self.session.job
        for field in self._fields.values():
            wanted = field.answer.asked(job)
            if field.display != wanted:
                field.display = wanted
            if wanted:
                field.show(job, typing=field is typing)
        for heading, group in self._headings:
            heading.display = any(ANSWERS[key].asked(job) for key in group.keys)

    def fields(self) -> Iterator[Field]:
        """The fields that are asked, in order."""
        return (f for f in self._fields.values() if f.answer.asked(self.session.job))

    def field(self, key: str) -> Field | None:
        """The field of an answer, if this job is asked it."""
        found = self._fields.get(key)
        return found if found is not None and found.answer.asked(self.session.job) else None

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

    def unclear(self) -> list[Field]:
        """Fields whose text cannot be read, all made to say so."""
        job = self.session.job
        found = [f for f in self.fields() if f.key in job.typed]
        for field in found:
            field.complains = True
            field.show(job, typing=True)
        return found

    def errors(self) -> Iterator[tuple[Field, str]]:
        """Fields that complain, each with its sentence."""
        for field in self.fields():
            if field.complains and (error := error_of(self.session.job, field.key)):
                yield field, error
