"""Keys and commands of the wizard's screen that are only handed on, each to its controller."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from coilwright.wizard.controllers import Controllers

if TYPE_CHECKING:
    from coilwright.wizard.session import Session


def _delegate(do: Callable[[Controllers], object]) -> Callable[[Delegated], object]:
    """An action that only hands a key or a command to a controller."""

    def action(screen: Delegated) -> object:
        return do(screen.controllers)

    return action


class Delegated:
    """What has controllers, and hands these actions to them."""

    controllers: Controllers
    if TYPE_CHECKING:

        def action_leave(self, then: Session | None = None) -> None:
            """Leave the job, for another one."""

    def action_next_plane(self, by: int = 1) -> None:
        """Draw the plane after the chosen one, or the one before it."""
        self.controllers.planes.choose_next(by)

    def action_choose_plane(self, number: int) -> None:
        """Draw a plane, by its number."""
        self.controllers.planes.choose(number)

    def action_like_this(self) -> None:
        """Go on in a new job like this one."""
        if (made := self.controllers.like_this()) is not None:
            self.action_leave(made)

    def action_on_summary(self, action: str) -> object:
        """Do what a letter of the summary says."""
        return getattr(self, f"action_{action}")()

    action_words = _delegate(lambda to: to.help())
    action_confirm = _delegate(lambda to: to.confirm())
    action_confirm_step = _delegate(lambda to: to.answers.confirm_step())
    action_working = _delegate(lambda to: to.working())
    action_step_words = _delegate(lambda to: to.answers.step_help())
    action_do_not_know = _delegate(lambda to: to.do_not_know())
    action_waive = _delegate(lambda to: to.waive())
    action_put_back = _delegate(lambda to: to.answers.put_back())
    action_undo = _delegate(lambda to: to.answers.undo())
    action_redo = _delegate(lambda to: to.answers.redo())
    action_go_to = _delegate(lambda to: to.go_to())
    action_openings = _delegate(lambda to: to.openings())
    action_questions = _delegate(lambda to: to.questions())
    action_figures = _delegate(lambda to: to.answers.figures())
    action_glossary = _delegate(lambda to: to.answers.glossary())
    action_pick_machine = _delegate(lambda to: to.machine.pick())
    action_keep_machine = _delegate(lambda to: to.machine.save())
    action_pick_profile = _delegate(lambda to: to.profiles.pick())
    action_confirm_profile = _delegate(lambda to: to.profiles.confirm())
    action_pick_rig = _delegate(lambda to: to.rigs.pick())
    action_keep_rig = _delegate(lambda to: to.rigs.save())
    action_keep = _delegate(lambda to: to.keep())
    action_shop = _delegate(lambda to: to.shop())
    action_widths = _delegate(lambda to: to.compare_widths())
    action_stock = _delegate(lambda to: to.stock.stock())
    action_use_fitting = _delegate(lambda to: to.stock.use_fitting())
    action_take_leftovers = _delegate(lambda to: to.leftovers.take())
    action_run_done = _delegate(lambda to: to.stock.run_done())
    action_arrivals = _delegate(lambda to: to.stock.arrivals())
    action_search_metal = _delegate(lambda to: to.search.start_or_stop())
    action_lighter_coils = _delegate(lambda to: to.lighter_coils())
    action_order_head = _delegate(lambda to: to.papers.order_head())
    action_requests = _delegate(lambda to: to.papers.requests())
    action_order_life = _delegate(lambda to: to.life.show())
    action_versions = _delegate(lambda to: to.versions())
    action_save_sheets = _delegate(lambda to: to.save_sheets())
    action_brief = _delegate(lambda to: to.practice.open())
    action_project = _delegate(lambda to: to.practice.project())
    action_make_practice = _delegate(lambda to: to.practice.make())
