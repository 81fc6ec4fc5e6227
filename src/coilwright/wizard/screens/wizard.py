"""The wizard: the steps of one job on one screen. It shows them, and hands each key and message on.

What is done lies with small controllers, one a subject, that know no more than their `Context`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, cast

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container
from textual.message import Message
from textual.screen import Screen
from textual.widget import Widget

from coilwright.job.answers import step_of
from coilwright.job.steps import STEPS, step_number
from coilwright.values.standing import Standing
from coilwright.wizard.answering import Focus
from coilwright.wizard.context import Closed, Context
from coilwright.wizard.controllers import Controllers
from coilwright.wizard.delegated import Delegated
from coilwright.wizard.keys import IDLE, SUMMARY_KEYS, WIZARD_KEYS
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.carry_out import carry_out
from coilwright.wizard.moves import Moves
from coilwright.wizard.places import remember, sheets_folder
from coilwright.wizard.progress import state_on
from coilwright.wizard.screens.base import SizedScreen
from coilwright.wizard.screens.pick import OpensPicks
from coilwright.wizard.screens.saving import LOOK_EVERY
from coilwright.wizard.session import Session
from coilwright.wizard.to_summary import ToSummary
from coilwright.wizard.typed_soon import TypedSoon
from coilwright.wizard.widgets.blocks import AnswerWanted, Block, WorkingWanted
from coilwright.wizard.widgets.field import Field, field_around
from coilwright.wizard.widgets.form import StepForm, StepsPane
from coilwright.wizard.widgets.keys_footer import KeysFooter
from coilwright.wizard.widgets.rail import Rail, TitleLine
from coilwright.wizard.widgets.results import FigureLine, FindingLine, Picture, Results
from coilwright.wizard.widgets.rows import Rows

if TYPE_CHECKING:
    from coilwright.plan import Plan
    from coilwright.plan.ask_first import Effect
    from coilwright.wizard.lists.coil_blocks import JobCoils
    from coilwright.wizard.lists.ends_block import EndsBlock
    from coilwright.wizard.steps.summary import SummaryBlock

_BESIDE_CAUTION = 4
"""Cells before and behind a line of a caution."""


class WizardScreen(Delegated, Moves, ToSummary, OpensPicks, SizedScreen):
    """One screen for all steps; a step is mounted when it is first visited."""

    CSS_PATH = "wizard.tcss"
    BINDINGS = [*SUMMARY_KEYS, *WIZARD_KEYS]
    BINDING_GROUP_TITLE = "Wizard"
    AUTO_FOCUS = ""

    class Left(Message):
        """The job is left, and written: to the list of jobs, or to the job `then`."""

        def __init__(self, screen: WizardScreen, then: Session | None = None) -> None:
            super().__init__()
            self.screen, self.then = screen, then

    def __init__(self, session: Session, at: str = "job", key: str | None = None) -> None:
        super().__init__()
        self.session = session
        self.step = at
        self._first_key = key
        self._begun = self._painted = self._stale = False
        # Held here: while the screen is being closed, they are found there no more.
        self._title_line, self._steps_rail = TitleLine("", id="title", markup=False), Rail()
        self._pane, self._results = StepsPane(), Results()
        self._typed_soon = TypedSoon(self, self.refresh_all)
        context = Context(
            session=session, say=self.say, open=self.open_over, changed=lambda: self.changed(),
            show_again=lambda: self.refresh_all(), go=self.go_to_key, later=self.set_timer,
            in_thread=lambda work, name: self.run_worker(
                work, name, name, exit_on_error=False, exclusive=True, thread=True),
            from_thread=lambda call, *given: self.app.call_from_thread(call, *given),
            soon=self.call_later,
        )
        self.controllers = Controllers(
            context, focus=self._focus, show_ranking=self._show_ranking,
            is_current=lambda: self.is_current,
            sheets_folder=lambda: sheets_folder(self, session.store.sheets_folder),
            show_trouble=lambda: self._show_title(state_on(self.session.plan, self.step)),
            block=self._pane.block,
        )

    def compose(self) -> ComposeResult:
        """Title, rail, form, help, results, footer."""
        yield self.small_notice()
        yield self._title_line
        with Container(id="body"):
            yield self._steps_rail
            yield self._pane
            yield self._results
        yield KeysFooter(show_command_palette=False, compact=True)

    async def on_mount(self) -> None:
        """Show the first step."""
        await self.go(self.step, self._first_key)
        self.set_interval(LOOK_EVERY, self.controllers.saving.look)

    # -- what controllers ask for ----------------------------------------------------------

    def open_over(self, screen: Screen[Any], closed: Closed | None = None) -> None:
        """Open a screen over this one; `closed` is called with what it returns."""
        self.app.push_screen(screen, closed)

    def _focus(self) -> Focus:
        """Where somebody is."""
        field, here = self.focused_field(), self.focused
        option = here.highlighted_option if isinstance(here, Rows) else None
        return Focus(
            self.step, self.form.view.heads(self.session.plan), "" if field is None else field.key,
            figure=here.key if isinstance(here, FigureLine) else "",
            row="" if option is None else option.id or "",
            take_key=here.take_key if isinstance(here, Rows) else None,
        )

    # -- steps -----------------------------------------------------------------------------

    @property
    def steps(self) -> StepsPane:
        """The forms, with the help below."""
        return self._pane

    @property
    def form(self) -> StepForm:
        """The form of the step that is shown."""
        return self.steps.form(self.step)

    async def go(self, step: str, key: str | None = None) -> None:
        """Show a step, and the field of an answer on it."""
        self.session.seal()
        self.moved_on()
        self.leave_step(step)
        self.step = self.session.here = step
        # On the screen it would have every widget of all steps styled anew.
        self._results.set_class(step == "summary", "-at-summary")
        self.refresh_bindings()
        if not await self.steps.show_step(step, self.session, whole=self._painted):
            return
        self.refresh_all()
        self.controllers.saving.save()
        self.steps.focus_on(step, key)
        self.call_after_refresh(self._show_caution)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which keys work on the summary, and which there alone; the brief's only in practice."""
        del parameters
        if action == "where_i_was":
            return self.step == "summary" and self.leads_back
        idle = IDLE[self.step == "summary"]
        return self.session.job.practice is not None if action == "brief" else action not in idle

    async def go_to_key(self, key: str) -> None:
        """Show the step that asks an answer, with the focus on it."""
        if (step := step_of(key)) in [one.key for one in STEPS]:
            await self.go(step, key)

    @on(Rail.Go)
    async def _rail(self, event: Rail.Go) -> None:
        await self.go(event.step)

    async def action_next(self) -> None:
        """On to the next step; a text that cannot be read is said, not lost."""
        unclear, number = self.form.unclear(), step_number(self.step)
        if unclear:
            if self.focused_field() is None:
                unclear[0].focus()
            self.say(f"{len(unclear)} on {STEPS[number - 1].title} cannot be read yet; it is kept "
                     "as typed.", severity="warning")
        if number < len(STEPS):
            await self.go_again(STEPS[number].key)

    async def action_back(self) -> None:
        """To the step before."""
        if (number := step_number(self.step)) > 1:
            await self.go_again(STEPS[number - 2].key)

    def focused_place(self) -> tuple[str | None, Widget | None]:
        """The answer that has the focus; without one, what else does."""
        answer = (self._focus().answer or None) if self.focused else None
        return answer, None if answer else self.focused

    # -- what is shown ---------------------------------------------------------------------

    def refresh_all(self, typing: Field | None = None) -> None:
        """Show the job as it is now; the field that is typed in is left alone."""
        if not self.is_attached or not self.steps.shows(self.step):
            return
        if not self._begun:
            # The first form is painted before the plan is worked out and the words are read.
            self._begun = True
            self._show_title("")
            self.call_after_refresh(self._after_first_paint)
            return
        self.form.show(typing)
        self._show_help()
        plan = self.session.plan
        self._steps_rail.show(plan, self.step, self.railed)
        self._show_title(state_on(plan, self.step))
        self._results.show(self.form.view, plan, self.wide, self._caution())
        self._draw()
        self.controllers.ranking.rank_soon(at_once=self.step == "summary")
        self.controllers.search.soon()
        self.controllers.leftovers.soon(self.step)

    async def _after_first_paint(self) -> None:
        self._painted = True
        await self.form.complete()
        self.refresh_all(self.focused_field())
        if self.focused is None:
            self.steps.focus_on(self.step, self._first_key)
        self.controllers.shown_first()
        self.call_after_refresh(self._show_caution)

    def _show_title(self, state: str) -> None:
        self._title_line.show(
            self.session.job.title, self.step,
            "NOT SAVED" if self.controllers.saving.trouble else state, self.size.width)

    @on(Picture.Resized)
    def _draw(self) -> None:
        self._results.draw_step(self.form.view, self.session, self.wide)

    def _show_ranking(self, plan: Plan, effects: tuple[Effect, ...], fresh: bool) -> None:
        results = self._results
        if results.ask_first.is_attached:
            results.ask_first.show(plan, effects, fresh, self.wide)
        if (block := self.steps.block("summary", "SummaryBlock")) is not None:
            cast("SummaryBlock", block).ranked(self.session, effects, fresh)

    def _caution(self) -> str:
        return self.form.caution(
            self._focus().answer, wide=self.wide,
            draft=self._painted and not self.session.plan.ready,
            room=0 if self.wide else self.size.width - _BESIDE_CAUTION)

    def _show_caution(self) -> None:
        """Once the form is laid out: only then is it known whether its cautions are in sight."""
        self._results.caution(self._caution())

    def _show_help(self) -> None:
        self.steps.show_help(self.step, self.session.job, self.focused)

    def redraw(self) -> None:
        """Draw with other lines."""
        self.refresh_all(self.focused_field())

    def resized(self) -> None:
        """Draw again for the new size."""
        self.call_after_refresh(lambda: self.refresh_all(self.focused_field()))

    def focused_field(self) -> Field | None:
        """The field the focus is in."""
        return field_around(self.focused)

    # -- what is typed ---------------------------------------------------------------------

    @on(Field.Typed)
    def _typed(self, event: Field.Typed) -> None:
        event.stop()
        field, before = event.field, self.session.job
        self.session.type_text(field.key, event.text, again=event.again)
        self.form.take(field)
        self.changed(field if self.session.job.units == before.units else None)
        self.controllers.answers.say_guessed_anew(before)

    def changed(self, typing: Field | None = None) -> None:
        """The job changed: show it and have it written soon."""
        if typing is None:
            self._typed_soon.shown()
            # Below a dialog the long summary waits: it would be drawn at each key of the dialog.
            self._stale = self.step == "summary" and not self.is_active
            if not self._stale:
                self.refresh_all()
        else:
            self._typed_soon.typed(typing, self.session.slow)
        self.controllers.saving.save_soon()

    def on_screen_resume(self) -> None:
        """Show what changed meanwhile; what is changed from here on is changed on the step."""
        self.session.here = self.step
        if self._stale:
            self.changed()

    @on(StepForm.ErrorShown)
    def _error_shown(self, event: StepForm.ErrorShown) -> None:
        event.stop()
        self._show_help()

    @on(Field.Toggled)
    def _toggled(self, event: Field.Toggled) -> None:
        event.stop()
        self.controllers.answers.turn_standing(event.field.focus().key)

    def on_descendant_focus(self, _event: events.DescendantFocus) -> None:
        """Help and caution follow the focus; what was said of the answer before goes."""
        self.moved_on()
        if self.is_attached and self._painted and self.steps.shows(self.step):
            self._show_help()
            self._show_caution()

    # -- what widgets report ---------------------------------------------------------------

    @on(FigureLine.Opened)
    def _figure_opened(self, event: FigureLine.Opened) -> None:
        event.stop()
        self.controllers.answers.open_figure_by_key(event.key)

    @on(FindingLine.Opened)
    def _finding_opened(self, event: FindingLine.Opened) -> None:
        event.stop()
        self.controllers.answers.open_finding(event.finding)

    @on(AnswerWanted)
    async def _answer_wanted(self, event: AnswerWanted) -> None:
        event.stop()
        await self.go_to_key(event.key)

    @on(WorkingWanted)
    def _working_wanted(self, event: WorkingWanted) -> None:
        event.stop()
        self.controllers.answers.open_figure(event.figure)

    @on(RowsBlock.Reported)
    def _rows_reported(self, event: RowsBlock.Reported) -> None:
        """Carry out what came of an action of a list on the step."""
        event.stop()
        if event.outcome.redraw:
            self.refresh_all()
        else:
            carry_out(self, event.rows, event.outcome, self.changed, then=event.block.report)

    # Messages of what is imported with its step are known by the names of their handlers.
    def on_ends_block_opened(self, event: EndsBlock.Opened) -> None:
        """The chosen plane is to be drawn large."""
        event.stop()
        self.controllers.planes.enlarge()

    def on_job_coils_removed(self, event: JobCoils.Removed) -> None:
        """A coil is to be taken off this job."""
        event.stop()
        self.controllers.stock.remove(event.row)

    async def on_summary_block_open(self, event: SummaryBlock.Open) -> None:
        """A line of the summary is to be opened."""
        event.stop()
        await self.controllers.summary.open(event.what, event.key)

    # -- keys and commands that are more than handed on ------------------------------------

    async def plane_key(self, action: str) -> None:
        """Do to the list of planes what one of its keys does, from wherever one is."""
        if self.step != "roof":
            await self.go("roof")
        for block in self.form.query("#plane-block").results(RowsBlock):
            block.take_focus()
            block.do(action)

    def action_confirm_machine(self) -> None:
        """All values of the machine were held against its plate."""
        self.controllers.machine.confirm()
        if self.step == "machine" and (self.focused is None or not self.focused.display):
            # Not to the name, which stands first: what is typed next would rename the machine.
            left = (one for one in self.form.fields()
                    if one.standing_word(self.session.job) == Standing.ASK)
            (next(left, None) or self.query_one("#save-machine")).focus()

    def action_loads(self) -> None:
        """To the loads at the foot of the form."""
        for block in self.query("LoadsBlock").results(Block):
            block.take_focus()

    def flush(self) -> bool:
        """Write what is not written yet, and where the job is left. False where it did not work."""
        if saved := self.controllers.saving.flush():
            remember(self.session, self._focus().answer or self.step)
        return saved

    def leave(self, then: Callable[[], object]) -> None:
        """Write what is not written yet; where that does not work, ask how to leave."""
        if self.flush():
            then()
        else:
            self.controllers.saving.leave(then)

    def action_leave(self, then: Session | None = None) -> None:
        """Back to the list of jobs, or to another job."""
        self.leave(lambda: self.post_message(self.Left(self, then)))
