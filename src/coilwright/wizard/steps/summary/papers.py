"""The papers of a job from its summary: the head of the order, requests, where sheets go."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Input, Static

from coilwright.job.shop import find
from coilwright.store import StoreError
from coilwright.wizard.context import Context
from coilwright.wizard.lists.entry import entry_screen
from coilwright.wizard.lists.papers import ORDER, PaperRows, with_supplier
from coilwright.wizard.lists.requests import REQUEST_LIST
from coilwright.wizard.lists.screen import list_screen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.session import Session
from coilwright.wizard.undoing import go_into
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar


class PapersBar(Block):
    """Who orders from whom, who was asked for a quote, how far it is, what is left of it."""

    def compose(self) -> ComposeResult:
        """The buttons."""
        yield ButtonBar(
            BarButton("Head of the order", "o", id="order-head", action="screen.order_head"),
            BarButton("Requests", "r", id="requests", action="screen.requests"),
            BarButton("Life of the order", "l", id="order-life", action="screen.order_life"),
            BarButton("Receiving", "v", id="receiving", action="screen.arrivals"),
            BarButton("After the run", "a", id="run-done", action="screen.run_done"),
        )

    def show(self, session: Session) -> None:
        """Coils come once the order was sent; leftovers, once there is something to run."""
        self.query_one("#receiving").display = bool(
            session.job.arrived or session.job.life.latest)
        self.query_one("#run-done").display = bool(
            session.plan.coils or session.plan.from_stock)


class SupplierPick(PickScreen):
    """Pick a supplier of the shop; what is picked is taken before the screen closes."""

    def __init__(self, names: tuple[str, ...], value: str, take: Callable[[str], None]) -> None:
        super().__init__("Suppliers of my shop", names, value)
        self._take = take

    def dismiss(self, result: str | None = None) -> Any:
        """Close, with what was picked."""
        if result is not None:
            self._take(result)
        return super().dismiss(result)


def _supplier_pick(rows: PaperRows, _subject: object) -> SupplierPick:
    suppliers = rows.shop().suppliers

    def take(name: str) -> None:
        one = find(suppliers, name)
        if one is not None:
            with_supplier(rows, one)

    return SupplierPick(tuple(one.name for one in suppliers), rows.session.job.order.supplier, take)


class SheetsBlock(Block):
    """Where sheets are saved, and the button that saves them."""

    def compose(self) -> ComposeResult:
        """Folder, button."""
        with Horizontal(classes="bar"):
            yield Static(Content(" Save sheets in "), classes="heading")
            yield Input(id="sheets-folder", compact=True)
            yield BarButton("Save sheets", "s", id="save-sheets", action="screen.save_sheets")

    def show(self, session: Session) -> None:
        """Fill in the usual folder once."""
        box = self.query_one(Input)
        if not box.value:
            with self.prevent(Input.Changed):
                box.value = str(session.store.sheets_folder)

    @on(Input.Submitted)
    async def _entered(self, event: Input.Submitted) -> None:
        """Enter on the folder saves, as the button beside it does."""
        event.stop()
        await self.screen.run_action("save_sheets")


class PapersController:
    """Opens the head of the order and the list of requests."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def _closed(self, _returned: object) -> None:
        self._context.changed()

    def order_head(self, at: str = "") -> None:
        """Number, date, supplier, terms, buyer, delivery. at: the key of the line in hand first;
        empty: the form's own."""
        context = self._context
        context.session.seal()
        rows = PaperRows(ORDER, context.session)
        try:
            # Where the shop knows no supplier the name is typed.
            if rows.shop().suppliers:
                rows.screens = {"suppliers": _supplier_pick}
        except StoreError as error:
            context.say(str(error), title="My shop", severity="error", timeout=15)
        go_into(context.session, ORDER.key)
        context.open(entry_screen(rows.entry(0), rows, context.changed,
                                  at.rpartition(".")[2]), self._closed)

    def requests(self) -> None:
        """Who was asked for a quote; a sheet for each."""
        context = self._context
        context.session.seal()
        rows = PaperRows(REQUEST_LIST, context.session, {
            "pick": lambda _rows, names: PickScreen("Ask for a quote", names, ""),
        })
        context.open(list_screen(rows, context.changed), self._closed)
