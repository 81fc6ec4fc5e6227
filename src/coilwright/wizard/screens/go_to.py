"""Answers, steps and lists to go to, found by part of a name."""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.answers import ANSWERS, Answer, asked
from coilwright.job.job import Job
from coilwright.job.steps import STEPS, Step, step_number
from coilwright.wizard.destinations import DESTINATIONS, Destination
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.widgets.columns import fit, pad
from coilwright.wizard.widgets.rows import MarkedList
from coilwright.wizard.widgets.search import SearchBox

_BEFORE_VALUE = 55
"""Cells of the mark and an answer's name, step and standing before its value; two for scrolling."""
_STANDING = 10
"""Cells of the standing, with those around it."""


class _Called(IntEnum):
    """How near a name is to what was typed, the nearest first."""

    SO = 0
    BEGINS = 1
    A_WORD = 2
    OTHERWISE = 3


def _called(text: str, name: str) -> _Called:
    wanted, has = " ".join(text.split()).casefold(), name.casefold()
    if has == wanted:
        return _Called.SO
    if has.startswith(wanted):
        return _Called.BEGINS
    return _Called.A_WORD if f" {wanted}" in has else _Called.OTHERWISE


def _step_row(step: Step) -> Content:
    """A step, which is gone to as an answer is."""
    return Content.assemble(f" {pad(step.title, 27)} ", (f"step {step_number(step.key)}", "dim"))


def _destination_row(found: Destination) -> Content:
    """A list, or what opens over any step."""
    how = "a list on" if found.block else "opens; of"
    return Content.assemble(f" {pad(found.title, 27)} ",
                            (f"{how} step {step_number(found.step)}", "dim"))


def _destinations(text: str) -> Iterable[tuple[_Called, Destination]]:
    """Those that are found, each with how near a name of it is to what was typed."""
    wanted = text.casefold().split()
    for one in DESTINATIONS:
        names = (one.title, *one.also)
        if wanted and all(w in " ".join(names).casefold() for w in wanted):
            yield min(_called(text, name) for name in names), one


class GoToScreen(Modal[str]):
    """Type part of a name; Enter goes there. What begins with it is marked before what holds it."""

    def __init__(self, job: Job) -> None:
        super().__init__()
        self.job = job
        self.titles = {step.key: step.title for step in STEPS}

    def compose(self) -> ComposeResult:
        """Search, list."""
        with Vertical(classes="box"):
            yield Static("Go to an answer, a step or a list", classes="over-title")
            rows = MarkedList(compact=True, id="goto-list")
            rows.marks_always, rows.can_focus = True, False
            yield SearchBox("part of its name", rows, self._show, box_id="goto-search")
            yield rows
            yield Static("Enter goes there, Escape closes", classes="over-hint")

    def on_mount(self) -> None:
        """All of them to begin with."""
        self._show("")
        self.query_one(Input).focus()

    def _found(self, text: str, among: Iterable[Answer]) -> list[Answer]:
        wanted = text.casefold().split()
        return [
            a for a in among
            if all(w in f"{a.label} {a.key} {self.titles[a.step]}".casefold() for w in wanted)
        ]

    def _show(self, text: str) -> None:
        """What is found, what is called so first; where this job asks no such answer, those that
        it does not ask now."""
        rows = self.query_one(OptionList)
        ranked = [(_called(text, a.label), Option(self._row(a), id=a.key))
                  for a in self._found(text, asked(self.job))] or [
            (_called(text, a.label), Option(self._not_asked(a), id=a.key))
            for a in self._found(text, ANSWERS.values())]
        if text.strip():
            ranked += [(rank, Option(_step_row(step), id=step.key)) for step in STEPS
                       if (rank := min(_called(text, name) for name in (
                           step.title, str(step_number(step.key)),
                           f"step {step_number(step.key)}"))) is not _Called.OTHERWISE]
        ranked += [(rank, Option(_destination_row(one), id=one.key))
                   for rank, one in _destinations(text)]
        found = [option for _, option in sorted(ranked, key=lambda pair: pair[0])]
        rows.set_options(found or [Option(Content(" Nothing is called that."), disabled=True)])
        rows.highlighted = 0 if found else None

    def _not_asked(self, answer: Answer) -> Content:
        """An answer that this job does not ask now; Enter goes to where it would stand."""
        said = fit(f"not asked now; Enter: to step {step_number(answer.step)}",
                   self.room - _BEFORE_VALUE + _STANDING)
        return Content.assemble(f" {pad(answer.label, 27)} ",
                                (f"{pad(self.titles[answer.step], 13)} {said}", "dim"))

    def _row(self, answer: Answer) -> Content:
        job = self.job
        text = job.typed.get(answer.key) or answer.said(job)
        room = self.room - _BEFORE_VALUE
        return Content.assemble(
            f" {pad(answer.label, 27)} ", (pad(self.titles[answer.step], 13), "dim"),
            f" {pad(answer.standing_word(job), 8)} ", (fit(escape_controls(text), room), "dim"),
        )

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(event.option_id)
