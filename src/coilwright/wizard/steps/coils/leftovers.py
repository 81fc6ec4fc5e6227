"""Coils in stock that would save this job new metal: looked for as a step that says so is shown.

The stock is read once, when the step is gone to; what it saves is worked out beside the keys.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.job.stock import Stock
from coilwright.store import StoreError
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.timer import Timer

    from coilwright.plan import Plan
    from coilwright.plan.coils.leftovers import StockOffer
    from coilwright.wizard.widgets.blocks import Block

    FindBlock = Callable[[str, str], "Block | None"]

SHOWN_ON = ("coils", "summary")
"""The steps that say what the stock has."""
_BLOCKS = (("coils", "StockHint"), ("coils", "StockBlock"), ("summary", "SummaryBlock"))
_QUIET = 0.4
"""Seconds without a change after which it is worked out anew."""


class LeftoverController:
    """Finds what the stock would save, has it shown, and takes it into the job.

    The session holds the offer. block: a block of a step that was visited, by its class's name.
    """

    def __init__(self, context: Context, block: FindBlock) -> None:
        self._context = context
        self._block = block
        self._step = ""
        self._stock = Stock()
        self._plan: Plan | None = None
        """The plan the offer is of."""
        self._timer: Timer | None = None

    def read(self) -> None:
        """Read the stock, and look again with the next `soon`.

        A file that cannot be read offers nothing: the list of coils on hand says why.
        """
        from coilwright.store.stock import read_stock

        try:
            self._stock = read_stock(self._context.session.store.folder)
        except StoreError:
            self._stock = Stock()
        self._plan = None

    def soon(self, step: str) -> None:
        """Show what is known; have the rest worked out at once as a step is gone to, else once the
        keys are quiet. step: the one that is shown."""
        arrived, self._step = step != self._step, step
        if step not in SHOWN_ON:
            return
        if arrived:
            self.read()
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        from coilwright.plan.coils.leftovers import fitting_leftovers

        plan, offer = self._context.session.plan, self._context.session.offer
        if plan is self._plan:
            return
        fit = fitting_leftovers(plan.job, self._stock) if self._stock.coils else ()
        if not fit:
            self._plan = plan
        if offer is not None and not set(offer.coils) <= set(fit):
            self._show(None)  # what it saves is not known yet of the others alone
        if fit and arrived:
            self._begin()
        elif fit:
            self._timer = self._context.later(_QUIET, self._begin)

    def _begin(self) -> None:
        self._timer = None
        if self._context.session.planned:
            plan, stock = self._context.session.plan, self._stock
            self._context.in_thread(lambda: self._work_out(plan, stock), "leftovers")

    def _work_out(self, plan: Plan, stock: Stock) -> None:
        """In a thread; it never waits for the screen, which may be left meanwhile."""
        from textual.worker import get_current_worker

        from coilwright.plan.coils.leftovers import offer_leftovers

        worker = get_current_worker()
        offer = offer_leftovers(plan, stock)
        if not worker.is_cancelled:
            self._context.soon(self.receive, plan, offer)

    def receive(self, plan: Plan, offer: StockOffer | None) -> None:
        """Take what was worked out, if it is of the job as it is now."""
        session = self._context.session
        if session.planned and plan is session.plan:
            self._plan = plan
            self._show(offer)

    def _show(self, offer: StockOffer | None) -> None:
        self._context.session.offer = offer
        for step, kind in _BLOCKS:
            if (block := self._block(step, kind)) is not None and block.is_mounted:
                block.show(self._context.session)

    def take(self) -> None:
        """Take what is offered into the job."""
        from coilwright.plan.coils.leftovers import taken
        from coilwright.wizard.lists.coil_blocks import offer_tags, stops_order

        context, offer = self._context, self._context.session.offer
        if offer is None:
            context.say("No coil in stock would save this job new metal.")
            return
        session = context.session
        session.seal()
        if session.change(taken(session.job, offer),
                          f"{offer_tags(offer)} taken from stock"):
            context.changed()
            many = counted(len(offer.coils), "coil")
            trim = ", for trim alone" if offer.trim_only else ""
            stop = (f" STOP {escape_controls(offer.mixes)}" if stops_order(offer) else "")
            context.say(f"{many} from stock in this job{trim}: {offer_tags(offer)}; Ctrl+Z takes "
                        f"that back.{stop}")
