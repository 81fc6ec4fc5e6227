"""Who does what for the screen of one job: a controller for each subject, with one context.

A controller of one step is imported with the first key or message that needs it, so that the first
form is on the screen before.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, cast

from coilwright.wizard.answering import AnswerController, Focus
from coilwright.wizard.context import Context
from coilwright.wizard.ranking import RankingController, ShowRanking
from coilwright.wizard.screens.saving import SavingController
from coilwright.wizard.widgets.rows import SHOWN_FIRST

if TYPE_CHECKING:
    from coilwright.wizard.screens.practice.controller import PracticeController
    from coilwright.wizard.session import Session
    from coilwright.wizard.steps.coils.leftovers import LeftoverController
    from coilwright.wizard.steps.coils.search import SearchBlock, SearchController
    from coilwright.wizard.steps.coils.stock import StockController
    from coilwright.wizard.steps.haul.rigs import RigController
    from coilwright.wizard.steps.machine.machines import MachineController
    from coilwright.wizard.steps.panel.profiles import ProfileController
    from coilwright.wizard.steps.quotes.life import LifeController
    from coilwright.wizard.steps.roof import PlanesController
    from coilwright.wizard.steps.summary import SummaryBlock
    from coilwright.wizard.steps.summary.controller import SummaryController
    from coilwright.wizard.steps.summary.papers import PapersController
    from coilwright.wizard.widgets.blocks import Block


class Controllers:
    """The controllers of one screen.

    focus: where somebody is. show_ranking: shows what to ask first. is_current: whether no other
    screen is open over this one. show_trouble: shows whether the job could be written.
    sheets_folder: where sheets are saved. block: one of a visited step, by the name of its class.
    """

    def __init__(
        self, context: Context, *, focus: Callable[[], Focus], show_ranking: ShowRanking,
        is_current: Callable[[], bool], show_trouble: Callable[[], None],
        sheets_folder: Callable[[], Path], block: Callable[[str, str], Block | None],
    ) -> None:
        self.context = context
        self._focus = focus
        self.answers = AnswerController(context, focus)
        self.ranking = RankingController(context, show_ranking)
        self.saving = SavingController(context, is_current, show_trouble)
        self._sheets_folder = sheets_folder
        self._block = block

    def shown_first(self) -> None:
        """What is said once the job is shown: how it began, and the brief of practice."""
        self.answers.say_news()
        if self.context.session.plan.concealed:
            self.practice.open()

    def help(self) -> None:
        """All there is to say about what has the focus; on the summary, a finding whole."""
        if not (self._focus().step == "summary" and self.summary.help(self._focus().row)):
            self.answers.help()

    def working(self) -> None:
        """How the figure in question was worked out; on the summary, the marked one."""
        if not (self._focus().step == "summary" and self.summary.working(self._focus().row)):
            self.answers.working()

    def confirm(self) -> None:
        """Turn the focused answer or row sure or a guess; on the summary, settle what is marked."""
        if self._focus().step == "summary":
            block = self._summary_block
            if block is not None and block.bring_mark():
                self.context.say(SHOWN_FIRST)
            elif self.summary.confirm(self._focus().row) and block is not None:
                block.mark_between()
        elif not self._in_rows("f4"):
            self.answers.confirm()

    def do_not_know(self) -> None:
        """Let the usual value stand in for the focused answer; make the marked row a guess."""
        if not self._in_rows("f3"):
            self.answers.do_not_know()

    def _in_rows(self, key: str) -> bool:
        """Do to the marked row of a list what a key does; whether it does anything."""
        take_key = self._focus().take_key
        return take_key is not None and take_key(key)

    def to_page_end(self, by: int) -> None:
        """To the first line of the summary, or to its last button."""
        if (block := self._summary_block) is not None:
            block.to_end(by)

    @property
    def _summary_block(self) -> SummaryBlock | None:
        """What shows the summary, where it was visited."""
        return cast("SummaryBlock | None", self._block("summary", "SummaryBlock"))

    def waive(self) -> None:
        """Waive the marked question of the summary."""
        if (block := self._summary_block) is not None and block.bring_mark():
            self.context.say(SHOWN_FIRST)
        else:
            self.summary.waive(self._focus().row)

    def questions(self) -> None:
        """All questions by whom to ask."""
        if (folder := self._folder()) is not None:
            self.answers.questions(folder, self.ranking.effects)

    def _folder(self) -> Path | None:
        """Where sheets are saved; None where no folder can be called so, which is said."""
        from coilwright.store import StoreError

        try:
            return self._sheets_folder()
        except StoreError as error:
            self.context.say(str(error), title="Not saved", severity="error")
            return None

    def go_to(self) -> None:
        """Go to an answer, a step or a list by its name."""
        from coilwright.wizard.screens.go_to import GoToScreen

        self.context.open(GoToScreen(self.context.session.job), self._gone_to)

    async def openings(self) -> None:
        """Go to the list of openings."""
        await self._gone_to("list-openings")

    async def _gone_to(self, key: str | None) -> None:
        """Go to what was picked: a list on its step, what opens over this one, or an answer."""
        from coilwright.wizard.destinations import DESTINATIONS

        found = next((one for one in DESTINATIONS if one.key == key), None)
        if found is None:
            await self.context.go_if(key)
        elif not found.block:
            OPENS[found.key](self)
        else:
            await self.context.go(found.step)
            if (block := self._block(found.step, found.block)) is not None:
                block.take_focus()

    def like_this(self) -> Session | None:
        """A new job like this one, saved; None where it cannot be, which is said."""
        from coilwright.store import StoreError
        from coilwright.wizard.beginning import begun_like

        session = self.context.session
        try:
            return begun_like(session.store, session.job)
        except StoreError as error:
            self.context.say(str(error), title="Not saved", severity="error")
            return None

    def versions(self) -> None:
        """Put an earlier version in the place of this job; Ctrl+Z takes that back."""
        from coilwright.wizard.screens.versions import put_version_into

        put_version_into(self.context)

    def save_sheets(self) -> None:
        """Save all sheets into the folder that is named."""
        if (folder := self._folder()) is not None:
            self.summary.save_sheets(folder)

    @cached_property
    def planes(self) -> PlanesController:
        """What is asked of planes outside their list."""
        from coilwright.wizard.steps.roof import PlanesController

        return PlanesController(self.context)

    @cached_property
    def machine(self) -> MachineController:
        """What the machine step does."""
        from coilwright.wizard.steps.machine.machines import MachineController

        return MachineController(self.context)

    @cached_property
    def profiles(self) -> ProfileController:
        """What the panel step does with profiles of the machine."""
        from coilwright.wizard.steps.panel.profiles import ProfileController

        return ProfileController(self.context)

    @cached_property
    def rigs(self) -> RigController:
        """What the haul step does with rigs of the shop."""
        from coilwright.wizard.steps.haul.rigs import RigController

        return RigController(self.context)

    def keep(self) -> None:
        """Save to the shop what the step is about."""
        step = self._focus().step
        if step == "machine":
            self.machine.save()
        elif step == "haul":
            self.rigs.save()
        else:
            self.context.say("The Machine step saves its machine to your shop, the Haul step its "
                             "rig; a job itself is saved as you type.")

    def shop(self) -> None:
        """My shop."""
        from coilwright.store import StoreError
        from coilwright.wizard.screens.shop import ShopScreen
        from coilwright.wizard.shop_session import ShopSession

        try:
            session = ShopSession(self.context.session.store)
        except StoreError as error:
            self.context.say(str(error), title="My shop", severity="error", timeout=15)
            return
        self.context.open(ShopScreen(session), lambda _result: self.context.show_again())

    def compare_widths(self) -> None:
        """Compare the coverage widths the machine can be set to."""
        from coilwright.wizard.steps.panel.widths import compare_widths

        compare_widths(self.context)

    @cached_property
    def stock(self) -> StockController:
        """What the coils step does with coils on hand."""
        from coilwright.wizard.steps.coils.stock import StockController

        return StockController(self.context, self.leftovers.read)

    @cached_property
    def leftovers(self) -> LeftoverController:
        """What coils in stock would save this job."""
        from coilwright.wizard.steps.coils.leftovers import LeftoverController

        return LeftoverController(self.context, self._block)

    @cached_property
    def search(self) -> SearchController:
        """The longer search for less metal."""
        from coilwright.wizard.steps.coils.search import SearchController

        return SearchController(
            self.context, lambda: cast("SearchBlock | None", self._block("coils", "SearchBlock")))

    async def lighter_coils(self) -> None:
        """Hold the order to what the gear lifts, go to the limit, and say what changed."""
        from coilwright.wizard.steps.haul.loads import lighter_coils

        await lighter_coils(self.context)

    @cached_property
    def practice(self) -> PracticeController:
        """The brief of a practice job, handing it in, and its review."""
        from coilwright.wizard.screens.practice.controller import PracticeController

        return PracticeController(self.context)

    @cached_property
    def papers(self) -> PapersController:
        """The head of the order, and requests for a quote."""
        from coilwright.wizard.steps.summary.papers import PapersController

        return PapersController(self.context)

    @cached_property
    def life(self) -> LifeController:
        """The steps of the order."""
        from coilwright.wizard.steps.quotes.life import LifeController

        return LifeController(self.context, self.stock.run_marked, self.stock.in_stock)

    @cached_property
    def summary(self) -> SummaryController:
        """What the lines of the summary do."""
        from coilwright.wizard.steps.summary.controller import SummaryController

        return SummaryController(self.context, self.answers, self.questions,
                                 self.papers.order_head, self.leftovers.take,
                                 lambda: self.practice.open())


OPENS: dict[str, Callable[[Controllers], object]] = {
    "machines": lambda to: to.machine.pick(), "widths": lambda to: to.compare_widths(),
    "stock": lambda to: to.stock.stock(), "arrivals": lambda to: to.stock.arrivals(),
    "run-done": lambda to: to.stock.run_done(), "rigs": lambda to: to.rigs.pick(),
    "requests": lambda to: to.papers.requests(), "order-head": lambda to: to.papers.order_head(),
    "order-life": lambda to: to.life.show(), "questions": lambda to: to.questions(),
    "figures": lambda to: to.answers.figures(), "versions": lambda to: to.versions(),
    "shop": lambda to: to.shop(), "glossary": lambda to: to.answers.glossary(),
}
"""What opens over any step, by the key of its destination."""
