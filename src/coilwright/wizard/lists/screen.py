"""Coils on hand: the list kept across jobs, and which of them a job uses."""

from __future__ import annotations

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.store import StoreError
from coilwright.units import System
from coilwright.wizard.lists.coils_on_hand import (
    StockRow,
    Use,
    about_lines,
    row_text,
    saved_line,
    stock_rows,
    toggled,
)
from coilwright.wizard.lists.stock_book import NEW, StockBook
from coilwright.wizard.literal import plain, tame
from coilwright.wizard.screens.over import Over
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.keyed_rows import KeyedRows, Word


class CoilRows(KeyedRows):
    """The coils; keys change the list."""

    BINDINGS = [
        Binding("a,insert", "screen.add", "Add", tooltip="One more coil", id="stock.add",
                show=False),
        Binding("c", "screen.copy", "Copy", tooltip="One more coil like this one",
                id="stock.copy", show=False),
        Binding("d,delete", "screen.remove", "Delete", id="stock.delete", show=False,
                tooltip="Take the coil out of the list; u brings it back"),
        Binding("u,ctrl+z", "screen.undo", "Undo", tooltip="Take the last change back",
                id="stock.undo", show=False),
        Binding("space", "screen.use", "Use", tooltip="Use it in this job, or not",
                id="stock.use", show=False),
        Binding("f", "screen.use_fitting", "All that fit", id="stock.fitting", show=False,
                tooltip="Use all coils that fit this job, and no others"),
    ]


class StockScreen(Over[bool]):
    """The list; with a session, held to its job. Returns True where the job may have changed."""

    CSS_PATH = ["../screens/over.tcss", "../screens/stock.tcss"]  # type: ignore[assignment]  # Textual takes a list

    def __init__(self, book: StockBook, session: Session | None = None) -> None:
        super().__init__()
        self.book = book
        self.session = session
        self.rows: tuple[StockRow, ...] = ()
        self._done: list[str] = []
        """What was changed here, `list` or `job`, the latest last: undo goes back that way."""

    @property
    def system(self) -> System:
        """The units sizes are shown in."""
        return System.US if self.session is None else self.session.job.units

    def compose(self) -> ComposeResult:
        """Title, words to press, trouble with the file, rows, the marked coil, what is saved."""
        title = "Coils on hand" if self.session is None else (
            f"Coils on hand, for {tame(self.session.job.title)}")
        words = [("a add", "screen.add"), ("Enter change", "select"), ("c copy", "screen.copy"),
                 ("d delete", "screen.remove"), ("u undo", "screen.undo")]
        if self.session is not None:
            words += [("Space use", "screen.use"), ("f all that fit", "screen.use_fitting")]
        with Vertical(classes="box"):
            yield Static(plain(title), classes="over-title")
            yield Static("", id="stock-trouble", markup=False)
            with Horizontal(classes="bar"):
                for text, action in words:
                    yield Word(text, "#stock-rows", action)
            yield CoilRows(id="stock-rows", compact=True)
            yield Static("", id="stock-about", markup=False)
            yield Static("", id="stock-saved", markup=False)
            yield Static("", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """Fill the list."""
        self.fill()
        self.query_one(CoilRows).focus()

    def on_resize(self, _event: events.Resize) -> None:
        """Have the rows fit the new width."""
        self.fill()

    def fill(self, tag: str | None = None) -> None:
        """Show the list, the coil of a tag marked."""
        rows = self.query_one(CoilRows)
        at = rows.highlighted or 0
        self.rows = stock_rows(self.book.stock, self.session.job if self.session else None)
        width = max(40, min(self.app.size.width, 112) - 5)
        with self.prevent(OptionList.OptionHighlighted):
            rows.set_options(
                [Option(Content(row_text(row, self.system, width))) for row in self.rows]
                or [Option(Content("   none yet: a adds one"))]
            )
            named = next((i for i, r in enumerate(self.rows) if r.coil.tag == tag), None)
            rows.highlighted = named if named is not None else min(
                at, max(0, len(self.rows) - 1))
        trouble = self.query_one("#stock-trouble", Static)
        trouble.display = bool(self.book.trouble)
        trouble.update(plain(self.book.trouble))
        begun = "; a goes on with the coil you began" if NEW in self.book.drafts else ""
        self.query_one(".over-hint", Static).update(plain(
            f"Kept across jobs{begun}. Escape closes"))
        saved = saved_line(self.session.plan) if self.session else ""
        self.query_one("#stock-saved", Static).update(plain(saved))
        self._about()

    def _about(self) -> None:
        row = self.marked()
        about = self.query_one("#stock-about", Static)
        if row is None:
            about.update(plain(
                "A coil, or what is left of one: with it on the list, its metal need not be "
                "bought again."))
            return
        plan = self.session.plan if self.session else None
        about.update(plain("\n".join(about_lines(row, plan, self.system))))

    def marked(self) -> StockRow | None:
        """The marked coil."""
        at = self.query_one(CoilRows).highlighted
        return self.rows[at] if at is not None and at < len(self.rows) else None

    # -- the list --------------------------------------------------------------------------

    def action_add(self) -> None:
        """A new coil, or the one that was begun."""
        self._open(NEW)

    def _open(self, tag: str) -> None:
        from coilwright.wizard.screens.coil_on_hand import CoilScreen

        before = self.book.stock

        def closed(_nothing: object) -> None:
            new = None
            if self.book.stock != before:
                self._done.append("list")
                new = next((c.tag for c in self.book.stock.coils if c not in before.coils), None)
            self.fill(new)

        job = self.session.job if self.session else None
        self.app.push_screen(CoilScreen(self.book, tag, job, self.system), closed)

    def action_copy(self) -> None:
        """One more coil like the marked one, with a tag of its own."""
        row = self._listed()
        if row is not None:
            tag = self.book.stock.free_tag(row.coil.tag[:50])
            double = row.coil.model_copy(update={"tag": tag})
            if self._change(self.book.stock.put(double), f"{tag} added"):
                self.fill(tag)
                self._open(tag)

    def action_remove(self) -> None:
        """Take the marked coil out of the list."""
        row = self._listed()
        if row is None:
            return
        name = tame(row.coil.tag)
        if self._change(self.book.stock.take(row.coil.tag), f"{row.coil.tag} deleted"):
            self.fill()
            used = "; this job still uses it" if row.taken is not None else ""
            self.notify(f"{name} is out of the list{used}; u brings it back", markup=False)

    def _listed(self) -> StockRow | None:
        row = self.marked()
        if row is None:
            self.notify("There is no coil yet; a adds one.", markup=False)
        elif row.use is Use.GONE:
            self.notify("The list has this coil no longer; only the job has it.", markup=False)
            return None
        return row

    def _change(self, stock: object, label: str) -> bool:
        from coilwright.job.stock import Stock

        assert isinstance(stock, Stock)
        try:
            self.book.change(stock, label)
        except StoreError as error:
            self._failed(error)
            return False
        self._done.append("list")
        return True

    def _failed(self, error: StoreError) -> None:
        self.notify(str(error), title="Not saved", severity="error", timeout=12, markup=False)
        self.fill()

    def action_undo(self) -> None:
        """Take the last change made here back."""
        label: str | None
        if self._done and self._done[-1] == "job" and self.session is not None:
            label = self.session.undo()
        else:
            try:
                label = self.book.undo()
            except StoreError as error:
                self._failed(error)
                return
        del self._done[-1:]
        self.notify("Nothing to undo." if label is None else f"Undid: {tame(label)}",
                    markup=False)
        self.fill()

    # -- the job ---------------------------------------------------------------------------

    def action_use(self) -> None:
        """Use the marked coil in this job, or no longer."""
        row = self.marked()
        if self.session is None or row is None:
            return
        if row.use is Use.UNFIT:
            self.notify(f"It does not fit this job. {row.reasons[0]}", markup=False)
            return
        word = "taken" if row.use in (Use.FITS, Use.CHANGED) else "not used"
        self.session.seal()
        if self.session.change(toggled(self.session.job, row), f"Coil {row.coil.tag} {word}"):
            self._done.append("job")
        self.fill(row.coil.tag)

    def action_use_fitting(self) -> None:
        """Use all coils that fit, as the list has them now."""
        if self.session is None:
            return
        from coilwright.plan.run import with_fitting

        job = with_fitting(self.session.job, self.book.stock)
        self.session.seal()
        if self.session.change(job, f"All {len(job.on_hand)} coils that fit taken"):
            self._done.append("job")
        elif not job.on_hand:
            self.notify("No coil in the list fits this job; each says why.", markup=False)
        self.fill()

    def action_close(self) -> None:
        """Close; all is kept."""
        self.dismiss(True)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._about()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.query_one(CoilRows).only_marked and self.rows:
            return
        row = self.marked()
        if row is None:
            self.action_add()
        elif row.use is not Use.GONE:
            self._open(row.coil.tag)
