"""A practice job made of a job: what it is called, how many mistakes, in which steps."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.anonymous import said_of
from coilwright.job.job import Job
from coilwright.job.practice import Practice
from coilwright.job.steps import MISTAKES_OFFERED_IN
from coilwright.plan.plan import plan
from coilwright.plan.practice.plant import MOST_MISTAKES, read_mistakes, read_subjects
from coilwright.plan.practice.propose import mistakes_to_find
from coilwright.plan.practice.solve import to_put_right
from coilwright.plan.ready import PRACTICE_STATE
from coilwright.plan.result import Plan
from coilwright.store import Store, StoreError
from coilwright.store.practice import make_practice
from coilwright.store.practice_names import NamesSomebody, names_of
from coilwright.store.shipped import demo_entries, demo_jobs
from coilwright.wizard.context import Say
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.practice.name_leaves import NameLeavesScreen
from coilwright.wizard.widgets.rows import MarkedList
from coilwright.words.counting import counted

_USUAL = "4"
_MOST_ROWS = 300
_LEFT_OUT = ("Client, site, designer, buyer and suppliers are left out of it. It has one variant "
             "only: all get the same numbers.")


class PracticeMaker:
    """Asks what a practice job is to be like, and makes it; what was typed is asked again with
    what is wrong. made: called with what was made, to show it."""

    def __init__(
        self, folder: Path, open_screen: Callable[[Screen[Any], Callable[[Any], None]], object],
        say: Say, made: Callable[[Practice], None],
    ) -> None:
        self._folder = folder
        self._open = open_screen
        self._say = say
        self._made = made

    def ask(self, job: Job, texts: tuple[str, ...] = ("", "", "", ""), at: int = 0,
            wrong: str = "", through: int = 0) -> None:
        """Ask for title and story, and for mistakes where the job has none of its own.

        at: the line to begin at, where something typed was wrong, and wrong: what; through: the
        last line that is.
        """
        if job.practice is not None:
            self._say("This is practice already.")
            return
        of = plan(job)
        own = len(to_put_right(of))
        title, story, mistakes, subjects = texts
        lines = [Line("Title", title, "as the list shows it; nobody's name"),
                 Line("Story", story, "what it is about, in a sentence or two")]
        if own:
            about = (f"The job has {counted(own, 'mistake')} of its own: those are what there is "
                     f"to find. {_LEFT_OUT}")
        else:
            enter = ("; 0 makes one that is entered from its papers, with nothing wrong in it"
                     if of.ready else "")
            about = (f"1 to {MOST_MISTAKES} mistakes are put into it, to be found{enter}. Steps: "
                     f"{', '.join(MISTAKES_OFFERED_IN)}. {_LEFT_OUT}")
            lines += [Line("Mistakes", mistakes or _USUAL, "how many"),
                      Line("Steps", subjects, "in which, parted by commas; empty: in any",
                           empty=True)]

        def given(typed: tuple[str, ...] | None) -> None:
            if typed is not None:
                self._make(of, (*typed, *("",) * (4 - len(typed))))

        self._open(LinesScreen(f"A practice job of {escape_controls(job.title)}", about,
                               tuple(lines), at, wrong, through=through), given)

    def _make(self, of: Plan, texts: tuple[str, ...], *, names_kept: bool = False) -> None:
        title, story, mistakes, subjects = texts
        at = 2
        try:
            count = read_mistakes(mistakes or "0", none=of.ready or not mistakes)
            at = 3
            steps = read_subjects(subjects)
            at = 2 if mistakes else 0  # what may not do now is how many there are to be
            made = make_practice(self._folder, of, title=title, story=story,
                                 mistakes=count, subjects=steps, names_kept=names_kept)
        except NamesSomebody as error:
            self._ask_whether_kept(of, texts, str(error))
            return
        except (StoreError, ValueError) as error:
            self.ask(of.job, texts, at, f"Not made: {str(error).rstrip('.')}.")
            return
        self._made(made)
        self._say(_made_words(made), timeout=15)

    def _ask_whether_kept(self, of: Plan, texts: tuple[str, ...], error: str) -> None:
        """A common word may be a name as well: whoever knows that keeps it, with a yes of its own.
        """
        def told(kept: bool | None) -> None:
            if kept:
                self._make(of, texts, names_kept=True)
            else:
                names = names_of(self._folder, of.job)
                wrong = [at for at in (0, 1) if said_of(names, texts[at])]
                self.ask(of.job, texts, wrong[0], f"Not made yet: {error} Write another.",
                         wrong[-1])

        self._open(NameLeavesScreen(error), told)


def _made_words(made: Practice) -> str:
    """What is to be known of a practice job that was made."""
    count = mistakes_to_find(made)
    found = f" with {counted(count, 'mistake')}" if count else ""
    return (f"“{escape_controls(made.title)}” is made{found}, and sealed; it is in the list of "
            f"practice as {made.name}, where k reads its key, r renames and d deletes it.")


def make_of_row(
    maker: PracticeMaker, store: Store, kind: str, key: str, say: Say
) -> None:
    """Make a practice job of a row of a list of jobs: `job` and its path, or `demo` and its key."""
    try:
        if kind == "demo":
            maker.ask(demo_jobs()[key])
        elif kind == "job":
            maker.ask(store.load(Path(key)))
        else:
            say("Mark a job first.")
    except StoreError as error:
        say(str(error), title="Not opened", severity="error", timeout=15)


class PickJobScreen(Modal[Job]):
    """Of which job; returns it."""

    def __init__(self, store: Store) -> None:
        super().__init__()
        self.store = store
        # Practice is not made of practice.
        self._entries = [one for one in self.store.jobs()
                         if not one.state.startswith(PRACTICE_STATE)][:_MOST_ROWS]

    def compose(self) -> ComposeResult:
        """Jobs of one's own, then the demo jobs."""
        with Vertical(classes="box"):
            yield Static("Make a practice job: of which job?", classes="over-title")
            yield MarkedList(*self._options(), compact=True, id="choose-list")
            yield Static("Enter picks · Escape closes", classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """The list has the focus."""
        self.query_one(OptionList).focus()

    def _options(self) -> Iterator[Option]:
        if self._entries:
            yield Option(Content.styled("Your jobs", "bold"), disabled=True)
        for number, entry in enumerate(self._entries):
            yield Option(plain(f" {entry.title}: {entry.state}"), id=f"job:{number}",
                         disabled=entry.damaged)
        yield Option(Content.styled("Demo jobs", "bold"), disabled=True)
        for key, job in demo_entries().items():
            yield Option(plain(f" {job.title}"), id=f"demo:{key}")

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        kind, _, key = (event.option_id or "").partition(":")
        try:
            self.dismiss(demo_jobs()[key] if kind == "demo"
                         else self.store.load(self._entries[int(key)].path))
        except StoreError as error:
            self.say(str(error), title="Not opened", severity="error", timeout=15)
