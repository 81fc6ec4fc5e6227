"""The first screen: a new job, saved jobs, demo jobs, machines."""

from __future__ import annotations

import time
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from coilwright.store import Entry, Store, StoreError
from coilwright.store.claims import ClaimsByJob, claims_by_job
from coilwright.wizard.job_list import JobList, Row
from coilwright.wizard.keys import START_KEYS
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import SizedScreen
from coilwright.wizard.screens.start_rows import demo_rows, found_elsewhere, heading, job_rows
from coilwright.wizard.widgets.keys_footer import KeysFooter
from coilwright.wizard.widgets.rows import MarkedList
from coilwright.wizard.widgets.search import SearchBox

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from textual.screen import Screen

    from coilwright.wizard.screens.job_bin import JobBin
    from coilwright.wizard.session import Session

_READING = "jobs"
"""The thread that reads jobs."""
_AIRY = 30
"""From this many rows on, headings have air above them."""
_BETWEEN = 0.4
"""Seconds between showing more of the jobs that are being read."""


class StartScreen(SizedScreen):
    """One list of everything that can be opened."""

    BINDINGS = [
        *START_KEYS,
        Binding("escape", "all", "All jobs", show=False, id="start.all"),
    ]
    BINDING_GROUP_TITLE = "Start"
    AUTO_FOCUS = "#start-rows"

    class OpenJob(Message):
        """Work on a job is to begin."""

        def __init__(self, session: Session) -> None:
            super().__init__()
            self.session = session

    def __init__(self, store: Store, left: Path | None = None) -> None:
        super().__init__()
        self.store = store
        self.left = left
        """The job that was left or brought back, to be marked once it is listed."""
        self.jobs = JobList(store)
        self.entries: dict[str, Entry] = {}
        self._fault = ""
        """Why the folder of jobs cannot be read."""
        self._claims: ClaimsByJob = {}
        """Coils on hand that more than one job claims."""

    def compose(self) -> ComposeResult:
        """Title, where the data is, list, footer."""
        yield self.small_notice()
        about = "   from a roof and a machine to a coil order"
        yield Static(Content.assemble((" Coilwright", "bold"), about), id="start-title")
        yield Static(plain(f" Jobs are kept in {self.store.folder}"), id="start-where")
        rows = MarkedList(id="start-rows", compact=True)
        yield SearchBox("part of a title, a state or a row here; Escape shows all", rows,
                        lambda _text: self._show(self.jobs.known()), box_id="start-find")
        yield rows
        yield Static(" Suggestions only: rating plates, local code and designers decide.",
                     id="start-caution", markup=False)
        yield KeysFooter(show_command_palette=False, compact=True)

    def on_mount(self) -> None:
        """Fill the list."""
        self.query_one("#start-find", Input).display = False
        self.query_one("#start-rows", MarkedList).marks_always = True
        self.fill()

    def on_screen_resume(self) -> None:
        """Fill the list again: a job may have changed."""
        if self.query("#start-rows"):
            self.fill()

    def resized(self) -> None:
        """Show the list for the new width."""
        if self.query("#start-rows"):
            self._show(self.jobs.known())

    def fill(self) -> None:
        """List what is in the data folder; what is not read yet is read in a thread."""
        # Each look at a file waits for a thread that reads others.
        self.workers.cancel_group(self, _READING)
        try:
            rows, self._fault = self.jobs.rows(), ""
        except OSError as error:
            rows, self._fault = [], f"{self.store.jobs_folder} cannot be read: {error.strerror}."
        self._show_again()
        if any(not row.read for row in rows):
            self._read_rest(rows)

    @work(thread=True, exclusive=True, group=_READING, exit_on_error=False)
    def _read_rest(self, rows: list[Row]) -> None:
        worker = get_current_worker()
        shown = time.monotonic()
        for _entry in self.jobs.read_rest(rows):
            if worker.is_cancelled:
                return
            if time.monotonic() - shown > _BETWEEN:
                shown = time.monotonic()
                self.app.call_from_thread(self._show_again)
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show_again)

    def _show_again(self) -> None:
        """Show the jobs with what was read of them meanwhile."""
        if self.query("#start-rows"):
            saved = self.jobs.known()
            self.entries = {str(row.entry.path): row.entry for row in saved}
            self._claims = claims_by_job(self.store.shared_coils(self.entries.values()))
            self._show(saved)

    def _show(self, saved: list[Row]) -> None:
        rows = self.query_one("#start-rows", MarkedList)
        marked, at = rows.highlighted_option, rows.highlighted
        width = max(60, self.size.width)
        find = self.query_one("#start-find", Input)
        words = find.value.casefold().split() if find.display else []
        if words:
            found = [row for row in saved if row.answers_to(words)]
            options = [heading(f"{len(found)} of {len(saved)} jobs; Escape shows all" if found else
                               "no job of yours has that in its title or state; Escape shows all"),
                       *job_rows(found, self._claims, width),
                       *_others(words),
                       *found_elsewhere(words, self.store.folder, width)]
        else:
            options = self._everything(saved, width)
        rows.set_options(options)
        ids = [option.id for option in options]
        if not words and self.left is not None and f"job:{self.left}" in ids:
            rows.highlighted = ids.index(f"job:{self.left}")
            self.left = None
        elif marked is not None and marked.id in ids:
            rows.highlighted = ids.index(marked.id)
        else:
            # The row that came there; where that is a heading, the one above it.
            last = min(at, len(options) - 1) if at is not None else 0
            rows.highlighted = next(
                (one for one in range(last, -1, -1) if not options[one].disabled), 0)
            if words:
                rows.highlighted = next(
                    (at for at, option in enumerate(options) if not option.disabled), None)

    def _everything(self, saved: list[Row], width: int) -> list[Option]:
        options = [Option(Content.styled(" New job", "bold"), id="new:")]
        if self._fault:
            options.append(Option(plain(f"  {self._fault}"), disabled=True))
        many = f" ({len(saved)}; / finds)" if len(saved) > 9 else ""
        airy = self.size.height >= _AIRY
        options.append(heading(f"Your jobs{many}", airy=airy))
        if not saved:
            options.append(Option(Content.styled(
                "  none yet: begin a new job, or look round in a demo job", "$secondary"),
                disabled=True))
        options.extend(job_rows(saved, self._claims, width))
        options.append(heading("Demo jobs, all invented; they open as copies", airy=airy))
        options.extend(demo_rows(width))
        options.extend(_others(airy=airy))
        return options

    # -- finding ---------------------------------------------------------------------------

    def action_find(self) -> None:
        """Find a job, a demo job or a practice job by part of its title."""
        find = self.query_one("#start-find", Input)
        find.select_on_focus = find.display = True
        find.focus()

    def on_key(self, event: events.Key) -> None:
        """A letter that is no key here begins to find what is typed: a title, most likely."""
        letter = event.character or ""
        if letter.isalnum() and event.key not in self.active_bindings:
            event.stop()
            find = self.query_one("#start-find", Input)
            find.select_on_focus, find.display = False, True
            find.insert_text_at_cursor(letter)
            find.focus()

    def action_all(self) -> None:
        """Show all again."""
        find = self.query_one("#start-find", Input)
        if find.display:
            with self.prevent(Input.Changed):
                find.value = ""
            find.display = False
            self._show(self.jobs.known())
            self.query_one("#start-rows").focus()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        kind, _, key = (event.option_id or "").partition(":")
        if kind == "new":
            self.action_new()
        elif kind == "job":
            if (entry := self.entries.get(key)) is not None:
                self._open(entry)
        elif kind == "demo":
            self.open_demo(key)
        elif kind == "practice":
            self.action_practice(key)
        elif kind in _OTHER:
            _OTHER[kind][1](self)

    def _open(self, entry: Entry) -> None:
        from coilwright.wizard.session import Session
        try:
            self.post_message(self.OpenJob(Session.open(self.store, entry.path)))
        except StoreError as error:
            hint = " v shows its earlier versions." if self.store.versions(entry.path) else ""
            self.say(f"{error} The file stays where it is.{hint}", title="Not opened",
                     severity="error", timeout=15)

    def open_demo(self, key: str) -> None:
        """Open a copy of a demo job; it is saved with the first change."""
        from coilwright.store.shipped import demo_jobs
        from coilwright.wizard.beginning import begun
        self._begin(lambda: begun(self.store, demo_jobs()[key]))

    def _begin(self, make: Callable[[], Session]) -> None:
        """Open a job that begins."""
        try:
            self.post_message(self.OpenJob(make()))
        except StoreError as error:
            self.say(str(error), title="Not opened", severity="error")

    def action_new(self) -> None:
        """Begin a new job, in the units and the currency of the last one."""
        from coilwright.wizard.beginning import begun_new

        session, trouble = begun_new(self.store)
        if trouble:
            self.say(trouble, title="My shop", severity="error", timeout=15)
        self._begin(lambda: session)

    def action_like(self) -> None:
        """Begin a new job like the marked one; what belongs to the other order stays there."""
        from coilwright.store.shipped import demo_jobs
        from coilwright.wizard.beginning import begun_like

        kind, key = self._marked_row()
        if (entry := self._marked()) is not None:
            self._begin(lambda: begun_like(self.store, self.store.load(entry.path)))
        elif kind == "demo":
            self._begin(lambda: begun_like(self.store, demo_jobs()[key]))
        else:
            self.say("Mark a job first.")

    def action_shop(self) -> None:
        """My shop: buyer, machines, rigs, suppliers."""
        from coilwright.wizard.screens.shop import ShopScreen
        from coilwright.wizard.shop_session import ShopSession

        self._push(lambda: ShopScreen(ShopSession(self.store)))

    def _push(
        self, make: Callable[[], Screen[Any]], then: Callable[[Any], None] | None = None
    ) -> None:
        """Show a screen over this one, or say why it cannot be made."""
        try:
            screen = make()
        except StoreError as error:
            self.say(str(error), title="Not opened", severity="error", timeout=15)
        else:
            self.app.push_screen(screen, then)

    def _marked_row(self) -> tuple[str, str]:
        """What kind of row is marked, and its key; empty where none is."""
        rows = self.query_one("#start-rows", OptionList)
        if rows.highlighted is None:
            return "", ""
        kind, _, key = (rows.get_option_at_index(rows.highlighted).id or "").partition(":")
        return kind, key

    def _marked(self) -> Entry | None:
        """The job of one's own that is marked."""
        return self.entries.get(self._marked_row()[1])

    @cached_property
    def bin(self) -> JobBin:
        """What is deleted and brought back."""
        from coilwright.wizard.screens.job_bin import JobBin

        return JobBin(self.store, self.app.push_screen, self.say, self._deleted, self._restored)

    def action_delete(self) -> None:
        """Move the marked job to the bin."""
        if (entry := self._marked()) is not None:
            self.bin.delete(entry, self.query_one("#start-rows", MarkedList))
        else:
            self.say("Mark one of your own jobs first.")

    def _deleted(self, said: str) -> None:
        self.fill()
        self.query_one("#start-rows", MarkedList).row_deleted(said)

    def action_undelete(self) -> None:
        """Bring the job back that was deleted last."""
        self.bin.bring_back_last()

    def action_bin(self) -> None:
        """List what was deleted."""
        self.bin.show()

    def _restored(self, path: Path) -> None:
        self.left = path
        self.fill()

    def action_versions(self) -> None:
        """Put back what the marked job was before."""
        from coilwright.wizard.screens.versions import put_back_version
        put_back_version(self, self.store, self._marked(), self.fill)

    def action_coils_on_hand(self) -> None:
        """The list of coils on hand."""
        from coilwright.wizard.lists.coils_on_hand import StockRows
        from coilwright.wizard.lists.screen import list_screen
        from coilwright.wizard.lists.stock_book import book_of

        self._push(lambda: list_screen(StockRows(book_of(self.store))))

    def action_practice(self, name: str = "") -> None:
        """Practice jobs, drills, and reviewing a class; the job of a name marked."""
        from coilwright.wizard.screens.practice.choose import ChooseScreen

        def chosen(session: Session | None) -> None:
            if session is not None:
                self.post_message(self.OpenJob(session))

        self._push(lambda: ChooseScreen(self.store, name), chosen)

    def action_make_practice(self) -> None:
        """Make a practice job of the marked job, and show it in the list of practice."""
        from coilwright.wizard.screens.practice.make import PracticeMaker, make_of_row

        maker = PracticeMaker(self.store.folder, self.app.push_screen, self.say,
                              lambda made: self.action_practice(made.name))
        make_of_row(maker, self.store, *self._marked_row(), self.say)

    def action_machines(self) -> None:
        """Look at the example machines."""
        from coilwright.wizard.screens.machines import MachinesScreen, shipped_machines

        self._push(lambda: MachinesScreen(
            shipped_machines(), self.store.usual_units(), pick=False))


_OTHER: dict[str, tuple[str, Callable[[StartScreen], object]]] = {
    "machines": ("Machines: what each example holds and forms", StartScreen.action_machines),
    "shop": ("My shop: buyer, machines, rigs, suppliers", StartScreen.action_shop),
    "coils": ("Coils on hand: what stands in the shop", StartScreen.action_coils_on_hand),
    "practice": ("Practice: jobs to practice on, drills, reviewing a class",
                 StartScreen.action_practice),
    "bin": ("Bin: jobs that were deleted", StartScreen.action_bin),
    "looks": ("Looks: light, dark, high contrast; lines of drawings",
              lambda screen: screen.app.run_worker(screen.app.run_action("looks"))),
    "quit": ("Quit", lambda screen: screen.app.exit(0)),
}
"""What else can be opened from the list, by the key of its row."""


def _others(words: Sequence[str] = (), *, airy: bool = False) -> list[Option]:
    """What else can be opened, under its heading; where there are words, what has all of them."""
    found = [Option(Content(f"  {text}"), id=f"{kind}:") for kind, (text, _) in _OTHER.items()
             if all(word in text.casefold() for word in words)]
    return [heading("Other", airy=airy), *found] if found else []
