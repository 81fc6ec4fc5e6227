"""The first screen: a new job, saved jobs, demo jobs, machines."""

from __future__ import annotations

from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Footer, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.store import Entry, Store, StoreError
from coilwright.units import System
from coilwright.wizard.keys import START_KEYS
from coilwright.wizard.literal import pad, plain, tame
from coilwright.wizard.screens.small import SizedScreen


class StartScreen(SizedScreen):
    """One list of everything that can be opened."""

    BINDINGS = [*START_KEYS]
    BINDING_GROUP_TITLE = "Start"
    AUTO_FOCUS = "#start-rows"

    def __init__(self, store: Store) -> None:
        super().__init__()
        self.store = store
        self.entries: dict[str, Entry] = {}
        self.binned: list[Path] = []

    def compose(self) -> ComposeResult:
        """Title, where the data is, list, footer."""
        yield self.small_notice()
        yield Static(Content.assemble((" Coilwright", "bold"),
                                      "   from a roof and a machine to a coil order"),
                     id="start-title")
        yield Static(plain(f" Jobs are kept in {self.store.folder}"), id="start-where")
        yield OptionList(id="start-rows", compact=True)
        yield Static(" Suggestions only: rating plates, local code and designers decide.",
                     id="start-caution", markup=False)
        yield Footer(show_command_palette=False, compact=True)

    def on_mount(self) -> None:
        """Fill the list."""
        self.take_size()
        self.fill()

    def on_screen_resume(self) -> None:
        """Fill the list again: a job may have changed."""
        self.resized()

    def resized(self) -> None:
        """Fill the list for the new width."""
        if self.is_mounted and self.query("#start-rows"):
            self.fill()

    def fill(self) -> None:
        """Read the data folder and list what is there."""
        rows = self.query_one("#start-rows", OptionList)
        at = rows.highlighted
        width = max(60, self.size.width)
        options: list[Option] = [Option(Content.styled("New job", "bold"), id="new:")]
        try:
            entries = self.store.jobs()
        except (StoreError, OSError) as error:
            entries = []
            options.append(Option(plain(str(error)), disabled=True))
        self.entries = {str(e.path): e for e in entries}
        options.append(_head("Your jobs"))
        if not entries:
            options.append(Option(Content.styled(
                "  none yet: begin a new job, or look round in a demo job", "dim"), disabled=True))
        options.extend(_job_row(e, width) for e in entries)
        options.append(_head("Demo jobs, all invented; they open as copies"))
        options.extend(self._demo_rows(width))
        options.append(_head("Other"))
        options.append(Option(Content("  Machines: what each example holds and forms"),
                              id="machines:"))
        options.append(Option(Content("  Quit"), id="quit:"))
        rows.set_options(options)
        rows.highlighted = min(at, len(options) - 1) if at is not None else 0

    def _demo_rows(self, width: int) -> list[Option]:
        from coilwright.shipped import demo_jobs

        try:
            jobs = demo_jobs()
        except StoreError as error:
            return [Option(plain(f"  {error}"), disabled=True)]
        room = width - 34
        return [
            Option(Content.assemble(
                f"  {pad(tame(job.title), 28)} ",
                (pad(tame(job.about.removeprefix("An invented demo: ")), room), "dim"),
            ), id=f"demo:{key}")
            for key, job in jobs.items()
        ]

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        kind, _, key = (event.option_id or "").partition(":")
        if kind == "new":
            self.action_new()
        elif kind == "job":
            self._open(self.entries[key])
        elif kind == "demo":
            self.open_demo(key)
        elif kind == "machines":
            self.action_machines()
        elif kind == "quit":
            self.app.exit(0)

    def _open(self, entry: Entry) -> None:
        from coilwright.wizard.session import Session

        try:
            session = Session.open(self.store, entry.path)
        except StoreError as error:
            self.notify(f"{error} The file stays where it is; its backup is beside it.",
                        title="Not opened", severity="error", timeout=15, markup=False)
            return
        self.app.show_wizard(session)  # type: ignore[attr-defined]

    def open_demo(self, key: str) -> None:
        """Open a copy of a demo job; it is saved with the first change."""
        from coilwright.shipped import demo_jobs
        from coilwright.wizard.session import Session

        self.app.show_wizard(Session(self.store, demo_jobs()[key]))  # type: ignore[attr-defined]

    def action_new(self) -> None:
        """Begin a new job."""
        from coilwright.edit import new_job
        from coilwright.wizard.session import Session

        self.app.show_wizard(Session(self.store, new_job()))  # type: ignore[attr-defined]

    def _marked(self) -> Entry | None:
        rows = self.query_one("#start-rows", OptionList)
        if rows.highlighted is None:
            return None
        option = rows.get_option_at_index(rows.highlighted)
        return self.entries.get((option.id or "").partition(":")[2])

    def action_delete(self) -> None:
        """Move the marked job to the bin."""
        entry = self._marked()
        if entry is None:
            self.notify("Mark one of your own jobs first.", markup=False)
            return
        try:
            self.binned.append(self.store.delete(entry.path))
        except StoreError as error:
            self.notify(str(error), severity="error", markup=False)
            return
        self.fill()
        self.notify(f"{tame(entry.title)} is in the bin; u brings it back.", timeout=10,
                    markup=False)

    def action_undelete(self) -> None:
        """Bring the last deleted job back."""
        if not self.binned:
            self.notify("Nothing was deleted here.", markup=False)
            return
        try:
            path = self.store.restore(self.binned.pop())
        except StoreError as error:
            self.notify(str(error), severity="error", markup=False)
            return
        self.fill()
        self.notify(f"{path.name} is back.", markup=False)

    def action_machines(self) -> None:
        """Look at the example machines."""
        from coilwright.wizard.screens.machines import MachinesScreen, shipped_machines

        try:
            machines = shipped_machines()
        except StoreError as error:
            self.notify(str(error), severity="error", markup=False)
            return
        self.app.push_screen(MachinesScreen(machines, System.US, pick=False))


def _head(text: str) -> Option:
    return Option(Content.styled(text, "bold underline"), disabled=True)


def _job_row(entry: Entry, width: int) -> Option:
    when = f"{entry.changed:%Y-%m-%d %H:%M}"
    state = f"damaged: {entry.state}" if entry.damaged else entry.state
    room = width - 34 - len(when) - 2
    return Option(Content.assemble(
        f"  {pad(tame(entry.title), 28)} ", (pad(tame(state), room), "bold"), f" {when}",
    ), id=f"job:{entry.path}")
