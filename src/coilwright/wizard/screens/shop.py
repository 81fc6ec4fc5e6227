"""My shop over the wizard: buyer, machines, rigs, suppliers, coils; sharing it in one file."""

from __future__ import annotations

from typing import Any

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.shop import BUYER_FIELDS, merge, share
from coilwright.store import StoreError, to_text
from coilwright.store.files import named_path, write_new
from coilwright.store.shop import read_shared, save_shop
from coilwright.store.stock import save_stock
from coilwright.wizard.lists.coils_on_hand import StockRows
from coilwright.wizard.lists.entry import entry_screen
from coilwright.wizard.lists.form import RowForm
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.screen import list_screen
from coilwright.wizard.lists.shop import MY_BUYER, MY_MACHINES, MY_RIGS, MY_SUPPLIERS
from coilwright.wizard.lists.stock_book import book_of
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.help import TextModal
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.shop_session import ShopSession
from coilwright.wizard.undoing import go_into
from coilwright.wizard.widgets.columns import pad
from coilwright.wizard.widgets.rows import MarkedList
from coilwright.words.counting import counted

_LISTS: dict[str, RowForm[Any]] = {
    "machines": MY_MACHINES, "rigs": MY_RIGS, "suppliers": MY_SUPPLIERS,
}
_HELP = (
    ("What it is for", "What stays the same from job to job is typed once, here. A new job starts "
     "with the buyer and the place of delivery, and with your machine and rig where there is one "
     "of each. A job keeps its own copy: changing the shop later changes no job."),
    ("Machines and rigs", "The quickest way: type a machine on a job's Machine step, or trailer, "
     "tow vehicle and lifting gear on its Haul step, and save it there with Ctrl+S. The next job "
     "picks it. What was a guess stays a guess until it is held against the plate. What belongs to "
     "one load, such as a weighed tongue weight, is not kept."),
    ("Suppliers", "Whom to ask for quotes. A request for a quote is addressed to them, and an "
     "order too."),
    ("▲ Caution", "Rating plates and tags decide, not what was typed here. Look at them again "
     "after every repair or new part."),
    ("Sharing", "Export writes the shop and the coils on hand to one file for a partner; it holds "
     "names, phone numbers and addresses as they stand here. Import takes such a file in: what is "
     "new is added, and where both have a name yours is kept."),
)


class ShopScreen(Modal[None]):
    """What the shop holds; Enter opens a part of it."""

    BINDINGS = [
        Binding("f1", "words", "Help", tooltip="What the shop is for", id="shop.words"),
        Binding("e", "export", "Export", tooltip="Shop and coils on hand to one file",
                id="shop.export"),
        Binding("i", "import", "Import", tooltip="A partner's file into the shop",
                id="shop.import"),
    ]

    def __init__(self, session: ShopSession) -> None:
        super().__init__()
        self.session = session

    def compose(self) -> ComposeResult:
        """Title, trouble, parts, hint."""
        with Vertical(classes="box"):
            yield Static("My shop", classes="over-title")
            yield Static(plain(self.session.trouble), classes="part", id="shop-trouble")
            yield MarkedList(compact=True, id="shop-parts")
            yield Static("Enter opens · F1 help · e export · i import · Escape closes",
                         classes="over-hint")

    def on_mount(self) -> None:
        """Show what there is."""
        self.query_one("#shop-trouble").display = bool(self.session.trouble)
        self.fill()
        self.query_one(MarkedList).focus()

    def fill(self) -> None:
        """Show the parts as they are now."""
        shop = self.session.shop
        told = [getattr(shop.buyer, name) for name in BUYER_FIELDS]
        open_ones = sum(not text for text in told)
        buyer = shop.buyer.company or shop.buyer.contact or "not filled in yet"
        if 0 < open_ones < len(told):
            buyer += f"; {counted(open_ones, 'line')} empty"
        rows = (
            ("buyer", "Buyer and delivery", buyer),
            *((key, key.capitalize(), _names(getattr(shop, key))) for key in _LISTS),
            ("coils", "Coils on hand", self._coils_words()),
            ("export", "Export", "shop and coils on hand to one file"),
            ("import", "Import", "a partner's file into the shop"),
        )
        listed = self.query_one(MarkedList)
        at = listed.highlighted or 0
        room = max(20, self.room - 24)
        listed.set_options(
            Option(Content.assemble((f" {pad(title, 20)} ", "bold"),
                                    pad(escape_controls(said), room)), id=key)
            for key, title, said in rows
        )
        listed.highlighted = at

    def _coils_words(self) -> str:
        """How many coils stand in the shop, and which."""
        try:
            coils = book_of(self.session.store).stock.coils
        except StoreError:
            return "cannot be read; Enter says why"
        tags = ", ".join(one.tag for one in coils)
        return f"{counted(len(coils), 'coil')}: {tags}" if coils else "none yet"

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        key = event.option_id or ""
        if key == "buyer":
            rows = JobRows(MY_BUYER, self.session)
            go_into(self.session, MY_BUYER.key)
            screen = entry_screen(rows.entry(0), rows, self._save)
            self.app.push_screen(screen, self._part_closed)
        elif key in _LISTS:
            self.app.push_screen(list_screen(JobRows(_LISTS[key], self.session), self._save),
                                 self._part_closed)
        elif key == "coils":
            self._coils()
        elif key == "export":
            self.action_export()
        else:
            self.action_import()

    def _coils(self) -> None:
        try:
            book = book_of(self.session.store)
        except StoreError as error:
            self.say(str(error), severity="error")
            return
        self.app.push_screen(list_screen(StockRows(book)), self._part_closed)

    def _part_closed(self, _result: object) -> None:
        self._save()
        self.fill()

    def _save(self) -> None:
        try:
            self.session.save()
        except StoreError as error:
            self.say(str(error), title="Not saved", severity="error", timeout=15)

    def action_words(self) -> None:
        """What the shop is for."""
        self.app.push_screen(TextModal("My shop", _HELP))

    # -- sharing ---------------------------------------------------------------------------

    def action_export(self) -> None:
        """Write shop and coils on hand to one file."""
        def given(said: tuple[str, ...] | None) -> None:
            if said is not None:
                self._export(said[0])

        self.app.push_screen(LinesScreen(
            "Export", "Shop and coils on hand in one file, with names, phone numbers and addresses "
            "as they stand here.",
            (Line("File", str(self.session.store.folder / "shop-to-share.json")),),
        ), given)

    def _export(self, name: str) -> None:
        try:
            path = named_path(name)
            stock = book_of(self.session.store).stock
            if write_new(path, to_text(share(self.session.shop, stock))) is None:
                self.say(f"{path} is there already; give another name.", severity="warning")
                return
        except StoreError as error:
            self.say(str(error), title="Not saved", severity="error", timeout=15)
            return
        self.say(f"Saved {path}", timeout=10)

    def action_import(self) -> None:
        """Take a partner's file in; where both have a name mine is kept."""
        def given(said: tuple[str, ...] | None) -> None:
            if said is not None:
                self._import(said[0])

        self.app.push_screen(LinesScreen(
            "Import", "A file that Export wrote. What is new is added; where both have a name "
            "yours is kept.", (Line("File"),)), given)

    def _import(self, name: str) -> None:
        store = self.session.store
        try:
            theirs = read_shared(name)
            book = book_of(store)
            merged = merge(self.session.shop, book.stock, theirs)
            save_shop(store.folder, merged.shop)
            if merged.stock != book.stock:
                save_stock(store.folder, merged.stock)
                book.read()
            self.session = ShopSession(store)
        except StoreError as error:
            self.say(str(error), title="Nothing was taken in", severity="error", timeout=15)
            return
        added = sum(map(len, merged.added.values()))
        kept = [name for names in merged.kept.values() for name in names]
        said = f"{added} added." if added else "Nothing in it is new."
        if kept:
            said += f" Yours is kept: {escape_controls(', '.join(kept))}."
        self.fill()
        self.say(said, timeout=10)


def _names(parts: tuple[Any, ...]) -> str:
    return ", ".join(part.name for part in parts) or "none yet"
