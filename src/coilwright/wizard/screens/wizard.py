"""The wizard: the steps of one job, its figures, and its keys."""

from __future__ import annotations

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import ContentSwitcher, Footer, Static

from coilwright.job.answers import ANSWERS
from coilwright.job.steps import STEPS, step_number
from coilwright.store import StoreError
from coilwright.wizard.keys import WIZARD_KEYS
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.literal import cells, fit, tame
from coilwright.wizard.screens.answer_actions import AnswerActions
from coilwright.wizard.screens.asking_actions import AskingActions
from coilwright.wizard.screens.block_actions import BlockActions
from coilwright.wizard.screens.coil_actions import CoilActions
from coilwright.wizard.screens.lift_actions import LiftActions
from coilwright.wizard.screens.metal_actions import MetalActions
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import view_of
from coilwright.wizard.widgets.act import Act
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.form import StepForm
from coilwright.wizard.widgets.help_area import HelpArea
from coilwright.wizard.widgets.rail import Rail
from coilwright.wizard.widgets.results import Picture, Results
from coilwright.wizard.widgets.rows import KeyedRows
from coilwright.words import cautions, words
from coilwright.words.in_units import said_in

_SAVE_AFTER = 0.5
"""Seconds of quiet after which a change is written."""
_FIRST_SAVE_AFTER = 2.0
"""The same for a job that has no file yet, so that its name is typed out first."""
_LOOK_EVERY = 3.0
"""Seconds between looks at whether another window changed the file."""
_CALM = 0.15
"""Seconds to wait for more keys where a plan takes long."""


class WizardScreen(
    AskingActions, AnswerActions, BlockActions, CoilActions, LiftActions, MetalActions
):
    """One screen for all steps; a step is mounted when it is first visited."""

    CSS_PATH = "wizard.tcss"
    BINDINGS = [*WIZARD_KEYS]
    BINDING_GROUP_TITLE = "Wizard"
    AUTO_FOCUS = ""

    def __init__(self, session: Session, at: str = "job", key: str | None = None) -> None:
        super().__init__()
        self.session = session
        self.step = at
        self._first_key = key
        self._save_timer: Timer | None = None
        self._calm_timer: Timer | None = None
        self._write_error = ""
        self._asking = False
        self._begun = self._painted = False

    def compose(self) -> ComposeResult:
        """Title, rail, form, help, results, footer."""
        yield self.small_notice()
        yield Static("", id="title", markup=False)
        with Container(id="body"):
            yield Rail()
            with Vertical(id="middle"):
                yield ContentSwitcher(id="steps")
                yield HelpArea("", id="help", markup=False)
            yield Results()
        yield Footer(show_command_palette=False, compact=True)

    async def on_mount(self) -> None:
        """Show the first step."""
        await self.go(self.step, self._first_key)
        self.set_interval(_LOOK_EVERY, self._look)

    # -- steps -----------------------------------------------------------------------------

    @property
    def form(self) -> StepForm:
        """The form of the step that is shown."""
        return self.query_one(f"#step-{self.step}", StepForm)

    async def go(self, step: str, key: str | None = None) -> None:
        """Show a step, and the field of an answer on it."""
        self.session.seal()
        self.step = step
        self.set_class(step == "summary", "-at-summary")
        switcher = self.query_one("#steps", ContentSwitcher)
        if not switcher.query(f"#step-{step}"):
            form = StepForm(view_of(step), self.session, whole=self._painted)
            await switcher.add_content(form, set_current=True)
        else:
            switcher.current = f"step-{step}"
        self.refresh_all()
        self._save()
        self._focus_on(key)

    def _focus_on(self, key: str | None) -> None:
        """Put the focus on an answer, on the planes, or where the step begins."""
        field = self.form.field(key) if key else None
        rows = next((b for b in self.query(RowsBlock) if b.holds(key or "")), None)
        if field is not None:
            field.focus()
        elif rows is not None:
            rows.focus_row(key or "")
        elif not key or key in ANSWERS or self._painted:
            # A list comes after the first paint; a row of one is gone to then.
            self.form.first()
        self.call_after_refresh(self._bring_to_sight)

    def _bring_to_sight(self) -> None:
        """Scroll to what has the focus: a form shown again stands where it was left."""
        here = self.focused
        if here is not None and self.form in here.ancestors:
            here.scroll_visible(animate=False)

    async def go_to_key(self, key: str) -> None:
        """Show the step that asks an answer, with the focus on it."""
        step = key.split(".", 1)[0]
        if any(s.key == step for s in STEPS):
            await self.go(step, key)

    @on(Rail.Go)
    async def _rail(self, event: Rail.Go) -> None:
        await self.go(event.step)

    async def action_next(self) -> None:
        """On to the next step; a text that cannot be read is said, not lost."""
        unclear = self.form.unclear()
        if unclear and not isinstance(self.focused_field(), Field):
            unclear[0].focus()
        number = step_number(self.step)
        if unclear:
            self.notify(
                f"{len(unclear)} on {STEPS[number - 1].title} cannot be read yet; it is kept "
                "as typed.", severity="warning", markup=False,
            )
        if number < len(STEPS):
            await self.go(STEPS[number].key)

    async def action_back(self) -> None:
        """To the step before."""
        number = step_number(self.step)
        if number > 1:
            await self.go(STEPS[number - 2].key)

    async def action_summary(self) -> None:
        """To the summary."""
        await self.go("summary")

    def action_move(self, by: int) -> None:
        """To the row above or below; a row of buttons is passed as one."""
        step = self.focus_next if by > 0 else self.focus_previous
        begun = self.focused
        if isinstance(begun, Act):
            chain = self.focus_chain
            for _ in chain:
                step()
                if self.focused is None or self.focused.parent is not begun.parent:
                    break
        else:
            step()
        here = self.focused
        if isinstance(here, Act) and here.parent is not None:
            row = [act for act in here.parent.children if isinstance(act, Act) and act.display]
            row[0].focus()

    def action_page(self, by: int) -> None:
        """Scroll the form a page."""
        if by > 0:
            self.form.scroll_page_down(animate=False)
        else:
            self.form.scroll_page_up(animate=False)

    # -- what is shown ---------------------------------------------------------------------

    def refresh_all(self, typing: Field | None = None) -> None:
        """Show the job as it is now; the field that is typed in is left alone."""
        if not self.is_attached or not self.query(f"#step-{self.step}"):
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
        self.query_one(Rail).show(plan, self.step, self.wide)
        self._show_title(plan.state)
        self._show_results()
        self.rank_soon()

    async def _after_first_paint(self) -> None:
        self._painted = True
        await self.form.complete()
        self.refresh_all(self.focused_field())
        if self.focused is None:
            self._focus_on(self._first_key)

    def _show_title(self, state: str) -> None:
        number = step_number(self.step)
        state = "NOT SAVED" if self._write_error else state
        middle = f"{number} of {len(STEPS)} · {STEPS[number - 1].title}"
        width = self.size.width
        name = fit(tame(self.session.job.title), max(8, width - cells(state) - cells(middle) - 8))
        gap = max(2, (width - cells(middle)) // 2 - cells(name) - 1)
        line = f" {name}{' ' * gap}{middle}"
        room = width - cells(line) - cells(state) - 1
        if room < 2:
            line = f" {name}  {middle}"
            room = max(2, width - cells(line) - cells(state) - 1)
        self.query_one("#title", Static).update(
            Content.assemble((f" {name}", "bold"), line[len(name) + 1:], " " * room,
                             (state, "bold"))
        )

    def _show_results(self) -> None:
        results = self.query_one(Results)
        view = self.form.view
        results.show(view, self.session.plan, self.wide, self._caution())
        picture = results.query_one(Picture)
        picture.display = view.drawing is not None and self.wide
        self._draw()

    def _draw(self) -> None:
        view = self.form.view
        if view.drawing is None or not self.wide:
            return
        results = self.query_one(Results)
        width, height = results.picture_size()
        if width and height:
            results.draw(
                view.drawing(self.session.plan, width, height, self.session.chosen_plane)
            )

    @on(Picture.Resized)
    def _picture_resized(self) -> None:
        self._draw()

    def _caution(self) -> str:
        """The caution of the focused answer, or one of the step's, another as one moves on."""
        field = self.focused_field()
        if field is not None and field.key in ANSWERS and (own := words(field.key).caution):
            return said_in(own, self.session.job.units)
        lines = cautions(self.step)
        keys = list(self.form.view.keys)
        at = keys.index(field.key) if field is not None and field.key in keys else 0
        return said_in(lines[at % len(lines)], self.session.job.units) if lines else ""

    def _show_help(self) -> None:
        here = self.focused
        self.query_one(HelpArea).show(
            self.session.job, self.focused_field(), list(self.form.errors()),
            here.help_line if isinstance(here, KeyedRows) else "",
        )

    def resized(self) -> None:
        """Draw again for the new size."""
        self.call_after_refresh(lambda: self.refresh_all(self.focused_field()))

    def focused_field(self) -> Field | None:
        """The field the focus is in."""
        node: Widget | None = self.focused
        while node is not None:
            if isinstance(node, Field):
                return node
            node = node.parent if isinstance(node.parent, Widget) else None
        return None

    # -- what is typed ---------------------------------------------------------------------

    @on(Field.Typed)
    def _typed(self, event: Field.Typed) -> None:
        event.stop()
        field = event.field
        before = self.session.job.units
        self.session.type_text(field.key, event.text)
        self.changed(field if self.session.job.units == before else None)

    def changed(self, typing: Field | None = None) -> None:
        """The job changed: show it and have it written soon."""
        if self.session.slow and typing is not None:
            if self._calm_timer is not None:
                self._calm_timer.stop()
            self._calm_timer = self.set_timer(_CALM, lambda: self.refresh_all(typing))
        else:
            self.refresh_all(typing)
        if self._save_timer is not None:
            self._save_timer.stop()
        wait = _SAVE_AFTER if self.session.path else _FIRST_SAVE_AFTER
        self._save_timer = self.set_timer(wait, self._save)

    @on(Field.Done)
    def _done(self, event: Field.Done) -> None:
        event.stop()
        field = event.field
        if field.key in self.session.job.typed:
            field.complains = True
            field.show(self.session.job, typing=True)
            self._show_help()
        else:
            self.session.seal()
            self.focus_next()

    def on_descendant_focus(self, _event: events.DescendantFocus) -> None:
        """Help and caution follow the focus."""
        if self.is_attached and self._painted and self.query(f"#step-{self.step}"):
            self._show_help()
            self.query_one(Results).caution(self._caution())

    def on_descendant_blur(self, event: events.DescendantBlur) -> None:
        """A field that is left shows how its text was read, or that it was not."""
        field = event.widget.parent
        if isinstance(field, Field) and field.is_attached:
            self.session.seal()
            if field.key in self.session.job.typed:
                field.complains = True
            field.show(self.session.job)

    # -- the file --------------------------------------------------------------------------

    def _save(self) -> bool:
        """Write the job; what goes wrong is said, and tried again with the next change."""
        if self._asking:
            return False
        try:
            saved = self.session.save()
        except StoreError as error:
            if str(error) != self._write_error:
                self._write_error = str(error)
                self.notify(str(error), title="Not saved", severity="error", timeout=20,
                            markup=False)
                self._show_title(self.session.plan.state)
            return False
        if self._write_error:
            self._write_error = ""
            self._show_title(self.session.plan.state)
        if not saved:
            self._ask_whose()
        return saved

    def flush(self) -> bool:
        """Write what is not written yet. False where that did not work."""
        return self._save() if self.session.dirty else True

    def _look(self) -> None:
        # What is being typed is written, and compared, once the keys have come to rest.
        if not self.is_current or self._asking or self.session.dirty:
            return
        if self.session.changed_elsewhere():
            self._ask_whose()

    def _ask_whose(self) -> None:
        from coilwright.wizard.screens.conflict import ConflictScreen

        if self._asking:
            return
        self._asking = True

        def answered(mine: bool | None) -> None:
            self._asking = False
            try:
                if mine is False:
                    self.session.take_theirs()
                    self.notify("The other window's version is here; Ctrl+Z brings yours back.",
                                markup=False)
                else:
                    path = self.session.keep_mine()
                    self.notify(f"This window goes on in {path.name}.", markup=False)
            except StoreError as error:
                self.notify(str(error), severity="error", markup=False)
            self.refresh_all()

        self.app.push_screen(ConflictScreen(self.session.job.title), answered)

    def action_leave(self) -> None:
        """Back to the list of jobs; first out of a box whose text cannot be read."""
        field = self.focused_field()
        before = None if field is None else self.session.put_back(field.key)
        if before is not None:
            self.changed()
            self.notify(f"“{tame(before)}” stands there again; Escape once more leaves the job."
                        if before else "The box is empty again; Escape once more leaves the job.",
                        markup=False)
        elif self.flush():
            self.app.show_start()  # type: ignore[attr-defined]
